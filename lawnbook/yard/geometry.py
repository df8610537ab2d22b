"""Plane geometry of outlines: areas, sides, what lies inside, and where a label goes.

An outline is a ring of (x, y) corners in feet, x east and y north, not closed by repeating the
first corner. Either direction round is welcome. Degenerate outlines (fewer than three corners)
have no area and contain nothing but their own edge.
"""

import math
from collections.abc import Iterable, Sequence

from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Zone

Bounds = tuple[float, float, float, float]
"""West, south, east and north in feet."""

EMPTY_YARD_FT: Bounds = (0.0, 0.0, 100.0, 70.0)
"""The ground shown while nothing is drawn yet."""

_EDGE_FT = 1e-9


def area_sqft(outline: Outline, holes: Iterable[Outline] = ()) -> float:
    """The area inside an outline, less its holes, in square feet (shoelace formula)."""
    return abs(signed_area_sqft(outline)) - sum(abs(signed_area_sqft(hole)) for hole in holes)


def signed_area_sqft(outline: Outline) -> float:
    """The area inside an outline: positive where its corners run counter-clockwise."""
    # Taken from the first corner, so that a small zone far from the origin keeps its digits.
    if len(outline) < 3:
        return 0.0
    x0, y0 = outline[0]
    moved = tuple((x - x0, y - y0) for x, y in outline)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in _sides(moved)) / 2


def tidy(point: Point) -> Point:
    """A point to the hundredth of a foot, an eighth of an inch: no sketch is finer."""
    return (round(point[0], 2) + 0.0, round(point[1], 2) + 0.0)


def perimeter_ft(outline: Outline) -> float:
    """The length once round."""
    return sum(side_lengths_ft(outline))


def side_lengths_ft(outline: Outline) -> tuple[float, ...]:
    """The length of each side, the first from the first corner to the second."""
    return tuple(math.dist(a, b) for a, b in _sides(outline))


def centroid_ft(outline: Outline) -> Point:
    """The centre of gravity, or the corners' mean where there is no area. ValueError if empty."""
    if not outline:
        raise ValueError("An outline without corners has no centre")
    x0, y0 = outline[0]
    doubled = sum_x = sum_y = 0.0
    for (ax, ay), (bx, by) in _sides(tuple((x - x0, y - y0) for x, y in outline)):
        cross = ax * by - bx * ay
        doubled += cross
        sum_x += (ax + bx) * cross
        sum_y += (ay + by) * cross
    if abs(doubled) < _EDGE_FT:
        return _mean(outline)
    return x0 + sum_x / (3 * doubled), y0 + sum_y / (3 * doubled)


def rectangle_ft(corner: Point, width: float, height: float) -> Outline:
    """The rectangle from its south-west corner, counter-clockwise."""
    x, y = corner
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def bounds_ft(outlines: Iterable[Outline]) -> Bounds:
    """The smallest upright box round all corners (x0, y0, x1, y1). ValueError without any."""
    points = [point for outline in outlines for point in outline]
    if not points:
        raise ValueError("There are no corners to bound")
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def boxes_meet(one: Bounds, other: Bounds) -> bool:
    """Whether two boxes share ground; touching does not count."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def contains(outline: Outline, point: Point, holes: Iterable[Outline] = ()) -> bool:
    """Whether a point lies on the ground of an outline; its edge and its holes' edges count."""
    if not _covers(outline, point):
        return False
    return all(not _covers(hole, point) or _on_edge(hole, point) for hole in holes)


def nearest_on_edge_ft(outline: Outline, point: Point) -> Point:
    """The point of an outline's edge nearest to a point. ValueError if the outline is empty."""
    if not outline:
        raise ValueError("An outline without corners has no edge")
    nearest = (_nearest_on_side(a, b, point) for a, b in _sides(outline))
    return min(nearest, key=lambda each: math.dist(each, point))


def distance_to_edge_ft(outline: Outline, point: Point, holes: Iterable[Outline] = ()) -> float:
    """How far a point is from the nearest edge, of the outline or of a hole; never negative."""
    return min(math.dist(nearest_on_edge_ft(ring, point), point) for ring in (outline, *holes))


def label_point_ft(outline: Outline, holes: Iterable[Outline] = ()) -> Point:
    """A point well inside: nearly the one farthest from every edge, whatever the shape."""
    # Imported here, as are the crossings: with arrays, which a first look at a sketch needs not.
    from lawnbook.yard.label_point import farthest_inside_ft

    return farthest_inside_ft(outline, tuple(holes))


def crosses_itself(outline: Outline) -> bool:
    """Whether an outline's sides cross, touch or run back over each other anywhere.

    Corners typed twice in a row are taken as one. Fewer than three corners cannot cross.
    """
    ring = _without_repeats(outline)
    if len(ring) < 3:
        return False
    if len(set(ring)) < len(ring):
        return True
    if _turns_back(ring):
        return True
    from lawnbook.yard.crossings import ring_touches_itself

    return ring_touches_itself(ring)


def outlines_cross(one: Outline, other: Outline) -> bool:
    """Whether sides of two outlines properly cross; touching does not count."""
    if len(one) < 2 or len(other) < 2:
        return False
    from lawnbook.yard.crossings import rings_cross

    return rings_cross(one, other)


def lies_inside(inner: Outline, outer: Outline) -> bool:
    """Whether an outline lies wholly inside another; they may touch."""
    if any(not _covers(outer, corner) for corner in inner) or outlines_cross(inner, outer):
        return False
    return contains(outer, label_point_ft(inner)) and not any(
        _covers(inner, corner) and not _on_edge(inner, corner) for corner in outer
    )


def overlap(one: Outline, other: Outline) -> bool:
    """Whether two outlines share ground; touching does not count."""
    if outlines_cross(one, other):
        return True
    return contains(one, label_point_ft(other)) or contains(other, label_point_ft(one))


def zone_area_sqft(zone: Zone) -> float:
    """The area of a zone, its holes left out."""
    return area_sqft(zone.outline_ft, zone.holes_ft)


def zone_at(notebook: Notebook, point: Point) -> Zone | None:
    """The zone at a point, the last of them in the owner's order (drawn on top), or None."""
    for zone in reversed(tuple(notebook.zones.values())):
        if contains(zone.outline_ft, point, zone.holes_ft):
            return zone
    return None


def yard_bounds_ft(notebook: Notebook) -> Bounds:
    """The box round everything drawn; `EMPTY_YARD_FT` while nothing is."""
    outlines: list[Outline] = [zone.outline_ft for zone in notebook.zones.values()]
    outlines += [feature.outline_ft for feature in notebook.features.values()]
    outlines.append(tuple(head.at_ft for head in notebook.heads.values()))
    places = (spot.at_ft for spot in notebook.spots.values())
    outlines.append(tuple(place for place in places if place is not None))
    return bounds_ft(outlines) if any(outlines) else EMPTY_YARD_FT


def _sides(outline: Outline) -> Iterable[tuple[Point, Point]]:
    return zip(outline, (*outline[1:], *outline[:1]), strict=True)


def _mean(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _covers(outline: Outline, point: Point) -> bool:
    if not outline:
        return False
    # Inside is told sooner than on the edge, and most zones and features lie somewhere else.
    return _winds_round(outline, point) or (_in_box(outline, point) and _on_edge(outline, point))


def _in_box(outline: Outline, point: Point) -> bool:
    """Whether a point lies in the upright box round an outline, its edge taken in."""
    x, y = point
    xs, ys = [each[0] for each in outline], [each[1] for each in outline]
    return (
        min(xs) - _EDGE_FT <= x <= max(xs) + _EDGE_FT
        and min(ys) - _EDGE_FT <= y <= max(ys) + _EDGE_FT
    )


def _winds_round(outline: Outline, point: Point) -> bool:
    x, y = point
    inside = False
    for (ax, ay), (bx, by) in _sides(outline):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside


def _on_edge(outline: Outline, point: Point) -> bool:
    return math.dist(nearest_on_edge_ft(outline, point), point) <= _EDGE_FT


def _nearest_on_side(a: Point, b: Point, point: Point) -> Point:
    dx, dy = b[0] - a[0], b[1] - a[1]
    squared = dx * dx + dy * dy
    if squared == 0:
        return a
    along = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / squared
    along = min(1.0, max(0.0, along))
    return a[0] + along * dx, a[1] + along * dy


def _without_repeats(outline: Outline) -> Outline:
    kept = [
        each
        for each, before in zip(outline, outline[-1:] + outline[:-1], strict=True)
        if each != before
    ]
    return tuple(kept)


def _turns_back(ring: Outline) -> bool:
    before = (ring[-1], *ring[:-1])
    after = (*ring[1:], ring[0])
    for a, b, c in zip(before, ring, after, strict=True):
        cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        ahead = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
        if cross == 0 and ahead < 0:
            return True
    return False
