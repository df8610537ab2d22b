"""How a record becomes a row of SQLite and a row becomes a record, from the fields' own rules.

Text, numbers, booleans and dates are columns of their own; lists and nested records are JSON text;
a picture is stored as its bytes. Column names are the fields' names, but for the picture's.
"""

import base64
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from types import MappingProxyType, NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin

from lawnbook.yard.fields import FieldInfo, fields_of, is_number_by_zone, without_none
from lawnbook.yard.records import TABLES, Record

Cell = str | int | float | bytes | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, the field it holds, SQLite's type, and the ways to and from a cell."""

    name: str
    info: FieldInfo
    sql_type: Literal["TEXT", "INTEGER", "REAL", "BLOB"]
    to_cell: Callable[[Any], Cell]
    from_cell: Callable[[Any], Any]


@cache
def columns_of(table: str) -> tuple[Column, ...]:
    """The columns of a table after `id` and `rank`, in the order of the record's fields."""
    return tuple(_column(info) for info in fields_of(TABLES[table]))


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


def record_of(table: str, row: Sequence[Any]) -> Record:
    """The record of a row in the order of `column_names`; ValueError where a cell does not fit."""
    values: dict[str, Any] = {"id": row[0], "rank": row[1]}
    for column, cell in zip(columns_of(table), row[2:], strict=True):
        if cell is None:
            if column.info.required:
                raise ValueError(f"{column.name} is empty")
            values[column.info.name] = None
        else:
            values[column.info.name] = column.from_cell(cell)
    return TABLES[table](**values)


def plain_value(value: Any) -> Any:
    """A field's value in JSON's terms: lists, dicts, text and numbers."""
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [plain_value(each) for each in value]
    if isinstance(value, Mapping):
        return {key: plain_value(each) for key, each in value.items()}
    if hasattr(value, "__dataclass_fields__"):
        held = ((info.name, getattr(value, info.name)) for info in fields_of(type(value)))
        return {name: plain_value(each) for name, each in held if each is not None}
    return value


def value_of(kind: Any, plain: Any) -> Any:
    """The value of a field's type from JSON's terms; ValueError where it does not fit."""
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        return _value_of_union(get_args(kind), plain)
    if origin is tuple:
        return _tuple_of(get_args(kind), plain)
    if origin is Literal:
        return _choice_of(get_args(kind), plain)
    if is_number_by_zone(kind):
        numbers = _expect(dict, plain).items()
        return MappingProxyType({str(key): value_of(float, each) for key, each in numbers})
    if kind is date:
        return date.fromisoformat(_expect(str, plain))
    if kind is float:
        return float(_expect((int, float), plain))
    if hasattr(kind, "__dataclass_fields__"):
        held = _expect(dict, plain)
        types = {info.name: info.type for info in fields_of(kind)}
        return kind(**{name: value_of(types[name], each) for name, each in held.items()})
    return _expect(kind, plain)


def _value_of_union(kinds: tuple[Any, ...], plain: Any) -> Any:
    if plain is None and NoneType in kinds:
        return None
    for kind in kinds:
        is_list = get_origin(kind) is tuple
        if kind is not NoneType and is_list == isinstance(plain, list):
            return value_of(kind, plain)
    raise ValueError(f"{str(plain)[:40]!r} fits none of the kinds allowed")


def _tuple_of(kinds: tuple[Any, ...], plain: Any) -> tuple[Any, ...]:
    listed = _expect(list, plain)
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(value_of(kinds[0], each) for each in listed)
    return tuple(value_of(kind, each) for kind, each in zip(kinds, listed, strict=True))


def _choice_of(choices: tuple[Any, ...], plain: Any) -> Any:
    if plain not in choices:
        raise ValueError(f"{str(plain)[:40]!r} is none of {', '.join(map(str, choices))}")
    return plain


def _expect(kind: Any, plain: Any) -> Any:
    if not isinstance(plain, kind) or (isinstance(plain, bool) and kind is not bool):
        raise ValueError(f"{str(plain)[:40]!r} is of the wrong kind")
    return plain


def _column(info: FieldInfo) -> Column:
    kind = without_none(info.type)
    if info.rule.kind == "base64":
        name = info.name.removesuffix("_b64")
        return Column(name, info, "BLOB", _bytes_of, _base64_of)
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
        choices = get_args(kind)
        return Column(info.name, info, "TEXT", _same, lambda cell: _choice_of(choices, cell))
    return Column(
        info.name, info, "TEXT", _json_of, lambda cell: value_of(info.type, json.loads(cell))
    )


def _same(value: Any) -> Any:
    return value


def _json_of(value: Any) -> str:
    return json.dumps(
        plain_value(value), ensure_ascii=False, allow_nan=False, separators=(",", ":")
    )


def _bytes_of(text: str) -> bytes:
    return base64.b64decode(text, validate=True)


def _base64_of(data: bytes) -> str:
    return base64.b64encode(data).decode("ascii")
