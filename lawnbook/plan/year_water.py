"""One year's water of a zone as planned and under the old habit, reckoned day by day.

Roots, thatch and sprinklers are those of the day of the plan. The plan waters at dawn, on days the
owner's rule allows, when the day would use up the allowance; the habit runs its minutes on its
days. A dry year leaves the plan's days and gives a share of each depth.
"""

from collections.abc import Callable
from datetime import date
from functools import cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import COUNTING_SLACK
from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.agronomy.precipitation import gallons
from lawnbook.agronomy.root_zone import DayWater, Series, day_water, series_of
from lawnbook.agronomy.soil import MINUTES_PER_HOUR
from lawnbook.frozen import dataclass
from lawnbook.plan.ledger import stress_from_share
from lawnbook.plan.month_water import cost_of
from lawnbook.plan.next_run import refill_in
from lawnbook.plan.root_days import net_runoff_in
from lawnbook.plan.rooting import rooting_of
from lawnbook.plan.water_model import Array, YearWater, ZoneYear
from lawnbook.plan.year_days import YearDays, year_days
from lawnbook.plan.year_words import year_words
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.records import Habit

DAYS_A_WEEK = 7
ONE_RUN = 1
"""Cycles of the old habit: its minutes run at a stretch."""

LEAST_DEPTH_IN = 0.005
"""A watering of less is none."""

Policy = Callable[[int, float], float]
"""From the day's place in the year and the depletion at its dawn to a net depth (in)."""


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """A year under one policy: net irrigation, what of it ran off, and where all water went."""

    irrigation_in: Array
    runoff_in: Array
    series: Series


def zone_year(
    setting: Setting, facts: ZoneFacts, span: tuple[date, date] | None = None
) -> ZoneYear | None:
    """The year of a zone; None where it is not irrigated, bears nothing, or has no weather.

    With a `span`, its days from first to last in place of the last year or a usual one.
    """
    if not facts.zone.irrigated or facts.allowance_in <= 0:
        return None
    year = year_days(setting, facts, span)
    if year is None:
        return None
    full = _run(facts, year, _by_the_roots(facts, year))
    drought = setting.notebook.yard.drought
    plan = full if drought == "off" else _run(facts, year, _dry_year(setting, facts, year, full))
    habit = _habit(facts, year)
    told = _told(setting, facts, year, plan)
    told_full = _told(setting, facts, year, full) if plan is not full else None
    told_habit = _told(setting, facts, year, habit) if habit is not None else None
    saved = None if told_habit is None else told_habit.gallons - told.gallons
    return ZoneYear(
        basis=year.basis,
        plan=told,
        habit=told_habit,
        full=told_full,
        saved_gallons=saved,
        words=year_words(
            setting,
            year.basis,
            told,
            told_habit,
            told_full,
            rooting=rooting_of(setting, facts) is not None,
        ),
    )


def _by_the_roots(facts: ZoneFacts, year: YearDays) -> Policy:
    """Refills what is used up when the day would use up the allowance."""

    def depth_in(place: int, dawn_in: float) -> float:
        day = year.rows[place]
        dusk_in = dawn_in + day.etc_in
        if not year.watered[place] or dusk_in < facts.allowance_in - COUNTING_SLACK:
            return 0.0
        return refill_in(facts, dawn_in, dusk_in, year.month_etc_in[place])

    return depth_in


def _dry_year(setting: Setting, facts: ZoneFacts, year: YearDays, full: _Run) -> Policy:
    """A share of each of the full plan's depths, or what keeps the crowns of dormant turf alive."""
    if setting.notebook.yard.drought == "less":
        shared = (setting.share_of_etc * full.irrigation_in).tolist()
        return lambda place, _: float(shared[place])
    kept = survival_watering(facts.zone.species, facts.zone.grass)
    wetted = 0

    def depth_in(place: int, _: float) -> float:
        nonlocal wetted
        due = year.watered[place] and place - wetted >= kept.every_days
        if due or year.rows[place].rain_in >= kept.depth_in:
            wetted = place
        return kept.depth_in if due else 0.0

    return depth_in


def _habit(facts: ZoneFacts, year: YearDays) -> _Run | None:
    """The year under the old habit; None without one or without a rate."""
    habit, rate = facts.zone.habit, facts.rate.in_per_h
    if habit is None or rate is None:
        return None
    net = habit.minutes * rate / MINUTES_PER_HOUR / facts.multiplier

    def depth_in(place: int, _: float) -> float:
        return net if year.in_season[place] and _runs_on(habit, place) else 0.0

    return _run(facts, year, depth_in, ONE_RUN)


def _runs_on(habit: Habit, place: int) -> bool:
    """Whether the habit's days, spread evenly over the week, hold this one."""
    before, after = (
        int(habit.days_per_week * each / DAYS_A_WEEK + COUNTING_SLACK)
        for each in (place, place + 1)
    )
    return after > before


def _run(facts: ZoneFacts, year: YearDays, policy: Policy, cycles: int | None = None) -> _Run:
    """The year day by day from a full root zone; `cycles` as `net_runoff_in` takes them."""
    p = stress_from_share(facts)
    depletion = store = 0.0
    irrigation, runoff = np.zeros(len(year.rows)), np.zeros(len(year.rows))
    lost_of = cache(lambda net: net_runoff_in(facts, net, cycles))
    waters: list[DayWater] = []
    for place, row in enumerate(year.rows):
        day, net = row, policy(place, depletion)
        if net >= LEAST_DEPTH_IN:
            irrigation[place] = net
            runoff[place] = lost = lost_of(net)
            day = row._replace(irrigation_in=net, runoff_in=row.runoff_in + lost)
        water = day_water(depletion, store, day, p)
        depletion, store = water.depletion_in, water.thatch_store_in
        waters.append(water)
    return _Run(irrigation, runoff, series_of(waters))


def _told(setting: Setting, facts: ZoneFacts, year: YearDays, run: _Run) -> YearWater:
    gross = run.irrigation_in * facts.multiplier
    by_month = np.bincount(year.months, weights=gross, minlength=12)
    used = gallons(float(gross.sum()), facts.area_sqft)
    runoff = float(run.runoff_in.sum()) * facts.multiplier
    kept = float(_kept_by_thatch(year, run).sum())
    depletion, capacity = run.series.depletion_in, year.capacity_in
    short = (depletion > stress_from_share(facts) * capacity + COUNTING_SLACK) & year.growing
    return YearWater(
        waterings=int(np.count_nonzero(run.irrigation_in)),
        gallons=used,
        gallons_by_month=tuple(gallons(each, facts.area_sqft) for each in by_month.tolist()),
        cost=cost_of(setting, used),
        gross_in=float(gross.sum()),
        wets_soil_in=max(0.0, float(gross.sum()) - runoff - kept),
        kept_by_thatch_in=kept,
        runoff_in=runoff,
        drained_in=float(run.series.drained_in.sum()),
        stress_days=int(np.count_nonzero(short)),
        driest_share_used=float(depletion.max()) / capacity,
    )


def _kept_by_thatch(year: YearDays, run: _Run) -> NDArray[np.float64]:
    """What the thatch kept of each day's irrigation (in): its share of all that came that day."""
    rain = np.array([row.rain_in for row in year.rows])
    irrigation = run.irrigation_in - run.runoff_in
    came = rain - run.series.ignored_in + run.irrigation_in - run.series.runoff_in
    kept = np.maximum(came - run.series.into_soil_in, 0.0)
    return kept * np.divide(irrigation, came, out=np.zeros_like(came), where=came > 0)
