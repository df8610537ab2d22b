"""The workings of a watering that does not follow the roots: new turf, and turf let go dormant."""

from collections.abc import Iterator

from lawnbook.agronomy.dormancy import survival_watering
from lawnbook.plan.filled_in import counted_in, numbered, put_in, reckons
from lawnbook.plan.model import MonthWater
from lawnbook.plan.rooting import Rooting, rooting_of
from lawnbook.plan.working_model import DAY, Input, Working
from lawnbook.plan.workings import counted, given, sources, told, told_exactly
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import day

USE_FROM = tr("worked out: ETo × Kc × microclimate")
"""Where the water use of the day comes from, as its own working tells it."""


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
        given(tr("Turf from {how}", how=tr(rooting.how)), day(rooting.since), tr("entered")),
        given(tr("Light rule until"), day(rooting.until), tr("unless a plug shows roots sooner")),
    )
    cited = sources(f"{rooting.how}-moist", "establishing-weeks")
    yield _interval(stage.every_days, began, cited)
    formula = "max({every:0} × {use}, {times:0} × {least})"
    times = given(tr("Waterings on the day"), str(today.times_a_day), tr("by stage and use"))
    least = given(
        tr("Least at a time"),
        told(stage.least_in, 2, "in"),
        tr("keeps {keeps_moist}", keeps_moist=stage.keeps_moist),
    )
    inputs = (
        numbered(given(tr("Water use"), told(use, 3, "in/day"), USE_FROM), "use", use, "in/day"),
        counted_in(
            given(
                tr("Days between waterings"), str(stage.every_days), tr("by the stage of the turf")
            ),
            "every",
            float(stage.every_days),
            DAY,
        ),
        counted_in(times, "times", float(today.times_a_day or 0)),
        numbered(least, "least", stage.least_in, "in"),
    )
    yield Working(
        "depth_in",
        tr("Depth of a day's waterings"),
        told(today.depth_in or 0.0, 2, "in"),
        tr("days between waterings × water use, at least what wets where seed or sod roots"),
        put_in(formula, inputs),
        (*inputs, *began),
        cited,
        reckons(formula, "in"),
    )
    if today.cycles is not None and facts.rate.in_per_h is not None:
        each = today.cycles // today.times_a_day
        parts = (
            counted_in(times, "times", float(today.times_a_day)),
            counted_in(
                given(tr("Cycles of each"), str(each), tr("run time ÷ longest cycle, rounded up")),
                "each",
                float(each),
            ),
        )
        yield Working(
            "cycles",
            tr("Cycles"),
            str(today.cycles),
            tr("waterings on the day × cycles of each"),
            put_in("{times:0} × {each:0}", parts),
            (*parts, *began),
            cited,
            reckons("{times} × {each}", "", 0),
        )


def _survival(facts: ZoneFacts) -> Iterator[Working]:
    kept = survival_watering(facts.zone.species, facts.zone.grass)
    species = tr(facts.zone.species.strip()) or tr(
        "{grass}-season turf", grass=tr(facts.zone.grass)
    )
    named = (given(tr("Grass"), species, tr("entered")),)
    cited = sources(*dict.fromkeys((kept.source, "survival-water")))
    yield _interval(kept.every_days, named, cited)
    yield Working(
        "depth_in",
        tr("Depth of a watering"),
        told(kept.depth_in, 2, "in"),
        tr("what keeps the crowns of a dormant lawn alive"),
        told_exactly(kept.depth_in),
        named,
        cited,
    )


def _interval(days: int, inputs: tuple[Input, ...], cited: str) -> Working:
    return Working(
        "interval_days",
        tr("Days between waterings"),
        counted(days, "day"),
        tr("by rule, not by the roots"),
        str(days),
        inputs,
        cited,
    )
