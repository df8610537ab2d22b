"""How a figure is told together with its working: formula, numbers put in, inputs and source."""

from collections.abc import Iterable

from lawnbook.agronomy.sources import SOURCES, cite
from lawnbook.plan.model import Input, Working

OWN = "as entered in this notebook"
"""The source of a figure that the owner typed."""

_BETWEEN = " · "
_CITATIONS = frozenset(source.citation for source in SOURCES.values())


def told(value: float, places: int = 2, unit: str = "") -> str:
    """A number with its unit: "0.41 in", "1,204 gal"."""
    number = f"{value + 0.0:,.{places}f}"
    return f"{number} {unit}" if unit else number


def given(name: str, value: str, origin: str) -> Input:
    """An input that was measured, entered or worked out."""
    return Input(name, value, origin)


def default(name: str, value: str, origin: str) -> Input:
    """An input that is assumed because nothing better is known."""
    return Input(name, value, origin, is_default=True)


def chosen(name: str, value: str, typed: bool, origin: str) -> Input:
    """An input that the owner entered, or else the default from `origin`."""
    return given(name, value, "entered") if typed else default(name, value, origin)


def sources(*keys: str) -> str:
    """The citations of one or more sources; OWN where there is none."""
    return _BETWEEN.join(cite(key) for key in keys) or OWN


def cited(workings: Iterable[Working]) -> tuple[str, ...]:
    """Every citation that the workings rest on, once each, in order of use."""
    parts = (part for working in workings for part in working.source.split(_BETWEEN))
    return tuple(dict.fromkeys(part for part in parts if part in _CITATIONS))
