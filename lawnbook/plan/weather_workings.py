"""How the figures of a day of weather came about: its ETo by the method it allows, and its rain."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from lawnbook.agronomy.evapotranspiration import extraterrestrial_radiation_mj
from lawnbook.agronomy.penman_monteith import DEFAULT_WIND_M_PER_S
from lawnbook.agronomy.units import f_to_c, m_per_s_to_mph
from lawnbook.frozen import dataclass
from lawnbook.plan.daily_eto import FULL, HARGREAVES, REPORTED, UNKNOWN, daily_eto
from lawnbook.plan.filled_in import by_function, numbered, put_in, reckons
from lawnbook.plan.watering_workings import rain_workings_of
from lawnbook.plan.weather import weather_of
from lawnbook.plan.working_model import Input, Reckoning, Working
from lawnbook.plan.workings import default, given, sources, told, told_exactly
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import WeatherDay, Yard

TABLE = tr("the weather of that day")
PENMAN = tr("Penman–Monteith, FAO-56 equation 6: what sun and air take from a short green grass")
PENMAN_ESTIMATED = tr(
    "Penman–Monteith, FAO-56 equation 6, with what was not measured estimated as in its chapter 3"
)
_FIELDS: Mapping[str, str] = {
    "low": "tmin_f",
    "high": "tmax_f",
    "dew": "tdew_f",
    "wind": "wind_mph",
    "sun": "solar_mj_m2",
}
"""The symbols of what is measured, and its fields."""


def weather_day_workings(notebook: Notebook, on: date, that: date) -> tuple[Working, ...]:
    """ETo and rain of a day, from the notebook as of another; none of what is not known."""
    held = as_of(notebook, on).weather.get(that.isoformat())
    yard = notebook.yard
    code = UNKNOWN if held is None else int(daily_eto([held], yard).codes[0])
    eto = _filled(notebook, on, that) if held is None or code == UNKNOWN else _eto(held, yard, code)
    return (*(() if eto is None else (eto,)), *rain_workings_of(held))


def _label(that: date) -> str:
    return tr("ETo of {date}", date=day(that))


def _filled(notebook: Notebook, on: date, that: date) -> Working | None:
    """The month's mean, for a day whose own measurements give no ETo."""
    month = weather_of(as_of(notebook, on)).month(that.month)
    eto, mean = month.eto_in_per_day, month.eto_input
    if eto is None or mean is None:
        return None
    inputs = (numbered(mean, "mean", eto, "in/day"),)
    return Working(
        f"eto:{that.isoformat()}",
        _label(that),
        told(eto, 2, "in"),
        tr("the mean of the month: nothing measured on the day gives its own"),
        put_in("{mean}", inputs),
        inputs,
        month.eto_source,
        reckons("{mean}", "in"),
    )


def _eto(held: WeatherDay, yard: Yard, code: int) -> Working:
    eto = float(daily_eto([held], yard).eto_in[0])
    if code == REPORTED:
        inputs = [_measured("eto", tr("Reported ETo"), eto, (2, "in"))]
        return _working(held, eto, (tr("as reported"), told_exactly(eto, 2, "in")), inputs)
    return _working(held, eto, _formula(held, yard, code), [*_used(held, yard, code)], yard, code)


def _working(
    held: WeatherDay,
    eto: float,
    told_as: tuple[str, str],
    inputs: list[Input],
    yard: Yard | None = None,
    code: int = REPORTED,
) -> Working:
    keys = () if yard is None else ("hargreaves",) if code == HARGREAVES else ("fao56",)
    anew: Reckoning = (
        reckons("{eto}", "in") if yard is None else by_function(_EtoAnew(held, yard), "in", 3)
    )
    return Working(
        f"eto:{held.id}",
        _label(held.date),
        told(eto, 2, "in"),
        *told_as,
        tuple(inputs),
        sources(*keys),
        anew,
    )


def _formula(held: WeatherDay, yard: Yard, code: int) -> tuple[str, str]:
    """The method's formula; where it is short, below it the same with the numbers put in.

    These are degrees Celsius and mm to every reader, and so no part of `filled`, which is in US
    units.
    """
    if code != HARGREAVES:
        return (PENMAN if code == FULL else PENMAN_ESTIMATED), ""
    low, high = (float(f_to_c(each or 0.0)) for each in (held.tmin_f, held.tmax_f))
    ra = _radiation_mj(held, yard)
    mean, swing = told_exactly((low + high) / 2), told_exactly(high - low)
    filled = f"0.0023 × ({mean} + 17.8) × √({swing}) × 0.408 × {told_exactly(ra)}"
    words = tr("Hargreaves: 0.0023 × (mean + 17.8) × √(high − low) × 0.408 Ra, in °C, MJ/m² and mm")
    return f"{words}\n{filled} mm", ""


def _radiation_mj(held: WeatherDay, yard: Yard) -> float:
    """Ra, the sun above the air on that day at that latitude."""
    return float(
        extraterrestrial_radiation_mj(yard.latitude_deg or 0.0, held.date.timetuple().tm_yday)
    )


def _used(held: WeatherDay, yard: Yard, code: int) -> Iterator[Input]:
    yield _measured("low", tr("Lowest temperature"), held.tmin_f or 0.0, (0, "°F"))
    yield _measured("high", tr("Highest temperature"), held.tmax_f or 0.0, (0, "°F"))
    latitude = given(
        tr("Latitude"), f"{told(yard.latitude_deg or 0.0, 2)}°", tr("entered under Yard")
    )
    yield numbered(latitude, "latitude", yard.latitude_deg or 0.0, "°")
    sun_above = tr("worked out from latitude and day of the year")
    yield given("Ra", told(_radiation_mj(held, yard), 1, "MJ/m²"), sun_above)
    if code != HARGREAVES:
        yield from _of_penman(held, yard)


def _of_penman(held: WeatherDay, yard: Yard) -> Iterator[Input]:
    """Dew point, wind, sun and elevation: measured, or what stands in for them."""
    if held.tdew_f is not None:
        yield _measured("dew", tr("Dew point"), held.tdew_f, (0, "°F"))
    else:
        yield default(
            tr("Dew point"), told(held.tmin_f or 0.0, 0, "°F"), tr("the lowest temperature")
        )
    if held.wind_mph is not None:
        yield _measured("wind", tr("Wind"), held.wind_mph, (1, "mph"))
    else:
        calm = float(m_per_s_to_mph(DEFAULT_WIND_M_PER_S))
        assumed = default(tr("Wind"), told(calm, 1, "mph"), tr("2 m/s, the mean of the world"))
        yield numbered(assumed, "wind", calm, "mph")
    if held.solar_mj_m2 is not None:
        yield _measured("sun", tr("Sun"), held.solar_mj_m2, (1, "MJ/m²"))
    else:
        yield default(tr("Sun"), tr("estimated"), tr("from the day's highest and lowest"))
    if yard.elevation_ft is not None:
        high = given(tr("Elevation"), told(yard.elevation_ft, 0, "ft"), tr("entered under Yard"))
        yield numbered(high, "elevation", yard.elevation_ft, "ft")
    else:
        yield default(tr("Elevation"), told(0.0, 0, "ft"), tr("sea level, until it is entered"))


def _measured(symbol: str, name: str, value: float, shown_as: tuple[int, str]) -> Input:
    places, unit = shown_as
    return numbered(given(name, told(value, places, unit), TABLE), symbol, value, unit)


@dataclass(frozen=True, slots=True)
class _EtoAnew:
    """A day's ETo (in) from other measurements, by the method that the day allows."""

    held: WeatherDay
    yard: Yard

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """ETo; NaN where none follows, as from a lowest temperature above the highest."""
        changed: dict[str, Any] = {
            field: numbers[each] for each, field in _FIELDS.items() if each in numbers
        }
        yard = replace(
            self.yard,
            latitude_deg=numbers.get("latitude", self.yard.latitude_deg),
            elevation_ft=numbers.get("elevation", self.yard.elevation_ft),
        )
        found = float(daily_eto([replace(self.held, **changed)], yard).eto_in[0])
        return found if math.isfinite(found) else math.nan
