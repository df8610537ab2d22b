"""From what a person types in a field to a value and back: dates, days of the year, lists."""

import calendar
import math
import re
from datetime import date, timedelta
from typing import Final

from lawnbook.agronomy.seasons import is_south
from lawnbook.reading import ENGLISH, is_metric, localised, reading, tr
from lawnbook.yard.amounts import places_shown, shown, unit_shown
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import MONTHS, day, parse_number
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Season

_TYPED_PLACES, _DIGITS = 3, 4
_DAYS_BACK = {"today": 0, tr("today").lower(): 0, "yesterday": 1, tr("yesterday").lower(): 1}
_TO = re.escape(tr("{begin} to {end}").partition("{begin}")[2].partition("{end}")[0].strip())
"""The word between two days of the year, in the owner's language."""
_BESIDE_MONTH = frozenset(
    re.findall(r"[^\W\d_]+", re.sub(r"\{.*?\}", " ", tr("{day} {month} {year}")))
)
"""Words that the owner's language puts between day, month and year."""
_LONGEST: Final = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def parse_day(text: str, today: date | None = None) -> date:
    """A date as people write it: 15 Jun 2026, Jun 15, 2026-06-15, 6/15/2026, today, yesterday, -3.

    Without a year it is the latest such day that is not after `today`. "-3" is three days before
    `today`. Raises OwnerError with the mend.
    """
    words = text.strip().lower()
    shown, like = f"“{text.strip()}”", tr("write it like 15 Jun 2026 or 6/15/2026")
    if today is not None:
        back = _DAYS_BACK.get(words)
        if back is None and re.fullmatch(r"[-−]\d{1,4}", words):
            back = int(words[1:])
        if back is not None:
            return today - timedelta(days=back)
    year, month, number = _parts(words, tr("{shown} is not a date; {like}", shown=shown, like=like))
    try:
        if year is not None:
            return date(year, month, number)
        if today is None:
            raise OwnerError(tr("{shown} has no year; {like}.", shown=shown, like=like))
        return _latest(month, number, today)
    except ValueError:
        raise OwnerError(
            tr("{shown}: there is no such day; {like}.", shown=shown, like=like)
        ) from None


def format_day(value: date) -> str:
    """A date as our fields show it: 15 Jun 2026."""
    return day(value)


def parse_month_day(text: str) -> str:
    """A day of the year ("15 Apr", "Apr 15", "4/15", "04-15") as MM-DD. Raises OwnerError."""
    words = text.strip().lower()
    shown, like = f"“{text.strip()}”", tr("write it like 15 Apr")
    found = re.fullmatch(r"(\d{1,2})\s*[-/]\s*(\d{1,2})", words)
    if found:
        month, number = int(found[1]), int(found[2])
    else:
        _, month, number = _parts(
            words, tr("{shown} is not a day of the year; {like}", shown=shown, like=like)
        )
    if not 1 <= month <= 12 or not 1 <= number <= _LONGEST[month - 1]:
        raise OwnerError(tr("{shown}: there is no such day; {like}.", shown=shown, like=like))
    return f"{month:02d}-{number:02d}"


def format_month_day(value: str) -> str:
    """MM-DD as 15 Apr."""
    month, number = value.split("-")
    return tr("{day} {month}", day=int(number), month=tr(MONTHS[int(month) - 1]))


def parse_season(text: str) -> Season:
    """Two days of the year, "15 Apr to 15 Oct", or months, "May to Sep". Raises OwnerError."""
    ends = re.split(rf"\s*(?:–|—|\b(?:to|{_TO})\b|\s-\s)\s*", text.strip())
    if len(ends) != 2:
        raise OwnerError(
            tr("“{text}” needs two days; write it like 15 Apr to 15 Oct.", text=text.strip())
        )
    # A month without a day is the whole of it.
    first, last = (_month(each.strip().lower().rstrip(".")) for each in ends)
    return Season(
        start=f"{first:02d}-01" if first else parse_month_day(ends[0]),
        end=f"{last:02d}-{_LONGEST[last - 1]}" if last else parse_month_day(ends[1]),
    )


def season_example(latitude_deg: float | None) -> str:
    """A usual irrigation season as it is typed: from spring to autumn where the yard lies."""
    if latitude_deg is not None and is_south(latitude_deg):
        return tr("15 Oct to 15 Apr")
    return tr("15 Apr to 15 Oct")


def format_season(value: Season) -> str:
    """A season as our fields show it: 15 Apr to 15 Oct."""
    return tr(
        "{begin} to {end}",
        begin=format_month_day(value.start),
        end=format_month_day(value.end),
    )


def parse_seasons(text: str) -> tuple[Season, ...]:
    """Several seasons with semicolons or commas between them."""
    return tuple(parse_season(part) for part in re.split(r"[;,]", text) if part.strip())


def format_seasons(value: tuple[Season, ...]) -> str:
    """Several seasons with semicolons between them."""
    return "; ".join(format_season(each) for each in value)


def parse_list(text: str, what: str = "This") -> tuple[float, ...]:
    """Numbers with spaces, commas or semicolons between them. Raises OwnerError."""
    return tuple(parse_number(part, what) for part in re.split(r"[\s;,]+", text.strip()) if part)


def parse_whole(text: str, what: str = "This", unit: str = "") -> int:
    """A whole number, its unit behind it if it has one. Raises OwnerError."""
    value = parse_measure(text, what, unit)
    if value != int(value):
        shown = text.strip()
        raise OwnerError(
            tr(
                "{what}: {shown} is not a whole number; enter one like {value}.",
                what=what,
                shown=shown,
                value=round(value),
            )
        )
    return int(value)


def plain_number(value: float) -> str:
    """A number without trailing zeros, at most four places."""
    words = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


def plain_list(values: tuple[float, ...]) -> str:
    """Numbers with spaces between them."""
    return " ".join(plain_number(value) for value in values)


def number_shown(value: float, unit: str = "") -> str:
    """A value of a US unit as a field shows it to the owner, without its unit.

    In metric as many digits as were typed, but four that count of what was typed in US units: a
    field that is not touched gives the value itself back.
    """
    if not is_metric() or unit_shown(unit) == tr(unit):
        return localised(plain_number(value))
    number = shown(value, unit)
    if not math.isclose(number, round(number, _TYPED_PLACES), rel_tol=1e-9, abs_tol=1e-9):
        size = math.floor(math.log10(abs(number)))
        number = round(number, max(_DIGITS - 1 - size, 0))
    return localised(plain_number(number))


def fixed_shown(value: float, places: int, unit: str) -> str:
    """A value of a US unit with all its decimals and no parted thousands, as figures are typed."""
    return localised(f"{shown(value, unit):.{places_shown(places, unit)}f}")


def list_shown(values: tuple[float, ...], unit: str = "") -> str:
    """Values of a US unit as a field shows them, with spaces between them."""
    return " ".join(number_shown(value, unit) for value in values)


def _parts(words: str, mend: str) -> tuple[int | None, int, int]:
    """Year, month, day of a date in words; the year may be None."""
    iso = re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})", words)
    if iso:
        return int(iso[1]), int(iso[2]), int(iso[3])
    slashed = re.fullmatch(r"(\d{1,2})/(\d{1,2})(?:/(\d{2}|\d{4}))?", words)
    if slashed:
        return _year(slashed[3]), int(slashed[1]), int(slashed[2])
    pieces = [piece for piece in re.split(r"[\s.,/-]+", words) if piece]
    pieces = [piece for piece in pieces if piece not in _BESIDE_MONTH]
    names = [piece for piece in pieces if piece[:1].isalpha()]
    digits = [piece for piece in pieces if piece.isdigit()]
    month = _month(names[0]) if len(names) == 1 else None
    if month is None or not 1 <= len(digits) <= 2 or len(digits) + 1 != len(pieces):
        raise OwnerError(f"{mend}.")
    return _year(digits[1] if len(digits) == 2 else None), month, int(digits[0])


def _month(word: str) -> int | None:
    """The month whose English name starts with a word of three letters or more, or that is told so.

    The owner's own language comes first.
    """
    if reading().language != ENGLISH and len(word) >= 3:
        own = (tr(name).lower().rstrip(".") for name in MONTHS)
        told = [number for number, name in enumerate(own, 1) if word.startswith(name)]
        if len(told) == 1:
            return told[0]
    whole = tuple(calendar.month_name)[1:]
    hits = [number for number, name in enumerate(whole, 1) if name.lower().startswith(word)]
    return hits[0] if len(word) >= 3 and len(hits) == 1 else None


def _year(word: str | None) -> int | None:
    if word is None:
        return None
    return int(word) + (2000 if len(word) <= 2 else 0)


def _latest(month: int, number: int, today: date) -> date:
    """The latest such day that is not after today; 29 February looks back to a leap year."""
    for year in range(today.year, today.year - 9, -1):
        if month == 2 and number == 29 and (year % 4 or (year % 100 == 0 and year % 400)):
            continue
        if (found := date(year, month, number)) <= today:
            return found
    raise ValueError(f"no {month}-{number}")
