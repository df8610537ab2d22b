"""The ways back to what a notebook held: earlier copies, and what a damaged file still has."""

from collections.abc import Callable
from datetime import date, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QDialog, QWidget

from lawnbook.desk.beside import Beside, Make, Stop, Then
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.backups import copies_of, keep_copy, made_told
from lawnbook.store.files import NOTEBOOK_SUFFIX
from lawnbook.yard.notebook import Notebook, difference
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Pictured

if TYPE_CHECKING:
    from lawnbook.desk.rescue import DamagedDialog
    from lawnbook.desk.restore import EarlierCopies, Seen
    from lawnbook.store.salvage_told import SalvageTold

WAITS = tr("Edits still wait to be written; nothing can be taken back before they are on disk.")


class Opens(Protocol):
    """What opens notebooks on the desk."""

    @property
    def window(self) -> QWidget | None:
        """The window of the open book, or None."""

    def open(self, path: Path) -> bool:
        """Open a notebook; whether it is open now."""

    def create(self, notebook: Notebook, name: str, folder: Path) -> bool:
        """Write a notebook into a folder, under a name that is free, and open it."""


class WaysBack(QObject):
    """Shows the dialogs, and does what is asked for in them; `told` says what was done."""

    told = Signal(str)

    def __init__(
        self, desk: Opens, root: Path | None, clock: Callable[[], datetime], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._desk, self._root, self._clock = desk, root, clock
        self._beside = Beside(self)

    def finish(self) -> None:
        """Wait until no thread works any more."""
        self._beside.finish()

    def show_copies(self, path: Path, parent: QWidget, book: OpenNotebook | None) -> None:
        """Show the earlier copies of a notebook, to compare with the open book if there is one."""
        if self._root is None:
            return
        from lawnbook.desk.restore import EarlierCopies

        now = None if book is None else (lambda: book.notebook)
        dialog = EarlierCopies(path, self._root, now, self._today(), parent)
        dialog.opened.connect(lambda seen: self._open_new(dialog, path, seen))
        if book is not None:
            dialog.taken_back.connect(lambda seen: self._take_back(dialog, book, seen))
        dialog.open()

    def offer_rescue(self, path: Path, problem: OwnerError, parent: QWidget) -> None:
        """Where a file could not be opened because it is damaged, offer what may help."""
        from lawnbook.store.salvage import may_help

        if path.suffix.lower() != NOTEBOOK_SUFFIX or not may_help(path, problem):
            return
        from lawnbook.desk.rescue import DamagedDialog

        dialog = DamagedDialog(str(problem), self._has_copies(path), parent)
        dialog.copies_asked.connect(lambda: self.show_copies(path, dialog, None))
        dialog.save_asked.connect(lambda: self._save_what_can_be_read(dialog, path))
        dialog.open()

    def _do_for(self, dialog: QDialog, make: Make, then: Then) -> None:
        """Do work beside the window's that is given up where its dialog is closed, or goes."""
        dialog.finished.connect(self._beside.let_go)
        dialog.destroyed.connect(self._beside.let_go)
        self._beside.start(make, then)

    def _today(self) -> date:
        return self._clock().date()

    def _has_copies(self, path: Path) -> bool:
        return self._root is not None and bool(copies_of(path, self._root))

    def _open_new(self, dialog: "EarlierCopies", path: Path, seen: "Seen") -> None:
        """Write the copy beside the notebook under a new name, and open that."""
        name = f"{path.stem} {seen.copy.made:%Y-%m-%d}"
        dialog.accept()
        self._desk.create(seen.notebook, name, path.absolute().parent)

    def _take_back(self, dialog: "EarlierCopies", book: OpenNotebook, seen: "Seen") -> None:
        """Keep the notebook as it is now, then let it hold what the copy holds, as one edit."""
        if book.read_only or book.waiting:
            dialog.say(book.read_only or WAITS)
            return
        dialog.say(tr("Keeping the notebook as it is now…"))
        root, path, now = self._root, book.path, self._clock()
        change = difference(book.notebook, seen.notebook)

        def work(_stop: Stop) -> None:
            if root is not None:
                keep_copy(path, "", now, root, spared=seen.copy.path)
            for _, after in change.values():
                if isinstance(after, Pictured):
                    # Read once before: a copy whose pictures are damaged is refused as a whole.
                    after.data_b64.data()

        def then(outcome: object) -> None:
            try:
                if isinstance(outcome, OwnerError):
                    raise outcome
                label = tr(
                    "taking back the copy of {made_told}", made_told=made_told(seen.copy.made)
                )
                book.edit(difference(book.notebook, seen.notebook), label)
            except OwnerError as problem:
                dialog.say(tr("Nothing was taken back. {problem}", problem=problem))
            else:
                dialog.accept()
                made = made_told(seen.copy.made)
                self.told.emit(tr("The copy of {made} is taken back. Undo undoes that.", made=made))

        self._do_for(dialog, work, then)

    def _save_what_can_be_read(self, dialog: "DamagedDialog", path: Path) -> None:
        from lawnbook.desk.app import free_path
        from lawnbook.store.salvage import salvage

        dialog.wait()
        target = free_path(path.absolute().parent, tr("{stem} saved", stem=path.stem))
        today = self._today()

        def work(stop: Stop) -> "SalvageTold":
            told = salvage(path, target, today)
            if stop.is_asked:
                # Nobody would know of it, nor what is missing in it.
                target.unlink(missing_ok=True)
            return told

        self._do_for(dialog, work, partial(self._saved, dialog, path, target))

    def _saved(self, dialog: "DamagedDialog", path: Path, target: Path, outcome: object) -> None:
        from lawnbook.desk.rescue import SalvagedDialog
        from lawnbook.store.salvage_told import SalvageTold

        if isinstance(outcome, OwnerError):
            dialog.fail(str(outcome))
        elif isinstance(outcome, SalvageTold):
            dialog.accept()
            if self._desk.open(target) and (window := self._desk.window) is not None:
                told = SalvagedDialog(outcome, target, self._has_copies(path), window)
                told.copies_asked.connect(lambda: self.show_copies(path, told, None))
                told.open()
