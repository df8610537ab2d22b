"""What a spread is as it is typed, and how its amount is counted: rate, weight or volume."""

from collections.abc import Mapping
from datetime import date

from lawnbook.desk.telling import either
from lawnbook.frozen import dataclass
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product

BY_POUNDS, BY_RATE, BY_FL_OZ, BY_GALLONS = "pounds", "rate", "fl_oz", "gallons"
MODES = (BY_RATE, BY_POUNDS)
LIQUID_MODES = (*MODES, BY_FL_OZ, BY_GALLONS)
MODE_WORDS = {
    BY_RATE: ("lb N per 1,000 sq ft", "g N/m²"),
    BY_POUNDS: (tr("lb of product in all"), tr("kg of product in all")),
    BY_FL_OZ: ("fl oz per 1,000 sq ft", tr("mL per 100 m²")),
    BY_GALLONS: (tr("gallons of product in all"), tr("litres of product in all")),
}


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is about to be spread, on which zones and with what.

    `areas` holds the square feet treated where they are given; the others are treated as usual.
    """

    product_id: str
    on: date
    zone_ids: tuple[str, ...]
    pounds: Mapping[str, float]
    areas: Mapping[str, float]
    conditions: Conditions
    setting: str


def unit_of(mode: str) -> str:
    """The US unit of an amount that is counted so."""
    by_volume = either("fl oz", "fl oz per 1,000 sq ft")
    units = {BY_RATE: RATE_UNIT, BY_POUNDS: "lb", BY_FL_OZ: by_volume, BY_GALLONS: "gal"}
    return units[mode]


def mode_words(mode: str) -> str:
    """How an amount is counted, in words."""
    us, metric = MODE_WORDS[mode]
    return either(tr(us), tr(metric))


def density_of(product: Product) -> float:
    """Pounds in a gallon of a product; OwnerError where nobody has entered them."""
    if product.density_lb_per_gal is None:
        us = tr("enter the pounds in a gallon, by label or scales, on the shelf "
                "(water is 8.345).")  # fmt: skip
        metric = tr("enter the kilograms in a litre, by label or scales, on the shelf "
                    "(water is 1).")  # fmt: skip
        raise OwnerError(
            tr(
                "How much: a volume of {name} cannot be weighed without its density; {either}",
                name=product.name,
                either=either(us, metric),
            )
        )
    return product.density_lb_per_gal
