"""What the heads put down on a zone by the computed map, and the map itself for the sketch.

The map holds the depth each place would get in an hour if all heads ran: zones run one after the
other, so where a neighbour's heads reach in, their share is that of equal minutes. A head without
a flow is left out and counted; one without a profile throws a cone, the default.
"""

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.coverage import (
    PROFILES,
    Bounds,
    Grid,
    Inside,
    Sprinkler,
    distribution,
    grid_over,
    inside_cells,
    inside_shares,
    rate_at,
    rate_map,
    share_within,
)
from lawnbook.agronomy.precipitation import precipitation_rate_in_per_h
from lawnbook.frozen import dataclass
from lawnbook.plan.rates import places_of
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, bounds_ft, label_point_ft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Head, Zone

DEFAULT_PROFILE = "cone"
"""The radial profile of a head for which none is given (common practice)."""

CELLS_PER_RADIUS = 32
"""Cells along the smallest throw; with the next, fine enough for DU within 0.01 (measured)."""

WIDEST_STEP_FT = 0.5
"""Cells are no wider than this, unless there were too many of them."""

MOST_CELLS = 8_000
"""Cells over one zone at most."""

MOST_MAP_CELLS = 40_000
"""Cells of a map for the sketch at most."""

LEAST_NEIGHBOUR_SHARE = 0.001
"""A neighbour's head counts once this share of its water falls on the zone: less is a drift."""

PATCH_FT = 3.0
"""Across a patch that is named as the driest or the wettest: about a stride."""

_TIE_BREAK = 0.01

DRY_SHARE, WET_SHARE = 0.5, 1.5
"""Of the mean: below the first a place is dry, above the second wet (common practice)."""


def sprinkler_of(head: Head) -> Sprinkler | None:
    """A head as the map takes it; None without a flow."""
    if not head.flow_gpm:
        return None
    profile = head.profile if head.profile is not None else DEFAULT_PROFILE
    return Sprinkler(
        at_ft=head.at_ft,
        radius_ft=head.radius_ft,
        start_deg=head.start_deg,
        sweep_deg=head.sweep_deg,
        flow_gpm=head.flow_gpm,
        profile=PROFILES[profile] if isinstance(profile, str) else profile,
    )


def sprinklers_of(heads: Iterable[Head]) -> tuple[Sprinkler, ...]:
    """The heads that have a flow."""
    return tuple(each for each in map(sprinkler_of, heads) if each is not None)


def rates_at(
    notebook: Notebook, points: Sequence[Point], zone_id: str | None = None
) -> tuple[float, ...]:
    """The map's rate (in/h) at each point: of all heads, or of one zone's as in a catch test."""
    heads = (h for h in notebook.heads.values() if zone_id is None or h.zone == zone_id)
    return tuple(rate_at(sprinklers_of(heads), points).tolist())


def coverage_of(notebook: Notebook, zone: Zone) -> ZoneCoverage | None:
    """What the heads put down on a zone; None where it has no head with a flow, or no ground.

    None too where a sprinkler on a hose is not drawn at every place it is set down: what it does
    on the rest of the zone is not known.
    """
    heads = [head for head in notebook.heads.values() if head.zone == zone.id]
    own = sprinklers_of(heads)
    if not own or area_sqft(zone.outline_ft, zone.holes_ft) <= 0.0:
        return None
    if places_of(zone) > 1 and places_of(zone) != len(heads):
        return None
    bounds = bounds_ft([zone.outline_ft])
    others = [h for h in notebook.heads.values() if h.zone != zone.id and _reaches(h, bounds)]
    figures = _figures(zone.outline_ft, zone.holes_ft, own, sprinklers_of(others))
    assumed = sum(head.profile is None for head in heads if head.flow_gpm)
    return ZoneCoverage(
        heads=len(heads),
        neighbours=figures.neighbours,
        without_flow=len(heads) - len(own),
        assumed_profiles=assumed,
        mean_in_per_h=figures.mean_in_per_h,
        du_lq=figures.du_lq,
        du_lh=figures.du_lh,
        cu=figures.cu,
        wasted_share=figures.wasted_share,
        dry_share=figures.dry_share,
        wet_share=figures.wet_share,
        driest_at_ft=figures.driest_at_ft,
        wettest_at_ft=figures.wettest_at_ft,
    )


@dataclass(frozen=True, slots=True, eq=False)
class CoverageMap:
    """Rates (in/h) by cell, and the share of each cell that lies in one of the zones."""

    grid: Grid
    rates: Array
    shares: Array


def coverage_map(
    notebook: Notebook,
    zone_ids: Iterable[str],
    heads: Iterable[Head],
    step_ft: float | None = None,
) -> CoverageMap:
    """The map of heads over zones and as far as they throw; without a step it chooses one.

    Rates are the exact means over the cells: they add up to the heads' flow.
    """
    zones = [notebook.zones[each] for each in zone_ids]
    thrown = tuple(heads)
    grid = map_grid(zones, thrown, step_ft)
    shares = np.zeros((grid.rows, grid.columns))
    for zone in zones:
        shares += inside_shares(zone.outline_ft, zone.holes_ft, grid)
    return CoverageMap(grid, rate_map(sprinklers_of(thrown), grid), np.minimum(shares, 1.0))


def map_grid(zones: Iterable[Zone], heads: Iterable[Head], step_ft: float | None = None) -> Grid:
    """The cells over zones and as far as heads with a flow throw; one cell where there is nothing.

    Without a step it is fit for the smallest throw, coarser where that were too many cells.
    """
    thrown = sprinklers_of(heads)
    boxes = [zone.outline_ft for zone in zones] + [_box(each) for each in thrown]
    bounds = bounds_ft(boxes) if any(boxes) else (0.0, 0.0, 0.0, 0.0)
    return grid_over(bounds, step_ft or _step_ft(thrown, bounds, MOST_MAP_CELLS))


def map_of_head(head: Head, grid: Grid) -> Array:
    """One head's rates (in/h) on a map's cells, to be added to the others'; 0 without a flow.

    What it throws beyond the cells is not there: lay a new grid where a head is dragged far.
    """
    return rate_map(sprinklers_of((head,)), grid)


@dataclass(frozen=True, slots=True)
class _Figures:
    """What `ZoneCoverage` takes from outline and sprinklers alone."""

    neighbours: int
    mean_in_per_h: float
    du_lq: float
    du_lh: float
    cu: float
    wasted_share: float
    dry_share: float
    wet_share: float
    driest_at_ft: Point
    wettest_at_ft: Point


@lru_cache(maxsize=512)
def _figures(
    outline: Outline,
    holes: tuple[Outline, ...],
    own: tuple[Sprinkler, ...],
    others: tuple[Sprinkler, ...],
) -> _Figures:
    landed = {each: each.flow_gpm * share_within(each, outline, holes) for each in (*own, *others)}
    flow, kept = sum(each.flow_gpm for each in own), sum(landed[each] for each in own)
    felt = [each for each in others if landed[each] >= LEAST_NEIGHBOUR_SHARE * each.flow_gpm]
    mean = precipitation_rate_in_per_h(
        kept + sum(landed[each] for each in felt), area_sqft(outline, holes)
    )
    grid = grid_over(bounds_ft([outline]), _zone_step_ft(outline, holes, (*own, *felt)))
    inside = inside_cells(outline, holes, grid)
    middles = np.stack([inside.xs, inside.ys], axis=-1)
    # At the middle of what of a cell is inside: its mean would count what falls beyond the edge.
    rates = rate_at((*own, *felt), middles).reshape(grid.rows, grid.columns)
    driest, wettest = _extremes(rates, inside, grid) or (label_point_ft(outline, holes),) * 2
    wet = float((rates * inside.shares).sum()) > 0.0
    even = distribution(rates, inside.shares) if wet else None
    return _Figures(
        neighbours=len(felt),
        mean_in_per_h=mean,
        du_lq=even.du_lq if even else 0.0,
        du_lh=even.du_lh if even else 0.0,
        cu=even.cu if even else 0.0,
        wasted_share=min(1.0, max(0.0, 1.0 - kept / flow)),
        dry_share=_ground(rates < DRY_SHARE * even.mean, inside) if even else 1.0,
        wet_share=_ground(rates > WET_SHARE * even.mean, inside) if even else 0.0,
        driest_at_ft=driest,
        wettest_at_ft=wettest,
    )


def _ground(chosen: NDArray[np.bool_], inside: Inside) -> float:
    """The share of the zone that lies in chosen cells."""
    return float(inside.shares[chosen].sum() / inside.shares.sum())


def _extremes(rates: Array, inside: Inside, grid: Grid) -> tuple[Point, Point] | None:
    """The middles of the driest and the wettest patch, cells wholly inside; None without such."""
    whole = inside.shares > 1.0 - 1e-9
    if not whole.any():
        return None
    reach = max(0, round((PATCH_FT / grid.step_ft - 1) / 2))
    patch, round_it = (_smooth(rates, inside, each) for each in (reach, 4 * reach))
    # Of patches as dry, the one amid the driest ground: bare corners are dry all over.
    score = patch + _TIE_BREAK * round_it
    dry = np.argmin(np.where(whole, score, np.inf))
    wet = np.argmax(np.where(whole, score, -np.inf))
    return _middle(grid, int(dry)), _middle(grid, int(wet))


def _smooth(rates: Array, inside: Inside, reach: int) -> Array:
    """The mean over what of the square of cells within `reach` of each is inside; 0 if nothing."""
    ground = _patch_sums(inside.shares, reach)
    held = ground > 1e-9
    water = _patch_sums(rates * inside.shares, reach)
    return np.where(held, water / np.where(held, ground, 1.0), 0.0)


def _middle(grid: Grid, place: int) -> Point:
    row, column = divmod(place, grid.columns)
    return float(grid.xs[column]), float(grid.ys[row])


def _patch_sums(values: Array, reach: int) -> Array:
    """The sum over the square of cells within `reach` of each, as far as there are cells."""
    summed = np.pad(values.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    rows, columns = (np.arange(count) for count in values.shape)
    low, high = np.maximum(rows - reach, 0), np.minimum(rows + reach + 1, values.shape[0])
    left, right = np.maximum(columns - reach, 0), np.minimum(columns + reach + 1, values.shape[1])
    band = summed[high] - summed[low]
    sums: Array = band[:, right] - band[:, left]
    return sums


def _zone_step_ft(
    outline: Outline, holes: tuple[Outline, ...], sprinklers: tuple[Sprinkler, ...]
) -> float:
    """The size of a zone's cells: a narrow or small zone gets finer ones than its heads ask for."""
    step = _step_ft(sprinklers, bounds_ft([outline]), MOST_CELLS)
    return min(step, math.sqrt(area_sqft(outline, holes)) / CELLS_PER_RADIUS)


def _step_ft(sprinklers: Sequence[Sprinkler], bounds: Bounds, most: int) -> float:
    """A step fit for the smallest throw, with no more cells in a box than about `most`."""
    fits = [each.radius_ft / CELLS_PER_RADIUS for each in sprinklers]
    west, south, east, north = bounds
    finest = math.sqrt((east - west) * (north - south) / most)
    return max(min([WIDEST_STEP_FT, *fits]), finest)


def _box(sprinkler: Sprinkler) -> Outline:
    """The south-west and north-east corners of the box round a throw."""
    (x, y), r = sprinkler.at_ft, sprinkler.radius_ft
    return ((x - r, y - r), (x + r, y + r))


def _reaches(head: Head, bounds: Bounds) -> bool:
    """Whether a head's circle meets a box."""
    (x, y), r = head.at_ft, head.radius_ft
    west, south, east, north = bounds
    return west - r < x < east + r and south - r < y < north + r
