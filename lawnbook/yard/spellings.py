"""How texts with a form of their own are written: days of the year, hours, digests, time zones."""

import re
from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from zoneinfo import ZoneInfo, available_timezones

from lawnbook.reading import tr
from lawnbook.yard.fields import Rule

SHOWN_LETTERS = 40
"""So many letters of a text that is not taken are told."""


def misspelling(rule: Rule, value: str) -> str:
    """What is wrong with a text of the rule's kind and how it is written; "" where nothing is."""
    is_right, fault = _SPELLINGS[rule.kind]
    return "" if is_right(value) else fault(rule.label, value[:SHOWN_LETTERS])


def _is_month_day(value: str) -> bool:
    match = re.fullmatch(r"([0-9]{2})-([0-9]{2})", value)
    try:
        # A leap year, so that 29 February is a day of the year.
        return match is not None and bool(date(2024, int(match[1]), int(match[2])))
    except ValueError:
        return False


def _month_day_fault(label: str, value: str) -> str:
    mend = tr('write month and day, such as "04-15" for 15 April')
    return tr(
        '{label} "{value}" is not a day of the year; {mend}.', label=label, value=value, mend=mend
    )


def _is_clock(value: str) -> bool:
    time = "([01][0-9]|2[0-3]):[0-5][0-9]"
    return bool(re.fullmatch(f"{time}-{time}", value)) and value[:5] != value[6:]


def _clock_fault(label: str, value: str) -> str:
    mend = tr('write it as "18:00-08:00", from and to')
    return tr(
        '{label} "{value}" is not a span of hours; {mend}.', label=label, value=value, mend=mend
    )


def _is_sha256(value: str) -> bool:
    return bool(re.fullmatch("[0-9a-f]{64}", value))


def _sha256_fault(label: str, _value: str) -> str:
    return tr("{label} must be 64 digits of 0 to 9 and a to f; enter it again.", label=label)


@cache
def _is_time_zone(name: str) -> bool:
    """Whether the machine knows a time zone; a machine without any table of them trusts it."""
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        return not available_timezones()
    return True


def _time_zone_fault(label: str, value: str) -> str:
    mend = tr('write it as "America/Denver", region and city')
    return tr('{label} "{value}" is not known; {mend}.', label=label, value=value, mend=mend)


_SPELLINGS: Mapping[str, tuple[Callable[[str], bool], Callable[[str, str], str]]] = {
    "month_day": (_is_month_day, _month_day_fault),
    "clock": (_is_clock, _clock_fault),
    "sha256": (_is_sha256, _sha256_fault),
    "time_zone": (_is_time_zone, _time_zone_fault),
}
"""By the kind of a rule whether a text is written rightly, and what is told where it is not."""
