"""How the lines of the ledger of feeding came about: each feeding's rates, and the year's total."""

from collections.abc import Iterator, Sequence
from datetime import date

from lawnbook.agronomy.mixes import Analysis
from lawnbook.agronomy.nitrogen import irrigation_n_lb_per_1000, n_year
from lawnbook.agronomy.soil_test import P_ENOUGH_PPM
from lawnbook.frozen import dataclass
from lawnbook.plan.feed_model import FedRow
from lawnbook.plan.filled_in import numbered, put_in, reckons
from lawnbook.plan.nitrogen_workings import sum_of
from lawnbook.plan.season import month_in_full
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings import default, given, owned, rate_told, sources, told, told_exactly
from lawnbook.reading import tr
from lawnbook.yard.amounts import RATE_UNIT
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

MOST_LINES = 40
"""So many lines of a year are listed one by one."""
LEAST_COUNTED_LB = 5e-7
"""What is less than this, in lb per 1,000 sq ft, is no part of a total."""


def fed_row_workings(notebook: Notebook, row: FedRow) -> tuple[Working, ...]:
    """The rates of a line of the ledger: nitrogen, phosphate and potash as far as there are."""
    if row.kind == "water":
        return (_of_water(notebook, row),)
    product = notebook.products.get(row.product_id)
    return () if product is None else tuple(_rates(row, analysis_of(product)))


def _rates(row: FedRow, held: Analysis) -> Iterator[Working]:
    zone = row.zone
    listed = (
        ("n", "N", tr("{zone}: nitrogen fed", zone=zone), held.n_pct, row.n_lb_per_1000),
        (
            "quick",
            tr("quick N"),
            tr("{zone}: quick nitrogen of it", zone=zone),
            held.quick_n_pct,
            row.quick_lb_per_1000,
        ),
        (
            "p2o5",
            "P₂O₅",
            tr("{zone}: phosphate fed", zone=zone),
            held.p2o5_pct,
            row.p2o5_lb_per_1000,
        ),
        ("k2o", "K₂O", tr("{zone}: potash fed", zone=zone), held.k2o_pct, row.k2o_lb_per_1000),
    )
    for key, name, label, pct, rate in listed:
        if pct > 0 and row.area_sqft > 0:
            yield _rate(row, (key, name, label), (pct, rate))


def _rate(row: FedRow, named: tuple[str, str, str], holds: tuple[float, float]) -> Working:
    (key, name, label), (pct, rate) = named, holds
    formula = "{pounds} × {pct} ÷ 100 × 1,000 ÷ {area:0}"
    fed = tr("fed on {date} on {zone}", date=day(row.date), zone=row.zone)
    kept = tr("of {zone}, kept with the feeding", zone=row.zone)
    inputs = (
        _lb("pounds", tr("Product"), row.pounds or 0.0, fed),
        numbered(
            given(
                tr("{name} of the product", name=name),
                told(pct, 2, "%"),
                tr("{product}, its label or its ingredients", product=row.product),
            ),
            "pct",
            pct,
            "%",
        ),
        numbered(
            given(tr("Area treated"), told(row.area_sqft, 0, "sq ft"), kept),
            "area",
            row.area_sqft,
            "sq ft",
        ),
    )
    return Working(
        f"fed_{key}:{row.feeding_id}:{row.zone_id}",
        label,
        rate_told(rate),
        tr("product × {name} % ÷ 100 × 1,000 ÷ area treated", name=name),
        put_in(formula, inputs),
        inputs,
        sources("n-arithmetic"),
        reckons(formula, RATE_UNIT),
    )


def _of_water(notebook: Notebook, row: FedRow) -> Working:
    """What the waterings of a line brought: its depth follows from what was counted."""
    mg = notebook.yard.water_n_mg_per_l or 0.0
    one = irrigation_n_lb_per_1000(1.0, 1.0)
    depth = row.n_lb_per_1000 / (one * mg) if mg else 0.0
    inputs = (
        numbered(
            given(
                tr("Gross depth"),
                told(depth, 2, "in"),
                tr("waterings of {zone} up to {date}", zone=row.zone, date=day(row.date)),
            ),
            "depth",
            depth,
            "in",
        ),
        numbered(
            given(
                tr("Nitrogen in the water"),
                f"{told_exactly(mg)} mg/L",
                tr("entered under Yard, as nitrogen: mg/L of nitrate ÷ 4.43"),
            ),
            "mg",
            mg,
            "mg/L",
        ),
    )
    shown = told_exactly(one)
    return Working(
        f"fed_water:{row.zone_id}:{row.date.isoformat()}",
        tr("Nitrogen that the water brought"),
        rate_told(row.n_lb_per_1000),
        tr("gross depth of the waterings × nitrogen in the water × {one}", one=shown),
        f"{told_exactly(depth)} × {told_exactly(mg)} × {shown}",
        inputs,
        sources("water-n"),
        reckons(f"{{depth}} × {{mg}} × {one!r}", RATE_UNIT),
    )


@dataclass(frozen=True, slots=True)
class _Total:
    """The lines of a budget year up to a day, and each zone's share of the area looked at."""

    rows: Sequence[FedRow]
    shares: dict[str, float]

    @property
    def alone(self) -> bool:
        """Whether one zone is looked at."""
        return len(self.shares) == 1


def year_total_workings(
    notebook: Notebook, rows: Sequence[FedRow], on: date, zone_id: str = ""
) -> tuple[Working, ...]:
    """The totals of the ledger's budget year: of one zone, or the lawn's mean weighted by area."""
    zones = [zone for zone in notebook.zones.values() if zone_id in ("", zone.id)]
    areas = {zone.id: zone_area_sqft(zone) for zone in zones}
    whole = sum(areas.values())
    if whole <= 0:
        return ()
    year = n_year(on, notebook.yard.latitude_deg or 0.0)
    held = [row for row in rows if year.start <= row.date <= year.end]
    total = _Total(held, {key: area / whole for key, area in areas.items() if area > 0})
    listed = [_total_lb(total)]
    for key, label, rates in (
        ("n", tr("Nitrogen of the year so far"), [row.n_lb_per_1000 for row in held]),
        ("p2o5", tr("Phosphate of the year so far"), [row.p2o5_lb_per_1000 for row in held]),
        ("k2o", tr("Potash of the year so far"), [row.k2o_lb_per_1000 for row in held]),
    ):
        if key == "n" or any(rates):
            listed.append(_total_rate(total, (f"total_{key}", label), rates))
    return tuple(listed)


def _total_lb(total: _Total) -> Working:
    parts = [
        _lb(
            f"p{n}",
            tr("{date}, {zone}", date=day(row.date), zone=row.zone),
            row.pounds or 0.0,
            row.product,
        )
        for n, row in enumerate(total.rows)
        if row.pounds
    ]
    inputs = _listed(parts, "lb")
    formula = sum_of(inputs)
    return Working(
        "total_lb",
        tr("Product of the year so far"),
        told(sum(row.pounds or 0.0 for row in total.rows), 2, "lb"),
        tr("sum of the lines of the year"),
        put_in(formula, inputs),
        inputs,
        sources(),
        reckons(formula, "lb"),
    )


def _total_rate(total: _Total, named: tuple[str, str], rates: Sequence[float]) -> Working:
    parts: list[Input] = []
    summed = 0.0
    for n, (row, rate) in enumerate(zip(total.rows, rates, strict=True)):
        share = total.shares.get(row.zone_id, 0.0)
        summed += share * rate
        if share * rate < LEAST_COUNTED_LB:
            continue
        name = tr("{date}, {zone}", date=day(row.date), zone=row.zone)
        of_lawn = tr(
            "{rate} on {share} of the area",
            rate=rate_told(rate),
            share=told(100 * share, 0, "%"),
        )
        counted = told_exactly(share * rate, 2, RATE_UNIT) if not total.alone else ""
        value = counted or rate_told(rate)
        origin = row.product if total.alone else of_lawn
        parts.append(numbered(given(name, value, origin), f"r{n}", share * rate, RATE_UNIT))
    inputs = _listed(parts, RATE_UNIT)
    formula = sum_of(inputs)
    return Working(
        *named,
        rate_told(summed),
        tr("sum of the lines of the year")
        if total.alone
        else tr("sum of the lines of the year, each by its zone's share of the area"),
        put_in(formula, inputs),
        inputs,
        sources("n-arithmetic"),
        reckons(formula, RATE_UNIT),
    )


def _listed(parts: Sequence[Input], unit: str) -> tuple[Input, ...]:
    """The first of so many parts, the others as one."""
    if len(parts) <= MOST_LINES:
        return tuple(parts)
    rest = parts[MOST_LINES:]
    number = sum(each.quantity.number for each in rest if each.quantity is not None)
    more = given(tr("{count} more", count=len(rest)), told(number, 2, unit), tr("together"))
    return (*parts[:MOST_LINES], numbered(more, "rest", number, unit))


def _lb(symbol: str, name: str, pounds: float, origin: str) -> Input:
    return numbered(given(name, told(pounds, 2, "lb"), origin), symbol, pounds, "lb")


def months_workings(by_month: Sequence[float], origin: str) -> tuple[Working, ...]:
    """The sum of a table's months, January first; none of a table that feeds nothing."""
    unit = "lb N per 1,000 sq ft"
    inputs = tuple(
        numbered(given(month_in_full(month), told(lb, 2, unit), origin), f"m{month}", lb, unit)
        for month, lb in enumerate(by_month, start=1)
        if lb > 0
    )
    if not inputs:
        return ()
    formula = sum_of(inputs)
    return (
        Working(
            "months_sum",
            tr("Sum of the months"),
            told(sum(by_month), 2, unit),
            tr("sum of the months that are fed"),
            put_in(formula, inputs),
            inputs,
            sources(),
            reckons(formula, unit),
        ),
    )


def phosphorus_workings(notebook: Notebook, zone_id: str) -> tuple[Working, ...]:
    """What decides on a zone's phosphate: what its latest test lacks of what is enough."""
    tests = [
        each
        for each in notebook.soil_tests.values()
        if each.zone == zone_id and each.p_ppm is not None
    ]
    if not tests:
        return ()
    latest = max(tests, key=lambda each: each.date)
    typed, found = notebook.n_rules.p_enough_ppm, latest.p_ppm or 0.0
    enough = P_ENOUGH_PPM if typed is None else typed
    limit = (
        default(tr("Enough for a lawn"), told(enough, 0, "ppm"), tr("Mehlich-3, Pennsylvania"))
        if typed is None
        else given(tr("Enough for a lawn"), told(enough, 0, "ppm"), tr("your local rule"))
    )
    tested = tr("soil test of {date}", date=day(latest.date))
    inputs = (
        numbered(limit, "enough", enough, "ppm"),
        numbered(given(tr("Found"), told(found, 0, "ppm"), tested), "found", found, "ppm"),
    )
    formula = "{enough:0} − {found:0}"
    return (
        Working(
            "phosphorus_lacks",
            tr("Phosphorus that the soil lacks"),
            told(max(0.0, enough - found), 0, "ppm"),
            tr("enough − found, not below zero: phosphate is asked for above zero"),
            put_in(formula, inputs),
            inputs,
            sources("psu-p") if typed is None else owned(notebook.n_rules.name),
            reckons("max(0, {enough} − {found})", "ppm", 0),
        ),
    )
