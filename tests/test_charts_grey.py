"""Prints without colour: what only a hue would part has lines of its own, and text its size."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.charts.clock_face import Hole, clock_face_marks
from lawnbook.charts.marks import Frame, Polygon, Polyline, Ring, Words, level_strokes
from lawnbook.charts.nitrogen import nitrogen_marks
from lawnbook.charts.palette import PRINT
from lawnbook.charts.release import release_marks
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.charts.water_signs import ripples
from lawnbook.plan.feed_model import ReleaseCurve, ReleaseLayer
from lawnbook.plan.make import make_plan
from tests.desk_sample import samples
from tests.plan_fixture import nitrogen_of

FRAME = Frame(460, 220)
ALIKE = 1.5
"""Two greys of a smaller contrast than this are not told apart beside each other."""


def luminance(colour: str) -> float:
    """Relative luminance of a hex colour (WCAG 2.2, W3C)."""
    parts = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def inside(ring: Ring, lines: tuple[Ring, ...]) -> bool:
    """Whether lines stay within the box of a ring."""
    xs, ys = zip(*ring, strict=True)
    return all(
        min(xs) - 0.1 <= x <= max(xs) + 0.1 and min(ys) - 0.1 <= y <= max(ys) + 0.1
        for line in lines
        for x, y in line
    )


def test_waters_nitrogen_is_lined_for_its_grey_is_that_of_feedings() -> None:
    """The two colours are alike in grey; level lines in the one part them, in bar and key."""
    high, low = sorted((luminance(PRINT.water), luminance(PRINT.feed)), reverse=True)
    assert (high + 0.05) / (low + 0.05) < ALIKE
    zone = replace(
        nitrogen_of({5: 0.6}, {5: 0.4}, {5: 0.7}, "2026"),
        water_by_month=(0.0, 0.0, 0.0, 0.0, 0.3, *([0.0] * 7)),
    )
    marks = nitrogen_marks(zone, FRAME).marks
    bars = [each.rings[0] for each in marks if isinstance(each, Polygon) and each.fill == "water"]
    level = [
        each.lines
        for each in marks
        if isinstance(each, Polyline) and all(a[1] == b[1] for a, b in each.lines)
    ]
    assert len(bars) == 2
    assert all(any(inside(bar, lines) and len(lines) > 1 for lines in level) for bar in bars)


def test_waters_layer_is_lined_too() -> None:
    """Irrigation water beneath a feeding, day by day: its lines stay in it."""
    days = 365
    water = ReleaseLayer(
        kind="water",
        product="Irrigation water",
        date=date(2026, 1, 1),
        applied_lb=7.3,
        before_lb=0.0,
        after_lb=0.0,
        daily_lb=(0.02,) * days,
    )
    curve = ReleaseCurve(
        zone="Front",
        zone_id="z",
        start=date(2026, 1, 1),
        days=days,
        layers=(water,),
        usable_daily_lb=None,
        reason="",
        notes=(),
        source="",
    )
    marks = release_marks(curve, FRAME).marks
    layer = [m.rings[0] for m in marks if isinstance(m, Polygon) and m.fill == "water"][-1]
    lines = [m.lines for m in marks if isinstance(m, Polyline) and m.role == "paper"][-1]
    assert len(lines) > 5
    assert inside(layer, lines)


def test_water_on_the_printed_sketch_has_ripples() -> None:
    """The brook's, where the turf is tufted; the window's sketch has colour and needs none."""
    notebook = samples()["hollow_bank"]
    plan = make_plan(notebook, date(2026, 6, 15))

    def lined(tufted: bool) -> list[Polyline]:
        picture = sketch_marks(notebook, plan, frame=Frame(320, 220), tufted=tufted)
        found = (m for m in picture.marks if isinstance(m, Polyline) and m.role == "water")
        return [m for m in found if m.dash]

    assert len(lined(True)) == 1
    assert lined(False) == []


@given(
    st.floats(0, 200),
    st.floats(0, 200),
    st.floats(0.1, 200),
    st.floats(0.1, 200),
    st.floats(1.0, 9.0),
)
def test_level_strokes_stay_within(
    left: float, top: float, wide: float, high: float, gap: float
) -> None:
    """All of them inside of the rectangle, and as many as have room."""
    lines = level_strokes(left, top, left + wide, top + high, gap)
    assert all(top < y < top + high for line in lines for _, y in line)
    assert len(lines) in {int(high / gap), int(high / gap) - 1}


@pytest.mark.parametrize("square", [False, True])
def test_ripples_keep_to_their_water(square: bool) -> None:
    """In a triangle they grow toward its foot; in a square they are as wide as it."""
    ring: Ring = ((0, 0), (30, 0), (30, 30), (0, 30)) if square else ((15, 0), (30, 30), (0, 30))
    (mark,) = ripples(ring)
    assert isinstance(mark, Polyline)
    widths = [b[0] - a[0] for a, b in mark.lines]
    assert widths == sorted(widths)
    assert all(a[0] >= 0 and b[0] <= 30 for a, b in mark.lines)
    assert (min(widths) == max(widths) == 30) is square


def test_the_smallest_words_on_paper_are_of_seven_points() -> None:
    """The hours round a clock face, which stand on the paper form."""
    picture = clock_face_marks((Hole(3, 12.0),), Hole(9, 12.0), Frame(66, 66))
    assert min(each.size for each in picture.marks if isinstance(each, Words)) >= 7.0
