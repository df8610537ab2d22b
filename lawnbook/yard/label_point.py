"""The point of a shape that lies farthest from its edges, found by halving squares.

A square whose centre is `d` from the edge cannot hold a point farther than `d` plus half its
diagonal; the most promising square is split first and the search ends when none can do better by
more than a hundredth of the shape's size.
"""

import heapq
import itertools
import math

import numpy as np
from numpy.typing import NDArray

from lawnbook.yard.fields import Outline, Point

_FINENESS = 0.01
_MOST_SQUARES = 4000

_Array = NDArray[np.float64]


def farthest_inside_ft(outline: Outline, holes: tuple[Outline, ...]) -> Point:
    """The point sought; the corners' mean where the shape has no area.

    ValueError for an outline without corners.
    """
    if not outline:
        raise ValueError("An outline without corners has no inside")
    xs, ys = zip(*outline, strict=True)
    middle = (math.fsum(xs) / len(xs), math.fsum(ys) / len(ys))
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    if min(width, height) <= 0 or len(outline) < 3:
        return middle
    rings = [np.asarray(ring, dtype=np.float64) for ring in (outline, *holes) if len(ring) > 2]
    starts = np.concatenate(rings)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    return _search(starts, ends, _first_squares(min(xs), min(ys), width, height))


def _first_squares(x0: float, y0: float, width: float, height: float) -> list[tuple[Point, float]]:
    side = min(width, height) / 2
    across, up = math.ceil(width / side), math.ceil(height / side)
    return [
        ((x0 + (i + 0.5) * side, y0 + (j + 0.5) * side), side / 2)
        for i, j in itertools.product(range(min(across, 64)), range(min(up, 64)))
    ]


def _search(starts: _Array, ends: _Array, squares: list[tuple[Point, float]]) -> Point:
    fine = _FINENESS * float(np.ptp(starts, axis=0).min())
    best, best_depth = squares[0][0], -math.inf
    heap: list[tuple[float, Point, float]] = []
    for _ in range(_MOST_SQUARES):
        for centre, half in squares:
            depth = _depth(starts, ends, centre)
            if depth > best_depth:
                best, best_depth = centre, depth
            heapq.heappush(heap, (-(depth + half * math.sqrt(2)), centre, half))
        reach, (x, y), half = heapq.heappop(heap)
        if -reach <= best_depth + fine:
            break
        quarter = half / 2
        squares = [
            ((x + i * quarter, y + j * quarter), quarter)
            for i, j in itertools.product((-1, 1), repeat=2)
        ]
    return best


def _depth(starts: _Array, ends: _Array, point: Point) -> float:
    """The distance to the nearest edge, negative outside."""
    along = ends - starts
    away = np.asarray(point) - starts
    squared = np.maximum((along * along).sum(axis=1), 1e-300)
    share = np.clip((away * along).sum(axis=1) / squared, 0.0, 1.0)
    gap = away - share[:, None] * along
    nearest = math.sqrt(float((gap * gap).sum(axis=1).min()))
    above = (starts[:, 1] > point[1]) != (ends[:, 1] > point[1])
    a, b = starts[above], ends[above]
    at_x = a[:, 0] + (point[1] - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1])
    inside = int((point[0] < at_x).sum()) % 2 == 1
    return nearest if inside else -nearest
