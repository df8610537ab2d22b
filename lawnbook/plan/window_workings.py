"""How the weeks that suit coring and overseeding came about, and what would move each end of them.

The growth of the usual year gives them, through rules; each end is found anew by those same rules
with one of them, or how warm it is, changed.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from functools import partial
from types import MappingProxyType
from typing import Literal

import numpy as np

from lawnbook.agronomy.care_windows import (
    COOL_SOWN_DAYS,
    GROWING,
    HEALS_DAYS,
    USUAL,
    VIGOROUS,
    WARM_SOWN_DAYS,
    YEAR_DAYS,
    CareRules,
    CareSpans,
    care_spans,
)
from lawnbook.agronomy.turf import GROWTH_OPTIMUM_F, GROWTH_SPREAD_F
from lawnbook.frozen import dataclass
from lawnbook.plan.filled_in import by_function, counted_in, numbered, together
from lawnbook.plan.growth_days import Months, day_of_place, usual_growth, usual_tmean_f, year_places
from lawnbook.plan.working_model import DATE, DAY, Input, Reckoning, Working
from lawnbook.plan.workings import PERCENT, given, sources, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.numbers import day, short_day
from lawnbook.yard.record_base import Grass

AERATION, OVERSEEDING = "aeration", "overseeding"
"""The kinds of care that have their weeks, as care entries name them."""

MIDSUMMER = 182
"""The place of 1 July in a leap year: from there the year is counted in the south."""

End = Literal["first", "last"]

_SOURCES: Mapping[tuple[str, Grass], tuple[str, ...]] = MappingProxyType(
    {
        (AERATION, "cool"): ("growth-potential", "coring-autumn", "care-weeks"),
        (AERATION, "warm"): ("growth-potential", "coring-warm", "care-weeks"),
        (OVERSEEDING, "cool"): ("growth-potential", "sowing-autumn", "care-weeks"),
        (OVERSEEDING, "warm"): ("growth-potential", "sowing-warm", "care-weeks"),
    }
)


@dataclass(frozen=True, slots=True)
class Weeks:
    """Days that suit a kind of care of a grass; `late` after the hottest day of the year.

    `start_year` is the year that the span's own count begins in.
    """

    kind: str
    grass: Grass
    starts: date
    ends: date
    late: bool
    start_year: int


def usual_spans(
    month_f: Months, grass: Grass, south: bool, rules: CareRules = USUAL, warmth: float = 1.0
) -> tuple[CareSpans, int]:
    """The spans of the usual year and its hottest day, counted from 1 January, or from 1 July.

    `warmth` is a factor of all temperatures (°F).
    """
    tmean = usual_tmean_f(month_f) * warmth
    if south:
        tmean = np.roll(tmean, -MIDSUMMER)
    return care_spans(tmean, grass, rules), int(tmean.argmax())


def day_in_year(place: int, start_year: int, south: bool) -> date:
    """The day at a place of a year as it is counted there."""
    along = place + (MIDSUMMER if south else 0)
    return day_of_place(along % YEAR_DAYS, start_year + along // YEAR_DAYS)


def window_workings(month_f: Months, weeks: Weeks, south: bool) -> Iterator[Working]:
    """The weeks, with what would move their first day; then their last day by itself."""
    listed, keys = _inputs(month_f, weeks), _SOURCES[(weeks.kind, weeks.grass)]
    first, last = (_growth_on(month_f, weeks.grass, each) for each in (weeks.starts, weeks.ends))
    care = tr("core aeration") if weeks.kind == AERATION else tr(weeks.kind)
    title = (
        "Weeks for {care}, cool-season grass"
        if weeks.grass == "cool"
        else "Weeks for {care}, warm-season grass"
    )
    filled = tr(
        "growth potential {first} on {starts}, {last} on {ends}",
        first=told(100 * first, 0, "%"),
        starts=short_day(weeks.starts),
        last=told(100 * last, 0, "%"),
        ends=short_day(weeks.ends),
    )
    yield Working(
        f"{weeks.kind}_window",
        tr(title, care=care),
        tr("{starts} to {ends}", starts=day(weeks.starts), ends=day(weeks.ends)),
        _formula(weeks),
        filled,
        listed,
        sources(*keys),
        Reckoning(
            "",
            DATE,
            0,
            note=tr("Told here is the first day; the last day has a working of its own."),
            anew=partial(end_anew, month_f, weeks, south, "first"),
        ),
    )
    yield Working(
        f"{weeks.kind}_last_day",
        tr("Last day of the weeks for {care}", care=care),
        day(weeks.ends),
        _formula(weeks),
        "",
        listed,
        sources(*keys),
        by_function(partial(end_anew, month_f, weeks, south, "last"), DATE, 0),
    )


def end_anew(
    month_f: Months, weeks: Weeks, south: bool, end: End, numbers: Mapping[str, float]
) -> float:
    """An end of the weeks by other rules or warmth, as `date.toordinal`; NaN where none is left."""
    changed = CareRules(
        vigorous=numbers.get("vigorous", 100 * VIGOROUS) / 100,
        growing=numbers.get("growing", 100 * GROWING) / 100,
        heals_days=round(numbers.get("heals", HEALS_DAYS)),
        cool_sown_days=round(numbers.get("cool_sown", COOL_SOWN_DAYS)),
        warm_sown_days=round(numbers.get("warm_sown", WARM_SOWN_DAYS)),
        best_f=numbers["best"],
        width_f=numbers["width"],
    )
    spans, hottest = usual_spans(month_f, weeks.grass, south, changed, numbers["warmth"])
    listed = spans.coring if weeks.kind == AERATION else spans.sowing
    for span in listed:
        if (weeks.grass == "cool" and span.first >= hottest) == weeks.late:
            place = span.first if end == "first" else span.last
            return float(day_in_year(place, weeks.start_year, south).toordinal())
    return float("nan")


def _growth_on(month_f: Months, grass: Grass, on: date) -> float:
    return float(usual_growth(month_f, grass)[int(year_places(on, 1)[0])])


def _inputs(month_f: Months, weeks: Weeks) -> tuple[Input, ...]:
    """How warm it is, the curve of growth, and the rules that these weeks are found by."""
    of_grass = tr("{grass}-season grass", grass=tr(weeks.grass))
    best, width = GROWTH_OPTIMUM_F[weeks.grass], GROWTH_SPREAD_F[weeks.grass]
    known = [each for each in month_f if each is not None]
    warm = tr(
        "the months’ means, {low} to {high}",
        low=told(min(known), 0, "°F"),
        high=told(max(known), 0, "°F"),
    )
    return (
        together(given(tr("Temperatures of the usual year"), told(1.0), warm), "warmth"),
        numbered(given(tr("Best"), plainly(best, "°F", 4), of_grass), "best", best, "°F"),
        # A width is a difference of temperatures: told as it is, never turned into a temperature.
        numbered(given(tr("Width"), f"{width:g} °F", of_grass), "width", width),
        *_rules(weeks),
    )


def _rules(weeks: Weeks) -> Iterator[Input]:
    """The shares of the best growth and the counts of days that these weeks rest on."""
    practice = tr("common practice")
    if weeks.late or weeks.grass == "cool":
        yield _share("vigorous", tr("Growth that heals fast, of the year’s best"), VIGOROUS)
    if not weeks.late:
        yield _share("growing", tr("Growth well under way, of the year’s best"), GROWING)
    name = tr("Days of growth that are left after it")
    if weeks.late and weeks.kind == OVERSEEDING:
        yield counted_in(
            given(name, str(COOL_SOWN_DAYS), practice), "cool_sown", COOL_SOWN_DAYS, DAY
        )
    elif weeks.grass == "warm" and weeks.kind == OVERSEEDING:
        yield counted_in(
            given(name, str(WARM_SOWN_DAYS), practice), "warm_sown", WARM_SOWN_DAYS, DAY
        )
    else:
        yield counted_in(given(name, str(HEALS_DAYS), practice), "heals", HEALS_DAYS, DAY)
    if weeks.late:
        yield given(tr("Late summer from"), _of_place(USUAL.autumn_from), practice)
    else:
        yield given(tr("Spring from"), _of_place(USUAL.spring_from), practice)


def _share(symbol: str, name: str, share: float) -> Input:
    told_of = given(name, told(100 * share, 0, "%"), tr("common practice"))
    return numbered(told_of, symbol, 100 * share, "%")


def _of_place(place: int) -> str:
    """A day of the north's year; half a year later in the south."""
    return short_day(day_of_place(place, 2024))


def _formula(weeks: Weeks) -> str:
    vigorous, growing = (f"{100 * each:.0f}{PERCENT}" for each in (VIGOROUS, GROWING))
    if weeks.late:
        days = HEALS_DAYS if weeks.kind == AERATION else COOL_SOWN_DAYS
        return tr(
            "from late summer, when growth is back at {vigorous} of the year’s best, to "
            "{days} days before growth ends; for {cool_sown_days} days where it never does",
            vigorous=vigorous,
            days=days,
            cool_sown_days=COOL_SOWN_DAYS,
        )
    start = tr(
        "from spring, when growth reaches {growing} of the year’s best, to ", growing=growing
    )
    if weeks.grass == "cool":
        return tr(
            "{start}{heals_days} days before summer’s heat, the middle of June at the latest",
            start=start,
            heals_days=HEALS_DAYS,
        )
    days = HEALS_DAYS if weeks.kind == AERATION else WARM_SOWN_DAYS
    return tr(
        "{start}the day of the best growth, {days} days before growth ends at the latest",
        start=start,
        days=days,
    )
