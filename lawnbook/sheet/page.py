"""The sheet: everything the yard needs on one page, drawn by one function in points.

The preview in the window, the printer and the PDF all call `draw_page`.
"""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from lawnbook.plan.model import Plan
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import Ink
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
    paper_size_pt,
    plan_rows,
)
from lawnbook.sheet.seasons import seasons
from lawnbook.sheet.sections.due import draw_due
from lawnbook.sheet.sections.due import height_pt as due_height_pt
from lawnbook.sheet.sections.feed import draw_feed
from lawnbook.sheet.sections.foot import draw_foot, foot_height
from lawnbook.sheet.sections.masthead import HEIGHT_PT as MASTHEAD_PT
from lawnbook.sheet.sections.masthead import draw_masthead
from lawnbook.sheet.sections.pictures import draw_sketch, draw_worst_spot
from lawnbook.sheet.sections.thatch import draw_thatch
from lawnbook.sheet.sections.thatch import height_pt as thatch_height_pt
from lawnbook.sheet.sections.water import draw_water
from lawnbook.yard.notebook import Notebook

PICTURES_SHARE = 0.58
_PICTURES_LEAST_PT = 160.0
_PICTURES_MOST_PT = 330.0
_PICTURES_EMPTY_PT = 200.0
_LAST_LEAST_PT = 78.0
_LAST_MOST_PT = 150.0
_LAST_SHARE = 0.38
_NO_ZONES_PT = 12.0


def draw_page(painter: QPainter, notebook: Notebook, plan: Plan, paper: PaperName) -> None:
    """Draw the sheet; the painter's unit is the point, its origin the paper's upper left corner.

    Exactly one page: what finds no room is summed up in a line that says so.
    """
    ensure_qt()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setRenderHint(QPainter.RenderHint.TextAntialiasing)
    ink = Ink(painter)
    width, height = paper_size_pt(paper)
    ink.tint(QRectF(0, 0, width, height), "paper")
    _draw_bands(ink, live_area(paper), notebook, plan)
    painter.restore()


def _draw_bands(ink: Ink, area: Box, notebook: Notebook, plan: Plan) -> None:
    boxes, rows = _share_out(ink, area, plan)
    head, pictures, water, feed, last, foot = boxes
    draw_masthead(ink, head, notebook, plan)
    left, right = pictures.columns(PICTURES_SHARE)
    draw_sketch(ink, left, notebook, plan)
    draw_worst_spot(ink, right, plan)
    draw_water(ink, water, plan, notebook, rows, seasons(notebook.yard.latitude_deg))
    draw_feed(ink, feed, plan, notebook, rows)
    left, right = last.columns(PICTURES_SHARE)
    draw_due(ink, left, plan)
    draw_thatch(ink, right, plan)
    draw_foot(ink, foot, plan)


def _share_out(ink: Ink, area: Box, plan: Plan) -> tuple[tuple[Box, ...], RowPlan]:
    """The six bands of the page from the top down, and the rows of the two zone tables.

    The tables take what they need as long as pictures and lists keep their least height; the
    pictures then grow into what is left, and the lists after them.
    """
    foot = foot_height(ink, plan, area.width)
    water_head, feed_head = HEADING_PT + TALL_HEAD_PT, HEADING_PT + HEAD_ROW_PT + LINE_PT
    fixed = MASTHEAD_PT + foot + water_head + feed_head + 4 * GAP_PT
    room = area.height - fixed - _PICTURES_LEAST_PT - _LAST_LEAST_PT
    rows = plan_rows(len(plan.zones), room)
    table = max(_NO_ZONES_PT, rows.shown * rows.row_pt)
    spare = area.height - fixed - 2 * table
    wanted = max(due_height_pt(plan), thatch_height_pt(plan))
    last = max(_LAST_LEAST_PT, min(wanted, _LAST_MOST_PT, spare * _LAST_SHARE))
    pictures = min(_PICTURES_MOST_PT if plan.zones else _PICTURES_EMPTY_PT, spare - last)
    heights = (
        MASTHEAD_PT,
        pictures,
        water_head + table,
        feed_head + table,
        spare - pictures,
        foot,
    )
    return _stack(area, heights), rows


def _stack(area: Box, heights: tuple[float, ...]) -> tuple[Box, ...]:
    """Boxes one under another; the masthead's own rule parts it, gaps part the rest."""
    boxes = []
    top = area.top
    for number, height in enumerate(heights):
        boxes.append(Box(area.left, top, area.width, height))
        top += height + (GAP_PT if number else 0.0)
    return tuple(boxes)
