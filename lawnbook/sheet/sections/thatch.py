"""Thatch then and now, spot by spot."""

from datetime import date

from lawnbook.plan.model import Plan, SpotThatch
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEAD_ROW_PT, HEADING_PT, TALL_ROW_PT, Box
from lawnbook.sheet.table import Cell, Column, Row, draw_table
from lawnbook.yard.numbers import MONTHS

NO_SPOTS = "No plug spot yet: mark a few and pull one plug at each, spring and autumn."
_COLUMNS = (
    Column("spot", 72, "left"),
    Column("", 40),
    Column("then", 36),
    Column("", 40),
    Column("now", 36),
)


def height_pt(plan: Plan) -> float:
    """The height that shows every spot."""
    return HEADING_PT + HEAD_ROW_PT + TALL_ROW_PT * max(1, len(plan.thatch)) + 2


def rows_that_fit(height_pt: float) -> int:
    """How many spots a box of this height shows."""
    return max(1, int((height_pt - HEADING_PT - HEAD_ROW_PT) / TALL_ROW_PT))


def thatch_row(spot: SpotThatch) -> Row:
    """One spot: its first and latest thatch with their months, and beneath them the verdict."""
    dates = [each.date for each in spot.columns if each.thatch_in is not None]
    then, now = (_month(dates[0]), _month(dates[-1])) if dates else ("", "")
    return (
        Cell(spot.spot, short_verdict(spot.verdict), strong=True, detail_spans=True),
        Cell(then, small=True),
        Cell(_figure(spot.first_in)),
        Cell(now, small=True),
        Cell(_figure(spot.latest_in), strong=True),
    )


def short_verdict(verdict: str) -> str:
    """The verdict, or its first half where it cannot say yet and goes on to what is needed."""
    head, parted, _ = verdict.partition(";")
    return f"{head}." if parted else verdict


def draw_thatch(ink: Ink, box: Box, plan: Plan) -> None:
    """Heading and table, the thickest thatch first."""
    ink.text((box.left, box.top + 11), "Thatch", HEADING)
    spots = sorted(plan.thatch, key=lambda spot: -(spot.latest_in or -1.0))
    start = box.left + ink.width("Thatch", HEADING) + 10
    if not spots:
        for row, line in enumerate(ink.wrap(NO_SPOTS, CAPTION, box.width, most=2)):
            ink.text((box.left, box.top + HEADING_PT + 12 + 11 * row), line, CAPTION)
        return
    shown = spots[: rows_that_fit(box.height)]
    caption = "inches, the thickest first"
    if len(shown) < len(spots):
        caption = f"inches, the {len(shown)} thickest of {len(spots)} spots"
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    draw_table(ink, table, _COLUMNS, [thatch_row(spot) for spot in shown], TALL_ROW_PT)


def _month(on: date) -> str:
    return f"{MONTHS[on.month - 1]} ’{on.year % 100:02d}"


def _figure(value: float | None) -> str:
    return "–" if value is None else f"{value:.2f}"
