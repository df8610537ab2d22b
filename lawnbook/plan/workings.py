"""How a figure is told together with its working: formula, numbers put in, inputs and source."""

import math
from collections.abc import Iterable
from functools import lru_cache

from lawnbook.agronomy.sources import SOURCES, cite
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.plan.water_model import NextRun
from lawnbook.plan.working_model import Input, Working
from lawnbook.reading import tr
from lawnbook.yard import amounts, numbers

OWN = tr("as entered in this notebook")
"""The source of a figure that the owner typed."""

counted, and_joined = numbers.counted, numbers.and_joined

# The amounts in a working are told as everywhere; they are kept under these names here too.
PERCENT = amounts.PERCENT
told, rate_told, told_exactly = amounts.told, amounts.rate_told, amounts.told_exactly
told_small, told_room = amounts.told_small, amounts.told_room
told_not_below_zero = amounts.told_not_below_zero
told_most, told_most_together = amounts.told_most, amounts.told_most_together
most_told_lb = amounts.most_told_lb

LEAST_TOLD_LB = 0.005
"""Less of what is put down on 1,000 sq ft than this is told as 0.00."""

_BETWEEN = " · "
_CITATIONS = frozenset(source.citation for source in SOURCES.values())


def cycle_minutes_told(watering: ZoneWater | MonthWater | NextRun) -> int | None:
    """Whole minutes of one cycle, as a controller is set: rounded up, so that none falls short."""
    each = watering.minutes_per_cycle
    return None if each is None else _whole_minutes(each)


def run_minutes_told(watering: ZoneWater | MonthWater | NextRun) -> int | None:
    """Minutes of a whole run, as told: the cycles times what is told of one, so that both agree."""
    each = cycle_minutes_told(watering)
    if watering.run_minutes is None:
        return None
    if each is None or watering.cycles is None:
        return _whole_minutes(watering.run_minutes)
    return watering.cycles * each


def _whole_minutes(value: float) -> int:
    return math.ceil(value - 1e-6)


def given(name: str, value: str, origin: str) -> Input:
    """An input that was measured, entered or worked out."""
    return Input(name, value, origin)


def default(name: str, value: str, origin: str) -> Input:
    """An input that is assumed because nothing better is known."""
    return Input(name, value, origin, is_default=True)


def chosen(name: str, value: str, typed: bool, origin: str, where: str = "zone") -> Input:
    """An input that the owner entered in the "zone" or "yard", or else the default `origin`."""
    if not typed:
        return default(name, value, origin)
    return given(name, value, tr("typed in the zone") if where == "zone" else tr("under Yard"))


# A few dozen sets of keys, asked for once a zone and spot.
@lru_cache(maxsize=512)
def sources(*keys: str) -> str:
    """The citations of one or more sources; OWN where there is none."""
    return _BETWEEN.join(cite(key) for key in keys) or OWN


def owned(name: str) -> str:
    """The source of what the owner entered under a name of their own, such as a local rule."""
    return f"{name.strip()}, {OWN}" if name.strip() else OWN


def cited(workings: Iterable[Working]) -> tuple[str, ...]:
    """Every citation that the workings rest on, once each, in order of use."""
    parts = (part for working in workings for part in working.source.split(_BETWEEN))
    return tuple(dict.fromkeys(part for part in parts if part in _CITATIONS))
