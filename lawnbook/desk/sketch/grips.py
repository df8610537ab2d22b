"""The handles of what is chosen as items of the scene, with the lengths of its sides."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsScene,
    QStyleOptionGraphicsItem,
    QWidget,
)

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.choosing import Choice, Handle, handles_of, is_locked
from lawnbook.desk.sketch.items import IGNORES_ZOOM, HandleItem, scene_point
from lawnbook.desk.sketch.lengths import ROOM_PX, LengthItem, told_sides, turns_clockwise
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.records import Record

Part = tuple[str, int, int]
"""A handle by its kind, its ring, and its number there."""


@dataclass(frozen=True, slots=True)
class Gripped:
    """What has handles: the record as it is drawn, what of it is chosen, and the zoom."""

    record: Record | None
    choice: Choice
    ft_per_px: float


class GripLayer:
    """Handles where they have room, or a lock, then the lengths of the sides.

    The chosen corner is filled. Items are kept: a step of a drag changes only those that move.
    """

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._handles: dict[Part, HandleItem] = {}
        self._places: dict[Part, Point] = {}
        self._filled: Part | None = None
        self._lengths: dict[tuple[Point, Point], LengthItem] = {}
        self._lock: LockItem | None = None
        self._dress: tuple[Palette | None, bool] = (None, False)

    @property
    def shown(self) -> tuple[tuple[Point, ...], tuple[LengthItem, ...]]:
        """Where the handles that are shown stand, in feet, and the lengths that are shown."""
        lengths = tuple(each for each in self._lengths.values() if each.isVisible())
        return tuple(self._places.values()), lengths

    def show(self, gripped: Gripped | None, palette: Palette) -> None:
        """Show the handles of something, or none."""
        dress = (palette, is_metric())
        if any(a is not b for a, b in zip(dress, self._dress, strict=True)):
            self._show_handles({}, None, palette)
            self._show_lengths({}, 1.0)
            self._dress = dress
        if self._lock is not None:
            self._scene.removeItem(self._lock)
            self._lock = None
        if gripped is None:
            self._show_handles({}, None, palette)
            self._show_lengths({}, 1.0)
            return
        choice, record = gripped.choice, gripped.record
        if is_locked(record):
            self._lock = _lock_of(record, palette)
            self._scene.addItem(self._lock)
        handles: dict[Part, Handle] = {(h.kind, h.ring, h.index): h for h in _roomy(gripped)}
        filled = ("corner", choice.ring, choice.corner) if choice.corner is not None else None
        self._show_handles(handles, filled, palette)
        self._show_lengths(_told(gripped, palette, self._lengths), 1 / gripped.ft_per_px)

    def _show_handles(
        self, wanted: Mapping[Part, Handle], filled: Part | None, palette: Palette
    ) -> None:
        for part in [each for each in self._handles if each not in wanted]:
            self._scene.removeItem(self._handles.pop(part))
            del self._places[part]
        for part, handle in wanted.items():
            item = self._handles.get(part)
            if item is None:
                item = self._handles[part] = HandleItem(part[0], palette, chosen=part == filled)
                self._scene.addItem(item)
            elif (part == filled) != (part == self._filled):
                item.dress(palette, chosen=part == filled)
            if self._places.get(part) != handle.at_ft:
                item.setPos(scene_point(handle.at_ft))
                self._places[part] = handle.at_ft
        self._filled = filled

    def _show_lengths(
        self, wanted: dict[tuple[Point, Point], LengthItem], px_per_ft: float
    ) -> None:
        """Show these lengths, but for those that would lie on one before them."""
        for side, item in self._lengths.items():
            if wanted.get(side) is not item:
                self._scene.removeItem(item)
        seen: list[QPolygonF] = []
        for side, item in wanted.items():
            if self._lengths.get(side) is not item:
                self._scene.addItem(item)
            box = item.turned_box().translated(item.pos() * px_per_ft)
            item.setVisible(not any(box.intersects(other) for other in seen))
            if item.isVisible():
                seen.append(box)
        self._lengths = wanted


def _roomy(gripped: Gripped) -> list[Handle]:
    rings, room_ft = rings_of(gripped.record), ROOM_PX / 2.5 * gripped.ft_per_px
    return [
        each
        for each in handles_of(gripped.record)
        if each.kind != "middle" or _has_room(rings, each, room_ft)
    ]


def _told(
    gripped: Gripped, palette: Palette, held: Mapping[tuple[Point, Point], LengthItem]
) -> dict[tuple[Point, Point], LengthItem]:
    """The lengths of the sides with room for them; those that are held already are kept."""
    found: dict[tuple[Point, Point], LengthItem] = {}
    for ring in rings_of(gripped.record):
        told = told_sides(ring, gripped.ft_per_px)
        outside_is_left = bool(told) and turns_clockwise(ring)
        for start, end in told:
            kept = held.get((start, end))
            if kept is None or kept.above != outside_is_left:
                kept = LengthItem(start, end, above=outside_is_left, palette=palette)
            found[start, end] = kept
    return found


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


def _has_room(rings: Sequence[Outline], handle: Handle, room_ft: float) -> bool:
    corner, at = rings[handle.ring][handle.index], handle.at_ft
    return abs(corner[0] - at[0]) + abs(corner[1] - at[1]) > room_ft
