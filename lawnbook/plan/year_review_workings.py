"""How the sums of a year in review came about: each with its parts, and where they are from."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

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
    Weathered,
    ZoneFed,
    ZoneWatered,
)
from lawnbook.plan.year_review_span import span_told
from lawnbook.plan.zone_facts import Setting, facts_of

MOST_INPUTS = 12
"""So many parts of a sum are listed; the rest are summed up in one line."""


def water_workings(setting: Setting, water: WaterReview, span: ReviewSpan) -> Iterator[Working]:
    """Gallons of each zone and of all, the depth over the lawn, weather, plan and old habit."""
    for zone in water.zones:
        if zone.now.waterings:
            yield _zone_water(setting, zone, span)
    yield _sum(
        "water_gallons",
        "Water put down",
        told(water.now.gallons, 0, "gal"),
        [(each.zone, each.now.gallons) for each in water.zones if each.now.waterings],
        "gal",
    )
    yield _depth(water)
    yield from _weather_workings(water.weather, span)
    for figure, label, against in (
        ("water_plan", "Beside the plan", water.plan),
        ("water_habit", "Beside the old habit", water.habit),
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
    yield _mean("nitrogen_lawn", "Nitrogen, mean of the lawn", nitrogen, area)
    now = nitrogen.now
    if now.quick_share is not None:
        yield Working(
            "nitrogen_quick",
            "Quick part of the nitrogen",
            told(100 * now.quick_share, 0, "%"),
            "100 × quick ÷ all",
            f"100 × {told_exactly(now.quick_lb)} ÷ {told_exactly(now.applied_lb)}",
            (
                given("Quick", rate_told(now.quick_lb), "mean of the lawn, by the labels"),
                given("All", rate_told(now.applied_lb), "mean of the lawn"),
            ),
            sources("uc-ipm"),
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
    made = _sum("cost_total", "Cost of what has a price", told(cost.total), parts, "")
    price = setting.notebook.yard.water_price_per_kgal
    priced = () if price is None else (given("Price of 1,000 gal", told(price), "entered"),)
    how = "water: gallons ÷ 1,000 × price; product: pounds ÷ bag × price; care: as entered"
    yield replace(made, formula=f"{made.formula} ({how})", inputs=(*made.inputs, *priced))


def _zone_water(setting: Setting, zone: ZoneWatered, span: ReviewSpan) -> Working:
    facts = facts_of(setting, setting.notebook.zones[zone.zone_id], zone.number)
    rate = facts.rate.in_per_h
    origin = f"{zone.now.waterings} waterings, {span_told(span)}; minutes × rate, or as caught"
    inputs: list[Input] = [
        given("Depth, gross", told(zone.now.depth_in, 2, "in"), origin),
        given("Area", told(zone.area_sqft, 0, "sq ft"), "the zone's outline"),
    ]
    if rate is not None:
        inputs.append(given("Rate", told(rate, 2, "in/h"), facts.rate.origin))
    return Working(
        f"water:{zone.zone_id}",
        f"{zone.zone}: water put down",
        told(zone.now.gallons, 0, "gal"),
        "gross depth × area × 0.6234",
        f"{told_exactly(zone.now.depth_in)} × {told_exactly(zone.area_sqft, 0)} × 0.6234",
        tuple(inputs),
        sources(),
    )


def _depth(water: WaterReview) -> Working:
    return Working(
        "water_depth",
        "Water over the lawn",
        told(water.now.depth_in, 1, "in"),
        "gallons ÷ (area × 0.6234)",
        f"{told_exactly(water.now.gallons, 0)} ÷ ({told_exactly(water.area_sqft, 0)} × 0.6234)",
        (
            given("Gallons", told(water.now.gallons, 0, "gal"), "all zones"),
            given("Area", told(water.area_sqft, 0, "sq ft"), "all zones, watered or not"),
        ),
        sources(),
    )


def _weather_workings(weather: Weathered, span: ReviewSpan) -> Iterator[Working]:
    days = f"{span.days} days"
    if weather.rain_in is not None:
        yield Working(
            "rain",
            "Rain",
            told(weather.rain_in, 1, "in"),
            "sum of the days on record",
            "",
            (given("Days read", str(weather.rain_days), f"of {days}; your gauge goes first"),),
            sources(),
        )
    if weather.etc_in is not None:
        filled = f"of {days}, for want of weather"
        yield Working(
            "etc",
            "The grass's full use (ETc)",
            told(weather.etc_in, 1, "in"),
            "sum of each day's ETo × Kc × microclimate, mean of the zones by area",
            "",
            (given("Days by their month's mean", str(weather.filled_days), filled),),
            sources("fao56"),
        )


def _against(figure: str, label: str, against: Against) -> Working:
    return Working(
        figure,
        label,
        told(against.less_gallons, 0, "gal less put down"),
        "would have been − put down",
        f"{told_exactly(against.would_gallons, 0)} − {told_exactly(against.put_down_gallons, 0)}",
        (
            given(
                "Would have been",
                told(against.would_gallons, 0, "gal"),
                "day by day with the weather of these days, roots and sprinklers as known now",
            ),
            given("Put down", told(against.put_down_gallons, 0, "gal"), "waterings on record"),
            given("Zones", ", ".join(against.zones), "in which both are known"),
        ),
        sources("fao56"),
    )


def _zone_nitrogen(zone: ZoneFed, span: ReviewSpan) -> Working:
    parts = [
        (month_in_full(month), zone.now.by_month[month - 1])
        for month in span.order
        if zone.now.by_month[month - 1]
    ]
    made = _sum(
        f"nitrogen:{zone.zone_id}",
        f"{zone.zone}: nitrogen",
        rate_told(zone.now.applied_lb),
        parts,
        "lb per 1,000 sq ft",
    )
    return replace(made, source=sources("n-arithmetic"))


def _mean(figure: str, label: str, nitrogen: NitrogenReview, area: float) -> Working:
    weighed = [(z.zone, z.now.applied_lb * z.area_sqft / 1000) for z in nitrogen.zones]
    pounds = sum(each for _, each in weighed)
    return Working(
        figure,
        label,
        rate_told(nitrogen.now.applied_lb),
        "pounds of nitrogen on all zones × 1,000 ÷ area of the lawn",
        f"{told_exactly(pounds)} × 1,000 ÷ {told_exactly(area, 0)}",
        (
            *_listed(weighed, "lb", "the zone's rate × area ÷ 1,000"),
            given("Area", told(area, 0, "sq ft"), "the zones' outlines"),
        ),
        sources("n-arithmetic"),
    )


def _sum(
    figure: str, label: str, value: str, parts: Sequence[tuple[str, float]], unit: str
) -> Working:
    places = 0 if unit == "gal" else 2
    filled = " + ".join(told(each, places) for _, each in parts[:MOST_INPUTS])
    if len(parts) > MOST_INPUTS:
        filled += f" + {told(sum(each for _, each in parts[MOST_INPUTS:]), places)}"
    return Working(
        figure,
        label,
        value,
        "sum of the parts",
        filled,
        _listed(parts, unit, "on record"),
        sources(),
    )


def _listed(parts: Sequence[tuple[str, float]], unit: str, origin: str) -> tuple[Input, ...]:
    """The parts of a sum; past so many the rest in one line."""
    places = 0 if unit == "gal" else 2
    listed = [given(name, told(each, places, unit), origin) for name, each in parts[:MOST_INPUTS]]
    rest = parts[MOST_INPUTS:]
    if rest:
        whole = told(sum(each for _, each in rest), places, unit)
        listed.append(given(f"{len(rest)} more", whole, "together"))
    return tuple(listed)
