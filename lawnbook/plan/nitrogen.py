"""Nitrogen of one zone on the day of the plan: applied, budget, left, and the next day to feed."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import partial

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.plan.clippings import clippings_of
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_last_day import last_day_workings
from lawnbook.plan.feed_ledger import ZoneFeed, carries_nitrogen, feeds_of, near_feed, quick_share
from lawnbook.plan.feed_rule import spreadable_of
from lawnbook.plan.feed_rules import LET_GO_DORMANT, candidate_days, each_rule_on, room_lb, rules_on
from lawnbook.plan.feed_stretch import last_day_for
from lawnbook.plan.lazily import Later
from lawnbook.plan.model import NextFeeding, ZoneNitrogen
from lawnbook.plan.nitrogen_workings import nitrogen_workings
from lawnbook.plan.release import released_of
from lawnbook.plan.season import month_in_full
from lawnbook.plan.strips import ZoneStrips, strips_of
from lawnbook.plan.workings import PERCENT, most_told_lb, rate_told
from lawnbook.reading import tr
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product
from lawnbook.yard.table import grouped

WORTH_FEEDING_LB = 0.1
"""Less nitrogen than this (lb per 1,000 sq ft) is not worth a feeding (common practice)."""

PASS_DAYS = 14
"""Days from one feeding to the next where the owner's rule says nothing (common practice)."""

NO_PRODUCT = tr(
    "No product with nitrogen is on the shelf yet: no feeding falls due until there is one."
)
"""Said beside a next feeding in pounds of nitrogen, which nobody can spread as such."""


def zone_nitrogen(notebook: Notebook, whole: ZoneFeed, number: int, on: date) -> ZoneNitrogen:
    """The nitrogen figures of one zone; `notebook` is the one as of the day."""
    feed = near_feed(notebook, whole, on)
    released = Later(partial(released_of, notebook, whole, on))
    strips = strips_of(notebook, feed.zone)
    product, upcoming = _proposed(notebook, feed, on, strips)
    if upcoming is not None:
        upcoming = _with_latest(feed, product, upcoming)
    year = n_year(on, feed.latitude_deg)
    return ZoneNitrogen(
        zone=feed.zone.name,
        zone_id=feed.zone.id,
        number=number,
        area_sqft=feed.area_sqft,
        year=year.label,
        year_label=year.words,
        budget_name=feed.budget.name,
        budget_source=feed.budget.source,
        applied_by_month=feed.by_month(on),
        quick_by_month=feed.by_month(on, quick=True),
        budget_by_month=feed.budget.by_month,
        applied_year=feed.in_year(on),
        budget_year=feed.year_lb,
        rolling_30_days=feed.rolling(on),
        left_this_month=feed.left_this_month(on),
        left_this_year=feed.left_this_year(on),
        next_feeding=upcoming,
        reason=_joined(
            _reason(feed, product, upcoming, on, strips), feed.water.reason, feed.budget.reason
        ),
        workings=Later(
            lambda: (
                *nitrogen_workings(feed, on, upcoming, product, released()),
                *last_day_workings(
                    feed, upcoming, partial(_found_again, product=product, on=on, strips=strips)
                ),
            )
        ),
        water_by_month=feed.water_by_month(on),
        p2o5_year=feed.p2o5_in_year(on),
        k2o_year=feed.k2o_in_year(on),
        released=released,
        clippings=clippings_of(feed.zone, feed.year_lb),
        soil=feed.ground.soil,
    )


def nitrogen_on(notebook: Notebook, zone_id: str, on: date) -> ZoneNitrogen:
    """One zone's nitrogen on a day, as a plan of that day has it. KeyError for an unknown zone."""
    known = as_of(notebook, on)
    feeds = feeds_of(known, {each.id: zone_area_sqft(each) for each in known.zones.values()}, on)
    return zone_nitrogen(known, feeds[zone_id], 1 + list(known.zones).index(zone_id), on)


def product_for(notebook: Notebook, zone_id: str) -> Product | None:
    """The product with nitrogen last fed to a zone, else the first on the shelf, if any."""
    return next(iter(products_for(notebook, zone_id)), None)


def products_for(notebook: Notebook, zone_id: str) -> list[Product]:
    """The products with nitrogen: those fed to a zone, the last one first, then the shelf's."""
    fed = sorted(
        grouped(notebook.feedings, "pounds").get(zone_id, ()),
        key=lambda each: (each.date, each.rank),
        reverse=True,
    )
    wanted = dict.fromkeys([*(each.product for each in fed), *notebook.products])
    products = [notebook.products[each] for each in wanted if each in notebook.products]
    return [each for each in products if carries_nitrogen(each)]


def _proposed(
    notebook: Notebook, feed: ZoneFeed, on: date, strips: ZoneStrips
) -> tuple[Product | None, NextFeeding | None]:
    return first_open(products_for(notebook, feed.zone.id), feed, on, strips)


def first_open(
    products: Sequence[Product], feed: ZoneFeed, on: date, strips: ZoneStrips
) -> tuple[Product | None, NextFeeding | None]:
    """The first product that some rule does not hold back for two years, and its next feeding.

    Where all are held back, or there is none, the first one, for the reason why.
    """
    for product in products:
        upcoming = next_feeding(feed, product, on, strips)
        if upcoming is not None:
            return product, upcoming
    return (products[0], None) if products else (None, next_feeding(feed, None, on, strips))


def next_feeding(
    feed: ZoneFeed, product: Product | None, on: date, strips: ZoneStrips
) -> NextFeeding | None:
    """The first day on which the budget has room and no rule blocks, and the most then.

    Never sooner after the last feeding than the passes of a split stand apart, for the limits of
    one application would be gone round by feeding again the next day.
    None while the zone is let go dormant, for nobody knows when it will grow again, and where the
    strips take all of it.
    """
    feed, treated_sqft = feed.lately(on), strips.left_sqft(feed.area_sqft)
    if feed.dormant_on(on) or (strips.names and not treated_sqft):
        return None
    what = spreadable_of(product)
    rested = _rested_from(feed, on) or on
    for each in sorted({rested, *(that for that in candidate_days(feed, on) if that > rested)}):
        room = 0.0 if feed.too_late_in_month(each) else room_lb(each_rule_on(feed, each, what))
        if room > WORTH_FEEDING_LB:
            return NextFeeding(
                date=each,
                pounds=what.pounds(room, treated_sqft),
                product=product.name if product is not None else "",
                product_id=product.id if product is not None else "",
                n_lb_per_1000=room,
                area_sqft=treated_sqft,
                strips=strips.names,
            )
    return None


def _with_latest(feed: ZoneFeed, product: Product | None, upcoming: NextFeeding) -> NextFeeding:
    """The feeding with the last day on which as much as is told still passes."""
    if upcoming.area_sqft <= 0:
        return upcoming
    what = spreadable_of(product)
    amount = what.amount(most_told_lb(upcoming.pounds), upcoming.area_sqft)
    return replace(upcoming, latest=last_day_for(feed, upcoming.date, what, amount))


def _found_again(
    feed: ZoneFeed, product: Product | None, on: date, strips: ZoneStrips
) -> NextFeeding | None:
    """The next feeding of a product with its last day, by a feed with other budgets or limits."""
    upcoming = next_feeding(feed, product, on, strips)
    return None if upcoming is None else _with_latest(feed, product, upcoming)


def _rested_from(feed: ZoneFeed, on: date) -> date | None:
    """The day from which another feeding does not follow too soon on the last, if still to come.

    None where the owner's own rule says how far apart feedings stand: then that rule binds.
    """
    fed = [each.date for each in feed.fed if each.n_lb >= WORTH_FEEDING_LB]
    if not fed or feed.limits.min_days is not None:
        return None
    rested = max(fed) + timedelta(days=PASS_DAYS)
    return rested if rested > on else None


def _joined(*sentences: str) -> str:
    return " ".join(each for each in sentences if each)


def _reason(
    feed: ZoneFeed,
    product: Product | None,
    upcoming: NextFeeding | None,
    on: date,
    strips: ZoneStrips,
) -> str:
    """Why there is no next feeding, or why it waits or is of no product, in sentences."""
    if feed.dormant_on(on):
        return LET_GO_DORMANT
    if strips.names and not strips.left_sqft(feed.area_sqft):
        along = names_told(strips.names)
        return tr(
            "All of it lies in the strip along {along}: nothing is spread there.", along=along
        )
    if upcoming is None:
        return _why_none(feed, product, on)
    waits = upcoming.date > on and feed.left_this_month(on) > WORTH_FEEDING_LB
    listed = _why_later(feed, product, on) if waits else []
    return " ".join([*listed, *([NO_PRODUCT] if product is None else [])])


def _why_later(feed: ZoneFeed, product: Product | None, on: date) -> list[str]:
    """Why nothing more may go down on a day whose month has nitrogen left."""
    if feed.too_late_in_month(on):
        month, left = month_in_full(on.month), rate_told(feed.left_this_month(on))
        why = tr("{month} is fed in its first half only", month=month)
        return [
            tr("{why}: the {left} that it has left are not to be put down.", why=why, left=left)
        ]
    rested = _rested_from(feed, on)
    apart = tr(
        "Feedings stand {pass_days} days apart or more (common practice)", pass_days=PASS_DAYS
    )
    after = (
        tr(
            "{apart}; the last was on {rested}.",
            apart=apart,
            rested=day(rested - timedelta(days=PASS_DAYS)),
        )
        if rested
        else ""
    )
    stops = [rule.tells for rule in rules_on(feed, on, spreadable_of(product)) if rule.stops]
    return [*stops, *([after] if after else [])]


def _why_none(feed: ZoneFeed, product: Product | None, on: date) -> str:
    least = feed.limits.min_slow_pct
    if product is not None and least is not None and 100 * (1 - quick_share(product)) < least:
        return tr(
            "{name} has less slow nitrogen than the {least:g}{percent} your rule asks for: "
            "put a slower product on the shelf.",
            name=product.name,
            least=least,
            percent=PERCENT,
        )
    held = [r.tells for r in rules_on(feed, on, spreadable_of(product)) if r.rule == "phosphate"]
    if held:
        return tr("{held} Or put a product without phosphate on the shelf.", held=held[0])
    return tr("No day within two years has room: the budget or your rules leave none.")
