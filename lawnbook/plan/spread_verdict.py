"""The verdict of a check before spreading, in a sentence or two."""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.due import names_told
from lawnbook.plan.feed_rule import Spreadable, n_unit, small_rate
from lawnbook.plan.model import ZoneSpread
from lawnbook.plan.workings import and_joined, told_most, told_most_together
from lawnbook.reading import is_metric, tr
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
        return tr(
            "{name} carries no nitrogen: no nitrogen rule applies. The label does.", name=what.name
        )
    if not over:
        return tr("Within budget on {on}{up_to}.", on=day(on), up_to=_up_to(zones))
    when = (
        tr("It passes from {earliest}.", earliest=day(earliest))
        if earliest
        else tr("No day within two years passes.")
    )
    every = len(over) == len(zones) > FEW
    if all(zone.max_lb < LEAST_PRODUCT_LB for zone in over):
        where = tr("any of the {count} zones", count=len(zones)) if every else _names(over)
        nothing = tr(
            "nothing may go on {where} that day{because}", where=where, because=_because(over)
        )
        return tr(
            "Not {within_what} on {on}: {nothing}. {when}",
            within_what=_within_what(over, what),
            on=day(on),
            nothing=nothing,
            when=when,
        )
    who = tr("all {count} zones", count=len(zones)) if every else _names(over)
    return tr(
        "Not within budget on {on}: {too_much}; {most_on}. {when}",
        on=day(on),
        too_much=_too_much(over, who),
        most_on=_most_on(over),
        when=when,
    )


def _up_to(zones: Sequence[ZoneSpread]) -> str:
    """The most for a single zone; not where it is so weak a product that nobody would spread it."""
    (first, *others) = zones
    if others or first.max_lb * 1000 > NO_SPREAD_LB_PER_1000 * first.area_sqft:
        return ""
    return tr(
        ": up to {max_lb} {unit_shown} may go down",
        max_lb=told_most(first.max_lb),
        unit_shown=unit_shown("lb"),
    )


def _within_what(over: Sequence[ZoneSpread], what: Spreadable) -> str:
    """The budget where an amount passes one, the rules where they allow none whatever it is."""
    by_amount = any(zone.over_by_lb_per_1000 > 0 for zone in over)
    return tr("within budget") if what.carries_nitrogen and by_amount else tr("within the rules")


def _names(over: Sequence[ZoneSpread]) -> str:
    return names_told([zone.zone for zone in over])


def _because(over: Sequence[ZoneSpread]) -> str:
    """Why nothing may go down, each reason once."""
    reasons = list(dict.fromkeys(why for zone in over for why in zone.why_none))
    return tr(", because {reasons}", reasons=and_joined(reasons)) if reasons else ""


def _too_much(over: Sequence[ZoneSpread], who: str) -> str:
    worst = max(zone.over_by_lb_per_1000 for zone in over)
    by = tr("is over by") if len(over) == 1 else tr("are over by up to")
    return f"{who} {by} {_over_told(worst)}"


def _most_on(over: Sequence[ZoneSpread]) -> str:
    """The most that passes on each zone; of more than a few, on all of them together."""
    if len(over) > FEW:
        together = told_most_together(zone.max_lb for zone in over)
        return tr(
            "at most {together} {unit_shown} in all may go on them that day",
            together=together,
            unit_shown=unit_shown("lb"),
        )
    told = [
        tr(
            "{max_lb} {unit_shown} may go on {zone}",
            max_lb=told_most(zone.max_lb),
            unit_shown=unit_shown("lb"),
            zone=zone.zone,
        )
        if zone.max_lb >= LEAST_PRODUCT_LB
        else tr("nothing may go on {zone}", zone=zone.zone)
        for zone in over
    ]
    most = tr("at most ") if over[0].max_lb >= LEAST_PRODUCT_LB else ""
    return tr("{most}{told} that day", most=most, told=and_joined(told))


def _over_told(lb_per_1000: float) -> str:
    number = small_rate(lb_per_1000)
    unit = n_unit() if is_metric() else tr("lb N per 1,000 sq ft")
    return f"{number} {unit}"
