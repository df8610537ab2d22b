"""The next watering as it would be put on at dawn, sooner or today, and what the last rain saved.

A watering refills what is used up by its dawn, so that the ground is full by that evening at most;
the depletion goes by the ledger, that of coming days by the months' means.
"""

from dataclasses import field, replace
from datetime import date, timedelta
from functools import partial

import numpy as np

from lawnbook.agronomy.checks import COUNTING_SLACK
from lawnbook.agronomy.root_zone import Days, Levels, root_zone_levels, stress_coefficient
from lawnbook.agronomy.water_balance import days_until_depletion, watering_depth_in
from lawnbook.frozen import dataclass
from lawnbook.plan.lazily import Later, Lazily
from lawnbook.plan.ledger import Ledger, days_ahead, reckoned_days, stress_from_share
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import etc_in_per_day, put_down, water_today
from lawnbook.plan.night import morning_for
from lawnbook.plan.root_days import capacity_in, thatch_capacity_in
from lawnbook.plan.water_model import Array, NextRun, RainCredit
from lawnbook.plan.water_rules import DAYS_A_WEEK, allows
from lawnbook.plan.zone_facts import Setting, ZoneFacts

LEAST_NEED_IN = 0.01
"""A depletion or a depth below this needs no watering."""

RAIN_DAYS = 7
"""How many days back rain is told as credited."""


@dataclass(frozen=True, kw_only=True)
class Runs:
    """The next run at dawn of the first allowed day, that of the last day before, and today's.

    None where there is none: no date, no allowed day in time, nothing used up.
    """

    next: NextRun | None
    sooner: Lazily[NextRun | None] = field(default=Lazily(None))
    today: Lazily[NextRun | None] = field(default=Lazily(None))


@dataclass(frozen=True, slots=True, kw_only=True)
class Wetting:
    """What a net depth does: what thatch keeps, how deep the soil is wet, what passes the roots."""

    kept_in: float
    wets_in: float
    past_roots_in: float


def next_runs(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, today: MonthWater, allowed: date | None
) -> Runs:
    """The runs of a zone; `today` is its watering of the day, `allowed` the first day for the next.

    The next run is that of the night in which a timer can put it on, which may end a day later.
    By the roots where that is the zone's rule; new and dormant turf takes the day's depth as it is.
    """
    due, on = ledger.next_watering, setting.on
    if due is None:
        return Runs(next=None, today=Later(partial(_today, setting, facts, ledger, today)))
    sooner = _last_allowed_before(setting, due) if allowed != due else None
    morning = None if allowed is None else morning_for(setting, facts, allowed)
    by_the_day = today.rule == "deep" or due == on
    return Runs(
        next=_run(setting, facts, ledger, today, morning) if morning is not None else None,
        sooner=Later(partial(_if_needed, setting, facts, ledger, today, sooner)),
        today=Later(partial(_today, setting, facts, ledger, today if by_the_day else None)),
    )


def rain_credit(setting: Setting, facts: ZoneFacts, ledger: Ledger) -> RainCredit | None:
    """What the last seven days' rain counted for; None without any.

    Counted is what thatch and roots took of it: not what evaporated at once, ran off or drained.
    The days moved are those from when the next watering would have been due without it, none for
    turf that is watered by the calendar.
    """
    past, went = ledger.recent, ledger.levels.series()
    week = slice(-RAIN_DAYS, None)
    fallen = float(past.days.rain_in[week].sum())
    if fallen < LEAST_NEED_IN / 2:
        return None
    rain, runoff = past.days.rain_in.copy(), past.days.runoff_in.copy()
    rain[week], runoff[week] = 0.0, past.irrigation_runoff_in[week]
    dry_days = replace(past.days, rain_in=rain, runoff_in=runoff)
    dry = _last_days(facts, dry_days, ledger.levels)
    lost = went.ignored_in[week] + went.runoff_in[week] + went.drained_in[week]
    without = dry.series()
    lost_without = without.runoff_in + without.drained_in
    reckoned_dry = reckoned_days(setting, dry_days)
    reckoned = dry if reckoned_dry is dry_days else _last_days(facts, reckoned_dry, ledger.whole)
    return RainCredit(
        fallen_in=fallen,
        counted_in=max(0.0, fallen - float((lost - lost_without).sum())),
        days_moved=_days_moved(setting, facts, ledger, reckoned.depletion_in),
    )


def wetting(
    facts: ZoneFacts, net_in: float, in_thatch_in: float, dawn_in: float, dusk_in: float
) -> Wetting:
    """What a net depth does at a dawn on which `dawn_in` of the roots' water is used up.

    It fills the thatch, in which `in_thatch_in` stands already, then each inch of soil from the
    top, all of them used up by the same share. What is more than will be used up by the end of the
    day, `dusk_in`, goes past the roots: FAO-56 eq. 88 nets the day's use before surplus drains.
    """
    kept = min(net_in, max(0.0, thatch_capacity_in(facts) - in_thatch_in))
    into_soil, rooted = net_in - kept, facts.roots.rooted_soil_in
    past = max(0.0, into_soil - max(dawn_in, dusk_in))
    if into_soil < dawn_in:
        return Wetting(kept_in=kept, wets_in=rooted * into_soil / dawn_in, past_roots_in=past)
    return Wetting(kept_in=kept, wets_in=rooted if into_soil > 0 else 0.0, past_roots_in=past)


def refill_in(facts: ZoneFacts, dawn_in: float, dusk_in: float, etc_in: float) -> float:
    """Net depth (in) of a watering by the roots: what is used up by its dawn.

    Or the depth of the plan at that use, where the day itself uses more by its evening; never more
    than the roots' soil holds.
    """
    planned = watering_depth_in(facts.target_in, facts.bearable_in, etc_in) if etc_in > 0 else 0.0
    return min(max(dawn_in, min(planned, dusk_in)), capacity_in(facts))


def dawn_and_dusk_in(setting: Setting, path_in: Array, that: date) -> tuple[float, float]:
    """Depletion at the dawn and at the end of a day, from that of the plan on.

    `path_in` holds yesterday's end, today's, and those of the coming days. Of today the lesser is
    its dawn's: rain that has fallen since then counts.
    """
    ahead = (that - setting.on).days
    last = path_in.size - 1
    dawn, dusk = float(path_in[min(ahead, last)]), float(path_in[min(ahead + 1, last)])
    return (min(dawn, dusk) if ahead == 0 else dawn), dusk


def _last_days(facts: ZoneFacts, days: Days, before: Levels) -> Levels:
    """The last days of some that differ from those of `before` in nothing but these."""
    first = max(0, days.eto_in.size - RAIN_DAYS)
    depletion, store = before.depletion_in[:first], before.thatch_store_in[:first]
    starts = (float(depletion[-1]), float(store[-1])) if first else (0.0, 0.0)
    return root_zone_levels(days.since(first), stress_from_share(facts), *starts)


def _today(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, today: MonthWater | None
) -> NextRun | None:
    if today is None or ledger.depletion_in < LEAST_NEED_IN:
        return None
    return _if_needed(setting, facts, ledger, today, setting.on)


def _if_needed(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, today: MonthWater, that: date | None
) -> NextRun | None:
    """The run of that day; None where rain or a watering has left it nothing to refill.

    In a dry year the ledger may show a deficit then, of which nothing is to be given back.
    """
    if that is None:
        return None
    run = _run(setting, facts, ledger, today, that)
    return run if run.depth_in >= LEAST_NEED_IN else None


def _run(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, today: MonthWater, that: date
) -> NextRun:
    water = put_down(setting, facts, _watering(setting, facts, ledger, today, that))
    depth = water.depth_in or 0.0
    used_up, dusk = dawn_and_dusk_in(setting, ledger.path_in, that)
    store = ledger.levels.thatch_store_in
    wet = float(store[-1]) if store.size and that == setting.on else 0.0
    result = wetting(facts, depth, wet, used_up, dusk)
    capacity = capacity_in(facts)
    share = min(1.0, used_up / capacity) if capacity else 1.0
    return NextRun(
        date=that,
        depth_in=depth,
        share_used=share,
        stress=stress_coefficient(share, stress_from_share(facts)),
        wets_in=result.wets_in,
        past_roots_in=result.past_roots_in,
        run_minutes=water.run_minutes,
        cycles=water.cycles,
        minutes_per_cycle=water.minutes_per_cycle,
        soak_minutes=water.soak_minutes,
        gallons=water.gallons or 0.0,
        cost=water.cost,
    )


def _watering(
    setting: Setting, facts: ZoneFacts, ledger: Ledger, today: MonthWater, that: date
) -> MonthWater:
    """The watering of that day before its run is worked out."""
    if today.rule != "deep":
        return today
    etc = etc_in_per_day(setting, facts, that.month) or 0.0
    dawn, dusk = dawn_and_dusk_in(setting, ledger.reckoned_in, that)
    depth = setting.share_of_etc * refill_in(facts, dawn, dusk, etc)
    return replace(today, month=that.month, etc_in_per_day=etc, depth_in=depth)


def _last_allowed_before(setting: Setting, due: date) -> date | None:
    """The last day before one that is due, not before the plan's, that the owner's rule allows."""
    back = (due - timedelta(days=each) for each in range(1, DAYS_A_WEEK))
    return next((each for each in back if each >= setting.on and allows(setting, each)), None)


def _days_moved(setting: Setting, facts: ZoneFacts, ledger: Ledger, dry: Array) -> int:
    """Days from when a watering would have been due on the dry days to when it is.

    What was overdue before the first of the rain was not moved by it: counted from that day on.
    """
    if ledger.next_watering is None or water_today(setting, facts).rule != "deep":
        return 0
    without = _due_since(setting, facts, dry)
    as_it_is = _due_since(setting, facts, ledger.whole.depletion_in)
    if without is None or as_it_is is None:
        return 0
    week_in = ledger.recent.days.rain_in[-RAIN_DAYS:]
    first_rain = int(np.flatnonzero(week_in)[0]) - (week_in.size - 1)
    return max(0, as_it_is - max(without, first_rain))


def _due_since(setting: Setting, facts: ZoneFacts, depletion_in: Array) -> int | None:
    """In how many days a watering is due; 0 or less where it has been for that many in a row.

    Told for the last seven days and the coming ones; None where none falls due.
    """
    allowance = facts.allowance_in - COUNTING_SLACK
    enough = np.flatnonzero(depletion_in[-RAIN_DAYS:] < allowance)
    week = min(RAIN_DAYS, depletion_in.size)
    short_days = week - 1 - int(enough[-1]) if enough.size else week
    if short_days:
        return 1 - short_days
    ahead = days_ahead(setting, facts).etc_in
    return days_until_depletion(float(depletion_in[-1]), facts.allowance_in, ahead)
