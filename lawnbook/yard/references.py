"""Which records a record leads to, found from the rules of its fields."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any, TypeVar

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import FieldInfo, fields_of
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import TABLES, Record
from lawnbook.yard.table import grouped

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True)
class Reference:
    """One reference: the field that holds it, the table it leads to, and the id it holds.

    `place` is the field's path inside the record, such as "zones[2]" or "pounds.front".
    """

    field: str
    place: str
    table: str
    target: str


def references_of(record: Record) -> tuple[Reference, ...]:
    """Every reference a record holds, in the order of its fields."""
    found: list[Reference] = []
    for info in fields_of(type(record)):
        if info.rule.refers_to:
            found += _held(info, getattr(record, info.name))
    return tuple(found)


def loose_references(notebook: Notebook, removed: Iterable[Key]) -> list[tuple[str, str]]:
    """The tables and fields in which a record still leads to one of those removed.

    Found by the tables' groups: no table is gone through for each edit.
    """
    gone: dict[str, list[str]] = {}
    for table, record_id in removed:
        gone.setdefault(table, []).append(record_id)
    return [
        (table, info.name)
        for table, kind in (TABLES.items() if gone else ())
        for info in fields_of(kind)
        if info.rule.refers_to in gone
        and not grouped(notebook.table(table), info.name)
        .keys()
        .isdisjoint(gone[info.rule.refers_to])
    ]


def told_loose(after: Notebook, removed: Iterable[Key]) -> list[str]:
    """A sentence for each table whose records would still refer to what is removed."""
    loose = dict(reversed(loose_references(after, removed)))
    return [
        tr(
            "{table}.{loose} still refers to what would be removed; remove that first.",
            table=table,
            loose=loose[table],
        )
        for table in TABLES
        if table in loose
    ]


def with_references(record: R, rename: Callable[[Reference], str]) -> R:
    """The record with every reference replaced by what `rename` gives for it.

    The very same record where nothing changes. Entries of a table by zone that become the same
    one leave only the last: compare the number of references where that can happen.
    """
    changed: dict[str, Any] = {}
    for info in fields_of(type(record)):
        if not info.rule.refers_to:
            continue
        value = getattr(record, info.name)
        named = {each.target: rename(each) for each in _held(info, value)}
        if any(old != new for old, new in named.items()):
            changed[info.name] = _renamed(value, named)
    return replace(record, **changed) if changed else record


def _held(info: FieldInfo, value: Any) -> list[Reference]:
    table, name = info.rule.refers_to, info.name
    if value is None:
        return []
    if isinstance(value, str):
        return [Reference(name, name, table, value)]
    if isinstance(value, Mapping):
        return [Reference(name, f"{name}.{each}", table, each) for each in value]
    return [Reference(name, f"{name}[{i}]", table, each) for i, each in enumerate(value)]


def _renamed(value: Any, named: Mapping[str, str]) -> Any:
    if isinstance(value, str):
        return named[value]
    if isinstance(value, Mapping):
        return MappingProxyType({named[key]: held for key, held in value.items()})
    return tuple(named[each] for each in value)
