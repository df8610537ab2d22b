"""Radiation, vapour pressure and Hargreaves against FAO-56's worked examples and pyet."""

import importlib
import math
from typing import Any

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import evapotranspiration as et

SEATTLE_LATITUDE_DEG = 47.6


@pytest.fixture(scope="module")
def pyet() -> Any:
    """The reference library for evapotranspiration."""
    return importlib.import_module("pyet")


@pytest.fixture(scope="module")
def seattle() -> Any:
    """Daily weather 2012-2015 (NOAA), deg C and mm, by date."""
    data = importlib.import_module("vega_datasets").local_data
    return data.seattle_weather().set_index("date")


def test_radiation_of_example_8() -> None:
    # FAO-56 example 8: 3 September (day 246) at 20 deg S.
    assert et.extraterrestrial_radiation_mj(-20.0, 246) == pytest.approx(32.2, abs=0.05)


def test_daylight_of_example_9() -> None:
    # FAO-56 example 9, the same day and place.
    assert et.daylight_hours(-20.0, 246) == pytest.approx(11.7, abs=0.05)


def test_pressure_of_example_2() -> None:
    # FAO-56 example 2: 1,800 m; gamma 0.054 kPa per deg C.
    assert et.atmospheric_pressure_kpa(1800.0) == pytest.approx(81.8, abs=0.05)
    assert et.psychrometric_constant_kpa_per_c(1800.0) == pytest.approx(0.054, abs=0.0005)


def test_saturation_of_example_3() -> None:
    # FAO-56 example 3: 24.5 and 15.0 deg C.
    assert et.saturation_vapour_pressure_kpa(24.5) == pytest.approx(3.075, abs=0.0015)
    assert et.saturation_vapour_pressure_kpa(15.0) == pytest.approx(1.705, abs=0.0015)
    assert et.mean_saturation_vapour_pressure_kpa(24.5, 15.0) == pytest.approx(2.39, abs=0.005)


def test_vapour_pressure_of_example_5() -> None:
    # FAO-56 example 5: 25 and 18 deg C, 82 and 54 % humidity.
    pressure = et.vapour_pressure_from_humidity_kpa(25.0, 18.0, 82.0, 54.0)
    assert pressure == pytest.approx(1.70, abs=0.005)


def test_pressure_of_example_4() -> None:
    # FAO-56 example 4: 1,200 m.
    assert et.atmospheric_pressure_kpa(1200.0) == pytest.approx(87.9, abs=0.05)


def test_vapour_pressure_of_mean_humidity_and_back() -> None:
    # FAO-56 example 5: 25 and 18 deg C; of the mean humidity, 68 %, eq. 19 gives 1.78 kPa.
    pressure = et.vapour_pressure_from_mean_humidity_kpa(25.0, 18.0, 68.0)
    assert pressure == pytest.approx(1.78, abs=0.005)
    assert et.saturation_vapour_pressure_kpa(et.dew_point_c(pressure)) == pytest.approx(pressure)


def test_dew_point_of_example_20() -> None:
    # FAO-56 example 20: a dew point of 14.8 deg C is 1.68 kPa.
    assert et.saturation_vapour_pressure_kpa(14.8) == pytest.approx(1.68, abs=0.005)
    assert et.dew_point_c(et.saturation_vapour_pressure_kpa(14.8)) == pytest.approx(14.8)


@pytest.mark.parametrize("latitude_deg", [-54.8, -33.0, 0.0, 23.4, 47.6, 64.0])
def test_radiation_agrees_with_pyet(pyet: Any, seattle: Any, latitude_deg: float) -> None:
    # pyet.extraterrestrial_r and pyet.daylight_hours
    days = seattle.index.dayofyear.to_numpy()
    phi = math.radians(latitude_deg)
    assert et.extraterrestrial_radiation_mj(latitude_deg, days) == pytest.approx(
        pyet.extraterrestrial_r(seattle.index, phi).to_numpy(), rel=1e-6
    )
    assert et.daylight_hours(latitude_deg, days) == pytest.approx(
        np.asarray(pyet.daylight_hours(seattle.index, phi)), rel=1e-6
    )


def test_hargreaves_agrees_with_pyet(pyet: Any, seattle: Any) -> None:
    # pyet.hargreaves lets the latent heat vary with temperature; FAO-56 holds it at 2.45 MJ/kg.
    highs, lows = seattle["temp_max"], seattle["temp_min"]
    means = (highs + lows) / 2.0
    reference = pyet.hargreaves(means, highs, lows, math.radians(SEATTLE_LATITUDE_DEG))
    at_fixed_heat = (reference * pyet.calc_lambda(means) * 0.408).to_numpy()
    radiation = et.extraterrestrial_radiation_mj(
        SEATTLE_LATITUDE_DEG, seattle.index.dayofyear.to_numpy()
    )
    ours = et.hargreaves_eto_mm(means.to_numpy(), highs.to_numpy(), lows.to_numpy(), radiation)
    assert ours == pytest.approx(at_fixed_heat, rel=1e-5)


@pytest.mark.parametrize(
    ("latitude_deg", "day", "hours"),
    [(90, 172, 24), (-90, 172, 0), (70, 172, 24), (70, 355, 0), (-70, 355, 24), (0, 80, 12)],
)
def test_polar_days_and_nights(latitude_deg: float, day: int, hours: float) -> None:
    assert et.daylight_hours(latitude_deg, day) == pytest.approx(hours, abs=0.01)
    assert (et.extraterrestrial_radiation_mj(latitude_deg, day) > 0.0) == (hours > 0)


@given(st.floats(-90, 90), st.integers(1, 366))
def test_radiation_everywhere(latitude_deg: float, day: int) -> None:
    radiation = et.extraterrestrial_radiation_mj(latitude_deg, day)
    # Nothing on Earth gets more than the December pole, some 48 MJ/m2/day.
    assert 0.0 <= radiation < 49.0
    assert 0.0 <= et.daylight_hours(latitude_deg, day) <= 24.0


def test_floats_give_floats_and_arrays_give_arrays() -> None:
    assert type(et.extraterrestrial_radiation_mj(40.0, 100)) is float
    assert type(et.hargreaves_eto_mm(20.0, 27.0, 13.0, 35.0)) is float
    one = et.hargreaves_eto_mm(20.0, 27.0, 13.0, 35.0)
    many = et.hargreaves_eto_mm(*(np.full(3, value) for value in (20.0, 27.0, 13.0, 35.0)))
    assert many.tolist() == [one] * 3


def test_hargreaves_is_never_below_zero() -> None:
    assert et.hargreaves_eto_mm(-30.0, -25.0, -35.0, 5.0) == 0.0


@given(st.floats(-15, 35), st.floats(0, 25), st.floats(0, 45))
def test_hargreaves_grows_with_the_sun(mean_c: float, swing_c: float, ra_mj: float) -> None:
    high, low = mean_c + swing_c / 2, mean_c - swing_c / 2
    assert et.hargreaves_eto_mm(mean_c, high, low, ra_mj) <= et.hargreaves_eto_mm(
        mean_c, high, low, ra_mj + 1.0
    )


@pytest.mark.parametrize("latitude_deg", [-35.0, 0.0, 40.0, 65.0])
def test_monthly_radiation_agrees_with_pyet(pyet: Any, latitude_deg: float) -> None:
    # pyet.extraterrestrial_r, averaged by pandas over the months of a common year
    year = pd.date_range("2023-01-01", "2023-12-31")
    daily = pyet.extraterrestrial_r(year, math.radians(latitude_deg))
    means = daily.groupby(year.month).mean().to_numpy()
    assert et.monthly_radiation_mj(latitude_deg) == pytest.approx(tuple(means), rel=1e-6)


def test_monthly_hargreaves_follows_the_daily_formula() -> None:
    highs_f, lows_f = [77.0] * 12, [59.0] * 12
    june_in = et.hargreaves_monthly_in_per_day(40.0, highs_f, lows_f)[5]
    june_mm = et.hargreaves_eto_mm(20.0, 25.0, 15.0, et.monthly_radiation_mj(40.0)[5])
    assert june_in == pytest.approx(june_mm / 25.4)


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="latitude_deg must lie between"):
        et.extraterrestrial_radiation_mj(91.0, 1)
    with pytest.raises(ValueError, match="day_of_year must lie between"):
        et.daylight_hours(40.0, np.array([1, 367]))
    with pytest.raises(ValueError, match="tmax_c must not be below tmin_c"):
        et.hargreaves_eto_mm(20.0, 10.0, 30.0, 35.0)
    with pytest.raises(ValueError, match="tmean_c must hold finite numbers"):
        et.hargreaves_eto_mm(math.nan, 30.0, 10.0, 35.0)
    with pytest.raises(ValueError, match="ra_mj must be zero or more"):
        et.hargreaves_eto_mm(20.0, 30.0, 10.0, -1.0)
    with pytest.raises(ValueError, match=r"above -237\.3"):
        et.saturation_vapour_pressure_kpa(-240.0)
    with pytest.raises(ValueError, match="Humidity must lie within 0 to 100"):
        et.vapour_pressure_from_humidity_kpa(25.0, 18.0, 54.0, 82.0)
    with pytest.raises(ValueError, match="Humidity must lie within 0 to 100"):
        et.vapour_pressure_from_mean_humidity_kpa(25.0, 18.0, 101.0)
    with pytest.raises(ValueError, match="ea_kpa must be above 0"):
        et.dew_point_c(0.0)
    with pytest.raises(ValueError, match="elevation_m must lie between"):
        et.atmospheric_pressure_kpa(12000.0)
    with pytest.raises(ValueError, match="come in twelves"):
        et.hargreaves_monthly_in_per_day(40.0, [70.0] * 11, [50.0] * 11)
