"""The lines of the paper's grid: how far apart they are at a zoom, and where they run."""

import math
from functools import lru_cache

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QPaintEngine,
    QPainter,
    QPainterPath,
    QPen,
    QPixmap,
    QTransform,
)

from lawnbook.reading import is_metric
from lawnbook.yard.amounts import stored

STEPS = ((1, 5), (5, 10), (10, 50), (50, 100), (100, 500))
STEPS_M = ((0.5, 1), *STEPS)
"""How far the fine lines may be apart, and the coarse ones with them: in feet, and in metres."""
LEAST_APART_PX = 14
"""Lines are never closer than this."""

SHEET_LINES = 40
"""Lines are drawn by whole sheets of so many, each kept as one path."""


def grid_steps(px_per_ft: float) -> tuple[float, float]:
    """How many feet the fine lines are apart at a zoom, and the coarse ones.

    They are round numbers of feet, or of metres to a metric reader.
    """
    steps: tuple[tuple[float, float], ...] = STEPS_M if is_metric() else STEPS
    unit_px = stored(1.0, "ft") * px_per_ft
    fine, coarse = next((s for s in steps if s[0] * unit_px >= LEAST_APART_PX), steps[-1])
    return stored(fine, "ft"), stored(coarse, "ft")


def draw_grid(painter: QPainter, area: QRectF, step_ft: float, pen: QPen) -> None:
    """Draw the lines of one step through an area of the scene, in a cosmetic pen of one dot.

    On a screen they are laid as dots, which costs a fraction of what lines do, dot for dot the
    same; where dots are finer than pixels, and on paper, they are lines.
    """
    world = painter.worldTransform()
    dots = painter.paintEngine().type() is QPaintEngine.Type.Raster
    if dots and not world.isRotating() and painter.deviceTransform().m11() == world.m11():
        painter.save()
        painter.resetTransform()
        _draw_dots(painter, area, step_ft, pen.color(), world)
        painter.restore()
    else:
        painter.setPen(pen)
        painter.drawPath(grid_path(area, step_ft))


def _draw_dots(
    painter: QPainter, area: QRectF, step_ft: float, colour: QColor, world: QTransform
) -> None:
    """The upright lines as one row of dots that is laid again and again, the level ones as bars.

    Qt fills a level bar at once, an upright one dot by dot.
    """
    box = world.mapRect(area).toAlignedRect()
    if box.isEmpty():
        return
    across, down = _lines_px(area, step_ft, world)
    row = QPixmap(box.width(), 1)
    row.fill(Qt.GlobalColor.transparent)
    dots = QPainter(row)
    dots.setCompositionMode(QPainter.CompositionMode.CompositionMode_Source)
    for x in across:
        dots.fillRect(x - box.left(), 0, 1, 1, colour)
    dots.end()
    painter.drawTiledPixmap(box, row)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawRects([QRect(box.left(), y, box.width(), 1) for y in down])


def _lines_px(area: QRectF, step_ft: float, world: QTransform) -> tuple[list[int], list[int]]:
    """Where the upright lines stand and the level ones: Qt's begin at the dot they lie in."""
    west, east = math.floor(area.left() / step_ft), math.ceil(area.right() / step_ft)
    north, south = math.floor(area.top() / step_ft), math.ceil(area.bottom() / step_ft)
    across = [_dot(x * step_ft * world.m11() + world.dx()) for x in range(west, east + 1)]
    down = [_dot(y * step_ft * world.m22() + world.dy()) for y in range(north, south + 1)]
    return across, down


def _dot(at_px: float) -> int:
    """The dot in which a place lies for Qt, which reckons in 64ths."""
    return int(at_px * 64) >> 6


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
