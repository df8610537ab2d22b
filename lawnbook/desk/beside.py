"""Work beside the window's: piece after piece in a thread, the window awake meanwhile.

The one way to do it. A piece works on frozen values and gets a `Stop`, by which it tells how far it
is and leaves off where nobody waits for it any more. The thread touches nothing of Qt: a timer of
the window's own thread looks for what it laid down, so that nothing is sent to what is deleted, or
out of a program that ends, and what a thread held is always let go in the window's thread.
"""

from collections import deque
from collections.abc import Callable
from functools import partial
from threading import Event, Lock, Thread
from types import TracebackType

from PySide6.QtCore import QObject, QTimer, Signal

from lawnbook.desk.collecting import COLLECTING_LATER
from lawnbook.reading import reading, reading_here
from lawnbook.yard.problems import GivenUpError, OwnerError

LOOK_MS = 15
"""How often a running piece of work is looked at."""

Then = Callable[[object], None]
"""Takes what came of a piece of work; an OwnerError is an outcome too."""
HowFar = tuple[str, int, int]
"""What is done now, how much of it, of how much; 0 of 0 where that cannot be counted."""


class Stop:
    """Goes with a piece of work: how far it is, and whether it is still waited for."""

    def __init__(self) -> None:
        self._asked = Event()
        self._deciding = Lock()
        self._is_settled = False
        self.how_far: HowFar = ("", 0, 0)

    @property
    def is_asked(self) -> bool:
        """Whether nobody waits for the work any more."""
        return self._asked.is_set()

    def ask(self) -> bool:
        """Have the work leave off at its next step; one without steps goes on unseen.

        False where the work is past its last step: what it writes is there in a moment.
        """
        with self._deciding:
            if not self._is_settled:
                self._asked.set()
        return self.is_asked

    def step(self, done: int = 0, of: int = 0, words: str = "") -> None:
        """Tell how far the work is. Raises GivenUpError where nobody waits for it any more."""
        self.how_far = (words, done, of)
        self.look()

    def look(self) -> None:
        """Raises GivenUpError where nobody waits for the work any more."""
        if self.is_asked:
            raise GivenUpError

    def settle(self) -> None:
        """The last step: from here on the work is done to its end, whoever asks it to stop.

        So that nothing is there after all of which the owner was told that it is not. Raises
        GivenUpError where nobody waits for it any more.
        """
        with self._deciding:
            self.look()
            self._is_settled = True


Make = Callable[[Stop], object]
"""A piece of work. It holds frozen values only: no widget, and nothing that another thread uses."""


class _Run:
    """One piece of work on a thread of its own, which never holds the program's end up."""

    def __init__(self, make: Make, then: Then) -> None:
        self._make, self.then = make, then
        self._reading = reading()
        self.stop = Stop()
        self.outcome: object = None
        self._thread = Thread(target=self._work, name="lawnbook-work", daemon=True)

    @property
    def has_begun(self) -> bool:
        return self._thread.ident is not None

    @property
    def works(self) -> bool:
        return self._thread.is_alive()

    def begin(self) -> None:
        self._thread.start()

    def wait(self) -> None:
        self._thread.join()

    def _work(self) -> None:
        # It is told to its end as it was read at its start, whatever the owner chooses meanwhile.
        with COLLECTING_LATER, reading_here(self._reading), self:
            self.outcome = self._make(self.stop)

    def __enter__(self) -> None:
        """Nothing to begin."""

    def __exit__(
        self, _kind: object, error: BaseException | None, _trace: TracebackType | None
    ) -> bool:
        """What went wrong is laid down too, to be raised again in the window's thread."""
        if error is not None:
            self.outcome = error
        return True


_UNSEEN: list[_Run] = []
"""Work that goes on with nobody waiting: held here, so that no thread lets go of what it holds."""


def _call_off(runs: deque[_Run], _gone: QObject | None = None) -> None:
    _UNSEEN[:] = [each for each in _UNSEEN if each.works]
    for each in runs:
        each.stop.ask()
    _UNSEEN.extend(each for each in runs if each.works)
    runs.clear()


class Beside(QObject):
    """Does pieces of work one after the other; deleting it calls off what is not done.

    Never two at once: what goes on unseen is over before the next begins.

    `begun` and `ended` tell when it begins to work and when nothing is left, `went_on` how far
    the piece is that it works at, `failed` that a mistake of ours is about to be raised.
    """

    begun = Signal()
    went_on = Signal(str, int, int)
    failed = Signal()
    ended = Signal()
    called_off = Signal()
    """Told when a window closes: what is being written is given up."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.writes = ""
        """The name of the file that is being written, whole or not at all; set by who has it done.

        A window that closes meanwhile asks first.
        """
        self._runs: deque[_Run] = deque()
        self._unseen: _Run | None = None
        self._told: HowFar = ("", 0, 0)
        # Set anew for each look: one that repeats stands still while what it told opens a dialog.
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._look)
        self.destroyed.connect(partial(_call_off, self._runs))

    @property
    def runs(self) -> bool:
        """Whether something is being made that is waited for."""
        return bool(self._runs)

    def start(self, make: Make, then: Then) -> None:
        """Do work behind all that was begun before; `then` is called in this thread.

        A mistake of ours is raised in this thread instead, where it is told like any other.
        """
        self._runs.append(_Run(make, then))
        if len(self._runs) == 1:
            self._begin()
            self.begun.emit()

    def stop(self) -> bool:
        """Leave off where the work can still do so; whether that is so."""
        if not self._runs or not self._runs[0].stop.ask():
            return False
        self.let_go()
        return True

    def let_go(self) -> None:
        """Wait for nothing any more: what has steps leaves off, the rest goes on unseen."""
        if self._runs:
            if self._runs[0].has_begun:
                self._unseen = self._runs[0]
            _call_off(self._runs)
            self._timer.stop()
            self.ended.emit()

    def call_off(self) -> None:
        """Give up what is being written, and wait until nothing is left of it."""
        self.called_off.emit()
        self.let_go()
        self.finish()

    def finish(self) -> None:
        """Do all that is still wanted, and wait for all; no outcome is told any more."""
        if self._unseen is not None:
            self._unseen.wait()
        for each in self._runs:
            if not each.has_begun:
                each.begin()
            each.wait()
        self.let_go()

    def _begin(self) -> None:
        """Begin the next piece, unless one that nobody waits for is not over yet."""
        self._told = ("", 0, 0)
        if self._unseen is None or not self._unseen.works:
            self._unseen = None
            self._runs[0].begin()
        self._timer.start(LOOK_MS)

    def _look(self) -> None:
        run = self._runs[0]
        if not run.has_begun:
            self._begin()
            return
        if run.works:
            self._timer.start(LOOK_MS)
            if run.stop.how_far != self._told:
                self._told = run.stop.how_far
                self.went_on.emit(*self._told)
            return
        self._runs.popleft()
        if self._runs:
            self._begin()
        else:
            self.ended.emit()
        self._tell(run)

    def _tell(self, run: _Run) -> None:
        outcome = run.outcome
        if isinstance(outcome, BaseException) and not isinstance(outcome, OwnerError):
            self.failed.emit()
            raise outcome
        run.then(outcome)
