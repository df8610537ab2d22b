"""The pages of workings behind the sheet: every figure's formula, inputs and source, in columns.

As many pages as it takes, numbered after the sheet itself; nothing is cut. The first has the
nitrogen of the months before it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import count

from PySide6.QtGui import QPainter

from lawnbook.charts.marks import Align
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan, ZoneNitrogen
from lawnbook.plan.season_model import PlannedSpread
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings_text import (
    Group,
    cited_told,
    groups_of,
    sources_of,
    words_of,
)
from lawnbook.reading import tr
from lawnbook.sheet.fonts import ensure_qt
from lawnbook.sheet.ink import CAPTION, DETAIL, Ink, Style
from lawnbook.sheet.layout import GUTTER_PT, Box, PaperName, live_area
from lawnbook.sheet.paper import Between, nothing_between, on_paper
from lawnbook.sheet.running_head import HEAD_PT, draw_running_head
from lawnbook.sheet.sections.feed_months import draw_months, months_pt

KEY = tr(
    "In italics the formula, beneath it the numbers put in, then each input with "
    "where it came from, and what would change the figure most. [1] The source of "
    "that number, at the end."
)
FOOT_PT = 14.0
MOST_ZONES_A_TABLE = 36
_GROUP = Style("serif semibold", 10.5)
_NAME = Style("semibold", 8.5)
_FORMULA = Style("serif italic", 8.5, "quiet")
_PLAIN = Style("regular", 8)
_LINE_PT = 10.0
_GAP_PT = 5.0
_SOURCE_GAP_PT = 3.0
_GROUP_PT = 16.0


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a column: its words, how they are set, and how far below the last they stand."""

    text: str
    style: Style
    step_pt: float = _LINE_PT
    align: Align = "left"
    ruled: bool = False


Block = tuple[Line, ...]
"""Lines that stand together in one column."""


@dataclass(frozen=True, slots=True)
class WorkingsPage:
    """One page: whether it is the first, the zones of its table of months, its two columns."""

    is_first: bool
    zones: tuple[ZoneNitrogen, ...]
    columns: tuple[Block, Block]


def lay_workings(
    plan: Plan,
    paper: PaperName,
    spreads: Sequence[PlannedSpread] = (),
    between: Between = nothing_between,
) -> tuple[WorkingsPage, ...]:
    """The pages that the workings of a plan and of its coming feedings take on a paper.

    `between` is told the workings that are set, and may raise to leave off.
    """
    ensure_qt()
    ink, area = Ink(QPainter()), live_area(paper)
    width = (area.width - GUTTER_PT) / 2
    blocks = list(_blocks(ink, groups_of(plan, spreads), width, between))
    tables = _chunks(plan.nitrogen)
    pages: list[WorkingsPage] = []
    key_pt = _key_pt(ink, area)
    while blocks or tables or not pages:
        zones = tables.pop(0) if tables else ()
        room = area.height - HEAD_PT - FOOT_PT - months_pt(len(zones))
        room -= 0.0 if pages else key_pt
        columns = (_filled(blocks, room), _filled(blocks, room))
        pages.append(WorkingsPage(not pages, zones, columns))
    return tuple(pages)


def draw_workings(
    painter: QPainter, page: WorkingsPage, plan: Plan, paper: PaperName, place: tuple[int, int]
) -> None:
    """Draw one page; the painter's unit is the point, its origin the paper's upper left corner.

    `place` is its number among all pages, and of how many.
    """
    with on_paper(painter, paper) as ink:
        area = live_area(paper)
        draw_running_head(ink, area, plan, place, tr("Workings of the plan"))
        top = area.top + HEAD_PT
        if page.is_first:
            for line in _key_lines(ink, area):
                ink.text((area.left, top + 7), line, CAPTION)
                top += _LINE_PT
            top += _GAP_PT
        if page.zones:
            draw_months(ink, Box(area.left, top, area.width, area.height), plan, page.zones)
            top += months_pt(len(page.zones))
        width = (area.width - GUTTER_PT) / 2
        for number, column in enumerate(page.columns):
            left = area.left + number * (width + GUTTER_PT)
            _column(ink, column, Box(left, top, width, area.bottom - top))


def _key_lines(ink: Ink, area: Box) -> list[str]:
    return ink.paragraph(KEY, CAPTION, area.width)


def _key_pt(ink: Ink, area: Box) -> float:
    return _LINE_PT * len(_key_lines(ink, area)) + _GAP_PT


def _chunks(zones: Sequence[ZoneNitrogen]) -> list[tuple[ZoneNitrogen, ...]]:
    step = MOST_ZONES_A_TABLE
    return [tuple(zones[start : start + step]) for start in range(0, len(zones), step)]


def _blocks(ink: Ink, groups: Sequence[Group], width: float, between: Between) -> Iterator[Block]:
    """The workings as blocks, a heading with the first of its group, and the sources at the end."""
    sources = sources_of(groups)
    done, of = count(), sum(len(each.workings) for each in groups)
    for group in groups:
        for number, working in enumerate(group.workings):
            between(next(done), of)
            block = _block(ink, working, cited_told(working, sources), width)
            yield (*_heading(ink, group.title, width), *block) if number == 0 else block
    for number, source in enumerate(sources, start=1):
        lines = _wrapped(ink, f"[{number}] {source.rstrip('. ')}.", _PLAIN, width)
        lines[0] = replace(lines[0], step_pt=_LINE_PT + _SOURCE_GAP_PT)
        yield (*_heading(ink, tr("Sources"), width), *lines) if number == 1 else tuple(lines)


def _heading(ink: Ink, title: str, width: float) -> Block:
    first, *rest = ink.wrap(title, _GROUP, width)
    more = (Line(line, _GROUP, _LINE_PT + 2, ruled=line == rest[-1]) for line in rest)
    return (Line(first, _GROUP, _GROUP_PT, ruled=not rest), *more)


def _block(ink: Ink, working: Working, cited: str, width: float) -> Block:
    """One figure's lines; a long value stands under its name."""
    words = words_of(working)
    value_pt = ink.width(working.value, _NAME)
    beside = value_pt + ink.width(working.label, _NAME) + 10 <= width
    head = [Line(working.label, _NAME, _LINE_PT + _GAP_PT)] if beside else []
    if beside:
        head.append(Line(working.value, _NAME, 0.0, "right"))
    else:
        head = _wrapped(ink, working.label, _NAME, width)
        head[0] = replace(head[0], step_pt=_LINE_PT + _GAP_PT)
        head += _wrapped(ink, working.value, _NAME, width)
    most = " ".join((words.heading, *map(_sentence, words.most))) if words.most else ""
    *before, last = [each for each in ("; ".join(words.inputs), most) if each] or [""]
    return (
        *head,
        *_wrapped(ink, words.formula, _FORMULA, width),
        *_wrapped(ink, words.filled, _PLAIN, width),
        *_wrapped(ink, words.outcome, _PLAIN, width),
        *(line for told in before for line in _wrapped(ink, told, DETAIL, width)),
        *_wrapped(ink, f"{last} {cited}".strip(), DETAIL, width),
    )


def _sentence(line: str) -> str:
    """A line of a list as it stands among others in a paragraph."""
    return line if line.endswith(".") else f"{line}."


def _wrapped(ink: Ink, text: str, style: Style, width: float) -> list[Line]:
    return [Line(line, style) for line in ink.wrap(text, style, width)]


def _filled(blocks: list[Block], room: float) -> Block:
    """As many of the blocks as find room, taken off the list; one too tall alone is parted."""
    lines: list[Line] = []
    used = 0.0
    while blocks:
        height = _height(blocks[0])
        if used + height <= room:
            lines += blocks.pop(0)
            used += height
        elif lines:
            break
        else:
            kept = _count_within(blocks[0], room)
            lines += blocks[0][:kept]
            blocks[0] = blocks[0][kept:]
            break
    return tuple(lines)


def _count_within(block: Block, room: float) -> int:
    """How many of a block's first lines find room; at least one, so that there is an end."""
    used, count = 0.0, 0
    for line in block:
        used += line.step_pt
        if used > room:
            break
        count += 1
    return max(1, count)


def _height(block: Iterable[Line]) -> float:
    return sum(line.step_pt for line in block)


def _column(ink: Ink, lines: Block, box: Box) -> None:
    y = box.top
    for line in lines:
        y += line.step_pt
        ink.text(
            (box.left if line.align == "left" else box.right, y), line.text, line.style, line.align
        )
        if line.ruled:
            ink.rule(box.left, box.right, y + 3.2, "ink", 0.5)
