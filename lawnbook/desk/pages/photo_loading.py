"""Photographs read beside the window's own work: a big one takes seconds, and may be left off."""

from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path
from threading import Event
from types import TracebackType
from typing import Self

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from lawnbook.desk.collecting import COLLECTING_LATER
from lawnbook.frozen import dataclass
from lawnbook.store.photo_reading import Keeping, TakenIn, take_in, take_in_bytes
from lawnbook.yard.problems import OwnerError

Source = Path | tuple[str, bytes]
"""A file, or what a pasted picture is called with its bytes."""


OUR_BUG = "Something went wrong in Lawnbook itself; the photo was not added."


def source_name(source: Source) -> str:
    """What a source is called."""
    return source.name if isinstance(source, Path) else source[0]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one source: the photograph, or the sentence that says why there is none."""

    name: str
    taken: TakenIn | None
    refused: str = ""


class _Post(QObject):
    """Carries outcomes from the worker to the window's own thread."""

    done = Signal(object)


@dataclass(slots=True)
class _Telling:
    """Tells what became of a source when its reading ends, a bug of ours included.

    A bug is raised again where it can be told: a thread of its own must not open a window.
    """

    name: str
    post: _Post
    off: Event
    outcome: Outcome | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        _kind: type[BaseException] | None,
        error: BaseException | None,
        _trace: TracebackType | None,
    ) -> bool:
        told = self.outcome or Outcome(self.name, None, OUR_BUG)
        if not self.off.is_set():
            self.post.done.emit((self.off, told, error))
        return True


class _Reading(QRunnable):
    """One source, read in a thread of its own; nothing is told once it has been called off."""

    def __init__(
        self, source: Source, today: date, post: _Post, off: Event, keeping: Keeping | None
    ) -> None:
        super().__init__()
        self._source, self._today, self._post, self._off = source, today, post, off
        self._keeping = keeping

    def run(self) -> None:
        """Read, and tell the outcome."""
        if not self._off.is_set():
            telling = _Telling(source_name(self._source), self._post, self._off)
            with COLLECTING_LATER, telling:
                telling.outcome = outcome_of(self._source, self._today, self._keeping)


def outcome_of(source: Source, today: date, keeping: Keeping | None = None) -> Outcome:
    """Read one source now; what the owner can mend is a sentence of the outcome."""
    name = source_name(source)
    how = (today,) if keeping is None else (today, keeping)
    try:
        if isinstance(source, Path):
            return Outcome(name, take_in(source, *how))
        return Outcome(name, take_in_bytes(source[1], name, *how))
    except OwnerError as error:
        return Outcome(name, None, str(error))


def _call_off(held: list[Event], _gone: QObject | None = None) -> None:
    held[0].set()


class PhotoLoader(QObject):
    """Reads photographs one after another; `read` tells each outcome in their order.

    `keeping` says how pictures are kept that are no photographs of plugs.
    Deleting it waits for the one that is being read, and tells nothing more.
    """

    read = Signal(object)

    def __init__(
        self, today: date, parent: QObject | None = None, keeping: Keeping | None = None
    ) -> None:
        super().__init__(parent)
        self._today, self._keeping = today, keeping
        self._waiting: list[str] = []
        # The one that holds now, in a list that outlives this object.
        self._off = [Event()]
        self._post = _Post()
        self._post.done.connect(self._arrived)
        self._pool = QThreadPool(self)
        # One at a time: two big pictures at once would need the memory of both.
        self._pool.setMaxThreadCount(1)
        self.destroyed.connect(partial(_call_off, self._off))

    def start(self, sources: Sequence[Source]) -> None:
        """Read these after those that wait already."""
        for each in sources:
            self._waiting.append(source_name(each))
            reading = _Reading(each, self._today, self._post, self._off[0], self._keeping)
            self._pool.start(reading)

    def waiting(self) -> tuple[str, ...]:
        """What is being read or waits for it, by name."""
        return tuple(self._waiting)

    def stop(self) -> None:
        """Call everything off that has not been read to its end."""
        self._off[0].set()
        self._pool.clear()
        self._off[0] = Event()
        self._waiting.clear()

    def finish(self) -> None:
        """Call everything off, and wait until no thread is left."""
        self.stop()
        self._pool.waitForDone()

    def _arrived(self, told: tuple[Event, Outcome, BaseException | None]) -> None:
        off, outcome, bug = told
        if off is not self._off[0]:
            return
        if outcome.name in self._waiting:
            self._waiting.remove(outcome.name)
        self.read.emit(outcome)
        if bug is not None:
            raise bug
