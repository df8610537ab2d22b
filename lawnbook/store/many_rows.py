"""Many rows of one table into records at once, column by column.

A book of twenty years has some 50,000 rows. What the interpreter would do for each cell is done
here by loops in C over a whole column: a type is checked by the set of types that occur, equal
texts are read once and shared (a date, a zone's id, a list of readings), and fields are put into
the records' slots directly. Where a cell does not fit, and wherever a quick way is not sure, the
rows go through `columns.record_of` one by one: that alone decides, and tells what is wrong.
"""

import json
import math
from collections import deque
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from datetime import date
from functools import cache, partial
from itertools import repeat
from types import MappingProxyType
from typing import Any

from lawnbook.store.columns import (
    CELL_TYPES,
    Column,
    PictureOf,
    columns_of,
    is_picture,
    may_be_empty,
    record_of,
)
from lawnbook.yard.fields import Outline, Point, fields_of, is_number_by_zone, without_none
from lawnbook.yard.limits import first_unshowable
from lawnbook.yard.records import NOTHING_BY_ZONE, TABLES, Record

Row = Sequence[Any]
_Cells = Sequence[Any]
_NUMBERS = frozenset({int, float})
_ENDLESS = frozenset({math.inf, -math.inf})
_WRONG = (ValueError, TypeError, KeyError, OverflowError, RecursionError)
_raw_decode = json.JSONDecoder().raw_decode


class WrongRowError(ValueError):
    """A row that is no record: its table, its id as it stands there, and what does not fit."""


class _NotSureError(ValueError):
    """The quick way is not sure of a cell: the row must be read by itself."""


class _Shared(dict[Any, Any]):
    """What each cell stands for, made when it is first met and the same object ever after."""

    __slots__ = ("_make",)

    def __init__(self, make: Callable[[Any], Any], known: Mapping[Any, Any] | None = None) -> None:
        super().__init__(known or {})
        self._make = make

    def __missing__(self, cell: Hashable) -> Any:
        """Read a cell that was not met yet."""
        made = self[cell] = self._make(cell)
        return made


class RowReader:
    """Reads the tables of one notebook, which share their dates and the ids they refer to."""

    def __init__(self, picture: PictureOf) -> None:
        """`picture` brings the picture of a SHA-256."""
        self._picture = picture
        self._days = _Shared(lambda cell: date.fromisoformat(_text(cell)))
        self._ids: dict[str, _Shared] = {}

    def records(self, table: str, rows: Sequence[Row]) -> list[Record]:
        """The records of rows in the order of `column_names`; WrongRowError where one is none."""
        if not rows:
            return []
        try:
            return self._quick(table, rows)
        except _WRONG:
            return [self._one(table, row) for row in rows]

    def _one(self, table: str, row: Row) -> Record:
        try:
            return record_of(table, row, self._picture)
        except _WRONG as error:
            raise WrongRowError(f"{table}, row {row[0]}: {error}") from error

    def _quick(self, table: str, rows: Sequence[Row]) -> list[Record]:
        kind = TABLES[table]
        cells: list[_Cells] = list(zip(*rows, strict=True))
        fields: dict[str, Iterable[Any]] = {
            "id": self._own_ids(table, cells[0]),
            "rank": _plain(cells[1], int, optional=False),
        }
        for column, held in zip(columns_of(table), cells[2:], strict=True):
            fields[column.name] = self._values(column, held)
        for info in fields_of(kind):
            if is_picture(info):
                fields[info.name] = map(self._picture, fields["sha256"])
        made = list(map(object.__new__, repeat(kind, len(rows))))
        for name, values in fields.items():
            # Through the slot itself: a frozen record's own way in costs five times as much.
            deque(map(getattr(kind, name).__set__, made, values), maxlen=0)
        return made

    def _own_ids(self, table: str, cells: _Cells) -> Iterable[str]:
        _plain(cells, str, optional=False)
        # Only where others refer to them is it worth while to keep them.
        return map(self._known(table).__getitem__, cells) if table in _referred() else cells

    def _known(self, table: str) -> _Shared:
        return self._ids.setdefault(table, _Shared(_text))

    def _values(self, column: Column, cells: _Cells) -> Iterable[Any]:
        kind, optional = without_none(column.info.type), may_be_empty(column.info)
        if kind in CELL_TYPES and not column.info.rule.refers_to:
            return _plain(cells, CELL_TYPES[kind], optional=optional)
        if not optional and None in cells:
            raise _NotSureError
        shared = self._shared(column, kind)
        if optional:
            shared[None] = None
        return map(shared.__getitem__, cells)

    def _shared(self, column: Column, kind: Any) -> _Shared:
        if kind is date:
            return self._days
        if kind is str:
            return self._known(column.info.rule.refers_to)
        if is_number_by_zone(kind):
            known = {"{}": NOTHING_BY_ZONE}
            return _Shared(partial(_by_zone, self._known("zones")), known)
        for quick, of in _QUICK:
            if kind == of:
                return _Shared(quick)
        return _Shared(column.from_cell)


def _plain(cells: _Cells, kind: type, *, optional: bool) -> _Cells:
    """Cells that are the values themselves, if all of them are of a type and none is endless."""
    allowed = {kind, type(None)} if optional else {kind}
    if not allowed.issuperset(map(type, cells)):
        raise _NotSureError
    if kind is float and not _ENDLESS.isdisjoint(cells):
        raise _NotSureError
    return cells


def _text(cell: Any) -> str:
    if type(cell) is not str:
        raise _NotSureError
    return cell


def _json(cell: str) -> Any:
    value, end = _raw_decode(cell)
    if end != len(cell):
        raise _NotSureError
    return value


def _numbers(held: Iterable[Any]) -> tuple[float, ...]:
    """Finite numbers as such; a truth value or a text is none."""
    listed = tuple(held)
    found = tuple(map(float, listed))
    if not _NUMBERS.issuperset(map(type, listed)) or not all(map(math.isfinite, found)):
        raise _NotSureError
    return found


def _number_list(cell: str) -> tuple[float, ...]:
    held = _json(cell)
    if type(held) is not list:
        raise _NotSureError
    return _numbers(held)


def _point(cell: str) -> Point:
    x, y = _number_list(cell)
    return x, y


def _corners(cell: str) -> Outline:
    held = _json(cell)
    if type(held) is not list or not {list}.issuperset(map(type, held)):
        raise _NotSureError
    return tuple((x, y) for x, y in map(_numbers, held))


def _by_zone(known: _Shared, cell: str) -> Mapping[str, float]:
    held = _json(cell)
    if type(held) is not dict or first_unshowable("".join(held)):
        raise _NotSureError
    zones = map(known.__getitem__, held)
    return MappingProxyType(dict(zip(zones, _numbers(held.values()), strict=True)))


_QUICK: tuple[tuple[Callable[[str], Any], Any], ...] = (
    (_number_list, tuple[float, ...]),
    (_point, Point),
    (_corners, Outline),
)
"""What reads the usual lists, and the type of the fields that hold them."""


@cache
def _referred() -> frozenset[str]:
    """The tables that records refer to."""
    infos = (info for kind in TABLES.values() for info in fields_of(kind))
    return frozenset(info.rule.refers_to for info in infos if info.rule.refers_to)
