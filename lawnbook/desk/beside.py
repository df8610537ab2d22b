"""Work that must be done: piece after piece in one thread, waited for at the program's end.

Where only the latest outcome counts, `off_thread.Work` lets the others go.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from threading import Event
from types import TracebackType
from typing import Self

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from lawnbook.desk.collecting import COLLECTING_LATER
from lawnbook.yard.problems import OwnerError

Then = Callable[[object], None]
"""Takes what came of a piece of work; an OwnerError is an outcome too."""


class _Post(QObject):
    """Carries an outcome to the window's own thread."""

    done = Signal(object, object)


@dataclass(slots=True)
class _Telling:
    """Tells what came of work when it ends; a mistake of ours is raised where it can be told."""

    then: Then
    post: _Post
    off: Event
    outcome: object = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        _kind: type[BaseException] | None,
        error: BaseException | None,
        _trace: TracebackType | None,
    ) -> bool:
        if not self.off.is_set():
            self.post.done.emit(self.then, error if error is not None else self.outcome)
        return True


class _Work(QRunnable):
    """One piece of work, whose outcome nobody hears of once it was called off."""

    def __init__(self, work: Callable[[], object], telling: _Telling) -> None:
        super().__init__()
        self._work, self._telling = work, telling

    def run(self) -> None:
        """Work, and tell."""
        with COLLECTING_LATER, self._telling as telling:
            telling.outcome = self._work()


def _call_off(off: Event, _gone: QObject | None = None) -> None:
    off.set()


class Beside(QObject):
    """Does pieces of work one after the other in a thread of its own."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._off = Event()
        self._post = _Post()
        self._post.done.connect(self._arrived)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self.destroyed.connect(partial(_call_off, self._off))

    def start(self, work: Callable[[], object], then: Then) -> None:
        """Do work behind all that was begun before; `then` is called in this thread."""
        self._pool.start(_Work(work, _Telling(then, self._post, self._off)))

    def finish(self) -> None:
        """Wait until all is done; no outcome is told any more."""
        self._pool.waitForDone()
        self._off.set()

    def _arrived(self, then: Then, outcome: object) -> None:
        if self._off.is_set():
            return
        if isinstance(outcome, BaseException) and not isinstance(outcome, OwnerError):
            raise outcome
        then(outcome)
