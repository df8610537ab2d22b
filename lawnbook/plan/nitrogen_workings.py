"""The workings of a zone's nitrogen: applied, brought by the water, left, released, and next."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import irrigation_n_lb_per_1000
from lawnbook.agronomy.turf import GROWTH_OPTIMUM_F, GROWTH_SPREAD_F
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_ledger import ZoneFeed
from lawnbook.plan.feed_model import Released
from lawnbook.plan.model import NextFeeding
from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import given, rate_told, sources, told, told_exactly, told_most
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Product

PURE_N_PCT = 100.0
"""A shelf without nitrogen is told the pounds of nitrogen itself."""


def nitrogen_workings(
    feed: ZoneFeed,
    on: date,
    upcoming: NextFeeding | None,
    product: Product | None,
    released: Released,
) -> tuple[Working, ...]:
    """The workings of a zone's nitrogen on a day; those of water and growth where they count."""
    listed = [_applied(feed, on)]
    if any(feed.water_by_month(on)):
        listed.append(_water(feed, on))
    listed.append(_left_year(feed, on))
    if feed.budget.growth is not None and feed.budget.growth_sum > 0:
        listed.append(_budget_month(feed, feed.budget.growth, on))
    listed.append(_left_month(feed, on))
    if any(released.by_month):
        listed.append(_released(released))
    if released.usable_by_month is not None:
        listed.extend(growth_working(feed, on))
        listed.append(_usable(feed, released, released.usable_by_month, on))
    if upcoming is not None:
        listed.append(next_working(feed, upcoming, product))
    return tuple(listed)


def _applied(feed: ZoneFeed, on: date) -> Working:
    watered = any(feed.water_by_month(on))
    origin = "feedings and waterings recorded" if watered else "feedings recorded"
    months = [
        given(month_name(month), rate_told(value), origin)
        for month, value in enumerate(feed.by_month(on), start=1)
        if value > 0
    ]
    parts: Sequence[str] = [told_exactly(value) for value in feed.by_month(on) if value > 0] or [
        "0"
    ]
    return Working(
        "applied_year",
        "Nitrogen fed this year",
        rate_told(feed.in_year(on)),
        "sum of pounds × N % ÷ 100 × 1,000 ÷ area treated"
        + (", and what the water brought" if watered else ""),
        " + ".join(parts),
        tuple(months),
        sources("n-arithmetic"),
    )


def _water(feed: ZoneFeed, on: date) -> Working:
    """Gross inches × mg/L × the pounds that one of each brings, with all the digits that count."""
    brought, depth = sum(feed.water_by_month(on)), feed.water_depth_in(on)
    one = told_exactly(irrigation_n_lb_per_1000(1.0, 1.0))
    return Working(
        "water_year",
        "Nitrogen that the water brought this year",
        rate_told(brought),
        f"gross depth of the waterings × nitrogen in the water × {one}",
        f"{told_exactly(depth)} × {told_exactly(feed.water.mg_per_l)} × {one}",
        (
            given("Gross depth", told(depth, 2, "in"), "waterings recorded"),
            given(
                "Nitrogen in the water",
                f"{told_exactly(feed.water.mg_per_l)} mg/L",
                "entered, as nitrogen: mg/L of nitrate ÷ 4.43",
            ),
        ),
        sources("water-n"),
    )


def _budget_month(feed: ZoneFeed, growth: tuple[float, ...], on: date) -> Working:
    """What growth potential gives the month of a day of the budget's year."""
    share, whole, year = growth[on.month - 1], feed.budget.growth_sum, feed.budget.year_lb
    name = month_in_full(on.month)
    return Working(
        "budget_month",
        f"Budget of {name}",
        rate_told(feed.budget.by_month[on.month - 1]),
        "budget of the year × growth potential of the month ÷ that of all months fed",
        f"{told_exactly(year)} × {told_exactly(share, 4)} ÷ {told_exactly(whole, 4)}",
        (
            given("Budget of the year", rate_told(year), feed.budget.name),
            given(f"Growth potential of {name}", told(share, 2), "its mean temperature"),
            given("Growth potential of all months fed", told(whole, 2), "their temperatures"),
        ),
        feed.budget.source,
    )


def _released(released: Released) -> Working:
    """What becomes available in the year: nothing but what is down already."""
    months = [(month, lb) for month, lb in enumerate(released.by_month, start=1) if lb > 0]
    return Working(
        "released_year",
        "Becoming available this year",
        rate_told(sum(released.by_month)),
        "sum over the months: quick nitrogen over its first weeks, slow over its release weeks",
        " + ".join(told_exactly(lb) for _, lb in months),
        tuple(given(month_name(month), rate_told(lb), "what is down") for month, lb in months),
        released.source,
    )


def _usable(feed: ZoneFeed, released: Released, usable: tuple[float, ...], on: date) -> Working:
    """What the growth of the month of a day can use of the year's budget."""
    share = released.growth_by_month[on.month - 1] or 0.0
    whole = sum(each or 0.0 for each in released.growth_by_month)
    name = month_in_full(on.month)
    return Working(
        "usable_month",
        f"What growth can use in {name}",
        rate_told(usable[on.month - 1]),
        "budget of the year × growth potential of the month ÷ that of all twelve",
        f"{told_exactly(feed.year_lb)} × {told_exactly(share, 4)} ÷ {told_exactly(whole, 4)}",
        (
            given("Budget of the year", rate_told(feed.year_lb), feed.budget.name),
            given(f"Growth potential of {name}", told(share, 2), "its mean temperature"),
            given("Growth potential of all months", told(whole, 2), "their temperatures"),
        ),
        sources("growth-potential"),
    )


def growth_working(feed: ZoneFeed, on: date) -> Iterator[Working]:
    """How well the zone's grass grows in the month of a day, where its temperature is known."""
    tmean_f, growth = feed.ground.tmean_f[on.month - 1], feed.ground.growth[on.month - 1]
    if tmean_f is None or growth is None:
        return
    grass, month = feed.zone.grass, month_in_full(on.month)
    best, width = GROWTH_OPTIMUM_F[grass], GROWTH_SPREAD_F[grass]
    held = f"{told_exactly(tmean_f)} °F"
    warm_enough = grass == "warm" and tmean_f > best
    yield Working(
        "growth_potential",
        f"Growth potential of {month}",
        told(growth, 2),
        f"1, for heat above {best:g} °F does not slow warm-season grass"
        if warm_enough
        else "exp(−½ × ((mean − best) ÷ width)²)",
        "1" if warm_enough else f"exp(−½ × (({told_exactly(tmean_f)} − {best:g}) ÷ {width:g})²)",
        (
            given(f"Mean of {month}", held, "temperatures of this notebook"),
            given("Best", f"{best:g} °F", f"{grass}-season grass"),
            given("Width", f"{width:g} °F", f"{grass}-season grass"),
        ),
        sources("growth-potential"),
    )


def _left_year(feed: ZoneFeed, on: date) -> Working:
    return Working(
        "left_this_year",
        "Left this year",
        rate_told(feed.left_this_year(on)),
        "budget of the year − fed this year",
        f"{told_exactly(feed.year_lb)} − {told_exactly(feed.in_year(on))}",
        (
            given("Budget of the year", rate_told(feed.year_lb), feed.budget.name),
            given("Fed this year", rate_told(feed.in_year(on)), "feedings recorded"),
        ),
        feed.budget.year_source,
    )


def _left_month(feed: ZoneFeed, on: date) -> Working:
    month, fed, left = feed.month_lb(on), feed.in_month(on), feed.left_this_year(on)
    name = month_name(on.month)
    return Working(
        "left_this_month",
        "Left this month",
        rate_told(feed.left_this_month(on)),
        "lesser of (budget of the month − fed this month) and what is left of the year",
        f"min({told_exactly(month)} − {told_exactly(fed)}, {told_exactly(left)})",
        (
            given(f"Budget of {name}", rate_told(month), feed.budget.name),
            given(f"Fed in {name}", rate_told(fed), "feedings recorded"),
            given("Left this year", rate_told(left), "worked out"),
        ),
        feed.budget.source,
    )


def next_working(feed: ZoneFeed, upcoming: NextFeeding, product: Product | None) -> Working:
    """How the pounds of a zone's next feeding came about."""
    n_pct = analysis_of(product).n_pct if product is not None else PURE_N_PCT
    name = product.name if product is not None else "nitrogen"
    return Working(
        "next_feeding",
        "Next feeding",
        f"{day(upcoming.date)}, {told_most(upcoming.pounds)} lb of {name}",
        "most that passes every rule × area treated ÷ 1,000 ÷ (N % ÷ 100)",
        f"{told_exactly(upcoming.n_lb_per_1000)} × {told_exactly(upcoming.area_sqft, 0)} ÷ 1,000 ÷ "
        f"{told_exactly(n_pct / 100)} = {told_exactly(upcoming.pounds)}",
        (
            given("Most that passes", rate_told(upcoming.n_lb_per_1000), "budget and rules"),
            given("Area treated", told(upcoming.area_sqft, 0, "sq ft"), _ground(upcoming)),
            given("N", told(n_pct, 1, "%"), name),
        ),
        sources("n-arithmetic", *_limit_keys(feed)),
    )


def _ground(upcoming: NextFeeding) -> str:
    if not upcoming.strips:
        return "outline"
    return f"outline less the strip along {names_told(upcoming.strips)}"


def _limit_keys(feed: ZoneFeed) -> tuple[str, ...]:
    """The sources of the published limits that the owner's rules leave in force."""
    limits = feed.limits
    return tuple(
        key
        for key, source in (("msu-n", limits.total_source), ("cornell-quick", limits.quick_source))
        if source == sources(key)
    )
