"""A second SQLite between the store and the disk: it records what is written, and may refuse.

The store's own functions run on it unaltered: while `standing_in` lasts, `sqlite3.connect` answers
with a connection of apsw, whose file system calls come through Python. What is recorded are the
statements, and so the writes and syncs, that the store really issues. apsw brings an SQLite of its
own version; `versions` names both.
"""

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Any, Literal
from unittest.mock import patch

import apsw

Kind = Literal["create", "write", "truncate", "sync", "delete", "begun", "kept"]
_NAMES = {**apsw.mapping_result_codes, **apsw.mapping_extended_result_codes}


@dataclass(frozen=True, slots=True)
class Event:
    """One thing done to the book's file or its journal, or a note of the program's own.

    `at` is an offset, or the new size; `folder` tells that the folder's entry is synced with it.
    """

    kind: Kind
    is_journal: bool = False
    at: int = 0
    data: bytes = b""
    folder: bool = False


def versions() -> str:
    """The SQLite that is recorded and the one that the program uses."""
    return f"recorded with SQLite {apsw.sqlite_lib_version()}, opened with {sqlite3.sqlite_version}"


def error_named(name: str) -> Exception:
    """The error of an SQLite result code's name, for `Recorder.before` to raise."""
    return apsw.exception_for(int(_NAMES[name]))


def _nothing(_event: Event) -> None:
    """Let everything pass."""


class Recorder(apsw.VFS):
    """SQLite's way to the disk, writing for true and keeping a list of what it wrote."""

    def __init__(self) -> None:
        """Register under a name of its own; see `standing_in`."""
        self.name = f"recorder-{id(self)}"
        self.events: list[Event] = []
        self.before: Callable[[Event], None] = _nothing
        super().__init__(self.name, "")

    def note(self, kind: Literal["begun", "kept"]) -> None:
        """Put a note of the program's own among the events."""
        self.events.append(Event(kind))

    def done(self, event: Event, do: Callable[[], None]) -> None:
        """Do something to a file, if `before` lets it pass, and record it."""
        self.before(event)
        do()
        self.events.append(event)

    def xOpen(self, name: str | apsw.URIFilename | None, flags: list[int]) -> apsw.VFSFile:
        """Open a file; a journal that was not there is recorded as created."""
        path = name.filename() if isinstance(name, apsw.URIFilename) else name or ""
        is_journal = path.endswith("-journal")
        if is_journal and not Path(path).exists():
            self.before(Event("create", is_journal))
            self.events.append(Event("create", is_journal))
        return _File(self, name, flags, is_journal=is_journal)

    def xDelete(self, filename: str, syncdir: bool) -> None:
        """Delete a file, only ever the journal."""
        event = Event("delete", filename.endswith("-journal"), folder=bool(syncdir))
        self.done(event, lambda: super(Recorder, self).xDelete(filename, syncdir))


class _File(apsw.VFSFile):
    def __init__(
        self,
        recorder: Recorder,
        name: str | apsw.URIFilename | None,
        flags: list[int],
        *,
        is_journal: bool,
    ) -> None:
        self._recorder, self._is_journal = recorder, is_journal
        # SQLite on Unix syncs the folder with the first sync of a journal it has opened to create.
        self._folder = is_journal
        super().__init__("", name, flags)

    def xWrite(self, data: Any, offset: int) -> None:
        event = Event("write", self._is_journal, offset, bytes(data))
        self._recorder.done(event, lambda: super(_File, self).xWrite(data, offset))

    def xTruncate(self, newsize: int) -> None:
        event = Event("truncate", self._is_journal, newsize)
        self._recorder.done(event, lambda: super(_File, self).xTruncate(newsize))

    def xSync(self, flags: int) -> None:
        event = Event("sync", self._is_journal, folder=self._folder)
        self._recorder.done(event, lambda: super(_File, self).xSync(flags))
        self._folder = False


class _Cursor:
    """What the store uses of a sqlite3.Cursor."""

    def __init__(self, cursor: apsw.Cursor) -> None:
        self._cursor = cursor

    def __iter__(self) -> Iterator[Any]:
        with _as_sqlite3():
            yield from self._cursor

    def fetchone(self) -> Any:
        return next(iter(self), None)

    def fetchall(self) -> list[Any]:
        return list(self)

    def fetchmany(self, size: int) -> list[Any]:
        return list(islice(self, size))


class _Connection:
    """What the store uses of a sqlite3.Connection, in autocommit mode."""

    def __init__(self, target: str, recorder: Recorder, swapped: Mapping[str, str]) -> None:
        flags = apsw.SQLITE_OPEN_READWRITE | apsw.SQLITE_OPEN_CREATE | apsw.SQLITE_OPEN_URI
        self._swapped = swapped
        with _as_sqlite3():
            self._held = apsw.Connection(target, flags=flags, vfs=recorder.name)

    def execute(self, statement: str, values: Sequence[Any] = ()) -> _Cursor:
        with _as_sqlite3():
            return _Cursor(self._held.execute(self._swapped.get(statement, statement), values))

    def executemany(self, statement: str, rows: Iterable[Sequence[Any]]) -> None:
        with _as_sqlite3():
            self._held.executemany(statement, rows)

    @property
    def in_transaction(self) -> bool:
        return self._held.in_transaction

    def rollback(self) -> None:
        if self.in_transaction:
            self.execute("ROLLBACK")

    def setlimit(self, category: int, limit: int) -> int:
        return self._held.limit(category, limit)

    def close(self) -> None:
        with _as_sqlite3():
            self._held.close()


@contextmanager
def _as_sqlite3() -> Iterator[None]:
    """Turn apsw's errors into those that the store knows, with SQLite's own names."""
    try:
        yield
    except apsw.Error as error:
        code = getattr(error, "extendedresult", 0) or getattr(error, "result", 0)
        told = sqlite3.OperationalError(str(error))
        told.sqlite_errorname = str(_NAMES.get(code, "SQLITE_ERROR"))
        told.sqlite_errorcode = code
        raise told from error


@contextmanager
def standing_in(swapped: Mapping[str, str] | None = None) -> Iterator[Recorder]:
    """Let notebooks be opened through a recorder; `swapped` replaces statements by others."""
    recorder, plain = Recorder(), sqlite3.connect

    def connect(target: Any, **named: Any) -> Any:
        if str(target).startswith("file:"):
            return _Connection(str(target), recorder, swapped or {})
        return plain(target, **named)

    try:
        with patch.object(sqlite3, "connect", connect):
            yield recorder
    finally:
        recorder.unregister()
