"""Then and now on one page: photographs, columns, figures, and how sure the difference is.

Photographs and columns stand at one scale each; long words end in an ellipsis, and the page is
one page always.
"""

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from lawnbook.charts.marks import Frame
from lawnbook.charts.pair import pair_marks
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import CareMark, DayPlugs, ThenNow
from lawnbook.reading import tr
from lawnbook.sheet.headlines import HEADLINES_PT, draw_headlines
from lawnbook.sheet.ink import CAPTION, DETAIL, HEADING, SUBTITLE, TITLE, Ink, Style
from lawnbook.sheet.layout import (
    GAP_PT,
    HEAD_ROW_PT,
    HEADING_PT,
    LINE_PT,
    ROW_PT,
    Box,
    PaperName,
    live_area,
)
from lawnbook.sheet.paper import on_paper
from lawnbook.sheet.photo_pair import best_photo, paint_pair, pair_of
from lawnbook.sheet.sections.ornament import ornament
from lawnbook.sheet.table import Cell, Column, draw_table
from lawnbook.sheet.then_now_figures import FigureLine, figure_lines, pair_headlines
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day
from lawnbook.yard.record_plug import Photo

PHOTO_PX_PER_PT = 300 / 72
"""Photographs are kept at 300 dots an inch of the page."""
MASTHEAD_PT = 63.0
ORNAMENT_PT = 36.0
FOOT_PT = 16.0
PHOTOS_PT = 186.0
PHOTO_GAP_PT = 14.0
COLUMNS_SHARE = 0.47
PARAGRAPH_PT = 3.0
MOST_CARE_LINES = 6
MOST_NOTE_LINES = 2
MORE = tr(" … more in the notebook")
NOTHING_DONE = tr("Nothing was recorded between the two days.")
_WORDS = Style("regular", 9.5)
_COLUMNS = (
    Column("", 92, "left"),
    Column(tr("then"), 84),
    Column(tr("now"), 84),
    Column(tr("change"), 40),
)
_NAME = "Lawnbook"


@dataclass(frozen=True, slots=True)
class _Told:
    """A line of words on the page, its style, and whether a paragraph begins with it."""

    text: str
    style: Style
    first: bool = False

    @property
    def step_pt(self) -> float:
        """How far below the line before it stands."""
        return LINE_PT + (PARAGRAPH_PT if self.first else 0.0)


def draw_then_now(
    painter: QPainter, notebook: Notebook, then_now: ThenNow, paper: PaperName
) -> None:
    """Draw the page; the painter's unit is the point, its origin the paper's upper left corner."""
    with on_paper(painter, paper) as ink:
        area = live_area(paper)
        _masthead(ink, area, notebook, then_now)
        top = area.top + MASTHEAD_PT
        draw_headlines(ink, Box(area.left, top, area.width, 0), pair_headlines(then_now), 3)
        top += HEADLINES_PT + GAP_PT
        under = top
        top = _photos(ink, Box(area.left, top, area.width, PHOTOS_PT), notebook, then_now)
        room = Box(area.left, top, area.width, area.bottom - FOOT_PT - top)
        _lower(ink, room, notebook, then_now, pictured=top > under)
        _foot(ink, area)


def day_photos(notebook: Notebook, of: DayPlugs) -> tuple[Photo, ...]:
    """The photographs of a day that are in the notebook."""
    return tuple(notebook.photos[each] for each in of.photo_ids if each in notebook.photos)


def care_told(mark: CareMark) -> str:
    """One thing done, in a line: its day, what, where, and its note."""
    where = f", {mark.where}" if mark.where else ""
    note = f": {mark.note}" if mark.note else ""
    return f"{day(mark.date)}  {mark.kind}{where}{note}"


def _masthead(ink: Ink, area: Box, notebook: Notebook, pair: ThenNow) -> None:
    where = ", ".join(each for each in (pair.zone, notebook.yard.name) if each)
    facts = ink.fit(where, CAPTION, area.width * 0.42)
    room = area.width - ink.width(facts, CAPTION) - 24
    ink.text((area.left, area.top + 20), ink.fit(pair.spot, TITLE, room), TITLE)
    dates = tr(
        "Then and now: {date} and {later}", date=day(pair.then.date), later=day(pair.now.date)
    )
    ink.text((area.left, area.top + 36), dates, SUBTITLE)
    ink.text((area.right, area.top + 36), facts, CAPTION, "right")
    ink.picture(ornament(area.width), area.left, area.top + ORNAMENT_PT)


def _photos(ink: Ink, box: Box, notebook: Notebook, pair: ThenNow) -> float:
    """The photographs of both days; returns where what follows may begin, `box.top` without any."""
    photos = tuple(best_photo(day_photos(notebook, each)) for each in (pair.then, pair.now))
    if photos[0] is None and photos[1] is None:
        return box.top
    wide = (box.width - PHOTO_GAP_PT) / 2
    high = box.height - 2 * ROW_PT
    lefts = (box.left, box.left + wide + PHOTO_GAP_PT)
    frames = (
        QRectF(lefts[0], box.top + ROW_PT, wide, high),
        QRectF(lefts[1], box.top + ROW_PT, wide, high),
    )
    shown = pair_of(*photos)
    for left, name, of in zip(lefts, (tr("then"), tr("now")), (pair.then, pair.now), strict=True):
        ink.text((left, box.top + 9), f"{name}, {day(of.date)}", CAPTION)
    for frame, shot in zip(frames, shown.shots, strict=True):
        if shot is None or shot.image.isNull():
            ink.tint(frame, "stone")
            words = tr("no photo") if shot is None else tr("photo unreadable")
            at = (frame.center().x(), frame.center().y())
            ink.text(at, words, SUBTITLE, "center")
    paint_pair(ink.painter, shown, frames, PHOTO_PX_PER_PT)
    ink.text((box.left, frames[0].bottom() + 10), ink.fit(shown.words, DETAIL, box.width), DETAIL)
    return box.bottom + GAP_PT


def _lower(ink: Ink, box: Box, notebook: Notebook, pair: ThenNow, *, pictured: bool) -> None:
    """The columns beside the words; the figures under both, or without photographs in the right."""
    lines = figure_lines(notebook, pair)
    table_pt = HEADING_PT + HEAD_ROW_PT + ROW_PT * len(lines) + 4
    beside_pt = box.height - table_pt - GAP_PT if pictured else box.height
    left, right = Box(box.left, box.top, box.width, beside_pt).columns(COLUMNS_SHARE)
    picture = pair_marks(pair.then.columns, pair.now.columns, Frame(left.width, left.height))
    ink.picture(picture, left.left, left.top)
    told = tuple(_told(ink, pair, right.width))
    words_pt = right.height if pictured else right.height - table_pt - GAP_PT
    ink.text((right.left, right.top + 11), tr("What it shows"), HEADING)
    words = Box(right.left, right.top + HEADING_PT, right.width, words_pt - HEADING_PT)
    _write(ink, words, told)
    if pictured:
        _table(ink, Box(box.left, box.bottom - table_pt, box.width, table_pt), lines)
    else:
        under = right.top + min(words_pt, HEADING_PT + sum(each.step_pt for each in told) + GAP_PT)
        _table(ink, Box(right.left, under + GAP_PT, right.width, table_pt), lines)


def _table(ink: Ink, box: Box, lines: Sequence[FigureLine]) -> None:
    ink.text((box.left, box.top + 11), tr("Figures"), HEADING)
    table = Box(box.left, box.top + HEADING_PT, box.width, box.height)
    rows = [
        (Cell(each.name), Cell(each.then), Cell(each.now), Cell(each.change, strong=True))
        for each in lines
    ]
    draw_table(ink, table, _COLUMNS, rows, ROW_PT)


def _told(ink: Ink, pair: ThenNow, width: float) -> Iterator[_Told]:
    """The difference with its doubt, what was done between, and the plugs' notes."""
    for words in pair.words:
        yield from _lines_of(ink.paragraph(words, _WORDS, width), _WORDS)
    yield _Told(tr("Done between"), Style("semibold", 9.5), first=True)
    done = pair.done_between
    if not done:
        yield _Told(NOTHING_DONE, DETAIL)
    for mark in done[:MOST_CARE_LINES]:
        yield from _lines_of(ink.wrap(care_told(mark), DETAIL, width, most=2), DETAIL, first=False)
    if len(done) > MOST_CARE_LINES:
        yield _Told(
            tr("and {count} more in the notebook", count=len(done) - MOST_CARE_LINES), DETAIL
        )
    for name, of in ((tr("Then"), pair.then), (tr("Now"), pair.now)):
        for note in dict.fromkeys(each.note.strip() for each in of.columns if each.note.strip()):
            lines = ink.wrap(f"{name}: {note}", DETAIL, width, most=MOST_NOTE_LINES)
            yield from _lines_of(lines, DETAIL)


def _lines_of(lines: Sequence[str], style: Style, *, first: bool = True) -> Iterator[_Told]:
    """Lines of a paragraph; a little room before its first."""
    for number, line in enumerate(lines):
        yield _Told(line, style, first=first and not number)


def _write(ink: Ink, box: Box, lines: Sequence[_Told]) -> None:
    """As many lines as there is room for; the last says that there are more."""
    y = box.top
    for number, each in enumerate(lines):
        y += each.step_pt
        following = lines[number + 1].step_pt if number + 1 < len(lines) else 0.0
        last = following > 0 and y + following > box.bottom
        # What is left out is said to be, and not only hinted at.
        tail = MORE if last else ""
        room = box.width - ink.width(tail, each.style)
        ink.text((box.left, y), ink.fit(each.text, each.style, room) + tail, each.style)
        if last:
            return


def _foot(ink: Ink, area: Box) -> None:
    colophon = Style(SUBTITLE.face, 8.5, SUBTITLE.role)
    ink.text((area.right, area.bottom - 3), _NAME, colophon, "right")
