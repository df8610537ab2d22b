"""The verdict of a check before spreading, in a sentence or two."""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.due import names_told
from lawnbook.plan.feed_rule import Spreadable, n_unit, small_rate
from lawnbook.plan.model import ZoneSpread
from lawnbook.plan.workings import and_joined, told_most, told_most_together
from lawnbook.reading import is_metric
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.numbers import day

LEAST_PRODUCT_LB = 0.01
"""Fewer pounds of product than this are told as nothing."""

FEW = 2
"""So many zones are told one by one; the table beside the verdict has them all."""

NO_SPREAD_LB_PER_1000 = 100.0
"""More product than this on 1,000 sq ft is no feeding any more (common practice)."""


def verdict_of(
    zones: Sequence[ZoneSpread], what: Spreadable, on: date, earliest: date | None
) -> str:
    """Whether it passes; if not, by how much or why, the most that does, and from when on."""
    over = [zone for zone in zones if not zone.within]
    if not over and not what.carries_nitrogen:
        return f"{what.name} carries no nitrogen: no nitrogen rule applies. The label does."
    if not over:
        return f"Within budget on {day(on)}{_up_to(zones)}."
    when = f"It passes from {day(earliest)}." if earliest else "No day within two years passes."
    every = len(over) == len(zones) > FEW
    if all(zone.max_lb < LEAST_PRODUCT_LB for zone in over):
        where = f"any of the {len(zones)} zones" if every else _names(over)
        nothing = f"nothing may go on {where} that day{_because(over)}"
        return f"Not {_within_what(over, what)} on {day(on)}: {nothing}. {when}"
    who = f"all {len(zones)} zones" if every else _names(over)
    return f"Not within budget on {day(on)}: {_too_much(over, who)}; {_most_on(over)}. {when}"


def _up_to(zones: Sequence[ZoneSpread]) -> str:
    """The most for a single zone; not where it is so weak a product that nobody would spread it."""
    (first, *others) = zones
    if others or first.max_lb * 1000 > NO_SPREAD_LB_PER_1000 * first.area_sqft:
        return ""
    return f": up to {told_most(first.max_lb)} {unit_shown('lb')} may go down"


def _within_what(over: Sequence[ZoneSpread], what: Spreadable) -> str:
    """The budget where an amount passes one, the rules where they allow none whatever it is."""
    by_amount = any(zone.over_by_lb_per_1000 > 0 for zone in over)
    return "within budget" if what.carries_nitrogen and by_amount else "within the rules"


def _names(over: Sequence[ZoneSpread]) -> str:
    return names_told([zone.zone for zone in over])


def _because(over: Sequence[ZoneSpread]) -> str:
    """Why nothing may go down, each reason once."""
    reasons = list(dict.fromkeys(why for zone in over for why in zone.why_none))
    return f", because {and_joined(reasons)}" if reasons else ""


def _too_much(over: Sequence[ZoneSpread], who: str) -> str:
    worst = max(zone.over_by_lb_per_1000 for zone in over)
    by = "is over by" if len(over) == 1 else "are over by up to"
    return f"{who} {by} {_over_told(worst)}"


def _most_on(over: Sequence[ZoneSpread]) -> str:
    """The most that passes on each zone; of more than a few, on all of them together."""
    if len(over) > FEW:
        together = told_most_together(zone.max_lb for zone in over)
        return f"at most {together} {unit_shown('lb')} in all may go on them that day"
    told = [
        f"{told_most(zone.max_lb)} {unit_shown('lb')} may go on {zone.zone}"
        if zone.max_lb >= LEAST_PRODUCT_LB
        else f"nothing may go on {zone.zone}"
        for zone in over
    ]
    most = "at most " if over[0].max_lb >= LEAST_PRODUCT_LB else ""
    return f"{most}{and_joined(told)} that day"


def _over_told(lb_per_1000: float) -> str:
    number = small_rate(lb_per_1000)
    return f"{number} {n_unit()}" if is_metric() else f"{number} lb N per 1,000 sq ft"
