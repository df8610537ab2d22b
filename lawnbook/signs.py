"""The signs of numbers and dates by the environment's locale, for the commands.

The window asks the desktop instead (`desk.reader`). Python keeps to C until it is told otherwise,
and so do the libraries we use: the locale is looked at and put back at once.
"""

import locale
from collections.abc import Mapping
from dataclasses import replace

from lawnbook.frozen import dataclass
from lawnbook.reading import Reading

NO_BREAK = "\u00a0"
_PLAIN = frozenset({"", "C", "POSIX"})
_SPACES = frozenset({" ", "\t"})


@dataclass(frozen=True, slots=True)
class Signs:
    """What parts decimals and thousands, and whether a date tells its month first."""

    point: str = "."
    group: str = ","
    month_first: bool = False


def signs_of(environment: Mapping[str, str]) -> Signs:
    """The signs of the locales that an environment names, as POSIX reads its variables.

    Those of "C" where it names none, or one that this machine does not have.
    """
    numbers, dates = _named(environment, "LC_NUMERIC"), _named(environment, "LC_TIME")
    point, group = (".", ",") if _is_plain(numbers) else _number_signs(numbers)
    return Signs(point, group, not _is_plain(dates) and _is_month_first(dates))


def read_with(held: Reading, signs: Signs) -> Reading:
    """A reading with other signs."""
    return replace(held, point=signs.point, group=signs.group, month_first=signs.month_first)


def parted(point: str, group: str) -> tuple[str, str]:
    """Signs that can be told apart, a space among them one that no line breaks at."""
    point = point if point in {".", ","} else "."
    group = NO_BREAK if group in _SPACES else group
    return point, "" if group == point else group


def _named(environment: Mapping[str, str], category: str) -> str:
    return next(
        (told for name in ("LC_ALL", category, "LANG") if (told := environment.get(name, ""))), ""
    )


def _is_plain(name: str) -> bool:
    return name.partition(".")[0] in _PLAIN


def _number_signs(name: str) -> tuple[str, str]:
    held = locale.setlocale(locale.LC_NUMERIC)
    try:
        locale.setlocale(locale.LC_NUMERIC, name)
        found = locale.localeconv()
    except (locale.Error, UnicodeDecodeError):
        return ".", ","
    finally:
        locale.setlocale(locale.LC_NUMERIC, held)
    return parted(str(found["decimal_point"]), str(found["thousands_sep"]))


def _is_month_first(name: str) -> bool:
    """Whether a locale writes dates as month, day, year; not told on every system, then no."""
    if not hasattr(locale, "D_FMT"):
        return False
    held = locale.setlocale(locale.LC_TIME)
    try:
        locale.setlocale(locale.LC_TIME, name)
        written = locale.nl_langinfo(locale.D_FMT)
    except locale.Error:
        return False
    finally:
        locale.setlocale(locale.LC_TIME, held)
    return is_month_first(written)


def is_month_first(written: str) -> bool:
    """Whether a pattern of dates tells the month, then the day, then the year.

    A pattern is that of the C library ("%m/%d/%Y") or of Qt ("M/d/yy").
    """
    plain = written.replace("%D", "%m/%d/%y").replace("%-", "%").replace("%e", "%d")
    at = [
        min((plain.find(sign) for sign in signs if sign in plain), default=-1)
        for signs in (("%m", "%b", "%B", "M"), ("%d", "d"), ("%Y", "%y", "y"))
    ]
    return -1 < at[0] < at[1] < at[2]
