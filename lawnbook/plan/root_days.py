"""What came to a zone's root zone day by day: ETo, rain, waterings, run-off, and what it can hold.

It begins on the morning of the first record (weather or watering, two years back at most), or on
the day of the plan where there is none, and after the last day whose ETo nobody knows.
"""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lawnbook.agronomy.root_zone import THATCH_WATER_IN_PER_IN, Days
from lawnbook.agronomy.runoff import curve_number, irrigation_runoff_in, rain_runoff_in
from lawnbook.agronomy.soil import MINUTES_PER_HOUR, surface_storage_in
from lawnbook.frozen import dataclass
from lawnbook.plan.roots import rooted_and_thatch_on
from lawnbook.plan.water_model import Array, EtoMethod
from lawnbook.plan.working_model import Input
from lawnbook.plan.workings import chosen, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.records import Watering, Zone

LONGEST_LOOK_BACK_DAYS = 730

RECENT_DAYS = 64
"""So many days are looked at first: in the season one of them filled the roots, as a rule."""

SPANS_KEPT = 16
"""How many spans of days are remembered by their months: all zones of a plan have the same few."""

_FILLED: EtoMethod = "filled"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PastDays:
    """The days up to that of the plan. Irrigation and its run-off are net of the multiplier."""

    starts: date
    eto_from: tuple[EtoMethod, ...]
    days: Days
    irrigation_runoff_in: Array

    def since(self, place: int) -> "PastDays":
        """The days from a place on."""
        return PastDays(
            starts=self.starts + timedelta(days=place),
            eto_from=self.eto_from[place:],
            days=self.days.since(place),
            irrigation_runoff_in=self.irrigation_runoff_in[place:],
        )


@dataclass(frozen=True, slots=True)
class PastRecord:
    """When a ledger starts, and how many waterings are in it.

    `uncounted` were typed in minutes while the precipitation rate is unknown.
    """

    starts: date
    counted: int
    uncounted: int


@dataclass(frozen=True, slots=True, eq=False)
class WeatherDays:
    """ETo (in, NaN where unknown), where it is from, and rain (in) of some days in a row."""

    eto_in: Array
    eto_from: tuple[EtoMethod, ...]
    rain_in: Array


def past_days(setting: Setting, facts: ZoneFacts) -> PastDays:
    """All days of a zone's ledger; none where the day of the plan itself has no ETo."""
    starts, weather = _past_weather(setting, setting.waterings.get(facts.zone.id, ()))
    return _days_from(setting, facts, starts, weather)


def past_record(setting: Setting, facts: ZoneFacts) -> PastRecord:
    """What a ledger rests on, without its days."""
    starts, weather = _past_weather(setting, setting.waterings.get(facts.zone.id, ()))
    last = starts + timedelta(days=weather.eto_in.size)
    held = [each for each in _waterings_from(setting, facts, starts) if each.date < last]
    uncounted = sum(net_depth_in(facts, each) is None for each in held)
    return PastRecord(starts, len(held) - uncounted, uncounted)


def recent_days(setting: Setting, facts: ZoneFacts) -> PastDays | None:
    """The last of the same days; None where not so many are known."""
    starts, first = setting.on - timedelta(days=RECENT_DAYS - 1), setting.weather.first
    if first is None or first > starts:
        return None
    found = days_from(setting, facts, starts)
    return None if np.isnan(found.days.eto_in).any() else found


def days_from(setting: Setting, facts: ZoneFacts, starts: date) -> PastDays:
    """All days from one to that of the plan, those of unknown ETo too."""
    weather = weather_days(setting, starts, (setting.on - starts).days + 1)
    return _days_from(setting, facts, starts, weather)


def _days_from(setting: Setting, facts: ZoneFacts, starts: date, weather: WeatherDays) -> PastDays:
    """The days whose weather is given, the first of them a day."""
    length = weather.eto_in.size
    irrigation, irrigation_runoff = _watered(
        facts, _waterings_from(setting, facts, starts), starts, length
    )
    ordinals = starts.toordinal() + np.arange(length)
    rooted, thatch = rooted_and_thatch_on(facts.zone, facts.readings, ordinals)
    factors = etc_factors(facts)[month_indices(starts, length)]
    rain_runoff = rain_runoff_in(weather.rain_in, curve_number(facts.soil.name))
    days = Days(
        eto_in=weather.eto_in,
        etc_in=weather.eto_in * factors,
        rain_in=weather.rain_in,
        irrigation_in=irrigation,
        runoff_in=rain_runoff + irrigation_runoff,
        capacity_in=facts.soil.available_water_in_per_in * rooted,
        thatch_capacity_in=thatch_holding(facts.zone) * thatch,
    )
    return PastDays(
        starts=starts,
        eto_from=weather.eto_from,
        days=days,
        irrigation_runoff_in=irrigation_runoff,
    )


def net_depth_in(facts: ZoneFacts, watering: Watering) -> float | None:
    """Net inches of a recorded watering; None where minutes cannot be turned into a depth."""
    gross = watering.depth_in
    if gross is None and watering.minutes is not None and facts.rate.in_per_h is not None:
        gross = watering.minutes * facts.rate.in_per_h / MINUTES_PER_HOUR
    return None if gross is None else gross / facts.multiplier


def net_runoff_in(facts: ZoneFacts, net_in: float, cycles: int | None) -> float:
    """What of a watering's net depth ran off in so many cycles; 0 in the cycles of the plan.

    `cycles` is None where the plan's were run, and nothing is known to run off without a rate.
    """
    rate = facts.rate.in_per_h
    if cycles is None or rate is None:
        return 0.0
    gross = net_in * facts.multiplier
    storage = surface_storage_in(facts.soil, facts.zone.slope_pct)
    minutes = MINUTES_PER_HOUR * gross / rate
    runoff = irrigation_runoff_in(minutes, cycles, rate, facts.soil.intake_in_per_h, storage)
    return runoff / facts.multiplier


def thatch_holding(zone: Zone) -> float:
    """Water (in) that an inch of the zone's thatch keeps: as typed, else the assumption."""
    typed = zone.thatch_water_in_per_in
    return THATCH_WATER_IN_PER_IN if typed is None else typed


def thatch_holding_input(zone: Zone) -> Input:
    """The same as it is shown, marked where it is assumed."""
    value = told(thatch_holding(zone), 2, "in/in")
    typed = zone.thatch_water_in_per_in is not None
    return chosen(tr("Water held by thatch"), value, typed, tr("an assumption, adjustable by zone"))


def thatch_capacity_in(facts: ZoneFacts) -> float:
    """Water (in) that the zone's thatch keeps on the day of the plan."""
    return thatch_holding(facts.zone) * facts.roots.thatch_in


def capacity_in(facts: ZoneFacts) -> float:
    """The roots' available water (in, FAO-56's TAW) on the day of the plan."""
    return facts.soil.available_water_in_per_in * facts.roots.rooted_soil_in


def etc_factors(facts: ZoneFacts) -> Array:
    """What ETo is multiplied by in each month, January first."""
    return np.array(facts.etc_factors)


def eto_by_month(setting: Setting) -> Array:
    """Mean ETo (in/day) of each month, January first, NaN where it is unknown."""
    return setting.weather.month_eto_in


@lru_cache(maxsize=SPANS_KEPT)
def month_indices(starts: date, length: int) -> NDArray[np.int64]:
    """The month of each of some days in a row, 0 to 11. Not to be written to."""
    days = np.datetime64(starts, "D") + np.arange(length)
    months = days.astype("datetime64[M]").astype(np.int64) % 12
    months.flags.writeable = False
    return months


def weather_days(setting: Setting, starts: date, length: int) -> WeatherDays:
    """The weather on record of some days in a row, ETo filled with its month's mean."""
    weather = setting.weather
    if weather.first is None:
        eto = eto_by_month(setting)[month_indices(starts, length)]
        return WeatherDays(eto, (_FILLED,) * length, np.zeros(length))
    offset = (starts - weather.first).days
    held = weather.filled_eto_in.size
    first, last = min(max(offset, 0), held), min(max(offset + length, 0), held)
    before = min(length, max(-offset, 0))
    after = length - before - (last - first)
    eto, rain = weather.filled_eto_in[first:last], weather.rain_in[first:last]
    if before or after:
        means = eto_by_month(setting)[month_indices(starts, length)]
        eto = np.concatenate((means[:before], eto, means[length - after :]))
        rain = np.pad(rain, (before, after))
    eto_from = (_FILLED,) * before + weather.eto_from[first:last] + (_FILLED,) * after
    return WeatherDays(eto, eto_from, rain)


def _past_weather(setting: Setting, waterings: tuple[Watering, ...]) -> tuple[date, WeatherDays]:
    """The weather from the first record on, cut after the last day whose ETo nobody knows."""
    on, first = setting.on, setting.weather.first
    starts = on - timedelta(days=LONGEST_LOOK_BACK_DAYS)
    if first is None or first > starts:
        recorded = [each.date for each in waterings] + ([first] if first else [])
        starts = max(min(recorded, default=on), starts)
    found = weather_days(setting, starts, (on - starts).days + 1)
    unknown = np.flatnonzero(np.isnan(found.eto_in))
    cut = int(unknown[-1]) + 1 if unknown.size else 0
    known = WeatherDays(found.eto_in[cut:], found.eto_from[cut:], found.rain_in[cut:])
    return starts + timedelta(days=cut), known


def _waterings_from(setting: Setting, facts: ZoneFacts, starts: date) -> Sequence[Watering]:
    """The waterings of a zone from a day on."""
    return [each for each in setting.waterings.get(facts.zone.id, ()) if each.date >= starts]


def _watered(
    facts: ZoneFacts, waterings: Sequence[Watering], starts: date, length: int
) -> tuple[Array, Array]:
    """Net irrigation of each day, and what of it ran off."""
    irrigation, runoff = [0.0] * length, [0.0] * length
    first = starts.toordinal()
    for watering in waterings:
        place = watering.date.toordinal() - first
        net = net_depth_in(facts, watering) if place < length else None
        if net is None:
            continue
        irrigation[place] += net
        if watering.cycles is not None:
            runoff[place] += net_runoff_in(facts, net, watering.cycles)
    return np.array(irrigation), np.array(runoff)
