"""The trend's picture: to scale in time and inches, its words apart, its cares told once each."""

import io
from dataclasses import replace
from datetime import date
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from lawnbook.charts.figures import trend_figure
from lawnbook.charts.marks import Disc, Frame, Picture, Polygon, Polyline, Words, rough_width
from lawnbook.charts.paint import paint
from lawnbook.charts.palette import LIGHT
from lawnbook.charts.thatch_trend import EMPTY, trend_hits, trend_marks
from lawnbook.charts.trend_layout import Trends, care_signs
from lawnbook.plan.plug_model import CareMark, Evidence
from tests.plan_fixture import plug
from tests.trend_fixture import KINDS, cares, evidence_of, points_of, spot_with

ON = date(2026, 6, 15)
FRAME = Frame(560, 300)
SPOT = spot_with(0, 9)
assert SPOT.evidence is not None
EVIDENCE = SPOT.evidence
SPOTS = tuple(spot_with(number, 8, 1.3 - 0.1 * number) for number in range(4))
ZONE = evidence_of(
    "zone", [p for spot in SPOTS[:3] if spot.evidence for p in spot.evidence.points], "zone0"
)
TRENDS = Trends(ZONE, SPOTS, frozenset({"spot3"}))


def dots(picture: Picture, fill: str, least: float = 0.0, most: float = 9.0) -> list[Disc]:
    """The dots of one fill and size, those of the key left out."""
    discs = [each for each in picture.marks if isinstance(each, Disc) and each.at[1] > 30]
    return [each for each in discs if each.fill == fill and least <= each.radius <= most]


def level(picture: Picture, dash: tuple[float, ...]) -> float:
    """The height of the line with this dash."""
    line = next(m for m in picture.marks if isinstance(m, Polyline) and m.dash == dash)
    return line.lines[0][0][1]


def test_thickness_stands_upward_to_scale() -> None:
    """A dot lies where the half-inch and the one-inch lines say, thicker above."""
    picture = trend_marks(EVIDENCE, (), FRAME, ON)
    half, one = level(picture, (5.0, 2.6)), level(picture, (1.2, 2.4))
    assert one < half
    for point, dot in zip(EVIDENCE.points, dots(picture, "ink"), strict=True):
        assert dot.at[1] == pytest.approx(half - (point.thatch_in - 0.5) * 2 * (half - one))


def test_time_runs_to_scale() -> None:
    """Twice the days, twice the way."""
    picture = trend_marks(EVIDENCE, (), FRAME, ON)
    xs = [dot.at[0] for dot in dots(picture, "ink")]
    days = [point.date.toordinal() for point in EVIDENCE.points]
    per_day = (xs[-1] - xs[0]) / (days[-1] - days[0])
    for x, on in zip(xs, days, strict=True):
        assert x == pytest.approx(xs[0] + (on - days[0]) * per_day)


def test_error_bar_is_one_standard_deviation_each_way() -> None:
    """0.08 in of one plug; of four pooled plugs half of it."""
    first, *rest = EVIDENCE.points
    evidence = replace(EVIDENCE, points=(replace(first, plugs=4), *rest))
    picture = trend_marks(evidence, (), FRAME, ON)
    inch = 2 * (level(picture, (5.0, 2.6)) - level(picture, (1.2, 2.4)))
    bars = [
        m.lines[0]
        for m in picture.marks
        if isinstance(m, Polyline) and len(m.lines) == 3 and m.lines[0][0][1] > 30
    ]
    tall = [foot - top for (_, top), (_, foot) in bars]
    assert tall == pytest.approx([0.08 * inch, *([0.16 * inch] * (len(rest)))])


def test_band_follows_the_evidence() -> None:
    """Its ends are those of the plan's band; without one, the reason is said."""
    picture = trend_marks(EVIDENCE, (), FRAME, ON)
    bands = [m for m in picture.marks if isinstance(m, Polygon) and m.alpha == 0.18]
    inch = 2 * (level(picture, (5.0, 2.6)) - level(picture, (1.2, 2.4)))
    ring = bands[0].rings[0]
    (_, low, high) = EVIDENCE.band[0]
    assert ring[-1][1] - ring[0][1] == pytest.approx((high - low) * inch)
    few = evidence_of("spot", EVIDENCE.points[:4])
    picture = trend_marks(few, (), FRAME, ON)
    assert not [m for m in picture.marks if isinstance(m, Polygon) and m.alpha == 0.18]
    assert any(text.startswith("No interval below five plugs") for text in picture.words())


def test_zone_draws_its_spots_and_the_strip_dashed() -> None:
    """Each spot's days are quiet dots; those of the untreated one hollow, its line dashed."""
    picture = trend_marks(TRENDS, (), FRAME, ON)
    assert len(dots(picture, "quiet")) == 24
    assert len([d for d in dots(picture, "paper") if d.edge == "water"]) == 8
    dashed = [m for m in picture.marks if isinstance(m, Polyline) and m.role == "water" and m.dash]
    assert len(dashed) == 2
    assert "untreated comparison" in picture.words()
    assert "untreated comparison" not in trend_marks(ZONE, (), FRAME, ON).words()


def test_split_and_day_are_named() -> None:
    """The chosen day and the day looked at stand as lines with their dates."""
    words = trend_marks(EVIDENCE, (), FRAME, ON, date(2023, 3, 1)).words()
    assert {"1 Mar 2023", "15 Jun 2026"} <= set(words)
    assert "1 Mar 1999" not in trend_marks(EVIDENCE, (), FRAME, ON, date(1999, 3, 1)).words()


@pytest.mark.parametrize("points", [0, 1])
def test_no_or_one_plug(points: int) -> None:
    """Words where there is nothing to draw; one dot where there is one plug."""
    picture = trend_marks(evidence_of("spot", EVIDENCE.points[:points]), cares(2), FRAME, ON)
    if points:
        assert len(dots(picture, "ink")) == 1
    else:
        assert " ".join(picture.words()) == EMPTY
        assert trend_hits(evidence_of("spot", ()), cares(2), FRAME, ON) == ()


def test_first_months_name_their_year() -> None:
    """Two plugs of one summer: months, the first with its year."""
    few = evidence_of("spot", EVIDENCE.points[:2])
    words = trend_marks(few, (), FRAME, date(2022, 3, 1)).words()
    wanted = ["Jul 2021", "Oct", "2022"]
    assert [text for text in words if text in wanted] == wanted
    assert "2021" in trend_marks(few, (), FRAME, date(2021, 11, 1)).words()


@given(
    st.lists(st.tuples(st.integers(44, 516), st.sampled_from(KINDS)), min_size=1, max_size=60),
    st.sampled_from([560.0, 330.0]),
)
def test_care_labels_never_overlap_and_lose_nothing(
    placed: list[tuple[int, str]], width: float
) -> None:
    """Whatever was done when: every care is on one sign, in order, and labels stay apart."""
    told = [
        (x * width / 560, CareMark(care_id=f"c{n}", date=ON, kind=kind, where="", note=""))
        for n, (x, kind) in enumerate(placed)
    ]
    signs = care_signs(told, width)
    ids = [care.care_id for sign in signs for care in sign.cares]
    assert sorted(ids) == sorted(care.care_id for _, care in told)
    for one, other in combinations(signs, 2):
        if one.row == other.row:
            apart = abs(one.label_x - other.label_x)
            assert apart >= (rough_width(one.label, 9) + rough_width(other.label, 9)) / 2
    for sign in signs:
        assert sign.label_x - rough_width(sign.label, 9) / 2 >= 0
        assert sign.label_x + rough_width(sign.label, 9) / 2 <= width


def test_cares_long_before_the_first_plug_are_counted() -> None:
    """They are not drawn; that they are there is said."""
    old = replace(cares(1)[0], date=date(2010, 4, 1))
    picture = trend_marks(EVIDENCE, (old, *cares(1)), FRAME, ON)
    assert "1 care earlier" in picture.words()
    assert len([h for h in trend_hits(EVIDENCE, (old,), FRAME, ON) if "care" in h.key]) == 0


def test_hits_name_plugs_spots_and_cares() -> None:
    """With the spots known a dot is its plugs; without, its spot; a sign is its cares."""
    hits = trend_hits(TRENDS, cares(3), FRAME, ON)
    assert hits[0].key.startswith("core:")
    assert hits[0].words.startswith("peg 0, 3 May 2021\nthatch 1.26 in, 3 readings\nroots 2.0 in")
    ids = [h.key.removeprefix("care:").split() for h in hits if h.key.startswith("care:")]
    assert [each for held in ids for each in held] == ["care0", "care1", "care2"]
    assert "10 Mar 2021: aeration, Lawn 1: two passes" in hits[-1 * len(ids)].words
    assert {h.key for h in trend_hits(ZONE, (), FRAME, ON)} == {
        "spot:spot0",
        "spot:spot1",
        "spot:spot2",
    }


def test_every_dot_lies_in_its_box() -> None:
    """As many boxes as dots, each around its own."""
    picture = trend_marks(EVIDENCE, cares(4), FRAME, ON)
    hits = [h for h in trend_hits(EVIDENCE, cares(4), FRAME, ON) if "care" not in h.key]
    for dot, hit in zip(dots(picture, "ink"), hits, strict=True):
        assert hit.holds(*dot.at)


def boxes(picture: Picture) -> list[tuple[str, float, float, float, float]]:
    """Each text with its true box in points, measured on the painted figure."""
    figure = Figure(figsize=(picture.frame.width / 72, picture.frame.height / 72), dpi=72)
    FigureCanvasAgg(figure)
    paint(figure, picture, LIGHT)
    figure.savefig(io.BytesIO(), dpi=72)
    extents = [(t.get_text(), t.get_window_extent()) for t in figure.findobj(Text)]
    return [(text, box.x0, box.y0, box.x1, box.y1) for text, box in extents]


@pytest.mark.parametrize("frame", [FRAME, Frame(330, 220), Frame(900, 420)])
@pytest.mark.parametrize("count", [0, 3, 12, 60])
@pytest.mark.parametrize("trends", [TRENDS, Trends(EVIDENCE)], ids=["zone", "spot"])
def test_words_stay_apart_and_inside(frame: Frame, count: int, trends: Trends) -> None:
    """No figure, label or date touches another or leaves the picture."""
    picture = trend_marks(trends, cares(count, 30), frame, ON, date(2025, 11, 1))
    found = boxes(picture)
    for text, x0, y0, x1, y1 in found:
        assert x0 >= 0, text
        assert x1 <= frame.width, text
        assert y0 >= 0, text
        assert y1 <= frame.height + 0.5, text
    for (text, *one), (other_text, *other) in combinations(found, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        along = min(one[3], other[3]) - max(one[1], other[1])
        assert across <= 0.3 or along <= 0.8, (text, other_text)


def test_scale_reaches_over_the_thickest() -> None:
    """A plug of three inches stays within the picture, and text at 9 pt or more."""
    thick = evidence_of("spot", points_of("spot0", [plug(1, date(2024, 5, 1), 3.0)]))
    picture = trend_marks(thick, (), FRAME, ON)
    assert dots(picture, "ink")[0].at[1] > 20
    assert min(m.size for m in picture.marks if isinstance(m, Words)) >= 9


@pytest.mark.parametrize("place", [EVIDENCE, ZONE], ids=["spot", "zone"])
def test_a_trend_without_an_interval_is_thin_and_dashed(place: Evidence) -> None:
    """In the plot and in the key, whose name says so; with one it is bold."""
    bare = replace(place, ci95=None, band=(), reason="too few plugs")

    def drawn(evidence: Evidence) -> list[Polyline]:
        marks = trend_marks(evidence, (), FRAME, ON).marks
        return [m for m in marks if isinstance(m, Polyline) and m.role == "accent"]

    sure, unsure = drawn(replace(place, ci95=(-0.2, -0.1))), drawn(bare)
    assert len(sure) == len(unsure) == 2
    assert all(each.dash and each.width < 1 for each in unsure)
    assert all(not each.dash and each.width > 2 for each in sure)
    names = [w for w in trend_marks(bare, (), FRAME, ON).words() if w.endswith("not sure yet")]
    assert len(names) == 1


def test_years_are_in_order_along_the_foot() -> None:
    """Forty years have as many names as fit."""
    columns = [plug(n, date(1986 + n, 5, 1), 0.9) for n in range(40)]
    picture = trend_marks(evidence_of("spot", points_of("s", columns), "s"), (), FRAME, ON)
    years = [
        m for m in picture.marks if isinstance(m, Words) and m.text.isdigit() and len(m.text) == 4
    ]
    assert [m.text for m in years] == sorted(m.text for m in years)
    assert all(other.at[0] - one.at[0] > 30 for one, other in pairwise(years))


def test_figure_is_drawn_into() -> None:
    """The figure that is given comes back."""
    figure = Figure(figsize=(6, 4))
    assert trend_figure(TRENDS, cares(3), LIGHT, ON, None, figure) is figure
    assert "mean of the spots" in [text.get_text() for text in figure.findobj(Text)]


def test_equal_dots_of_a_day_stand_side_by_side() -> None:
    """Four spots of one thatch on one day: four dots to be seen, each within its own box."""
    same = tuple(spot_with(number, 5, 1.1) for number in (0, 0, 0, 0))
    spots = tuple(
        replace(
            each,
            spot_id=f"s{place}",
            evidence=replace(
                each.evidence,
                points=tuple(replace(p, spot_id=f"s{place}") for p in each.evidence.points),
            ),
        )
        for place, each in enumerate(same)
        if each.evidence is not None
    )
    points = [p for each in spots if each.evidence for p in each.evidence.points]
    trends = Trends(evidence_of("zone", points, "zone0"), spots)
    picture = trend_marks(trends, (), FRAME, ON)
    seen = dots(picture, "quiet")
    assert len(seen) == 20
    for one, other in combinations(seen, 2):
        apart = abs(one.at[0] - other.at[0]), abs(one.at[1] - other.at[1])
        assert max(apart) > 2 * one.radius - 0.1
    hits = trend_hits(trends, (), FRAME, ON)
    assert all(any(hit.holds(*dot.at) for hit in hits) for dot in seen)


@pytest.mark.parametrize("width", [330.0, 360.0, 385.0, 420.0, 560.0])
def test_months_along_the_foot_never_run_together(width: float) -> None:
    """What finds no room is left out; the years are never what gives way."""
    few = evidence_of("spot", EVIDENCE.points[:3])
    picture = trend_marks(few, (), Frame(width, 300), date(2022, 6, 1))
    foot = max(m.at[1] for m in picture.marks if isinstance(m, Words))
    told = [m for m in picture.marks if isinstance(m, Words) and m.at[1] == foot]
    assert "2022" in [m.text for m in told]
    for one, other in pairwise(told):
        halves = (rough_width(one.text, 9) + rough_width(other.text, 9)) / 2
        assert other.at[0] - one.at[0] >= halves
