"""The root zone's daily ledger: how much of its water is used up, and when to water next.

The ledger starts full on the morning of its first record (weather or watering, two years back at
most), or of the day of the plan where there is none. Each day takes ETc, gives back the rain that
counts and the net depth of waterings (FAO-56 eq. 85). Coming days take the months' means.
"""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.water_balance import days_until_depletion, depletion_series_in
from lawnbook.plan.month_water import etc_factor, watered_month
from lawnbook.plan.roots import rooted_by_day
from lawnbook.plan.season import within
from lawnbook.plan.zone_facts import Setting, ZoneFacts, plugs_of
from lawnbook.yard.records import Watering

LONGEST_LOOK_BACK_DAYS = 730
LOOK_AHEAD_DAYS = 400

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Where the root zone stands at the end of the day of the plan, depletion in inches.

    `next_watering` is None where the season ends, or the weather is unknown, before it is due;
    `none_due` then says which.
    `uncounted` waterings were typed in minutes while the precipitation rate is unknown.
    """

    starts: date
    depletion_in: float
    next_watering: date | None
    none_due: str
    counted: int
    uncounted: int
    last_watering: date | None


def ledger_of(setting: Setting, facts: ZoneFacts) -> Ledger:
    """The ledger of a zone and the first day on which depletion reaches the allowance."""
    waterings = setting.waterings.get(facts.zone.id, ())
    eto_by_month = _by_month([each.eto_in_per_day for each in setting.weather.months])
    starts, eto, rain = _past(setting, waterings, eto_by_month)
    etc = eto * _factors(setting, facts)[_month_indices(starts, eto.size)]
    irrigation, counted, uncounted = _irrigation(facts, waterings, starts, eto.size)
    rooted = rooted_by_day(facts.zone, plugs_of(setting, facts.zone), starts, eto.size)
    capacity = facts.soil.available_water_in_per_in * rooted
    series = depletion_series_in(etc, rain, irrigation, eto, capacity)
    depletion = float(series[-1]) if series.size else 0.0
    due, none_due = _next(setting, facts, depletion, eto_by_month)
    return Ledger(
        starts=starts,
        depletion_in=depletion,
        next_watering=due,
        none_due=none_due,
        counted=counted,
        uncounted=uncounted,
        last_watering=max((each.date for each in waterings), default=None),
    )


def net_depth_in(facts: ZoneFacts, watering: Watering) -> float | None:
    """Net inches of a recorded watering; None where minutes cannot be turned into a depth."""
    gross = watering.depth_in
    if gross is None and watering.minutes is not None and facts.rate.in_per_h is not None:
        gross = watering.minutes * facts.rate.in_per_h / 60
    return None if gross is None else gross / facts.multiplier


def _past(
    setting: Setting, waterings: tuple[Watering, ...], eto_by_month: Array
) -> tuple[date, Array, Array]:
    """First day, ETo and rain of each day up to the day of the plan, gaps filled with means.

    It begins after the last day whose ETo nobody knows.
    """
    on, weather = setting.on, setting.weather
    recorded = [each.date for each in waterings] + ([weather.first] if weather.first else [])
    starts = max(min(recorded, default=on), on - timedelta(days=LONGEST_LOOK_BACK_DAYS))
    length = (on - starts).days + 1
    eto = eto_by_month[_month_indices(starts, length)]
    rain = np.zeros(length)
    if weather.first is not None:
        offset = (weather.first - starts).days
        begin, skip = max(offset, 0), max(-offset, 0)
        held = weather.eto_in[skip : skip + length - begin]
        known = ~np.isnan(held)
        eto[begin : begin + held.size][known] = held[known]
        rain[begin : begin + held.size] = weather.rain_in[skip : skip + length - begin]
    unknown = np.flatnonzero(np.isnan(eto))
    cut = int(unknown[-1]) + 1 if unknown.size else 0
    return starts + timedelta(days=cut), eto[cut:], rain[cut:]


def _irrigation(
    facts: ZoneFacts, waterings: tuple[Watering, ...], starts: date, length: int
) -> tuple[Array, int, int]:
    irrigation = np.zeros(length)
    counted = uncounted = 0
    for watering in waterings:
        place = (watering.date - starts).days
        net = net_depth_in(facts, watering)
        if not 0 <= place < length:
            continue
        if net is None:
            uncounted += 1
            continue
        irrigation[place] += net
        counted += 1
    return irrigation, counted, uncounted


def _next(
    setting: Setting, facts: ZoneFacts, depletion_in: float, eto_by_month: Array
) -> tuple[date | None, str]:
    """The first day, from that of the plan on, on which depletion reaches the allowance.

    None with the reason as a sentence where the season ends or the weather is unknown before.
    """
    tomorrow = setting.on + timedelta(days=1)
    months = _month_indices(tomorrow, LOOK_AHEAD_DAYS)
    etc = (eto_by_month * _factors(setting, facts))[months]
    unknown = np.flatnonzero(np.isnan(etc))
    known = etc[: unknown[0]] if unknown.size else etc
    days = days_until_depletion(depletion_in, facts.allowance_in, known)
    if days is None and unknown.size:
        return None, f"When to water next is not known. {_why_unknown(setting, months[unknown[0]])}"
    due = setting.on + timedelta(days=LOOK_AHEAD_DAYS if days is None else days)
    season = setting.season
    in_season = season is None or within(season, due)
    if days is None or not in_season or not watered_month(setting, facts, due.month):
        return None, "No further watering falls due before the season ends."
    return due, ""


def _why_unknown(setting: Setting, month_index: int) -> str:
    return setting.weather.month(int(month_index) + 1).reason


def _factors(setting: Setting, facts: ZoneFacts) -> Array:
    return np.array([etc_factor(setting, facts, month) for month in range(1, 13)])


def _by_month(values: list[float | None]) -> Array:
    return np.array([np.nan if value is None else value for value in values], dtype=np.float64)


def _month_indices(starts: date, length: int) -> NDArray[np.int64]:
    """The month of each of some days in a row, 0 to 11."""
    days = np.datetime64(starts, "D") + np.arange(length)
    return days.astype("datetime64[M]").astype(np.int64) % 12
