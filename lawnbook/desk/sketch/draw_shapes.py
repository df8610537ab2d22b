"""Whole shapes of a few points, and what the drawing tools say of each way to draw."""

import math
from collections.abc import Callable
from typing import Literal

from lawnbook.desk.sketch.side_words import circle_hint, corners_hint
from lawnbook.reading import tr
from lawnbook.yard.curves import LARGEST_RADIUS_FT, circle
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import tidy, yard_bounds_ft
from lawnbook.yard.notebook import Notebook

Way = Literal["corners", "rectangle", "circle"]
"""How an outline is drawn."""

APART_FT = 4.0
"""How far a shape without a place of its own is put from what is drawn."""

SMALLEST_RADIUS_FT = 0.25

HINTS: dict[Way, Callable[[], str]] = {
    "corners": corners_hint,
    "rectangle": lambda: tr(
        "Drag a rectangle, or click along one side and then its depth, or type two sides."
    ),
    "circle": circle_hint,
}
ARC_END = tr("Click where the curve ends. Backspace takes its middle point back.")
ON_THE_RIM = tr("Click on the rim, or type the radius and Enter.")
THE_DEPTH = tr("Click how deep it goes, or type the depth and Enter.")


def round_shape(middle: Point, radius_ft: float) -> Outline:
    """A circle, no smaller and no larger than can be drawn."""
    return circle(middle, min(max(radius_ft, SMALLEST_RADIUS_FT), LARGEST_RADIUS_FT))


def on_side(start: Point, end: Point, deep: Point) -> Outline:
    """The rectangle on a side that reaches as deep as a point lies, on the point's side."""
    length = math.dist(start, end)
    left = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    rise = (deep[0] - start[0]) * left[0] + (deep[1] - start[1]) * left[1]
    by = (rise * left[0], rise * left[1])
    return (
        start,
        end,
        tidy((end[0] + by[0], end[1] + by[1])),
        tidy((start[0] + by[0], start[1] + by[1])),
    )


def square_toward(corner: Point, way_deg: float, toward: Point) -> float:
    """The direction square to another, on the side of it where a point lies; left on the line."""
    turn = math.radians(way_deg)
    right = (toward[0] - corner[0]) * math.cos(turn) - (toward[1] - corner[1]) * math.sin(turn)
    return (way_deg + (90 if right > 0 else -90)) % 360


def along_way(corner: Point, way_deg: float, along_ft: float, aside_ft: float) -> Outline:
    """The rectangle from a corner along a direction, to the left of it."""
    turn = math.radians(way_deg)
    ahead = (corner[0] + along_ft * math.sin(turn), corner[1] + along_ft * math.cos(turn))
    deep = (-aside_ft * math.cos(turn), aside_ft * math.sin(turn))
    return (
        corner,
        tidy(ahead),
        tidy((ahead[0] + deep[0], ahead[1] + deep[1])),
        tidy((corner[0] + deep[0], corner[1] + deep[1])),
    )


def beside_drawn(notebook: Notebook) -> Point:
    """A place to the right of all that is drawn; (0, 0) where nothing is."""
    if not (notebook.zones or notebook.features):
        return (0.0, 0.0)
    _, south, east, _ = yard_bounds_ft(notebook)
    return (float(round(east + APART_FT)), float(round(south)))
