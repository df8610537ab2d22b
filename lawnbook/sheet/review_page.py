"""The year in review on paper: a masthead, the year in a few figures and bars, words and tables.

One page where it fits, else as many as it takes; nothing is cut.
"""

from PySide6.QtGui import QPainter

from lawnbook.plan.year_review_model import YearReview
from lawnbook.reading import tr
from lawnbook.sheet.flow import Placed, flowed
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import CAPTION, SUBTITLE, TITLE, Ink, Style
from lawnbook.sheet.layout import LINE_PT, Box, PaperName, live_area
from lawnbook.sheet.paper import on_paper
from lawnbook.sheet.review_blocks import blocks_of
from lawnbook.sheet.sections.ornament import ornament
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import day

MASTHEAD_PT = 63.0
ORNAMENT_PT = 36.0
RUNNING_HEAD_PT = 26.0
FOOT_PT = 16.0
NOT_COUNTED = tr("What is not on record is in no figure here.")
_NAME = "Lawnbook"
_COLOPHON = Style(SUBTITLE.face, 8.5, SUBTITLE.role)
_TITLE_SIZES = (24.0, 20.0, 17.0)

ReviewPages = tuple[tuple[Placed, ...], ...]


def lay_review(review: YearReview, paper: PaperName) -> ReviewPages:
    """What stands on each page, the first with the masthead."""
    ensure_qt()
    area = live_area(paper)
    ink = Ink(QPainter())
    head = MASTHEAD_PT + _compared_pt(ink, review, area.width)
    return flowed(
        tuple(blocks_of(ink, review, area.width)),
        _below(area, head),
        _below(area, RUNNING_HEAD_PT),
    )


def draw_review(
    painter: QPainter, review: YearReview, pages: ReviewPages, number: int, paper: PaperName
) -> None:
    """Draw a page, counted from 0; the unit is the point, the origin the paper's upper left."""
    with on_paper(painter, paper) as ink:
        area = live_area(paper)
        if number:
            _running_head(ink, area, review)
        else:
            _masthead(ink, area, review)
        for placed in pages[number]:
            placed.block.paint(ink, placed.box)
        _foot(ink, area, number + 1, len(pages))


def _below(area: Box, head_pt: float) -> Box:
    return Box(area.left, area.top + head_pt, area.width, area.height - head_pt - FOOT_PT)


def _masthead(ink: Ink, area: Box, review: YearReview) -> None:
    zones = len(review.water.zones)
    count = tr("1 zone") if zones == 1 else tr("{zones} zones", zones=zones)
    grass = told(review.water.area_sqft, 0, "sq ft")
    facts = tr("{area} of grass in {zones}", area=grass, zones=count) if zones else ""
    room = area.width - ink.width(facts, CAPTION) - 24
    name = review.yard or tr("The yard")
    sizes = (Style(TITLE.face, size, TITLE.role) for size in _TITLE_SIZES)
    fitting = (style for style in sizes if ink.width(name, style) <= room)
    style = next(fitting, Style(TITLE.face, _TITLE_SIZES[-1], TITLE.role))
    ink.text((area.left, area.top + 20), ink.fit(name, style, room), style)
    ink.text(
        (area.left, area.top + 36), tr("Year in review: {label}", label=review.span.label), SUBTITLE
    )
    ink.text((area.right, area.top + 24), facts, CAPTION, "right")
    ink.text((area.right, area.top + 36), tr("as of {on}", on=day(review.on)), CAPTION, "right")
    ink.picture(ornament(area.width), area.left, area.top + ORNAMENT_PT)
    y = area.top + MASTHEAD_PT
    for line in _compared(ink, review, area.width):
        ink.text((area.left, y + 6), line, CAPTION)
        y += LINE_PT


def _compared_pt(ink: Ink, review: YearReview, width: float) -> float:
    return LINE_PT * len(_compared(ink, review, width)) + 6


def _compared(ink: Ink, review: YearReview, width: float) -> list[str]:
    """Which days stand beside which, and what no figure of them holds."""
    return ink.paragraph(f"{review.compared} {NOT_COUNTED}".strip(), CAPTION, width)


def _running_head(ink: Ink, area: Box, review: YearReview) -> None:
    words = tr(
        "{yard}, year in review: {label}", yard=review.yard or "The yard", label=review.span.label
    )
    ink.text((area.left, area.top + 9), ink.fit(words, SUBTITLE, area.width), SUBTITLE)
    ink.rule(area.left, area.right, area.top + 16, "ink", 1.0)


def _foot(ink: Ink, area: Box, number: int, of: int) -> None:
    if of > 1:
        ink.text(
            (area.left, area.bottom - 3), tr("{number} of {of}", number=number, of=of), _COLOPHON
        )
    ink.text((area.right, area.bottom - 3), _NAME, _COLOPHON, "right")
