"""Each day's ETo by the best method its measurements allow, against reference libraries."""

import importlib
import math
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.daily_eto import METHODS, daily_eto
from lawnbook.plan.water_model import EtoMethod, MethodDays
from lawnbook.plan.weather import SEA_LEVEL, weather_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import WeatherDay, Yard
from tests.plan_yards import weather_day, yard

LATITUDE_DEG, ELEVATION_FT = 47.45, 370.0
PLACE = Yard(id="yard", name="Seattle", latitude_deg=LATITUDE_DEG, elevation_ft=ELEVATION_FT)
JUNE_1 = date(2026, 6, 1)
ALL = {"tmin_f": 55.0, "tmax_f": 80.0, "tdew_f": 52.0, "wind_mph": 4.0, "solar_mj_m2": 24.0}


def without(*names: str) -> dict[str, float]:
    """All measurements of a day but some."""
    return {name: value for name, value in ALL.items() if name not in names}


def method_of(values: dict[str, float], place: Yard = PLACE) -> EtoMethod | None:
    """The method of one day on which this was measured."""
    code = int(daily_eto([weather_day(JUNE_1, **values)], place).codes[0])
    return METHODS[code] if code >= 0 else None


@pytest.mark.parametrize(
    ("values", "method"),
    [
        ({**ALL, "reported_eto_in": 0.2}, "reported"),
        ({"reported_eto_in": 0.2}, "reported"),
        (ALL, "Penman–Monteith"),
        (without("wind_mph"), "Penman–Monteith, gaps estimated"),
        (without("tdew_f"), "Penman–Monteith, gaps estimated"),
        (without("solar_mj_m2"), "Penman–Monteith, gaps estimated"),
        (without("wind_mph", "solar_mj_m2"), "Penman–Monteith, gaps estimated"),
        (without("tdew_f", "solar_mj_m2"), "Hargreaves"),
        (without("tdew_f", "solar_mj_m2", "wind_mph"), "Hargreaves"),
        (without("tmin_f"), None),
        ({**ALL, "tmin_f": 81.0}, None),
        ({**without("solar_mj_m2"), "tdew_f": 81.0}, "Hargreaves"),
        ({**ALL, "tdew_f": 60.0}, "Penman–Monteith"),
        ({**ALL, "solar_mj_m2": 49.0}, "Penman–Monteith, gaps estimated"),
    ],
)
def test_the_best_method_that_the_measurements_allow(
    values: dict[str, float], method: EtoMethod | None
) -> None:
    assert method_of(values) == method


def test_without_the_latitude_only_a_reported_eto_is_known() -> None:
    nowhere = replace(PLACE, latitude_deg=None)
    assert method_of(ALL, nowhere) is None
    assert method_of({**ALL, "reported_eto_in": 0.2}, nowhere) == "reported"


@given(st.floats(-60, 110), st.floats(0, 40), st.floats(-90, 110), st.floats(0, 50))
def test_no_measurement_breaks_it_or_gives_less_than_nothing(
    low_f: float, swing_f: float, dew_f: float, solar: float
) -> None:
    day = weather_day(JUNE_1, tmin_f=low_f, tmax_f=low_f + swing_f, tdew_f=dew_f, solar_mj_m2=solar)
    eto = float(daily_eto([day], PLACE).eto_in[0])
    assert 0.0 <= eto < 1.5


def seattle() -> Any:
    """The daily Seattle series 2012-2015 (NOAA) of vega_datasets: °C, mm, m/s."""
    return importlib.import_module("vega_datasets").local_data.seattle_weather()


def seattle_days(**columns: Any) -> list[WeatherDay]:
    """The series as days of a notebook, with more columns."""
    frame = seattle()
    low, high = frame["temp_min"] * 1.8 + 32, frame["temp_max"] * 1.8 + 32
    return [
        weather_day(
            frame["date"][n].date(),
            tmin_f=float(low[n]),
            tmax_f=float(high[n]),
            **{name: float(values[n]) for name, values in columns.items()},
        )
        for n in range(len(frame))
    ]


def test_hargreaves_on_seattle_agrees_with_pyet() -> None:
    """pyet lets the latent heat follow the temperature; FAO-56 eq. 20 keeps 0.408 mm per MJ."""
    pyet = importlib.import_module("pyet")
    frame = seattle().set_index("date")
    mean = (frame["temp_max"] + frame["temp_min"]) / 2
    theirs = pyet.hargreaves(mean, frame["temp_max"], frame["temp_min"], math.radians(LATITUDE_DEG))
    at_fixed_heat = (theirs * pyet.calc_lambda(mean) * 0.408).to_numpy()
    ours = daily_eto(seattle_days(wind_mph=seattle()["wind"] / 0.44704), PLACE)
    assert set(ours.codes.tolist()) == {METHODS.index("Hargreaves")}
    assert ours.eto_in * 25.4 == pytest.approx(at_fixed_heat, rel=0.005)


def reference(
    which: str, dew_c: Any, wind_m_s: Any, solar_mj: Any
) -> "np.ndarray[Any, np.dtype[np.float64]]":
    """Penman–Monteith ETo of the Seattle series, mm, by one of two libraries."""
    frame = seattle().set_index("date")
    low, high, elevation_m = frame["temp_min"], frame["temp_max"], ELEVATION_FT * 0.3048
    pyet = importlib.import_module("pyet")
    vapour = pyet.calc_e0(dew_c)
    if which == "pyet":
        clear = (0.75 + 2e-5 * elevation_m) * pyet.extraterrestrial_r(
            frame.index, math.radians(LATITUDE_DEG)
        )
        eto = pyet.pm_fao56(
            (low + high) / 2,
            wind_m_s,
            rs=solar_mj,
            tmax=high,
            tmin=low,
            elevation=elevation_m,
            lat=math.radians(LATITUDE_DEG),
            rso=clear,
            ea=np.minimum(vapour, pyet.calc_es(tmax=high, tmin=low)),
        )
        return np.asarray(eto)
    refet = importlib.import_module("refet")
    eto = refet.Daily(
        tmin=low.to_numpy(),
        tmax=high.to_numpy(),
        rs=solar_mj.to_numpy(),
        uz=wind_m_s.to_numpy(),
        zw=2,
        elev=elevation_m,
        lat=LATITUDE_DEG,
        doy=frame.index.dayofyear.to_numpy(),
        ea=vapour.to_numpy(),
        rso_type="simple",
    ).eto()
    return np.asarray(eto)


@pytest.mark.parametrize("library", ["pyet", "refet"])
@pytest.mark.parametrize("measured", [{"dew"}, {"sun"}, {"dew", "wind"}, {"dew", "sun", "wind"}])
def test_penman_monteith_on_seattle_agrees(library: str, measured: set[str]) -> None:
    """With everything measured, and with each of the stand-ins of FAO-56 chapter 3.

    Sun and dew point are not in the series: a sun of our choice, and a dew point 2 °C below the
    night's low, are given to both sides. A stand-in is worked out here by its rule: eq. 48 (dew
    point is the low), eq. 50 (0.16 × root of the swing × Ra, at most 0.75 Ra), wind 2 m/s.
    pyet.pm_fao56, and refet.Daily: the ASCE standardized short reference, FAO-56 for a day.
    """
    pyet = importlib.import_module("pyet")
    frame = seattle().set_index("date")
    ra = pyet.extraterrestrial_r(frame.index, math.radians(LATITUDE_DEG))
    swing = np.sqrt(frame["temp_max"] - frame["temp_min"])
    dew = frame["temp_min"] - 2.0 * ("dew" in measured)
    wind = frame["wind"] if "wind" in measured else frame["wind"] * 0 + 2.0
    solar = ra * (0.55 if "sun" in measured else np.minimum(0.16 * swing, 0.75))
    columns = {
        **({"tdew_f": (dew * 1.8 + 32).to_numpy()} if "dew" in measured else {}),
        **({"wind_mph": (wind / 0.44704).to_numpy()} if "wind" in measured else {}),
        **({"solar_mj_m2": solar.to_numpy()} if "sun" in measured else {}),
    }
    ours = daily_eto(seattle_days(**columns), PLACE)
    whole = len(measured) == 3
    name = "Penman–Monteith" if whole else "Penman–Monteith, gaps estimated"
    assert set(ours.codes.tolist()) == {METHODS.index(name)}
    theirs = reference(library, dew, wind, solar)
    assert ours.eto_in * 25.4 == pytest.approx(theirs, rel=0.005, abs=0.005)


def gappy() -> Notebook:
    """June: ten days by Hargreaves, a hole of two, one reported; no climate."""
    days = [
        weather_day(JUNE_1 + timedelta(days=n), tmin_f=50.0, tmax_f=80.0, rain_in=0.1)
        for n in range(10)
    ]
    last = weather_day(JUNE_1 + timedelta(days=12), reported_eto_in=0.3)
    return yard(weather=[*days, last], climate=())


def test_gaps_are_filled_with_the_months_mean_and_marked() -> None:
    weather = weather_of(gappy())
    mean = weather.month(6).eto_in_per_day
    assert mean is not None
    assert weather.filled.tolist() == [False] * 10 + [True, True, False]
    assert weather.filled_eto_in[10:].tolist() == [mean, mean, 0.3]
    assert np.isnan(weather.eto_in[10:12]).all()
    assert weather.methods == (*["Hargreaves"] * 10, "filled", "filled", "reported")
    assert weather.eto_days == (
        MethodDays(method="reported", days=1),
        MethodDays(method="Hargreaves", days=10),
        MethodDays(method="filled", days=2),
    )


def test_the_months_own_mean_is_of_its_own_days_not_of_filled_ones() -> None:
    weather = weather_of(gappy())
    own = weather.eto_in[~np.isnan(weather.eto_in)]
    assert weather.month(6).eto_in_per_day == pytest.approx(float(own.mean()))


def test_a_gap_in_a_month_nobody_knows_stays_unknown() -> None:
    days = [weather_day(date(2026, 5, 31), reported_eto_in=0.2), weather_day(JUNE_1, rain_in=0.4)]
    weather = weather_of(yard(weather=days, climate=()))
    assert weather.methods == ("reported", None)
    assert np.isnan(weather.filled_eto_in[1])
    assert weather.eto_days == (MethodDays(method="reported", days=1),)


@pytest.mark.parametrize(
    ("values", "rain_in", "known"),
    [
        ({"rain_in": 0.3}, 0.3, True),
        ({"rain_in": 0.3, "gauge_in": 0.5}, 0.5, True),
        ({"rain_in": 0.3, "gauge_in": 0.0}, 0.0, True),
        ({"gauge_in": 0.2}, 0.2, True),
        ({"tmax_f": 70.0}, 0.0, False),
    ],
)
def test_the_owners_gauge_goes_before_the_station(
    values: dict[str, float], rain_in: float, known: bool
) -> None:
    weather = weather_of(yard(weather=[weather_day(JUNE_1, **values)]))
    assert (weather.rain_in.tolist(), weather.rain_known.tolist()) == ([rain_in], [known])


def test_a_month_tells_its_methods_and_a_missing_elevation() -> None:
    days = [
        weather_day(
            JUNE_1 + timedelta(days=n),
            **(ALL if n < 8 else without("tdew_f", "solar_mj_m2", "wind_mph")),
        )
        for n in range(12)
    ]
    book = yard(weather=days)
    told = weather_of(book).month(6).eto_input
    assert told is not None
    how = "mean of 12 days of weather, 8 Penman–Monteith, 4 Hargreaves"
    assert told.origin == how + SEA_LEVEL
    high = replace(book, yard=replace(book.yard, elevation_ft=4000.0))
    told = weather_of(high).month(6).eto_input
    assert told is not None
    assert told.origin == how


def test_a_month_of_reported_eto_cites_no_formula() -> None:
    days = [weather_day(JUNE_1 + timedelta(days=n), reported_eto_in=0.2) for n in range(12)]
    month = weather_of(yard(weather=days)).month(6)
    assert month.eto_input is not None
    assert month.eto_input.origin == "mean of 12 days of reported ETo"
    assert "Paper 56" not in month.eto_source


def test_an_empty_notebook_has_no_days() -> None:
    weather = weather_of(yard(climate=()))
    assert (weather.first, weather.methods, weather.eto_days) == (None, (), ())
    assert weather.filled_eto_in.size == weather.rain_known.size == 0
