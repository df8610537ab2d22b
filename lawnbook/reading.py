"""How the owner reads: the language, the units, and the signs of numbers and dates.

One `Reading` for the process, as there is one reader. It changes words on screen and paper only:
what is stored, reckoned or written as JSON is the same in every reading. Words go through `tr`:

    tr("{count} zones, {area} of grass", count=3, area=told(1240, 0, "sq ft"))

The text is looked up whole, so a translator may put the values where the language wants them;
where no translation is loaded it stands as written. Amounts come as told by `yard.amounts`.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import field, replace
from string import Formatter
from types import MappingProxyType
from typing import Any, Literal

from lawnbook.frozen import dataclass

Units = Literal["us", "metric"]
ENGLISH = "en"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """How everything is read.

    `units` are those amounts are told in; `language` names the words of `words`, a dictionary of
    the English texts, which is empty for English itself; `point` parts decimals and `group`
    thousands; `month_first` writes "Jun 15, 2026" in place of "15 Jun 2026".
    """

    units: Units = "us"
    language: str = ENGLISH
    words: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    point: str = "."
    group: str = ","
    month_first: bool = False


class _Current:
    """The reading in use."""

    reading = Reading()


class _Local(Formatter):
    """Puts values into a text, decimals and thousands parted as the reader does."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """A value in its place; a number with a format is written as the reader writes numbers."""
        told = format(value, format_spec)
        return localised(told) if format_spec and isinstance(value, int | float) else told


_LOCAL = _Local()
_HERE: ContextVar[Reading | None] = ContextVar("reading held by this thread", default=None)


def reading() -> Reading:
    """The reading in use now."""
    return _HERE.get() or _Current.reading


def read_as(wanted: Reading) -> None:
    """Read everything so from now on; what is already told stays as it was told."""
    _Current.reading = wanted


def read_in(units: Units) -> bool:
    """Tell amounts in these units from now on; whether that is a change."""
    held = _Current.reading
    if held.units == units:
        return False
    _Current.reading = replace(held, units=units)
    return True


@contextmanager
def reading_as(wanted: Reading) -> Iterator[None]:
    """Read everything so for a while."""
    held = _Current.reading
    _Current.reading = wanted
    try:
        yield
    finally:
        _Current.reading = held


@contextmanager
def reading_here(wanted: Reading) -> Iterator[None]:
    """Read everything so for a while in this thread alone: others go on as they do.

    What is begun in one reading is so told to its end, whatever the owner chooses meanwhile.
    """
    token = _HERE.set(wanted)
    try:
        yield
    finally:
        _HERE.reset(token)


def is_metric() -> bool:
    """Whether amounts are told in metric units."""
    return reading().units == "metric"


def tr(text: str, /, **values: object) -> str:
    """A text in the reader's language, its `{names}` filled with the values.

    Without values the text is taken as it is, braces and all. KeyError where a name has none.
    """
    held = reading()
    found = held.words.get(text, text)
    if not values:
        return found
    if held.point == ".":
        return found.format(**values)
    return _LOCAL.vformat(found, (), values)


def localised(number: str) -> str:
    """A number written as "1,204.5", with the reader's signs."""
    held = reading()
    if held.point == "." and held.group == ",":
        return number
    return number.translate({ord(","): held.group, ord("."): held.point})
