"""The point of a shape that lies farthest from its edges, found by halving squares.

A square whose centre is `d` from the edge cannot hold a point farther than `d` plus half its
diagonal. All squares that may still do better are split together, and the search ends when none
can do better by more than a hundredth of the shape's size.
"""

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.yard.fields import Outline, Point

_FINENESS = 0.01
_MOST_DISTANCES = 50_000
_MOST_ACROSS = 64
_REMEMBERED = 8192
_QUARTERS = np.array([(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)])

_Array = NDArray[np.float64]


@lru_cache(maxsize=_REMEMBERED)
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


def _first_squares(x0: float, y0: float, width: float, height: float) -> tuple[_Array, float]:
    """Centres of the squares that cover the shape's bounds, and half their side."""
    side = min(width, height) / 2
    across = x0 + (np.arange(min(math.ceil(width / side), _MOST_ACROSS)) + 0.5) * side
    up = y0 + (np.arange(min(math.ceil(height / side), _MOST_ACROSS)) + 0.5) * side
    return np.stack(np.meshgrid(across, up), axis=-1).reshape(-1, 2), side / 2


def _search(starts: _Array, ends: _Array, squares: tuple[_Array, float]) -> Point:
    fine = _FINENESS * float(np.ptp(starts, axis=0).min())
    most_squares = max(8, _MOST_DISTANCES // len(starts))
    centres, half = squares
    best, best_depth = centres[0], -math.inf
    while len(centres):
        depths = _depths(starts, ends, centres)
        deepest = int(depths.argmax())
        if depths[deepest] > best_depth:
            best, best_depth = centres[deepest], float(depths[deepest])
        reach = depths + half * math.sqrt(2)
        promising = reach > best_depth + fine
        keep = np.argsort(-reach[promising], kind="stable")[:most_squares]
        half /= 2
        centres = (centres[promising][keep][:, None, :] + half * _QUARTERS).reshape(-1, 2)
    return float(best[0]), float(best[1])


def _depths(starts: _Array, ends: _Array, points: _Array) -> _Array:
    """The distance of each point to the nearest edge, negative outside. Points in rows."""
    along = ends - starts
    squared = np.maximum((along * along).sum(axis=1), 1e-300)
    away = points[:, None, :] - starts
    share = np.clip((away * along).sum(axis=2) / squared, 0.0, 1.0)
    gap = away - share[..., None] * along
    nearest = np.sqrt((gap * gap).sum(axis=2).min(axis=1))
    x, y = points[:, :1], points[:, 1:]
    crossed = (starts[:, 1] > y) != (ends[:, 1] > y)
    rise = np.where(along[:, 1] == 0.0, 1.0, along[:, 1])
    at_x = starts[:, 0] + (y - starts[:, 1]) / rise * along[:, 0]
    inside = (crossed & (x < at_x)).sum(axis=1) % 2 == 1
    signed: _Array = np.where(inside, nearest, -nearest)
    return signed
