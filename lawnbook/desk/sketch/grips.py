"""The handles of what is chosen as items of the scene, with the lengths of its sides."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.choosing import Choice, Handle, handles_of, is_locked
from lawnbook.desk.sketch.items import IGNORES_ZOOM, HandleItem, scene_point
from lawnbook.desk.sketch.lengths import ROOM_PX, length_items
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.yard.records import Record


def grips_of(
    record: Record | None, choice: Choice, palette: Palette, ft_per_px: float
) -> list[QGraphicsItem]:
    """Handles where they have room, or a lock, then the lengths of the sides.

    The chosen corner is filled.
    """
    grips: list[QGraphicsItem] = []
    if is_locked(record):
        grips.append(_lock_of(record, palette))
    for handle in handles_of(record):
        if handle.kind == "middle" and not _has_room(record, handle, ft_per_px):
            continue
        corner = (handle.ring, handle.index)
        chosen = handle.kind == "corner" and corner == (choice.ring, choice.corner)
        grip = HandleItem(handle.kind, palette, chosen=chosen)
        grip.setPos(scene_point(handle.at_ft))
        grips.append(grip)
    for ring in rings_of(record):
        grips += length_items(ring, palette, ft_per_px)
    return grips


class LockItem(QGraphicsItem):
    """A small closed lock in place of the handles."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self.setFlag(IGNORES_ZOOM)
        self.setZValue(80)
        self._edge, self._fill = QColor(palette.accent), QColor(palette.card)

    def boundingRect(self) -> QRectF:
        """Eleven pixels about its point."""
        return QRectF(-11, -11, 22, 22)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """A disc with a bow over a body."""
        painter.setPen(QPen(self._edge, 1.4))
        painter.setBrush(self._fill)
        painter.drawEllipse(QPointF(0, 0), 10, 10)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawArc(QRectF(-3, -6, 6, 8), 0, 180 * 16)
        painter.setBrush(self._edge)
        painter.drawRect(QRectF(-4.5, -1.5, 9, 6))


def _lock_of(record: Record | None, palette: Palette) -> LockItem:
    """The lock on the first corner of a shape, or beside the place of a head or spot."""
    lock = LockItem(palette)
    corners = [corner for ring in rings_of(record)[:1] for corner in ring]
    at = getattr(record, "at_ft", None)
    lock.setPos(scene_point(corners[0] if corners else at or (0.0, 0.0)))
    lock.setVisible(bool(corners) or at is not None)
    return lock


def _has_room(record: Record | None, handle: Handle, ft_per_px: float) -> bool:
    corner = rings_of(record)[handle.ring][handle.index]
    across = abs(corner[0] - handle.at_ft[0]) + abs(corner[1] - handle.at_ft[1])
    return across > ROOM_PX / 2.5 * ft_per_px
