"""The workings of a watering that does not follow the roots: new turf, and turf let go dormant."""

from collections.abc import Iterator

from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.plan.model import MonthWater
from lawnbook.plan.rooting import Rooting, rooting_of
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import counted, given, sources, told, told_exactly
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.numbers import day


def rule_workings(setting: Setting, facts: ZoneFacts, today: MonthWater) -> Iterator[Working]:
    """Interval, depth and cycles of the rules "light" and "survival"; nothing under "deep"."""
    rooting = rooting_of(setting, facts) if today.rule == "light" else None
    if rooting is not None:
        yield from _light(facts, rooting, today)
    elif today.rule == "survival":
        yield from _survival(facts)


def _light(facts: ZoneFacts, rooting: Rooting, today: MonthWater) -> Iterator[Working]:
    stage, use = rooting.stage, today.etc_in_per_day or 0.0
    began = (
        given(f"Turf from {rooting.how}", day(rooting.since), "entered"),
        given("Light rule until", day(rooting.until), "unless a plug shows roots sooner"),
    )
    cited = sources(f"{rooting.how}-moist", "establishing-weeks")
    yield _interval(stage.every_days, began, cited)
    yield Working(
        "depth_in",
        "Depth of a day's waterings",
        told(today.depth_in or 0.0, 2, "in"),
        "days between waterings × water use, at least what wets where seed or sod roots",
        f"max({stage.every_days} × {told_exactly(use)}, "
        f"{today.times_a_day} × {told_exactly(stage.least_in)})",
        (
            given("Water use", told(use, 3, "in/day"), "worked out"),
            given("Waterings on the day", str(today.times_a_day), "by stage and use"),
            given("Least at a time", told(stage.least_in, 2, "in"), f"keeps {stage.keeps_moist}"),
            *began,
        ),
        cited,
    )
    if today.cycles is not None and facts.rate.in_per_h is not None:
        each = today.cycles // today.times_a_day
        yield Working(
            "cycles",
            "Cycles",
            str(today.cycles),
            "waterings on the day × cycles of each",
            f"{today.times_a_day} × {each}",
            began,
            cited,
        )


def _survival(facts: ZoneFacts) -> Iterator[Working]:
    kept = survival_watering(facts.zone.species, facts.zone.grass)
    species = facts.zone.species.strip() or f"{facts.zone.grass}-season turf"
    named = (given("Grass", species, "entered"),)
    cited = sources(*dict.fromkeys((kept.source, "survival-water")))
    yield _interval(kept.every_days, named, cited)
    yield Working(
        "depth_in",
        "Depth of a watering",
        told(kept.depth_in, 2, "in"),
        "what keeps the crowns of a dormant lawn alive",
        told_exactly(kept.depth_in),
        named,
        cited,
    )


def _interval(days: int, inputs: tuple[Input, ...], cited: str) -> Working:
    return Working(
        "interval_days",
        "Days between waterings",
        counted(days, "day"),
        "by rule, not by the roots",
        str(days),
        inputs,
        cited,
    )
