"""The notebook's file: one SQLite database, read whole, and written one Change at a time.

Opening a current file and writing an edit needs nothing but `sqlite3`. A file of an older version
is brought up to date first (see `migrations`). Every failure that is the owner's situation is an
OwnerError, and leaves the file as it was.
"""

import contextlib
import gc
import sqlite3
from collections.abc import Iterable, Iterator
from functools import cache, partial
from pathlib import Path

from lawnbook.store.columns import PictureOf, column_names, row_of
from lawnbook.store.files import (
    NOTEBOOK_SUFFIX,
    refuse_missing_folder,
    refuse_wrong_suffix,
    unreadable,
    written_whole,
)
from lawnbook.store.many_rows import RowReader, WrongRowError
from lawnbook.store.migrations import (
    APPLICATION_ID,
    CURRENT_VERSION,
    bring_up_to_date,
    refuse_loose_references,
)
from lawnbook.store.picture_shelf import (
    CLEAR,
    PictureShelf,
    connected,
    connected_to_read,
    picture_in,
    refuse_missing_pictures,
    shelve,
    shelve_for_undo,
)
from lawnbook.store.trouble import is_owners_trouble, trouble_sentence
from lawnbook.yard.notebook import Change, Notebook, new_notebook, with_tables
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, Pictured, Record

_MAGIC = b"SQLite format 3\x00"
_ROWS_AT_ONCE = 1000
_connected: set[Path] = set()


def create(
    path: Path, notebook: Notebook, *, overwrite: bool = False, also: Iterable[Picture] = ()
) -> None:
    """Write a new notebook file, whole or not at all.

    `also` are pictures to lie in it that none of its records shows now: undo may bring them
    back, damaged ones as such. Raises OwnerError for a name that does not end in .lawnbook, a
    missing folder, a file that is already there (unless `overwrite`), one that is open here, a
    picture that cannot be read any more, or a disk that refuses.
    """
    refuse_taken(path, overwrite=overwrite)
    with written_whole(path) as fresh, explained(path):
        connection = connected(fresh, "rwc")
        try:
            bring_up_to_date(connection)
            _write_everything(connection, notebook, also)
        finally:
            connection.close()


def refuse_taken(path: Path, *, overwrite: bool = False) -> None:
    """Raise OwnerError where a new notebook cannot go: name, folder, or a file that is there."""
    refuse_wrong_suffix(path, NOTEBOOK_SUFFIX, "A notebook")
    refuse_missing_folder(path)
    if path.exists() and not overwrite:
        raise OwnerError(f"{path.name}: this file is already there; choose another name.")
    if path.resolve() in _connected:
        raise OwnerError(f"{path.name}: this notebook is open; choose another name.")


def load(path: Path) -> Notebook:
    """Read a notebook file without changing it, an older one too; OwnerError if it cannot be.

    Its pictures stay where they are, and are read from the file when they are asked for.
    """
    _refuse_foreign_file(path)
    with explained(path):
        connection = connected_to_read(path)
        try:
            current = _current_copy(connection)
            try:
                return _read(current, path, partial(picture_in, path.absolute()))
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
    """An open notebook file. One per file; `close` it when done."""

    def __init__(self, path: Path) -> None:
        """Connect to an existing notebook and bring it up to date; OwnerError if it cannot be."""
        self.path = path
        self._key = path.resolve()
        if self._key in _connected:
            raise OwnerError(f"{path.name}: this notebook is already open in this window.")
        _refuse_foreign_file(path)
        with explained(path):
            self._connection = connected(path, "rw")
            try:
                self._identity = _identity(path)
                _prepare_for_edits(self._connection)
            except BaseException:
                self._connection.close()
                raise
        _connected.add(self._key)
        self.shelf = PictureShelf(self._connection)
        self._data_version: int | None = None

    def read(self) -> Notebook:
        """The whole notebook; OwnerError where the file is damaged."""
        with explained(self.path):
            notebook = _read(self._connection, self.path, self.shelf.picture)
            self._data_version = _data_version(self._connection)
        return notebook

    def take_over(self, shelf: PictureShelf) -> None:
        """From now on the pictures that were read from another file's shelf come from this file."""
        self.shelf = shelf
        self.shelf.connection = self._connection

    def write(self, *changes: Change) -> None:
        """Write changes in order as one transaction, synced to the disk before this returns.

        Raises OwnerError, with nothing written, where the disk refuses, another program holds or
        has changed the file, or it was moved away.
        """
        with explained(self.path):
            self._refuse_moved_file()
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                self._refuse_changed_elsewhere()
                for change in changes:
                    _write_change(self._connection, change)
                self._connection.execute("COMMIT")
            except BaseException:
                self._connection.rollback()
                raise

    def close(self) -> None:
        """Disconnect; no file is left beside the notebook. Closing twice does no harm."""
        _connected.discard(self._key)
        # What undo can no longer bring back goes for good; an edit leaves it where it is. Where
        # the journal stays, it is an empty file; every committed edit is in the notebook already.
        for statement in (CLEAR, "PRAGMA journal_mode = DELETE"):
            with contextlib.suppress(sqlite3.Error):
                self._connection.execute(statement)
        self._connection.close()

    def _refuse_moved_file(self) -> None:
        if _identity(self.path) != self._identity:
            raise OwnerError(
                f"{self.path.name}: the file was moved or replaced while it was open; "
                "put it back, or save the notebook elsewhere."
            )

    def _refuse_changed_elsewhere(self) -> None:
        if self._data_version not in (None, _data_version(self._connection)):
            raise OwnerError(
                f"{self.path.name}: another program has changed this notebook since it was opened; "
                "save this one elsewhere, then open the file again."
            )


def _prepare_for_edits(connection: sqlite3.Connection) -> None:
    if _version(connection) < CURRENT_VERSION:
        bring_up_to_date(connection)
    connection.execute("PRAGMA journal_mode = TRUNCATE")


def _current_copy(connection: sqlite3.Connection) -> sqlite3.Connection:
    """The same connection where the file is current, else an up-to-date copy in memory."""
    if _version(connection) == CURRENT_VERSION:
        return connection
    copy = sqlite3.connect(":memory:", isolation_level=None)
    try:
        connection.backup(copy)
        bring_up_to_date(copy)
    except BaseException:
        copy.close()
        raise
    return copy


def _read(connection: sqlite3.Connection, path: Path, picture: PictureOf) -> Notebook:
    connection.execute("BEGIN")
    try:
        refuse_loose_references(connection)
        refuse_missing_pictures(connection)
        reader = RowReader(picture)
        with uncollected():
            return with_tables(
                new_notebook(""),
                {table: _records(connection, table, reader) for table in TABLES},
            )
    except WrongRowError as error:
        raise OwnerError(_damaged(path, str(error))) from error
    except sqlite3.Error as error:
        if is_owners_trouble(error):
            raise
        # Nothing but what is in the file can make our own fixed statements fail.
        raise OwnerError(_damaged(path, str(error))) from error
    finally:
        connection.rollback()


def _records(connection: sqlite3.Connection, table: str, reader: RowReader) -> list[Record]:
    """All records of a table by rank and id; in pieces, so that no table lies here twice whole."""
    rows = connection.execute(_select(table))
    records: list[Record] = []
    while piece := rows.fetchmany(_ROWS_AT_ONCE):
        records += reader.records(table, piece)
    return records


@contextlib.contextmanager
def uncollected() -> Iterator[None]:
    """While this lasts, no garbage is looked for.

    Thousands of records come into being, none of them garbage, and looking for it among them takes
    as long as reading them.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _damaged(path: Path, what: str) -> str:
    return f"{path.name}: the file is damaged ({what}); take the last good copy from your backup."


def _write_everything(
    connection: sqlite3.Connection, notebook: Notebook, also: Iterable[Picture]
) -> None:
    connection.execute("BEGIN IMMEDIATE")
    for table in TABLES:
        rows = (row_of(table, record) for record in notebook.table(table).values())
        connection.executemany(_upsert(table), rows)
    pictured: tuple[Pictured, ...] = (*notebook.photos.values(), *notebook.backdrops.values())
    shelve(connection, (each.data_b64 for each in pictured))
    shelve_for_undo(connection, also)
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


@cache
def _select(table: str) -> str:
    return _statement("SELECT", ", ".join(column_names(table)), "FROM", table, "ORDER BY rank, id")


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


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _data_version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA data_version").fetchone()[0])


def _identity(path: Path) -> tuple[int, int]:
    try:
        found = path.stat()
    except OSError:
        return (0, 0)
    return (found.st_dev, found.st_ino)


def _refuse_foreign_file(path: Path) -> None:
    """Raise OwnerError for what is no notebook of a version we know, by the first bytes alone."""
    if path.resolve() in _connected:
        # Closing a second handle would drop SQLite's locks, and an open file is known to be ours.
        return
    try:
        with path.open("rb") as handle:
            header = handle.read(100)
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error
    if len(header) < 100 or header[:16] != _MAGIC or _number(header, 68) != APPLICATION_ID:
        raise OwnerError(
            f"{path.name}: this is not a Lawnbook notebook; choose a {NOTEBOOK_SUFFIX} file."
        )
    if _number(header, 60) > CURRENT_VERSION:
        raise OwnerError(
            f"{path.name}: a newer Lawnbook wrote this notebook; update Lawnbook to open it."
        )


def _number(header: bytes, offset: int) -> int:
    return int.from_bytes(header[offset : offset + 4], "big")


@contextlib.contextmanager
def explained(path: Path) -> Iterator[None]:
    """Turn what SQLite and the system refuse into an OwnerError; let our own bugs through."""
    try:
        yield
    except sqlite3.Error as error:
        if not is_owners_trouble(error):
            raise
        raise OwnerError(trouble_sentence(path, error)) from error
    except UnicodeDecodeError as error:
        # SQLite tells of scrambled names in the file with the scrambled letters.
        raise OwnerError(_damaged(path, "names that cannot be read")) from error
