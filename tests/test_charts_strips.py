"""Strips without feed as marks: hatching that keeps to its outline, and the printed sketch."""

import importlib
import math
from dataclasses import replace

import pytest

from lawnbook.charts.marks import Frame, Polyline, Ring, Words, hatching, rectangle, rough_width
from lawnbook.charts.sketch_marks import sketch_marks
from lawnbook.charts.strip_marks import KEY_WORDS, strip_key, strip_marks
from lawnbook.plan.make import make_plan
from lawnbook.plan.strips import strips_of
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Feature
from tests.plan_fixture import ON, yard_of

geometry = importlib.import_module("shapely.geometry")

POND = Feature(
    id="pond", kind="water", name="pond", outline_ft=rectangle_ft((-50.0, -20.0), 300.0, 20.0)
)


def beside_water(width_ft: float | None) -> Notebook:
    """Two zones on a pond with a strip of a width along it, or none."""
    notebook = yard_of(2)
    return apply(notebook, put(notebook, "features", replace(POND, no_spread_ft=width_ft)))


def itself(at: Point) -> Point:
    return at


def lengths(lines: tuple[Ring, ...]) -> float:
    return sum(math.dist(start, end) for start, end in lines)


@pytest.mark.parametrize(
    ("rings", "area"),
    [
        ((rectangle(10, 20, 110, 70),), 5000.0),
        ((((10.0, 10.0), (90.0, 10.0), (10.0, 90.0)),), 3200.0),
        ((rectangle(0, 0, 100, 100), rectangle(30, 30, 70, 70)), 8400.0),
        ((rectangle(0, 0, 40, 40), rectangle(60, 10, 90, 40)), 2500.0),
    ],
)
def test_hatching_fills_a_surface_and_keeps_to_it(rings: tuple[Ring, ...], area: float) -> None:
    """Lines at 45 degrees, a gap apart along x, are gap/√2 apart: length × that is the area."""
    gap = 0.5
    lines = hatching(rings, gap)
    assert lengths(lines) * gap / math.sqrt(2) == pytest.approx(area, rel=0.02)
    whole, *holes = sorted(map(geometry.Polygon, rings), key=lambda each: -each.area)
    surface = whole
    for each in holes:
        surface = surface.symmetric_difference(each)
    grown = surface.buffer(1e-6)
    assert all(grown.covers(geometry.LineString(line)) for line in lines)
    assert all(b[0] - a[0] == pytest.approx(b[1] - a[1]) for a, b in lines)


def test_nothing_has_no_hatching() -> None:
    assert hatching((), 5.0) == ()


def test_the_marks_of_a_strip_are_a_hatch_and_a_dashed_border() -> None:
    notebook = beside_water(10.0)
    reached = [zone for zone in notebook.zones.values() if strips_of(notebook, zone).names]
    marks = strip_marks(notebook, itself)
    lines = [mark for mark in marks if isinstance(mark, Polyline)]
    assert len(lines) == len(marks) == 2 * len(reached) > 0
    for zone, hatch, border in zip(reached, lines[::2], lines[1::2], strict=True):
        found = strips_of(notebook, zone)
        surface = geometry.Polygon(found.rings_ft[0]).buffer(1e-6)
        assert all(surface.covers(geometry.LineString(line)) for line in hatch.lines)
        assert border.lines == found.borders_ft
        assert border.dash
        assert not hatch.dash


def test_a_yard_without_strips_has_no_marks_of_them() -> None:
    notebook = beside_water(None)
    assert strip_marks(notebook, itself) == []
    picture = sketch_marks(notebook, make_plan(notebook, ON))
    assert KEY_WORDS not in picture.words()


def test_the_printed_sketch_lays_strips_under_its_labels_and_says_what_they_are() -> None:
    notebook = beside_water(10.0)
    picture = sketch_marks(notebook, make_plan(notebook, ON))
    assert KEY_WORDS in picture.words()
    hatches = [
        place
        for place, mark in enumerate(picture.marks)
        if isinstance(mark, Polyline) and (mark.role, mark.width) == ("ink", 0.35)
    ]
    first_words = next(place for place, mark in enumerate(picture.marks) if isinstance(mark, Words))
    # The last one is the sample in the key, at the foot.
    assert len(hatches) >= 2
    assert max(hatches[:-1]) < first_words


@pytest.mark.parametrize("width", [260.0, 282.0, 293.0, 500.0])
def test_the_key_has_room_beside_the_arrow(width: float) -> None:
    """The sketch of a sheet is 282 points wide on A4 and 292 on letter paper."""
    notebook = beside_water(10.0)
    plan = make_plan(notebook, ON)
    picture = sketch_marks(notebook, plan, frame=Frame(width, 220.0))
    told = [m for m in picture.marks if isinstance(m, Words) and m.text == KEY_WORDS]
    for words in told:
        assert words.at[0] + rough_width(words.text, words.size) <= width - 32
    assert bool(told) == (width > 280)


def test_without_room_the_key_is_left_out_whole() -> None:
    assert strip_key(200.0, 100.0, 250.0) == []
    assert len(strip_key(200.0, 100.0, 300.0)) == 3
