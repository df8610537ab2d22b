"""The cans of a catch test in the making: the zone, and where each can stands on the sketch.

The sketch's Can tool places them and the water page takes them over; neither knows the other.
"""

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from lawnbook.yard.fields import Point


class CanDraft(QObject):
    """Places in feet, numbered from 1 in their order. One per window; nothing of it is kept."""

    changed = Signal()
    """The zone, a place, or the can in hand is another."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._zone_id = ""
        self._places: tuple[Point, ...] = ()
        self._picked: int | None = None

    @property
    def zone_id(self) -> str:
        """The zone the cans stand in, "" before the first one."""
        return self._zone_id

    @property
    def places(self) -> tuple[Point, ...]:
        """Where each can stands, in feet; the first is can 1."""
        return self._places

    @property
    def picked(self) -> int | None:
        """Which can is in hand, as its index; None for none."""
        return self._picked

    def take(self, zone_id: str, places: Iterable[Point]) -> None:
        """Take these cans over, in place of all others; the last one is in hand."""
        self._zone_id, self._places = zone_id, tuple(places)
        self._pick_last()
        self.changed.emit()

    def add(self, at_ft: Point) -> None:
        """Place one can more. ValueError before a zone is taken."""
        if not self._zone_id:
            raise ValueError("cans stand in a zone: take one first")
        self.take(self._zone_id, (*self._places, at_ft))

    def move(self, index: int, at_ft: Point) -> None:
        """Place a can elsewhere and take it in hand. IndexError where there is none."""
        places = list(self._places)
        places[index] = at_ft
        if (tuple(places), index) != (self._places, self._picked):
            self._places, self._picked = tuple(places), index
            self.changed.emit()

    def pick(self, index: int | None) -> None:
        """Take a can in hand, or none. IndexError where there is none."""
        if index is not None and not 0 <= index < len(self._places):
            raise IndexError(index)
        if index != self._picked:
            self._picked = index
            self.changed.emit()

    def remove(self, index: int) -> None:
        """Take a can away; those after it are renumbered. IndexError where there is none."""
        places = list(self._places)
        del places[index]
        self._places = tuple(places)
        self._pick_last()
        self.changed.emit()

    def remove_last(self) -> None:
        """Take the last can away; nothing happens where there is none."""
        if self._places:
            self.remove(len(self._places) - 1)

    def clear(self) -> None:
        """Forget zone and cans."""
        if self._zone_id or self._places:
            self.take("", ())

    def _pick_last(self) -> None:
        self._picked = len(self._places) - 1 if self._places else None
