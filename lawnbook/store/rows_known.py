"""Whether a file's tables hold just the rows that their own indexes know.

SQLite reads a table without looking at the index of its ids. A few damaged bits in a page's head,
or in an id, would then take rows away without a word: "PRAGMA integrity_check" tells so, but takes
a third of the time that reading takes. Comparing the ids alone takes a tenth, and finds both.
"""

import sqlite3

from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import SINGLES, TABLES


def refuse_lost_rows(connection: sqlite3.Connection, notebook: Notebook) -> None:
    """Raise sqlite3.IntegrityError where a notebook as read lacks a row that its file's index has.

    Or has one that the index lacks. Only the index is read here: it holds all that is asked for.
    """
    for table in TABLES:
        known = connection.execute(_ids_of(table)).fetchone()[0] or ""
        # The same order as SQLite's: of UTF-8 bytes, which is that of the letters' numbers.
        if known != "\n".join(sorted(notebook.table(table))) and (known or table not in SINGLES):
            raise sqlite3.IntegrityError(f"the rows of {table} are not those that its index has")


def _ids_of(table: str) -> str:
    # A table's name is one of our own.
    words = ("SELECT group_concat(id, char(10)) FROM (SELECT id FROM", table, "ORDER BY id)")
    return " ".join(words)
