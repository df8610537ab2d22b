"""The trend over spots against scipy and statsmodels: slopes, lines, bands, crossings, seasons."""

import importlib
import itertools
import math
import warnings
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import trend
from lawnbook.agronomy.spot_lines import spot_lines
from lawnbook.agronomy.spots_trend import (
    SHARE_OF_MISSES,
    Series,
    crossing_years,
    mean_band,
    mean_line,
    mean_trend,
    residual_sd,
    season_difference,
)
from tests.plug_yards import drawn_yards, noisy, straight

stats = importlib.import_module("scipy.stats")
sm = importlib.import_module("statsmodels.api")
meta = importlib.import_module("statsmodels.stats.meta_analysis")
HALF_INCH = 0.5
SLOPES = (-0.05, -0.12, -0.2, -0.08, -0.15)


@pytest.mark.parametrize("seed", range(5))
def test_one_spot_is_theil_and_sens(seed: int) -> None:
    # scipy.stats.theilslopes, method "separate" for the slope and its interval.
    (one,) = noisy(seed, [-0.1], plugs=9)
    found, reference = mean_trend([one]), stats.theilslopes(one.values, one.years, alpha=0.95)
    assert found is not None
    assert found.slope == pytest.approx(reference.slope)
    assert found.ci95 == pytest.approx((reference.low_slope, reference.high_slope))
    assert (found.method, found.spots, found.plugs) == ("ranks", 1, 9)
    assert (found.between_sd, found.freedom) == (None, None)


@pytest.mark.parametrize("spots", [3, 4, 5])
@pytest.mark.parametrize("seed", range(4))
def test_three_spots_and_more_are_a_random_effects_mean(seed: int, spots: int) -> None:
    # statsmodels combine_effects, method "iterated" (Paule and Mandel), Hartung-Knapp t interval.
    series = [
        Series(one.years[late:], one.values[late:])
        for late, one in enumerate(noisy(seed, SLOPES[:spots], 9))
    ]
    found, noise = mean_trend(series), residual_sd(series)
    assert found is not None
    assert noise is not None
    lines = [stats.linregress(one.years, one.values) for one in series]
    variances = [noise[0] ** 2 / (np.var(one.years) * len(one.years)) for one in series]
    reference = meta.combine_effects(
        np.array([line.slope for line in lines]), np.array(variances), "iterated", use_t=True
    )
    # Where spots differ less than their noise statsmodels narrows the interval; we do not.
    widened = max(1.0, 1.0 / math.sqrt(reference.scale_hksj_re))
    reach = stats.t.isf(0.025, spots - 1) * reference.sd_eff_w_re_hksj * widened
    assert found.slope == pytest.approx(reference.mean_effect_re, rel=1e-5)
    assert found.between_sd == pytest.approx(math.sqrt(reference.tau2), abs=1e-5)
    assert found.ci95 == pytest.approx((found.slope - reach, found.slope + reach), rel=1e-4)
    assert (found.method, found.freedom) == ("spots", spots - 1)


def test_balanced_spots_agree_with_a_mixed_model() -> None:
    # statsmodels MixedLM, a level and slope at random for each spot: on balanced data its fixed
    # slope is the mean of the spots' least-squares slopes, whatever the variances.
    series = noisy(3, [-0.25, -0.02, -0.14, -0.30, 0.0, -0.1], 10, sd=0.05)
    years = np.concatenate([one.years for one in series]) - 2020.0
    fixed = sm.add_constant(years)
    groups = np.repeat(np.arange(6), 10)
    with warnings.catch_warnings():
        # It warns of how its search went; only the fixed slope, which does not hang on it, is used.
        warnings.simplefilter("ignore")
        values = np.concatenate([one.values for one in series])
        model = sm.MixedLM(values, fixed, groups, exog_re=fixed).fit(reml=True)
    found = mean_trend(series)
    assert found is not None
    assert found.slope == pytest.approx(model.fe_params[1], abs=1e-6)
    # Its standard error of the slope, too: √((between² + noise² / spread) / spots).
    assert found.ci95 is not None
    error = (found.ci95[1] - found.slope) / stats.t.isf(0.025, 5)
    assert error == pytest.approx(model.bse_fe[1], rel=0.02)


@pytest.mark.parametrize("plugs", [(3, 4), (4, 4), (5, 3)])
def test_two_spots_by_ranks_cover_in_every_order(plugs: tuple[int, int]) -> None:
    """Without a trend every order within a spot is equally likely: all of them, one by one."""
    years = [tuple(2018.0 + 0.5 * day for day in range(count)) for count in plugs]
    orders = [list(itertools.permutations(map(float, range(count)))) for count in plugs]
    held = 0
    for pair in itertools.product(*orders):
        found = mean_trend([Series(*one) for one in zip(years, pair, strict=True)])
        assert found is not None
        assert found.ci95 is not None
        assert found.ci95[0] <= found.slope <= found.ci95[1]
        held += found.ci95[0] <= 0.0 <= found.ci95[1]
    assert held / math.prod(map(len, orders)) >= 0.95


def test_the_interval_of_two_spots_holds_students() -> None:
    # statsmodels OLS with a level and slope for each spot: t interval of the mean of two slopes.
    series = noisy(8, [-0.05, -0.25], 8)
    years = np.asarray(series[0].years) - 2018.0
    none = np.zeros(8)
    columns = [[np.ones(8), years, none, none], [none, none, np.ones(8), years]]
    design = np.hstack([np.array(column) for column in columns]).T
    model = sm.OLS(np.concatenate([one.values for one in series]), design).fit()
    low, high = model.t_test([0.0, 0.5, 0.0, 0.5]).conf_int()[0]
    found = mean_trend(series)
    assert found is not None
    assert found.ci95 is not None
    assert found.ci95[0] <= low + 1e-9
    assert found.ci95[1] >= high - 1e-9
    assert (found.method, found.freedom) == ("permutation", 12)


@pytest.mark.parametrize("seed", range(4))
def test_the_band_of_one_spot_is_least_squares(seed: int) -> None:
    # statsmodels OLS, interval of the mean; ours is no narrower and holds the median line too.
    (one,) = noisy(seed, [-0.1], 8)
    at = [2018.2, 2020.0, 2023.0]
    centred = np.asarray(one.years) - 2020.0
    model = sm.OLS(one.values, sm.add_constant(centred)).fit()
    reference = model.get_prediction(sm.add_constant(np.array(at) - 2020.0)).conf_int()
    band, line = mean_band([one], at), mean_line([one])
    assert band is not None
    assert line is not None
    for (low, high), (least, most), year in zip(band, reference, at, strict=True):
        assert low == pytest.approx(min(least, line.at(year)))
        assert high == pytest.approx(max(most, line.at(year)))


def test_the_line_of_one_spot_is_not_turned_by_an_odd_plug() -> None:
    one = straight(-0.1, 9)
    odd = Series(one.years, (*one.values[:4], one.values[4] + 1.0, *one.values[5:]))
    line = mean_line([odd])
    assert line is not None
    assert line.slope == pytest.approx(-0.1, abs=0.02)
    assert line.at(2020.2) == pytest.approx(1.0, abs=0.02)


def test_the_noise_about_the_lines_is_pooled() -> None:
    # scipy.stats.linregress: residuals of each spot about its own line.
    series = noisy(1, SLOPES[:3], 6)
    squares = 0.0
    for one in series:
        fit = stats.linregress(one.years, one.values)
        left = np.asarray(one.values) - fit.intercept - fit.slope * np.asarray(one.years)
        squares += float((left**2).sum())
    found = residual_sd(series)
    assert found is not None
    assert found[0] == pytest.approx(math.sqrt(squares / 12))
    assert found[1] == 12


@pytest.mark.parametrize("slopes", [[-0.1], [-0.08, -0.12], [-0.1, -0.1, -0.1]])
def test_a_line_without_noise_meets_half_an_inch_where_it_does(slopes: list[float]) -> None:
    series = [straight(slope, 9) for slope in slopes]
    assert crossing_years(series, HALF_INCH) == pytest.approx((2025.2, 2025.2), abs=0.01)


@pytest.mark.parametrize("seed", range(6))
def test_the_crossing_of_one_spot_is_fiellers(seed: int) -> None:
    # The two roots of Fieller's quadratic by numpy.roots, about least squares (scipy linregress).
    (one,) = noisy(seed, [-0.15], 12, sd=0.04)
    years, values = np.asarray(one.years), np.asarray(one.values)
    middle, fit = years.mean(), stats.linregress(years, values)
    left = values - fit.intercept - fit.slope * years
    t2s2 = stats.t.isf(0.025 * SHARE_OF_MISSES, 10) ** 2 * (left**2).sum() / 10
    short = values.mean() - HALF_INCH
    spread = ((years - middle) ** 2).sum()
    roots = np.roots(
        [fit.slope**2 - t2s2 / spread, 2 * fit.slope * short, short**2 - t2s2 / years.size]
    )
    found = crossing_years([one], HALF_INCH)
    assert found is not None
    assert found[0] == pytest.approx(middle + roots.min(), abs=0.05)
    assert found[1] == pytest.approx(middle + roots.max(), abs=0.05)


def test_a_trend_that_may_be_flat_meets_no_level() -> None:
    years = tuple(2018.0 + 0.5 * day for day in range(6))
    assert crossing_years([Series(years, (0.9, 1.0, 0.8, 1.0, 0.9, 0.85))], HALF_INCH) is None
    assert crossing_years([Series(years, (0.9,) * 6)], HALF_INCH) is None
    assert crossing_years([straight(-0.1, 4)], HALF_INCH) is None
    assert crossing_years([straight(-0.1)] * 3, -20.0) is None


def test_plugs_within_weeks_have_no_slope() -> None:
    """Whatever a year of their error would come to: they are left out of the mean."""
    near = Series((0.0, 1 / 365.25, 2 / 365.25), (0.5, 0.9, 1.1))
    assert mean_trend([near]) is None
    assert mean_trend([near, straight(-0.1), straight(-0.1)]) == mean_trend(
        [straight(-0.1), straight(-0.1)]
    )
    for days, told in ((59, False), (60, True)):
        edge = Series((2.4, 2.4 + days / 365.25), (0.5, 0.6))
        assert edge.has_slope() == told


@pytest.mark.parametrize(("spots", "plugs", "told"), [(1, 7, 0), (1, 8, 1), (2, 4, 0), (2, 5, 1)])
def test_a_crossing_needs_plugs_to_spare(spots: int, plugs: int, told: int) -> None:
    assert (crossing_years([straight(-0.1, plugs)] * spots, HALF_INCH) is not None) == bool(told)


def test_a_crossing_holds_all_years_of_a_band_that_narrows_and_widens_again() -> None:
    """A spot plugged thrice in two months counts for little far from them, and the band parts."""
    series = [
        Series(
            (0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5),
            (1.1875, 1.09375, 1.03125, 0.9375, 0.84375, 0.78125, 0.6875),
            1 / 32,
        ),
        Series((0.5, 1.0, 1.5, 2.0, 2.5), (1.125, 1.03125, 0.9375, 0.875, 0.75), 1 / 32),
        Series((0.0, 0.085, 0.17), (0.53125, 0.59375, 0.53125), 1 / 32),
    ]
    years = np.arange(-20.0, 20.0, 0.01)
    band = np.array(mean_band(series, years.tolist(), 1.0 - 0.05 * SHARE_OF_MISSES))
    holds = years[(band[:, 0] <= 0.5) & (band[:, 1] >= 0.5)]
    assert np.diff(holds).max() > 0.1
    assert crossing_years(series, 0.5) == pytest.approx((holds[0], holds[-1]), abs=0.02)


@given(drawn_yards(), st.floats(0.2, 1.5))
def test_a_crossing_lies_about_the_lines_own(series: list[Series], level: float) -> None:
    found, line, whole = crossing_years(series, level), mean_line(series), mean_trend(series)
    if found is not None:
        assert line is not None
        assert whole is not None
        assert found[0] - 1e-6 <= (level - line.intercept) / line.slope <= found[1] + 1e-6
        assert whole.ci95 is not None
        assert not whole.ci95[0] <= 0.0 <= whole.ci95[1]


@given(drawn_yards())
def test_line_and_slope_lie_in_band_and_interval(series: list[Series]) -> None:
    found, line, band = mean_trend(series), mean_line(series), mean_band(series, [2018.0, 2030.0])
    assert (found is None) == (line is None)
    if found is None or line is None:
        return
    assert line.slope == pytest.approx(found.slope)
    assert band is None or found.ci95 is not None
    if found.ci95 is not None:
        assert found.plugs >= trend.FEWEST_FOR_INTERVAL
        assert found.ci95[0] <= found.slope <= found.ci95[1]
    for year, (low, high) in zip((2018.0, 2030.0), band or (), strict=False):
        assert low - 1e-9 <= line.at(year) <= high + 1e-9


@given(drawn_yards(), st.floats(-0.5, 0.5))
def test_a_tilt_added_to_all_plugs_adds_to_the_slope(series: list[Series], tilt: float) -> None:
    tilted = [
        Series(
            one.years,
            tuple(v + tilt * (y - 2018.0) for y, v in zip(one.years, one.values, strict=True)),
        )
        for one in series
    ]
    before, after = mean_trend(series), mean_trend(tilted)
    assert (before is None) == (after is None)
    if before is not None and after is not None:
        assert after.slope == pytest.approx(before.slope + tilt, abs=1e-6)


@pytest.mark.parametrize("seed", range(4))
def test_the_season_against_least_squares(seed: int) -> None:
    # statsmodels OLS: a line for each spot, and one column that marks the spring plugs.
    series = noisy(seed, [-0.1, -0.2], 8)
    spring = [[day % 2 == 0 for day in range(8)]] * 2
    years, none = np.asarray(series[0].years) - 2018.0, np.zeros(8)
    ones, marks = np.ones(8), np.array(spring[0], dtype=float)
    design = np.hstack([[ones, years, none, none, marks], [none, none, ones, years, marks]]).T
    model = sm.OLS(np.concatenate([one.values for one in series]), design).fit()
    found = season_difference(series, spring)
    assert found is not None
    assert found.value == pytest.approx(model.params[4])
    assert found.ci95 == pytest.approx(tuple(model.conf_int()[4]))


def test_a_season_that_cannot_be_told_is_none() -> None:
    assert season_difference([], []) is None
    assert season_difference([straight(-0.1)], [[True] * 7]) is None
    assert season_difference([straight(-0.1, 2)], [[True, False]]) is None
    few = season_difference([straight(-0.1, 4)], [[True, False, True, False]])
    assert few is not None
    assert few.ci95 is None


def test_few_plugs_and_few_dates() -> None:
    assert mean_trend([]) is None
    assert mean_trend([Series((), ())]) is None
    assert mean_trend([straight(-0.1, 1)] * 4) is None
    assert mean_trend([straight(-0.1, 2)]) is None
    assert mean_line([straight(-0.1, 2)]) is None
    assert residual_sd([straight(-0.1, 2)] * 3) is None
    assert spot_lines([straight(-0.1, 1)]) is None
    for series in ([straight(-0.1, 4)], [straight(-0.1, 2)] * 2, [straight(-0.1, 2)] * 5):
        found = mean_trend(series)
        assert found is not None
        assert found.slope == pytest.approx(-0.1)
        assert found.ci95 is None
        assert mean_band(series, [2020.0]) is None


def test_spots_of_one_date_are_left_out() -> None:
    series = [straight(-0.1), straight(-0.3, 1), Series((2019.0, 2019.0), (1.0, 0.8))]
    assert mean_trend(series) == mean_trend(series[:1])
    assert mean_line(series) == mean_line(series[:1])


def test_values_all_alike_and_plugs_on_equal_dates() -> None:
    flat = straight(0.0, 6, 0.75)
    for spots in (1, 2, 3):
        level, line = mean_trend([flat] * spots), mean_line([flat] * spots)
        assert level is not None
        assert line is not None
        assert level.slope == pytest.approx(0.0, abs=1e-9)
        assert line.at(2019.0) == pytest.approx(0.75)
    # Plugs of a date belong pooled; left apart, only the ranks of one spot and three can tell.
    twice = Series((2018.0, 2018.0, 2019.0, 2020.0, 2021.0), (1.2, 1.3, 1.1, 1.0, 0.9))
    found = [mean_trend([twice] * spots) for spots in (1, 2, 3)]
    assert [each is not None and each.ci95 is not None for each in found] == [True, False, True]


@pytest.mark.parametrize(
    "call",
    [
        lambda: Series((2018.0,), (math.nan,)),
        lambda: Series((math.inf,), (1.0,)),
        lambda: Series((2018.0, 2019.0), (1.0,)),
        lambda: mean_trend([straight(-0.1)], 1.0),
        lambda: mean_band([straight(-0.1)], [math.nan]),
        lambda: crossing_years([straight(-0.1)], math.inf),
        lambda: season_difference([straight(-0.1)], []),
        lambda: season_difference([straight(-0.1)], [[True]]),
        lambda: season_difference([straight(-0.1)], [[True] * 7], 0.0),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="must"):
        call()
