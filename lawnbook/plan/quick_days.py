"""Days as people name them in a line: yesterday, Friday, 3 days ago, 3 May, 2026-05-03, 5/3."""

import re
from calendar import monthrange
from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.frozen import dataclass
from lawnbook.plan.quick_text import Line
from lawnbook.reading import tr
from lawnbook.yard.numbers import MONTHS, and_joined, day, month_name

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_COUNTS = {"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}
_MONTH = (
    r"(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|"
    r"sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
_NUMBER = r"(?<![\w.,/−-])(\d{1,2})(?:st|nd|rd|th)?"
_YEAR = r"(?:,?\s+(\d{4})(?![\w./]))?"
_DAY_MONTH = rf"{_NUMBER}\s+(?:of\s+)?{_MONTH}\b\.?{_YEAR}"
_MONTH_DAY = rf"(?<!\w){_MONTH}\.?\s+(\d{{1,2}})(?:st|nd|rd|th)?(?![\w/]|\.\d){_YEAR}"
_ISO = r"(?<![\w.,/−-])(\d{4})-(\d{1,2})-(\d{1,2})(?![\w/-])"
_SLASHED = r"(?<![\w.,/−-])(\d{1,2})/(\d{1,2})(?:/(\d{4}|\d{2}))?(?![\w/]|[.,]\d)"
_AGO = r"(?<![\w.,/−-])(\d{1,4}|a|one|two|three|four|five|six|seven)\s+(day|week)s?\s+ago(?!\w)"
_WEEKDAY = (
    r"(?<!\w)(last\s+)?(mon(?:day)?|tue(?:s(?:day)?)?|wed(?:nesday)?|thu(?:r(?:s(?:day)?)?)?|"
    r"fri(?:day)?|sat(?:urday)?|sun(?:day)?)(?!\w)"
)
_BEFORE_YESTERDAY = r"(?<!\w)(?:the\s+)?day\s+before\s+yesterday(?!\w)"
_OF_YEAR = r"\.?,?\s+(\d{4})(?![\w./])"
_DATED = (
    (_ISO, (1, 2, 3)),
    (rf"{_NUMBER}\s+(?:of\s+)?{_MONTH}\b{_OF_YEAR}", (3, 2, 1)),
    (rf"(?<!\w){_MONTH}\.?\s+(\d{{1,2}})(?:st|nd|rd|th)?{_OF_YEAR}", (3, 1, 2)),
    (rf"(?<!\w){_MONTH}\b{_OF_YEAR}", (2, 1, 0)),
)
"""Days and months with their year, and where a pattern holds year, month and day (0: none)."""
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
    for pattern, (year, month, number) in _DATED:
        for found in line.take(pattern):
            of_month = found[month]
            numbered = int(of_month) if of_month.isdigit() else _month(of_month)
            spans.append(_span(int(found[year]), numbered, int(found[number]) if number else 0))
    return spans


def _span(year: int, month: int, number: int) -> tuple[date, date]:
    """A day, or with the number 0 its whole month."""
    try:
        first = date(year, month, number or 1)
        return first, first if number else date(year, month, monthrange(year, month)[1])
    except ValueError:
        return NEVER


def _relative(line: Line, today: date) -> Iterator[NamedDay]:
    for found in line.take(_BEFORE_YESTERDAY):
        yield NamedDay(today - timedelta(days=2), found[0])
    for word, back in (("yesterday", 1), ("today", 0), ("tomorrow", -1)):
        for found in line.take(rf"(?<!\w){word}(?!\w)"):
            yield NamedDay(today - timedelta(days=back), found[0])
    for found in line.take(_AGO):
        count = _COUNTS.get(found[1].lower(), 0) or int(found[1])
        days = count * (7 if found[2].lower() == "week" else 1)
        if days > _LONGEST_AGO_DAYS:
            fault = tr("“{written}” is too long ago; write the date itself.", written=found[0])
            yield NamedDay(None, found[0], fault)
        else:
            yield NamedDay(today - timedelta(days=days), found[0])
    for found in line.take(_WEEKDAY):
        yield _weekday(found, today)


def _weekday(found: re.Match[str], today: date) -> NamedDay:
    number = next(n for n, each in enumerate(_WEEKDAYS) if each.startswith(found[2].lower()[:3]))
    back = (today.weekday() - number) % 7
    if back == 0 and not found[1]:
        sentence = tr("“{written}”: is that today or a week ago?", written=found[0])
        return NamedDay(None, found[0], sentence, ("today", "7 days ago"))
    return NamedDay(today - timedelta(days=back or 7), found[0])


def _by_month(line: Line, today: date) -> Iterator[NamedDay]:
    for found in line.take(_ISO):
        yield _made(found[0], (int(found[1]), int(found[2]), int(found[3])), today)
    for found in line.take(_DAY_MONTH):
        year = int(found[3]) if found[3] else None
        yield _made(found[0], (year, _month(found[2]), int(found[1])), today)
    for found in line.take(_MONTH_DAY):
        year = int(found[3]) if found[3] else None
        yield _made(found[0], (year, _month(found[1]), int(found[2])), today)


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
    """A day as a line takes it: by its month in English, in digits to who reads it otherwise."""
    return day(on) if month_name(on) == MONTHS[on.month - 1] else on.isoformat()


def _made(written: str, parts: tuple[int | None, int, int], today: date) -> NamedDay:
    year, month, number = parts
    try:
        on = _latest(month, number, today) if year is None else date(year, month, number)
    except ValueError:
        return NamedDay(None, written, tr("“{written}”: there is no such day.", written=written))
    return NamedDay(on, written)


def _month(word: str) -> int:
    return 1 + [each.lower() for each in MONTHS].index(word.lower()[:3])


def _latest(month: int, number: int, today: date) -> date:
    """The latest such day that is not after today; 29 February looks back to a leap year."""
    for year in range(today.year, today.year - _LEAP_SEARCH_YEARS, -1):
        if month == 2 and number == 29 and (year % 4 or (year % 100 == 0 and year % 400)):
            continue
        if (found := date(year, month, number)) <= today:
            return found
    raise ValueError(f"no {month}-{number}")
