"""The notebook's file for a handover: new, closed, with no trace of what was removed or of when.

It is written from the notebook's value into a new file, so that no free page of the owner's own
file comes along. The moments at which its tables were made are put to noon of the handover's day,
so that the same notebook on the same day gives the same bytes.
"""

from contextlib import closing
from datetime import date
from pathlib import Path

from lawnbook.store.picture_shelf import connected
from lawnbook.store.sqlite_store import create, explained
from lawnbook.yard.notebook import Notebook

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
