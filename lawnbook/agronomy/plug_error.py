"""How far one plug may be off: between its readings, between plugs of one day, and by the ruler.

Inches, as standard deviations. The parts are variance components of an unbalanced one-way analysis
of variance within days; a reading is never taken as finer than its ruler's rounding, resolution
/ √12. ValueError for NaN or a resolution below zero. Sources: "one-way-anova", "rounding".
"""

import math
import statistics
from collections.abc import Sequence

from lawnbook.agronomy.checks import not_negative
from lawnbook.agronomy.trend import total
from lawnbook.frozen import dataclass

Days = Sequence[Sequence[Sequence[float]]]
"""Days at one spot, each a list of plugs, each a list of readings (in)."""


@dataclass(frozen=True, slots=True)
class PlugSpread:
    """Standard deviations (in) of what sets plugs of one day at one spot apart.

    `readings_in` between the readings of one plug, at least `ruler_in`, the ruler's rounding;
    `plugs_in` between plugs beyond their readings, None without replicates. `readings` is the
    usual number of readings a plug, `replicates` how many plugs had an earlier fellow on their day.
    """

    readings_in: float
    plugs_in: float | None
    ruler_in: float
    readings: int
    replicates: int

    def day_in(self, plugs: int, readings: int) -> float:
        """Standard deviation of a day's mean over `plugs` plugs of `readings` readings each.

        Without replicates what sets plugs apart is not known and left out: then it is too small.
        Several readings do not undo the rounding of one ruler, several plugs do. ValueError
        under one of either.
        """
        if plugs < 1 or readings < 1:
            raise ValueError("A day's mean needs a plug and a reading or more.")
        reading = max(self.readings_in**2 / readings, self.ruler_in**2)
        return math.sqrt(((self.plugs_in or 0.0) ** 2 + reading) / plugs)


@dataclass(frozen=True, slots=True)
class PlugRead:
    """A plug's readings: how many, their mean (in), and the sum of the squares about it."""

    size: int
    mean: float
    squares: float

    @classmethod
    def of(cls, readings: Sequence[float]) -> "PlugRead":
        """Of one or more readings. ValueError for NaN or none."""
        if not readings or not all(map(math.isfinite, readings)):
            raise ValueError("readings must hold finite numbers only, and at least one.")
        if len(readings) == 1:
            return cls(1, readings[0], 0.0)
        mean = total(readings) / len(readings)
        return cls(len(readings), mean, total([(each - mean) ** 2 for each in readings]))


def plug_spread(days: Days, resolution_in: float) -> PlugSpread | None:
    """The spread that plugs show, pooled over days (of one spot or several); None without any.

    `resolution_in` is the step of the ruler. Plugs without readings are passed over. Where every
    plug has a single reading, the readings' share is the ruler's.
    """
    return spread_of([[PlugRead.of(p) for p in day if len(p)] for day in days], resolution_in)


def spread_of(days: Sequence[Sequence[PlugRead]], resolution_in: float) -> PlugSpread | None:
    """As `plug_spread`, from plugs whose readings were summed up before."""
    plugs = [plug for day in days for plug in day]
    if not plugs:
        return None
    readings = round(statistics.median(plug.size for plug in plugs))
    between, counted = between_plugs(days)
    sums = SpreadSums(
        squares=sum(plug.squares for plug in plugs),
        freedom=sum(plug.size - 1 for plug in plugs),
        between=between,
        counted=counted,
        replicates=sum(len(day) - 1 for day in days if day),
    )
    return sums.spread(readings, resolution_in)


@dataclass(frozen=True, slots=True)
class SpreadSums:
    """What a spread rests on: sums over plugs and days, to which those of more days may be added.

    `squares` of the readings about their plugs' means with `freedom`; `between` and `counted` as
    `between_plugs` has them; `replicates` as in a `PlugSpread`.
    """

    squares: float
    freedom: int
    between: float
    counted: float
    replicates: int

    def spread(self, readings: int, resolution_in: float) -> PlugSpread:
        """The spread, with the usual number of readings and the step of the ruler."""
        ruler = not_negative("resolution_in", resolution_in) / math.sqrt(12.0)
        within = max(self.squares / self.freedom, ruler**2) if self.freedom else ruler**2
        plugs_in = math.sqrt(self._between(within)) if self.replicates else None
        return PlugSpread(math.sqrt(within), plugs_in, ruler, readings, self.replicates)

    def _between(self, within: float) -> float:
        """Variance between plugs of a day beyond their readings, not below 0.

        (mean square between − within) / n0, n0 being the readings a plug that count.
        Source: "one-way-anova".
        """
        excess = max(0.0, self.between / self.replicates - within)
        return excess * self.replicates / self.counted


def between_plugs(days: Sequence[Sequence[PlugRead]]) -> tuple[float, float]:
    """Sum of squares between the plugs of each day, and the readings that count in it."""
    squares, counted = 0.0, 0.0
    for day in days:
        if len(day) < 2:
            continue
        read = sum(plug.size for plug in day)
        centre = total([plug.size * plug.mean for plug in day]) / read
        squares += total([plug.size * (plug.mean - centre) ** 2 for plug in day])
        counted += read - sum(plug.size**2 for plug in day) / read
    return squares, counted
