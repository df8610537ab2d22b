"""A plan and a check before spreading as JSON: stable keys, ISO dates, figures unrounded."""

import dataclasses
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from lawnbook.plan.model import Plan, SpreadCheck, ZoneWater
from lawnbook.plan.render_spread import spread_text
from lawnbook.plan.render_text import plan_text

__all__ = ["plan_json", "plan_text", "spread_json", "spread_text"]


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


def _fields(record: Any) -> dict[str, Any]:
    return {field.name: _plain(getattr(record, field.name)) for field in dataclasses.fields(record)}


def _plain(value: Any) -> Any:
    if value is None or isinstance(value, str | int | float):
        return value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, Sequence):
        return [_plain(each) for each in value]
    return _fields(value)
