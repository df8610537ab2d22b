"""How the figures of the computed sprinkler map came about, and of the cans of one test."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from lawnbook.agronomy.precipitation import (
    catch_can_rate_in_per_h,
    christiansen_uniformity,
    depth_rate_in_per_h,
    lower_quarter_uniformity,
    precipitation_rate_in_per_h,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.coverage import coverage_of
from lawnbook.plan.filled_in import by_function, numbered, put_in, reckons, together
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import counted, default, given, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Head

FULL_CIRCLE_DEG = 360.0
MOST_CANS = 40
"""A working lists so many cans one by one."""


def coverage_workings(zone: ZoneWater, notebook: Notebook) -> tuple[Working, ...]:
    """The map's rate, its evenness and what falls outside; none without a map."""
    if zone.coverage is None:
        return ()
    return tuple(_of_map(zone.coverage, _MapAnew(notebook, zone.zone_id)))


@dataclass(frozen=True, slots=True)
class _MapAnew:
    """A figure of the map, its heads' flow, throw and arc changed by factors, all heads alike."""

    notebook: Notebook
    zone_id: str
    figure: str = "mean_in_per_h"

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """The map is made anew; NaN where it has no ground then."""
        heads = [
            replace(
                each,
                flow_gpm=None if each.flow_gpm is None else each.flow_gpm * numbers["flow"],
                radius_ft=each.radius_ft * numbers["throw"],
                sweep_deg=min(FULL_CIRCLE_DEG, each.sweep_deg * numbers["arc"]),
            )
            for each in self.notebook.heads.values()
            if each.zone == self.zone_id
        ]
        notebook = apply(self.notebook, put(self.notebook, "heads", *heads))
        found = coverage_of(notebook, notebook.zones[self.zone_id])
        return math.nan if found is None else float(getattr(found, self.figure))


@dataclass(frozen=True, slots=True)
class _Percent:
    """A share of the map, in percent."""

    share: _MapAnew

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """100 × the share."""
        return 100 * self.share(numbers)


def _factors() -> tuple[Input, ...]:
    """What all heads of the zone may do more or less of."""
    as_drawn = tr("1 is as drawn")
    return tuple(
        together(given(name, told(1.0), as_drawn), symbol)
        for symbol, name in (
            ("flow", tr("Flow of all heads")),
            ("throw", tr("Throw of all heads")),
            ("arc", tr("Arc of all heads")),
        )
    )


def _of_map(found: ZoneCoverage, anew: _MapAnew) -> Iterator[Working]:
    mean, heads = found.mean_in_per_h, _heads(found)
    yield Working(
        "coverage_mean_in_per_h",
        tr("Mean rate by the map"),
        told(mean, 2, "in/h"),
        tr("mean over the zone of what all heads put on each place, by throw, arc, flow, profile"),
        tr("{heads}, each place of the zone alike", heads=counted(found.heads, "head")),
        (*heads, *_factors()),
        sources("kincaid-profile", "rate-constant"),
        by_function(anew, "in/h"),
    )
    for figure, label, part, share in (
        ("coverage_du_lq", tr("DU of the map, lowest quarter"), tr("driest quarter"), found.du_lq),
        ("coverage_du_lh", tr("DU of the map, lower half"), tr("drier half"), found.du_lh),
    ):
        yield _evenness(found, figure, label, (part, share))
    formula = "1 − {off} ÷ {mean}"
    off = (1 - found.cu) * mean
    inputs = (
        _rate("off", tr("Mean distance from the mean"), off, tr("over all places of the zone")),
        _rate("mean", tr("Mean"), mean, tr("of all places of the zone")),
    )
    yield Working(
        "coverage_cu",
        tr("CU of the map"),
        told(found.cu),
        tr("1 − mean distance from the mean ÷ mean"),
        put_in(formula, inputs),
        (*inputs, *heads),
        sources("christiansen"),
        reckons(formula),
    )
    yield Working(
        "coverage_wasted",
        tr("Thrown outside"),
        told(100 * found.wasted_share, 0, "%"),
        tr("100 × what the zone’s own heads put beside it ÷ all that they put down"),
        "",
        (*heads, *_factors()),
        sources("kincaid-profile"),
        by_function(_Percent(replace(anew, figure="wasted_share")), "%", 0),
    )


def _evenness(found: ZoneCoverage, figure: str, label: str, part: tuple[str, float]) -> Working:
    """A lower share of the zone over its mean."""
    (name, share), mean, formula = part, found.mean_in_per_h, "{low} ÷ {mean}"
    inputs = (
        _rate("low", tr("Mean of the {part}", part=name), share * mean, tr("places by the map")),
        _rate("mean", tr("Mean"), mean, tr("of all places of the zone")),
    )
    return Working(
        figure,
        label,
        told(share),
        tr("mean of the {part} ÷ mean of the zone", part=name),
        put_in(formula, inputs),
        (*inputs, *_heads(found)),
        sources("ia-catch-can"),
        reckons(formula),
    )


def _rate(symbol: str, name: str, in_per_h: float, origin: str) -> Input:
    return numbered(given(name, told(in_per_h, 3, "in/h"), origin), symbol, in_per_h, "in/h")


def _heads(found: ZoneCoverage) -> tuple[Input, ...]:
    """The heads that are counted, and what is taken for granted of them."""
    counted_in = found.heads - found.without_flow
    listed = [given(tr("Heads"), str(counted_in), tr("drawn on the sketch, each with its flow"))]
    if found.neighbours:
        listed.append(given(tr("Of neighbours"), str(found.neighbours), tr("that reach in")))
    if found.without_flow:
        listed.append(given(tr("Left out"), str(found.without_flow), tr("heads without a flow")))
    if found.assumed_profiles:
        cones = tr("a cone, until a profile is entered")
        listed.append(default(tr("Profile"), counted(found.assumed_profiles, "head"), cones))
    return tuple(listed)


def head_workings(head: Head) -> tuple[Working, ...]:
    """What a head puts down on its own ground, its circle or part of one; none without a flow."""
    if not head.flow_gpm:
        return ()
    drawn = tr("entered for the head")
    inputs = (
        numbered(
            given(tr("Flow"), told(head.flow_gpm, 2, "gpm"), drawn), "flow", head.flow_gpm, "gpm"
        ),
        numbered(
            given(tr("Throw"), told(head.radius_ft, 1, "ft"), drawn), "throw", head.radius_ft, "ft"
        ),
        numbered(given(tr("Arc"), f"{told(head.sweep_deg, 0)}°", drawn), "arc", head.sweep_deg),
    )
    ground = math.pi * head.radius_ft**2 * head.sweep_deg / FULL_CIRCLE_DEG
    formula = f"96.25 × {{flow}} ÷ ({math.pi:.5f} × {{throw}}² × {{arc:0}} ÷ 360)"
    return (
        Working(
            f"head_rate:{head.id}",
            tr("Rate of the head on its own ground"),
            told(precipitation_rate_in_per_h(head.flow_gpm, ground), 2, "in/h"),
            tr("96.25 × flow ÷ (π × throw² × arc ÷ 360°)"),
            put_in(formula, inputs),
            inputs,
            sources("rate-constant"),
            reckons(formula, "in/h"),
        ),
    )


def can_workings(
    readings: Sequence[float], run_minutes: float, mouth_sqin: float | None, origin: str
) -> tuple[Working, ...]:
    """Rate, DU and CU of the cans of one test (mL with a mouth, in without); none of empty cans."""
    if not any(readings):
        return ()
    unit, places = ("in", 2) if mouth_sqin is None else ("mL", 1)
    cans = tuple(
        numbered(given(tr("Can {number}", number=n), told(each, places, unit), origin), f"c{n}",
                 each, unit)
        for n, each in enumerate(readings[:MOST_CANS], start=1)
    )  # fmt: skip
    made = [_can_rate(readings, run_minutes, mouth_sqin, origin)]
    if len(readings) > 1:
        made.append(_can_figure("cans_du", tr("DU of the cans"), (readings, cans), lowest=True))
        made.append(_can_figure("cans_cu", tr("CU of the cans"), (readings, cans), lowest=False))
    return tuple(made)


def one_can_workings(
    number: int, caught: float, run_minutes: float, mouth_sqin: float | None, origin: str
) -> tuple[Working, ...]:
    """The rate of one can (mL with a mouth, in without)."""
    name = tr("Can {number}", number=number)
    named = (f"can_rate:{number}", tr("Rate at can {number}", number=number), name)
    return (_can_rate([caught], run_minutes, mouth_sqin, origin, named),)


def _can_rate(
    readings: Sequence[float],
    run_minutes: float,
    mouth_sqin: float | None,
    origin: str,
    named: tuple[str, str, str] | None = None,
) -> Working:
    """The rate of the mean of some cans; `named` are its key, its label and what the mean is."""
    mean = sum(readings) / len(readings)
    figure, label, name = named or (
        "cans_rate",
        tr("Rate by the cans"),
        tr("Mean of {cans}", cans=counted(len(readings), "can")),
    )
    run = numbered(given(tr("Run"), told(run_minutes, 1, "min"), origin), "run", run_minutes, "min")
    if mouth_sqin is None:
        rate, formula = depth_rate_in_per_h(readings, run_minutes), "60 × {mean:3} ÷ {run}"
        caught = numbered(given(name, told(mean, 3, "in"), origin), "mean", mean, "in")
        inputs: tuple[Input, ...] = (caught, run)
        words = tr("60 × mean depth ÷ run") if named is None else tr("60 × depth ÷ run")
    else:
        rate = catch_can_rate_in_per_h(readings, run_minutes, mouth_sqin)
        formula = "3.6614 × {mean} ÷ ({run} × {mouth})"
        caught = numbered(given(name, told(mean, 1, "mL"), origin), "mean", mean, "mL")
        mouth = given(tr("Can mouth"), told(mouth_sqin, 2, "sq in"), origin)
        inputs = (caught, run, numbered(mouth, "mouth", mouth_sqin, "sq in"))
        words = (
            tr("3.6614 × mean volume ÷ (run × can mouth)")
            if named is None
            else tr("3.6614 × volume ÷ (run × can mouth)")
        )
    return Working(
        figure,
        label,
        told(rate, 2, "in/h"),
        words,
        put_in(formula, inputs),
        inputs,
        sources("ia-catch-can"),
        reckons(formula, "in/h"),
    )


def _can_figure(
    figure: str, label: str, read: tuple[Sequence[float], tuple[Input, ...]], *, lowest: bool
) -> Working:
    readings, cans = read
    evenness = lower_quarter_uniformity if lowest else christiansen_uniformity
    formula = (
        tr("mean of the lowest quarter of the cans ÷ mean of all")
        if lowest
        else tr("1 − mean distance of the cans from their mean ÷ their mean")
    )
    more = len(readings) - len(cans)
    rest = (together(given(tr("{count} more", count=more), "", ""), "rest"),) if more else ()

    return Working(
        figure,
        label,
        told(evenness(readings)),
        formula,
        "",
        (*cans, *rest),
        sources("ia-catch-can" if lowest else "christiansen"),
        by_function(_CansAnew(tuple(readings), lowest=lowest), ""),
    )


class _CansAnew:
    """Evenness from other readings: "c1" is the first can, "rest" a factor of those not listed."""

    def __init__(self, readings: tuple[float, ...], *, lowest: bool) -> None:
        self.readings, self.lowest = readings, lowest

    def __call__(self, numbers: Mapping[str, float]) -> float:
        """DU of the lowest quarter, or Christiansen's coefficient."""
        rest = numbers.get("rest", 1.0)
        changed = [
            numbers.get(f"c{n}", each * rest) for n, each in enumerate(self.readings, start=1)
        ]
        return (lower_quarter_uniformity if self.lowest else christiansen_uniformity)(changed)
