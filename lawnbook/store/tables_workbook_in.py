"""A workbook (.xlsx) read as cells: nothing in it is reckoned out, and every sheet is bounded."""

import io
import warnings
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Any

from lawnbook.reading import tr
from lawnbook.store.tables_files import (
    LAST_ROW,
    MOST_COLUMNS,
    MOST_ROWS,
    Cells,
    Raw,
    Unread,
    is_blank,
)
from lawnbook.store.tables_workbook import ABOUT_SHEET, unescaped
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError

_FORMULA = tr("a formula is not reckoned out here; paste its value in its place.")
_ERROR = tr("the spreadsheet shows an error here; enter the value.")
_TIME = tr("a time of day is no value here; enter the value as a number, a date or words.")


def read_workbook(data: bytes, name: str) -> tuple[Cells, ...]:
    """The sheets of a workbook but the one about it. OwnerError where it cannot be read."""
    from openpyxl import load_workbook

    with warnings.catch_warnings():
        # What of a workbook's looks the library does not know is no matter here.
        warnings.simplefilter("ignore")
        try:
            book = load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
            sheets = [each for each in book.worksheets if each.title != ABOUT_SHEET]
            return tuple(_read(sheets, name))
        except OwnerError:
            raise
        except Exception as error:
            # A stranger's damaged workbook breaks the library in more ways than can be listed.
            told = tr("{name}: the workbook is damaged or of another kind", name=name)
            raise OwnerError(tr("{told}; save it as .xlsx again, or as CSV.", told=told)) from error


def _read(sheets: list[Any], name: str) -> Iterator[Cells]:
    count = 0
    for sheet in sheets:
        # A size that the file only claims would be padded out with empty cells.
        sheet.reset_dimensions()
        rows: list[tuple[int, tuple[Raw, ...]]] = []
        for number, row in enumerate(sheet.iter_rows(), 1):
            # Of rows that are only claimed nothing is made: there may be a million.
            cells = tuple(_raw(each) for each in row[:MOST_COLUMNS])
            if not all(is_blank(each) for each in cells):
                rows.append((number, cells))
                count += 1
            if count > MOST_ROWS + len(sheets) or number > LAST_ROW:
                raise OwnerError(
                    tr(
                        "{name}: more than {count} rows; take it in in parts.",
                        name=name,
                        count=whole(MOST_ROWS),
                    )
                )
        yield Cells(sheet.title, tuple(rows))


def _raw(cell: Any) -> Raw:
    value = cell.value
    if value is None:
        return None
    if cell.data_type == "f":
        return Unread(_FORMULA)
    if cell.data_type == "e":
        return Unread(_ERROR)
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, time | timedelta):
        return Unread(_TIME)
    if isinstance(value, str):
        return unescaped(value).replace("\r\n", "\n") or None
    return value if isinstance(value, bool | int | float | date) else Unread(_ERROR)
