"""Thatch then and now of the spots beside the worst one, in a slim list."""

from dataclasses import replace
from datetime import date

from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.reading import tr
from lawnbook.sheet.ink import CAPTION, HEADING, Ink
from lawnbook.sheet.layout import HEAD_ROW_PT, HEADING_PT, ROW_PT, TALL_ROW_PT, Box
from lawnbook.sheet.table import Cell, Column, Row, draw_table, keyed
from lawnbook.yard.amounts import bare, unit_shown
from lawnbook.yard.numbers import MONTHS

TITLE = tr("Other spots")
CAPTION_TEXT = "thatch, {unit}"
NO_SPOTS = tr("No plug spot yet: mark a few and pull one plug at each, spring and autumn.")
NO_OTHERS = tr("No other spot has a plug yet.")
WIDTH_PT = 152.0
_COLUMNS = (
    Column("", 60, "left"),
    Column(tr("then"), 28),
    Column(tr("now"), 28),
    Column(tr("a year"), 36),
)
_LINE_PT = 11.0


def worst_spot(plan: Plan) -> SpotThatch | None:
    """The spot with the thickest thatch now; the first with a plug where none was measured."""
    plugged = [spot for spot in plan.thatch if spot.columns]
    return max(plugged, key=lambda spot: spot.latest_in or -1.0, default=None)


def other_spots(plan: Plan) -> tuple[SpotThatch, ...]:
    """All spots but the worst, the thickest thatch first."""
    worst = worst_spot(plan)
    spots = (spot for spot in plan.thatch if worst is None or spot.spot_id != worst.spot_id)
    return tuple(sorted(spots, key=lambda spot: -(spot.latest_in or -1.0)))


def height_pt(plan: Plan, *, tall: bool) -> float:
    """The height that shows every spot, with the months of its plugs or without."""
    spots = len(other_spots(plan))
    if not spots:
        return HEADING_PT + 3 * _LINE_PT
    return HEADING_PT + HEAD_ROW_PT + (TALL_ROW_PT if tall else ROW_PT) * spots + 2


def rows_that_fit(spots: int, height_pt: float) -> tuple[int, float]:
    """How many spots a box of this height shows, and the height of their rows."""
    room = height_pt - HEADING_PT - HEAD_ROW_PT
    if spots * TALL_ROW_PT <= room:
        return spots, TALL_ROW_PT
    return max(1, min(spots, int(room / ROW_PT))), ROW_PT


def thatch_row(spot: SpotThatch) -> Row:
    """One spot: its first and latest thatch, what is shown of a year, and beneath it the months.

    "Then" is a dash where all plugs were pulled on one day.
    """
    dates = [each.date for each in spot.columns if each.thatch_in is not None]
    several = len(set(dates)) > 1
    months = tr(" to ").join(dict.fromkeys(_month(each) for each in (dates[:1] + dates[-1:])))
    return (
        Cell(spot.spot, months, strong=True, detail_spans=True),
        Cell(_figure(spot.first_in if several else None)),
        Cell(_figure(spot.latest_in), strong=True),
        _pace(spot),
    )


def short_verdict(verdict: str) -> str:
    """The verdict, or its first half where it cannot say yet and goes on to what is needed."""
    head, parted, _ = verdict.partition(";")
    return f"{head}." if parted else verdict


def draw_thatch(ink: Ink, box: Box, plan: Plan) -> None:
    """Heading and list, the thickest thatch first; a dash where too few plugs say a change."""
    ink.text((box.left, box.top + 11), TITLE, HEADING)
    spots = other_spots(plan)
    if not spots:
        said = NO_SPOTS if not plan.thatch else NO_OTHERS
        for row, line in enumerate(ink.wrap(said, CAPTION, box.width, most=3)):
            y = box.top + HEADING_PT + 10 + _LINE_PT * row
            ink.text((box.left, y), line, CAPTION)
        return
    shown, row_pt = rows_that_fit(len(spots), box.height)
    caption = _caption(shown, len(spots))
    ink.text((box.right, box.top + 11), caption, CAPTION, "right")
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    rows = [_keyed(spot) for spot in spots[:shown]]
    draw_table(ink, table, _COLUMNS, rows, row_pt)


def _keyed(spot: SpotThatch) -> Row:
    """A spot's row whose every cell opens the spot's workings."""
    every = tuple(replace(cell, key="thatch") for cell in thatch_row(spot))
    return keyed(every, "thatch", spot.spot_id)


def _caption(shown: int, of: int) -> str:
    """In what the list is told, and how many spots it has where not all."""
    unit = unit_shown("in")
    if shown == of:
        return tr(CAPTION_TEXT, unit=unit)
    return tr("{shown} of {count}, {unit}", shown=shown, count=of, unit=unit)


def _pace(spot: SpotThatch) -> Cell:
    """The slope where the plugs carry one; "none" where the interval holds no change at all."""
    if spot.ci95 is None or spot.slope_in_per_year is None:
        return Cell("–")
    low, high = spot.ci95
    if low <= 0 <= high:
        return Cell(tr("none"), small=True)
    sign = "−" if spot.slope_in_per_year < 0 else "+"
    return Cell(f"{sign}{bare(abs(spot.slope_in_per_year), 2, 'in')}")


def _month(on: date) -> str:
    return f"{tr(MONTHS[on.month - 1])} ’{on.year % 100:02d}"


def _figure(value: float | None) -> str:
    return "–" if value is None else bare(value, 2, "in")
