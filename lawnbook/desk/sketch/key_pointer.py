"""A pointer for the keyboard: a cross on the paper that arrows move, where a tool is in hand.

What a hand does with the mouse (both ends of a distance, a place for a head) is done by it alone:
the arrows move it, with Shift finely, and Enter or Insert presses where it stands.
"""

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from lawnbook.desk.roles import hear_as
from lawnbook.desk.sketch.view import SketchView
from lawnbook.desk.theme import colour, palette
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import told

SIDE_PX = 25
STEP_PX, FINE_PX = 10.0, 1.0
_WAYS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_PRESSES = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Insert)


class KeyPointer(QWidget):
    """The cross of one sketch: it comes with the first arrow, and goes with mouse or tool."""

    def __init__(self, view: SketchView) -> None:
        super().__init__(view.viewport())
        self._view = view
        self._at_px = QPointF()
        hear_as(self, "Graphic")
        name_control(self, "sketch_key_pointer", tr("Pointer"))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.resize(SIDE_PX, SIDE_PX)
        self.hide()
        view.viewport().installEventFilter(self)

    def use(self, event: QKeyEvent) -> bool:
        """Move with an arrow, press with Enter or Insert where it stands; False for other keys."""
        key, held = Qt.Key(event.key()), event.modifiers()
        fine = bool(held & Qt.KeyboardModifier.ShiftModifier)
        if held & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier):
            return False
        if key in _WAYS:
            across, down = _WAYS[key]
            step = FINE_PX if fine else STEP_PX
            self._move(self._start() + QPointF(across * step, down * step))
            return True
        if key in _PRESSES and self.isVisible():
            self._press()
            return True
        return False

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A hand that takes the mouse needs no cross."""
        if event.type() in (QEvent.Type.MouseMove, QEvent.Type.MouseButtonPress):
            self.hide()
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A cross with a light edge, to be seen on any ground."""
        painter = QPainter(self)
        middle, end = SIDE_PX / 2, float(SIDE_PX)
        for ink, wide in ((palette().paper, 4.0), (palette().ink, 1.6)):
            painter.setPen(QPen(colour(ink), wide))
            painter.drawLine(QPointF(0, middle), QPointF(end, middle))
            painter.drawLine(QPointF(middle, 0), QPointF(middle, end))
        painter.end()

    def _start(self) -> QPointF:
        """Where it stands; the middle of the paper where it comes up."""
        return self._at_px if self.isVisible() else QPointF(self._view.viewport().rect().center())

    def _move(self, to: QPointF) -> None:
        paper = self._view.viewport().rect()
        x = min(max(to.x(), paper.left()), paper.right())
        y = min(max(to.y(), paper.top()), paper.bottom())
        self._at_px = QPointF(x, y)
        self.move(round(x - SIDE_PX / 2), round(y - SIDE_PX / 2))
        self.show()
        self.raise_()
        pointer = self._view.pointer(self._at_px, Qt.KeyboardModifier.NoModifier, held=False)
        self.setAccessibleDescription(
            tr(
                "{east} east and {north} north of the zero point",
                east=told(pointer.at_ft[0], 1, "ft"),
                north=told(pointer.at_ft[1], 1, "ft"),
            )
        )
        self._view.tool.move(pointer)

    def _press(self) -> None:
        none = Qt.KeyboardModifier.NoModifier
        tool = self._view.tool
        tool.press(self._view.pointer(self._at_px, none, held=True))
        tool.release(self._view.pointer(self._at_px, none, held=False))
