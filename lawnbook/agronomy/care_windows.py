"""The weeks of the usual year that suit coring and overseeding: when the grass grows at its best.

A year is 366 daily mean temperatures (deg F) from 1 January in the north, from 1 July in the south,
so that summer lies in its middle. A window is no advice to do the work. Sources:
"growth-potential", "growth-stop", "coring-autumn", "coring-warm", "sowing-autumn", "sowing-warm",
"care-weeks". ValueError outside a formula's domain.
"""

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import Array, finite_array
from lawnbook.agronomy.turf import GROWTH_OPTIMUM_F, GROWTH_SPREAD_F, LEAST_GROWTH, known_grass
from lawnbook.frozen import dataclass

YEAR_DAYS = 366

Held = NDArray[np.bool_]
"""Whether something holds, day by day."""

VIGOROUS = 0.75
"""Share of the year's best growth from which cool-season turf heals fast (common practice)."""

GROWING = 0.50
"""Share of the year's best growth at which spring growth is well under way (common practice)."""

HEALS_DAYS = 28
"""Days of growth that coring leaves before growth ends or summer's heat (source "care-weeks")."""

COOL_SOWN_DAYS = 45
WARM_SOWN_DAYS = 90
"""Days before growth ends by which seed of each season is sown (source "care-weeks")."""

SPRING_FROM_DAY = 60
"""1 March of the north; no spring work before (common practice)."""

SPRING_UNTIL_DAY = 166
"""15 June of the north, the last day of spring work on cool-season turf (common practice)."""

AUTUMN_FROM_DAY = 227
"""15 August of the north, where late summer begins (source "sowing-autumn")."""


@dataclass(frozen=True, slots=True)
class Span:
    """Days of a year as it is counted here, 0 to 365, both included."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class CareSpans:
    """The spans of a year that suit each kind of care, in order; empty where there is none."""

    coring: tuple[Span, ...]
    sowing: tuple[Span, ...]


def growth_of_days(tmean_f: Array, grass: str) -> Array:
    """Growth potential (0-1) of daily mean temperatures, NaN where one is.

    Source: "growth-potential".
    """
    gap_f = np.asarray(tmean_f, dtype=np.float64) - GROWTH_OPTIMUM_F[known_grass(grass)]
    if grass == "warm":
        gap_f = np.minimum(gap_f, 0.0)
    growth: Array = np.exp(-0.5 * (gap_f / GROWTH_SPREAD_F[grass]) ** 2)
    return growth


def care_spans(tmean_f: Array, grass: str) -> CareSpans:
    """The spans of a year that suit coring and overseeding a grass. Source: "care-weeks".

    Cool-season turf is cored from when summer's heat is over, and in spring; it is sown in late
    summer. Warm-season turf is cored and sown from when it grows well until it grows at its best.
    """
    tmean = finite_array("tmean_f", tmean_f)
    if tmean.size != YEAR_DAYS:
        raise ValueError(f"tmean_f must hold {YEAR_DAYS} days, not {tmean.size}.")
    growth = growth_of_days(tmean, grass)
    if float(growth.max()) < LEAST_GROWTH:
        return CareSpans((), ())
    hottest = int(tmean.argmax())
    return _cool(growth, hottest) if grass == "cool" else _warm(growth, hottest)


def _cool(growth: Array, hottest: int) -> CareSpans:
    vigorous = growth >= VIGOROUS * growth.max()
    autumn = _first(vigorous, max(hottest, AUTUMN_FROM_DAY))
    spring = _spring(growth, vigorous, hottest)
    if autumn is None:
        return CareSpans(spring, ())
    ended = _first(growth < LEAST_GROWTH, autumn)
    return CareSpans(
        (*spring, *_span(autumn, _before(ended, HEALS_DAYS, autumn))),
        _span(autumn, _before(ended, COOL_SOWN_DAYS, autumn)),
    )


def _spring(growth: Array, vigorous: Held, hottest: int) -> tuple[Span, ...]:
    first = _first(_grows_well(growth), SPRING_FROM_DAY)
    best = None if first is None else _first(vigorous, first)
    if first is None or best is None or best > hottest:
        return ()
    held_up = _first(~vigorous | (growth < LEAST_GROWTH), best)
    ends = hottest if held_up is None else min(held_up, hottest)
    return _span(first, min(ends - HEALS_DAYS, SPRING_UNTIL_DAY))


def _warm(growth: Array, hottest: int) -> CareSpans:
    first = _first(_grows_well(growth), SPRING_FROM_DAY)
    if first is None or first > hottest:
        return CareSpans((), ())
    best = int(growth.argmax())
    ended = _first(growth < LEAST_GROWTH, hottest)
    cored, sown = (
        best if ended is None else min(best, ended - days) for days in (HEALS_DAYS, WARM_SOWN_DAYS)
    )
    return CareSpans(_span(first, cored), _span(first, sown))


def _grows_well(growth: Array) -> Held:
    well: Held = growth >= max(GROWING * float(growth.max()), LEAST_GROWTH)
    return well


def _before(ended: int | None, days: int, first: int) -> int:
    """So many days before growth ends; as many after the first day where it never does."""
    return min(YEAR_DAYS - 1, first + COOL_SOWN_DAYS) if ended is None else ended - days


def _first(held: Held, start: int) -> int | None:
    """The first day from `start` on which something holds."""
    found = np.flatnonzero(held[start:])
    return start + int(found[0]) if found.size else None


def _span(first: int, last: int) -> tuple[Span, ...]:
    return (Span(first, last),) if first <= last else ()
