"""The light rule of new seed or sod as the owner reads it: how much, how often, and until when."""

from lawnbook.agronomy.establishment import Stage
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import water_today
from lawnbook.plan.rooting import Rooting, rooting_of
from lawnbook.plan.water_model import Establishing
from lawnbook.plan.workings import run_minutes_told, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.numbers import day, minutes

_TIMES = ("", tr("once a day"), tr("twice a day"), tr("three times a day"))


def establishing_of(setting: Setting, facts: ZoneFacts) -> Establishing | None:
    """The rule on the day of the plan; None where the turf is not new or is not watered then."""
    rooting = rooting_of(setting, facts)
    if rooting is None:
        return None
    today = water_today(setting, facts)
    if today.rule != "light" or today.depth_in is None:
        return None
    return Establishing(
        how=rooting.how,
        since=rooting.since,
        until=rooting.until,
        times_a_day=today.times_a_day,
        every_days=rooting.stage.every_days,
        depth_in=today.depth_in,
        run_minutes=today.run_minutes,
        words=_words(rooting, today, today.depth_in),
    )


def _words(rooting: Rooting, today: MonthWater, depth_in: float) -> str:
    each = told(depth_in / today.times_a_day, 2, "in")
    told_minutes = run_minutes_told(today)
    run = "" if told_minutes is None else f", {minutes(told_minutes / today.times_a_day)}"
    per = tr(" each") if today.times_a_day > 1 else ""
    often = _often(rooting.stage, today)
    return tr(
        "New {how} of {since}: {each}{run}{per}, {often}, keeps {keeps_moist}. So "
        "until {until}, or until a plug shows {plainly} of roots in the soil; then "
        "deep and seldom. Rain counts: skip one where the ground is still wet.",
        how=tr(rooting.how),
        since=day(rooting.since),
        each=each,
        run=run,
        per=per,
        often=often,
        keeps_moist=rooting.stage.keeps_moist,
        until=day(rooting.until),
        plainly=plainly(rooting.rooted_from_in, "in", 4),
    )


def _often(stage: Stage, today: MonthWater) -> str:
    if today.times_a_day > 1:
        return _TIMES[today.times_a_day]
    words = {1: tr("once a day"), 2: tr("every second day")}
    return words.get(stage.every_days) or tr("every {days} days", days=stage.every_days)
