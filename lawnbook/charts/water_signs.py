"""Water on a printed sketch as on old maps: level ripples, which need no colour."""

from collections.abc import Sequence
from math import ceil, floor

from lawnbook.charts.marks import Mark, Polyline, Ring

_GAP_PT = 3.4
_DASH_PT = (5.0, 2.2)


def ripples(ring: Sequence[tuple[float, float]]) -> list[Mark]:
    """Level lines inside of a ring, at multiples of the gap from the frame's top."""
    heights = [y for _, y in ring]
    if not heights:
        return []
    lines: list[Ring] = []
    for step in range(ceil(min(heights) / _GAP_PT), floor(max(heights) / _GAP_PT) + 1):
        y = step * _GAP_PT
        crossed = sorted(_crossings(ring, y))
        # Every other stretch between crossings lies inside.
        lines += [((a, y), (b, y)) for a, b in zip(crossed[::2], crossed[1::2], strict=False)]
    if not lines:
        return []
    return [Polyline(lines=tuple(lines), role="water", width=0.6, dash=_DASH_PT)]


def _crossings(ring: Sequence[tuple[float, float]], y: float) -> list[float]:
    """Where the sides of a ring cross a level line."""
    found = []
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (ay < y) != (by < y):
            found.append(ax + (bx - ax) * (y - ay) / (by - ay))
    return found
