"""The figures behind evidence: trend, band, crossing, error, smallest change, season.

All depths in inches. Nothing here is put in words; None stands where the plugs are too few.
"""

import math
from collections.abc import Sequence
from datetime import date, timedelta
from statistics import fmean, median

from lawnbook.agronomy.detectable import plugs_for, smallest_change
from lawnbook.agronomy.plug_error import PlugSpread, spread_of
from lawnbook.agronomy.seasons import table_month
from lawnbook.agronomy.spots_trend import Fit, MeanTrend, SpotsTrend, season_difference
from lawnbook.agronomy.trend import Line
from lawnbook.frozen import dataclass
from lawnbook.kept import Kept
from lawnbook.plan.plug_model import Interval
from lawnbook.plan.plug_series import (
    HALF_INCH,
    Compared,
    by_days,
    day_at,
    resolution_in,
    years_since,
)
from lawnbook.plan.rounds import rounds_of

WANTED_CHANGE_IN = 0.1
"""The change for which plugs are counted: a tenth of an inch."""

BAND_POINTS = 13
"""So many points draw the band; it bends little between them."""

FARTHEST_YEARS = 30.0
"""Beyond this many years after the last plug a crossing is not worth telling (common practice)."""

SPRING_MONTHS = frozenset(range(2, 8))
"""Plugs of these months of the north count as spring's, the others as autumn's (our choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """What one plug scatters by about its spot's line (in), and how sure that is.

    `is_residual` where it comes from the plugs about their lines, else from plugs of one day.
    """

    sd_in: float
    freedom: int
    is_residual: bool


class EvidenceFigures:
    """All figures of one place, each reckoned once, when it is first asked for.

    They depend on the compared plugs and the latitude only, not on the day of the plan: where both
    are the same, keep the figures from plan to plan.
    """

    def __init__(self, compared: Compared, latitude_deg: float) -> None:
        """Of some spots' compared plugs."""
        self.compared = compared
        self.latitude_deg = latitude_deg

    @Kept
    def _told(self) -> SpotsTrend:
        return SpotsTrend(self.compared.series)

    @Kept
    def trend(self) -> MeanTrend | None:
        """The slope and its interval."""
        return self._told.trend()

    @Kept
    def line(self) -> tuple[tuple[date, float], ...]:
        """The trend line by its first and last day; () without one."""
        return _line(self.compared, self._told.line)

    @Kept
    def band(self) -> tuple[tuple[date, float, float], ...]:
        """Low and high of the line on days evenly apart; () without an interval."""
        if self.trend is None or self.trend.ci95 is None:
            return ()
        days = _spread_out(self.compared.dates)
        limits = self._told.band([years_since(self.compared.origin, on) for on in days])
        return tuple((on, *both) for on, both in zip(days, limits or (), strict=False))

    @Kept
    def latest_in(self) -> float | None:
        """The mean over the spots of each one's latest."""
        latest = [each.days[-1].value_in for each in self.compared.spots]
        return fmean(latest) if latest else None

    @Kept
    def crossing(self) -> tuple[date, date] | None:
        """Between which days the line meets half an inch; None where too far to tell."""
        return _crossing(self.compared, self._told.crossing(HALF_INCH))

    @Kept
    def _resolution(self) -> tuple[float, bool]:
        return resolution_in(self.compared.cores)

    @property
    def assumed_ruler(self) -> bool:
        """Whether any plug does not say how fine its ruler was."""
        return self._resolution[1]

    @Kept
    def spread(self) -> PlugSpread | None:
        """How far plugs of one day and readings of one plug lie apart."""
        return spread_of(by_days(self.compared), self._resolution[0])

    @Kept
    def plugs_a_date(self) -> int:
        """How many plugs a round has."""
        return _plugs_a_date(self.compared)

    @Kept
    def scatter(self) -> Scatter | None:
        """What one plug scatters by."""
        return _scatter(self.compared, self.spread, self._told.residual)

    @Kept
    def detectable_in(self) -> float | None:
        """The smallest change between two dates that today's plugs on a date would show."""
        scatter = self.scatter
        if scatter is None:
            return None
        return smallest_change(scatter.sd_in, scatter.freedom, self.plugs_a_date)

    @Kept
    def plugs_for_tenth(self) -> int | None:
        """The plugs on a date that would show a tenth of an inch."""
        scatter = self.scatter
        if scatter is None:
            return None
        return plugs_for(WANTED_CHANGE_IN, scatter.sd_in, scatter.freedom)

    @Kept
    def _springs(self) -> tuple[tuple[bool, ...], ...]:
        spring = [table_month(month, self.latitude_deg) in SPRING_MONTHS for month in range(1, 13)]
        return tuple(
            tuple(spring[day.date.month - 1] for day in each.days) for each in self.compared.spots
        )

    @Kept
    def seasons(self) -> int:
        """How many seasons plugs were pulled in: 2 for spring and autumn."""
        return len({spring for each in self._springs for spring in each})

    @Kept
    def season(self) -> Fit | None:
        """Spring plugs less autumn's; None where it cannot be told."""
        if self.seasons < 2:
            return None
        return season_difference(self.compared.series, self._springs)


def _plugs_a_date(compared: Compared) -> int:
    """How many plugs a round has: the median, the lesser of two middle ones."""
    if len(compared.spots) == 1:
        # Where a spot comes again on another day, a round ends: each day is one.
        sizes = [len(day) for day in compared.spots[0].reads]
    else:
        sizes = [len(each) for each in rounds_of(compared.cores)]
    return math.floor(median(sizes)) if sizes else 0


def _scatter(
    compared: Compared, spread: PlugSpread | None, residual: tuple[float, int] | None
) -> Scatter | None:
    """What one plug scatters by, at least its own error; None where neither is known.

    About the spots' lines, where they leave degrees of freedom; the mean of a day with several
    plugs scatters less than one plug, by the root of their number. Else by plugs of one day at
    one spot. Without either the readings alone would make the plugs look too good.
    """
    if spread is None:
        return None
    plug = spread.day_in(1, spread.readings)
    if residual is not None:
        plugs = len(compared.cores) / compared.spot_days
        return Scatter(
            sd_in=max(residual[0] * math.sqrt(plugs), plug), freedom=residual[1], is_residual=True
        )
    if spread.plugs_in is not None:
        return Scatter(sd_in=plug, freedom=spread.replicates, is_residual=False)
    return None


def _line(compared: Compared, line: Line | None) -> tuple[tuple[date, float], ...]:
    if line is None:
        return ()
    origin, dates = compared.origin, compared.dates
    return tuple((on, line.at(years_since(origin, on))) for on in (dates[0], dates[-1]))


def _spread_out(dates: Sequence[date]) -> list[date]:
    """Days from the first date to the last, evenly apart, each once."""
    if not dates:
        return []
    first, length = dates[0], (dates[-1] - dates[0]).days
    steps = {round(length * n / (BAND_POINTS - 1)) for n in range(BAND_POINTS)}
    return [first + timedelta(days=step) for step in sorted(steps)]


def _crossing(compared: Compared, found: Interval | None) -> tuple[date, date] | None:
    """When the mean line meets half an inch, wherever that lies; None where too far to tell."""
    if found is None:
        return None
    last = years_since(compared.origin, compared.dates[-1])
    if not last - FARTHEST_YEARS <= found[0] <= found[1] <= last + FARTHEST_YEARS:
        return None
    try:
        return day_at(compared.origin, found[0]), day_at(compared.origin, found[1])
    except OverflowError:
        return None
