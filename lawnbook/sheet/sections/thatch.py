"""Thatch then and now, spot by spot."""

from lawnbook.plan.model import Plan, SpotThatch
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEAD_ROW_PT, HEADING_PT, TALL_ROW_PT, Box
from lawnbook.sheet.table import Cell, Column, Row, draw_table
from lawnbook.yard.numbers import MONTHS

NO_SPOTS = "No plug spot yet: mark a few and pull one plug at each, spring and autumn."
_COLUMNS = (
    Column("spot", 120, "left"),
    Column("plugs", 32),
    Column("then, in", 64),
    Column("now, in", 64),
    Column("change", 44),
)


def rows_that_fit(height_pt: float) -> int:
    """How many spots a box of this height shows."""
    return max(1, int((height_pt - HEADING_PT - HEAD_ROW_PT) / TALL_ROW_PT))


def thatch_row(spot: SpotThatch) -> Row:
    """One spot: its first and latest thatch with their months, the change, and the verdict."""
    dates = [each.date for each in spot.columns if each.thatch_in is not None]
    then = f"{MONTHS[dates[0].month - 1]} {dates[0].year}" if dates else ""
    now = f"{MONTHS[dates[-1].month - 1]} {dates[-1].year}" if dates else ""
    change = "–" if spot.change_in is None else f"{spot.change_in:+.2f}".replace("-", "−")
    return (
        Cell(spot.spot, spot.zone, strong=True),
        Cell(str(spot.plugs)),
        Cell(_figure(spot.first_in), then),
        Cell(_figure(spot.latest_in), now, strong=True),
        Cell(change, strong=True),
    )


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
    caption = "then and now, thickest first"
    if len(shown) < len(spots):
        caption = f"the {len(shown)} thickest of {len(spots)} spots; the rest is in the notebook"
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    draw_table(ink, table, _COLUMNS, [thatch_row(spot) for spot in shown], TALL_ROW_PT)


def _figure(value: float | None) -> str:
    return "–" if value is None else f"{value:.2f}"
