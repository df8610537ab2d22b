"""A table of comma-separated values as cells, and its cells as days and numbers."""

import io
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from lawnbook.reading import tr
from lawnbook.store.weather_result import Fault, Option, Question, UnitChoice
from lawnbook.yard.codec import value_from_plain
from lawnbook.yard.limits import LARGEST
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    import pandas as pd

Array = NDArray[np.float64]
Lines = NDArray[np.int64]

MISSING = ("", "M", "m", "-9999", "9999", "-999", "-9999.0", "9999.0", "-999.0", "-9999.00")
"""How tables write a value that was not measured (GHCN-Daily readme: -9999; common practice)."""

TRACE = ("T", "t")
"""Too little rain to measure, counted as none (measurement flag T of the GHCN-Daily readme)."""

MONTHS = 12
MOST_CELLS = 20_000_000
_SHOWN = 40
ISO_MEND = tr("write every date as 2026-11-16, year, month and day")
_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4})", re.ASCII)
_RUN_ON = re.compile(r"(\d{4})(\d{2})(\d{2})", re.ASCII)
_MORE_CELLS = tr("there are more cells than columns; take the extra ones out.")


@dataclass(slots=True)
class Table:
    """Cells by column name, the line of each row, and what is wrong with its lines so far.

    Working material of one reading: rows go, and faults come, as it proceeds.
    """

    names: list[str]
    cells: "pd.DataFrame"
    lines: Lines
    faults: list[Fault] = field(default_factory=list)
    missing: int = 0

    def drop(self, bad: NDArray[np.bool_]) -> None:
        """Leave rows out."""
        self.cells = self.cells[~bad].reset_index(drop=True)
        self.lines = self.lines[~bad]

    def column(self, name: str) -> list[str]:
        """A column's cells."""
        return [str(cell) for cell in self.cells[name]]


def table_of(text: str, header: Sequence[str] | None = None) -> Table:
    """The rows of a table under the names in its first line, or under `header` where it has none.

    Empty lines are passed over; a line with more cells than there are columns is a fault. Raises
    OwnerError for a text that is no such table.
    """
    rows = _rows(text, len(header or ()))
    start = 0
    if header is None:
        names = [str(cell).strip() for cell in rows.iloc[0]] if len(rows) else []
        while names and not names[-1]:
            names.pop()
        start = 1
    else:
        names = list(header)
    twice = next((each for each in names if names.count(each) > 1), None)
    if twice is not None:
        raise OwnerError(
            tr("line 1: the column {twice} stands twice; keep one of them.", twice=twice)
        )
    body = rows.iloc[start:].reset_index(drop=True)
    body = body.apply(lambda column: column.str.strip())
    lines = np.arange(len(body), dtype=np.int64) + 1 + start
    filled = (body != "").to_numpy(dtype=bool).reshape(len(body), body.shape[1])
    inside, beyond = filled[:, : len(names)], filled[:, len(names) :]
    table = Table(names, body.iloc[:, : len(names)].set_axis(names, axis=1), lines)
    too_long = beyond.any(axis=1)
    table.faults += [Fault(int(line), _MORE_CELLS) for line in lines[too_long]]
    table.drop(too_long | ~inside.any(axis=1))
    return table


def _rows(text: str, fewest: int) -> "pd.DataFrame":
    """Every line's cells as text, as wide as the widest and of so many columns at the least."""
    import pandas as pd

    lines = text.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n ").split("\n")
    if lines == [""]:
        return pd.DataFrame(dtype=str)
    widest = max(fewest, max(line.count(",") for line in lines) + 1)
    if widest * len(lines) > MOST_CELLS:
        raise OwnerError(tr("a line has far more commas than a table of weather; mend it."))
    try:
        rows = pd.read_csv(
            io.StringIO("\n".join(lines)),
            header=None,
            names=range(widest),
            index_col=False,
            dtype=str,
            keep_default_na=False,
            na_filter=False,
            skip_blank_lines=False,
        )
    except pd.errors.ParserError as error:
        raise OwnerError(
            tr("this is no table of comma-separated values ({error}).", error=error)
        ) from error
    if len(rows) != len(lines):
        raise OwnerError(tr("a quotation mark is not closed on its line; take it out."))
    return rows.fillna("")


def numbers_of(table: Table, name: str, label: str) -> Array:
    """A column as numbers, NaN where it was not measured; a line of anything else is a fault.

    Lines at fault stay, with NaN, so that every column finds its own; see `Table.faults`.
    """
    cells = table.cells[name]
    gone = cells.isin(MISSING)
    table.missing += int((gone & (cells != "")).sum())
    plain = cells.where(~cells.isin(TRACE), "0").where(~gone, "nan")
    good = plain.str.fullmatch(_NUMBER).to_numpy(dtype=bool) | gone.to_numpy(dtype=bool)
    for row in np.flatnonzero(~good):
        sentence = _refusal(float, str(cells.iloc[row]), label)
        table.faults.append(Fault(int(table.lines[row]), sentence, name))
    found = plain.where(good, "nan").to_numpy(dtype=np.float64)
    for row in np.flatnonzero(np.abs(found) > LARGEST):
        sentence = tr(
            '{label} "{iloc}" is beyond all weather; mend it.',
            label=label,
            iloc=str(cells.iloc[row])[:_SHOWN],
        )
        table.faults.append(Fault(int(table.lines[row]), sentence, name))
        found[row] = np.nan
    return found


def days_of(table: Table, name: str, choice: UnitChoice) -> tuple[list[date], Question | None]:
    """The day of each row; rows without one are left out and faults.

    Days are written year, month, day, with or without dashes, or all as month/day/year or all as
    day/month/year, which is asked about where both are possible for every one of them.
    """
    cells = table.column(name)
    order, question = _order(table, name, choice)
    days: list[date | None] = []
    for line, cell in zip(table.lines.tolist(), cells, strict=True):
        try:
            days.append(_day(cell, order))
        except ValueError as error:
            table.faults.append(Fault(line, str(error), name))
            days.append(None)
    table.drop(np.array([day is None for day in days], dtype=bool))
    return [day for day in days if day is not None], question


def _order(table: Table, name: str, choice: UnitChoice) -> tuple[str, Question | None]:
    """How a column of slashed days is to be read, empty where it is not one; and the question."""
    cells = [cell for cell in table.column(name) if cell]
    parts = [match.groups() for cell in cells if (match := _SLASHED.fullmatch(cell))]
    if not parts or len(parts) < len(cells):
        return "", None
    month_first, day_first = (all(int(each[i]) <= MONTHS for each in parts) for i in (0, 1))
    if not (month_first and day_first):
        return ("day" if day_first else "month"), None
    if chosen := choice.get("dates"):
        return chosen, None
    options = (Option("month", "Month/day/year"), Option("day", "Day/month/year"))
    sentence = tr('"{cells}" may be month/day or day/month', cells=cells[0])
    return "month", Question(
        key="dates",
        sentence=tr("{sentence}: which is it?", sentence=sentence),
        options=options,
        mend=f"{sentence}; {ISO_MEND}.",
        line=int(table.lines[0]),
        column=name,
    )


def _day(cell: str, order: str) -> date:
    """A cell's day; ValueError with the sentence."""
    slashed = _SLASHED.fullmatch(cell) if order else None
    if slashed is not None:
        first, second, year = map(int, slashed.groups())
        month, day = (first, second) if order == "month" else (second, first)
        try:
            return date(year, month, day)
        except ValueError as error:
            words = tr("month/day/year") if order == "month" else tr("day/month/year")
            raise ValueError(
                tr(
                    '"{cell}" is no day as {words}; {mend}.',
                    cell=cell,
                    words=words,
                    mend=ISO_MEND,
                )
            ) from error
    run_on = _RUN_ON.fullmatch(cell)
    if not cell:
        raise ValueError(tr("Date is missing; enter it, or take the line out."))
    written = "-".join(run_on.groups()) if run_on else cell
    found: date = value_from_plain(date, written, tr("Date"))
    return found


def _refusal(kind: type, cell: str, label: str) -> str:
    """The sentence about a cell that is not of its kind."""
    try:
        value_from_plain(kind, cell, label)
    except ValueError as error:
        return str(error)
    return tr('{label} "{cell}" cannot be read; write it in plain digits.', label=label, cell=cell)
