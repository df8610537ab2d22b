"""The open notebook: every edit is checked, kept on disk at once, and can be undone.

No Qt here: a window subscribes and is told the Change that led to the new value. Changes that
cannot be written wait in order, and `trouble` says why until they are on disk.

Another window may be the notebook's writer (`read_only`), and another program may change the file
underneath (`look`, `found`): nothing is written into either.
"""

from collections import deque
from collections.abc import Callable
from contextlib import ExitStack
from datetime import date
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.session.held_pictures import pictures_in, unreadable_in
from lawnbook.store.files import NOTEBOOK_SUFFIX, is_free_place, put_where_nothing_is
from lawnbook.store.sqlite_store import Store, create, load, opened_whole
from lawnbook.store.stamps import ChangedElsewhere, Found, told_of
from lawnbook.yard.edits import with_areas_kept
from lawnbook.yard.notebook import Change, Notebook, apply, difference, inverse
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError, refused
from lawnbook.yard.references import told_loose

Listener = Callable[[Change], None]


@dataclass(frozen=True, slots=True)
class _Step:
    label: str
    change: Change


class OpenNotebook:
    """A notebook file that is open for editing. `close` it when done."""

    def __init__(self, store: Store, notebook: Notebook, today: date) -> None:
        """Take over an open store and what was read from it; see `open` and `create`."""
        self.today = today
        self._store = store
        self._notebook = notebook
        self._undo: list[_Step] = []
        self._redo: list[_Step] = []
        self._waiting: deque[Change] = deque()
        self._trouble = ""
        self._written = notebook
        # What the file holds where a commit landed that was told as failed: the value it led to,
        # and how many of the waiting changes are in it.
        self._perhaps: tuple[Notebook, int] = (notebook, 0)
        self._found: Found = "same"
        self.refused = 0  # edits of a notebook that can only be looked at
        self._listeners: list[Listener] = []

    @classmethod
    def open(cls, path: Path, today: date) -> "OpenNotebook":
        """Open an existing notebook file; OwnerError if it cannot be read."""
        return cls(*opened_whole(path), today)

    @classmethod
    def create(cls, path: Path, notebook: Notebook, today: date) -> "OpenNotebook":
        """Write a new notebook file and open it; OwnerError if it cannot be written."""
        create(path, notebook)
        return cls.open(path, today)

    @property
    def notebook(self) -> Notebook:
        """The notebook as it stands."""
        return self._notebook

    @property
    def path(self) -> Path:
        """The file it is kept in."""
        return self._store.path

    @property
    def undo_label(self) -> str:
        """What undo would take back, empty when there is nothing."""
        return self._undo[-1].label if self._undo else ""

    @property
    def redo_label(self) -> str:
        """What redo would do again, empty when there is nothing."""
        return self._redo[-1].label if self._redo else ""

    @property
    def trouble(self) -> str:
        """Why the latest edits are not on disk, with the mend; empty when all of them are."""
        return self._trouble

    @property
    def waiting(self) -> int:
        """How many changes wait to be written."""
        return len(self._waiting)

    @property
    def read_only(self) -> str:
        """Why nothing can be entered here, with the mend; empty where it can."""
        return self._store.read_only

    @property
    def found(self) -> Found:
        """How the file was found last; nothing is written into it unless it is the "same"."""
        return self._found

    @property
    def adrift(self) -> str:
        """Why the file does not hold what was kept in it, with the mend; empty where it does."""
        found = self._store.look() if self._store.is_open and not self.read_only else "same"
        is_lost = found == "gone" or (found == "changed" and not self._is_ours())
        return told_of(self.path, found) if is_lost else ""

    def edit(self, change: Change, label: str) -> None:
        """Make a change, keep it on disk and tell the listeners; `label` names it for undo.

        Questions ("ask") pass: the form has put them to the owner. Raises OwnerError, and changes
        nothing, where a record would be refused or would be left referring to nothing, or where
        the notebook can only be looked at.
        """
        if self.read_only:
            self.refused += 1
            self._tell({})
            raise OwnerError(self.read_only)
        change = self._effective(change)
        if not change:
            return
        change = with_areas_kept(self._notebook, change)
        after = apply(self._notebook, change)
        self._refuse_problems(change, after)
        self._perform(change, after)
        self._undo.append(_Step(label, change))
        self._redo.clear()
        self._tell(change)

    def undo(self) -> None:
        """Take the latest edit back; nothing happens where there is none."""
        if self._undo and not self.read_only:
            step = self._undo[-1]
            back = inverse(step.change)
            self._perform(back, apply(self._notebook, back))
            self._redo.append(self._undo.pop())
            self._tell(back)

    def redo(self) -> None:
        """Do again what was undone last; nothing happens where there is none."""
        if self._redo and not self.read_only:
            step = self._redo[-1]
            self._perform(step.change, apply(self._notebook, step.change))
            self._undo.append(self._redo.pop())
            self._tell(step.change)

    def subscribe(self, listener: Listener) -> Callable[[], None]:
        """Call `listener` after every change; returns the function that ends it.

        An empty change says that only `trouble`, `waiting` or `path` may be different.
        """
        self._listeners.append(listener)

        def stop() -> None:
            if listener in self._listeners:
                self._listeners.remove(listener)

        return stop

    def retry(self) -> None:
        """Write what waits; `trouble` is empty afterwards if it worked."""
        if self._waiting:
            self._write_waiting(self._notebook)
            self._tell({})

    def retry_quietly(self) -> None:
        """Write what waits, without waiting for other programs; told only where it worked."""
        if not self._waiting:
            return
        before = (self._trouble, self._found)
        with self._store.in_a_hurry():
            self._write_waiting(self._notebook)
        if before != (self._trouble, self._found):
            self._tell({})

    @property
    def can_write_back(self) -> bool:
        """Whether the file is gone and its place is free, so that `write_back` may help."""
        return self._found == "gone" and is_free_place(self.path)

    def write_back(self) -> None:
        """Write the whole notebook to where its file was removed, and carry on with that.

        Raises OwnerError, and leaves all as it is, where another file lies there by now, or where
        it cannot be written.
        """
        import secrets

        fresh = self.path.with_name(f".{secrets.token_hex(4)}{NOTEBOOK_SUFFIX}")
        self.copy_to(fresh)
        put_where_nothing_is(fresh, self.path)
        self._connect_anew()
        self._settle(self._notebook)
        self._tell({})

    def look(self) -> bool:
        """See how the file is found and whether it may be written now; True if it was read anew.

        What another program has changed is read anew while nothing waits here, and told as one
        change; undo and redo end with it. Where it cannot be read, `trouble` says why.
        """
        before = (self._found, self._trouble, self.read_only, self.waiting)
        try:
            return self._looked()
        except OwnerError as error:
            self._trouble = str(error)
            return False
        finally:
            if before != (self._found, self._trouble, self.read_only, self.waiting):
                self._tell({})

    def take_theirs(self) -> None:
        """Read what another program has put into the file; what waits here is given up for it.

        Raises OwnerError, and gives nothing up, where it cannot be read.
        """
        self._read_anew()
        self._tell({})

    def copy_to(self, path: Path) -> None:
        """Write the notebook, with what waits, to a new file and stay; OwnerError if that fails."""
        create(path, self._notebook, also=self.pictures_to_undo())

    def save_elsewhere(self, path: Path) -> int:
        """Write the whole notebook to a new file and carry on there, undo and redo kept.

        The old file stays as it is. While changes wait, a picture that cannot be read any more (its
        drive may be gone) keeps but its place, and how many do is returned; else it is refused.
        Raises OwnerError, and stays with the old file, where the new one cannot be written.
        """
        lost = unreadable_in(self._notebook) if self._waiting else set()
        create(path, self._notebook, also=self.pictures_to_undo() | lost)
        self.carry_on_in(opened_whole(path)[0], self._notebook)
        return len(lost)

    def carry_on_in(self, store: Store, written: Notebook) -> None:
        """Carry on in an open new file in which this book was `written`, with the edits since.

        Raises OwnerError, and stays with the old file, where the new one cannot be used.
        """
        with ExitStack() as unless_written:
            unless_written.callback(store.close)
            store.write_if_any(difference(written, self._notebook))
            store.take_over(self._store.shelf)
            unless_written.pop_all()
        self._store.close()
        self._store = store
        self._settle(self._notebook)
        self._tell({})

    def pictures_to_undo(self) -> set[Picture]:
        """The pictures that undo and redo may bring back."""
        return pictures_in(step.change for step in (*self._undo, *self._redo))

    def close(self, *, abandon: bool = False) -> None:
        """Write what waits and close the file.

        Raises OwnerError, and stays open, where changes still cannot be written, unless
        `abandon`.
        """
        if self._waiting:
            self._write_waiting(self._notebook)
        if self._waiting and not abandon:
            raise OwnerError(self._trouble)
        self._store.close()
        self._waiting.clear()
        self._listeners.clear()

    def _effective(self, change: Change) -> Change:
        """The change from what is really held, without what would not alter anything."""
        held = {key: self._notebook.find(*key) for key in change}
        return {
            key: (held[key], after)
            for key, (_, after) in change.items()
            if held[key] is not after and held[key] != after
        }

    def _refuse_problems(self, change: Change, after: Notebook) -> None:
        # Imported here: the rules are not needed to look at a notebook, which the first paint does.
        from lawnbook.yard.check import check_all

        records = [record for _, record in change.values() if record is not None]
        problems = refused(check_all(records, after, self.today))
        sentences = [problem.sentence for problem in problems]
        sentences += told_loose(after, [key for key, (_, now) in change.items() if now is None])
        if sentences:
            raise OwnerError(" ".join(dict.fromkeys(sentences)))

    def _perform(self, change: Change, after: Notebook) -> None:
        """Write a change, after all that waits, and take its value on even if the disk refuses."""
        self._waiting.append(change)
        try:
            self._write_waiting(after)
        except BaseException:
            # A bug, not the disk: the change must be neither half taken nor tried for ever.
            self._waiting.pop()
            raise
        self._notebook = after

    def _write_waiting(self, after: Notebook) -> None:
        """Write what waits, which leads to `after`, or say in `trouble` why it still waits."""
        try:
            self._write_past_touch()
        except OwnerError as error:
            self._trouble = str(error)
            if isinstance(error, ChangedElsewhere):
                self._found = error.found
            else:
                self._perhaps = (after, len(self._waiting))
        else:
            self._settle(after)

    def _write_past_touch(self) -> None:
        """Write what waits; a file that was only touched, or put there again, is as it was."""
        try:
            self._store.write(*self._waiting)
        except ChangedElsewhere as error:
            if error.found != "changed" or not self._is_ours():
                raise
            self._connect_anew()
            self._store.write(*self._waiting)

    def _is_ours(self) -> bool:
        """Whether the changed file holds what was written last, or a commit told as failed.

        SQLite tells a commit as failed where all is on disk but the journal's end was not synced.
        What it led to no longer waits then.
        """
        try:
            held = load(self.path)
        except OwnerError:
            return False
        value, count = self._perhaps
        if count and not difference(value, held):
            for _ in range(count):
                self._waiting.popleft()
            self._written, self._perhaps = value, (value, 0)
            return True
        return not difference(self._written, held)

    def _looked(self) -> bool:
        before, found = self._found, self._store.look()
        may_write = found != "gone" and self._store.may_write()
        if may_write or not self.read_only:
            self._found = found
        if not self._waiting:
            if may_write or found == "changed":
                return self._read_anew()
            self._trouble = told_of(self.path, self._found)
        elif may_write or found != before:
            # What waits for another reason is tried again with growing pauses: `retry_quietly`.
            if may_write and self._is_ours():
                self._connect_anew()
            self._write_waiting(self._notebook)
        return False

    def _read_anew(self) -> bool:
        """Take up what lies in the file now; whether it is another than is held here."""
        same = self._store.reconnect_to(self._notebook)
        change: Change = {} if same else difference(self._notebook, self._connect_anew())
        if change:
            self._undo.clear()
            self._redo.clear()
        self._notebook = apply(self._notebook, change) if change else self._notebook
        self._settle(self._notebook)
        if change:
            self._tell(change)
        return bool(change)

    def _connect_anew(self) -> Notebook:
        """What the store reads after connecting to the file that is there now.

        Where another program was quicker, and it cannot be read any more, it stays a changed one.
        """
        self._store.reconnect()
        try:
            return self._store.read()
        except BaseException:
            self._store.disown()
            raise

    def _settle(self, written: Notebook) -> None:
        """All that was entered is on disk, in a file that is as this book left it."""
        self._waiting.clear()
        self._trouble, self._found, self._written = "", "same", written
        self._perhaps = (written, 0)

    def _tell(self, change: Change) -> None:
        """Tell every listener, also after one that failed; its mistake is raised at the end."""
        with ExitStack() as all_told:
            for listener in reversed(tuple(self._listeners)):
                all_told.callback(listener, change)
