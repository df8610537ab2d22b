"""Where everything stands on the sheet's pages: within the margins, nothing on anything else."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.charts.palette import PRINT
from lawnbook.plan.make import make_plan
from lawnbook.sheet.documents import sheet_document
from lawnbook.sheet.layout import PaperName, live_area
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import WaterRules
from tests.desk_sample import samples
from tests.ink_book import InkBook, ink_of
from tests.plan_fixture import yard_of

pytestmark = pytest.mark.usefixtures("qapp")
PAPERS: tuple[PaperName, ...] = ("letter", "a4")
SAMPLES = samples()
DAYS = (date(2026, 1, 10), date(2026, 6, 15), date(2026, 9, 20), date(2026, 11, 15))


def check(page: InkBook, paper: PaperName) -> None:
    """Nothing overlaps, nothing leaves the margins, nothing is too small to read."""
    assert page.overlapping() == []
    area = live_area(paper)
    for each in page.boxes:
        assert each.box.left() >= area.left - 0.1, each
        assert each.box.right() <= area.right + 0.1, each
        assert each.box.top() >= area.top - 0.1, each
        assert each.box.bottom() <= area.bottom + 0.1, each
    for rule in page.rules:
        assert rule.left() >= area.left - 0.1
        assert rule.right() <= area.right + 0.1
        for text in page.texts:
            shared = text.box.intersected(rule)
            assert shared.width() <= 1.0 or shared.height() <= 0.1, (text, rule)
    assert min(page.sizes) >= 8.0


@pytest.mark.parametrize("sample", SAMPLES)
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("on", DAYS)
def test_samples(sample: str, paper: PaperName, on: date, monkeypatch: pytest.MonkeyPatch) -> None:
    """The sheet of every sample, through the year."""
    plan = make_plan(SAMPLES[sample], on)
    _, (draw,) = sheet_document(SAMPLES[sample], plan, paper, workings=False)
    check(ink_of(draw, monkeypatch), paper)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("sample", ["larkspur_corner", "saltbush_court"])
def test_pages_of_workings(sample: str, paper: PaperName, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every page behind the sheet."""
    plan = make_plan(SAMPLES[sample], DAYS[1])
    _, draws = sheet_document(SAMPLES[sample], plan, paper, workings=True)
    assert len(draws) > 2
    for draw in draws[1:]:
        check(ink_of(draw, monkeypatch), paper)


NAMES = st.text(
    st.characters(codec="latin-1", categories=("L", "N", "Zs")), min_size=1, max_size=60
).map(lambda text: text.strip() or "x")

RULES = (
    WaterRules(id="water_rules", days=("Wed",)),
    WaterRules(id="water_rules", days=("Mon", "Wed", "Sat"), hours=("18:00-09:00",)),
)


@st.composite
def yards(draw: st.DrawFn) -> Notebook:
    """Invented yards: no zone to many, any names, with and without plugs, bags and a rule."""
    notebook = yard_of(
        draw(st.integers(0, 14) | st.just(40)),
        latitude_deg=draw(st.sampled_from((41.0, 18.0, -33.0))),
        name=draw(NAMES),
    )
    word = draw(NAMES)
    if draw(st.booleans()):
        renamed = {k: replace(z, name=f"{z.name} {word}") for k, z in notebook.zones.items()}
        notebook = replace(notebook, zones=renamed)
    if draw(st.booleans()):
        pegs = {k: replace(s, name=f"{word} {s.name}") for k, s in notebook.spots.items()}
        notebook = replace(notebook, spots=pegs)
    if draw(st.booleans()):
        notebook = replace(notebook, cores={})
    if draw(st.booleans()):
        notebook = replace(notebook, products={}, feedings={})
    if draw(st.booleans()):
        rules = draw(st.sampled_from(RULES))
        notebook = replace(notebook, water_rules=rules)
    if draw(st.booleans()):
        clocked = replace(notebook.yard, longitude_deg=-74.0, time_zone="America/New_York")
        notebook = replace(notebook, yard=clocked)
    return notebook


@given(yard=yards(), on=st.sampled_from(DAYS), paper=st.sampled_from(PAPERS))
@settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
def test_invented_yards(
    yard: Notebook, on: date, paper: PaperName, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever the yard, the sheet is composed."""
    _, (draw,) = sheet_document(yard, make_plan(yard, on), paper, workings=False)
    check(ink_of(draw, monkeypatch), paper)


def luminance(colour: str) -> float:
    """Relative luminance, as WCAG 2 defines it."""
    parts = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast of two colours by luminance alone, which is all a grey print keeps."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("ground", ["paper", "turf", "stone"])
def test_words_keep_their_contrast_without_colour(
    ground: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """4.5 : 1 as WCAG 2 asks of small text, for each role that words of the page are set in."""
    plan = make_plan(SAMPLES["larkspur_corner"], DAYS[2])
    _, (draw,) = sheet_document(SAMPLES["larkspur_corner"], plan, "letter", workings=False)
    roles = ink_of(draw, monkeypatch).roles | {"bad"}
    assert {"ink", "quiet"} <= roles
    for role in roles:
        assert contrast(getattr(PRINT, role), getattr(PRINT, ground)) >= 4.5, role


@pytest.mark.parametrize(
    ("one", "other", "least"),
    [
        ("thatch", "soil", 2.0),
        ("thatch", "paper", 1.7),
        ("soil", "paper", 4.0),
        ("root", "soil", 4.0),
        ("verdure", "turf", 3.0),
        ("water", "turf", 4.5),
        ("ink", "turf", 10.0),
    ],
)
def test_tones_that_meet_are_told_apart_without_colour(one: str, other: str, least: float) -> None:
    """Thatch on soil, roots in soil, tufts and heads on turf."""
    assert contrast(getattr(PRINT, one), getattr(PRINT, other)) >= least
