"""Sentences on the day of a spread: rain ahead, drought, new turf, seed, and what is not known.

None of them binds: what binds is a rule with a figure. Each says what to do and why.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.spread_water import WATERING_IN_IN
from lawnbook.plan.workings import sources, told
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Product, Zone

WASHES_OFF_IN = 0.5
"""More rain than this in the days after may wash a product off (source "rain-ahead")."""


def spread_notes(
    notebook: Notebook,
    zones: Sequence[Zone],
    product: Product,
    on: date,
    conditions: Conditions,
) -> tuple[str, ...]:
    """The notes on spreading a product on some zones on a day, those of the weather first."""
    return (*_rain(product, conditions),)


def _rain(product: Product, conditions: Conditions) -> Iterator[str]:
    rain = conditions.rain_in
    if rain is None or rain == 0:
        return
    fallen = told(rain, 2, "in")
    if rain > WASHES_OFF_IN:
        yield (
            f"{fallen} of rain is expected, more than {told(WASHES_OFF_IN, 2, 'in')}: do not "
            f"spread before it, for it may wash the product off ({sources('rain-ahead')})."
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
