"""What a zone's nitrogen counts against: its budget by month and year, and the limits on feeding.

A budget is the owner's own table or the published one, at a level.
"""

from dataclasses import dataclass

from lawnbook.agronomy.nitrogen import (
    MAX_QUICK_LB,
    MAX_TOTAL_LB,
    MonthlyBudget,
    budget_by_month,
    budget_for,
    budget_year,
)
from lawnbook.plan.workings import OWN, sources
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import NRules, Season, Zone


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """A zone's nitrogen by calendar month and for its year, lb per 1,000 sq ft.

    `table` is the published one that it follows, None for the owner's own.
    """

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
