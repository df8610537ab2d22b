"""How the sums of a year in review came about: each with its parts, and where they are from."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.nitrogen_workings import rated, sum_of
from lawnbook.plan.run_workings import GALLONS_OF_AN_INCH, area_input, exact_gallons
from lawnbook.plan.season import month_in_full
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import given, rate_told, sources, told, told_exactly
from lawnbook.plan.year_review_model import (
    Against,
    CostReview,
    NitrogenReview,
    ReviewSpan,
    SpotReview,
    WaterReview,
    ZoneFed,
    ZoneWatered,
)
from lawnbook.plan.year_review_span import span_told
from lawnbook.plan.year_review_weather import weather_workings
from lawnbook.plan.zone_facts import Setting, facts_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT

MOST_INPUTS = 12
"""So many parts of a sum are listed; the rest are summed up in one line."""


def water_workings(setting: Setting, water: WaterReview, span: ReviewSpan) -> Iterator[Working]:
    """Gallons of each zone and of all, the depth over the lawn, weather, plan and old habit."""
    for zone in water.zones:
        if zone.now.waterings:
            yield _zone_water(setting, zone, span)
    yield _sum(
        "water_gallons",
        tr("Water put down"),
        told(water.now.gallons, 0, "gal"),
        [(each.zone, each.now.gallons) for each in water.zones if each.now.waterings],
        "gal",
    )
    yield _depth(water)
    yield from weather_workings(setting, water.weather, span)
    for figure, label, against in (
        ("water_plan", tr("Beside the plan"), water.plan),
        ("water_habit", tr("Beside the old habit"), water.habit),
    ):
        if against is not None:
            yield _against(figure, label, against)


def nitrogen_workings(nitrogen: NitrogenReview, span: ReviewSpan) -> Iterator[Working]:
    """Nitrogen of each zone by its months, the mean of the lawn, and its quick part."""
    for zone in nitrogen.zones:
        yield _zone_nitrogen(zone, span)
    if not nitrogen.zones:
        return
    area = sum(each.area_sqft for each in nitrogen.zones)
    yield _mean("nitrogen_lawn", tr("Nitrogen, mean of the lawn"), nitrogen, area)
    now = nitrogen.now
    if now.quick_share is not None:
        formula = "100 × {quick} ÷ {all}"
        inputs = (
            rated("quick", tr("Quick"), now.quick_lb, tr("mean of the lawn, by the labels")),
            rated("all", tr("All"), now.applied_lb, tr("mean of the lawn, feedings recorded")),
        )
        yield Working(
            "nitrogen_quick",
            tr("Quick part of the nitrogen"),
            told(100 * now.quick_share, 0, "%"),
            tr("100 × quick ÷ all"),
            put_in(formula, inputs),
            inputs,
            sources("uc-ipm"),
            reckons(formula, "%", 0),
        )


def thatch_workings(spots: Sequence[SpotReview]) -> Iterator[Working]:
    """The workings of then and now of each spot, each named by its spot."""
    for spot in spots:
        for each in spot.pair.workings if spot.pair is not None else ():
            yield replace(
                each, figure=f"{each.figure}:{spot.spot_id}", label=f"{spot.spot}: {each.label}"
            )


def cost_workings(setting: Setting, cost: CostReview) -> Iterator[Working]:
    """The sum of what has a price."""
    if cost.total is None:
        return
    parts = [(each.name, each.amount) for each in cost.items if each.amount is not None]
    made = _sum("cost_total", tr("Cost of what has a price"), told(cost.total), parts, "")
    price = setting.notebook.yard.water_price_per_kgal
    priced = () if price is None else (given(tr("Price of 1,000 gal"), told(price), tr("entered")),)
    how = tr("water: gallons ÷ 1,000 × price; product: pounds ÷ bag × price; care: as entered")
    yield replace(made, formula=f"{made.formula} ({how})", inputs=(*made.inputs, *priced))


def _zone_water(setting: Setting, zone: ZoneWatered, span: ReviewSpan) -> Working:
    facts = facts_of(setting, setting.notebook.zones[zone.zone_id], zone.number)
    rate = facts.rate.in_per_h
    origin = tr(
        "{waterings} waterings, {span_told}; minutes × rate, or as caught",
        waterings=zone.now.waterings,
        span_told=span_told(span),
    )
    inputs: list[Input] = [
        numbered(
            given(tr("Depth, gross"), told(zone.now.depth_in, 2, "in"), origin),
            "depth",
            zone.now.depth_in,
            "in",
        ),
        area_input(zone.area_sqft, len(facts.zone.outline_ft)),
    ]
    formula = "{depth} × {area:0} × " + GALLONS_OF_AN_INCH
    if rate is not None:
        inputs.append(given(tr("Rate"), told(rate, 2, "in/h"), facts.rate.origin))
    return Working(
        f"water:{zone.zone_id}",
        tr("{zone}: water put down", zone=zone.zone),
        told(zone.now.gallons, 0, "gal"),
        tr("gross depth × area × 0.6234"),
        put_in(formula, inputs),
        tuple(inputs),
        sources("rate-constant"),
        reckons(exact_gallons(formula), "gal", 0),
    )


def _depth(water: WaterReview) -> Working:
    area, gallons = water.area_sqft, water.now.gallons
    over = given(tr("Area"), told(area, 0, "sq ft"), tr("outlines of all zones, watered or not"))
    inputs = (
        _gallons("gallons", tr("Gallons"), gallons, tr("all zones, waterings on record")),
        numbered(over, "area", area, "sq ft"),
    )
    formula = "{gallons:0} ÷ ({area:0} × " + GALLONS_OF_AN_INCH + ")"
    return Working(
        "water_depth",
        tr("Water over the lawn"),
        told(water.now.depth_in, 1, "in"),
        tr("gallons ÷ (area × 0.6234)"),
        put_in(formula, inputs),
        inputs,
        sources("rate-constant"),
        reckons(exact_gallons(formula), "in", 1),
    )


def _gallons(symbol: str, name: str, gallons: float, origin: str) -> Input:
    return numbered(given(name, told(gallons, 0, "gal"), origin), symbol, gallons, "gal")


def _against(figure: str, label: str, against: Against) -> Working:
    by_day = tr("day by day with the weather of these days, roots and sprinklers as known now")
    formula = "{would:0} − {put:0}"
    inputs = (
        _gallons("would", tr("Would have been"), against.would_gallons, by_day),
        _gallons("put", tr("Put down"), against.put_down_gallons, tr("waterings on record")),
        given(tr("Zones"), ", ".join(against.zones), tr("in which both are known")),
    )
    return Working(
        figure,
        label,
        tr("{gallons} less put down", gallons=told(against.less_gallons, 0, "gal")),
        tr("would have been − put down"),
        put_in(formula, inputs),
        inputs,
        sources("fao56"),
        reckons(formula, "gal", 0),
    )


def _zone_nitrogen(zone: ZoneFed, span: ReviewSpan) -> Working:
    parts = [
        (month_in_full(month), zone.now.by_month[month - 1])
        for month in span.order
        if zone.now.by_month[month - 1]
    ]
    made = _sum(
        f"nitrogen:{zone.zone_id}",
        tr("{zone}: nitrogen", zone=zone.zone),
        rate_told(zone.now.applied_lb),
        parts,
        "lb per 1,000 sq ft",
    )
    return replace(made, source=sources("n-arithmetic"))


def _mean(figure: str, label: str, nitrogen: NitrogenReview, area: float) -> Working:
    weighed = [(z.zone, z.now.applied_lb * z.area_sqft / 1000) for z in nitrogen.zones]
    pounds = sum(each for _, each in weighed)
    parts = _listed(weighed, "lb", tr("the zone's rate × area ÷ 1,000"))
    whole = given(tr("Area"), told(area, 0, "sq ft"), tr("the zones' outlines"))
    inputs = (*parts, numbered(whole, "area", area, "sq ft"))
    return Working(
        figure,
        label,
        rate_told(nitrogen.now.applied_lb),
        tr("pounds of nitrogen on all zones × 1,000 ÷ area of the lawn"),
        f"{told_exactly(pounds)} × 1,000 ÷ {told_exactly(area, 0)}",
        inputs,
        sources("n-arithmetic"),
        reckons(tr("({sum_of}) × 1,000 ÷ {{area}}", sum_of=sum_of(parts)), RATE_UNIT),
    )


def _sum(
    figure: str, label: str, value: str, parts: Sequence[tuple[str, float]], unit: str
) -> Working:
    listed = _listed(parts, unit, tr("on record"))
    places = 0 if unit == "gal" else 2
    formula = sum_of(listed).replace("}", f":{places}}}")
    return Working(
        figure,
        label,
        value,
        tr("sum of the parts"),
        put_in(formula, listed),
        listed,
        sources(),
        reckons(formula, unit, places),
    )


def _listed(parts: Sequence[tuple[str, float]], unit: str, origin: str) -> tuple[Input, ...]:
    """The parts of a sum; past so many the rest in one line."""
    shown = [(name, each, origin) for name, each in parts[:MOST_INPUTS]]
    rest = parts[MOST_INPUTS:]
    if rest:
        shown.append(
            (tr("{count} more", count=len(rest)), sum(each for _, each in rest), "together")
        )
    places = 0 if unit == "gal" else 2
    return tuple(
        numbered(given(name, told(each, places, unit), whence), f"p{number}", each, unit)
        for number, (name, each, whence) in enumerate(shown)
    )
