"""Amounts in a line: minutes, depths, pounds, bags and money, and figures behind a word of theirs.

Numbers are read as everywhere else (`yard/numbers.py`), so that fractions and metric units work.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial
from types import MappingProxyType
from typing import Literal

from lawnbook.plan.quick_model import QuickKind
from lawnbook.plan.quick_text import NUMBER, Line
from lawnbook.reading import is_metric, localised, reading, tr
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import parse_inches, parse_number, parse_readings
from lawnbook.yard.problems import OwnerError

Of = Literal["min", "in", "lb", "bag"]
_UNITS: Mapping[str, tuple[Of, str]] = MappingProxyType(
    {
        **dict.fromkeys(("min", "mins", "minute", "minutes"), ("min", "min")),
        **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), ("min", "h")),
        **dict.fromkeys(("in", "inch", "inches", '"', "″", "”"), ("in", "in")),
        **dict.fromkeys(("mm", "cm"), ("in", "")),
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), ("lb", "lb")),
        **dict.fromkeys(("kg", "g", "oz"), ("lb", "")),
        **dict.fromkeys(("bag", "bags"), ("bag", "bag")),
    }
)
_UNIT = "|".join(sorted(map(re.escape, _UNITS), key=len, reverse=True))
_AMOUNT = rf"({NUMBER})\s*({_UNIT})(?!\w)"
_HOURS = (
    rf"({NUMBER})\s*(?:h|hrs?|hours?)\s*(?:and\s+)?({NUMBER}|\d+)\s*(?:min|mins|minutes?)(?!\w)"
)
_READINGS = rf"((?:(?:[\s,+;&]*)(?:{NUMBER})\s*(?:mm|cm|inches|inch|in|[\"″”])?(?![\w/]))+)"
_ONE = rf"\s*({NUMBER})\s*(mm|cm|inches|inch|in|[\"″”%]|ppm|psi)?(?!\w)"

_WORDS: Mapping[QuickKind, Mapping[str, str]] = MappingProxyType(
    {
        "water": {"cycles": r"(?:cycles?)"},
        "mow": {"cost": "cost"},
        "care": {"cost": "cost"},
        "soil": {
            "ph": "ph",
            "om_pct": r"(?:organic\s+matter|om)",
            "p_ppm": r"(?:phosphorus|p)",
            "k_ppm": r"(?:potassium|k)",
            "depth_in": r"(?:sampled\s+to|depth)",
        },
        "plug": {
            "thatch_in": "thatch",
            "root_depth_in": "roots?",
            "sponge": "sponge",
            "worms": "worms?",
            "clock": r"(?:clock)",
        },
    }
)
"""By kind the figures that have a word of their own: the field, and how the word is written."""

LENGTHS = frozenset({"depth_in", "root_depth_in"})


@dataclass(slots=True)
class Amounts:
    """What a line says in numbers, by what it is of, and what is amiss with it.

    `typed` has what `by_unit` has, as it stood in the line.
    """

    by_unit: dict[Of, list[float]] = field(default_factory=dict)
    typed: dict[Of, list[str]] = field(default_factory=dict)
    by_word: dict[str, float] = field(default_factory=dict)
    readings: tuple[float, ...] = ()
    faults: list[str] = field(default_factory=list)


def take_worded(line: Line, kind: QuickKind) -> Amounts:
    """The figures that stand behind a word of theirs, taken out of a line."""
    amounts = Amounts()
    if kind == "water":
        _take_cycles(line, amounts)
    for name, word in _WORDS.get(kind, {}).items():
        pattern = rf"(?<!\w){word}(?!\w)\s*[:=]?"
        several = name == "thatch_in"
        found = line.first(pattern + (_READINGS if several else _ONE))
        if found is not None:
            _read_worded(amounts, name, found)
        again = line.take(pattern)
        for each in again:
            told = each[0].strip(" :=")
            twice = name in amounts.by_word or (several and bool(amounts.readings))
            amounts.faults.append(
                tr("“{written}”: say it once.", written=told)
                if twice
                else tr(
                    "“{written}”: put its figure behind it, such as {example}.",
                    written=told,
                    example=_like(name),
                )
            )
    return amounts


def take_amounts(line: Line, amounts: Amounts) -> None:
    """The amounts that have a unit, taken out of a line."""
    for found in line.take(_HOURS):
        _add(amounts, "min", found[0], partial(_hours, found[1], found[2]))
    for found in line.take(_AMOUNT):
        of, unit = _UNITS[found[2].lower()]
        _add(amounts, of, found[0], partial(_read, found[1], found[2], of, unit))


def ends_in_amount(text: str) -> bool:
    """Whether the last word of a text is the unit of a number, and so begins no name."""
    return re.search(rf"{_AMOUNT}\s*$", text, re.IGNORECASE) is not None


def take_bare(line: Line) -> list[str]:
    """Numbers without a unit, taken out of a line as they are written."""
    return [found[0] for found in line.take(NUMBER + r"(?![\w/])")]


def _read(number: str, written: str, of: Of, unit: str) -> float:
    if of == "bag":
        return _plain(number)
    if of == "in":
        return parse_inches(f"{localised(number)} {unit or written.lower()}", tr("Depth"))
    what = tr("Minutes") if of == "min" else tr("Kilograms") if is_metric() else tr("Pounds")
    return parse_measure(f"{localised(number)} {unit or written.lower()}", what, of)


def _hours(hours: str, rest_minutes: str) -> float:
    return 60 * _plain(hours) + _plain(rest_minutes)


def _plain(number: str) -> float:
    return parse_number(localised(number), tr("The number"))


def _read_worded(amounts: Amounts, name: str, found: re.Match[str]) -> None:
    try:
        if name == "thatch_in":
            amounts.readings = parse_readings(_localised(found[1].strip(" ,+;&")), tr("Thatch"))
        elif name in LENGTHS:
            amounts.by_word[name] = parse_inches(
                _localised(f"{found[1]} {found[2] or ''}".strip()), tr("Depth")
            )
        else:
            amounts.by_word[name] = _plain(found[1])
    except OwnerError as problem:
        amounts.faults.append(str(problem))


def _localised(readings: str) -> str:
    """Readings as they were typed: their decimals with the reader's sign again."""
    return re.sub(r"(?<=\d)\.(?=\d)|(?<!\S)\.(?=\d)", reading().point, readings)


def _take_cycles(line: Line, amounts: Amounts) -> None:
    found = line.first(rf"(?:(?<!\w)in\s+)?({NUMBER})\s*cycles?(?!\w)")
    if found is not None:
        _read_worded(amounts, "cycles", found)


def _like(name: str) -> str:
    return {
        "cycles": "“in 3 cycles”", "cost": "“cost 80”", "ph": "“ph 6.4”", "om_pct": "“om 3”",
        "p_ppm": "“p 25”", "k_ppm": "“k 140”",
        "depth_in": "“depth 100 mm”" if is_metric() else "“depth 4 in”",
        "thatch_in": "“thatch 16 19”" if is_metric() else "“thatch 5/8 3/4”",
        "root_depth_in": "“roots 115”" if is_metric() else "“roots 4.5”", "sponge": "“sponge 2”",
        "worms": "“worms 3”", "clock": "“clock 4”",
    }[name]  # fmt: skip


def _add(amounts: Amounts, of: Of, typed: str, read: Callable[[], float]) -> None:
    try:
        amounts.by_unit.setdefault(of, []).append(read())
        amounts.typed.setdefault(of, []).append(" ".join(typed.split()))
    except OwnerError as problem:
        amounts.faults.append(str(problem))
