"""The weeks for coring and overseeding, against what universities publish for their places.

Monthly means are NOAA's normals of 1991-2020, rounded (from memory).
"""

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.care_windows import (
    COOL_SOWN_DAYS,
    HEALS_DAYS,
    WARM_SOWN_DAYS,
    YEAR_DAYS,
    Span,
    care_spans,
    growth_of_days,
)
from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.turf import LEAST_GROWTH, growth_potential
from lawnbook.plan.growth_days import usual_tmean_f

LINCOLN_F = (24.6, 29.0, 41.0, 52.0, 63.0, 73.6, 78.0, 75.6, 67.0, 54.0, 40.0, 29.0)
KANSAS_CITY_F = (31.0, 36.0, 46.5, 56.0, 66.0, 75.5, 79.5, 77.5, 69.0, 57.0, 45.0, 35.0)
PHOENIX_F = (56.8, 60.0, 66.5, 73.7, 82.7, 92.0, 95.5, 94.0, 88.5, 77.0, 65.0, 56.0)

MONTHS_F = st.lists(st.floats(-20.0, 105.0), min_size=12, max_size=12).map(tuple)


def at(month: int, day: int) -> int:
    """The place of a day in a leap year."""
    return (date(2024, month, day) - date(2024, 1, 1)).days


def close(span: Span, first: tuple[int, int], last: tuple[int, int], days: int = 7) -> bool:
    """Whether a span begins and ends within so many days of two days of the year."""
    return abs(span.first - at(*first)) <= days and abs(span.last - at(*last)) <= days


def test_cool_season_seed_is_sown_in_nebraskas_weeks() -> None:
    """University of Nebraska, Browning 2021: best between 15 August and 15 September."""
    (sowing,) = care_spans(usual_tmean_f(LINCOLN_F), "cool").sowing
    assert close(sowing, (8, 15), (9, 15), days=4)


def test_cool_season_seed_in_kansas_city_has_its_best_weeks_inside() -> None:
    """Kansas State University, Johnson County: early to mid September is best, 15 October is late.

    That is the last day of all; a window that leaves seed its weeks closes before.
    """
    (sowing,) = care_spans(usual_tmean_f(KANSAS_CITY_F), "cool").sowing
    assert sowing.first <= at(9, 1)
    assert at(9, 15) <= sowing.last < at(10, 15)


def test_cool_season_turf_is_cored_in_september_and_second_in_spring() -> None:
    """Kansas State University, Johnson County: September is the time to core."""
    spring, autumn = care_spans(usual_tmean_f(KANSAS_CITY_F), "cool").coring
    assert autumn.first <= at(9, 1)
    assert autumn.last >= at(9, 30)
    assert at(3, 15) <= spring.first <= spring.last <= at(6, 15)


def test_warm_season_turf_is_cored_and_sown_in_early_summer() -> None:
    """University of Missouri Extension, Miller 2014: established in June or early July; Kansas
    lawn calendars core warm-season turf in June.
    """
    spans = care_spans(usual_tmean_f(KANSAS_CITY_F), "warm")
    (coring,), (sowing,) = spans.coring, spans.sowing
    assert coring.first <= at(6, 5)
    assert coring.last >= at(6, 30)
    assert close(sowing, (6, 1), (7, 7))


def test_a_hot_desert_cools_down_late() -> None:
    """Cool-season turf of the low desert is sown from mid October on (University of Arizona, from
    memory), never in August.
    """
    (sowing,) = care_spans(usual_tmean_f(PHOENIX_F), "cool").sowing
    assert at(10, 10) <= sowing.first <= at(11, 1)
    assert sowing.last - sowing.first == COOL_SOWN_DAYS


def test_no_weeks_where_nothing_grows() -> None:
    frozen = usual_tmean_f((10.0,) * 12)
    for grass in ("cool", "warm"):
        assert care_spans(frozen, grass).coring == care_spans(frozen, grass).sowing == ()


@given(MONTHS_F, st.sampled_from(("cool", "warm")))
def test_spans_lie_in_the_year_in_order_and_leave_weeks_of_growth(
    month_f: tuple[float, ...], grass: str
) -> None:
    tmean = usual_tmean_f(month_f)
    spans = care_spans(tmean, grass)
    for listed in (spans.coring, spans.sowing):
        places = [place for span in listed for place in (span.first, span.last)]
        assert places == sorted(places)
        assert all(0 <= place < YEAR_DAYS for place in places)
    growth = growth_of_days(tmean, grass)
    sown = COOL_SOWN_DAYS if grass == "cool" else WARM_SOWN_DAYS
    for span, days in [(each, HEALS_DAYS) for each in spans.coring] + [
        (each, sown) for each in spans.sowing
    ]:
        rise = growth[span.first : int(tmean.argmax())]
        if (rise < LEAST_GROWTH).any():
            # Summers with a winter in them: no climate has these.
            continue
        assert (growth[span.first : span.last + days] >= LEAST_GROWTH).all()


@given(st.lists(st.floats(-60.0, 120.0), min_size=1, max_size=20))
def test_growth_of_days_is_that_of_each_temperature(temperatures: list[float]) -> None:
    """The array is the formula that is tested elsewhere, one by one."""
    array: Array = np.array(temperatures)
    for grass in ("cool", "warm"):
        alone = [growth_potential(each, grass) for each in temperatures]
        assert growth_of_days(array, grass) == pytest.approx(alone)


def test_a_year_has_all_its_days_and_is_known() -> None:
    with pytest.raises(ValueError, match="366 days"):
        care_spans(np.zeros(365), "cool")
    with pytest.raises(ValueError, match="finite"):
        care_spans(usual_tmean_f((None, *LINCOLN_F[1:])), "cool")
