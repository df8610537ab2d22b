"""Numbers as people write them: parsed from fractions, marks and millimetres, and written back.

A length typed without a unit is of the unit that the owner reads, inches and feet or millimetres
and metres; a unit that is typed, a mark or a fraction (of an inch, as rulers have them) says its
own. Decimals and thousands are parted by the reader's signs. What is given back is in US units.

Every parser raises `OwnerError` with a sentence that shows how to write it.
"""

import math
import re
from collections.abc import Sequence
from datetime import date

from lawnbook.reading import is_metric, localised, reading, tr
from lawnbook.yard.amounts import told, trimmed_bare
from lawnbook.yard.problems import OwnerError

INCHES_BY_UNIT = {"": 1.0, "in": 1.0, "mm": 1 / 25.4, "cm": 1 / 2.54, "ft": 12.0, "m": 1 / 0.0254}
LEAST_BEFORE_METRIC = 3
"""A smaller number before "22 mm" may be inches: 1 in of thatch is more likely than 1 mm."""

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

_UNIT_NAMES = {
    '"': "in", "″": "in", "”": "in", "in": "in", "in.": "in", "inch": "in", "inches": "in",
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "m": "m", "'": "ft", "′": "ft", "’": "ft", "ft": "ft", "ft.": "ft",
    "foot": "ft", "feet": "ft",
}  # fmt: skip
_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10", "⅓": "1/3",
    "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_NUMBER = r"(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|(?!0)\d{1,3}(?:,\d{3})+(?:\.\d*)?|\d+\.?\d*|\.\d+)"
_MIXED = re.compile(r"(?<![\d/.,])(\d+)-\s*(?=\d+\s*/\s*\d)")
"""A whole number and a fraction as a ruler's user may join them: "1-1/4"."""
_LENGTH = re.compile(rf"\s*(?P<number>[-−+]?{_NUMBER})\s*(?P<unit>[a-z]+\.?|[\"'″”′’])?\s*")
_READING = re.compile(
    r"\s*(?P<number>[-−+]?(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+\.?\d*|\.\d+))"
    r"(?:\s*(?P<unit>[a-z]+\.?|[\"″”]))?(?:\s*[,;+&]\s*|\s+|$|(?<=[\"″”]))"
)
_METRIC = frozenset({"mm", "cm", "m"})
_PLAIN = re.compile(rf"[-−+]?{_NUMBER}(?:[eE][-+]?\d+)?")


def parse_number(text: str, what: str = "This") -> float:
    """A plain number: "12", "1,250.5", "3/4", "1 1/2", "½"; "1.250,5" where a comma is read so."""
    told = _tidy(text)
    if not told:
        raise OwnerError(
            tr(
                "{what} is empty: enter a number, such as {example}.",
                what=what,
                example=localised("12.5"),
            )
        )
    signed = _american(told)
    if signed is None or not _PLAIN.fullmatch(signed):
        raise OwnerError(
            tr(
                '{what} "{text}" is not a number{hint}.',
                what=what,
                text=text.strip(),
                hint=_sign_hint(told),
            )
        )
    return _number(signed, what)


def parse_inches(text: str, what: str = "Inches") -> float:
    """A length in inches: "7/8", "1 1/4", "0.9", '3/4"', "22 mm"; "22" to who reads millimetres."""
    example = _length_example()
    signed = _american(_tidy(text).lower())
    match = None if signed is None else _LENGTH.fullmatch(signed)
    if match is None:
        raise _no_length(what, text, example)
    unit = _unit(match["unit"], what, example) or _bare_unit(match["number"], "mm")
    return _number(match["number"], what) * INCHES_BY_UNIT[unit]


def _length_example() -> str:
    if is_metric():
        return tr(
            "enter millimetres, such as {example}, or inches, such as 7/8 in",
            example=localised("22.5"),
        )
    return tr(
        'enter inches, such as 7/8, 1 1/4 or {example}, or millimetres, such as "22 mm"',
        example=localised("0.9"),
    )


def _no_length(what: str, text: str, example: str) -> OwnerError:
    words = tr(
        '{what} "{text}" is not a length: {example}.', what=what, text=text.strip(), example=example
    )
    return OwnerError(words)


def _bare_unit(written: str, metric: str) -> str:
    """The unit of a length typed without one: the metric one that is read, if it is no fraction."""
    return metric if is_metric() and "/" not in written else ""


def parse_readings(text: str, what: str = "Readings") -> tuple[float, ...]:
    """Readings in inches: "5/8 11/16 3/4", "0.6, 0.7", "16 18 17 mm".

    A whole number followed by a fraction is one reading ("1 1/4"). A unit written once, after the
    last reading, is for all of them; otherwise each reading without one is in the unit that the
    owner reads, a fraction in inches. A metric unit goes back over whole numbers of
    `LEAST_BEFORE_METRIC` or more only, and never belongs to a fraction: anything else may be
    inches, so it is refused.
    """
    example = tr("enter inches such as 5/8 11/16 3/4, or 16 18 17 mm")
    told = _readings_american(_tidy(text).lower(), what)
    written: list[str] = []
    numbers: list[float] = []
    units: list[str] = []
    at = 0
    while at < len(told):
        match = _READING.match(told, at)
        if match is None:
            raise OwnerError(
                tr(
                    '{what}: "{text}" is not a reading; {example}.',
                    what=what,
                    text=_as_typed(told[at:].strip()),
                    example=example,
                )
            )
        written.append(match["number"])
        numbers.append(_number(match["number"], what))
        units.append(_unit(match["unit"], what, example))
        at = match.end()
    if units and not any(units[:-1]):
        units = _given_back(written, units[-1], what)
    if any("/" in each and unit in _METRIC for each, unit in zip(written, units, strict=True)):
        raise _say_units(what)
    return tuple(n * INCHES_BY_UNIT[u] for n, u in zip(numbers, units, strict=True))


def _given_back(written: Sequence[str], last: str, what: str) -> list[str]:
    """The units of readings of which the last alone may have one."""
    if last == "" and is_metric():
        in_inches = ["/" in each for each in written]
        if any(in_inches) and not all(in_inches):
            raise _say_units(what)
        last = "" if any(in_inches) else "mm"
    elif last in _METRIC and not all(_may_be_metric(each) for each in written[:-1]):
        raise _say_units(what)
    return [last] * len(written)


def _say_units(what: str) -> OwnerError:
    return OwnerError(
        tr(
            "{what}: say the unit of each reading, such as 7/8 in 22 mm; a fraction is of an inch.",
            what=what,
        )
    )


def _may_be_metric(written: str) -> bool:
    """Whether a number without a unit may stand before a metric one without being inches."""
    if is_metric():
        return "/" not in written
    return written.isdecimal() and int(written) >= LEAST_BEFORE_METRIC


def _readings_american(told: str, what: str) -> str:
    """Readings with decimal points: a comma between two digits is one where it is read so."""
    if reading().point == ",":
        if re.search(r"\d\.\d", told):
            raise OwnerError(
                tr(
                    "{what}: write decimals with a comma, such as {example}.",
                    what=what,
                    example="0,75",
                )
            )
        return re.sub(r"(?<=\d),(?=\d)|(?<!\S),(?=\d)", ".", told)
    if re.search(r"(?<![\d.])0,\d", told):
        raise OwnerError(
            tr("{what}: write decimals with a point, such as {example}.", what=what, example="0.75")
        )
    return told


def _as_typed(told: str) -> str:
    """A text whose decimals were written with a point, with the sign that the reader types."""
    return told.replace(".", ",") if reading().point == "," else told


def parse_feet(text: str, what: str = "Feet") -> float:
    """A length in feet: `32' 6"`, `32 ft 6 in`, "32.5", "9.9 m", `390"`.

    To who reads metres a bare number is one of metres.
    """
    example = _feet_example()
    signed = _american(_tidy(text).lower().replace("''", '"'))
    first = None if signed is None else _LENGTH.match(signed)
    if first is None or signed is None:
        raise _no_length(what, text, example)
    unit = _unit(first["unit"], what, example) or _bare_unit(first["number"], "m") or "ft"
    feet = _number(first["number"], what) * INCHES_BY_UNIT[unit] / 12
    rest = signed[first.end() :]
    if not rest:
        return feet
    second = _LENGTH.fullmatch(rest)
    inches_follow = second is not None and unit == "ft" and second["number"][0] not in "-−+"
    if second is None or not inches_follow:
        raise _no_length(what, text, example)
    if (_unit(second["unit"], what, example) or "in") != "in":
        raise _no_length(what, text, example)
    return feet + math.copysign(_number(second["number"], what) / 12, feet)


def _feet_example() -> str:
    if is_metric():
        return tr(
            """enter metres, such as {example}, or feet, such as 32' 6\"""",
            example=localised("9.9"),
        )
    return tr(
        """enter feet, such as {feet} or 32' 6", or metres, such as "{metres} m\"""",
        feet=localised("32.5"),
        metres=localised("9.9"),
    )


def plain(value: float, places: int = 2, unit: str = "") -> str:
    """A number without needless zeros, thousands parted: "0.4", "1,250".

    With a US unit it is a number of the unit that the owner reads, without its name.
    """
    return trimmed_bare(value, places, unit)


def inches(value: float, places: int = 2) -> str:
    """Inches with their unit and all their places: "0.41 in"; "10.4 mm"."""
    return told(value, places, "in")


def feet_inches(feet: float) -> str:
    """Feet and whole inches: `32' 6"`; metres to a hundredth, "9.91 m"."""
    if is_metric():
        return told(feet, 1, "ft")
    whole = round(abs(feet) * 12)
    sign = "-" if feet < 0 and whole else ""
    return f"{sign}{whole // 12}' {whole % 12}\"" if whole % 12 else f"{sign}{whole // 12}'"


def minutes(value: float) -> str:
    """Whole minutes: "9 min", and from an hour and a half on "1 h 35 min"."""
    whole = round(value)
    if whole < 90:
        return f"{whole} min"
    return f"{whole // 60} h {whole % 60} min" if whole % 60 else f"{whole // 60} h"


def day(on: date) -> str:
    """A date with its year: "15 Jun 2026", or "Jun 15, 2026" where the month is read first."""
    if reading().month_first:
        return tr("{month} {day}, {year}", month=month_name(on), day=on.day, year=on.year)
    return tr("{day} {month} {year}", day=on.day, month=month_name(on), year=on.year)


def short_day(on: date) -> str:
    """A date without its year: "15 Jun", or "Jun 15"."""
    if reading().month_first:
        return tr("{month} {day}", month=month_name(on), day=on.day)
    return tr("{day} {month}", day=on.day, month=month_name(on))


def month_name(on: date) -> str:
    """The short name of a day's month in the reader's language."""
    return tr(MONTHS[on.month - 1])


def _tidy(text: str) -> str:
    told = text
    for sign, written in _VULGAR.items():
        told = told.replace(sign, f" {written}")
    told = _MIXED.sub(r"\1 ", told)
    return told.replace("\u2044", "/").replace("\u00a0", " ").replace("\u202f", " ").strip()


def _unit(name: str | None, what: str, example: str) -> str:
    if name is None:
        return ""
    if name not in _UNIT_NAMES:
        raise OwnerError(
            tr(
                '{what}: the unit "{unit}" is not known here; {example}.',
                what=what,
                unit=name,
                example=example,
            )
        )
    return _UNIT_NAMES[name]


def _number(told: str, what: str) -> float:
    cleaned = told.replace("−", "-").replace(",", "")
    sign = -1.0 if cleaned.startswith("-") else 1.0
    cleaned = cleaned.lstrip("+-")
    if "/" not in cleaned:
        value = float(cleaned)
    else:
        whole, _, fraction = re.sub(r"\s*/\s*", "/", cleaned).rpartition(" ")
        top, bottom = fraction.split("/")
        if int(bottom) == 0:
            raise OwnerError(
                tr(
                    '{what} "{text}" divides by zero: enter a fraction such as 7/8.',
                    what=what,
                    text=told,
                )
            )
        value = (float(whole) if whole else 0.0) + int(top) / int(bottom)
    if not math.isfinite(value):
        raise OwnerError(
            tr('{what} "{text}" is too large to be a number here.', what=what, text=told)
        )
    return sign * value


def _sign_hint(told: str) -> str:
    if reading().point == ",":
        if re.fullmatch(r"[-−+]?\d+\.\d+", told):
            return tr(": write it with a comma, {number}", number=told.replace(".", ","))
    elif re.fullmatch(r"[-−+]?\d+,\d+", told):
        return tr(": write it with a point, {number}", number=told.replace(",", "."))
    return tr(": enter digits, such as {example}", example=localised("12.5"))


def _american(told: str) -> str | None:
    """What is typed with a decimal point and no other sign in it; None if it cannot be read so.

    A point where a comma is read parts thousands or nothing: taking "1.5" for 15 or "1.500" for
    one and a half would both be guesses, so what is no thousands is refused.
    """
    held = reading()
    if held.point == "." and held.group == ",":
        return told
    group = re.escape(_tidy_sign(held.group)) if held.group else ""
    if group:
        thousands = re.compile(rf"(?<![\d.,])(?!0)\d{{1,3}}(?:{group}\d{{3}})+(?!\d)(?!\s*/)")
        told = thousands.sub(lambda found: re.sub(r"\D", "", found[0]), told)
    if held.point == ",":
        return None if re.search(r"\d\.|\.\d", told) else told.replace(",", ".")
    return told


def _tidy_sign(sign: str) -> str:
    return " " if sign in {"\u00a0", "\u202f"} else sign


def whole(count: int) -> str:
    """A count, thousands parted as the reader does: "1,204"."""
    return localised(f"{count:,}")


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun, which is looked up here: "1 day", "3 days", "1,204 feedings"."""
    several = many or f"{one}s"
    return f"{count} {tr(one)}" if count == 1 else f"{whole(count)} {tr(several)}"


def and_joined(words: Sequence[str], word: str = "and") -> str:
    """Words in a row, joined by a word that is looked up: "Mon and Fri", "Mon, Wed and Fri"."""
    *head, last = words
    return f"{', '.join(head)} {tr(word)} {last}" if head else last
