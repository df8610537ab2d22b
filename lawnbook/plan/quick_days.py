"""Days as people name them in a line: yesterday, Friday, 3 days ago, 3 May, 2026-05-03, 5/3."""

import re
from calendar import monthrange
from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.frozen import dataclass
from lawnbook.plan.quick_text import Line
from lawnbook.plan.quick_tongue import (
    AGO_WORDS,
    BACK_WORDS,
    COUNT_WORDS,
    DAYS_WORDS,
    LAST_WORDS,
    MONTH_WORDS,
    OF_WORDS,
    WEEKDAY_WORDS,
    WEEKS_WORDS,
    any_of,
    first_of,
    number_of,
    whole,
)
from lawnbook.reading import tr
from lawnbook.yard.numbers import and_joined, day, month_name

_TH = r"(?:\.?[ºª°]|st|nd|rd|th|ro|er)?"
_NUMBER = rf"(?<![\w.,/−-])(\d{{1,2}}){_TH}"
_ISO = r"(?<![\w.,/−-])(\d{4})-(\d{1,2})-(\d{1,2})(?![\w/-])"
_SLASHED = r"(?<![\w.,/−-])(\d{1,2})/(\d{1,2})(?:/(\d{4}|\d{2}))?(?![\w/]|[.,]\d)"
NEVER = (date.max, date.min)
"""The span of a day that there is not."""
_LONGEST_AGO_DAYS = 3700
_LEAP_SEARCH_YEARS = 9


@dataclass(frozen=True, slots=True)
class NamedDay:
    """A day that was named, or None with what is amiss; `instead` are plain ways to write it.

    `written` is what stood in the line.
    """

    on: date | None
    written: str
    fault: str = ""
    instead: tuple[str, ...] = ()


def take_days(line: Line, today: date) -> list[NamedDay]:
    """The days named by words, months or in ISO form, taken out of a line."""
    return [*_relative(line, today), *_by_month(line, today)]


def take_slashed(line: Line, today: date) -> list[NamedDay]:
    """The days written with slashes; to be asked for once all fractions are taken out."""
    return [_slashed(each, today) for each in line.take(_SLASHED)]


def take_spans(line: Line) -> list[tuple[date, date]]:
    """First and last day of each day or month that is named with its year, taken out of a line."""
    spans: list[tuple[date, date]] = []
    for pattern, (year, month, number) in _dated():
        for found in line.take(pattern):
            of_month = found[month]
            numbered = int(of_month) if of_month.isdigit() else number_of(of_month, MONTH_WORDS) + 1
            spans.append(_span(int(found[year]), numbered, int(found[number]) if number else 0))
    return spans


def _span(year: int, month: int, number: int) -> tuple[date, date]:
    """A day, or with the number 0 its whole month."""
    try:
        first = date(year, month, number or 1)
        return first, first if number else date(year, month, monthrange(year, month)[1])
    except ValueError:
        return NEVER


def _month() -> str:
    return rf"({any_of(*MONTH_WORDS)})"


def _of() -> str:
    return rf"(?:{any_of(OF_WORDS)}\s+)?"


def _day_month(year: str) -> str:
    return rf"{_NUMBER}\s+{_of()}{_month()}\b\.?{year}"


def _month_day(year: str) -> str:
    return rf"(?<!\w){_month()}\.?\s+(\d{{1,2}}){_TH}(?![\w/]|\.\d){year}"


def _dated() -> Iterator[tuple[str, tuple[int, int, int]]]:
    """Days and months with their year, and where a pattern holds year, month and day (0: none)."""
    year = rf",?\s+{_of()}(\d{{4}})(?![\w./])"
    yield _ISO, (1, 2, 3)
    yield _day_month(year), (3, 2, 1)
    yield rf"(?<!\w){_month()}\.?\s+(\d{{1,2}}){_TH}\.?{year}", (3, 1, 2)
    yield rf"(?<!\w){_month()}\b\.?{year}", (2, 1, 0)


def _ago() -> tuple[str, ...]:
    """Days or weeks that lie back, in the order of English and of the owner's language."""
    count = rf"(?P<count>\d{{1,4}}|{any_of(*COUNT_WORDS.values())})"
    unit = rf"(?:{any_of(DAYS_WORDS)}|(?P<weeks>{any_of(WEEKS_WORDS)}))"
    orders = dict.fromkeys((AGO_WORDS, tr(AGO_WORDS)))
    return tuple(
        rf"(?<![\w.,/−-]){re.escape(order.casefold())}(?!\w)".replace(r"\ ", r"\s+")
        .replace(r"\{count\}", count)
        .replace(r"\{unit\}", unit)
        for order in orders
    )


def _weekdays() -> str:
    last = whole(LAST_WORDS)
    number = any_of(*WEEKDAY_WORDS)
    return rf"(?<!\w)({last}\s+)?({number})(?!\w)(\s+{last})?"


def _relative(line: Line, today: date) -> Iterator[NamedDay]:
    for back, words in BACK_WORDS.items():
        for found in line.take(whole(words)):
            yield NamedDay(today - timedelta(days=back), found[0])
    for order in _ago():
        yield from (_lying_back(found, today) for found in line.take(order))
    for found in line.take(_weekdays()):
        yield _weekday(found, today)


def _lying_back(found: re.Match[str], today: date) -> NamedDay:
    typed = found["count"]
    counted = int(typed) if typed.isdigit() else number_of(typed, COUNT_WORDS.values()) + 1
    days = counted * (7 if found["weeks"] else 1)
    if days > _LONGEST_AGO_DAYS:
        fault = tr("“{written}” is too long ago; write the date itself.", written=found[0])
        return NamedDay(None, found[0], fault)
    return NamedDay(today - timedelta(days=days), found[0])


def _weekday(found: re.Match[str], today: date) -> NamedDay:
    back = (today.weekday() - number_of(found[2], WEEKDAY_WORDS)) % 7
    if back == 0 and not found[1] and not found[3]:
        sentence = tr("“{written}”: is that today or a week ago?", written=found[0])
        instead = (first_of(BACK_WORDS[0]), tr("7 days ago"))
        return NamedDay(None, found[0], sentence, instead)
    return NamedDay(today - timedelta(days=back or 7), found[0])


def _by_month(line: Line, today: date) -> Iterator[NamedDay]:
    for found in line.take(_ISO):
        yield _made(found[0], (int(found[1]), int(found[2]), int(found[3])), today)
    may_say_year = rf"(?:,?\s+{_of()}(\d{{4}})(?![\w./]))?"
    for found in line.take(_day_month(may_say_year)):
        yield _made(found[0], _numbered(found[3], found[2], found[1]), today)
    for found in line.take(_month_day(may_say_year)):
        yield _made(found[0], _numbered(found[3], found[1], found[2]), today)


def _numbered(year: str | None, month: str, number: str) -> tuple[int | None, int, int]:
    return int(year) if year else None, number_of(month, MONTH_WORDS) + 1, int(number)


def _slashed(found: re.Match[str], today: date) -> NamedDay:
    first, second = int(found[1]), int(found[2])
    year = None if found[3] is None else int(found[3]) + (2000 if len(found[3]) == 2 else 0)
    readings = [_made(found[0], (year, first, second), today)]
    if first != second:
        readings.append(_made(found[0], (year, second, first), today))
    days = [each for each in readings if each.on is not None]
    if len(days) == 1:
        return days[0]
    if not days:
        return readings[0]
    told = tuple(_as_typed(each.on) for each in days if each.on is not None)
    fault = tr("“{written}”: is that {days}?", written=found[0], days=and_joined(told, "or"))
    return NamedDay(None, found[0], fault, told)


def _as_typed(on: date) -> str:
    """A day as a line takes it: by its month where that is understood, else in digits."""
    known = re.fullmatch(any_of(*MONTH_WORDS), month_name(on), re.IGNORECASE)
    return day(on) if known else on.isoformat()


def _made(written: str, parts: tuple[int | None, int, int], today: date) -> NamedDay:
    year, month, number = parts
    try:
        on = _latest(month, number, today) if year is None else date(year, month, number)
    except ValueError:
        return NamedDay(None, written, tr("“{written}”: there is no such day.", written=written))
    return NamedDay(on, written)


def _latest(month: int, number: int, today: date) -> date:
    """The latest such day that is not after today; 29 February looks back to a leap year."""
    for year in range(today.year, today.year - _LEAP_SEARCH_YEARS, -1):
        if month == 2 and number == 29 and (year % 4 or (year % 100 == 0 and year % 400)):
            continue
        if (found := date(year, month, number)) <= today:
            return found
    raise ValueError(f"no {month}-{number}")
