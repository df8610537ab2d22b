"""Edits of outlines as plain functions: points in feet, x east and y north, nothing of Qt."""

import itertools
import math
from dataclasses import replace
from typing import Literal

from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import Bounds, bounds_ft, contains, rectangle_ft, tidy
from lawnbook.yard.records import CatchTest, Feature, Head, Record, Spot, Zone

Shape = Zone | Feature
"""The records that have an outline on the sketch."""


def rings_of(record: Record | None) -> tuple[Outline, ...]:
    """The outline of a zone or feature and then its holes; empty for any other record."""
    if isinstance(record, Zone):
        return (record.outline_ft, *record.holes_ft)
    return (record.outline_ft,) if isinstance(record, Feature) else ()


def bounds_of(record: Record) -> Bounds:
    """The box round a record on the sketch: its outline, or its place alone.

    ValueError for a record that is not on it.
    """
    if isinstance(record, Head | Spot):
        return bounds_ft([(record.at_ft,)] if record.at_ft is not None else [])
    return bounds_ft(rings_of(record))


def with_ring(shape: Shape, ring: int, outline: Outline) -> Shape:
    """The shape with one ring replaced; ring 0 is the outline, the holes follow."""
    if ring == 0:
        return replace(shape, outline_ft=outline)
    if not isinstance(shape, Zone):
        raise ValueError("only a zone has holes")
    holes = list(shape.holes_ft)
    holes[ring - 1] = outline
    return replace(shape, holes_ft=tuple(holes))


def without_hole(zone: Zone, ring: int) -> Zone:
    """The zone with one of its holes filled again."""
    holes = tuple(hole for index, hole in enumerate(zone.holes_ft, 1) if index != ring)
    return replace(zone, holes_ft=holes)


def moved_by(point: Point, by: Point) -> Point:
    """A point moved by a step."""
    return tidy((point[0] + by[0], point[1] + by[1]))


def shifted(outline: Outline, by: Point) -> Outline:
    """An outline moved as a whole."""
    return tuple(moved_by(point, by) for point in outline)


def shifted_record(record: Record, by: Point) -> Record:
    """A zone, feature, head or spot moved as a whole; another record as it was."""
    if isinstance(record, Zone):
        holes = tuple(shifted(hole, by) for hole in record.holes_ft)
        return replace(record, outline_ft=shifted(record.outline_ft, by), holes_ft=holes)
    if isinstance(record, Feature):
        return replace(record, outline_ft=shifted(record.outline_ft, by))
    if isinstance(record, Head):
        return replace(record, at_ft=moved_by(record.at_ft, by))
    if isinstance(record, Spot) and record.at_ft is not None:
        return replace(record, at_ft=moved_by(record.at_ft, by))
    if isinstance(record, CatchTest):
        return replace(record, at_ft=shifted(record.at_ft, by))
    return record


def with_corner(outline: Outline, index: int, at: Point) -> Outline:
    """The outline with one corner elsewhere."""
    return (*outline[:index], tidy(at), *outline[index + 1 :])


def with_new_corner(outline: Outline, after: int, at: Point) -> Outline:
    """The outline with a corner put in after another."""
    return (*outline[: after + 1], tidy(at), *outline[after + 1 :])


def without_corner(outline: Outline, index: int) -> Outline:
    """The outline with one corner taken out."""
    return (*outline[:index], *outline[index + 1 :])


def sides(outline: Outline) -> tuple[tuple[Point, Point], ...]:
    """Each side of an outline as its two ends; the last leads back to the first corner."""
    return tuple(zip(outline, (*outline[1:], *outline[:1]), strict=True))


def midpoint(start: Point, end: Point) -> Point:
    """The point halfway between two points."""
    return ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)


def rectangle_between(corner: Point, opposite: Point) -> Outline:
    """The upright rectangle with these two corners opposite each other."""
    west, east = sorted((tidy(corner)[0], tidy(opposite)[0]))
    south, north = sorted((tidy(corner)[1], tidy(opposite)[1]))
    return rectangle_ft((west, south), tidy((east - west, 0))[0], tidy((north - south, 0))[0])


def last_side_crosses(chain: Outline) -> bool:
    """Whether the last side of an open chain of corners crosses or meets an earlier one."""
    if len(chain) < 4:
        return False
    start, end = chain[-2], chain[-1]
    return any(_meet(start, end, a, b) for a, b in itertools.pairwise(chain[:-2]))


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two sides share a point other than one that only touches on the same line."""
    across_cd = _turn(c, d, a) * _turn(c, d, b) <= 0
    across_ab = _turn(a, b, c) * _turn(a, b, d) <= 0
    on_one_line = _turn(a, b, c) == _turn(a, b, d) == 0
    return across_cd and across_ab and not on_one_line


def _turn(a: Point, b: Point, c: Point) -> float:
    """Positive where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def arc_into(outline: Outline, at: Point) -> tuple[float, float]:
    """The arc, as start and sweep from the top of the page, that wets the inside from a point.

    From a corner it is the corner's own angle, from a side a half circle, else a full one.
    """
    for before, corner, after in zip(
        (*outline[-1:], *outline[:-1]), outline, (*outline[1:], *outline[:1]), strict=True
    ):
        if math.dist(corner, at) < 0.05:
            return _wedge(outline, at, bearing_deg(at, before), bearing_deg(at, after))
    for start, end in sides(outline):
        along = math.dist(start, at) + math.dist(at, end) - math.dist(start, end)
        if along < 0.01:
            return _wedge(outline, at, bearing_deg(at, start), bearing_deg(at, end))
    return (0.0, 360.0)


def _wedge(outline: Outline, at: Point, one_deg: float, other_deg: float) -> tuple[float, float]:
    """Of the two arcs between two bearings, the one whose middle lies inside; whole degrees."""
    sweep = (other_deg - one_deg) % 360
    inside = contains(outline, toward(at, one_deg + sweep / 2, 0.2))
    start, width = (one_deg, sweep) if inside else (other_deg, 360 - sweep)
    return (float(round(start) % 360), float(round(width) or 360))


def round_outline(centre: Point, radius_ft: float, corners: int = 16) -> Outline:
    """A circle as an outline, for the crown of a tree."""
    turn = math.tau / corners
    return tuple(
        tidy(
            (centre[0] + radius_ft * math.cos(turn * i), centre[1] + radius_ft * math.sin(turn * i))
        )
        for i in range(corners)
    )


def toward(at: Point, bearing_deg: float, distance: float) -> Point:
    """The point at a bearing, in degrees clockwise from the top of the page."""
    angle = math.radians(bearing_deg)
    return (at[0] + distance * math.sin(angle), at[1] + distance * math.cos(angle))


def bearing_deg(start: Point, end: Point) -> float:
    """The direction of one point from another, 0 to 360 degrees clockwise from the top."""
    return math.degrees(math.atan2(end[0] - start[0], end[1] - start[1])) % 360


NEAR_DEG = 3.0
"""How close to a multiple of 15 degrees a pulled arc goes there."""

HeadPart = Literal["radius", "start", "sweep"]


def head_grips(head: Head) -> dict[HeadPart, Point]:
    """Where the handles of a head stand: on its arc's middle, its start and its end.

    On a full circle the end would hide the start, so it stands further in.
    """
    start = head.start_deg
    inward = 0.6 if head.sweep_deg > 359 else 1.0
    return {
        "start": toward(head.at_ft, start, head.radius_ft),
        "sweep": toward(head.at_ft, start + head.sweep_deg, head.radius_ft * inward),
        "radius": toward(head.at_ft, start + head.sweep_deg / 2, head.radius_ft),
    }


def head_pulled(head: Head, part: HeadPart, to: Point, *, free: bool = False) -> Head:
    """The head after one of its handles was pulled to a point; whole degrees, tenths of a foot.

    Turning the start keeps the arc as wide as it was. Unless `free`, a bearing close to a
    multiple of 15 degrees goes there.
    """
    if part == "radius":
        return replace(head, radius_ft=max(0.5, round(math.dist(head.at_ft, to), 1)))
    bearing = _whole_deg(bearing_deg(head.at_ft, to), free=free)
    if part == "start":
        return replace(head, start_deg=float(bearing))
    sweep = round(bearing - head.start_deg) % 360
    return replace(head, sweep_deg=float(sweep or 360))


def _whole_deg(bearing: float, *, free: bool) -> int:
    """A bearing in whole degrees, on a multiple of 15 where it is close to one."""
    even = round(bearing / 15) * 15
    return (even if not free and abs(bearing - even) <= NEAR_DEG else round(bearing)) % 360
