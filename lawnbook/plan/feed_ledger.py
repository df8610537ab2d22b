"""What has been fed, zone by zone and day by day, and what that leaves of the zone's budget.

An application is everything on one zone on one day. Nitrogen counts whole in the month it is
applied. The area treated is the one frozen at the feeding, or else the zone's. What the irrigation
water brings counts by day in month and year, and in no limit of one application.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field, replace
from datetime import date, timedelta
from functools import partial

from lawnbook.agronomy.mixes import Analysis
from lawnbook.agronomy.nitrogen import (
    ROLLING_DAYS,
    either_month,
    n_lb_per_1000sqft,
    n_year,
    too_late_in_month,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_budget import Budget, Limits, budget_of, limits_of
from lawnbook.plan.feed_ground import NO_GROUND, Ground, grounds_of
from lawnbook.plan.lazily import Later, Lazily, with_unread
from lawnbook.plan.season import within
from lawnbook.plan.water_nitrogen import NO_WATER_N, WaterNitrogen, zone_water_nitrogen
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feeding, Product, Season, Watering, Zone
from lawnbook.yard.table import grouped

LEAST_N_PCT = 0.01
"""A product with less nitrogen than labels can state carries none."""

LEAST_FED_LB = 0.01
"""Less nitrogen than this on a day (lb per 1,000 sq ft) counts, but is no feeding to wait after."""

_OLDER_FED = 2
"""So many applications of nitrogen before the ones that count may still hold others apart."""

LEAST_TREATED_SQFT = 0.01
"""No area treated is smaller; a lower figure is a slip, and the zone's area stands in."""


@dataclass(frozen=True, slots=True)
class FedPart:
    """One feeding's part on one zone: pounds of product, and lb per 1,000 sq ft of what it held."""

    feeding_id: str
    product_id: str
    pounds: float
    area_sqft: float
    n_lb: float
    quick_lb: float
    p2o5_lb: float
    k2o_lb: float

    @property
    def slow_lb(self) -> float:
        """The nitrogen that is not quick."""
        return self.n_lb - self.quick_lb


@dataclass(frozen=True, slots=True)
class Application:
    """All that was fed to one zone on one day, lb per 1,000 sq ft; `quick_lb` is part of `n_lb`.

    Phosphate or potash alone is an application of no nitrogen: it stands in the ledger, and no
    rule of nitrogen, spacing for one, counts it. `parts` are the feedings it is made of, none for
    an application that is only proposed.
    """

    date: date
    n_lb: float
    quick_lb: float
    p2o5_lb: float = 0.0
    k2o_lb: float = 0.0
    parts: tuple[FedPart, ...] = ()


@dataclass(frozen=True, kw_only=True)
class ZoneFeed:
    """One zone's nitrogen: its budget, its limits and its applications in date order.

    `let_go_dormant` is the owner's choice for a drought; it holds in the irrigation `season`.
    `water` holds the nitrogen of the waterings in the budget year of the day it was made for.
    `ground` is what the rules ask besides: warmth, new turf, phosphorus.
    """

    zone: Zone
    area_sqft: float
    latitude_deg: float
    budget: Budget
    limits: Limits
    applications: Lazily[tuple[Application, ...]] = field(default=Lazily())
    let_go_dormant: bool = False
    season: Season | None = None
    water: WaterNitrogen = NO_WATER_N
    ground: Ground = NO_GROUND

    @property
    def fed(self) -> tuple[Application, ...]:
        """The applications that brought nitrogen to speak of."""
        return tuple(each for each in self.applications if each.n_lb >= LEAST_FED_LB)

    def lately(self, on: date) -> "ZoneFeed":
        """The same with what counts from a day on: its budget year's, and the last two fed before.

        A day to come is put to the rules hundreds of times; twenty years of feedings would be
        walked each time.
        """
        start = n_year(on, self.latitude_deg).start
        older = [each for each in self.applications if each.date < start]
        fed = [each for each in older if each.n_lb >= LEAST_FED_LB]
        later = self.applications[len(older) :]
        return replace(self, applications=(*fed[-2:], *later))

    @property
    def year_lb(self) -> float:
        """What the year may take: the budget's, or less where the owner's own rule says less."""
        own = self.limits.year_lb
        return self.budget.year_lb if own is None else min(self.budget.year_lb, own)

    def dormant_on(self, on: date) -> bool:
        """Whether the zone is let go dormant on a day."""
        return self.let_go_dormant and (self.season is None or within(self.season, on))

    def in_month(self, on: date) -> float:
        """Nitrogen applied in the calendar month of a day, the water's included."""
        month = (on.year, on.month)
        return sum((n_lb for that, n_lb in self._dated() if (that.year, that.month) == month), 0.0)

    def in_year(self, on: date) -> float:
        """Nitrogen applied in the budget year of a day, the water's included."""
        _, start, end = n_year(on, self.latitude_deg)
        return sum((n_lb for that, n_lb in self._dated() if start <= that <= end), 0.0)

    def on_day(self, on: date) -> Application:
        """The application of a day, of nothing where there was none; water is none."""
        return next((a for a in self.applications if a.date == on), Application(on, 0.0, 0.0))

    def last_before(self, on: date) -> date | None:
        """The day of the last application of nitrogen before a day; water is none."""
        return max((each.date for each in self.fed if each.date < on), default=None)

    def rolling(self, on: date) -> float:
        """Nitrogen of the last 30 days, the day itself and the water's included."""
        since = on - timedelta(days=ROLLING_DAYS)
        return sum((n_lb for that, n_lb in self._dated() if since < that <= on), 0.0)

    def by_month(self, on: date, *, quick: bool = False) -> tuple[float, ...]:
        """Nitrogen of each calendar month, January to December, in the budget year of a day.

        The water's is included, and all of it is quick.
        """
        fed = self._fed_by_month(on, quick=quick)
        water = self.water_by_month(on)
        return tuple(put + brought for put, brought in zip(fed, water, strict=True))

    def water_by_month(self, on: date) -> tuple[float, ...]:
        """Nitrogen that the water brought in each calendar month of the budget year of a day."""
        _, start, end = n_year(on, self.latitude_deg)
        months = [0.0] * 12
        for each in self.water.days:
            if start <= each.date <= end:
                months[each.date.month - 1] += each.n_lb
        return tuple(months)

    def water_depth_in(self, on: date) -> float:
        """Gross depth of the waterings counted in the budget year of a day."""
        _, start, end = n_year(on, self.latitude_deg)
        return sum((w.depth_in for w in self.water.days if start <= w.date <= end), 0.0)

    def p2o5_in_year(self, on: date) -> float:
        """Phosphate applied in the budget year of a day, lb P2O5 per 1,000 sq ft."""
        _, start, end = n_year(on, self.latitude_deg)
        return sum((a.p2o5_lb for a in self.applications if start <= a.date <= end), 0.0)

    def k2o_in_year(self, on: date) -> float:
        """Potash applied in the budget year of a day, lb K2O per 1,000 sq ft."""
        _, start, end = n_year(on, self.latitude_deg)
        return sum((a.k2o_lb for a in self.applications if start <= a.date <= end), 0.0)

    def month_lb(self, on: date) -> float:
        """What the month of a day may take: nothing where the other of "either" months was fed."""
        return 0.0 if self.other_month_fed(on) else self.budget.by_month[on.month - 1]

    def other_month_fed(self, on: date) -> int | None:
        """The month that shares its feeding with the month of a day and was fed this year.

        What the water brings is no feeding.
        """
        if self.budget.table is None:
            return None
        other = either_month(self.budget.table, on.month, self.latitude_deg)
        return other if other is not None and self._fed_by_month(on)[other - 1] > 0 else None

    def too_late_in_month(self, on: date) -> bool:
        """Whether a published table feeds the month of a day only earlier than on that day."""
        table = self.budget.table
        return table is not None and too_late_in_month(table, on, self.latitude_deg)

    def left_this_month(self, on: date) -> float:
        """The lesser of what month and year have left, negative when over."""
        return min(self.month_lb(on) - self.in_month(on), self.left_this_year(on))

    def left_this_year(self, on: date) -> float:
        """What the year has left, negative when over."""
        return self.year_lb - self.in_year(on)

    def _dated(self) -> Iterator[tuple[date, float]]:
        """Every day's nitrogen, fed and brought by the water."""
        yield from ((each.date, each.n_lb) for each in self.applications)
        yield from ((each.date, each.n_lb) for each in self.water.days)

    def _fed_by_month(self, on: date, *, quick: bool = False) -> tuple[float, ...]:
        _, start, end = n_year(on, self.latitude_deg)
        months = [0.0] * 12
        for each in self.applications:
            if start <= each.date <= end:
                months[each.date.month - 1] += each.quick_lb if quick else each.n_lb
        return tuple(months)


def feeds_of(notebook: Notebook, areas: Mapping[str, float], on: date) -> dict[str, ZoneFeed]:
    """Every zone's nitrogen by zone id, from the notebook as of a day and the zones' areas.

    Applications of all years; the water's nitrogen of the budget year and of the rolling total.
    """
    waterings = grouped(notebook.waterings, "zone")
    return {
        zone_id: with_water(notebook, feed, waterings.get(zone_id, ()), on)
        for zone_id, feed in dry_feeds_of(notebook, areas, on).items()
    }


def dry_feeds_of(notebook: Notebook, areas: Mapping[str, float], on: date) -> dict[str, ZoneFeed]:
    """The same without what the irrigation water brings: no watering on record is looked at."""
    fed, held = grouped(notebook.feedings, "pounds"), _held(notebook)
    grounds = grounds_of(notebook, on)
    return {
        zone.id: ZoneFeed(
            zone=zone,
            area_sqft=areas[zone.id],
            latitude_deg=notebook.yard.latitude_deg or 0.0,
            budget=budget_of(notebook, zone),
            limits=limits_of(notebook.n_rules),
            applications=Later(
                partial(_applications, zone.id, fed.get(zone.id, ()), held, areas[zone.id])
            ),
            let_go_dormant=notebook.yard.drought == "survival",
            season=notebook.yard.irrigation_season,
            ground=grounds[zone.id],
        )
        for zone in notebook.zones.values()
    }


def near_feed(notebook: Notebook, feed: ZoneFeed, on: date) -> ZoneFeed:
    """A zone's nitrogen with the applications that count on a day or later, and no others.

    Those of the budget year and of the rolling total, and the last two with nitrogen before. Of
    decades of feedings only these are reckoned.
    """
    zone_id, area = feed.zone.id, feed.area_sqft
    feedings = grouped(notebook.feedings, "pounds").get(zone_id, ())
    since = _counts_since(feed, on)
    held = _held(notebook)
    found: list[Application] = []
    older = 0
    for that in sorted({each.date for each in feedings}, reverse=True):
        of_day = [each for each in feedings if each.date == that]
        listed = _applications(zone_id, of_day, held, area)
        found += listed
        older += that < since and any(each.n_lb >= LEAST_FED_LB for each in listed)
        if older == _OLDER_FED:
            break
    return with_unread(feed, applications=tuple(reversed(found)))


def _counts_since(feed: ZoneFeed, on: date) -> date:
    """The first day that still counts in the budget year or the rolling total of a day."""
    return min(n_year(on, feed.latitude_deg).start, on - timedelta(days=ROLLING_DAYS - 1))


def with_water(
    notebook: Notebook, feed: ZoneFeed, waterings: Iterable[Watering], on: date
) -> ZoneFeed:
    """A zone's nitrogen with that of its waterings; itself where water brings none."""
    if not notebook.yard.water_n_mg_per_l:
        return feed
    since = _counts_since(feed, on)
    counted = [each for each in waterings if since <= each.date <= on]
    water = zone_water_nitrogen(notebook, feed.zone, feed.area_sqft, counted, on)
    return with_unread(feed, water=water)


def quick_share(product: Product) -> float:
    """Quick part of a product's nitrogen, 0-1; 0 for a product without nitrogen."""
    held = analysis_of(product)
    return min(1.0, held.quick_n_pct / held.n_pct) if carries_nitrogen(product) else 0.0


def carries_nitrogen(product: Product) -> bool:
    """Whether a product has nitrogen to speak of."""
    return analysis_of(product).n_pct >= LEAST_N_PCT


def part_of(feeding: Feeding, zone_id: str, held: Analysis, zone_sqft: float) -> FedPart:
    """What a feeding of a product that holds so much brought to one of its zones.

    Nothing per 1,000 sq ft where the zone has no area.
    """
    pounds, area = feeding.pounds[zone_id], treated_sqft(feeding, zone_id, zone_sqft)
    n_lb, quick_lb, p2o5_lb, k2o_lb = (
        n_lb_per_1000sqft(pounds, min(100.0, pct), area) if area > 0 else 0.0
        for pct in (held.n_pct, held.quick_n_pct, held.p2o5_pct, held.k2o_pct)
    )
    return FedPart(feeding.id, feeding.product, pounds, area, n_lb, quick_lb, p2o5_lb, k2o_lb)


def treated_sqft(feeding: Feeding, zone_id: str, zone_sqft: float) -> float:
    """The area a feeding treated on a zone: frozen with it, or else the zone's."""
    frozen = feeding.treated_area_sqft.get(zone_id, 0.0)
    return frozen if frozen >= LEAST_TREATED_SQFT else zone_sqft


def _held(notebook: Notebook) -> dict[str, Analysis]:
    """What each product on the shelf holds, by its id."""
    return {product.id: analysis_of(product) for product in notebook.products.values()}


def _applications(
    zone_id: str, feedings: Iterable[Feeding], held: Mapping[str, Analysis], area_sqft: float
) -> tuple[Application, ...]:
    """All that some feedings brought to a zone, in date order."""
    parts: dict[date, list[FedPart]] = {}
    for feeding in feedings:
        analysis = held.get(feeding.product)
        if analysis is None:
            continue
        part = part_of(feeding, zone_id, analysis, area_sqft)
        if part.n_lb > 0 or part.p2o5_lb > 0 or part.k2o_lb > 0:
            parts.setdefault(feeding.date, []).append(part)
    return tuple(_application(on, listed) for on, listed in sorted(parts.items()))


def _application(on: date, parts: list[FedPart]) -> Application:
    return Application(
        on,
        sum((each.n_lb for each in parts), 0.0),
        sum((each.quick_lb for each in parts), 0.0),
        sum((each.p2o5_lb for each in parts), 0.0),
        sum((each.k2o_lb for each in parts), 0.0),
        tuple(parts),
    )
