"""The water of a year in review: put down, rained and used, beside the plan's and the old habit's.

A watering typed as a depth is that; one in minutes is minutes × the zone's rate, the best known on
the day of the review, so that both years are measured by one yardstick. Depths are gross.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from lawnbook.agronomy.precipitation import MINUTES_PER_HOUR, gallons
from lawnbook.agronomy.units import SQFT_IN_TO_GAL
from lawnbook.plan.root_days import etc_factors, month_indices, weather_days
from lawnbook.plan.year_days import FEWEST_KNOWN_DAYS, YEAR_DAYS
from lawnbook.plan.year_review_model import (
    Against,
    Months,
    Reckoned,
    ReviewSpan,
    Watered,
    WaterReview,
    Weathered,
    ZoneWatered,
)
from lawnbook.plan.year_water import zone_year
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of
from lawnbook.reading import is_metric, tr
from lawnbook.yard.records import Watering

NOT_IRRIGATED = "not irrigated"
NO_ROOTS = tr("its roots bear no watering")
NO_WEATHER = tr("too little weather on record")
NO_HABIT = tr("no old habit and rate entered")
NO_WATERING = tr("no watering on record")


class Spans(NamedTuple):
    """The days of the year, and those of the year before beside them."""

    now: ReviewSpan
    before: ReviewSpan


def water_review(setting: Setting, spans: Spans) -> WaterReview:
    """The water of every zone and of all; `setting` is that of the day of the review."""
    numbered = enumerate(setting.notebook.zones.values(), start=1)
    facts = [facts_of(setting, zone, number) for number, zone in numbered]
    zones = tuple(_zone(setting, each, spans) for each in facts)
    area = sum(each.area_sqft for each in facts)
    return WaterReview(
        zones=zones,
        now=together([each.now for each in zones], area),
        before=together([each.before for each in zones], area),
        area_sqft=area,
        weather=_weathered(setting, facts, spans.now),
        weather_before=_weathered(setting, facts, spans.before),
        plan=_against(zones, "plan"),
        habit=_against(zones, "habit"),
        left_out=tuple(_left_out(zones)),
    )


def together(parts: Sequence[Watered], area_sqft: float) -> Watered:
    """Several zones' water on their area in all."""
    used = sum(each.gallons for each in parts)
    return Watered(
        waterings=sum(each.waterings for each in parts),
        untold=sum(each.untold for each in parts),
        depth_in=used / (area_sqft * SQFT_IN_TO_GAL) if area_sqft > 0 else 0.0,
        gallons=used,
        gallons_by_month=_sums(each.gallons_by_month for each in parts),
    )


def comparable(zone: ZoneWatered) -> str:
    """Why what a zone got cannot be held against what it would have got; empty where it can."""
    if not zone.now.waterings:
        return NO_WATERING
    return untold_why() if zone.now.untold else ""


def left_out_why(zone: ZoneWatered) -> str:
    """Why a zone is in no comparison, `NO_HABIT` where only in that with the plan; "" for both."""
    why = zone.reckoned.reason
    return why if why == NOT_IRRIGATED else comparable(zone) or why


def _zone(setting: Setting, facts: ZoneFacts, spans: Spans) -> ZoneWatered:
    return ZoneWatered(
        zone=facts.zone.name,
        zone_id=facts.zone.id,
        number=facts.number,
        area_sqft=facts.area_sqft,
        now=_watered(setting, facts, spans.now),
        before=_watered(setting, facts, spans.before),
        reckoned=_reckoned(setting, facts, spans.now),
    )


def _watered(setting: Setting, facts: ZoneFacts, span: ReviewSpan) -> Watered:
    there = [w for w in setting.waterings.get(facts.zone.id, ()) if span.holds(w.date)]
    told = [(each.date.month, _gross_in(facts, each)) for each in there]
    by_month = [0.0] * 12
    for month, depth in told:
        by_month[month - 1] += depth or 0.0
    depth_in = sum(by_month)
    return Watered(
        waterings=len(there),
        untold=sum(depth is None for _, depth in told),
        depth_in=depth_in,
        gallons=gallons(depth_in, facts.area_sqft),
        gallons_by_month=tuple(gallons(each, facts.area_sqft) for each in by_month),
    )


def _gross_in(facts: ZoneFacts, watering: Watering) -> float | None:
    """What a watering put down (in); None where its minutes tell nothing without a rate."""
    if watering.depth_in is not None:
        return watering.depth_in
    minutes, rate = watering.minutes or 0.0, facts.rate.in_per_h
    if minutes <= 0:
        return 0.0
    return None if rate is None else minutes * rate / MINUTES_PER_HOUR


def _reckoned(setting: Setting, facts: ZoneFacts, span: ReviewSpan) -> Reckoned:
    year = zone_year(setting, facts, (span.recorded_from, span.until))
    if year is None:
        return Reckoned(plan_gallons=None, habit_gallons=None, reason=_why_none(facts))
    habit = None if year.habit is None else year.habit.gallons
    reason = NO_HABIT if habit is None else ""
    return Reckoned(plan_gallons=year.plan.gallons, habit_gallons=habit, reason=reason)


def _why_none(facts: ZoneFacts) -> str:
    if not facts.zone.irrigated:
        return NOT_IRRIGATED
    return NO_WEATHER if facts.allowance_in > 0 else NO_ROOTS


def _against(zones: Iterable[ZoneWatered], what: str) -> Against | None:
    """The zones in which both what was put down and what would have been are known."""
    would = {
        each.zone_id: each.reckoned.plan_gallons if what == "plan" else each.reckoned.habit_gallons
        for each in zones
    }
    known = [z for z in zones if not comparable(z) and would[z.zone_id] is not None]
    if not known:
        return None
    return Against(
        zones=tuple(each.zone for each in known),
        put_down_gallons=sum(each.now.gallons for each in known),
        would_gallons=sum(would[each.zone_id] or 0.0 for each in known),
    )


def _left_out(zones: Iterable[ZoneWatered]) -> Iterable[str]:
    """Each zone that is in no comparison, or not in that with the habit, and why."""
    for each in zones:
        why = left_out_why(each)
        if why:
            yield f"{each.zone}: {why}"


def _weathered(setting: Setting, facts: Sequence[ZoneFacts], span: ReviewSpan) -> Weathered:
    weather = weather_days(setting, span.starts, span.days)
    months = month_indices(span.starts, span.days)
    area = sum(each.area_sqft for each in facts)
    used = [
        float((weather.eto_in * etc_factors(each)[months]).sum()) * each.area_sqft for each in facts
    ]
    etc = sum(used) / area if area > 0 else float("nan")
    known = _rain_days(setting, span)
    filled = sum(each == "filled" for each in weather.eto_from)
    return Weathered(
        rain_in=float(weather.rain_in.sum()) if known else None,
        rain_days=known,
        rain_whole=_most(known, span),
        etc_in=None if np.isnan(etc) or not _most(span.days - filled, span) else etc,
        filled_days=filled,
    )


def _rain_days(setting: Setting, span: ReviewSpan) -> int:
    """On how many of the days rain was read."""
    weather = setting.weather
    if weather.first is None:
        return 0
    begin = max(0, (span.starts - weather.first).days)
    end = max(0, (span.until - weather.first).days + 1)
    return int(weather.rain_known[begin:end].sum())


def _most(known_days: int, span: ReviewSpan) -> bool:
    """Whether so many days stand for the whole span."""
    return known_days * YEAR_DAYS >= FEWEST_KNOWN_DAYS * span.days


def _sums(months: Iterable[Months]) -> Months:
    return tuple(float(each) for each in np.sum([(0.0,) * 12, *months], axis=0))


def untold_why() -> str:
    """Why a zone whose waterings are not all known is in no comparison."""
    if is_metric():
        return tr("some waterings cannot be told in litres")
    return tr("some waterings cannot be told in gallons")
