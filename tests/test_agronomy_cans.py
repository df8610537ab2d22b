"""How sure a catch-can test is, and how many cans are enough: tables and a published study."""

import importlib
import math
import random
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.cans import ENOUGH, MOST_CANS, cans_for, rate_interval
from lawnbook.agronomy.coverage import Grid, Sprinkler, grid_over, rate_map
from lawnbook.agronomy.precipitation import depth_rate_in_per_h
from lawnbook.agronomy.student import student_t

stats = importlib.import_module("scipy.stats")


CANS = st.lists(st.floats(0.05, 3.0), min_size=2, max_size=40)


@given(CANS, st.sampled_from([0.8, 0.9, 0.95]))
def test_the_interval_against_scipy(cans: list[float], confidence: float) -> None:
    low, mean, high = rate_interval(cans, confidence)
    error = stats.sem(cans)
    assert low <= mean <= high
    if error > 1e-9:
        below, above = stats.t.interval(confidence, len(cans) - 1, np.mean(cans), error)
        assert (low, high) == pytest.approx((max(0.0, below), above), rel=1e-9, abs=1e-12)


def test_the_interval_holds_the_truth_as_often_as_it_says() -> None:
    """Of 2,000 tests with eight cans round a true mean of 50 mL, 95 in 100 hold it."""
    draw = random.Random(8)
    held = 0
    for _ in range(2000):
        low, _mean, high = rate_interval([draw.gauss(50, 12) for _ in range(8)])
        held += low <= 50 <= high
    assert held / 2000 == pytest.approx(0.95, abs=0.012)


@settings(deadline=None)
@given(CANS, st.floats(0.05, 0.5))
def test_the_count_is_the_least_that_is_enough(cans: list[float], within: float) -> None:
    """With so many as unevenly filled cans the interval is as narrow as asked; one less is not."""
    count = cans_for(cans, within)
    share = float(np.std(cans, ddof=1) / np.mean(cans))

    def reach(n: int) -> float:
        return student_t(0.9, n - 1) * share / math.sqrt(n)

    assert reach(count) <= within * (1 + 1e-9)
    if count > 2:
        assert reach(count - 1) > within * (1 - 1e-9)


def test_alike_cans_need_no_more_and_the_count_ends() -> None:
    assert cans_for([20.0] * 6) == 2
    assert cans_for([1.0] + [0.0] * 400) == MOST_CANS


def lattice_rates(spacing: float, rows: float) -> list[float]:
    """The map between cone heads of 10 ft at shares of the wetted diameter, as so many cans."""
    along, across = 20 * spacing, 20 * rows
    heads = [
        Sprinkler((i * along, j * across), 10.0, 0.0, 360.0, 2.0, (1.0, 0.0))
        for i in range(-2, 4)
        for j in range(-2, 4)
    ]
    step = 0.25
    grid = Grid(0.0, 0.0, step, round(along / step), round(across / step))
    rates: list[float] = rate_map(heads, grid).ravel().tolist()
    return rates


@pytest.mark.parametrize(("spacing", "rows"), [(0.5, 0.5), (0.5, 0.6), (0.5, 0.7), (0.6, 0.6)])
def test_few_cans_are_enough_on_overlapping_heads(spacing: float, rows: float) -> None:
    """Source "can-count": in the ground, 2 to 8 at random gave ±25 % in 90 of 100 tests."""
    assert 2 <= cans_for(lattice_rates(spacing, rows), within=0.25, confidence=0.90) <= 8


def test_a_sprinkler_alone_needs_many_cans() -> None:
    """Source "can-count": moved by hand, it took 6 to over 50."""
    lone = Sprinkler((0.0, 0.0), 10.0, 0.0, 360.0, 2.0, (1.0, 0.0))
    over_circle = rate_map([lone], grid_over((-10.0, -10.0, 10.0, 10.0), 0.5)).ravel()
    over_more = rate_map([lone], grid_over((-12.0, -12.0, 12.0, 12.0), 0.5)).ravel()
    fewest = cans_for(over_circle[over_circle > 0].tolist(), within=0.25, confidence=0.90)
    most = cans_for(over_more.tolist(), within=0.25, confidence=0.90)
    assert 6 <= fewest < 50 < most


def test_what_the_study_says_is_told_for_both_kinds() -> None:
    """Journal of the American Water Resources Association 2007 (source "can-count")."""
    assert "2 to 8 cans" in ENOUGH["in-ground"]
    assert "6 to over 50 cans" in ENOUGH["hose"]
    for words in ENOUGH.values():
        assert "25 % in" in words
        assert "90 of 100 tests" in words


def test_a_quarter_of_an_hour_is_a_quarter_of_the_rate() -> None:
    """After 15 minutes, add the depths, divide by the cans, times four (common practice)."""
    depths = [0.11, 0.14, 0.09, 0.12, 0.13, 0.10, 0.15, 0.12]
    low, mean, high = rate_interval(depths)
    rate = depth_rate_in_per_h(depths, 15)
    assert rate == pytest.approx(4 * sum(depths) / 8)
    assert rate == pytest.approx(4 * mean)
    assert 4 * low < rate < 4 * high


@pytest.mark.parametrize(
    "call",
    [
        lambda: rate_interval([1.0]),
        lambda: rate_interval([1.0, -1.0]),
        lambda: rate_interval([1.0, math.nan]),
        lambda: rate_interval([1.0, 2.0], 1.0),
        lambda: cans_for([1.0]),
        lambda: cans_for([0.0, 0.0]),
        lambda: cans_for([1.0, 2.0], within=0.0),
        lambda: cans_for([1.0, 2.0], confidence=0.0),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"must|needs"):
        call()
