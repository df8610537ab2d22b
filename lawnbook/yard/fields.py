"""How a field is described once, for the form, the command line, the yard file and its schema.

A record's field is annotated `Annotated[type, Rule(...)]`. Everything that reads or checks values
walks these rules: there is no second list of limits anywhere.
"""

import dataclasses
from collections.abc import Mapping
from functools import cache
from typing import Any, Literal, get_args, get_origin, get_type_hints

from lawnbook.frozen import dataclass
from lawnbook.reading import tr

Point = tuple[float, float]
Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """What a field's value must satisfy, and how to speak of it.

    `low` and `high` are inclusive limits that refuse; `above` is an exclusive lower limit.
    Outside `ask_below` to `ask_above` a value is questioned; `slip` names the likely slip and
    `slip_factor` turns the slipped value into this field's unit (25 mm × 1/25.4 is 0.98 in).
    `too_much` ends the sentence about a value above `high` ("is more than any lawn has").
    The limits hold for each number in a list. `refers_to` names the table a reference leads to.
    `count` is the exact number of entries of a list (12 for a table by month).
    `dated` marks the field that says when a record happened.
    """

    label: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    above: float | None = None
    ask_below: float | None = None
    ask_above: float | None = None
    slip: str = ""
    slip_factor: float = 1.0
    too_much: str = ""
    refers_to: str = ""
    count: int | None = None
    dated: bool = False
    kind: Literal["plain", "month_day", "clock", "sha256", "time_zone"] = "plain"
    help: str = ""


@dataclass(frozen=True, slots=True)
class FieldInfo:
    """A field's name, its bare type, its rule and whether it may be left out.

    The rule speaks the reader's language; `written` is the same in English, as files bear it.
    """

    name: str
    type: Any
    rule: Rule
    required: bool
    default: Any
    written: Rule


def fields_of(record_class: type) -> tuple[FieldInfo, ...]:
    """The described fields of a record class, in order; id and rank are left out."""
    return _fields_of(record_class)


@cache
def _fields_of(record_class: Any) -> tuple[FieldInfo, ...]:
    hints = get_type_hints(record_class, include_extras=True)
    infos = []
    for each in dataclasses.fields(record_class):
        bare, rule = _split(hints[each.name])
        if rule is None:
            continue
        required = (
            each.default is dataclasses.MISSING and each.default_factory is dataclasses.MISSING
        )
        infos.append(FieldInfo(each.name, bare, _told(rule), required, _default(each), rule))
    return tuple(infos)


def field_of(record_class: type, name: str) -> FieldInfo:
    """One described field by name; KeyError if there is none."""
    for info in fields_of(record_class):
        if info.name == name:
            return info
    raise KeyError(f"{record_class.__name__} has no field {name}")


def without_none(kind: Any) -> Any:
    """The type inside `T | None`, or the type itself."""
    inner = [each for each in get_args(kind) if each is not type(None)]
    is_union = type(None) in get_args(kind)
    return inner[0] if is_union and len(inner) == 1 else kind


def choices_of(kind: Any) -> tuple[str, ...]:
    """The words a field may hold, empty where it is not a choice."""
    bare = without_none(kind)
    return tuple(get_args(bare)) if get_origin(bare) is Literal else ()


def is_number_by_zone(kind: Any) -> bool:
    """Whether the type is a table from zone to number."""
    return get_origin(kind) is not None and get_origin(kind) is get_origin(Mapping[str, float])


def _told(rule: Rule) -> Rule:
    """A rule in the reader's language; of units the name is looked up where it is shown."""
    return dataclasses.replace(
        rule,
        label=tr(rule.label),
        slip=tr(rule.slip),
        too_much=tr(rule.too_much),
        help=tr(rule.help),
    )


def _default(each: "dataclasses.Field[Any]") -> Any:
    if each.default_factory is not dataclasses.MISSING:
        return each.default_factory()
    return None if each.default is dataclasses.MISSING else each.default


def _split(hint: Any) -> tuple[Any, Rule | None]:
    extras = getattr(hint, "__metadata__", ())
    rule = next((extra for extra in extras if isinstance(extra, Rule)), None)
    return (get_args(hint)[0] if extras else hint), rule
