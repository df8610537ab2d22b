"""Edits of the owner's order of what is drawn, and of what is locked."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Literal

from lawnbook.yard.notebook import Change, Key, Notebook
from lawnbook.yard.records import Record
from lawnbook.yard.shape_records import held, refuse_locked

Order = Literal["first", "last", "up", "down"]
"""Where in the list of its table: to an end of it, or one place towards the first or the last."""


def reordered(notebook: Notebook, key: Key, to: Order) -> Change:
    """The change that gives a record another place in its table, empty where it has it already.

    The first of the list lies lowest on the sketch. OwnerError where it is locked.
    """
    record = held(notebook, key)
    refuse_locked((record,))
    rows = list(notebook.table(key[0]).values())
    at = rows.index(record)
    last = len(rows) - 1
    place = {"first": 0, "last": last, "up": max(0, at - 1), "down": min(last, at + 1)}[to]
    rows.insert(place, rows.pop(at))
    return (
        {
            (key[0], row.id): (row, replace(row, rank=rank))
            for rank, row in enumerate(rows)
            if row.rank != rank
        }
        if place != at
        else {}
    )


def locked(notebook: Notebook, keys: Iterable[Key], on: bool) -> Change:
    """The change that locks records on the sketch, or unlocks them; only of those it alters."""
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for key in keys:
        record = held(notebook, key)
        if record.locked != on:
            change[key] = (record, replace(record, locked=on))
    return change
