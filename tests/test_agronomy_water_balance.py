"""What roots can bear, how often to water, and when the next watering is due."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import water_balance as wb

TARGET = st.floats(0.1, 3.0)
BEARABLE = st.floats(0.0, 3.0)
ETC = st.floats(0.005, 0.6)
ROOTS = st.floats(0.0, 24.0)


def test_six_inches_of_loam_do_not_bear_an_inch() -> None:
    # 0.40 x 0.17 x 6 = 0.408 in: FAO-56 eq. 82 and 83 with the scheduling table's loam.
    bearable = wb.bearable_depth_in(0.40, 0.17, wb.rooted_soil_in(6.0, 0.0))
    assert bearable == pytest.approx(0.41, abs=0.005)


def test_an_inch_needs_fourteen_inches_of_loam() -> None:
    assert wb.roots_needed_in(1.0, 0.40, 0.17) == pytest.approx(14.7, abs=0.05)


@given(st.floats(0.05, 1.0), st.floats(0.02, 0.3), st.floats(0.1, 3.0))
def test_the_roots_needed_bear_the_target(depletion: float, held: float, target: float) -> None:
    roots = wb.roots_needed_in(target, depletion, held)
    assert wb.bearable_depth_in(depletion, held, roots) == pytest.approx(target)


def test_thatch_is_no_soil() -> None:
    assert wb.rooted_soil_in(5.0, 0.75) == 4.25
    assert wb.rooted_soil_in(0.5, 0.75) == 0.0


@pytest.mark.parametrize(
    ("target", "bearable", "etc", "days", "depth"),
    [
        (1.0, 2.0, 0.25, 4, 1.0),
        (1.0, 2.0, 0.24, 4, 0.96),
        (1.0, 0.41, 0.20, 2, 0.40),
        (1.0, 0.60, 0.20, 3, 0.60),  # 0.6 / 0.2 is 2.9999999999999996 in floating point
        (0.3, 2.0, 0.10, 3, 0.30),
        (1.0, 0.10, 0.25, 1, 0.10),  # one day's use is more than roots bear
        (1.0, 0.0, 0.25, 1, 0.0),
        (0.1, 2.0, 0.25, 1, 0.25),  # a target under one day's use: daily, the day's use
    ],
)
def test_interval_and_depth(
    target: float, bearable: float, etc: float, days: int, depth: float
) -> None:
    assert wb.interval_days(target, bearable, etc) == days
    assert wb.watering_depth_in(target, bearable, etc) == pytest.approx(depth)


@given(st.integers(1, 60), st.floats(0.01, 0.5))
def test_exact_multiples_keep_their_last_day(days: int, etc: float) -> None:
    assert wb.interval_days(etc * days, 100.0, etc) == days


@given(TARGET, ETC, ROOTS, ROOTS)
def test_more_roots_never_shorten_the_interval(
    target: float, etc: float, one_in: float, other_in: float
) -> None:
    shallow, deep = (wb.bearable_depth_in(0.4, 0.17, roots) for roots in sorted((one_in, other_in)))
    assert wb.interval_days(target, shallow, etc) <= wb.interval_days(target, deep, etc)
    assert wb.watering_depth_in(target, shallow, etc) <= wb.watering_depth_in(target, deep, etc)


@given(TARGET, BEARABLE, ETC)
def test_the_depth_is_what_was_used_and_what_roots_bear(
    target: float, bearable: float, etc: float
) -> None:
    days, depth = (
        wb.interval_days(target, bearable, etc),
        wb.watering_depth_in(target, bearable, etc),
    )
    assert depth <= bearable
    assert depth <= days * etc
    if days > 1:
        assert depth <= target + 1e-9
        # One day more would ask more of the roots, or more than the target.
        assert (days + 1) * etc > min(target, bearable)


@given(BEARABLE, ETC)
def test_shortfall(bearable: float, etc: float) -> None:
    short = wb.shortfall_in_per_day(bearable, etc)
    assert short == pytest.approx(max(0.0, etc - bearable))
    assert (short > 0) == (etc > bearable)


@pytest.mark.parametrize(
    ("start", "allowance", "etc", "expected"),
    [
        (0.0, 0.6, [0.2] * 10, 3),
        (0.0, 0.61, [0.2] * 10, 4),
        (0.3, 0.6, [0.2] * 10, 2),
        (0.6, 0.6, [0.2] * 10, 0),
        (0.7, 0.6, [], 0),
        (0.0, 0.6, [0.2, 0.2], None),
        (0.0, 0.6, [0.0] * 30, None),
        (0.0, 0.5, [0.1, 0.1, 0.4], 3),
    ],
)
def test_days_until_depletion(
    start: float, allowance: float, etc: list[float], expected: int | None
) -> None:
    assert wb.days_until_depletion(start, allowance, etc) == expected


@given(st.floats(0, 1), st.floats(0.05, 1.0), st.floats(0.01, 0.5))
def test_the_ledger_reaches_the_allowance_on_the_day_foretold(
    start: float, allowance: float, etc: float
) -> None:
    days = wb.days_until_depletion(start, allowance, [etc] * 200)
    assert days is not None
    reached = [start, *(start + np.cumsum([etc] * 200))]
    assert reached[days] >= allowance - 1e-8
    assert all(depletion < allowance for depletion in reached[:days])


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="etc_in_per_day must be above zero"):
        wb.interval_days(1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="target_in must be above zero"):
        wb.interval_days(0.0, 1.0, 0.2)
    with pytest.raises(ValueError, match="bearable_in must be zero or more"):
        wb.interval_days(1.0, -0.1, 0.2)
    with pytest.raises(ValueError, match="depletion_fraction must lie between"):
        wb.bearable_depth_in(1.1, 0.17, 6.0)
    with pytest.raises(ValueError, match="depletion_fraction must be above zero"):
        wb.roots_needed_in(1.0, 0.0, 0.17)
    with pytest.raises(ValueError, match="root_depth_in must be a finite number"):
        wb.rooted_soil_in(math.nan, 0.5)
