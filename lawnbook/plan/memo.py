"""What a plan remembers from the plan before it, so that an edit costs what it touches.

A part of a plan is remembered with what it was made from, and made anew unless all of that is the
same: records and tables by identity, as a notebook's tables are told apart, small values such as a
day by value. What it was made from is held as long as the part, so no object takes the place of
another with its identity. Only what the last plan used is held.
"""

from collections.abc import Callable, Hashable
from datetime import date
from typing import Any, TypeVar

T = TypeVar("T")
MadeFrom = tuple[object, ...]

_SMALL = (str, int, float, bool, date)
"""Told apart by value; all else, records too, by identity."""


class Memo:
    """The parts of one maker's last plan. Not for two threads at once: give each maker its own."""

    def __init__(self) -> None:
        """Remember nothing yet."""
        self._held: dict[Hashable, tuple[MadeFrom, Any]] = {}
        self._used: dict[Hashable, tuple[MadeFrom, Any]] = {}

    def begin(self) -> None:
        """Begin a plan."""
        self._used = {}

    def end(self) -> None:
        """End it: what it did not use is let go. Without this the parts of the plan before stay."""
        self._held, self._used = self._used, {}

    def part(self, name: Hashable, made_from: MadeFrom, make: Callable[[], T]) -> T:
        """A part under its name, made now unless it is held and all it was made from is the same.

        `made_from` may hold tuples: they are the same where all they hold is.
        """
        held = self._held.get(name)
        if held is not None and _same(held[0], made_from):
            # Kept with the newer of the two, whose tuples are more likely to be met again.
            value: T = held[1]
        else:
            value = make()
        self._used[name] = (made_from, value)
        return value

    def mark(self, name: Hashable, *made_from: object) -> object:
        """Stands for many things at once in `made_from`: the same object while all are the same."""
        return self.part(name, made_from, object)

    @property
    def size(self) -> int:
        """How many parts are held."""
        return len(self._held)


def _same(one: MadeFrom, other: MadeFrom) -> bool:
    if one is other:
        return True
    return len(one) == len(other) and all(map(_alike, one, other))


def _alike(one: object, other: object) -> bool:
    if one is other:
        return True
    if type(one) is not type(other):
        return False
    if isinstance(one, tuple) and isinstance(other, tuple):
        return _same(one, other)
    return isinstance(one, _SMALL) and one == other
