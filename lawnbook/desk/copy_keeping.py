"""Keeps earlier copies of the open book beside the window's work, and tells of trouble once."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from lawnbook.desk.beside import Beside, Stop
from lawnbook.reading import tr
from lawnbook.store.backups import (
    copies_of,
    has_changed,
    is_of_older_program,
    keep_copy,
    made_told,
    saving_count,
)
from lawnbook.yard.compared import differences
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError

NOT_KEPT = tr("No earlier copy could be kept")


class CopyKeeper(QObject):
    """Keeps a copy when a session ends and, where it is needed, when one begins.

    Without a folder it does nothing. `told` has a sentence for the foot of the page, each once.
    """

    told = Signal(str)

    def __init__(
        self, root: Path | None, clock: Callable[[], datetime], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.root, self._clock = root, clock
        self._beside = Beside(self)
        self._said: set[str] = set()

    def before(self, path: Path) -> str:
        """What is to be known of a file before it is opened: its saving count.

        One that an older program wrote is kept first, as opening it brings its tables up to date.
        """
        if self.root is None:
            return ""
        stamp = saving_count(path)
        if stamp and is_of_older_program(path):
            try:
                keep_copy(path, stamp, self._clock(), self.root)
            except OwnerError as problem:
                self._tell(problem)
        return stamp

    def begun(self, path: Path, stamp: str, notebook: Notebook) -> None:
        """A book was opened: keep it if it is not what its newest copy holds.

        So what a crash or a sync program left is kept too. Where the file counts no edit since
        and still differs, that is told: a disk may change values without a sign.
        """
        root = self.root
        if root is None or not stamp:
            return

        def work(_: Stop) -> str:
            if has_changed(path, stamp, root):
                keep_copy(path, stamp, self._clock(), root)
                return ""
            return altered_told(path, notebook, root)

        self._beside.start(work, self._tell)

    def ended(self, path: Path) -> None:
        """A book was closed: keep it if anything was written into it."""
        root, stamp = self.root, saving_count(path)
        if root is not None and stamp:
            now = self._clock()
            self._beside.start(lambda _: keep_copy(path, stamp, now, root), self._tell)

    def finish(self) -> None:
        """Wait until all copies are written."""
        self._beside.finish()

    def _tell(self, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._say(f"{NOT_KEPT}. {outcome}")
        elif isinstance(outcome, str) and outcome:
            self._say(outcome)

    def _say(self, sentence: str) -> None:
        if sentence not in self._said:
            self._said.add(sentence)
            self.told.emit(sentence)


def altered_told(path: Path, notebook: Notebook, root: Path) -> str:
    """That a book differs from its newest copy though nothing was saved since; "" if it does not.

    Raises OwnerError where that copy cannot be read.
    """
    from lawnbook.store.sqlite_store import load

    for copy in copies_of(path, root)[:1]:
        found = differences(load(copy.path), notebook)
        if found:
            count = sum(each.added + each.changed + each.removed for each in found)
            entries = (
                tr("1 entry differs") if count == 1 else tr("{count:,} entries differ", count=count)
            )
            return tr(
                "{entries} from the copy of {made_told}, though nothing was saved here since. "
                "Look at File, Earlier copies.",
                entries=entries,
                made_told=made_told(copy.made),
            )
    return ""
