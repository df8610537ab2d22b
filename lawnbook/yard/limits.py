"""What a field's own rule says of its value: limits that refuse or question, and spellings."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import is_dataclass, replace
from datetime import date
from typing import Any, Literal

from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, localised, tr
from lawnbook.yard import numbers
from lawnbook.yard.amounts import shown, stored, unit_shown
from lawnbook.yard.fields import FieldInfo, Rule, choices_of, fields_of
from lawnbook.yard.numbers import whole
from lawnbook.yard.pictures import Picture
from lawnbook.yard.spellings import SHOWN_LETTERS, misspelling

EARLIEST = date(1800, 1, 1)
LATEST = date(2199, 12, 31)
LARGEST = 1e9
"""No field of a yard takes more, above zero or below; sums and products of it stay finite."""
LONGEST_LINE = 200
LONGEST_TEXT = 20_000
_SHORT_NUMBER, _LONG_NUMBER = 0.0005, 1e9
_UNSHOWABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")

Severity = Literal["refuse", "ask"]


@dataclass(frozen=True, slots=True)
class Complaint:
    """A sentence about a field; `place` is its path inside the record ("thatch_in[1]")."""

    field: str
    place: str
    severity: Severity
    sentence: str


def refuse(field: str, sentence: str, place: str = "") -> Complaint:
    """A complaint that cannot be kept."""
    return Complaint(field, place or field, "refuse", sentence)


def ask(field: str, sentence: str, place: str = "") -> Complaint:
    """A complaint that the owner may confirm."""
    return Complaint(field, place or field, "ask", sentence)


def field_complaints(record: Any, today: date) -> Iterator[Complaint]:
    """What each field's rule says of its value, nested records included."""
    for info in fields_of(type(record)):
        held = getattr(record, info.name)
        if (held is info.default and not info.required) or _is_plainly_right(info, held, today):
            continue
        for place, value, within in _leaves(info, held, info.name):
            for severity, sentence in _about(within, value, today):
                yield Complaint(info.name, place, severity, sentence)


def _is_plainly_right(info: FieldInfo, held: Any, today: date) -> bool:
    """Whether a single number or day is within all limits, as nearly all of a yard's are."""
    kind = type(held)
    if kind is float or kind is int:
        return math.isfinite(held) and _is_usual(info.rule, held)
    if kind is date:
        day: date = held
        return EARLIEST <= day <= (today if info.rule.dated else LATEST)
    return False


def amount(value: float, unit: str = "", places: int = 3) -> str:
    """A value with its unit as it is read: "25 in", "95°", "3 %"; "635 mm" to a metric reader.

    At most `places` decimals are told of the US unit.
    """
    usual = value == 0 or _SHORT_NUMBER <= abs(value) < _LONG_NUMBER
    told = numbers.plain(value, places, unit) if usual else localised(f"{shown(value, unit):.3g}")
    name = unit_shown(unit) if unit else ""
    return told + name if unit.startswith("°") else f"{told} {name}".rstrip()


def _leaves(info: FieldInfo, value: Any, place: str) -> Iterator[tuple[str, Any, FieldInfo]]:
    """The single values of a field with their paths; a list itself comes first, for its count."""
    if is_dataclass(value) and not isinstance(value, type):
        for inner in fields_of(type(value)):
            yield from _leaves(inner, getattr(value, inner.name), f"{place}.{inner.name}")
    elif isinstance(value, tuple):
        yield place, value, info
        for i, each in enumerate(value):
            yield from _leaves(_entry(info, i), each, f"{place}[{i}]")
    elif isinstance(value, Mapping):
        for key, each in value.items():
            yield from _leaves(info, each, f"{place}.{key}")
    else:
        yield place, value, info


def _entry(info: FieldInfo, i: int) -> FieldInfo:
    """One entry of a list: in a table by month it is called by its month."""
    if info.rule.count != len(numbers.MONTHS) or i >= len(numbers.MONTHS):
        return info
    label = f"{info.rule.label}, {tr(numbers.MONTHS[i])},"
    return replace(info, rule=replace(info.rule, label=label))


def _about(info: FieldInfo, value: Any, today: date) -> Iterator[tuple[Severity, str]]:
    rule = info.rule
    if isinstance(value, tuple):
        if rule.count is not None and len(value) != rule.count:
            mend = tr("enter one figure for each of the {count}", count=rule.count)
            yield (
                "refuse",
                tr(
                    "{label} has {count} entries; {mend}.",
                    label=rule.label,
                    count=len(value),
                    mend=mend,
                ),
            )
    elif isinstance(value, str):
        yield from _about_text(info, value)
    elif isinstance(value, date):
        yield from _about_date(rule, value, today)
    elif isinstance(value, bool | Picture) or value is None:
        if value is None and info.required and _needs_value(info):
            yield "refuse", tr("{label} is missing; enter it.", label=rule.label)
    else:
        yield from _about_number(rule, value)


def _needs_value(info: FieldInfo) -> bool:
    return type(None) not in getattr(info.type, "__args__", ())


def _about_number(rule: Rule, value: float) -> Iterator[tuple[Severity, str]]:
    if not math.isfinite(value):
        yield (
            "refuse",
            tr("{label} must be a finite number; enter the figure again.", label=rule.label),
        )
        return
    if _is_usual(rule, value):
        return
    told = tr("{label} of {amount}", label=_label(rule), amount=amount(value, rule.unit))
    if rule.above is not None and value <= rule.above:
        yield (
            "refuse",
            tr(
                "{told} is too little; enter more than {amount}.",
                told=told,
                amount=amount(_round_limit(rule.above, rule.unit, up=True), rule.unit),
            ),
        )
    elif rule.low is not None and value < rule.low:
        mend = _slip_below(rule, value) or tr(
            "enter {amount} or more",
            amount=amount(_round_limit(rule.low, rule.unit, up=True), rule.unit),
        )
        yield "refuse", tr("{told} is too little; {mend}.", told=told, mend=mend)
    elif rule.high is not None and value > rule.high:
        least = rule.low if rule.low is not None else rule.above
        span = tr(
            "{least} to {amount}",
            least=numbers.plain(_round_limit(least or 0, rule.unit, up=True), 3, rule.unit),
            amount=amount(_round_limit(rule.high, rule.unit, up=False), rule.unit),
        )
        mend = _slip(rule, value) or tr("enter {span}", span=span)
        yield "refuse", f"{told} {_too_much(rule)}; {mend}."
    elif rule.ask_above is not None and value > rule.ask_above:
        mend = _slip(rule, value) or tr("look at it again")
        yield (
            "ask",
            tr("{told} is unusually high; {mend}, or keep it all the same.", told=told, mend=mend),
        )
    elif rule.ask_below is not None and value < rule.ask_below:
        mend = _slip_below(rule, value) or tr("look at it again")
        yield (
            "ask",
            tr("{told} is unusually low; {mend}, or keep it all the same.", told=told, mend=mend),
        )


def _round_limit(limit: float, unit: str, *, up: bool) -> float:
    """A limit as it is told, in the rule's unit: to a metric reader a round figure within it."""
    read = shown(limit, unit)
    if read == limit or not math.isfinite(read):
        return limit
    step = 1 if abs(read) >= 10 else 10 if abs(read) >= 1 else 1000
    # What the change of units adds in the last digit is no part of the limit.
    steps = round(read * step, 6)
    return stored((math.ceil(steps) if up else math.floor(steps)) / step, unit)


def _label(rule: Rule) -> str:
    """A field's label; one that is a US unit itself is another to a metric reader."""
    return tr("Weight") if rule.label == tr("Pounds") and is_metric() else rule.label


def _is_usual(rule: Rule, value: float) -> bool:
    """Whether a number is within all limits: nearly always, and so decided first."""
    return (
        (rule.above is None or value > rule.above)
        and (rule.low is None or value >= rule.low)
        and (rule.high is None or value <= rule.high)
        and (rule.ask_above is None or value <= rule.ask_above)
        and (rule.ask_below is None or value >= rule.ask_below)
    )


def _too_much(rule: Rule) -> str:
    return rule.too_much or tr("is more than it can be")


def _slip(rule: Rule, value: float) -> str:
    """The mend where the value makes sense in the unit it is likely to have slipped in from."""
    if not rule.slip:
        return ""
    mended = value * rule.slip_factor
    top = rule.high if rule.ask_above is None else rule.ask_above
    if top is not None and mended > top:
        return ""
    return tr(
        "if it was {amount} {slip}, enter {mended}",
        amount=amount(value),
        slip=rule.slip,
        mended=numbers.plain(mended, 2, rule.unit),
    )


def _slip_below(rule: Rule, value: float) -> str:
    """The same for a value that is too small: its mend must not be too small as well."""
    least = rule.low if rule.ask_below is None else rule.ask_below
    if least is None:
        return ""
    return (
        _slip_back(rule, value, least) if value * rule.slip_factor < least else _slip(rule, value)
    )


def _slip_back(rule: Rule, value: float, least: float) -> str:
    """The mend where a reader of metric units may have typed the number in the US one."""
    top = rule.high if rule.ask_above is None else rule.ask_above
    meant = shown(value, rule.unit)
    if not is_metric() or meant == value or not least <= meant <= (LARGEST if top is None else top):
        return ""
    said = f"{numbers.plain(meant, 3)} {rule.unit}"
    return tr(
        "if it was {said}, enter {meant}", said=said, meant=numbers.plain(meant, 2, rule.unit)
    )


def _about_date(rule: Rule, value: date, today: date) -> Iterator[tuple[Severity, str]]:
    if value > today and rule.dated:
        mend = tr("enter the day it happened, {today} or before", today=numbers.day(today))
        yield (
            "refuse",
            tr(
                "{label}: {value} is in the future; {mend}.",
                label=rule.label,
                value=numbers.day(value),
                mend=mend,
            ),
        )
    elif value < EARLIEST:
        yield (
            "refuse",
            tr(
                "{label}: {value} is too long ago; check the year.",
                label=rule.label,
                value=numbers.day(value),
            ),
        )


def _about_text(info: FieldInfo, value: str) -> Iterator[tuple[Severity, str]]:
    rule = info.rule
    choices = choices_of(info.type) or _inner_choices(info.type)
    if choices:
        if value not in choices:
            yield (
                "refuse",
                tr(
                    '{label} "{value}" is not known; choose {either}.',
                    label=rule.label,
                    value=value[:SHOWN_LETTERS],
                    either=_either(choices),
                ),
            )
        return
    if rule.kind != "plain":
        if fault := misspelling(rule, value):
            yield "refuse", fault
        return
    if rule.refers_to:
        return
    if unshowable := first_unshowable(value):
        yield "refuse", f"{rule.label} {unshowable_mend(unshowable)}"
    elif is_one_line(rule):
        if info.required and not value.strip():
            yield "refuse", tr("{label} is empty; enter one.", label=rule.label)
        if len(value) > LONGEST_LINE or len(value.splitlines()) > 1:
            yield (
                "refuse",
                tr(
                    "{label} must be one line of at most {longest_line} letters.",
                    label=rule.label,
                    longest_line=LONGEST_LINE,
                ),
            )
    elif len(value) > LONGEST_TEXT:
        yield (
            "refuse",
            tr(
                "{label} is longer than {whole} letters; shorten it.",
                label=rule.label,
                whole=whole(LONGEST_TEXT),
            ),
        )


def first_unshowable(text: str) -> str:
    """The first character of a text that no file or page can hold, or nothing.

    Control characters but the line break and tab, and halves of surrogate pairs.
    """
    found = _UNSHOWABLE.search(text)
    return found[0] if found is not None else ""


def unshowable_mend(sign: str) -> str:
    """The end of the sentence about such a character."""
    return tr("holds a character that cannot be shown (code {ord}); take it out.", ord=ord(sign))


def is_one_line(rule: Rule) -> bool:
    """Whether a text field is a single line, as names are."""
    return rule.label in {"Name", "Kind", tr("Name"), tr("Kind")}


def _inner_choices(kind: Any) -> tuple[str, ...]:
    """The words a list of choices may hold."""
    return next(
        (found for each in getattr(kind, "__args__", ()) if (found := choices_of(each))), ()
    )


def _either(choices: tuple[str, ...]) -> str:
    return tr("{choices} or {last}", choices=", ".join(choices[:-1]), last=choices[-1])
