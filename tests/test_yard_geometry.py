"""Outlines against shapely, an independent geometry library, and against figures done by hand."""

import importlib
import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from lawnbook.yard import geometry
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone
from tests.strategies import outlines

_shapely = importlib.import_module("shapely")
Polygon, ShapelyPoint = _shapely.Polygon, _shapely.Point

L_SHAPE: Outline = ((0, 0), (40, 0), (40, 10), (10, 10), (10, 30), (0, 30))
SQUARE: Outline = ((0, 0), (10, 0), (10, 10), (0, 10))
BOW: Outline = ((0, 0), (10, 10), (10, 0), (0, 10))

# Half feet: exact in binary, so that "touches" means the same to both libraries.
_GRID = st.integers(-12, 12).map(lambda n: n / 2)
_POINTS = st.tuples(_GRID, _GRID)
_RINGS = st.lists(_POINTS, min_size=3, max_size=8, unique=True).map(tuple)


def _by_angle(points: list[Point]) -> Outline:
    """The corners sorted round their middle: nearly always a ring that does not cross itself."""
    x, y = (sum(each) / len(points) for each in zip(*points, strict=True))
    return tuple(sorted(points, key=lambda p: math.atan2(p[1] - y, p[0] - x)))


_SIMPLE = st.lists(_POINTS, min_size=3, max_size=7, unique=True).map(_by_angle)


@pytest.mark.parametrize(
    ("outline", "area", "perimeter"),
    [
        (SQUARE, 100, 40),
        (L_SHAPE, 600, 140),
        (SQUARE[::-1], 100, 40),
        (SQUARE[:2], 0, 20),
        ((), 0, 0),
    ],
)
def test_area_and_perimeter_by_hand(outline: Outline, area: float, perimeter: float) -> None:
    """Either direction round, and nothing where there is nothing."""
    assert geometry.area_sqft(outline) == area
    assert geometry.perimeter_ft(outline) == perimeter


def test_a_hole_is_taken_off_the_area() -> None:
    """Whatever direction it runs."""
    hole: Outline = ((2, 2), (4, 2), (4, 5), (2, 5))
    assert geometry.area_sqft(SQUARE, (hole,)) == 94
    assert geometry.area_sqft(SQUARE, (hole[::-1],)) == 94


@given(outlines())
def test_measures_agree_with_shapely(outline: Outline) -> None:
    """Shapely 2 (GEOS): area, length, centroid and bounds."""
    polygon = Polygon(outline)
    assert geometry.area_sqft(outline) == pytest.approx(polygon.area, rel=1e-9)
    assert geometry.perimeter_ft(outline) == pytest.approx(polygon.length, rel=1e-12)
    centre = polygon.centroid
    assert geometry.centroid_ft(outline) == pytest.approx((centre.x, centre.y), abs=1e-6)
    assert geometry.bounds_ft([outline]) == polygon.bounds


@settings(max_examples=400)
@given(_RINGS)
@example(BOW)
@example(((0.0, 0.0), (4.0, 0.0), (2.0, 0.0), (2.0, 3.0)))
@example(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0)))
def test_crossing_agrees_with_shapely(outline: Outline) -> None:
    """Shapely 2 calls a ring valid when no two of its sides meet but at their corner."""
    polygon = Polygon(outline)
    assume(polygon.area > 0)
    assert geometry.crosses_itself(outline) is not polygon.is_valid


@settings(max_examples=300)
@given(_SIMPLE, _POINTS)
def test_containing_agrees_with_shapely(outline: Outline, point: Point) -> None:
    """Shapely's covers: the edge counts as inside."""
    polygon = Polygon(outline)
    assume(polygon.is_valid)
    assert geometry.contains(outline, point) is polygon.covers(ShapelyPoint(point))


@given(outlines(), _POINTS)
def test_distance_agrees_with_shapely(outline: Outline, point: Point) -> None:
    """From the point to the ring, inside or outside."""
    expected = Polygon(outline).exterior.distance(ShapelyPoint(point))
    assert geometry.distance_to_edge_ft(outline, point) == pytest.approx(expected, abs=1e-9)


@settings(max_examples=300)
@given(_SIMPLE, _SIMPLE)
def test_lying_inside_agrees_with_shapely(inner: Outline, outer: Outline) -> None:
    """Shapely's covers between areas; overlap is an intersection with area."""
    small, large = Polygon(inner), Polygon(outer)
    assume(small.is_valid and large.is_valid)
    if geometry.lies_inside(inner, outer):
        assert large.buffer(1e-6).covers(small)
    if large.buffer(-0.01).covers(small):
        assert geometry.lies_inside(inner, outer)
    shared = small.intersection(large).area
    if geometry.outlines_cross(inner, outer):
        assert shared > 0
        assert geometry.overlap(inner, outer)
    if geometry.overlap(inner, outer):
        assert shared > 0


def test_a_hole_in_the_notch_of_an_outline_is_not_inside_it() -> None:
    """Corners and sides all on the outline's edge, the ground between them outside."""
    notched: Outline = ((0, 0), (10, 0), (10, 10), (6, 10), (6, 4), (4, 4), (4, 10), (0, 10))
    notch: Outline = ((4, 4), (6, 4), (6, 10), (4, 10))
    assert not geometry.lies_inside(notch, notched)
    assert geometry.lies_inside(((1, 1), (9, 1), (9, 3), (1, 3)), notched)


@pytest.mark.parametrize(
    ("outline", "crosses"),
    [
        (SQUARE, False),
        (L_SHAPE, False),
        (BOW, True),
        (((0, 0), (0, 0), (4, 0), (4, 4)), False),
        (((0, 0), (4, 0), (4, 4), (0, 0)), False),
        (((0, 0), (8, 0), (4, 0)), True),
        (((0, 0), (4, 4)), False),
        ((), False),
    ],
)
def test_crossing_by_hand(outline: Outline, crosses: bool) -> None:
    """A corner typed twice is one corner; a side that runs back over another crosses it."""
    assert geometry.crosses_itself(outline) is crosses


def test_two_thousand_corners() -> None:
    """A circle and a comb, whose teeth all overlap in one direction."""
    circle = tuple(
        (100 * math.cos(i * math.pi / 1000), 100 * math.sin(i * math.pi / 1000))
        for i in range(2000)
    )
    comb = (*((i * 0.01, (i % 2) * 100.0) for i in range(1999)), (10.0, -5.0))
    crossed = (*circle[:999], circle[1500], circle[1000], *circle[1001:])
    assert not geometry.crosses_itself(circle)
    assert not geometry.crosses_itself(comb)
    assert geometry.crosses_itself(crossed)


@given(outlines())
def test_a_label_point_is_well_inside(outline: Outline) -> None:
    """No grid of points finds a place clearly deeper inside (shapely's distance as the judge)."""
    polygon = Polygon(outline)
    found = geometry.label_point_ft(outline)
    assert polygon.contains(ShapelyPoint(found))
    depth = polygon.exterior.distance(ShapelyPoint(found))
    x0, y0, x1, y1 = polygon.bounds
    deepest = max(
        polygon.exterior.distance(probe)
        for i in range(1, 20)
        for j in range(1, 20)
        if polygon.contains(probe := ShapelyPoint(x0 + (x1 - x0) * i / 20, y0 + (y1 - y0) * j / 20))
    )
    assert depth >= deepest - 0.011 * min(x1 - x0, y1 - y0)


def test_a_label_keeps_clear_of_notches_and_holes() -> None:
    """The L's centre of gravity lies in its notch, near the corner; the label does not."""
    assert not geometry.contains(
        ((0, 0), (40, 0), (40, 4), (4, 4), (4, 40), (0, 40)),
        geometry.centroid_ft(((0, 0), (40, 0), (40, 4), (4, 4), (4, 40), (0, 40))),
    )
    label = geometry.label_point_ft(L_SHAPE)
    assert geometry.distance_to_edge_ft(L_SHAPE, label) > 4.9
    middle: Outline = ((3, 3), (7, 3), (7, 7), (3, 7))
    beside = geometry.label_point_ft(SQUARE, (middle,))
    assert geometry.contains(SQUARE, beside, (middle,))
    assert not geometry.contains(middle, beside)


@pytest.mark.parametrize("line", [((0.0, 0.0),), ((0.0, 0.0), (4.0, 0.0)), ((0.0, 1.0),) * 3])
def test_what_has_no_area_still_has_a_middle(line: Outline) -> None:
    """While a zone is being drawn."""
    x, y = geometry.centroid_ft(line)
    assert geometry.label_point_ft(line) == pytest.approx((x, y))


def test_nothing_has_no_middle_and_no_bounds() -> None:
    """Asking is a bug, and said so."""
    for ask in (geometry.centroid_ft, geometry.label_point_ft):
        with pytest.raises(ValueError, match="without corners"):
            ask(())
    with pytest.raises(ValueError, match="no corners to bound"):
        geometry.bounds_ft(())
    with pytest.raises(ValueError, match="no edge"):
        geometry.nearest_on_edge_ft((), (0, 0))


def test_the_edge_of_a_hole_belongs_to_the_zone() -> None:
    """Its inside does not."""
    hole: Outline = ((2, 2), (4, 2), (4, 4), (2, 4))
    assert geometry.contains(SQUARE, (2, 3), (hole,))
    assert not geometry.contains(SQUARE, (3, 3), (hole,))
    assert geometry.nearest_on_edge_ft(SQUARE, (5, -3)) == (5, 0)
    assert geometry.distance_to_edge_ft(SQUARE, (1.5, 3), (hole,)) == 0.5


def _notebook(**tables: Record) -> Notebook:
    notebook = new_notebook("Home")
    for table, record in tables.items():
        notebook = apply(notebook, put(notebook, table, record))
    return notebook


def test_the_zone_at_a_point_is_the_one_on_top() -> None:
    """The last in the owner's order, as it is drawn."""
    low = Zone(id="a", name="Low", outline_ft=geometry.rectangle_ft((0, 0), 20, 20))
    high = Zone(id="b", name="High", outline_ft=geometry.rectangle_ft((10, 0), 20, 20))
    notebook = new_notebook("Home")
    notebook = apply(notebook, put(notebook, "zones", low, high))
    at = [geometry.zone_at(notebook, (x, 5)) for x in (5, 15, 25, 35)]
    assert [zone.id if zone is not None else "" for zone in at] == ["a", "b", "b", ""]
    assert geometry.zone_area_sqft(low) == 400


def test_the_bounds_of_a_yard_hold_everything_drawn() -> None:
    """Zones, features, heads and spots; some ground to draw on where there is nothing."""
    assert geometry.yard_bounds_ft(new_notebook("Home")) == geometry.EMPTY_YARD_FT
    notebook = _notebook(
        zones=Zone(id="z", name="Front", outline_ft=SQUARE),
        features=Feature(id="f", kind="house", outline_ft=((-5, 2), (0, 2), (0, 6))),
        heads=Head(id="h", zone="z", at_ft=(12, 3)),
        spots=Spot(id="s", name="A", at_ft=(4, -7)),
    )
    assert geometry.yard_bounds_ft(notebook) == (-5, -7, 12, 10)
