"""Reference evapotranspiration from full weather: the FAO-56 day, and stand-ins for gaps.

deg C, mm/day, MJ/m2/day, kPa, m/s at 2 m. Weather is floats, or float64 arrays of one shape;
the same kind comes back. ValueError outside a formula's domain. Source: "fao56", chapters 3 and 4.
"""

import numpy as np

from lawnbook.agronomy.checks import finite, positive
from lawnbook.agronomy.evapotranspiration import (
    MM_PER_MJ,
    Value,
    mean_saturation_vapour_pressure_kpa,
    not_negative_values,
    plain,
    psychrometric_constant_kpa_per_c,
    temperature_swing_c,
)

ALBEDO = 0.23
STEFAN_BOLTZMANN_MJ_PER_M2_K4 = 4.903e-9
DEFAULT_WIND_M_PER_S = 2.0
"""Stands in for wind that was not measured (FAO-56, chapter 3)."""

INLAND_SWING = 0.16
COAST_SWING = 0.19
"""kRs of eq. 50, per root of a deg C: inland, and where a large water body rules the weather."""


def clear_sky_radiation_mj(ra_mj: Value, elevation_m: float) -> Value:
    """Rso: (0.75 + 0.00002 x elevation) Ra. FAO-56 eq. 37."""
    share = 0.75 + 2e-5 * finite("elevation_m", elevation_m)
    result: Value = plain(share * not_negative_values("ra_mj", ra_mj))
    return result


def radiation_from_swing_mj(
    tmax_c: Value, tmin_c: Value, ra_mj: Value, swing_factor: float = INLAND_SWING
) -> Value:
    """Rs where it was not measured: kRs sqrt(Tmax - Tmin) Ra, at most 0.75 Ra. FAO-56 eq. 50."""
    factor = positive("swing_factor", swing_factor)
    share = np.minimum(factor * np.sqrt(temperature_swing_c(tmax_c, tmin_c)), 0.75)
    result: Value = plain(share * not_negative_values("ra_mj", ra_mj))
    return result


def radiation_from_sunshine_mj(sunshine_h: Value, daylight_h: Value, ra_mj: Value) -> Value:
    """Rs from hours of bright sunshine out of those of daylight: (0.25 + 0.5 n/N) Ra.

    FAO-56 eq. 35 with the coefficients it gives where none were calibrated. More sunshine than
    daylight counts as all of it; 0 in the polar night.
    """
    sunshine = not_negative_values("sunshine_h", sunshine_h)
    daylight = not_negative_values("daylight_h", daylight_h)
    share = np.divide(sunshine, daylight, out=np.zeros_like(daylight), where=daylight > 0)
    result: Value = plain(
        (0.25 + 0.5 * np.minimum(share, 1.0)) * not_negative_values("ra_mj", ra_mj)
    )
    return result


def wind_at_2_m(wind_m_per_s: Value, height_m: float) -> Value:
    """u2 from wind measured at another height over grass. FAO-56 eq. 47. Height above 0.1 m."""
    if finite("height_m", height_m) <= 0.1:
        raise ValueError(f"height_m must be above 0.1, not {height_m}.")
    wind = not_negative_values("wind_m_per_s", wind_m_per_s)
    result: Value = plain(wind * (4.87 / np.log(67.8 * height_m - 5.42)))
    return result


def net_radiation_mj(
    tmax_c: Value, tmin_c: Value, ea_kpa: Value, solar_mj: Value, clear_sky_mj: Value
) -> Value:
    """Rn: what is kept of the sun less what is sent back to the sky. FAO-56 eq. 38 to 40.

    Solar over clear-sky radiation counts within 0.3 to 1; in the polar night, where both are
    zero, the sky counts as clear.
    """
    temperature_swing_c(tmax_c, tmin_c)
    solar = not_negative_values("solar_mj", solar_mj)
    clear = not_negative_values("clear_sky_mj", clear_sky_mj)
    vapour = not_negative_values("ea_kpa", ea_kpa)
    openness = np.divide(solar, clear, out=np.ones_like(solar), where=clear > 0)
    cloud = 1.35 * np.clip(openness, 0.3, 1.0) - 0.35
    kelvin_4 = (np.power(tmax_c + 273.16, 4) + np.power(tmin_c + 273.16, 4)) / 2.0
    longwave = STEFAN_BOLTZMANN_MJ_PER_M2_K4 * kelvin_4 * (0.34 - 0.14 * np.sqrt(vapour)) * cloud
    result: Value = plain((1.0 - ALBEDO) * solar - longwave)
    return result


def penman_monteith_eto_mm(
    tmax_c: Value,
    tmin_c: Value,
    ea_kpa: Value,
    net_mj: Value,
    wind_m_per_s: Value,
    elevation_m: float,
) -> Value:
    """ETo, mm/day, never below 0, by FAO-56 eq. 6 for a day (no heat kept by the soil).

    Air moister than saturated counts as saturated.
    """
    tmean = (np.asarray(tmax_c) + np.asarray(tmin_c)) / 2.0
    vapour = not_negative_values("ea_kpa", ea_kpa)
    wind = not_negative_values("wind_m_per_s", wind_m_per_s)
    net = np.asarray(net_mj, dtype=np.float64)
    if not np.isfinite(net).all():
        raise ValueError("net_mj must hold finite numbers only.")
    dryness = np.maximum(mean_saturation_vapour_pressure_kpa(tmax_c, tmin_c) - vapour, 0.0)
    slope = vapour_pressure_slope_kpa_per_c(tmean)
    gamma = psychrometric_constant_kpa_per_c(elevation_m)
    by_sun = MM_PER_MJ * slope * net
    by_air = gamma * 900.0 / (tmean + 273.0) * wind * dryness
    eto_mm = (by_sun + by_air) / (slope + gamma * (1.0 + 0.34 * wind))
    result: Value = plain(np.maximum(eto_mm, 0.0))
    return result


def vapour_pressure_slope_kpa_per_c(tmean_c: Value) -> Value:
    """Delta, kPa per deg C. FAO-56 eq. 13."""
    pressure = 0.6108 * np.exp(17.27 * tmean_c / (tmean_c + 237.3))
    result: Value = 4098.0 * pressure / (tmean_c + 237.3) ** 2
    return result
