"""The band about a mean trend line, and between which years it meets a level.

Years are decimal, values inches. Sources: "fieller", "hartung-knapp", "least-squares", "rounding".
"""

import math
from collections.abc import Sequence

import numpy as np

from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.spot_lines import SpotLines, random_mean
from lawnbook.agronomy.student import student_t
from lawnbook.agronomy.trend import Line
from lawnbook.frozen import dataclass

FEW = 20
"""Of so few years plain numbers are quicker than arrays."""

FARTHEST_YEARS = 100.0
"""A crossing that may be farther off than this is none."""


@dataclass(frozen=True, slots=True)
class Band:
    """What the mean line may be off in any year: never less than half a mark of the ruler.

    Thatch that stays between two marks is read as one of them each time, which no number of plugs
    averages out.
    """

    lines: SpotLines
    line: Line
    confidence: float
    ruler_in: float

    def at(self, years: Sequence[float]) -> tuple[tuple[float, float], ...]:
        """Low and high in each year."""
        if self.lines.slope.size == 1 and len(years) <= FEW:
            return tuple(self._plain(year) for year in years)
        low, high = self.limits(np.asarray(years, dtype=np.float64))
        return tuple(zip(low.tolist(), high.tolist(), strict=True))

    def _plain(self, year: float) -> tuple[float, float]:
        """As `limits`, of one spot in one year: plain numbers are quicker for few years."""
        lines, away = self.lines, year - float(self.lines.middle[0])
        line = self.line.intercept + self.line.slope * year
        centre = float(lines.level[0]) + float(lines.slope[0]) * away
        part = 1.0 / float(lines.plugs[0]) + away * away / float(lines.spread[0])
        reach = student_t(self.confidence, lines.freedom) * math.sqrt(lines.noise * part)
        reach = max(reach, self.ruler_in / 2.0)
        return min(centre - reach, line), max(centre + reach, line)

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


def crossing(band: Band, level: float) -> tuple[float, float] | None:
    """All years whose band holds a level, as its first and last; None where an end is too far."""
    met = (level - band.line.intercept) / band.line.slope
    if abs(met - float(band.lines.middle.mean())) > FARTHEST_YEARS:
        return None
    first, last = (_reach(band, level, met, way) for way in (-1.0, 1.0))
    return None if first is None or last is None else (first, last)


def _reach(band: Band, level: float, met: float, way: float) -> float | None:
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
