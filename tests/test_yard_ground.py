"""Ground joined, subtracted, split and grown: against shapely itself, and by what must add up."""

import math
from importlib import import_module
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, crosses_itself, perimeter_ft
from lawnbook.yard.ground import (
    LEAST_PIECE_SQFT,
    Ground,
    ground_of,
    grown,
    joined,
    narrow_gaps,
    shared,
    side_between,
    split_by,
    strip_along,
    without,
)
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Zone

shapely: Any = import_module("shapely")


def box(west: float, south: float, width: float, height: float) -> Ground:
    """An upright rectangle, counter-clockwise."""
    east, north = west + width, south + height
    return Ground(((west, south), (east, south), (east, north), (west, north)))


def area(pieces: tuple[Ground, ...]) -> float:
    """The area of several pieces."""
    return sum(each.area_sqft for each in pieces)


def round_length(grounds: tuple[Ground, ...]) -> float:
    """How far it is round all rings: what rounding to the grid can change of an area."""
    return sum(perimeter_ft(ring) for each in grounds for ring in each.rings)


@st.composite
def stars(draw: st.DrawFn, most: int = 14) -> Ground:
    """A simple polygon round a place, often not convex, on the grid; sometimes with a hole."""
    count = draw(st.integers(3, most))
    x0, y0 = draw(st.floats(-60, 60)), draw(st.floats(-60, 60))
    reach = [draw(st.floats(8, 60)) for _ in range(count)]
    turns = [(i + draw(st.floats(0.1, 0.9))) * math.tau / count for i in range(count)]

    def ring(share: float) -> Outline:
        return tuple(
            (round(x0 + share * r * math.cos(t), 2), round(y0 + share * r * math.sin(t), 2))
            for r, t in zip(reach, turns, strict=True)
        )

    outline, hole = ring(1.0), ring(0.3)
    assume(not crosses_itself(outline) and area_sqft(outline) > 20)
    holed = draw(st.booleans()) and not crosses_itself(hole)
    ground = Ground(outline, (hole,) if holed and area_sqft(hole) > 1 else ())
    assume(as_polygon(ground).is_valid)
    return ground


def as_polygon(ground: Ground) -> Any:
    """The same as shapely's own."""
    return shapely.Polygon(ground.outline, ground.holes)


def assert_sound(pieces: tuple[Ground, ...]) -> None:
    """Valid, on the grid, no side that crosses, no corner twice or on a straight side."""
    for piece in pieces:
        assert as_polygon(piece).is_valid
        assert as_polygon(piece).exterior.is_ccw
        assert piece.area_sqft >= LEAST_PIECE_SQFT
        for ring in piece.rings:
            assert not crosses_itself(ring)
            whole = [(round(100 * x), round(100 * y)) for x, y in ring]
            assert ring == tuple((x / 100, y / 100) for x, y in whole)
            for (ax, ay), (bx, by), (cx, cy) in zip(
                (whole[-1], *whole[:-1]), whole, (*whole[1:], whole[0]), strict=True
            ):
                assert (bx - ax) * (cy - by) != (by - ay) * (cx - bx)
    areas = [each.area_sqft for each in pieces]
    assert areas == sorted(areas, reverse=True)


def slack(*grounds: Ground) -> float:
    """What rounding to 0.01 ft and dropped slivers may take of an area."""
    return 0.02 * round_length(grounds) + 6 * LEAST_PIECE_SQFT


@given(stars())
def test_areas_and_perimeters_are_shapelys(ground: Ground) -> None:
    polygon = as_polygon(ground)
    assert ground.area_sqft == pytest.approx(polygon.area, rel=1e-9)
    assert sum(perimeter_ft(ring) for ring in ground.rings) == pytest.approx(polygon.length)


@settings(deadline=None)
@given(stars(), stars())
def test_what_is_shared_and_what_is_left_make_the_whole(one: Ground, other: Ground) -> None:
    left, both = without(one, (other,)), shared(one, (other,))
    assert_sound(left)
    assert_sound(both)
    spare = slack(one, other)
    assert area(left) + area(both) == pytest.approx(one.area_sqft, abs=spare)
    exact = as_polygon(one).intersection(as_polygon(other)).area
    assert area(both) == pytest.approx(exact, abs=spare)


@settings(deadline=None)
@given(st.lists(stars(9), min_size=2, max_size=4))
def test_a_union_is_the_sum_less_what_overlaps(grounds: list[Ground]) -> None:
    whole = joined(grounds)
    assert_sound(whole)
    exact = shapely.union_all([as_polygon(each) for each in grounds]).area
    assert area(whole) == pytest.approx(exact, abs=slack(*grounds))
    one, other = grounds[:2]
    both = area(joined((one, other)))
    shares = area(shared(one, (other,)))
    assert both == pytest.approx(one.area_sqft + other.area_sqft - shares, abs=slack(one, other))


@settings(deadline=None)
@given(stars(), st.tuples(st.floats(-80, 80), st.floats(-80, 80)), st.floats(0, math.tau))
def test_pieces_of_a_split_add_up_and_join_again(ground: Ground, at: Point, turn: float) -> None:
    pieces = split_by(ground, at, (at[0] + 3 * math.cos(turn), at[1] + 3 * math.sin(turn)))
    assert_sound(pieces)
    assert area(pieces) == pytest.approx(ground.area_sqft, abs=slack(ground))
    again = joined(pieces)
    assert_sound(again)
    assert area(again) == pytest.approx(ground.area_sqft, abs=slack(ground))


@settings(deadline=None)
@given(stars(), st.floats(0.2, 4))
def test_shrinking_stays_off_the_edges(ground: Ground, by_ft: float) -> None:
    pieces = grown(ground, -by_ft)
    assert_sound(pieces)
    edge = as_polygon(ground).boundary
    for piece in pieces:
        assert as_polygon(piece).distance(edge) >= by_ft - 0.02
    assert area(grown(ground, by_ft)) > ground.area_sqft


def test_a_cut_that_is_closed_leaves_no_corners() -> None:
    whole = box(0, 0, 10, 10)
    pieces = split_by(whole, (0, 1.003), (9, 8.77))
    assert len(pieces) == 2
    (again,) = joined(pieces)
    assert set(again.outline) == set(whole.outline)


def test_the_owners_own_corner_on_a_nearly_straight_side_stays() -> None:
    bent = Ground(((0, 0), (10, -0.01), (40, 0), (40, 10), (0, 10)))
    (whole,) = joined((bent, box(40, 0, 5, 10)))
    assert (10, -0.01) in whole.outline
    assert (40, 10) not in whole.outline


def test_pieces_that_touch_in_one_point_stay_two() -> None:
    pieces = joined((box(0, 0, 10, 10), box(10, 10, 5, 5)))
    assert [each.area_sqft for each in pieces] == [100, 25]
    assert len(joined((box(0, 0, 10, 10), box(10, 9, 5, 5)))) == 1


def test_a_ring_of_shapes_encloses_a_hole() -> None:
    ring = (box(0, 0, 30, 10), box(0, 20, 30, 10), box(0, 10, 10, 10), box(20, 10, 10, 10))
    (whole,) = joined(ring)
    assert whole.area_sqft == 800
    assert len(whole.holes) == 1
    assert area_sqft(whole.holes[0]) == 100


def test_a_hole_along_the_edge_is_opened() -> None:
    """As a notch, for no hole may share a side with the outline."""
    hole = ((0.0, 4.0), (3.0, 4.0), (3.0, 6.0), (0.0, 6.0))
    zone = Zone(id="z", name="Front", outline_ft=box(0, 0, 10, 10).outline, holes_ft=(hole,))
    (opened,) = joined((ground_of(zone),))
    assert opened.holes == ()
    assert opened.area_sqft == 94
    assert_sound((opened,))
    across = ((0.0, 4.0), (10.0, 4.0), (10.0, 6.0), (0.0, 6.0))
    cut = Zone(id="z", name="Front", outline_ft=box(0, 0, 10, 10).outline, holes_ft=(across,))
    assert [each.area_sqft for each in joined((ground_of(cut),))] == [40, 40]


def test_a_hole_that_meets_the_edge_in_a_point_stays_a_hole() -> None:
    hole = ((0.0, 5.0), (4.0, 3.0), (4.0, 7.0))
    (kept,) = joined((Ground(box(0, 0, 10, 10).outline, (hole,)),))
    assert len(kept.holes) == 1
    assert kept.area_sqft == 92


def test_ground_of_a_record_is_tidied_and_turned() -> None:
    shed = Feature(
        id="f", kind="house", outline_ft=((0, 0), (0, 5), (0, 5), (0, 8), (8, 8), (8, 0))
    )
    assert ground_of(shed).outline == ((0, 0), (8, 0), (8, 8), (0, 8))


def test_a_subtraction_that_leaves_nothing_or_only_a_sliver() -> None:
    assert without(box(0, 0, 10, 10), (box(-1, -1, 12, 12),)) == ()
    assert without(box(0, 0, 10, 10), (box(0.02, -1, 12, 12),)) == ()
    assert area(without(box(0, 0, 10, 10), ())) == 100


def test_a_line_needs_two_points() -> None:
    with pytest.raises(OwnerError, match="further apart"):
        split_by(box(0, 0, 10, 10), (1, 1), (1, 1))


TRAPEZE = Ground(((0, 0), (20, 0), (30, 10), (0, 10)))
ANGLE = Ground(((0, 0), (20, 0), (20, 10), (10, 10), (10, 20), (0, 20)))


@pytest.mark.parametrize(
    ("ground", "side", "inward", "expected"),
    [
        (box(0, 0, 10, 10), 0, True, 20),
        (box(0, 0, 10, 10), 0, False, 20),
        # The strip follows a side that leans away: a trapeze of 20 and 22 ft, 2 ft wide.
        (TRAPEZE, 0, True, 42),
        # At a sharp corner the side itself ends it: 30 and 28 ft.
        (TRAPEZE, 2, True, 58),
        # At the corner that turns in it ends square; outside, the other arm ends it square too.
        (ANGLE, 2, True, 20),
        (ANGLE, 2, False, 20),
        (box(0, 0, 10, 10), None, True, 100 - 36),
        (box(0, 0, 10, 10), None, False, 196 - 100),
    ],
)
def test_a_strip_along_a_side(
    ground: Ground, side: int | None, inward: bool, expected: float
) -> None:
    strip = strip_along(ground, side, 2, inward=inward)
    assert_sound(strip)
    assert area(strip) == pytest.approx(expected, abs=0.01)


def test_a_strip_leaves_holes_out_and_needs_a_width() -> None:
    holed = Ground(box(0, 0, 10, 10).outline, (box(4, 1, 2, 2).outline,))
    assert area(strip_along(holed, 0, 2, inward=True)) == 18
    with pytest.raises(OwnerError, match="width"):
        strip_along(holed, 0, 0, inward=True)


def test_sides_are_found_by_their_ends() -> None:
    assert side_between(ANGLE, (20, 10), (10, 10)) == 2
    assert side_between(ANGLE, (10, 10), (18, 10)) == 2
    assert side_between(ANGLE, (0, 0), (20, 10)) is None


def test_narrow_gaps_lie_between_two_shapes() -> None:
    near = (box(0, 0, 10, 10), box(10.3, 0, 10, 10))
    (gap,) = narrow_gaps(near, 0.5)
    assert gap.area_sqft == pytest.approx(3)
    assert narrow_gaps(near, 0.25) == ()
    assert narrow_gaps((box(0, 0, 10, 10), box(10, 0, 10, 10)), 0.5) == ()


def test_a_notch_or_hole_of_one_shape_is_no_gap() -> None:
    notched = without(box(0, 0, 20, 20), (box(9.8, 10, 0.4, 10),))
    holed = without(box(0, 0, 20, 20), (box(9, 5, 0.4, 10),))
    assert narrow_gaps(notched, 0.5) == ()
    assert narrow_gaps((*holed, box(30, 0, 5, 5)), 0.5) == ()


def test_two_shapes_that_meet_at_an_angle_leave_no_gap() -> None:
    wedge = Ground(((0, 0), (20, 0), (20, 4)))
    above = Ground(((0, 0), (20, 12), (0, 20)))
    gaps = narrow_gaps((wedge, above), 0.5)
    assert area(gaps) < LEAST_PIECE_SQFT
