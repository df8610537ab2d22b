"""Each spot's own least-squares line, the noise all spots share, and the mean over differing spots.

Years are decimal, values inches. Spots whose plugs lie within `LEAST_SPAN_DAYS` have no line and
are left out.
ValueError for NaN and for lists of unequal length. Sources: "least-squares", "paule-mandel",
"rounding".
"""

import math
from collections.abc import Iterable, Sequence
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import Array, not_negative
from lawnbook.agronomy.trend import total
from lawnbook.frozen import dataclass

LEAST_VARIANCE = 1e-12
"""Square inches: a floor that keeps plugs without any noise from dividing by zero."""

DAYS_PER_YEAR = 365.25
LEAST_SPAN_DAYS = 60
"""Plugs that lie within fewer days tell their error, not a slope a year (common practice)."""

FEW = 60
"""Of so few plugs in all plain numbers are quicker than arrays; both add up in the same order."""

MOST_STEPS = 100
CLOSE = 1e-10


@dataclass(frozen=True, slots=True)
class Series:
    """The thatch of one spot: decimal years, ascending, and one value (in) for each date.

    `ruler_in` is the step that its readings are rounded to; no plug is taken for surer than that.
    """

    years: tuple[float, ...]
    values: tuple[float, ...]
    ruler_in: float = 0.0

    def __post_init__(self) -> None:
        """ValueError unless both are as long and finite, and the ruler's step not below zero."""
        not_negative("ruler_in", self.ruler_in)
        if not all(map(math.isfinite, chain(self.years, self.values))):
            raise ValueError("years and values must hold finite numbers only.")
        if len(self.years) != len(self.values):
            raise ValueError("years and values must be lists of the same length.")

    def dates(self) -> int:
        """How many different dates there are."""
        return len(set(self.years))

    def has_slope(self) -> bool:
        """Whether there are plugs of two dates that lie `LEAST_SPAN_DAYS` apart or more."""
        if not self.years:
            return False
        days = (max(self.years) - min(self.years)) * DAYS_PER_YEAR
        return round(days, 6) >= LEAST_SPAN_DAYS


@dataclass(frozen=True, slots=True)
class SpotLines:
    """Lines of several spots, as arrays with one entry a spot.

    `middle` is a spot's mean year and `level` its mean value, `spread` the sum of squares of its
    years; `noise` is the variance about the lines, pooled over all spots with `freedom` degrees
    (0 where no spot has a plug to spare).
    """

    middle: Array
    level: Array
    slope: Array
    spread: Array
    plugs: Array
    noise: float
    freedom: int

    def slope_variance(self) -> Array:
        """Variance of each slope by the noise alone."""
        return self.noise / self.spread

    def level_at(self, years: Array) -> Array:
        """Each line's value, shape (years, spots)."""
        return self.level + self.slope * (years[:, np.newaxis] - self.middle)

    def level_variance(self, years: Array) -> Array:
        """Variance of each line's value by the noise alone, shape (years, spots)."""
        away = years[:, np.newaxis] - self.middle
        return self.noise * (1.0 / self.plugs + away**2 / self.spread)


def with_line(series: Sequence[Series]) -> list[Series]:
    """The spots that have a slope: plugs of two dates, `LEAST_SPAN_DAYS` apart or more."""
    return [each for each in series if each.has_slope()]


def spot_lines(series: Sequence[Series]) -> SpotLines | None:
    """The least-squares line of every spot that has one; None where none has."""
    kept = with_line(series)
    if not kept:
        return None
    return _few_lines(kept) if sum(map(_length, kept)) <= FEW else _many_lines(kept)


def _few_lines(kept: Sequence[Series]) -> SpotLines:
    rows, squares = [], []
    for each in kept:
        run, middle, spread = _runs(each.years)
        level = sum(each.values) / len(each.values)
        rise = [value - level for value in each.values]
        slope = _dot(run, rise) / spread
        rows.append((middle, level, slope, spread, float(len(run))))
        squares += [(y - slope * x) ** 2 for x, y in zip(run, rise, strict=True)]
    middles, levels, slopes, spreads, plugs = np.array(rows).T.copy()
    noise, freedom = _noise(kept, total(squares), len(squares))
    return SpotLines(middles, levels, slopes, spreads, plugs, noise, freedom)


def _many_lines(kept: Sequence[Series]) -> SpotLines:
    spot, plugs, years = _laid_out(kept)
    values = _joined([each.values for each in kept])
    middle, level = _sums(spot, years) / plugs, _sums(spot, values) / plugs
    run, rise = years - middle[spot], values - level[spot]
    spread = _sums(spot, run * run)
    slope = _sums(spot, run * rise) / spread
    squares = float(((rise - slope[spot] * run) ** 2).sum())
    noise, freedom = _noise(kept, squares, int(plugs.sum()))
    return SpotLines(middle, level, slope, spread, plugs, noise, freedom)


def _noise(kept: Sequence[Series], squares: float, plugs: int) -> tuple[float, int]:
    """The variance about the lines and its degrees of freedom."""
    freedom = plugs - 2 * len(kept)
    if freedom <= 0:
        return LEAST_VARIANCE, freedom
    return max(squares / freedom, rounding_variance(kept)), freedom


def rounding_variance(series: Sequence[Series]) -> float:
    """What the rulers' rounding alone makes plugs scatter by (in²), the mean over all plugs.

    Plugs that fall on their line by rounding look as if they had no error. Source: "rounding".
    """
    plugs = sum(len(each.years) for each in series)
    squares = sum(len(each.years) * each.ruler_in**2 for each in series)
    return max(squares / plugs / 12.0, LEAST_VARIANCE) if plugs else LEAST_VARIANCE


def off_lines(kept: Sequence[Series], columns: Sequence[Sequence[Sequence[float]]]) -> list[Array]:
    """Numbers less their spot's own least-squares line over its years, all spots one after another.

    Each column holds a list for every spot, as long as its years. Every spot needs two dates.
    """
    if sum(map(_length, kept)) <= FEW:
        return [np.array(list(_few_off(kept, column))) for column in columns]
    spot, plugs, years = _laid_out(kept)
    run = years - (_sums(spot, years) / plugs)[spot]
    spread = _sums(spot, run * run)
    left = []
    for column in columns:
        numbers = _joined(column)
        rise = numbers - (_sums(spot, numbers) / plugs)[spot]
        left.append(rise - run * (_sums(spot, run * rise) / spread)[spot])
    return left


def _few_off(kept: Sequence[Series], column: Sequence[Sequence[float]]) -> Iterable[float]:
    for each, numbers in zip(kept, column, strict=True):
        run, _, spread = _runs(each.years)
        level = sum(numbers) / len(numbers)
        rise = [number - level for number in numbers]
        slope = _dot(run, rise) / spread
        yield from (y - x * slope for x, y in zip(run, rise, strict=True))


def _runs(years: Sequence[float]) -> tuple[list[float], float, float]:
    """Years from their mean, that mean, and the sum of the squares."""
    middle = sum(years) / len(years)
    run = [year - middle for year in years]
    return run, middle, _dot(run, run)


def _dot(one: Iterable[float], other: Iterable[float]) -> float:
    return sum(x * y for x, y in zip(one, other, strict=True))


def _length(series: Series) -> int:
    return len(series.years)


def _laid_out(kept: Sequence[Series]) -> tuple[NDArray[np.intp], Array, Array]:
    """Every plug's spot, the number of plugs of each spot, and every plug's year."""
    plugs = np.array([len(each.years) for each in kept])
    return (
        np.repeat(np.arange(len(kept)), plugs),
        plugs.astype(np.float64),
        _joined([each.years for each in kept]),
    )


def _joined(lists: Sequence[Sequence[float]]) -> Array:
    return np.fromiter(chain.from_iterable(lists), dtype=np.float64)


def _sums(spot: NDArray[np.intp], values: Array) -> Array:
    """The sum of the values of each spot."""
    return np.bincount(spot, values).astype(np.float64)


def random_mean(effects: Array, variances: Array) -> tuple[Array, Array, Array]:
    """Mean over differing spots, its standard error, and the variance between the spots.

    Spots run along the last axis, whatever stands before it is done at once. The variance between
    is Paule and Mandel's; with it the Hartung-Knapp factor is 1 wherever it is not kept from
    falling below, so the standard error is √(1 / sum of the weights). Sources: "paule-mandel",
    "hartung-knapp".
    """
    wanted = effects.shape[-1] - 1.0
    between = np.maximum(effects.var(axis=-1, ddof=1) - variances.mean(axis=-1), 0.0)
    for _ in range(MOST_STEPS):
        weights = 1.0 / (variances + between[..., np.newaxis])
        centre = (weights * effects).sum(axis=-1) / weights.sum(axis=-1)
        off = weights * (effects - centre[..., np.newaxis]) ** 2
        # The sum falls with `between` and is convex, so that Newton's steps come from one side.
        step = (off.sum(axis=-1) - wanted) / np.maximum((weights * off).sum(axis=-1), CLOSE**2)
        stepped = np.maximum(between + step, 0.0)
        done = np.abs(stepped - between).max(initial=0.0) <= CLOSE * (stepped.max(initial=0.0))
        between = stepped
        if done:
            break
    weights = 1.0 / (variances + between[..., np.newaxis])
    total = weights.sum(axis=-1)
    return (weights * effects).sum(axis=-1) / total, np.sqrt(1.0 / total), between
