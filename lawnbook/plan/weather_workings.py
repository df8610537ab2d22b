"""How the figures of a day of weather came about: its ETo by the method it allows, and its rain."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from lawnbook.agronomy.penman_monteith import DEFAULT_WIND_M_PER_S
from lawnbook.agronomy.units import m_per_s_to_mph
from lawnbook.frozen import dataclass
from lawnbook.plan.daily_eto import HARGREAVES, REPORTED, UNKNOWN, daily_eto, eto_terms
from lawnbook.plan.eto_workings import formula_of, terms_told
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
    terms = eto_terms(held, yard)
    inputs = [*_used(held, yard, code), *terms_told(terms, code)]
    return _working(held, eto, formula_of(terms, code), inputs, yard, code)


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
        reckons("{eto}", "in")
        if yard is None
        else replace(by_function(_EtoAnew(held, yard), "in", 3), si_unit="mm")
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


def _used(held: WeatherDay, yard: Yard, code: int) -> Iterator[Input]:
    yield _measured("low", tr("Lowest temperature"), held.tmin_f or 0.0, (0, "°F"))
    yield _measured("high", tr("Highest temperature"), held.tmax_f or 0.0, (0, "°F"))
    latitude = given(
        tr("Latitude"), f"{told(yard.latitude_deg or 0.0, 2)}°", tr("entered under Yard")
    )
    yield numbered(latitude, "latitude", yard.latitude_deg or 0.0, "°")
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
