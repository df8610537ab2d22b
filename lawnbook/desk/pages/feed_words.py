"""What the feed page says, as plain words made of plan figures and records. No Qt."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from lawnbook.agronomy.nitrogen import n_lb_per_1000sqft, slow_share
from lawnbook.desk.pages.water_words import MONTH_NAMES
from lawnbook.plan.model import SpreadCheck, ZoneNitrogen, ZoneSpread
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Feeding, Product

LEDGER_HEADS = ("Date", "Product", "Zones", "Pounds", "lb N per 1,000 sq ft")


@dataclass(frozen=True, slots=True)
class LedgerRow:
    """One feeding as the ledger shows it, with its id."""

    feeding_id: str
    date: str
    product: str
    zones: str
    pounds: str
    rate: str

    @property
    def cells(self) -> tuple[str, ...]:
        """The cells in the order of `LEDGER_HEADS`."""
        return (self.date, self.product, self.zones, self.pounds, self.rate)


def zone_sentence(spread: ZoneSpread, on: date) -> str:
    """One zone of the check: its rate, and where the month and the year stand afterwards."""
    month = MONTH_NAMES[on.month - 1]
    return (
        f"{spread.n_lb_per_1000:.2f} lb N per 1,000 sq ft, {spread.quick_lb_per_1000:.2f} of it "
        f"quick; {month} then {spread.month_after:.2f} of {spread.month_budget:.2f}, "
        f"the year {spread.year_after:.2f} of {spread.year_budget:.2f}"
    )


def most_words(spread: ZoneSpread) -> str:
    """The most product that may go down on the zone that day."""
    return "none today" if spread.max_lb <= 0 else f"{pounds_words(spread.max_lb)} lb"


def pounds_words(pounds: float) -> str:
    """Pounds as a spreader is filled: one decimal, two under a pound, and rounded down.

    Rounded up, the most that fits would no longer fit.
    """
    places = 100 if pounds < 1 else 10
    return f"{int(pounds * places + 1e-6) / places:g}"


def standing_sentence(nitrogen: ZoneNitrogen, on: date) -> str:
    """Where a zone's nitrogen stands on a day, before anything is proposed."""
    month = MONTH_NAMES[on.month - 1]
    if nitrogen.left_this_month < 0:
        left = f"{month} is over by {-nitrogen.left_this_month:.2f}"
    else:
        left = f"{month} has {nitrogen.left_this_month:.2f} left"
    return (
        f"{nitrogen.zone} in {nitrogen.year_label}: {nitrogen.applied_year:.2f} of "
        f"{nitrogen.budget_year:.2f} lb N per 1,000 sq ft put down; {left}."
    )


def slow_sentence(n_pct: float, slow_n_pct: float) -> str:
    """The slow part both ways: as the label's percent of the product, and as a share of the N."""
    if n_pct <= 0:
        return "This product carries no nitrogen."
    if slow_n_pct > n_pct:
        return "Slowly available nitrogen cannot be more than all of it: both are % of the product."
    share = 100 * slow_share(slow_n_pct, n_pct)
    return (
        f"{n_pct - slow_n_pct:.4g} % quick and {slow_n_pct:.4g} % slow, both of the product: "
        f"{share:.0f} % of its nitrogen is slow."
    )


def product_line(product: Product) -> str:
    """A product on the shelf: name, analysis, slow share, size."""
    analysis = f"{product.n_pct:g}-{product.p2o5_pct:g}-{product.k2o_pct:g}"
    parts = [f"{product.name}   {analysis}"]
    if product.n_pct > 0 and product.slow_n_pct <= product.n_pct:
        parts.append(f"{100 * slow_share(product.slow_n_pct, product.n_pct):.0f} % of N slow")
    if product.bag_lb:
        parts.append(f"{product.bag_lb:g} lb bag")
    if product.jug_gal:
        parts.append(f"{product.jug_gal:g} gal jug")
    return ", ".join(parts)


def ledger_row(notebook: Notebook, feeding: Feeding) -> LedgerRow:
    """A feeding as a row of the ledger; several zones with differing rates show the range."""
    product = notebook.products.get(feeding.product)
    names = [
        notebook.zones[zone_id].name for zone_id in feeding.pounds if zone_id in notebook.zones
    ]
    return LedgerRow(
        feeding.id,
        day(feeding.date),
        product.name if product else "",
        ", ".join(names),
        f"{sum(feeding.pounds.values()):.4g}",
        _range(rates_by_zone(notebook, feeding).values()) if product else "–",
    )


def rates_by_zone(notebook: Notebook, feeding: Feeding) -> Mapping[str, float]:
    """lb N per 1,000 sq ft of a feeding by zone, on the area treated then."""
    product = notebook.products.get(feeding.product)
    if product is None:
        return {}
    rates = {}
    for zone_id, pounds in feeding.pounds.items():
        area = feeding.treated_area_sqft.get(zone_id)
        if area is None and zone_id in notebook.zones:
            area = zone_area_sqft(notebook.zones[zone_id])
        if area:
            rates[zone_id] = n_lb_per_1000sqft(pounds, product.n_pct, area)
    return rates


def _range(values: Iterable[float]) -> str:
    held = sorted(values)
    if not held:
        return "–"
    low, high = f"{held[0]:.2f}", f"{held[-1]:.2f}"
    return low if low == high else f"{low} to {high}"


def binding_lines(check: SpreadCheck, most: int = 5) -> tuple[str, ...]:
    """The rules that are broken, or that set the most that fits, with their sources.

    A rule that binds in several zones is said once, with the zones' names where not all of them.
    """
    zones_by_rule: dict[tuple[str, str], list[str]] = {}
    for spread in check.zones:
        for rule in spread.binding:
            zones_by_rule.setdefault((rule.sentence, rule.source), []).append(spread.zone)
    lines = []
    for (sentence, source), zones in zones_by_rule.items():
        lead = "" if len(zones) == len(check.zones) else f"{', '.join(zones)}: "
        lines.append(f"{lead}{sentence} ({source})" if source else f"{lead}{sentence}")
    left_out = len(lines) - most
    return (*lines[:most], f"and {left_out} more.") if left_out > 0 else tuple(lines)


def idle_sentence(notebook: Notebook, standing: str) -> str:
    """What the check says while there is nothing to check yet."""
    if not notebook.zones:
        return "Draw a zone on the sketch first: its area tells how much a feeding weighs there."
    if not notebook.products:
        return "Put a product on the shelf below, as its label states it; then check a spread here."
    return standing or "Tick the zones and say how much: the verdict follows."
