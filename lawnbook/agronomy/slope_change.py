"""Did the trend turn on a day, and does the treated part thin faster than the untreated strip?

Years are decimal, values inches, slopes inches a year; thinning is negative. ValueError for NaN,
unequal lists, and a confidence not between 0 and 1. Sources: "least-squares", "paule-mandel",
"hartung-knapp", "mover".
"""

import math
from collections.abc import Sequence

import numpy as np

from lawnbook.agronomy.checks import Array, finite
from lawnbook.agronomy.spot_lines import Series, SpotLines, random_mean, spot_lines
from lawnbook.agronomy.spots_trend import FEWEST_DATES, Fit, MeanTrend, mean_trend
from lawnbook.agronomy.student import share, student_t
from lawnbook.agronomy.trend import FEWEST_FOR_INTERVAL
from lawnbook.frozen import dataclass


@dataclass(frozen=True, slots=True)
class ChangeFit:
    """Slopes before and from a year on, and after minus before, with the plugs that tell them."""

    before: Fit
    after: Fit
    difference: Fit
    plugs_before: int
    plugs_after: int


@dataclass(frozen=True, slots=True)
class DifferenceFit:
    """Slopes of treated and untreated spots, and treated minus untreated."""

    treated: Fit
    untreated: Fit
    difference: Fit


def slope_change(
    series: Sequence[Series], split_year: float, confidence: float = 0.95
) -> ChangeFit | None:
    """Slopes before `split_year` and from it on, of the spots that have two dates on each side.

    Each side of a spot has its own least-squares line, and the thatch may jump in between; the
    noise is pooled over all. Of one or two spots the figures are those spots' own. With three and
    more the spots differ at random, one set of weights serving all three figures, so that the
    difference is that of the other two. None where no spot has both sides; intervals only from 5
    plugs of 3 dates on each side.
    """
    share("confidence", confidence)
    both = [_split(each, finite("split_year", split_year)) for each in series]
    kept = [pair for pair in both if pair[0].has_slope() and pair[1].has_slope()]
    lines = spot_lines([side for pair in kept for side in pair])
    if lines is None:
        return None
    sides = [[pair[0] for pair in kept], [pair[1] for pair in kept]]
    enough = lines.freedom > 0 and all(_enough(side) for side in sides)
    before, after = slice(0, None, 2), slice(1, None, 2)
    slopes = np.array([lines.slope[before], lines.slope[after]])
    variances = np.array([lines.slope_variance()[before], lines.slope_variance()[after]])
    fits = _three_fits(slopes, variances, lines, confidence if enough else None)
    counts = [sum(len(each.years) for each in side) for side in sides]
    return ChangeFit(*fits, plugs_before=counts[0], plugs_after=counts[1])


def slope_difference(
    treated: Sequence[Series], untreated: Sequence[Series], confidence: float = 0.95
) -> DifferenceFit | None:
    """The slope of the treated spots against that of the untreated, each as `mean_trend` has it.

    The interval of the difference joins the two intervals (source "mover"). Of one or two spots a
    side stands for those spots only, not for all of the lawn. None where a side has no slope.
    """
    one, other = mean_trend(treated, confidence), mean_trend(untreated, confidence)
    if one is None or other is None:
        return None
    fits = Fit(one.slope, one.ci95), Fit(other.slope, other.ci95)
    return DifferenceFit(*fits, difference=Fit(one.slope - other.slope, _joined(one, other)))


def _joined(one: MeanTrend, other: MeanTrend) -> tuple[float, float] | None:
    """The interval of one slope less the other's: their arms joined as sides of a right angle."""
    if one.ci95 is None or other.ci95 is None:
        return None
    difference = one.slope - other.slope
    down = math.hypot(one.slope - one.ci95[0], other.ci95[1] - other.slope)
    up = math.hypot(one.ci95[1] - one.slope, other.slope - other.ci95[0])
    return difference - down, difference + up


def _split(series: Series, split_year: float) -> tuple[Series, Series]:
    plugs = list(zip(series.years, series.values, strict=True))
    early = [plug for plug in plugs if plug[0] < split_year]
    late = [plug for plug in plugs if plug[0] >= split_year]
    return _series(early, series.ruler_in), _series(late, series.ruler_in)


def _series(plugs: Sequence[tuple[float, float]], ruler_in: float) -> Series:
    return Series(tuple(year for year, _ in plugs), tuple(value for _, value in plugs), ruler_in)


def _enough(side: Sequence[Series]) -> bool:
    plugs = sum(len(each.years) for each in side)
    dates = {year for each in side for year in each.years}
    return plugs >= FEWEST_FOR_INTERVAL and len(dates) >= FEWEST_DATES


def _three_fits(
    slopes: Array, variances: Array, lines: SpotLines, confidence: float | None
) -> tuple[Fit, Fit, Fit]:
    """Before, after and difference from arrays of shape (2, spots); no intervals for None."""
    effects = np.array([slopes[0], slopes[1], slopes[1] - slopes[0]])
    noise = np.array([variances[0], variances[1], variances[0] + variances[1]])
    spots = effects.shape[1]
    if spots > 2:
        _, _, between = random_mean(effects[2], noise[2])
        weights = 1.0 / (noise[2] + between)
        freedom = spots - 1
    else:
        weights, freedom = np.ones(spots), lines.freedom
    weights = weights / weights.sum()
    means = effects @ weights
    errors = np.sqrt(noise @ weights**2)
    if spots > 2:
        off = (effects - means[:, np.newaxis]) ** 2
        errors = np.maximum(errors, np.sqrt(off @ (weights**2 / (1.0 - weights))))
    reach = student_t(confidence, freedom) * errors if confidence else None
    fits = [
        Fit(float(mean), None if reach is None else (float(mean - by), float(mean + by)))
        for mean, by in zip(means, reach if reach is not None else errors, strict=True)
    ]
    return fits[0], fits[1], fits[2]
