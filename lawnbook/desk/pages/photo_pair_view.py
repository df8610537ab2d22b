"""Two photographs of a spot side by side on a page, painted as the printed page paints them."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import CAPTION_POINTS, mix, palette, sans
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.sheet.photo_pair import PhotoPair, paint_pair

HEIGHT_PX, GAP_PX = 250, 14


class PhotoPairView(QWidget):
    """Then on the left and now on the right, at one scale where both were measured."""

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Graphic")
        name_control(self, object_name, tr("Photos of then and now"))
        self._pair: PhotoPair | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_pair(self, pair: PhotoPair, described: str) -> None:
        """Show two photographs, or one and an empty frame."""
        self._pair = pair
        self.setAccessibleDescription(described)
        self.update()

    def sizeHint(self) -> QSize:
        """As wide as there is room."""
        return QSize(400, HEIGHT_PX)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The photographs in their frames; a frame without one says so."""
        if self._pair is None:
            return
        p = palette()
        wide = (self.width() - GAP_PX) / 2
        boxes = (
            QRectF(0, 0, wide, self.height()),
            QRectF(wide + GAP_PX, 0, wide, self.height()),
        )
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        for box, shot in zip(boxes, self._pair.shots, strict=True):
            if shot is None or shot.image.isNull():
                painter.fillRect(box, QColor(mix(p.paper, p.ink, 0.06)))
                painter.setPen(QColor(p.quiet))
                painter.setFont(sans(CAPTION_POINTS))
                words = (
                    tr("No photo of this day") if shot is None else tr("This photo cannot be read")
                )
                painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        ground = mix(p.paper, p.ink, 0.06)
        paint_pair(painter, self._pair, boxes, self.devicePixelRatioF(), ground)
        painter.end()
