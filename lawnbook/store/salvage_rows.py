"""The rows of a damaged file put into a new database of the same version, as far as they fit.

Nothing of the file's own schema is used: the tables are made anew from our own steps, so that
neither a trigger nor a check of a stranger's is ever there. SQLite then refuses what cannot be.
"""

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import field
from functools import cache

from lawnbook.frozen import dataclass
from lawnbook.store.columns import columns_of
from lawnbook.store.damaged_pages import Cell, Row
from lawnbook.store.damaged_trees import Survey, lost_ids
from lawnbook.store.schema_steps import STEPS
from lawnbook.yard.records import SINGLES, TABLES

PICTURES = "pictures"
_TYPES: Mapping[str, tuple[type, ...]] = {
    "TEXT": (str,),
    "INTEGER": (int,),
    "REAL": (int, float),
    "BLOB": (bytes,),
}


@dataclass(frozen=True, slots=True)
class Column:
    """A column as a version's steps made it, with what an older row holds in its place."""

    name: str
    type: str
    may_be_null: bool
    default: Cell


@dataclass(slots=True)
class Rows:
    """What came of a table's rows on the way into the new database."""

    lost: tuple[str, ...] = ()
    garbled: int = 0
    renamed: dict[str, str] = field(default_factory=dict)
    unknown: int = 0


@cache
def tables_at(version: int) -> Mapping[str, tuple[Column, ...]]:
    """The tables of a version with their columns, in the order in which rows hold them."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as made:
        take_steps(made, 0, version)
        names = [row[0] for row in made.execute("SELECT name FROM sqlite_schema WHERE sql > ''")]
        known = [each for each in (*TABLES, PICTURES) if each in names]
        return {name: tuple(_columns(made, name)) for name in known}


def take_steps(connection: sqlite3.Connection, start: int, end: int) -> None:
    """Take the steps of the schema from one version to another."""
    for _, statements in STEPS[start:end]:
        for each in statements:
            connection.execute(each)


def fits(version: int, table: str, row: Row) -> bool:
    """Whether a row can be one of a table: number and types of its cells, and what they say."""
    columns = tables_at(version)[table]
    if len(row.cells) != len(columns) or (table in SINGLES and row.cells[0] != table):
        return False
    known = {each.name: each for each in columns_of(table)} if table in TABLES else {}
    for column, cell in zip(columns, row.cells, strict=True):
        if cell is None and column.may_be_null:
            continue
        if not isinstance(cell, _TYPES[column.type]):
            return False
        try:
            if column.name in known:
                # On disk a whole number in a REAL column is an integer (fileformat2, 2.3).
                value = float(cell) if column.type == "REAL" and isinstance(cell, int) else cell
                known[column.name].from_cell(value)
        except (ValueError, TypeError, KeyError, OverflowError, RecursionError):
            return False
    return True


def put_rows(connection: sqlite3.Connection, survey: Survey, table: str, version: int) -> Rows:
    """Put a table's rows into the new database; what does not fit is counted."""
    columns = tables_at(version)[table]
    found, outcome = survey.tables[table], Rows()
    insert = statement("INSERT INTO", table, "VALUES (", ", ".join("?" for _ in columns), ")")
    ids = frozenset(found.ids.values())
    read: list[tuple[int, str]] = []
    for row in survey.rows(table):
        cells = _filled(row.cells, columns)
        head = row.cells[0] if row.cells else None
        try:
            connection.execute(insert, cells)
        except (sqlite3.Error, OverflowError, UnicodeEncodeError):
            outcome.garbled += not _is_there(connection, table, cells)
            read.append((row.rowid, str(head)))
            continue
        read.append((row.rowid, str(head)))
        told = found.ids.get(row.rowid)
        if told is not None and told != head and head not in ids:
            outcome.renamed[str(head)] = told
        elif told is None and head not in ids:
            outcome.unknown += 1
    outcome.lost = lost_ids(found, read)
    return outcome


def _columns(made: sqlite3.Connection, table: str) -> Iterator[Column]:
    told = made.execute(statement("PRAGMA table_info(", table, ")")).fetchall()
    for _, name, kind, must, default, _ in told:
        value = None
        if default is not None:
            # A default is a word of our own steps.
            value = made.execute(statement("SELECT", default)).fetchone()[0]
        yield Column(name, kind, not must, value)


def _filled(cells: tuple[Cell, ...], columns: tuple[Column, ...]) -> tuple[Cell, ...]:
    """A row as wide as its table: columns that were added later hold what SQLite would say."""
    return (*cells, *(column.default for column in columns[len(cells) :]))


def _is_there(connection: sqlite3.Connection, table: str, cells: tuple[Cell, ...]) -> bool:
    """Whether the very same row was put there already: two ways led to one cell."""
    select = statement("SELECT * FROM", table, "WHERE id = ?")
    if table == PICTURES or not cells or not isinstance(cells[0], str):
        return False
    held = connection.execute(select, (cells[0],)).fetchone()
    return bool(held == cells)


def statement(*words: str) -> str:
    """A statement of words that are names from our own tables; values go in as parameters."""
    return " ".join(words)
