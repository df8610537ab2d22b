"""Nitrogen month by month: put down and left, and what fits now in pounds of the bag."""

from collections.abc import Callable, Sequence
from datetime import date

from lawnbook.charts.nitrogen import months_in_order, short_pounds
from lawnbook.plan.feed_budget import BY_GROWTH
from lawnbook.plan.model import NextFeeding, Plan, ZoneNitrogen
from lawnbook.plan.workings import PERCENT, told_most
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEADING_PT, Box, RowPlan
from lawnbook.sheet.sections.due import zones_told
from lawnbook.sheet.table import Cell, Column, Row, draw_table
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import MONTHS, short_day
from lawnbook.yard.records import Product

TALL_CAPTION = "lb of nitrogen per 1,000 sq ft: above, put down; below, what the budget leaves"
SHORT_TALL_CAPTION = "lb N per 1,000 sq ft; above, put down; below, left"
FLAT_CAPTION = "lb N per 1,000 sq ft put down until now; in bold, left from now on"
NO_BAG = "No bag with nitrogen is on the shelf yet: the pounds are of nitrogen itself."
NO_ZONES = "No zone is drawn yet: draw one, and its budget stands here."


def most_pressing(zones: Sequence[ZoneNitrogen], count: int) -> tuple[ZoneNitrogen, ...]:
    """Zones over their budget first, then those that may be fed soonest; in number order."""

    def urgency(zone: ZoneNitrogen) -> tuple[float, date, int]:
        over = min(0.0, zone.left_this_year, zone.left_this_month)
        soonest = zone.next_feeding.date if zone.next_feeding is not None else date.max
        return over, soonest, zone.number

    chosen = sorted(zones, key=urgency)[:count]
    return tuple(sorted(chosen, key=lambda zone: zone.number))


def feed_row(zone: ZoneNitrogen, on: date, tall: bool) -> Row:
    """One zone's row: twelve months in the order of its year, the year, the pounds for now."""
    months = [_month(zone, month, on, tall) for month in months_in_order(zone)]
    left = f"{short_pounds(zone.left_this_year)} left"
    applied = short_pounds(zone.applied_year)
    year = Cell(applied, left, strong=True) if tall else Cell(left, strong=True)
    return (
        Cell(f"{zone.number} {zone.zone}", zone.budget_name.removesuffix(BY_GROWTH), strong=True),
        *months,
        year,
        _now(zone, on, tall),
    )


def left_out(plan: Plan, rows: RowPlan) -> str:
    """What the zones that found no room amount to; empty where all are shown."""
    shown = rows.shown
    if shown >= len(plan.nitrogen):
        return ""
    over = sum(zone.left_this_year < 0 or zone.left_this_month < 0 for zone in plan.nitrogen)
    key = SHORT_TALL_CAPTION if rows.feed_lines > 1 else FLAT_CAPTION
    said = f"{over} over budget" if over else "none over budget"
    return f"{len(plan.nitrogen)} zones, {said}; the {shown} most pressing: " + key


def bags(plan: Plan, notebook: Notebook) -> str:
    """The bags that the pounds are of, as their labels state them; empty where there is none.

    A next feeding without a product tells that the shelf is bare.
    """
    names = [zone.next_feeding.product for zone in plan.nitrogen if zone.next_feeding is not None]
    by_name = {product.name: product for product in notebook.products.values()}
    told = [_bag(by_name[name]) for name in dict.fromkeys(names) if name in by_name]
    if _shelf_is_bare(plan):
        return NO_BAG
    if not told:
        return ""
    return ("Bag: " if len(told) == 1 else "Bags: ") + "; ".join(told) + "."


def spread_told(plan: Plan) -> str:
    """Which zones' budgets are spread by growth in place of their table; empty for none."""
    numbers = [zone.number for zone in plan.nitrogen if zone.budget_name.endswith(BY_GROWTH)]
    if not numbers:
        return ""
    who = "" if len(numbers) == len(plan.nitrogen) else f", {zones_told(numbers)}"
    return f"Months by growth potential{who}."


def foot_notes(plan: Plan, notebook: Notebook, fits: Callable[[str], bool]) -> str:
    """The line under the table: the bags, and before them the budget's spread if both fit."""
    bag = bags(plan, notebook)
    both = " ".join(each for each in (spread_told(plan), bag) if each)
    return both if fits(both) else bag


def draw_feed(ink: Ink, box: Box, plan: Plan, notebook: Notebook, rows: RowPlan) -> None:
    """Heading, table and footnotes."""
    ink.text((box.left, box.top + 11), "Feed", HEADING)
    start = box.left + ink.width("Feed", HEADING) + 10
    caption = left_out(plan, rows) or (TALL_CAPTION if rows.feed_lines > 1 else FLAT_CAPTION)
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    if not plan.nitrogen:
        ink.text((box.left, box.top + HEADING_PT + 12), NO_ZONES, CAPTION)
        return
    shown = most_pressing(plan.nitrogen, rows.shown)
    order = months_in_order(shown[0])
    columns = (
        Column("zone", 88, "left"),
        *(Column(MONTHS[month], 25.6, lit=month == plan.on.month - 1) for month in order),
        Column(shown[0].year_label, 47),
        Column("now, lb of N" if _shelf_is_bare(plan) else "now, lb of bag", 85),
    )
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    cells = [feed_row(zone, plan.on, rows.feed_lines > 1) for zone in shown]
    foot = draw_table(ink, table, columns, cells, rows.feed_pt)
    note = foot_notes(plan, notebook, lambda told: ink.width(told, CAPTION) <= box.width)
    ink.text((box.left, foot + 10.5), ink.fit(note, CAPTION, box.width), CAPTION)


def _month(zone: ZoneNitrogen, month: int, on: date, tall: bool) -> Cell:
    put = zone.applied_by_month[month]
    left = zone.budget_by_month[month] - put
    is_now = month == on.month - 1
    if tall:
        said = short_pounds(put) if put > 0 else "–"
        return Cell(
            said,
            short_pounds(left),
            strong=put > 0 or is_now,
            role="bad" if left < -1e-9 else "ink",
        )
    order = months_in_order(zone)
    if order.index(month) < order.index(on.month - 1):
        return Cell(short_pounds(put) if put > 0 else "–", role="quiet")
    return Cell(short_pounds(left), strong=True, role="bad" if left < -1e-9 else "ink")


def _now(zone: ZoneNitrogen, on: date, tall: bool) -> Cell:
    """Pounds that fit on the day; else nought, and what will fit when (flat rows: only that)."""
    coming = zone.next_feeding
    if coming is not None and coming.date == on:
        return Cell(_most_lb(coming), "fits today", strong=True)
    later = "none" if coming is None else f"{_most_lb(coming)} on {_when(coming.date, on)}"
    return Cell("0", later, strong=True) if tall else Cell(later, small=True)


def _shelf_is_bare(plan: Plan) -> bool:
    coming = [zone.next_feeding for zone in plan.nitrogen if zone.next_feeding is not None]
    return any(not each.product for each in coming)


def _most_lb(coming: NextFeeding) -> str:
    return told_most(coming.pounds)


def _when(day_then: date, on: date) -> str:
    """A day, with its year where that is another one."""
    same = day_then.year == on.year
    return short_day(day_then) if same else f"{short_day(day_then)} ’{day_then.year % 100:02d}"


def _bag(product: Product) -> str:
    held = analysis_of(product)
    grade = "-".join(f"{each:.4g}" for each in (held.n_pct, held.p2o5_pct, held.k2o_pct))
    parts = [product.name if grade in product.name else f"{product.name} {grade}"]
    if product.bag_lb:
        parts.append(f"{product.bag_lb:g} lb")
    if held.n_pct > 0:
        slow_pct = 100 * held.slow_n_pct / held.n_pct
        parts.append(f"{slow_pct:.0f}{PERCENT} of its nitrogen slow")
    return ", ".join(parts)
