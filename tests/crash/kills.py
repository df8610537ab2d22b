"""Kill a process that edits a notebook, at random points, and look at what its file holds.

The child makes random moves and reports each once it has been told that it is kept. The parent
makes the same moves in memory: the file must hold what was reported last, or, where the child was
killed inside an edit, that edit whole.
"""

import os
import signal
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Literal, NoReturn
from unittest.mock import patch

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import Store, create
from lawnbook.yard.notebook import Change, Notebook
from tests.crash.moves import TODAY, beginning, in_memory, move

When = Literal["opening", "editing", "closing"]
_BEGUN, _WRITES, _KEPT, _CLOSING = b"b", b"w", b"k", b"c"
_FRESH_EVERY = 25
"""Rounds after which the notebook begins anew, so that it does not grow for ever."""

_MOST_MOVES, _POLL_SECONDS = 8, 20.0
_LEAST_DELAY_SECONDS, _MOST_DELAY_SECONDS = 2e-5, 2e-2
"""From a commit in memory to one on a slow disk; drawn evenly on a scale of logarithms."""


class Lost(AssertionError):
    """Something that was reported as kept is not there, or half an edit is."""


@dataclass(slots=True)
class Tally:
    """What the kills hit."""

    kills: int = 0
    inside_edit: int = 0
    hot_journal: int = 0
    next_was_there: int = 0
    kept_edits: int = 0
    at: dict[str, int] = field(default_factory=dict)

    def lines(self) -> Iterator[str]:
        """The tally for people to read."""
        at = ", ".join(f"{count} while {when}" for when, count in sorted(self.at.items()))
        yield f"{self.kills} kills ({at}); {self.kept_edits} edits reported as kept, none lost"
        yield f"{self.inside_edit} inside an edit, of which {self.next_was_there} whole in the file"
        yield f"{self.hot_journal} left a journal to roll back"


@dataclass(frozen=True, slots=True)
class _Aim:
    """When to kill: some time after opening, after so many writings began, or after closing did."""

    when: When
    moves: int
    delay_seconds: float

    def is_due(self, told: bytes) -> bool:
        """Whether the child has reported what the delay is counted from."""
        if self.when == "closing":
            return _CLOSING in told
        return self.when == "opening" or told.count(_WRITES) >= self.moves


def run(kills: int, folder: Path, seed: int = 1) -> Tally:
    """Kill `kills` children, one after the other; Lost where an edit was."""
    chance, tally = Random(seed), Tally()
    first = held = beginning()
    for number in range(kills):
        path = folder / f"{number // _FRESH_EVERY}.lawnbook"
        if not path.exists():
            create(path, first)
            held = first
        held = _round(path, held, chance, tally)
        if (number + 1) % _FRESH_EVERY == 0:
            path.unlink()
    return tally


def _round(path: Path, before: Notebook, chance: Random, tally: Tally) -> Notebook:
    """Kill one child that edits a file which holds `before`; what the file holds afterwards."""
    when: When = chance.choices(("opening", "editing", "closing"), (1, 12, 1))[0]
    seed, moves = chance.randrange(2**32), chance.randrange(1, _MOST_MOVES)
    spread = _MOST_DELAY_SECONDS / _LEAST_DELAY_SECONDS
    aim = _Aim(when, moves, _LEAST_DELAY_SECONDS * spread ** chance.random())
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        _edit_until_killed(path, seed, moves if when == "closing" else None, writer)
    os.close(writer)
    told = _killed(child, reader, aim)
    journal = path.with_name(path.name + "-journal")
    tally.hot_journal += journal.exists() and journal.stat().st_size > 0
    tally.at[when] = tally.at.get(when, 0) + 1
    tally.kills += 1
    return _look(path, before, seed, told, tally)


def _edit_until_killed(path: Path, seed: int, moves: int | None, writer: int) -> NoReturn:
    """The child: moves without end, or `moves` of them and a close; each is reported."""
    try:
        book, chance = OpenNotebook.open(path, TODAY), Random(seed)
        _report_writing(writer)
        while moves is None or moves > 0:
            os.write(writer, _BEGUN)
            move(book, chance)
            if book.trouble:
                os._exit(3)
            os.write(writer, _KEPT)
            moves = None if moves is None else moves - 1
        os.write(writer, _CLOSING)
        book.close()
        signal.pause()
    finally:
        os._exit(2)


def _report_writing(writer: int) -> None:
    """Report each time that the store is about to write."""
    write = Store.write

    def reported(store: Store, *changes: Change) -> None:
        os.write(writer, _WRITES)
        write(store, *changes)

    patch.object(Store, "write", reported).start()


def _killed(child: int, reader: int, aim: _Aim) -> bytes:
    """Kill the child where the aim says; all that it reported."""
    told = b""
    until = time.monotonic() + _POLL_SECONDS
    while not aim.is_due(told) and time.monotonic() < until:
        got = os.read(reader, 64)
        if not got:
            break
        told += got
    time.sleep(aim.delay_seconds)
    os.kill(child, signal.SIGKILL)
    while got := os.read(reader, 4096):
        told += got
    os.close(reader)
    _, status = os.waitpid(child, 0)
    if os.waitstatus_to_exitcode(status) != -signal.SIGKILL:
        raise Lost(f"the child ended by itself: {os.waitstatus_to_exitcode(status)}")
    return told


def _look(path: Path, before: Notebook, seed: int, told: bytes, tally: Tally) -> Notebook:
    """Open what is left, hold it against the moves made again in memory, and go on with it."""
    kept, begun = told.count(_KEPT), told.count(_BEGUN)
    memory, chance = in_memory(before), Random(seed)
    for _ in range(kept):
        move(memory, chance)
    allowed = [memory.notebook]
    if begun > kept:
        move(memory, chance)
        allowed.append(memory.notebook)
    tally.kept_edits += kept
    tally.inside_edit += begun > kept
    with closing(OpenNotebook.open(path, TODAY)) as book:
        if book.notebook not in allowed:
            raise Lost(f"{path.name}: neither the last value kept nor the next (seed {seed})")
        tally.next_was_there += begun > kept and book.notebook == allowed[-1]
        for photo in book.notebook.photos.values():
            photo.data_b64.data()
        move(book, chance)
        if book.trouble:
            raise Lost(f"the book goes on, but writes no more: {book.trouble}")
    refuse_unsound(path)
    return book.notebook


def refuse_unsound(path: Path) -> None:
    """Raise Lost where a closed file fails SQLite's own checks, or has files beside it."""
    beside = [each.name for each in path.parent.iterdir() if each.name != path.name]
    if beside:
        raise Lost(f"left beside the notebook: {beside}")
    with closing(sqlite3.connect(path)) as raw:
        found = raw.execute("PRAGMA integrity_check").fetchall()
        loose = raw.execute("PRAGMA foreign_key_check").fetchall()
    if found != [("ok",)] or loose:
        raise Lost(f"{path.name}: {found[:3]} {loose[:3]}")
