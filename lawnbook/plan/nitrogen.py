"""Nitrogen of one zone on the day of the plan: applied, budget, left, and the next day to feed."""

from collections.abc import Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.agronomy.seasons import is_south
from lawnbook.plan.feed_ledger import ZoneFeed, carries_nitrogen, quick_share
from lawnbook.plan.feed_rules import (
    LET_GO_DORMANT,
    candidate_days,
    room_lb,
    rules_on,
    spreadable_of,
)
from lawnbook.plan.model import NextFeeding, Working, ZoneNitrogen
from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.workings import OWN, PERCENT, given, sources, told, told_exactly, told_most
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product

WORTH_FEEDING_LB = 0.05
"""Less nitrogen than this (lb per 1,000 sq ft) is not worth a feeding (common practice)."""

PURE_N_PCT = 100.0

NO_PRODUCT = (
    "No product with nitrogen is on the shelf yet: no feeding falls due until there is one."
)
"""Said beside a next feeding in pounds of nitrogen, which nobody can spread as such."""


def zone_nitrogen(notebook: Notebook, feed: ZoneFeed, number: int, on: date) -> ZoneNitrogen:
    """The nitrogen figures of one zone; `notebook` is the one as of the day."""
    product = product_for(notebook, feed.zone.id)
    upcoming = next_feeding(feed, product, on)
    year = n_year(on, feed.latitude_deg)
    return ZoneNitrogen(
        zone=feed.zone.name,
        zone_id=feed.zone.id,
        number=number,
        area_sqft=feed.area_sqft,
        year=year.label,
        year_label=_year_words(year.label, feed.latitude_deg),
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
        reason=_reason(feed, product, upcoming, on),
        workings=_workings(feed, on, upcoming, product),
    )


def product_for(notebook: Notebook, zone_id: str) -> Product | None:
    """The product with nitrogen last fed to a zone, else the first on the shelf, if any."""
    fed = [each for each in notebook.feedings.values() if zone_id in each.pounds]
    for feeding in sorted(fed, key=lambda each: (each.date, each.rank), reverse=True):
        product = notebook.products.get(feeding.product)
        if product is not None and carries_nitrogen(product):
            return product
    return next((each for each in notebook.products.values() if carries_nitrogen(each)), None)


def next_feeding(feed: ZoneFeed, product: Product | None, on: date) -> NextFeeding | None:
    """The first day on which the budget has room and no rule blocks, and the most then.

    None while the zone is let go dormant: nobody knows when it will grow again.
    """
    if feed.dormant_on(on):
        return None
    what = spreadable_of(product)
    for each in candidate_days(feed, on):
        room = 0.0 if feed.too_late_in_month(each) else room_lb(rules_on(feed, each, what))
        if room > WORTH_FEEDING_LB:
            return NextFeeding(
                date=each,
                pounds=what.pounds(room, feed.area_sqft),
                product=product.name if product is not None else "",
                n_lb_per_1000=room,
            )
    return None


def _year_words(label: int, latitude_deg: float) -> str:
    return f"{label}–{(label + 1) % 100:02}" if is_south(latitude_deg) else str(label)


def _reason(feed: ZoneFeed, product: Product | None, upcoming: NextFeeding | None, on: date) -> str:
    """Why there is no next feeding, or why it waits or is of no product, in sentences."""
    if feed.dormant_on(on):
        return LET_GO_DORMANT
    if upcoming is None:
        return _why_none(feed, product, on)
    waits = upcoming.date > on and feed.left_this_month(on) > WORTH_FEEDING_LB
    listed = _why_later(feed, product, on) if waits else []
    return " ".join([*listed, *([NO_PRODUCT] if product is None else [])])


def _why_later(feed: ZoneFeed, product: Product | None, on: date) -> list[str]:
    """Why nothing more may go down on a day whose month has nitrogen left."""
    if feed.too_late_in_month(on):
        month, left = month_in_full(on.month), _lb(feed.left_this_month(on))
        why = f"{month} is fed in its first half only"
        return [f"{why}: the {left} that it has left are not to be put down."]
    return [rule.tells for rule in rules_on(feed, on, spreadable_of(product)) if rule.stops]


def _why_none(feed: ZoneFeed, product: Product | None, on: date) -> str:
    least = feed.limits.min_slow_pct
    if product is not None and least is not None and 100 * (1 - quick_share(product)) < least:
        return (
            f"{product.name} has less slow nitrogen than the {least:g}{PERCENT} your rule asks "
            "for: put a slower product on the shelf."
        )
    held = [r.tells for r in rules_on(feed, on, spreadable_of(product)) if r.rule == "phosphate"]
    if held:
        return f"{held[0]} Or put a product without phosphate on the shelf."
    return "No day within two years has room: the budget or your rules leave none."


def _workings(
    feed: ZoneFeed, on: date, upcoming: NextFeeding | None, product: Product | None
) -> tuple[Working, ...]:
    listed = [_applied(feed, on), _left_year(feed, on), _left_month(feed, on)]
    if upcoming is not None:
        listed.append(_next(feed, upcoming, product))
    return tuple(listed)


def _applied(feed: ZoneFeed, on: date) -> Working:
    months = [
        given(month_name(month), _lb(value), "feedings recorded")
        for month, value in enumerate(feed.by_month(on), start=1)
        if value > 0
    ]
    parts: Sequence[str] = [told_exactly(value) for value in feed.by_month(on) if value > 0] or [
        "0"
    ]
    return Working(
        "applied_year",
        "Nitrogen fed this year",
        _lb(feed.in_year(on)),
        "sum of pounds × N % ÷ 100 × 1,000 ÷ area treated",
        " + ".join(parts),
        tuple(months),
        sources("n-arithmetic"),
    )


def _left_year(feed: ZoneFeed, on: date) -> Working:
    return Working(
        "left_this_year",
        "Left this year",
        _lb(feed.left_this_year(on)),
        "budget of the year − fed this year",
        f"{told_exactly(feed.year_lb)} − {told_exactly(feed.in_year(on))}",
        (
            given("Budget of the year", _lb(feed.year_lb), feed.budget.name),
            given("Fed this year", _lb(feed.in_year(on)), "feedings recorded"),
        ),
        feed.budget.year_source,
    )


def _left_month(feed: ZoneFeed, on: date) -> Working:
    month, fed, left = feed.month_lb(on), feed.in_month(on), feed.left_this_year(on)
    name = month_name(on.month)
    return Working(
        "left_this_month",
        "Left this month",
        _lb(feed.left_this_month(on)),
        "lesser of (budget of the month − fed this month) and what is left of the year",
        f"min({told_exactly(month)} − {told_exactly(fed)}, {told_exactly(left)})",
        (
            given(f"Budget of {name}", _lb(month), feed.budget.name),
            given(f"Fed in {name}", _lb(fed), "feedings recorded"),
            given("Left this year", _lb(left), "worked out"),
        ),
        feed.budget.source,
    )


def _next(feed: ZoneFeed, upcoming: NextFeeding, product: Product | None) -> Working:
    n_pct = analysis_of(product).n_pct if product is not None else PURE_N_PCT
    name = product.name if product is not None else "nitrogen"
    return Working(
        "next_feeding",
        "Next feeding",
        f"{day(upcoming.date)}, {told_most(upcoming.pounds)} lb of {name}",
        "most that passes every rule × area ÷ 1,000 ÷ (N % ÷ 100)",
        f"{told_exactly(upcoming.n_lb_per_1000)} × {told_exactly(feed.area_sqft, 0)} ÷ 1,000 ÷ "
        f"{told_exactly(n_pct / 100)} = {told_exactly(upcoming.pounds)}",
        (
            given("Most that passes", _lb(upcoming.n_lb_per_1000), "budget and rules"),
            given("Area", told(feed.area_sqft, 0, "sq ft"), "outline"),
            given("N", told(n_pct, 1, "%"), name),
        ),
        sources("n-arithmetic", *_limit_keys(feed)),
    )


def _limit_keys(feed: ZoneFeed) -> tuple[str, ...]:
    """The sources of the published limits that the owner's rules leave in force."""
    limits = feed.limits
    total = () if limits.total_source == OWN else ("msu-n",)
    return (*total, *(() if limits.quick_source == OWN else ("cornell-quick",)))


def _lb(value: float) -> str:
    return told(value, 2, "lb per 1,000 sq ft")
