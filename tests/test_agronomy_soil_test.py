"""Soil tests: how long one holds, and what its phosphorus and pH decide."""

import math
from collections.abc import Callable
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import soil_test as soil

DAYS = st.dates(date(1990, 1, 1), date(2090, 1, 1))


def test_published_figures() -> None:
    # Landschoot and Wolf 2011: home lawns at or below 45 mg/kg Mehlich-3 get a recommendation.
    assert soil.P_ENOUGH_PPM == 45.0
    # Cook, Oregon State University 2008: a pH below 6 builds thatch up.
    assert soil.PH_SLOWS_THATCH == 6.0
    # Virginia Cooperative Extension 430-011: every three or four years.
    assert soil.SOIL_TEST_YEARS == 3
    assert soil.SAMPLE_DEPTH_IN == 4.0  # common practice


@pytest.mark.parametrize(
    ("tested", "due"),
    [
        (date(2023, 6, 15), date(2026, 6, 15)),
        (date(2024, 2, 29), date(2027, 3, 1)),
        (date(2024, 2, 28), date(2027, 2, 28)),
        (date(2025, 12, 31), date(2028, 12, 31)),
    ],
)
def test_due_three_years_on(tested: date, due: date) -> None:
    assert soil.next_test_due(tested) == due


@given(DAYS)
def test_a_test_holds_from_its_day_to_the_due_day(tested: date) -> None:
    due = soil.next_test_due(tested)
    assert timedelta(1095) <= due - tested <= timedelta(1096)
    assert soil.still_holds(tested, tested)
    assert soil.still_holds(tested, due)
    assert not soil.still_holds(tested, due + timedelta(1))
    assert not soil.still_holds(tested, tested - timedelta(1))


def test_phosphorus_at_the_figure_is_enough() -> None:
    assert soil.phosphorus_enough(45.0)
    assert not soil.phosphorus_enough(44.9)
    assert soil.phosphorus_enough(21.0, enough_ppm=21.0)


def test_six_itself_does_not_slow_thatch() -> None:
    assert not soil.slows_thatch(6.0)
    assert soil.slows_thatch(5.9)


BAD_CALLS: list[Callable[[], object]] = [
    lambda: soil.phosphorus_enough(-1.0),
    lambda: soil.phosphorus_enough(10.0, 0.0),
    lambda: soil.phosphorus_enough(math.nan),
    lambda: soil.slows_thatch(0.0),
]


@pytest.mark.parametrize("call", BAD_CALLS)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="must be"):
        call()
