"""What the feed page says of a year: where it stands, and what has become available. No Qt."""

from collections.abc import Iterable

from lawnbook.agronomy.clippings import HIGH_SHARE, LOW_SHARE
from lawnbook.agronomy.nitrogen import n_year
from lawnbook.agronomy.units import lb_per_1000_to_g_per_m2
from lawnbook.charts.nitrogen import Nitrogen, months_in_order
from lawnbook.desk.telling import either
from lawnbook.plan.feed_model import LawnNitrogen, ReleaseCurve
from lawnbook.plan.model import SpreadCheck, ZoneNitrogen
from lawnbook.plan.season import month_in_full
from lawnbook.plan.workings import LEAST_TOLD_LB, PERCENT, sources
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import RATE_UNIT, bare, told, unit_shown
from lawnbook.yard.numbers import MONTHS
from lawnbook.yard.records import Zone

Rows = tuple[tuple[str, tuple[str, ...]], ...]

TWO_COUNTS = tr(
    "Two counts of the same nitrogen. The columns count it whole in the month it "
    "was put down: that is the budget’s rule. The curve counts it on the days on "
    "which it becomes available, some of it months later, beside what growth can "
    "use; the budget does not change by it."
)
NO_ZONE = tr("Draw a zone on the sketch first: its budget follows from its grass.")
UNKNOWN = "–"


def year_chart_words(nitrogen: Nitrogen, ghost: float, month: int | None) -> str:
    """The twelve columns in words, the proposed spread too."""
    words = tr(
        "{zone}, {year_label}: {rate} of {budget_year} put down",
        zone=nitrogen.zone,
        year_label=nitrogen.year_label,
        rate=_rate(nitrogen.applied_year),
        budget_year=told(nitrogen.budget_year, 2, "lb N per 1,000 sq ft"),
    )
    if any(nitrogen.water_by_month):
        words += tr(", {rate} of it by irrigation water", rate=_rate(sum(nitrogen.water_by_month)))
    if isinstance(nitrogen, ZoneNitrogen):
        words += tr(", {rate} of it in the last 30 days", rate=_rate(nitrogen.rolling_30_days))
    if month is None or not ghost:
        return f"{words}."
    return tr(
        "{words}. Proposed for {month_in_full}: {rate}.",
        words=words,
        month_in_full=month_in_full(month),
        rate=_rate(ghost),
    )


def _rate(lb_per_1000: float) -> str:
    """A rate without its unit."""
    return bare(lb_per_1000, 2, RATE_UNIT)


def columns_title(nitrogen: Nitrogen) -> str:
    """What the twelve columns show, for a place too low for their own heads."""
    us, metric = tr("lb of nitrogen per 1,000 sq ft"), tr("g of nitrogen per m²")
    return tr(
        "{zone}, {year_label}: {either}, by the month",
        zone=nitrogen.zone,
        year_label=nitrogen.year_label,
        either=either(us, metric),
    )


def figure_heads(lawn: LawnNitrogen | None) -> tuple[str, ...]:
    """The heads of the table of the year: the zone's columns, and the whole lawn's."""
    in_all = either(tr("in all"), tr("in all, kg"))
    per = either(tr("per 1,000 sq ft"), unit_shown(RATE_UNIT))
    zone = (either(tr("lb of nitrogen"), tr("Nitrogen")), tr("Zone, {per}", per=per), in_all)
    return zone if lawn is None else (*zone, tr("Lawn, {per}", per=per), in_all)


def figure_rows(zone: ZoneNitrogen, lawn: LawnNitrogen | None) -> Rows:
    """Budget, put down and left of zone and lawn, in the order of `figure_heads`."""
    shown: tuple[Nitrogen, ...] = (zone,) if lawn is None else (zone, lawn)
    held = [
        (tr("Budget of the year"), [each.budget_year for each in shown]),
        (tr("Put down this year"), [each.applied_year for each in shown]),
        (tr("  by irrigation water"), [sum(each.water_by_month) for each in shown]),
        (tr("Left this year"), [each.left_this_year for each in shown]),
        (tr("Left this month"), [each.left_this_month for each in shown]),
    ]
    areas = [each.area_sqft for each in shown]
    return tuple(
        (name, tuple(cell for pair in zip(rates, areas, strict=True) for cell in _cells(*pair)))
        for name, rates in held
        if not name.startswith(" ") or any(rates)
    )


def figure_keys(zone: ZoneNitrogen, lawn: LawnNitrogen | None) -> tuple[str, ...]:
    """The keys of the rows of `figure_rows`, as `plan/feed_year_workings.py` knows them."""
    shown: tuple[Nitrogen, ...] = (zone,) if lawn is None else (zone, lawn)
    watered = any(any(each.water_by_month) for each in shown)
    return ("budget", "applied", *(("water",) if watered else ()), "left", "left_month")


def _cells(rate: float, area_sqft: float) -> tuple[str, str]:
    return _signed(_rate(rate)), _signed(bare(rate * area_sqft / 1000, 2, "lb"))


def _signed(number: str) -> str:
    return number.replace("-", "−")


def with_it_sentence(zone: ZoneNitrogen) -> str:
    """What else the year's feedings brought, and the nitrogen in metric."""
    rate = told(zone.applied_year, 2, RATE_UNIT)
    if not is_metric():
        rate = f"{lb_per_1000_to_g_per_m2(zone.applied_year):.1f} g/m²"
    words = tr("The nitrogen put down on this zone is {rate}.", rate=rate)
    both = ((zone.p2o5_year, tr("phosphate"), "P₂O₅"), (zone.k2o_year, tr("potash"), "K₂O"))
    came = [
        (f"{either(told(value, 2, 'lb'), told(value, 2, RATE_UNIT))} {name}", oxide)
        for value, name, oxide in both
        if value >= LEAST_TOLD_LB
    ]
    if not came:
        return words
    parts, oxides = (tr(" and ").join(each) for each in zip(*came, strict=True))
    us = tr("With it came {parts} per 1,000 sq ft (as {oxides}).", parts=parts, oxides=oxides)
    metric = tr("With it came {parts} (as {oxides}).", parts=parts, oxides=oxides)
    return f"{words} {either(us, metric)}"


def month_heads() -> tuple[str, ...]:
    """The heads of `month_rows`."""
    figures = (tr("Put down"), tr("Available"), tr("Growth can use"), tr("Growth, of its best"))
    return (unit_shown(RATE_UNIT), *figures)


def month_rows(zone: ZoneNitrogen, month_now: int) -> Rows:
    """Each month's nitrogen put down, available, and usable by growth; the year's sums last."""
    released = zone.released
    if released is None:
        return ()
    usable = released.usable_by_month
    rows = []
    for at in months_in_order(zone):
        growth = released.growth_by_month[at]
        rows.append(
            (
                tr("{month}, now", month=tr(MONTHS[at])) if at + 1 == month_now else tr(MONTHS[at]),
                (
                    _rate(zone.applied_by_month[at]),
                    _rate(released.by_month[at]),
                    UNKNOWN if usable is None else _rate(usable[at]),
                    UNKNOWN if growth is None else f"{100 * growth:.0f}{PERCENT}",
                ),
            )
        )
    sums = (zone.applied_by_month, released.by_month, usable)
    totals = tuple(UNKNOWN if each is None else _rate(sum(each)) for each in sums)
    return (*rows, (tr("Year"), (*totals, "")))


def available_sentence(zone: ZoneNitrogen, month_now: int) -> str:
    """What becomes available this month against what growth can use, and what is to come."""
    released = zone.released
    if released is None:
        return ""
    name, now = month_in_full(month_now), released.by_month[month_now - 1]
    words = tr(
        "In {name} {now} becomes available", name=name, now=told(now, 2, "lb N per 1,000 sq ft")
    )
    if released.usable_by_month is not None:
        words += tr("; growth can use {rate}", rate=_rate(released.usable_by_month[month_now - 1]))
    words += ". "
    if released.to_come_lb >= LEAST_TOLD_LB:
        words += tr("{rate} is down and still to come.", rate=_rate(released.to_come_lb))
    else:
        words += tr("Nothing that is down is still to come.")
    return f"{words} {released.reason}".strip()


def sources_words(curve: ReleaseCurve) -> str:
    """Where the figures of the curve are from."""
    return tr("Sources: {source}.", source=curve.source)


def clippings_words(zone: Zone, nitrogen: ZoneNitrogen) -> str:
    """What clippings give back, with its source; what they would where they are bagged."""
    credit = nitrogen.clippings
    if credit is not None:
        return f"{credit.words} ({credit.source})"
    cited = sources("clippings-low", "clippings-high")
    share = tr(
        "left on the lawn they give back about {low_share:.0f} to "
        "{high_share:.0f}{percent} of a year’s nitrogen ({cited})",
        low_share=100 * LOW_SHARE,
        high_share=100 * HIGH_SHARE,
        percent=PERCENT,
        cited=cited,
    )
    if zone.clippings == "bagged":
        return tr("Clippings are bagged and give nothing back: {share}.", share=share)
    return tr(
        "Whether clippings are left or bagged is not entered for this zone: {share}.", share=share
    )


def proposed(
    shown: Nitrogen, zones: Iterable[ZoneNitrogen], check: SpreadCheck | None, latitude_deg: float
) -> tuple[float, int | None]:
    """What a check proposes for the zone or the lawn shown, lb N per 1,000 sq ft, and its month.

    The lawn's is by area, over all its `zones`; nothing, and no month, for another year's.
    """
    if check is None or n_year(check.on, latitude_deg).label != shown.year:
        return 0.0, None
    whole = tuple(zones) if isinstance(shown, LawnNitrogen) else (shown,)
    rates = {each.zone_id: each.n_lb_per_1000 for each in check.zones}
    area = sum(each.area_sqft for each in whole)
    pounds = sum(rates.get(each.zone_id, 0.0) * each.area_sqft for each in whole)
    return (pounds / area, check.on.month) if pounds > 0 < area else (0.0, None)
