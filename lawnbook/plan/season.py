"""Spans of days of the year: the irrigation season and the blackouts, which may run over New Year.

Days are compared as (month, day), so 29 February is a day of every year here.
"""

from datetime import date, timedelta

from lawnbook.reading import tr
from lawnbook.yard.limits import EARLIEST, LATEST
from lawnbook.yard.numbers import MONTHS, day, short_day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Season

MONTHS_IN_FULL = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
"""The months' names, whatever language the machine speaks."""

_LEAP_YEAR = 2024


def within(season: Season, on: date) -> bool:
    """Whether a day lies in the span, both ends included."""
    return _holds(season, (on.month, on.day))


def touches_month(season: Season, month: int) -> bool:
    """Whether any day of a month (1-12) lies in the span."""
    return any(_holds(season, (month, each)) for each in range(1, _days_in(month) + 1))


def plannable(on: date) -> None:
    """OwnerError for a day so far off that no notebook reaches it."""
    if not EARLIEST <= on <= LATEST:
        raise OwnerError(
            tr(
                "Date: choose a day between {earliest} and {latest}.",
                earliest=day(EARLIEST),
                latest=day(LATEST),
            )
        )


def first_day(season: Season, year: int) -> date:
    """The span's first day in a year; 1 March where it is 29 February and the year has none."""
    month, first = _month_day(season.start)
    if (month, first) == (2, 29):
        return date(year, 2, 28) + timedelta(days=1)
    return date(year, month, first)


def day_after(season: Season, year: int) -> date:
    """The first day after the span's last day in a year; 1 March after 28 or 29 February."""
    month, last = _month_day(season.end)
    if (month, last) == (2, 29):
        return date(year, 3, 1)
    return date(year, month, last) + timedelta(days=1)


def span_words(season: Season) -> str:
    """The span as it is read: "20 Apr to 15 Oct"."""
    first, last = (date(_LEAP_YEAR, *_month_day(text)) for text in (season.start, season.end))
    return tr("{first} to {last}", first=short_day(first), last=short_day(last))


def month_in_full(month: int) -> str:
    """The name of a month, 1-12, as a sentence takes it."""
    return tr(MONTHS_IN_FULL[month - 1])


def month_name(month: int) -> str:
    """The short name of a month, 1-12."""
    return tr(MONTHS[month - 1])


def _holds(season: Season, that: tuple[int, int]) -> bool:
    start, end = _month_day(season.start), _month_day(season.end)
    return start <= that <= end if start <= end else that >= start or that <= end


def _month_day(text: str) -> tuple[int, int]:
    month, that = text.split("-")
    return int(month), int(that)


def _days_in(month: int) -> int:
    after = date(_LEAP_YEAR + month // 12, month % 12 + 1, 1)
    return (after - timedelta(days=1)).day
