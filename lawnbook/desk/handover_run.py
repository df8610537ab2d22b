"""A handover written beside the window's work: painted here page by page, packed in a thread.

Qt's fonts belong to the window's thread, so a document is painted there, one at a time with the
window's own work between them. Reckoning, reading pictures and packing go on in a thread.
"""

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from threading import Event
from types import TracebackType
from typing import Self

from PySide6.QtCore import QObject, QRunnable, QThreadPool, QTimer, Signal

from lawnbook.desk.collecting import COLLECTING_LATER
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.handover import (
    Document,
    Handover,
    Wants,
    documents_of,
    prepared,
    write_prepared,
)
from lawnbook.store.handover_book import with_pictures_apart
from lawnbook.store.handover_zip import Member
from lawnbook.yard.problems import GivenUpError, OwnerError

PREPARING = "Preparing…"
OUR_BUG = "Something went wrong in Lawnbook itself; nothing was written."
GIVEN_UP = "Given up; nothing was written."


@dataclass(frozen=True, slots=True)
class Ended:
    """How it ended: the files in the zip, or the sentence that says why there is none."""

    path: Path
    wants: Wants
    members: tuple[Member, ...] = ()
    refused: str = ""


class _Post(QObject):
    """Carries what a thread has to say to the window's own."""

    told = Signal(object, str)
    done = Signal(object, object)


class _Task(QRunnable):
    """Work in a thread of its own; what came of it, an exception too, is told to the window."""

    def __init__(self, work: Callable[[], object], off: Event, post: _Post) -> None:
        super().__init__()
        self._work, self._off, self._post = work, off, post

    def run(self) -> None:
        """Work, and tell the outcome unless all was called off."""
        telling = _Telling(self._off, self._post)
        with COLLECTING_LATER, telling:
            telling.outcome = self._work()


@dataclass(slots=True)
class _Telling:
    """Tells what came of work when it ends, a bug of ours included.

    A bug is raised again where it can be told: a thread of its own must not open a window.
    """

    off: Event
    post: _Post
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
            self.post.done.emit(self.off, error if error is not None else self.outcome)
        return True


def _call_off(off: list[Event], _gone: QObject | None = None) -> None:
    off[0].set()


class HandoverRun(QObject):
    """Writes one handover at a time. `went_on` tells what is done, of how much; `ended` the end."""

    went_on = Signal(str, int, int)
    ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        # The one that holds now, in a list that outlives this object.
        self._off = [Event()]
        self._post = _Post()
        self._post.told.connect(self._told)
        self._post.done.connect(self._arrived)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._job: tuple[Path, Wants] | None = None
        self._handover: Handover | None = None
        self._coming: Iterator[Document] = iter(())
        self._painted: dict[str, bytes] = {}
        self._done = self._of = 0
        self.destroyed.connect(partial(_call_off, self._off))

    @property
    def is_running(self) -> bool:
        """Whether one is being written."""
        return self._job is not None

    def start(self, book: OpenNotebook, plan: Plan, path: Path, wants: Wants) -> None:
        """Begin to write; `ended` will tell. Nothing happens while another is being written."""
        if self.is_running:
            return
        self._off[0] = Event()
        self._job, self._painted = (path, wants), {}
        self._done, self._of = 0, 1
        self.went_on.emit(PREPARING, 0, 1)
        notebook = with_pictures_apart(book.notebook, book.path)
        self._begin(lambda: prepared(notebook, plan, wants))

    def give_up(self) -> None:
        """Leave off; nothing is written, and `ended` tells so at once."""
        if self._job is None:
            return
        self._off[0].set()
        self._end(refused=GIVEN_UP)

    def finish(self) -> None:
        """Leave off, and wait until no thread is left."""
        self.give_up()
        self._pool.waitForDone()

    def _begin(self, work: Callable[[], object]) -> None:
        self._pool.start(_Task(work, self._off[0], self._post))

    def _arrived(self, off: Event, outcome: object) -> None:
        if off is not self._off[0] or self._job is None:
            return
        if isinstance(outcome, OwnerError):
            self._end(refused=str(outcome))
        elif isinstance(outcome, BaseException):
            self._end(refused=OUR_BUG)
            raise outcome
        elif isinstance(outcome, Handover):
            self._paint_first(outcome)
        elif isinstance(outcome, tuple):
            self._end(members=outcome)

    def _paint_first(self, handover: Handover) -> None:
        documents = documents_of(handover)
        self._handover, self._coming = handover, iter(documents)
        # The notebook twice, the calendar, the README, some tables: about as many again.
        self._of = 1 + 2 * len(documents) + len(handover.notebook.photos) + 20
        self._paint_next(self._off[0])

    def _paint_next(self, off: Event) -> None:
        if off.is_set() or self._job is None or self._handover is None:
            return
        document = next(self._coming, None)
        if document is None:
            self._pack(self._handover, self._job[0], off)
            return
        self._went_on(document.name)
        self._painted[document.name] = document.make()
        QTimer.singleShot(0, self, lambda: self._paint_next(off))

    def _pack(self, handover: Handover, path: Path, off: Event) -> None:
        post, painted = self._post, self._painted

        def between(name: str) -> None:
            if off.is_set():
                raise GivenUpError
            post.told.emit(off, name)

        self._begin(lambda: write_prepared(handover, painted, path, between))

    def _told(self, off: Event, name: str) -> None:
        if off is self._off[0] and self._job is not None:
            self._went_on(name)

    def _went_on(self, name: str) -> None:
        self._done += 1
        self._of = max(self._of, self._done)
        self.went_on.emit(name, self._done, self._of)

    def _end(self, members: tuple[Member, ...] = (), refused: str = "") -> None:
        if self._job is None:
            return
        (path, wants), self._job = self._job, None
        self._handover, self._painted, self._coming = None, {}, iter(())
        self.ended.emit(Ended(path, wants, members, refused))
