"""The sheet: everything the yard needs on one page, drawn by one function in points.

The preview in the window, the printer and the PDF all call `draw_page`.
"""

from PySide6.QtGui import QPainter

from lawnbook.plan.model import Plan
from lawnbook.plan.plain_plan import plain_plan
from lawnbook.plan.spreading_plan import spreading_plan
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import Ink
from lawnbook.sheet.layout import GUTTER_PT, Box, PaperName, live_area
from lawnbook.sheet.page_shares import Content, best_shares
from lawnbook.sheet.paper import on_paper
from lawnbook.sheet.seasons import seasons_watered
from lawnbook.sheet.sections.code import TEXT_BYTES, codes_of, draw_code, fitting
from lawnbook.sheet.sections.due import draw_due
from lawnbook.sheet.sections.feed import Spreads, draw_feed, note_lines, spreads_of
from lawnbook.sheet.sections.foot import draw_foot
from lawnbook.sheet.sections.masthead import draw_masthead
from lawnbook.sheet.sections.pictures import draw_sketch, draw_worst_spot
from lawnbook.sheet.sections.thatch import WIDTH_PT as THATCH_PT
from lawnbook.sheet.sections.thatch import draw_thatch
from lawnbook.sheet.sections.water import draw_water, third_line
from lawnbook.sheet.sections.water_notes import water_notes
from lawnbook.yard.notebook import Notebook

PICTURES_SHARE = 0.58


def draw_page(painter: QPainter, notebook: Notebook, plan: Plan, paper: PaperName) -> None:
    """Draw the sheet; the painter's unit is the point, its origin the paper's upper left corner.

    Exactly one page: what finds no room is summed up in a line that says so.
    """
    with on_paper(painter, paper) as ink:
        _draw_bands(ink, live_area(paper), notebook, plan)


def zones_shown(notebook: Notebook, plan: Plan, paper: PaperName) -> int:
    """How many zones the page's tables have room for; those left out are told of in a line."""
    ensure_qt()
    content, _ = _content(Ink(QPainter()), live_area(paper), notebook, plan)
    return best_shares(Ink(QPainter()), live_area(paper), content).rows.shown


def _content(ink: Ink, area: Box, notebook: Notebook, plan: Plan) -> tuple[Content, Spreads]:
    coming = spreads_of(spreading_plan(notebook, plan.on))
    content = Content(
        plan=plan,
        water_notes=len(water_notes(ink, plan, notebook, area.width)),
        feed_notes=len(note_lines(ink, notebook, plan, coming, area.width)),
        third=third_line(plan, notebook),
        has_spreads=bool(coming.spreads),
        codes=codes_of([plain_plan(notebook, plan, most) for most in TEXT_BYTES]),
    )
    return content, coming


def _draw_bands(ink: Ink, area: Box, notebook: Notebook, plan: Plan) -> None:
    content, coming = _content(ink, area, notebook, plan)
    shares = best_shares(ink, area, content)
    head, pictures, water, feed, last, foot = shares.boxes
    draw_masthead(ink, head, notebook, plan)
    left, right = pictures.columns(PICTURES_SHARE)
    draw_sketch(ink, left, notebook, plan)
    draw_worst_spot(ink, right, plan)
    of_year = seasons_watered(plan.zones, notebook.yard.latitude_deg)
    draw_water(ink, water, plan, notebook, shares.rows, of_year)
    draw_feed(ink, feed, plan, notebook, coming, shares.rows)
    _draw_last(ink, last, content)
    draw_foot(ink, foot, shares.foot)


def _draw_last(ink: Ink, box: Box, content: Content) -> None:
    """What is due by hand, the other spots, and the code at the right."""
    code, side = fitting(content.codes, box.height)
    thatch_left = box.right - side - GUTTER_PT - THATCH_PT
    due = Box(box.left, box.top, thatch_left - GUTTER_PT - box.left, box.height)
    draw_due(ink, due, content.plan, spread=content.has_spreads)
    draw_thatch(ink, Box(thatch_left, box.top, THATCH_PT, box.height), content.plan)
    draw_code(ink, Box(box.right - side, box.top, side, box.height), code)
