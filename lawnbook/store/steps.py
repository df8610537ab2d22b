"""Long work between whose steps one is told how far it is, and may have it leave off."""

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

T = TypeVar("T")

Between = Callable[[int, int], None]
"""Told between two steps what is done and of how much; what it raises ends the work."""

EVERY = 200
"""Rows from one telling to the next: some milliseconds."""


def untold(_done: int, _of: int) -> None:
    """Tells nobody."""


class Steps:
    """Counts the rows of a piece of work, several times over where it goes over them again."""

    def __init__(self, between: Between, of: int) -> None:
        """Begin at nought of so many."""
        self._between, self._of, self._done = between, of, 0

    def each(self, things: Iterable[T]) -> Iterator[T]:
        """These things one after the other, told as they are done."""
        for one in things:
            if self._done % EVERY == 0:
                self._between(min(self._done, self._of), self._of)
            self._done += 1
            yield one
