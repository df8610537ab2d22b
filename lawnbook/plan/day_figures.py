"""The figures that colour the sketch, for a day by its plan, or for every day of a span at once.

A plan takes some hundredths of a second, too long for a film of years. `day_figures` reckons the
same figures for all its days in one go. Thatch, roots and feedings are those of each day's plan.
What waterings brought, water and nitrogen, is as it is known on the last day: by the latest rate,
and in roots interpolated between plugs, where each day's plan knows the ones before.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta
from functools import cache, partial
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.nitrogen import ROLLING_DAYS, n_year
from lawnbook.agronomy.water_balance import rooted_soil_in
from lawnbook.frozen import dataclass
from lawnbook.plan.day_waters import Waters, waters_of, waters_on
from lawnbook.plan.feed_ledger import ZoneFeed, feeds_of
from lawnbook.plan.ledger import zone_ledger
from lawnbook.plan.model import Plan
from lawnbook.plan.roots import (
    readings_of,
    root_readings,
    roots_of,
    thatch_readings,
    unpressed_or_pressed,
    zone_of_spot,
)
from lawnbook.plan.season import plannable
from lawnbook.plan.water_nitrogen import NO_WATER_N, WaterNitrogen, water_nitrogen_of
from lawnbook.plan.zone_facts import Setting, facts_of, plugs_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Core, Zone

Series = NDArray[np.float64]
"""One figure for each day of the span; NaN where it is not known."""

ByRecord = Mapping[str, float]
"""A figure by the id of a zone or a spot; those not known are left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What the sketch shows of a day: inches, lb per 1,000 sq ft, and shares of 0 to 1.

    `soil_water` is what of the water that roots can reach is still there. Thatch of a zone is the
    mean of its spots' latest, and rooted soil is what of the roots lies below the thatch.
    `zone_of_spot` leads from a spot's id to its zone's. `waters` makes the day's waterings when
    they are asked for: only the sketch that is coloured by them does.
    """

    on: date
    thatch_in: ByRecord
    rooted_soil_in: ByRecord
    n_left_this_year: ByRecord
    n_last_30_days: ByRecord
    soil_water: ByRecord
    spot_thatch_in: ByRecord
    spot_rooted_soil_in: ByRecord
    zone_of_spot: Mapping[str, str]
    waters: Callable[[], Waters] = Waters


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DayFigures:
    """The figures of every day from `starts` on, `length` of them, by zone and by spot."""

    starts: date
    length: int
    thatch_in: Mapping[str, Series]
    rooted_soil_in: Mapping[str, Series]
    n_left_this_year: Mapping[str, Series]
    n_last_30_days: Mapping[str, Series]
    soil_water: Mapping[str, Series]
    spot_thatch_in: Mapping[str, Series]
    spot_rooted_soil_in: Mapping[str, Series]
    zone_of_spot: Mapping[str, str]
    notebook: Notebook

    @property
    def ends(self) -> date:
        """The last day."""
        return self.starts + timedelta(days=self.length - 1)

    def figures(self, on: date) -> Figures:
        """The figures of one day. KeyError for a day outside of the span."""
        day = (on - self.starts).days
        if not 0 <= day < self.length:
            raise KeyError(on)
        return Figures(
            on=on,
            thatch_in=_known(self.thatch_in, day),
            rooted_soil_in=_known(self.rooted_soil_in, day),
            n_left_this_year=_known(self.n_left_this_year, day),
            n_last_30_days=_known(self.n_last_30_days, day),
            soil_water=_known(self.soil_water, day),
            spot_thatch_in=_known(self.spot_thatch_in, day),
            spot_rooted_soil_in=_known(self.spot_rooted_soil_in, day),
            zone_of_spot=self.zone_of_spot,
            waters=cache(partial(waters_on, self.notebook, on)),
        )


def plan_figures(plan: Plan) -> Figures:
    """The figures of a plan's own day."""
    return Figures(
        on=plan.on,
        thatch_in={z.zone_id: z.thatch_in for z in plan.zones if z.thatch_in is not None},
        rooted_soil_in={z.zone_id: z.rooted_soil_in for z in plan.zones if not z.roots_are_default},
        n_left_this_year={n.zone_id: n.left_this_year for n in plan.nitrogen},
        n_last_30_days={n.zone_id: n.rolling_30_days for n in plan.nitrogen},
        soil_water={
            z.zone_id: 1.0 - z.depletion_in / z.capacity_in
            for z in plan.zones
            if z.depletion_in is not None and z.capacity_in
        },
        spot_thatch_in={s.spot_id: s.latest_in for s in plan.thatch if s.latest_in is not None},
        spot_rooted_soil_in={
            s.spot_id: rooted_soil_in(s.roots_in, s.latest_in or 0.0)
            for s in plan.thatch
            if s.roots_in is not None
        },
        zone_of_spot={s.spot_id: s.zone_id for s in plan.thatch},
        waters=cache(partial(waters_of, plan)),
    )


def day_figures(notebook: Notebook, starts: date, ends: date) -> DayFigures:
    """The figures of every day from one to another, both included.

    Only what is dated up to the last day is known. Raises OwnerError for days beyond any notebook,
    ValueError where the span ends before it starts.
    """
    plannable(starts)
    plannable(ends)
    if ends < starts:
        raise ValueError(f"A span cannot end on {ends}, before it starts on {starts}.")
    setting = setting_of(as_of(notebook, ends), ends)
    span = _Span(starts, (ends - starts).days + 1)
    zones = tuple(setting.notebook.zones.values())
    nitrogen = _nitrogen(setting, span)
    return DayFigures(
        starts=starts,
        length=span.length,
        thatch_in={zone.id: _zone_thatch(setting, zone, span) for zone in zones},
        rooted_soil_in={zone.id: _rooted_soil(setting, zone, span) for zone in zones},
        n_left_this_year={zone_id: left for zone_id, (left, _) in nitrogen.items()},
        n_last_30_days={zone_id: lately for zone_id, (_, lately) in nitrogen.items()},
        soil_water={
            zone.id: _soil_water(setting, zone, number, span)
            for number, zone in enumerate(zones, start=1)
        },
        spot_thatch_in={
            spot: _stepped([cores], span, lambda known: _latest_thatch(known[0]))
            for spot, cores in setting.cores.items()
        },
        spot_rooted_soil_in={
            spot: _stepped([cores], span, lambda known: _spot_rooted_soil(known[0]))
            for spot, cores in setting.cores.items()
        },
        zone_of_spot={
            spot.id: zone_of_spot(setting.notebook, spot)
            for spot in setting.notebook.spots.values()
        },
        notebook=setting.notebook,
    )


@dataclass(frozen=True, slots=True)
class _Span:
    """A number of days in a row."""

    starts: date
    length: int

    def place(self, on: date) -> int:
        """The number of a day, from 0; a day before the span is its first, one after it none."""
        return min(max((on - self.starts).days, 0), self.length)


def _known(series: Mapping[str, Series], day: int) -> ByRecord:
    return MappingProxyType(
        {key: float(each[day]) for key, each in series.items() if not np.isnan(each[day])}
    )


def _stepped(
    plugs_of_spots: Sequence[Sequence[Core]],
    span: _Span,
    figure: Callable[[list[Sequence[Core]]], float | None],
) -> Series:
    """A figure made of the plugs pulled so far: it changes on the days of plugs alone."""
    series = np.full(span.length, np.nan)
    for on in sorted({core.date for cores in plugs_of_spots for core in cores}):
        known = [[core for core in cores if core.date <= on] for cores in plugs_of_spots]
        value = figure([cores for cores in known if cores])
        series[span.place(on) :] = np.nan if value is None else value
    return series


def _latest_thatch(cores: Sequence[Core]) -> float | None:
    readings = thatch_readings(unpressed_or_pressed(cores))
    return readings[-1].value_in if readings else None


def _spot_rooted_soil(cores: Sequence[Core]) -> float | None:
    readings = root_readings(cores)
    return rooted_soil_in(readings[-1].value_in, _latest_thatch(cores) or 0.0) if readings else None


def _zone_thatch(setting: Setting, zone: Zone, span: _Span) -> Series:
    def thatch(plugs: list[Sequence[Core]]) -> float | None:
        roots = roots_of(zone, readings_of(plugs))
        return None if roots.thatch_is_default else roots.thatch_in

    return _stepped(plugs_of(setting, zone), span, thatch)


def _rooted_soil(setting: Setting, zone: Zone, span: _Span) -> Series:
    def rooted(plugs: list[Sequence[Core]]) -> float | None:
        roots = roots_of(zone, readings_of(plugs))
        return None if roots.is_default else roots.rooted_soil_in

    return _stepped(plugs_of(setting, zone), span, rooted)


def _soil_water(setting: Setting, zone: Zone, number: int, span: _Span) -> Series:
    ledger = zone_ledger(setting, facts_of(setting, zone, number))
    series = np.full(span.length, np.nan)
    depletion, capacity = ledger.depletion_in, ledger.capacity_in
    first = (ledger.starts - span.starts).days
    skipped = max(-first, 0)
    count = min(depletion.size - skipped, span.length - max(first, 0))
    if count > 0:
        held = capacity[skipped : skipped + count]
        share = np.full(count, np.nan)
        np.divide(depletion[skipped : skipped + count], held, out=share, where=held > 0)
        series[max(first, 0) : max(first, 0) + count] = 1.0 - share
    return series


def _nitrogen(setting: Setting, span: _Span) -> dict[str, tuple[Series, Series]]:
    """What is left of the year, and what the last 30 days brought, by zone."""
    notebook = setting.notebook
    before = span.starts - timedelta(days=_DAYS_BEFORE)
    water = water_nitrogen_of(notebook, setting.areas, before, setting.on)
    return {
        zone_id: _zone_nitrogen(feed, water.get(zone_id, NO_WATER_N), span)
        for zone_id, feed in feeds_of(notebook, setting.areas, setting.on).items()
    }


def _zone_nitrogen(feed: ZoneFeed, water: WaterNitrogen, span: _Span) -> tuple[Series, Series]:
    """Sums over each day's budget year and over its last 30 days, by differences of one sum."""
    first = span.starts - timedelta(days=_DAYS_BEFORE)
    put = np.zeros(_DAYS_BEFORE + span.length)
    brought = [(each.date, each.n_lb) for each in feed.applications]
    brought += [(each.date, each.n_lb) for each in water.days]
    for on, n_lb in brought:
        if on >= first:
            put[(on - first).days] += n_lb
    total = np.concatenate(([0.0], np.cumsum(put)))
    days = _DAYS_BEFORE + np.arange(span.length)
    lately = total[days + 1] - total[days + 1 - ROLLING_DAYS]
    this_year = total[days + 1] - total[_year_starts(feed, span) + _DAYS_BEFORE]
    return feed.year_lb - this_year, lately


def _year_starts(feed: ZoneFeed, span: _Span) -> NDArray[np.int64]:
    """The day on which the budget year of each day began, counted from the span's first."""
    starts = np.empty(span.length, np.int64)
    on = span.starts
    while (at := (on - span.starts).days) < span.length:
        _, began, ends = n_year(on, feed.latitude_deg)
        starts[at:] = (began - span.starts).days
        on = ends + timedelta(days=1)
    return starts


_DAYS_BEFORE = 366
"""A budget year may have begun so long before the span does."""
