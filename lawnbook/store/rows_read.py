"""All rows of a notebook's file into a notebook, with every check of what stands in them."""

import contextlib
import gc
import sqlite3
from collections.abc import Iterator
from functools import cache
from itertools import islice
from operator import attrgetter, lt
from pathlib import Path

from lawnbook.store.columns import PictureOf, column_names
from lawnbook.store.many_rows import RowReader, WrongRowError
from lawnbook.store.migrations import refuse_loose_references
from lawnbook.store.opening import damaged
from lawnbook.store.picture_shelf import refuse_missing_pictures
from lawnbook.store.rows_known import refuse_lost_rows
from lawnbook.store.trouble import is_owners_trouble
from lawnbook.store.wary import refuse_absurd_numbers, refuse_too_many_rows
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES, Record

_ROWS_AT_ONCE = 1000


def read_whole(connection: sqlite3.Connection, path: Path, picture: PictureOf) -> Notebook:
    """The notebook in a file that is connected; `picture` brings the picture of a SHA-256.

    `path` names the file in what is told. Raises OwnerError where it holds what no notebook does,
    and sqlite3.Error of the owner's kind where the disk or the file cannot be read.
    """
    connection.execute("BEGIN")
    try:
        refuse_too_many_rows(connection, TABLES)
        refuse_missing_pictures(connection)
        notebook = _rows_read(connection, RowReader(picture))
        refuse_lost_rows(connection, notebook)
        return notebook
    except WrongRowError as error:
        raise OwnerError(damaged(path, str(error))) from error
    except sqlite3.Error as error:
        if is_owners_trouble(error):
            raise
        # Nothing but what is in the file can make our own fixed statements fail.
        raise OwnerError(damaged(path, str(error))) from error
    finally:
        connection.rollback()


def _rows_read(connection: sqlite3.Connection, reader: RowReader) -> Notebook:
    """All tables; where the reader is not sure of every row, SQLite itself looks at the file."""
    try:
        with _uncollected():
            notebook = with_tables(
                new_notebook(""),
                {table: _records(connection, table, reader) for table in TABLES},
            )
    except (WrongRowError, sqlite3.Error):
        # What is wrong with the file as a whole is told before what is wrong with one row.
        _look_through(connection)
        raise
    if not reader.is_sure or reader.refers_beyond({t: notebook.table(t) for t in TABLES}):
        _look_through(connection)
    return notebook


def _look_through(connection: sqlite3.Connection) -> None:
    """Look through all rows for what no notebook holds; it takes a third of reading them."""
    refuse_loose_references(connection)
    refuse_absurd_numbers(connection, TABLES)


def _records(connection: sqlite3.Connection, table: str, reader: RowReader) -> list[Record]:
    """All records of a table by rank and id; in pieces, so that no table lies here twice whole."""
    rows = connection.execute(_select(table))
    records: list[Record] = []
    while piece := rows.fetchmany(_ROWS_AT_ONCE):
        records += reader.records(table, piece)
    ranks = list(map(attrgetter("rank"), records))
    # They nearly always lie in order, so that looking is far cheaper than having SQLite sort them.
    if not all(map(lt, ranks, islice(ranks, 1, None))):
        records.sort(key=attrgetter("rank", "id"))
    return records


@contextlib.contextmanager
def _uncollected() -> Iterator[None]:
    """While this lasts, no garbage is looked for.

    Thousands of records come into being, none of them garbage, and looking for it among them takes
    as long as reading them. Afterwards they count as long known (what is set aside and brought
    back is put with the oldest): else the first look after this would be at all of them.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if gc.get_freeze_count() == 0:
            gc.freeze()
            gc.unfreeze()
        if was_on:
            gc.enable()


@cache
def _select(table: str) -> str:
    # Every word is a name from our own tables.
    return " ".join(("SELECT", ", ".join(column_names(table)), "FROM", table))
