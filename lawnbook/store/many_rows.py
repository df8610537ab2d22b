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
from dataclasses import replace
from datetime import date
from functools import cache, partial
from itertools import repeat
from types import MappingProxyType
from typing import Any, Literal, cast, get_args, get_origin

from lawnbook.frozen import dataclass
from lawnbook.store.columns import (
    CELL_TYPES,
    Column,
    PictureOf,
    column_names,
    columns_of,
    is_picture,
    may_be_empty,
    record_of,
)
from lawnbook.yard.fields import (
    Outline,
    Point,
    choices_of,
    fields_of,
    is_number_by_zone,
    without_none,
)
from lawnbook.yard.limits import LARGEST, first_unshowable
from lawnbook.yard.records import NOTHING_BY_ZONE, TABLES, Record

Row = Sequence[Any]
_Cells = Sequence[Any]
_NUMBERS = frozenset({int, float})
_WRONG = (ValueError, TypeError, KeyError, OverflowError, RecursionError)
_raw_decode = json.JSONDecoder().raw_decode


class WrongRowError(ValueError):
    """A row that is no record: its table, its id as it stands there, and what does not fit."""


class _NotSureError(ValueError):
    """The quick way is not sure of a cell: the row must be read by itself."""


class _Shared(dict[Any, Any]):
    """What each cell stands for, made when it is first met and the same object ever after."""

    __slots__ = ("_make",)

    def __init__(self, make: Callable[[Any], Any], known: Iterable[tuple[Any, Any]]) -> None:
        super().__init__(known)
        self._make = make

    def __missing__(self, cell: Hashable) -> Any:
        """Read a cell that was not met yet."""
        made = self[cell] = self._make(cell)
        return made


class RowReader:
    """Reads the tables of one notebook, which share their dates and the ids they refer to.

    `is_sure` says whether no row had to be read by itself: then each number is one that a yard may
    have, and `refers_beyond` knows every id that a row refers to.
    """

    def __init__(self, picture: PictureOf) -> None:
        """`picture` brings the picture of a SHA-256."""
        self.is_sure = True
        self._picture = picture
        self._days = _Shared(date.fromisoformat, ((None, None),))
        self._ids: dict[str, dict[str | None, str | None]] = {}
        # A twentieth less memory with 40,000 waterings. SQLite keeps no -0.0, which is equal.
        self._numbers = _Shared(_within, ((None, None),))
        self._counts = _Shared(_within, ((None, None),))

    def records(self, table: str, rows: Sequence[Row]) -> list[Record]:
        """The records of rows in the order of `column_names`; WrongRowError where one is none."""
        if not rows:
            return []
        try:
            return self._quick(table, rows)
        except _WRONG:
            self.is_sure = False
            return [self._one(table, row) for row in rows]

    def refers_beyond(self, tables: Mapping[str, Iterable[str]]) -> bool:
        """Whether a row that was read may refer to an id that is not among those of its table."""
        return any(
            known.keys() - {None, *tables[table]} for table, known in self._ids.items() if known
        )

    def _one(self, table: str, row: Row) -> Record:
        try:
            return record_of(table, row, self._picture)
        except _WRONG as error:
            raise WrongRowError(f"{table}, row {row[0]}: {error}") from error

    def _quick(self, table: str, rows: Sequence[Row]) -> list[Record]:
        cells: list[_Cells] = list(zip(*rows, strict=True))
        if min(cells[1]) < -LARGEST or max(cells[1]) > LARGEST:
            raise _NotSureError
        # Through the slots themselves: a frozen record's own way in costs five times as much.
        made = list(map(object.__new__, repeat(TABLES[table], len(rows))))
        for way, held in zip(_ways(table), cells, strict=True):
            values: Iterable[Any] = way.checked(held)
            if way.shares is not None:
                values = self._shared(way, way.shares, held)
            deque(map(way.put, made, values), maxlen=0)
        for name, put in _picture_slots(table):
            shas = cells[column_names(table).index(name)]
            deque(map(put, made, map(self._picture, shas)), maxlen=0)
        return made

    def _shared(self, way: "_Way", shares: str, cells: _Cells) -> Iterable[Any]:
        """The values of a column in which equal cells stand for the same object."""
        if shares == "days":
            return map(self._days.__getitem__, cells)
        if shares == "numbers":
            return map(self._numbers.__getitem__, cells)
        if shares == "counts":
            return map(self._counts.__getitem__, cells)
        if shares == "ids":
            known = self._ids.setdefault(way.leads_to, {None: None})
            return map(known.setdefault, cells, cells)
        if shares == "by zone":
            make = partial(_by_zone, self._ids.setdefault("zones", {None: None}))
            found = _Shared(make, ((None, None), ("{}", NOTHING_BY_ZONE)))
        else:
            found = _Shared(way.make, way.known)
        return map(found.__getitem__, cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """How one column goes into its slot, found once for each table.

    `shares` says where equal cells find their one value; None where cells are values themselves.
    """

    put: Callable[[Any, Any], None]
    allowed: frozenset[type]
    shares: Literal["days", "ids", "numbers", "counts", "by zone", "cells"] | None = None
    leads_to: str = ""
    make: Callable[[Any], Any] = str
    known: tuple[tuple[Any, Any], ...] = ((None, None),)

    def checked(self, cells: _Cells) -> _Cells:
        """The cells, if all of them are of types that may stand here."""
        if not self.allowed.issuperset(map(type, cells)):
            raise _NotSureError
        return cells


@cache
def _ways(table: str) -> tuple[_Way, ...]:
    """The ways of all columns of a table, in the order of `column_names`."""
    kind = TABLES[table]
    shares: Literal["ids"] | None = "ids" if table in _referred() else None
    own_id = _Way(put=_slot(kind, "id"), allowed=frozenset({str}), shares=shares, leads_to=table)
    rank = _Way(put=_slot(kind, "rank"), allowed=frozenset({int}))
    return (own_id, rank, *(_way(kind, column) for column in columns_of(table)))


def _way(record: type[Record], column: Column) -> _Way:
    kind, leads_to = without_none(column.info.type), column.info.rule.refers_to
    cell_type = CELL_TYPES.get(kind, int if kind is bool else str)
    empty = {type(None)} if may_be_empty(column.info) else set()
    way = _Way(put=_slot(record, column.name), allowed=frozenset({cell_type, *empty}))
    if kind is date:
        return replace(way, shares="days")
    if kind is str and leads_to:
        return replace(way, shares="ids", leads_to=leads_to)
    if is_number_by_zone(kind):
        return replace(way, shares="by zone")
    if kind in CELL_TYPES:
        shared: dict[Any, Literal["numbers", "counts"]] = {float: "numbers", int: "counts"}
        return replace(way, shares=shared.get(kind))
    quick = next((each for each, of in _QUICK if kind == of), column.from_cell)
    known: dict[Any, Any] = {None: None, **{word: word for word in choices_of(kind)}}
    if get_origin(kind) is tuple and get_args(kind)[-1] is Ellipsis:
        known["[]"] = ()
    return replace(way, shares="cells", make=quick, known=tuple(known.items()))


def _slot(kind: type[Record], name: str) -> Callable[[Any, Any], None]:
    put: Callable[[Any, Any], None] = getattr(kind, name).__set__
    return put


@cache
def _picture_slots(table: str) -> tuple[tuple[str, Callable[[Any, Any], None]], ...]:
    """Where a record's picture goes, with the name of the column that tells its SHA-256."""
    kind = TABLES[table]
    names = [info.name for info in fields_of(kind) if is_picture(info)]
    return tuple(("sha256", _slot(kind, name)) for name in names)


def _within(number: float) -> float:
    """A number that a yard may have."""
    if not -LARGEST <= number <= LARGEST:
        raise _NotSureError
    return number


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
    if found and (min(found) < -LARGEST or max(found) > LARGEST):
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


def _by_zone(known: dict[str | None, str | None], cell: str) -> Mapping[str, float]:
    held = _json(cell)
    if type(held) is not dict or first_unshowable("".join(held)):
        raise _NotSureError
    zones = cast("Iterable[str]", map(known.setdefault, held, held))
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
