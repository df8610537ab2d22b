"""The notebook's file: one SQLite database, read whole, and written one Change at a time.

Opening a current file and writing an edit needs nothing but `sqlite3`. A file of an older version
is brought up to date first (see `migrations`). Every failure that is the owner's situation is an
OwnerError, and leaves the file as it was.
"""

import contextlib
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from functools import cache, partial
from pathlib import Path

from lawnbook.reading import tr
from lawnbook.store.columns import column_names, row_of
from lawnbook.store.files import (
    NOTEBOOK_SUFFIX,
    refuse_missing_folder,
    refuse_wrong_suffix,
    written_whole,
)
from lawnbook.store.migrations import bring_up_to_date
from lawnbook.store.opening import (
    current_copy,
    data_version_of,
    explained,
    is_free,
    is_open_here,
    kept_open,
    note_closed,
    note_open,
    opened,
    refuse_foreign_file,
)
from lawnbook.store.picture_shelf import (
    CLEAR,
    WAIT_SECONDS,
    PictureShelf,
    connected,
    connected_to_read,
    picture_in,
    shelve,
    shelve_for_undo,
)
from lawnbook.store.rows_read import read_whole
from lawnbook.store.stamps import (
    ChangedElsewhere,
    Found,
    drop_empty_journal,
    found_at,
    journal_bytes,
    refuse_found,
    stamp_of,
)
from lawnbook.yard.notebook import Change, Notebook, difference
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, Pictured, Record

_READINGS = 3


def create(
    path: Path,
    notebook: Notebook,
    *,
    overwrite: bool = False,
    also: Iterable[Picture] = (),
    between: Callable[[bool], None] = lambda _is_whole: None,
) -> None:
    """Write a new notebook file, whole or not at all.

    `between` may raise after each table, and once more when all is written and the file is about
    to take its place: nothing is left behind then.
    `also` are pictures to lie in it though they are damaged, or though none of its records shows
    them now: undo may bring them back. Raises OwnerError for a name that does not end in
    .lawnbook, a missing folder, a file that is already there (unless `overwrite`), one that is
    open here, a picture that cannot be read any more, or a disk that refuses.
    """
    refuse_taken(path, overwrite=overwrite)
    with written_whole(path) as fresh, explained(path):
        connection = connected(fresh, "rwc")
        try:
            bring_up_to_date(connection)
            _write_everything(connection, notebook, also, between)
        finally:
            connection.close()
        between(True)


def refuse_taken(path: Path, *, overwrite: bool = False) -> None:
    """Raise OwnerError where a new notebook cannot go: name, folder, or a file that is there."""
    refuse_wrong_suffix(path, NOTEBOOK_SUFFIX, tr("A notebook"))
    refuse_missing_folder(path)
    if path.exists() and not overwrite:
        raise OwnerError(
            tr("{name}: this file is already there; choose another name.", name=path.name)
        )
    if is_open_here(path):
        raise OwnerError(tr("{name}: this notebook is open; choose another name.", name=path.name))


def load(path: Path) -> Notebook:
    """Read a notebook file without changing it, an older one too; OwnerError if it cannot be.

    Its pictures stay where they are, and are read from the file when they are asked for.
    """
    refuse_foreign_file(path)
    with explained(path):
        connection = connected_to_read(path)
        try:
            current = current_copy(connection)
            try:
                return read_whole(current, path, partial(picture_in, path.absolute()))
            finally:
                current.close()
        finally:
            connection.close()


def yard_name(path: Path) -> str:
    """The yard's name in a notebook file, read without the rest; "" where it cannot be read."""
    try:
        connection = connected(path, "ro")
        try:
            connection.execute("PRAGMA busy_timeout = 0")
            row = connection.execute("SELECT name FROM yard").fetchone()
        finally:
            connection.close()
    except sqlite3.Error:
        return ""
    return str(row[0]) if row is not None else ""


class Store:
    """A notebook's file, open as its one writer or, where that cannot be, to be looked at.

    One per file and process; `close` it when done.
    """

    def __init__(self, path: Path) -> None:
        """Connect to an existing notebook; OwnerError if it cannot be.

        The writer brings it up to date. `read_only` says why this is not the writer.
        """
        self.path = path
        if is_open_here(path):
            raise OwnerError(
                tr("{name}: this notebook is already open in this window.", name=path.name)
            )
        self._opened = opened(path)
        self.is_open = True
        self.shelf = PictureShelf(self._connection)
        self._data_version: int | None = None
        self._settle()

    @property
    def read_only(self) -> str:
        """Why nothing may be written, with the mend; empty where it may."""
        return self._opened.why_not

    @property
    def _connection(self) -> sqlite3.Connection:
        return self._opened.connection

    def read(self) -> Notebook:
        """The whole notebook; OwnerError where it is damaged, or a program keeps changing it."""
        with explained(self.path):
            for _ in range(_READINGS):
                before = stamp_of(self.path)
                notebook = read_whole(self._connection, self.path, self.shelf.picture)
                self._data_version = data_version_of(self._connection)
                self._stamp = stamp_of(self.path)
                # A sync program asks for no lock: what it wrote meanwhile would be half read.
                if self._stamp == before:
                    break
            else:
                raise OwnerError(
                    tr(
                        "{name}: another program keeps changing this file; wait for it.",
                        name=self.path.name,
                    )
                )
            # The pages read are of no more use: an edit needs a few of them.
            self._connection.execute("PRAGMA shrink_memory")
        return notebook

    def take_over(self, shelf: PictureShelf) -> None:
        """From now on the pictures that were read from another file's shelf come from this file.

        It holds the notebook that was read from the other one, and need not be read for it.
        """
        with explained(self.path):
            self._data_version = data_version_of(self._connection)
        self.shelf = shelf
        self.shelf.connection = self._connection

    def write(self, *changes: Change) -> None:
        """Write changes in order as one transaction, synced to the disk before this returns.

        Raises OwnerError, with nothing written, where the disk refuses, another program holds the
        file or it is only open to be looked at; ChangedElsewhere where another program has changed
        it, or it was moved away.
        """
        if self.read_only:
            raise OwnerError(self.read_only)
        with explained(self.path):
            refuse_found(self.path, self.look())
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                self._refuse_changed_elsewhere()
                for change in changes:
                    _write_change(self._connection, change)
                # Once more, for a sync program asks for no lock. Large changes have spilled into
                # the file by now, so that only whether it is the same file can be told.
                self._refuse_replaced()
                self._connection.execute("COMMIT")
            except BaseException as error:
                self._roll_back(error)
                raise
            self._stamp = stamp_of(self.path)

    def write_if_any(self, change: Change) -> None:
        """Write a change unless it is empty; errors as of `write`."""
        if change:
            self.write(change)

    @contextlib.contextmanager
    def in_a_hurry(self) -> Iterator[None]:
        """While this lasts, a file that another program holds is not waited for."""
        self._connection.execute("PRAGMA busy_timeout = 0")
        try:
            yield
        finally:
            self._connection.execute(f"PRAGMA busy_timeout = {WAIT_SECONDS * 1000:.0f}")

    def look(self) -> Found:
        """How the file is found, by what the system says of it; nothing in it is read."""
        found = found_at(self.path, self._stamp)
        if found == "same" and not self.read_only and not self._left_journal:
            return "journal" if journal_bytes(self.path) else "same"
        return found

    def may_write(self) -> bool:
        """Whether `reconnect` would make this the writer now, where it is not."""
        return bool(self.read_only) and is_free(self.path)

    def disown(self) -> None:
        """Take the file for changed by another, so that nothing is written into it."""
        self._stamp = None

    def reconnect(self) -> None:
        """Connect anew to what lies at the path now, as its writer where that may be.

        `read` is to follow: what was remembered of the old file is forgotten. Raises OwnerError
        where nothing can be opened there; then all stays as it is, and nothing can be written.
        """
        before = self._opened
        if before.writer is not None:
            # What lies there now may be another file, with a lock of its own.
            before.writer.release()
        try:
            self._opened = opened(self.path)
        except BaseException:
            self._opened = kept_open(before, self.path)
            raise
        before.connection.close()
        self.shelf.connection = self._connection
        self._settle()

    def reconnect_to(self, notebook: Notebook) -> bool:
        """Connect anew where the file holds just this notebook, which is then not read twice.

        False where it does not, or was changed meanwhile: `reconnect` and `read` are to follow.
        Raises OwnerError where it cannot be read or opened; all stays as it is then.
        """
        before = stamp_of(self.path)
        if difference(notebook, load(self.path)):
            return False
        self.reconnect()
        try:
            self._data_version = data_version_of(self._connection)
        except sqlite3.Error:
            return False
        self._stamp = stamp_of(self.path)
        return self._stamp == before and not journal_bytes(self.path)

    def close(self) -> None:
        """Disconnect; no file is left beside the notebook. Closing twice does no harm."""
        note_closed(id(self))
        # What undo can no longer bring back goes for good; an edit leaves it where it is. Where
        # the journal stays, it is an empty file; every committed edit is in the notebook already.
        # To a file that is not ours to write, or that another program has changed, nothing is done.
        found = self.look() if self.is_open and not self.read_only else None
        self.is_open = False
        for statement in (CLEAR, "PRAGMA journal_mode = DELETE") if found == "same" else ():
            with contextlib.suppress(sqlite3.Error):
                self._connection.execute(statement)
        self._connection.close()
        if found in ("gone", "changed"):
            drop_empty_journal(self.path)
        self._opened.close()

    def _settle(self) -> None:
        """Remember the file as it was just connected to."""
        self._stamp = stamp_of(self.path)
        self._data_version = None
        self._left_journal = False
        note_open(id(self), self.path)

    def _roll_back(self, error: BaseException) -> None:
        """Take the transaction back. Where the disk refuses even that, the journal is ours."""
        self._left_journal = True
        self._connection.rollback()
        self._left_journal = journal_bytes(self.path) > 0
        if not isinstance(error, ChangedElsewhere):
            # What had spilled into the file was taken out of it again.
            self._stamp = stamp_of(self.path)

    def _refuse_replaced(self) -> None:
        now, left = stamp_of(self.path), self._stamp
        if now is None or left is None or now[:2] != left[:2]:
            refuse_found(self.path, "gone" if now is None else "changed")

    def _refuse_changed_elsewhere(self) -> None:
        if self._data_version not in (None, data_version_of(self._connection)):
            refuse_found(self.path, "changed")


def _write_everything(
    connection: sqlite3.Connection,
    notebook: Notebook,
    also: Iterable[Picture],
    between: Callable[[bool], None],
) -> None:
    connection.execute("BEGIN IMMEDIATE")
    for table in TABLES:
        between(False)
        rows = (row_of(table, record) for record in notebook.table(table).values())
        connection.executemany(_upsert(table), rows)
    pictured: tuple[Pictured, ...] = (*notebook.photos.values(), *notebook.backdrops.values())
    # First those that may keep but a place: what is shown then finds its place taken.
    shelve_for_undo(connection, also)
    shelve(connection, (each.data_b64 for each in pictured))
    connection.execute("COMMIT")


def _write_change(connection: sqlite3.Connection, change: Change) -> None:
    for (table, record_id), (before, after) in change.items():
        if after is None:
            connection.execute(_delete(table), (record_id,))
            continue
        if isinstance(after, Pictured) and not _same_picture(before, after):
            shelve(connection, (after.data_b64,))
        connection.execute(_upsert(table), row_of(table, after))


def _same_picture(before: Record | None, after: Pictured) -> bool:
    return isinstance(before, Pictured) and before.data_b64 == after.data_b64


def opened_whole(path: Path) -> tuple[Store, Notebook]:
    """The open file and all that it holds; it is closed again if it cannot be read."""
    store = Store(path)
    try:
        return store, store.read()
    except BaseException:
        store.close()
        raise


@cache
def _delete(table: str) -> str:
    return _statement("DELETE FROM", table, "WHERE id = ?")


@cache
def _upsert(table: str) -> str:
    names = column_names(table)
    marks = ", ".join("?" for _ in names)
    updates = ", ".join(f"{name} = excluded.{name}" for name in names[1:])
    insert = ("INSERT INTO", table, "(", ", ".join(names), ") VALUES (", marks, ")")
    return _statement(*insert, "ON CONFLICT (id) DO UPDATE SET", updates)


def _statement(*words: str) -> str:
    # Every word is a name from our own tables; values always go in as parameters.
    return " ".join(words)
