"""The weather a plan reckons with: mean ETo and temperature of each month, and the days themselves.

A day's ETo comes by the best method its measurements allow (`daily_eto`). A month's is the mean
over its days in all years, or else what the climate table says. A handful of days gives way to the
climate table: one cold week is no month. Days without ETo are filled with their month's mean.
"""

from collections import Counter
from datetime import date

import numpy as np
from numpy.typing import NDArray

from lawnbook.frozen import dataclass
from lawnbook.plan.daily_eto import (
    ESTIMATED,
    FILLED,
    FULL,
    HARGREAVES,
    METHODS,
    REPORTED,
    UNKNOWN,
    Codes,
    eto_of_columns,
)
from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.water_model import EtoMethod, MethodDays
from lawnbook.plan.weather_columns import WeatherColumns, weather_columns
from lawnbook.plan.working_model import Input
from lawnbook.plan.workings import counted, given, sources, told
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import ClimateMonth, Yard

FEWEST_DAYS = 10
"""Days of a calendar month that outweigh a climate table (common practice of this notebook)."""

SEA_LEVEL = tr(", at sea level until the yard's elevation is entered")
"""What the origin of a Penman–Monteith mean says where the elevation is missing."""

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
    """Twelve months, their ETo also as an array, and arrays by day from `first` to the last day.

    `eto_in` is NaN where nothing was measured that gives it; `filled_eto_in` then holds the mean
    of the day's month, and is NaN only where that is unknown too. `methods` says where a day's
    filled ETo is from, None where it is unknown; `eto_from` is the same with "filled" there.
    `rain_in` is the owner's gauge's, else the station's, else 0; `rain_known` is where either was
    read. `eto_days` counts the methods.
    """

    months: tuple[MonthWeather, ...]
    month_eto_in: Array
    first: date | None
    eto_in: Array
    rain_in: Array
    filled_eto_in: Array
    rain_known: NDArray[np.bool_]
    methods: tuple[EtoMethod | None, ...]
    eto_from: tuple[EtoMethod, ...]
    eto_days: tuple[MethodDays, ...]

    @property
    def filled(self) -> NDArray[np.bool_]:
        """Where a day's ETo is its month's mean and not its own."""
        return np.isnan(self.eto_in) & ~np.isnan(self.filled_eto_in)

    def month(self, number: int) -> MonthWeather:
        """The month, 1-12."""
        return self.months[number - 1]


def weather_of(notebook: Notebook) -> Weather:
    """The weather of a notebook, all its days; give it the notebook as of the day."""
    days, yard = weather_columns(notebook.weather), notebook.yard
    daily = eto_of_columns(days, yard)
    climate = {row.month: row for row in notebook.climate.values()}
    months = tuple(
        _month(
            month,
            _Days(days.months == month, daily.eto_in, daily.codes, days.tmean_f),
            climate.get(month),
            yard,
        )
        for month in range(1, 13)
    )
    return _laid_out(days, daily.eto_in, daily.codes, months)


@dataclass(frozen=True, slots=True)
class _Days:
    """The days of one calendar month as a mask over all days, with the figures of all days."""

    mask: NDArray[np.bool_]
    eto_in: Array
    codes: Codes
    tmean_f: Array

    def known(self, values: Array) -> Array:
        picked = values[self.mask]
        return picked[~np.isnan(picked)]

    def by_method(self) -> Counter[int]:
        """How many of the days each method gives, by its place in `METHODS`."""
        codes = self.codes[self.mask]
        return Counter(codes[codes != UNKNOWN].tolist())


def _month(month: int, days: _Days, climate: ClimateMonth | None, yard: Yard) -> MonthWeather:
    eto, eto_input, source = _month_eto(month, days, climate, yard)
    tmean, tmean_input = _month_tmean(days, climate)
    has_temperatures = days.known(days.tmean_f).size > 0
    reason = "" if eto is not None else _why_no_eto(month, has_temperatures, yard.latitude_deg)
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
    month: int, days: _Days, climate: ClimateMonth | None, yard: Yard
) -> tuple[float | None, Input | None, str]:
    name = tr("ETo in {month_name}", month_name=month_name(month))
    usual = climate.eto_in_per_day if climate is not None else None
    known = days.known(days.eto_in)
    if known.size and (usual is None or known.size >= FEWEST_DAYS):
        mean = float(known.mean())
        return (
            mean,
            given(name, told(mean, 3, "in/day"), _days_words(days.by_method(), yard)),
            _sources_of(days.by_method()),
        )
    if usual is not None:
        return usual, given(name, told(usual, 3, "in/day"), tr("climate table")), sources()
    return None, None, sources()


def _days_words(by_method: Counter[int], yard: Yard) -> str:
    """Where a month's mean is from: "mean of 60 days of weather, 31 Hargreaves, 29 reported"."""
    days = counted(by_method.total(), "day")
    if set(by_method) == {REPORTED}:
        return tr("mean of {days} of reported ETo", days=days)
    alone = len(by_method) == 1
    how = ", ".join(
        METHODS[code] if alone else f"{count} {METHODS[code]}"
        for code, count in sorted(by_method.items())
    )
    low = yard.elevation_ft is None and bool({FULL, ESTIMATED} & set(by_method))
    return tr(
        "mean of {days} of weather, {how}{part}", days=days, how=how, part=SEA_LEVEL if low else ""
    )


def _sources_of(by_method: Counter[int]) -> str:
    keys = ["hargreaves"] if HARGREAVES in by_method else []
    return sources(*keys, "fao56") if set(by_method) != {REPORTED} else sources()


def _month_tmean(days: _Days, climate: ClimateMonth | None) -> tuple[float | None, Input | None]:
    usual = climate.tmean_f if climate is not None else None
    known = days.known(days.tmean_f)
    if known.size and (usual is None or known.size >= FEWEST_DAYS):
        mean = float(known.mean())
        origin = tr("mean of {days} of weather", days=counted(known.size, "day"))
        return mean, given(tr("Mean temperature"), told(mean, 0, "°F"), origin)
    if usual is not None:
        return usual, given(tr("Mean temperature"), told(usual, 0, "°F"), tr("climate table"))
    return None, None


def _why_no_eto(month: int, has_temperatures: bool, latitude_deg: float | None) -> str:
    if has_temperatures and latitude_deg is None:
        return tr(
            "Latitude is missing: enter it under Yard, and ETo follows from the temperatures."
        )
    return tr(
        "No weather and no climate for {month_in_full}: import daily weather, or fill "
        "in the month's ETo in the climate table.",
        month_in_full=month_in_full(month),
    )


def _laid_out(
    days: WeatherColumns, eto_in: Array, codes: Codes, months: tuple[MonthWeather, ...]
) -> Weather:
    """The days without gaps from the first to the last, what is missing filled and marked."""
    start = int(days.ordinals.min()) if days.ordinals.size else 0
    length = int(days.ordinals.max()) - start + 1 if days.ordinals.size else 0
    by_day, rain, known = np.full(length, np.nan), np.zeros(length), np.zeros(length, dtype=bool)
    codes_by_day: Codes = np.full(length, UNKNOWN, dtype=np.int64)
    places = days.ordinals - start
    by_day[places], codes_by_day[places] = eto_in, codes
    rain[places], known[places] = np.nan_to_num(days.rain_in), ~np.isnan(days.rain_in)
    first = date.fromordinal(start) if length else None
    means = np.array([each.eto_in_per_day for each in months], dtype=np.float64)
    filled = _filled(first, by_day, means)
    codes_by_day[np.isnan(by_day) & ~np.isnan(filled)] = FILLED
    count = np.bincount(codes_by_day[codes_by_day != UNKNOWN], minlength=len(METHODS)).tolist()
    return Weather(
        months=months,
        month_eto_in=means,
        first=first,
        eto_in=by_day,
        rain_in=rain,
        filled_eto_in=filled,
        rain_known=known,
        methods=tuple(_METHODS[codes_by_day].tolist()),
        eto_from=tuple(_TOLD_FROM[codes_by_day].tolist()),
        eto_days=tuple(
            MethodDays(method=method, days=count[code])
            for code, method in enumerate(METHODS)
            if count[code]
        ),
    )


# The code of a day without ETo, −1, is the last place.
_METHODS = np.array([*METHODS, None], dtype=object)
_TOLD_FROM = np.array([*METHODS, METHODS[FILLED]], dtype=object)


def _filled(first: date | None, eto_in: Array, means: Array) -> Array:
    """ETo by day with the gaps filled by the mean of their month, where that is known."""
    if first is None:
        return eto_in.copy()
    days = np.datetime64(first, "D") + np.arange(eto_in.size)
    month_of = days.astype("datetime64[M]").astype(np.int64) % 12
    return np.where(np.isnan(eto_in), means[month_of], eto_in)
