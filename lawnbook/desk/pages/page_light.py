"""A light over what was chosen by keys on a page that is shown."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from lawnbook.charts.palette import PRINT
from lawnbook.desk.theme import colour

_TINT, _EDGE_PX, _ROUND_PX = 0.12, 1.5, 3.0
_ROOM_PX = 1.5


class PageLight(QWidget):
    """A tint with an edge, in the colours of the white page it lies on, whatever the theme."""

    def __init__(self, page: QWidget) -> None:
        super().__init__(page)
        self.setObjectName(f"{page.objectName()}_light")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hide()

    def lie_over(self, box: QRectF) -> None:
        """Cover a place of the page with a little room around it, and show."""
        room = box.adjusted(-_ROOM_PX, -_ROOM_PX, _ROOM_PX, _ROOM_PX)
        self.setGeometry(room.toAlignedRect())
        self.raise_()
        self.show()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The tint and its edge."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour(PRINT.accent), _EDGE_PX))
        painter.setBrush(colour(PRINT.accent, _TINT))
        inset = _EDGE_PX / 2
        box = QRectF(self.rect()).adjusted(inset, inset, -inset, -inset)
        painter.drawRoundedRect(box, _ROUND_PX, _ROUND_PX)
        painter.end()
