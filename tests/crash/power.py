"""Cut the power after every single write, and look at what the disk may then hold.

Until a file is synced, each of the writes since its last sync may have reached the disk or not, in
any order, whole or up to a sector; the file may also have grown without its content. A new journal
may lack its entry in the folder, and a deleted one may be back. (The assumptions are SQLite's own,
sqlite.org/atomiccommit.html, sections 2 and 3; that a write spoils nothing outside of it is its
"powersafe overwrite", sqlite.org/psow.html.)
"""

import hashlib
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import MappingProxyType

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import create
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from tests.crash.kills import Lost, refuse_unsound
from tests.crash.moves import TODAY, beginning, move
from tests.crash.recording import Event, standing_in

SECTOR = 512
FULL = "PRAGMA synchronous = FULL"
NARROW: Mapping[str, str] = MappingProxyType({FULL: f"{FULL}; PRAGMA cache_size = 10"})
"""So little memory that a large edit is written into the file before it is whole."""

_RANDOM_STATES = 4


@dataclass(frozen=True, slots=True)
class Recording:
    """What was written while a notebook was edited, and the values it went through."""

    start: bytes
    events: tuple[Event, ...]
    values: tuple[Notebook, ...]


@dataclass(slots=True)
class Outcome:
    """How many power cuts were tried, and how many different disks they left."""

    cuts: int = 0
    states: int = 0


@dataclass(slots=True)
class _Held:
    """A file: what is on the platter for sure, and what was written since."""

    sure: bytes = b""
    since: list[Event] = field(default_factory=list)

    def settle(self) -> None:
        self.sure, self.since = _written(self.sure, self.since), []


def recorded(
    folder: Path, moves: int, seed: int, swapped: Mapping[str, str] | None = None
) -> Recording:
    """Open a small notebook, make random moves and close it; all that was written meanwhile."""
    path, chance = folder / "recorded.lawnbook", Random(seed)
    create(path, beginning(rows=4))
    start = path.read_bytes()
    with standing_in(swapped) as recorder:
        book = OpenNotebook.open(path, TODAY)
        values = [book.notebook]
        for _ in range(moves):
            recorder.note("begun")
            move(book, chance)
            if book.trouble:
                raise Lost(book.trouble)
            recorder.note("kept")
            values.append(book.notebook)
        book.close()
    path.unlink()
    return Recording(start, tuple(recorder.events), tuple(values))


def replayed(recording: Recording, folder: Path, seed: int = 1) -> Outcome:
    """Open every disk that a power cut may have left; Lost where a kept edit is not there."""
    path, outcome, seen = folder / "after.lawnbook", Outcome(), set[bytes]()
    for allowed, book, journal in _disks(recording, Random(seed), outcome):
        kept = len(recording.values) - len(allowed)
        mark = hashlib.sha256(b"%d %d" % (kept, len(book)) + book + (journal or b"none")).digest()
        if mark not in seen:
            seen.add(mark)
            _look(path, book, journal, allowed)
    outcome.states = len(seen)
    return outcome


def _disks(
    recording: Recording, chance: Random, outcome: Outcome
) -> Iterator[tuple[tuple[Notebook, ...], bytes, bytes | None]]:
    """After each event the values allowed, and each state of the file and its journal."""
    book, journal = _Held(recording.start), _Held()
    # The folder's entry of the journal: for sure, and as a running program sees it.
    entry_sure, entry_now = False, False
    kept = begun = 0
    for event in recording.events:
        kept, begun = kept + (event.kind == "kept"), begun + (event.kind == "begun")
        held = journal if event.is_journal else book
        if event.kind == "create":
            journal, entry_now = _Held(), True
        elif event.kind == "delete":
            entry_now = False
        elif event.kind in ("write", "truncate"):
            held.since.append(event)
        elif event.kind == "sync":
            held.settle()
        if event.folder:
            entry_sure = entry_now
        outcome.cuts += 1
        allowed = recording.values[kept : begun + 1]
        entries = {entry_sure, entry_now}
        for book_bytes in _outcomes(book, chance):
            for journal_bytes in _outcomes(journal, chance) if True in entries else (b"",):
                for entry in entries:
                    yield allowed, book_bytes, journal_bytes if entry else None


def _outcomes(held: _Held, chance: Random) -> Iterator[bytes]:
    """What a file may hold: all, nothing, the last torn, one missing, and some at random."""
    since = held.since
    yield _written(held.sure, since)
    if not since:
        return
    yield held.sure
    yield _written(held.sure, [*since[:-1], _torn(since[-1], chance)])
    gap = chance.randrange(len(since))
    yield _written(held.sure, [*since[:gap], *since[gap + 1 :]])
    for _ in range(_RANDOM_STATES):
        yield _written(held.sure, [_fate(each, chance) for each in since])


def _fate(event: Event, chance: Random) -> Event:
    """What becomes of a write that was not synced: whole, lost, torn, or length without content."""
    drawn = chance.random()
    if drawn < 0.45:
        return event
    if drawn < 0.75 or event.kind == "truncate":
        return Event("begun")
    if drawn < 0.9:
        return _torn(event, chance)
    return Event("truncate", event.is_journal, -(event.at + len(event.data)))


def _torn(event: Event, chance: Random) -> Event:
    """A write that reached the disk up to a sector's end; a truncation reaches it or not."""
    if event.kind == "truncate":
        return event if chance.random() < 0.5 else Event("begun")
    first_end = SECTOR - event.at % SECTOR
    ends = range(first_end, len(event.data), SECTOR)
    return Event("write", event.is_journal, event.at, event.data[: chance.choice(ends or (0,))])


def _written(before: bytes, events: list[Event]) -> bytes:
    """Bytes after writes and truncations in order; a negative size only lengthens."""
    data = bytearray(before)
    for event in events:
        if event.kind == "truncate" and event.at >= 0:
            del data[event.at :]
        size = abs(event.at) if event.kind == "truncate" else event.at + len(event.data)
        if event.kind == "truncate" or event.data:
            data.extend(bytes(max(0, size - len(data))))
        if event.data:
            data[event.at : event.at + len(event.data)] = event.data
    return bytes(data)


def _look(path: Path, book: bytes, journal: bytes | None, allowed: tuple[Notebook, ...]) -> None:
    path.write_bytes(book)
    beside = path.with_name(path.name + "-journal")
    if journal is not None:
        beside.write_bytes(journal)
    try:
        with closing(OpenNotebook.open(path, TODAY)) as opened:
            if opened.notebook not in allowed:
                raise Lost("after a power cut the file holds neither the last value nor the next")
    except OwnerError as error:
        raise Lost(f"after a power cut the file cannot be opened: {error}") from error
    refuse_unsound(path)
