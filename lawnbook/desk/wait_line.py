"""A quiet line where work was asked for: what is done, how far it is, and a way to stop it.

It comes only after a moment, so that small work never flashes.
"""

from pathlib import Path

from PySide6.QtCore import QRectF, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.beside import Beside, Make, Stop, Then
from lawnbook.desk.roles import announce
from lawnbook.desk.theme import colour, palette
from lawnbook.desk.widgets import LinkButton, OneLine, name_control
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

SHOWN_AFTER_MS = 150
SLOW_BYTES = 12_000
"""A file from which on reading it may take longer than a window may stand still (50 ms)."""
CALLED_OFF = tr("Cancelled: nothing was written.")
HIGH_PX = 3
STEP_MS = 40
STEPS = 40
RUNNER = 0.25
"""How much of the line moves where nothing can be counted."""


class MovingLine(QWidget):
    """A thin line that fills as work goes on, or a part of which moves where it has no count."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._share: float | None = None
        self._step = 0
        self._timer = QTimer(self)
        self._timer.setInterval(STEP_MS)
        self._timer.timeout.connect(self._move)
        self.setFixedHeight(HIGH_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def run(self) -> None:
        """Begin to move."""
        self._share, self._step = None, 0
        self._timer.start()

    def rest(self) -> None:
        """Move no more."""
        self._timer.stop()

    def fill(self, done: int, of: int) -> None:
        """Show how much is done; of 0 moves."""
        self._share = min(done / of, 1.0) if of else None
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The line, and what is done of it."""
        painter = QPainter(self)
        wide, high = float(self.width()), float(self.height())
        painter.fillRect(self.rect(), colour(palette().rule))
        if self._share is not None:
            done = QRectF(0, 0, wide * self._share, high)
        else:
            left = (1 + RUNNER) * self._step / STEPS - RUNNER
            done = QRectF(wide * left, 0, wide * RUNNER, high)
        painter.fillRect(done, colour(palette().accent))

    def _move(self) -> None:
        self._step = (self._step + 1) % STEPS
        if self._share is None:
            self.update()


class WaitLine(QWidget):
    """Does one piece of work at a time for the part of a page it stands in.

    `shown` tells that the work takes a while, `cancelled` that the owner stopped it, `failed`
    that a mistake of ours is about to be raised; `then` is called after neither of these two.
    """

    shown = Signal()
    cancelled = Signal()
    failed = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, name, tr("How far the work is"))
        self._say = ""
        self._words = OneLine("", self)
        self._words.setObjectName(f"{name}_words")
        self.stop_button = LinkButton(tr("Cancel"), f"{name}_cancel", self)
        self._line = MovingLine(self)
        self._lay_out()
        self.hide()
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SHOWN_AFTER_MS)
        self._soon.timeout.connect(self._come)
        self._beside = Beside(self)
        self._beside.went_on.connect(self._went_on)
        self._beside.failed.connect(self.failed)
        self._beside.ended.connect(self._go)
        self.stop_button.clicked.connect(self.cancel)

    @property
    def runs(self) -> bool:
        """Whether something is being made."""
        return self._beside.runs

    @property
    def in_the_way(self) -> str:
        """Why no other file can be written now, with the mend; empty where it can."""
        name = self._beside.writes
        return (
            tr("{name} is still being written; wait for it, or cancel it.", name=name)
            if name
            else ""
        )

    def do(self, words: str, make: Make, then: Then, *, at_once: bool = False) -> None:
        """Do a piece of work in the place of any before; `at_once` for what takes a moment only.

        `then` gets what came of it, in this thread; an OwnerError is an outcome too.
        """
        self._beside.let_go()
        if at_once:
            then(_outcome(make))
            return
        self._say = words
        self._told(words)
        self._line.run()
        self._soon.start()
        self._beside.start(make, then)

    def write(self, words: str, name: str, make: Make, then: Then, *, at_once: bool) -> None:
        """Do work that writes a file of this name: closing asks the owner while it goes on."""
        self.do(words, make, then, at_once=at_once)
        self._beside.writes = name if self.runs else ""

    def drop(self) -> None:
        """Wait no more for what is being made, without a word."""
        self._beside.let_go()

    def cancel(self) -> None:
        """Stop what is being made; nothing comes of it, unless it is as good as done."""
        if self._beside.stop():
            self.cancelled.emit()

    def finish(self) -> None:
        """Wait until what is being made is there; its outcome is told no more."""
        self._beside.finish()

    def _come(self) -> None:
        self.show()
        self.shown.emit()
        announce(self, self._say)

    def _went_on(self, words: str, done: int, of: int) -> None:
        self._line.fill(done, of)
        count = tr(" {done:,} of {of:,}", done=done, of=of) if of else ""
        self._told(f"{words or self._say}{count}")

    def _told(self, words: str) -> None:
        self._words.say(words)
        self.setAccessibleDescription(words)

    def _go(self) -> None:
        self._beside.writes = ""
        self._soon.stop()
        self._line.rest()
        self.hide()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self._words, 1)
        row.addWidget(self.stop_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 4)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self._line)


def is_small(path: Path) -> bool:
    """Whether a file is read in a moment; one that is not there too."""
    try:
        return path.stat().st_size < SLOW_BYTES
    except OSError:
        return True


def _outcome(make: Make) -> object:
    try:
        return make(Stop())
    except OwnerError as problem:
        return problem
