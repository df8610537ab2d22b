"""What sprinklers put down where: their map, the rate at a place, and how evenly it falls.

Lengths are feet, x east and y north, rates in/h. Calm air is assumed. A map's cells hold the exact
mean over each cell, so that they add up to the heads' flow; see `throw`.
Sources: "rate-constant", "ia-catch-can", "christiansen".
"""

from collections.abc import Iterable, Sequence

import numpy as np

from lawnbook.agronomy.cells import Bounds, Grid, Inside, grid_over, inside_cells, inside_shares
from lawnbook.agronomy.checks import Array, Reals, not_negative_array
from lawnbook.agronomy.profiles import PROFILES
from lawnbook.agronomy.throw import (
    FULL_CIRCLE_DEG,
    Point,
    Sprinkler,
    cell_water,
    profile_at,
    share_within,
    within_arc,
)
from lawnbook.frozen import dataclass

__all__ = [
    "PROFILES",
    "Bounds",
    "Distribution",
    "Grid",
    "Inside",
    "Sprinkler",
    "distribution",
    "grid_over",
    "inside_cells",
    "inside_shares",
    "rate_at",
    "rate_map",
    "share_within",
]


@dataclass(frozen=True, slots=True)
class Distribution:
    """Mean, lower-quarter and lower-half uniformity, and CU, all weighted by area.

    `mean` has the unit of the rates; DU is 0 to 1; CU may be below 0 for very uneven water.
    """

    mean: float
    du_lq: float
    du_lh: float
    cu: float


def rate_map(sprinklers: Iterable[Sprinkler], grid: Grid) -> Array:
    """The mean rate (in/h) in each cell, all sprinklers together: rows by columns, south first."""
    rates = np.zeros((grid.rows, grid.columns))
    for sprinkler in sprinklers:
        columns = _reached(grid.west_ft, grid.step_ft, grid.columns, sprinkler, 0)
        rows = _reached(grid.south_ft, grid.step_ft, grid.rows, sprinkler, 1)
        if columns[0] < columns[1] and rows[0] < rows[1]:
            east = grid.x_lines[columns[0] : columns[1] + 1] - sprinkler.at_ft[0]
            north = grid.y_lines[rows[0] : rows[1] + 1] - sprinkler.at_ft[1]
            patch = slice(*rows), slice(*columns)
            rates[patch] += cell_water(sprinkler, east, north)
    return rates


def rate_at(sprinklers: Iterable[Sprinkler], points: Sequence[Point] | Array) -> Array:
    """The rate (in/h) at each point, all sprinklers together. Edges of arcs and radii count."""
    places = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    eastings, northings = np.ascontiguousarray(places.T)
    rates = np.zeros(len(places))
    for sprinkler in sprinklers:
        (x, y), radius = sprinkler.at_ft, sprinkler.radius_ft
        east, north = eastings - x, northings - y
        near = np.flatnonzero((np.abs(east) <= radius) & (np.abs(north) <= radius))
        east, north = east[near], north[near]
        depth = profile_at(sprinkler.profile, np.hypot(east, north) / radius)
        if sprinkler.sweep_deg < FULL_CIRCLE_DEG:
            depth *= within_arc(sprinkler, east, north)
        rates[near] += depth * sprinkler.unit_rate_in_per_h
    return rates


def distribution(rates: Sequence[float] | Reals, weights: Sequence[float] | Reals) -> Distribution:
    """How evenly rates fall on pieces of ground that weigh by their area.

    The lowest quarter (half) of the ground is exactly that: the piece on the boundary counts with
    the part that falls in it, as in `precipitation.lower_quarter_uniformity`, with which it
    agrees where all weights are equal. ValueError where there is no ground or no water.
    Sources: "ia-catch-can", "christiansen".
    """
    values = not_negative_array("rates", rates).ravel()
    ground = not_negative_array("weights", weights).ravel()
    if values.shape != ground.shape:
        raise ValueError("rates and weights must be of the same length.")
    total = float(ground.sum())
    mean = float(values @ ground) / total if total > 0.0 else 0.0
    if mean <= 0.0:
        raise ValueError("Uniformity needs ground, and water on some of it.")
    order = np.argsort(values, kind="stable")
    lowest, below = values[order], np.cumsum(ground[order])
    return Distribution(
        mean,
        _lowest_mean(lowest, below, total / 4) / mean,
        _lowest_mean(lowest, below, total / 2) / mean,
        1.0 - float(np.abs(values - mean) @ ground) / (mean * total),
    )


def _lowest_mean(values: Array, below: Array, part: float) -> float:
    """The mean of rising values over the first `part` of the ground that lies below each."""
    counted = np.diff(np.minimum(below, part), prepend=0.0)
    return float(counted @ values) / part


def _reached(
    first_ft: float, step_ft: float, count: int, sprinkler: Sprinkler, axis: int
) -> tuple[int, int]:
    """The first cell along an axis that a throw can reach, and the one after the last."""
    at, radius = sprinkler.at_ft[axis] - first_ft, sprinkler.radius_ft
    low, high = np.floor((at - radius) / step_ft), np.ceil((at + radius) / step_ft)
    return int(np.clip(low, 0, count)), int(np.clip(high, 0, count))
