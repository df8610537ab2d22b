"""The small mark at a point that snapped: one of its own for each reason, so that it is seen."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from lawnbook.charts.palette import Palette
from lawnbook.desk import theme
from lawnbook.desk.sketch.items import scene_point
from lawnbook.desk.sketch.sprites import Sprite

if TYPE_CHECKING:
    from lawnbook.desk.sketch.snapping import Snap, SnapKind

REACH_PX = 8.0
OVER_HANDLES = 82.0
_BOX = QRectF(-REACH_PX - 3, -REACH_PX - 3, 2 * REACH_PX + 6, 2 * REACH_PX + 6)
"""The pixels about its point that a mark is painted in."""


class SnapMark(Sprite):
    """A square on a corner, a triangle halfway, a cross on an edge, a right angle where it is
    square, two strokes where it is parallel, dots on the grid, a ring where there is no reason.

    A picture: every step of a drag shows a mark, and a ring with its rim is slow to stroke.
    """

    def __init__(self, snap: "Snap", palette: Palette) -> None:
        super().__init__()
        self.setZValue(OVER_HANDLES)
        self.setPos(scene_point(snap.at_ft))
        self.kind: SnapKind = snap.kind
        self._ink = QColor(palette.accent if snap.kind in ("grid", "free") else palette.water)
        self._halo = theme.colour(palette.paper, 0.85)
        self.show_drawn(("snap", self.kind, self._ink.rgba(), self._halo.rgba()), _BOX)

    def draw(self, painter: QPainter) -> None:
        """The mark, with a rim of paper so that it is seen on any ground."""
        for pen in (QPen(self._halo, 4.4), QPen(self._ink, 1.8)):
            pen.setCapStyle(Qt.PenCapStyle.RoundCap)
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            _stroke(painter, self.kind, pen.color())


def _stroke(painter: QPainter, kind: "SnapKind", ink: QColor) -> None:
    """Draw the lines of a mark with the painter's pen."""
    if kind == "corner":
        painter.drawRect(QRectF(-6, -6, 12, 12))
    elif kind == "middle":
        painter.drawPolygon(QPolygonF([QPointF(0, -7), QPointF(7, 5), QPointF(-7, 5)]))
    elif kind in ("edge", "crossing"):
        # One by one: lines that cross, drawn together, cost ten times as much.
        painter.drawLine(QLineF(-5, -5, 5, 5))
        painter.drawLine(QLineF(-5, 5, 5, -5))
        if kind == "crossing":
            painter.drawEllipse(QPointF(0, 0), 7.5, 7.5)
    elif kind == "square":
        painter.drawPolyline(QPolygonF([QPointF(-6, -7), QPointF(-6, 6), QPointF(7, 6)]))
        painter.drawPolyline(QPolygonF([QPointF(-6, 0), QPointF(0, 0), QPointF(0, 6)]))
    elif kind == "parallel":
        painter.drawLines([QLineF(-5, 5, 1, -7), QLineF(0, 7, 6, -5)])
    elif kind == "line":
        painter.drawLines([QLineF(-7, 0, 7, 0), QLineF(0, -3, 0, 3)])
    elif kind == "grid":
        painter.setBrush(ink)
        for x, y in ((-6, 0), (6, 0), (0, -6), (0, 6), (0, 0)):
            painter.drawEllipse(QPointF(x, y), 0.8, 0.8)
    else:
        painter.drawEllipse(QPointF(0, 0), 3.5, 3.5)
        if kind == "place":
            painter.drawEllipse(QPointF(0, 0), 7.5, 7.5)
