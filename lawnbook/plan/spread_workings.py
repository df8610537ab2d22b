"""The workings of a check before spreading: what a feeding brings, where it leads, what passes.

Rates are lb per 1,000 sq ft of the area treated.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import n_lb_per_1000sqft
from lawnbook.frozen import dataclass
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_budget import budget_told
from lawnbook.plan.feed_model import WateringIn, ZoneLoad
from lawnbook.plan.feed_rule import FeedRule, spreadable_of
from lawnbook.plan.feed_rules import tightest
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.nitrogen_workings import growth_working, rated
from lawnbook.plan.season import month_in_full
from lawnbook.plan.spread_passes import Wanted
from lawnbook.plan.working_model import Input, Reckoning, Working
from lawnbook.plan.workings import PERCENT, given, rate_told, sources, told, told_exactly, told_most
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT, unit_shown
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.records import Product

NEAR_SQFT = 0.01
"""Areas that differ by less are the same."""


@dataclass(frozen=True, slots=True)
class Spread:
    """What one zone's workings are made of: what is wanted, its load, and the rules of the day."""

    want: Wanted
    product: Product
    load: ZoneLoad
    rules: Sequence[FeedRule]
    outline_sqft: float


def spread_workings(spread: Spread, watering_in: WateringIn, on: date) -> tuple[Working, ...]:
    """The workings of one zone's check on a day; none where nothing is to be put down."""
    if spread.want.pounds <= 0:
        return ()
    carries = spreadable_of(spread.product).carries_nitrogen
    return (
        *_brought(spread),
        *(_afterwards(spread.want, on) if carries else ()),
        *(growth_working(spread.want.feed, on) if carries else ()),
        *((_most(spread),) if carries else ()),
        *_kept_out(spread.load),
        *_minutes(watering_in),
    )


def _brought(spread: Spread) -> Iterator[Working]:
    """What the pounds bring: nitrogen, its quick part, and phosphate and potash where there is."""
    held, recipe = analysis_of(spread.product), bool(spread.product.ingredients)
    origin = tr("its recipe") if recipe else tr("its label")
    for figure, label, name, share in (
        ("n_lb_per_1000", tr("Nitrogen of this feeding"), "N", held.n_pct),
        ("quick_lb_per_1000", tr("Quick nitrogen of it"), "quick N", held.quick_n_pct),
        ("p2o5_lb_per_1000", tr("Phosphate of this feeding"), "P₂O₅", held.p2o5_pct),
        ("k2o_lb_per_1000", tr("Potash of this feeding"), "K₂O", held.k2o_pct),
    ):
        pct = min(100.0, share)
        if pct <= 0:
            continue
        is_quick = name == "quick N"
        by = tr("{origin}, N less slow N", origin=origin) if is_quick else origin
        pounds, area = spread.want.pounds, spread.load.area_sqft
        formula = "{pounds} × {pct} ÷ 100 × 1,000 ÷ {area:0}"
        shared = given(tr("Pounds"), told(pounds, 2, "lb"), tr("entered, or shared out by area"))
        held_pct = given(name, f"{told_exactly(pct)}{PERCENT}", f"{spread.product.name}, {by}")
        inputs = (
            numbered(shared, "pounds", pounds, "lb"),
            numbered(held_pct, "pct", pct, "%"),
            _area(spread),
        )
        yield Working(
            figure,
            label,
            rate_told(n_lb_per_1000sqft(pounds, pct, area)),
            tr("pounds × {name} % ÷ 100 × 1,000 ÷ area treated", name=name),
            put_in(formula, inputs),
            inputs,
            sources("n-arithmetic"),
            reckons(formula, RATE_UNIT),
        )


def _area(spread: Spread) -> Input:
    load = spread.load
    if load.strip_sqft > 0:
        origin = tr(
            "outline, less the strip along {names_told}", names_told=names_told(load.strips)
        )
    else:
        drawn = abs(load.area_sqft - spread.outline_sqft) < NEAR_SQFT
        origin = tr("outline") if drawn else tr("entered")
    treated = given(tr("Area treated"), told(load.area_sqft, 0, "sq ft"), origin)
    return numbered(treated, "area", load.area_sqft, "sq ft")


def _afterwards(want: Wanted, on: date) -> Iterator[Working]:
    """Where the month and the year stand with this feeding."""
    feed, budget, own = want.feed, want.feed.budget, want.feed.limits.year_lb
    by_rule, named = own is not None and own < budget.year_lb, budget_told(budget.name)
    year = (tr("your rule"), feed.limits.own_source) if by_rule else (named, budget.year_source)
    month = (named, budget.source)
    recorded = tr("feedings and waterings recorded") if feed.water.days else tr("feedings recorded")
    for figure, label, before, limit, (name, source) in (
        ("month_after", month_in_full(on.month), feed.in_month(on), feed.month_lb(on), month),
        ("year_after", tr("The year"), feed.in_year(on), feed.year_lb, year),
    ):
        formula = "{before} + {feeding}"
        inputs = (
            rated("before", tr("Put down before"), before, recorded),
            rated(
                "feeding",
                tr("This feeding"),
                want.amount,
                tr("worked out: nitrogen of this feeding"),
            ),
            given(tr("Budget"), rate_told(limit), name),
        )
        yield Working(
            figure,
            tr("{label} with this feeding", label=label),
            tr("{before} of {limit}", before=told(before + want.amount), limit=rate_told(limit)),
            tr("put down before + this feeding"),
            put_in(formula, inputs),
            inputs,
            source,
            reckons(formula, RATE_UNIT),
        )


def _most(spread: Spread) -> Working:
    """The most that passes: by the rule that leaves the least room, or none on a day it stops."""
    rule, what = tightest(tuple(spread.rules)), spreadable_of(spread.product)
    area = spread.load.area_sqft
    label, figure = tr("Most that passes that day"), "max_lb"
    if rule.stops:
        formula = tr("none while a rule stops the day")
        told_by = (given(tr("Rule"), rule.rule, rule.tells),)
        return Working(figure, label, f"0 {unit_shown('lb')}", formula, "0", told_by, rule.source)
    room = "({limit} − {used}) ÷ {per}"
    part, most = min(100.0, what.n_pct) / 100, what.pounds(rule.room(), area)
    counts = tr("all nitrogen") if rule.per_lb == 1 else tr("the quick part of the nitrogen")
    counting = given(tr("Share that counts"), told_exactly(rule.per_lb), counts)
    label_n = given(
        "N", told(100 * part, 1, "%"), tr("{name}, its label or recipe", name=spread.product.name)
    )
    inputs = (
        rated("limit", tr("Limit"), rule.limit, tr("the tightest rule: {rule}", rule=rule.rule)),
        rated("used", tr("Counted before"), rule.used, tr("recorded in this notebook")),
        numbered(counting, "per", rule.per_lb),
        _area(spread),
        numbered(label_n, "part", part),
    )
    rest = "{area:0} ÷ 1,000 ÷ {part}"
    shown = tr("max(0, {room})", room=room) if rule.used > rule.limit else room
    return Working(
        figure,
        label,
        f"{told_most(most)} {unit_shown('lb')}",
        tr(
            "(limit − counted before) ÷ share that counts × area treated ÷ 1,000 ÷ (N % ÷ "
            "100), rounded down"
        ),
        f"{put_in(f'{shown} × {rest}', inputs)} = {told_exactly(most)}",
        inputs,
        rule.source,
        Reckoning(tr("max(0, {room}) × {rest}", room=room, rest=rest), "lb", 2, "most"),
    )


def _kept_out(load: ZoneLoad) -> Iterator[Working]:
    """What the strips would have got at the same rate."""
    if load.strip_sqft > 0:
        formula = "{rate} × {strips:0} ÷ 1,000"
        strips = given(tr("Strips"), told(load.strip_sqft, 0, "sq ft"), names_told(load.strips))
        inputs = (
            rated("rate", tr("Rate"), load.lb_per_1000, tr("worked out: pounds ÷ area treated")),
            numbered(strips, "strips", load.strip_sqft, "sq ft"),
        )
        yield Working(
            "kept_out_lb",
            tr("Kept back from the strips"),
            told(load.kept_out_lb, 2, "lb"),
            tr("pounds per 1,000 sq ft × area of the strips ÷ 1,000"),
            put_in(formula, inputs),
            inputs,
            sources("n-arithmetic"),
            reckons(formula, "lb"),
        )


def _minutes(watering_in: WateringIn) -> Iterator[Working]:
    """The run that waters in; each cycle is told as whole minutes, none too short."""
    depth, minutes = watering_in.depth_in, watering_in.run_minutes
    if minutes is not None and minutes > 0:
        rate, formula = 60 * depth / minutes, "60 × {depth} ÷ {rate}"
        gross = given(tr("Gross depth"), told(depth, 2, "in"), tr("common practice, to wash it in"))
        falls = given(
            tr("Precipitation rate"), told(rate, 2, "in/h"), tr("see its working under Water")
        )
        inputs = (
            numbered(gross, "depth", depth, "in"),
            numbered(falls, "rate", rate, "in/h"),
        )
        yield Working(
            "watering_in_minutes",
            tr("Run that waters in"),
            told(minutes, 1, "min"),
            tr(
                "60 × gross depth ÷ precipitation rate; each cycle is then set to whole minutes, up"
            ),
            put_in(formula, inputs),
            inputs,
            watering_in.source,
            reckons(formula, "min", 1),
        )
