"""Thatch then and now, spot by spot."""

from dataclasses import dataclass
from datetime import date

from lawnbook.plan.model import Plan, SpotThatch
from lawnbook.sheet.ink import CAPTION, DETAIL, HEADING, Ink
from lawnbook.sheet.layout import HEAD_ROW_PT, HEADING_PT, ROW_PT, TALL_ROW_PT, Box
from lawnbook.sheet.table import Cell, Column, Row, draw_table, tellings
from lawnbook.yard.numbers import MONTHS

NO_SPOTS = "No plug spot yet: mark a few and pull one plug at each, spring and autumn."
_TALL = (
    Column("spot", 72, "left"),
    Column("", 40),
    Column("then", 36),
    Column("", 40),
    Column("now", 36),
)
_FLAT = (
    Column("spot", 48, "left"),
    Column("", 35.6),
    Column("then", 25.7),
    Column("", 35.6),
    Column("now", 26.6),
    Column("a year", 31.3),
)


@dataclass(frozen=True, slots=True)
class SpotRows:
    """How many spots the table shows, and whether each has its verdict on a second line."""

    shown: int
    tall: bool

    @property
    def row_pt(self) -> float:
        """The height of one row."""
        return TALL_ROW_PT if self.tall else ROW_PT


def height_pt(plan: Plan, *, tall: bool) -> float:
    """The height that shows every spot, with its verdict in words or in a line of figures."""
    row = TALL_ROW_PT if tall or not plan.thatch else ROW_PT
    return HEADING_PT + HEAD_ROW_PT + row * max(1, len(plan.thatch)) + 2


def rows_that_fit(spots: int, height_pt: float) -> SpotRows:
    """The rows of a box of this height: with verdicts where all fit, else in single lines."""
    room = height_pt - HEADING_PT - HEAD_ROW_PT
    if spots * TALL_ROW_PT <= room:
        return SpotRows(spots, tall=True)
    return SpotRows(max(1, min(spots, int(room / ROW_PT))), tall=False)


def thatch_row(spot: SpotThatch) -> Row:
    """One spot: its first and latest thatch with their months, and beneath them the verdict."""
    name, *figures = _then_and_now(spot)
    return (Cell(name, short_verdict(spot.verdict), strong=True, detail_spans=True), *figures)


def flat_row(spot: SpotThatch) -> Row:
    """One spot in a single line: then, now, and what is shown of the change in a year."""
    name, *figures = _then_and_now(spot)
    return (Cell(name, strong=True), *figures, _pace(spot))


def short_verdict(verdict: str) -> str:
    """The verdict, or its first half where it cannot say yet and goes on to what is needed."""
    head, parted, _ = verdict.partition(";")
    return f"{head}." if parted else verdict


def bare_verdict(verdict: str) -> str:
    """The verdict without the interval in brackets, for where that finds no room."""
    return tellings(short_verdict(verdict))[1]


def draw_thatch(ink: Ink, box: Box, plan: Plan) -> None:
    """Heading and table, the thickest thatch first."""
    ink.text((box.left, box.top + 11), "Thatch", HEADING)
    spots = sorted(plan.thatch, key=lambda spot: -(spot.latest_in or -1.0))
    start = box.left + ink.width("Thatch", HEADING) + 10
    if not spots:
        for row, line in enumerate(ink.wrap(NO_SPOTS, CAPTION, box.width, most=2)):
            ink.text((box.left, box.top + HEADING_PT + 12 + 11 * row), line, CAPTION)
        return
    rows = rows_that_fit(len(spots), box.height)
    caption = _caption(len(spots), rows)
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    shown = spots[: rows.shown]
    if rows.tall:
        cells = [_fitted(ink, thatch_row(spot), spot, box.width) for spot in shown]
        draw_table(ink, table, _TALL, cells, rows.row_pt)
    else:
        draw_table(ink, table, _FLAT, [flat_row(spot) for spot in shown], rows.row_pt)


def _caption(spots: int, rows: SpotRows) -> str:
    if rows.shown < spots:
        return f"inches, the {rows.shown} thickest of {spots} spots"
    return "inches, the thickest first" if rows.tall else "inches; a dash: too few plugs to say"


def _fitted(ink: Ink, row: Row, spot: SpotThatch, width: float) -> Row:
    first, *rest = row
    if ink.width(first.detail, DETAIL) <= width:
        return row
    bare = Cell(first.main, bare_verdict(spot.verdict), strong=True, detail_spans=True)
    return (bare, *rest)


def _then_and_now(spot: SpotThatch) -> tuple[str, Cell, Cell, Cell, Cell]:
    dates = [each.date for each in spot.columns if each.thatch_in is not None]
    then, now = (_month(dates[0]), _month(dates[-1])) if dates else ("", "")
    return (
        spot.spot,
        Cell(then, small=True),
        Cell(_figure(spot.first_in)),
        Cell(now, small=True),
        Cell(_figure(spot.latest_in), strong=True),
    )


def _pace(spot: SpotThatch) -> Cell:
    """The slope where the plugs carry one; "none" where the interval holds no change at all."""
    if spot.ci95 is None or spot.slope_in_per_year is None:
        return Cell("–")
    low, high = spot.ci95
    if low <= 0 <= high:
        return Cell("none", small=True)
    sign = "−" if spot.slope_in_per_year < 0 else "+"
    return Cell(f"{sign}{abs(spot.slope_in_per_year):.2f}")


def _month(on: date) -> str:
    return f"{MONTHS[on.month - 1]} ’{on.year % 100:02d}"


def _figure(value: float | None) -> str:
    return "–" if value is None else f"{value:.2f}"
