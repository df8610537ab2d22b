"""Formulas with the numbers put in, and inputs that carry the number the formula takes.

A formula is written once, with the symbols of its inputs in braces: "60 × {depth} ÷ {rate}".
From it follow the line with the numbers put in and what the figure would be from other numbers.
"""

import re
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from lawnbook.plan.working_model import Anew, Input, Quantity, Reckoning, Step
from lawnbook.plan.workings import given, told, told_exactly
from lawnbook.reading import localised, reading, tr
from lawnbook.yard.numbers import day

_PLACE = re.compile(r"\{(\w+)(?::(\d+))?\}|\d+(?:,\d{3})*(?:\.\d+)?")
_LEAST_PLACES = 2
_ONE_DAY = timedelta(days=1)


def numbered(told: Input, symbol: str, number: float, unit: str = "") -> Input:
    """An input with the number (of the US unit) that stands for `symbol` in the formula."""
    return _with(told, Quantity(symbol, number, unit))


def counted_in(told: Input, symbol: str, number: float, unit: str = "") -> Input:
    """An input that is a count, so that one more or one fewer is the least it can change."""
    return _with(told, Quantity(symbol, number, unit, "counted"))


def class_in(
    told: Input, symbol: str, number: float, beside: tuple[tuple[str, float], ...]
) -> Input:
    """An input that is a class, such as a texture: its number, and its neighbours by name."""
    return _with(told, Quantity(symbol, number, "", "class", beside))


def day_in(told: Input, symbol: str, on: date) -> Input:
    """An input that is a day, `date.toordinal` in the formula: the days beside it are tried."""
    beside = ((each, each.toordinal()) for each in (on + _ONE_DAY, on - _ONE_DAY))
    return class_in(told, symbol, on.toordinal(), tuple((day(at), float(n)) for at, n in beside))


def seen_from(on: date) -> Input:
    """The day of the plan, "on" in the formula, before which nothing is due."""
    return day_in(given(tr("Day of the plan"), day(on), tr("as shown")), "on", on)


def together(told: Input, symbol: str) -> Input:
    """An input that stands for many numbers, which are changed together, by a factor."""
    return _with(told, Quantity(symbol, 1.0, "", "factor"))


def readings_in(thatch_in: Sequence[float], origin: str) -> tuple[Input, ...]:
    """The readings of a plug in inches, "r1" and on in the formula."""
    numbers = enumerate(thatch_in, start=1)
    named = ((n, tr("Reading {number}", number=n), inches) for n, inches in numbers)
    return tuple(
        numbered(given(name, told(inches, 3, "in"), origin), f"r{n}", inches, "in")
        for n, name, inches in named
    )


def _with(told: Input, quantity: Quantity) -> Input:
    """The input with its number; written out, as a plan makes hundreds."""
    return Input(told.name, told.value, told.origin, told.is_default, quantity)


def put_in(formula: str, inputs: Iterable[Input]) -> str:
    """A formula with the numbers of its inputs in place of their symbols.

    "{area:0}" asks for no decimals at least; two are usual. KeyError for a symbol without number.
    """
    numbers = {q.symbol: q.number for each in inputs if (q := each.quantity) is not None}

    def place(match: re.Match[str]) -> str:
        symbol, places = match.groups()
        if symbol is None:
            return localised(match.group())
        told = told_exactly(numbers[symbol], _LEAST_PLACES if places is None else int(places))
        return f"({told})" if numbers[symbol] < 0 and match.start() > 0 else told

    filled = _PLACE.sub(place, formula)
    # Where a comma parts decimals, it cannot part the numbers of min() and max() as well.
    return filled.replace(", ", "; ") if reading().point == "," else filled


def reckons(formula: str, unit: str = "", places: int = 2) -> Reckoning:
    """How a figure of so many decimals in a US unit is reckoned anew by its formula."""
    return Reckoning(formula, unit, places)


def steps(formula: str, unit: str, step: Step, least: float | None = None) -> Reckoning:
    """The same of a figure that goes in whole numbers, rounded down or up."""
    return Reckoning(formula, unit, 0, step, least)


def by_function(anew: Anew, unit: str, places: int = 2, *, step: Step = "none") -> Reckoning:
    """The same of a figure that a longer reckoning gave: that function, of its inputs' numbers."""
    return Reckoning("", unit, places, step, anew=anew)
