"""A plan and a check before spreading as JSON: stable keys, ISO dates, figures unrounded."""

import dataclasses
from collections.abc import Mapping, Sequence
from datetime import date
from functools import cache
from types import NoneType
from typing import Any

from lawnbook.plan.model import Plan, SpreadCheck, ZoneWater
from lawnbook.plan.render_spread import spread_text
from lawnbook.plan.render_text import plan_text

__all__ = ["plan_json", "plan_text", "spread_json", "spread_text"]

_AS_THEY_ARE = frozenset({str, int, float, bool, NoneType})


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
    return {name: _plain(getattr(record, name)) for name in _names(kind)}


@cache
def _names(kind: Any) -> tuple[str, ...]:
    return tuple(field.name for field in dataclasses.fields(kind))


def _plain(value: Any) -> Any:
    # By their own types first: a plan holds ten thousand values, nearly all of these.
    kind = type(value)
    if kind in _AS_THEY_ARE:
        return value
    if kind is tuple:
        return [_plain(each) for each in value]
    if kind is date:
        return value.isoformat()
    if isinstance(value, str | int | float):
        return value
    if isinstance(value, date):
        # A time of the clock, which is a kind of date.
        return value.isoformat()
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, Sequence):
        return [_plain(each) for each in value]
    return _fields(value)
