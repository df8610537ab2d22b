"""A table of feedings as cells: its delimiter, its columns by name, its days and numbers."""

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.cells import (
    THOUSANDS,
    TORN,
    Mark,
    TornError,
    day_of,
    figure,
    month_first,
    rows_of,
)

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

_BY_NAME = {name: column for column, names in NAMES.items() for name in names}
_NUMBERS = ("pounds", "kg", "treated_area_sqft", "n_lb_per_1000", "n_g_per_m2")
_HEAD_MEND = tr("its first line names the columns: date, product, zone and pounds.")


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
        return None if not cell else figure(cell, label, self.mark)

    def day(self, line: FedLine) -> date:
        """A line's day; ValueError with the sentence."""
        if not line.cells["date"]:
            raise ValueError(tr("Date is missing; enter it, or take the line out."))
        return day_of(line.cells["date"], self.month_first)


def table_of(text: str) -> FedTable:
    """The lines of a table with a head; commas, semicolons or tabs between its cells.

    What cannot be read at all gives no lines and one problem.
    """
    told = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    head = told.lstrip("\n ").split("\n", 1)[0]
    if not head.strip():
        return FedTable((), ((1, tr("the table is empty; {head_mend}", head_mend=_HEAD_MEND)),))
    delimiter = _delimiter(head)
    rows = rows_of(told, delimiter, spaced=f"{delimiter} " in head)
    try:
        number, names = next(rows, (1, []))
        columns = [_BY_NAME.get(_plain(name), "") for name in names]
        wrong = _wrong_head(columns, names)
        if wrong:
            return FedTable((), ((number, wrong),))
        lines, problems = _lines(rows, columns)
    except TornError as torn:
        return FedTable((), ((torn.line, TORN),))
    unknown = [each.strip() for each, at in zip(names, columns, strict=True) if not at]
    return FedTable(
        tuple(lines),
        tuple(problems),
        tuple(each for each in unknown if each),
        _mark(lines, delimiter),
        month_first(line.cells["date"] for line in lines),
    )


def _delimiter(head: str) -> str:
    """What stands between the cells, by the head, whose own names hold no such sign."""
    return next((each for each in ("\t", ";") if each in head), ",")


def _plain(head: str) -> str:
    """A column's head with nothing but small letters, digits and single underscores."""
    words = re.sub(r"(?<=[0-9]),(?=[0-9])", "", head.casefold().replace("²", "2"))
    return re.sub(r"[^a-z0-9]+", "_", words).strip("_")


def _wrong_head(columns: Sequence[str], names: Sequence[str]) -> str:
    known = [(name, at) for name, at in zip(names, columns, strict=True) if at]
    twice = next((name for name, at in known if columns.count(at) > 1), "")
    if twice:
        return tr('the column "{twice}" stands twice; keep one of them.', twice=twice.strip())
    missing = [each for each in ("date", "product", "zone") if each not in columns]
    if missing:
        return tr(
            "there is no column {missing}; {head_mend}",
            missing=" and no column ".join(missing),
            head_mend=_HEAD_MEND,
        )
    if not any(each in columns for each in ("pounds", "n_lb_per_1000", "n_g_per_m2")):
        return tr("there is no column pounds, n_lb_per_1000 or n_g_per_m2; add one of them.")
    return ""


def _lines(
    rows: Iterator[tuple[int, list[str]]], columns: Sequence[str]
) -> tuple[list[FedLine], list[tuple[int, str]]]:
    lines, problems = [], []
    for number, row in rows:
        if any(cell.strip() for cell in row[len(columns) :]):
            problems.append(
                (number, tr("there are more cells than columns; take the extra ones out."))
            )
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
    certain = any(not THOUSANDS["."].fullmatch(cell) for cell in commas)
    return "," if certain or delimiter == ";" else None
