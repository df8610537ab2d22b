"""What SQLite says when the disk, another program or the file itself is in the way, in words."""

import sqlite3
from pathlib import Path

from lawnbook.reading import tr

_SENTENCES = (
    ("SQLITE_FULL", tr("the disk is full; free some space, or save elsewhere.")),
    ("SQLITE_BUSY", tr("another program is using this notebook; close it there, then try again.")),
    (
        "SQLITE_LOCKED",
        tr("another program is using this notebook; close it there, then try again."),
    ),
    (
        "SQLITE_READONLY_DBMOVED",
        tr("the file was moved or replaced while it was open; put it back, or save elsewhere."),
    ),
    (
        "SQLITE_READONLY",
        tr("the file or its folder is write-protected; allow writing, or save elsewhere."),
    ),
    ("SQLITE_PERM", tr("the file is write-protected; allow writing, or save elsewhere.")),
    (
        "SQLITE_CANTOPEN",
        tr(
            "the file cannot be opened here; check the folder and its permissions, or save "
            "elsewhere."
        ),
    ),
    (
        # What SQLite says of a used-up quota, and of a file that may grow no further.
        "SQLITE_IOERR_WRITE",
        tr("the disk takes no more (your space is used up, or the drive fails); save elsewhere."),
    ),
    ("SQLITE_IOERR", tr("the disk reports an error; check the drive, or save elsewhere.")),
    (
        "SQLITE_CORRUPT",
        tr("the file is damaged; go to an earlier copy of it, or save what can be read."),
    ),
    ("SQLITE_NOTADB", tr("this is not a Lawnbook notebook; choose a .lawnbook file.")),
    ("SQLITE_TOOBIG", tr("an entry is too large for the notebook; use a smaller picture.")),
    ("SQLITE_NOMEM", tr("the computer is out of memory; close other programs, then try again.")),
)


class StrangeFileError(sqlite3.DatabaseError):
    """A file that no Lawnbook has left as it stands; its text says what, and the mend."""


def is_owners_trouble(error: sqlite3.Error) -> bool:
    """Whether the error is the owner's situation, not a mistake in our own SQL."""
    return isinstance(error, StrangeFileError) or any(
        _name(error).startswith(code) for code, _ in _SENTENCES
    )


def trouble_sentence(path: Path, error: sqlite3.Error) -> str:
    """The sentence for an error of which `is_owners_trouble` is true: file, cause and mend."""
    if isinstance(error, StrangeFileError):
        return f"{path.name}: {error}"
    name = _name(error)
    return next(f"{path.name}: {words}" for code, words in _SENTENCES if name.startswith(code))


def _name(error: sqlite3.Error) -> str:
    # SQLite errors raised by the Python module itself carry no code.
    if str(error).startswith("Could not decode to UTF-8"):
        return "SQLITE_CORRUPT"
    return getattr(error, "sqlite_errorname", None) or ""
