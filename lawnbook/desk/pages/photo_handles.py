"""The points of a photo ruler as they stand on the picture: one handle each, and the magnifier.

A handle is a widget, so that Tab reaches it and a screen reader speaks its name; the hand's
presses go to the picture, which gives them to the nearest handle.
"""

from collections.abc import Mapping

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFontMetricsF,
    QKeyEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import QWidget

from lawnbook.charts.palette import DARK
from lawnbook.charts.tokens import BRIGHT, CASING
from lawnbook.desk.pages.photo_marks import Step, spoken, step_of
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import CAPTION_POINTS, sans
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr

FINGER_PX = 44
"""As wide as a fingertip needs (common practice for touch)."""
RING_PX, DOT_PX = 9.0, 2.0
LOUPE_PX, LOUPE_WORDS_PX = 132, 24
STEP_COLOURS: Mapping[Step, str] = {
    "Scale": DARK.water,
    "Crowns": DARK.verdure,
    "Thatch ends": DARK.warn,
    "Deepest roots": DARK.root,
}
"""Bright in every theme: they stand on a photograph, not on paper."""
_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
FAR_PX = 10


def arrow_of(event: QKeyEvent) -> tuple[int, int] | None:
    """The way an arrow key points, ten times as far with Shift; None for another key."""
    way = _ARROWS.get(Qt.Key(event.key()))
    if way is None:
        return None
    far = FAR_PX if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
    return way[0] * far, way[1] * far


class Handle(QWidget):
    """One point. Its signals tell its key: nudged by pixels, let go, to be removed, focused."""

    nudged = Signal(str, int, int)
    let_go = Signal(str)
    removed = Signal(str)
    focused = Signal(str, bool)

    def __init__(self, key: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.key = key
        self._nudging = False
        hear_as(self, "Slider")
        name_control(self, f"mark_{key}", spoken(key))
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.resize(FINGER_PX, FINGER_PX)

    def stand_at(self, at: QPointF, words: str) -> None:
        """Stand with the middle at a place of the picture's view; `words` tell its reading."""
        self.move(round(at.x() - FINGER_PX / 2), round(at.y() - FINGER_PX / 2))
        self.setAccessibleDescription(words)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows nudge it, Delete and Backspace remove it."""
        way = arrow_of(event)
        if way is not None:
            self._nudging = True
            self.nudged.emit(self.key, *way)
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit(self.key)
        else:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Letting an arrow go ends the nudge, however long it was held."""
        if arrow_of(event) is not None and not event.isAutoRepeat():
            self._end()
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Bring it into sight, and the magnifier where keys led here."""
        super().focusInEvent(event)
        by_keys = event.reason() in (
            Qt.FocusReason.TabFocusReason,
            Qt.FocusReason.BacktabFocusReason,
            Qt.FocusReason.OtherFocusReason,
        )
        self.focused.emit(self.key, by_keys)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """A nudge that was not let go yet ends here."""
        super().focusOutEvent(event)
        self._end()
        self.focused.emit("", False)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A ring one sees through, a dot in its middle, and a second ring with the focus."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = QPointF(FINGER_PX / 2, FINGER_PX / 2)
        bright = QColor(STEP_COLOURS[step_of(self.key)])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen in (QPen(QColor(CASING), 5), QPen(bright, 2.4)):
            painter.setPen(pen)
            painter.drawEllipse(middle, RING_PX, RING_PX)
        if self.hasFocus():
            painter.setPen(QPen(QColor(BRIGHT), 2))
            painter.drawEllipse(middle, RING_PX + 5, RING_PX + 5)
        painter.setPen(QPen(QColor(CASING), 1))
        painter.setBrush(bright)
        painter.drawEllipse(middle, DOT_PX, DOT_PX)
        painter.end()

    def _end(self) -> None:
        if self._nudging:
            self._nudging = False
            self.let_go.emit(self.key)


class Loupe(QWidget):
    """The pixels under a point, enlarged, with a cross on the point and the live reading below."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        name_control(self, "photo_loupe", tr("Magnifier"))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.resize(LOUPE_PX, LOUPE_PX + LOUPE_WORDS_PX)
        self._pixmap: QPixmap | None = None
        self._at_px = QPointF()
        self._enlarged = 3.0
        self._words = ""
        self._colour = CASING
        self.hide()

    @property
    def words(self) -> str:
        """The live reading it shows."""
        return self._words

    def show_at(self, view_at: QPointF, pixmap: QPixmap, at_px: QPointF, enlarged: float) -> None:
        """Show the pixels round a point of the picture, above it where there is room."""
        self._pixmap, self._at_px, self._enlarged = pixmap, at_px, enlarged
        room = self.parentWidget()
        x = view_at.x() - self.width() / 2
        y = view_at.y() - self.height() - FINGER_PX
        if y < 4:
            y = view_at.y() + FINGER_PX
        if room is not None:
            x = min(max(x, 4), room.width() - self.width() - 4)
            if y + self.height() > room.height() - 4:
                # Neither above nor below: beside it, on the wider side.
                y = max(4.0, min(y, room.height() - self.height() - 4))
                right = view_at.x() < room.width() / 2
                x = view_at.x() + (FINGER_PX if right else -FINGER_PX - self.width())
        self.move(round(x), round(y))
        self.raise_()
        self.show()
        self.update()

    def say(self, words: str, bright: str) -> None:
        """What is read at the point, and the colour of its step."""
        self._words, self._colour = words, bright
        self.setAccessibleDescription(words)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A round window on the pixels, a cross, and the reading on a dark label."""
        if self._pixmap is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        round_box = QRectF(2, 2, LOUPE_PX - 4, LOUPE_PX - 4)
        window = QPainterPath()
        window.addEllipse(round_box)
        painter.save()
        painter.setClipPath(window)
        painter.fillRect(self.rect(), QColor(CASING))
        half = LOUPE_PX / 2 / self._enlarged
        taken = QRectF(self._at_px.x() - half, self._at_px.y() - half, 2 * half, 2 * half)
        painter.drawPixmap(QRectF(0, 0, LOUPE_PX, LOUPE_PX), self._pixmap, taken)
        self._cross(painter)
        painter.restore()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen in (QPen(QColor(CASING), 4), QPen(QColor(self._colour), 2)):
            painter.setPen(pen)
            painter.drawEllipse(round_box)
        below = QRectF(0, LOUPE_PX, LOUPE_PX, LOUPE_WORDS_PX)
        paint_label(painter, self._words, below, self._colour)
        painter.end()

    def _cross(self, painter: QPainter) -> None:
        middle, gap = LOUPE_PX / 2, 7.0
        for pen in (QPen(QColor(CASING), 3), QPen(QColor(self._colour), 1.2)):
            painter.setPen(pen)
            for a, b in ((0.0, middle - gap), (middle + gap, float(LOUPE_PX))):
                painter.drawLine(QPointF(a, middle), QPointF(b, middle))
                painter.drawLine(QPointF(middle, a), QPointF(middle, b))


def label_size(words: str) -> tuple[float, float]:
    """The room a label on the picture takes, in pixels."""
    metrics = QFontMetricsF(sans(CAPTION_POINTS))
    return metrics.horizontalAdvance(words) + 14, metrics.height() + 4


def paint_label(painter: QPainter, words: str, box: QRectF, bright: str) -> None:
    """Words on a dark ground in the middle of a box, readable on any photograph."""
    wide, high = label_size(words)
    ground = QRectF(0, 0, wide, high)
    ground.moveCenter(box.center())
    dark = QColor(CASING)
    dark.setAlphaF(0.82)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(dark)
    painter.drawRoundedRect(ground, 4, 4)
    painter.setFont(sans(CAPTION_POINTS))
    painter.setPen(QColor(bright))
    painter.drawText(ground, Qt.AlignmentFlag.AlignCenter, words)
