"""The columns of every table as a spreadsheet shows it, made from the rules of the fields.

A nested record has a column for each of its fields; a reference has the name of what it leads to,
and its id in a column of its own at the end. A picture's bytes have none.
"""

from collections.abc import Mapping
from dataclasses import field as record_field
from dataclasses import is_dataclass
from datetime import date
from functools import cache
from typing import Any, Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import FieldInfo, fields_of, is_number_by_zone, without_none
from lawnbook.yard.pictures import Picture
from lawnbook.yard.records import SINGLES, TABLES, ClimateMonth, WeatherDay

SETTLED = frozenset({*SINGLES, "weather", "climate"})
"""Tables whose records need no id: a day, a month, or the only one."""

Role = Literal["value", "names", "ids", "id"]
"""A field's own value, the names of what it leads to, their ids, or the record's own id."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: `field` of the record, `inner` of the record nested in it ("" for none)."""

    heading: str
    label: str
    field: str
    inner: str
    role: Role
    info: FieldInfo = record_field(hash=False)

    @property
    def kind(self) -> Any:
        """The type of its value, without None."""
        return without_none(self.info.type)

    @property
    def is_number(self) -> bool:
        """Whether a cell holds one figure."""
        return self.role == "value" and self.kind in (float, int)

    @property
    def is_day(self) -> bool:
        """Whether a cell holds one day."""
        return self.role == "value" and self.kind is date


@cache
def columns_of(table: str) -> tuple[Column, ...]:
    """The columns of a table in order. KeyError for a table that is none."""
    columns: list[Column] = []
    behind: list[Column] = []
    for info in fields_of(TABLES[table]):
        if info.type is Picture:
            continue
        nested = without_none(info.type)
        if is_dataclass(nested) and isinstance(nested, type):
            columns += [_nested(info, each) for each in fields_of(nested)]
        elif info.rule.refers_to:
            columns.append(_column(info, "names"))
            behind.append(_ids(info))
        else:
            columns.append(_column(info, "value"))
    if table not in SETTLED:
        behind.append(Column("Id", "Id", "id", "", "id", _ID))
    return (*columns, *behind)


def settled_by(table: str, values: Mapping[str, Any]) -> str:
    """The id that a record of a settled table has by its values; "" where they do not say."""
    if table in SINGLES:
        return table
    if TABLES[table] is WeatherDay and isinstance(values.get("date"), date):
        return str(values["date"].isoformat())
    if TABLES[table] is ClimateMonth and isinstance(values.get("month"), int):
        return f"{values['month']:02d}"
    return ""


def _column(info: FieldInfo, role: Role) -> Column:
    rule = info.written
    return Column(_headed(rule.label, rule.unit), rule.label, info.name, "", role, info)


def _nested(outer: FieldInfo, info: FieldInfo) -> Column:
    first, label = outer.written.label, info.written.label
    label = label if label.startswith(first) else f"{first}: {label}"
    return Column(_headed(label, info.written.unit), label, outer.name, info.name, "value", info)


def _ids(info: FieldInfo) -> Column:
    label = f"{info.written.label}, zone ids" if is_number_by_zone(info.type) else ""
    label = label or f"{info.written.label} id"
    return Column(label, label, info.name, "", "ids", info)


def _headed(label: str, unit: str) -> str:
    return f"{label}, {unit}" if unit else label


_ID = next(info for info in fields_of(TABLES["zones"]) if info.name == "name")
