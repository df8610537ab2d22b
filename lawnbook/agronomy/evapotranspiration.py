"""Reference evapotranspiration from temperature.

FAO-56 radiation geometry, vapour pressure and Hargreaves.

Metric: deg C, mm/day, MJ/m2/day, kPa. Weather arguments are floats, or float64 arrays of one shape;
the same kind comes back. ValueError for NaN and for anything outside a formula's domain. Sources:
"fao56", "hargreaves".
"""

from collections.abc import Sequence
from datetime import date
from typing import Any, TypeVar, overload

import numpy as np

from lawnbook.agronomy.checks import (
    Array,
    Reals,
    finite,
    finite_array,
    latitude,
    not_negative_array,
)
from lawnbook.agronomy.seasons import MONTHS
from lawnbook.agronomy.units import f_to_c, mm_to_in

Value = TypeVar("Value", float, Array)

SOLAR_CONSTANT_MJ_PER_M2_MIN = 0.0820
MM_PER_MJ = 0.408
"""Water evaporated by one MJ/m2: the inverse of the latent heat, 2.45 MJ/kg (FAO-56 eq. 20)."""


def plain(values: Any) -> Any:
    """A float for a zero-dimensional result, otherwise the array as it is."""
    return float(values) if np.ndim(values) == 0 else values


@overload
def extraterrestrial_radiation_mj(latitude_deg: float, day_of_year: float) -> float: ...
@overload
def extraterrestrial_radiation_mj(latitude_deg: float, day_of_year: Reals) -> Array: ...
def extraterrestrial_radiation_mj(latitude_deg: float, day_of_year: float | Reals) -> float | Array:
    """Ra, MJ/m2/day, on the first to 366th day of the year; 0 in the polar night.

    FAO-56 eq. 21 to 25.
    """
    phi, declination, sunset = _sun_angles(latitude_deg, day_of_year)
    nearness = 1.0 + 0.033 * np.cos(_year_angle(day_of_year))
    geometry = sunset * np.sin(phi) * np.sin(declination) + (
        np.cos(phi) * np.cos(declination) * np.sin(sunset)
    )
    minutes_per_turn = 24.0 * 60.0 / np.pi
    radiation = minutes_per_turn * SOLAR_CONSTANT_MJ_PER_M2_MIN * nearness * geometry
    result: float | Array = plain(np.maximum(radiation, 0.0))
    return result


@overload
def daylight_hours(latitude_deg: float, day_of_year: float) -> float: ...
@overload
def daylight_hours(latitude_deg: float, day_of_year: Reals) -> Array: ...
def daylight_hours(latitude_deg: float, day_of_year: float | Reals) -> float | Array:
    """N, hours from sunrise to sunset, 0 to 24. FAO-56 eq. 34."""
    _, _, sunset = _sun_angles(latitude_deg, day_of_year)
    result: float | Array = plain(24.0 / np.pi * sunset)
    return result


def hargreaves_eto_mm(tmean_c: Value, tmax_c: Value, tmin_c: Value, ra_mj: Value) -> Value:
    """ETo, mm/day, never below 0, by FAO-56 eq. 52.

    0.0023 (Tmean + 17.8) sqrt(Tmax - Tmin) x 0.408 Ra.
    ValueError where tmax is below tmin or Ra below 0.
    """
    mean, swing = finite_array("tmean_c", np.asarray(tmean_c)), temperature_swing_c(tmax_c, tmin_c)
    radiation_mm = MM_PER_MJ * not_negative_values("ra_mj", ra_mj)
    eto_mm = 0.0023 * (mean + 17.8) * np.sqrt(swing) * radiation_mm
    result: Value = plain(np.maximum(eto_mm, 0.0))
    return result


def saturation_vapour_pressure_kpa(temperature_c: Value) -> Value:
    """e0(T), kPa, by FAO-56 eq. 11.

    0.6108 exp(17.27 T / (T + 237.3)). ValueError at -237.3 deg C and below.
    """
    temperature = finite_array("temperature_c", np.asarray(temperature_c))
    if (temperature <= -237.3).any():
        raise ValueError("temperature_c must be above -237.3.")
    result: Value = plain(0.6108 * np.exp(17.27 * temperature / (temperature + 237.3)))
    return result


def mean_saturation_vapour_pressure_kpa(tmax_c: Value, tmin_c: Value) -> Value:
    """es, kPa: the mean of e0 at the day's highest and lowest temperature. FAO-56 eq. 12."""
    temperature_swing_c(tmax_c, tmin_c)
    both = saturation_vapour_pressure_kpa(tmax_c) + saturation_vapour_pressure_kpa(tmin_c)
    return both / 2.0


def vapour_pressure_from_humidity_kpa(
    tmax_c: Value, tmin_c: Value, humidity_max_pct: Value, humidity_min_pct: Value
) -> Value:
    """ea, kPa, from the day's highest and lowest relative humidity (0-100). FAO-56 eq. 17."""
    temperature_swing_c(tmax_c, tmin_c)
    high = not_negative_values("humidity_max_pct", humidity_max_pct)
    low = not_negative_values("humidity_min_pct", humidity_min_pct)
    if (high > 100.0).any() or (low > high).any():
        raise ValueError("Humidity must lie within 0 to 100, the lowest not above the highest.")
    coolest, warmest = (saturation_vapour_pressure_kpa(each) for each in (tmin_c, tmax_c))
    result: Value = plain((coolest * high + warmest * low) / 200.0)
    return result


def vapour_pressure_from_mean_humidity_kpa(
    tmax_c: Value, tmin_c: Value, humidity_pct: Value
) -> Value:
    """ea, kPa, from the day's mean relative humidity (0-100). FAO-56 eq. 19."""
    humidity = not_negative_values("humidity_pct", humidity_pct)
    if (humidity > 100.0).any():
        raise ValueError("Humidity must lie within 0 to 100.")
    result: Value = plain(
        humidity / 100.0 * np.asarray(mean_saturation_vapour_pressure_kpa(tmax_c, tmin_c))
    )
    return result


def dew_point_c(ea_kpa: Value) -> Value:
    """The temperature at which air of this vapour pressure is saturated: FAO-56 eq. 14 turned.

    ValueError unless the pressure is above 0.
    """
    pressure = not_negative_values("ea_kpa", ea_kpa)
    if (pressure <= 0).any():
        raise ValueError("ea_kpa must be above 0.")
    log = np.log(pressure / 0.6108)
    result: Value = plain(237.3 * log / (17.27 - log))
    return result


def atmospheric_pressure_kpa(elevation_m: float) -> float:
    """Mean air pressure, kPa, at an elevation. FAO-56 eq. 7. ValueError outside -500 to 9,000 m."""
    if not -500.0 <= finite("elevation_m", elevation_m) <= 9000.0:
        raise ValueError(f"elevation_m must lie between -500 and 9000, not {elevation_m}.")
    return float(101.3 * ((293.0 - 0.0065 * elevation_m) / 293.0) ** 5.26)


def psychrometric_constant_kpa_per_c(elevation_m: float) -> float:
    """Gamma, kPa per deg C: 0.000665 x pressure. FAO-56 eq. 8."""
    return 0.665e-3 * atmospheric_pressure_kpa(elevation_m)


def temperature_swing_c(tmax_c: Value, tmin_c: Value) -> Array:
    """Tmax - Tmin, deg C (as an array); ValueError where it is negative."""
    swing = finite_array("tmax_c", np.asarray(tmax_c)) - finite_array("tmin_c", np.asarray(tmin_c))
    if (swing < 0).any():
        raise ValueError("tmax_c must not be below tmin_c.")
    return swing


def not_negative_values(name: str, values: float | Array) -> Array:
    """Weather as an array; ValueError unless all of it is finite and zero or more."""
    return not_negative_array(name, np.asarray(values))


def monthly_radiation_mj(latitude_deg: float) -> tuple[float, ...]:
    """Ra averaged over the days of each month of a common year, January to December, MJ/m2/day."""
    daily = extraterrestrial_radiation_mj(latitude_deg, np.arange(1.0, 366.0))
    starts = [date(2023, month, 1).timetuple().tm_yday - 1 for month in range(1, MONTHS + 1)]
    ends = [*starts[1:], 365]
    return tuple(float(daily[a:b].mean()) for a, b in zip(starts, ends, strict=True))


def hargreaves_monthly_in_per_day(
    latitude_deg: float, tmax_f: Sequence[float], tmin_f: Sequence[float]
) -> tuple[float, ...]:
    """Mean ETo of each month, in/day, from 12 monthly mean highs and lows in deg F. FAO-56 eq. 52.

    ValueError unless there are 12 of each.
    """
    if not len(tmax_f) == len(tmin_f) == MONTHS:
        raise ValueError("Monthly temperatures come in twelves.")
    highs_c = f_to_c(finite_array("tmax_f", tmax_f))
    lows_c = f_to_c(finite_array("tmin_f", tmin_f))
    radiation = np.asarray(monthly_radiation_mj(latitude_deg))
    eto_mm = hargreaves_eto_mm((highs_c + lows_c) / 2.0, highs_c, lows_c, radiation)
    return tuple(mm_to_in(eto_mm).tolist())


def _year_angle(day_of_year: float | Reals) -> Array:
    return 2.0 * np.pi / 365.0 * _day(day_of_year)


def _day(day_of_year: float | Reals) -> Array:
    days = finite_array("day_of_year", np.asarray(day_of_year))
    if ((days < 1) | (days > 366)).any():
        raise ValueError("day_of_year must lie between 1 and 366.")
    return days


def _sun_angles(latitude_deg: float, day_of_year: float | Reals) -> tuple[float, Array, Array]:
    """Latitude, declination and sunset hour angle in radians; FAO-56 eq. 22, 24 and 25.

    The clip keeps polar days: the sun stays up all day (pi) or down all day (0).
    """
    phi = float(np.deg2rad(latitude(latitude_deg)))
    declination = 0.409 * np.sin(_year_angle(day_of_year) - 1.39)
    sunset = np.arccos(np.clip(-np.tan(phi) * np.tan(declination), -1.0, 1.0))
    return phi, declination, sunset
