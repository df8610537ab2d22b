"""How a record becomes a row of SQLite and a row becomes a record, from the fields' own rules.

Text, numbers, booleans and dates are columns of their own; lists and nested records are JSON text.
A picture has no column: its bytes lie apart, behind the SHA-256 that stands in its row. Column
names are the fields' names.
"""

import json
import math
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import cache, partial
from types import MappingProxyType, NoneType
from typing import Any, Literal, get_args, get_origin

from lawnbook.frozen import dataclass
from lawnbook.yard.codec import plain_value, value_from_plain
from lawnbook.yard.fields import FieldInfo, fields_of, without_none
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import TABLES, Record

Cell = str | int | float | None
PictureOf = Callable[[str], Picture]
CELL_TYPES: Mapping[Any, type] = MappingProxyType({str: str, int: int, float: float})
"""The types of values that a cell holds as they are, and that type."""

_CALLED = {str: "text", int: "a whole number", float: "a number", bytes: "bytes"}


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


def may_be_empty(info: FieldInfo) -> bool:
    """Whether the cell of a field may hold nothing."""
    return NoneType in get_args(info.type)


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
    values: dict[str, Any] = {
        "id": _checked("id", str, row[0]),
        "rank": _checked("rank", int, row[1]),
    }
    for column, cell in zip(columns_of(table), row[2:], strict=True):
        if cell is None:
            if not may_be_empty(column.info):
                raise ValueError(f"{column.name} is empty")
            values[column.name] = None
        else:
            values[column.name] = column.from_cell(cell)
    for info in fields_of(TABLES[table]):
        if is_picture(info):
            values[info.name] = picture(values["sha256"])
    return TABLES[table](**values)


def _column(info: FieldInfo) -> Column:
    kind = without_none(info.type)
    if kind is str:
        return Column(info.name, info, "TEXT", _same, partial(_checked, info.name, str))
    if kind is int:
        return Column(info.name, info, "INTEGER", int, partial(_checked, info.name, int))
    if kind is float:
        return Column(info.name, info, "REAL", float, partial(_checked, info.name, float))
    if kind is bool:
        return Column(info.name, info, "INTEGER", int, partial(_flag, info.name))
    if kind is date:
        return Column(info.name, info, "TEXT", date.isoformat, partial(_day, info.name))
    if get_origin(kind) is Literal:
        return Column(info.name, info, "TEXT", _same, partial(_value_of, info))
    return Column(info.name, info, "TEXT", _json_of, partial(_value_of_json, info))


def _same(value: Any) -> Any:
    return value


def _checked(name: str, kind: type, cell: Any) -> Any:
    """A cell that is its own value, if it is of its type, and finite."""
    if type(cell) is not kind:
        found = _CALLED.get(type(cell), "empty")
        raise ValueError(f"{name} must be {_CALLED[kind]}, and is {found}")
    if isinstance(cell, float) and not math.isfinite(cell):
        raise ValueError(f"{name} must be a finite number")
    return cell


def _flag(name: str, cell: Any) -> bool:
    if _checked(name, int, cell) not in (0, 1):
        raise ValueError(f"{name} must be 0 or 1")
    return bool(cell)


def _day(name: str, cell: Any) -> date:
    try:
        return date.fromisoformat(_checked(name, str, cell))
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from error


def _value_of(info: FieldInfo, cell: Any) -> Any:
    return value_from_plain(info.type, cell, info.rule.label)


def _value_of_json(info: FieldInfo, cell: str) -> Any:
    return _value_of(info, json.loads(cell))


def _json_of(value: Any) -> str:
    return json.dumps(
        plain_value(value), ensure_ascii=False, allow_nan=False, separators=(",", ":")
    )
