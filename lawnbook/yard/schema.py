"""The JSON Schema (draft 2020-12) of the yard file, made from the rules of the records' fields.

``resources/yard.schema.json`` is its text; ``python -m lawnbook.yard.schema`` writes it anew.
The schema holds types, limits and spellings. What only a whole file can show (references, names
used twice, outlines that cross themselves) is for the rules of `check`.
"""

import json
from collections.abc import Mapping
from dataclasses import is_dataclass
from datetime import date
from types import NoneType
from typing import Any, Literal, get_args, get_origin

from lawnbook.yard.codec import LONGEST_ID, plain_value
from lawnbook.yard.consistency_sprinklers import PROFILES
from lawnbook.yard.fields import FieldInfo, Outline, Rule, fields_of, is_number_by_zone
from lawnbook.yard.limits import LONGEST_LINE, LONGEST_TEXT, amount, is_one_line
from lawnbook.yard.pictures import Picture
from lawnbook.yard.places import resource
from lawnbook.yard.records import SINGLES, TABLES, ClimateMonth, Record, WeatherDay

FORMAT = "lawnbook-yard"
VERSION = 1
SCHEMA_NAME = "yard.schema.json"

Schema = dict[str, Any]

_SPELLINGS: Mapping[str, Schema] = {
    "month_day": {"pattern": "^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"},
    "clock": {"pattern": "^([01][0-9]|2[0-3]):[0-5][0-9]-([01][0-9]|2[0-3]):[0-5][0-9]$"},
    "sha256": {"pattern": "^[0-9a-f]{64}$"},
    "time_zone": {"minLength": 1},
}
_DAY: Schema = {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
_CSV_HELP = (
    "The daily weather in place of `weather`: a CSV file's bare name beside this file, or the "
    "table itself, first line `date` and any of the other fields of a day's weather, or their "
    "metric twins such as `tmin_c` and `rain_mm`; or a NOAA daily table of one station. "
    "Dates as 2026-11-16, or all as 11/16/2026 where that leaves no doubt which is the month."
)


def yard_file_schema() -> Schema:
    """The schema as plain values, the same every time."""
    nested: dict[str, Schema] = {}
    tables = {name: _table(name, nested) for name in TABLES}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Yard file",
        "description": "One yard's whole notebook as text. Everything is optional but names, "
        "outlines and dates. A reference is an id or a name that only one record of its table "
        "bears. Lengths are feet and inches, as the fields' names say.",
        "type": "object",
        "properties": {
            "format": {"const": FORMAT, "description": "What this file is."},
            "version": {"const": VERSION, "description": "The version of this format."},
            **tables,
            "weather_csv": {"type": "string", "description": _CSV_HELP},
        },
        "required": ["format", "version", "yard"],
        "not": {"required": ["weather", "weather_csv"]},
        "additionalProperties": False,
        "$defs": nested,
    }


def schema_text() -> str:
    """The schema as the text of its file."""
    return json.dumps(yard_file_schema(), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _table(name: str, nested: dict[str, Schema]) -> Schema:
    kind = TABLES[name]
    record = _record(kind, nested, also={"id": _id(name, kind)})
    if name in SINGLES:
        return record
    about = f"{record.pop('description')} In the owner's order."
    return {"description": about, "type": "array", "items": record}


def _id(table: str, kind: type[Record]) -> Schema:
    if table in SINGLES:
        return {"const": table, "description": "May be left out."}
    if kind is WeatherDay:
        return {**_DAY, "description": "The date again; may be left out."}
    if kind is ClimateMonth:
        about = "The month as two digits; may be left out."
        return {"type": "string", "pattern": "^(0[1-9]|1[0-2])$", "description": about}
    about = "Its own for ever, whatever its name; made up where it is left out."
    return {"type": "string", "minLength": 1, "maxLength": LONGEST_ID, "description": about}


def _record(kind: type, nested: dict[str, Schema], also: Mapping[str, Schema]) -> Schema:
    infos = fields_of(kind)
    properties = {info.name: _field(info, nested) for info in infos}
    schema: Schema = {
        "description": " ".join((kind.__doc__ or "").split("\n\n", maxsplit=1)[0].split()),
        "type": "object",
        "properties": {**also, **properties},
        "additionalProperties": False,
    }
    required = [info.name for info in infos if info.required]
    return {**schema, "required": required} if required else schema


def _field(info: FieldInfo, nested: dict[str, Schema]) -> Schema:
    schema = {"description": _described(info.rule), **_type(info.type, info, nested)}
    if not info.required and info.default not in (None, "") and not isinstance(info.default, tuple):
        default = plain_value(info.default)
        if default != {}:
            schema["default"] = default
    return schema


def _described(rule: Rule) -> str:
    unit = f", {rule.unit}" if rule.unit else ""
    told = f"{rule.label}{unit}. {rule.help}".rstrip()
    if rule.refers_to:
        told += f" Refers to {rule.refers_to}."
    if rule.ask_above is not None:
        told += f" Questioned above {amount(rule.ask_above)}."
    if rule.ask_below is not None:
        told += f" Questioned below {amount(rule.ask_below)}."
    return told


def _type(kind: Any, info: FieldInfo, nested: dict[str, Schema]) -> Schema:
    parts = get_args(kind)
    if NoneType in parts:
        inner = [_type(each, info, nested) for each in parts if each is not NoneType]
        return {"anyOf": [*inner, {"type": "null"}]}
    origin = get_origin(kind)
    if origin is Literal:
        return {"enum": list(parts)}
    if kind == Outline and info.name in {"outline_ft", "holes_ft"}:
        return {"type": "array", "minItems": 3, "items": _type(parts[0], info, nested)}
    if origin is tuple:
        return _list(parts, info, nested)
    if is_number_by_zone(kind):
        return {"type": "object", "additionalProperties": _number("number", info.rule)}
    if is_dataclass(kind) and isinstance(kind, type):
        name = kind.__name__.lower()
        nested[name] = _record(kind, nested, also={})
        return {"$ref": f"#/$defs/{name}"}
    return _scalar(kind, info)


def _list(parts: tuple[Any, ...], info: FieldInfo, nested: dict[str, Schema]) -> Schema:
    if parts[-1] is not Ellipsis:
        items = [_type(part, info, nested) for part in parts]
        count = len(parts)
        return {"type": "array", "prefixItems": items, "items": False, "minItems": count}
    schema = {"type": "array", "items": _type(parts[0], info, nested)}
    count = info.rule.count or 0
    return {**schema, "minItems": count, "maxItems": count} if count else schema


def _scalar(kind: Any, info: FieldInfo) -> Schema:
    if kind is bool:
        return {"type": "boolean"}
    if kind is date:
        return dict(_DAY)
    if kind is str:
        return _text(info)
    if kind is Picture:
        return {"type": "string", "contentEncoding": "base64", "minLength": 1}
    return _number("integer" if kind is int else "number", info.rule)


def _text(info: FieldInfo) -> Schema:
    if info.name == "profile":
        return {"enum": list(PROFILES)}
    if info.rule.kind != "plain":
        return {"type": "string", **_SPELLINGS[info.rule.kind]}
    if info.rule.refers_to:
        return {"type": "string", "minLength": 1}
    if is_one_line(info.rule):
        least = {"minLength": 1} if info.required else {}
        return {"type": "string", **least, "maxLength": LONGEST_LINE}
    return {"type": "string", "maxLength": LONGEST_TEXT}


def _number(type_name: str, rule: Rule) -> Schema:
    schema: Schema = {"type": type_name}
    if rule.low is not None:
        schema["minimum"] = plain_value(rule.low)
    if rule.above is not None:
        schema["exclusiveMinimum"] = plain_value(rule.above)
    if rule.high is not None:
        schema["maximum"] = plain_value(rule.high)
    return schema


if __name__ == "__main__":
    resource(SCHEMA_NAME).write_text(schema_text(), encoding="utf-8")
