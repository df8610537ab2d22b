"""How the owner likes to draw: the steps of the arrow keys, the grid, and what points snap to."""

import math

from lawnbook.frozen import dataclass
from lawnbook.yard.numbers import feet_inches, plain

SHORTEST_STEP_FT = 0.25 / 12
"""A quarter of an inch: a sketch is kept to an eighth."""

LONGEST_STEP_FT = 100.0


@dataclass(frozen=True, slots=True)
class Habits:
    """Kept by the window from one day to the next; lengths in feet.

    `grid_ft` is the grid's step, None for the finest that can be seen at the zoom.
    `sees_through` lets a picture under the sketch be seen through zones and features.
    """

    step_ft: float = 1.0
    fine_ft: float = 0.25
    grid_ft: float | None = None
    snaps: bool = True
    sees_through: bool = False


def length_words(feet: float) -> str:
    """A short length that reads back as itself: `3"`, `1' 6"`, "0.33 ft"."""
    inches = feet * 12
    if math.isclose(inches, round(inches), abs_tol=1e-6):
        return feet_inches(feet) if feet >= 1 else f'{round(inches)}"'
    eighths = inches * 8
    if feet < 1 and math.isclose(eighths, round(eighths), abs_tol=1e-6):
        return f'{plain(inches, 3)}"'
    return f"{plain(feet, 4)} ft"
