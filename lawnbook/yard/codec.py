"""Records to plain values that JSON can hold, and back, by the rules of their fields alone.

`from_plain` looks at types and names only; whether the values can be true is for `check`.
A `Problem`'s `where` holds the path (``cores[3].thatch_in[1]``), its sentence the mend.
"""

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache, partial
from types import MappingProxyType, NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin

from lawnbook.reading import tr
from lawnbook.yard.fields import FieldInfo, fields_of, is_number_by_zone, without_none
from lawnbook.yard.limits import LARGEST, first_unshowable, unshowable_mend
from lawnbook.yard.notebook import new_id
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import Problem
from lawnbook.yard.records import SINGLES, TABLES, ClimateMonth, Record, WeatherDay

R = TypeVar("R", bound=Record)
_TABLE_OF = {kind: name for name, kind in TABLES.items()}
_EXACT_INTEGERS = 2.0**53
LONGEST_ID = 64
_SHOWN = 40
_KNOWN_BY = ("id", "name")


class _WrongError(Exception):
    """A value of the wrong kind: the path below the field, and the sentence about it."""

    def __init__(self, place: str, sentence: str) -> None:
        super().__init__(sentence)
        self.place = place
        self.sentence = sentence


def to_plain(record: Record) -> dict[str, Any]:
    """A record as text, numbers, lists and dicts; fields at their default and `rank` left out."""
    return {"id": record.id, **_plain_fields(record)}


def from_plain(kind: type[R], data: object, where: str) -> tuple[R | None, tuple[Problem, ...]]:
    """The record that plain values describe, or None and what is wrong with them.

    A missing id is made up: from the date for a day's weather, from the month for a climate
    month, the table's name for a single record, otherwise at random. `where` is the path of the
    record, such as ``cores[3]``.
    """
    table = _TABLE_OF[kind]
    if not isinstance(data, Mapping):
        sentence = tr(
            "This must be a record in braces, {example}, and is {told}.",
            example='{"name": …}',
            told=_called(data),
        )
        return None, (Problem(table, "", "", "refuse", sentence, where),)
    record_id, name = (told if isinstance(told := data.get(key), str) else "" for key in _KNOWN_BY)
    values, wrongs = _read_fields(kind, data, also=("id",))
    if not wrongs:
        try:
            values["id"] = _id_for(kind, table, data, values)
        except _WrongError as wrong:
            wrongs = [("id", wrong)]
    if wrongs:
        name = "" if table in SINGLES else name.strip()
        return None, tuple(
            Problem(table, record_id, field, "refuse", wrong.sentence, where + wrong.place, name)
            for field, wrong in wrongs
        )
    return kind(**values), ()


def settled_id(record: Record) -> str | None:
    """The id a record must have because of what it is; None where its id is free."""
    table = _TABLE_OF[type(record)]
    if table in SINGLES:
        return table
    if isinstance(record, WeatherDay):
        return record.date.isoformat()
    return f"{record.month:02d}" if isinstance(record, ClimateMonth) else None


def value_from_plain(kind: Any, plain: object, label: str) -> Any:
    """The value of a field's type from plain values; ValueError with the sentence if it is not."""
    try:
        return _read(kind, plain, label, "")
    except _WrongError as wrong:
        raise ValueError(wrong.sentence) from wrong


def _plain_fields(record: Any) -> dict[str, Any]:
    plain = {}
    for info in fields_of(type(record)):
        value = getattr(record, info.name)
        if info.required or value != info.default:
            plain[info.name] = plain_value(value)
    return plain


def plain_value(value: Any) -> Any:
    """One value as JSON holds it; a nested record's fields at their default are left out."""
    if isinstance(value, float):
        # Whole numbers are written without ".0", as a person would; reading makes them floats.
        whole = value.is_integer() and abs(value) < _EXACT_INTEGERS
        return int(value) if whole else value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Picture):
        return value.base64()
    if isinstance(value, tuple):
        return [plain_value(each) for each in value]
    if isinstance(value, Mapping):
        return {key: plain_value(each) for key, each in value.items()}
    return _plain_fields(value) if is_dataclass(value) else value


def _id_for(
    kind: type[Record], table: str, data: Mapping[str, Any], values: Mapping[str, Any]
) -> str:
    settled = settled_id(kind(id="", **values))
    if data.get("id") is None:
        return settled if settled is not None else new_id()
    given = data["id"]
    if not isinstance(given, str):
        raise _WrongError(".id", tr("The id must be text, and is {given}.", given=_called(given)))
    _must_be_clean(given, tr("The id"), ".id")
    if not 0 < len(given) <= LONGEST_ID:
        sentence = tr("The id must have 1 to {most} letters; shorten it.", most=LONGEST_ID)
        raise _WrongError(".id", sentence)
    if settled is not None and given != settled:
        sentence = tr(
            'The id of a record of {table} must be "{settled}", and is "{given}"; leave it out.',
            table=table,
            settled=settled,
            given=given,
        )
        raise _WrongError(".id", sentence)
    return given


def _read_fields(
    kind: type, data: Mapping[Any, Any], also: Sequence[str] = ()
) -> tuple[dict[str, Any], list[tuple[str, _WrongError]]]:
    infos = fields_of(kind)
    values: dict[str, Any] = {}
    known = [*(info.name for info in infos), *also]
    wrongs = [(str(name), _unknown(str(name), known)) for name in data if name not in known]
    for info in infos:
        try:
            _read_field(info, data, values)
        except _WrongError as wrong:
            wrongs.append((info.name, wrong))
    return values, wrongs


def _read_field(info: FieldInfo, data: Mapping[Any, Any], values: dict[str, Any]) -> None:
    place = f".{info.name}"
    if info.name not in data:
        if info.required:
            label = info.rule.label
            sentence = tr(
                '{label} is missing: add "{name}" to this record.', label=label, name=info.name
            )
            raise _WrongError(place, sentence)
        return
    values[info.name] = _read(info.type, data[info.name], info.rule.label, place)


def _unknown(name: str, known: Sequence[str]) -> _WrongError:
    import difflib

    near = difflib.get_close_matches(name[:_SHOWN], known, n=1)
    shown = name[:_SHOWN]
    sentence = (
        tr('There is no field "{name}" here; did you mean "{near}"?', name=shown, near=near[0])
        if near
        else tr(
            'There is no field "{name}" here; known are {known}.',
            name=shown,
            known=", ".join(known),
        )
    )
    return _WrongError(f".{shown}", sentence)


def _read(kind: Any, value: Any, label: str, place: str) -> Any:
    return _reader(kind)(value, label, place)


@cache
def _reader(kind: Any) -> Callable[[Any, str, str], Any]:
    """What reads a type, found once: looking at a type costs more than reading a value."""
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        return partial(_read_union, kind)
    if origin is Literal:
        return partial(_read_choice, get_args(kind))
    if origin is tuple:
        return partial(_read_list, get_args(kind))
    if is_number_by_zone(kind):
        return _read_by_zone
    if is_dataclass(kind) and isinstance(kind, type):
        return partial(_read_nested, kind)
    scalar: Callable[[Any, str, str], Any] = _SCALARS[kind]
    return scalar


def _read_union(kind: Any, value: Any, label: str, place: str) -> Any:
    parts = get_args(kind)
    if value is None and NoneType in parts:
        return None
    inner = [each for each in parts if each is not NoneType]
    if len(inner) == 1:
        return _read(without_none(kind), value, label, place)
    # The only union of two: a word, or a table of numbers.
    return _read(inner[0] if isinstance(value, str) else inner[1], value, label, place)


def _read_choice(choices: tuple[str, ...], value: Any, label: str, place: str) -> str:
    if value in choices and isinstance(value, str):
        return value
    told = f'"{value[:_SHOWN]}"' if isinstance(value, str) else _called(value)
    import difflib

    near = difflib.get_close_matches(str(value)[:_SHOWN], choices, n=1)
    hint = tr('; did you mean "{near}"?', near=near[0]) if near else "."
    sentence = tr(
        "{label} must be one of {choices}, and is {told}{hint}",
        label=label,
        choices=", ".join(choices),
        told=told,
        hint=hint,
    )
    raise _WrongError(place, sentence)


def _read_list(parts: tuple[Any, ...], value: Any, label: str, place: str) -> tuple[Any, ...]:
    if not isinstance(value, list | tuple):
        raise _wrong(place, tr("{label} must be a list in brackets, and is {told}."), label, value)
    if parts[-1] is Ellipsis:
        return tuple(_read(parts[0], each, label, f"{place}[{i}]") for i, each in enumerate(value))
    if len(value) != len(parts):
        sentence = tr(
            "{label} must have {wanted} entries here, and has {count}.",
            label=label,
            wanted=len(parts),
            count=f"{len(value)} {tr('entry' if len(value) == 1 else 'entries')}",
        )
        raise _WrongError(place, sentence)
    return tuple(
        _read(part, each, label, f"{place}[{i}]")
        for i, (part, each) in enumerate(zip(parts, value, strict=True))
    )


def _read_by_zone(value: Any, label: str, place: str) -> Mapping[str, float]:
    if not isinstance(value, Mapping):
        sentence = tr(
            "{label} must be given by zone, {example}, and is {told}.",
            label=label,
            example='{"zone": 5}',
            told=_called(value),
        )
        raise _WrongError(place, sentence)
    return MappingProxyType(
        {
            _text(zone, label, place): _number(
                each, tr("{label} of {zone}", label=label, zone=zone), f"{place}.{zone}"
            )
            for zone, each in value.items()
        }
    )


def _read_nested(kind: type, value: Any, label: str, place: str) -> Any:
    if not isinstance(value, Mapping):
        names = ", ".join(each.name for each in fields(kind))
        sentence = tr(
            "{label} must be a record in braces with {names}, and is {told}.",
            label=label,
            names=names,
            told=_called(value),
        )
        raise _WrongError(place, sentence)
    values, wrongs = _read_fields(kind, value)
    if wrongs:
        wrong = wrongs[0][1]
        raise _WrongError(place + wrong.place, f"{label}: {wrong.sentence}")
    return kind(**values)


def _text(value: Any, label: str, place: str) -> str:
    if not isinstance(value, str):
        raise _wrong(place, tr("{label} must be text in quotes, and is {told}."), label, value)
    _must_be_clean(value, label, place)
    return value


def _must_be_clean(value: str, label: str, place: str) -> None:
    if unshowable := first_unshowable(value):
        raise _WrongError(place, f"{label} {unshowable_mend(unshowable)}")


def _number(value: Any, label: str, place: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _wrong(place, tr("{label} must be a number, and is {told}."), label, value)
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        sentence = tr(
            "{label} must be a finite number; enter the figure or leave the field out.", label=label
        )
        raise _WrongError(place, sentence)
    if abs(number) > LARGEST:
        sentence = tr(
            "{label} of {number} is beyond all that a yard has; enter the figure again.",
            label=label,
            number=f"{number:.3g}",
        )
        raise _WrongError(place, sentence)
    return number


def _picture(value: Any, label: str, place: str) -> Picture:
    picture = Picture.from_base64(value) if isinstance(value, str) else None
    if picture is None:
        sentence = tr("{label} is not whole base64; add the photograph again.", label=label)
        raise _WrongError(place, sentence)
    return picture


def _integer(value: Any, label: str, place: str) -> int:
    number = _number(value, label, place)
    if not number.is_integer() or abs(number) >= _EXACT_INTEGERS:
        sentence = tr(
            "{label} must be a whole number, and is {number}.", label=label, number=f"{value:.6g}"
        )
        raise _WrongError(place, sentence)
    return int(number)


def _flag(value: Any, label: str, place: str) -> bool:
    if not isinstance(value, bool):
        raise _wrong(place, tr("{label} must be true or false, and is {told}."), label, value)
    return value


def _day(value: Any, label: str, place: str) -> date:
    told = value if isinstance(value, str) else ""
    try:
        # Only the long form: "20260615" and week dates are too easily something else.
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", told):
            return date.fromisoformat(told)
        shown = f'"{value[:_SHOWN]}"' if isinstance(value, str) else _called(value)
    except ValueError:
        shown = tr('"{day}", which no calendar has', day=told)
    sentence = tr(
        "{label} must be a date such as 2026-06-15, year, month and day, and is {told}.",
        label=label,
        told=shown,
    )
    raise _WrongError(place, sentence)


_SCALARS: Mapping[Any, Any] = MappingProxyType(
    {str: _text, float: _number, int: _integer, bool: _flag, date: _day, Picture: _picture}
)


def _wrong(place: str, sentence: str, label: str, value: Any) -> _WrongError:
    """The error of a value of another kind than its field; `sentence` is told, its places open."""
    return _WrongError(place, sentence.format(label=label, told=_called(value)))


def _called(value: Any) -> str:
    """What a JSON value is, in words."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return tr('the text "{text}"', text=value[:_SHOWN])
    if isinstance(value, int | float):
        return tr("a number")
    return tr("a list") if isinstance(value, list | tuple) else tr("a record in braces")
