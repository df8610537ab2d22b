"""The notebook's file for a handover: new, closed, with no trace of what was removed or of when.

It is written from the notebook's value into a new file, so that no free page of the owner's own
file comes along. The moments at which its tables were made are put to noon of the handover's day,
so that the same notebook on the same day gives the same bytes.
"""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

from lawnbook.store.opening import explained
from lawnbook.store.picture_shelf import connected, picture_in
from lawnbook.store.sqlite_store import create
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Pictured

_SETTLE = "UPDATE _sqlite_migrations SET applied_at = ?"


def create_steady(path: Path, notebook: Notebook, on: date) -> None:
    """Write a notebook's file that is the same for the same notebook and day.

    OwnerError where the file is there, or the disk refuses.
    """
    create(path, notebook)
    with explained(path), closing(connected(path, "rw")) as connection:
        connection.execute("PRAGMA secure_delete = ON")
        connection.execute(_SETTLE, (f"{on.isoformat()} 12:00:00.000000+00:00",))
        connection.execute("VACUUM")


def with_pictures_apart(notebook: Notebook, path: Path) -> Notebook:
    """The notebook of an open file with pictures that may be read in any thread.

    SQLite's connection of an open book belongs to the thread that opened it. Each picture is read
    through a connection of its own; one that is not in the file yet comes from the memory.
    """

    def apart(record: Pictured) -> Pictured:
        held = record.data_b64

        def read() -> bytes:
            try:
                return picture_in(path, held.sha256).data()
            except OwnerError:
                return held.data()

        return replace(record, data_b64=Picture(held.sha256, read))

    return with_tables(
        notebook,
        {
            "photos": map(apart, notebook.photos.values()),
            "backdrops": map(apart, notebook.backdrops.values()),
        },
    )


def pictures_size(path: Path) -> int:
    """How many bytes the pictures in a notebook's file take; 0 where that cannot be read."""
    try:
        with closing(connected(path, "ro")) as connection:
            row = connection.execute("SELECT sum(length(data)) FROM pictures").fetchone()
    except sqlite3.Error:
        return 0
    return int(row[0] or 0)
