"""What the fit of a walk works with: measures in standard deviations, and how they change.

Feet, radians, and rows of numbers: the Jacobian has x and y of each corner as its columns.
"""

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from lawnbook.frozen import dataclass

Array = NDArray[np.float64]
Indices = NDArray[np.intp]
Pair = tuple[int, int]

TAPE_SD_FT = 1 / 12
"""How well a length is taped over grass: an inch (common practice)."""

SQUARE_SD_DEG = 0.5
"""How well a corner that is called square is square (common practice)."""


@dataclass(frozen=True, slots=True)
class Measure:
    """A length between two corners; or a square corner, `start`, of no length, `end` the same."""

    kind: Literal["length", "square"]
    start: int
    end: int
    length_ft: float = 0.0


@dataclass(frozen=True, slots=True)
class Ring:
    """What is known of the corners beside the measures: how many, and which turn in."""

    count: int
    turns_in: frozenset[int]
    square: frozenset[int]


@dataclass(frozen=True, slots=True)
class Packed:
    """Measures as arrays, so that a fit of many rounds reckons all of them at once.

    `starts`, `ends` and `lengths_ft` are those of the lengths, in the rows `at`; `corners` the
    square ones, in the rows `square_at`.
    """

    count: int
    at: Indices
    starts: Indices
    ends: Indices
    lengths_ft: Array
    square_at: Indices
    corners: Indices

    def residuals(self, places: Array) -> Array:
        """By how much the shape misses each measure, in standard deviations."""
        missed = np.empty(self.count)
        way = places[self.starts] - places[self.ends]
        missed[self.at] = (np.hypot(way[:, 0], way[:, 1]) - self.lengths_ft) / TAPE_SD_FT
        if self.corners.size:
            u, v, size = _arms(places, self.corners)
            missed[self.square_at] = _dot(u, v) / size / math.radians(SQUARE_SD_DEG)
        return missed

    def jacobian(self, places: Array) -> Array:
        """How each residual changes with x and y of each corner."""
        rows = np.zeros((self.count, len(places), 2))
        way = _unit(places[self.starts] - places[self.ends]) / TAPE_SD_FT
        rows[self.at, self.starts] += way
        rows[self.at, self.ends] -= way
        if self.corners.size:
            self._fill_squares(rows, places)
        return rows.reshape(self.count, places.size)

    def _fill_squares(self, rows: Array, places: Array) -> None:
        count, sd = len(places), math.radians(SQUARE_SD_DEG)
        u, v, product = _arms(places, self.corners)
        size = product[:, None]
        cosine = _dot(u, v)[:, None] / size
        by_u = (v / size - cosine * u / np.maximum(_dot(u, u), 1e-12)[:, None]) / sd
        by_v = (u / size - cosine * v / np.maximum(_dot(v, v), 1e-12)[:, None]) / sd
        rows[self.square_at, (self.corners - 1) % count] += by_u
        rows[self.square_at, (self.corners + 1) % count] += by_v
        rows[self.square_at, self.corners] -= by_u + by_v


def packed(measures: Sequence[Measure]) -> Packed:
    """Measures as arrays."""
    lengths = [(i, each) for i, each in enumerate(measures) if each.kind == "length"]
    squares = [(i, each) for i, each in enumerate(measures) if each.kind == "square"]
    return Packed(
        len(measures),
        np.array([i for i, _ in lengths], dtype=np.intp),
        np.array([each.start for _, each in lengths], dtype=np.intp),
        np.array([each.end for _, each in lengths], dtype=np.intp),
        np.array([each.length_ft for _, each in lengths], dtype=np.float64),
        np.array([i for i, _ in squares], dtype=np.intp),
        np.array([each.start for _, each in squares], dtype=np.intp),
    )


def jacobian(places: Array, measures: Sequence[Measure]) -> Array:
    """How each residual, in standard deviations, changes with x and y of each corner."""
    return packed(measures).jacobian(places)


def residuals(places: Array, measures: Sequence[Measure]) -> Array:
    """By how much the shape misses each measure, in standard deviations: shape less measure."""
    return packed(measures).residuals(places)


def length_rows(places: Array, pairs: Sequence[Pair]) -> Array:
    """How lengths between pairs of corners change with x and y of each corner, feet a foot."""
    rows = np.zeros((len(pairs), len(places), 2))
    ends = np.array(pairs, dtype=np.intp).reshape(-1, 2)
    way = _unit(places[ends[:, 0]] - places[ends[:, 1]])
    at = np.arange(len(pairs))
    rows[at, ends[:, 0]] = way
    rows[at, ends[:, 1]] = -way
    return rows.reshape(len(pairs), places.size)


def _arms(places: Array, corners: Indices) -> tuple[Array, Array, Array]:
    """The sides that leave corners, and the product of their lengths."""
    u = places[corners - 1] - places[corners]
    v = places[(corners + 1) % len(places)] - places[corners]
    size = np.hypot(u[:, 0], u[:, 1]) * np.hypot(v[:, 0], v[:, 1])
    return u, v, np.maximum(size, 1e-9)


def _dot(one: Array, other: Array) -> Array:
    product: Array = (one * other).sum(axis=1)
    return product


def _unit(way: Array) -> Array:
    unit: Array = way / np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-9)[:, None]
    return unit
