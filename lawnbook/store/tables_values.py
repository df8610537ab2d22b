"""A cell of a table as the value of its field; how a column writes its figures and days.

What cannot be read raises ValueError with the whole sentence, field and mend.
"""

import math
import re
from collections.abc import Iterable
from datetime import date
from types import UnionType
from typing import Any, Union, get_args, get_origin

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.cells import THOUSANDS, Mark, day_of, figure, month_first
from lawnbook.store.tables_columns import Column
from lawnbook.store.tables_files import Raw, Unread, is_blank
from lawnbook.store.tables_form import is_listed, number_parts, split
from lawnbook.yard.codec import plain_value
from lawnbook.yard.fields import choices_of, is_number_by_zone
from lawnbook.yard.limits import amount
from lawnbook.yard.numbers import MONTHS

ROUNDED_DIGITS = 9
"""A figure of so many digits or more may be a longer one that a spreadsheet has rounded."""

KEPT = 2e-15
"""A workbook keeps 15 to 16 digits of a figure: what is as near as that is the same."""

_SHOWN = 40
_FLAGS = {
    **dict.fromkeys(("yes", "true", "y", "1"), True),
    **dict.fromkeys(("no", "false", "n", "0"), False),
}
_SIGN = re.compile(r"[-+\u2212]?")
_NAMED_DAY = re.compile(r"(?:([0-9]{1,2})[- ]([A-Za-z]{3})|([A-Za-z]{3})[- ]([0-9]{1,2}))\.?")
_BARE_DAY = re.compile(r"([0-9]{1,2})-([0-9]{1,2})")


@dataclass(frozen=True, slots=True)
class Habit:
    """How a column writes: its decimal mark (None where that is open), and month or day first."""

    mark: Mark | None = "."
    is_month_first: bool | None = None


def habit_of(column: Column, cells: Iterable[Raw]) -> Habit:
    """How the cells of a column are written, by all of them together."""
    texts = [each.strip() for each in cells if isinstance(each, str)]
    if column.is_day:
        return Habit(is_month_first=month_first(texts))
    if column.is_number:
        return Habit(mark=_mark(texts))
    if is_listed(column.kind) or is_number_by_zone(column.info.type) or _is_union(column.kind):
        return Habit(mark=_mark([part for each in texts for part in number_parts(each)]))
    return Habit()


def value_of(raw: Raw, column: Column, habit: Habit) -> Any:
    """The value of a cell of the column's own; None where the cell is empty."""
    if isinstance(raw, Unread):
        raise ValueError(raw.sentence)
    is_words = column.kind is str and column.info.rule.kind == "plain"
    if raw is None or raw == "" or (is_blank(raw) and not is_words):
        return None
    return _value(column.kind, raw, column, habit)


def figure_in(text: str, label: str, habit: Habit) -> float:
    """A figure within a cell of several."""
    return figure(text, label, habit.mark, signed=True)


def is_same(held: Any, found: Any) -> bool:
    """Whether a figure is the held one, or that one rounded to the digits that it shows.

    A spreadsheet that saves CSV writes some ten digits, those that it shows.
    """
    if held == found:
        return True
    if not isinstance(held, float) or not isinstance(found, float):
        return False
    if math.isclose(held, found, rel_tol=KEPT):
        return True
    digits = len(re.sub(r"e.*$|[^0-9]", "", repr(plain_value(abs(found)))).strip("0"))
    return digits >= ROUNDED_DIGITS and float(f"{held:.{digits}g}") == found


def _mark(texts: Iterable[str]) -> Mark | None:
    """The decimal mark of a column; None where its commas may be either mark."""
    figures = [_SIGN.sub("", each, count=1).strip() for each in texts]
    commas = [each for each in figures if "," in each]
    if not commas:
        return "."
    votes = {_vote(each) for each in figures}
    if "," in votes:
        # Points beside it are told one by one.
        return "," if "." not in votes else "."
    return "." if "." in votes else None


def _vote(text: str) -> Mark | None:
    """Which mark a figure shows for certain."""
    comma, point = text.rfind(","), text.rfind(".")
    if comma >= 0 and point >= 0:
        return "," if comma > point else "."
    if comma >= 0:
        return None if THOUSANDS["."].fullmatch(text) else ","
    return "." if point >= 0 and not THOUSANDS[","].fullmatch(text) else None


def _value(kind: Any, raw: str | float | date, column: Column, habit: Habit) -> Any:
    label = column.label

    def part(inner: Any, text: str) -> Any:
        return _value(inner, text, column, habit)

    if _is_union(kind):
        return _word_or_list(kind, raw, column, habit)
    if is_listed(kind):
        return split(kind, _as_text(raw, label), label, part)
    if choices_of(kind):
        return _choice(choices_of(kind), raw, label)
    if kind is str:
        return _words(raw, column)
    if kind is bool:
        return _flag(raw, label)
    if kind is date:
        return _day(raw, label, habit)
    number = _number(raw, label, habit)
    return _whole(number, label) if kind is int else number


def _is_union(kind: Any) -> bool:
    return get_origin(kind) in (Union, UnionType)


def _word_or_list(kind: Any, raw: str | float | date, column: Column, habit: Habit) -> Any:
    """The only union of two: a word, or a list of numbers."""
    text = _as_text(raw, column.label).strip()
    if not any(map(str.isdigit, text)):
        return text.casefold()
    listed = next(each for each in get_args(kind) if is_listed(each))
    return _value(listed, text, column, habit)


def _number(raw: str | float | date, label: str, habit: Habit) -> float:
    if isinstance(raw, str):
        return figure_in(raw.strip(), label, habit)
    if isinstance(raw, date):
        raise ValueError(
            tr(
                "{label} is the day {raw} here; enter it as a number.",
                label=label,
                raw=raw.isoformat(),
            )
        )
    if isinstance(raw, bool):
        raise ValueError(tr("{label} is yes or no here; enter it as a number.", label=label))
    return float(raw)


def _whole(number: float, label: str) -> int:
    if not number.is_integer() or abs(number) > 2**53:
        raise ValueError(
            tr(
                "{label} of {number} is no whole number; enter one.",
                label=label,
                number=amount(number),
            )
        )
    return int(number)


def _flag(raw: str | float | date, label: str) -> bool:
    told = str(raw).strip().casefold() if not isinstance(raw, float) else f"{raw:g}"
    if told not in _FLAGS:
        raise ValueError(
            tr('{label} "{word}" is not known; write yes or no.', label=label, word=told[:_SHOWN])
        )
    return _FLAGS[told]


def _day(raw: str | float | date, label: str, habit: Habit) -> date:
    if isinstance(raw, date):
        return raw
    if isinstance(raw, str):
        return day_of(raw.strip(), habit.is_month_first, label)
    raise ValueError(
        tr("{label} is the number {raw:g} here; write the day as 2026-11-16.", label=label, raw=raw)
    )


def _choice(choices: tuple[str, ...], raw: str | float | date, label: str) -> str:
    told = str(raw).strip()
    found = next((each for each in choices if each.casefold() == told.casefold()), "")
    if not found:
        raise ValueError(
            tr(
                '{label} "{told}" is not known; write {choices}.',
                label=label,
                told=told[:_SHOWN],
                choices=_either(choices),
            )
        )
    return found


def _either(choices: tuple[str, ...]) -> str:
    return f"{', '.join(choices[:-1])} or {choices[-1]}" if len(choices) > 1 else choices[0]


def _words(raw: str | float | date, column: Column) -> str:
    if column.info.rule.kind == "month_day":
        return _month_day(raw)
    if isinstance(raw, str):
        return raw if column.info.rule.kind == "plain" else raw.strip()
    return _as_text(raw, column.label)


def _month_day(raw: str | float | date) -> str:
    """A day of the year, also where a spreadsheet has made "15-Apr" or a date of it."""
    if isinstance(raw, date):
        return f"{raw:%m-%d}"
    told = str(raw).strip()
    if bare := _BARE_DAY.fullmatch(told):
        return f"{int(bare[1]):02d}-{int(bare[2]):02d}"
    named = _NAMED_DAY.fullmatch(told)
    if named is None:
        return told
    day, month = (named[1], named[2]) if named[1] else (named[4], named[3])
    at = MONTHS.index(month.title()) + 1 if month.title() in MONTHS else 0
    return f"{at:02d}-{int(day):02d}" if at else told


def _as_text(raw: str | float | date, label: str) -> str:
    if isinstance(raw, str):
        return raw
    if isinstance(raw, date):
        told = tr("{label} is the day {raw} here", label=label, raw=raw.isoformat())
        raise ValueError(tr("{told}; format the cell as text, and write it again.", told=told))
    return ("yes" if raw else "no") if isinstance(raw, bool) else repr(plain_value(raw))
