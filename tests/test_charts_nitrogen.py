"""Nitrogen by month: bars, outlines and the proposed spread, on one scale."""

from dataclasses import replace

import pytest

from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, Words
from lawnbook.charts.nitrogen import months_in_order, nitrogen_marks, short_pounds
from lawnbook.plan.lawn_feed import lawn_nitrogen
from tests.plan_fixture import nitrogen_of

FRAME = Frame(460, 220)
BUDGET = {5: 0.25, 9: 0.7, 10: 0.45, 11: 0.45}
ZONE = nitrogen_of({5: 0.2, 9: 0.5}, {5: 0.1, 9: 0.25}, BUDGET, "2026")


def heights(picture: Picture, fill: str, edge: str) -> list[float]:
    """The heights of the rectangles of one style below the key, left to right."""
    found = [
        mark.rings[0]
        for mark in picture.marks
        if isinstance(mark, Polygon) and (mark.fill, mark.edge) == (fill, edge)
    ]
    sizes = [(ring[0][0], ring[2][1] - ring[0][1]) for ring in found if ring[2][1] > 35]
    return [high for _, high in sorted(sizes)]


def test_bars_and_outlines_share_one_scale() -> None:
    """Half a pound put down is two and a half times as high as a fifth, and so on."""
    picture = nitrogen_marks(ZONE, FRAME)
    put, budget = heights(picture, "feed", "feed"), heights(picture, "", "ink")
    assert put[1] / put[0] == pytest.approx(0.5 / 0.2)
    assert [each / put[0] * 0.2 for each in budget] == pytest.approx([0.25, 0.7, 0.45, 0.45])


def test_quick_part_is_hatched() -> None:
    """The hatching covers the quick share of the bar, from its foot."""
    picture = nitrogen_marks(ZONE, FRAME)
    put = heights(picture, "feed", "feed")
    hatches = [m for m in picture.marks if isinstance(m, Polyline) and m.role == "paper"][1:]
    tall = [
        max(y for line in m.lines for _, y in line) - min(y for line in m.lines for _, y in line)
        for m in hatches
    ]
    assert tall[0] == pytest.approx(put[0] / 2, abs=1e-6)
    assert tall[1] == pytest.approx(put[1] / 2, abs=1e-6)


def test_ghost_stands_on_what_is_down() -> None:
    """A proposed half pound in September makes one pound, past the budget, and says so."""
    picture = nitrogen_marks(ZONE, FRAME, 0.5, 9)
    ghost = [m for m in picture.marks if isinstance(m, Polygon) and m.dash][-1].rings[0]
    bar = next(
        m
        for m in reversed(picture.marks)
        if isinstance(m, Polygon) and (m.fill, m.edge) == ("feed", "feed")
    ).rings[0]
    assert ghost[2][1] == pytest.approx(bar[0][1])
    assert ghost[2][1] - ghost[0][1] == pytest.approx(bar[2][1] - bar[0][1])
    label = next(m for m in picture.marks if isinstance(m, Words) and m.text == "1.00")
    assert label.role == "bad"
    assert "this spread" in picture.words()
    assert "this spread" not in nitrogen_marks(ZONE, FRAME).words()


def test_year_runs_from_july_in_the_south() -> None:
    """Months stand in the order of the zone's year, by its label."""
    south = nitrogen_of({12: 0.5}, {}, {12: 1.0}, "2026–27")
    assert months_in_order(ZONE)[0] == 0
    assert months_in_order(south)[:2] == (6, 7)
    words = nitrogen_marks(south, FRAME).words()
    assert words.index("Jul") < words.index("Dec") < words.index("Jan") < words.index("Jun")


def test_totals_are_told() -> None:
    """Put down, budget and year in one line."""
    assert "0.70 of 1.85 lb in 2026" in nitrogen_marks(ZONE, FRAME).words()


@pytest.mark.parametrize(
    ("pounds", "told"),
    [(0.0, "0"), (-0.001, "0"), (0.45, ".45"), (0.5, ".50"), (1.0, "1.00"), (-0.2, "−.20")],
)
def test_short_pounds(pounds: float, told: str) -> None:
    """Two places, no leading nought, a true minus sign."""
    assert short_pounds(pounds) == told


def test_nothing_is_written_below_nine_points() -> None:
    """On screen no text is smaller than 9 pt."""
    words = [m for m in nitrogen_marks(ZONE, FRAME, 0.5, 9).marks if isinstance(m, Words)]
    assert min(word.size for word in words) >= 9


WATER = replace(
    nitrogen_of({5: 0.3}, {5: 0.2}, BUDGET, "2026"), water_by_month=(0, 0, 0, 0, 0.1, *(0,) * 7)
)


def test_water_stands_on_what_was_fed() -> None:
    """0.3 in all: 0.2 fed, 0.1 of it quick, and 0.1 by water, which is quick too."""
    picture = nitrogen_marks(WATER, FRAME)
    fed, water = heights(picture, "feed", "feed"), heights(picture, "water", "water")
    assert water[0] / fed[0] == pytest.approx(0.5)
    hatch = [m for m in picture.marks if isinstance(m, Polyline) and m.role == "paper"][-1]
    tall = [y for line in hatch.lines for _, y in line]
    assert max(tall) - min(tall) == pytest.approx(water[0], abs=1e-6)
    assert "water’s" in picture.words()
    assert "water’s" not in nitrogen_marks(ZONE, FRAME).words()


def test_a_low_picture_leaves_the_unit_out_and_gives_its_room_to_the_columns() -> None:
    """The tallest column is as high as in a picture that is higher by the line of the unit."""
    low, high = nitrogen_marks(ZONE, Frame(460, 150), 0.5, 9), nitrogen_marks(ZONE, FRAME, 0.5, 9)
    unit, total = "lb of nitrogen per 1,000 sq ft", "0.70 of 1.85 lb in 2026"
    assert {unit, total} <= set(high.words())
    assert not {unit, total} & set(low.words())
    assert {"budget", "slow", "quick", "this spread", "left"} <= set(low.words())
    tall = [max(heights(each, "feed", "feed")) for each in (low, high)]
    # 0.5 of a scale that ends at 1.12 times the 1.00 of September.
    assert tall == pytest.approx([0.5 / 1.12 * (150 - 65), 0.5 / 1.12 * (220 - 79)])


def test_each_month_tells_what_it_has_left() -> None:
    """0.25 less 0.2 in May, 0.7 less 0.5 and a proposed 0.5 in September."""
    words = nitrogen_marks(ZONE, FRAME, 0.5, 9).words()
    assert "left" in words
    assert "0.05" in words
    assert "−0.30" in words
    narrow = nitrogen_marks(ZONE, Frame(360, 220), 0.5, 9).words()
    assert ".05" in narrow
    assert "−.30" in narrow
    over = [
        m
        for m in nitrogen_marks(ZONE, FRAME, 0.5, 9).marks
        if isinstance(m, Words) and m.text == "−0.30"
    ]
    assert [mark.role for mark in over] == ["bad"]


def test_the_whole_lawn_is_drawn_as_a_zone_is() -> None:
    lawn = lawn_nitrogen((ZONE, replace(ZONE, zone_id="zone1", area_sqft=3000.0)))
    assert lawn is not None
    assert nitrogen_marks(lawn, FRAME) == nitrogen_marks(ZONE, FRAME)


def test_an_amount_typed_wrong_is_drawn_all_the_same() -> None:
    for ghost in (30.0, 4_000.0, 2e9):
        picture = nitrogen_marks(ZONE, FRAME, ghost, 9)
        words = (each for each in picture.marks if isinstance(each, Words))
        ticks = [each for each in words if each.align == "right"]
        assert 2 <= len(ticks) <= 9
