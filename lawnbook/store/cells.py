"""Cells of tables that people and spreadsheets write: shielding, rows, figures and days.

Every reader of a figure or day raises ValueError with the whole sentence.
"""

import csv
import io
import re
from collections.abc import Iterable, Iterator
from datetime import date
from typing import Literal

from lawnbook.reading import tr
from lawnbook.yard.codec import value_from_plain

ISO_MEND = tr("write every date as 2026-11-16, year, month and day")
TORN = tr("a quotation mark stands alone, so that the cells cannot be told apart; close it.")
Mark = Literal[".", ","]

# OWASP's list for "CSV injection": = + - @, their full-width forms, tab, CR and LF at the start.
_FORMULA = re.compile(r"[\s']*[=+\-@\uff1d\uff0b\uff0d\uff20]|'*[\t\r\n]")
_NUMBER = re.compile(r"[0-9]+\.?[0-9]*(?:[eE][+-]?[0-9]+)?|\.[0-9]+(?:[eE][+-]?[0-9]+)?")
_SIGN = re.compile(r"[-+\u2212]")
THOUSANDS = {
    ".": re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?"),
    ",": re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+(?:,[0-9]*)?"),
}
"""Figures with marks between the thousands, by the mark of their decimals."""

_SLASHED = re.compile(r"([0-9]{1,2})/([0-9]{1,2})/([0-9]{4})")
_DOTTED = re.compile(r"([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4})")
_MONTHS = 12
_SHOWN = 40


class TornError(Exception):
    """A row whose quotation marks do not close: the line it begins in."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


def shielded(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe is put before such a one."""
    return f"'{text}" if _FORMULA.match(text) else text


def unshielded(cell: str) -> str:
    """The text that `shielded` was given."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell[1:]) else cell


def rows_of(text: str, delimiter: str, spaced: bool) -> Iterator[tuple[int, list[str]]]:
    """The rows that hold anything, each with the number of its first line in the file.

    `spaced` says that a space after the delimiter is no part of the cell. Raises TornError.
    """
    source = io.StringIO(text, newline="")
    reader = csv.reader(source, delimiter=delimiter, skipinitialspace=spaced, strict=True)
    before = 0
    while True:
        try:
            row = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise TornError(before + 1) from error
        if any(cell.strip() for cell in row):
            yield before + 1, row
        before = reader.line_num


def figure(cell: str, label: str, mark: Mark | None, *, signed: bool = False) -> float:
    """A cell as a number; `mark` is the decimal mark, None where commas may be either mark."""
    sign = _SIGN.match(cell) if signed else None
    body = cell[1:].lstrip() if sign is not None else cell
    if mark is None and THOUSANDS["."].fullmatch(body):
        mend = tr("write it without a mark between the thousands")
        raise ValueError(
            tr(
                '{label} "{cell}" may be a thousand or a decimal; {mend}.',
                label=label,
                cell=cell,
                mend=mend,
            )
        )
    used = mark or "."
    other = "," if used == "." else "."
    plain = body.replace(other, "") if THOUSANDS[used].fullmatch(body) else body
    plain = plain.replace(",", ".") if used == "," and other not in plain else plain
    if not _NUMBER.fullmatch(plain):
        example = "12.5" if used == "." else "12,5"
        raise ValueError(
            tr(
                '{label} "{cell}" is not a number; write it as {example}.',
                label=label,
                cell=cell[:_SHOWN],
                example=example,
            )
        )
    value = float(plain)
    return -value if sign is not None and sign[0] != "+" else value


def month_first(cells: Iterable[str]) -> bool | None:
    """Whether the slashed days of a column are month/day; None where all may be either."""
    parts = [match.groups() for cell in cells if (match := _SLASHED.fullmatch(cell))]
    month, day = (all(int(each[i]) <= _MONTHS for each in parts) for i in (0, 1))
    return None if month == day else month


def day_of(cell: str, is_month_first: bool | None, label: str = tr("Date")) -> date:
    """A cell as a day: 2026-11-16, 16.11.2026, or slashed as the whole column has it."""
    slashed, dotted = _SLASHED.fullmatch(cell), _DOTTED.fullmatch(cell)
    if slashed is None and dotted is None:
        found: date = value_from_plain(date, cell, label)
        return found
    if dotted is not None:
        day, month, year = map(int, dotted.groups())
    elif slashed is not None:
        if is_month_first is None:
            raise ValueError(
                tr(
                    '{label} "{cell}" may be month/day or day/month; {mend}.',
                    label=label,
                    cell=cell,
                    mend=ISO_MEND,
                )
            )
        first, second, year = map(int, slashed.groups())
        month, day = (first, second) if is_month_first else (second, first)
    try:
        return date(year, month, day)
    except ValueError as error:
        raise ValueError(
            tr('{label} "{cell}" is no day; {mend}.', label=label, cell=cell, mend=ISO_MEND)
        ) from error
