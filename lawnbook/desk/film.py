"""The years as a film: the days from one to another, at an even pace on a timer."""

from datetime import date, timedelta

from PySide6.QtCore import QElapsedTimer, QObject, QRect, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from lawnbook.charts.tokens import VERDICT_POINTS
from lawnbook.desk.looks import is_still
from lawnbook.desk.theme import colour, palette, serif

SECONDS_A_YEAR = 6.0
FRAME_MS = 33
DAYS_A_YEAR = 365.25
VEIL = 0.68
"""How much of the paper lies over what the veil covers."""
OVER_WORDS_PX, BESIDE_WORDS_PX = 14, 24
"""Paper above and below the words on a veil, and what is left free beside them."""


class Film(QObject):
    """Tells day after day until the last; `passed` is each frame's day, `ended` where it stopped.

    The pace goes by the clock, so that a slow machine shows fewer days, not a longer film. Where
    motion is to be left out, one still picture of each month stands in for its days.
    """

    passed = Signal(object)
    ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._starts = self._ends = self._on = date.min
        self._clock = QElapsedTimer()
        self._timer = QTimer(self)
        self._timer.setInterval(FRAME_MS)
        self._timer.timeout.connect(lambda: self.show_at(self._clock.elapsed() / 1000))

    @property
    def runs(self) -> bool:
        """Whether it is running."""
        return self._timer.isActive()

    def start(self, starts: date, ends: date) -> None:
        """Run from one day to another; nothing happens where there is none to show."""
        if starts >= ends:
            return
        self._starts, self._ends, self._on = starts, ends, starts
        self._clock.start()
        self._timer.start()
        self.passed.emit(starts)

    def stop(self) -> None:
        """Stop at the day that is shown; one that does not run stays as it is."""
        if self.runs:
            self._timer.stop()
            self.ended.emit(self._on)

    def halt(self) -> None:
        """Stop without a word: another day is shown already."""
        self._timer.stop()

    def show_at(self, seconds: float) -> None:
        """Show the day of so many seconds after the start, and stop after the last."""
        days = int(seconds / SECONDS_A_YEAR * DAYS_A_YEAR)
        on = min(self._starts + timedelta(days=days), self._ends)
        if is_still() and on != self._ends:
            on = max(on.replace(day=1), self._starts)
        if on != self._on:
            self._on = on
            self.passed.emit(on)
        if on == self._ends:
            self.stop()


class Veil(QWidget):
    """Paper over a widget whose figures are of another day: it must not look fresh."""

    def __init__(self, covered: QWidget) -> None:
        super().__init__(covered)
        self._covered = covered
        self._words = ""
        self.setObjectName("veil")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()

    def lower_over(self, words: str = "") -> None:
        """Cover all of the widget, whatever it shows, with quiet words on it."""
        self._words = words
        self.setAccessibleName(words)
        self.setGeometry(self._covered.rect())
        self.show()
        self.raise_()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A sheet of paper that lets a little through."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), colour(palette().paper, VEIL))
        if self._words:
            self._write(painter)

    def _write(self, painter: QPainter) -> None:
        """The words on a strip of paper across, so that nothing shows through behind them."""
        painter.setFont(serif(VERDICT_POINTS))
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        # Of a page that scrolls only a part is in sight.
        seen = self.visibleRegion().boundingRect()
        upper = seen.adjusted(BESIDE_WORDS_PX, 0, -BESIDE_WORDS_PX, -seen.height() // 3)
        words = painter.boundingRect(upper, flags.value, self._words)
        strip = QRect(0, words.top() - OVER_WORDS_PX, self.width(), words.height())
        strip.setHeight(words.height() + 2 * OVER_WORDS_PX)
        painter.fillRect(strip, colour(palette().paper))
        painter.setPen(colour(palette().rule))
        painter.drawLine(strip.topLeft(), strip.topRight())
        painter.drawLine(strip.bottomLeft(), strip.bottomRight())
        painter.setPen(colour(palette().ink))
        painter.drawText(upper, flags.value, self._words)
