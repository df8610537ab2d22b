"""How a figure is told: the working, the inputs that went into it, and how to reckon it anew."""

from collections.abc import Callable, Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Literal

from lawnbook.frozen import dataclass

QuantityKind = Literal["measured", "counted", "class", "factor"]
Step = Literal["none", "down", "up", "most"]
Anew = Callable[[Mapping[str, float]], float]
"""A figure reckoned anew from the numbers of its inputs, by their symbols."""

KEPT_OUT: Mapping[str, bool] = MappingProxyType({"kept_out": True})
"""Marks a field that the plan's JSON does not have."""

DAY = "day"
"""The unit of whole days: "1 day", "3 days"."""
YEAR = "year"
"""The unit of whole years that are counted."""
DATE = "date"
"""The unit of a figure that is a day, held as `date.toordinal` gives it."""
CLOCK = "clock"
"""The unit of a figure that is a time of the day, held as minutes from midnight."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """The number of an input as the formula takes it, in US units, under its `symbol` there.

    What is "counted" changes by one (of a `DAY`, of a `YEAR`, or of things), and a "class" to its
    neighbours: `beside` holds their names and numbers. A "factor" is 1 and stands for many numbers
    that are changed together.
    """

    symbol: str
    number: float
    unit: str = ""
    kind: QuantityKind = "measured"
    beside: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Input:
    """One number that went into a figure, as it is, and where it came from."""

    name: str
    value: str
    origin: str
    is_default: bool = False
    quantity: Quantity | None = field(default=None, metadata=KEPT_OUT)


@dataclass(frozen=True, slots=True)
class Reckoning:
    """How a figure is reckoned anew from other numbers.

    `expression` is the formula with the symbols of its inputs, "60 × {depth} ÷ {rate}"; `anew`,
    where the figure is no such formula, is the function that gave it. The outcome is in the US
    `unit`, told with so many `places`, brought to whole numbers by `step`, at least `least`; the
    step "most" is that of pounds that must not be rounded up. `note` says more of the outcome.
    """

    expression: str
    unit: str = ""
    places: int = 2
    step: Step = "none"
    least: float | None = None
    note: str = ""
    anew: Anew | None = field(default=None, compare=False, repr=False)
    si_unit: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """How a figure came about: formula, the same with the numbers put in, inputs, source.

    `also` is how the same figure is told elsewhere: 45.2 min, set on a timer as "2 × 23 min".
    """

    figure: str
    label: str
    value: str
    formula: str
    filled: str
    inputs: tuple[Input, ...]
    source: str
    reckoning: Reckoning | None = field(default=None, metadata=KEPT_OUT)
    also: tuple[str, ...] = field(default=(), metadata=KEPT_OUT)
