"""Nitrogen: what a product holds, what a month and a year may take, whose year a day is.

Rates are lb N per 1,000 sq ft. Sources: "n-arithmetic", "uc-ipm", "va-dcr-n", "msu-n",
"cornell-quick", "growth-potential". The product label and local law come before any number here.
ValueError outside a formula's domain.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple, TypeVar, cast

from lawnbook.agronomy.checks import between, not_negative, positive
from lawnbook.agronomy.seasons import MONTHS, by_calendar_month, is_south, table_month
from lawnbook.agronomy.turf import known_grass
from lawnbook.agronomy.units import LB_PER_GAL_WATER_PER_MG_PER_L, SQFT_IN_TO_GAL
from lawnbook.frozen import dataclass
from lawnbook.reading import tr

Months = tuple[float, float, float, float, float, float, float, float, float, float, float, float]

MAX_TOTAL_LB = 1.0
"""Most N (lb per 1,000 sq ft) in one application (source "msu-n")."""

MAX_QUICK_LB = 0.5
"""Most quick-release N (lb per 1,000 sq ft) in one application (source "cornell-quick")."""

ROLLING_DAYS = 30
"""Length of the rolling total shown beside the calendar month (common practice)."""

EARLY_UNTIL_DAY = 15
"""Last day of the month that counts as "early November" (common practice)."""

DAYS_KEPT = 512
"""So many days are kept with the nitrogen year that they count in."""

LEVELS = ("lean", "middle", "full")

Value = TypeVar("Value")


def n_lb_per_1000sqft(product_lb: float, n_pct: float, area_sqft: float) -> float:
    """N spread, lb per 1,000 sq ft, by `product_lb` of a product with `n_pct` N.

    Source: "n-arithmetic".
    """
    n_lb = not_negative("product_lb", product_lb) * between("n_pct", n_pct, 0.0, 100.0) / 100.0
    return n_lb * 1000.0 / positive("area_sqft", area_sqft)


def product_lb_for_rate(n_lb_per_1000: float, n_pct: float, area_sqft: float) -> float:
    """Product (lb) that brings `n_lb_per_1000` to `area_sqft`.

    ValueError for a product without N.
    """
    between("n_pct", positive("n_pct", n_pct), 0.0, 100.0)
    n_lb = (
        not_negative("n_lb_per_1000", n_lb_per_1000) * not_negative("area_sqft", area_sqft) / 1000
    )
    return n_lb * 100.0 / n_pct


def slow_share(slow_n_pct: float, n_pct: float) -> float:
    """Slow part of the N, 0-1; both in percent of the product.

    0 for a product without N. Source: "uc-ipm".
    """
    quick_n_pct(n_pct, slow_n_pct)
    return slow_n_pct / n_pct if n_pct > 0 else 0.0


def quick_n_pct(n_pct: float, slow_n_pct: float) -> float:
    """Quick N, percent of the product: n_pct - slow_n_pct.

    ValueError where slow is more than all. "uc-ipm".
    """
    between("n_pct", n_pct, 0.0, 100.0)
    return n_pct - between("slow_n_pct", slow_n_pct, 0.0, n_pct)


def irrigation_n_lb_per_1000(gross_depth_in: float, n_mg_per_l: float) -> float:
    """N that irrigation water brings, lb per 1,000 sq ft: 0.0052 for 1 in at 1 mg/L.

    Exact: gallons of the gross depth x 8.345e-6 lb per gallon and mg/L x `n_mg_per_l` of N.
    """
    gallons_per_1000 = not_negative("gross_depth_in", gross_depth_in) * 1000.0 * SQFT_IN_TO_GAL
    return gallons_per_1000 * not_negative("n_mg_per_l", n_mg_per_l) * LB_PER_GAL_WATER_PER_MG_PER_L


@dataclass(frozen=True, slots=True)
class MonthlyBudget:
    """What each month and the year may take, low and high, in lb N per 1,000 sq ft.

    `low` and `high` run from January to December in the north.

    `either` names pairs of months of which only one is fed, e.g. (7, 8) for "July or August"; both
    carry the rate. `early` names months that are fed only in their first half, e.g. "early Nov".
    """

    name: str
    grass: str
    low: Months
    high: Months
    year_low: float
    year_high: float
    source_key: str
    note: str
    either: tuple[tuple[int, int], ...] = ()
    early: tuple[int, ...] = ()


_COOL_LOW: Months = (0, 0, 0, 0, 0, 0, 0, 0, 0.5, 0, 0, 0)
_COOL_HIGH: Months = (0, 0, 0, 0, 0.5, 0, 0, 0, 0.9, 0.9, 0.9, 0)
_WARM_LOW: Months = (0, 0, 0, 0, 1.0, 0, 1.0, 1.0, 0, 0, 0, 0)
_WARM_HIGH: Months = (0, 0, 0, 1.0, 1.0, 1.0, 1.0, 1.0, 0, 0, 0, 0)
_COOL_NOTE = tr("In November feed early in the month; nothing from June to August.")
_WARM_NOTE = tr(
    "Feed in July or in August, not in both; April and June are optional, and the "
    "year's total may bind before the months' sum."
)


def _by_name(*budgets: MonthlyBudget) -> Mapping[str, MonthlyBudget]:
    return MappingProxyType({budget.name: budget for budget in budgets})


BUDGETS: Mapping[str, MonthlyBudget] = _by_name(
    MonthlyBudget(
        "cool season",
        "cool",
        _COOL_LOW,
        _COOL_HIGH,
        2.0,
        3.5,
        "va-dcr-n",
        _COOL_NOTE,
        early=(11,),
    ),
    MonthlyBudget(
        "cool season, fine fescue",
        "cool",
        _COOL_LOW,
        _COOL_HIGH,
        1.0,
        2.0,
        "va-dcr-n",
        _COOL_NOTE,
        early=(11,),
    ),
    MonthlyBudget(
        "warm season", "warm", _WARM_LOW, _WARM_HIGH, 2.0, 4.0, "va-dcr-n", _WARM_NOTE, ((7, 8),)
    ),
    MonthlyBudget(
        "warm season, zoysia or centipede",
        "warm",
        _WARM_LOW,
        _WARM_HIGH,
        1.0,
        2.0,
        "va-dcr-n",
        _WARM_NOTE,
        ((7, 8),),
    ),
)
"""Month by month, Virginia Department of Conservation and Recreation (source "va-dcr-n")."""

_SPARING_BUDGET: Mapping[str, str] = MappingProxyType(
    {
        "fine fescue": "cool season, fine fescue",
        "zoysiagrass": "warm season, zoysia or centipede",
        "centipedegrass": "warm season, zoysia or centipede",
    }
)


def budget_for(grass: str, species: str) -> MonthlyBudget:
    """The table for a grass; a species that lives on less, and belongs to that grass, has its own.

    Capitals do not matter. An unknown or empty species takes the grass's general table.
    ValueError for an unknown grass.
    """
    general = BUDGETS[f"{known_grass(grass)} season"]
    sparing = BUDGETS[_SPARING_BUDGET.get(species.strip().lower(), general.name)]
    return sparing if sparing.grass == grass else general


def budget_by_month(budget: MonthlyBudget, level: str, latitude_deg: float) -> tuple[float, ...]:
    """What each of 12 calendar months may take at a level, within the table's low and high.

    Every month stands at the same share of its range: the share at which the months fed add up to
    `budget_year`, so that a lean year is the table's lean year and not the sum of its lowest
    months (0.5 lb where the table asks for 2). Where even the lows exceed the year, or the highs
    fall short of it, they are kept, and `budget_year` binds as well. Shifted six months south of
    the equator; of a pair in `either` only one month is fed.
    """
    share = _share_of_range(budget, budget_year(budget, level))
    pairs = zip(budget.low, budget.high, strict=True)
    return by_calendar_month([low + share * (high - low) for low, high in pairs], latitude_deg)


def budget_year(budget: MonthlyBudget, level: str) -> float:
    """What the year may take: "lean" the table's low, "middle" its mean, "full" its high.

    lb N per 1,000 sq ft. ValueError for another level.
    """
    low, high = budget.year_low, budget.year_high
    if level not in LEVELS:
        raise ValueError(f'level must be "lean", "middle" or "full", not "{level}".')
    return {"lean": low, "middle": (low + high) / 2.0, "full": high}[level]


def either_month(budget: MonthlyBudget, month: int, latitude_deg: float) -> int | None:
    """The calendar month that shares its feeding with `month` ("July or August"), or None."""
    in_table = table_month(month, latitude_deg)
    for first, second in budget.either:
        if in_table in (first, second):
            return table_month(second if in_table == first else first, latitude_deg)
    return None


def too_late_in_month(budget: MonthlyBudget, on: date, latitude_deg: float) -> bool:
    """Whether the table feeds the month of a day early only, and the day is past its middle.

    Shifted six months south of the equator, like the table.
    """
    return on.day > EARLY_UNTIL_DAY and table_month(on.month, latitude_deg) in budget.early


class GrowthShares(NamedTuple):
    """Each month's share of a year by growth (0-1), and the sum of those that count."""

    by_month: Months
    counted: float

    def budget(self, year_lb: float) -> Months:
        """A year's nitrogen shared out, in its unit. ValueError where no month grows."""
        rate = not_negative("year_lb", year_lb) / positive("counted", self.counted)
        return cast(Months, tuple(share * rate for share in self.by_month))


def growth_shares(
    table_high: Sequence[float],
    growth: Sequence[float | None],
    either_pairs: Sequence[tuple[int, int]] = (),
) -> GrowthShares:
    """How the months that a table feeds share a year by growth potential.

    `table_high` (a month of zero gets nothing), `growth` (0-1) and the months (1-12) of
    `either_pairs` are all in one order, such as January to December; so is the result. Of a pair
    both months carry one share, that of the one that grows more, and only one counts. Growth may
    be None, not known, in a month that is not fed; ValueError in one that is. Source:
    "growth-potential".
    """
    high = [not_negative("table_high", each) for each in _twelve("table_high", table_high)]
    shares = [
        _growth_of(grows) if lb > 0 else 0.0
        for lb, grows in zip(high, _twelve("growth", growth), strict=True)
    ]
    unfed: set[int] = set()
    for first, second in _pairs_fed(high, either_pairs):
        shares[first] = shares[second] = max(shares[first], shares[second])
        unfed.add(second)
    counted = sum(share for at, share in enumerate(shares) if at not in unfed)
    return GrowthShares(cast(Months, tuple(shares)), counted)


class NitrogenYear(NamedTuple):
    """A year of feeding: its label and its first and last day, both included."""

    label: int
    start: date
    end: date

    @property
    def words(self) -> str:
        """The year in short: "2026", or "2026–27" where it runs over New Year."""
        first, last = self.start.year, self.end.year
        return str(first) if first == last else f"{first}–{last % 100:02d}"


@lru_cache(maxsize=DAYS_KEPT)
def n_year(on: date, latitude_deg: float) -> NitrogenYear:
    """The year a day counts in: January to December, or July to June south of the equator.

    The label is the calendar year in which it starts: the southern season July 2024 to June 2025 is
    2024.
    """
    first_month = 7 if is_south(latitude_deg) else 1
    label = on.year if on.month >= first_month else on.year - 1
    end = date(label + 1, first_month, 1) - timedelta(days=1)
    return NitrogenYear(label, date(label, first_month, 1), end)


def _share_of_range(budget: MonthlyBudget, year_lb: float) -> float:
    """Where between low (0) and high (1) the months fed add up to a year's nitrogen."""
    unfed = {second for _, second in budget.either}
    fed = [month for month in range(1, 13) if month not in unfed]
    low = sum(budget.low[month - 1] for month in fed)
    high = sum(budget.high[month - 1] for month in fed)
    return min(1.0, max(0.0, (year_lb - low) / (high - low)))


def _twelve(name: str, values: Sequence[Value]) -> Sequence[Value]:
    if len(values) != MONTHS:
        raise ValueError(f"{name} must hold 12 values, not {len(values)}.")
    return values


def _growth_of(growth: float | None) -> float:
    if growth is None:
        raise ValueError("growth must be known in a month that is fed.")
    return between("growth", growth, 0.0, 1.0)


def _pairs_fed(
    high: Sequence[float], either_pairs: Sequence[tuple[int, int]]
) -> list[tuple[int, int]]:
    """The pairs of which the table feeds both months, as places in a list of twelve."""
    for month in (month for pair in either_pairs for month in pair):
        between("month", month, 1, MONTHS)
    return [
        (first - 1, second - 1)
        for first, second in either_pairs
        if high[first - 1] > 0 and high[second - 1] > 0
    ]
