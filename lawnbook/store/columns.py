"""How a record becomes a row of SQLite and a row becomes a record, from the fields' own rules.

Text, numbers, booleans and dates are columns of their own; lists and nested records are JSON text.
A picture has no column: its bytes lie apart, behind the SHA-256 that stands in its row. Column
names are the fields' names.
"""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache, partial
from typing import Any, Literal, get_origin

from lawnbook.yard.codec import plain_value, value_from_plain
from lawnbook.yard.fields import FieldInfo, fields_of, without_none
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import TABLES, Record

Cell = str | int | float | None
PictureOf = Callable[[str], Picture]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, the field it holds, SQLite's type, and the ways to and from a cell."""

    name: str
    info: FieldInfo
    sql_type: Literal["TEXT", "INTEGER", "REAL"]
    to_cell: Callable[[Any], Cell]
    from_cell: Callable[[Any], Any]


@cache
def columns_of(table: str) -> tuple[Column, ...]:
    """The columns of a table after `id` and `rank`, in the order of the record's fields."""
    return tuple(_column(info) for info in fields_of(TABLES[table]) if not is_picture(info))


def is_picture(info: FieldInfo) -> bool:
    """Whether a field holds a picture, which has no column."""
    return info.type is Picture


@cache
def column_names(table: str) -> tuple[str, ...]:
    """All column names of a table, `id` and `rank` first."""
    return ("id", "rank", *(column.name for column in columns_of(table)))


def row_of(table: str, record: Record) -> tuple[Cell, ...]:
    """The cells of a record in the order of `column_names`."""
    cells: list[Cell] = [record.id, record.rank]
    for column in columns_of(table):
        value = getattr(record, column.info.name)
        cells.append(None if value is None else column.to_cell(value))
    return tuple(cells)


def record_of(table: str, row: Sequence[Any], picture: PictureOf) -> Record:
    """The record of a row in the order of `column_names`; ValueError where a cell does not fit.

    `picture` brings the picture of a SHA-256.
    """
    values: dict[str, Any] = {"id": row[0], "rank": row[1]}
    for column, cell in zip(columns_of(table), row[2:], strict=True):
        if cell is None:
            if column.info.required:
                raise ValueError(f"{column.name} is empty")
            values[column.info.name] = None
        else:
            values[column.info.name] = column.from_cell(cell)
    for info in fields_of(TABLES[table]):
        if is_picture(info):
            values[info.name] = picture(values["sha256"])
    return TABLES[table](**values)


def _column(info: FieldInfo) -> Column:
    kind = without_none(info.type)
    if kind is str:
        return Column(info.name, info, "TEXT", _same, _same)
    if kind is int:
        return Column(info.name, info, "INTEGER", int, _same)
    if kind is float:
        return Column(info.name, info, "REAL", float, _same)
    if kind is bool:
        return Column(info.name, info, "INTEGER", int, bool)
    if kind is date:
        return Column(info.name, info, "TEXT", date.isoformat, date.fromisoformat)
    if get_origin(kind) is Literal:
        return Column(info.name, info, "TEXT", _same, partial(_value_of, info))
    return Column(info.name, info, "TEXT", _json_of, partial(_value_of_json, info))


def _same(value: Any) -> Any:
    return value


def _value_of(info: FieldInfo, cell: Any) -> Any:
    return value_from_plain(info.type, cell, info.rule.label)


def _value_of_json(info: FieldInfo, cell: str) -> Any:
    return _value_of(info, json.loads(cell))


def _json_of(value: Any) -> str:
    return json.dumps(
        plain_value(value), ensure_ascii=False, allow_nan=False, separators=(",", ":")
    )
