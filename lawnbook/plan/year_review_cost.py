"""What a year cost: water by its price, products by the pounds used, care by what was entered.

A product costs its pounds ÷ bag × price, or a liquid its gallons ÷ jug × price: the part that was
used, not what was bought. What has no price is named and in no total.
"""

from collections.abc import Iterable, Iterator, Sequence

from lawnbook.plan.care_marks import care_kind
from lawnbook.plan.month_water import cost_of
from lawnbook.plan.spread_shopping import packages_of
from lawnbook.plan.workings import counted, told
from lawnbook.plan.year_review_model import (
    CostItem,
    CostReview,
    ReviewSpan,
    Watered,
    WaterReview,
)
from lawnbook.plan.year_review_span import of_each_year
from lawnbook.plan.year_review_water import Spans
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care, Product
from lawnbook.yard.shape_records import sentence_case

NO_WATER_PRICE = tr("no price of water is entered")
NO_PRICE = tr("no price is entered")
NO_PACKAGE = tr("the size of its package is not known")
NO_COST = tr("no cost is entered")
NOT_COUNTED = "waterings not counted"


def cost_review(setting: Setting, water: WaterReview, spans: Spans) -> CostReview:
    """Every cost of the year and of the year before: water, products, care."""
    notebook = setting.notebook
    items = (
        *_water(setting, water, spans),
        *_products(notebook, spans),
        *_care(notebook, spans),
    )
    return CostReview(
        items=items,
        total=total_of([each.amount for each in items]),
        total_before=total_of([each.amount_before for each in items]),
        unpriced=tuple(f"{each.name}: {each.unpriced}" for each in items if each.unpriced),
    )


def total_of(amounts: Iterable[float | None]) -> float | None:
    """The sum of the amounts that are known; None where none is."""
    known = [each for each in amounts if each is not None]
    return sum(known) if known else None


def product_cost(product: Product, pounds: float) -> float | None:
    """What so many pounds of a product cost; None without a price or the size of its package."""
    share = packages_of(product, pounds)
    return None if share is None or product.price is None else share * product.price


def pounds_in(notebook: Notebook, product_id: str, span: ReviewSpan) -> float:
    """Pounds of a product that went on all zones in the days of a span."""
    return sum(
        sum(each.pounds.values())
        for each in notebook.feedings.values()
        if each.product == product_id and span.holds(each.date)
    )


def _water(setting: Setting, water: WaterReview, spans: Spans) -> Iterator[CostItem]:
    if not water.now.waterings and not water.before.waterings:
        return
    untold = of_each_year((water.now.untold, water.before.untold), spans)
    missing = f"{NOT_COUNTED}: {untold}" if untold else ""
    if setting.notebook.yard.water_price_per_kgal is None:
        missing = NO_WATER_PRICE
    yield CostItem(
        kind="water",
        name=tr("Water"),
        amount=_water_cost(setting, water.now),
        amount_before=_water_cost(setting, water.before),
        used=_gallons(water.now),
        used_before=_gallons(water.before),
        unpriced=missing,
    )


def _water_cost(setting: Setting, water: Watered) -> float | None:
    """None where nothing was watered, or where no watering can be told in gallons."""
    return cost_of(setting, water.gallons) if water.waterings > water.untold else None


def _gallons(water: Watered) -> str:
    return told(water.gallons, 0, "gal") if water.waterings > water.untold else ""


def _products(notebook: Notebook, spans: Spans) -> Iterator[CostItem]:
    for product in notebook.products.values():
        pounds, earlier = (pounds_in(notebook, product.id, each) for each in spans)
        if pounds <= 0 and earlier <= 0:
            continue
        yield CostItem(
            kind="product",
            name=product.name,
            amount=product_cost(product, pounds) if pounds > 0 else None,
            amount_before=product_cost(product, earlier) if earlier > 0 else None,
            used=told(pounds, 1, "lb") if pounds > 0 else "",
            used_before=told(earlier, 1, "lb") if earlier > 0 else "",
            unpriced=_missing(product),
        )


def _missing(product: Product) -> str:
    if product.price is None:
        return NO_PRICE
    return NO_PACKAGE if packages_of(product, 1.0) is None else ""


def _care(notebook: Notebook, spans: Spans) -> Iterator[CostItem]:
    kinds: dict[str, list[Care]] = {}
    for care in notebook.care.values():
        if any(span.holds(care.date) for span in spans):
            kinds.setdefault(care_kind(care), []).append(care)
    for kind, cares in kinds.items():
        now, before = ([each for each in cares if span.holds(each.date)] for span in spans)
        yield CostItem(
            kind="care",
            name=sentence_case(tr(kind)),
            amount=total_of([each.cost for each in now]),
            amount_before=total_of([each.cost for each in before]),
            used=_times(now),
            used_before=_times(before),
            unpriced=_without_cost(now, before, spans),
        )


def _without_cost(now: Sequence[Care], before: Sequence[Care], spans: Spans) -> str:
    """Which entries have no cost, in the short words that a narrow column has room for."""
    free = sum(each.cost is None for each in now), sum(each.cost is None for each in before)
    if sum(free) == len(now) + len(before):
        return NO_COST
    missing = of_each_year(free, spans)
    return tr("no cost for {missing}", missing=missing) if missing else ""


def _times(cares: Sequence[Care]) -> str:
    return counted(len(cares), "time") if cares else ""
