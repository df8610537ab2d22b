"""Pure edits of outlines, arcs and snapping; areas and crossings also against shapely."""

import importlib
import itertools
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.desk.sketch.choosing import Choice, handle_at, handles_of, in_order, name_of, under
from lawnbook.desk.sketch.outlines import (
    arc_into,
    bearing_deg,
    head_grips,
    head_pulled,
    last_side_crosses,
    rectangle_between,
    rings_of,
    round_outline,
    shifted_record,
    toward,
    with_ring,
    without_hole,
)
from lawnbook.desk.sketch.snapping import grid_step_ft
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, contains, rectangle_ft
from lawnbook.yard.records import Feature, Head, Zone
from tests.sketch_hand import sketch_yard
from tests.strategies import outlines

shapely: Any = importlib.import_module("shapely")

places = st.tuples(st.integers(-40, 40), st.integers(-40, 40)).map(
    lambda at: (float(at[0]), float(at[1]))
)
SQUARE = rectangle_ft((0.0, 0.0), 10.0, 10.0)
ELL: Outline = ((0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (8.0, 8.0), (8.0, 20.0), (0.0, 20.0))


@given(st.lists(places, min_size=2, max_size=7, unique=True))
def test_the_last_side_crosses_as_shapely_says(corners: list[Point]) -> None:
    chain = tuple(corners)
    last = shapely.LineString(chain[-2:])
    earlier = [shapely.LineString(pair) for pair in itertools.pairwise(chain[:-2])]
    on_one_line = any(
        last.intersects(each) and shapely.area(shapely.convex_hull(last.union(each))) < 1e-9
        for each in earlier
    )
    if not on_one_line:
        assert last_side_crosses(chain) == any(last.intersects(each) for each in earlier)


@given(places, st.floats(0, 359.9), st.floats(0.5, 100))
def test_toward_and_bearing_agree(at: Point, bearing: float, distance: float) -> None:
    there = toward(at, bearing, distance)
    assert math.dist(at, there) == pytest.approx(distance)
    assert math.cos(math.radians(bearing_deg(at, there) - bearing)) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("bearing", "point"), [(0, (0, 1)), (90, (1, 0)), (180, (0, -1)), (270, (-1, 0))]
)
def test_bearings_run_clockwise_from_the_top(bearing: float, point: Point) -> None:
    assert bearing_deg((0, 0), point) == pytest.approx(bearing)


@pytest.mark.parametrize(
    ("outline", "at", "arc"),
    [
        (SQUARE, (0.0, 0.0), (0.0, 90.0)),
        (SQUARE, (10.0, 10.0), (180.0, 90.0)),
        (SQUARE, (0.0, 5.0), (0.0, 180.0)),
        (SQUARE, (5.0, 10.0), (90.0, 180.0)),
        (SQUARE, (5.0, 5.0), (0.0, 360.0)),
        (ELL, (8.0, 8.0), (90.0, 270.0)),
        (tuple(reversed(ELL)), (8.0, 8.0), (90.0, 270.0)),
    ],
)
def test_a_head_s_arc_faces_inside(outline: Outline, at: Point, arc: tuple[float, float]) -> None:
    assert arc_into(outline, at) == arc


@given(outlines(), st.data())
def test_the_middle_of_a_corner_s_arc_is_inside(outline: Outline, data: st.DataObject) -> None:
    at = data.draw(st.sampled_from(outline))
    start, sweep = arc_into(outline, at)
    # A hundredth of a foot: closer than any other side of a shape this large comes.
    if 4 < sweep < 356:
        assert contains(outline, toward(at, start + sweep / 2, 0.01))


HEADS = st.builds(
    Head,
    id=st.just("h"),
    zone=st.just("z"),
    at_ft=places,
    radius_ft=st.integers(4, 60).map(float),
    start_deg=st.integers(0, 359).map(float),
    sweep_deg=st.integers(2, 358).map(float),
)


@given(HEADS)
def test_pulling_a_grip_to_where_it_stands_changes_nothing(head: Head) -> None:
    grips = head_grips(head)
    for part in ("radius", "start", "sweep"):
        pulled = head_pulled(head, part, grips[part], free=True)
        assert pulled.radius_ft == pytest.approx(head.radius_ft, abs=0.05)
        assert (pulled.start_deg, pulled.sweep_deg) == (head.start_deg, head.sweep_deg)


@pytest.mark.parametrize(
    ("bearing", "free", "start"),
    [(88.0, False, 90.0), (88.0, True, 88.0), (82.0, False, 82.0), (358.6, False, 0.0)],
)
def test_a_pulled_arc_prefers_even_bearings(bearing: float, free: bool, start: float) -> None:
    head = Head(id="h", zone="z", at_ft=(0.0, 0.0), sweep_deg=90.0)
    pulled = head_pulled(head, "start", toward((0.0, 0.0), bearing, 9.0), free=free)
    assert pulled.start_deg == start


@given(HEADS, places)
def test_a_pulled_head_stays_within_its_limits(head: Head, to: Point) -> None:
    for part in ("radius", "start", "sweep"):
        pulled = head_pulled(head, part, to)
        assert pulled.radius_ft >= 0.5
        assert 0 <= pulled.start_deg < 360
        assert 0 < pulled.sweep_deg <= 360


def test_a_full_circle_keeps_its_two_grips_apart() -> None:
    grips = head_grips(Head(id="h", zone="z", at_ft=(0.0, 0.0), radius_ft=10.0))
    assert math.dist(grips["start"], grips["sweep"]) == pytest.approx(4.0)


@given(places, places)
def test_a_rectangle_has_its_corners(one: Point, other: Point) -> None:
    outline = rectangle_between(one, other)
    assert one in outline
    assert other in outline
    area = abs(one[0] - other[0]) * abs(one[1] - other[1])
    assert area_sqft(outline) == pytest.approx(area)


def test_a_round_outline_nears_a_circle() -> None:
    ring = round_outline((3.0, 4.0), 10.0, corners=96)
    assert area_sqft(ring) == pytest.approx(math.pi * 100, rel=0.002)


def test_rings_and_holes() -> None:
    zone = Zone(id="z", name="Z", outline_ft=ELL, holes_ft=(SQUARE,))
    feature = Feature(id="f", kind="bed", outline_ft=SQUARE)
    assert rings_of(zone) == (ELL, SQUARE)
    assert rings_of(feature) == (SQUARE,)
    assert rings_of(None) == ()
    assert rings_of(with_ring(zone, 1, ELL))[1] == ELL
    assert without_hole(zone, 1).holes_ft == ()
    with pytest.raises(ValueError, match="hole"):
        with_ring(feature, 1, SQUARE)


@given(st.sampled_from(("zones", "features", "heads", "spots", "catch_tests")), places)
def test_moving_there_and_back_is_nothing(table: str, by: Point) -> None:
    for record in sketch_yard().table(table).values():
        there = shifted_record(record, by)
        assert shifted_record(there, (-by[0], -by[1])) == record
        assert (there == record) == (by == (0.0, 0.0))


@pytest.mark.parametrize(
    ("px_per_ft", "step"), [(40, 0.5), (8, 0.5), (7, 1), (4, 1), (3, 5), (0.5, 10), (0.01, 100)]
)
def test_the_grid_gets_coarser_with_distance(px_per_ft: float, step: float) -> None:
    assert grid_step_ft(1 / px_per_ft) == step


def test_what_lies_under_a_point() -> None:
    notebook = sketch_yard()
    assert under(notebook, (5.0, 5.0), 0.1) == Choice("spots", "elm")
    assert under(notebook, (15.2, 10.1), 0.1) == Choice("heads", "head")
    assert under(notebook, (35.0, 40.0), 0.1) == Choice("features", "house")
    assert under(notebook, (60.0, 10.0), 0.1) == Choice("zones", "back")
    assert under(notebook, (70.3, 10.0), 0.1) == Choice("zones", "back")
    assert under(notebook, (80.0, 60.0), 0.1) is None


def test_corners_win_over_the_middles_of_sides() -> None:
    zone = Zone(id="z", name="Z", outline_ft=SQUARE)
    handles = handles_of(zone)
    assert [h.kind for h in handles].count("corner") == 4
    found = handle_at(handles, (0.0, 2.6), ft_per_px=1.0)
    assert found is not None
    assert (found.kind, found.index) == ("corner", 0)
    assert handle_at(handles, (30.0, 30.0), ft_per_px=1.0) is None


def test_every_drawn_thing_has_a_name() -> None:
    notebook = sketch_yard()
    names = [name_of(notebook, each.table, each.record_id) for each in in_order(notebook)]
    assert names == ["Front", "Back", "house", "head 1 of Front", "Elm"]
    assert name_of(notebook, "zones", "nowhere") == ""
