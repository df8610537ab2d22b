"""What the fit of a walk works with: measures in standard deviations, and how they change.

Feet, radians, and rows of numbers: the Jacobian has x and y of each corner as its columns.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
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


def jacobian(places: Array, measures: Sequence[Measure]) -> Array:
    """How each residual, in standard deviations, changes with x and y of each corner."""
    rows = np.zeros((len(measures), places.size))
    for row, each in zip(rows, measures, strict=True):
        if each.kind == "length":
            _fill_length(row, places, (each.start, each.end), TAPE_SD_FT)
        else:
            _fill_square(row, places, each.start)
    return rows


def residuals(places: Array, measures: Sequence[Measure]) -> Array:
    """By how much the shape misses each measure, in standard deviations: shape less measure."""
    return np.array([_residual(places, each) for each in measures])


def _residual(places: Array, each: Measure) -> float:
    if each.kind == "length":
        return (math.dist(places[each.start], places[each.end]) - each.length_ft) / TAPE_SD_FT
    u, v, size = _arms(places, each.start)
    return float(u @ v) / size / math.radians(SQUARE_SD_DEG)


def _arms(places: Array, corner: int) -> tuple[Array, Array, float]:
    """The sides that leave a corner, and the product of their lengths."""
    u = places[corner - 1] - places[corner]
    v = places[(corner + 1) % len(places)] - places[corner]
    return u, v, max(float(np.linalg.norm(u) * np.linalg.norm(v)), 1e-9)


def _fill_length(row: Array, places: Array, pair: Pair, sd: float) -> None:
    start, end = pair
    way = places[start] - places[end]
    way = way / max(float(np.linalg.norm(way)), 1e-9) / sd
    row[2 * start : 2 * start + 2] += way
    row[2 * end : 2 * end + 2] -= way


def _fill_square(row: Array, places: Array, corner: int) -> None:
    u, v, size = _arms(places, corner)
    cosine, sd = float(u @ v) / size, math.radians(SQUARE_SD_DEG)
    by_u = (v / size - cosine * u / max(float(u @ u), 1e-12)) / sd
    by_v = (u / size - cosine * v / max(float(v @ v), 1e-12)) / sd
    before, after = (corner - 1) % len(places), (corner + 1) % len(places)
    row[2 * before : 2 * before + 2] += by_u
    row[2 * after : 2 * after + 2] += by_v
    row[2 * corner : 2 * corner + 2] -= by_u + by_v


def length_row(places: Array, pair: Pair) -> Array:
    """How a length between two corners changes with x and y of each corner, feet a foot."""
    row = np.zeros(places.size)
    _fill_length(row, places, pair, 1.0)
    return row
