"""Whether a file's tables hold just the rows that their own indexes know.

SQLite reads a table without looking at the index of its ids. A few damaged bits in a page's head,
or in an id, would then take rows away without a word: "PRAGMA integrity_check" tells so, but takes
a third of the time that reading takes. Comparing the ids alone takes a thirtieth, and finds both.
"""

import sqlite3
from functools import cache

from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import SINGLES, TABLES


def refuse_lost_rows(connection: sqlite3.Connection, notebook: Notebook) -> None:
    """Raise sqlite3.IntegrityError where a notebook as read lacks a row that its file's index has.

    Or has one that the index lacks. Only the index is read here: it holds all that is asked for.
    """
    for table in TABLES:
        # The same order as SQLite's: of UTF-8 bytes, which is that of the letters' numbers.
        read = "\n".join(sorted(notebook.table(table)))
        for ids_of in (_ids_along_index, _ids_in_order):
            known = connection.execute(ids_of(table)).fetchone()[0] or ""
            if known == read or not (known or table not in SINGLES):
                break
        else:
            raise sqlite3.IntegrityError(f"the rows of {table} are not those that its index has")


@cache
def _ids_along_index(table: str) -> str:
    """The ids as SQLite meets them in the index, which is their order, though it promises none."""
    # A table's name is one of our own. The break stands in the statement, for a function of it
    # would be called for every row.
    words = ("SELECT group_concat(id, '\n') FROM", table, "INDEXED BY")
    return " ".join((*words, f"sqlite_autoindex_{table}_1"))


@cache
def _ids_in_order(table: str) -> str:
    """The same in order by promise, at three times the cost."""
    words = ("SELECT group_concat(id, '\n') FROM (SELECT id FROM", table, "ORDER BY id)")
    return " ".join(words)
