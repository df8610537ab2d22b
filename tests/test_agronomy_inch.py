"""How long an inch lasts cool-season turf where summers are dry and winters cold.

The trade says every 4-5 days in summer and about every 9 in spring and autumn (common practice).
The climate is Salt Lake City's: monthly mean highs and lows, deg F (from memory, rounded); ETo by
Hargreaves (FAO-56 eq. 52).
"""

import statistics

import pytest

from lawnbook.agronomy.evapotranspiration import hargreaves_monthly_in_per_day
from lawnbook.agronomy.turf import crop_coefficient, growing
from lawnbook.agronomy.water_balance import interval_days

LATITUDE_DEG = 40.8
HIGHS_F = (38, 44, 55, 62, 72, 84, 94, 92, 80, 65, 49, 38)
LOWS_F = (23, 27, 35, 41, 49, 58, 67, 66, 56, 43, 32, 24)
DEEP_ROOTED_IN = 5.0


def days_of_an_inch(month: int) -> int:
    """Days that one inch lasts where roots are no limit."""
    eto_in = hargreaves_monthly_in_per_day(LATITUDE_DEG, HIGHS_F, LOWS_F)[month - 1]
    return interval_days(
        1.0, DEEP_ROOTED_IN, eto_in * crop_coefficient(month, "cool", LATITUDE_DEG)
    )


@pytest.mark.parametrize("month", [6, 7, 8])
def test_an_inch_lasts_four_or_five_days_in_summer(month: int) -> None:
    assert days_of_an_inch(month) in (4, 5)


def test_an_inch_lasts_about_nine_days_in_spring_and_autumn() -> None:
    spring_and_autumn = [days_of_an_inch(month) for month in (4, 5, 9, 10)]
    assert statistics.mean(spring_and_autumn) == pytest.approx(9.0, abs=1.0)
    assert all(5 <= days <= 15 for days in spring_and_autumn)


def test_an_inch_lasts_a_week_over_the_season() -> None:
    season = [days_of_an_inch(month) for month in range(4, 11)]
    assert statistics.mean(season) == pytest.approx(7.0, abs=1.0)


def test_the_grass_sleeps_in_winter() -> None:
    means_f = [(high + low) / 2 for high, low in zip(HIGHS_F, LOWS_F, strict=True)]
    asleep = [month for month, mean_f in enumerate(means_f, start=1) if not growing(mean_f, "cool")]
    assert asleep == [1, 2, 12]


def test_the_same_climate_in_the_south_comes_half_a_year_later() -> None:
    turned = HIGHS_F[6:] + HIGHS_F[:6], LOWS_F[6:] + LOWS_F[:6]
    southern = hargreaves_monthly_in_per_day(-LATITUDE_DEG, *turned)
    january = southern[0] * crop_coefficient(1, "cool", -LATITUDE_DEG)
    assert interval_days(1.0, DEEP_ROOTED_IN, january) in (3, 4)
