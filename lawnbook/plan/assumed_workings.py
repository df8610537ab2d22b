"""How what is assumed came about: each default with its source, and the figures that rest on it.

Also the usual range of a rate with the minutes at both its ends, and the shares of a jar test.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from lawnbook.agronomy.jar_test import jar_shares
from lawnbook.agronomy.usual_rates import USUAL_RATES, SprinklerKind
from lawnbook.plan.assumed import assumed_kind, is_assumed_square, range_told, usual_told
from lawnbook.plan.assumptions import DU, Assumption
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.ground_workings import shape_workings, sum_working
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.rate_span import RateSpan, alone_at
from lawnbook.plan.run_workings import Named, minutes_working
from lawnbook.plan.season import month_in_full
from lawnbook.plan.water_workings import workings_by_month
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, sources, told
from lawnbook.plan.zone_facts import facts_of, setting_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.record_base import FirstStep
from lawnbook.yard.records import Zone

MOST_RESTING = 3
"""So many figures that rest on a default are told with it."""

_SOURCES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        tr("Evenness (DU)"): ("default-uniformity",),
        tr("Root depth"): ("default-roots",),
        tr("Target depth"): ("practice-inch", "deep-seldom"),
        tr("Allowed depletion"): ("depletion", "fao56"),
        tr("Microclimate factor"): ("wucols",),
        tr("Soil"): ("ia-schedule",),
    }
)
"""Where the value of a default is from, by what it is of; the others are our choice."""
_OUR_CHOICE = tr("a choice of this notebook (common practice)")


def assumed_workings(notebook: Notebook, plan: Plan, assumed: Assumption) -> tuple[Working, ...]:
    """A default as it stands, then the figures that rest on it in the first of its zones."""
    zones = [each for each in plan.zones if not assumed.zones or each.zone in assumed.zones]
    resting = tuple(_resting(zones[0], assumed)) if zones else ()
    zone = notebook.zones.get(zones[0].zone_id) if zones else None
    if zone is not None and assumed.what == tr("Outline"):
        return (_default(assumed), *shape_workings(zone.outline_ft, ()))
    kind = None if zone is None else assumed_kind(zone)
    if kind is not None and assumed.what == tr("Precipitation rate"):
        return (range_working(kind), *resting)
    return (_default(assumed), *resting)


def range_working(kind: SprinklerKind) -> Working:
    """The usual range of a kind of sprinklers, and the middle that stands for it."""
    usual = USUAL_RATES[kind]
    low, high, formula = usual.low_in_per_h, usual.high_in_per_h, "√({low} × {high})"
    published = tr("published range, named below")
    inputs = (
        _rate("low", tr("Slowest"), low, published),
        _rate("high", tr("Fastest"), high, published),
    )
    return Working(
        "usual_rate",
        tr("{usual}, {range}", usual=usual_told(kind), range=range_told(usual)),
        told(usual.middle_in_per_h, 2, "in/h"),
        tr("√(slowest × fastest): minutes are off by the same factor either way"),
        put_in(formula, inputs),
        inputs,
        sources(*usual.sources),
        reckons(formula, "in/h"),
    )


def span_workings(
    notebook: Notebook, zone: Zone, kind: SprinklerKind, span: RateSpan, on: date
) -> tuple[Working, ...]:
    """The usual range, and the minutes that the plan has at both its ends."""
    slowest, fastest = tr("slowest"), tr("fastest")
    ends = ((slowest, span.usual.low_in_per_h), (fastest, span.usual.high_in_per_h))
    month = span.low.month
    return (
        range_working(kind),
        *(
            each
            for end, rate in ends
            for each in _at_end(alone_at(notebook, zone, rate), on, month, end)
        ),
    )


def jar_workings(sand_in: float, silt_in: float, clay_in: float) -> tuple[Working, ...]:
    """The shares of sand, silt and clay of a jar, by the depth of its layers."""
    shares = jar_shares(sand_in, silt_in, clay_in)
    layers = (
        ("sand", tr("Sand"), sand_in, shares.sand_pct),
        ("silt", tr("Silt"), silt_in, shares.silt_pct),
        ("clay", tr("Clay"), clay_in, shares.clay_pct),
    )
    inputs = tuple(
        numbered(given(name, told(depth, 2, "in"), tr("measured on the jar")), symbol, depth, "in")
        for symbol, name, depth, _ in layers
    )
    return tuple(_share(symbol, name, pct, inputs) for symbol, name, _, pct in layers)


def step_workings(notebook: Notebook, plan: Plan, step: FirstStep) -> tuple[Working, ...]:
    """How the figures in the summary of a first step came about; none where it has none."""
    if step == "size":
        zones = notebook.zones.values()
        drawn = tr("its outline, on the sketch")
        if any(map(is_assumed_square, zones)):
            drawn = tr("a square of that area, until its outline is drawn")
        areas = [(each.name, zone_area_sqft(each)) for each in zones]
        return (sum_working(tr("Areas of all zones"), areas, drawn),) if areas else ()
    figures = {"sprinklers": "precipitation_rate_in_per_h", "plug": "rooted_soil_in"}
    wanted = figures.get(step)
    return tuple(
        replace(each, label=tr("{zone}: {what}", zone=water.zone, what=each.label))
        for water in plan.zones
        for each in water.workings
        if each.figure == wanted
    )


def _default(assumed: Assumption) -> Working:
    keys = _SOURCES.get(assumed.what, ())
    return Working(
        "assumed",
        assumed.what,
        assumed.value,
        tr("taken at a default, {why}", why=assumed.why),
        "",
        (),
        sources(*keys) if keys else _OUR_CHOICE,
    )


def _resting(water: ZoneWater, assumed: Assumption) -> Iterator[Working]:
    """The first figures of a zone that a default goes into."""
    name = DU if assumed.what == tr("Evenness (DU)") else assumed.what
    found = (each for each in water.workings if any(one.name == name for one in each.inputs))
    for _, each in zip(range(MOST_RESTING), found, strict=False):
        yield replace(each, label=tr("{zone}: {what}", zone=water.zone, what=each.label))


def _at_end(alone: Notebook, on: date, month: int, end: str) -> Iterator[Working]:
    """The minutes of a watering of a month, and of an inch, at one end of the range."""
    setting = setting_of(alone, on)
    facts = facts_of(setting, next(iter(alone.zones.values())), 1)
    rate = told(facts.rate.in_per_h or 0.0, 2, "in/h")
    for each in workings_by_month(setting, facts)[month - 1]:
        if each.figure in ("run_minutes", "cycles"):
            label = tr(
                "{what} in {month}, {end}, {rate}",
                what=each.label,
                month=month_in_full(month),
                end=end,
                rate=rate,
            )
            yield _tried(replace(each, label=label))
    inch = plainly(1.0, "in")
    label = tr("Minutes that store {depth}, {end}, {rate}", depth=inch, end=end, rate=rate)
    run = 60 * facts.multiplier / (facts.rate.in_per_h or 1.0)
    named = Named("inch_minutes", label, tr("as asked"))
    yield _tried(minutes_working(facts, named, 1.0, run))


def _tried(working: Working) -> Working:
    """The working with a rate that nobody typed: it is tried."""
    rate, tried = tr("Precipitation rate"), tr("an end of the usual range")
    inputs = (replace(i, origin=tried) if i.name == rate else i for i in working.inputs)
    return replace(working, inputs=tuple(inputs))


def _rate(symbol: str, name: str, in_per_h: float, origin: str) -> Input:
    return numbered(given(name, told(in_per_h, 2, "in/h"), origin), symbol, in_per_h, "in/h")


def _share(symbol: str, name: str, pct: float, inputs: tuple[Input, ...]) -> Working:
    formula = f"100 × {{{symbol}}} ÷ ({{sand}} + {{silt}} + {{clay}})"
    return Working(
        f"jar_{symbol}",
        name,
        told(pct, 0, "%"),
        tr("100 × depth of the layer ÷ depth of all three"),
        put_in(formula, inputs),
        inputs,
        sources("jar-test", "usda-texture"),
        reckons(formula, "%", 0),
    )
