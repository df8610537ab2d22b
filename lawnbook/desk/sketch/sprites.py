"""Marks with words that keep their size: painted once, then laid down as a picture.

Letters with a rim of paper cost far more than all else on a sketch. A sprite keeps its picture,
which alike sprites share; on a printer, or where it is drawn larger than it is, it is painted with
lines as ever.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QGuiApplication, QPaintEngine, QPainter, QPixmap
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPixmapItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from lawnbook.desk.theme import scale

MOST_BYTES = 48 * 2**20
"""So much of pictures is kept, those used last; a zone's label takes some 12 kB."""
BYTES_PER_DOT = 4

Draw = Callable[[QPainter], None]


class _Shelf:
    """The pictures painted so far; one for the process, as the fonts are."""

    def __init__(self) -> None:
        self._held: OrderedDict[Hashable, QPixmap] = OrderedDict()
        self._bytes = 0

    def picture(self, key: Hashable, box: QRectF, draw: Draw) -> QPixmap:
        """The picture of a key, painted where there is none yet."""
        found = self._held.get(key)
        if found is None:
            found = self._held[key] = _painted(box, draw)
            self._bytes += _bytes_of(found)
            while self._bytes > MOST_BYTES and len(self._held) > 1:
                self._bytes -= _bytes_of(self._held.popitem(last=False)[1])
        else:
            self._held.move_to_end(key)
        return found


_SHELF = _Shelf()


def _bytes_of(picture: QPixmap) -> int:
    return picture.width() * picture.height() * BYTES_PER_DOT


class Sprite(QGraphicsPixmapItem):
    """A mark about its point, in pixels whatever the zoom."""

    def __init__(self) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setShapeMode(QGraphicsPixmapItem.ShapeMode.BoundingRectShape)

    def draw(self, painter: QPainter) -> None:
        """Paint it about the origin."""
        raise NotImplementedError

    def show_drawn(self, key: Hashable, box: QRectF) -> None:
        """Show what `draw` paints into a box of whole pixels; sprites of one key are alike."""
        picture = _SHELF.picture((key, _screen_ratio(), scale()), box, self.draw)
        self.setOffset(box.topLeft())
        self.setPixmap(picture)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The picture as it is, or, where it would be scaled or printed, its lines."""
        enlarged = painter.deviceTransform().m11()
        dots = painter.paintEngine().type() is QPaintEngine.Type.Raster
        if dots and enlarged == self.pixmap().devicePixelRatio():
            painter.drawPixmap(self.offset(), self.pixmap())
        else:
            self.draw(painter)


def _screen_ratio() -> float:
    return QGuiApplication.primaryScreen().devicePixelRatio()


def _painted(box: QRectF, draw: Draw) -> QPixmap:
    ratio = _screen_ratio()
    size = (box.size() * ratio).toSize()
    picture = QPixmap(size)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(QPointF(0, 0) - box.topLeft())
    draw(painter)
    painter.end()
    # What was painted on keeps its painter's buffers, some 100 kB, as long as it is kept itself.
    return picture.copy()


def whole_pixels(box: QRectF) -> QRectF:
    """The smallest box of whole pixels round a box."""
    return QRectF(box.toAlignedRect())
