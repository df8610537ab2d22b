"""What to buy for a spread: whole bags or jugs, what they cost, and what is left over."""

from typing import Literal

from lawnbook.agronomy.checks import ceil_count
from lawnbook.plan.feed_model import Shopping
from lawnbook.plan.workings import counted, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.records import Product


def shopping_of(product: Product, pounds: float) -> Shopping | None:
    """The packages that hold so many pounds of a product, as if none stood on the shelf.

    A liquid is bought by the jug where its density is known, or else by the weight of its
    package. None where no package is known, or where nothing is needed.
    """
    if pounds <= 0:
        return None
    density = product.density_lb_per_gal
    if product.form == "liquid" and product.jug_gal is not None and density is not None:
        return _bought(product, "jug", product.jug_gal, pounds / density)
    if product.bag_lb is not None:
        return _bought(product, "bag", product.bag_lb, pounds)
    return None


def packages_of(product: Product, pounds: float) -> float | None:
    """How many of those packages so many pounds are, in parts; None where `shopping_of` is."""
    bought = shopping_of(product, pounds)
    return None if bought is None else bought.needed / bought.size


def _bought(
    product: Product, package: Literal["bag", "jug"], size: float, needed: float
) -> Shopping:
    unit: Literal["lb", "gal"] = "lb" if package == "bag" else "gal"
    count = max(1, ceil_count(needed / size))
    left_over = max(0.0, count * size - needed)
    cost = None if product.price is None else count * product.price
    costs = "" if cost is None else tr(" for {cost}", cost=told(cost))
    return Shopping(
        count=count,
        package=package,
        size=size,
        unit=unit,
        needed=needed,
        left_over=left_over,
        cost=cost,
        words=tr(
            "To buy, if you have none: {counted} of {trimmed}{costs}, of which {left} is "
            "left over.",
            counted=counted(count, package),
            trimmed=trimmed(size, 2, unit),
            costs=costs,
            left=_left(left_over, unit),
        ),
    )


def _left(value: float, unit: str) -> str:
    places = 1 if unit == "lb" else 2
    return told(value, places, unit) if round(value, places) else "nothing"
