"""The workings of a zone's nitrogen: applied, brought by the water, left, released, and next."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date, timedelta

from lawnbook.agronomy.nitrogen import ROLLING_DAYS, irrigation_n_lb_per_1000, n_year
from lawnbook.agronomy.turf import GROWTH_OPTIMUM_F, GROWTH_SPREAD_F
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_budget import budget_told
from lawnbook.plan.feed_ledger import ZoneFeed
from lawnbook.plan.feed_model import Released
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.model import NextFeeding
from lawnbook.plan.season import month_in_full, month_name
from lawnbook.plan.working_model import Input, Reckoning, Working
from lawnbook.plan.workings import given, rate_told, sources, told, told_exactly, told_most
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, plainly, unit_shown
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
    if feed.rolling(on) > 0:
        listed.append(_rolling(feed, on))
    if any(feed.water_by_month(on)):
        listed.append(_water(feed, on))
    listed.append(_left_year(feed, on))
    if feed.budget.growth is not None and feed.budget.growth_sum > 0:
        listed.append(budget_month_working(feed, feed.budget.growth, on))
    listed.append(_left_month(feed, on))
    if any(released.by_month):
        listed.append(_released(released))
    if released.usable_by_month is not None:
        listed.extend(growth_working(feed, on))
        listed.append(usable_working(feed, released, released.usable_by_month, on))
    if upcoming is not None:
        listed.append(next_working(feed, upcoming, product))
    return tuple(listed)


def _applied(feed: ZoneFeed, on: date) -> Working:
    watered, days = any(feed.water_by_month(on)), _fed_on(feed, on)
    months = rates_of_months(feed.by_month(on), lambda month: _of_month(days.get(month), watered))
    formula = sum_of(months)
    return Working(
        "applied_year",
        tr("Nitrogen fed this year"),
        rate_told(feed.in_year(on)),
        tr("sum of pounds × N % ÷ 100 × 1,000 ÷ area treated")
        + (tr(", and what the water brought") if watered else ""),
        put_in(formula, months),
        months,
        sources("n-arithmetic"),
        reckons(formula, RATE_UNIT),
    )


def _fed_on(feed: ZoneFeed, on: date) -> dict[int, list[str]]:
    """The days of the budget year on which nitrogen was fed, by their months."""
    _, start, end = n_year(on, feed.latitude_deg)
    days: dict[int, list[str]] = {}
    for each in feed.applications:
        if start <= each.date <= end and each.n_lb > 0:
            days.setdefault(each.date.month, []).append(day(each.date))
    return days


def _of_month(fed: list[str] | None, watered: bool) -> str:
    """Which records a month's nitrogen is from."""
    if not fed:
        return tr("waterings recorded")
    days = ", ".join(fed)
    return tr("feeding of {days}, and waterings", days=days) if watered else _feeding_of(days)


def _feeding_of(days: str) -> str:
    return tr("feeding of {days}", days=days)


def _rolling(feed: ZoneFeed, on: date) -> Working:
    """What was fed in the last thirty days, the day itself among them."""
    since = on - timedelta(days=ROLLING_DAYS)
    fed = [(each.date, each.n_lb, _feeding_of(day(each.date))) for each in feed.applications]
    water = [(w.date, w.n_lb, tr("watering of {day}", day=day(w.date))) for w in feed.water.days]
    parts = tuple(
        numbered(given(day(of), rate_told(lb), origin), f"p{place}", lb, RATE_UNIT)
        for place, (of, lb, origin) in enumerate((*fed, *water))
        if since < of <= on and lb > 0
    )
    formula = sum_of(parts)
    return Working(
        "rolling_30_days",
        tr("Fed in the last 30 days"),
        rate_told(feed.rolling(on)),
        tr("sum of what was put down in the last 30 days, the day itself among them"),
        put_in(formula, parts),
        parts,
        sources("n-arithmetic"),
        reckons(formula, RATE_UNIT),
    )


def rates_of_months(by_month: Iterable[float], origin: Callable[[int], str]) -> tuple[Input, ...]:
    """The rates of the months in which there is any, as parts of a sum; `origin` of a month."""
    return tuple(
        numbered(given(month_name(month), rate_told(lb), origin(month)), f"m{month}", lb, RATE_UNIT)
        for month, lb in enumerate(by_month, start=1)
        if lb > 0
    )


def sum_of(parts: Iterable[Input]) -> str:
    """The formula of the sum of its inputs; "0" without any."""
    symbols = [part.quantity.symbol for part in parts if part.quantity is not None]
    return " + ".join(f"{{{each}}}" for each in symbols) or "0"


def rated(symbol: str, name: str, lb_per_1000: float, origin: str) -> Input:
    """An input that is a rate of nitrogen."""
    return numbered(given(name, rate_told(lb_per_1000), origin), symbol, lb_per_1000, RATE_UNIT)


def _water(feed: ZoneFeed, on: date) -> Working:
    """Gross inches × mg/L × the pounds that one of each brings, with all the digits that count."""
    brought, depth = sum(feed.water_by_month(on)), feed.water_depth_in(on)
    one = told_exactly(irrigation_n_lb_per_1000(1.0, 1.0))
    mg, formula = feed.water.mg_per_l, "{depth} × {mg} × " + str(irrigation_n_lb_per_1000(1.0, 1.0))
    fallen = given(tr("Gross depth"), told(depth, 2, "in"), tr("waterings recorded this year"))
    held = given(
        tr("Nitrogen in the water"),
        f"{told_exactly(mg)} mg/L",
        tr("entered under Yard, as nitrogen: mg/L of nitrate ÷ 4.43"),
    )
    inputs = (numbered(fallen, "depth", depth, "in"), numbered(held, "mg", mg, "mg/L"))
    return Working(
        "water_year",
        tr("Nitrogen that the water brought this year"),
        rate_told(brought),
        tr("gross depth of the waterings × nitrogen in the water × {one}", one=one),
        f"{told_exactly(depth)} × {told_exactly(mg)} × {one}",
        inputs,
        sources("water-n"),
        reckons(formula, RATE_UNIT),
    )


def budget_month_working(feed: ZoneFeed, growth: tuple[float, ...], on: date) -> Working:
    """What growth potential gives the month of a day of the budget's year."""
    share, whole, year = growth[on.month - 1], feed.budget.growth_sum, feed.budget.year_lb
    name, formula = month_in_full(on.month), "{year} × {share} ÷ {whole}"
    grown = tr("growth potential of {name}, of the budget's temperatures", name=name)
    inputs = (
        rated("year", tr("Budget of the year"), year, budget_told(feed.budget.name)),
        numbered(
            given(tr("Growth potential of {name}", name=name), told(share, 2), grown),
            "share",
            share,
        ),
        numbered(
            given(
                tr("Growth potential of all months fed"), told(whole, 2), tr("their temperatures")
            ),
            "whole",
            whole,
        ),
    )
    return Working(
        "budget_month",
        tr("Budget of {name}", name=name),
        rate_told(feed.budget.by_month[on.month - 1]),
        tr("budget of the year × growth potential of the month ÷ that of all months fed"),
        put_in("{year} × {share:4} ÷ {whole:4}", inputs),
        inputs,
        feed.budget.source,
        reckons(formula, RATE_UNIT),
    )


def _released(released: Released) -> Working:
    """What becomes available in the year: nothing but what is down already."""
    months = rates_of_months(released.by_month, lambda _: tr("from what is down"))
    formula = sum_of(months)
    return Working(
        "released_year",
        tr("Becoming available this year"),
        rate_told(sum(released.by_month)),
        tr("sum over the months: quick nitrogen over its first weeks, slow over its release weeks"),
        put_in(formula, months),
        months,
        released.source,
        reckons(formula, RATE_UNIT),
    )


def usable_working(
    feed: ZoneFeed, released: Released, usable: tuple[float, ...], on: date
) -> Working:
    """What the growth of the month of a day can use of the year's budget."""
    share = released.growth_by_month[on.month - 1] or 0.0
    whole = sum(each or 0.0 for each in released.growth_by_month)
    name, formula = month_in_full(on.month), "{year} × {share:4} ÷ {whole:4}"
    inputs = (
        rated("year", tr("Budget of the year"), feed.year_lb, budget_told(feed.budget.name)),
        numbered(
            given(
                tr("Growth potential of {name}", name=name),
                told(share, 2),
                tr("its mean temperature"),
            ),
            "share",
            share,
        ),
        numbered(
            given(tr("Growth potential of all months"), told(whole, 2), tr("their temperatures")),
            "whole",
            whole,
        ),
    )
    return Working(
        "usable_month",
        tr("What growth can use in {name}", name=name),
        rate_told(usable[on.month - 1]),
        tr("budget of the year × growth potential of the month ÷ that of all twelve"),
        put_in(formula, inputs),
        inputs,
        sources("growth-potential"),
        reckons(formula, RATE_UNIT),
    )


def growth_working(feed: ZoneFeed, on: date) -> Iterator[Working]:
    """How well the zone's grass grows in the month of a day, where its temperature is known."""
    tmean_f, growth = feed.ground.tmean_f[on.month - 1], feed.ground.growth[on.month - 1]
    if tmean_f is None or growth is None:
        return
    grass, month = feed.zone.grass, month_in_full(on.month)
    best, width = GROWTH_OPTIMUM_F[grass], GROWTH_SPREAD_F[grass]
    held = f"{told_exactly(tmean_f, 2, '°F')} {unit_shown('°F')}"
    warm_enough = grass == "warm" and tmean_f > best
    formula = "exp(−½ × (({mean} − {best:0}) ÷ {width:0})²)"
    # Warm-season grass is not slowed by heat, which a mean ten percent lower may no longer have.
    anew = formula.replace("{mean}", "min({mean}, {best})") if grass == "warm" else formula
    inputs = (
        numbered(
            given(tr("Mean of {month}", month=month), held, tr("temperatures of this notebook")),
            "mean",
            tmean_f,
            "°F",
        ),
        numbered(
            given(tr("Best"), plainly(best, "°F", 4), tr("{grass}-season grass", grass=tr(grass))),
            "best",
            best,
            "°F",
        ),
        # A width is a difference of temperatures: told as it is, never turned into a temperature.
        numbered(
            given(tr("Width"), f"{width:g} °F", tr("{grass}-season grass", grass=tr(grass))),
            "width",
            width,
        ),
    )
    yield Working(
        "growth_potential",
        tr("Growth potential of {month}", month=month),
        told(growth, 2),
        tr(
            "1, for heat above {plainly} does not slow warm-season grass",
            plainly=plainly(best, "°F", 4),
        )
        if warm_enough
        else tr("exp(−½ × ((mean − best) ÷ width)²)"),
        "1" if warm_enough else put_in(formula, inputs),
        inputs,
        sources("growth-potential"),
        reckons(anew),
    )


def _left_year(feed: ZoneFeed, on: date) -> Working:
    formula = "{year} − {fed}"
    inputs = (
        rated("year", tr("Budget of the year"), feed.year_lb, budget_told(feed.budget.name)),
        rated("fed", tr("Fed this year"), feed.in_year(on), _recorded(feed, on)),
    )
    return Working(
        "left_this_year",
        tr("Left this year"),
        rate_told(feed.left_this_year(on)),
        tr("budget of the year − fed this year"),
        put_in(formula, inputs),
        inputs,
        feed.budget.year_source,
        reckons(formula, RATE_UNIT),
    )


def _recorded(feed: ZoneFeed, on: date) -> str:
    """From which records nitrogen put down is known."""
    watered = any(feed.water_by_month(on))
    return tr("feedings and waterings recorded") if watered else tr("feedings recorded")


def _left_month(feed: ZoneFeed, on: date) -> Working:
    month, fed, left = feed.month_lb(on), feed.in_month(on), feed.left_this_year(on)
    name, formula = month_name(on.month), "min({month} − {fed}, {left})"
    inputs = (
        rated("month", tr("Budget of {name}", name=name), month, budget_told(feed.budget.name)),
        rated("fed", tr("Fed in {name}", name=name), fed, _recorded(feed, on)),
        rated(
            "left", tr("Left this year"), left, tr("worked out: budget of the year − fed this year")
        ),
    )
    return Working(
        "left_this_month",
        tr("Left this month"),
        rate_told(feed.left_this_month(on)),
        tr("lesser of (budget of the month − fed this month) and what is left of the year"),
        put_in(formula, inputs),
        inputs,
        feed.budget.source,
        reckons(formula, RATE_UNIT),
    )


def next_working(feed: ZoneFeed, upcoming: NextFeeding, product: Product | None) -> Working:
    """How the pounds of a zone's next feeding came about."""
    n_pct = analysis_of(product).n_pct if product is not None else PURE_N_PCT
    name = product.name if product is not None else "nitrogen"
    most, area = upcoming.n_lb_per_1000, upcoming.area_sqft
    formula = "{most} × {area:0} ÷ 1,000 ÷ {share}"
    treated = given(tr("Area treated"), told(area, 0, "sq ft"), _ground(upcoming))
    of_label = (
        tr("{name}, its label", name=name)
        if product is not None
        else tr("pure nitrogen, for no product")
    )
    share = given("N", told(n_pct, 1, "%"), of_label)
    inputs = (
        rated("most", tr("Most that passes"), most, tr("budget and rules, on that day")),
        numbered(treated, "area", area, "sq ft"),
        numbered(share, "share", n_pct / 100),
    )
    return Working(
        "next_feeding",
        tr("Next feeding"),
        tr(
            "{date}, {pounds} {unit_shown} of {name}",
            date=day(upcoming.date),
            pounds=told_most(upcoming.pounds),
            unit_shown=unit_shown("lb"),
            name=name,
        ),
        tr("most that passes every rule × area treated ÷ 1,000 ÷ (N % ÷ 100)"),
        f"{put_in(formula, inputs)} = {told_exactly(upcoming.pounds)}",
        inputs,
        sources("n-arithmetic", *_limit_keys(feed)),
        Reckoning(formula, "lb", 2, "most"),
    )


def _ground(upcoming: NextFeeding) -> str:
    if not upcoming.strips:
        return tr("outline")
    return tr("outline less the strip along {names_told}", names_told=names_told(upcoming.strips))


def _limit_keys(feed: ZoneFeed) -> tuple[str, ...]:
    """The sources of the published limits that the owner's rules leave in force."""
    limits = feed.limits
    return tuple(
        key
        for key, source in (("msu-n", limits.total_source), ("cornell-quick", limits.quick_source))
        if source == sources(key)
    )
