"""Growth by month from the notebook's temperatures, and the temperatures of days."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from lawnbook.agronomy.turf import growth_potential
from lawnbook.plan.growth import growth_by_month, shared_by_growth, why_no_growth
from lawnbook.plan.warm_days import warm_days
from lawnbook.plan.weather import weather_of
from tests.plan_yards import TMEAN_F, climate, weather_day, yard


def test_growth_follows_the_climate_table() -> None:
    """At 68 °F cool grass grows its best: June of the table."""
    growth = growth_by_month(yard(), "cool")
    assert growth == tuple(growth_potential(mean, "cool") for mean in TMEAN_F)
    assert growth[5] == 1.0
    assert growth_by_month(yard(), "warm")[6] == growth_potential(76.0, "warm")


def test_without_temperatures_there_is_no_growth_and_it_says_why() -> None:
    growth = growth_by_month(yard(climate=[]), "cool")
    assert growth == (None,) * 12
    assert "No temperatures" in why_no_growth(growth)
    assert shared_by_growth(growth, 3.0) is None


def test_unknown_months_are_named() -> None:
    growth = growth_by_month(yard(climate=climate()[:10]), "cool")
    assert why_no_growth(growth) == (
        "No temperature is known for November, December: fill in the climate table under Yard."
    )


def test_where_nothing_grows_nothing_is_shared_out() -> None:
    assert "warm enough" in why_no_growth((0.0,) * 12)


def test_the_shares_add_up_to_the_year() -> None:
    shares = shared_by_growth(growth_by_month(yard(), "cool"), 3.0)
    assert shares is not None
    assert sum(shares) == pytest.approx(3.0)
    assert shares[5] == max(shares)


def test_months_agree_with_the_weathers_own() -> None:
    """A few days of June give way to the table, ten do not; so in both modules."""
    for days in (3, 10):
        book = yard(
            weather=[
                weather_day(date(2026, 6, 1) + timedelta(days=n), tmin_f=50.0, tmax_f=70.0 + n)
                for n in range(days)
            ]
        )
        months = tuple(month.tmean_f for month in weather_of(book).months)
        assert warm_days(book).month_f == months


def test_days_have_their_own_temperature_up_to_the_day_and_the_months_after() -> None:
    days = [
        weather_day(date(2026, 6, n), tmin_f=40.0 + n, tmax_f=60.0 + n) for n in (10, 11, 13, 14)
    ]
    warm = warm_days(yard(weather=[*days, weather_day(date(2026, 6, 12), tmin_f=50.0)]))
    told = warm.of_days(date(2026, 6, 9), 7, until=date(2026, 6, 13))
    assert told.tolist() == [68.0, 60.0, 61.0, 68.0, 63.0, 68.0, 68.0]
    before = warm.of_days(date(2026, 5, 31), 2, until=date(2026, 6, 13))
    assert before.tolist() == [59.0, 68.0]
    after = warm.of_days(date(2027, 2, 1), 1, until=date(2026, 6, 13))
    assert after.tolist() == [34.0]


def test_unknown_days_are_not_a_number() -> None:
    assert np.isnan(warm_days(yard(climate=[])).of_days(date(2026, 1, 1), 3, date.max)).all()


def test_the_same_tables_are_read_once_and_others_anew() -> None:
    book = yard()
    assert warm_days(book) is warm_days(replace(book, zones={}))
    assert warm_days(book) is not warm_days(yard())
