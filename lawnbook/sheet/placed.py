"""Where the figures of a page stand: boxes in points with the key of what is told in each.

Sections tell the ink where a figure stands as they draw it; nobody listens while a page is only
printed. A key is of its kind, whose it is, and which figures: "water:z1:run_minutes cycles".
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from urllib.parse import quote, unquote

from lawnbook.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Placed:
    """A box on a page, in points, and the key of the figures in it."""

    left: float
    top: float
    right: float
    bottom: float
    key: str

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies in the box; its right and lower sides are not of it."""
        return self.left <= x < self.right and self.top <= y < self.bottom


def key_of(kind: str, of: str, figures: str = "") -> str:
    """A key: an id may hold any sign, so it is quoted."""
    return f"{kind}:{quote(of, safe='')}:{figures}"


def parts_of(key: str) -> tuple[str, str, str]:
    """The kind of a key, whose it is, and which figures."""
    kind, of, figures = key.split(":")
    return kind, unquote(of), figures


_LISTENING: ContextVar[list[Placed] | None] = ContextVar("placed", default=None)


def place(box: tuple[float, float, float, float], key: str) -> None:
    """Tell where figures stand: left, top, right and bottom in points. Lost where nobody asked."""
    told = _LISTENING.get()
    if told is not None and key:
        told.append(Placed(*box, key))


@contextmanager
def listening() -> Iterator[list[Placed]]:
    """What is placed while a page is drawn inside."""
    told: list[Placed] = []
    before = _LISTENING.set(told)
    try:
        yield told
    finally:
        _LISTENING.reset(before)
