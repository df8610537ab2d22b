"""Growth potential day by day in the usual year, smooth over the months.

A month's mean temperature stands in its middle and the days between two middles lie on the line
between them. What past days were like is not asked: it is the year as it usually is.
"""

from datetime import date, timedelta
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.care_windows import YEAR_DAYS, growth_of_days
from lawnbook.agronomy.checks import Array
from lawnbook.plan.warm_days import warm_days
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.record_base import Grass

Months = tuple[float | None, ...]
"""Mean temperatures (°F) of January to December, None where unknown."""

KEPT = 8
"""How many usual years are kept: two grasses of the last notebooks."""

_LEAP_YEAR = 2024
_FEBRUARY_29 = 59


def growth_on_days(
    notebook: Notebook, grass: Grass, starts: date, ends: date
) -> tuple[float | None, ...]:
    """Growth potential (0-1) of each day from `starts` to `ends`, both included.

    None where a month beside the day has no temperature; empty where `ends` comes before `starts`.
    Give it the notebook as of the day of the plan. Source: "growth-potential".
    """
    growth = growth_array(notebook, grass, starts, max(0, (ends - starts).days + 1))
    return tuple(None if np.isnan(each) else float(each) for each in growth)


def growth_array(notebook: Notebook, grass: Grass, starts: date, count: int) -> Array:
    """The same for so many days from a day on, NaN where unknown."""
    whole: Array = usual_growth(warm_days(notebook).month_f, grass)[year_places(starts, count)]
    return whole


@lru_cache(maxsize=KEPT)
def usual_growth(month_f: Months, grass: str) -> Array:
    """Growth potential of the 366 days of a leap year, NaN where unknown. Not to be written to."""
    growth = growth_of_days(usual_tmean_f(month_f), grass)
    growth.flags.writeable = False
    return growth


def usual_tmean_f(month_f: Months) -> Array:
    """Mean temperatures (°F) of the 366 days of a leap year, NaN beside a month without one."""
    known = np.array([np.nan if each is None else each for each in month_f], dtype=np.float64)
    middles = _middles()
    around = np.concatenate(([middles[-1] - YEAR_DAYS], middles, [middles[0] + YEAR_DAYS]))
    values = np.concatenate((known[-1:], known, known[:1]))
    tmean: Array = np.interp(np.arange(YEAR_DAYS), around, values)
    return tmean


def year_places(starts: date, count: int) -> NDArray[np.int64]:
    """The places, 0 to 365, in a leap year of so many days from a day on."""
    days = np.datetime64(starts) + np.arange(count)
    years = days.astype("datetime64[Y]")
    places = (days - years.astype("datetime64[D]")).astype(np.int64)
    lengths = (years + 1).astype("datetime64[D]") - years.astype("datetime64[D]")
    short = lengths.astype(np.int64) < YEAR_DAYS
    shifted: NDArray[np.int64] = places + (short & (places >= _FEBRUARY_29))
    return shifted


def _middles() -> Array:
    """The middle of each month, in days from 1 January of a leap year."""
    firsts = np.array(
        [
            (date(_LEAP_YEAR + month // 12, month % 12 + 1, 1) - date(_LEAP_YEAR, 1, 1)).days
            for month in range(13)
        ],
        dtype=np.float64,
    )
    middles: Array = (firsts[:-1] + firsts[1:] - 1) / 2
    return middles


def day_of_place(place: int, year: int) -> date:
    """The day of a year at a place, 0 to 365, in a leap year; 29 February becomes 28 February."""
    that = date(_LEAP_YEAR, 1, 1) + timedelta(days=place)
    if (that.month, that.day) == (2, 29) and not _is_leap(year):
        return date(year, 2, 28)
    return that.replace(year=year)


def _is_leap(year: int) -> bool:
    return (date(year + 1, 1, 1) - date(year, 1, 1)).days == YEAR_DAYS
