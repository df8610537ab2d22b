"""The parts of the year in review as blocks: headlines, bars, sentences, tables of figures."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from lawnbook.charts.marks import Frame
from lawnbook.charts.review import paired_marks
from lawnbook.plan.year_review_model import YearReview
from lawnbook.reading import tr
from lawnbook.sheet.flow import Block
from lawnbook.sheet.headlines import HEADLINES_PT, draw_headlines
from lawnbook.sheet.ink import DETAIL, HEADING, STRONG, Ink, Style
from lawnbook.sheet.layout import HEAD_ROW_PT, HEADING_PT, ROW_PT, TALL_ROW_PT, Box
from lawnbook.sheet.placed import key_of, place
from lawnbook.sheet.review_figures import (
    REVIEW,
    TableRow,
    cost_rows,
    headlines,
    money,
    nitrogen_months,
    thatch_heads,
    thatch_rows,
    water_months,
    work_rows,
    zone_heads,
    zone_rows,
)
from lawnbook.sheet.table import Cell, Column, draw_table, head_pt

PART_GAP_PT = 14.0
BARS_PT = 100.0
ROWS_TOGETHER = 8
"""A table of no more rows is never parted."""

LEAST_ROWS = 3
"""Fewer rows of a longer table do not begin it on a page."""

WORDS = Style("regular", 9.5)
WORDS_LINE_PT = 12.0
BETWEEN_PT = 3.5
WORDS_SHARE = 0.56
MOST_BESIDE_PT = 420.0
"""Sentences stand beside costs and work up to this height."""

NO_SPOT = tr("No spot is marked yet: mark one and pull a plug there to see thatch over the years.")
NO_COST = tr("Nothing with a cost is on record.")
NO_WORK = tr("No work is on record.")
_SHARES = {
    "zones": (94.0, 36, 46, 46, 46, 46, 48, 32, 44, 48),
    "thatch": (84.0, 54, 40, 42, 38, 42, 36, 48, 38, 44),
}


def blocks_of(ink: Ink, review: YearReview, width: float) -> Iterator[Block]:
    """The whole review from its headlines on, in the order of reading."""
    yield Block(HEADLINES_PT, lambda ink, box: draw_headlines(ink, box, headlines(review)))
    yield Block(BARS_PT, lambda ink, box: _bars(ink, box, review), 10.0)
    yield from _words_and_costs(ink, review, width)
    if review.water.zones:
        yield from _table(tr("Zone by zone"), zone_heads(review), zone_rows(review), "zones")
    if review.spots:
        yield from _table(
            tr("Thatch and roots"), thatch_heads(review), thatch_rows(review), "thatch"
        )
    else:
        yield from _heading(tr("Thatch and roots"))
        yield _line(NO_SPOT)


def _bars(ink: Ink, box: Box, review: YearReview) -> None:
    for part, months, figures in zip(
        box.columns(0.5),
        (water_months(review), nitrogen_months(review)),
        ("water_gallons", "nitrogen_lawn"),
        strict=True,
    ):
        place((part.left, part.top, part.right, part.bottom), key_of(REVIEW, figures))
        ink.picture(paired_marks(months, Frame(part.width, part.height)), part.left, part.top)


def _words_and_costs(ink: Ink, review: YearReview, width: float) -> Iterator[Block]:
    """What changed beside cost and work; one below the other where either is long."""
    left, _ = Box(0, 0, width, 0).columns(WORDS_SHARE)
    lines = _sentences(ink, review, left.width)
    words_pt = HEADING_PT + sum(WORDS_LINE_PT * len(each) + BETWEEN_PT for each in lines)
    rows, work = cost_rows(review), work_rows(review)
    costs_pt = _listed_pt(rows) + ROW_PT
    beside_pt = costs_pt + PART_GAP_PT + _listed_pt(work, ROW_PT)
    if max(words_pt, beside_pt) <= MOST_BESIDE_PT:

        def paint(ink: Ink, box: Box) -> None:
            here, there = box.columns(WORDS_SHARE)
            _draw_words(ink, here, review, lines)
            _draw_costs(ink, there, review, rows)
            under = costs_pt + PART_GAP_PT
            _draw_work(ink, _from(there, under), review, work)

        yield Block(max(words_pt, beside_pt), paint, PART_GAP_PT)
        return
    lines = _sentences(ink, review, width)
    high = HEADING_PT + sum(WORDS_LINE_PT * len(each) + BETWEEN_PT for each in lines)
    yield Block(high, lambda ink, box: _draw_words(ink, box, review, lines), PART_GAP_PT)
    yield from _long_costs(review, rows)
    yield from _long_work(review, work)


def _sentences(ink: Ink, review: YearReview, width: float) -> list[list[str]]:
    return [ink.paragraph(each.text, WORDS, width) for each in review.changed]


def _draw_words(
    ink: Ink, box: Box, review: YearReview, paragraphs: Sequence[Sequence[str]]
) -> None:
    ink.text((box.left, box.top + 11), tr("What changed"), HEADING)
    y = box.top + HEADING_PT
    for said, lines in zip(review.changed, paragraphs, strict=True):
        if said.figures:
            foot = y + WORDS_LINE_PT * len(lines) + BETWEEN_PT
            place((box.left, y, box.right, foot), key_of(REVIEW, "\n".join(said.figures)))
        for line in lines:
            y += WORDS_LINE_PT
            ink.text((box.left, y - 2), line, WORDS)
        y += BETWEEN_PT


def _listed_pt(rows: Sequence[TableRow], row_pt: float = TALL_ROW_PT) -> float:
    """The height of a list under its heading; of a line that says that there is nothing."""
    return HEADING_PT + (HEAD_ROW_PT + row_pt * len(rows) if rows else ROW_PT)


def _from(box: Box, below_pt: float) -> Box:
    return Box(box.left, box.top + below_pt, box.width, box.height - below_pt)


def _year_columns(review: YearReview) -> tuple[Column, ...]:
    heads = (review.span.label, review.before.label)
    return (Column("", 126, "left"), *(Column(each, 42) for each in heads))


def _year_cells(row: TableRow) -> tuple[Cell, ...]:
    name, *cells = row.name, *row.cells
    key = key_of(REVIEW, row.figures) if row.figures else ""
    name_cell = Cell(name, row.detail, detail_spans=True, key=key)
    return (name_cell, *(Cell(each, key=key) for each in cells))


def _draw_costs(ink: Ink, box: Box, review: YearReview, rows: Sequence[TableRow]) -> None:
    ink.text((box.left, box.top + 11), tr("What it cost"), HEADING)
    if not rows:
        ink.text((box.left, box.top + HEADING_PT + 10), NO_COST, DETAIL)
        return
    listed = [_year_cells(each) for each in rows]
    foot = draw_table(ink, _from(box, HEADING_PT), _year_columns(review), listed, TALL_ROW_PT)
    _draw_total(ink, Box(box.left, foot, box.width, ROW_PT), review)


def _draw_total(ink: Ink, box: Box, review: YearReview) -> None:
    ink.rule(box.left, box.right, box.top, "ink", 0.8)
    columns = _year_columns(review)
    whole = sum(each.share for each in columns)
    right = box.left + box.width * (columns[0].share + columns[1].share) / whole
    y = box.top + 10.5
    ink.text((box.left, y), tr("Of what has a price"), STRONG)
    ink.text((right, y), money(review.cost.total), STRONG, "right")
    ink.text((box.right, y), money(review.cost.total_before), STRONG, "right")


def _long_costs(review: YearReview, rows: Sequence[TableRow]) -> Iterator[Block]:
    yield from _heading(tr("What it cost"))
    if not rows:
        yield _line(NO_COST)
        return
    yield _rows_block(_year_columns(review), [*map(_year_cells, rows)], TALL_ROW_PT)
    yield Block(ROW_PT, lambda ink, box: _draw_total(ink, box, review))


def _table(
    title: str, heads: Sequence[tuple[str, str]], rows: Sequence[TableRow], shares: str
) -> Iterator[Block]:
    """A table under its title."""
    columns = [
        Column(head, share, "left" if not number else "right", unit)
        for number, ((head, unit), share) in enumerate(zip(heads, _SHARES[shares], strict=True))
    ]
    yield from _heading(title)
    row_pt = TALL_ROW_PT if any(each.detail for each in rows) else ROW_PT
    yield _rows_block(columns, [_cells(each, len(columns)) for each in rows], row_pt)


def _cells(row: TableRow, columns: int) -> tuple[Cell, ...]:
    key = key_of(REVIEW, row.figures) if row.figures else ""
    name = Cell(row.name, row.detail, detail_spans=True, key=key)
    if row.words:
        return (name, Cell(row.words, span=columns - 1, small=True))
    return (name, *(Cell(each, small=len(each) > 8, key=key) for each in row.cells))


def _rows_block(columns: Sequence[Column], rows: Sequence[Sequence[Cell]], row_pt: float) -> Block:
    """A table that goes on with the next page, its heads again, where it is too long for one."""
    head = head_pt(columns) + 2

    def paint(ink: Ink, box: Box) -> None:
        draw_table(ink, box, columns, rows, row_pt)

    def split(room_pt: float) -> tuple[Block, Block] | None:
        fit = min(int((room_pt - head) / row_pt), len(rows) - LEAST_ROWS)
        if not 0 < fit < len(rows):
            return None
        first, rest = (_rows_block(columns, part, row_pt) for part in (rows[:fit], rows[fit:]))
        return first, rest

    whole = head + row_pt * len(rows)
    if len(rows) <= ROWS_TOGETHER:
        return Block(whole, paint)
    return Block(whole, paint, split=split, least_pt=head + row_pt * LEAST_ROWS)


def _draw_work(ink: Ink, box: Box, review: YearReview, rows: Sequence[TableRow]) -> None:
    ink.text((box.left, box.top + 11), tr("Work done"), HEADING)
    if not rows:
        ink.text((box.left, box.top + HEADING_PT + 10), NO_WORK, DETAIL)
        return
    listed = [*map(_work_cells, rows)]
    draw_table(ink, _from(box, HEADING_PT), _work_columns(review), listed, ROW_PT)


def _long_work(review: YearReview, rows: Sequence[TableRow]) -> Iterator[Block]:
    yield from _heading(tr("Work done"))
    if not rows:
        yield _line(NO_WORK)
        return
    yield _rows_block(_work_columns(review), [*map(_work_cells, rows)], ROW_PT)


def _work_columns(review: YearReview) -> tuple[Column, ...]:
    name, *years = _year_columns(review)
    return (
        replace(name, share=64),
        replace(name, share=62),
        *(replace(e, share=42) for e in years),
    )


def _work_cells(row: TableRow) -> tuple[Cell, ...]:
    return (Cell(row.name), Cell(row.detail, small=True), *map(Cell, row.cells))


def _heading(title: str) -> Iterator[Block]:
    yield Block(
        HEADING_PT,
        lambda ink, box: ink.text((box.left, box.top + 11), title, HEADING),
        PART_GAP_PT,
        keeps=True,
    )


def _line(words: str) -> Block:
    def paint(ink: Ink, box: Box) -> None:
        ink.text((box.left, box.top + 10), ink.fit(words, DETAIL, box.width), DETAIL)

    return Block(ROW_PT, paint)
