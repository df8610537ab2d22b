"""The trend over several spots: slope, line, band and the years of a crossing, with their doubt.

Years are decimal, values inches, slopes inches a year. One spot: the median slope and its rank
interval. Two: the mean of their median slopes. Three and more: spots differ at random, and the
figures are for the lawn the spots stand for. An interval needs 5 plugs of 3 dates; spots whose
plugs lie within two months have no slope and are left out. What simulation found too narrow is
widened or not given (`tests/bench/coverage.py`). ValueError for NaN, unequal lists, and a
confidence not between 0 and 1. Sources: "theil-sen", "regional-kendall", "paule-mandel",
"hartung-knapp", "least-squares", "hodges-lehmann", "fieller", "rounding".
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from statistics import fmean
from typing import Literal

import numpy as np

from lawnbook.agronomy.checks import Array, finite, finite_array
from lawnbook.agronomy.spot_lines import (
    Series,
    SpotLines,
    off_lines,
    random_mean,
    rounding_variance,
    spot_lines,
    with_line,
)
from lawnbook.agronomy.student import share, student_t
from lawnbook.agronomy.trend import (
    FEWEST_FOR_INTERVAL,
    FEWEST_FOR_SLOPE,
    Line,
    pairwise_slopes,
    theil_sen_interval,
)
from lawnbook.frozen import dataclass

__all__ = [
    "FEWEST_DATES",
    "Fit",
    "MeanTrend",
    "Series",
    "crossing_years",
    "dates_to_add",
    "mean_band",
    "mean_line",
    "mean_trend",
    "residual_sd",
    "season_difference",
]

Interval = tuple[float, float]
FEWEST_DATES = 3
"""Plugs of two dates only show no scatter about a line, and so no interval."""

FARTHEST_YEARS = 100.0
"""A crossing that may be farther off than this is none."""

FEWEST_TO_SPARE = 6
"""A crossing needs so many plugs beyond two a spot: 8 at one, 10 at two, 12 at three.

With fewer, those that were told one had often looked steadier than they are: simulated, 74 to 92 %
of the crossings given held.
"""

MOST_FREEDOM = 500
"""More makes an interval narrower by less than 1 in 600, and the quantile slow."""

SHARE_OF_MISSES = 0.5
"""What a crossing's band may miss of what its confidence allows: at all of it 91 to 95 % held."""

SURE_OF_SLOPE = 0.99
"""How sure it must be that the trend is not flat before a crossing is told.

At the 95 % of the interval itself, lawns that hardly change and looked steep by chance would be
told a date too often: the crossings given would cover less than they claim.
"""


@dataclass(frozen=True, slots=True)
class Fit:
    """A figure and its interval, None where there are too few plugs for one."""

    value: float
    ci95: Interval | None


@dataclass(frozen=True, slots=True)
class MeanTrend:
    """The slope (in/year) over spots and how sure it is.

    `method`: "ranks" for one spot, "permutation" for two, "spots" for more. `spots` and `plugs`
    count those used, with two dates or more. `between_sd` (in/year) is how far slopes of spots
    lie apart beyond noise, None under three spots; `freedom` that of the t interval, None for
    ranks.
    """

    slope: float
    ci95: Interval | None
    method: Literal["ranks", "permutation", "spots"]
    spots: int
    plugs: int
    between_sd: float | None
    freedom: int | None


def mean_trend(series: Sequence[Series], confidence: float = 0.95) -> MeanTrend | None:
    """The slope over all spots with its interval; None under 3 plugs.

    Of one or two spots the interval is for those spots, of more for all spots like them. None is
    given under 5 plugs or 3 dates, or where no spot has a plug beyond its line's two.
    """
    share("confidence", confidence)
    kept = with_line(series)
    return _trend(kept, spot_lines(kept), confidence)


def mean_line(series: Sequence[Series]) -> Line | None:
    """The trend line of `mean_trend`'s slope, as the mean of the spots' levels; None without one.

    Of one or two spots each spot's level is the Hodges-Lehmann centre about its median slope.
    """
    kept = with_line(series)
    lines = spot_lines(kept)
    trend = _trend(kept, lines, 0.95)
    return _line(kept, lines, trend.slope) if trend and lines else None


def mean_band(
    series: Sequence[Series], at: Sequence[float], confidence: float = 0.95
) -> tuple[Interval, ...] | None:
    """Low and high of the mean line in each of the years `at`, each for itself.

    None where `mean_trend` gives no interval. The line lies within.
    """
    years, kept = finite_array("at", at), with_line(series)
    band = _band(kept, spot_lines(kept), share("confidence", confidence))
    if band is None:
        return None
    low, high = band.limits(years)
    return tuple(zip(low.tolist(), high.tolist(), strict=True))


def crossing_years(
    series: Sequence[Series], level: float, confidence: float = 0.95
) -> Interval | None:
    """Earliest and latest decimal year in which the mean line may meet `level`; None: cannot say.

    All years, before and after the plugs, whose band (`SHARE_OF_MISSES`) holds the level, as
    Fieller's for a single line. None where the trend may be flat (`SURE_OF_SLOPE`), with fewer than
    `FEWEST_TO_SPARE` plugs to spare, or where no end lies within `FARTHEST_YEARS` of the plugs.
    """
    finite("level", level)
    kept = with_line(series)
    lines = spot_lines(kept)
    surer = 1.0 - (1.0 - share("confidence", confidence)) * SHARE_OF_MISSES
    band = _band(kept, lines, surer)
    if band is None or band.lines.freedom < FEWEST_TO_SPARE:
        return None
    slope = _trend(kept, lines, max(confidence, SURE_OF_SLOPE))
    if slope is None or slope.ci95 is None or slope.ci95[0] <= 0.0 <= slope.ci95[1]:
        return None
    met = (level - band.line.intercept) / band.line.slope
    if abs(met - float(band.lines.middle.mean())) > FARTHEST_YEARS:
        return None
    first, last = (_reach(band, level, met, way) for way in (-1.0, 1.0))
    return None if first is None or last is None else (first, last)


def residual_sd(series: Sequence[Series]) -> tuple[float, int] | None:
    """Standard deviation (in) about each spot's own line and its degrees of freedom; None for 0."""
    lines = spot_lines(series)
    return (math.sqrt(lines.noise), lines.freedom) if lines and lines.freedom > 0 else None


def season_difference(
    series: Sequence[Series], spring: Sequence[Sequence[bool]], confidence: float = 0.95
) -> Fit | None:
    """Values marked in `spring` minus the others (in), each spot's own trend taken out.

    Least squares with a line for each spot and one step between seasons for all. None where no
    spot has three plugs that tell the two apart. ValueError unless `spring` matches the values.
    """
    if [len(each) for each in spring] != [len(each.values) for each in series]:
        raise ValueError("spring must say yes or no for every value.")
    share("confidence", confidence)
    told = [
        (one, marks)
        for one, marks in zip(series, spring, strict=True)
        if len(one.years) > 2 and one.has_slope()
    ]
    if not told:
        return None
    kept = [one for one, _ in told]
    marks, values = off_lines(kept, [[each for _, each in told], [one.values for one in kept]])
    weight = float((marks**2).sum())
    if weight < 1e-9:
        return None
    step = float((marks * values).sum()) / weight
    freedom = int(marks.size) - 2 * len(told) - 1
    if marks.size < FEWEST_FOR_INTERVAL or freedom < 1:
        return Fit(step, None)
    noise = float(((values - step * marks) ** 2).sum()) / freedom
    noise = max(noise, rounding_variance(kept))
    reach = student_t(confidence, min(freedom, MOST_FREEDOM)) * math.sqrt(noise / weight)
    return Fit(step, (step - reach, step + reach))


def dates_to_add(dates: Sequence[int]) -> tuple[int, tuple[int, ...]]:
    """How many more dates at one spot give the trend its interval (95 %), and at which of them.

    `dates` counts the plugs of each spot in the trend, two dates or more. The spots are told by
    their place in it; (0, ()) where nothing is missing. ValueError without a spot, or for one
    with fewer than two dates.
    """
    if not dates or min(dates) < 2:
        raise ValueError("Every spot in the trend has two dates or more.")
    if _bear_interval(dates):
        return 0, ()
    needed = [_missing_at(dates, at) for at in range(len(dates))]
    return min(needed), tuple(at for at, more in enumerate(needed) if more == min(needed))


def _missing_at(dates: Sequence[int], at: int) -> int:
    tried = list(dates)
    while not _bear_interval(tried):
        tried[at] += 1
    return tried[at] - dates[at]


def _bear_interval(dates: Sequence[int]) -> bool:
    """Whether so many dates at each spot are enough for `mean_trend`'s interval of 95 %.

    Of one or two spots the ranks must have more orders than the two tails' share of 2.5 % each.
    """
    enough = sum(dates) >= FEWEST_FOR_INTERVAL and max(dates) >= FEWEST_DATES
    return enough and (len(dates) > 2 or math.prod(map(math.factorial, dates)) * 0.025 >= 1.0)


def _enough(kept: Sequence[Series], lines: SpotLines) -> bool:
    """Whether there is an interval at all: enough plugs and dates, and a plug to spare."""
    dates = {year for each in kept for year in each.years}
    plugs = sum(len(each.years) for each in kept)
    return plugs >= FEWEST_FOR_INTERVAL and len(dates) >= FEWEST_DATES and lines.freedom > 0


def _trend(kept: Sequence[Series], lines: SpotLines | None, confidence: float) -> MeanTrend | None:
    plugs = sum(len(each.years) for each in kept)
    if lines is None or plugs < FEWEST_FOR_SLOPE:
        return None
    if len(kept) == 1:
        return _one_spot(kept[0], lines, confidence)
    if len(kept) == 2:
        return _two_spots(kept, lines, confidence)
    mean, error, between = random_mean(lines.slope, lines.slope_variance())
    freedom = len(kept) - 1
    reach = student_t(confidence, freedom) * float(error)
    slope = float(mean)
    interval = (slope - reach, slope + reach) if _enough(kept, lines) else None
    between_sd = math.sqrt(float(between))
    return MeanTrend(slope, interval, "spots", len(kept), plugs, between_sd, freedom)


def _line(kept: Sequence[Series], lines: SpotLines, slope: float) -> Line:
    if len(kept) > 2:
        middle = np.array([float((lines.plugs * lines.middle).sum() / lines.plugs.sum())])
        level, _, _ = random_mean(lines.level_at(middle), lines.level_variance(middle))
        return Line(slope, float(level[0]) - slope * float(middle[0]))
    intercepts = [_robust_line(each).intercept for each in kept]
    return Line(slope, sum(intercepts) / len(intercepts))


def _one_spot(series: Series, lines: SpotLines, confidence: float) -> MeanTrend:
    """The median slope; the interval by ranks is held wide enough for the rounding of the ruler.

    Values that tie by rounding make the ranks look surer than they are: simulated, it covered 83
    to 91 % where plugs scatter by half a mark or less. So ties count as if there were none, and
    the interval is at least Student's by the ruler alone.
    """
    interval = theil_sen_interval(series.years, series.values, confidence)
    slope = float(np.median(pairwise_slopes(series.years, series.values)))
    if interval is not None and series.ruler_in > 0.0 and lines.freedom > 0:
        tied = len(set(series.values)) < len(series.values)
        untied = (_rank_interval([series], confidence) if tied else None) or interval
        error = math.sqrt(rounding_variance([series]) / float(lines.spread[0]))
        reach = student_t(confidence, min(lines.freedom, MOST_FREEDOM)) * error
        interval = (
            min(interval[0], untied[0], slope - reach),
            max(interval[1], untied[1], slope + reach),
        )
    return MeanTrend(slope, interval, "ranks", 1, len(series.years), None, None)


def _two_spots(kept: Sequence[Series], lines: SpotLines, confidence: float) -> MeanTrend:
    """The mean of two median slopes; the interval holds both that of ranks and Student's.

    The ranks of both spots together answer to one slope common to both. Where the two differ and
    one has more plugs, that is not their mean: simulated, it covered 91 %. Student's interval of
    the mean, by the noise about both lines, is not led astray.
    """
    slope = sum(_robust_line(each).slope for each in kept) / 2.0
    plugs = sum(len(each.years) for each in kept)
    ranks = _rank_interval(kept, confidence) if _enough(kept, lines) else None
    interval = None
    if ranks is not None:
        error = math.sqrt(float(lines.slope_variance().sum())) / 2.0
        reach, centre = student_t(confidence, lines.freedom) * error, float(lines.slope.mean())
        interval = min(ranks[0], centre - reach, slope), max(ranks[1], centre + reach, slope)
    return MeanTrend(slope, interval, "permutation", 2, plugs, None, lines.freedom)


def _rank_interval(kept: Sequence[Series], confidence: float) -> Interval | None:
    """The slopes that the ranks within each spot allow, by all orders there are; None for too few.

    Regional Kendall: pairs of plugs are compared within spots only and counted over all. Ties
    count as if there were none, which only widens; plugs of a spot that share a date have none.
    Source: "regional-kendall".
    """
    slopes = np.sort(np.concatenate([pairwise_slopes(each.years, each.values) for each in kept]))
    orders = np.ones(1)
    for each in kept:
        orders = np.convolve(orders, _falls(len(each.years)))
    # The most falls that come so seldom by chance that both tails together miss as often as told.
    most = int(np.searchsorted(np.cumsum(orders), (1.0 - confidence) / 2.0, side="right")) - 1
    if most < 0 or slopes.size < orders.size - 1:
        return None
    return float(slopes[most]), float(slopes[slopes.size - 1 - most])


@lru_cache(maxsize=256)
def _falls(plugs: int) -> Array:
    """Chance of every number of falling pairs when all orders of so many plugs are alike."""
    chance = np.ones(1)
    for each in range(2, plugs + 1):
        chance = np.convolve(chance, np.full(each, 1.0 / each))
    return chance


def _robust_line(series: Series) -> Line:
    """Median slope, and the Hodges-Lehmann centre of what is left: the median of pairs' means."""
    slope = float(np.median(pairwise_slopes(series.years, series.values)))
    middle = float(np.mean(series.years))
    left = np.asarray(series.values) - slope * (np.asarray(series.years) - middle)
    one, other = np.triu_indices(left.size)
    return Line(slope, float(np.median((left[one] + left[other]) / 2.0)) - slope * middle)


@dataclass(frozen=True, slots=True)
class _Band:
    """What the mean line may be off in any year: never less than half a mark of the ruler.

    Thatch that stays between two marks is read as one of them each time, which no number of plugs
    averages out.
    """

    lines: SpotLines
    line: Line
    confidence: float
    ruler_in: float

    def limits(self, years: Array) -> tuple[Array, Array]:
        """Low and high in each year."""
        line = self.line.intercept + self.line.slope * years
        spots = self.lines.slope.size
        variances = self.lines.level_variance(years)
        if spots > 2:
            centre, error, _ = random_mean(self.lines.level_at(years), variances)
            reach = student_t(self.confidence, spots - 1) * error
        else:
            # About the least-squares lines: about the median ones Student's reach held too little.
            centre = self.lines.level_at(years).mean(axis=1)
            error = np.sqrt(variances.sum(axis=1)) / spots
            reach = student_t(self.confidence, self.lines.freedom) * error
        reach = np.maximum(reach, self.ruler_in / 2.0)
        return np.minimum(centre - reach, line), np.maximum(centre + reach, line)


def _band(kept: Sequence[Series], lines: SpotLines | None, confidence: float) -> _Band | None:
    trend = _trend(kept, lines, confidence)
    if trend is None or trend.ci95 is None or lines is None or lines.freedom < 1:
        return None
    ruler_in = math.sqrt(fmean(each.ruler_in**2 for each in kept))
    return _Band(lines, _line(kept, lines, trend.slope), confidence, ruler_in)


def _reach(band: _Band, level: float, met: float, way: float) -> float | None:
    """The farthest year before (`way` -1) or after (1) `met` whose band still holds the level."""
    steps = np.concatenate(([0.0], np.geomspace(0.001, FARTHEST_YEARS, 60)))
    for _ in range(3):
        low, high = band.limits(met + way * steps)
        # The last, not the first gap: between differing spots the band may narrow and widen again.
        holds = np.flatnonzero((low <= level) & (level <= high))
        last = int(holds[-1]) if holds.size else 0
        if last == steps.size - 1:
            return None
        steps = np.linspace(steps[last], steps[last + 1], 30)
    return met + way * float(steps[-1])
