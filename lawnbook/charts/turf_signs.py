"""Turf on a printed sketch as on old maps: tufts on a staggered grid, which need no colour."""

from collections.abc import Callable, Sequence

from lawnbook.charts.marks import Mark, Polyline, Ring

_ACROSS_PT = 13.0
_DOWN_PT = 9.0
_BLADES: tuple[Ring, ...] = (
    ((-0.7, 0.0), (-2.2, -2.3)),
    ((0.0, 0.0), (0.1, -3.2)),
    ((0.7, 0.0), (2.3, -2.2)),
)
_HALF_PT = (3.0, 3.6)
Box = tuple[float, float, float, float]


def turf_signs(rings: Sequence[Ring], is_free: Callable[[Box], bool]) -> list[Mark]:
    """The tufts inside an odd number of rings (an outline and its holes), where boxes are free.

    The grid is that of the frame, so that neighbours' tufts run on.
    """
    points = [point for ring in rings for point in ring]
    if not points:
        return []
    xs, ys = zip(*points, strict=True)
    lines: list[Ring] = []
    for row in range(int(min(ys) / _DOWN_PT), int(max(ys) / _DOWN_PT) + 1):
        shift = _ACROSS_PT / 2 * (row % 2)
        for place in range(int(min(xs) / _ACROSS_PT) - 1, int(max(xs) / _ACROSS_PT) + 1):
            x, y = place * _ACROSS_PT + shift, row * _DOWN_PT
            if _stands(rings, (x, y), is_free):
                lines += [tuple((x + dx, y + 1.6 + dy) for dx, dy in each) for each in _BLADES]
    return [Polyline(lines=tuple(lines), role="verdure", width=0.5)] if lines else []


def _stands(rings: Sequence[Ring], at: tuple[float, float], is_free: Callable[[Box], bool]) -> bool:
    """Whether a whole tuft has room: all corners of its box inside, nothing written on it."""
    (x, y), (across, down) = at, _HALF_PT
    corners = [(x + side * across, y + end * down) for side in (-1, 1) for end in (-1, 1)]
    box = (x - across, y - down, x + across, y + down)
    return is_free(box) and all(_inside(rings, corner) for corner in corners)


def _inside(rings: Sequence[Ring], point: tuple[float, float]) -> bool:
    """Whether a level line from the point crosses the rings an odd number of times."""
    px, py = point
    crossings = 0
    for ring in rings:
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], *ring[:1]), strict=True):
            if (ay > py) != (by > py) and px < ax + (bx - ax) * (py - ay) / (by - ay):
                crossings += 1
    return crossings % 2 == 1
