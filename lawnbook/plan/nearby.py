"""What lies near a place on the sketch, laid out once so that hundreds of spots can ask for it.

Heads and spots stand in squares of `SQUARE_FT`, features beside the upright box round each.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import field
from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import Bounds, bounds_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, Spot

SQUARE_FT = 8.0
"""Farther from a mark no hole, head or shape matters: 60 in of another's and 24 own."""

_Square = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole in the turf, its middle in inches on the sketch (from the mark without a place)."""

    at_in: Point
    date: date


@dataclass(frozen=True, slots=True)
class Nearby:
    """The heads, spots and features of a yard, to be asked for by place (ft)."""

    marks: dict[_Square, list[Spot]]
    head_places: dict[_Square, list[Point]]
    boxes: tuple[tuple[Feature, Bounds], ...]
    holes: dict[str, tuple[Hole, ...]] = field(default_factory=dict, compare=False)
    """The old holes of the spots that were asked about so far."""

    @classmethod
    def of(cls, notebook: Notebook) -> "Nearby":
        """All that a notebook has drawn."""
        marks: dict[_Square, list[Spot]] = {}
        for spot in notebook.spots.values():
            if spot.at_ft is not None:
                marks.setdefault(_square(spot.at_ft), []).append(spot)
        heads: dict[_Square, list[Point]] = {}
        for head in notebook.heads.values():
            heads.setdefault(_square(head.at_ft), []).append(head.at_ft)
        shapes = (each for each in notebook.features.values() if each.outline_ft)
        return cls(marks, heads, tuple((each, bounds_ft([each.outline_ft])) for each in shapes))

    def spots(self, at_ft: Point) -> Iterator[Spot]:
        """The spots within `SQUARE_FT`, in no order that means anything."""
        for square in _squares_round(at_ft):
            for spot in self.marks.get(square, ()):
                if spot.at_ft is not None and math.dist(spot.at_ft, at_ft) <= SQUARE_FT:
                    yield spot

    def heads(self, at_ft: Point) -> Iterator[Point]:
        """The places of the heads within `SQUARE_FT`."""
        for square in _squares_round(at_ft):
            for head in self.head_places.get(square, ()):
                if math.dist(head, at_ft) <= SQUARE_FT:
                    yield head

    def features(self, at_ft: Point) -> list[Feature]:
        """The features whose box comes within `SQUARE_FT`, in the owner's order."""
        x, y = at_ft
        return [
            each
            for each, (x0, y0, x1, y1) in self.boxes
            if x0 - SQUARE_FT <= x <= x1 + SQUARE_FT and y0 - SQUARE_FT <= y <= y1 + SQUARE_FT
        ]


def _square(at_ft: Point) -> _Square:
    return math.floor(at_ft[0] / SQUARE_FT), math.floor(at_ft[1] / SQUARE_FT)


def _squares_round(at_ft: Point) -> Iterable[_Square]:
    across, up = _square(at_ft)
    return ((across + i, up + j) for i in (-1, 0, 1) for j in (-1, 0, 1))
