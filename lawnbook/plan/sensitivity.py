"""What would change a figure most: each input ten percent up and down, the figure reckoned anew.

It is the working's own formula, or the function that gave the figure, with one input at a time
changed and all others as they are. A count changes by one, a class to its neighbours. Made only
when a working is looked at.
"""

import math
from collections.abc import Iterator, Mapping
from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.plan.arithmetic import symbols_of, worked_out
from lawnbook.plan.working_model import CLOCK, DATE, DAY, YEAR, Input, Quantity, Reckoning, Working
from lawnbook.reading import tr
from lawnbook.yard.amounts import most_told_lb, told
from lawnbook.yard.numbers import counted, day

TENTH = 0.1
"""The share by which each measured input is changed, up and down."""
MINUTES_OF_A_DAY = 24 * 60
_SAME = 1e-12


@dataclass(frozen=True, slots=True)
class Changed:
    """An input changed: how it then stands in words, and the figure raw and as it is told.

    `share` is the change of the raw figure as a share of what it is, None where that is zero.
    """

    input_told: str
    raw: float
    figure: float
    figure_told: str
    change: float
    share: float | None


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """What one input does to a figure: the changes up and down, or to each neighbour."""

    name: str
    kind: str
    base: float
    changes: tuple[Changed, ...]

    @property
    def size(self) -> float:
        """The greatest of its changes of the figure, without a sign."""
        return max((abs(each.change) for each in self.changes), default=0.0)


def sensitivities_of(working: Working) -> tuple[Sensitivity, ...]:
    """What each input with a number does to the figure, the greatest change first.

    Empty where the figure cannot be reckoned anew. An input that changes nothing is there, last.
    """
    reckoning = working.reckoning
    if reckoning is None:
        return ()
    numbers = numbers_of(working)
    base = reckoned(reckoning, numbers)
    if not math.isfinite(base):
        return ()
    listed = [
        Sensitivity(
            each.name,
            quantity.kind,
            base,
            tuple(_changes(reckoning, numbers, base, quantity)),
        )
        for each, quantity in _quantities(working)
        if reckoning.anew is not None or quantity.symbol in symbols_of(reckoning.expression)
    ]
    return tuple(sorted(listed, key=lambda each: -each.size))


def numbers_of(working: Working) -> dict[str, float]:
    """The numbers of a working's inputs by their symbols."""
    return {quantity.symbol: quantity.number for _, quantity in _quantities(working)}


def reckoned(reckoning: Reckoning, numbers: Mapping[str, float]) -> float:
    """The figure from these numbers, before it is made whole; NaN where there is none."""
    if reckoning.anew is not None:
        try:
            return reckoning.anew(numbers)
        except (ZeroDivisionError, OverflowError):
            return math.nan
    return worked_out(reckoning.expression, numbers)


def stepped(reckoning: Reckoning, raw: float) -> float:
    """A figure as it is told: whole where it goes in steps, and at least its least."""
    slack = 1e-9
    if reckoning.step == "most" and math.isfinite(raw):
        raw = most_told_lb(raw)
    elif reckoning.step != "none" and math.isfinite(raw):
        raw = float(math.floor(raw + slack) if reckoning.step == "down" else math.ceil(raw - slack))
    return raw if reckoning.least is None else max(raw, reckoning.least)


def figure_told(reckoning: Reckoning, value: float) -> str:
    """A figure in the units of its reckoning, in words."""
    if not math.isfinite(value):
        return tr("no figure")
    if reckoning.unit == DATE:
        return day(date.fromordinal(round(value)))
    if reckoning.unit == CLOCK:
        hours, minutes = divmod(round(value) % MINUTES_OF_A_DAY, 60)
        return f"{hours:02d}:{minutes:02d}"
    if reckoning.unit == DAY and float(value).is_integer():
        return counted(int(value), "day")
    if reckoning.step == "most":
        return told(value, 2 if value < 1 else 1, reckoning.unit)
    return told(value, reckoning.places, reckoning.unit)


def _quantities(working: Working) -> Iterator[tuple[Input, Quantity]]:
    seen: set[str] = set()
    for each in working.inputs:
        if each.quantity is not None and each.quantity.symbol not in seen:
            seen.add(each.quantity.symbol)
            yield each, each.quantity


def _changes(
    reckoning: Reckoning, numbers: Mapping[str, float], base: float, quantity: Quantity
) -> Iterator[Changed]:
    for name, number in _others(quantity):
        raw = reckoned(reckoning, {**numbers, quantity.symbol: number})
        if not math.isfinite(raw):
            continue
        change = 0.0 if math.isclose(raw, base, rel_tol=_SAME, abs_tol=_SAME) else raw - base
        share = None if reckoning.unit in (DATE, CLOCK) or not base else change / base
        figure = stepped(reckoning, raw)
        yield Changed(name, raw, figure, figure_told(reckoning, figure), change, share)


def _others(quantity: Quantity) -> Iterator[tuple[str, float]]:
    """The numbers that an input is changed to, each with how it is told."""
    number = quantity.number
    if quantity.kind == "class":
        yield from quantity.beside
    elif quantity.kind == "counted":
        more, fewer = _one_told(quantity.unit)
        yield more, number + 1
        if number > 1:
            yield fewer, number - 1
    elif quantity.kind == "factor":
        yield tr("10\u00a0% more"), number * (1 + TENTH)
        yield tr("10\u00a0% less"), number * (1 - TENTH)
    else:
        for sign in (1, -1):
            other = number * (1 + sign * TENTH)
            yield told(other, _places(other), quantity.unit), other


def _one_told(unit: str) -> tuple[str, str]:
    """One more and one fewer of what is counted."""
    if unit == DAY:
        return tr("one day more"), tr("one day less")
    if unit == YEAR:
        return tr("one year more"), tr("one year less")
    return tr("one more"), tr("one fewer")


def _places(number: float) -> int:
    """So many decimals that three digits count."""
    size = math.floor(math.log10(abs(number))) if number else 0
    return min(6, max(0, 2 - size))
