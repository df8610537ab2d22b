"""A plan and a check before spreading as JSON: stable keys, ISO dates, figures unrounded."""

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import cache
from operator import attrgetter
from types import NoneType
from typing import Any

from lawnbook.plan.model import Plan, SpreadCheck, ZoneWater
from lawnbook.plan.render_spread import spread_text
from lawnbook.plan.render_text import plan_text

__all__ = ["plan_json", "plan_text", "spread_json", "spread_text"]

_AS_THEY_ARE = frozenset({str, int, float, bool, NoneType})

_records: set[type] = set()
"""The kinds of records met so far, which need not be asked what else they might be."""


def plan_json(plan: Plan) -> dict[str, Any]:
    """The plan as plain values, ready for `json.dumps`; field names are the keys."""
    return {
        **_fields(plan),
        "area_sqft": plan.area_sqft,
        "zones": [_zone(zone) for zone in plan.zones],
    }


def spread_json(check: SpreadCheck) -> dict[str, Any]:
    """The check before spreading as plain values."""
    return _fields(check)


def _zone(zone: ZoneWater) -> dict[str, Any]:
    return {**_fields(zone), "interval_days_by_month": list(zone.interval_days_by_month)}


def _fields(record: object) -> dict[str, Any]:
    kind: Any = type(record)
    names, values_of = _held_by(kind)
    # A plan holds some hundred thousand values, nearly all of which are told as they are.
    return {
        name: value if type(value) in _AS_THEY_ARE else _plain(value)
        for name, value in zip(names, values_of(record), strict=True)
    }


@cache
def _held_by(kind: Any) -> tuple[tuple[str, ...], Callable[[object], tuple[Any, ...]]]:
    """The names of a kind of record's fields, but for those kept out, and what reads them all."""
    fields = dataclasses.fields(kind)
    names = tuple(field.name for field in fields if not field.metadata.get("kept_out"))
    if len(names) > 1:
        return names, attrgetter(*names)
    return names, lambda record: tuple(getattr(record, name) for name in names)


def _plain(value: Any) -> Any:
    kind = type(value)
    if kind in _AS_THEY_ARE:
        return value
    if kind is tuple:
        return [each if type(each) in _AS_THEY_ARE else _plain(each) for each in value]
    if kind is date:
        return value.isoformat()
    return _fields(value) if kind in _records else _seldom(value)


def _seldom(value: Any) -> Any:
    """A value of no common type: a kind of one, a day, a time of the clock, which is a day too."""
    if isinstance(value, str | int | float):
        return value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, Sequence):
        return [_plain(each) for each in value]
    _records.add(type(value))
    return _fields(value)
