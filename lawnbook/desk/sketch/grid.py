"""The lines of the paper's grid: how far apart they are at a zoom, and where they run."""

import math
from functools import lru_cache

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainterPath

STEPS_FT = (1, 5, 10, 50, 100)
LEAST_APART_PX = 14
"""Lines are never closer than this."""

SHEET_LINES = 40
"""Lines are drawn by whole sheets of so many, each kept as one path."""


def grid_steps(px_per_ft: float) -> tuple[int, int]:
    """How many feet the fine lines are apart at a zoom, and the coarse ones."""
    fine = next((s for s in STEPS_FT if s * px_per_ft >= LEAST_APART_PX), STEPS_FT[-1])
    return fine, fine * (5 if fine in (1, 10, 100) else 2)


def grid_path(area: QRectF, step_ft: float) -> QPainterPath:
    """The lines of one step through an area of the scene, and somewhat beyond.

    The same path serves as long as the paper is moved by less than a sheet of lines.
    """
    sheet = SHEET_LINES * step_ft
    west, north = math.floor(area.left() / sheet), math.floor(area.top() / sheet)
    east, south = math.ceil(area.right() / sheet), math.ceil(area.bottom() / sheet)
    return _lines((west, east), (north, south), step_ft)


@lru_cache(maxsize=32)
def _lines(across: tuple[int, int], down: tuple[int, int], step_ft: float) -> QPainterPath:
    """The lines through whole sheets, from the first to the last of them, upright ones first."""
    west, east = (each * SHEET_LINES for each in across)
    north, south = (each * SHEET_LINES for each in down)
    path = QPainterPath()
    for x in range(west, east + 1):
        path.moveTo(x * step_ft, north * step_ft)
        path.lineTo(x * step_ft, south * step_ft)
    for y in range(north, south + 1):
        path.moveTo(west * step_ft, y * step_ft)
        path.lineTo(east * step_ft, y * step_ft)
    return path
