"""The weather a plan reckons with: mean ETo and temperature of each month, and the days themselves.

A day's ETo is the one reported for it, or else Hargreaves from its temperatures (FAO-56 eq. 52),
which needs the yard's latitude. A month's is the mean over its days in all years, or else what the
climate table says. A handful of days gives way to the climate table: one cold week is no month.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.evapotranspiration import extraterrestrial_radiation_mj, hargreaves_eto_mm
from lawnbook.agronomy.units import f_to_c, mm_to_in
from lawnbook.plan.model import Input
from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.workings import counted, given, sources, told
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import ClimateMonth, WeatherDay

FEWEST_DAYS = 10
"""Days of a calendar month that outweigh a climate table (common practice of this notebook)."""

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthWeather:
    """A month's mean ETo (in/day) and air temperature (°F), None where unknown, with origins."""

    month: int
    eto_in_per_day: float | None
    eto_input: Input | None
    eto_source: str
    tmean_f: float | None
    tmean_input: Input | None
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Weather:
    """Twelve months, and arrays by day from `first` on: ETo (in, NaN if unknown) and rain (in)."""

    months: tuple[MonthWeather, ...]
    first: date | None
    eto_in: Array
    rain_in: Array

    def month(self, number: int) -> MonthWeather:
        """The month, 1-12."""
        return self.months[number - 1]


def weather_of(notebook: Notebook) -> Weather:
    """The weather of a notebook, all its days; give it the notebook as of the day."""
    days = list(notebook.weather.values())
    lat = notebook.yard.latitude_deg
    eto = _daily_eto_in(days, lat)
    means = np.array([_tmean_f(day) for day in days], dtype=np.float64)
    month_of = np.array([day.date.month for day in days], dtype=np.int64)
    climate = {row.month: row for row in notebook.climate.values()}
    months = tuple(
        _month(month, _Days(month_of == month, eto, means, days), climate.get(month), lat)
        for month in range(1, 13)
    )
    first, by_day, rain = _calendar(days, eto)
    return Weather(months=months, first=first, eto_in=by_day, rain_in=rain)


@dataclass(frozen=True, slots=True)
class _Days:
    """The days of one calendar month as a mask over all days, with the figures of all days."""

    mask: NDArray[np.bool_]
    eto_in: Array
    tmean_f: Array
    days: list[WeatherDay]

    def known(self, values: Array) -> Array:
        picked = values[self.mask]
        return picked[~np.isnan(picked)]

    def reported(self) -> int:
        return sum(self.days[i].reported_eto_in is not None for i in np.flatnonzero(self.mask))


def _month(
    month: int, days: _Days, climate: ClimateMonth | None, latitude_deg: float | None
) -> MonthWeather:
    eto, eto_input, source = _month_eto(month, days, climate)
    tmean, tmean_input = _month_tmean(days, climate)
    has_temperatures = days.known(days.tmean_f).size > 0
    reason = "" if eto is not None else _why_no_eto(month, has_temperatures, latitude_deg)
    return MonthWeather(
        month=month,
        eto_in_per_day=eto,
        eto_input=eto_input,
        eto_source=source,
        tmean_f=tmean,
        tmean_input=tmean_input,
        reason=reason,
    )


def _month_eto(
    month: int, days: _Days, climate: ClimateMonth | None
) -> tuple[float | None, Input | None, str]:
    name = f"ETo in {month_name(month)}"
    usual = climate.eto_in_per_day if climate is not None else None
    known = days.known(days.eto_in)
    if known.size and (usual is None or known.size >= FEWEST_DAYS):
        mean = float(known.mean())
        return (
            mean,
            given(name, told(mean, 3, "in/day"), _days_words(days, known.size)),
            (sources("hargreaves", "fao56") if days.reported() < known.size else sources()),
        )
    if usual is not None:
        return usual, given(name, told(usual, 3, "in/day"), "climate table"), sources()
    return None, None, sources()


def _days_words(days: _Days, count: int) -> str:
    reported = days.reported()
    if reported == count:
        return f"mean of {counted(count, 'day')} of reported ETo"
    how = "Hargreaves" if not reported else f"Hargreaves, {reported} of them reported"
    return f"mean of {counted(count, 'day')} of weather, {how}"


def _month_tmean(days: _Days, climate: ClimateMonth | None) -> tuple[float | None, Input | None]:
    usual = climate.tmean_f if climate is not None else None
    known = days.known(days.tmean_f)
    if known.size and (usual is None or known.size >= FEWEST_DAYS):
        mean = float(known.mean())
        origin = f"mean of {counted(known.size, 'day')} of weather"
        return mean, given("Mean temperature", told(mean, 0, "°F"), origin)
    if usual is not None:
        return usual, given("Mean temperature", told(usual, 0, "°F"), "climate table")
    return None, None


def _why_no_eto(month: int, has_temperatures: bool, latitude_deg: float | None) -> str:
    if has_temperatures and latitude_deg is None:
        return "Latitude is missing: enter it under Yard, and ETo follows from the temperatures."
    return (
        f"No weather and no climate for {month_in_full(month)}: import daily weather, or fill in "
        "the month's ETo in the climate table."
    )


def _tmean_f(day: WeatherDay) -> float:
    if day.tmin_f is None or day.tmax_f is None:
        return float("nan")
    return (day.tmin_f + day.tmax_f) / 2


def _daily_eto_in(days: list[WeatherDay], latitude_deg: float | None) -> Array:
    """ETo of each day: reported, else Hargreaves, else NaN, as with tmin above tmax."""
    eto = np.array(
        [np.nan if d.reported_eto_in is None else d.reported_eto_in for d in days], dtype=np.float64
    )
    if latitude_deg is None:
        return eto
    wanted = [i for i, day in enumerate(days) if np.isnan(eto[i]) and _has_swing(day)]
    if wanted:
        eto[wanted] = _hargreaves_in([days[i] for i in wanted], latitude_deg)
    return eto


def _has_swing(day: WeatherDay) -> bool:
    return day.tmin_f is not None and day.tmax_f is not None and day.tmin_f <= day.tmax_f


def _hargreaves_in(days: Iterable[WeatherDay], latitude_deg: float) -> Array:
    rows = [(d.tmin_f, d.tmax_f, d.date.timetuple().tm_yday) for d in days]
    low_f, high_f, day_of_year = np.array(rows, dtype=np.float64).T
    low_c, high_c = f_to_c(low_f), f_to_c(high_f)
    radiation = extraterrestrial_radiation_mj(latitude_deg, day_of_year)
    return mm_to_in(hargreaves_eto_mm((low_c + high_c) / 2, high_c, low_c, radiation))


def _calendar(days: list[WeatherDay], eto: Array) -> tuple[date | None, Array, Array]:
    """The days laid out without gaps: ETo NaN and rain 0 where a day has none."""
    if not days:
        return None, np.empty(0), np.empty(0)
    first, last = min(d.date for d in days), max(d.date for d in days)
    length = (last - first + timedelta(days=1)).days
    by_day, rain = np.full(length, np.nan), np.zeros(length)
    for day, value in zip(days, eto.tolist(), strict=True):
        place = (day.date - first).days
        by_day[place] = value
        rain[place] = day.rain_in or 0.0
    return first, by_day, rain
