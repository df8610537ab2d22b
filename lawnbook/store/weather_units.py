"""Which unit a column of weather can be in, judged by what weather can be.

Temperatures fit a unit when, read in it, all lie between -62 and 57 °C (the coldest and hottest air
where people live, from memory), the middle day's swing from low to high is 1.5 to 28 °C (of five
days or more), and, over a whole year, the warmest month's daily highs are 10 to 46 °C on average
(common practice). Rain fits when no day has more than 600 mm and, of 20 wet days or more, the mean
is 1.5 to 40 mm (common practice). Tenths are whole numbers.
"""

from collections.abc import Sequence
from datetime import date

import numpy as np

from lawnbook.agronomy.units import f_to_c, in_to_mm
from lawnbook.store.weather_columns import in_own_unit
from lawnbook.store.weather_table import Array
from lawnbook.yard.consistency import COOLEST_HIGHS_F, FEWEST_DAYS

AIR_C = (-62.0, 57.0)
SWING_C = (1.5, 28.0)
WARMEST_MONTH_C = (10.0, 46.0)
FEWEST_SWINGS = 5
WHOLE_YEAR_DAYS = 300
MOST_RAIN_MM = 600.0
WET_DAY_MM = (1.5, 40.0)
WET_FROM_MM = 0.25
FEWEST_WET_DAYS = 20
HOTTEST_NAMED_C = 50.0
"""Above this a column that calls itself °C is asked about."""


def temperature_fits(unit: str, low: Array, high: Array, days: Sequence[date]) -> bool:
    """Whether a table's lows and highs, NaN where not measured, can be in a unit."""
    if unit == "tenths_c" and not (is_whole(low) and is_whole(high)):
        return False
    low_c, high_c = (f_to_c(in_own_unit(each, unit)) for each in (low, high))
    both = np.concatenate([low_c, high_c])
    known = both[~np.isnan(both)]
    if not known.size:
        return True
    if known.min() < AIR_C[0] or known.max() > AIR_C[1]:
        return False
    swings = np.abs(high_c - low_c)
    swings = swings[~np.isnan(swings)]
    if swings.size >= FEWEST_SWINGS and not _within(float(np.median(swings)), SWING_C):
        return False
    warmest = warmest_month(high_c, days, WHOLE_YEAR_DAYS)
    return warmest is None or _within(warmest, WARMEST_MONTH_C)


def rain_fits(unit: str, rain: Array) -> bool:
    """Whether a table's rain, NaN where not measured, can be in a unit."""
    if unit == "tenths_mm" and not is_whole(rain):
        return False
    mm = in_to_mm(in_own_unit(rain, unit))
    known = mm[~np.isnan(mm)]
    if known.size and known.max() > MOST_RAIN_MM:
        return False
    wet = known[known >= WET_FROM_MM]
    return wet.size < FEWEST_WET_DAYS or _within(float(wet.mean()), WET_DAY_MM)


def is_whole(values: Array, parts: int = 1) -> bool:
    """Whether all known values are whole numbers of so many parts of one."""
    known = values[~np.isnan(values)] * parts
    return bool((np.abs(known - np.round(known)) < 1e-6).all())


def example(values: Array) -> float | None:
    """The value that shows a unit best: the largest, None where nothing was measured."""
    known = values[~np.isnan(values)]
    return float(known.max()) if known.size else None


def warmest_month(highs: Array, days: Sequence[date], fewest: int) -> float | None:
    """The mean daily high of the warmest calendar month, None of fewer known days than `fewest`."""
    known = ~np.isnan(highs)
    if known.sum() < fewest:
        return None
    month = np.array([day.month for day in days])
    means = [highs[known & (month == each)] for each in range(1, 13)]
    return max(float(each.mean()) for each in means if each.size)


def looks_like_fahrenheit(low: Array, high: Array, days: Sequence[date]) -> bool:
    """Whether temperatures said to be °C look like °F: too hot, or a year that is none in °C."""
    hottest = max((each for each in (example(low), example(high)) if each is not None), default=0.0)
    return hottest > HOTTEST_NAMED_C or not temperature_fits("c", low, high, days)


def looks_like_celsius(high: Array, days: Sequence[date]) -> bool:
    """Whether temperatures said to be °F look like °C, by the rule of `yard.consistency`."""
    warmest = warmest_month(high, days, FEWEST_DAYS)
    return warmest is not None and warmest < COOLEST_HIGHS_F


def _within(value: float, span: tuple[float, float]) -> bool:
    return span[0] <= value <= span[1]
