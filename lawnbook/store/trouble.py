"""What SQLite says when the disk, another program or the file itself is in the way, in words."""

import sqlite3
from pathlib import Path

_SENTENCES = (
    ("SQLITE_FULL", "the disk is full; free some space, then try again."),
    ("SQLITE_BUSY", "another program is using this notebook; close it there, then try again."),
    ("SQLITE_LOCKED", "another program is using this notebook; close it there, then try again."),
    (
        "SQLITE_READONLY",
        "the file or its folder is write-protected; allow writing, or save elsewhere.",
    ),
    ("SQLITE_PERM", "the file is write-protected; allow writing, or save elsewhere."),
    (
        "SQLITE_CANTOPEN",
        "the file cannot be opened here; check the folder and its permissions, or save elsewhere.",
    ),
    ("SQLITE_IOERR", "the disk reports an error; check the drive, or save elsewhere."),
    ("SQLITE_CORRUPT", "the file is damaged; take the last good copy from your backup."),
    ("SQLITE_NOTADB", "this is not a Lawnbook notebook; choose a .lawnbook file."),
    ("SQLITE_TOOBIG", "an entry is too large for the notebook; use a smaller picture."),
    ("SQLITE_NOMEM", "the computer is out of memory; close other programs, then try again."),
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
    return getattr(error, "sqlite_errorname", None) or ""
