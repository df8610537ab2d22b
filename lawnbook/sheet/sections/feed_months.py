"""Nitrogen month by month: put down, and what the budget leaves. It heads the workings."""

from collections.abc import Sequence
from datetime import date

from lawnbook.charts.nitrogen import months_in_order, short_pounds
from lawnbook.plan.feed_budget import BY_GROWTH, budget_told
from lawnbook.plan.model import Plan, ZoneNitrogen
from lawnbook.reading import tr
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import (
    GAP_PT,
    HEAD_ROW_PT,
    HEADING_PT,
    LINE_PT,
    ROW_PT,
    TALL_ROW_PT,
    Box,
)
from lawnbook.sheet.sections.due import zones_told
from lawnbook.sheet.table import Cell, Column, Row, draw_table
from lawnbook.yard.amounts import RATE_UNIT, unit_shown
from lawnbook.yard.numbers import MONTHS

TITLE = tr("Nitrogen by month")
TALL_CAPTION = tr("{unit}: above, put down; below, what the budget leaves")
FLAT_CAPTION = tr("{unit} put down until now; in bold, left from now on")
MOST_TALL_ROWS = 12


def months_pt(zones: int) -> float:
    """The height of the table for so many zones; 0 for none."""
    if not zones:
        return 0.0
    return HEADING_PT + HEAD_ROW_PT + _row_pt(zones) * zones + LINE_PT + GAP_PT


def month_row(zone: ZoneNitrogen, on: date, tall: bool) -> Row:
    """One zone's row: twelve months in the order of its year, and the year."""
    months = [_month(zone, month, on, tall) for month in months_in_order(zone)]
    left = tr("{short_pounds} left", short_pounds=short_pounds(zone.left_this_year))
    year = Cell(short_pounds(zone.applied_year), left, strong=True)
    return (
        Cell(
            f"{zone.number} {zone.zone}",
            budget_told(zone.budget_name.removesuffix(BY_GROWTH)),
            strong=True,
        ),
        *months,
        year if tall else Cell(left, strong=True),
    )


def spread_told(zones: Sequence[ZoneNitrogen]) -> str:
    """Which zones' budgets are spread by growth in place of their table; empty for none."""
    numbers = [zone.number for zone in zones if zone.budget_name.endswith(BY_GROWTH)]
    if not numbers:
        return ""
    who = "" if len(numbers) == len(zones) else f", {zones_told(numbers)}"
    return tr("Months by growth potential{who}.", who=who)


def draw_months(ink: Ink, box: Box, plan: Plan, zones: Sequence[ZoneNitrogen]) -> None:
    """Heading, table and what the months follow, for some of a plan's zones; at least one."""
    tall = len(zones) <= MOST_TALL_ROWS
    ink.text((box.left, box.top + 11), TITLE, HEADING)
    start = box.left + ink.width(TITLE, HEADING) + 10
    caption = tr(TALL_CAPTION if tall else FLAT_CAPTION, unit=unit_shown(RATE_UNIT))
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    order = months_in_order(zones[0])
    columns = (
        Column(tr("zone"), 100, "left"),
        *(Column(tr(MONTHS[month]), 30, lit=month == plan.on.month - 1) for month in order),
        Column(zones[0].year_label, 58),
    )
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    cells = [month_row(zone, plan.on, tall) for zone in zones]
    foot = draw_table(ink, table, columns, cells, _row_pt(len(zones)))
    ink.text((box.left, foot + 10.5), ink.fit(spread_told(zones), CAPTION, box.width), CAPTION)


def _row_pt(zones: int) -> float:
    return TALL_ROW_PT if zones <= MOST_TALL_ROWS else ROW_PT


def _month(zone: ZoneNitrogen, month: int, on: date, tall: bool) -> Cell:
    put = zone.applied_by_month[month]
    left = zone.budget_by_month[month] - put
    is_now = month == on.month - 1
    role = "bad" if left < -1e-9 else "ink"
    if tall:
        said = short_pounds(put) if put > 0 else "–"
        return Cell(said, short_pounds(left), strong=put > 0 or is_now, role=role)
    order = months_in_order(zone)
    if order.index(month) < order.index(on.month - 1):
        return Cell(short_pounds(put) if put > 0 else "–", role="quiet")
    return Cell(short_pounds(left), strong=True, role=role)
