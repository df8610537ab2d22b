"""How the owner likes to draw: the steps of the arrow keys, the grid, and what points snap to."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Habits:
    """Kept by the window from one day to the next; lengths in feet.

    `grid_ft` is the grid's step, None for the finest that can be seen at the zoom.
    """

    step_ft: float = 1.0
    fine_ft: float = 0.25
    grid_ft: float | None = None
    snaps: bool = True
