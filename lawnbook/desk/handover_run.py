"""A handover written beside the window's work: reckoned, painted page by page, and packed."""

from functools import partial
from itertools import count
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from lawnbook.desk.beside import Beside, Stop
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.sheet.handover import (
    Handover,
    Wants,
    documents_of,
    prepared,
    write_prepared,
)
from lawnbook.store.handover_book import with_pictures_apart
from lawnbook.store.handover_zip import Member
from lawnbook.yard.notebook import Notebook
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
        self._beside = Beside(self)
        self._beside.went_on.connect(self._went_on)
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
        self._job = (path, wants)
        self._beside.writes = path.name
        self.went_on.emit(PREPARING, 0, 1)
        notebook = with_pictures_apart(book.notebook, book.path)
        self._beside.start(partial(_written, notebook, plan, wants, path), self._written)

    def give_up(self) -> None:
        """Leave off; nothing is written, and `ended` tells so at once.

        One that is about to take its place goes on, and `ended` tells what is in it.
        """
        if self._job is not None and self._beside.stop():
            self._end(refused=GIVEN_UP)

    def finish(self) -> None:
        """Leave off, and wait until no thread is left."""
        self.give_up()
        self._beside.finish()
        self._job = None

    def _written(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._end(refused=str(outcome))
        elif isinstance(outcome, tuple):
            self._end(members=outcome)

    def _went_on(self, name: str, done: int, of: int) -> None:
        if self._job is not None and of:
            self.went_on.emit(name, done, of)

    def _end(self, members: tuple[Member, ...] = (), refused: str = "") -> None:
        if self._job is None:
            return
        (path, wants), self._job = self._job, None
        self._beside.writes = ""
        self.ended.emit(Ended(path, wants, members, refused))


def _written(
    notebook: Notebook, plan: Plan, wants: Wants, path: Path, stop: Stop
) -> tuple[Member, ...]:
    """Reckon, paint and pack a handover; what is in it. Tells each file before it is made."""
    handover = prepared(notebook, plan, wants)
    of = _how_many(handover)
    numbers = count(1)

    def went_on(name: str) -> None:
        number = next(numbers)
        stop.step(number, max(of, number), name)

    painted: dict[str, bytes] = {}
    for document in documents_of(handover):
        went_on(document.name)
        painted[document.name] = document.make(lambda _done, _of: stop.look())
    return write_prepared(handover, painted, path, went_on, stop.settle)


def _how_many(handover: Handover) -> int:
    """About how many steps it takes: each document is painted and packed, each picture packed.

    The notebook twice, the calendar, the README, some tables: about as many again.
    """
    return 1 + 2 * len(documents_of(handover)) + len(handover.notebook.photos) + 20
