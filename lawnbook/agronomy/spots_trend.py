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
from statistics import fmean
from typing import Literal

import numpy as np

from lawnbook.agronomy.checks import finite
from lawnbook.agronomy.rank_chances import most_falls, pairs_of
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
    FEWEST_DATES,
    FEWEST_FOR_INTERVAL,
    FEWEST_FOR_SLOPE,
    Line,
    PairSlopes,
    interval_of,
    middle_of_means,
)
from lawnbook.agronomy.trend_band import Band, crossing
from lawnbook.frozen import dataclass
from lawnbook.kept import Kept

__all__ = [
    "FEWEST_DATES",
    "Fit",
    "MeanTrend",
    "Series",
    "SpotsTrend",
    "crossing_years",
    "mean_band",
    "mean_line",
    "mean_trend",
    "residual_sd",
    "season_difference",
]

Interval = tuple[float, float]
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


class SpotsTrend:
    """All that some spots' series tell, each figure reckoned once, when it is first asked for.

    The functions of this module ask one of these for a single figure; who wants several keeps it.
    """

    def __init__(self, series: Sequence[Series]) -> None:
        """Of these series, a spot each."""
        self.series = tuple(series)
        self._trends: dict[float, MeanTrend | None] = {}

    @Kept
    def kept(self) -> tuple[Series, ...]:
        """The spots that have a slope."""
        return tuple(with_line(self.series))

    @Kept
    def lines(self) -> SpotLines | None:
        """Their own lines."""
        return spot_lines(self.kept)

    @Kept
    def mean_slope(self) -> tuple[float, float, float]:
        """Mean slope of three spots or more, its standard error, the variance between spots."""
        if self.lines is None:
            raise ValueError("No spot has a slope.")
        mean, error, between = random_mean(self.lines.slope, self.lines.slope_variance())
        return float(mean), float(error), float(between)

    @Kept
    def slopes(self) -> tuple[PairSlopes, ...]:
        """The slopes between the plugs of each of one or two spots."""
        return tuple(PairSlopes([(each.years, each.values)]) for each in self.kept)

    @Kept
    def together(self) -> PairSlopes:
        """The slopes between the plugs of one spot, of all spots."""
        if len(self.kept) == 1:
            return self.slopes[0]
        return PairSlopes([(each.years, each.values) for each in self.kept])

    def trend(self, confidence: float = 0.95) -> MeanTrend | None:
        """See `mean_trend`."""
        if confidence not in self._trends:
            share("confidence", confidence)
            self._trends[confidence] = _trend(self, confidence)
        return self._trends[confidence]

    @Kept
    def line(self) -> Line | None:
        """See `mean_line`."""
        trend = self.trend()
        return _line(self, trend.slope) if trend else None

    def band(self, at: Sequence[float], confidence: float = 0.95) -> tuple[Interval, ...] | None:
        """See `mean_band`."""
        if not all(map(math.isfinite, at)):
            raise ValueError("at must hold finite numbers only.")
        band = _band(self, share("confidence", confidence))
        return None if band is None else band.at(at)

    def crossing(self, level: float, confidence: float = 0.95) -> Interval | None:
        """See `crossing_years`."""
        finite("level", level)
        surer = 1.0 - (1.0 - share("confidence", confidence)) * SHARE_OF_MISSES
        # The cheapest reasons for none come first: most trends may be flat, or have too few plugs.
        if self.lines is None or self.lines.freedom < FEWEST_TO_SPARE:
            return None
        slope = self.trend(max(confidence, SURE_OF_SLOPE))
        if slope is None or slope.ci95 is None or slope.ci95[0] <= 0.0 <= slope.ci95[1]:
            return None
        band = _band(self, surer)
        return None if band is None else crossing(band, level)

    @Kept
    def residual(self) -> tuple[float, int] | None:
        """See `residual_sd`."""
        lines = self.lines
        return (math.sqrt(lines.noise), lines.freedom) if lines and lines.freedom > 0 else None


def mean_trend(series: Sequence[Series], confidence: float = 0.95) -> MeanTrend | None:
    """The slope over all spots with its interval; None under 3 plugs.

    Of one or two spots the interval is for those spots, of more for all spots like them. None is
    given under 5 plugs or 3 dates, or where no spot has a plug beyond its line's two.
    """
    return SpotsTrend(series).trend(confidence)


def mean_line(series: Sequence[Series]) -> Line | None:
    """The trend line of `mean_trend`'s slope, as the mean of the spots' levels; None without one.

    Of one or two spots each spot's level is the Hodges-Lehmann centre about its median slope.
    """
    return SpotsTrend(series).line


def mean_band(
    series: Sequence[Series], at: Sequence[float], confidence: float = 0.95
) -> tuple[Interval, ...] | None:
    """Low and high of the mean line in each of the years `at`, each for itself.

    None where `mean_trend` gives no interval. The line lies within.
    """
    return SpotsTrend(series).band(at, confidence)


def crossing_years(
    series: Sequence[Series], level: float, confidence: float = 0.95
) -> Interval | None:
    """Earliest and latest decimal year in which the mean line may meet `level`; None: cannot say.

    All years, before and after the plugs, whose band (`SHARE_OF_MISSES`) holds the level, as
    Fieller's for a single line. None where the trend may be flat (`SURE_OF_SLOPE`), with fewer than
    `FEWEST_TO_SPARE` plugs to spare, or where no end lies within `FARTHEST_YEARS` of the plugs.
    """
    return SpotsTrend(series).crossing(level, confidence)


def residual_sd(series: Sequence[Series]) -> tuple[float, int] | None:
    """Standard deviation (in) about each spot's own line and its degrees of freedom; None for 0."""
    return SpotsTrend(series).residual


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


def _enough(of: SpotsTrend, lines: SpotLines) -> bool:
    """Whether there is an interval at all: enough plugs and dates, and a plug to spare."""
    dates = {year for each in of.kept for year in each.years}
    plugs = sum(len(each.years) for each in of.kept)
    return plugs >= FEWEST_FOR_INTERVAL and len(dates) >= FEWEST_DATES and lines.freedom > 0


def _trend(of: SpotsTrend, confidence: float) -> MeanTrend | None:
    kept, lines = of.kept, of.lines
    plugs = sum(len(each.years) for each in kept)
    if lines is None or plugs < FEWEST_FOR_SLOPE:
        return None
    if len(kept) == 1:
        return _one_spot(of, lines, confidence)
    if len(kept) == 2:
        return _two_spots(of, lines, confidence)
    mean, error, between = of.mean_slope
    freedom = len(kept) - 1
    reach = student_t(confidence, freedom) * error
    interval = (mean - reach, mean + reach) if _enough(of, lines) else None
    return MeanTrend(mean, interval, "spots", len(kept), plugs, math.sqrt(between), freedom)


def _line(of: SpotsTrend, slope: float) -> Line:
    if of.lines is not None and len(of.kept) > 2:
        lines = of.lines
        middle = np.array([float((lines.plugs * lines.middle).sum() / lines.plugs.sum())])
        level, _, _ = random_mean(lines.level_at(middle), lines.level_variance(middle))
        return Line(slope, float(level[0]) - slope * float(middle[0]))
    intercepts = [
        _robust_line(each, slopes.median()).intercept
        for each, slopes in zip(of.kept, of.slopes, strict=True)
    ]
    return Line(slope, sum(intercepts) / len(intercepts))


def _one_spot(of: SpotsTrend, lines: SpotLines, confidence: float) -> MeanTrend:
    """The median slope; the interval by ranks is held wide enough for the rounding of the ruler.

    Values that tie by rounding make the ranks look surer than they are: simulated, it covered 83
    to 91 % where plugs scatter by half a mark or less. So ties count as if there were none, and
    the interval is at least Student's by the ruler alone.
    """
    (series,), (slopes,) = of.kept, of.slopes
    interval = interval_of(slopes, series.years, series.values, confidence)
    slope = slopes.median()
    if interval is not None and series.ruler_in > 0.0 and lines.freedom > 0:
        tied = len(set(series.values)) < len(series.values)
        untied = (_rank_interval(of, confidence) if tied else None) or interval
        error = math.sqrt(rounding_variance([series]) / float(lines.spread[0]))
        reach = student_t(confidence, min(lines.freedom, MOST_FREEDOM)) * error
        interval = (
            min(interval[0], untied[0], slope - reach),
            max(interval[1], untied[1], slope + reach),
        )
    return MeanTrend(slope, interval, "ranks", 1, len(series.years), None, None)


def _two_spots(of: SpotsTrend, lines: SpotLines, confidence: float) -> MeanTrend:
    """The mean of two median slopes; the interval holds both that of ranks and Student's.

    The ranks of both spots together answer to one slope common to both. Where the two differ and
    one has more plugs, that is not their mean: simulated, it covered 91 %. Student's interval of
    the mean, by the noise about both lines, is not led astray.
    """
    slope = sum(each.median() for each in of.slopes) / 2.0
    plugs = sum(len(each.years) for each in of.kept)
    ranks = _rank_interval(of, confidence) if _enough(of, lines) else None
    interval = None
    if ranks is not None:
        error = math.sqrt(float(lines.slope_variance().sum())) / 2.0
        reach, centre = student_t(confidence, lines.freedom) * error, float(lines.slope.mean())
        interval = min(ranks[0], centre - reach, slope), max(ranks[1], centre + reach, slope)
    return MeanTrend(slope, interval, "permutation", 2, plugs, None, lines.freedom)


def _rank_interval(of: SpotsTrend, confidence: float) -> Interval | None:
    """The slopes that the ranks within each spot allow, by all orders there are; None for too few.

    Regional Kendall: pairs of plugs are compared within spots only and counted over all. Ties
    count as if there were none, which only widens; plugs of a spot that share a date have none.
    Source: "regional-kendall".
    """
    plugs, slopes = tuple(len(each.years) for each in of.kept), of.together
    # The most falls that come so seldom by chance that both tails together miss as often as told.
    most = most_falls(plugs, (1.0 - confidence) / 2.0)
    if most < 0 or slopes.count < pairs_of(plugs):
        return None
    low, high = slopes.at(most, slopes.count - 1 - most)
    return low, high


def _robust_line(series: Series, slope: float) -> Line:
    """Median slope, and the Hodges-Lehmann centre of what is left: the median of pairs' means."""
    middle = float(np.mean(series.years))
    left = [y - slope * (x - middle) for x, y in zip(series.years, series.values, strict=True)]
    return Line(slope, middle_of_means(left) - slope * middle)


def _band(of: SpotsTrend, confidence: float) -> Band | None:
    trend, lines = of.trend(confidence), of.lines
    if trend is None or trend.ci95 is None or lines is None or lines.freedom < 1:
        return None
    ruler_in = math.sqrt(fmean(each.ruler_in**2 for each in of.kept))
    line = of.line
    return None if line is None else Band(lines, line, confidence, ruler_in)
