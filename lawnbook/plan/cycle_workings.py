"""The workings of a run in cycles: how many the soil asks for, and the soak between them."""

import math
from collections.abc import Iterator

from lawnbook.agronomy.soil import longest_cycle_minutes, surface_storage_in
from lawnbook.plan.filled_in import numbered, put_in, reckons, steps
from lawnbook.plan.model import MonthWater
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import PERCENT, given, sources, told, told_exactly
from lawnbook.plan.zone_facts import ZoneFacts
from lawnbook.reading import tr


def cycle_workings(facts: ZoneFacts, today: MonthWater, run: float) -> Iterator[Working]:
    """Cycles and soak of a run of `run` minutes; none where the month's plan has no cycles."""
    if today.cycles is None or today.soak_minutes is None or today.minutes_per_cycle is None:
        return
    rate, soil = facts.rate.in_per_h or 0.0, facts.soil
    intake, storage = soil.intake_in_per_h, surface_storage_in(soil, facts.zone.slope_pct)
    keeps_up = math.isinf(longest_cycle_minutes(rate, intake, storage))
    slope = tr("{slope_pct:g}{percent} slope", slope_pct=facts.zone.slope_pct, percent=PERCENT)
    rate_told = given(tr("Precipitation rate"), told(rate, 2, "in/h"), facts.rate.origin)
    table = tr("table, {name}", name=tr(soil.name))
    intake_told = given(tr("Intake"), told(intake, 2, "in/h"), table)
    storage_told = given(
        tr("Surface storage"),
        told(storage, 2, "in"),
        tr("table, {name}, {slope}", name=tr(soil.name), slope=slope),
    )
    run_told = given(
        tr("Run time"), told(run, 1, "min"), tr("worked out: 60 × depth × multiplier ÷ rate")
    )
    inputs = (
        numbered(rate_told, "rate", rate, "in/h"),
        numbered(intake_told, "intake", intake, "in/h"),
        numbered(storage_told, "storage", storage, "in"),
        numbered(run_told, "run", run, "min"),
    )
    formula = "{run} ÷ (60 × {storage} ÷ ({rate} − {intake}))"
    longest = "" if keeps_up else told_exactly(run * (rate - intake) / (60 * storage))
    yield Working(
        "cycles",
        tr("Cycles"),
        str(today.cycles),
        tr("run time ÷ longest cycle, rounded up; longest = 60 × storage ÷ (rate − intake)"),
        tr("the soil takes it as fast as it falls")
        if keeps_up
        else f"{put_in(formula, inputs)} = {longest}",
        inputs,
        sources("ia-schedule"),
        steps("{run} × max(0, {rate} − {intake}) ÷ (60 × {storage})", "", "up", 1),
    )
    if today.cycles > 1:
        yield _soak(today.soak_minutes, today.minutes_per_cycle, inputs[:2])


def _soak(soak: float, each: float, inputs: tuple[Input, ...]) -> Working:
    """The pause between two cycles; `inputs` are the rate and the intake."""
    cycle = given(tr("Minutes per cycle"), told(each, 1, "min"), tr("run time ÷ cycles"))
    inputs = (numbered(cycle, "each", each, "min"), *inputs)
    formula = "{each} × ({rate} ÷ {intake} − 1)"
    return Working(
        "soak_minutes",
        tr("Soak between cycles"),
        told(soak, 1, "min"),
        tr("minutes per cycle × (rate ÷ intake − 1)"),
        put_in(formula, inputs),
        inputs,
        sources("ia-schedule"),
        reckons(formula, "min", 1),
    )
