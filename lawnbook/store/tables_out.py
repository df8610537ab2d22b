"""Every table of a notebook written out for spreadsheets: CSV, a zip of them, a workbook (.xlsx).

`store.tables_in` takes them in again. A picture's bytes stay in the notebook.
"""

import csv
import io
import zipfile
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path

from lawnbook.reading import tr
from lawnbook.store.cells import shielded
from lawnbook.store.files import (
    refuse_missing_folder,
    refuse_other_file,
    told,
    written_whole,
)
from lawnbook.store.steps import Between, Steps, untold
from lawnbook.store.tables_grid import Cell, grid_of
from lawnbook.store.tables_words import ABOUT
from lawnbook.store.tables_workbook import written
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import TABLES

CSV, ZIP, XLSX = ".csv", ".zip", ".xlsx"
_ZIP_TIME = (1980, 1, 1, 0, 0, 0)
_STARTS = {XLSX: (b"PK", tr("a workbook")), ZIP: (b"PK", tr("a zip file"))}


def table_csv(notebook: Notebook, table: str, between: Between = untold) -> str:
    """A table as comma-separated values (RFC 4180). KeyError for a table that is none."""
    grid = grid_of(notebook, table)
    steps = Steps(between, len(grid.rows))
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(grid.headings)
    for row in steps.each(grid.rows):
        writer.writerow([_plain(cell) for cell in row])
    return out.getvalue()


def tables_csv(notebook: Notebook, tables: Iterable[str] = TABLES) -> dict[str, str]:
    """Every table that has rows, by the name of its file, such as ``catch_tests.csv``."""
    return {f"{name}{CSV}": table_csv(notebook, name) for name in tables if notebook.table(name)}


def csv_bytes(text: str) -> bytes:
    """A table's text as the bytes of its file.

    Where letters go beyond ASCII a mark stands at the start: without it a spreadsheet takes them
    for another alphabet; others skip it. Plain ASCII reads the same everywhere and needs none.
    """
    return text.encode("utf-8" if text.isascii() else "utf-8-sig")


def zip_bytes(
    notebook: Notebook,
    on: date | None = None,
    tables: Iterable[str] = TABLES,
    between: Between = untold,
) -> bytes:
    """All tables as CSV files in a zip, with a README; `between` is told the tables done."""
    names = [each for each in tables if notebook.table(each)]
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        files = {"README.txt": "\n".join(about_lines(notebook, on)).encode()}
        for number, name in enumerate(names):
            between(number, len(names))
            files[f"{name}{CSV}"] = csv_bytes(table_csv(notebook, name))
        for name, data in files.items():
            info = zipfile.ZipInfo(name, _ZIP_TIME)
            info.external_attr = 0o644 << 16
            archive.writestr(info, data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def workbook_bytes(
    notebook: Notebook,
    on: date | None = None,
    tables: Iterable[str] = TABLES,
    between: Between = untold,
) -> bytes:
    """All tables as a workbook (.xlsx), a sheet each, with a sheet about it first."""
    grids = [grid_of(notebook, name) for name in tables]
    return written(grids, about_lines(notebook, on), between)


def about_lines(notebook: Notebook, on: date | None) -> tuple[str, ...]:
    """What the tables are, their units, the day, and how to take them in again."""
    day = (tr("Written on {on}.", on=on.isoformat()),) if on is not None else ()
    return (tr("Tables of the notebook: {name}", name=notebook.yard.name), *day, *ABOUT)


def write_tables(
    notebook: Notebook,
    path: Path,
    table: str = "",
    on: date | None = None,
    between: Between = untold,
    last: Callable[[], None] = lambda: None,
) -> None:
    """Write the tables to a file, whole or not at all; its ending says as what.

    `table` is the only one that is written, which a CSV file needs. `between` is told the rows or
    tables that are done, `last` is called just before the file takes its place; nothing is written
    where one of them raises. Raises OwnerError where the file cannot be written so.
    """
    suffix = path.suffix.lower()
    if suffix not in (CSV, ZIP, XLSX):
        kinds = tr("tables are written as .xlsx, as .zip or, one of them, as .csv")
        raise OwnerError(
            tr(
                "{path}: {kinds}; name it {stem}{xlsx}.",
                path=told(path),
                kinds=kinds,
                stem=path.stem or "tables",
                xlsx=XLSX,
            )
        )
    if suffix == CSV and not table:
        mend = tr("name the table, or write an .xlsx or a .zip")
        raise OwnerError(tr("{name}: a .csv holds one table; {mend}.", name=path.name, mend=mend))
    refuse_missing_folder(path)
    if suffix in _STARTS:
        refuse_other_file(path, *_STARTS[suffix])
    with written_whole(path, last) as fresh:
        # Made inside: a workbook's sheets go to disk on the way, which may be full.
        fresh.write_bytes(_data(notebook, suffix, table, on, between))
        between(1, 1)


def _data(notebook: Notebook, suffix: str, table: str, on: date | None, between: Between) -> bytes:
    if suffix == CSV:
        return csv_bytes(table_csv(notebook, table, between))
    tables = (table,) if table else tuple(TABLES)
    return (zip_bytes if suffix == ZIP else workbook_bytes)(notebook, on, tables, between)


def _plain(cell: Cell) -> str:
    """A cell as the text of CSV: a day as 2026-11-16, a figure in full, words shielded."""
    if cell is None:
        return ""
    if isinstance(cell, str):
        return shielded(cell)
    return cell.isoformat() if isinstance(cell, date) else repr(cell)
