"""What labels stand clear of on the sketch, as arrays: pins, heads, features, and every outline.

It is kept up record by record, so that a step of a drag does not walk through all of them.
"""

from functools import lru_cache

import numpy as np
from PySide6.QtCore import QRectF
from PySide6.QtWidgets import QGraphicsItem

from lawnbook.desk.sketch.items import PinItem, scene_point
from lawnbook.desk.sketch.label_places import (
    Box,
    Flags,
    Rows,
    Walls,
    bounds_of,
    grown,
    meets,
    no_rows,
    rows_of,
    sides_ft,
)
from lawnbook.desk.sketch.labels import RIM_PX, Shape
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import centroid_ft, label_point_ft
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Feature, Head, Record, Zone

_HEAD_PX = 7.0
NOWHERE: Box = (0.0, 0.0, 0.0, 0.0)


class Landmarks:
    """The marks of a sketch, each by a box in feet and what it adds to it in pixels."""

    def __init__(self) -> None:
        self._rows: dict[Key, tuple[Box, Box]] = {}
        self._pins: dict[Key, PinItem] = {}
        self._sides: dict[Key, Rows] = {}
        self._bounds: dict[Key, Box] = {}
        self._rings: dict[Key, tuple[Outline, ...]] = {}
        self._array: tuple[Rows, Rows, dict[Key, int]] | None = None
        self._walls: Walls | None = None
        self._pinned: tuple[Rows, Rows, Rows] | None = None
        self._named: Flags | None = None
        self._named_by: tuple[object, ...] = ()
        self._numbers: tuple[object, dict[str, int]] = (None, {})

    def note(self, key: Key, record: Record | None, item: QGraphicsItem | None) -> None:
        """Take up a record as it is drawn now; None where it is drawn no longer."""
        row = _row_of(record)
        if key[0] == "spots":
            self._pins.pop(key, None)
            self._pinned = self._named = None
            if isinstance(item, PinItem) and record is not None and item.isVisible():
                self._pins[key] = item
        if isinstance(record, Zone | Feature):
            self._rings[key] = rings_of(record)
            self._sides[key] = sides = sides_ft(self._rings[key])
            self._bounds[key] = bounds_of(sides) if len(sides) else NOWHERE
            self._walls = None
        elif self._rings.pop(key, None) is not None:
            del self._sides[key], self._bounds[key]
            self._walls = None
        if row != self._rows.get(key):
            self._array = None
            self._rows.pop(key, None)
            if row is not None:
                self._rows[key] = row

    @property
    def unnamed(self) -> int:
        """How many pins that are drawn go without their names."""
        named = self._named_pins()
        return len(named) - int(np.count_nonzero(named))

    def number_of(self, notebook: Notebook, zone_id: str) -> int:
        """The number of a zone: its place in the owner's order, from 1."""
        zones = notebook.zones
        if self._numbers[0] is not zones:
            self._numbers = (zones, {each: number for number, each in enumerate(zones, 1)})
        return self._numbers[1][zone_id]

    def boxes(self, px_per_ft: float) -> tuple[Rows, Flags]:
        """Heads and features, then pins with their names, in pixels, and which bear words."""
        pins = grown(self.pin_boxes(px_per_ft), RIM_PX, RIM_PX)
        feet, pixels, _ = self._arrays()
        boxes = np.concatenate([feet * px_per_ft + pixels, pins])
        return boxes, np.arange(len(boxes)) >= len(feet)

    def pin_boxes(self, px_per_ft: float) -> Rows:
        """Where the pins stand with the names that are shown, in pixels."""
        at, names, bodies = self._pin_arrays()
        wide = np.hstack([np.minimum(names, bodies)[:, :2], np.maximum(names, bodies)[:, 2:]])
        return np.asarray(at * px_per_ft + np.where(self._named_pins()[:, None], wide, bodies))

    def name_pins(self, px_per_ft: float, others: Rows) -> None:
        """Give the pins their names, but for those that others, or each other, lie in the way of.

        The chosen one's comes first.
        """
        by = (px_per_ft, others.tobytes(), self._pin_arrays())
        if not self._pins or (self._named_by[:2] == by[:2] and self._named_by[2] is by[2]):
            return
        self._named_by = by
        at, names, bodies = self._pin_arrays()
        names, bodies = at * px_per_ft + names, at * px_per_ft + bodies
        bad: Flags = np.any(meets(names, np.concatenate([bodies, others])), axis=1)
        met = meets(names, names)
        pins = list(self._pins.values())
        shown = np.zeros(len(pins), dtype=np.bool_)
        for number in sorted(range(len(pins)), key=lambda each: -pins[each].zValue()):
            shown[number] = not (bad[number] or (met[number] & shown).any())
        for pin, named in zip(pins, shown.tolist(), strict=True):
            pin.show_name(shown=named)
        self._named = shown

    def shape(self, key: Key, px_per_ft: float) -> Shape:
        """A zone or feature in pixels, with the middles where its label looks best."""
        rings = self._rings.get(key, ())
        middles = _middles(rings[0], rings[1:]) if rings and rings[0] else ()
        scaled = [(x * px_per_ft, -y * px_per_ft) for x, y in middles]
        own = self._arrays()[2].get(key)
        return Shape(self._sides.get(key, no_rows()) * px_per_ft, scaled, own)

    def walls(self, px_per_ft: float) -> Walls:
        """Every outline, at a zoom."""
        if self._walls is None:
            bounds = rows_of(list(self._bounds.values()))
            self._walls = Walls(list(self._sides.values()), bounds)
        return self._walls.at(px_per_ft)

    def _arrays(self) -> tuple[Rows, Rows, dict[Key, int]]:
        """Heads and features: their boxes in feet, what they add in pixels, and their numbers."""
        if self._array is None:
            feet = rows_of([each for each, _ in self._rows.values()])
            pixels = rows_of([each for _, each in self._rows.values()])
            self._array = (feet, pixels, {key: number for number, key in enumerate(self._rows)})
        return self._array

    def _named_pins(self) -> Flags:
        """Which pins show their names."""
        if self._named is None:
            self._named = np.array([pin.named for pin in self._pins.values()], dtype=np.bool_)
        return self._named

    def _pin_arrays(self) -> tuple[Rows, Rows, Rows]:
        """Pins: their points in feet, then their names and bodies about them in pixels."""
        if self._pinned is None:
            pins = self._pins.values()
            at = rows_of([(pin.x(), pin.y(), pin.x(), pin.y()) for pin in pins])
            names = rows_of([_box(pin.name_rect()) for pin in pins])
            self._pinned = (at, names, rows_of([_box(pin.body_rect()) for pin in pins]))
        return self._pinned


def _box(rect: QRectF) -> Box:
    return rect.left(), rect.top(), rect.right(), rect.bottom()


def _row_of(record: Record | None) -> tuple[Box, Box] | None:
    """The box of a head or feature: in feet, and what it adds in pixels."""
    if isinstance(record, Head):
        at = scene_point(record.at_ft)
        return (at.x(), at.y(), at.x(), at.y()), (-_HEAD_PX, -_HEAD_PX, _HEAD_PX, _HEAD_PX)
    if isinstance(record, Feature) and record.outline_ft:
        return bounds_of(sides_ft((record.outline_ft,))), (0.0, 0.0, 0.0, 0.0)
    return None


@lru_cache(maxsize=8192)
def _middles(outline: Outline, holes: tuple[Outline, ...]) -> tuple[Point, Point]:
    """Where a label looks best: the centre of gravity, else the point farthest from the edges."""
    return (centroid_ft(outline), label_point_ft(outline, holes))
