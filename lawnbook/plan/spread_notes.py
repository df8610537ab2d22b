"""Sentences on the day of a spread: rain ahead, drought, new turf, seed, and what is not known.

None of them binds: what binds is a rule with a figure. Each says what to do and why.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.turf import LEAST_GROWTH
from lawnbook.agronomy.units import LB_PER_GAL_PER_KG_PER_L
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_ground import Ground, grounds_of
from lawnbook.plan.feed_ledger import carries_nitrogen
from lawnbook.plan.season import month_in_full, within
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.spread_water import WATERING_IN_IN
from lawnbook.plan.strips import strips_along
from lawnbook.plan.workings import sources, told
from lawnbook.reading import is_metric, tr
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Grass, Product, Zone

WASHES_OFF_IN = 0.5
"""More rain than this in the days after may wash a product off (source "rain-ahead")."""

SLOW_GROWTH = 0.25
"""Growth potential under which little nitrogen is used at a time (common practice)."""

BESIDE_WATER_FT = 10.0
"""Turf as near to water as this is asked about where no strip is entered (common practice)."""


def spread_notes(
    notebook: Notebook,
    zones: Sequence[Zone],
    product: Product,
    on: date,
    conditions: Conditions,
) -> tuple[str, ...]:
    """The notes on spreading a product on some zones on a day, those of the weather first."""
    known = as_of(notebook, on)
    grounds = grounds_of(known, on)
    fed = [(zone.name, grounds[zone.id]) for zone in zones]
    growth = (*_drought(known, on), *_growth(zones, grounds, on))
    return (
        *_rain(product, conditions),
        *_waterside(known, zones),
        *(growth if carries_nitrogen(product) else ()),
        *_new_turf(fed, on),
        *_no_seed(known, zones, product, on),
        *_liquid(product),
    )


def _rain(product: Product, conditions: Conditions) -> Iterator[str]:
    rain = conditions.rain_in
    if rain is None or rain == 0:
        return
    fallen = told(rain, 2, "in")
    if rain > WASHES_OFF_IN:
        yield (
            tr(
                "{fallen} of rain is expected, more than {washes_off_in}: do not spread before "
                "it, for it may wash the product off [{sources}].",
                fallen=fallen,
                washes_off_in=told(WASHES_OFF_IN, 2, "in"),
                sources=sources("rain-ahead"),
            )
        )
    elif product.form == "liquid":
        yield (
            tr(
                "{fallen} of rain is expected: a liquid that is to dry on the leaf is sprayed "
                "after it; the label says.",
                fallen=fallen,
            )
        )
    elif rain >= WATERING_IN_IN:
        yield tr(
            "{fallen} of gentle rain within a day waters it in: leave the sprinklers off.",
            fallen=fallen,
        )
    else:
        rest = told(WATERING_IN_IN - rain, 2, "in")
        yield tr(
            "{fallen} of rain is too little to water it in: give the other {rest}.",
            fallen=fallen,
            rest=rest,
        )


def _waterside(notebook: Notebook, zones: Sequence[Zone]) -> Iterator[str]:
    """That a zone lies beside water drawn on the sketch, and nobody said how wide a strip is."""
    if notebook.n_rules.waterside_ft is not None:
        return
    waters = [
        each
        for each in notebook.features.values()
        if each.kind == "water" and each.no_spread_ft is None
    ]
    near = replace(notebook.n_rules, waterside_ft=BESIDE_WATER_FT)
    names = [zone.name for zone in zones if strips_along(waters, near, zone).names]
    if names:
        yield (
            tr(
                "{names_told}: water lies within {beside_water_ft}, and no strip is left out "
                "beside it. Enter its width under Rules, by the label and local rules, and the "
                "strip is taken out of the area.",
                names_told=names_told(names),
                beside_water_ft=told(BESIDE_WATER_FT, 0, "ft"),
            )
        )


def _drought(notebook: Notebook, on: date) -> Iterator[str]:
    drought, season = notebook.yard.drought, notebook.yard.irrigation_season
    if drought == "less":
        yield (
            tr(
                "Dry year: grass that gets less water grows less and uses less nitrogen. Put "
                "down less than the most that passes, and only where it can be watered in."
            )
        )
    elif drought == "survival" and (season is None or within(season, on)):
        yield (
            tr(
                "The lawn is let go dormant: it takes up nothing, and what is put down lies "
                "there until rain washes it away."
            )
        )


def _growth(zones: Sequence[Zone], grounds: Mapping[str, Ground], on: date) -> Iterator[str]:
    """That growth is slow in the month, or not known, each once for all zones of a grass."""
    month = month_in_full(on.month)
    by_grass: dict[Grass, list[Zone]] = {}
    for zone in zones:
        by_grass.setdefault(zone.grass, []).append(zone)
    for grass, alike in by_grass.items():
        ground = grounds[alike[0].id]
        growth, tmean_f = ground.growth[on.month - 1], ground.tmean_f[on.month - 1]
        if growth is None or tmean_f is None:
            yield (
                tr(
                    "No temperature is known for {month}: whether the grass grows then is not "
                    "checked. Enter the month's mean under Yard, or take in weather.",
                    month=month,
                )
            )
            return
        if LEAST_GROWTH <= growth < SLOW_GROWTH:
            yield (
                tr(
                    "{names_told}: {grass}-season grass grows at {growth} of its best in {month} "
                    "(mean {tmean_f}), so it uses little nitrogen at a time.",
                    names_told=names_told([zone.name for zone in alike]),
                    grass=tr(grass),
                    growth=told(100 * growth, 0, "%"),
                    month=month,
                    tmean_f=told(tmean_f, 0, "°F"),
                )
            )


def _new_turf(fed: Sequence[tuple[str, Ground]], on: date) -> Iterator[str]:
    for name, ground in fed:
        new = ground.new_turf_on(on)
        if new is not None:
            yield (
                tr(
                    "{name}: {how} of {since} is still rooting, until about {until}. Feet and "
                    "wheels pull it up: spread by hand, or wait.",
                    name=name,
                    how=tr(new.how),
                    since=day(new.since),
                    until=day(new.until),
                )
            )


def _no_seed(
    notebook: Notebook, zones: Sequence[Zone], product: Product, on: date
) -> Iterator[str]:
    """That a pre-emergent still keeps seed from coming up where a starter is to be spread."""
    if not product.starter:
        return
    for care in notebook.care.values():
        until = care.no_seed_until
        names = [each.name for each in zones if not care.zones or each.id in care.zones]
        if until is not None and until > on and names:
            yield (
                tr(
                    "{names_told}: no seed before {until}, by the label of what was put down on "
                    "{date}. A starter is for seed: sown sooner it does not come up.",
                    names_told=names_told(names),
                    until=day(until),
                    date=day(care.date),
                )
            )


def _liquid(product: Product) -> Iterator[str]:
    if product.form != "liquid":
        return
    if product.density_lb_per_gal is None:
        water = told(1.0, 3, "kg") if is_metric() else told(LB_PER_GAL_PER_KG_PER_L, 3, "lb")
        volume = tr("litre") if is_metric() else tr("gallon")
        yield (
            tr(
                "{name} is a liquid without a density: enter the weight of a {volume} from its "
                "label (water is {water}), so that jugs and tanks can be told.",
                name=product.name,
                volume=volume,
                water=water,
            )
        )
    yield tr("Whether a liquid is to dry on the leaf or to be watered in at once, its label says.")
