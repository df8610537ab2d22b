"""Numbers as people write them: parsed from fractions, marks and millimetres, and written back.

Every parser raises `OwnerError` with a sentence that shows how to write it.
"""

import math
import re
from collections.abc import Sequence
from datetime import date

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
_NUMBER = r"(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d{1,3}(?:,\d{3})+(?:\.\d*)?|\d+\.?\d*|\.\d+)"
_LENGTH = re.compile(rf"\s*(?P<number>[-−+]?{_NUMBER})\s*(?P<unit>[a-z]+\.?|[\"'″”′’])?\s*")
_READING = re.compile(
    r"\s*(?P<number>[-−+]?(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+\.?\d*|\.\d+))"
    r"(?:\s*(?P<unit>[a-z]+\.?|[\"″”]))?(?:\s*[,;+&]\s*|\s+|$|(?<=[\"″”]))"
)
_METRIC = frozenset({"mm", "cm", "m"})
_SAY_UNITS = "{}: say the unit of each reading, such as 7/8 in 22 mm; a fraction is of an inch."
_PLAIN = re.compile(rf"[-−+]?{_NUMBER}(?:[eE][-+]?\d+)?")


def parse_number(text: str, what: str = "This") -> float:
    """A plain number: "12", "1,250.5", "3/4", "1 1/2", "½"."""
    told = _tidy(text)
    if not told:
        raise OwnerError(f"{what} is empty: enter a number, such as 12.5.")
    if not _PLAIN.fullmatch(told):
        raise OwnerError(f'{what} "{text.strip()}" is not a number{_comma_hint(told)}.')
    return _number(told, what)


def parse_inches(text: str, what: str = "Inches") -> float:
    """A length in inches: "7/8", "1 1/4", "0.9", '3/4"', "22 mm"."""
    example = 'enter inches, such as 7/8, 1 1/4 or 0.9, or millimetres, such as "22 mm"'
    told = _tidy(text).lower()
    match = _LENGTH.fullmatch(told)
    if match is None:
        raise OwnerError(f'{what} "{text.strip()}" is not a length: {example}.')
    unit = _unit(match["unit"], what, example)
    return _number(match["number"], what) * INCHES_BY_UNIT[unit]


def parse_readings(text: str, what: str = "Readings") -> tuple[float, ...]:
    """Readings in inches: "5/8 11/16 3/4", "0.6, 0.7", "16 18 17 mm".

    A whole number followed by a fraction is one reading ("1 1/4"). A unit written once, after the
    last reading, is for all of them; otherwise each reading without one is in inches. A metric
    unit goes back over whole numbers of `LEAST_BEFORE_METRIC` or more only, and never belongs to
    a fraction: anything else may be inches, so it is refused.
    """
    example = "enter inches such as 5/8 11/16 3/4, or 16 18 17 mm"
    told = _tidy(text).lower()
    if re.search(r"(?<![\d.])0,\d", told):
        raise OwnerError(f"{what}: write decimals with a point, such as 0.75.")
    written: list[str] = []
    numbers: list[float] = []
    units: list[str] = []
    at = 0
    while at < len(told):
        match = _READING.match(told, at)
        if match is None:
            raise OwnerError(f'{what}: "{told[at:].strip()}" is not a reading; {example}.')
        written.append(match["number"])
        numbers.append(_number(match["number"], what))
        units.append(_unit(match["unit"], what, example))
        at = match.end()
    if units and not any(units[:-1]):
        if units[-1] in _METRIC and not all(_may_be_metric(each) for each in written[:-1]):
            raise OwnerError(_SAY_UNITS.format(what))
        units = [units[-1]] * len(units)
    if any("/" in each and unit in _METRIC for each, unit in zip(written, units, strict=True)):
        raise OwnerError(_SAY_UNITS.format(what))
    return tuple(n * INCHES_BY_UNIT[u] for n, u in zip(numbers, units, strict=True))


def _may_be_metric(written: str) -> bool:
    """Whether a number without a unit may stand before a metric one without being inches."""
    return written.isdecimal() and int(written) >= LEAST_BEFORE_METRIC


def parse_feet(text: str, what: str = "Feet") -> float:
    """A length in feet: `32' 6"`, `32 ft 6 in`, "32.5", "9.9 m", `390"`."""
    example = """enter feet, such as 32.5 or 32' 6", or metres, such as "9.9 m\""""
    told = _tidy(text).lower().replace("''", '"')
    first = _LENGTH.match(told)
    if first is None:
        raise OwnerError(f'{what} "{text.strip()}" is not a length: {example}.')
    unit = _unit(first["unit"], what, example) or "ft"
    feet = _number(first["number"], what) * INCHES_BY_UNIT[unit] / 12
    rest = told[first.end() :]
    if not rest:
        return feet
    second = _LENGTH.fullmatch(rest)
    inches_follow = second is not None and unit == "ft" and second["number"][0] not in "-−+"
    if second is None or not inches_follow:
        raise OwnerError(f'{what} "{text.strip()}" is not a length: {example}.')
    if (_unit(second["unit"], what, example) or "in") != "in":
        raise OwnerError(f'{what} "{text.strip()}" is not a length: {example}.')
    return feet + math.copysign(_number(second["number"], what) / 12, feet)


def plain(value: float, places: int = 2) -> str:
    """A number without needless zeros, thousands parted: "0.4", "1,250"."""
    told = f"{value:,.{places}f}"
    told = told.rstrip("0").rstrip(".") if "." in told else told
    return "0" if told in {"-0", ""} else told


def inches(value: float, places: int = 2) -> str:
    """Inches with their unit and all their places: "0.41 in"."""
    return f"{value + 0.0:.{places}f} in"


def feet_inches(feet: float) -> str:
    """Feet and whole inches: `32' 6"`."""
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
    """A date with its year, whatever the machine's language: "15 Jun 2026"."""
    return f"{short_day(on)} {on.year}"


def short_day(on: date) -> str:
    """A date without its year: "15 Jun"."""
    return f"{on.day} {MONTHS[on.month - 1]}"


def _tidy(text: str) -> str:
    told = text
    for sign, written in _VULGAR.items():
        told = told.replace(sign, f" {written}")
    return told.replace("\u2044", "/").replace("\u00a0", " ").replace("\u202f", " ").strip()


def _unit(name: str | None, what: str, example: str) -> str:
    if name is None:
        return ""
    if name not in _UNIT_NAMES:
        raise OwnerError(f'{what}: the unit "{name}" is not known here; {example}.')
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
            raise OwnerError(f'{what} "{told}" divides by zero: enter a fraction such as 7/8.')
        value = (float(whole) if whole else 0.0) + int(top) / int(bottom)
    if not math.isfinite(value):
        raise OwnerError(f'{what} "{told}" is too large to be a number here.')
    return sign * value


def _comma_hint(told: str) -> str:
    if re.fullmatch(r"[-−+]?\d+,\d+", told):
        return f": write it with a point, {told.replace(',', '.')}"
    return ": enter digits, such as 12.5"


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun: "1 day", "3 days", "1,204 feedings"."""
    return f"{count} {one}" if count == 1 else f"{count:,} {many or one + 's'}"


def and_joined(words: Sequence[str], word: str = "and") -> str:
    """Words in a row: "Mon", "Mon and Fri", "Mon, Wed and Fri"."""
    *head, last = words
    return f"{', '.join(head)} {word} {last}" if head else last
