"""The sprinklers' water over the yard as an array, of which a moved head renews only its own part.

Cells lie on whole multiples of the step, in both directions, so the part of one head stays good
wherever the others stand. Rates are in/h, lengths feet, x east and y north.
"""

from collections.abc import Collection, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.coverage import Grid, grid_over, inside_shares
from lawnbook.frozen import dataclass
from lawnbook.plan.coverage import map_grid, map_of_head
from lawnbook.yard.geometry import Bounds, bounds_ft
from lawnbook.yard.records import Head, Zone

Array = NDArray[np.float64]
Drawable = NDArray[np.float32]
"""Rates to be drawn."""

NICE = (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 5.0)
"""Differences between two borders of the scale, in/h."""

BORDERS = 4
"""Borders between the five steps of the scale."""

TOP_SHARE = 0.95
"""This share of what the steps are to show lies below the middle of the topmost."""


@dataclass(frozen=True, slots=True)
class Box:
    """Cells by their numbers: the first column and row, and the first beyond."""

    west: int
    south: int
    east: int
    north: int

    def meets(self, other: "Box") -> bool:
        """Whether two boxes share a cell."""
        across = self.west < other.east and other.west < self.east
        return across and self.south < other.north and other.south < self.north

    def grown(self, by: int) -> "Box":
        """The box with so many cells more on every side."""
        return Box(self.west - by, self.south - by, self.east + by, self.north + by)

    def within(self, other: "Box") -> "Box":
        """What of the box lies in another that it meets."""
        return Box(
            max(self.west, other.west),
            max(self.south, other.south),
            min(self.east, other.east),
            min(self.north, other.north),
        )


@dataclass(frozen=True, slots=True, eq=False)
class _Part:
    """What one head puts down, on the cells it reaches."""

    head: Head
    box: Box
    rates: Array


class RateField:
    """The rates of all heads together on the cells of one grid."""

    def __init__(self) -> None:
        self._parts: dict[str, _Part] = {}
        self._box = Box(0, 0, 1, 1)
        self._step_ft = 0.0
        self._rates: Array = np.zeros((1, 1))

    def lay(self, zones: Collection[Zone], heads: Collection[Head], *, live: bool) -> list[Box]:
        """Bring the field up to these heads; the boxes in which it is another now.

        While `live` the cells keep their size, so that nothing flickers.
        """
        if not (live and self._step_ft):
            step = map_grid(zones, heads).step_ft
            if step != self._step_ft:
                self._parts, self._step_ft = {}, step
        changed = self._renew({head.id: head for head in heads if head.flow_gpm})
        self._box = self._over(zones)
        self._rates = np.zeros((self._box.north - self._box.south, self._box.east - self._box.west))
        for part in self._parts.values():
            self._rates[self._slices(part.box)] += part.rates
        return changed

    @property
    def box(self) -> Box:
        """All cells of the field."""
        return self._box

    def box_of(self, bounds: Bounds) -> Box:
        """The cells that cover these feet."""
        return _box_of(grid_over(bounds, self._step_ft))

    def bounds_of(self, box: Box) -> Bounds:
        """The feet that a box of cells covers."""
        step = self._step_ft
        return box.west * step, box.south * step, box.east * step, box.north * step

    def rates_in(self, box: Box) -> Array:
        """The rates of a box that lies in the field: rows by columns, the south row first."""
        return self._rates[self._slices(box)]

    def shares_of(self, zone: Zone) -> Array:
        """What of each cell of a zone's box lies in the zone."""
        grid = grid_over(bounds_ft([zone.outline_ft]), self._step_ft)
        return inside_shares(zone.outline_ft, zone.holes_ft, grid)

    def _renew(self, heads: Mapping[str, Head]) -> list[Box]:
        """Compute the parts of new and changed heads, and let go of the others'."""
        gone = [each for each in self._parts if each not in heads]
        changed = [self._parts.pop(head_id).box for head_id in gone]
        for head_id, head in heads.items():
            before = self._parts.get(head_id)
            if before is not None and (before.head is head or before.head == head):
                continue
            (x, y), r = head.at_ft, head.radius_ft
            grid = grid_over((x - r, y - r, x + r, y + r), self._step_ft)
            part = _Part(head, _box_of(grid), map_of_head(head, grid))
            self._parts[head_id] = part
            changed += [part.box] if before is None else [before.box, part.box]
        return changed

    def _over(self, zones: Collection[Zone]) -> Box:
        """The box of all parts and zones."""
        boxes = [part.box for part in self._parts.values()]
        boxes += [self.box_of(bounds_ft([zone.outline_ft])) for zone in zones]
        if not boxes:
            return Box(0, 0, 1, 1)
        return Box(
            min(box.west for box in boxes),
            min(box.south for box in boxes),
            max(box.east for box in boxes),
            max(box.north for box in boxes),
        )

    def _slices(self, box: Box) -> tuple[slice, slice]:
        rows = slice(box.south - self._box.south, box.north - self._box.south)
        return rows, slice(box.west - self._box.west, box.east - self._box.west)


def borders_for(rates: Sequence[Array]) -> tuple[float, ...]:
    """Round borders in in/h for the five steps of a scale, by the rates they are to show.

    Without any they are those of the lowest scale.
    """
    wet = np.concatenate([each[each > 0.0] for each in rates]) if rates else np.zeros(0)
    top = float(np.quantile(wet, TOP_SHARE)) if wet.size else 0.0
    fitting = (nice for nice in NICE if (BORDERS + 0.5) * nice >= top)
    between = next(fitting, NICE[-1])
    return tuple(between * number for number in range(1, BORDERS + 1))


def mean_rate(rates: Array, shares: Array) -> float:
    """The mean over a zone, each cell by what of it lies inside; 0 for no ground."""
    ground = float(shares.sum())
    return float((rates * shares).sum()) / ground if ground > 0.0 else 0.0


def twice_as_fine(rates: Array | Drawable) -> Drawable:
    """The rates on cells of half the size, straight lines between the middles of the old ones."""
    # Single precision is finer than any colour, and half the work.
    padded = np.pad(rates.astype(np.float32), 1, mode="edge")
    return _between(_between(padded.T).T)


def _between(rates: Drawable) -> Drawable:
    """Twice the rows of a padded array: of each, a quarter off its middle on both sides."""
    middle = np.float32(0.75) * rates[1:-1]
    fine = np.empty((2 * len(middle), rates.shape[1]), dtype=np.float32)
    fine[0::2] = middle + np.float32(0.25) * rates[:-2]
    fine[1::2] = middle + np.float32(0.25) * rates[2:]
    return fine


def _box_of(grid: Grid) -> Box:
    west, south = round(grid.west_ft / grid.step_ft), round(grid.south_ft / grid.step_ft)
    return Box(west, south, west + grid.columns, south + grid.rows)
