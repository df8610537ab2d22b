"""A table in points: a quiet head row, hairlines between rows, figures flush right."""

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtCore import QRectF

from lawnbook.charts.marks import Align, told_apart
from lawnbook.frozen import dataclass
from lawnbook.sheet import placed
from lawnbook.sheet.ink import CELL, DETAIL, HEAD_CELL, STRONG, Ink, Style
from lawnbook.sheet.layout import HEAD_ROW_PT, TALL_HEAD_PT, TALL_ROW_PT, TALLER_ROW_PT, Box

_CELL_GAP_PT = 4.0
_FOOT_BASE_PT = 28.0
_FOOT_GAP_PT = 14.0
_FOOT_FIGURES = Style("medium", 8.5)
_NUMBER = re.compile(r"^\d+ ")


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its title, its share of the width, where its cells stand.

    `unit` is a second line of the head; a column that is `lit` stands on a tint.
    """

    title: str
    share: float
    align: Align = "right"
    unit: str = ""
    lit: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """A figure, and in tall rows a second line about it.

    `span` is how many columns the cell runs over, `detail_spans` lets its second line run to the
    row's end; `small` sets a date or another remark beside a figure. `mark` follows a name that
    stands on the left, however short the name is cut. `shorter` stand in for a second line that
    is too wide, the first that fits. `key` names its figures, see `sheet.placed`.
    """

    main: str
    detail: str = ""
    strong: bool = False
    role: str = "ink"
    span: int = 1
    detail_spans: bool = False
    small: bool = False
    mark: str = ""
    shorter: tuple[str, ...] = ()
    key: str = ""


Row = Sequence[Cell]


@dataclass(frozen=True, slots=True)
class Footing:
    """A line under a row: figures, and after them the first of the remarks that fits."""

    figures: str = ""
    remarks: tuple[str, ...] = ()


def keyed(row: Row, kind: str, of: str) -> Row:
    """A row whose cells' keys say whose figures they are: "water" of a zone's id."""
    return tuple(
        replace(cell, key=placed.key_of(kind, of, cell.key)) if cell.key else cell for cell in row
    )


def head_pt(columns: Sequence[Column]) -> float:
    """The height of the head row."""
    return TALL_HEAD_PT if any(column.unit for column in columns) else HEAD_ROW_PT


def draw_table(
    ink: Ink,
    box: Box,
    columns: Sequence[Column],
    rows: Sequence[Row],
    row_pt: float,
    feet: Sequence[Footing] = (),
) -> float:
    """Draw a table from the top of a box; the box's height does not bound it. Returns its foot.

    `feet` take the last line of each row, which must have three.
    """
    edges = _edges(box, columns)
    y = box.top + head_pt(columns)
    foot = y + row_pt * len(rows)
    _lights(ink, columns, edges, (box.top, foot))
    _head(ink, columns, edges, box.top)
    ink.rule(box.left, box.right, y, "ink", 0.8)
    for number, row in enumerate(_named_apart(ink, rows, edges[0])):
        if number:
            ink.rule(box.left, box.right, y)
        _row(ink, row, edges, _Place(y, box.right, lines_of(row_pt) - bool(feet), row_pt), columns)
        if feet:
            _footing(ink, feet[number], box.left, box.right, y + _FOOT_BASE_PT)
        y += row_pt
    return foot


def _lights(
    ink: Ink,
    columns: Sequence[Column],
    edges: Sequence[tuple[float, float]],
    span: tuple[float, float],
) -> None:
    for column, (left, right) in zip(columns, edges, strict=True):
        if column.lit:
            ink.tint(
                QRectF(left - 1, span[0] - 1, right - left + 4, span[1] - span[0] + 1), "stone"
            )


def _head(
    ink: Ink, columns: Sequence[Column], edges: Sequence[tuple[float, float]], top: float
) -> None:
    tall = any(column.unit for column in columns)
    for column, (left, right) in zip(columns, edges, strict=True):
        style = Style("semibold", HEAD_CELL.size) if column.lit else HEAD_CELL
        lines = (column.title, column.unit) if tall else (column.title,)
        for number, line in enumerate(lines):
            base = top + 8 + 9 * number
            text = ink.fit(line, style, right - left)
            ink.text(_anchor(column.align, left, right, base), text, style, column.align)


def _named_apart(ink: Ink, rows: Sequence[Row], edges: tuple[float, float]) -> list[Row]:
    """The rows, their names in the first column cut so that they stay told apart.

    A zone's number before its name is kept, and does not count as telling it apart.
    """
    numbers = ["".join(_NUMBER.findall(row[0].main)) for row in rows]
    names = [row[0].main.removeprefix(number) for number, row in zip(numbers, rows, strict=True)]
    fits = [
        partial(_has_room, ink, number, row[0], edges[1] - edges[0])
        for number, row in zip(numbers, rows, strict=True)
    ]
    told = told_apart(names, fits)
    return [
        (replace(row[0], main=number + name), *row[1:])
        for number, name, row in zip(numbers, told, rows, strict=True)
    ]


def _has_room(ink: Ink, number: str, cell: Cell, room: float, name: str) -> bool:
    """Whether a name finds room after its number and before its mark; whole, set smaller too."""
    whole, base = number + name, _style(cell)
    room -= ink.width(cell.mark, base)
    style = ink.smaller(whole, base, room) if whole == cell.main else base
    return ink.width(whole, style) <= room


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a row stands: its top, the table's right end, its lines for cells, its height."""

    top: float
    end: float
    lines: int
    row_pt: float


def _row(
    ink: Ink,
    row: Row,
    edges: Sequence[tuple[float, float]],
    place: _Place,
    columns: Sequence[Column],
) -> None:
    lines, end = place.lines, place.end
    base = place.top + (9.8 if lines > 1 else place.row_pt / 2 + 3.3)
    place_in_row = 0
    for cell in row:
        align: Align = "left" if cell.span > 1 else columns[place_in_row].align
        left = edges[place_in_row][0]
        place_in_row += cell.span
        right = edges[place_in_row - 1][1]
        placed.place((left, place.top, right, place.top + place.row_pt), cell.key)
        if cell.span > 1:
            _remark(ink, cell, (left + _CELL_GAP_PT, right), base, lines)
        else:
            _figure(ink, cell, align, (left, right, end), base, lines)


def _figure(
    ink: Ink,
    cell: Cell,
    align: Align,
    edges: tuple[float, float, float],
    base: float,
    lines: int,
) -> None:
    """A figure or a name with its mark, and beneath it what is said about it."""
    left, right, end = edges
    room = right - left - ink.width(cell.mark, _style(cell))
    style = ink.smaller(cell.main, _style(cell), room)
    text = ink.fit(cell.main, style, room) + cell.mark
    ink.text(_anchor(align, left, right, base), text, style, align)
    far = end if cell.detail_spans else right
    told = (cell.detail, *cell.shorter)
    said = next((each for each in told if ink.width(each, DETAIL) <= far - left), told[-1])
    details = ink.wrap(said, DETAIL, far - left, most=lines - 1) if lines > 1 else []
    for number, detail in enumerate(details, start=1):
        ink.text(_anchor(align, left, far, base + 9 * number), detail, DETAIL, align)


def _footing(ink: Ink, foot: Footing, left: float, right: float, base: float) -> None:
    """The figures whole, smaller where they must be, then the remark as far as there is room."""
    style = ink.smaller(foot.figures, _FOOT_FIGURES, right - left)
    text = ink.fit(foot.figures, style, right - left)
    ink.text((left, base), text, style)
    start = left + (ink.width(text, style) + _FOOT_GAP_PT if text else 0.0)
    fitting = (each for each in foot.remarks if ink.width(each, DETAIL) <= right - start)
    ink.text((start, base), next(fitting, ""), DETAIL)


def _remark(ink: Ink, cell: Cell, edges: tuple[float, float], base: float, most: int) -> None:
    """A remark over several columns, in as many lines as its row has; shorter where it must be."""
    left, right = edges
    style = _style(cell)
    fitting = (
        text for text in tellings(cell.main) if len(ink.wrap(text, style, right - left)) <= most
    )
    said = next(fitting, cell.main)
    for number, line in enumerate(ink.wrap(said, style, right - left, most=most)):
        ink.text((left, base + 9 * number), line, style)


def lines_of(row_pt: float) -> int:
    """How many lines a row of this height has: its figures, and those about them."""
    return 1 + sum(row_pt >= height for height in (TALL_ROW_PT, TALLER_ROW_PT))


def tellings(remark: str) -> tuple[str, ...]:
    """A remark whole, without what it has in brackets, and without what follows its colon."""
    bare = re.sub(r" \([^)]*\)", "", remark)
    head, parted, _ = bare.partition(":")
    return (remark, bare, f"{head}." if parted else bare)


def _style(cell: Cell) -> Style:
    if cell.small:
        return DETAIL
    base = STRONG if cell.strong else CELL
    return Style(base.face, base.size, cell.role)


def _edges(box: Box, columns: Sequence[Column]) -> list[tuple[float, float]]:
    whole = sum(column.share for column in columns)
    edges = []
    left = box.left
    for number, column in enumerate(columns):
        right = left + box.width * column.share / whole
        inner = left + (_CELL_GAP_PT if number else 0.0)
        edges.append((inner, right))
        left = right
    return edges


def _anchor(align: Align, left: float, right: float, y: float) -> tuple[float, float]:
    share = {"left": 0.0, "center": 0.5, "right": 1.0}[align]
    return left + share * (right - left), y
