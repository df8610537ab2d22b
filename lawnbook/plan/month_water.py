"""What one watering looks like in a month: how deep, how often, how long, in how many cycles."""

from lawnbook.agronomy.precipitation import gallons, run_minutes
from lawnbook.agronomy.soil import split_cycles
from lawnbook.agronomy.turf import growing
from lawnbook.agronomy.water_balance import interval_days, shortfall_in_per_day, watering_depth_in
from lawnbook.plan.model import MonthWater
from lawnbook.plan.season import month_in_full, span_words, touches_month, within
from lawnbook.plan.zone_facts import Setting, ZoneFacts

FREEZING_F = 32.0

LEAST_ETC_IN_PER_DAY = 0.0005
"""Less use than this shows as zero, and no watering is planned for it."""


def month_water(setting: Setting, facts: ZoneFacts, month: int) -> MonthWater:
    """The waterings of a calendar month, or the reason there are none."""
    reason = why_none(setting, facts, month, _month_in_season(setting, month))
    return _planned(setting, facts, month) if not reason else MonthWater(month=month, reason=reason)


def water_today(setting: Setting, facts: ZoneFacts) -> MonthWater:
    """The watering on the day of the plan: its month's, but held to the season's exact days."""
    month = setting.on.month
    season = setting.season
    in_season = season is None or within(season, setting.on)
    reason = why_none(setting, facts, month, in_season)
    return _planned(setting, facts, month) if not reason else MonthWater(month=month, reason=reason)


def etc_in_per_day(setting: Setting, facts: ZoneFacts, month: int) -> float | None:
    """ETc of a month: ETo × Kc × microclimate, 0 while the grass is dormant, None without ETo."""
    eto = setting.weather.month(month).eto_in_per_day
    if eto is None:
        return None
    return eto * etc_factor(setting, facts, month)


def etc_factor(setting: Setting, facts: ZoneFacts, month: int) -> float:
    """What ETo is multiplied by in a month: Kc × microclimate, 0 while the grass is dormant."""
    if _dormant(setting, facts, month):
        return 0.0
    return facts.kc_by_month[month - 1] * facts.zone.microclimate


def why_none(setting: Setting, facts: ZoneFacts, month: int, in_season: bool) -> str:
    """Why no watering is planned in a month, as a sentence; empty where one is."""
    weather = setting.weather.month(month)
    if not facts.zone.irrigated:
        return "Not irrigated: no watering is planned."
    if not in_season and setting.season is not None:
        return f"Outside the irrigation season ({span_words(setting.season)})."
    if _dormant(setting, facts, month) and weather.tmean_f is not None:
        state = "frozen" if weather.tmean_f <= FREEZING_F else "dormant"
        return f"The grass is {state} in {month_in_full(month)} (mean {weather.tmean_f:.0f} °F)."
    etc = etc_in_per_day(setting, facts, month)
    if etc is not None and etc < LEAST_ETC_IN_PER_DAY:
        return f"Next to no water is used in {month_in_full(month)}: none need be given."
    return weather.reason


def watered_month(setting: Setting, facts: ZoneFacts, month: int) -> bool:
    """Whether waterings are planned in a month at all."""
    return not why_none(setting, facts, month, _month_in_season(setting, month))


def _month_in_season(setting: Setting, month: int) -> bool:
    return setting.season is None or touches_month(setting.season, month)


def _dormant(setting: Setting, facts: ZoneFacts, month: int) -> bool:
    tmean_f = setting.weather.month(month).tmean_f
    return tmean_f is not None and not growing(tmean_f, facts.zone.grass)


def _planned(setting: Setting, facts: ZoneFacts, month: int) -> MonthWater:
    etc = etc_in_per_day(setting, facts, month)
    if etc is None:
        raise ValueError(f"Month {month} has no ETc and cannot be planned.")
    target, bearable = facts.target_in, facts.bearable_in
    depth = watering_depth_in(target, bearable, etc)
    rate = facts.rate.in_per_h
    run = cycles = None
    if rate is not None:
        run = run_minutes(depth, rate, facts.multiplier)
        cycles = split_cycles(run, rate, facts.soil, facts.zone.slope_pct)
    return MonthWater(
        month=month,
        etc_in_per_day=etc,
        depth_in=depth,
        interval_days=interval_days(target, bearable, etc),
        run_minutes=run,
        cycles=cycles.count if cycles else None,
        minutes_per_cycle=cycles.minutes_each if cycles else None,
        soak_minutes=cycles.soak_minutes if cycles else None,
        gallons=gallons(depth * facts.multiplier, facts.area_sqft),
        shortfall_in_per_day=shortfall_in_per_day(bearable, etc),
        reason=facts.rate.reason,
    )
