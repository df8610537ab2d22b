"""Water for one zone: today's figures, the twelve months, what is next, and notes beside them."""

from datetime import date
from functools import partial
from typing import Literal

from lawnbook.agronomy.water_balance import interval_days, roots_needed_in
from lawnbook.plan.coverage import coverage_of
from lawnbook.plan.establishing import establishing_of
from lawnbook.plan.lazily import Later
from lawnbook.plan.ledger import Ledger, ledger_of, zone_ledger
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.plan.month_water import etc_in_per_day, flow_gpm_of, month_water, water_today
from lawnbook.plan.next_run import Runs, next_runs, rain_credit
from lawnbook.plan.stretch import stretch_of
from lawnbook.plan.water_figures import Figures
from lawnbook.plan.water_notes import defaults_of, notes_of
from lawnbook.plan.water_rules import first_allowed
from lawnbook.plan.water_workings import workings_by_month, workings_of
from lawnbook.plan.year_water import zone_year
from lawnbook.plan.zone_facts import Setting, ZoneFacts

Limit = Literal["roots", "target", "one day"]
NO_RUNS = Runs(next=None)


def zone_water(setting: Setting, facts: ZoneFacts) -> ZoneWater:
    """The water figures of one zone on the day of the plan.

    What is not asked for with today's figures is promised; so give it a setting that may be held
    for long (`zone_facts.of_zone`).
    """
    today = water_today(setting, facts)
    planned = today.interval_days is not None
    ledger = ledger_of(setting, facts, today) if planned else None
    needed = roots_needed_in(facts.target_in, facts.depletion, facts.soil.available_water_in_per_in)
    allowed = first_allowed(setting, facts, _next_watering(ledger))
    runs = NO_RUNS if ledger is None else next_runs(setting, facts, ledger, today, allowed)
    figures = Figures(
        today=today,
        etc_in_per_day=etc_in_per_day(setting, facts, setting.on.month),
        target_interval_days=_target_interval(facts, today),
        roots_needed_in=needed,
        ledger=ledger,
        next_allowed=allowed,
        next_run=runs.next,
        sooner_run=Later(lambda: runs.sooner),
        year=Later(partial(zone_year, setting, facts)),
    )
    return _assembled(setting, facts, figures, runs)


def _assembled(setting: Setting, facts: ZoneFacts, figures: Figures, runs: Runs) -> ZoneWater:
    """Today's figures, and what follows from them where that is asked for."""
    today, zone, rate, ledger = figures.today, facts.zone, facts.rate, figures.ledger
    depletion, capacity = _stands(setting, facts, ledger)
    return ZoneWater(
        zone=zone.name,
        zone_id=zone.id,
        number=facts.number,
        area_sqft=facts.area_sqft,
        irrigated=zone.irrigated,
        precipitation_rate_in_per_h=rate.in_per_h,
        rate_source=rate.source,
        rate_stale=bool(rate.stale),
        du_lq=rate.du_lq,
        multiplier=facts.multiplier,
        etc_in_per_day=figures.etc_in_per_day,
        rooted_soil_in=facts.roots.rooted_soil_in,
        roots_are_default=facts.roots.is_default,
        defaults=defaults_of(facts),
        bearable_depth_in=facts.bearable_in,
        limited_by=_limited_by(facts, today),
        depth_in=today.depth_in,
        interval_days=today.interval_days,
        months=Later(partial(_months, setting, facts)),
        shortfall_in_per_day=None if ledger is None else today.shortfall_in_per_day,
        target_depth_in=facts.target_in,
        target_interval_days=figures.target_interval_days,
        roots_needed_in=figures.roots_needed_in,
        run_minutes=today.run_minutes,
        cycles=today.cycles,
        minutes_per_cycle=today.minutes_per_cycle,
        soak_minutes=today.soak_minutes,
        next_watering=_next_watering(ledger),
        next_allowed=figures.next_allowed,
        gallons=today.gallons,
        reason=today.reason,
        notes=Later(partial(notes_of, setting, facts, figures)),
        workings=Later(partial(workings_of, setting, facts, figures)),
        rule=today.rule,
        flow_gpm=flow_gpm_of(facts),
        cost=today.cost,
        depletion_in=depletion,
        capacity_in=capacity,
        thatch_in=None if facts.roots.thatch_is_default else facts.roots.thatch_in,
        next_run=runs.next,
        sooner_run=Later(lambda: runs.sooner),
        today_run=Later(lambda: runs.today),
        rain_credit=Later(partial(rain_credit, setting, facts, ledger)) if ledger else None,
        establishing=establishing_of(setting, facts),
        stretch=Later(partial(stretch_of, setting, facts)),
        coverage=Later(partial(coverage_of, setting.notebook, zone)),
        water_year=Later(lambda: figures.year),
        workings_by_month=Later(partial(workings_by_month, setting, facts)),
    )


def _months(setting: Setting, facts: ZoneFacts) -> tuple[MonthWater, ...]:
    return tuple(month_water(setting, facts, month) for month in range(1, 13))


def _stands(
    setting: Setting, facts: ZoneFacts, ledger: Ledger | None
) -> tuple[float | None, float | None]:
    """Depletion and capacity at the end of the day of the plan; None where no day is known."""
    if ledger is None:
        days = zone_ledger(setting, facts)
        depletion, capacity = days.depletion_in, days.capacity_in
    else:
        depletion, capacity = ledger.levels.depletion_in, ledger.recent.days.capacity_in
    if not depletion.size:
        return None, None
    return float(depletion[-1]), float(capacity[-1])


def _next_watering(ledger: Ledger | None) -> date | None:
    return ledger.next_watering if ledger is not None else None


def _target_interval(facts: ZoneFacts, today: MonthWater) -> int | None:
    """Days between waterings once the roots bear the target; None where none is planned."""
    if today.etc_in_per_day is None:
        return None
    return interval_days(facts.target_in, facts.target_in, today.etc_in_per_day)


def _limited_by(facts: ZoneFacts, today: MonthWater) -> Limit | None:
    if today.etc_in_per_day is None or today.rule != "deep":
        return None
    if today.etc_in_per_day > facts.bearable_in:
        return "one day"
    return "roots" if facts.bearable_in < facts.target_in else "target"
