"""What has been fed, zone by zone and day by day, and the budget and limits that it counts against.

An application is everything on one zone on one day. Nitrogen counts whole in the month it is
applied. The area treated is the one frozen at the feeding, or else the zone's.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from lawnbook.agronomy.nitrogen import (
    MAX_QUICK_LB,
    MAX_TOTAL_LB,
    ROLLING_DAYS,
    MonthlyBudget,
    budget_by_month,
    budget_for,
    budget_year,
    either_month,
    n_lb_per_1000sqft,
    n_year,
    quick_n_pct,
    too_late_in_month,
)
from lawnbook.plan.season import within
from lawnbook.plan.workings import OWN, sources
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feeding, NRules, Product, Season, Zone

LEAST_N_PCT = 0.01
"""A product with less nitrogen than labels can state carries none."""

LEAST_TREATED_SQFT = 0.01
"""No area treated is smaller; a lower figure is a slip, and the zone's area stands in."""


@dataclass(frozen=True, slots=True)
class Application:
    """All nitrogen on one zone on one day, lb per 1,000 sq ft, and the quick part of it."""

    date: date
    n_lb: float
    quick_lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """A zone's nitrogen by calendar month and for its year, lb per 1,000 sq ft."""

    name: str
    source: str
    by_month: tuple[float, ...]
    year_lb: float
    year_source: str
    table: MonthlyBudget | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """The limits on one application and on the year, each with its source."""

    max_total_lb: float
    total_source: str
    max_quick_lb: float
    quick_source: str
    year_lb: float | None
    min_slow_pct: float | None
    min_days: int | None
    blackouts: tuple[Season, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneFeed:
    """One zone's nitrogen: its budget, its limits and its applications in date order.

    `let_go_dormant` is the owner's choice for a drought; it holds in the irrigation `season`.
    """

    zone: Zone
    area_sqft: float
    latitude_deg: float
    budget: Budget
    limits: Limits
    applications: tuple[Application, ...]
    let_go_dormant: bool = False
    season: Season | None = None

    @property
    def year_lb(self) -> float:
        """What the year may take: the budget's, or less where the owner's own rule says less."""
        own = self.limits.year_lb
        return self.budget.year_lb if own is None else min(self.budget.year_lb, own)

    def dormant_on(self, on: date) -> bool:
        """Whether the zone is let go dormant on a day."""
        return self.let_go_dormant and (self.season is None or within(self.season, on))

    def in_month(self, on: date) -> float:
        """Nitrogen applied in the calendar month of a day."""
        month = (on.year, on.month)
        applied = (a.n_lb for a in self.applications if (a.date.year, a.date.month) == month)
        return sum(applied, 0.0)

    def in_year(self, on: date) -> float:
        """Nitrogen applied in the budget year of a day."""
        _, start, end = n_year(on, self.latitude_deg)
        return sum((a.n_lb for a in self.applications if start <= a.date <= end), 0.0)

    def on_day(self, on: date) -> Application:
        """The application of a day, of nothing where there was none."""
        return next((a for a in self.applications if a.date == on), Application(on, 0.0, 0.0))

    def last_before(self, on: date) -> date | None:
        """The day of the last application before a day."""
        return max((a.date for a in self.applications if a.date < on), default=None)

    def rolling(self, on: date) -> float:
        """Nitrogen of the last 30 days, the day itself included."""
        since = on - timedelta(days=ROLLING_DAYS)
        return sum((a.n_lb for a in self.applications if since < a.date <= on), 0.0)

    def by_month(self, on: date, *, quick: bool = False) -> tuple[float, ...]:
        """Nitrogen of each calendar month, January to December, in the budget year of a day."""
        _, start, end = n_year(on, self.latitude_deg)
        months = [0.0] * 12
        for each in self.applications:
            if start <= each.date <= end:
                months[each.date.month - 1] += each.quick_lb if quick else each.n_lb
        return tuple(months)

    def month_lb(self, on: date) -> float:
        """What the month of a day may take: nothing where the other of "either" months was fed."""
        return 0.0 if self.other_month_fed(on) else self.budget.by_month[on.month - 1]

    def other_month_fed(self, on: date) -> int | None:
        """The month that shares its feeding with the month of a day and was fed this year."""
        if self.budget.table is None:
            return None
        other = either_month(self.budget.table, on.month, self.latitude_deg)
        return other if other is not None and self.by_month(on)[other - 1] > 0 else None

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


def feeds_of(notebook: Notebook, areas: Mapping[str, float]) -> dict[str, ZoneFeed]:
    """Every zone's nitrogen by zone id, from the notebook as of the day and the zones' areas."""
    latitude = notebook.yard.latitude_deg or 0.0
    applied = _applications(notebook, areas)
    return {
        zone.id: ZoneFeed(
            zone=zone,
            area_sqft=areas[zone.id],
            latitude_deg=latitude,
            budget=budget_of(notebook, zone),
            limits=limits_of(notebook.n_rules),
            applications=applied.get(zone.id, ()),
            let_go_dormant=notebook.yard.drought == "survival",
            season=notebook.yard.irrigation_season,
        )
        for zone in notebook.zones.values()
    }


def budget_of(notebook: Notebook, zone: Zone) -> Budget:
    """The zone's own table, or the published one for its grass, species and level."""
    own = notebook.n_budgets.get(zone.budget) if zone.budget is not None else None
    typed_year = zone.annual_n_lb_per_1000
    if own is not None:
        year = sum(own.by_month) if own.year_lb is None else own.year_lb
        return Budget(
            name=own.name,
            source=OWN,
            by_month=own.by_month,
            year_lb=year if typed_year is None else typed_year,
            year_source=OWN,
            table=None,
        )
    table = budget_for(zone.grass, zone.species)
    cited = sources(table.source_key)
    year = budget_year(table, zone.budget_level)
    return Budget(
        name=f"{table.name}, {zone.budget_level}",
        source=cited,
        by_month=budget_by_month(table, zone.budget_level, notebook.yard.latitude_deg or 0.0),
        year_lb=year if typed_year is None else typed_year,
        year_source=cited if typed_year is None else OWN,
        table=table,
    )


def limits_of(rules: NRules) -> Limits:
    """The published limits, the owner's in their place where they are entered."""
    return Limits(
        max_total_lb=MAX_TOTAL_LB if rules.max_total_lb is None else rules.max_total_lb,
        total_source=sources("msu-n") if rules.max_total_lb is None else OWN,
        max_quick_lb=MAX_QUICK_LB if rules.max_quick_lb is None else rules.max_quick_lb,
        quick_source=sources("cornell-quick") if rules.max_quick_lb is None else OWN,
        year_lb=rules.year_lb,
        min_slow_pct=rules.min_slow_pct,
        min_days=rules.min_days,
        blackouts=rules.blackouts,
    )


def quick_share(product: Product) -> float:
    """Quick part of a product's nitrogen, 0-1; 0 for a product without nitrogen."""
    return quick_pct(product) / product.n_pct if carries_nitrogen(product) else 0.0


def carries_nitrogen(product: Product) -> bool:
    """Whether a product has nitrogen to speak of."""
    return product.n_pct >= LEAST_N_PCT


def quick_pct(product: Product) -> float:
    """Quick nitrogen, percent of the product."""
    return quick_n_pct(product.n_pct, min(product.slow_n_pct, product.n_pct))


def _applications(
    notebook: Notebook, areas: Mapping[str, float]
) -> dict[str, tuple[Application, ...]]:
    sums: dict[str, dict[date, tuple[float, float]]] = {}
    for feeding in notebook.feedings.values():
        product = notebook.products.get(feeding.product)
        if product is None or not carries_nitrogen(product):
            continue
        for zone_id, pounds in feeding.pounds.items():
            area = _treated_sqft(feeding, zone_id, areas)
            if area > 0:
                days = sums.setdefault(zone_id, {})
                n_lb, quick_lb = days.get(feeding.date, (0.0, 0.0))
                days[feeding.date] = (
                    n_lb + n_lb_per_1000sqft(pounds, product.n_pct, area),
                    quick_lb + n_lb_per_1000sqft(pounds, quick_pct(product), area),
                )
    return {
        zone_id: tuple(Application(on, *figures) for on, figures in sorted(days.items()))
        for zone_id, days in sums.items()
    }


def _treated_sqft(feeding: Feeding, zone_id: str, areas: Mapping[str, float]) -> float:
    frozen = feeding.treated_area_sqft.get(zone_id, 0.0)
    return frozen if frozen >= LEAST_TREATED_SQFT else areas.get(zone_id, 0.0)
