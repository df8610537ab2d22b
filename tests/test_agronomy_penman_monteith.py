"""The FAO-56 day and its stand-ins, against worked examples and the refet library."""

import importlib
import math
from typing import Any

import numpy as np
import pytest

from lawnbook.agronomy import penman_monteith as pm
from lawnbook.agronomy.evapotranspiration import (
    extraterrestrial_radiation_mj,
    hargreaves_eto_mm,
    saturation_vapour_pressure_kpa,
    vapour_pressure_from_humidity_kpa,
)

SEATTLE_LATITUDE_DEG = 47.6
SEATTLE_ELEVATION_M = 56.0


def test_uccle_of_example_18() -> None:
    # FAO-56 example 18: Uccle (Brussels), 6 July, 50.80 deg N, 100 m.
    ra = extraterrestrial_radiation_mj(50.80, 187)
    ea = vapour_pressure_from_humidity_kpa(21.5, 12.3, 84.0, 63.0)
    wind = pm.wind_at_2_m(10.0 / 3.6, 10.0)
    net = pm.net_radiation_mj(21.5, 12.3, ea, 22.07, pm.clear_sky_radiation_mj(ra, 100.0))
    assert ra == pytest.approx(41.09, abs=0.005)
    assert ea == pytest.approx(1.409, abs=0.0005)
    assert wind == pytest.approx(2.078, abs=0.001)
    assert net == pytest.approx(13.28, abs=0.01)
    eto = pm.penman_monteith_eto_mm(21.5, 12.3, ea, net, wind, 100.0)
    assert eto == pytest.approx(3.88, abs=0.005)


def test_bangkok_of_example_17() -> None:
    # FAO-56 example 17: Bangkok in April, 13.73 deg N, 2 m; 34.8 and 25.6 deg C, ea 2.85 kPa, wind
    # 2 m/s, Rn 14.33 less G 0.14 MJ/m2/day: 5.72 mm/day (the printed steps are rounded).
    net = 14.33 - 0.14
    eto = pm.penman_monteith_eto_mm(34.8, 25.6, 2.85, net, 2.0, 2.0)
    assert eto == pytest.approx(5.72, abs=0.02)


def test_lyon_of_example_20_without_measurements() -> None:
    # FAO-56 examples 15 and 20: Lyon in July, 45.72 deg N, 200 m, 26.6 and 14.8 deg C alone. Rs by
    # eq. 50 is 22.3 MJ/m2/day, ea by eq. 48 1.68 kPa; the results, 4.56 mm/day by eq. 6 and 5.0 by
    # Hargreaves (eq. 52), are from memory.
    ra = extraterrestrial_radiation_mj(45.72, 196)
    solar = pm.radiation_from_swing_mj(26.6, 14.8, ra)
    assert ra == pytest.approx(40.6, abs=0.05)
    assert solar == pytest.approx(22.3, abs=0.05)
    ea = saturation_vapour_pressure_kpa(14.8)
    net = pm.net_radiation_mj(26.6, 14.8, ea, solar, pm.clear_sky_radiation_mj(ra, 200.0))
    eto = pm.penman_monteith_eto_mm(26.6, 14.8, ea, net, pm.DEFAULT_WIND_M_PER_S, 200.0)
    assert eto == pytest.approx(4.56, abs=0.01)
    assert hargreaves_eto_mm(20.7, 26.6, 14.8, ra) == pytest.approx(5.0, abs=0.05)


def test_sunshine_of_example_10() -> None:
    # FAO-56 example 10: 7.1 of 10.9 h, Ra 25.1 MJ/m2/day: 14.45.
    assert pm.radiation_from_sunshine_mj(7.1, 10.9, 25.1) == pytest.approx(14.45, abs=0.02)
    assert pm.radiation_from_sunshine_mj(12.0, 10.9, 25.1) == pytest.approx(0.75 * 25.1)
    assert pm.radiation_from_sunshine_mj(0.0, 0.0, 0.0) == 0.0


def test_clear_sky_of_example_18() -> None:
    # FAO-56 example 18: Ra 41.09 at 100 m is 30.90 MJ/m2/day under a clear sky.
    assert pm.clear_sky_radiation_mj(41.09, 100.0) == pytest.approx(30.90, abs=0.005)


def test_long_waves_of_example_11() -> None:
    # FAO-56 example 11: Rs 14.5, Rso 18.8, ea 2.1, 25.1 and 19.1 deg C give Rnl 3.5 MJ/m2/day.
    net = pm.net_radiation_mj(25.1, 19.1, 2.1, 14.5, 18.8)
    assert 0.77 * 14.5 - net == pytest.approx(3.5, abs=0.05)


def test_wind_of_example_14() -> None:
    # FAO-56 example 14: 3.2 m/s at 10 m is 2.4 m/s at 2 m.
    assert pm.wind_at_2_m(3.2, 10.0) == pytest.approx(2.4, abs=0.05)
    assert pm.wind_at_2_m(3.2, 2.0) == pytest.approx(3.2, rel=2e-3)


def test_four_years_of_seattle_agree_with_refet() -> None:
    # refet.Daily, the ASCE standardized short reference, which is FAO-56 for a day.
    refet = importlib.import_module("refet")
    weather: Any = importlib.import_module("vega_datasets").local_data.seattle_weather()
    days = weather["date"].dt.dayofyear.to_numpy()
    highs, lows = (weather[name].to_numpy(dtype=float) for name in ("temp_max", "temp_min"))
    wind = weather["wind"].to_numpy(dtype=float)
    ra = extraterrestrial_radiation_mj(SEATTLE_LATITUDE_DEG, days)
    solar = pm.radiation_from_swing_mj(highs, lows, ra)
    ea = saturation_vapour_pressure_kpa(lows)
    clear = pm.clear_sky_radiation_mj(ra, SEATTLE_ELEVATION_M)
    net = pm.net_radiation_mj(highs, lows, ea, solar, clear)
    ours = pm.penman_monteith_eto_mm(highs, lows, ea, net, wind, SEATTLE_ELEVATION_M)
    reference = refet.Daily(
        tmin=lows,
        tmax=highs,
        rs=solar,
        uz=wind,
        zw=2,
        elev=SEATTLE_ELEVATION_M,
        lat=SEATTLE_LATITUDE_DEG,
        doy=days,
        ea=ea,
        rso_type="simple",
    ).eto()
    assert len(ours) == 1461
    assert ours == pytest.approx(reference, rel=2e-3, abs=2e-3)


def test_radiation_from_swing_stays_under_a_clear_sky() -> None:
    # FAO-56 eq. 50: 0.16 x sqrt(9) = 0.48 of Ra; a wild swing counts as a clear day.
    assert pm.radiation_from_swing_mj(24.0, 15.0, 40.0) == pytest.approx(0.48 * 40.0)
    assert pm.radiation_from_swing_mj(24.0, 15.0, 40.0, pm.COAST_SWING) == pytest.approx(22.8)
    assert pm.radiation_from_swing_mj(40.0, 0.0, 40.0) == pytest.approx(0.75 * 40.0)


def test_a_saturated_polar_night_uses_no_water() -> None:
    net = pm.net_radiation_mj(-20.0, -30.0, 0.05, 0.0, 0.0)
    assert net < 0.0
    assert pm.penman_monteith_eto_mm(-20.0, -30.0, 0.2, net, 2.0, 0.0) == 0.0


def test_floats_give_floats() -> None:
    assert type(pm.net_radiation_mj(25.0, 15.0, 1.5, 20.0, 28.0)) is float
    assert type(pm.penman_monteith_eto_mm(25.0, 15.0, 1.5, 12.0, 2.0, 100.0)) is float


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match=r"height_m must be above 0\.1"):
        pm.wind_at_2_m(2.0, 0.05)
    with pytest.raises(ValueError, match="wind_m_per_s must be zero or more"):
        pm.penman_monteith_eto_mm(25.0, 15.0, 1.5, 12.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="net_mj must hold finite numbers"):
        pm.penman_monteith_eto_mm(25.0, 15.0, 1.5, math.nan, 1.0, 100.0)
    with pytest.raises(ValueError, match="tmax_c must not be below"):
        pm.net_radiation_mj(
            np.array([20.0]), np.array([25.0]), np.array([1.0]), np.array([9.0]), np.array([20.0])
        )
