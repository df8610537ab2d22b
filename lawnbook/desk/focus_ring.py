"""A ring round what has the keyboard, for controls whose own painting shows nothing of it."""

from PySide6.QtCore import QEvent, QObject, QRectF, Qt
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from lawnbook.desk.theme import colour, palette

WIDE_PX, ROUND_PX = 2.0, 4.0


class FocusRing(QWidget):
    """Lies over a control, and shows while the control has the keyboard.

    A click needs none.
    """

    def __init__(self, watched: QWidget) -> None:
        super().__init__(watched)
        self.setObjectName(f"{watched.objectName()}_ring")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()
        watched.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Come and go with the keyboard, in the size of the control."""
        kind = event.type()
        if kind == QEvent.Type.FocusIn and isinstance(event, QFocusEvent):
            self._show(by_keys=event.reason() != Qt.FocusReason.MouseFocusReason)
        elif kind == QEvent.Type.FocusOut:
            self.hide()
        elif kind == QEvent.Type.Resize and self.isVisible():
            self._show(by_keys=True)
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The ring, inside the edge."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour(palette().accent), WIDE_PX))
        inset = WIDE_PX / 2
        box = QRectF(self.rect()).adjusted(inset, inset, -inset, -inset)
        painter.drawRoundedRect(box, ROUND_PX, ROUND_PX)
        painter.end()

    def _show(self, *, by_keys: bool) -> None:
        around = self.parentWidget()
        if around is not None and by_keys:
            self.setGeometry(around.rect())
            self.raise_()
        self.setVisible(by_keys)
