"""The figures behind evidence: trend, band, crossing, error, smallest change, season.

All depths in inches. Nothing here is put in words; None stands where the plugs are too few.
"""

import math
from collections.abc import Sequence
from datetime import date, timedelta
from functools import lru_cache
from statistics import fmean, median

from lawnbook.agronomy.detectable import plugs_for, smallest_change
from lawnbook.agronomy.plug_error import PlugSpread, plug_spread
from lawnbook.agronomy.seasons import table_month
from lawnbook.agronomy.spots_trend import (
    Fit,
    MeanTrend,
    Series,
    crossing_years,
    mean_band,
    mean_line,
    mean_trend,
    residual_sd,
    season_difference,
)
from lawnbook.agronomy.trend import Line
from lawnbook.frozen import dataclass
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

REMEMBERED = 4096
"""So many places' trends are remembered: the spots, zones and yard of a few days looked at."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class EvidenceFigures:
    """All figures of one place; `latest_in` is the mean over the spots of each one's latest."""

    trend: MeanTrend | None
    line: tuple[tuple[date, float], ...]
    band: tuple[tuple[date, float, float], ...]
    latest_in: float | None
    crossing: tuple[date, date] | None
    spread: PlugSpread | None
    assumed_ruler: bool
    plugs_a_date: int
    scatter: Scatter | None
    detectable_in: float | None
    plugs_for_tenth: int | None
    seasons: int
    season: Fit | None


@dataclass(frozen=True, slots=True)
class _Trends:
    """What the series alone tell, in years since the first plug."""

    trend: MeanTrend | None
    line: Line | None
    band: tuple[Interval, ...] | None
    crossing: Interval | None
    residual: tuple[float, int] | None
    season: Fit | None


def figures_of(compared: Compared, latitude_deg: float) -> EvidenceFigures:
    """The figures of some spots' compared plugs."""
    resolution, assumed = resolution_in(compared.cores)
    spread = _spread(by_days(compared), resolution)
    springs = tuple(
        tuple(table_month(day.date.month, latitude_deg) in SPRING_MONTHS for day in each.days)
        for each in compared.spots
    )
    days = _spread_out(compared.dates)
    years = tuple(years_since(compared.origin, on) for on in days)
    trends = _trends(compared.series(), springs, years)
    plugs = _plugs_a_date(compared)
    scatter = _scatter(compared, spread, trends.residual)
    latest = [each.days[-1].value_in for each in compared.spots]
    return EvidenceFigures(
        trend=trends.trend,
        line=_line(compared, trends.line),
        band=tuple((on, *limits) for on, limits in zip(days, trends.band or (), strict=False)),
        latest_in=fmean(latest) if latest else None,
        crossing=_crossing(compared, trends.crossing),
        spread=spread,
        assumed_ruler=assumed,
        plugs_a_date=plugs,
        scatter=scatter,
        detectable_in=_detectable(scatter, plugs),
        plugs_for_tenth=_plugs_for_tenth(scatter),
        seasons=len({spring for each in springs for spring in each}),
        season=trends.season,
    )


@lru_cache(maxsize=REMEMBERED)
def _spread(
    days: tuple[tuple[tuple[float, ...], ...], ...], resolution: float
) -> PlugSpread | None:
    """The spread of plugs by days at one spot each."""
    return plug_spread(days, resolution)


@lru_cache(maxsize=REMEMBERED)
def _trends(
    series: tuple[Series, ...], springs: tuple[tuple[bool, ...], ...], years: tuple[float, ...]
) -> _Trends:
    """What the series tell, and the band in some years. An edit changes that of one spot only."""
    if not series:
        return _Trends(None, None, None, None, None, None)
    both = len({spring for each in springs for spring in each}) > 1
    return _Trends(
        trend=mean_trend(series),
        line=mean_line(series),
        band=mean_band(series, years),
        crossing=crossing_years(series, HALF_INCH),
        residual=residual_sd(series),
        season=season_difference(series, springs) if both else None,
    )


def _plugs_a_date(compared: Compared) -> int:
    """How many plugs a round has: the median, the lesser of two middle ones."""
    rounds = rounds_of(compared.cores)
    return math.floor(median(len(each) for each in rounds)) if rounds else 0


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


def _detectable(scatter: Scatter | None, plugs: int) -> float | None:
    return smallest_change(scatter.sd_in, scatter.freedom, plugs) if scatter else None


def _plugs_for_tenth(scatter: Scatter | None) -> int | None:
    return plugs_for(WANTED_CHANGE_IN, scatter.sd_in, scatter.freedom) if scatter else None


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
