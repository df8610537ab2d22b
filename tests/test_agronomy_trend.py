"""The trend of a spot's plugs: slope, interval and its true cover."""

import itertools
import math
import statistics

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from lawnbook.agronomy import trend

# Sixteenths of an inch, as read off a ruler, so that values tie as they do in life.
SIXTEENTHS = st.integers(0, 32).map(lambda count: count / 16.0)
MONTHS_IN_YEARS = st.integers(0, 120).map(lambda count: 2018.0 + count / 12.0)
PLUGS = st.lists(st.tuples(MONTHS_IN_YEARS, SIXTEENTHS), min_size=5, max_size=25)


def columns(plugs: list[tuple[float, float]]) -> tuple[list[float], list[float]]:
    """Years and values of plugs in date order; drawn ones need two dates at least."""
    years, values = ([plug[column] for plug in sorted(plugs)] for column in (0, 1))
    assume(len(set(years)) > 1)
    return years, values


def test_summary_of_three_readings() -> None:
    one = trend.summary([0.5, 0.625, 0.75])
    assert one.n == 3
    assert one.mean == pytest.approx(0.625)
    assert one.spread == pytest.approx(0.125)


@given(st.lists(SIXTEENTHS, min_size=2, max_size=12))
def test_summary_agrees_with_the_statistics_module(readings: list[float]) -> None:
    one = trend.summary(readings)
    assert one.mean == pytest.approx(statistics.mean(readings))
    assert one.spread == pytest.approx(statistics.stdev(readings), abs=1e-12)


def test_one_reading_has_no_spread() -> None:
    assert trend.summary([0.75]) == trend.Summary(0.75, None, 1)


@given(PLUGS)
def test_the_slope_is_a_median(plugs: list[tuple[float, float]]) -> None:
    # The definition, by the standard library: the median of the slopes of all pairs.
    years, values = columns(plugs)
    pairs = itertools.combinations(sorted(zip(years, values, strict=True)), 2)
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairs if a[0] != b[0]]
    assert trend.theil_sen(years, values) == pytest.approx(statistics.median(slopes), abs=1e-12)


@given(st.lists(MONTHS_IN_YEARS, min_size=5, max_size=25, unique=True), st.data())
def test_slope_and_interval_agree_with_scipy(years: list[float], data: st.DataObject) -> None:
    # scipy.stats.theilslopes, method "separate"; values may tie, dates do not.
    values = data.draw(st.lists(SIXTEENTHS, min_size=len(years), max_size=len(years)))
    reference = stats.theilslopes(values, years, alpha=0.95)
    assert trend.theil_sen(years, values) == pytest.approx(reference.slope, abs=1e-12)
    assert trend.theil_sen_interval(years, values) == pytest.approx(
        (reference.low_slope, reference.high_slope), abs=1e-12
    )


# At seeds 26 and 34 the terms for ties on both sides decide which slopes bound the interval.
@pytest.mark.parametrize("seed", [*range(8), 26, 34])
def test_ties_in_dates_and_values_agree_with_kendalls_variance(seed: int) -> None:
    # The variance is read off the p-value of scipy.stats.kendalltau, method "asymptotic".
    rng = np.random.default_rng(seed)
    years = np.sort(rng.integers(0, 4, 14)).astype(float)
    values = np.round(10.0 - 0.2 * years + rng.normal(0.0, 0.5, 14), 0)
    earlier, later = np.triu_indices(14, k=1)
    apart = years[later] != years[earlier]
    rise = (values[later] - values[earlier])[apart]
    slopes = np.sort(rise / (years[later] - years[earlier])[apart])
    z = stats.norm.isf(stats.kendalltau(years, values, method="asymptotic").pvalue / 2.0)
    reach = stats.norm.isf(0.025) * abs(np.sign(rise).sum()) / z
    low, high = round((slopes.size - reach) / 2.0) - 1, round((slopes.size + reach) / 2.0)
    assert np.sign(rise).sum() != 0
    assert trend.theil_sen_interval(years.tolist(), values.tolist()) == pytest.approx(
        (slopes[low], slopes[high])
    )


@pytest.mark.parametrize("confidence", [0.5, 0.8, 0.9, 0.99])
def test_other_confidences_agree_with_scipy(confidence: float) -> None:
    years = [2019.2, 2019.8, 2020.3, 2021.0, 2021.9, 2022.4, 2023.1, 2023.9]
    values = [1.1, 1.15, 0.9, 1.0, 0.8, 0.85, 0.6, 0.7]
    reference = stats.theilslopes(values, years, alpha=confidence)
    interval = trend.theil_sen_interval(years, values, confidence)
    assert interval == pytest.approx((reference.low_slope, reference.high_slope))


def test_slope_by_hand() -> None:
    # The six pairs rise by -0.1 three times, and to the odd plug by 0.5, 0.8 and 1.7: median 0.2.
    years, values = [0.0, 1.0, 2.0, 3.0], [1.0, 0.9, 0.8, 2.5]
    assert trend.theil_sen(years, values) == pytest.approx((-0.1 + 0.5) / 2.0)


def test_one_odd_plug_does_not_turn_the_trend() -> None:
    years = [2018.0, 2019.0, 2020.0, 2021.0, 2022.0, 2023.0, 2024.0]
    odd = [1.4, 1.3, 1.2, 1.1, 1.0, 0.9, 3.0]
    assert trend.theil_sen(years, odd) == pytest.approx(-0.1, abs=0.02)
    # Least squares, for comparison, is drawn off by the one plug (numpy.polyfit).
    assert np.polyfit(np.array(years), np.array(odd), 1)[0] > 0.1


def test_too_few_plugs_or_one_date_give_nothing() -> None:
    assert trend.theil_sen([], []) is None
    assert trend.theil_sen([2020.0, 2021.0], [1.0, 0.5]) is None
    assert trend.theil_sen([2020.0] * 6, [1.0, 0.9, 0.8, 0.7, 0.6, 0.5]) is None
    assert trend.theil_sen_interval([2020.0] * 6, [1.0, 0.9, 0.8, 0.7, 0.6, 0.5]) is None
    four_years = [2020.0, 2021.0, 2022.0, 2023.0]
    assert trend.theil_sen(four_years, [1.0, 0.9, 0.8, 0.7]) == pytest.approx(-0.1)
    assert trend.theil_sen_interval(four_years, [1.0, 0.9, 0.8, 0.7]) is None


@given(PLUGS, st.floats(-1, 1), st.floats(-2, 2))
def test_a_tilt_added_to_the_plugs_adds_to_the_slopes(
    plugs: list[tuple[float, float]], tilt: float, lift: float
) -> None:
    years, values = columns(plugs)
    tilted = [
        value + lift + tilt * (year - 2018.0) for year, value in zip(years, values, strict=True)
    ]
    before, after = trend.theil_sen(years, values), trend.theil_sen(years, tilted)
    assert before is not None
    assert after == pytest.approx(before + tilt, abs=1e-8)


@given(PLUGS)
def test_the_slope_lies_in_its_interval_and_order_does_not_matter(
    plugs: list[tuple[float, float]],
) -> None:
    years, values = columns(plugs)
    slope, interval = trend.theil_sen(years, values), trend.theil_sen_interval(years, values)
    assert slope is not None
    assert interval is None or interval[0] <= slope <= interval[1]
    assert trend.theil_sen(years[::-1], values[::-1]) == pytest.approx(slope, abs=1e-12)
    assert trend.theil_sen_interval(years[::-1], values[::-1]) == (
        interval if interval is None else pytest.approx(interval, abs=1e-12)
    )


def true_cover_by_ranks(plugs: int) -> float:
    """Share of all orders of `plugs` ranks in which the interval holds the true slope, zero.

    The interval is scipy's, which also prints one for 3 and 4 plugs. Exact: without a trend every
    order is equally likely.
    """
    years = np.arange(plugs, dtype=float)
    held = 0
    for order in itertools.permutations(range(plugs)):
        slopes = stats.theilslopes(np.array(order, dtype=float), years, alpha=0.95)
        held += slopes.low_slope <= 0.0 <= slopes.high_slope
    return held / math.factorial(plugs)


@pytest.mark.parametrize(("plugs", "cover"), [(3, 0.667), (4, 0.917)])
def test_three_or_four_plugs_would_not_cover_what_a_library_prints(
    plugs: int, cover: float
) -> None:
    # Kendall's distribution: at n = 3 two of six orders, at n = 4 two of 24, are all one way.
    assert true_cover_by_ranks(plugs) == pytest.approx(cover, abs=0.001)
    years, values = list(np.arange(float(plugs))), [1.0, 0.9, 0.85, 0.8][:plugs]
    assert trend.theil_sen_interval(years, values) is None


def true_cover(per_date: tuple[int, ...]) -> float:
    """The same share for our interval, with several plugs on a date."""
    years = [float(day) for day, plugs in enumerate(per_date) for _ in range(plugs)]
    held = 0
    for order in itertools.permutations(range(len(years))):
        interval = trend.theil_sen_interval(years, [float(rank) for rank in order])
        assert interval is not None
        held += interval[0] <= 0.0 <= interval[1]
    return held / math.factorial(len(years))


@pytest.mark.parametrize(
    "per_date",
    [(1, 1, 1, 1, 1), (1, 1, 1, 1, 1, 1), (2, 1, 1, 1), (2, 2, 2), (3, 2, 1), (2, 2, 1, 1)],
)
def test_what_is_given_covers_in_every_order(per_date: tuple[int, ...]) -> None:
    assert true_cover(per_date) >= 0.95


@pytest.mark.parametrize("per_date", [(2, 2, 1), (3, 1, 1), (4, 1), (3, 3), (4, 2), (5, 2)])
def test_plugs_on_too_few_dates_have_no_interval(per_date: tuple[int, ...]) -> None:
    years = [2020.0 + day for day, plugs in enumerate(per_date) for _ in range(plugs)]
    values = [1.0 - 0.01 * rank for rank in range(len(years))]
    assert trend.theil_sen_interval(years, values) is None
    assert trend.theil_sen(years, values) is not None


@pytest.mark.parametrize("plugs", [5, 6, 7, 8, 9, 10])
def test_cover_of_a_thinning_lawn(plugs: int) -> None:
    # Seeded: uneven dates, readings off by an eighth of an inch, thatch going at 0.12 in/year.
    rng, runs, true_slope = np.random.default_rng(20260615 + plugs), 400, -0.12
    held = 0
    for _ in range(runs):
        years = np.sort(rng.uniform(2020.0, 2025.0, plugs))
        values = 1.3 + true_slope * (years - 2020.0) + rng.normal(0.0, 0.125, plugs)
        interval = trend.theil_sen_interval(years.tolist(), values.tolist())
        assert interval is not None
        held += interval[0] <= true_slope <= interval[1]
    assert held / runs >= 0.93


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="at least one reading"):
        trend.summary([])
    with pytest.raises(ValueError, match="values must hold finite numbers"):
        trend.theil_sen([1.0, 2.0, 3.0], [1.0, math.nan, 2.0])
    with pytest.raises(ValueError, match="lists of the same length"):
        trend.theil_sen([1.0, 2.0, 3.0], [1.0, 2.0])
    with pytest.raises(ValueError, match="confidence must lie between"):
        trend.theil_sen_interval([1.0] * 5, [1.0] * 5, 1.0)


def test_hundreds_of_plugs_are_no_hindrance() -> None:
    """Of more than 170 days the factorial of their number is beyond any float."""
    years = [2000 + n / 12 for n in range(240)]
    interval = trend.theil_sen_interval(
        years, [1.0 - 0.01 * n + 0.02 * (n % 3) for n in range(240)]
    )
    assert interval is not None
    assert interval[0] <= -0.12 <= interval[1]
