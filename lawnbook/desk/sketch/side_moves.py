"""A side moved parallel to itself: as a bed grows by a foot, its corners go along their sides."""

import math

from lawnbook.desk.sketch.outlines import moved_by, with_corner
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import signed_area_sqft

LEAST_SINE = math.sin(math.radians(20))
"""Where the neighbouring side runs flatter than 20 degrees to the side, a corner goes straight out:
along such a neighbour it would run away."""


def side_moved(outline: Outline, index: int, out_ft: float) -> Outline:
    """The ring with the side after corner `index` moved out of it, or into it below 0, feet.

    The side keeps its direction, and so do its neighbours, which grow or shrink.
    """
    count = len(outline)
    after = (index + 1) % count
    normal = outward(outline, index)
    start = _slid(outline[index - 1], outline[index], normal, out_ft)
    end = _slid(outline[(after + 1) % count], outline[after], normal, out_ft)
    return with_corner(with_corner(outline, index, start), after, end)


def outward(outline: Outline, index: int) -> Point:
    """The direction, of length 1, in which the side after a corner looks out of its ring."""
    (ax, ay), (bx, by) = outline[index], outline[(index + 1) % len(outline)]
    length = math.hypot(bx - ax, by - ay) or 1.0
    right = ((by - ay) / length, (ax - bx) / length)
    return right if signed_area_sqft(outline) >= 0 else (-right[0], -right[1])


def out_by(outline: Outline, index: int, to: Point) -> float:
    """How far out of the ring a point lies from the side after a corner, feet; inside below 0."""
    at, normal = outline[index], outward(outline, index)
    return (to[0] - at[0]) * normal[0] + (to[1] - at[1]) * normal[1]


def _slid(neighbour: Point, corner: Point, normal: Point, out_ft: float) -> Point:
    """A corner moved along the side from its neighbour, until it lies so far out."""
    way = (corner[0] - neighbour[0], corner[1] - neighbour[1])
    length = math.hypot(*way)
    sine = (way[0] * normal[0] + way[1] * normal[1]) / length if length else 0.0
    if abs(sine) < LEAST_SINE:
        return moved_by(corner, (normal[0] * out_ft, normal[1] * out_ft))
    far = out_ft / sine / length
    return moved_by(corner, (way[0] * far, way[1] * far))
