"""Which days a year in review looks at, and which of the year before stand beside them.

The calendar year in the north, July to June south of the equator, as the budget's year runs. A year
that is not over is looked at up to the day, and the year before up to the same day of the year.
"""

from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.agronomy.nitrogen import NitrogenYear, n_year
from lawnbook.plan.season import plannable
from lawnbook.plan.year_review_model import ReviewSpan
from lawnbook.reading import tr
from lawnbook.yard.limits import EARLIEST
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, short_day, whole
from lawnbook.yard.problems import OwnerError

MID_YEAR_MONTH = 8
"""A month of the first half of any year, north and south."""


def spans_of(notebook: Notebook, year: int, on: date) -> tuple[ReviewSpan, ReviewSpan]:
    """The days looked at of a year up to `on`, and those of the year before beside them.

    OwnerError for a year that has not begun by then.
    """
    plannable(on)
    latitude = _latitude(notebook)
    latest = n_year(on, latitude).label
    if not EARLIEST.year < year <= latest:
        what = tr("has not begun by") if year > latest else tr("is too far from")
        raise OwnerError(
            tr(
                "{year} {what} {on}; choose one from {earliest} to {latest}.",
                year=year,
                what=what,
                on=day(on),
                earliest=EARLIEST.year + 1,
                latest=latest,
            )
        )
    whole = n_year(date(year, MID_YEAR_MONTH, 1), latitude)
    until = min(whole.end, on)
    before = n_year(date(year - 1, MID_YEAR_MONTH, 1), latitude)
    until_before = before.end if until == whole.end else _a_year_before(until)
    first = min((each for each in _days(notebook) if each <= on), default=None)
    return _span(whole, until, first), _span(before, until_before, first)


def _span(of: NitrogenYear, until: date, first: date | None) -> ReviewSpan:
    """A year up to a day; `first` is the day of the notebook's first record."""
    late = first is not None and of.start < first <= until
    return ReviewSpan(
        year=of.label,
        label=of.words,
        starts=of.start,
        until=until,
        ends=of.end,
        begun=first if late else None,
    )


def review_years(notebook: Notebook, on: date) -> tuple[int, ...]:
    """The years that can be looked at on a day: from that of the first record on, in order."""
    latitude = _latitude(notebook)
    latest = n_year(on, latitude).label
    earliest = min((each for each in _days(notebook) if each <= on), default=on)
    return tuple(range(n_year(earliest, latitude).label, latest + 1))


def compared_words(now: ReviewSpan, before: ReviewSpan, has_before: bool) -> str:
    """Which days stand beside which: whole years, or both up to the same day of the year.

    And what of them is not on record; `has_before` tells whether anything of the year before is.
    """
    beside = tr("{span_told}, beside {told}.", span_told=span_told(now), told=before.told)
    if now.whole:
        beside = tr(
            "The whole of {year} beside the whole of {year_before}.",
            year=now.label,
            year_before=before.label,
        )
    begun = now.begun or before.begun
    if begun is not None:
        beside += tr(
            " The notebook begins on {begun}: earlier work is not on record.", begun=day(begun)
        )
    if has_before:
        return beside
    return tr("{beside} Nothing was recorded in {told}.", beside=beside, told=before.told)


def of_each_year(counts: tuple[int, int], spans: tuple[ReviewSpan, ReviewSpan]) -> str:
    """Counts of the year and the year before: "2 of 2026, 1 of 2025"; "" where there are none."""
    pairs = zip(counts, spans, strict=True)
    return ", ".join(
        tr("{whole} of {label}", whole=whole(count), label=span.label)
        for count, span in pairs
        if count
    )


def span_told(span: ReviewSpan) -> str:
    """The days looked at: "1 Jan to 15 Jun 2026"."""
    if span.starts.year == span.until.year:
        return tr("{starts} to {until}", starts=short_day(span.starts), until=day(span.until))
    return tr("{starts} to {until}", starts=day(span.starts), until=day(span.until))


def is_recorded(notebook: Notebook, year: int) -> bool:
    """Whether anything was done or measured in a year, weather aside."""
    whole = n_year(date(year, MID_YEAR_MONTH, 1), _latitude(notebook))
    return any(whole.start <= each <= whole.end for each in _days(notebook))


def _days(notebook: Notebook) -> Iterator[date]:
    for table in ("waterings", "feedings", "cores", "care", "soil_tests", "catch_tests", "ticks"):
        yield from (each.date for each in getattr(notebook, table).values())


def _a_year_before(on: date) -> date:
    """The same day of the year before; 28 February for a leap day."""
    if (on.month, on.day) == (2, 29):
        on -= timedelta(days=1)
    return on.replace(year=on.year - 1)


def _latitude(notebook: Notebook) -> float:
    return notebook.yard.latitude_deg or 0.0
