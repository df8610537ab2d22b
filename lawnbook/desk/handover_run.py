"""A handover written beside the window's work: painted here page by page, packed in a thread.

Qt's fonts belong to the window's thread, so a document is painted there, one at a time with the
window's own work between them. Reckoning, reading pictures and packing go on in a thread.
"""

from collections.abc import Iterator
from contextlib import ExitStack
from itertools import count
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from lawnbook.desk.beside import Beside, Stop
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
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
from lawnbook.yard.problems import OwnerError

PREPARING = tr("Preparing…")
OUR_BUG = tr("Something went wrong in Lawnbook itself; nothing was written.")
GIVEN_UP = tr("Given up; nothing was written.")


@dataclass(frozen=True, slots=True)
class Ended:
    """How it ended: the files in the zip, or the sentence that says why there is none."""

    path: Path
    wants: Wants
    members: tuple[Member, ...] = ()
    refused: str = ""


class HandoverRun(QObject):
    """Writes one handover at a time. `went_on` tells what is done, of how much; `ended` the end."""

    went_on = Signal(str, int, int)
    ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._job: tuple[Path, Wants] | None = None
        self._coming: Iterator[Document] = iter(())
        self._painted: dict[str, bytes] = {}
        self._done = self._of = 0
        self._beside = Beside(self)
        self._beside.went_on.connect(self.went_on)
        self._beside.called_off.connect(self.give_up)
        self._beside.failed.connect(lambda: self._end(refused=OUR_BUG))

    @property
    def is_running(self) -> bool:
        """Whether one is being written."""
        return self._job is not None

    def start(self, book: OpenNotebook, plan: Plan, path: Path, wants: Wants) -> None:
        """Begin to write; `ended` will tell. Nothing happens while another is being written."""
        if self.is_running:
            return
        self._job, self._painted = (path, wants), {}
        self._beside.writes = path.name
        self._done, self._of = 0, 1
        self.went_on.emit(PREPARING, 0, 1)
        notebook = with_pictures_apart(book.notebook, book.path)
        self._beside.start(lambda _: prepared(notebook, plan, wants), self._prepared)

    def give_up(self) -> None:
        """Leave off; nothing is written, and `ended` tells so at once."""
        if self._job is not None:
            self._beside.let_go()
            self._end(refused=GIVEN_UP)

    def finish(self) -> None:
        """Leave off, and wait until no thread is left."""
        self.give_up()
        self._beside.finish()

    def _prepared(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._end(refused=str(outcome))
        elif isinstance(outcome, Handover):
            documents = documents_of(outcome)
            self._coming = iter(documents)
            # The notebook twice, the calendar, the README, some tables: about as many again.
            self._of = 1 + 2 * len(documents) + len(outcome.notebook.photos) + 20
            self._paint_next(outcome)

    def _paint_next(self, handover: Handover) -> None:
        """Paint the next document, or pack them where that was the last."""
        job = self._job
        if job is None:
            return
        with ExitStack() as unless_painted:
            unless_painted.callback(self._end, refused=OUR_BUG)
            document = next(self._coming, None)
            if document is not None:
                self._went_on(document.name)
                self._painted[document.name] = document.make()
            unless_painted.pop_all()
        if document is None:
            self._pack(handover, job[0])
        else:
            QTimer.singleShot(0, self, lambda: self._go_on(job, handover))

    def _go_on(self, job: tuple[Path, Wants], handover: Handover) -> None:
        if self._job is job:
            self._paint_next(handover)

    def _pack(self, handover: Handover, path: Path) -> None:
        painted, done, of = self._painted, self._done, self._of

        def work(stop: Stop) -> object:
            numbers = count(done + 1)

            def between(name: str) -> None:
                number = next(numbers)
                stop.step(number, max(of, number), name)

            return write_prepared(handover, painted, path, between)

        self._beside.start(work, self._packed)

    def _packed(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._end(refused=str(outcome))
        elif isinstance(outcome, tuple):
            self._end(members=outcome)

    def _went_on(self, name: str) -> None:
        self._done += 1
        self._of = max(self._of, self._done)
        self.went_on.emit(name, self._done, self._of)

    def _end(self, members: tuple[Member, ...] = (), refused: str = "") -> None:
        if self._job is None:
            return
        (path, wants), self._job = self._job, None
        self._painted, self._coming = {}, iter(())
        self._beside.writes = ""
        self.ended.emit(Ended(path, wants, members, refused))
