"""The check before spreading: does a product in these pounds pass every rule on a day?"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.nitrogen import EARLY_UNTIL_DAY, n_lb_per_1000sqft
from lawnbook.plan.cautions import spread_cautions
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_ledger import carries_nitrogen, feeds_of
from lawnbook.plan.feed_rule import FeedRule, Spreadable, spreadable_of
from lawnbook.plan.feed_rules import room_lb, rules_on, tightest
from lawnbook.plan.model import SpreadCheck, ZoneSpread
from lawnbook.plan.season import month_in_full, plannable
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.spread_loads import Treated, load_of, settings_of, tanks_of, treated_of
from lawnbook.plan.spread_notes import spread_notes
from lawnbook.plan.spread_passes import Wanted, first_day, gap_words, split_of
from lawnbook.plan.spread_shopping import shopping_of
from lawnbook.plan.spread_verdict import verdict_of
from lawnbook.plan.spread_water import watering_in_of
from lawnbook.plan.spread_workings import Spread, spread_workings
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import shown
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import NOTHING_BY_ZONE, ByZone, Product

USUAL = Conditions()
"""Nothing said of the day: strips are left out, no rain is typed in, any spreader."""


def check_spread(
    notebook: Notebook,
    product_id: str,
    pounds_by_zone: Mapping[str, float],
    on: date,
    treated_area_sqft: ByZone = NOTHING_BY_ZONE,
    conditions: Conditions = USUAL,
) -> SpreadCheck:
    """The verdict on spreading pounds of a product, by zone id, on a day.

    A zone is treated but for the strips along water and features, unless `treated_area_sqft` says
    how much of it. Only what is recorded up to that day counts. Raises OwnerError for an unknown
    product or zone, for pounds or an area that cannot be, and for a day beyond any notebook.
    """
    plannable(on)
    product = _product(notebook, product_id)
    treated = treated_of(notebook, pounds_by_zone, treated_area_sqft, conditions)
    _check_pounds(notebook, pounds_by_zone, treated)
    known, what = as_of(notebook, on), spreadable_of(product)
    wanted = _wanted(known, what, pounds_by_zone, treated, on)
    zones = tuple(_zone(known, want, product, treated[want.feed.zone.id], on) for want in wanted)
    loads = {zone.zone: zone.load for zone in zones if zone.load is not None}
    earliest, split = first_day(wanted, what, on), split_of(wanted, what, on)
    spread_on = [want.feed.zone for want in wanted]
    return SpreadCheck(
        within=all(zone.within for zone in zones),
        on=on,
        product=product.name,
        zones=zones,
        earliest_date=earliest,
        verdict=verdict_of(zones, what, on, earliest),
        cautions=(
            *_too_late(wanted, what, on),
            *spread_cautions(notebook, product, on, spread_on),
        ),
        notes=(
            *spread_notes(notebook, spread_on, product, on, conditions),
            *gap_words(wanted, split),
        ),
        split=split,
        shopping=shopping_of(product, sum(pounds_by_zone.values())),
        settings=settings_of(known, product, loads, conditions.spreader),
        tanks=tanks_of(known, product, loads, conditions.spreader),
    )


def pounds_for_rate(
    notebook: Notebook,
    product_id: str,
    zone_ids: Iterable[str],
    n_lb_per_1000: float,
    treated_area_sqft: ByZone = NOTHING_BY_ZONE,
    conditions: Conditions = USUAL,
) -> dict[str, float]:
    """Pounds of a product, by zone id, that bring a rate of nitrogen (lb per 1,000 sq ft).

    The rate is that of the area treated, as `check_spread` takes it. Raises OwnerError for a
    product without nitrogen, an unknown zone, or a rate below zero.
    """
    product = _product(notebook, product_id)
    if not carries_nitrogen(product):
        raise OwnerError(
            tr(
                "Product: {name} carries no nitrogen, so it has no rate of nitrogen; enter "
                "{weight_word} instead.",
                name=product.name,
                weight_word=weight_word(),
            )
        )
    if not math.isfinite(n_lb_per_1000) or n_lb_per_1000 < 0:
        raise OwnerError(tr("Rate: enter {rate_word}, zero or more.", rate_word=_rate_word()))
    what = spreadable_of(product)
    return {
        zone_id: what.pounds(n_lb_per_1000, each.area_sqft)
        for zone_id, each in treated_of(notebook, zone_ids, treated_area_sqft, conditions).items()
    }


def share_by_area(
    notebook: Notebook,
    zone_ids: Iterable[str],
    pounds: float,
    treated_area_sqft: ByZone = NOTHING_BY_ZONE,
    conditions: Conditions = USUAL,
) -> dict[str, float]:
    """Pounds shared out over zones by the area treated. Raises OwnerError like `check_spread`."""
    treated = treated_of(notebook, zone_ids, treated_area_sqft, conditions)
    total = sum(each.area_sqft for each in treated.values())
    if not treated or total <= 0:
        raise OwnerError(tr("Zone: choose at least one zone with an area to spread on."))
    shares = {zone_id: pounds * each.area_sqft / total for zone_id, each in treated.items()}
    _check_pounds(notebook, shares, treated)
    return shares


def _wanted(
    known: Notebook,
    what: Spreadable,
    pounds_by_zone: Mapping[str, float],
    treated: Mapping[str, Treated],
    on: date,
) -> tuple[Wanted, ...]:
    """What is wanted on each zone, beside what was fed there up to the day."""
    outlines = {zone.id: zone_area_sqft(zone) for zone in known.zones.values()}
    feeds = feeds_of(known, outlines, on)
    return tuple(
        Wanted(
            feed=replace(feeds[zone_id].lately(on), area_sqft=treated[zone_id].area_sqft),
            pounds=pounds,
            amount=what.amount(pounds, treated[zone_id].area_sqft),
        )
        for zone_id, pounds in pounds_by_zone.items()
    )


def _zone(
    known: Notebook, want: Wanted, product: Product, treated: Treated, on: date
) -> ZoneSpread:
    feed, what, held = want.feed, spreadable_of(product), analysis_of(product)
    rules = rules_on(feed, on, what)
    broken = tuple(rule for rule in rules if rule.broken(want.amount))
    room = room_lb(rules)
    binding = broken or ((tightest(rules),) if what.carries_nitrogen else ())
    n_lb, quick_lb, p2o5_lb, k2o_lb = (
        n_lb_per_1000sqft(want.pounds, min(100.0, pct), feed.area_sqft)
        for pct in (held.n_pct, held.quick_n_pct, held.p2o5_pct, held.k2o_pct)
    )
    load = load_of(treated, product, want.pounds)
    watering_in = watering_in_of(known, feed.zone, on)
    spread = Spread(want, product, load, rules, zone_area_sqft(feed.zone))
    return ZoneSpread(
        zone=feed.zone.name,
        zone_id=feed.zone.id,
        within=not broken,
        pounds=want.pounds,
        area_sqft=feed.area_sqft,
        n_lb_per_1000=n_lb,
        quick_lb_per_1000=quick_lb,
        month_after=feed.in_month(on) + n_lb,
        month_budget=feed.month_lb(on),
        year_after=feed.in_year(on) + n_lb,
        year_budget=feed.year_lb,
        over_by_lb_per_1000=_over_by(rules, want.amount) if what.carries_nitrogen else 0.0,
        max_lb=want.pounds if math.isinf(room) else what.pounds(room, feed.area_sqft),
        binding=tuple(rule.told(want.amount) for rule in binding),
        p2o5_lb_per_1000=p2o5_lb,
        k2o_lb_per_1000=k2o_lb,
        why_none=() if room > 0 else tuple(rule.short for rule in rules if not rule.has_room),
        load=load,
        watering_in=watering_in,
        workings=spread_workings(spread, watering_in, on),
    )


def _over_by(rules: Iterable[FeedRule], n_lb: float) -> float:
    """By how much an amount passes the rules that set one, lb per 1,000 sq ft."""
    rooms = (rule.room() for rule in rules if rule.broken(n_lb) and not rule.stops)
    return max((n_lb - room for room in rooms), default=0.0)


def _too_late(wanted: Sequence[Wanted], what: Spreadable, on: date) -> Iterator[str]:
    late = [each.feed.zone.name for each in wanted if each.feed.too_late_in_month(on)]
    if late and what.carries_nitrogen:
        yield (
            tr(
                "The table feeds {month_in_full} early, by about the {early_until_day}th: {on} "
                "is late for {names_told}.",
                month_in_full=month_in_full(on.month),
                early_until_day=EARLY_UNTIL_DAY,
                on=day(on),
                names_told=names_told(late),
            )
        )


def _product(notebook: Notebook, product_id: str) -> Product:
    product = notebook.products.get(product_id)
    if product is None:
        raise OwnerError(
            tr(
                "Product: there is no {product_id} on the shelf; add it under Feed.",
                product_id=product_id,
            )
        )
    return product


def _check_pounds(
    notebook: Notebook, pounds_by_zone: Mapping[str, float], treated: Mapping[str, Treated]
) -> None:
    if not pounds_by_zone:
        raise OwnerError(tr("Zone: choose at least one zone to spread on."))
    for zone_id, pounds in pounds_by_zone.items():
        if not math.isfinite(pounds) or pounds < 0:
            raise OwnerError(
                tr(
                    "{weight_word}: {pounds:g} is no weight; enter a number of zero or more.",
                    weight_word=weight_word().capitalize(),
                    pounds=shown(pounds, "lb"),
                )
            )
        if treated[zone_id].area_sqft <= 0:
            name = notebook.zones[zone_id].name
            raise OwnerError(tr("Zone: {name} has no area; draw its outline first.", name=name))


def weight_word() -> str:
    """What weights are entered in: "pounds", "kilograms"."""
    return tr("kilograms") if is_metric() else tr("pounds")


def _rate_word() -> str:
    if is_metric():
        return tr("grams of nitrogen per m²")
    return tr("pounds of nitrogen per 1,000 sq ft")
