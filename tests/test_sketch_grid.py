"""The paper's grid: filled as bars on a screen, dot for dot what Qt draws as lines."""

import pytest
from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QRegion, QTransform
from PySide6.QtWidgets import QApplication

from lawnbook.desk.sketch.grid import draw_grid, grid_path, grid_steps

WIDE, HIGH = 420, 300
PLACES = [(0.4, -13.0, 77.0), (2.5187, 311.4, -98.0), (14.0, 0.0, 0.0), (61.7, -1500.0, 2000.3)]


def picture(zoom: tuple[float, float, float], clip: QRegion, *, bars: bool, ink: QColor) -> QImage:
    """Both sorts of lines at a zoom, as bars or as Qt's own lines."""
    image = QImage(WIDE, HIGH, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    scale, across, down = zoom
    painter = QPainter(image)
    painter.setClipRegion(clip)
    painter.setWorldTransform(QTransform(scale, 0, 0, scale, -across, -down))
    area = painter.worldTransform().inverted()[0].mapRect(QRectF(0, 0, WIDE, HIGH))
    pen = QPen(ink, 1.0)
    pen.setCosmetic(True)
    for step in grid_steps(scale):
        if bars:
            draw_grid(painter, area, step, pen)
        else:
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPath(grid_path(area, step))
    painter.end()
    return image


@pytest.mark.parametrize("zoom", PLACES)
@pytest.mark.parametrize("strength", [255, 40])
@pytest.mark.parametrize("strips", [False, True])
def test_bars_are_the_lines_dot_for_dot(
    qapp: QApplication, zoom: tuple[float, float, float], strength: int, strips: bool
) -> None:
    whole = QRegion(QRect(0, 0, WIDE, HIGH))
    clip = QRegion(0, 0, WIDE, 7) + QRegion(0, 0, 7, HIGH) if strips else whole
    ink = QColor(20, 60, 90, strength)
    drawn = picture(zoom, clip, bars=True, ink=ink)
    assert drawn == picture(zoom, clip, bars=False, ink=ink)
    blank = QImage(WIDE, HIGH, QImage.Format.Format_RGB32)
    blank.fill(0xFFFFFFFF)
    assert drawn != blank


def test_where_dots_are_finer_than_pixels_it_is_lines(qapp: QApplication) -> None:
    def drawn(*, bars: bool) -> QImage:
        image = QImage(200, 200, QImage.Format.Format_RGB32)
        image.setDevicePixelRatio(2.0)
        image.fill(0xFFFFFFFF)
        painter = QPainter(image)
        painter.scale(20.0, 20.0)
        pen = QPen(QColor("#000000"), 1.0)
        pen.setCosmetic(True)
        area = QRectF(0, 0, 5, 5)
        if bars:
            draw_grid(painter, area, 1.0, pen)
        else:
            painter.setPen(pen)
            painter.drawPath(grid_path(area, 1.0))
        painter.end()
        return image

    assert drawn(bars=True) == drawn(bars=False)
