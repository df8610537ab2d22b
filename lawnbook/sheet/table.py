"""A table in points: a quiet head row, hairlines between rows, figures flush right."""

from collections.abc import Sequence
from dataclasses import dataclass

from lawnbook.charts.marks import Align
from lawnbook.sheet.ink import CELL, DETAIL, HEAD_CELL, STRONG, Ink, Style
from lawnbook.sheet.layout import HEAD_ROW_PT, Box

_CELL_GAP_PT = 5.0


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its title, its share of the width, where its cells stand."""

    title: str
    share: float
    align: Align = "right"


@dataclass(frozen=True, slots=True)
class Cell:
    """A figure, and in tall rows a second line about it. `span` lets it run to the row's end."""

    main: str
    detail: str = ""
    strong: bool = False
    role: str = "ink"
    span: bool = False


Row = Sequence[Cell]


def draw_table(
    ink: Ink, box: Box, columns: Sequence[Column], rows: Sequence[Row], row_pt: float
) -> float:
    """Draw a table from the top of a box; the box's height does not bound it. Returns its foot."""
    edges = _edges(box, columns)
    for column, (left, right) in zip(columns, edges, strict=True):
        title = ink.fit(column.title, HEAD_CELL, right - left)
        ink.text(_anchor(column.align, left, right, box.top + 8), title, HEAD_CELL, column.align)
    y = box.top + HEAD_ROW_PT - 2
    ink.rule(box.left, box.right, y, "ink", 0.8)
    for number, row in enumerate(rows):
        if number:
            ink.rule(box.left, box.right, y)
        _row(ink, row, columns, edges, (y, row_pt, box.right))
        y += row_pt
    return y


def _row(
    ink: Ink,
    row: Row,
    columns: Sequence[Column],
    edges: Sequence[tuple[float, float]],
    place: tuple[float, float, float],
) -> None:
    top, row_pt, end = place
    tall = row_pt > 18
    base = top + (10.2 if tall else row_pt / 2 + 3.2)
    for cell, column, (left, right) in zip(row, columns, edges, strict=False):
        align: Align = "left" if cell.span else column.align
        far = end if cell.span else right
        face = STRONG if cell.strong else CELL
        style = Style(face.face, face.size, cell.role)
        text = ink.fit(cell.main, style, far - left)
        ink.text(_anchor(align, left, far, base), text, style, align)
        if tall and cell.detail:
            detail = ink.fit(cell.detail, DETAIL, far - left)
            ink.text(_anchor(align, left, far, base + 9.2), detail, DETAIL, align)


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
