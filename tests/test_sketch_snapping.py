"""Snapping: the point is where its reason says, near enough, and slanted edges leave no slivers."""

import importlib
import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lawnbook.desk.sketch.habits import Habits
from lawnbook.desk.sketch.outlines import bearing_deg, sides, toward
from lawnbook.desk.sketch.snap_index import SnapCache, SnapIndex, Target
from lawnbook.desk.sketch.snap_lines import tidy_on_line
from lawnbook.desk.sketch.snapping import FARTHEST_PX, Snap, Snapper
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import distance_to_edge_ft, rectangle_ft, tidy
from lawnbook.yard.ground_faults import ground_faults
from lawnbook.yard.notebook import apply, new_notebook, put
from lawnbook.yard.records import Zone
from tests.sketch_hand import big_yard, sketch_yard

shapely: Any = importlib.import_module("shapely")

SQUARE = rectangle_ft((0.0, 0.0), 10.0, 10.0)
SLANTED: Outline = ((20.0, 0.0), (53.37, 17.21), (41.13, 39.42), (11.49, 21.9))
INDEX = SnapIndex.of((Target("Front", SQUARE), Target("Bank", SLANTED)))
SNAPPER = Snapper(INDEX, ft_per_px=0.1)
LAST = ((80.0, 5.0), (90.0, 10.0))
"""A last side that runs 63.43 degrees clockwise from the top, clear of both shapes."""

places = st.tuples(st.floats(-15, 65), st.floats(-15, 55))


@pytest.mark.parametrize(
    ("point", "at", "reason", "kind"),
    [
        ((10.5, 9.6), (10.0, 10.0), "on a corner of Front", "corner"),
        ((10.5, 5.03), (10.0, 5.0), "halfway along a side of Front", "middle"),
        ((10.5, 7.2), (10.0, 7.0), "on the edge of Front", "edge"),
        ((14.2, -5.2), (14.0, -5.0), "on the 6 in grid", "grid"),
    ],
)
def test_a_point_says_why_it_is_where_it_is(
    point: Point, at: Point, reason: str, kind: str
) -> None:
    snap = SNAPPER.snap(point)
    assert (snap.at_ft, snap.reason, snap.kind) == (at, reason, kind)


def test_lines_level_and_upright() -> None:
    anchors = ((70.3, 40.2), (90.7, 60.1))
    upright = SNAPPER.snap((70.5, 20.0), anchors)
    assert (upright.at_ft, upright.reason) == ((70.3, 20.0), "upright with a corner")
    assert upright.guides == ((70.3, 40.2),)
    both = SNAPPER.snap((70.5, 60.4), anchors)
    assert (both.at_ft, both.reason) == ((70.3, 60.1), "square with two corners")
    assert SNAPPER.snap((70.517, 20.123), anchors, free=True).at_ft == (70.52, 20.12)


@pytest.mark.parametrize(
    ("turn_deg", "reason", "kind"),
    [
        (0, "straight on with the last side", "line"),
        (90, "square to the last side", "square"),
        (-90, "square to the last side", "square"),
    ],
)
@given(length=st.floats(5, 40), off=st.floats(-0.3, 0.3))
def test_a_new_side_runs_square_or_straight_to_a_tenth_of_a_degree(
    turn_deg: float, reason: str, kind: str, length: float, off: float
) -> None:
    last_deg = bearing_deg(*LAST)
    meant = toward(LAST[1], last_deg + turn_deg, length)
    snap = SNAPPER.snap(toward(meant, last_deg + turn_deg + 90, off), LAST)
    assume(snap.reason == reason)
    assert snap.kind == kind
    turned = (bearing_deg(LAST[1], snap.at_ft) - last_deg - turn_deg + 180) % 360 - 180
    assert turned == pytest.approx(0, abs=0.1)


def test_square_to_the_last_side_is_found_where_nothing_else_is() -> None:
    snap = SNAPPER.snap((95.1, 0.1), LAST)
    assert snap.reason == "square to the last side"
    assert snap.guides == ((90.0, 10.0),)
    assert math.dist(snap.at_ft, LAST[1]) == pytest.approx(11.0, abs=0.02)


def test_shift_keeps_to_the_last_side_s_own_frame() -> None:
    straight, aside = bearing_deg(*LAST), bearing_deg(*LAST) + 90
    for way, words in ((straight, "straight on"), (aside, "square")):
        snap = SNAPPER.snap(toward(LAST[1], way + 20, 12.0), LAST, square=True)
        assert snap.reason.startswith(words)
        assert bearing_deg(LAST[1], snap.at_ft) == pytest.approx(way, abs=0.1)
    level = SNAPPER.snap((97.1, 12.0), LAST[1:], square=True)
    assert (level.at_ft, level.reason) == ((97.0, 10.0), "level with the last corner")


def test_a_side_runs_parallel_to_one_nearby() -> None:
    start, end = SLANTED[0], SLANTED[1]
    way = bearing_deg(start, end)
    corner = toward(start, way + 90, 4.3)
    snap = SNAPPER.snap(toward(toward(corner, way, 22.0), way + 90, 0.2), (corner,))
    assert (snap.kind, snap.reason) == ("parallel", "parallel to a side of Bank")
    assert snap.sides == ((start, end),)
    assert bearing_deg(corner, snap.at_ft) == pytest.approx(way, abs=0.1)


def test_a_side_comes_square_onto_an_edge() -> None:
    start, end = SLANTED[0], SLANTED[1]
    foot = toward(start, bearing_deg(start, end), 7.7)
    corner = toward(foot, bearing_deg(start, end) + 90, 9.0)
    snap = SNAPPER.snap((foot[0] + 0.2, foot[1] - 0.1), (corner,))
    assert (snap.kind, snap.reason) == ("square", "square onto a side of Bank")
    assert snap.guides == (corner,)
    turn = bearing_deg(corner, snap.at_ft) - bearing_deg(start, end)
    assert math.cos(math.radians(turn)) == pytest.approx(0, abs=math.sin(math.radians(0.15)))


def test_a_line_meets_an_edge() -> None:
    anchors = ((-8.0, -3.0), (-8.0, 3.3))
    snap = SNAPPER.snap((0.3, 3.5), anchors[1:])
    assert snap.at_ft == (0.0, 3.3)
    assert snap.reason == "square onto a side of Front"
    anchors = ((-8.0, 7.0), (-6.0, 5.0))
    snap = SNAPPER.snap((0.2, -1.1), anchors)
    assert math.dist(snap.at_ft, (0.0, -1.0)) < 1.3
    snap = Snapper(INDEX, 0.1).snap((0.2, 3.2), ((-9.0, 9.4), (-6.0, 7.4)))
    assert (snap.at_ft, snap.kind) == ((0.0, 3.4), "crossing")
    assert snap.reason == "on the edge of Front, straight on with the last side"


def test_edges_of_two_shapes_cross() -> None:
    other = rectangle_ft((5.25, 5.0), 20.0, 20.0)
    index = SnapIndex.of((Target("Front", SQUARE), Target("Back", other)))
    snap = Snapper(index, 0.1).snap((5.5, 10.2))
    assert (snap.at_ft, snap.kind) == ((5.25, 10.0), "crossing")
    assert "Front" in snap.reason
    assert "Back" in snap.reason


def test_the_owner_s_grid_and_no_snapping() -> None:
    grid = Snapper(INDEX, 0.1, Habits(grid_ft=1.5, snaps=False))
    assert grid.snap((10.1, 9.9)) == Snap((10.5, 10.5), "on the 1.5 ft grid", kind="grid")
    bare = Snapper(INDEX, 0.1, Habits(snaps=False))
    assert bare.snap((10.117, 9.9)) == Snap((10.12, 9.9), "not snapped")
    assert Snapper(INDEX, 0.1, Habits(grid_ft=1.5)).snap((10.1, 9.9)).at_ft == (10.0, 10.0)


def test_heads_are_snapped_to_where_that_is_asked() -> None:
    index = SnapCache().index(sketch_yard())
    assert Snapper(index, 0.1, places=True).snap((15.3, 10.2)).reason == "on head 1 of Front"
    assert "head" not in Snapper(index, 0.1).snap((15.3, 10.2)).reason


@given(places, st.lists(places, max_size=5), st.sampled_from((0.05, 0.1, 0.5)), st.booleans())
def test_no_snap_reaches_farther_than_it_says(
    point: Point, anchors: list[Point], ft_per_px: float, square: bool
) -> None:
    snap = Snapper(INDEX, ft_per_px).snap(point, anchors, square=square and not anchors)
    step = Snapper(INDEX, ft_per_px).grid_ft
    reach = step * 0.71 if snap.kind == "grid" else FARTHEST_PX * ft_per_px
    assert math.dist(snap.at_ft, point) <= reach + 0.03
    assert snap.at_ft == (round(snap.at_ft[0], 2), round(snap.at_ft[1], 2))
    assert snap.reason


@given(places, st.lists(places, max_size=4))
def test_what_is_on_a_corner_or_an_edge_is_there(point: Point, anchors: list[Point]) -> None:
    snap = SNAPPER.snap(point, anchors)
    if snap.kind == "corner":
        assert snap.at_ft in (*SQUARE, *SLANTED)
    elif "edge" in snap.reason or ("side of" in snap.reason and snap.kind != "parallel"):
        off = min(distance_to_edge_ft(each, snap.at_ft) for each in (SQUARE, SLANTED))
        assert off <= 0.01


@given(
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.floats(0, 360),
    st.floats(20, 150),
    st.lists(st.floats(0.05, 0.95), min_size=1, max_size=6, unique=True),
)
def test_neighbours_on_a_slanted_edge_share_and_leave_nothing_that_is_reported(
    start: Point, way_deg: float, length: float, shares: list[float]
) -> None:
    start = tidy(start)
    end = tidy(toward(start, way_deg, length))
    way = toward((0.0, 0.0), bearing_deg(start, end), 1.0)
    along = []
    for share in sorted(shares):
        at = toward(start, way_deg, share * length)
        assert math.dist(at, tidy_on_line(at, way)) <= 0.04
        along.append(tidy_on_line(at, way))
    assume(all(math.dist(a, b) > 1 for a, b in pairwise([start, *along, end])))
    left = [tidy(toward(each, way_deg - 90, 12.0)) for each in (end, start)]
    right = [tidy(toward(each, way_deg + 90, 12.0)) for each in (end, start)]
    notebook = new_notebook("Neighbours")
    one = Zone(id="a", name="One", outline_ft=(start, end, *left))
    other = Zone(id="b", name="Other", outline_ft=(start, *along, end, *right))
    notebook = apply(notebook, put(notebook, "zones", one, other))
    assert [each.sentence for each in ground_faults(notebook)] == []


@given(st.floats(0, 360), st.floats(10, 200))
def test_a_point_on_a_slanted_edge_lies_closer_than_rounding_leaves_it(
    way_deg: float, out: float
) -> None:
    """Over many slants the mean falls to less than half of what rounding alone leaves."""
    off = {"rounded": 0.0, "put": 0.0}
    for turn in range(0, 360, 7):
        way = toward((0.0, 0.0), way_deg + turn, 1.0)
        at = (out * way[0], out * way[1])
        for name, put_at in (("rounded", tidy(at)), ("put", tidy_on_line(at, way))):
            off[name] += abs(way[0] * put_at[1] - way[1] * put_at[0])
            assert math.dist(at, put_at) <= 0.04
    assert off["put"] < off["rounded"] / 2


def test_the_index_follows_the_notebook_and_leaves_out_what_moves() -> None:
    notebook, cache = big_yard(), SnapCache()
    first = cache.index(notebook)
    assert cache.index(notebook) is first
    corner = notebook.zones["z7"].outline_ft[2]
    found = first.corner_near(corner, 0.1)
    assert found is not None
    assert found.name == "Zone number 7"
    assert cache.index(notebook, [("zones", "z7")]).corner_near(corner, 0.1) is None
    moved = Zone(id="z7", name="Seven", outline_ft=rectangle_ft((700.0, 700.0), 3.0, 3.0))
    changed = apply(notebook, put(notebook, "zones", moved))
    found = cache.index(changed).corner_near((703.0, 703.0), 0.1)
    assert found is not None
    assert found.name == "Seven"
    assert cache.index(changed).corner_near(corner, 0.1) is None


@given(places, st.floats(0.1, 30))
def test_near_sides_are_those_that_shapely_finds(point: Point, reach: float) -> None:
    at = shapely.Point(point)
    told = {
        pair: shapely.distance(shapely.LineString(pair), at)
        for outline in (SQUARE, SLANTED)
        for pair in sides(outline)
    }
    assume(all(abs(off - reach) > 1e-9 for off in told.values()))
    found = {(s.start, s.end): s.off_ft for s in INDEX.sides_near(point, reach)}
    assert found == pytest.approx({p: d for p, d in told.items() if d <= reach}, abs=1e-9)
