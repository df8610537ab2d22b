"""The sheet: everything the yard needs on one page, drawn by one function in points.

The preview in the window, the printer and the PDF all call `draw_page`.
"""

from dataclasses import dataclass

from PySide6.QtGui import QPainter

from lawnbook.plan.model import Plan
from lawnbook.sheet.ink import CAUTION, SMALLER_CAUTIONS, Ink, Style
from lawnbook.sheet.layout import (
    GAP_PT,
    HEAD_ROW_PT,
    HEADING_PT,
    LINE_PT,
    TALL_HEAD_PT,
    Box,
    PaperName,
    RowPlan,
    live_area,
    plan_rows,
)
from lawnbook.sheet.paper import on_paper
from lawnbook.sheet.seasons import seasons_watered
from lawnbook.sheet.sections.due import draw_due
from lawnbook.sheet.sections.due import height_pt as due_height_pt
from lawnbook.sheet.sections.feed import draw_feed
from lawnbook.sheet.sections.foot import (
    LEAST_SOURCE_LINES,
    MOST_SOURCE_LINES,
    Foot,
    draw_foot,
    lay_foot,
)
from lawnbook.sheet.sections.masthead import HEIGHT_PT as MASTHEAD_PT
from lawnbook.sheet.sections.masthead import draw_masthead
from lawnbook.sheet.sections.pictures import draw_sketch, draw_worst_spot
from lawnbook.sheet.sections.thatch import draw_thatch
from lawnbook.sheet.sections.thatch import height_pt as thatch_height_pt
from lawnbook.sheet.sections.water import ThirdLine, draw_water, third_line
from lawnbook.sheet.sections.water_notes import water_notes
from lawnbook.yard.notebook import Notebook

PICTURES_SHARE = 0.58
_PICTURES_LEAST_PT = 148.0
_PICTURES_GOOD_PT = 200.0
_PICTURES_MOST_PT = 330.0
_PICTURES_EMPTY_PT = 200.0
_LAST_LEAST_PT = 78.0
_LAST_SHARE = 0.38
_LAST_WHOLE_PT = 150.0
_NO_ZONES_PT = 12.0
_NEEDED: dict[ThirdLine, int] = {"needed": 3, "wanted": 2, "empty": 2}


@dataclass(frozen=True, slots=True)
class _Water:
    """A plan, the height of the notes under its water table, what a third line is for its rows."""

    plan: Plan
    notes_pt: float
    third: ThirdLine


@dataclass(frozen=True, slots=True)
class _Shares:
    """The six bands of the page, the rows of the two zone tables, and the foot's lines."""

    boxes: tuple[Box, ...]
    rows: RowPlan
    foot: Foot

    @property
    def pictures_pt(self) -> float:
        """The height of the pictures."""
        return self.boxes[1].height

    @property
    def lists_pt(self) -> float:
        """The height of what is due and of the spots."""
        return self.boxes[4].height


def draw_page(painter: QPainter, notebook: Notebook, plan: Plan, paper: PaperName) -> None:
    """Draw the sheet; the painter's unit is the point, its origin the paper's upper left corner.

    Exactly one page: what finds no room is summed up in a line that says so.
    """
    with on_paper(painter, paper) as ink:
        _draw_bands(ink, live_area(paper), notebook, plan)


def _draw_bands(ink: Ink, area: Box, notebook: Notebook, plan: Plan) -> None:
    notes_pt = LINE_PT * len(water_notes(ink, plan, notebook, area.width))
    shares = _best_shares(ink, area, _Water(plan, notes_pt, third_line(plan, notebook)))
    head, pictures, water, feed, last, foot = shares.boxes
    draw_masthead(ink, head, notebook, plan)
    left, right = pictures.columns(PICTURES_SHARE)
    draw_sketch(ink, left, notebook, plan)
    draw_worst_spot(ink, right, plan)
    of_year = seasons_watered(plan.zones, notebook.yard.latitude_deg)
    draw_water(ink, water, plan, notebook, shares.rows, of_year)
    draw_feed(ink, feed, plan, notebook, shares.rows)
    left, right = last.columns(PICTURES_SHARE)
    draw_due(ink, left, plan)
    draw_thatch(ink, right, plan)
    draw_foot(ink, foot, shares.foot)


def _best_shares(ink: Ink, area: Box, water: _Water) -> _Shares:
    """Cautions as large as fit, then as many lines of sources as leave the pictures a good height.

    Cautions fit where they cost tables and lists no row and the pictures not their least height.
    A third line in the water table that is wanted only comes last, and takes nothing from feed.
    """
    plan = water.plan

    def shared(caution: Style, lines: int, most_rows: int = _NEEDED[water.third]) -> _Shares:
        return _share_out(area, water, lay_foot(ink, plan, area.width, lines, caution), most_rows)

    *larger, smallest = (CAUTION, *SMALLER_CAUTIONS)
    tight = shared(smallest, LEAST_SOURCE_LINES)
    least = min(_PICTURES_LEAST_PT, tight.pictures_pt)
    lists = min(tight.lists_pt, max(_LAST_LEAST_PT, _lists_pt(plan, tall=True)))
    tried = ((caution, shared(caution, LEAST_SOURCE_LINES)) for caution in larger)
    fitting = (
        (caution, shares)
        for caution, shares in tried
        if shares.rows == tight.rows and shares.lists_pt >= lists and shares.pictures_pt >= least
    )
    caution, best = next(fitting, (smallest, tight))
    if water.third == "wanted":
        longer = shared(caution, LEAST_SOURCE_LINES, 3)
        as_much = (longer.rows.shown, longer.rows.feed_lines) == (
            best.rows.shown,
            best.rows.feed_lines,
        )
        if as_much and longer.pictures_pt >= least:
            best = longer
    for lines in range(MOST_SOURCE_LINES, LEAST_SOURCE_LINES, -1):
        shares = shared(caution, lines, best.rows.water_lines)
        if shares.pictures_pt >= _PICTURES_GOOD_PT:
            return shares
    return best


def _share_out(area: Box, water: _Water, foot: Foot, most_rows: int) -> _Shares:
    """The bands from the top down.

    The tables take what they need as long as pictures and lists keep their least height, and more
    lines a row only where the lists are whole (unless they are endless); the lists then take
    theirs, and the pictures grow into what is left.
    """
    plan, notes_pt = water.plan, water.notes_pt
    water_head, feed_head = HEADING_PT + TALL_HEAD_PT, HEADING_PT + HEAD_ROW_PT + LINE_PT
    fixed = MASTHEAD_PT + foot.height_pt + water_head + notes_pt + feed_head + 4 * GAP_PT
    room = area.height - fixed - _PICTURES_LEAST_PT
    whole = min(_LAST_WHOLE_PT, max(_LAST_LEAST_PT, _lists_pt(plan, tall=False)))
    rows = plan_rows(len(plan.zones), room - _LAST_LEAST_PT, room - whole, most_rows)
    water_table = max(_NO_ZONES_PT, rows.shown * rows.water_pt)
    feed_table = max(_NO_ZONES_PT, rows.shown * rows.feed_pt)
    spare = area.height - fixed - water_table - feed_table
    most = _PICTURES_MOST_PT if plan.zones else _PICTURES_EMPTY_PT
    pictures = min(most, spare - _last_pt(plan, spare))
    heights = (
        MASTHEAD_PT,
        pictures,
        water_head + water_table + notes_pt,
        feed_head + feed_table,
        spare - pictures,
        foot.height_pt,
    )
    return _Shares(_stack(area, heights), rows, foot)


def _last_pt(plan: Plan, spare: float) -> float:
    """The height of the lists: spots with their verdicts where the pictures stay good, else lines.

    Where even the lines would squeeze the pictures, a share of what is there.
    """
    whole, lines = (_lists_pt(plan, tall=tall) for tall in (True, False))
    if whole <= spare - _PICTURES_GOOD_PT:
        return max(_LAST_LEAST_PT, whole)
    if lines <= spare - _PICTURES_LEAST_PT:
        return max(_LAST_LEAST_PT, lines)
    return max(_LAST_LEAST_PT, spare * _LAST_SHARE)


def _lists_pt(plan: Plan, *, tall: bool) -> float:
    return max(due_height_pt(plan), thatch_height_pt(plan, tall=tall))


def _stack(area: Box, heights: tuple[float, ...]) -> tuple[Box, ...]:
    """Boxes one under another; the masthead's own rule parts it, gaps part the rest."""
    boxes = []
    top = area.top
    for number, height in enumerate(heights):
        boxes.append(Box(area.left, top, area.width, height))
        top += height + (GAP_PT if number else 0.0)
    return tuple(boxes)
