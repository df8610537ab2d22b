"""How a figure is told together with its working: formula, numbers put in, inputs and source."""

import math
from collections.abc import Iterable
from decimal import Decimal
from functools import lru_cache

from lawnbook.agronomy.sources import SOURCES, cite
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.plan.water_model import NextRun
from lawnbook.plan.working_model import Input, Working
from lawnbook.yard import numbers

OWN = "as entered in this notebook"
"""The source of a figure that the owner typed."""

PERCENT = "\u00a0%"
"""The sign of percent as it follows a number, which no line break may part from it."""

counted, and_joined = numbers.counted, numbers.and_joined

LEAST_TOLD_LB = 0.005
"""Less of what is put down on 1,000 sq ft than this is told as 0.00."""

_BETWEEN = " · "
_DIGITS = 5
_MOST_PLACES = 12
_CITATIONS = frozenset(source.citation for source in SOURCES.values())


def told(value: float, places: int = 2, unit: str = "") -> str:
    """A number with its unit: "0.41 in", "1,204 gal". What rounds to nothing has no sign."""
    number = f"{round(value, places) + 0.0:,.{places}f}"
    if not unit:
        return number
    return f"{number}{PERCENT}" if unit == "%" else f"{number} {unit}".rstrip()


def rate_told(lb_per_1000: float) -> str:
    """A rate of what is put down: "0.90 lb per 1,000 sq ft"."""
    return told(lb_per_1000, 2, "lb per 1,000 sq ft")


def told_exactly(value: float, places: int = 2) -> str:
    """A number as it is put into a formula: five digits that count, `places` decimals at least.

    So many that the formula, worked out by hand, gives the figure that is shown.
    """
    size = math.floor(math.log10(abs(value))) if value else 0
    digits = min(_MOST_PLACES, _DIGITS - 1 - size)
    whole, _, decimals = told(value, max(places, digits)).partition(".")
    kept = decimals.rstrip("0").ljust(places, "0")
    return f"{whole}.{kept}" if kept else whole


def told_small(value: float, places: int = 2, unit: str = "") -> str:
    """Like `told`, but an amount that would round to nothing keeps its first digit: "0.003"."""
    if value and not round(value, places):
        places = _first_place(value, places)
    return told(value, places, unit)


def told_room(value: float, places: int = 2) -> str:
    """Like `told_small`, but rounded down: the most that fits would not fit rounded up."""
    if 0 < value < 10.0**-places:
        places = _first_place(value, places)
    return told(math.floor(value * 10**places + 1e-7) / 10**places, places)


def _first_place(value: float, places: int) -> int:
    """The decimal place of an amount's first digit; `places` where that is next to nothing."""
    first = -math.floor(math.log10(abs(value)))
    return first if first <= _MOST_PLACES else places


def told_not_below_zero(value: float, less: float) -> str:
    """A difference put into a formula, with the floor of zero where it bites."""
    difference = f"{told_exactly(value)} − {told_exactly(less)}"
    return f"max(0, {difference})" if less > value else difference


def told_most(pounds: float) -> str:
    """The most pounds of a product: one decimal, two under a pound, and rounded down.

    Rounded up, the most that fits would no longer fit.
    """
    return f"{_most(pounds):,}"


def told_most_together(pounds: Iterable[float]) -> str:
    """The sum of several amounts as each is told by `told_most`, so that the parts add up to it."""
    return f"{sum(map(_most, pounds), Decimal(0)):,}"


def most_told_lb(pounds: float) -> float:
    """The most pounds of a product, just as `told_most` tells them."""
    return float(_most(pounds))


def _most(pounds: float) -> Decimal:
    places = 2 if pounds < 1 else 1
    return Decimal(math.floor(pounds * 10**places + 1e-6)).scaleb(-places)


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


def chosen(name: str, value: str, typed: bool, origin: str) -> Input:
    """An input that the owner entered, or else the default from `origin`."""
    return given(name, value, "entered") if typed else default(name, value, origin)


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
