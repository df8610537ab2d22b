"""Where a notebook's pictures are read from, one at a time and only when they are looked at."""

import os
import sqlite3
from collections.abc import Iterable
from contextlib import closing
from functools import partial
from pathlib import Path

from lawnbook.reading import tr
from lawnbook.store.trouble import is_owners_trouble, trouble_sentence
from lawnbook.store.wary import made_wary, refuse_strange_place, refuse_strange_schema
from lawnbook.yard.pictures import Picture, sha256_of
from lawnbook.yard.problems import OwnerError

CLEAR = """
    DELETE FROM pictures WHERE sha256 NOT IN
    (SELECT sha256 FROM photos UNION SELECT sha256 FROM backdrops)
"""
APART_SINCE = 4
"""The version from which on pictures lie in a table of their own."""

WAIT_SECONDS = 0.5
"""How long another program that holds the file is waited for."""

_READ = "SELECT data FROM pictures WHERE sha256 = ?"
_READ_BEFORE = "SELECT data FROM photos WHERE sha256 = ?"
_HELD = "SELECT 1 FROM pictures WHERE sha256 = ?"
_PUT = """
    INSERT INTO pictures (sha256, data) VALUES (?, ?)
    ON CONFLICT (sha256) DO UPDATE SET data = excluded.data WHERE data <> excluded.data
"""
_KEEP_PLACE = "INSERT OR IGNORE INTO pictures (sha256, data) VALUES (?, x'')"
_MISSING = """
    SELECT sha256 FROM photos UNION SELECT sha256 FROM backdrops EXCEPT SELECT sha256 FROM pictures
"""
_GONE = tr("A picture cannot be read from the notebook's file any more; add it again.")
_ALTERED = tr(
    "A picture in the notebook's file is damaged; go to an earlier copy of "
    "the notebook, or remove the picture and add it again."
)


class PictureShelf:
    """Brings pictures from the file that is connected at the time, so that a book may move."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def picture(self, sha256: str) -> Picture:
        """A picture of the file, not read yet."""
        return Picture(sha256, lambda: self._bytes(sha256))

    def _bytes(self, sha256: str) -> bytes:
        try:
            return _brought(self.connection, _READ, sha256)
        except sqlite3.Error as error:
            if is_owners_trouble(error) or isinstance(error, sqlite3.ProgrammingError):
                raise OwnerError(_GONE) from error
            raise


def connected(path: Path, mode: str) -> sqlite3.Connection:
    """A connection to a notebook's file, wary of what a stranger may have put into it.

    `mode` is SQLite's: "ro", "rw", or "rwc" to make a new file. Raises sqlite3.Error where the
    file cannot be opened or holds anything but a notebook's tables (see `lawnbook.store.wary`).
    """
    refuse_strange_place(path)
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode={mode}",
        uri=True,
        timeout=WAIT_SECONDS,
        isolation_level=None,
    )
    try:
        made_wary(connection)
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = FULL")
        # On a Mac a plain fsync leaves the drive's own cache as it is; elsewhere nothing changes.
        connection.execute("PRAGMA fullfsync = ON")
        refuse_strange_schema(connection)
    except BaseException:
        connection.close()
        raise
    return connection


def connected_to_read(path: Path) -> sqlite3.Connection:
    """A connection that is only read through.

    Where the file may be written, SQLite may take back what a crash left half done in it.
    """
    return connected(path, "rw" if os.access(path, os.W_OK) else "ro")


def picture_in(path: Path, sha256: str) -> Picture:
    """A picture of a file that is closed, of an older version too: opened briefly to read it."""
    return Picture(sha256, partial(_bytes_in, path.absolute(), sha256))


def _bytes_in(path: Path, sha256: str) -> bytes:
    try:
        with closing(connected_to_read(path)) as connection:
            version = int(connection.execute("PRAGMA user_version").fetchone()[0])
            return _brought(connection, _READ if version >= APART_SINCE else _READ_BEFORE, sha256)
    except sqlite3.Error as error:
        if is_owners_trouble(error):
            raise OwnerError(trouble_sentence(path, error)) from error
        raise OwnerError(_GONE) from error


def _brought(connection: sqlite3.Connection, statement: str, sha256: str) -> bytes:
    row = connection.execute(statement, (sha256,)).fetchone()
    if row is None:
        raise OwnerError(_GONE)
    if sha256_of(row[0]) != sha256:
        raise OwnerError(_ALTERED)
    return bytes(row[0])


def shelve(connection: sqlite3.Connection, pictures: Iterable[Picture]) -> None:
    """Put pictures into the file, within the transaction that is open.

    One that lies there damaged is mended. OwnerError where one is not there and cannot be read.
    """
    for picture in pictures:
        try:
            connection.execute(_PUT, (picture.sha256, picture.data()))
        except OwnerError:
            if connection.execute(_HELD, (picture.sha256,)).fetchone() is None:
                raise


def shelve_for_undo(connection: sqlite3.Connection, pictures: Iterable[Picture]) -> None:
    """As `shelve`, but one that cannot be read keeps an empty place, so that it stays damaged.

    Else undo could not write its record, nor what comes back with it.
    """
    for picture in pictures:
        try:
            shelve(connection, (picture,))
        except OwnerError:
            connection.execute(_KEEP_PLACE, (picture.sha256,))


def refuse_missing_pictures(connection: sqlite3.Connection) -> None:
    """Raise sqlite3.IntegrityError where a record's picture is not in the file."""
    if (missing := connection.execute(_MISSING).fetchone()) is not None:
        raise sqlite3.IntegrityError(f"the picture {str(missing[0])[:8]} is missing")
