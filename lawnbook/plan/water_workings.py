"""The workings of a zone's water figures, one for each figure that has a value."""

import math
from collections.abc import Iterator

from lawnbook.agronomy.precipitation import DEFAULT_DU_LQ
from lawnbook.agronomy.soil import longest_cycle_minutes, surface_storage_in
from lawnbook.plan.ledger import Ledger
from lawnbook.plan.model import MonthWater
from lawnbook.plan.rule_workings import rule_workings
from lawnbook.plan.run_workings import (
    COST,
    GALLONS,
    RUN,
    cost_workings,
    depletion_workings,
    gallons_working,
    minutes_working,
    next_run_workings,
    year_workings,
)
from lawnbook.plan.season import month_name
from lawnbook.plan.water_figures import Figures
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import (
    PERCENT,
    chosen,
    counted,
    given,
    sources,
    told,
    told_exactly,
    told_not_below_zero,
)
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.numbers import day


def workings_of(setting: Setting, facts: ZoneFacts, figures: Figures) -> tuple[Working, ...]:
    """The workings in the order in which one figure leads to the next."""
    listed = [
        _area(facts),
        *([facts.rate.working] if facts.rate.working else []),
        _multiplier(facts),
    ]
    if figures.etc_in_per_day is not None:
        listed.append(_etc(setting, facts, figures.etc_in_per_day))
    listed += [_rooted(facts), _bearable(facts), _roots_needed(facts, figures)]
    if figures.today.etc_in_per_day is not None:
        listed += _watering(setting, facts, figures)
    if figures.ledger is not None:
        listed += depletion_workings(setting, facts, figures.ledger)
        listed += _next(facts, figures.ledger)
        if figures.next_run is not None:
            listed += next_run_workings(setting, facts, figures.ledger, figures.next_run)
    if figures.year is not None:
        listed += year_workings(setting, facts, figures.year)
    return tuple(listed)


def _watering(setting: Setting, facts: ZoneFacts, figures: Figures) -> Iterator[Working]:
    today, etc = figures.today, figures.today.etc_in_per_day or 0.0
    if today.interval_days is None or today.depth_in is None or today.gallons is None:
        return
    yield from rule_workings(setting, facts, today)
    if today.rule == "deep":
        yield _interval(facts, etc, today.interval_days)
        yield _depth(setting, facts, today, today.depth_in)
        yield _shortfall(facts, etc, today.shortfall_in_per_day)
    if figures.target_interval_days is not None:
        yield _target_interval(facts, etc, figures.target_interval_days)
    if today.run_minutes is not None:
        yield minutes_working(facts, RUN, today.depth_in, today.run_minutes)
        if today.rule != "light":
            yield from _cycles(facts, today, today.run_minutes)
    yield gallons_working(facts, GALLONS, today.depth_in, today.gallons)
    yield from cost_workings(setting, COST, today.gallons, today.cost)


def _area(facts: ZoneFacts) -> Working:
    value = told(facts.area_sqft, 0, "sq ft")
    inputs = (given("Outline", f"{len(facts.zone.outline_ft)} corners", "sketch"),)
    return Working(
        "area_sqft", "Area", value, "area of the outline less its holes", value, inputs, sources()
    )


def _multiplier(facts: ZoneFacts) -> Working:
    du = facts.rate.du_input
    du_lq = DEFAULT_DU_LQ if facts.rate.du_lq is None else facts.rate.du_lq
    keys = ("multiplier", "default-uniformity") if du.is_default else ("multiplier", "ia-catch-can")
    return Working(
        "multiplier",
        "Run-time multiplier",
        told(facts.multiplier),
        "1 ÷ (0.4 + 0.6 × DU_LQ)",
        f"1 ÷ (0.4 + 0.6 × {told_exactly(du_lq)})",
        (du,),
        sources(*keys),
    )


def _etc(setting: Setting, facts: ZoneFacts, etc: float) -> Working:
    month = setting.on.month
    weather = setting.weather.month(month)
    kc, micro = facts.kc_by_month[month - 1], facts.zone.microclimate
    eto = weather.eto_in_per_day or 0.0
    inputs = [
        *([weather.eto_input] if weather.eto_input else []),
        given(f"Kc, {facts.zone.grass} season, {month_name(month)}", told(kc), "table by month"),
        chosen("Microclimate factor", told(micro), micro != 1.0, "open ground"),
        *([weather.tmean_input] if weather.tmean_input else []),
    ]
    filled = f"{told_exactly(eto)} × {told_exactly(kc)} × {told_exactly(micro)}"
    dormant = etc == 0.0 and eto > 0
    weather_source = () if weather.eto_source == sources() else (weather.eto_source,)
    source = " · ".join(
        [sources("uc-kc", "wucols", *(["dormancy"] if dormant else [])), *weather_source]
    )
    return Working(
        "etc_in_per_day",
        "Water use",
        told(etc, 3, "in/day"),
        "ETo × Kc × microclimate, zero while dormant",
        f"{filled}, dormant: 0" if dormant else filled,
        tuple(inputs),
        source,
    )


def _rooted(facts: ZoneFacts) -> Working:
    roots = facts.roots
    return Working(
        "rooted_soil_in",
        "Rooted soil",
        told(roots.rooted_soil_in, 2, "in"),
        "root depth from the crowns − thatch, not below zero",
        told_not_below_zero(roots.root_depth_in, roots.thatch_in),
        (roots.root_input, roots.thatch_input),
        sources("default-roots") if roots.root_input.is_default else sources(),
    )


def _bearable(facts: ZoneFacts) -> Working:
    aw = facts.soil.available_water_in_per_in
    rooted = facts.roots.rooted_soil_in
    return Working(
        "bearable_depth_in",
        "What the roots bear",
        told(facts.bearable_in, 2, "in"),
        "allowed depletion × available water × rooted soil",
        f"{told_exactly(facts.depletion)} × {told_exactly(aw)} × {told_exactly(rooted)}",
        (
            facts.depletion_input,
            facts.soil_input,
            given("Available water", told(aw, 2, "in/in"), f"table, {facts.soil.name}"),
            given("Rooted soil", told(rooted, 2, "in"), "worked out"),
        ),
        sources("fao56", "depletion", "ia-schedule"),
    )


def _roots_needed(facts: ZoneFacts, figures: Figures) -> Working:
    aw = facts.soil.available_water_in_per_in
    return Working(
        "roots_needed_in",
        "Roots that bear the target",
        told(figures.roots_needed_in, 1, "in"),
        "target ÷ (allowed depletion × available water), below the thatch",
        f"{told_exactly(facts.target_in)} ÷ ({told_exactly(facts.depletion)} × {told_exactly(aw)})",
        (facts.target_input, facts.depletion_input, facts.soil_input),
        sources("fao56", "ia-schedule"),
    )


def _use(etc: float) -> Input:
    return given("Water use", told(etc, 3, "in/day"), "worked out")


def _bears(facts: ZoneFacts) -> Input:
    return given("What the roots bear", told(facts.bearable_in, 2, "in"), "worked out")


def _interval(facts: ZoneFacts, etc: float, days: int) -> Working:
    return Working(
        "interval_days",
        "Days between waterings",
        counted(days, "day"),
        "whole part of (lesser of target and what the roots bear ÷ water use), at least 1",
        f"min({told_exactly(facts.target_in)}, {told_exactly(facts.bearable_in)}) ÷ "
        f"{told_exactly(etc)} = {told_exactly(facts.allowance_in / etc)}",
        (facts.target_input, _bears(facts), _use(etc)),
        sources("fao56"),
    )


def _depth(setting: Setting, facts: ZoneFacts, today: MonthWater, depth: float) -> Working:
    days, etc, share = today.interval_days, today.etc_in_per_day or 0.0, today.share_of_etc
    formula = "days between waterings × water use, at most what the roots bear"
    filled = f"min({days} × {told_exactly(etc)}, {told_exactly(facts.bearable_in)})"
    inputs = [given("Days between waterings", str(days), "worked out"), _use(etc), _bears(facts)]
    if share != 1:
        formula = f"share given in a dry year × ({formula})"
        filled = f"{told_exactly(share)} × {filled}"
        typed = setting.notebook.yard.drought_share is not None
        inputs.append(chosen("Share given", told(share), typed, "common practice"))
    return Working(
        "depth_in",
        "Depth of a watering",
        told(depth, 2, "in"),
        formula,
        filled,
        tuple(inputs),
        sources("fao56"),
    )


def _shortfall(facts: ZoneFacts, etc: float, shortfall: float) -> Working:
    return Working(
        "shortfall_in_per_day",
        "Shortfall",
        told(shortfall, 2, "in/day"),
        "water use of one day − what the roots bear, not below zero",
        told_not_below_zero(etc, facts.bearable_in),
        (_use(etc), _bears(facts)),
        sources("fao56"),
    )


def _target_interval(facts: ZoneFacts, etc: float, days: int) -> Working:
    return Working(
        "target_interval_days",
        "Days between waterings at the target",
        counted(days, "day"),
        "whole part of (target ÷ water use), at least 1",
        f"{told_exactly(facts.target_in)} ÷ {told_exactly(etc)} = "
        f"{told_exactly(facts.target_in / etc)}",
        (facts.target_input, _use(etc)),
        sources("practice-inch", "deep-seldom"),
    )


def _cycles(facts: ZoneFacts, today: MonthWater, run: float) -> Iterator[Working]:
    if today.cycles is None or today.soak_minutes is None or today.minutes_per_cycle is None:
        return
    rate, intake = facts.rate.in_per_h or 0.0, facts.soil.intake_in_per_h
    storage = surface_storage_in(facts.soil, facts.zone.slope_pct)
    longest = longest_cycle_minutes(rate, intake, storage)
    inputs = (
        given("Precipitation rate", told(rate, 2, "in/h"), facts.rate.origin),
        given("Intake", told(intake, 2, "in/h"), f"table, {facts.soil.name}"),
        given(
            "Surface storage",
            told(storage, 2, "in"),
            f"table, {facts.zone.slope_pct:g}{PERCENT} slope",
        ),
    )
    yield Working(
        "cycles",
        "Cycles",
        str(today.cycles),
        "run time ÷ longest cycle, rounded up; longest = 60 × storage ÷ (rate − intake)",
        "the soil takes it as fast as it falls"
        if math.isinf(longest)
        else f"{told_exactly(run)} ÷ (60 × {told_exactly(storage)} ÷ "
        f"({told_exactly(rate)} − {told_exactly(intake)})) = {told_exactly(run / longest)}",
        inputs,
        sources("ia-schedule"),
    )
    if today.cycles > 1:
        yield Working(
            "soak_minutes",
            "Soak between cycles",
            told(today.soak_minutes, 1, "min"),
            "minutes per cycle × (rate ÷ intake − 1)",
            f"{told_exactly(today.minutes_per_cycle)} × "
            f"({told_exactly(rate)} ÷ {told_exactly(intake)} − 1)",
            inputs[:2],
            sources("ia-schedule"),
        )


def _next(facts: ZoneFacts, ledger: Ledger) -> Iterator[Working]:
    if ledger.next_watering is None:
        return
    yield Working(
        "next_watering",
        "Next watering",
        day(ledger.next_watering),
        "the first day on which depletion reaches the lesser of target and what the roots bear, "
        "not the day itself where its watering filled them",
        f"{told(ledger.depletion_in)} of {told(facts.allowance_in, 2, 'in')} used by this evening",
        (
            given("Ledger", f"full on {day(ledger.record.starts)}", "first record"),
            given("Waterings counted", str(ledger.record.counted), "recorded"),
            given("Depletion", told(ledger.depletion_in, 2, "in"), "water use − rain − waterings"),
        ),
        sources("fao56"),
    )
