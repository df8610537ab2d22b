"""Whether a notebook's file is still as our own last commit left it, without opening it.

A sync program replaces the file, or writes into it, and asks for no lock. SQLite sees that by a
counter of commits in the file (sqlite.org/fileformat2.html, 1.3.7), which says nothing where two
machines have each made one: it would then mix its remembered pages with the stranger's. So before
a commit, the file's identity, length and time of change are compared with those after our own last
one. What is told apart is bounded by the file system's clock: a file rewritten in place, at the
same length, within the same tick as our own commit (4 ms on Linux) looks the same.
"""

import os
import stat
from contextlib import suppress
from pathlib import Path
from typing import Literal, NamedTuple

from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

Found = Literal["same", "changed", "gone", "journal"]
"""How a file is found: as it was left, replaced or rewritten by another, not there, or with a
stranger's journal beside it."""


class Stamp(NamedTuple):
    """What the system says of a file: device, number, length in bytes, times of change in ns.

    `changed_ns` can be set back by who wrote into the file, as programs do that keep two folders
    alike; `touched_ns`, of any change of the file or of what is said of it, cannot. Windows tells
    no such time. `mode` are the rights to it.
    """

    device: int
    number: int
    size: int
    changed_ns: int
    touched_ns: int
    mode: int

    def is_left_as(self, left: "Stamp") -> bool:
        """Whether the file is as it was left, but for its rights, which it may lose or get."""
        if self.mode != left.mode:
            return self[:4] == left[:4]
        return self == left


class ChangedElsewhere(OwnerError):
    """Another program has changed, replaced or taken away the notebook; nothing was written."""

    def __init__(self, sentence: str, found: Found) -> None:
        super().__init__(sentence)
        self.found: Found = found


def stamp_of(path: Path) -> Stamp | None:
    """A file's stamp; None where it is not there or out of reach."""
    try:
        found = path.stat()
    except OSError:
        return None
    touched_ns = 0 if os.name == "nt" else found.st_ctime_ns
    times_ns = (found.st_mtime_ns, touched_ns)
    return Stamp(found.st_dev, found.st_ino, found.st_size, *times_ns, found.st_mode)


def found_at(path: Path, left: Stamp | None) -> Found:
    """How the file is found at a path that was left with a stamp; the journal is not looked at."""
    now = stamp_of(path)
    if now is None:
        return "gone"
    return "same" if left is not None and now.is_left_as(left) else "changed"


def journal_bytes(path: Path) -> int:
    """How long the journal beside a notebook is, in bytes; 0 where there is none.

    Between two commits ours is empty. One with something in it was brought by a sync program, and
    SQLite would put the pages in it into our file.
    """
    try:
        return _journal_of(path).stat().st_size
    except OSError:
        return 0


def drop_empty_journal(path: Path) -> None:
    """Take our journal away where SQLite cannot, as the notebook is gone or no longer ours.

    One with something in it stays.
    """
    with suppress(OSError):
        journal = _journal_of(path)
        found = journal.lstat()
        if stat.S_ISREG(found.st_mode) and not found.st_size:
            journal.unlink()


def _journal_of(path: Path) -> Path:
    """Where SQLite has a notebook's journal: beside the file itself, not beside a link to it."""
    return Path(f"{os.path.realpath(path)}-journal")


def told_of(path: Path, found: Found) -> str:
    """The sentence for how a file is found, with the mend; empty for the same."""
    words = {
        "same": "",
        "gone": _gone(path),
        "changed": "another program has changed this notebook since it was opened; save this one "
        "elsewhere, then open the file again.",
        "journal": f"another program is at work on this notebook ({path.name}-journal lies beside "
        "it); wait until it is done, or save this one elsewhere.",
    }[found]
    return f"{path.name}: {words}" if words else ""


def _gone(path: Path) -> str:
    folder = path.absolute().parent
    if not folder.is_dir():
        return tr(
            "the folder {folder} is not there; connect its drive again, or save elsewhere.",
            folder=folder,
        )
    return tr(
        "the file was moved or replaced while it was open; put it back, write it "
        "anew, or save it elsewhere."
    )


def refuse_found(path: Path, found: Found) -> None:
    """Raise ChangedElsewhere unless the file is found as it was left."""
    if found != "same":
        raise ChangedElsewhere(told_of(path, found), found)


def conflict_copies(path: Path) -> tuple[Path, ...]:
    """Copies that a sync program has laid beside a notebook which two machines had changed.

    Such a copy begins with the notebook's name and has the word "conflict" in its own (common
    practice among sync programs). Empty where the folder cannot be read.
    """
    stem = path.stem.casefold()
    try:
        names = [each.name for each in path.absolute().parent.iterdir()]
    except OSError:
        return ()
    held = [
        each
        for each in names
        if each.casefold().startswith(stem)
        and "conflict" in each.casefold()[len(stem) :]
        and each.casefold().endswith(path.suffix.casefold())
    ]
    return tuple(path.with_name(each) for each in sorted(held))
