"""Yards whose place and clock are known, and the programs of their nights, for the tests."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from lawnbook.agronomy.precipitation import run_minutes
from lawnbook.agronomy.soil import split_cycles
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.schedule import programs_of
from lawnbook.plan.water import zone_water
from lawnbook.plan.water_model import NextRun, ProgramRun, TimerStart
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import WaterRules, Zone
from tests.plan_yards import JUNE, steady, yard, zone

MONDAY = JUNE
TUESDAY = date(2026, 6, 16)
"""15 June 2026 is a Monday (from memory)."""

DENVER = ZoneInfo("America/Denver")
PLACE: dict[str, Any] = {
    "latitude_deg": 41.2,
    "longitude_deg": -111.9,
    "time_zone": "America/Denver",
}
MINUTE = timedelta(minutes=1)

# 0.7 in/h on loam: 0.30 in stand after 60 × 0.30 ÷ 0.35 = 51 min; 1.4 in/h after 17 min.
SLOW, FAST = 0.7, 1.4


def placed(*zones: Zone, rules: WaterRules | None = None, **values: Any) -> Notebook:
    """A yard whose place and clock are known, under a watering rule."""
    book = yard(*zones, climate=steady(0.2))
    settings = replace(book.yard, **{**PLACE, **values})
    return replace(book, yard=settings, water_rules=rules or book.water_rules)


def rule(*hours: str, **days: Any) -> WaterRules:
    """A local rule as the owner types it; `days` as in ("Tue", "Sat")."""
    return replace(WaterRules(id="water_rules"), hours=hours, **days)


def lawn(name: str, rate: float | None = FAST, **values: Any) -> Zone:
    """A zone of loam with a typed rate and water spread evenly enough to be told apart."""
    return zone(id=name, name=name, precipitation_in_per_h=rate, **values)


def next_run(facts: ZoneFacts, on: date, depth_in: float) -> NextRun:
    """A watering of some depth by the contract's formulas."""
    rate = facts.rate.in_per_h
    run = run_minutes(depth_in, rate, facts.multiplier) if rate is not None else None
    cycles = None
    if run is not None and rate is not None:
        cycles = split_cycles(run, rate, facts.soil, facts.zone.slope_pct)
    return NextRun(
        date=on,
        depth_in=depth_in,
        share_used=0.4,
        stress=1.0,
        wets_in=6.0,
        past_roots_in=0.0,
        run_minutes=run,
        cycles=None if cycles is None else cycles.count,
        minutes_per_cycle=None if cycles is None else cycles.minutes_each,
        soak_minutes=None if cycles is None else cycles.soak_minutes,
        gallons=100.0,
        cost=None,
    )


def programs(
    book: Notebook, due: Sequence[date | None], depth_in: float = 0.4, on: date = MONDAY
) -> tuple[ProgramRun, ...]:
    """The programs of a yard whose zones are due on given days."""
    setting = setting_of(book, on)
    facts = [facts_of(setting, each, n) for n, each in enumerate(book.zones.values(), 1)]
    zones = [due_zone(setting, each, when, depth_in) for each, when in zip(facts, due, strict=True)]
    return programs_of(setting, zones, facts)


def due_zone(setting: Setting, facts: ZoneFacts, on: date | None, depth_in: float) -> ZoneWater:
    """A zone that is due on a day for a depth; None for no day."""
    water = replace(zone_water(setting, facts), establishing=None, next_allowed=on)
    run = None if on is None else next_run(facts, on, depth_in)
    return replace(water, next_run=run)


def ends(start: TimerStart) -> datetime:
    """When a valve closes, by the yard's clocks."""
    assert start.starts is not None
    return start.starts + start.minutes * MINUTE
