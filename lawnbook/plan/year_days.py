"""The days of the year that a zone's plan and habit are compared in.

The last 365 days where most of their ETo is known, or else a usual year of the months' means. Or
the days of a span that is asked for, where most of their ETo is known.
"""

from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.root_zone import Days
from lawnbook.agronomy.runoff import curve_number, rain_runoff_in
from lawnbook.frozen import dataclass
from lawnbook.plan.month_water import watered_month
from lawnbook.plan.root_days import (
    WeatherDays,
    capacity_in,
    etc_factors,
    eto_by_month,
    month_indices,
    thatch_capacity_in,
    weather_days,
)
from lawnbook.plan.season import within
from lawnbook.plan.water_model import EtoMethod
from lawnbook.plan.water_rules import allows
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

YEAR_DAYS = 365

FEWEST_KNOWN_DAYS = 300
"""Days of the last year whose ETo must be known for its weather to be used."""

SHOWER_EVERY_DAYS = 4
"""In a usual year the month's rain falls as one shower every fourth day: an assumption."""

SHOWERS_A_MONTH = 7


@dataclass(frozen=True, slots=True, eq=False)
class YearDays:
    """A year day by day: what comes without irrigation, and on which days who may water.

    `watered` are the days on which the plan may, `in_season` those on which the habit runs,
    `growing` those on which the grass uses water. `months` count from 0, and `month_etc_in` holds
    the mean use of each of the twelve.
    """

    basis: str
    days: Days
    months: NDArray[np.int64]
    month_etc_in: tuple[float, ...]
    watered: NDArray[np.bool_]
    in_season: NDArray[np.bool_]
    growing: NDArray[np.bool_]
    capacity_in: float


def year_days(
    setting: Setting, facts: ZoneFacts, span: tuple[date, date] | None = None
) -> YearDays | None:
    """The year of a zone; None where some day's ETo is known neither by weather nor by month.

    With a `span`, its days from first to last; None where too little of their ETo is known, for a
    usual year would not be those days.
    """
    found = _usual_or_last(setting) if span is None else _of_span(setting, *span)
    if found is None or np.isnan(found[1].eto_in).any():
        return None
    starts, weather, basis = found
    length = weather.eto_in.size
    months = month_indices(starts, length)
    factors = etc_factors(facts)
    month_etc = eto_by_month(setting) * factors
    growing = factors[months] > 0
    in_span, allowed = _open_days(setting, starts, length)
    planned = np.array([watered_month(setting, facts, month) for month in range(1, 13)])
    return YearDays(
        basis=basis,
        days=_days(facts, weather, weather.eto_in * factors[months]),
        months=months,
        month_etc_in=tuple(np.nan_to_num(month_etc).tolist()),
        watered=in_span & planned[months] & allowed,
        # Without a season the old habit ends where the grass stops growing, as the plan does.
        in_season=in_span if setting.season is not None else growing,
        growing=growing,
        capacity_in=capacity_in(facts),
    )


def _days(facts: ZoneFacts, weather: WeatherDays, etc_in: NDArray[np.float64]) -> Days:
    length = etc_in.size
    return Days(
        eto_in=weather.eto_in,
        etc_in=etc_in,
        rain_in=weather.rain_in,
        irrigation_in=np.zeros(length),
        runoff_in=rain_runoff_in(weather.rain_in, curve_number(facts.soil.name)),
        capacity_in=np.full(length, capacity_in(facts)),
        thatch_capacity_in=np.full(length, thatch_capacity_in(facts)),
    )


def _open_days(
    setting: Setting, starts: date, length: int
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Which days lie in the irrigation season, and on which the owner's rule lets water begin."""
    season, ruled = setting.season, bool(setting.rules.days)
    in_season, allowed = np.ones(length, dtype=bool), np.ones(length, dtype=bool)
    if season is not None or ruled:
        dates = [starts + timedelta(days=place) for place in range(length)]
        if season is not None:
            in_season = np.array([within(season, each) for each in dates])
        if ruled:
            allowed = np.array([allows(setting, each) for each in dates])
    return in_season, allowed


def _usual_or_last(setting: Setting) -> tuple[date, WeatherDays, str]:
    """The year up to the day of the plan; a usual one where too little of its ETo is known."""
    starts = setting.on - timedelta(days=YEAR_DAYS - 1)
    return _of_span(setting, starts, setting.on) or _usual_year(setting)


def _of_span(setting: Setting, starts: date, ends: date) -> tuple[date, WeatherDays, str] | None:
    """Some days in a row; None where too little of their ETo is known."""
    length = (ends - starts).days + 1
    weather = weather_days(setting, starts, length)
    known = sum(method != "filled" for method in weather.eto_from)
    if known * YEAR_DAYS < FEWEST_KNOWN_DAYS * length:
        return None
    return (
        starts,
        weather,
        tr("the weather of {starts} to {ends}", starts=day(starts), ends=day(ends)),
    )


def _usual_year(setting: Setting) -> tuple[date, WeatherDays, str]:
    """The calendar year of the plan by its months' means; ETo is NaN in months nobody knows."""
    starts = date(setting.on.year, 1, 1)
    eto = eto_by_month(setting)[month_indices(starts, YEAR_DAYS)]
    rain_of = {row.month: row.rain_in for row in setting.notebook.climate.values()}
    rain = np.zeros(YEAR_DAYS)
    for place in range(YEAR_DAYS):
        that = starts + timedelta(days=place)
        if that.day % SHOWER_EVERY_DAYS == 0:
            rain[place] = (rain_of.get(that.month) or 0.0) / SHOWERS_A_MONTH
    basis = (
        tr("a usual year by the months' means, rain every {days}th day", days=SHOWER_EVERY_DAYS)
        if rain.any()
        else tr("a usual year by the months' means, without rain")
    )
    filled: EtoMethod = "filled"
    return starts, WeatherDays(eto, (filled,) * YEAR_DAYS, rain), basis
