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
class CareRules:
    """What the spans are found by: shares of the best growth, days, and places in the year.

    `best_f` and `width_f` are the optimum and width of the growth curve (deg F), the grass's own
    where None.
    """

    vigorous: float = VIGOROUS
    growing: float = GROWING
    heals_days: int = HEALS_DAYS
    cool_sown_days: int = COOL_SOWN_DAYS
    warm_sown_days: int = WARM_SOWN_DAYS
    spring_from: int = SPRING_FROM_DAY
    spring_until: int = SPRING_UNTIL_DAY
    autumn_from: int = AUTUMN_FROM_DAY
    best_f: float | None = None
    width_f: float | None = None


USUAL = CareRules()
"""The rules as published or practised."""


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


def growth_of_days(
    tmean_f: Array, grass: str, best_f: float | None = None, width_f: float | None = None
) -> Array:
    """Growth potential (0-1) of daily mean temperatures, NaN where one is.

    `best_f` and `width_f` stand in for the grass's own optimum and width. Source:
    "growth-potential".
    """
    best = GROWTH_OPTIMUM_F[known_grass(grass)] if best_f is None else best_f
    gap_f = np.asarray(tmean_f, dtype=np.float64) - best
    if grass == "warm":
        gap_f = np.minimum(gap_f, 0.0)
    width = GROWTH_SPREAD_F[grass] if width_f is None else width_f
    growth: Array = np.exp(-0.5 * (gap_f / width) ** 2)
    return growth


def care_spans(tmean_f: Array, grass: str, rules: CareRules = USUAL) -> CareSpans:
    """The spans of a year that suit coring and overseeding a grass. Source: "care-weeks".

    Cool-season turf is cored from when summer's heat is over, and in spring; it is sown in late
    summer. Warm-season turf is cored and sown from when it grows well until it grows at its best.
    """
    tmean = finite_array("tmean_f", tmean_f)
    if tmean.size != YEAR_DAYS:
        raise ValueError(f"tmean_f must hold {YEAR_DAYS} days, not {tmean.size}.")
    growth = growth_of_days(tmean, grass, rules.best_f, rules.width_f)
    if float(growth.max()) < LEAST_GROWTH:
        return CareSpans((), ())
    hottest = int(tmean.argmax())
    return _cool(growth, hottest, rules) if grass == "cool" else _warm(growth, hottest, rules)


def _cool(growth: Array, hottest: int, rules: CareRules) -> CareSpans:
    vigorous = growth >= rules.vigorous * growth.max()
    autumn = _first(vigorous, max(hottest, rules.autumn_from))
    spring = _spring(growth, vigorous, hottest, rules)
    if autumn is None:
        return CareSpans(spring, ())
    ended = _first(growth < LEAST_GROWTH, autumn)
    if ended is None:
        endless = _span(autumn, min(YEAR_DAYS - 1, autumn + rules.cool_sown_days))
        return CareSpans((*spring, *endless), endless)
    return CareSpans(
        (*spring, *_span(autumn, ended - rules.heals_days)),
        _span(autumn, ended - rules.cool_sown_days),
    )


def _spring(growth: Array, vigorous: Held, hottest: int, rules: CareRules) -> tuple[Span, ...]:
    first = _first(_grows_well(growth, rules), rules.spring_from)
    best = None if first is None else _first(vigorous, first)
    if first is None or best is None or best > hottest:
        return ()
    held_up = _first(~vigorous | (growth < LEAST_GROWTH), best)
    ends = hottest if held_up is None else min(held_up, hottest)
    return _span(first, min(ends - rules.heals_days, rules.spring_until))


def _warm(growth: Array, hottest: int, rules: CareRules) -> CareSpans:
    first = _first(_grows_well(growth, rules), rules.spring_from)
    if first is None or first > hottest:
        return CareSpans((), ())
    best = int(growth.argmax())
    ended = _first(growth < LEAST_GROWTH, hottest)
    cored, sown = (
        best if ended is None else min(best, ended - days)
        for days in (rules.heals_days, rules.warm_sown_days)
    )
    return CareSpans(_span(first, cored), _span(first, sown))


def _grows_well(growth: Array, rules: CareRules) -> Held:
    well: Held = growth >= max(rules.growing * float(growth.max()), LEAST_GROWTH)
    return well


def _first(held: Held, start: int) -> int | None:
    """The first day from `start` on which something holds."""
    found = np.flatnonzero(held[start:])
    return start + int(found[0]) if found.size else None


def _span(first: int, last: int) -> tuple[Span, ...]:
    return (Span(first, last),) if first <= last else ()
