"""The check before spreading: does a product in these pounds pass every rule on a day?"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from lawnbook.agronomy.nitrogen import EARLY_UNTIL_DAY, n_lb_per_1000sqft, product_lb_for_rate
from lawnbook.plan.cautions import spread_cautions
from lawnbook.plan.due import names_told
from lawnbook.plan.feed_ledger import ZoneFeed, carries_nitrogen, feeds_of, quick_pct, quick_share
from lawnbook.plan.feed_rules import candidate_days, passes, room_lb, rules_on, tightest
from lawnbook.plan.model import SpreadCheck, ZoneSpread
from lawnbook.plan.season import month_in_full, plannable
from lawnbook.plan.workings import told_most, told_small
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook, as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import NOTHING_BY_ZONE, ByZone, Product

LEAST_TOLD_LB = 0.01
"""Fewer pounds of product than this are told as nothing."""


def check_spread(
    notebook: Notebook,
    product_id: str,
    pounds_by_zone: Mapping[str, float],
    on: date,
    treated_area_sqft: ByZone = NOTHING_BY_ZONE,
) -> SpreadCheck:
    """The verdict on spreading pounds of a product, by zone id, on a day.

    A zone is treated whole unless `treated_area_sqft` says how much of it. Only what is recorded
    up to that day counts. Raises OwnerError for an unknown product or zone, for pounds or an
    area that cannot be, and for a day beyond any notebook.
    """
    plannable(on)
    product = _product(notebook, product_id)
    areas = _areas(notebook, pounds_by_zone, treated_area_sqft)
    _check_pounds(notebook, pounds_by_zone, areas)
    known = as_of(notebook, on)
    outlines = {zone.id: zone_area_sqft(zone) for zone in known.zones.values()}
    feeds = feeds_of(known, outlines, on)
    pairs = [
        (replace(feeds[zone_id], area_sqft=areas[zone_id]), pounds)
        for zone_id, pounds in pounds_by_zone.items()
    ]
    zones = tuple(_zone(feed, product, pounds, on) for feed, pounds in pairs)
    earliest = _earliest(pairs, product, on)
    return SpreadCheck(
        within=all(zone.within for zone in zones),
        on=on,
        product=product.name,
        zones=zones,
        earliest_date=earliest,
        verdict=_verdict(zones, product, on, earliest),
        cautions=(*_too_late(pairs, product, on), *spread_cautions(notebook, product, on)),
    )


def pounds_for_rate(
    notebook: Notebook,
    product_id: str,
    zone_ids: Iterable[str],
    n_lb_per_1000: float,
    treated_area_sqft: ByZone = NOTHING_BY_ZONE,
) -> dict[str, float]:
    """Pounds of a product, by zone id, that bring a rate of nitrogen (lb per 1,000 sq ft).

    The rate is that of the area treated, the whole zone where `treated_area_sqft` is silent.
    Raises OwnerError for a product without nitrogen, an unknown zone, or a rate below zero.
    """
    product = _product(notebook, product_id)
    if not carries_nitrogen(product):
        raise OwnerError(
            f"Product: {product.name} carries no nitrogen, so it has no rate of nitrogen; enter "
            "pounds instead."
        )
    if not math.isfinite(n_lb_per_1000) or n_lb_per_1000 < 0:
        raise OwnerError("Rate: enter pounds of nitrogen per 1,000 sq ft, zero or more.")
    return {
        zone_id: product_lb_for_rate(n_lb_per_1000, product.n_pct, area)
        for zone_id, area in _areas(notebook, zone_ids, treated_area_sqft).items()
    }


def share_by_area(
    notebook: Notebook,
    zone_ids: Iterable[str],
    pounds: float,
    treated_area_sqft: ByZone = NOTHING_BY_ZONE,
) -> dict[str, float]:
    """Pounds shared out over zones by the area treated. Raises OwnerError like `check_spread`."""
    areas = _areas(notebook, zone_ids, treated_area_sqft)
    total = sum(areas.values())
    if not areas or total <= 0:
        raise OwnerError("Zone: choose at least one zone with an area to spread on.")
    shares = {zone_id: pounds * area / total for zone_id, area in areas.items()}
    _check_pounds(notebook, shares, areas)
    return shares


def _zone(feed: ZoneFeed, product: Product, pounds: float, on: date) -> ZoneSpread:
    n_lb = n_lb_per_1000sqft(pounds, product.n_pct, feed.area_sqft)
    rules = rules_on(feed, on, quick_share(product))
    broken = tuple(rule for rule in rules if rule.broken(n_lb))
    room = room_lb(rules)
    binding = broken or ((tightest(rules),) if carries_nitrogen(product) else ())
    return ZoneSpread(
        zone=feed.zone.name,
        zone_id=feed.zone.id,
        within=not broken,
        pounds=pounds,
        area_sqft=feed.area_sqft,
        n_lb_per_1000=n_lb,
        quick_lb_per_1000=n_lb_per_1000sqft(pounds, quick_pct(product), feed.area_sqft),
        month_after=feed.in_month(on) + n_lb,
        month_budget=feed.month_lb(on),
        year_after=feed.in_year(on) + n_lb,
        year_budget=feed.year_lb,
        over_by_lb_per_1000=max(0.0, n_lb - room) if broken else 0.0,
        max_lb=_most_lb(feed, product, room, pounds),
        binding=tuple(rule.told(n_lb) for rule in binding),
    )


def _too_late(pairs: Sequence[tuple[ZoneFeed, float]], product: Product, on: date) -> Iterator[str]:
    late = [feed.zone.name for feed, _ in pairs if feed.too_late_in_month(on)]
    if late and carries_nitrogen(product):
        yield (
            f"The table feeds {month_in_full(on.month)} early, by about the {EARLY_UNTIL_DAY}th: "
            f"{day(on)} is late for {names_told(late)}."
        )


def _most_lb(feed: ZoneFeed, product: Product, room: float, pounds: float) -> float:
    """The most pounds that pass. Without nitrogen no rule bounds them: the pounds asked for."""
    if not carries_nitrogen(product):
        return pounds
    return product_lb_for_rate(room, product.n_pct, feed.area_sqft)


def _earliest(pairs: Sequence[tuple[ZoneFeed, float]], product: Product, on: date) -> date | None:
    """The first day within two years on which every zone passes."""
    share = quick_share(product)
    rates = [
        (feed, n_lb_per_1000sqft(pounds, product.n_pct, feed.area_sqft)) for feed, pounds in pairs
    ]
    days = sorted({each for feed, _ in pairs for each in candidate_days(feed, on)})
    return next(
        (each for each in days if all(passes(feed, each, share, n_lb) for feed, n_lb in rates)),
        None,
    )


def _verdict(zones: Sequence[ZoneSpread], product: Product, on: date, earliest: date | None) -> str:
    if not carries_nitrogen(product):
        return f"{product.name} carries no nitrogen: no nitrogen rule applies. The label does."
    over = [zone for zone in zones if not zone.within]
    if not over:
        most = f": up to {told_most(zones[0].max_lb)} lb may go down" if len(zones) == 1 else ""
        return f"Within budget on {day(on)}{most}."
    worst = max(over, key=lambda zone: zone.over_by_lb_per_1000)
    when = f"It passes from {day(earliest)}." if earliest else "No day within two years passes."
    names = names_told([zone.zone for zone in over])
    by = "is over by" if len(over) == 1 else "are over by up to"
    most = (
        f"at most {told_most(worst.max_lb)} lb may go on {worst.zone} that day"
        if worst.max_lb >= LEAST_TOLD_LB
        else f"nothing may go on {worst.zone} that day"
    )
    return (
        f"Not within budget on {day(on)}: {names} {by} "
        f"{told_small(worst.over_by_lb_per_1000)} lb N per 1,000 sq ft; {most}. {when}"
    )


def _product(notebook: Notebook, product_id: str) -> Product:
    product = notebook.products.get(product_id)
    if product is None:
        raise OwnerError(f"Product: there is no {product_id} on the shelf; add it under Feed.")
    return product


def _areas(
    notebook: Notebook, zone_ids: Iterable[str], treated_area_sqft: ByZone
) -> dict[str, float]:
    """The area treated of each zone: what is said of it, or else its outline's."""
    areas = {}
    for zone_id in zone_ids:
        zone = notebook.zones.get(zone_id)
        if zone is None:
            raise OwnerError(f"Zone: there is no zone {zone_id}; choose one of the yard's zones.")
        area = areas[zone_id] = treated_area_sqft.get(zone_id, zone_area_sqft(zone))
        if zone_id in treated_area_sqft and not 0 < area < math.inf:
            raise OwnerError(f"Area treated: {zone.name} needs square feet above zero.")
    return areas


def _check_pounds(
    notebook: Notebook, pounds_by_zone: Mapping[str, float], areas: Mapping[str, float]
) -> None:
    if not pounds_by_zone:
        raise OwnerError("Zone: choose at least one zone to spread on.")
    for zone_id, pounds in pounds_by_zone.items():
        if not math.isfinite(pounds) or pounds < 0:
            raise OwnerError(f"Pounds: {pounds:g} is no weight; enter a number of zero or more.")
        if areas[zone_id] <= 0:
            name = notebook.zones[zone_id].name
            raise OwnerError(f"Zone: {name} has no area; draw its outline first.")
