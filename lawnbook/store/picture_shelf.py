"""Where a notebook's pictures are read from, one at a time and only when they are looked at."""

import sqlite3
from collections.abc import Iterable, Mapping

from lawnbook.store.trouble import is_owners_trouble
from lawnbook.yard.pictures import Picture, sha256_of
from lawnbook.yard.problems import OwnerError

ADD = "INSERT OR IGNORE INTO pictures (sha256, data) VALUES (?, ?)"
CLEAR = "DELETE FROM pictures WHERE sha256 NOT IN (SELECT sha256 FROM photos)"
_READ = "SELECT data FROM pictures WHERE sha256 = ?"
_HELD = "SELECT 1 FROM pictures WHERE sha256 = ?"
_MISSING = "SELECT sha256 FROM photos EXCEPT SELECT sha256 FROM pictures"
_GONE = "A photograph cannot be read from the notebook's file any more; add it again."


class PictureShelf:
    """Brings pictures from the file that is connected at the time, so that a book may move."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def picture(self, sha256: str) -> Picture:
        """A picture of the file, not read yet."""
        return Picture(sha256, lambda: self._bytes(sha256))

    def _bytes(self, sha256: str) -> bytes:
        try:
            row = self.connection.execute(_READ, (sha256,)).fetchone()
        except sqlite3.Error as error:
            if is_owners_trouble(error) or isinstance(error, sqlite3.ProgrammingError):
                raise OwnerError(_GONE) from error
            raise
        if row is None or sha256_of(row[0]) != sha256:
            raise OwnerError(_GONE)
        return bytes(row[0])


def pictures_at_hand(connection: sqlite3.Connection) -> Mapping[str, Picture]:
    """All pictures of a file, read now: for a file that is closed afterwards."""
    rows = connection.execute("SELECT data FROM pictures")
    return {each.sha256: each for each in (Picture.of(bytes(row[0])) for row in rows)}


def shelve(connection: sqlite3.Connection, pictures: Iterable[Picture]) -> None:
    """Put pictures into the file that are not there yet, within the transaction that is open."""
    for picture in pictures:
        if connection.execute(_HELD, (picture.sha256,)).fetchone() is None:
            connection.execute(ADD, (picture.sha256, picture.data()))


def refuse_missing_pictures(connection: sqlite3.Connection) -> None:
    """Raise sqlite3.IntegrityError where a photograph's picture is not in the file."""
    if (missing := connection.execute(_MISSING).fetchone()) is not None:
        raise sqlite3.IntegrityError(f"the picture {str(missing[0])[:8]} is missing")
