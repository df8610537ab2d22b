"""The printed documents for a metric reader: no US unit on them, nothing cut, nothing overlapping.

The pages of workings are left out of the search for US units: a formula is reckoned in the units
that its constants are of, and says so beside the metric figure.
"""

import re
from collections.abc import Iterator
from datetime import date
from functools import cache, partial

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from lawnbook.agronomy.sources import SOURCES
from lawnbook.charts.marks import Picture, Polyline
from lawnbook.plan.handed_over import Kept
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.then_now import plug_days, then_and_now, usual_then
from lawnbook.plan.year_review import year_review
from lawnbook.plan.year_review_span import review_years
from lawnbook.reading import Reading, Units, reading_as
from lawnbook.sheet.documents import plug_form_document, sheet_document, then_now_document
from lawnbook.sheet.handover_readme import readme_text
from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import PaperName, live_area
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.pdf import page_bytes
from lawnbook.sheet.photo_pair import paint_pair, pair_of
from lawnbook.sheet.plug_form import SCALES_METRIC
from lawnbook.sheet.review_documents import review_document
from tests.desk_sample import samples
from tests.ink_book import ink_of
from tests.pdf_reading import pdfium
from tests.test_sheet_geometry import check
from tests.then_now_book import drawn_photo

pytestmark = pytest.mark.usefixtures("qapp", "_metric")
ON = date(2026, 6, 15)
PAPERS: tuple[PaperName, ...] = ("letter", "a4")
NAMES = ("larkspur_corner", "saltbush_court")
KINDS = ("sheet", "form", "review", "then")

# What is not an amount: "in" between words, and what labels and agencies print themselves.
US_UNIT = re.compile(
    r"(?:\d|[½¼¾⅛])[\s\u00a0](?:in|ft|sq ft|gal|lb|gpm|psi|mph|acres?)\b(?! (?:the|all|20\d\d|\d))"
    r"|\bper 1,000 sq ft\b|\bsq ft\b|\bin/h\b|\binch(?:es)?\b|\bgallons?\b|\bpounds?\b|\bfeet\b|°F"
)
ALLOWED = ("(811 in the US)", "call 811 in the United States")
"""Numbers to call."""
IN_BRACKETS = re.compile(r"\(20\d\d(?:–\d\d)? in brackets\)")


@pytest.fixture(name="_metric")
def metric_reader() -> Iterator[None]:
    """Everything is read in metric units meanwhile."""
    with reading_as(Reading(units="metric")):
        yield


@cache
def plan_of(name: str) -> Plan:
    """The plan of a sample, made for a metric reader: its sentences hold amounts."""
    return make_plan(samples()[name], ON)


def document(name: str, kind: str, paper: PaperName) -> tuple[str, tuple[Draw, ...]]:
    """Title and pages of a document of a sample; the sheet without its workings."""
    notebook, plan = samples()[name], plan_of(name)
    if kind == "sheet":
        return sheet_document(notebook, plan, paper, workings=False)
    if kind == "form":
        title, draw = plug_form_document(notebook, plan, paper)
        return title, (draw,)
    if kind == "review":
        review = year_review(notebook, review_years(notebook, ON)[-1], ON)
        return review_document(notebook, review, paper)
    spot = next(iter(notebook.spots))
    days = plug_days(notebook, spot, ON)
    pair = then_and_now(notebook, spot, usual_then(days), days[-1].date)
    title, draw = then_now_document(notebook, pair, paper)
    return title, (draw,)


@cache
def text_of(name: str, kind: str) -> str:
    """What can be read in the PDF of a document, on one line, without the sources it cites."""
    found = pdfium.PdfDocument(page_bytes(*document(name, kind, "letter"), "letter"))
    pages = (found[number].get_textpage().get_text_range() for number in range(len(found)))
    flat = " ".join(" ".join(pages).split())
    for source in SOURCES.values():
        flat = flat.replace(" ".join(source.citation.rstrip(". ").split()), "")
    return flat


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", NAMES)
def test_no_us_unit_is_left(name: str, kind: str) -> None:
    """Neither in a table's heads nor in a sentence of the plan."""
    text = IN_BRACKETS.sub("", text_of(name, kind))
    for each in ALLOWED:
        text = text.replace(each, "")
    left = [text[max(0, m.start() - 40) : m.end() + 20] for m in US_UNIT.finditer(text)]
    assert left == []


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_cut_or_overlaps(
    name: str, kind: str, paper: PaperName, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same as for a US reader: within the margins, apart, and not under 7 points.

    On the other documents pictures lie under words: an ornament, a clock face.
    """
    for draw in document(name, kind, paper)[1]:
        page = ink_of(draw, monkeypatch)
        if kind == "sheet":
            check(page, paper)
            continue
        page.pictures.clear()
        assert page.overlapping() == []
        area = live_area(paper)
        for each in page.texts:
            assert each.box.left() >= area.left - 0.1, each
            assert each.box.right() <= area.right + 0.1, each
            assert each.box.bottom() <= area.bottom + 0.1, each
        assert min(page.sizes) >= 7.0


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", PAPERS)
def test_no_figure_of_the_tables_ends_in_an_ellipsis(
    name: str, paper: PaperName, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An amount is never cut for being a letter longer; names of zones may be."""
    for kind in KINDS:
        for draw in document(name, kind, paper)[1]:
            cut = [each.what for each in ink_of(draw, monkeypatch).texts if "…" in each.what]
            assert [each for each in cut if re.search(r"\d", each)] == []


def test_amounts_are_those_of_the_notebook() -> None:
    """Areas, depths, rates and thatch of the sheet, reckoned here from the plan's own figures."""
    text, plan = text_of("larkspur_corner", "sheet"), plan_of("larkspur_corner")
    assert f"{plan.area_sqft * 0.09290304:,.1f} m² of grass" in text
    for zone in plan.zones:
        assert f"{zone.area_sqft * 0.09290304:,.1f} m²" in text
        assert zone.precipitation_rate_in_per_h is not None
        assert f"{zone.precipitation_rate_in_per_h * 25.4:.1f}" in text
    for spot in plan.thatch:
        assert spot.latest_in is not None
        assert f"{spot.latest_in * 25.4:.1f}" in text
    for head in ("mm/h", "g N per m²", "thatch, mm", "kilograms of the bag"):
        assert head in text


def test_bags_are_told_by_weight() -> None:
    """The weight on the label, in kilograms: a bag of 50 lb is one of 22.7 kg."""
    assert "22.7 kg" in text_of("larkspur_corner", "sheet")


def test_the_paper_form_asks_for_millimetres() -> None:
    """Rulers are marked in millimetres, and the explanation has no fractions."""
    text = text_of("larkspur_corner", "form")
    assert " ".join(SCALES_METRIC.format(half="0.5").split()) in text
    for hint in ("three readings, mm", "finest mark, mm", "to the cut end, mm"):
        assert hint in text
    assert "305 mm" in text
    assert "1/16" not in text


def test_what_was_drawn_in_one_reading_is_drawn_anew_in_the_other() -> None:
    """The same plan's tables follow the reader; nothing is remembered from before."""
    draw = partial(document, "larkspur_corner", "form", "letter")
    metric = page_bytes(*draw(), "letter")
    with reading_as(Reading()):
        us = page_bytes(*draw(), "letter")
    told = [pdfium.PdfDocument(each)[0].get_textpage().get_text_range() for each in (metric, us)]
    assert "three readings, mm" in told[0]
    assert "three readings, in" in told[1]
    assert "12 in out" in told[1]


def test_the_readme_of_a_handover_says_which_units_are_where() -> None:
    """Documents follow the reader; tables and data are what they ever were."""
    text = " ".join(readme_text(plan_of("larkspur_corner"), Kept(), (), later=False).split())
    assert "The documents are in metric units" in text
    assert "whatever its owner reads: feet and square feet, inches" in text
    with reading_as(Reading()):
        us = " ".join(readme_text(plan_of("larkspur_corner"), Kept(), (), later=False).split())
    assert "metric" not in us
    assert "- Feet and square feet, inches" in us


@pytest.mark.parametrize("kind", KINDS)
def test_a_decimal_comma_on_paper(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Decimals and thousands as the reader parts them, in every document; nothing lies over."""
    with reading_as(Reading(units="metric", point=",", group=".")):
        plan = make_plan(samples()["larkspur_corner"], ON)
        monkeypatch.setattr(f"{__name__}.plan_of", lambda _name: plan)
        _, (draw, *_) = document("larkspur_corner", kind, "a4")
        page = ink_of(draw, monkeypatch)
    page.pictures.clear()
    assert page.overlapping() == []
    # The names of sources stay as they are.
    texts = [each.what for each in page.texts if not each.what.startswith("Sources:")]
    assert [each for each in texts if re.search(r"\d\.\d{1,2}(?!\d)", each)] == []
    assert kind == "form" or any(re.search(r"\d,\d", each) for each in texts)


@pytest.mark.parametrize(
    ("units", "name", "inches"), [("us", "1 in", 1.0), ("metric", "20 mm", 20 / 25.4)]
)
def test_the_bar_on_photographs_is_round_in_what_the_reader_reads(
    units: Units, name: str, inches: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As long as it says, by the inches of ground that stand in the box's height."""
    pictures: list[Picture] = []
    monkeypatch.setattr(Ink, "picture", lambda _ink, made, _left, _top: pictures.append(made))
    image = QImage(600, 240, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    boxes = (QRectF(0, 0, 300, 240), QRectF(300, 0, 300, 240))
    with reading_as(Reading(units=units)):
        paint_pair(painter, pair_of(drawn_photo("c1"), drawn_photo("c3", 70)), boxes, 1.0)
    painter.end()
    per_in = 240 / (1.5 * 1.12 + 0.6)
    for picture in pictures:
        assert name in picture.words()
        bar = next(m for m in picture.marks if isinstance(m, Polyline) and len(m.lines) == 3)
        (start, _), (end, _) = bar.lines[0]
        assert end - start == pytest.approx(inches * per_in)
    assert len(pictures) == 2
