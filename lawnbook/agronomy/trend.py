"""Is the thatch getting thinner? Summaries of readings and a trend that one odd plug cannot turn.

Years are decimal years, values inches; slopes in/year. Fewer plugs give less: a slope from 3, an
interval from 5. The interval is by ranks; at 3 or 4 plugs its true cover would be 67 and 92
percent, so none is given. Sources: "theil-sen", "kendall". ValueError for NaN and for
lists of unequal length.
"""

import math
import statistics
from collections import Counter
from collections.abc import Sequence

import numpy as np

from lawnbook.agronomy.checks import Array, finite, finite_array
from lawnbook.frozen import dataclass

FEWEST_FOR_SLOPE = 3
FEWEST_FOR_INTERVAL = 5


@dataclass(frozen=True, slots=True)
class Summary:
    """Mean, sample standard deviation (None for a single reading) and number of readings."""

    mean: float
    spread: float | None
    n: int


@dataclass(frozen=True, slots=True)
class Line:
    """A trend line, value = slope x year + intercept."""

    slope: float
    intercept: float

    def at(self, year: float) -> float:
        """The line's value in a decimal year."""
        return self.slope * year + self.intercept


def summary(readings: Sequence[float]) -> Summary:
    """Summary of one plug's readings.  ValueError for none."""
    values = finite_array("readings", readings)
    if values.size == 0:
        raise ValueError("A summary needs at least one reading.")
    spread = float(values.std(ddof=1)) if values.size > 1 else None
    return Summary(float(values.mean()), spread, int(values.size))


def theil_sen(years: Sequence[float], values: Sequence[float]) -> float | None:
    """Median slope of all pairs of plugs; None under 3 plugs or all on one date."""
    slopes = pairwise_slopes(years, values)
    if len(years) < FEWEST_FOR_SLOPE or slopes.size == 0:
        return None
    return float(np.median(slopes))


def theil_sen_interval(
    years: Sequence[float], values: Sequence[float], confidence: float = 0.95
) -> tuple[float, float] | None:
    """Lowest and highest slope the ranks allow; None under 5 plugs, or on too few dates.

    Sen (1968), section 3: the two order statistics of the pairwise slopes that the variance of
    Kendall's tau, with ties, cuts off. Plugs that share dates can be too few as well: none is
    given where even the widest interval would hold the true slope less often than `confidence`.
    """
    if not 0.0 < finite("confidence", confidence) < 1.0:
        raise ValueError(f"confidence must lie between 0 and 1, not {confidence}.")
    slopes = pairwise_slopes(years, values)
    if len(years) < FEWEST_FOR_INTERVAL or _widest_cover(years) < confidence:
        return None
    z = statistics.NormalDist().inv_cdf(0.5 + confidence / 2.0)
    reach = z * math.sqrt(max(0.0, _kendall_variance(years, values)))
    low = max(round((slopes.size - reach) / 2.0) - 1, 0)
    high = min(round((slopes.size + reach) / 2.0), slopes.size - 1)
    return float(slopes[low]), float(slopes[high])


def pairwise_slopes(years: Sequence[float], values: Sequence[float]) -> Array:
    """Slopes between all pairs with different years, ascending; maybe none."""
    x, y = finite_array("years", years), finite_array("values", values)
    if x.ndim != 1 or x.shape != y.shape:
        raise ValueError("years and values must be lists of the same length.")
    earlier, later = np.triu_indices(x.size, k=1)
    run, rise = x[later] - x[earlier], y[later] - y[earlier]
    apart = run != 0
    return np.sort(rise[apart] / run[apart])


def _kendall_variance(years: Sequence[float], values: Sequence[float]) -> float:
    """Variance of Kendall's S under no trend, with ties in years, in values and in both.

    Kendall 1970, Rank correlation methods, chapter 4. Sen's own formula leaves out the last two
    terms, which are zero unless both years and values tie; without them heavy ties in both would
    make the variance too small, even negative.
    """
    n = len(years)
    pairs = n * (n - 1)
    x, y = _Ties.of(years), _Ties.of(values)
    one_sided = (pairs * (2 * n + 5) - x.spread - y.spread) / 18.0
    return (
        one_sided
        + x.pairs * y.pairs / (2.0 * pairs)
        + x.triples * y.triples / (9.0 * pairs * (n - 2))
    )


@dataclass(frozen=True, slots=True)
class _Ties:
    """Sums over groups of t equal numbers: t(t-1), t(t-1)(t-2) and t(t-1)(2t+5)."""

    pairs: int
    triples: int
    spread: int

    @classmethod
    def of(cls, numbers: Sequence[float]) -> "_Ties":
        groups = Counter(numbers).values()
        return cls(
            sum(t * (t - 1) for t in groups),
            sum(t * (t - 1) * (t - 2) for t in groups),
            sum(t * (t - 1) * (2 * t + 5) for t in groups),
        )


def _widest_cover(years: Sequence[float]) -> float:
    """True cover of the widest interval there is, from the lowest to the highest slope.

    It misses only when all plugs of different dates lie in one order: 2 x product(t!) of the n!
    orders of n plugs, with t plugs on a date. 3 plugs: 0.67, 4: 0.92, 5: 0.98.
    """
    alike = math.prod(math.factorial(t) for t in Counter(years).values())
    # Whole numbers are divided as such: of 171 days the factorial is beyond any float.
    return 1.0 - 2 * alike / math.factorial(len(years))
