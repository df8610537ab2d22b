"""A small picture of marks on a page, painted by Qt in the colours of the theme."""

from collections.abc import Callable

from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.charts.marks import Frame, Picture
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import palette, scale
from lawnbook.desk.widgets import name_control
from lawnbook.sheet.ink import Ink

POINTS_PER_INCH = 72.0


class MarksView(QWidget):
    """Shows what `draw(frame)` makes for the room it has; `described` says it in words."""

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Graphic")
        name_control(self, object_name, spoken)
        self._draw: Callable[[Frame], Picture] | None = None
        self._size_pt = (0.0, 0.0)

    def show_picture(
        self,
        draw: Callable[[Frame], Picture],
        described: str,
        height_pt: float,
        width_pt: float | None = None,
    ) -> None:
        """Show another picture, as wide as its place unless a width is given."""
        self._draw = draw
        self._size_pt = (width_pt or 0.0, height_pt)
        fixed, growing = QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding
        self.setSizePolicy(fixed if width_pt else growing, fixed)
        self.setAccessibleDescription(described)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """The picture's size in pixels of this screen."""
        width, height = (round(each * self._px_per_pt()) for each in self._size_pt)
        return QSize(width or 300, height)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Lay the picture out for the room there is, and paint it."""
        # A screen may ask before the page is laid out: there is no room for a picture yet.
        if self._draw is None or 2 * self.height() < self.sizeHint().height():
            return
        per_pt = self._px_per_pt()
        picture = self._draw(Frame(self.width() / per_pt, self.height() / per_pt))
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(per_pt, per_pt)
        Ink(painter, palette()).picture(picture, 0, 0)
        painter.end()

    def _px_per_pt(self) -> float:
        return self.logicalDpiX() / POINTS_PER_INCH * scale()
