"""The root zone's daily ledger: how much of its water is used up, and when to water next.

The ledger starts full on the morning of its first record (`root_days`). Each day takes the grass's
use, gives back the rain that counts and the net depth of waterings (FAO-56 chapter 8), thatch
first. Coming days take the months' means at the full use and know nothing of the thatch, so that
the next date lies on the safe side and agrees with the interval.
"""

from dataclasses import field, replace
from datetime import date, timedelta
from functools import partial

import numpy as np

from lawnbook.agronomy.checks import COUNTING_SLACK
from lawnbook.agronomy.root_zone import Days, Levels, filled_on, root_zone_levels
from lawnbook.agronomy.turf import DEPLETION
from lawnbook.agronomy.water_balance import days_until_depletion
from lawnbook.frozen import dataclass
from lawnbook.plan.lazily import Later, Lazily
from lawnbook.plan.model import MonthWater
from lawnbook.plan.month_water import next_by_rule, water_today, watered_month
from lawnbook.plan.root_days import (
    PastDays,
    PastRecord,
    capacity_in,
    etc_factors,
    eto_by_month,
    month_indices,
    past_days,
    past_record,
    recent_days,
)
from lawnbook.plan.season import within
from lawnbook.plan.water_model import Array, ZoneLedger
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr

LOOK_AHEAD_DAYS = 400
DAYS_A_WEEK = 7

SEASON_ENDS = tr("No further watering falls due before the season ends.")


@dataclass(frozen=True, kw_only=True, eq=False)
class Ledger:
    """Where the root zone stands at the end of the day of the plan, depletion in inches.

    `next_watering` is None where the season ends, or the weather is unknown, before it is due;
    `none_due` then says which.
    `reckoned_in` is the depletion that the next date goes by, yesterday's, today's and those of
    the coming days: the ledger's own, but in a dry year as if each watering had given back all, so
    that less is given at the same interval. `path_in` is the ledger's own all the same.
    `recent` are the last of its days, more than a week where there are so many, `levels` and
    `whole` where the two ledgers stand on them; `zone_ledger` has them all, `record` what they are.
    """

    depletion_in: float
    next_watering: date | None
    none_due: str
    last_watering: Lazily[date | None] = field(default=Lazily())
    record: Lazily[PastRecord] = field(default=Lazily())
    recent: PastDays
    levels: Levels
    whole: Levels
    path_in: Array
    reckoned_in: Array


@dataclass(frozen=True, slots=True)
class Ahead:
    """The use (in) of each coming day as far as it is known, and why no further."""

    etc_in: Array
    why_unknown: str


def ledger_of(setting: Setting, facts: ZoneFacts, today: MonthWater | None = None) -> Ledger:
    """The ledger of a zone and the first day on which depletion reaches the allowance.

    `today` is the zone's watering of the day, reckoned where it is not given.
    """
    today = today or water_today(setting, facts)
    recent = _recent(setting, facts) or past_days(setting, facts)
    levels = root_zone_levels(recent.days, stress_from_share(facts))
    ahead = days_ahead(setting, facts)
    whole = _reckoned(setting, facts, levels)
    path = _path(facts, levels, ahead)
    reckoned = path if whole is levels else _path(facts, whole, ahead)
    filled = filled_today(recent.days, reckoned)
    due, none_due = _next(setting, facts, today, ahead, (float(reckoned[1]), filled))
    waterings = setting.waterings.get(facts.zone.id, ())
    return Ledger(
        depletion_in=float(path[1]),
        next_watering=due,
        none_due=none_due,
        last_watering=Later(lambda: max((each.date for each in waterings), default=None)),
        record=Later(partial(past_record, setting, facts)),
        recent=recent,
        levels=levels,
        whole=whole,
        path_in=path,
        reckoned_in=reckoned,
    )


def _recent(setting: Setting, facts: ZoneFacts) -> PastDays | None:
    """The last days from one whose water fills thatch and roots, whatever stood in them before.

    The levels from there on are those of the whole ledger, to the last bit. None where no day more
    than a week back is known to fill them.
    """
    past = recent_days(setting, facts)
    place = None if past is None else filled_on(past.days, DAYS_A_WEEK)
    return None if past is None or place is None else past.since(place)


def zone_ledger(setting: Setting, facts: ZoneFacts) -> ZoneLedger:
    """The days of a zone's ledger, whether or not the zone is irrigated or in season.

    No days where the ETo of the day of the plan is unknown.
    """
    past = past_days(setting, facts)
    levels = root_zone_levels(past.days, stress_from_share(facts))
    return _told(facts, past, levels, days_ahead(setting, facts))


def stress_from_share(facts: ZoneFacts) -> float:
    """Share of the roots' water beyond which the grass runs short: FAO-56's p, never the owner's.

    The owner's allowed depletion moves the date of the next watering, not what grass can draw.
    """
    return DEPLETION[facts.zone.grass]


def days_ahead(setting: Setting, facts: ZoneFacts) -> Ahead:
    """The months' mean use of the coming days, up to the first month nobody knows."""
    months = month_indices(setting.on + timedelta(days=1), LOOK_AHEAD_DAYS)
    etc = (eto_by_month(setting) * etc_factors(facts))[months]
    unknown = np.flatnonzero(np.isnan(etc))
    if not unknown.size:
        return Ahead(etc, "")
    first = int(unknown[0])
    return Ahead(etc[:first], setting.weather.month(int(months[first]) + 1).reason)


def reckoned_days(setting: Setting, days: Days) -> Days:
    """The days as the next date goes by them: in a dry year each watering counts as a whole one."""
    share = setting.share_of_etc
    return days if share == 1.0 else replace(days, irrigation_in=days.irrigation_in / share)


def _reckoned(setting: Setting, facts: ZoneFacts, levels: Levels) -> Levels:
    """The past days as the next date goes by them; `levels` is what really became of them."""
    days = reckoned_days(setting, levels.days)
    return levels if days is levels.days else root_zone_levels(days, stress_from_share(facts))


def filled_today(days: Days, reckoned_in: Array) -> bool:
    """Whether a watering of the day filled the roots, so that only the day's own use is gone."""
    if not days.irrigation_in.size or days.irrigation_in[-1] <= 0:
        return False
    return float(reckoned_in[1]) <= float(days.etc_in[-1]) + COUNTING_SLACK


def _next(
    setting: Setting,
    facts: ZoneFacts,
    today: MonthWater,
    ahead: Ahead,
    stands: tuple[float, bool],
) -> tuple[date | None, str]:
    """The next watering by its rule: by the roots, or by the calendar of new or dormant turf.

    By the roots it is the first day, from that of the plan on, on which depletion reaches the
    allowance; the day after at the earliest where the day's watering filled the roots, although
    one day's use may be more than they bear. `stands` are the depletion of today's end and whether
    it did. None with the reason as a sentence where the season
    ends or the weather is unknown before.
    """
    if today.rule != "deep":
        due = next_by_rule(setting, facts, today)
        return due, "" if due is not None else SEASON_ENDS
    depletion_in, filled = stands
    days = days_until_depletion(depletion_in, facts.allowance_in, ahead.etc_in)
    if days is None and ahead.why_unknown:
        return None, tr(
            "When to water next is not known. {why_unknown}", why_unknown=ahead.why_unknown
        )
    if days == 0 and filled:
        days = 1
    due = setting.on + timedelta(days=LOOK_AHEAD_DAYS if days is None else days)
    season = setting.season
    in_season = season is None or within(season, due)
    if days is None or not in_season or not watered_month(setting, facts, due.month):
        return None, SEASON_ENDS
    return due, ""


def _told(facts: ZoneFacts, past: PastDays, levels: Levels, ahead: Ahead) -> ZoneLedger:
    days, series = past.days, levels.series()
    return ZoneLedger(
        zone=facts.zone.name,
        zone_id=facts.zone.id,
        starts=past.starts,
        eto_in=days.eto_in,
        eto_from=past.eto_from,
        etc_in=days.etc_in,
        used_in=series.used_in,
        rain_in=days.rain_in,
        ignored_in=series.ignored_in,
        runoff_in=series.runoff_in,
        irrigation_in=days.irrigation_in,
        into_soil_in=series.into_soil_in,
        from_thatch_in=series.from_thatch_in,
        thatch_store_in=series.thatch_store_in,
        drained_in=series.drained_in,
        clipped_in=series.clipped_in,
        depletion_in=series.depletion_in,
        stress_from_in=stress_from_share(facts) * days.capacity_in,
        allowance_in=np.minimum(facts.target_in, facts.depletion * days.capacity_in),
        capacity_in=days.capacity_in,
        stress=series.stress,
        ahead_in=_path(facts, levels, ahead)[2:],
    )


def _path(facts: ZoneFacts, levels: Levels, ahead: Ahead) -> Array:
    """Depletion at the end of yesterday, of today, and of each coming day without any water."""
    past = np.concatenate([np.zeros(2), levels.depletion_in])[-2:]
    coming = np.minimum(past[-1] + np.cumsum(ahead.etc_in), capacity_in(facts))
    return np.concatenate([past, coming])
