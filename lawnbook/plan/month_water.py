"""What one watering looks like in a month: how deep, how often, how long, in how many cycles.

By the roots where the turf is grown; lightly and often while new seed or sod is rooting; a little
every few weeks where it is let go dormant in a drought.
"""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.agronomy.establishment import light_depth_in, times_on_a_day
from lawnbook.agronomy.precipitation import RATE_CONSTANT, gallons, run_minutes
from lawnbook.agronomy.soil import split_cycles
from lawnbook.agronomy.water_balance import interval_days, shortfall_in_per_day, watering_depth_in
from lawnbook.plan.model import MonthWater
from lawnbook.plan.rates import places_of
from lawnbook.plan.rooting import Rooting, rooting_of
from lawnbook.plan.season import month_in_full, span_words, touches_month, within
from lawnbook.plan.workings import counted, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts, is_dormant
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

FREEZING_F = 32.0

LEAST_ETC_IN_PER_DAY = 0.0005
"""Less use than this shows as zero, and no watering is planned for it."""


def month_water(setting: Setting, facts: ZoneFacts, month: int) -> MonthWater:
    """The waterings of a calendar month, or the reason there are none."""
    reason = why_none(setting, facts, month, _month_in_season(setting, month))
    return _planned(setting, facts, month) if not reason else MonthWater(month=month, reason=reason)


def water_today(setting: Setting, facts: ZoneFacts) -> MonthWater:
    """The watering on the day of the plan: its month's, but held to the season's exact days.

    While new turf is rooting it is the light rule's.
    """
    month = setting.on.month
    season = setting.season
    in_season = season is None or within(season, setting.on)
    if reason := why_none(setting, facts, month, in_season):
        return MonthWater(month=month, reason=reason)
    rooting = rooting_of(setting, facts)
    if rooting is not None:
        return _light(setting, facts, rooting)
    return _planned(setting, facts, month)


def next_by_rule(setting: Setting, facts: ZoneFacts, today: MonthWater) -> date | None:
    """The next watering of a zone that is watered by the calendar, `today` being its figures.

    So many days after the last watering on record, or the last rain that brought as much; the day
    itself where there is none. None under the deep rule, where nothing is planned, and where the
    season ends, or the grass stops growing, before.
    """
    if today.rule == "deep" or today.interval_days is None or today.depth_in is None:
        return None
    last = _last_wetted(setting, facts, today.depth_in)
    due = setting.on if last is None else last + timedelta(days=today.interval_days)
    due = max(setting.on, due)
    in_season = setting.season is None or within(setting.season, due)
    return due if in_season and not is_dormant(setting.weather, facts.zone, due.month) else None


def cost_of(setting: Setting, gallons_used: float) -> float | None:
    """What so many gallons cost at the owner's price of water; None where none is entered."""
    price = setting.notebook.yard.water_price_per_kgal
    return None if price is None else gallons_used * price / 1000


def flow_gpm_of(facts: ZoneFacts) -> float | None:
    """What a zone draws while it runs: as metered, or else its rate × area ÷ 96.25.

    A sprinkler on a hose waters one of its places at a time. None where neither is known.
    """
    if facts.zone.flow_gpm is not None:
        return facts.zone.flow_gpm
    if facts.rate.in_per_h is None:
        return None
    return facts.rate.in_per_h * facts.area_sqft / places_of(facts.zone) / RATE_CONSTANT


def etc_in_per_day(setting: Setting, facts: ZoneFacts, month: int) -> float | None:
    """ETc of a month: ETo × Kc × microclimate, 0 while the grass is dormant, None without ETo."""
    eto = setting.weather.month(month).eto_in_per_day
    if eto is None:
        return None
    return eto * etc_factor(facts, month)


def etc_factor(facts: ZoneFacts, month: int) -> float:
    """What ETo is multiplied by in a month: Kc × microclimate, 0 while the grass is dormant."""
    return facts.etc_factors[month - 1]


def why_none(setting: Setting, facts: ZoneFacts, month: int, in_season: bool) -> str:
    """Why no watering is planned in a month, as a sentence; empty where one is."""
    weather = setting.weather.month(month)
    if not facts.zone.irrigated:
        return tr("Not irrigated: no watering is planned.")
    if not in_season and setting.season is not None:
        return tr(
            "Outside the irrigation season ({span_words}).", span_words=span_words(setting.season)
        )
    if is_dormant(setting.weather, facts.zone, month) and weather.tmean_f is not None:
        state = "frozen" if weather.tmean_f <= FREEZING_F else "dormant"
        mean = told(weather.tmean_f, 0, "°F")
        return tr(
            "The grass is {state} in {month_in_full} (mean {mean}).",
            state=state,
            month_in_full=month_in_full(month),
            mean=mean,
        )
    etc = etc_in_per_day(setting, facts, month)
    if etc is not None and etc < LEAST_ETC_IN_PER_DAY:
        return tr(
            "Next to no water is used in {month_in_full}: none need be given.",
            month_in_full=month_in_full(month),
        )
    return weather.reason


def watered_month(setting: Setting, facts: ZoneFacts, month: int) -> bool:
    """Whether waterings are planned in a month at all."""
    return not why_none(setting, facts, month, _month_in_season(setting, month))


def _month_in_season(setting: Setting, month: int) -> bool:
    return setting.season is None or touches_month(setting.season, month)


def _planned(setting: Setting, facts: ZoneFacts, month: int) -> MonthWater:
    if setting.notebook.yard.drought == "survival":
        return _survival(setting, facts, month)
    etc, share = _etc_known(setting, facts, month), setting.share_of_etc
    target, bearable = facts.target_in, facts.bearable_in
    return put_down(
        setting,
        facts,
        MonthWater(
            month=month,
            etc_in_per_day=etc,
            depth_in=share * watering_depth_in(target, bearable, etc),
            interval_days=interval_days(target, bearable, etc),
            shortfall_in_per_day=shortfall_in_per_day(bearable, etc),
            share_of_etc=share,
        ),
    )


def _light(setting: Setting, facts: ZoneFacts, rooting: Rooting) -> MonthWater:
    """The watering of new turf on the day of the plan, whatever the drought: it has no roots."""
    etc = _etc_known(setting, facts, setting.on.month)
    water = MonthWater(
        month=setting.on.month,
        etc_in_per_day=etc,
        depth_in=light_depth_in(rooting.stage, etc),
        interval_days=rooting.stage.every_days,
        reason=tr(
            "New {how} of {since} is watered lightly and often until it has rooted.",
            how=tr(rooting.how),
            since=day(rooting.since),
        ),
        rule="light",
        times_a_day=times_on_a_day(rooting.stage, etc),
    )
    return put_down(setting, facts, water)


def _survival(setting: Setting, facts: ZoneFacts, month: int) -> MonthWater:
    """The little that keeps a dormant lawn's crowns alive."""
    kept = survival_watering(facts.zone.species, facts.zone.grass)
    water = MonthWater(
        month=month,
        etc_in_per_day=_etc_known(setting, facts, month),
        depth_in=kept.depth_in,
        interval_days=kept.every_days,
        reason=tr(
            "Let go dormant: {depth_in} every {days} keeps the crowns alive.",
            depth_in=told(kept.depth_in, 2, "in"),
            days=counted(kept.every_days, "day"),
        ),
        rule="survival",
    )
    return put_down(setting, facts, water)


def _etc_known(setting: Setting, facts: ZoneFacts, month: int) -> float:
    etc = etc_in_per_day(setting, facts, month)
    if etc is None:
        raise ValueError(f"Month {month} has no ETc and cannot be planned.")
    return etc


def put_down(setting: Setting, facts: ZoneFacts, water: MonthWater) -> MonthWater:
    """The watering with its run, cycles, gallons and cost; a part of a day is run by itself."""
    depth, rate = water.depth_in or 0.0, facts.rate.in_per_h
    used = gallons(depth * facts.multiplier, facts.area_sqft)
    reasons = " ".join(each for each in (water.reason, facts.rate.reason) if each)
    filled = replace(water, gallons=used, cost=cost_of(setting, used), reason=reasons)
    if rate is None:
        return filled
    run, times = run_minutes(depth, rate, facts.multiplier), water.times_a_day
    cycles = split_cycles(run / times, rate, facts.soil, facts.zone.slope_pct)
    return replace(
        filled,
        run_minutes=run,
        cycles=times * cycles.count,
        minutes_per_cycle=cycles.minutes_each,
        soak_minutes=cycles.soak_minutes,
    )


def _last_wetted(setting: Setting, facts: ZoneFacts, depth_in: float) -> date | None:
    """The last day with a watering on record, or with rain of that depth."""
    days = [each.date for each in setting.waterings.get(facts.zone.id, ())]
    weather = setting.weather
    wet = np.flatnonzero(weather.rain_in >= depth_in)
    if weather.first is not None and wet.size:
        days.append(weather.first + timedelta(days=int(wet[-1])))
    return max(days, default=None)
