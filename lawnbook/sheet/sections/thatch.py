"""Thatch then and now, spot by spot."""

from dataclasses import dataclass
from datetime import date

from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import SpotThatch
from lawnbook.sheet.ink import CAPTION, DETAIL, HEADING, Ink
from lawnbook.sheet.layout import (
    HEAD_ROW_PT,
    HEADING_PT,
    ROW_PT,
    TALL_ROW_PT,
    TALLER_ROW_PT,
    Box,
)
from lawnbook.sheet.table import Cell, Column, Row, draw_table, tellings
from lawnbook.yard.numbers import MONTHS

NO_SPOTS = "No plug spot yet: mark a few and pull one plug at each, spring and autumn."
_TALL = (
    Column("spot", 82, "left"),
    Column("", 40),
    Column("then", 31),
    Column("", 40),
    Column("now", 31),
)
_FLAT = (
    Column("spot", 48, "left"),
    Column("", 35.6),
    Column("then", 25.7),
    Column("", 35.6),
    Column("now", 26.6),
    Column("a year", 31.3),
)
_ROWS_PT = (ROW_PT, TALL_ROW_PT, TALLER_ROW_PT)


@dataclass(frozen=True, slots=True)
class SpotRows:
    """How many spots the table shows, and how many lines each has for its verdict: 0, 1 or 2."""

    shown: int
    verdict_lines: int

    @property
    def row_pt(self) -> float:
        """The height of one row."""
        return _ROWS_PT[self.verdict_lines]


def height_pt(plan: Plan, *, tall: bool) -> float:
    """The height that shows every spot, with its verdict in words or in a line of figures."""
    row = TALL_ROW_PT if tall or not plan.thatch else ROW_PT
    return HEADING_PT + HEAD_ROW_PT + row * max(1, len(plan.thatch)) + 2


def rows_that_fit(spots: int, height_pt: float, wanted: int = 1) -> SpotRows:
    """The rows of a box of this height: with verdicts where all fit, else in single lines.

    `wanted` is how many lines the verdicts would take.
    """
    room = height_pt - HEADING_PT - HEAD_ROW_PT
    for lines in range(wanted, 0, -1):
        if spots * _ROWS_PT[lines] <= room:
            return SpotRows(spots, lines)
    return SpotRows(max(1, min(spots, int(room / ROW_PT))), 0)


def thatch_row(spot: SpotThatch, verdict: str) -> Row:
    """One spot: its first and latest thatch with their months, and beneath them the verdict."""
    name, *figures = _then_and_now(spot)
    return (Cell(name, verdict, strong=True, detail_spans=True), *figures)


def flat_row(spot: SpotThatch) -> Row:
    """One spot in a single line: then, now, and what is shown of the change in a year."""
    name, *figures = _then_and_now(spot)
    return (Cell(name, strong=True), *figures, _pace(spot))


def short_verdict(verdict: str) -> str:
    """The verdict, or its first half where it cannot say yet and goes on to what is needed."""
    head, parted, _ = verdict.partition(";")
    return f"{head}." if parted else verdict


def fitting_verdict(ink: Ink, verdict: str, width: float, lines: int) -> str:
    """The verdict as whole as the lines hold it; what is left of it is still a sentence."""
    told = (verdict, *tellings(short_verdict(verdict)))
    return next((each for each in told if _fits(ink, each, width, lines)), told[-1])


def draw_thatch(ink: Ink, box: Box, plan: Plan) -> None:
    """Heading and table, the thickest thatch first."""
    ink.text((box.left, box.top + 11), "Thatch", HEADING)
    spots = sorted(plan.thatch, key=lambda spot: -(spot.latest_in or -1.0))
    start = box.left + ink.width("Thatch", HEADING) + 10
    if not spots:
        for row, line in enumerate(ink.wrap(NO_SPOTS, CAPTION, box.width, most=2)):
            ink.text((box.left, box.top + HEADING_PT + 12 + 11 * row), line, CAPTION)
        return
    one_line = all(_fits(ink, short_verdict(spot.verdict), box.width, 1) for spot in spots)
    rows = rows_that_fit(len(spots), box.height, 1 if one_line else 2)
    caption = _caption(len(spots), rows)
    ink.text((start, box.top + 11), ink.fit(caption, CAPTION, box.right - start), CAPTION)
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    shown = spots[: rows.shown]
    lines = rows.verdict_lines
    if lines:
        told = [fitting_verdict(ink, spot.verdict, box.width, lines) for spot in shown]
        cells = [thatch_row(spot, verdict) for spot, verdict in zip(shown, told, strict=True)]
        draw_table(ink, table, _TALL, cells, rows.row_pt)
    else:
        draw_table(ink, table, _FLAT, [flat_row(spot) for spot in shown], rows.row_pt)


def _caption(spots: int, rows: SpotRows) -> str:
    if rows.shown < spots:
        return f"inches, the {rows.shown} thickest of {spots} spots"
    flat = "inches; a dash: too few plugs to say"
    return "inches, the thickest first" if rows.verdict_lines else flat


def _fits(ink: Ink, verdict: str, width: float, lines: int) -> bool:
    return len(ink.wrap(verdict, DETAIL, width)) <= lines


def _then_and_now(spot: SpotThatch) -> tuple[str, Cell, Cell, Cell, Cell]:
    """Name, then and now; "then" is a dash where all plugs were pulled on one day."""
    dates = [each.date for each in spot.columns if each.thatch_in is not None]
    now = _month(dates[-1]) if dates else ""
    then, first_in = (_month(dates[0]), spot.first_in) if len(set(dates)) > 1 else ("", None)
    return (
        spot.spot,
        Cell(then, small=True),
        Cell(_figure(first_in)),
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
