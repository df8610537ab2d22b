"""A table of feedings as cells: its delimiter, its columns by name, its days and numbers."""

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from lawnbook.yard.codec import value_from_plain

NAMES: Mapping[str, tuple[str, ...]] = {
    "date": ("date", "day"),
    "product": ("product", "fertilizer", "fertiliser"),
    "zone": ("zone",),
    "pounds": ("pounds", "lb", "lbs", "product_lb", "lb_product", "pounds_lb"),
    "kg": ("kg",),
    "treated_area_sqft": ("treated_area_sqft", "area_treated_sqft", "area_sqft", "treated_area"),
    "n_lb_per_1000": (
        "n_lb_per_1000",
        "n_lb_per_1000_sqft",
        "n_lb_per_1000_sq_ft",
        "lb_n_per_1000",
    ),
    "p2o5_lb_per_1000": ("p2o5_lb_per_1000",),
    "k2o_lb_per_1000": ("k2o_lb_per_1000",),
    "n_g_per_m2": ("n_g_per_m2", "n_g_m2", "g_n_per_m2"),
    "spreader": ("spreader", "sprayer"),
    "setting": ("setting",),
    "feeding": ("feeding", "feeding_id", "id"),
}
"""The columns of a table of feedings, and how their heads may be written.

Kilograms and the rates of phosphate and potash are for reading on: pounds are what is taken in.
"""

ISO_MEND = "write every date as 2026-11-16, year, month and day"
Mark = Literal[".", ","]

_BY_NAME = {name: column for column, names in NAMES.items() for name in names}
_FORMULA = re.compile(r"[\s']*[=+\-@\uff1d\uff0b\uff0d\uff20]")
_NUMBER = re.compile(r"[0-9]+\.?[0-9]*(?:[eE][+-]?[0-9]+)?|\.[0-9]+(?:[eE][+-]?[0-9]+)?")
_THOUSANDS = {
    ".": re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?"),
    ",": re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+(?:,[0-9]*)?"),
}
_SLASHED = re.compile(r"([0-9]{1,2})/([0-9]{1,2})/([0-9]{4})")
_DOTTED = re.compile(r"([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4})")
_NUMBERS = ("pounds", "kg", "treated_area_sqft", "n_lb_per_1000", "n_g_per_m2")
_MONTHS = 12
_HEAD_MEND = "its first line names the columns: date, product, zone and pounds."
_TORN = "a quotation mark stands alone, so that the cells cannot be told apart; close it."


class _TornError(Exception):
    """A row whose quotation marks do not close: the line it begins in."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


@dataclass(frozen=True, slots=True)
class FedLine:
    """One line: its number in the file, and its cells by column; "" where there is none."""

    number: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class FedTable:
    """The lines of a table, what is wrong with the others, and how it writes numbers and days."""

    lines: tuple[FedLine, ...]
    problems: tuple[tuple[int, str], ...]
    unknown: tuple[str, ...] = ()
    mark: Mark | None = "."
    month_first: bool | None = None

    def number(self, line: FedLine, column: str, label: str) -> float | None:
        """A cell as a number, None where it is empty; ValueError with the sentence."""
        cell = line.cells[column]
        return None if not cell else _number(cell, label, self.mark)

    def day(self, line: FedLine) -> date:
        """A line's day; ValueError with the sentence."""
        return _day(line.cells["date"], self.month_first)


def shielded(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe is put before such a one."""
    return f"'{text}" if _FORMULA.match(text) else text


def unshielded(cell: str) -> str:
    """The text that `shielded` was given."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell[1:]) else cell


def table_of(text: str) -> FedTable:
    """The lines of a table with a head; commas, semicolons or tabs between its cells.

    What cannot be read at all gives no lines and one problem.
    """
    told = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    head = told.lstrip("\n ").split("\n", 1)[0]
    if not head.strip():
        return FedTable((), ((1, f"the table is empty; {_HEAD_MEND}"),))
    delimiter = _delimiter(head)
    rows = _rows(told, delimiter, spaced=f"{delimiter} " in head)
    try:
        number, names = next(rows, (1, []))
        columns = [_BY_NAME.get(_plain(name), "") for name in names]
        wrong = _wrong_head(columns, names)
        if wrong:
            return FedTable((), ((number, wrong),))
        lines, problems = _lines(rows, columns)
    except _TornError as torn:
        return FedTable((), ((torn.line, _TORN),))
    unknown = [each.strip() for each, at in zip(names, columns, strict=True) if not at]
    return FedTable(
        tuple(lines),
        tuple(problems),
        tuple(each for each in unknown if each),
        _mark(lines, delimiter),
        _month_first(lines),
    )


def _delimiter(head: str) -> str:
    """What stands between the cells, by the head, whose own names hold no such sign."""
    return next((each for each in ("\t", ";") if each in head), ",")


def _rows(text: str, delimiter: str, spaced: bool) -> Iterator[tuple[int, list[str]]]:
    """The rows that hold anything, each with the number of its first line in the file."""
    source = io.StringIO(text, newline="")
    reader = csv.reader(source, delimiter=delimiter, skipinitialspace=spaced, strict=True)
    before = 0
    while True:
        try:
            row = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise _TornError(before + 1) from error
        if any(cell.strip() for cell in row):
            yield before + 1, row
        before = reader.line_num


def _plain(head: str) -> str:
    """A column's head with nothing but small letters, digits and single underscores."""
    words = re.sub(r"(?<=[0-9]),(?=[0-9])", "", head.casefold().replace("²", "2"))
    return re.sub(r"[^a-z0-9]+", "_", words).strip("_")


def _wrong_head(columns: Sequence[str], names: Sequence[str]) -> str:
    known = [(name, at) for name, at in zip(names, columns, strict=True) if at]
    twice = next((name for name, at in known if columns.count(at) > 1), "")
    if twice:
        return f'the column "{twice.strip()}" stands twice; keep one of them.'
    missing = [each for each in ("date", "product", "zone") if each not in columns]
    if missing:
        return f"there is no column {' and no column '.join(missing)}; {_HEAD_MEND}"
    if not any(each in columns for each in ("pounds", "n_lb_per_1000", "n_g_per_m2")):
        return "there is no column pounds, n_lb_per_1000 or n_g_per_m2; add one of them."
    return ""


def _lines(
    rows: Iterator[tuple[int, list[str]]], columns: Sequence[str]
) -> tuple[list[FedLine], list[tuple[int, str]]]:
    lines, problems = [], []
    for number, row in rows:
        if any(cell.strip() for cell in row[len(columns) :]):
            problems.append((number, "there are more cells than columns; take the extra ones out."))
            continue
        cells = dict.fromkeys(NAMES, "")
        cells |= {at: cell for at, cell in zip(columns, row, strict=False) if at}
        for at in ("date", "feeding", *_NUMBERS):
            cells[at] = cells[at].strip()
        lines.append(FedLine(number, cells))
    return lines, problems


def _mark(lines: Sequence[FedLine], delimiter: str) -> Mark | None:
    """The decimal mark of all numbers; None where commas in them may be either mark."""
    if delimiter == ",":
        return "."
    cells = [line.cells[column] for line in lines for column in _NUMBERS]
    commas = [cell for cell in cells if "," in cell]
    if not commas or any(re.fullmatch(r"[0-9,]+,[0-9]{3}\.[0-9]*", cell) for cell in commas):
        return "."
    certain = any(not _THOUSANDS["."].fullmatch(cell) for cell in commas)
    return "," if certain or delimiter == ";" else None


def _number(cell: str, label: str, mark: Mark | None) -> float:
    if mark is None and _THOUSANDS["."].fullmatch(cell):
        mend = "write it without a mark between the thousands"
        raise ValueError(f'{label} "{cell}" may be a thousand or a decimal; {mend}.')
    used = mark or "."
    other = "," if used == "." else "."
    plain = cell.replace(other, "") if _THOUSANDS[used].fullmatch(cell) else cell
    plain = plain.replace(",", ".") if used == "," and other not in plain else plain
    if not _NUMBER.fullmatch(plain):
        example = "12.5" if used == "." else "12,5"
        raise ValueError(f'{label} "{cell[:40]}" is not a number; write it as {example}.')
    return float(plain)


def _month_first(lines: Sequence[FedLine]) -> bool | None:
    """Whether slashed days are month/day; None where all of them may be either."""
    parts = [m.groups() for line in lines if (m := _SLASHED.fullmatch(line.cells["date"]))]
    month, day = (all(int(each[i]) <= _MONTHS for each in parts) for i in (0, 1))
    return None if month == day else month


def _day(cell: str, month_first: bool | None) -> date:
    if not cell:
        raise ValueError("Date is missing; enter it, or take the line out.")
    slashed, dotted = _SLASHED.fullmatch(cell), _DOTTED.fullmatch(cell)
    if slashed is None and dotted is None:
        found: date = value_from_plain(date, cell, "Date")
        return found
    if dotted is not None:
        day, month, year = map(int, dotted.groups())
    elif slashed is not None:
        if month_first is None:
            raise ValueError(f'Date "{cell}" may be month/day or day/month; {ISO_MEND}.')
        first, second, year = map(int, slashed.groups())
        month, day = (first, second) if month_first else (second, first)
    try:
        return date(year, month, day)
    except ValueError as error:
        raise ValueError(f'Date "{cell}" is no day; {ISO_MEND}.') from error
