"""Slopes before and after a day, and against an untreated strip: statsmodels, and by hand."""

import importlib
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.slope_change import slope_change, slope_difference
from lawnbook.agronomy.spots_trend import Series, mean_trend
from tests.plug_yards import drawn_yards, noisy, straight

sm = importlib.import_module("statsmodels.api")
stats = importlib.import_module("scipy.stats")


def turned(one: Series, split: float, turn: float) -> Series:
    """The spot with its slope changed by `turn` from a year on."""
    pairs = zip(one.years, one.values, strict=True)
    return Series(one.years, tuple(v + turn * max(0.0, y - split) for y, v in pairs))


@pytest.mark.parametrize("seed", range(5))
def test_one_spot_against_least_squares(seed: int) -> None:
    # statsmodels OLS: level and slope, and a step in each from the split on.
    split = 2021.0
    one = turned(noisy(seed, [-0.02], 13)[0], split, -0.15)
    years = np.asarray(one.years) - split
    late = (years >= 0).astype(float)
    design = np.column_stack([np.ones(13), years, late, late * years])
    model = sm.OLS(one.values, design).fit()
    found = slope_change([one], split)
    assert found is not None
    assert found.before.value == pytest.approx(model.params[1])
    assert found.before.ci95 == pytest.approx(tuple(model.conf_int()[1]))
    assert found.difference.value == pytest.approx(model.params[3])
    assert found.difference.ci95 == pytest.approx(tuple(model.conf_int()[3]))
    after = model.t_test([0.0, 1.0, 0.0, 1.0])
    assert found.after.value == pytest.approx(after.effect[0])
    assert found.after.ci95 == pytest.approx(tuple(after.conf_int()[0]))
    assert (found.plugs_before, found.plugs_after) == (6, 7)


@pytest.mark.parametrize("seed", range(4))
def test_balanced_spots_against_the_paired_differences(seed: int) -> None:
    # On equal dates: the mean of the spots' differences by scipy linregress; ours is no narrower
    # than the t interval of that mean.
    split = 2020.5
    series = [turned(one, split, -0.2) for one in noisy(seed, [-0.02, -0.05, 0.0, -0.1], 12)]
    found = slope_change(series, split)
    assert found is not None
    turns = []
    for one in series:
        years, values = np.asarray(one.years), np.asarray(one.values)
        slopes = [
            stats.linregress(years[s], values[s]).slope for s in (years < split, years > split)
        ]
        turns.append(slopes[1] - slopes[0])
    assert found.difference.value == pytest.approx(np.mean(turns))
    assert found.difference.ci95 is not None
    reach = stats.t.isf(0.025, 3) * np.std(turns, ddof=1) / 2
    assert found.difference.ci95[1] - found.difference.value >= reach - 1e-9


@given(drawn_yards(), st.floats(2017.0, 2029.0))
def test_the_difference_is_that_of_the_two(series: list[Series], split: float) -> None:
    found = slope_change(series, split)
    if found is None:
        return
    fits = (found.before, found.after, found.difference)
    assert found.difference.value == pytest.approx(found.after.value - found.before.value, abs=1e-6)
    few = min(found.plugs_before, found.plugs_after) < 5
    for fit in fits:
        assert not (few and fit.ci95)
        assert fit.ci95 is None or fit.ci95[0] <= fit.value <= fit.ci95[1]


def test_a_turn_without_noise_is_found_and_a_jump_is_none() -> None:
    one = straight(-0.05, 12)
    jumped = Series(
        one.years, tuple(v - 0.4 * (y >= 2021.0) for y, v in zip(*_columns(one), strict=True))
    )
    for series, turn in (([turned(one, 2021.0, -0.2)], -0.2), ([jumped] * 3, 0.0)):
        found = slope_change(series, 2021.0)
        assert found is not None
        assert found.before.value == pytest.approx(-0.05)
        assert found.difference.value == pytest.approx(turn, abs=1e-9)
        assert found.difference.ci95 == pytest.approx((turn, turn), abs=1e-4)


def _columns(one: Series) -> tuple[tuple[float, ...], tuple[float, ...]]:
    return one.years, one.values


def test_too_few_plugs_on_a_side() -> None:
    assert slope_change([], 2020.0) is None
    assert slope_change([straight(-0.1)], 2010.0) is None
    assert slope_change([straight(-0.1)], 2018.3) is None
    few = slope_change([straight(-0.1, 8)], 2020.0)
    assert few is not None
    assert (few.plugs_before, few.plugs_after) == (4, 4)
    assert few.difference.value == pytest.approx(0.0, abs=1e-9)
    assert few.difference.ci95 is None
    # Ten plugs a side, but of two dates only.
    assert _interval_of([straight(-0.1, 4)] * 5, 2019.0) is None


def _interval_of(series: list[Series], split: float) -> tuple[float, float] | None:
    found = slope_change(series, split)
    assert found is not None
    return found.difference.ci95


@pytest.mark.parametrize("spots", [1, 2, 4])
def test_a_strip_joins_the_two_intervals(spots: int) -> None:
    # By hand: the arms of the two intervals as the sides of a right angle.
    treated, strip = noisy(5, [-0.15, -0.2, -0.1, -0.12][:spots]), noisy(6, [-0.02])
    found, one, other = slope_difference(treated, strip), mean_trend(treated), mean_trend(strip)
    assert found is not None
    assert one is not None
    assert other is not None
    assert one.ci95 is not None
    assert other.ci95 is not None
    assert (found.treated.value, found.treated.ci95) == (one.slope, one.ci95)
    assert (found.untreated.value, found.untreated.ci95) == (other.slope, other.ci95)
    assert found.difference.value == pytest.approx(one.slope - other.slope)
    down = math.sqrt((one.slope - one.ci95[0]) ** 2 + (other.ci95[1] - other.slope) ** 2)
    assert found.difference.ci95 is not None
    assert found.difference.ci95[0] == pytest.approx(found.difference.value - down)


def test_a_strip_turned_round_turns_the_difference() -> None:
    treated, strip = noisy(5, [-0.15, -0.2, -0.1]), noisy(6, [-0.02])
    found, back = slope_difference(treated, strip), slope_difference(strip, treated)
    assert found is not None
    assert back is not None
    assert found.difference.ci95 is not None
    low, high = found.difference.ci95
    assert back.difference.value == pytest.approx(-found.difference.value)
    assert back.difference.ci95 == pytest.approx((-high, -low))


def test_a_strip_with_few_plugs() -> None:
    assert slope_difference([straight(-0.1)], []) is None
    assert slope_difference([straight(-0.1, 2)], [straight(-0.1)]) is None
    few = slope_difference([straight(-0.1)], [straight(-0.02, 4)])
    assert few is not None
    assert few.difference.value == pytest.approx(-0.08)
    assert (few.untreated.ci95, few.difference.ci95) == (None, None)
    assert few.treated.ci95 is not None


@pytest.mark.parametrize(
    "call",
    [
        lambda: slope_change([straight(-0.1)], math.nan),
        lambda: slope_change([straight(-0.1)], 2020.0, 1.0),
        lambda: slope_difference([straight(-0.1)], [straight(-0.1)], 0.0),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="must"):
        call()
