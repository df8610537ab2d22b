"""What the cans of a catch test show: rate, evenness, and each can beside the computed map."""

import math
from collections.abc import Sequence
from dataclasses import replace
from statistics import median

from lawnbook.agronomy.cans import cans_for, rate_interval
from lawnbook.agronomy.precipitation import (
    catch_can_rate_in_per_h,
    christiansen_uniformity,
    depth_rate_in_per_h,
    lower_quarter_uniformity,
    run_time_multiplier,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.coverage import rates_at
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import CatchTest

CLOGGED_SHARE = 0.6
"""A can is told apart that caught less than this share of what its fellows suggest (common
practice)."""

FEWEST_COMPARED = 4
"""Cans with a place and a map below which none can be told apart from the rest."""

MOST_CLOGGED = 1 / 3
"""Beyond this share of them it is the map that does not fit, not single cans."""

LEAST_OF_MAP = 0.25
"""Where the map gives less than this share of its mean over the cans, it says too little."""

COMPASS = (
    "north",
    "northeast",
    "east",
    "southeast",
    "south",
    "southwest",
    "west",
    "northwest",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Can:
    """One can: what it caught (mL or in) and its rate, None while not typed; the map's there."""

    number: int
    at_ft: Point | None = None
    caught: float | None = None
    in_per_h: float | None = None
    map_in_per_h: float | None = None
    clogged: bool = False

    @property
    def of_map(self) -> float | None:
        """Caught over computed; None where either is unknown or the map gives nothing."""
        if self.in_per_h is None or not self.map_in_per_h:
            return None
        return self.in_per_h / self.map_in_per_h


@dataclass(frozen=True, slots=True, kw_only=True)
class CanFigures:
    """A test's figures from the cans typed so far.

    `low` and `high` bound the rate with 95 % confidence; they, the evenness and `enough` (cans
    for ±10 %) need two cans. `typical_of_map` is the median of caught over computed, `misfit`
    says that so many cans are far from it that the map cannot be right.
    """

    cans: tuple[Can, ...]
    caught: int
    in_per_h: float
    low: float | None = None
    high: float | None = None
    du_lq: float | None = None
    cu: float | None = None
    multiplier: float | None = None
    enough: int | None = None
    typical_of_map: float | None = None
    misfit: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """How the cans were read: the minutes run, and the mouth (sq in) where volumes are in mL."""

    run_minutes: float
    can_mouth_sqin: float | None = None

    def rate_in_per_h(self, readings: Sequence[float]) -> float:
        """The mean rate of some cans. ValueError for what no can can hold."""
        if self.can_mouth_sqin is None:
            return depth_rate_in_per_h(readings, self.run_minutes)
        return catch_can_rate_in_per_h(readings, self.run_minutes, self.can_mouth_sqin)


def map_rates(
    notebook: Notebook, zone_id: str, places: Sequence[Point]
) -> tuple[float | None, ...]:
    """The computed rate at each place with the zone's heads alone; None where it has no map."""
    heads = [head for head in notebook.heads.values() if head.zone == zone_id]
    if not places or not heads or any(head.flow_gpm is None for head in heads):
        return (None,) * len(places)
    return rates_at(notebook, places, zone_id)


def bare_cans(
    readings: Sequence[float | None], places: Sequence[Point], maps: Sequence[float | None]
) -> tuple[Can, ...]:
    """Numbered cans with what is known of each; places may be missing altogether."""
    return tuple(
        Can(
            number=k + 1,
            at_ft=places[k] if k < len(places) else None,
            caught=caught,
            map_in_per_h=maps[k] if k < len(maps) else None,
        )
        for k, caught in enumerate(readings)
    )


def figures_of(cans: Sequence[Can], reading: Reading) -> CanFigures | None:
    """The figures of cans; None where none caught anything. ValueError for what no can can hold."""
    typed = [each.caught for each in cans if each.caught is not None]
    if not any(typed):
        return None
    rated = [
        each
        if each.caught is None
        else replace(each, in_per_h=reading.rate_in_per_h([each.caught]))
        for each in cans
    ]
    rates = [each.in_per_h for each in rated if each.in_per_h is not None]
    typical, misfit, clogged = _against_map(rated)
    told = CanFigures(
        cans=tuple(replace(each, clogged=each.number in clogged) for each in rated),
        caught=len(typed),
        in_per_h=reading.rate_in_per_h(typed),
        typical_of_map=typical,
        misfit=misfit,
    )
    return told if len(rates) < 2 else _with_spread(told, rates)


def figures_of_test(notebook: Notebook, test: CatchTest) -> CanFigures | None:
    """The figures of a kept test."""
    readings = test.volumes_ml or test.depths_in
    reading = Reading(
        run_minutes=test.run_minutes,
        can_mouth_sqin=test.can_mouth_sqin if test.volumes_ml else None,
    )
    maps = map_rates(notebook, test.zone, test.at_ft)
    return figures_of(bare_cans(readings, test.at_ft, maps), reading)


def _with_spread(told: CanFigures, rates: Sequence[float]) -> CanFigures:
    low, _, high = rate_interval(rates)
    du_lq = lower_quarter_uniformity(rates)
    return replace(
        told,
        low=low,
        high=high,
        du_lq=du_lq,
        cu=christiansen_uniformity(rates),
        multiplier=run_time_multiplier(du_lq),
        enough=cans_for(rates),
    )


def _against_map(cans: Sequence[Can]) -> tuple[float | None, bool, frozenset[int]]:
    """The median of caught over computed, whether the map misfits, and the clogged numbers."""
    given = [each.map_in_per_h for each in cans if each.map_in_per_h]
    least = LEAST_OF_MAP * sum(given) / len(given) if given else 0.0
    ratios = {
        each.number: each.of_map
        for each in cans
        if each.of_map is not None and (each.map_in_per_h or 0.0) >= least
    }
    if not ratios:
        return None, False, frozenset()
    typical = median(ratios.values())
    low = frozenset(n for n, ratio in ratios.items() if ratio < CLOGGED_SHARE * typical)
    if len(ratios) < FEWEST_COMPARED or not low:
        return typical, False, frozenset()
    misfit = len(low) > MOST_CLOGGED * len(ratios)
    return typical, misfit, frozenset() if misfit else low


def nearest_head(notebook: Notebook, zone_id: str, at_ft: Point) -> tuple[float, str] | None:
    """Feet and compass direction from a place to the zone's nearest head; None without heads.

    A head that reaches the place goes before a nearer one that does not.
    """
    heads = [head for head in notebook.heads.values() if head.zone == zone_id]
    if not heads:
        return None

    def rank(k: int) -> tuple[bool, float]:
        away = math.dist(heads[k].at_ft, at_ft)
        return away > heads[k].radius_ft, away

    head = heads[min(range(len(heads)), key=rank)]
    east, north = head.at_ft[0] - at_ft[0], head.at_ft[1] - at_ft[1]
    bearing = math.degrees(math.atan2(east, north)) - notebook.yard.north_deg
    return math.hypot(east, north), COMPASS[round(bearing / 45) % len(COMPASS)]
