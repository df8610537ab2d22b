"""Growth potential day by day: smooth, of the usual year, and unknown beside an unknown month."""

import itertools
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.growth import growth_by_month
from lawnbook.plan.growth_days import day_of_place, growth_on_days, year_places
from lawnbook.yard.notebook import with_tables
from tests.plan_yards import climate, weather_day, yard

YEAR = (date(2026, 1, 1), date(2026, 12, 31))
DAYS = st.dates(date(1990, 1, 1), date(2090, 1, 1))


def test_a_month_has_its_own_growth_in_its_middle() -> None:
    """July of 31 days: its 16th is the middle."""
    book = yard()
    (july,) = growth_on_days(book, "cool", date(2026, 7, 16), date(2026, 7, 16))
    assert july == pytest.approx(growth_by_month(book, "cool")[6])


def test_growth_is_smooth_over_the_months_and_over_new_year() -> None:
    """From a month to the next the mean rises by 11 °F at most here: a third of a degree a day."""
    growth = growth_on_days(yard(), "warm", date(2026, 1, 1), date(2027, 12, 31))
    known = [each for each in growth if each is not None]
    assert len(known) == 730
    assert max(abs(a - b) for a, b in itertools.pairwise(known)) < 0.03
    assert known[365] == pytest.approx(known[0])


def test_past_weather_of_a_day_does_not_show() -> None:
    book = yard()
    cold = with_tables(book, {"weather": [weather_day(date(2026, 7, 16), tmin_f=10, tmax_f=20)]})
    assert growth_on_days(book, "cool", *YEAR) == growth_on_days(cold, "cool", *YEAR)


def test_days_beside_an_unknown_month_are_unknown() -> None:
    rows = [replace(row, tmean_f=None) if row.month == 7 else row for row in climate()]
    growth = growth_on_days(yard(climate=rows), "cool", *YEAR)
    unknown = [YEAR[0] + timedelta(days=n) for n, each in enumerate(growth) if each is None]
    assert (unknown[0], unknown[-1]) == (date(2026, 6, 16), date(2026, 8, 15))
    assert all(each is None for each in growth_on_days(yard(climate=[]), "cool", *YEAR))


def test_nothing_between_days_in_the_wrong_order() -> None:
    assert growth_on_days(yard(), "cool", YEAR[1], YEAR[0]) == ()


@given(DAYS, st.integers(1, 900))
def test_places_of_days_are_those_of_a_leap_year(starts: date, count: int) -> None:
    expected = [
        (each.replace(year=2024) - date(2024, 1, 1)).days
        for each in (starts + timedelta(days=n) for n in range(count))
    ]
    assert np.array_equal(year_places(starts, count), expected)


@given(DAYS)
def test_a_day_comes_back_from_its_place(that: date) -> None:
    place = int(year_places(that, 1)[0])
    assert day_of_place(place, that.year) == that


def test_the_leap_day_of_another_year_is_the_day_before_march() -> None:
    assert day_of_place(59, 2026) == date(2026, 2, 28)
    assert day_of_place(59, 2028) == date(2028, 2, 29)
