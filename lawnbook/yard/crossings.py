"""Where the sides of outlines cross or touch, for all sides at once.

Apart from `geometry`, which leads here: it works in arrays, and a start should not wait for numpy.
"""

import numpy as np
from numpy.typing import NDArray

from lawnbook.yard.fields import Outline

_Array = NDArray[np.float64]
_Indices = NDArray[np.intp]
_Segments = tuple[_Array, _Array]


def ring_touches_itself(ring: Outline) -> bool:
    """Whether sides that do not follow each other share a point; three corners or more."""
    starts, ends = _segments(ring)
    first, second = _pairs_in_reach(starts, ends)
    apart = (second - first) % len(ring)
    chosen = (apart != 1) & (apart != len(ring) - 1)
    first, second = first[chosen], second[chosen]
    one, other = (starts[first], ends[first]), (starts[second], ends[second])
    return bool(_touching(one, other).any())


def rings_cross(one: Outline, other: Outline) -> bool:
    """Whether sides of two rings properly cross; touching does not count. Two corners or more."""
    starts, ends = (
        np.concatenate(pair) for pair in zip(_segments(one), _segments(other), strict=True)
    )
    first, second = _pairs_in_reach(starts, ends)
    chosen = (first < len(one)) != (second < len(one))
    first, second = first[chosen], second[chosen]
    return bool(_crossing((starts[first], ends[first]), (starts[second], ends[second])).any())


def _pairs_in_reach(starts: _Array, ends: _Array) -> tuple[_Indices, _Indices]:
    """The pairs of sides whose upright boxes meet, found by sweeping along the better axis."""
    low, high = np.minimum(starts, ends), np.maximum(starts, ends)
    sweeps = [_sweep(low[:, axis], high[:, axis]) for axis in (0, 1)]
    axis = 0 if sweeps[0][1].sum() <= sweeps[1][1].sum() else 1
    order, counts = sweeps[axis]
    first = np.repeat(np.arange(len(order)), counts)
    before = np.repeat(np.cumsum(counts) - counts, counts)
    second = first + 1 + np.arange(len(first)) - before
    first, second = order[first], order[second]
    other = 1 - axis
    meets = (low[first, other] <= high[second, other]) & (low[second, other] <= high[first, other])
    return first[meets], second[meets]


def _sweep(low: _Array, high: _Array) -> tuple[_Indices, _Indices]:
    """The sides by where they begin, and for each how many begin before it ends."""
    order = np.argsort(low, kind="stable")
    until = np.searchsorted(low[order], high[order], side="right")
    return order, until - np.arange(len(order)) - 1


def _segments(ring: Outline) -> _Segments:
    starts = np.asarray(ring, dtype=np.float64)
    return starts, np.roll(starts, -1, axis=0)


def _turn(a: _Array, b: _Array, c: _Array) -> _Array:
    """Positive where a → b → c turns left, 0 on a line."""
    turn: _Array = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (
        c[:, 0] - a[:, 0]
    )
    return turn


def _touching(one: _Segments, other: _Segments) -> NDArray[np.bool_]:
    """Whether sides, whose boxes meet, share any point."""
    (a, b), (c, d) = one, other
    parted = _turn(a, b, c) * _turn(a, b, d) > 0
    return ~parted & ~(_turn(c, d, a) * _turn(c, d, b) > 0)


def _crossing(one: _Segments, other: _Segments) -> NDArray[np.bool_]:
    """Whether sides cross at a point inside both."""
    (a, b), (c, d) = one, other
    crossed: NDArray[np.bool_] = (_turn(a, b, c) * _turn(a, b, d) < 0) & (
        _turn(c, d, a) * _turn(c, d, b) < 0
    )
    return crossed
