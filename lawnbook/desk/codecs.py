"""How the text of a field becomes a value and back: by the field's type and unit.

A number without a unit is of the unit that the owner reads; a value is held in the field's own.
"""

import math
import types
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from lawnbook.desk import entry
from lawnbook.reading import Units, is_metric, reading, reading_here
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.fields import FieldInfo
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import parse_feet, parse_inches, parse_readings
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Season

Parse = Callable[[str], Any]
Show = Callable[[Any], str]


def codec_of(info: FieldInfo, bare: Any) -> tuple[Parse, Show]:
    """What reads and what shows a field's text. TypeError for a type that no text holds."""
    rule = info.rule
    if rule.kind == "month_day":
        return entry.parse_month_day, entry.format_month_day
    by_type: Mapping[Any, tuple[Parse, Show]] = {
        str: (str, str),
        int: (lambda text: entry.parse_whole(text, rule.label, rule.unit), str),
        Season: (entry.parse_season, entry.format_season),
        tuple[Season, ...]: (entry.parse_seasons, entry.format_seasons),
        tuple[str, ...]: (_words, ", ".join),
    }
    if bare in by_type:
        return by_type[bare]
    if bare is float:
        parse = partial(parse_amount, what=rule.label, unit=rule.unit)
        return parse, partial(entry.number_shown, unit=rule.unit)
    if bare == tuple[float, ...]:
        read = parse_readings if rule.unit == "in" else entry.parse_list
        return (lambda text: read(text, rule.label)), partial(entry.list_shown, unit=rule.unit)
    raise TypeError(f"no editor for {info.name}: {_type_name(bare)}")


def parse_amount(text: str, what: str, unit: str) -> float:
    """An amount as the owner types it, as a value of the US `unit`. OwnerError with the mend."""
    by_unit: Mapping[str, Callable[[str, str], float]] = {"in": parse_inches, "ft": parse_feet}
    return by_unit.get(unit, partial(parse_measure, unit=unit))(text, what)


def kept_text(text: str, parse: Parse, unit: str, since: Units) -> str:
    """What was typed in the units `since` and is unfinished: it means what it meant before.

    A bare number gets the unit in which it was typed, and loses it again once that is the owner's
    own; whatever else stays as it is.
    """
    typed, own = text.strip(), unit_shown(unit)
    bare = typed.removesuffix(f" {own}")
    if not unit or not typed or since == reading().units:
        return text
    if bare != typed:
        return bare if _same(_read(bare, parse), _read(typed, parse)) else text
    with reading_here(replace(reading(), units=since)):
        meant, other = _read(typed, parse), unit_shown(unit)
    if other == own or meant is None or _same(_read(typed, parse), meant):
        return text
    named = f"{typed} {other}"
    return named if _same(_read(named, parse), meant) else text


def kept_amount(text: str, unit: str) -> str:
    """Like `kept_text`, of a field that holds one amount and is told again once at each change."""
    before: Units = "us" if is_metric() else "metric"
    return kept_text(text, partial(parse_amount, what="", unit=unit), unit, before)


def _read(text: str, parse: Parse) -> Any:
    try:
        return parse(text)
    except OwnerError:
        return None


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-9)
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    return one is not None and one == other


def _type_name(kind: Any) -> str:
    return str(kind) if isinstance(kind, types.GenericAlias) else getattr(kind, "__name__", "?")


def _words(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(",") if part.strip())
