"""A zone's precipitation rate from the best evidence there is, and how evenly it falls.

Catch test first, then the meter, then the heads, then what was typed. A catch test is stale once
a head was changed after it, or the pressure of the supply is known to have changed. A sprinkler on
a hose waters one place at a time, so its flow counts on that share of the zone.
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.precipitation import (
    DEFAULT_DU_LQ,
    catch_can_rate_in_per_h,
    depth_rate_in_per_h,
    lower_quarter_uniformity,
    precipitation_rate_in_per_h,
)
from lawnbook.agronomy.units import ML_PER_CUIN
from lawnbook.agronomy.usual_rates import USUAL_RATES
from lawnbook.frozen import dataclass
from lawnbook.plan.assumed import assumed_kind, range_told, rate_assumed_told
from lawnbook.plan.filled_in import counted_in, numbered, put_in, reckons
from lawnbook.plan.model import RateSource
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import counted, default, given, sources, told, told_exactly
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import CatchTest, Head, Zone

PRESSURE_SLACK = 0.1
"""Share by which two pressures on one zone may differ and still be the same (common practice)."""

FEWEST_CANS_FOR_EVENNESS = 2

MAP_SLACK = 0.05
"""Share by which the map's mean may differ from the heads' rate and still be the same."""

PLAUSIBLE_IN_PER_H = (0.01, 30.0)
"""No sprinkler is slower or faster than this; a figure beyond it is a slip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """The rate (in/h; None with a `reason`), where it is from, and DU_LQ where it was measured."""

    in_per_h: float | None
    source: RateSource | None = None
    stale: str = ""
    du_lq: float | None = None
    du_input: Input
    reason: str = ""
    working: Working | None = None
    record: str = ""

    @property
    def origin(self) -> str:
        """The record that it is from, in words, for the inputs of other figures."""
        words = self.record or self.source or tr("unknown")
        return tr("{record}, stale", record=words) if self.stale else words


def rate_of(notebook: Notebook, zone: Zone, area_sqft: float, on: date) -> Rate:
    """The rate of a zone on a day; give it the notebook as of that day."""
    tests = sorted(
        (test for test in notebook.catch_tests.values() if test.zone == zone.id),
        key=lambda test: (test.date, test.rank),
        reverse=True,
    )
    heads = [head for head in notebook.heads.values() if head.zone == zone.id]
    rate = (
        _from_tests(tests, _Changes.of(notebook, heads, on))
        or _from_meter(zone, area_sqft)
        or _from_heads(zone, heads, area_sqft)
        or _from_typing(zone)
        or Rate(in_per_h=None, du_input=_assumed_du(), reason=_why_none(heads))
    )
    slowest, fastest = PLAUSIBLE_IN_PER_H
    if rate.in_per_h is not None and not slowest <= rate.in_per_h <= fastest:
        rate = Rate(in_per_h=None, du_input=_assumed_du(), reason=_implausible(rate))
    return _with_evenness(rate, tests)


def coverage_note(rate: Rate, coverage: ZoneCoverage | None) -> str:
    """What the computed map says beside a rate: what misses the zone, and how evenly it falls.

    Only where it adds something: the rate is from the heads and the map puts down another, or the
    evenness was never measured. Empty otherwise, and where a head is missing from the map.
    """
    if coverage is None or coverage.without_flow or coverage.mean_in_per_h <= 0:
        return ""
    told_of = (_waste_note(rate, coverage), _evenness_note(rate, coverage))
    return " ".join(each for each in told_of if each)


def _waste_note(rate: Rate, coverage: ZoneCoverage) -> str:
    if rate.source != "heads" or rate.in_per_h is None:
        return ""
    falls, longer = coverage.mean_in_per_h, rate.in_per_h / coverage.mean_in_per_h - 1
    if abs(falls / rate.in_per_h - 1) <= MAP_SLACK:
        return ""
    rates = tr(
        "{falls} in place of {in_per_h}", falls=told(falls, 2, "in/h"), in_per_h=told(rate.in_per_h)
    )
    if longer > 0:
        share = told(100 * (1 - coverage.wasted_share), 0, "%")
        return tr(
            "By the map {share} of the heads' water falls on the zone, {rates}: minutes "
            "would have to grow by {longer}.",
            share=share,
            rates=rates,
            longer=told(100 * longer, 0, "%"),
        )
    return tr(
        "By the map neighbours' heads add to the zone, {rates} if they run as long: "
        "minutes could be {part} fewer.",
        rates=rates,
        part=told(-100 * longer, 0, "%"),
    )


def _evenness_note(rate: Rate, coverage: ZoneCoverage) -> str:
    if rate.du_lq is not None:
        return ""
    cones = coverage.assumed_profiles
    taken = tr(" ({heads} taken to throw a cone)", heads=counted(cones, "head")) if cones else ""
    return tr(
        "By the map evenness (DU) is {du_lq}{taken}, where {default_du_lq} is assumed: "
        "set out cans to know it.",
        du_lq=told(coverage.du_lq),
        taken=taken,
        default_du_lq=told(DEFAULT_DU_LQ),
    )


def _implausible(rate: Rate) -> str:
    slowest, fastest = PLAUSIBLE_IN_PER_H
    return tr(
        "Precipitation rate is not known: what the {source} gives is not between "
        "{slowest:g} and {fastest:g} in/h; check its figures.",
        source=rate.source,
        slowest=slowest,
        fastest=fastest,
    )


@dataclass(frozen=True, slots=True)
class _Changes:
    """What is known on a day to have changed: the days of the zone's heads, and the pressure."""

    heads: tuple[date, ...]
    pressure: date | None
    tests: tuple[CatchTest, ...]

    @classmethod
    def of(cls, notebook: Notebook, heads: list[Head], on: date) -> "_Changes":
        """The changes up to `on`."""
        pressure = notebook.yard.pressure_changed_on
        return cls(
            tuple(head.changed_on for head in heads if head.changed_on and head.changed_on <= on),
            pressure if pressure is not None and pressure <= on else None,
            tuple(sorted(notebook.catch_tests.values(), key=lambda each: each.date)),
        )

    def why_stale(self, test: CatchTest) -> str:
        """Why a test no longer holds, as a sentence; empty where it does."""
        changed = [each for each in self.heads if each > test.date]
        if changed:
            return tr(
                "The catch test of {date} is older than a change of heads on {changed}: set "
                "out the cans again.",
                date=day(test.date),
                changed=day(max(changed)),
            )
        if self.pressure is not None and self.pressure > test.date:
            return tr(
                "The catch test of {date} is older than the change of pressure on {pressure}: "
                "set out the cans again.",
                date=day(test.date),
                pressure=day(self.pressure),
            )
        if self._pressure_measured_otherwise(test.date):
            return tr(
                "The pressure has changed since the catch test of {date}: set out the cans again.",
                date=day(test.date),
            )
        return ""

    def _pressure_measured_otherwise(self, since: date) -> bool:
        """Whether some zone's tests before and after a day were run at different pressures."""
        before: dict[str, float] = {}
        for test in self.tests:
            psi = test.pressure_psi
            if psi is None:
                continue
            if test.date <= since:
                before[test.zone] = psi
                continue
            was = before.get(test.zone, psi)
            if abs(psi - was) > PRESSURE_SLACK * was:
                return True
        return False


def _from_tests(tests: list[CatchTest], changes: _Changes) -> Rate | None:
    for test in tests:
        caught = _caught(test)
        if caught is not None:
            return Rate(
                in_per_h=caught[0],
                source="catch test",
                stale=changes.why_stale(test),
                du_input=_assumed_du(),
                working=caught[1],
                record=caught[1].inputs[0].origin,
            )
    return None


def _caught(test: CatchTest) -> tuple[float, Working] | None:
    """The rate of one test with its working; None where nothing was caught."""
    readings = test.volumes_ml if test.can_mouth_sqin is not None else test.depths_in
    if not any(readings):
        return None
    origin = tr("catch test of {day}", day=day(test.date))
    minutes = told_exactly(test.run_minutes, 1)
    run = numbered(given(tr("Run"), f"{minutes} min", origin), "run", test.run_minutes, "min")
    mean = sum(readings) / len(readings)
    cans = tr("Mean of {cans}", cans=counted(len(readings), "can"))
    if test.can_mouth_sqin is None:
        rate = depth_rate_in_per_h(readings, test.run_minutes)
        formula, filled = tr("60 × mean depth ÷ run"), f"60 × {told_exactly(mean)} ÷ {minutes}"
        caught = numbered(given(cans, told(mean, 3, "in"), origin), "mean", mean, "in")
        inputs: tuple[Input, ...] = (caught, run)
        anew = "60 × {mean} ÷ {run}"
    else:
        rate = catch_can_rate_in_per_h(readings, test.run_minutes, test.can_mouth_sqin)
        mouth = told_exactly(test.can_mouth_sqin)
        formula = tr("3.6614 × mean volume ÷ (run × can mouth)")
        filled = f"3.6614 × {told_exactly(mean)} ÷ ({minutes} × {mouth})"
        mouth_input = given(tr("Can mouth"), f"{mouth} sq in", origin)
        mouth_input = numbered(mouth_input, "mouth", test.can_mouth_sqin, "sq in")
        caught = numbered(given(cans, told(mean, 1, "mL"), origin), "mean", mean, "mL")
        inputs = (caught, run, mouth_input)
        anew = tr(
            "60 × {{mean}} ÷ ({ml_per_cuin!r} × {{run}} × {{mouth}})", ml_per_cuin=ML_PER_CUIN
        )
    return rate, _working(rate, (formula, filled, anew), inputs, sources("ia-catch-can"))


def _from_meter(zone: Zone, area_sqft: float) -> Rate | None:
    if zone.flow_gpm is None or area_sqft <= 0:
        return None
    flow = given(tr("Metered flow"), told(zone.flow_gpm, 2, "gpm"), tr("meter, typed in the zone"))
    return _from_flow("meter", zone, zone.flow_gpm, flow, area_sqft)


def _from_heads(zone: Zone, heads: list[Head], area_sqft: float) -> Rate | None:
    flows = [head.flow_gpm for head in heads if head.flow_gpm is not None]
    if not flows or len(flows) < len(heads) or area_sqft <= 0:
        return None
    total, how = sum(flows), tr("sum of the heads")
    if places_of(zone) > 1:
        # One sprinkler is carried about: heads drawn at its places are that one over again.
        total, how = total / len(flows), tr("one sprinkler, the heads' mean")
    of_heads = counted(len(flows), "head")
    flow = given(tr("Flow of {of_heads}", of_heads=of_heads), told(total, 2, "gpm"), how)
    return _from_flow("heads", zone, total, flow, area_sqft)


def places_of(zone: Zone) -> int:
    """On how many places, one after the other, the zone's water goes down; 1 in the ground."""
    return (zone.hose_places or 1) if zone.sprinklers == "hose" else 1


def _from_flow(source: RateSource, zone: Zone, gpm: float, flow: Input, area_sqft: float) -> Rate:
    places = places_of(zone)
    rate = precipitation_rate_in_per_h(gpm, area_sqft / places)
    outline = tr("its outline, {count} corners", count=len(zone.outline_ft))
    area = given(tr("Area"), told(area_sqft, 0, "sq ft"), outline)
    inputs: tuple[Input, ...] = (
        numbered(flow, "flow", gpm, "gpm"),
        numbered(area, "area", area_sqft, "sq ft"),
    )
    formula, anew = tr("96.25 × flow ÷ area"), "96.25 × {flow} ÷ {area:0}"
    if places > 1:
        typed = given(tr("Places of the hose sprinkler"), str(places), tr("typed in the zone"))
        inputs = (*inputs, counted_in(typed, "places", float(places)))
        formula = tr("96.25 × flow ÷ (area ÷ places)")
        anew = "96.25 × {flow} ÷ ({area:0} ÷ {places:0})"
    told_as = (formula, put_in(anew, inputs), anew)
    working = _working(rate, told_as, inputs, sources("rate-constant"))
    record = flow.origin if source == "meter" else tr("the flow of its heads")
    return Rate(
        in_per_h=rate, source=source, du_input=_assumed_du(), working=working, record=record
    )


def _from_typing(zone: Zone) -> Rate | None:
    rate = zone.precipitation_in_per_h
    if rate is None:
        return None
    kind = assumed_kind(zone)
    record, value = tr("typed in the zone"), told(rate, 2, "in/h")
    if kind is None:
        typed = numbered(given(tr("Precipitation rate"), value, record), "rate", rate, "in/h")
        told_as = (tr("as entered"), told(rate, 2), "{rate}")
        working = _working(rate, told_as, (typed,), sources())
    else:
        usual = USUAL_RATES[kind]
        record = f"{rate_assumed_told(zone)}, {range_told(usual)}"
        assumed = numbered(default(tr("Precipitation rate"), value, record), "rate", rate, "in/h")
        told_as = (tr("middle of the usual range"), told(rate, 2), "{rate}")
        working = _working(rate, told_as, (assumed,), sources(*usual.sources))
    return Rate(
        in_per_h=rate, source="typed", du_input=_assumed_du(), working=working, record=record
    )


def _working(
    rate: float, told_as: tuple[str, str, str], inputs: tuple[Input, ...], source: str
) -> Working:
    """The working of a rate: `told_as` are its formula, that filled in, and that with symbols."""
    formula, filled, anew = told_as
    return Working(
        "precipitation_rate_in_per_h",
        tr("Precipitation rate"),
        told(rate, 2, "in/h"),
        formula,
        filled,
        inputs,
        source,
        reckons(anew, "in/h"),
    )


def _with_evenness(rate: Rate, tests: Iterable[CatchTest]) -> Rate:
    """DU_LQ from the newest test of two cans or more, beside whatever gave the rate."""
    for test in tests:
        cans = test.volumes_ml or test.depths_in
        if len(cans) >= FEWEST_CANS_FOR_EVENNESS and any(cans):
            du = lower_quarter_uniformity(cans)
            many = counted(len(cans), "can")
            origin = tr("catch test of {day}, {cans}", day=day(test.date), cans=many)
            return replace(rate, du_lq=du, du_input=given("DU_LQ", told(du), origin))
    return rate


def _assumed_du() -> Input:
    return default("DU_LQ", told(DEFAULT_DU_LQ), tr("assumed until cans are set out"))


def _why_none(heads: list[Head]) -> str:
    without = sum(head.flow_gpm is None for head in heads)
    if heads and 0 < without < len(heads):
        return tr(
            "Precipitation rate is not known: {without} of {count} heads has no flow. "
            "Enter it, set out cans, or type the rate."
            if without == 1
            else "Precipitation rate is not known: {without} of {count} heads have no flow. "
            "Enter it, set out cans, or type the rate.",
            without=without,
            count=len(heads),
        )
    return tr(
        "Precipitation rate is not known: set out cans, read the meter, give every "
        "head its flow, or type the rate."
    )
