"""One year's water of a zone as planned and under the old habit, reckoned day by day.

Roots, thatch and sprinklers are those of the day of the plan. The plan waters at dawn, on days the
owner's rule allows, when the day would use up the allowance; the habit runs its minutes on its
days. A dry year leaves the plan's days and gives a share of each depth.
"""

from dataclasses import replace
from datetime import date

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.checks import COUNTING_SLACK
from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.agronomy.precipitation import gallons
from lawnbook.agronomy.root_zone import Series, refilled_series, root_zone_series
from lawnbook.agronomy.soil import MINUTES_PER_HOUR
from lawnbook.frozen import dataclass
from lawnbook.plan.ledger import stress_from_share
from lawnbook.plan.month_water import cost_of
from lawnbook.plan.next_run import refill_in
from lawnbook.plan.root_days import net_runoff_in
from lawnbook.plan.rooting import rooting_of
from lawnbook.plan.water_model import Array, YearWater, ZoneYear
from lawnbook.plan.year_days import YearDays, year_days
from lawnbook.plan.year_keys import Way
from lawnbook.plan.year_words import year_words
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.records import Habit

DAYS_A_WEEK = 7
ONE_RUN = 1
"""Cycles of the old habit: its minutes run at a stretch."""

LEAST_DEPTH_IN = 0.005
"""A watering of less is none."""


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
    full = _by_the_roots(facts, year)
    drought = setting.notebook.yard.drought
    plan = full if drought == "off" else _dry_year(setting, facts, year, full)
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


def water_of_way(setting: Setting, facts: ZoneFacts, year: YearDays, way: Way) -> YearWater | None:
    """One year's water under one way of watering; None where that way is not known."""
    if way == "habit":
        habit = _habit(facts, year)
        return None if habit is None else _told(setting, facts, year, habit)
    full = _by_the_roots(facts, year)
    dry = way == "plan" and setting.notebook.yard.drought != "off"
    return _told(setting, facts, year, _dry_year(setting, facts, year, full) if dry else full)


def _by_the_roots(facts: ZoneFacts, year: YearDays) -> _Run:
    """The year where what is used up is refilled when a day would use up the allowance."""
    dusk_from = np.where(year.watered, facts.allowance_in - COUNTING_SLACK, np.inf)
    etc, months = year.days.etc_in, year.months

    def refill(place: int, dawn_in: float) -> float:
        use, dusk_in = year.month_etc_in[months[place]], dawn_in + float(etc[place])
        net = refill_in(facts, dawn_in, dusk_in, use)
        return net if net >= LEAST_DEPTH_IN else 0.0

    irrigation, series = refilled_series(
        year.days, stress_from_share(facts), dusk_from.tolist(), refill
    )
    return _Run(irrigation, np.zeros(irrigation.size), series)


def _dry_year(setting: Setting, facts: ZoneFacts, year: YearDays, full: _Run) -> _Run:
    """A share of each of the full plan's depths, or what keeps the crowns of dormant turf alive."""
    if setting.notebook.yard.drought == "less":
        return _run(facts, year, setting.share_of_etc * full.irrigation_in)
    kept = survival_watering(facts.zone.species, facts.zone.grass)
    depths = np.zeros(year.watered.size)
    wetted = 0
    for place, rain_in in enumerate(year.days.rain_in.tolist()):
        due = year.watered[place] and place - wetted >= kept.every_days
        if due or rain_in >= kept.depth_in:
            wetted = place
        depths[place] = kept.depth_in if due else 0.0
    return _run(facts, year, depths)


def _habit(facts: ZoneFacts, year: YearDays) -> _Run | None:
    """The year under the old habit; None without one or without a rate."""
    habit, rate = facts.zone.habit, facts.rate.in_per_h
    if habit is None or rate is None:
        return None
    net = habit.minutes * rate / MINUTES_PER_HOUR / facts.multiplier
    runs = year.in_season & _habit_days(habit, year.in_season.size)
    return _run(facts, year, np.where(runs, net, 0.0), ONE_RUN)


def _habit_days(habit: Habit, length: int) -> NDArray[np.bool_]:
    """On which days the habit runs, its days spread evenly over the week."""
    places = np.arange(length + 1)
    run = np.floor(habit.days_per_week * places / DAYS_A_WEEK + COUNTING_SLACK)
    days: NDArray[np.bool_] = run[1:] > run[:-1]
    return days


def _run(facts: ZoneFacts, year: YearDays, net_in: Array, cycles: int | None = None) -> _Run:
    """The year from a full root zone with these depths; `cycles` as `net_runoff_in` takes them."""
    irrigation = np.where(net_in >= LEAST_DEPTH_IN, net_in, 0.0)
    lost_of = {net: net_runoff_in(facts, net, cycles) for net in set(irrigation.tolist()) if net}
    runoff = np.array([lost_of.get(net, 0.0) for net in irrigation.tolist()])
    days = replace(year.days, irrigation_in=irrigation, runoff_in=year.days.runoff_in + runoff)
    return _Run(irrigation, runoff, root_zone_series(days, stress_from_share(facts)))


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
    rain = year.days.rain_in
    irrigation = run.irrigation_in - run.runoff_in
    came = rain - run.series.ignored_in + run.irrigation_in - run.series.runoff_in
    kept = np.maximum(came - run.series.into_soil_in, 0.0)
    return kept * np.divide(irrigation, came, out=np.zeros_like(came), where=came > 0)
