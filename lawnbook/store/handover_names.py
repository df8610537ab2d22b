"""The names inside a handover's zip: fit for every system, each its own."""

import unicodedata
from pathlib import PurePosixPath

HANDOVER_SUFFIX = ".zip"
NOTEBOOK_NAME = "notebook.lawnbook"
YARD_NAME = "yard.json"
README_NAME = "README.txt"
CALENDAR_NAME = "calendar.ics"
PHOTOS, DOCUMENTS, TABLES_FOLDER = "photos", "documents", "tables"
LONGEST_NAME = 100
"""Letters of a name inside its folder, ending included."""

_RESERVED = frozenset(
    {
        "con",
        "prn",
        "aux",
        "nul",
        # Windows takes the raised figures of Latin-1 for the plain ones.
        *(f"{port}{n}" for port in ("com", "lpt") for n in "0123456789\u00b9\u00b2\u00b3"),
    }
)
_ALLOWED = " -_.,'()"
_MOST_BYTES = 200
_KEPT = 12
"""Letters that are kept for a number and an ending."""


class Names:
    """Gives each member of the zip a name of its own, whatever its capitals."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def take(self, folder: str, words: str, suffix: str) -> str:
        """A free name for what is called by some words, "" for no folder."""
        stem, number = safe_stem(words), 1
        while (name := _joined(folder, stem, number, suffix)).casefold() in self._taken:
            number += 1
        self._taken.add(name.casefold())
        return name


def safe_stem(words: str) -> str:
    """As `plain_stem`, "unnamed" where nothing of the words is left."""
    return plain_stem(words) or "unnamed"


def plain_stem(words: str) -> str:
    """Words as a file's name without ending: no letter, word or end that a system refuses.

    So it stays in the folder that it is put into, on every system. It may be empty.
    """
    composed = unicodedata.normalize("NFC", words)
    safe = "".join(c if c.isalnum() or c in _ALLOWED else "-" for c in composed)
    safe = " ".join(safe.split()).strip(" .")[: LONGEST_NAME - _KEPT]
    # A name of many letters beyond ASCII is longer than the 255 bytes that some systems take.
    safe = safe.encode()[:_MOST_BYTES].decode(errors="ignore").rstrip(" .")
    return f"_{safe}" if safe.partition(".")[0].strip().casefold() in _RESERVED else safe


def is_safe_member(name: str) -> bool:
    """Whether a name inside somebody's zip stays in the folder that it is unpacked in."""
    parts = PurePosixPath(name.replace("\\", "/")).parts
    rooted = name.startswith(("/", "\\")) or (len(name) > 1 and name[1] == ":")
    return bool(parts) and not rooted and ".." not in parts and "\0" not in name


def _joined(folder: str, stem: str, number: int, suffix: str) -> str:
    name = f"{stem}{suffix}" if number == 1 else f"{stem} ({number}){suffix}"
    return f"{folder}/{name}" if folder else name
