"""Square cells over a yard, and exactly how much of each lies within an outline.

Lengths are feet, x east and y north. Arrays by cell have a row for each level band, the south one
first. No source: plane geometry.
"""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import Array, finite, positive
from lawnbook.agronomy.throw import Ring
from lawnbook.frozen import dataclass

Bounds = tuple[float, float, float, float]
"""West, south, east and north in feet."""

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Grid:
    """Square cells from a south-west corner."""

    west_ft: float
    south_ft: float
    step_ft: float
    columns: int
    rows: int

    @property
    def x_lines(self) -> Array:
        """The upright lines from west to east, columns + 1 of them."""
        return self.west_ft + self.step_ft * np.arange(self.columns + 1, dtype=np.float64)

    @property
    def y_lines(self) -> Array:
        """The level lines from south to north, rows + 1 of them."""
        return self.south_ft + self.step_ft * np.arange(self.rows + 1, dtype=np.float64)

    @property
    def xs(self) -> Array:
        """The middles of the columns."""
        return self.x_lines[:-1] + self.step_ft / 2

    @property
    def ys(self) -> Array:
        """The middles of the rows."""
        return self.y_lines[:-1] + self.step_ft / 2

    @property
    def cell_sqft(self) -> float:
        """The area of one cell."""
        return self.step_ft**2

    @property
    def bounds_ft(self) -> Bounds:
        """The box that the cells fill."""
        east = self.west_ft + self.columns * self.step_ft
        return self.west_ft, self.south_ft, east, self.south_ft + self.rows * self.step_ft


def grid_over(bounds_ft: Bounds, step_ft: float) -> Grid:
    """The cells of a size that cover a box, on lines that are whole multiples of the step.

    So the cells of two boxes are the same cells where they meet. ValueError for a step that is
    not above 0 and for a box that is none.
    """
    positive("step_ft", step_ft)
    west, south, east, north = (finite("bounds_ft", each) for each in bounds_ft)
    if east < west or north < south:
        raise ValueError("bounds_ft must be west, south, east and north.")
    first = math.floor(west / step_ft + _ROUNDING), math.floor(south / step_ft + _ROUNDING)
    last = math.ceil(east / step_ft - _ROUNDING), math.ceil(north / step_ft - _ROUNDING)
    columns, rows = (max(1, b - a) for a, b in zip(first, last, strict=True))
    return Grid(first[0] * step_ft, first[1] * step_ft, step_ft, columns, rows)


@dataclass(frozen=True, slots=True, eq=False)
class Inside:
    """What of each cell lies within an outline: its share, 0 to 1, and that part's own middle.

    The middle of a cell that is wholly out is its own.
    """

    shares: Array
    xs: Array
    ys: Array


def inside_shares(outline: Ring, holes: Sequence[Ring], grid: Grid) -> Array:
    """The share, 0 to 1, of each cell that lies inside an outline and not in its holes. Exact."""
    return inside_cells(outline, holes, grid).shares


def inside_cells(outline: Ring, holes: Sequence[Ring], grid: Grid) -> Inside:
    """Shares and middles of what of each cell lies inside an outline and not in its holes.

    Exact. Outlines may run either way round but must not cross themselves, holes lie inside the
    outline and apart; fewer than three corners hold nothing.
    """
    sums = _ring_sums(outline, grid)
    for hole in holes:
        sums = sums - _ring_sums(hole, grid)
    area, moment_x, moment_y = sums
    shares = np.clip(area, 0.0, 1.0)
    shares[shares < _ROUNDING] = 0.0
    held = np.where(shares > 0.0, area, 1.0)
    # Within the cell in steps, 0 to 1; a sliver's rounding must not lead out of it.
    east = np.where(shares > 0.0, np.clip(moment_x / held, 0.0, 1.0), 0.5)
    north = np.where(shares > 0.0, np.clip(moment_y / held, 0.0, 1.0), 0.5)
    return Inside(
        shares,
        grid.x_lines[None, :-1] + grid.step_ft * east,
        grid.y_lines[:-1, None] + grid.step_ft * north,
    )


def _ring_sums(ring: Ring, grid: Grid) -> Array:
    """Area and first moments in each cell (in steps) of what a ring encloses, three layers.

    By Green's theorem from the ring's sides, cut where they cross a line of the grid: a piece
    going north adds to its own cell the ground between it and the cell's west side, and whole
    strips to the cells west of it.
    """
    if len(ring) < 3:
        return np.zeros((3, grid.rows, grid.columns))
    corners = np.asarray(ring, dtype=np.float64) - (grid.west_ft, grid.south_ft)
    starts, ends = _cut(corners / grid.step_ft, grid.columns, grid.rows)
    rows = np.floor((starts[:, 1] + ends[:, 1]) / 2).astype(np.intp)
    columns = np.floor((starts[:, 0] + ends[:, 0]) / 2).astype(np.intp)
    columns = np.minimum(columns, grid.columns)
    u0, u1 = starts[:, 0] - columns, ends[:, 0] - columns
    v0, v1 = starts[:, 1] - rows, ends[:, 1] - rows
    rise = v1 - v0
    own = (
        rise * (u0 + u1) / 2,
        rise * (u0 * u0 + u0 * u1 + u1 * u1) / 6,
        rise * (2 * u0 * v0 + u0 * v1 + u1 * v0 + 2 * u1 * v1) / 6,
    )
    whole = (rise, rise / 2, rise * (v0 + v1) / 2)
    sums = np.stack(
        [
            _spread(grid, (rows, columns), in_own, to_west)
            for in_own, to_west in zip(own, whole, strict=True)
        ]
    )
    return sums if sums[0].sum() >= 0 else -sums


def _spread(
    grid: Grid, cells: tuple[NDArray[np.intp], NDArray[np.intp]], own: Array, to_west: Array
) -> Array:
    """Sums by cell of what pieces add to their own cell and to every cell west of it."""
    rows, columns = cells
    width = grid.columns + 1
    places = rows * width + columns
    size = grid.rows * width
    at, beyond = (
        np.bincount(places, weights, size).astype(np.float64).reshape(grid.rows, width)
        for weights in (own, to_west)
    )
    west_of = np.cumsum(beyond[:, ::-1], axis=1)[:, ::-1]
    return at[:, :-1] + west_of[:, 1:]


def _cut(corners: Array, columns: int, rows: int) -> tuple[Array, Array]:
    """The sides of a ring as pieces that each lie in one cell; corners in steps from the corner.

    What lies south or north of the cells is left out. What lies west is moved to the west side,
    where it adds nothing, and what lies east into a column beyond the last.
    """
    starts, ends = [], []
    for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        way = b - a
        cuts = [np.array([0.0, 1.0])]
        for axis, count in ((0, columns), (1, rows)):
            low, high = sorted((a[axis], b[axis]))
            lines = np.arange(max(0, math.ceil(low)), min(count, math.floor(high)) + 1)
            if way[axis] != 0.0:
                cuts.append((lines - a[axis]) / way[axis])
        along = np.sort(np.clip(np.concatenate(cuts), 0.0, 1.0))
        # Not np.unique, with which a process loads the masked arrays: 9 ms of every start.
        along = along[np.append(True, along[1:] != along[:-1])]
        points = a + along[:, None] * way
        starts.append(points[:-1])
        ends.append(points[1:])
    start, end = np.concatenate(starts), np.concatenate(ends)
    middle = (start[:, 1] + end[:, 1]) / 2
    kept = (middle > 0.0) & (middle < rows) & (start[:, 1] != end[:, 1])
    for points in (start, end):
        points[:, 0] = np.clip(points[:, 0], 0.0, columns)
        points[:, 1] = np.clip(points[:, 1], 0.0, rows)
    return start[kept], end[kept]
