"""Curved edges as straight sides: circles, arcs through three points, and bulged sides.

The sides leave the true curve by half an inch at most, after rounding to the sketch's grid too, and
lie on both sides of it so that the area is the curve's own. Lengths in feet.
"""

import math

from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly, told
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import tidy
from lawnbook.yard.problems import OwnerError

FLAT_WITHIN_FT = 1 / 24
"""How far a side may lie from the curve that it stands for: half an inch."""

LARGEST_RADIUS_FT = 5000.0
"""A larger arc than the sketch is a straight side."""

_ROUNDING_FT = 0.0075
_STRAIGHT_FT = 0.01
_FEWEST_ROUND = 12


def circle(centre: Point, radius_ft: float) -> Outline:
    """A circle as an outline, counter-clockwise from its easternmost corner.

    OwnerError for a radius that is not above zero, or larger than the sketch.
    """
    if not 0 < radius_ft <= LARGEST_RADIUS_FT:
        raise OwnerError(
            tr(
                "A circle of {plainly} radius cannot be drawn; enter more than 0 and at most "
                "{largest_radius_ft}.",
                plainly=plainly(radius_ft, "ft", 4),
                largest_radius_ft=told(LARGEST_RADIUS_FT, 0, "ft"),
            )
        )
    sides = _FEWEST_ROUND
    while _circle_off_ft(radius_ft, sides) > FLAT_WITHIN_FT - _ROUNDING_FT:
        sides += 4
    out_ft = _corner_radius_ft(radius_ft, sides)
    turns = (math.tau * each / sides for each in range(sides))
    corners = (tidy(_at(centre, out_ft, turn)) for turn in turns)
    return tuple(dict.fromkeys(corners))


def arc_through(a: Point, via: Point, b: Point) -> Outline:
    """The arc from a over a point on it to b, both ends among its corners.

    Points on one line, or so nearly that the arc would leave the sketch, make a straight side: a
    and b alone. OwnerError where both ends lie on one place.
    """
    if math.dist(a, b) < _STRAIGHT_FT:
        raise OwnerError(tr("Both ends of the curve lie on one place; put them apart."))
    found = _circle_through(a, via, b)
    if found is None:
        return (tidy(a), tidy(b))
    centre, radius_ft = found
    start, swing = _turn_of(centre, a), _swing(centre, a, via, b)
    if radius_ft * (1 - math.cos(min(abs(swing), math.tau) / 2)) < _STRAIGHT_FT:
        return (tidy(a), tidy(b))
    return _arc(centre, radius_ft, start, swing, (a, b))


def bulged(a: Point, b: Point, rise_ft: float) -> Outline:
    """The arc over the side from a to b that rises by so much at its middle, both ends in it.

    It rises to the left of the way from a to b, and to the right where the rise is negative. A rise
    of 0 is the straight side. OwnerError where both ends lie on one place.
    """
    length = math.dist(a, b)
    if length < _STRAIGHT_FT:
        raise OwnerError(tr("Both ends of the curve lie on one place; put them apart."))
    left = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
    middle = ((a[0] + b[0]) / 2 + rise_ft * left[0], (a[1] + b[1]) / 2 + rise_ft * left[1])
    return arc_through(a, middle, b)


def segment_area_sqft(radius_ft: float, angle_deg: float) -> float:
    """The area between a chord and its arc: R²/2 (θ - sin θ), θ the angle at the centre.

    It is the sector less its triangle, as the article on the segment of the CRC Concise
    Encyclopedia of Mathematics has it (Weisstein, archive.lib.msu.edu/crcmath/math/math/s/s141.htm;
    the formula as written here from memory).
    """
    angle = math.radians(angle_deg)
    return radius_ft * radius_ft / 2 * (angle - math.sin(angle))


def _corner_radius_ft(radius_ft: float, sides: int) -> float:
    """How far from the centre the corners stand so that all sides together have the area."""
    turn = math.tau / sides
    return radius_ft * math.sqrt(turn / math.sin(turn))


def _circle_off_ft(radius_ft: float, sides: int) -> float:
    out_ft = _corner_radius_ft(radius_ft, sides)
    return max(out_ft - radius_ft, radius_ft - out_ft * math.cos(math.pi / sides))


def _arc(
    centre: Point, radius_ft: float, start: float, swing: float, ends: tuple[Point, Point]
) -> Outline:
    """The corners of an arc: its own ends, and between them such as keep the area."""
    # One side only cuts the whole segment off; from two on the area can be kept.
    sides = 2
    while _arc_off_ft(radius_ft, abs(swing), sides) > FLAT_WITHIN_FT - _ROUNDING_FT:
        sides += 1
    out_ft = _inner_radius_ft(radius_ft, abs(swing), sides)
    inner = (_at(centre, out_ft, start + swing * each / sides) for each in range(1, sides))
    return tuple(dict.fromkeys(tidy(each) for each in (ends[0], *inner, ends[1])))


def _inner_radius_ft(radius_ft: float, swing: float, sides: int) -> float:
    """How far from the centre the corners between the ends stand so that the area is the arc's.

    The triangles from the centre add up to the sector: two from an end to an inner corner,
    R r sin φ together, and sides - 2 between inner corners, r² sin φ / 2 each, make R² θ / 2.
    """
    sine = math.sin(swing / sides)
    if sides == 2:
        return radius_ft * swing / (2 * sine)
    square, single, rest = (sides - 2) * sine, 2 * radius_ft * sine, -(radius_ft**2) * swing
    return (-single + math.sqrt(single**2 - 4 * square * rest)) / (2 * square)


def _arc_off_ft(radius_ft: float, swing: float, sides: int) -> float:
    """How far an arc's sides, or its corners, lie from it at most."""
    step = swing / sides
    # Wider steps than this have no corners that keep the area.
    if step > math.pi / 2:
        return math.inf
    out_ft = _inner_radius_ft(radius_ft, swing, sides)
    between = radius_ft - out_ft * math.cos(step / 2) if sides > 2 else 0.0
    side = math.sqrt(radius_ft**2 + out_ft**2 - 2 * radius_ft * out_ft * math.cos(step))
    at_end = radius_ft - radius_ft * out_ft * math.sin(step) / side
    return max(out_ft - radius_ft, between, at_end)


def _circle_through(a: Point, via: Point, b: Point) -> tuple[Point, float] | None:
    """The centre and radius of the circle through three points; None where it is a line."""
    (px, py), (qx, qy) = (via[0] - a[0], via[1] - a[1]), (b[0] - a[0], b[1] - a[1])
    doubled = 2 * (px * qy - py * qx)
    p, q = px * px + py * py, qx * qx + qy * qy
    if abs(doubled) < 1e-12:
        return None
    x, y = (qy * p - py * q) / doubled, (px * q - qx * p) / doubled
    radius_ft = math.hypot(x, y)
    large = radius_ft > LARGEST_RADIUS_FT
    inner = (via[0] - a[0]) * (via[0] - b[0]) + (via[1] - a[1]) * (via[1] - b[1])
    # Seen from a point of it that lies between its ends, a wide arc is only a flat one.
    return None if large and inner > 0 else ((a[0] + x, a[1] + y), radius_ft)


def _turn_of(centre: Point, point: Point) -> float:
    return math.atan2(point[1] - centre[1], point[0] - centre[0])


def _swing(centre: Point, a: Point, via: Point, b: Point) -> float:
    """The turn from a to b that goes over the point between, counter-clockwise positive."""
    start = _turn_of(centre, a)
    to_via, to_b = ((_turn_of(centre, each) - start) % math.tau for each in (via, b))
    return to_b if to_via <= to_b else to_b - math.tau


def _at(centre: Point, distance: float, turn: float) -> Point:
    return (centre[0] + distance * math.cos(turn), centre[1] + distance * math.sin(turn))
