"""What the ledger of feeding says, as plain words made of its rows and of a table read. No Qt."""

from collections.abc import Mapping, Sequence
from datetime import date

from lawnbook.agronomy.nitrogen import n_year
from lawnbook.agronomy.units import lb_per_1000_to_g_per_m2, lb_to_kg
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import FedRow
from lawnbook.reading import localised, tr
from lawnbook.store.feed_csv import FeedingsRead
from lawnbook.yard.amounts import told
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import and_joined, counted, day

DATE, PRODUCT, ZONE, POUNDS = range(4)
OXIDES = (5, 6)
"""The columns of phosphate and potash."""
WORDS_COLUMNS = (DATE, PRODUCT, ZONE)
HEADS = (tr("Date"), tr("Product"), tr("Zone"), tr("Product\nlb"), "N", "P₂O₅", "K₂O")
POUNDS_HEAD, KG_HEAD = HEADS[POUNDS], tr("Product\nkg")
US_RATE, METRIC_RATE = tr("lb per 1,000 sq ft"), tr("g/m²")
WEIGHT_UNITS = {False: "lb", True: "kg"}
"""What product is weighed in beside rates that are metric or not."""
NO_ZONE = tr("Draw a zone on the sketch first: a feeding is kept by zone.")
EMPTY = tr(
    "Nothing has been fed yet. A feeding is recorded under Check, where its amount "
    "is looked at first; feedings noted elsewhere can be taken in from a table, "
    "with a date, a product, a zone and the pounds in each line."
)
EMPTY_METRIC = tr(
    "Nothing has been fed yet. A feeding is recorded under Check, where its amount "
    "is looked at first; feedings noted elsewhere can be taken in from a table, "
    "with a date, a product, a zone and the weight in each line."
)
NONE = "–"
HUNDRED = 100.0


@dataclass(frozen=True, slots=True)
class LedgerLine:
    """A line as it is shown: its key, its cells, what it says in full, and whether it is water."""

    key: str
    cells: tuple[str, ...]
    spoken: str
    is_water: bool


def key_of(row: FedRow) -> str:
    """What tells a row from all others, whatever is added or taken out."""
    return f"{row.kind}/{row.date.isoformat()}/{row.zone_id}/{row.feeding_id}"


def ledger_lines(rows: Sequence[FedRow], metric: bool) -> list[LedgerLine]:
    """The rows in the order given, rates in one unit or the other."""
    return [_line(row, metric) for row in rows]


def _line(row: FedRow, metric: bool) -> LedgerLine:
    rates = tuple(
        rate_told(each, metric)
        for each in (row.n_lb_per_1000, row.p2o5_lb_per_1000, row.k2o_lb_per_1000)
    )
    pounds = NONE if row.pounds is None else weight_told(row.pounds, metric)
    is_water = row.kind == "water"
    cells = (day(row.date), row.product, row.zone, pounds, *rates)
    return LedgerLine(key_of(row), cells, _spoken(row, rates, metric), is_water)


def _spoken(row: FedRow, rates: tuple[str, ...], metric: bool) -> str:
    """The whole row as a sentence, for a pointer resting on it and for a screen reader."""
    unit = METRIC_RATE if metric else US_RATE
    n, *others = rates
    first = tr("{n} {unit} of nitrogen", n=n, unit=unit) if n != NONE else tr("no nitrogen")
    names = (tr("phosphate"), tr("potash"))
    also = [
        tr("{rate} of {name}", rate=rate, name=name)
        for rate, name in zip(others, names, strict=True)
        if rate != NONE
    ]
    brought = ", ".join([first, *also])
    if row.kind == "water":
        return tr(
            "{product} on {zone}, up to {date}: {brought}",
            product=row.product,
            zone=row.zone,
            date=day(row.date),
            brought=brought,
        )
    amount = tr(
        "{weight_told} {weight_units} of {product}",
        weight_told=weight_told(row.pounds or 0.0, metric),
        weight_units=WEIGHT_UNITS[metric],
        product=row.product,
    )
    return tr(
        "{date}: {amount} on {area_sqft} of {zone}: {brought}",
        date=day(row.date),
        amount=amount,
        area_sqft=told(row.area_sqft, 0, "sq ft"),
        zone=row.zone,
        brought=brought,
    )


def rate_told(lb_per_1000: float, metric: bool) -> str:
    """A rate in the unit chosen, a dash for none."""
    if lb_per_1000 == 0:
        return NONE
    return localised(f"{lb_per_1000_to_g_per_m2(lb_per_1000) if metric else lb_per_1000:.2f}")


def weight_told(pounds: float, metric: bool) -> str:
    """Product as it is weighed, in pounds or kg, all to the same place below a hundred."""
    weight = lb_to_kg(pounds) if metric else pounds
    return localised(f"{weight:,.2f}" if weight < HUNDRED else f"{weight:,.1f}")


@dataclass(frozen=True, slots=True)
class YearTotal:
    """A budget year up to the day: cells under the table's heads, and all of it in words."""

    cells: tuple[str, ...]
    spoken: str


def year_total(
    rows: Sequence[FedRow], notebook: Notebook, on: date, zone_id: str, metric: bool
) -> YearTotal:
    """What the budget year holds so far: a zone's sum, or the lawn's mean weighted by area."""
    zones = [zone for zone in notebook.zones.values() if zone_id in ("", zone.id)]
    areas = {zone.id: zone_area_sqft(zone) for zone in zones}
    shares = {key: area / sum(areas.values()) for key, area in areas.items() if area > 0}
    year = n_year(on, notebook.yard.latitude_deg or 0.0)
    of_year = [row for row in rows if year.start <= row.date <= year.end]
    rates = _sums(of_year, shares)
    pounds = sum(row.pounds or 0.0 for row in of_year)
    cells_told = tuple(rate_told(each, metric) for each in rates)
    span = year.words
    whose = zones[0].name if len(zones) == 1 else tr("Whole lawn")
    # The column of zones is as wide as their names, and may be narrower than "Whole lawn".
    zone = whose if len(zones) == 1 else tr("All")
    weight = weight_told(pounds, metric)
    cells = (span, tr("Year so far"), zone, weight, *cells_told)
    unit = METRIC_RATE if metric else US_RATE
    n, p2o5, k2o = (each if each != NONE else "0" for each in cells_told)
    brought = tr(
        "nitrogen {n}, phosphate {p2o5}, potash {k2o} {unit}", n=n, p2o5=p2o5, k2o=k2o, unit=unit
    )
    return YearTotal(
        cells,
        tr(
            "{span} so far, {whose}: {weight} {weight_units}; {brought}",
            span=span,
            whose=whose,
            weight=weight,
            weight_units=WEIGHT_UNITS[metric],
            brought=brought,
        ),
    )


def _sums(rows: Sequence[FedRow], shares: Mapping[str, float]) -> tuple[float, float, float]:
    """N, P2O5 and K2O of the rows, each zone's by its share of the area."""
    weighed = [(shares.get(row.zone_id, 0.0), row) for row in rows]
    return (
        sum(share * row.n_lb_per_1000 for share, row in weighed),
        sum(share * row.p2o5_lb_per_1000 for share, row in weighed),
        sum(share * row.k2o_lb_per_1000 for share, row in weighed),
    )


def later_words(notebook: Notebook, on: date, zone_id: str) -> str:
    """What the book holds beyond the day it is looked at; empty where nothing."""
    later = sum(
        each.date > on and (not zone_id or zone_id in each.pounds)
        for each in notebook.feedings.values()
    )
    if not later:
        return ""
    return tr("{feedings} after {on} not shown.", feedings=counted(later, "feeding"), on=day(on))


def review_words(name: str, found: FeedingsRead) -> str:
    """What a table turned out to hold, in a sentence."""
    parts = [counted(len(found.feedings), "new feeding")] if found.feedings else []
    if found.doubtful:
        parts.append(
            tr("{count:,} in doubt", count=len(found.doubtful)) if parts else _in_doubt(found)
        )
    if found.repeats:
        parts.append(tr("{repeats:,} already here", repeats=found.repeats))
    found_words = parts or [tr("no feedings that can be taken in")]
    return f"{name}: {and_joined(found_words)}."


def _in_doubt(found: FeedingsRead) -> str:
    return tr("{new_feedings} in doubt", new_feedings=counted(len(found.doubtful), "new feeding"))
