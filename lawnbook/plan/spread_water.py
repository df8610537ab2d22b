"""Watering in: the short run that washes a product off the blades, and what it takes on a zone."""

import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from types import MappingProxyType

from lawnbook.agronomy.precipitation import run_minutes
from lawnbook.agronomy.soil import DEFAULT_SOIL, SOILS, split_cycles
from lawnbook.plan.feed_model import WateringIn
from lawnbook.plan.model import MonthWater
from lawnbook.plan.rates import Rate, places_of, rate_of
from lawnbook.plan.season import span_words, within
from lawnbook.plan.water_rules import DAYS_A_WEEK, WEEKDAYS
from lawnbook.plan.workings import cycle_minutes_told, run_minutes_told, sources, told
from lawnbook.reading import tr
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import short_day
from lawnbook.yard.records import WaterRules, Zone

WATERING_IN_IN = 0.25
"""Gross depth that washes granules off the blades (source "watering-in")."""


def watering_in_of(notebook: Notebook, zone: Zone, on: date) -> WateringIn:
    """The run that waters a product in on a zone and day: the depth is gross, so no multiplier."""
    rate = _rate(notebook, zone, on)
    run = _run(zone, on, rate)
    sentences = (*_put_down(zone, run, rate), *_hindered(notebook, zone, on))
    return WateringIn(
        depth_in=WATERING_IN_IN,
        run_minutes=run.run_minutes,
        cycles=run.cycles,
        minutes_per_cycle=run.minutes_per_cycle,
        words=" ".join(sentences),
        source=sources("watering-in"),
    )


def _rate(notebook: Notebook, zone: Zone, on: date) -> Rate:
    """The zone's rate by what is dated up to the day."""
    tests = {key: each for key, each in notebook.catch_tests.items() if each.date <= on}
    known = replace(notebook, catch_tests=MappingProxyType(tests))
    return rate_of(known, zone, zone_area_sqft(zone), on)


def _run(zone: Zone, on: date, rate: Rate) -> MonthWater:
    """The run in cycles short enough that none runs off; without minutes where none is known."""
    if not zone.irrigated or rate.in_per_h is None:
        return MonthWater(month=on.month)
    minutes = run_minutes(WATERING_IN_IN, rate.in_per_h, 1.0)
    soil = SOILS[DEFAULT_SOIL if zone.soil is None else zone.soil]
    cycles = split_cycles(minutes, rate.in_per_h, soil, zone.slope_pct)
    return MonthWater(
        month=on.month,
        run_minutes=minutes,
        cycles=cycles.count,
        minutes_per_cycle=cycles.minutes_each,
        soak_minutes=cycles.soak_minutes,
    )


def _put_down(zone: Zone, run: MonthWater, rate: Rate) -> Iterator[str]:
    depth = told(WATERING_IN_IN, 2, "in")
    if not zone.irrigated:
        yield (
            tr(
                "It has no sprinklers; give {depth} by hose, measured in a can, or let gentle "
                "rain do it.",
                depth=depth,
            )
        )
        return
    minutes = run_minutes_told(run)
    if minutes is None:
        yield tr(
            "{depth}, measured in a can set out on the zone. {reason}",
            depth=depth,
            reason=rate.reason,
        )
        return
    places = places_of(zone)
    where = tr(" at each of its {places} places", places=places) if places > 1 else ""
    each, soak = cycle_minutes_told(run), run.soak_minutes or 0.0
    parts = (
        tr(
            ", in {cycles} cycles of {each} min with {ceil} min between",
            cycles=run.cycles,
            each=each,
            ceil=math.ceil(soak),
        )
        if run.cycles is not None and run.cycles > 1
        else ""
    )
    yield tr(
        "{minutes} min{where} for {depth}{parts}.",
        minutes=minutes,
        where=where,
        depth=depth,
        parts=parts,
    )
    if rate.stale:
        yield rate.stale


def _hindered(notebook: Notebook, zone: Zone, on: date) -> Iterator[str]:
    """What keeps the run from following at once: the season, the days and hours of the rule."""
    if not zone.irrigated:
        return
    season, rules = notebook.yard.irrigation_season, notebook.water_rules
    if season is not None and not within(season, on):
        yield (
            tr(
                "{on} is outside the irrigation season ({span_words}): where the lines are "
                "drained, water in by hose or leave it to gentle rain.",
                on=short_day(on),
                span_words=span_words(season),
            )
        )
    if rules.days and not _allows(rules, on):
        later = (on + timedelta(days=each) for each in range(1, DAYS_A_WEEK + 1))
        allowed = next(each for each in later if _allows(rules, each))
        yield (
            tr(
                "Your watering rule allows none on {weekday}: spread on {weekday_2}, or ask "
                "whether it exempts watering in.",
                weekday=_weekday(on),
                weekday_2=_weekday(allowed),
            )
        )
    if rules.hours:
        yield tr("Your watering rule allows it {hours} only.", hours=" and ".join(rules.hours))


def _allows(rules: WaterRules, that: date) -> bool:
    return WEEKDAYS[that.weekday()] in rules.days


def _weekday(that: date) -> str:
    return f"{WEEKDAYS[that.weekday()]} {short_day(that)}"
