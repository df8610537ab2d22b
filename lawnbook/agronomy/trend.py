"""Is the thatch getting thinner? Summaries of readings and a trend that one odd plug cannot turn.

Years are decimal years, values inches; slopes in/year. Fewer plugs give less: a slope from 3, an
interval from 5. The interval is by ranks; at 3 or 4 plugs its true cover would be 67 and 92
percent, so none is given. Sources: "theil-sen", "kendall". ValueError for NaN and for
lists of unequal length.
"""

import math
import statistics
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np

from lawnbook.agronomy.checks import Array, finite, finite_array
from lawnbook.agronomy.ranked import Ranked
from lawnbook.frozen import dataclass

FEWEST_FOR_SLOPE = 3
FEWEST_FOR_INTERVAL = 5

FEWEST_DATES = 3
"""Plugs of two dates only show no scatter about a line, and so no interval of several spots."""

MOST_HELD = 1_000_000
"""So many slopes of pairs are held and sorted; of more than some 1,400 plugs they are counted."""

FEW = 40
"""Of so few plugs plain numbers are quicker than arrays."""


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
    if not readings:
        raise ValueError("A summary needs at least one reading.")
    count = len(readings)
    mean = total([finite("readings", each) for each in readings]) / count
    if count == 1:
        return Summary(mean, None, 1)
    squares = total([(each - mean) ** 2 for each in readings])
    return Summary(mean, math.sqrt(squares / (count - 1)), count)


def total(values: Sequence[float]) -> float:
    """The sum, as arrays add it up: eight numbers and more in pairs, for the least rounding."""
    return sum(values) if len(values) < 8 else float(np.sum(values))


class PairSlopes:
    """The slopes between all pairs of plugs of different years of a spot, asked for by their rank.

    Of several spots the pairs within each, all together. ValueError as for `pairwise_slopes`.
    """

    def __init__(self, spots: Sequence[tuple[Sequence[float], Sequence[float]]]) -> None:
        """Years and values of each spot."""
        self._spots = [_checked(years, values) for years, values in spots]
        self._held: Sequence[float] | Array | None = None
        if sum(len(years) * (len(years) - 1) // 2 for years, _ in self._spots) <= MOST_HELD:
            self._held = self._sorted()
            self.count = len(self._held)
        else:
            self.count = sum(block.size for block in self._blocks())
        self._ranked = Ranked(self._blocks, self.count)

    def at(self, *ranks: int) -> list[float]:
        """The slopes of some ranks, 0 for the least. IndexError beyond the last."""
        if self._held is None:
            return self._ranked.at(*ranks)
        return [float(self._held[rank]) for rank in ranks]

    def median(self) -> float:
        """The middle one, or the mean of the two middle ones. IndexError without any."""
        low, high = self.at((self.count - 1) // 2, self.count // 2)
        return low if self.count % 2 else (low + high) / 2.0

    def all(self) -> Array:
        """Every slope, ascending."""
        return np.asarray(self._sorted() if self._held is None else self._held, dtype=np.float64)

    def _sorted(self) -> Sequence[float] | Array:
        if all(len(years) <= FEW for years, _ in self._spots):
            return sorted(slope for spot in self._spots for slope in _plain_slopes(*spot))
        return np.sort(np.concatenate(list(self._blocks())))

    def _blocks(self) -> Iterator[Array]:
        """The slopes in some order: those from one plug to all later ones are a block."""
        for years, values in self._spots:
            x, y = np.asarray(years, dtype=np.float64), np.asarray(values, dtype=np.float64)
            for place in range(x.size - 1):
                run, rise = x[place + 1 :] - x[place], y[place + 1 :] - y[place]
                apart = run != 0
                yield rise[apart] / run[apart]


def _plain_slopes(years: Sequence[float], values: Sequence[float]) -> list[float]:
    plugs = list(zip(years, values, strict=True))
    return [(y - b) / (x - a) for n, (a, b) in enumerate(plugs, 1) for x, y in plugs[n:] if x != a]


def _checked(
    years: Sequence[float], values: Sequence[float]
) -> tuple[Sequence[float], Sequence[float]]:
    if len(years) <= FEW and len(years) == len(values):
        if not all(map(math.isfinite, (*years, *values))):
            raise ValueError("years and values must hold finite numbers only.")
        return years, values
    x, y = finite_array("years", years), finite_array("values", values)
    if x.ndim != 1 or x.shape != y.shape:
        raise ValueError("years and values must be lists of the same length.")
    return years, values


def theil_sen(years: Sequence[float], values: Sequence[float]) -> float | None:
    """Median slope of all pairs of plugs; None under 3 plugs or all on one date."""
    slopes = PairSlopes([(years, values)])
    if len(years) < FEWEST_FOR_SLOPE or not slopes.count:
        return None
    return slopes.median()


def theil_sen_interval(
    years: Sequence[float], values: Sequence[float], confidence: float = 0.95
) -> tuple[float, float] | None:
    """Lowest and highest slope the ranks allow; None under 5 plugs, or on too few dates.

    Sen (1968), section 3: the two order statistics of the pairwise slopes that the variance of
    Kendall's tau, with ties, cuts off. Plugs that share dates can be too few as well: none is
    given where even the widest interval would hold the true slope less often than `confidence`.
    """
    return interval_of(PairSlopes([(years, values)]), years, values, confidence)


def interval_of(
    slopes: PairSlopes, years: Sequence[float], values: Sequence[float], confidence: float
) -> tuple[float, float] | None:
    """As `theil_sen_interval`, from the slopes of these plugs."""
    if not 0.0 < finite("confidence", confidence) < 1.0:
        raise ValueError(f"confidence must lie between 0 and 1, not {confidence}.")
    if len(years) < FEWEST_FOR_INTERVAL or _widest_cover(years) < confidence:
        return None
    reach = _normal_reach(confidence) * math.sqrt(max(0.0, _kendall_variance(years, values)))
    low = max(round((slopes.count - reach) / 2.0) - 1, 0)
    high = min(round((slopes.count + reach) / 2.0), slopes.count - 1)
    first, last = slopes.at(low, high)
    return first, last


def pairwise_slopes(years: Sequence[float], values: Sequence[float]) -> Array:
    """Slopes between all pairs with different years, ascending; maybe none."""
    return PairSlopes([(years, values)]).all()


def middle_of_means(values: Sequence[float]) -> float:
    """The median of the means of all pairs, each value with itself too (Hodges and Lehmann)."""
    count = len(values) * (len(values) + 1) // 2
    middles = ((count - 1) // 2, count // 2)
    if len(values) <= FEW:
        means = sorted((a + b) / 2.0 for n, a in enumerate(values) for b in values[n:])
        low, high = (means[rank] for rank in middles)
        return low if count % 2 else (low + high) / 2.0
    array = np.asarray(values, dtype=np.float64)

    def blocks() -> Iterator[Array]:
        return ((array[place] + array[place:]) / 2.0 for place in range(array.size))

    if count <= MOST_HELD:
        return float(np.median(np.concatenate(list(blocks()))))
    low, high = Ranked(blocks, count).at(*middles)
    return low if count % 2 else (low + high) / 2.0


@lru_cache(maxsize=64)
def _normal_reach(confidence: float) -> float:
    """So many standard deviations to either side a normal curve holds the confidence."""
    return statistics.NormalDist().inv_cdf(0.5 + confidence / 2.0)


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
        if len(set(numbers)) == len(numbers):
            return NO_TIES
        groups = Counter(numbers).values()
        return cls(
            sum(t * (t - 1) for t in groups),
            sum(t * (t - 1) * (t - 2) for t in groups),
            sum(t * (t - 1) * (2 * t + 5) for t in groups),
        )


NO_TIES = _Ties(0, 0, 0)


def _widest_cover(years: Sequence[float]) -> float:
    """True cover of the widest interval there is, from the lowest to the highest slope.

    It misses only when all plugs of different dates lie in one order: 2 x product(t!) of the n!
    orders of n plugs, with t plugs on a date. 3 plugs: 0.67, 4: 0.92, 5: 0.98.
    """
    alike = math.prod(math.factorial(t) for t in Counter(years).values())
    # Whole numbers are divided as such: of 171 days the factorial is beyond any float.
    return 1.0 - 2 * alike / math.factorial(len(years))
