"""The usual cautions. They defer to the label, to local rules and to licensed practice."""

from collections.abc import Iterator
from datetime import date

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.plan.feed_ledger import carries_nitrogen
from lawnbook.plan.workings import counted
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product

LABEL = "Read the product label first: where it says less than this plan, the label holds."
LOCAL_FEEDING = (
    "Local fertilizer law may forbid dates, places or amounts: check it before spreading."
)
WATERSIDE = (
    "Keep granules off paving and out of water; sweep back what lands there, and leave a strip "
    "beside ponds, streams and drains."
)
CHILDREN_PETS = "Keep children and pets off until the product is watered in and the grass is dry."
PROTECT = "Wear the gloves and eye protection that the label names; store the rest dry and locked."
RAIN = "Do not spread before heavy rain, on frozen or on drought-stressed grass."
LOCAL_WATER = "Local watering rules and drought orders come before this plan."
BACKFLOW = (
    "Backflow preventers, mains and wiring are work for a licensed person; have the preventer "
    "tested as your code asks."
)
DIGGING = (
    "Before digging deeper than a hand tool's plug, have buried lines marked (call 811 in the "
    "United States); mark sprinkler pipe and wire yourself."
)


def plan_cautions(notebook: Notebook) -> tuple[str, ...]:
    """The cautions beside a whole plan."""
    watered = any(zone.irrigated for zone in notebook.zones.values())
    water = (LOCAL_WATER, BACKFLOW) if watered else ()
    return (LABEL, LOCAL_FEEDING, WATERSIDE, CHILDREN_PETS, *water, DIGGING)


def spread_cautions(notebook: Notebook, product: Product, on: date) -> tuple[str, ...]:
    """The cautions before spreading a product on a day."""
    return (
        *_of_the_notebook(notebook, product, on),
        LABEL,
        LOCAL_FEEDING,
        WATERSIDE,
        CHILDREN_PETS,
        PROTECT,
        RAIN,
    )


def _of_the_notebook(notebook: Notebook, product: Product, on: date) -> Iterator[str]:
    later = [each.date for each in notebook.feedings.values() if each.date > on]
    end = n_year(on, notebook.yard.latitude_deg or 0.0).end
    counted_later = [each for each in later if each <= end]
    if counted_later:
        is_not = "is not" if len(counted_later) == 1 else "are not"
        yield (
            f"{counted(len(counted_later), 'feeding')} of the same year, recorded after {day(on)}, "
            f"{is_not} counted here."
        )
    if product.p2o5_pct > 0:
        yield (
            f"{product.name} carries phosphate: many places allow it only where a soil test asks "
            "for it."
        )
    if not carries_nitrogen(product):
        yield f"{product.name} carries no nitrogen; its rate is the label's alone."
    strips = [each for each in notebook.features.values() if each.no_spread_ft]
    for feature in strips:
        name = feature.name or feature.kind
        yield f"Leave {feature.no_spread_ft:g} ft beside the {name} unfed."
