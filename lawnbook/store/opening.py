"""How a notebook's file is opened: who may write into it, and what is refused untouched."""

import contextlib
import os
import sqlite3
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.files import NOTEBOOK_SUFFIX, opened_to_read
from lawnbook.store.migrations import APPLICATION_ID, CURRENT_VERSION, bring_up_to_date
from lawnbook.store.one_writer import HeldElsewhere, Writer, become_writer
from lawnbook.store.picture_shelf import connected
from lawnbook.store.stamps import journal_bytes
from lawnbook.store.trouble import is_owners_trouble, trouble_sentence
from lawnbook.store.wary import WRITE_AHEAD_TOLD, is_write_ahead
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError

_MAGIC = b"SQLite format 3\x00"
_TRIES = 5
_LOOK = tr("Here it can only be looked at")
_open_here: dict[int, tuple[Path, tuple[int, int]]] = {}


@dataclass(frozen=True, slots=True)
class Opened:
    """A connection to a notebook's file.

    `writer` is the right to write into it. Where there is none, `why_not` says so with the mend,
    and an older file is read as an up-to-date copy in memory.
    """

    connection: sqlite3.Connection
    writer: Writer | None
    why_not: str = ""

    def close(self) -> None:
        """Disconnect and let another write. Closing twice does no harm."""
        self.connection.close()
        if self.writer is not None:
            self.writer.release()


def opened(path: Path) -> Opened:
    """Open a notebook as its one writer or, where that cannot be, to be looked at.

    The writer brings an older file up to date. OwnerError, with the file as it was, where it is not
    there, no notebook, damaged, or written by a newer program.
    """
    refuse_foreign_file(path)
    why, writer = why_protected(path), None
    if not why:
        became = become_writer(path)
        if isinstance(became, Writer):
            writer = became
        else:
            why = _held_told(path, became)
    try:
        with explained(path):
            return Opened(_connected_steadily(path, to_write=writer is not None), writer, why)
    except BaseException:
        if writer is not None:
            writer.release()
        raise


def kept_open(before: Opened, path: Path) -> Opened:
    """A connection that stays because nothing can be opened at its path, its right taken again."""
    if before.writer is None:
        return before
    became = become_writer(path)
    if isinstance(became, Writer):
        return Opened(before.connection, became)
    return Opened(before.connection, None, _held_told(path, became))


def is_free(path: Path) -> bool:
    """Whether one who opened the file now would be its writer."""
    if why_protected(path):
        return False
    became = become_writer(path)
    if isinstance(became, Writer):
        became.release()
    return isinstance(became, Writer)


def why_protected(path: Path) -> str:
    """Why the system will not let us write into a file that is there; empty where it will.

    SQLite keeps a journal beside the file, so that the folder must be open to us too.
    """
    if not os.access(path, os.W_OK):
        return tr(
            "{name} is write-protected. {look}; allow writing, or work on a copy.",
            name=path.name,
            look=_LOOK,
        )
    folder = path.resolve().parent
    if not os.access(folder, os.W_OK):
        what = tr("{name} is in a write-protected folder", name=path.name)
        return tr("{what}. {look}; allow writing there, or work on a copy.", what=what, look=_LOOK)
    return ""


def _held_told(path: Path, held: HeldElsewhere) -> str:
    since = "" if held.since is None else tr(" since {moment}", moment=_moment(held.since))
    mend = tr("close it there and try again, or work on a copy.")
    return tr(
        "{name} is open in another window{since}. {look}; {mend}",
        name=path.name,
        since=since,
        look=_LOOK,
        mend=mend,
    )


def _moment(when: datetime) -> str:
    return tr("{when:%H:%M} on {date}", when=when, date=day(when.date()))


def _connected_steadily(path: Path, *, to_write: bool) -> sqlite3.Connection:
    """A connection to the file that lies at the path once it is there."""
    for _ in range(_TRIES):
        before = identity(path)
        connection = _connected_to_write(path) if to_write else _connected_to_look(path)
        if identity(path) == before:
            break
        # A sync program put another file there meanwhile.
        connection.close()
    else:
        raise OwnerError(
            tr("{name}: another program keeps replacing this file; wait for it.", name=path.name)
        )
    return connection


def _connected_to_write(path: Path) -> sqlite3.Connection:
    connection = connected(path, "rw")
    try:
        _refuse_newer(path, version_of(connection))
        if version_of(connection) < CURRENT_VERSION:
            bring_up_to_date(connection)
        if journal_bytes(path):
            # Of a process killed before its journal counted: what counts was rolled back by the
            # first reading. SQLite leaves the rest, which would look like a stranger's.
            connection.execute("PRAGMA journal_mode = TRUNCATE")
            connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("PRAGMA journal_mode = TRUNCATE")
    except BaseException:
        connection.close()
        raise
    return connection


def _connected_to_look(path: Path) -> sqlite3.Connection:
    connection = connected(path, "ro")
    try:
        _refuse_newer(path, version_of(connection))
        current = current_copy(connection)
    except BaseException:
        connection.close()
        raise
    if current is not connection:
        connection.close()
    return current


def current_copy(connection: sqlite3.Connection) -> sqlite3.Connection:
    """The same connection where the file is current, else an up-to-date copy in memory."""
    if version_of(connection) == CURRENT_VERSION:
        return connection
    copy = sqlite3.connect(":memory:", isolation_level=None)
    try:
        connection.backup(copy)
        bring_up_to_date(copy)
    except BaseException:
        copy.close()
        raise
    return copy


def note_open(key: int, path: Path) -> None:
    """Remember that this program has a file open, under a key of the caller's."""
    _open_here[key] = (Path(os.path.realpath(path)), identity(path))


def note_closed(key: int) -> None:
    """Forget it again; a key that is not known does no harm."""
    _open_here.pop(key, None)


def is_open_here(path: Path) -> bool:
    """Whether this program has a notebook file open, under this path or another."""
    # Unlike Path.resolve, this bears a link that leads to itself.
    whole, found = Path(os.path.realpath(path)), identity(path)
    # As it is at one moment: threads beside the window ask too, while the window opens and closes.
    held_open = tuple(_open_here.values())
    return any(whole == held or found == same != (0, 0) for held, same in held_open)


def version_of(connection: sqlite3.Connection) -> int:
    """The schema's version of a file."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def data_version_of(connection: sqlite3.Connection) -> int:
    """A number that is another one once another connection has committed to the file.

    It is of this connection alone (sqlite.org/pragma.html, "data_version").
    """
    return int(connection.execute("PRAGMA data_version").fetchone()[0])


def identity(path: Path) -> tuple[int, int]:
    """What the system calls a file, whatever its name: device and number; (0, 0) for none."""
    try:
        found = path.stat()
    except OSError:
        return (0, 0)
    return (found.st_dev, found.st_ino)


def refuse_foreign_file(path: Path) -> None:
    """Raise OwnerError for what is no notebook of a version we know, by the first bytes alone."""
    if is_open_here(path):
        # Closing a second handle would drop SQLite's locks: SQLite itself looks.
        with explained(path), contextlib.closing(connected(path, "ro")) as connection:
            told = connection.execute("PRAGMA application_id").fetchone()[0]
            _refuse_told(path, int(told), version_of(connection))
        return
    with opened_to_read(path) as handle:
        header = handle.read(100)
    is_database = len(header) == 100 and header.startswith(_MAGIC)
    _refuse_told(path, _number(header, 68) if is_database else 0, _number(header, 60))
    if is_write_ahead(header):
        raise OwnerError(f"{path.name}: {WRITE_AHEAD_TOLD}")


def _refuse_told(path: Path, application_id: int, version: int) -> None:
    if application_id != APPLICATION_ID:
        raise OwnerError(
            tr(
                "{name}: this is not a Lawnbook notebook; choose a {notebook_suffix} file.",
                name=path.name,
                notebook_suffix=NOTEBOOK_SUFFIX,
            )
        )
    _refuse_newer(path, version)


def _refuse_newer(path: Path, version: int) -> None:
    if version > CURRENT_VERSION:
        raise OwnerError(
            tr(
                "{name}: a newer Lawnbook wrote this notebook; update Lawnbook to open it.",
                name=path.name,
            )
        )


def _number(header: bytes, offset: int) -> int:
    return int.from_bytes(header[offset : offset + 4], "big")


def damaged(path: Path, what: str) -> str:
    """The sentence for a file whose content cannot be understood, and where."""
    mend = tr("go to an earlier copy of it, or save what can be read.")
    return tr("{name}: the file is damaged ({what}); {mend}", name=path.name, what=what, mend=mend)


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
        raise OwnerError(damaged(path, tr("names that cannot be read"))) from error
