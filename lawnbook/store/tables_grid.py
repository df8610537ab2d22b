"""A table as cells: headings with their units, and a row for each record."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any, get_args, get_origin

from lawnbook.frozen import dataclass
from lawnbook.store.tables_columns import Column, columns_of
from lawnbook.store.tables_form import by_name_joined, joined, names_joined, point_joined
from lawnbook.store.tables_names import name_in
from lawnbook.yard.codec import plain_value
from lawnbook.yard.fields import is_number_by_zone
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Record

MOST_LETTERS = 15_000
"""Longer text goes on in a column of its own: a spreadsheet's cell holds 32,767 code units."""

Cell = str | float | int | date | None


@dataclass(frozen=True, slots=True)
class Grid:
    """A table as cells: the columns with their headings, and the rows in the owner's order."""

    table: str
    columns: tuple[Column, ...]
    headings: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def cell_of(record: Record, column: Column, notebook: Notebook) -> Cell:
    """What a cell says of a record; None where it is empty."""
    if column.role == "id":
        return record.id
    held = getattr(record, column.field)
    if column.inner and held is not None:
        held = getattr(held, column.inner)
    if held is None:
        return None
    if column.role != "value":
        return _references(held, column, notebook)
    return _own(held, column)


def grid_of(notebook: Notebook, table: str) -> Grid:
    """A table as cells; a column too long for a cell goes on in further ones."""
    columns = columns_of(table)
    rows = [
        tuple(cell_of(record, each, notebook) for each in columns)
        for record in notebook.table(table).values()
    ]
    counts = [_cells_needed(row[at] for row in rows) for at in range(len(columns))]
    pairs = list(zip(columns, counts, strict=True))
    return Grid(
        table,
        tuple(column for column, count in pairs for _ in range(count)),
        tuple(_heading(each, part) for each, count in pairs for part in range(count)),
        tuple(
            tuple(part for cell, n in zip(row, counts, strict=True) for part in _cut(cell, n))
            for row in rows
        ),
    )


def _own(held: Any, column: Column) -> Cell:
    if isinstance(held, bool):
        return "yes" if held else "no"
    if isinstance(held, tuple):
        kind = get_args(column.kind)
        is_point = bool(kind) and get_origin(kind[0]) is not tuple and kind[-1] is not Ellipsis
        text = point_joined(held) if is_point and get_origin(column.kind) is tuple else joined(held)
        return text or None
    if isinstance(held, date):
        return held
    plain: Cell = plain_value(held)
    return None if plain == "" else plain


def _references(held: Any, column: Column, notebook: Notebook) -> Cell:
    ids = [held] if isinstance(held, str) else list(held)
    if column.role == "ids":
        return (ids[0] if isinstance(held, str) else names_joined(ids)) or None
    table = column.info.rule.refers_to
    names = [name_in(table, each, notebook) for each in ids]
    if isinstance(held, str):
        return names[0] or None
    if is_number_by_zone(column.info.type):
        return by_name_joined(dict(zip(names, held.values(), strict=True))) or None
    return names_joined(names) or None


def _cells_needed(cells: Iterator[Cell]) -> int:
    longest = max((len(each) for each in cells if isinstance(each, str)), default=0)
    return max(1, -(-longest // MOST_LETTERS))


def _cut(cell: Cell, count: int) -> Sequence[Cell]:
    if count == 1 or not isinstance(cell, str):
        return (cell, *[None] * (count - 1))
    parts = [cell[at * MOST_LETTERS : (at + 1) * MOST_LETTERS] for at in range(count)]
    return [part or None for part in parts]


def _heading(column: Column, part: int) -> str:
    return f"{column.heading}, part {part + 1}" if part else column.heading
