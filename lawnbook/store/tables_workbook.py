"""A workbook (.xlsx) of grids: true figures and days, words as words that nothing reckons with."""

import io
import re
from collections.abc import Sequence
from contextlib import suppress
from datetime import date, datetime, time
from typing import Any

from lawnbook.store.steps import Between, Steps, untold
from lawnbook.store.tables_grid import Cell, Grid
from lawnbook.yard.problems import GivenUpError
from lawnbook.yard.records import TITLES

ABOUT_SHEET = "About"
FIRST_DAY = date(1900, 3, 1)
"""Before it a spreadsheet counts days that were not; such days are written as words."""

_WIDEST, _LEAST, _ABOUT_WIDTH = 48, 9, 100
_CLOSINGS = 4
_ROWS_MEASURED = 200
# What XML cannot hold, and what would be read as such an escape (ECMA-376 part 1, ST_Xstring).
_ESCAPED = re.compile("_(?=x[0-9A-Fa-f]{4}_)|[\ufffe\uffff]")
_ESCAPE = re.compile("_x(005F|FFFE|FFFF)_")


def written(grids: Sequence[Grid], about: Sequence[str], between: Between = untold) -> bytes:
    """The bytes of a workbook with a sheet for each grid, after one about them.

    `between` is told the rows that are done, and may end it.
    """
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    try:
        _fill(book, grids, about, Steps(between, sum(len(each.rows) for each in grids)))
        out = io.BytesIO()
        book.save(out)
    except (OSError, GivenUpError):
        _let_go(book)
        raise
    return out.getvalue()


def _fill(book: Any, grids: Sequence[Grid], about: Sequence[str], steps: Steps) -> None:
    first = book.create_sheet(ABOUT_SHEET)
    first.column_dimensions["A"].width = _ABOUT_WIDTH
    for number, line in enumerate(about):
        first.append([_text_cell(first, line, bold=number == 0, wrap=True)])
    for grid in grids:
        _sheet(book.create_sheet(TITLES[grid.table]), grid, steps)


def _let_go(book: Any) -> None:
    """Close the sheets that lie half written on a full disk; the library would complain later.

    Each closing gets one step further until it has nothing left to write.
    """
    for sheet in book.worksheets:
        for _ in range(_CLOSINGS):
            with suppress(Exception):
                sheet.close()


def escaped(text: str) -> str:
    """Text as a workbook's XML can hold it."""
    return _ESCAPED.sub(lambda found: f"_x{ord(found[0]):04X}_", text)


def unescaped(text: str) -> str:
    """The text that `escaped` was given."""
    return _ESCAPE.sub(lambda found: chr(int(found[1], 16)), text)


def _sheet(sheet: Any, grid: Grid, steps: Steps) -> None:
    from openpyxl.utils import get_column_letter

    sheet.freeze_panes = "A2"
    for at, heading in enumerate(grid.headings):
        cells = [row[at] for row in grid.rows[:_ROWS_MEASURED]]
        sheet.column_dimensions[get_column_letter(at + 1)].width = _width(heading, cells)
    sheet.append([_text_cell(sheet, each, bold=True, wrap=True) for each in grid.headings])
    for row in steps.each(grid.rows):
        sheet.append([_cell(sheet, each) for each in row])


def _width(heading: str, cells: Sequence[Cell]) -> float:
    # Headings wrap, so their longest word is what must fit.
    longest = max(map(len, heading.split()))
    longest = max([longest, len(heading) // 2, *(len(str(each)) for each in cells if each)])
    return min(_WIDEST, max(_LEAST, longest + 2))


def _cell(sheet: Any, value: Cell) -> Any:
    from openpyxl.cell import WriteOnlyCell

    if isinstance(value, str):
        return _text_cell(sheet, value)
    if isinstance(value, date):
        if value < FIRST_DAY:
            return _text_cell(sheet, value.isoformat())
        cell = WriteOnlyCell(sheet, datetime.combine(value, time.min))
        cell.number_format = "yyyy-mm-dd"
        return cell
    return value


def _text_cell(sheet: Any, text: str, *, bold: bool = False, wrap: bool = False) -> Any:
    """A cell of words: its type is set by hand, or one that begins with = would be a formula."""
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Alignment, Font

    cell = WriteOnlyCell(sheet, escaped(text))
    cell.data_type = "s"
    cell.number_format = "@"
    if bold:
        cell.font = Font(bold=True)
    if wrap:
        cell.alignment = Alignment(wrap_text=True, vertical="top")
    return cell
