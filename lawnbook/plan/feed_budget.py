"""What a zone's nitrogen counts against: its budget by month and year, and the limits on feeding.

A budget is the owner's own table or the published one at a level. Spread by growth, the year's
amount is shared out by growth potential over the months that the table feeds; its zero months stay
zero.
"""

from dataclasses import replace
from functools import lru_cache

from lawnbook.agronomy.nitrogen import (
    MAX_QUICK_LB,
    MAX_TOTAL_LB,
    MonthlyBudget,
    budget_by_month,
    budget_for,
    budget_year,
    growth_shares,
)
from lawnbook.agronomy.seasons import by_calendar_month, table_month
from lawnbook.frozen import dataclass
from lawnbook.plan.growth import growth_by_month, why_no_growth
from lawnbook.plan.workings import OWN, owned, sources
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import NBudget, NRules, Season, Zone

LEAST_GROWTH_SUM = 1e-6
"""Growth potentials that come to less than this in a year are none: the table shares it out."""

BY_GROWTH = ", by growth potential"
"""How the name of a budget ends whose year is spread by growth."""


def budget_told(name: str) -> str:
    """The name of a budget in the reader's language: "cool season, middle, by growth potential"."""
    base = name.removesuffix(BY_GROWTH)
    told = ", ".join(tr(part) for part in base.split(", "))
    return told if base == name else told + tr(BY_GROWTH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """A zone's nitrogen by calendar month and for its year, lb per 1,000 sq ft.

    `table` is the published one that it follows, None for the owner's own. Where the year is
    spread by growth, `growth` holds each month's share as it counts (0 where the table feeds
    nothing, one for both of "either" months) and `growth_sum` the sum over the months fed, of such
    a pair only one. `reason` says why the table stands although growth was asked for.
    """

    name: str
    source: str
    by_month: tuple[float, ...]
    year_lb: float
    year_source: str
    table: MonthlyBudget | None
    growth: tuple[float, ...] | None = None
    growth_sum: float = 0.0
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """The limits on one application and on the year, each with its source.

    `own_source` is that of every limit which has no source beside it: the owner's rule, by name.
    """

    max_total_lb: float
    total_source: str
    max_quick_lb: float
    quick_source: str
    year_lb: float | None
    min_slow_pct: float | None
    min_days: int | None
    blackouts: tuple[Season, ...]
    own_source: str = OWN


def budget_of(notebook: Notebook, zone: Zone) -> Budget:
    """The zone's own table, or the published one for its grass, species and level.

    Give it the notebook as of the day: a spread by growth reads its temperatures.
    """
    own = notebook.n_budgets.get(zone.budget) if zone.budget is not None else None
    by_table = _published(notebook, zone) if own is None else _own(own, zone)
    return _by_growth(notebook, zone, by_table) if zone.budget_spread == "growth" else by_table


def _own(table: NBudget, zone: Zone) -> Budget:
    year = sum(table.by_month) if table.year_lb is None else table.year_lb
    typed_year = zone.annual_n_lb_per_1000
    return Budget(
        name=table.name,
        source=owned(table.name),
        by_month=table.by_month,
        year_lb=year if typed_year is None else typed_year,
        year_source=owned(table.name) if typed_year is None else OWN,
        table=None,
    )


def _published(notebook: Notebook, zone: Zone) -> Budget:
    table = budget_for(zone.grass, zone.species)
    cited = sources(table.source_key)
    by_month = _by_month(zone.grass, zone.species, zone.budget_level, _latitude(notebook))
    typed_year = zone.annual_n_lb_per_1000
    year = budget_year(table, zone.budget_level)
    return Budget(
        name=f"{table.name}, {zone.budget_level}",
        source=cited,
        by_month=by_month,
        year_lb=year if typed_year is None else typed_year,
        year_source=cited if typed_year is None else OWN,
        table=table,
    )


@lru_cache(maxsize=64)
def _by_month(grass: str, species: str, level: str, latitude_deg: float) -> tuple[float, ...]:
    """The months of the published table, which most zones of a yard share."""
    return budget_by_month(budget_for(grass, species), level, latitude_deg)


def _by_growth(notebook: Notebook, zone: Zone, by_table: Budget) -> Budget:
    """The same year, shared out by growth potential over the months that the table feeds."""
    fed, pairs = _fed_by(by_table, _latitude(notebook))
    if not any(fed):
        return by_table
    growth = growth_by_month(notebook, zone.grass)
    why_not = _why_not(fed, growth)
    if why_not:
        return replace(by_table, reason=f"The budget follows its table, not growth. {why_not}")
    shares = growth_shares(fed, growth, pairs)
    months_source = () if by_table.table is None else (by_table.table.source_key,)
    return replace(
        by_table,
        name=by_table.name + BY_GROWTH,
        source=sources(*months_source, "growth-potential"),
        by_month=shares.budget(by_table.year_lb),
        growth=shares.by_month,
        growth_sum=shares.counted,
    )


def _fed_by(by_table: Budget, latitude_deg: float) -> tuple[list[float], list[tuple[int, int]]]:
    """What a table's calendar months may take at the most, and the pairs of which one is fed."""
    table = by_table.table
    if table is None:
        return list(by_table.by_month), []
    pairs = [
        (table_month(first, latitude_deg), table_month(second, latitude_deg))
        for first, second in table.either
    ]
    return list(by_calendar_month(table.high, latitude_deg)), pairs


def _why_not(fed: list[float], growth: tuple[float | None, ...]) -> str:
    """Why the months fed cannot share the year by their growth; empty where they can."""
    if all(each is None for each in growth):
        return why_no_growth(growth)
    counts = tuple(each if lb > 0 else 0.0 for lb, each in zip(fed, growth, strict=True))
    if any(each is None for each in counts):
        return why_no_growth(counts)
    if sum(each or 0.0 for each in counts) < LEAST_GROWTH_SUM:
        return tr("No month that it feeds is warm enough for growth, by the temperatures entered.")
    return ""


def _latitude(notebook: Notebook) -> float:
    return notebook.yard.latitude_deg or 0.0


def limits_of(rules: NRules) -> Limits:
    """The published limits, the owner's in their place where they are entered."""
    own = owned(rules.name)
    return Limits(
        max_total_lb=MAX_TOTAL_LB if rules.max_total_lb is None else rules.max_total_lb,
        total_source=sources("msu-n") if rules.max_total_lb is None else own,
        max_quick_lb=MAX_QUICK_LB if rules.max_quick_lb is None else rules.max_quick_lb,
        quick_source=sources("cornell-quick") if rules.max_quick_lb is None else own,
        year_lb=rules.year_lb,
        min_slow_pct=rules.min_slow_pct,
        min_days=rules.min_days,
        blackouts=rules.blackouts,
        own_source=own,
    )
