"""Photographs read beside the window's own work: a big one takes seconds, and may be left off."""

from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from lawnbook.desk.beside import Beside, Stop
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.photo_reading import Keeping, TakenIn, take_in, take_in_bytes
from lawnbook.yard.problems import OwnerError

Source = Path | tuple[str, bytes]
"""A file, or what a pasted picture is called with its bytes."""


OUR_BUG = tr("Something went wrong in Lawnbook itself; the photo was not added.")


def source_name(source: Source) -> str:
    """What a source is called."""
    return source.name if isinstance(source, Path) else source[0]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one source: the photograph, or the sentence that says why there is none."""

    name: str
    taken: TakenIn | None
    refused: str = ""


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


class PhotoLoader(QObject):
    """Reads photographs one after another; `read` tells each outcome in their order.

    `keeping` says how pictures are kept that are no photographs of plugs.
    Deleting it tells nothing more.
    """

    read = Signal(object)

    def __init__(
        self, today: date, parent: QObject | None = None, keeping: Keeping | None = None
    ) -> None:
        super().__init__(parent)
        self._today, self._keeping = today, keeping
        self._waiting: list[str] = []
        # One at a time: two big pictures at once would need the memory of both.
        self._beside = Beside(self)
        self._beside.failed.connect(self._failed)

    def start(self, sources: Sequence[Source]) -> None:
        """Read these after those that wait already."""
        today, keeping = self._today, self._keeping
        for each in sources:
            self._waiting.append(source_name(each))
            self._beside.start(partial(_read, each, today, keeping), self._arrived)

    def waiting(self) -> tuple[str, ...]:
        """What is being read or waits for it, by name."""
        return tuple(self._waiting)

    def stop(self) -> None:
        """Call everything off that has not been read to its end."""
        self._waiting.clear()
        self._beside.let_go()

    def finish(self) -> None:
        """Call everything off, and wait until no thread is left."""
        self.stop()
        self._beside.finish()

    def _arrived(self, outcome: object) -> None:
        if isinstance(outcome, Outcome):
            self._waiting.pop(0)
            self.read.emit(outcome)

    def _failed(self) -> None:
        """A mistake of ours is about to be raised; what comes after it is read all the same."""
        self.read.emit(Outcome(self._waiting.pop(0), None, OUR_BUG))


def _read(source: Source, today: date, keeping: Keeping | None, _stop: Stop) -> Outcome:
    return outcome_of(source, today, keeping)
