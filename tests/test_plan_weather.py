"""Monthly ETo and temperature from days and climate."""

import importlib
import math
from datetime import date, timedelta

import pytest

from lawnbook.plan.weather import FEWEST_DAYS, weather_of
from lawnbook.yard.records import WeatherDay
from tests.plan_yards import (
    water,
    weather_day,
    yard,
)

SEATTLE_LATITUDE_DEG = 47.45


def june_days(count: int, **values: float) -> list[WeatherDay]:
    """The first days of June 2026, all alike."""
    return [weather_day(date(2026, 6, 1) + timedelta(days=n), **values) for n in range(count)]


def seattle_days() -> list[WeatherDay]:
    """The daily Seattle series 2012-2015 (NOAA), as packed in vega_datasets; °C and mm turned."""
    frame = importlib.import_module("vega_datasets").local_data.seattle_weather()
    return [
        weather_day(
            row.date.date(),
            tmin_f=row.temp_min * 9 / 5 + 32,
            tmax_f=row.temp_max * 9 / 5 + 32,
            rain_in=row.precipitation / 25.4,
        )
        for row in frame.itertuples()
    ]


def test_the_months_of_seattle_against_pyet() -> None:
    """Monthly means of Hargreaves, against the library pyet on the same days."""
    days = seattle_days()
    book = yard(latitude_deg=SEATTLE_LATITUDE_DEG, weather=days, climate=())
    ours = [month.eto_in_per_day for month in weather_of(book).months]
    pandas, pyet = importlib.import_module("pandas"), importlib.import_module("pyet")
    frame = pandas.DataFrame(
        {
            "low": [((d.tmin_f or 0) - 32) / 1.8 for d in days],
            "high": [((d.tmax_f or 0) - 32) / 1.8 for d in days],
        },
        index=pandas.DatetimeIndex([d.date for d in days]),
    )
    mean = (frame.low + frame.high) / 2
    lat = math.radians(SEATTLE_LATITUDE_DEG)
    daily = pyet.hargreaves(mean, frame.high, frame.low, lat=lat) / 25.4
    # pyet's latent heat follows the temperature, FAO-56 eq. 20 keeps 0.408 mm per MJ.
    daily = daily * pyet.calc_lambda(mean) * 0.408
    theirs = daily.groupby(daily.index.month).mean().tolist()
    assert ours == pytest.approx(theirs, rel=0.005)


def test_a_reported_eto_is_taken_before_a_reckoned_one() -> None:
    days = june_days(15, tmin_f=50.0, tmax_f=80.0, reported_eto_in=0.3)
    month = weather_of(yard(weather=days)).month(6)
    assert month.eto_in_per_day == pytest.approx(0.3)
    assert month.tmean_f == pytest.approx(65.0)


@pytest.mark.parametrize(("count", "eto"), [(FEWEST_DAYS - 1, 0.24), (FEWEST_DAYS, 0.3), (15, 0.3)])
def test_a_handful_of_days_gives_way_to_the_climate(count: int, eto: float) -> None:
    book = yard(weather=june_days(count, reported_eto_in=0.3))
    assert weather_of(book).month(6).eto_in_per_day == pytest.approx(eto)


def test_few_days_are_better_than_nothing() -> None:
    book = yard(weather=june_days(2, reported_eto_in=0.3), climate=())
    assert weather_of(book).month(6).eto_in_per_day == pytest.approx(0.3)
    assert weather_of(book).month(7).eto_in_per_day is None


def test_temperatures_need_the_latitude_and_the_reason_says_so() -> None:
    days = june_days(12, tmin_f=50.0, tmax_f=80.0)
    figures = water(yard(latitude_deg=None, weather=days, climate=()))
    assert figures.depth_in is None
    assert figures.reason.startswith("Latitude is missing")


def test_a_month_is_the_mean_over_all_its_years() -> None:
    days = [
        *(weather_day(date(2024, 6, n), reported_eto_in=0.1) for n in range(1, 21)),
        *(weather_day(date(2025, 6, n), reported_eto_in=0.4) for n in range(1, 11)),
    ]
    assert weather_of(yard(weather=days)).month(6).eto_in_per_day == pytest.approx(0.2)
