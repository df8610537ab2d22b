"""Outlines by typed figures: a corner's place, a side's length and direction, an inner angle.

Plain functions on rings of corners in feet, x to the right of the page and y up it. Directions are
degrees clockwise from the top of the page.
"""

import math
from typing import Literal

from lawnbook.desk.sketch.outlines import bearing_deg, toward, with_corner
from lawnbook.desk.sketch.side_words import side_example
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import signed_area_sqft, tidy
from lawnbook.yard.numbers import parse_feet, parse_number
from lawnbook.yard.problems import OwnerError

Figure = Literal["right", "up", "side", "direction", "angle"]
"""What can be typed of a corner: its place, its side to the next one, and its inner angle."""

LEAST_SIDE_FT = 0.05

Carries = Literal["end", "next", "rest"]
"""What moves with a side: its end corner alone, the next side too, or all corners after it."""


def side_ft(outline: Outline, index: int) -> float:
    """The length of the side from a corner to the next."""
    return math.dist(*_ends(outline, index))


def direction_deg(outline: Outline, index: int) -> float:
    """The direction of the side from a corner to the next, 0 to 360."""
    return bearing_deg(*_ends(outline, index))


def inner_angle_deg(outline: Outline, index: int) -> float:
    """The angle at a corner on the inside of the ring, 0 to 360."""
    at = outline[index]
    before, after = outline[index - 1], outline[(index + 1) % len(outline)]
    opened = (bearing_deg(at, after) - bearing_deg(at, before)) % 360
    return (360 - opened) % 360 if is_clockwise(outline) else opened


def is_clockwise(outline: Outline) -> bool:
    """Whether the corners run clockwise on the page."""
    return signed_area_sqft(outline) < 0


def with_side(outline: Outline, index: int, length_ft: float, carries: Carries) -> Outline:
    """The ring with a side of this length: its start and its direction stay."""
    start, _ = _ends(outline, index)
    return _with_end(
        outline, index, toward(start, direction_deg(outline, index), length_ft), carries
    )


def with_direction(outline: Outline, index: int, deg: float, carries: Carries) -> Outline:
    """The ring with a side in this direction: its start and its length stay."""
    start, _ = _ends(outline, index)
    return _with_end(outline, index, toward(start, deg, side_ft(outline, index)), carries)


def with_inner_angle(outline: Outline, index: int, deg: float, carries: Carries) -> Outline:
    """The ring with this inner angle at a corner: the side that leaves it is turned.

    The side that leads to it stays, whatever the other carries.
    """
    back = bearing_deg(outline[index], outline[index - 1])
    way = back - deg if is_clockwise(outline) else back + deg
    turned = with_direction(outline, index, way % 360, carries)
    # The side it is measured from stays: after the first corner "rest" takes in its other end.
    before = (index - 1) % len(outline)
    return with_corner(turned, before, outline[before])


def figure_of(outline: Outline, index: int, figure: Figure) -> float:
    """A corner's figure as it stands: feet, or degrees."""
    if figure in ("right", "up"):
        return outline[index][0 if figure == "right" else 1]
    measures = {"side": side_ft, "direction": direction_deg, "angle": inner_angle_deg}
    return measures[figure](outline, index)


def retyped(outline: Outline, index: int, figure: Figure, text: str, carries: Carries) -> Outline:
    """The ring with one figure as typed; raises OwnerError with the mend for what cannot be."""
    x, y = outline[index]
    if figure == "right":
        return with_corner(outline, index, (parse_feet(text, tr("Right")), y))
    if figure == "up":
        return with_corner(outline, index, (x, parse_feet(text, tr("Up"))))
    if figure == "side":
        length_ft = parse_feet(text, tr("Side"))
        if length_ft < LEAST_SIDE_FT:
            nothing = tr("Side: a side is longer than nothing; type a length such as {side}.")
            raise OwnerError(tr(nothing, side=side_example()))
        return with_side(outline, index, length_ft, carries)
    if figure == "direction":
        return with_direction(outline, index, _degrees(text, tr("Direction")), carries)
    deg = _degrees(text, tr("Inner angle"))
    if not 0 < deg < 360:
        raise OwnerError(tr("Inner angle: it lies between 0 and 360 degrees; 90 is a right angle."))
    return with_inner_angle(outline, index, deg, carries)


def _degrees(text: str, what: str) -> float:
    return parse_number(text.replace("°", ""), what)


def _ends(outline: Outline, index: int) -> tuple[Point, Point]:
    return outline[index], outline[(index + 1) % len(outline)]


def _with_end(outline: Outline, index: int, to: Point, carries: Carries) -> Outline:
    """The ring with the end corner of a side elsewhere, and what it carries moved alike."""
    count = len(outline)
    _, end = _ends(outline, index)
    by = (to[0] - end[0], to[1] - end[1])
    last = (index + 1) % count
    moving = {"end": 1, "next": min(2, count - 2), "rest": max(count - 1 - index, 1)}[carries]
    moved = {(last + step) % count for step in range(moving)}
    return tuple(
        tidy((x + by[0], y + by[1])) if number in moved else (x, y)
        for number, (x, y) in enumerate(outline)
    )
