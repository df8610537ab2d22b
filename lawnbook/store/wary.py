"""What a notebook's file from a stranger may hold: the tables of some version, and nothing else.

SQLite's own advice for files that may be hostile ("Defense Against The Dark Arts", sqlite.org),
point by point: the schema is not trusted, cells' sizes are checked, nothing is mapped into memory,
the limits are low, extensions stay unloaded, and we add no function of our own. Where Python can
(3.12 and later) the connection is defensive too, and knows neither triggers nor views. On top of
it the whole schema is compared with what Lawnbook writes, so that no trigger, view, virtual table,
generated column, check or index of a stranger's is ever there when the first row is read.
"""

import hashlib
import os
import re
import sqlite3
import stat
import sys
from collections.abc import Iterable, Mapping
from contextlib import closing
from functools import cache
from pathlib import Path
from types import MappingProxyType

from lawnbook.reading import tr
from lawnbook.store import migrations
from lawnbook.store.columns import columns_of
from lawnbook.store.trouble import StrangeFileError
from lawnbook.yard.limits import LARGEST
from lawnbook.yard.numbers import whole

MOST_ROWS = 1_000_000
"""Rows in one table: a hundred years of a hundred zones watered twice a week."""

LIMITS: Mapping[int, int] = MappingProxyType(
    {
        # The largest cell is a picture; those that the notebook takes in have some megabytes.
        sqlite3.SQLITE_LIMIT_LENGTH: 128 * 2**20,
        sqlite3.SQLITE_LIMIT_SQL_LENGTH: 100_000,
        sqlite3.SQLITE_LIMIT_COLUMN: 100,
        sqlite3.SQLITE_LIMIT_EXPR_DEPTH: 100,
        sqlite3.SQLITE_LIMIT_COMPOUND_SELECT: 50,
        sqlite3.SQLITE_LIMIT_VDBE_OP: 25_000,
        sqlite3.SQLITE_LIMIT_FUNCTION_ARG: 16,
        sqlite3.SQLITE_LIMIT_ATTACHED: 1,
        sqlite3.SQLITE_LIMIT_LIKE_PATTERN_LENGTH: 100,
        sqlite3.SQLITE_LIMIT_VARIABLE_NUMBER: 250,
        sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH: 1,
        sqlite3.SQLITE_LIMIT_WORKER_THREADS: 0,
    }
)
"""SQLite's own limits, far below its usual ones."""

_LONGEST_SCHEMA = 200_000
KNOWN: Mapping[int, str] = MappingProxyType(
    {
        1: "81536dc839d3cef77d00ef686d993b25e520c4ad0275cf4579c8ac1170c07253",
        2: "82bfca61fe51bbb89dfac0f15d0bf929b9ac1610d0645507638840aeafa4b59d",
        3: "1ca6ee9beac87dc8c22fdd46000a38e39d5d44af9a226a4d1be4ec8138c0c9d2",
        4: "2819022e7067c908be3edef63b3baff9a7bfea918966b01bce08311b2bb6654d",
        5: "fe5b9f72086162ef9d27a92229a2c151504b4784e1771aa72c812d64ac8f84ed",
        6: "54c90aa11d768eb9945480f995c0bbf88a2344d51dcf7811b4bf2e341e72a4f4",
        7: "7c7bb1899185e156a701487741b88917ee70928445858f51b89bdd041a1b0b8a",
    }
)
"""The schema of each version by its SHA-256, so that a sound file is known at once."""

_FLAG = re.compile(r"CHECK\(\w{1,40}IN\(0,1\)\)")
_QUOTES = re.compile(r'["\[\]`]')
_STEPS_TAKEN = "_sqlite_migrations"
_OUR_STEPS = re.compile(
    rf"CREATETABLE{_STEPS_TAKEN}\([A-Za-z_,]{{1,200}}\)"
    rf"|CREATEUNIQUEINDEX\w{{1,100}}ON{_STEPS_TAKEN}\([A-Za-z_,]{{1,100}}\)"
)
_WRITE_AHEAD = 2
_SUPER_JOURNAL = bytes.fromhex("d9d505f920a163d7")
_COUNT = "SELECT '{table}', count(*) FROM {table}"
_LOOK = "SELECT '{table}' FROM {table} WHERE {odd} LIMIT 1"
_BACKUP = tr("go to an earlier copy of it, or save what can be read.")
WRITE_AHEAD_TOLD = tr(
    "another program has put this notebook into a mode of its own (write-ahead log); {backup}",
    backup=_BACKUP,
)


def made_wary(connection: sqlite3.Connection) -> None:
    """Set a new connection so that nothing in the file can make it do more than read rows."""
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA cell_size_check = ON")
    connection.execute("PRAGMA mmap_size = 0")
    for limit, most in LIMITS.items():
        connection.setlimit(limit, most)
    if sys.version_info >= (3, 12):
        connection.setconfig(sqlite3.SQLITE_DBCONFIG_DEFENSIVE, True)
        connection.setconfig(sqlite3.SQLITE_DBCONFIG_ENABLE_TRIGGER, False)
        connection.setconfig(sqlite3.SQLITE_DBCONFIG_ENABLE_VIEW, False)


def refuse_strange_schema(connection: sqlite3.Connection) -> None:
    """Raise StrangeFileError unless the file's schema is that of its version, word for word.

    A file without any schema is being made, and passes. sqlite-utils' own table of the steps that
    were taken passes too, as long as it is plain columns.
    """
    length, count = connection.execute(
        "SELECT total(length(sql)), count(*) FROM sqlite_master"
    ).fetchone()
    if not count:
        return
    if length > _LONGEST_SCHEMA:
        raise StrangeFileError(
            tr("it has far more tables than a notebook; {backup}", backup=_BACKUP)
        )
    found = connection.execute("SELECT type, name, sql FROM sqlite_master").fetchall()
    version = int(connection.execute("PRAGMA user_version").fetchone()[0])
    texts = schema_texts(sql for _, _, sql in found)
    if schema_mark(texts) == KNOWN.get(version):
        return
    if version > migrations.CURRENT_VERSION:
        raise StrangeFileError(
            tr("a newer Lawnbook wrote this notebook; update Lawnbook to open it.")
        )
    expected = set(_schema_of(version))
    if set(texts) == expected and len(texts) == len(expected):
        return
    odd = next((row for row in found if set(schema_texts((row[2],))) - expected), None)
    raise StrangeFileError(_oddity(odd))


def schema_texts(statements: Iterable[object]) -> tuple[str, ...]:
    """Statements of a schema so that they can be compared: in order, without blanks and quotes.

    The checks that a flag is 0 or 1 do not count: some were added to a step after its first day.
    """
    return tuple(
        sorted(
            text
            for each in statements
            if each is not None and not _OUR_STEPS.fullmatch(text := _plain(str(each)))
        )
    )


def schema_mark(texts: Iterable[str]) -> str:
    """The SHA-256 of a schema's statements."""
    return hashlib.sha256("\n".join(texts).encode(errors="replace")).hexdigest()


def refuse_too_many_rows(connection: sqlite3.Connection, tables: Iterable[str]) -> None:
    """Raise StrangeFileError where a table has more rows than any yard, or the yard is missing."""
    for table, count in connection.execute(_counts_of(tuple(tables))).fetchall():
        if count > MOST_ROWS:
            raise StrangeFileError(
                tr(
                    "{table} has more than {count} rows; {backup}",
                    table=table,
                    count=whole(MOST_ROWS),
                    backup=_BACKUP,
                )
            )
        if table == "yard" and not count:
            raise StrangeFileError(tr("the yard itself is missing in it; {backup}", backup=_BACKUP))


def refuse_absurd_numbers(connection: sqlite3.Connection, tables: Iterable[str]) -> None:
    """Raise StrangeFileError where a table has larger numbers than any yard.

    Every row is read for it: the reader of the rows says where that is needed. Numbers within
    lists are for the reader of the lists.
    """
    for table in tables:
        if connection.execute(_look_at(table)).fetchone() is not None:
            raise StrangeFileError(
                tr("{table} has a number that no yard has; {backup}", table=table, backup=_BACKUP)
            )


def refuse_strange_place(path: Path) -> None:
    """Raise StrangeFileError for a path that would make SQLite wait, read or write elsewhere.

    A pipe would wait for ever, a device never end. A write-ahead log and a journal that names
    other files are never ours, and a link in their place would lead the writing elsewhere. The
    notebook's file itself is not opened: it may be connected, and would lose its locks.
    """
    if path.exists() and not path.is_file():
        raise StrangeFileError(tr("this is not a file; choose a .lawnbook file."))
    for ending in ("-journal", "-wal", "-shm"):
        # Where SQLite looks for them: beside the file itself, not beside a link to it.
        beside = Path(f"{os.path.realpath(path)}{ending}")
        try:
            found = beside.lstat()
        except OSError:
            continue
        if ending != "-journal" or not stat.S_ISREG(found.st_mode) or _is_of_several(beside):
            raise StrangeFileError(
                tr(
                    "the file {name} beside it was not written by Lawnbook; close the "
                    "program that works on this notebook, or move that file away.",
                    name=beside.name,
                )
            )


def is_write_ahead(header: bytes) -> bool:
    """Whether the first bytes of a file say that it needs a write-ahead log; ours never do."""
    return _WRITE_AHEAD in header[18:20]


def _is_of_several(journal: Path) -> bool:
    """Whether a journal says that it belongs to several files, of which SQLite would delete one."""
    try:
        with journal.open("rb") as handle:
            handle.seek(-min(len(_SUPER_JOURNAL), journal.stat().st_size), os.SEEK_END)
            return handle.read() == _SUPER_JOURNAL
    except OSError:
        return False


def _plain(statement: str) -> str:
    return _FLAG.sub("", _QUOTES.sub("", "".join(statement.split())))


def _schema_of(version: int) -> tuple[str, ...]:
    """The statements of a version, made anew from its steps."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as made:
        for each in migrations.statements_of(version):
            made.execute(each)
        return schema_texts(row[0] for row in made.execute("SELECT sql FROM sqlite_master"))


def _oddity(row: tuple[object, object, object] | None) -> str:
    if row is None:
        return tr("a table of it is missing; {backup}", backup=_BACKUP)
    kind, name = (str(each)[:40] for each in row[:2])
    told = "".join(c if c.isprintable() else "?" for c in name)
    kinds = {
        "view": tr("a view"),
        "trigger": tr("a trigger"),
        "index": tr("an index"),
        "table": tr("a table"),
    }
    return tr(
        'it holds {part} "{told}" that is not of Lawnbook; {backup}',
        part=kinds.get(kind, tr("a part")),
        told=told,
        backup=_BACKUP,
    )


@cache
def _counts_of(tables: tuple[str, ...]) -> str:
    """The statement that counts the rows of tables."""
    return " UNION ALL ".join(_COUNT.format(table=table) for table in tables)


def _look_at(table: str) -> str:
    # Every word is a name from our own tables, or a constant.
    numbers = [each.name for each in columns_of(table) if each.sql_type != "TEXT"]
    odd = (f"{name} NOT BETWEEN -{LARGEST} AND {LARGEST}" for name in ("rank", *numbers))
    return _LOOK.format(table=table, odd=" OR ".join(odd))
