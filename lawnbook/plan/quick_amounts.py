"""Amounts in a line: minutes, depths, pounds, bags and money, and figures behind a word of theirs.

Numbers are read as everywhere else (`yard/numbers.py`), so that fractions and metric units work.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from types import MappingProxyType

from lawnbook.plan.quick_model import QuickKind
from lawnbook.plan.quick_text import NUMBER, Line, with_own_point
from lawnbook.plan.quick_tongue import (
    AND_WORDS,
    FIGURE_WORDS,
    IN_WORDS,
    OF_WORDS,
    UNIT_WORDS,
    Of,
    any_of,
    number_of,
    whole,
)
from lawnbook.reading import is_metric, localised, tr
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import parse_inches, parse_number, parse_readings
from lawnbook.yard.problems import OwnerError

_SIGNS = ('"', "″", "”")
"""Of inches, beside the words."""

_BY_KIND: Mapping[QuickKind, Sequence[str]] = MappingProxyType(
    {
        "water": ("cycles",),
        "mow": ("cost",),
        "care": ("cost",),
        "soil": ("ph", "om_pct", "p_ppm", "k_ppm", "depth_in"),
        "plug": ("thatch_in", "root_depth_in", "sponge", "worms", "clock"),
    }
)
"""By kind the figures that have a word of their own."""

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
    for name in _BY_KIND.get(kind, ()):
        pattern = rf"{whole(FIGURE_WORDS[name])}(?:\s*[:=]|\s+{any_of(OF_WORDS)}(?!\w))?"
        several = name == "thatch_in"
        found = line.first(pattern + (_readings() if several else _one()))
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
    for found in line.take(_hours_and_minutes()):
        _add(amounts, "min", found[0], partial(_hours, found[1], found[2]))
    for found in line.take(_amount()):
        of, unit = _unit_of(found[2])
        _add(amounts, of, found[0], partial(_read, found[1], of, unit))


def ends_in_amount(text: str) -> bool:
    """Whether the last word of a text is the unit of a number, and so begins no name."""
    return re.search(rf"{_amount()}\s*$", text, re.IGNORECASE) is not None


def take_bare(line: Line) -> list[str]:
    """Numbers without a unit, taken out of a line as they are written."""
    return [found[0] for found in line.take(NUMBER + r"(?![\w/])")]


def _amount() -> str:
    units = f"{any_of(*UNIT_WORDS.values())}|{'|'.join(_SIGNS)}"
    return rf"({NUMBER})\s*({units})(?!\w)"


def _hours_and_minutes() -> str:
    """Hours and minutes together: "1 h 10 min"."""
    hours, small = (any_of(UNIT_WORDS["min", unit]) for unit in ("h", "min"))
    return rf"({NUMBER})\s*{hours}\s*(?:{any_of(AND_WORDS)}\s+)?({NUMBER}|\d+)\s*{small}(?!\w)"


def _lengths() -> str:
    lengths = any_of(*(words for (of, _), words in UNIT_WORDS.items() if of == "in"))
    return f"{lengths}|[{''.join(_SIGNS)}]"


def _readings() -> str:
    """One or several lengths behind a word of theirs."""
    return rf"((?:(?:[\s,+;&]*)(?:{NUMBER})\s*(?:{_lengths()})?(?![\w/]))+)"


def _one() -> str:
    """One figure behind a word of its own, and its unit."""
    return rf"\s*({NUMBER})\s*({_lengths()}|%|ppm|psi)?(?!\w)"


def _unit_of(written: str) -> tuple[Of, str]:
    """What a unit measures and the sign that is read for it."""
    units = list(UNIT_WORDS)
    return ("in", "in") if written in _SIGNS else units[number_of(written, UNIT_WORDS.values())]


def sign_of(written: str) -> str:
    """The sign that is read for a unit, however it was written: "in" for "pulgadas"."""
    return _unit_of(written)[1]


def _read(number: str, of: Of, unit: str) -> float:
    if of == "bag":
        return _plain(number)
    if of == "in":
        return parse_inches(f"{localised(number)} {unit}", tr("Depth"))
    what = tr("Minutes") if of == "min" else tr("Kilograms") if is_metric() else tr("Pounds")
    return parse_measure(f"{localised(number)} {unit}", what, of)


def _hours(hours: str, rest_minutes: str) -> float:
    return 60 * _plain(hours) + _plain(rest_minutes)


def _plain(number: str) -> float:
    return parse_number(localised(number), tr("The number"))


def _read_worded(amounts: Amounts, name: str, found: re.Match[str]) -> None:
    try:
        if name == "thatch_in":
            typed = _with_signs(found[1].strip(" ,+;&"))
            amounts.readings = parse_readings(with_own_point(typed), tr("Thatch"))
        elif name in LENGTHS:
            typed = f"{found[1]} {_with_signs(found[2] or '')}".strip()
            amounts.by_word[name] = parse_inches(with_own_point(typed), tr("Depth"))
        else:
            amounts.by_word[name] = _plain(found[1])
    except OwnerError as problem:
        amounts.faults.append(str(problem))


def _with_signs(lengths: str) -> str:
    """Lengths with the signs of their units in place of the words."""
    return re.sub(
        rf"(?<=[\d\s]){any_of(*UNIT_WORDS.values())}(?!\w)|^{any_of(*UNIT_WORDS.values())}$",
        lambda found: _unit_of(found[0])[1],
        lengths,
        flags=re.IGNORECASE,
    )


def _take_cycles(line: Line, amounts: Amounts) -> None:
    begun = rf"(?:{whole(IN_WORDS)}\s+)?"
    found = line.first(rf"{begun}({NUMBER})\s*{any_of(FIGURE_WORDS['cycles'])}(?!\w)")
    if found is not None:
        _read_worded(amounts, "cycles", found)


def _like(name: str) -> str:
    told = {
        "cycles": tr("in 3 cycles"), "cost": tr("cost 80"), "ph": tr("ph 6.4"),
        "om_pct": tr("om 3"),
        "p_ppm": tr("p 25"), "k_ppm": tr("k 140"),
        "depth_in": tr("depth 100 mm") if is_metric() else tr("depth 4 in"),
        "thatch_in": tr("thatch 16 19") if is_metric() else tr("thatch 5/8 3/4"),
        "root_depth_in": tr("roots 115") if is_metric() else tr("roots 4.5"),
        "sponge": tr("sponge 2"), "worms": tr("worms 3"), "clock": tr("clock 4"),
    }[name]  # fmt: skip
    return tr("“{words}”", words=with_own_point(told))


def _add(amounts: Amounts, of: Of, typed: str, read: Callable[[], float]) -> None:
    try:
        value = read()
        amounts.by_unit.setdefault(of, []).append(value)
        amounts.typed.setdefault(of, []).append(" ".join(typed.split()))
    except OwnerError as problem:
        amounts.faults.append(str(problem))
