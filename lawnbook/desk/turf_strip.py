"""A strip of turf in section for the welcome page: left as it is, right as it is meant to be."""

import random

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.desk.theme import colour, mix, palette

HEIGHT_PX = 150
CROWNS_Y = 34.0
THATCH_PX = (30.0, 9.0)
ROOTS_PX = (16.0, 84.0)
LEAST_HEIGHT_PX = 84
SEED = 7


class TurfStrip(QWidget):
    """Thatch thins and roots go deeper from left to right. A picture only: it says nothing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("turf_strip")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Maximum)
        self.setAccessibleName("")

    def sizeHint(self) -> QSize:
        """As wide as the page."""
        return QSize(400, HEIGHT_PX)

    def minimumSizeHint(self) -> QSize:
        """A picture makes room for words."""
        return QSize(0, LEAST_HEIGHT_PX)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Soil, thatch, roots, blades; the same at every repaint."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chance = random.Random(SEED)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(palette().soil))
        painter.drawPath(self._band(CROWNS_Y, self.height() - 2.0, chance))
        self._paint_roots(painter, chance)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(palette().thatch))
        painter.drawPath(self._thatch())
        self._paint_blades(painter, chance)

    def _share(self, x: float) -> float:
        return x / max(self.width(), 1)

    def _thatch_at(self, x: float) -> float:
        first, last = THATCH_PX
        return first + (last - first) * self._share(x)

    def _band(self, top: float, bottom: float, chance: random.Random) -> QPainterPath:
        path = QPainterPath(QPointF(0, top))
        path.lineTo(self.width(), top)
        for x in range(self.width(), -1, -12):
            path.lineTo(x, bottom - chance.uniform(0, 5))
        path.lineTo(0, bottom - 2.0)
        path.closeSubpath()
        return path

    def _thatch(self) -> QPainterPath:
        path = QPainterPath(QPointF(0, CROWNS_Y))
        path.lineTo(self.width(), CROWNS_Y)
        for x in range(self.width(), -1, -8):
            path.lineTo(x, CROWNS_Y + self._thatch_at(x))
        path.lineTo(0, CROWNS_Y + self._thatch_at(0))
        path.closeSubpath()
        return path

    def _paint_roots(self, painter: QPainter, chance: random.Random) -> None:
        painter.setPen(QPen(colour(palette().root, 0.8), 1.1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for x in range(6, self.width(), 11):
            first, last = ROOTS_PX
            deep = (first + (last - first) * self._share(x)) * chance.uniform(0.6, 1.1)
            top = CROWNS_Y + self._thatch_at(x)
            deep = min(deep, self.height() - top - 8)
            bend = chance.uniform(-9, 9)
            path = QPainterPath(QPointF(x, top))
            path.cubicTo(x + bend, top + deep / 3, x - bend, top + deep * 0.7, x + bend, top + deep)
            painter.drawPath(path)

    def _paint_blades(self, painter: QPainter, chance: random.Random) -> None:
        p = palette()
        for x in range(2, self.width(), 4):
            shade = mix(p.verdure, p.ink, chance.uniform(0.0, 0.25))
            painter.setPen(QPen(colour(shade), 1.5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            lean, high = chance.uniform(-6, 6), chance.uniform(16, 31)
            path = QPainterPath(QPointF(x, CROWNS_Y))
            path.quadTo(x, CROWNS_Y - high * 0.6, x + lean, CROWNS_Y - high)
            painter.drawPath(path)
