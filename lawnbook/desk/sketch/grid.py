"""The lines of the paper's grid: how far apart they are at a zoom, and where they run."""

import math

from PySide6.QtCore import QLineF, QRectF

STEPS_FT = (1, 5, 10, 50, 100)
LEAST_APART_PX = 14
"""Lines are never closer than this."""


def grid_steps(px_per_ft: float) -> tuple[int, int]:
    """How many feet the fine lines are apart at a zoom, and the coarse ones."""
    fine = next((s for s in STEPS_FT if s * px_per_ft >= LEAST_APART_PX), STEPS_FT[-1])
    return fine, fine * (5 if fine in (1, 10, 100) else 2)


def grid_lines(area: QRectF, step_ft: float) -> list[QLineF]:
    """The lines of one step through an area of the scene, upright ones first."""
    first_x, last_x = math.floor(area.left() / step_ft), math.ceil(area.right() / step_ft)
    first_y, last_y = math.floor(area.top() / step_ft), math.ceil(area.bottom() / step_ft)
    upright = [
        QLineF(x * step_ft, area.top(), x * step_ft, area.bottom())
        for x in range(first_x, last_x + 1)
    ]
    level = [
        QLineF(area.left(), y * step_ft, area.right(), y * step_ft)
        for y in range(first_y, last_y + 1)
    ]
    return [*upright, *level]
