"""Boxes in pixels: which lie inside a shape, which hide something, which places may be tried.

A box is a row of left, top, right and bottom, y down the screen; a side is a row of the two ends'
x and y. All at once in arrays: a sketch of 200 zones tries some 10,000 places.
"""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline, Point

Rows = NDArray[np.float64]
Flags = NDArray[np.bool_]
Box = tuple[float, float, float, float]

ROOM_X_PX, ROOM_Y_PX = 3.0, 2.0
"""Between a label and what it keeps clear of."""

INSIDE_X_PX, INSIDE_Y_PX = 4.0, 2.0
"""Between a label and the sides of the shape that it stands in."""

GAPS_PX = (9.0, 20.0, 36.0)
"""How far beside its shape a label is tried."""

STEP_PX = 6.0
"""A leader is kept clear by boxes this far apart."""


def no_rows() -> Rows:
    """No boxes, or no sides."""
    return np.empty((0, 4))


def rows_of(boxes: Sequence[Box]) -> Rows:
    """Boxes as rows."""
    return np.array(boxes, dtype=np.float64).reshape(-1, 4)


@lru_cache(maxsize=8192)
def sides_ft(rings: tuple[Outline, ...]) -> Rows:
    """The sides of rings of a yard as rows in the scene's feet, y down."""
    corners = [np.array(ring, dtype=np.float64) * (1.0, -1.0) for ring in rings if ring]
    if not corners:
        return no_rows()
    return np.concatenate([np.hstack([each, np.roll(each, -1, axis=0)]) for each in corners])


def bounds_of(sides: Rows) -> Box:
    """The smallest box round some sides; ValueError without any."""
    ends = sides.reshape(-1, 2)
    (left, top), (right, bottom) = ends.min(axis=0), ends.max(axis=0)
    return float(left), float(top), float(right), float(bottom)


def grown(boxes: Rows, across: float, down: float) -> Rows:
    """Boxes with more room at their sides."""
    found: Rows = boxes + np.array((-across, -down, across, down))
    return found


def meets(boxes: Rows, others: Rows) -> Flags:
    """Which boxes (rows) share ground with which others (columns)."""
    one, other = boxes[:, None, :], others[None, :, :]
    across = (one[..., 0] < other[..., 2]) & (other[..., 0] < one[..., 2])
    return np.asarray(
        across & (one[..., 1] < other[..., 3]) & (other[..., 1] < one[..., 3]), dtype=np.bool_
    )


def hidden_sqpx(boxes: Rows, others: Rows) -> Rows:
    """How much of others each box with its room would hide."""
    one, other = grown(boxes, ROOM_X_PX, ROOM_Y_PX)[:, None, :], others[None, :, :]
    wide = np.minimum(one[..., 2], other[..., 2]) - np.maximum(one[..., 0], other[..., 0])
    high = np.minimum(one[..., 3], other[..., 3]) - np.maximum(one[..., 1], other[..., 1])
    return np.asarray((wide.clip(0) * high.clip(0)).sum(axis=1))


def entered(boxes: Rows, sides: Rows) -> Flags:
    """Which boxes (rows) are entered by which sides (columns): each is clipped by the box."""
    left, top, right, bottom = boxes.T[:, :, None]
    x, y = sides[:, 0], sides[:, 1]
    run, rise = sides[:, 2] - x, sides[:, 3] - y
    run, rise = np.where(np.abs(run) < 1e-9, 1e-9, run), np.where(np.abs(rise) < 1e-9, 1e-9, rise)
    west, east, north, south = (
        (left - x) / run,
        (right - x) / run,
        (top - y) / rise,
        (bottom - y) / rise,
    )
    # Each of two functions at a time: reducing along an axis of two costs several times as much.
    enters = np.maximum(np.minimum(west, east), np.minimum(north, south))
    leaves = np.minimum(np.maximum(west, east), np.maximum(north, south))
    return np.asarray((enters <= leaves) & (enters <= 1.0) & (leaves >= 0.0), dtype=np.bool_)


def middles_inside(boxes: Rows, sides: Rows) -> Flags:
    """Whether the middle of each box is enclosed an odd number of times."""
    x, y = (boxes[:, :2] + boxes[:, 2:]).T / 2
    x0, y0, x1, y1 = sides.T
    spans = (y0[None] > y[:, None]) != (y1[None] > y[:, None])
    rise = np.where(y1 == y0, 1.0, y1 - y0)
    at = x0[None] + (y[:, None] - y0[None]) / rise[None] * (x1 - x0)[None]
    return np.asarray((spans & (x[:, None] < at)).sum(axis=1) % 2 == 1, dtype=np.bool_)


def inside(boxes: Rows, sides: Rows) -> Flags:
    """Which boxes lie inside a shape, with a little room."""
    roomy = grown(boxes, INSIDE_X_PX, INSIDE_Y_PX)
    found = middles_inside(boxes, sides)
    found[found] = ~entered(roomy[found], sides).any(axis=1)
    return found


def covers(boxes: Rows, sides: Rows) -> Flags:
    """Which boxes lie on a shape, be it in part."""
    return entered(boxes, sides).any(axis=1) | middles_inside(boxes, sides)


_DOWN = (0.5, 0.3, 0.7, 0.12, 0.88, 0.04, 0.96)
_ACROSS = (0.5, 0.3, 0.7, 0.15, 0.85)
_COARSE = np.array([(a, d) for d in _DOWN for a in _ACROSS])
_FINE = np.array([(a / 12, d / 24) for d in range(25) for a in range(13)])


def places_in(
    bounds: Box, size: tuple[float, float], middles: Sequence[Point], *, fine: bool
) -> Rows:
    """Places to try in a shape: about its middles first, then a grid over its bounds."""
    width, height = size
    about = np.array(middles, dtype=np.float64).reshape(-1, 2) - (width / 2, height / 2)
    room = (bounds[2] - bounds[0] - width, bounds[3] - bounds[1] - height)
    grids = [_COARSE, _FINE] if fine else [_COARSE]
    corners = np.concatenate([about, *(bounds[:2] + each * room for each in grids)])
    return np.hstack([corners, corners + np.array(size)])


def places_beside(bounds: Box, size: tuple[float, float]) -> Rows:
    """Places to try beside a shape, the nearest first: right, left, below, above, corners."""
    (left, top, right, bottom), (width, height) = bounds, size
    middle_x, middle_y = (left + right - width) / 2, (top + bottom - height) / 2
    corners: list[Point] = []
    for gap in GAPS_PX:
        east, west = right + gap, left - gap - width
        south, north = bottom + gap, top - gap - height
        corners += [(x, y) for y in (middle_y, top, bottom - height) for x in (east, west)]
        corners += [(x, y) for x in (middle_x, left, right - width) for y in (south, north)]
        corners += [(x, y) for x in (east, west) for y in (south, north)]
    at = np.array(corners)
    return np.hstack([at, at + np.array(size)])


def leader_end(box: Box, anchor: Point) -> Point:
    """The point of a box nearest to an anchor, where its leader begins."""
    return (
        min(max(anchor[0], box[0]), box[2]),
        min(max(anchor[1], box[1]), box[3]),
    )


def along_leader(start: Point, end: Point) -> list[Box]:
    """Small boxes along a leader, by which other labels keep clear of it."""
    steps = max(1, int(np.hypot(end[0] - start[0], end[1] - start[1]) / STEP_PX))
    found: list[Box] = []
    for step in range(steps + 1):
        x = start[0] + (end[0] - start[0]) * step / steps
        y = start[1] + (end[1] - start[1]) * step / steps
        found.append((x - 2, y - 2, x + 2, y + 2))
    return found


class Taken:
    """Boxes that labels keep clear of; some bear words, which no leader may cross either."""

    def __init__(self, boxes: Rows, worded: Flags) -> None:
        self._boxes, self._worded = boxes, worded
        self._count = len(boxes)

    def near(self, bounds: Box, without: int | None = None) -> tuple[Rows, Flags]:
        """Those that meet a box, but for the one of that number, and which of them bear words."""
        near = self._near(bounds, without)
        return self._boxes[: self._count][near], self._worded[: self._count][near]

    def crossed(self, start: Point, end: Point) -> bool:
        """Whether a leader crosses one that bears words."""
        left, right = sorted((start[0], end[0]))
        top, bottom = sorted((start[1], end[1]))
        near = self._near((left - 1, top - 1, right + 1, bottom + 1), None)
        boxes = self._boxes[: self._count][near & self._worded[: self._count]]
        return bool(entered(boxes, rows_of([(*start, *end)])).any())

    def claim(self, boxes: Sequence[Box]) -> None:
        """Take the box of a label, and what follows it: its leader."""
        if not boxes:
            return
        end = self._count + len(boxes)
        if end > len(self._boxes):
            more = max(len(boxes), len(self._boxes), 64)
            self._boxes = np.concatenate([self._boxes, np.zeros((more, 4))])
            self._worded = np.concatenate([self._worded, np.zeros(more, dtype=np.bool_)])
        self._boxes[self._count : end] = boxes
        self._worded[self._count] = True
        self._count = end

    def _near(self, bounds: Box, without: int | None) -> Flags:
        left, top, right, bottom = self._boxes[: self._count].T
        x0, y0, x1, y1 = grown(rows_of([bounds]), ROOM_X_PX, ROOM_Y_PX)[0]
        near = (left < x1) & (x0 < right) & (top < y1) & (y0 < bottom)
        if without is not None:
            near[without] = False
        return np.asarray(near, dtype=np.bool_)


@dataclass(frozen=True, slots=True)
class Seen:
    """The part of the sketch that is seen, and what lies over it: scale, legend, arrow. In pixels.

    A label beside a shape whose inside is seen stands where all of it is seen.
    """

    box: Box
    covered: Rows

    def hides(self, boxes: Rows, anchor: Point) -> Flags:
        """Which boxes would not be seen whole, beside a shape with this place well inside."""
        left, top, right, bottom = self.box
        under: Flags = np.any(meets(boxes, self.covered), axis=1)
        if not (left < anchor[0] < right and top < anchor[1] < bottom):
            return under
        out = (boxes[:, 0] < left) | (boxes[:, 1] < top)
        return np.asarray(under | out | (boxes[:, 2] > right) | (boxes[:, 3] > bottom))


class Walls:
    """The shapes of a sketch, on which no label may lie that stands beside another.

    Their sides and bounds are given in feet.
    """

    def __init__(self, shapes: Sequence[Rows], bounds: Rows, px_per_ft: float = 1.0) -> None:
        self._shapes, self._feet = shapes, bounds
        self._px_per_ft = px_per_ft

    def at(self, px_per_ft: float) -> "Walls":
        """The same shapes at another zoom."""
        return Walls(self._shapes, self._feet, px_per_ft)

    def under(self, boxes: Rows) -> Flags:
        """Which boxes, in pixels, lie on a shape, be it in part."""
        met = meets(boxes, self._feet * self._px_per_ft)
        found = np.zeros(len(boxes), dtype=np.bool_)
        for number in np.flatnonzero(met.any(axis=0)).tolist():
            asked = met[:, number] & ~found
            found[asked] = covers(boxes[asked], self._shapes[number] * self._px_per_ft)
        return found
