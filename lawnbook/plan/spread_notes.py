"""Sentences on the day of a spread: rain ahead, drought, new turf, seed, and what is not known.

None of them binds: what binds is a rule with a figure. Each says what to do and why.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.agronomy.turf import growth_potential
from lawnbook.agronomy.units import LB_PER_GAL_WATER_PER_MG_PER_L
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_ledger import carries_nitrogen
from lawnbook.plan.rooting import rooting_of
from lawnbook.plan.season import month_in_full, within
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.spread_water import WATERING_IN_IN
from lawnbook.plan.workings import sources, told
from lawnbook.plan.zone_facts import Setting, facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product, Zone

WASHES_OFF_IN = 0.5
"""More rain than this in the days after may wash a product off (source "rain-ahead")."""

SLOW_GROWTH = (0.10, 0.25)
"""Growth potential between which little nitrogen is used at a time (common practice).

Below the first the rules let nothing be spread.
"""


def spread_notes(
    notebook: Notebook,
    zones: Sequence[Zone],
    product: Product,
    on: date,
    conditions: Conditions,
) -> tuple[str, ...]:
    """The notes on spreading a product on some zones on a day, those of the weather first."""
    setting = setting_of(as_of(notebook, on), on)
    return (
        *_rain(product, conditions),
        *_drought(setting, product),
        *_growth(setting, zones, product),
        *_new_turf(setting, zones),
        *_no_seed(setting, zones, product),
        *_liquid(product),
    )


def _rain(product: Product, conditions: Conditions) -> Iterator[str]:
    rain = conditions.rain_in
    if rain is None or rain == 0:
        return
    fallen = told(rain, 2, "in")
    if rain > WASHES_OFF_IN:
        yield (
            f"{fallen} of rain is expected, more than {told(WASHES_OFF_IN, 2, 'in')}: do not "
            f"spread before it, for it may wash the product off [{sources('rain-ahead')}]."
        )
    elif product.form == "liquid":
        yield (
            f"{fallen} of rain is expected: a liquid that is to dry on the leaf is sprayed after "
            "it; the label says."
        )
    elif rain >= WATERING_IN_IN:
        yield f"{fallen} of gentle rain within a day waters it in: leave the sprinklers off."
    else:
        rest = told(WATERING_IN_IN - rain, 2, "in")
        yield f"{fallen} of rain is too little to water it in: give the other {rest}."


def _drought(setting: Setting, product: Product) -> Iterator[str]:
    drought, season = setting.notebook.yard.drought, setting.season
    if drought == "off" or not carries_nitrogen(product):
        return
    if drought == "less":
        yield (
            "Dry year: grass that gets less water grows less and uses less nitrogen. Put down less "
            "than the most that passes, and only where it can be watered in."
        )
    elif season is None or within(season, setting.on):
        yield (
            "The lawn is let go dormant: it takes up nothing, and what is put down lies there "
            "until rain washes it away."
        )


def _growth(setting: Setting, zones: Sequence[Zone], product: Product) -> Iterator[str]:
    """That growth is slow in the month, or not known."""
    if not carries_nitrogen(product):
        return
    month, tmean_f = setting.on.month, setting.weather.month(setting.on.month).tmean_f
    if tmean_f is None:
        yield (
            f"No temperature is known for {month_in_full(month)}: whether the grass grows then is "
            "not checked. Enter the month's mean under Yard, or take in weather."
        )
        return
    by_grass: dict[str, list[str]] = {}
    for zone in zones:
        by_grass.setdefault(zone.grass, []).append(zone.name)
    for grass, names in by_grass.items():
        potential = growth_potential(tmean_f, grass)
        if SLOW_GROWTH[0] <= potential < SLOW_GROWTH[1]:
            yield (
                f"{names_told(names)}: {grass}-season grass grows at "
                f"{told(100 * potential, 0, '%')} of its best in {month_in_full(month)} (mean "
                f"{tmean_f:.0f} °F), so it uses little nitrogen at a time."
            )


def _new_turf(setting: Setting, zones: Sequence[Zone]) -> Iterator[str]:
    for zone in zones:
        rooting = (
            None if zone.established is None else rooting_of(setting, facts_of(setting, zone, 1))
        )
        if rooting is not None:
            yield (
                f"{zone.name}: {rooting.how} of {day(rooting.since)} is still rooting, until about "
                f"{day(rooting.until)}. Feet and wheels pull it up: spread by hand, or wait."
            )


def _no_seed(setting: Setting, zones: Sequence[Zone], product: Product) -> Iterator[str]:
    """That a pre-emergent still keeps seed from coming up where a starter is to be spread."""
    if not product.starter:
        return
    for care in setting.notebook.care.values():
        until = care.no_seed_until
        names = [each.name for each in zones if not care.zones or each.id in care.zones]
        if until is not None and until > setting.on and names:
            yield (
                f"{names_told(names)}: no seed before {day(until)}, by the label of what was put "
                f"down on {day(care.date)}. A starter is for seed: sown sooner it does not come up."
            )


def _liquid(product: Product) -> Iterator[str]:
    if product.form != "liquid":
        return
    if product.density_lb_per_gal is None:
        water = told(1e6 * LB_PER_GAL_WATER_PER_MG_PER_L, 3, "lb")
        yield (
            f"{product.name} is a liquid without a density: enter the weight of a gallon from its "
            f"label (water is {water}), so that jugs and tanks can be told."
        )
    yield "Whether a liquid is to dry on the leaf or to be watered in at once, its label says."
