"""The coming feedings of every zone, one after another, as budget and rules allow them.

The next feeding is the one that the plan tells; each one after it is reckoned as if those before it
had been spread in the pounds told, so that all of them pass the check before spreading in turn.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_ledger import ZoneFeed, feeds_of
from lawnbook.plan.feed_model import Shopping
from lawnbook.plan.feed_rule import spreadable_of
from lawnbook.plan.feed_stretch import last_day_for
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.model import NextFeeding
from lawnbook.plan.nitrogen import first_open, products_for
from lawnbook.plan.nitrogen_workings import next_working
from lawnbook.plan.season import plannable
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.spread_passes import fed_with
from lawnbook.plan.spread_shopping import packages_of, shopping_of
from lawnbook.plan.strips import strips_of
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import OWN, given, most_told_lb, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import trimmed
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.records import Product

YEAR_NEARLY_OVER_DAYS = 60
"""A plan made so near the end of the budget year goes on for a whole year from its day."""

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """One zone and the days in which its feedings are looked for, both ends included."""

    notebook: Notebook
    feed: ZoneFeed
    number: int
    starts: date
    ends: date


def spreading_plan(notebook: Notebook, on: date) -> tuple[PlannedSpread, ...]:
    """Every coming feeding by date, product and zone, until `spreading_ends`.

    What is recorded later than the day is not counted. A zone that gets nothing has none. Raises
    OwnerError for a day beyond any notebook.
    """
    plannable(on)
    known = as_of(notebook, on)
    areas = {zone.id: zone_area_sqft(zone) for zone in known.zones.values()}
    ends = spreading_ends(known, on)
    spreads = [
        spread
        for number, feed in enumerate(feeds_of(known, areas, on).values(), start=1)
        for spread in _spreads(
            _Ground(notebook=known, feed=feed, number=number, starts=on, ends=ends)
        )
    ]
    return tuple(sorted(spreads, key=lambda each: (each.date, each.product, each.number)))


def spreading_ends(notebook: Notebook, on: date) -> date:
    """The last day a spreading plan looks at: the end of the budget year.

    A year from the day where that end is within 60 days.
    """
    end = n_year(on, notebook.yard.latitude_deg or 0.0).end
    return a_year_on(on) if (end - on).days <= YEAR_NEARLY_OVER_DAYS else end


def a_year_on(on: date) -> date:
    """The last day of the twelve months that begin with a day."""
    leap_day = (on.month, on.day) == (2, 29)
    return (date(on.year + 1, 3, 1) if leap_day else on.replace(year=on.year + 1)) - ONE_DAY


def bags_to_buy(spreads: Sequence[PlannedSpread], notebook: Notebook) -> Mapping[str, Shopping]:
    """What all planned spreads need of each product, in whole packages, by product id.

    In the order of first use; a product without a known package is left out. It is reckoned as if
    none stood on the shelf.
    """
    pounds: dict[str, float] = {}
    for each in spreads:
        if each.product_id in notebook.products:
            pounds[each.product_id] = pounds.get(each.product_id, 0.0) + each.pounds
    bought = {key: shopping_of(notebook.products[key], sum_lb) for key, sum_lb in pounds.items()}
    return {key: each for key, each in bought.items() if each is not None}


def _spreads(ground: _Ground) -> Iterator[PlannedSpread]:
    """One zone's feedings in turn, the product last used first."""
    feed, start = ground.feed, ground.starts
    products = products_for(ground.notebook, feed.zone.id)
    strips = strips_of(ground.notebook, feed.zone)
    while start <= ground.ends:
        product, upcoming = first_open(products, feed, start, strips)
        if upcoming is None or upcoming.date > ground.ends:
            return
        what, pounds = spreadable_of(product), most_told_lb(upcoming.pounds)
        if pounds <= 0:
            return
        amount = what.amount(pounds, upcoming.area_sqft)
        yield _planned(ground, feed, product, upcoming)
        feed = fed_with(feed, upcoming.date, amount, what)
        products = [each for each in (product,) if each] + [p for p in products if p is not product]
        start = upcoming.date + ONE_DAY


def _planned(
    ground: _Ground, feed: ZoneFeed, product: Product | None, upcoming: NextFeeding
) -> PlannedSpread:
    what, pounds = spreadable_of(product), most_told_lb(upcoming.pounds)
    amount = what.amount(pounds, upcoming.area_sqft)
    bags = None if product is None else packages_of(product, pounds)
    price = None if product is None else product.price
    return PlannedSpread(
        date=upcoming.date,
        latest=last_day_for(feed, upcoming.date, what, amount),
        zone_id=feed.zone.id,
        zone=feed.zone.name,
        number=ground.number,
        product_id="" if product is None else product.id,
        product="" if product is None else product.name,
        pounds=pounds,
        n_lb_per_1000=amount,
        area_sqft=upcoming.area_sqft,
        bags=bags,
        cost=None if bags is None or price is None else bags * price,
        workings=(
            next_working(feed, upcoming, product),
            *(() if product is None else _package_workings(product, pounds)),
        ),
    )


def _package_workings(product: Product, pounds: float) -> Iterator[Working]:
    """How many packages the pounds are, and what that much of them costs."""
    bought = shopping_of(product, pounds)
    if bought is None:
        return
    count, is_jug = bought.needed / bought.size, bought.package == "jug"
    size = trimmed(bought.size, 2, bought.unit)
    density = product.density_lb_per_gal
    by_volume = is_jug and density is not None
    formula = "{pounds} ÷ {density} ÷ {size}" if by_volume else "{pounds} ÷ {size}"
    several = tr("Jugs") if is_jug else tr("Bags")
    label = tr("typed for {name}", name=product.name)
    weighs = given(tr("Density"), told(density or 0, 2, "lb/gal"), label)
    inputs = (
        numbered(
            given(tr("Pounds"), told(pounds, 2, "lb"), tr("worked out, rounded down")),
            "pounds",
            pounds,
            "lb",
        ),
        *((numbered(weighs, "density", density or 0, "lb/gal"),) if by_volume else ()),
        numbered(
            given(tr("Size of a jug") if is_jug else tr("Size of a bag"), size, label),
            "size",
            bought.size,
            bought.unit,
        ),
    )
    yield Working(
        "bags",
        several,
        tr(
            "{count} jugs of {size}" if is_jug else "{count} bags of {size}",
            count=told(count),
            size=size,
        ),
        tr("pounds ÷ density ÷ size of a jug") if by_volume else tr("pounds ÷ size of a bag"),
        put_in(formula, inputs),
        inputs,
        OWN,
        reckons(formula),
    )
    if product.price is not None:
        paid = given(
            tr("Price of a jug") if is_jug else tr("Price of a bag"), told(product.price), label
        )
        needed = given(several, told(count), tr("worked out: pounds ÷ size"))
        parts = (numbered(needed, "count", count), numbered(paid, "price", product.price))
        yield Working(
            "cost",
            tr("Cost"),
            told(count * product.price),
            tr("jugs × price of a jug") if is_jug else tr("bags × price of a bag"),
            put_in("{count} × {price}", parts),
            parts,
            OWN,
            reckons("{count} × {price}"),
        )
