"""How the owner likes to draw: the steps of the arrow keys, the grid, and what points snap to."""

import math

from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric
from lawnbook.yard.amounts import stored, trimmed
from lawnbook.yard.numbers import feet_inches, plain

SHORTEST_STEP_FT = 0.25 / 12
"""A quarter of an inch: a sketch is kept to an eighth."""

LONGEST_STEP_FT = 100.0
STEP_M, FINE_M = 0.25, 0.05
"""The usual steps of the arrow keys for a metric reader."""


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


def steps_of(habits: Habits) -> tuple[float, float]:
    """How far the arrow keys move, without and with Shift, in feet.

    The steps nobody changed, a foot and three inches, are a quarter of a metre and 5 cm to a
    metric reader.
    """
    usual = Habits()
    ours = ((habits.step_ft, usual.step_ft, STEP_M), (habits.fine_ft, usual.fine_ft, FINE_M))
    step, fine = (
        stored(metres, "ft") if is_metric() and held == common else held
        for held, common, metres in ours
    )
    return step, fine


def length_words(feet: float) -> str:
    """A short length that reads back as itself: `3"`, `1' 6"`, "0.33 ft", "0.25 m"."""
    if is_metric():
        return trimmed(feet, 4, "ft")
    inches = feet * 12
    if math.isclose(inches, round(inches), abs_tol=1e-6):
        return feet_inches(feet) if feet >= 1 else f'{round(inches)}"'
    eighths = inches * 8
    if feet < 1 and math.isclose(eighths, round(eighths), abs_tol=1e-6):
        return f'{plain(inches, 3)}"'
    return trimmed(feet, 4, "ft")
