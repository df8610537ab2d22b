"""The smallest change two dates would show, and the plugs it takes: statsmodels, and simulation."""

import importlib
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.detectable import plugs_for, smallest_change

stats = importlib.import_module("scipy.stats")
power = importlib.import_module("statsmodels.stats.power")


@pytest.mark.parametrize("plugs", [2, 3, 5, 12, 40])
@pytest.mark.parametrize(("found", "level"), [(0.8, 0.05), (0.9, 0.05), (0.8, 0.01)])
def test_smallest_change_against_statsmodels(plugs: int, found: float, level: float) -> None:
    # statsmodels.stats.power.TTestIndPower, its effect in standard deviations.
    effect = smallest_change(0.09, 2 * plugs - 2, plugs, found, level) / 0.09
    reference = power.TTestIndPower().power(effect_size=effect, nobs1=plugs, alpha=level)
    assert reference == pytest.approx(found, abs=1e-8)


@pytest.mark.parametrize(
    ("change_in", "sd_in"), [(0.1, 0.06), (0.1, 0.09), (0.1, 0.15), (0.25, 0.12)]
)
def test_plugs_for_against_statsmodels(change_in: float, sd_in: float) -> None:
    # The count that statsmodels finds, given the freedom of that very count.
    wanted = power.TTestIndPower().solve_power(effect_size=change_in / sd_in, alpha=0.05, power=0.8)
    count = math.ceil(wanted)
    assert plugs_for(change_in, sd_in, 2 * count - 2) == count


def test_a_change_as_large_as_told_is_found_in_eight_of_ten() -> None:
    # Seeded: two dates of four plugs, an sd of 0.08 in, and scipy.stats.ttest_ind to judge.
    rng, runs, plugs = np.random.default_rng(20261128), 4000, 4
    change = smallest_change(0.08, 2 * plugs - 2, plugs)
    then, now = (rng.normal(0.0, 0.08, (runs, plugs)) for _ in range(2))
    found = stats.ttest_ind(now - change, then, axis=1).pvalue < 0.05
    assert found.mean() == pytest.approx(0.80, abs=0.02)


@given(st.floats(0.01, 0.3), st.integers(1, 60), st.floats(0.02, 0.5))
def test_the_count_is_the_least_that_does(sd_in: float, freedom: int, change_in: float) -> None:
    count = plugs_for(change_in, sd_in, freedom)
    assert smallest_change(sd_in, freedom, count) <= change_in * (1 + 1e-8)
    assert count == 1 or smallest_change(sd_in, freedom, count - 1) > change_in * (1 - 1e-8)


def test_plugs_that_do_not_scatter_show_any_change() -> None:
    assert smallest_change(0.0, 3, 1) == 0.0
    assert plugs_for(0.1, 0.0, 3) == 1


@pytest.mark.parametrize(
    "call",
    [
        lambda: smallest_change(0.1, 0, 2),
        lambda: smallest_change(0.1, 4, 0),
        lambda: smallest_change(-0.1, 4, 2),
        lambda: smallest_change(math.nan, 4, 2),
        lambda: smallest_change(0.1, 4, 2, power=0.05),
        lambda: smallest_change(0.1, 4, 2, power=1.0),
        lambda: plugs_for(0.0, 0.1, 4),
        lambda: plugs_for(math.inf, 0.1, 4),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="must"):
        call()
