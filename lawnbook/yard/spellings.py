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
    return _FAULTS[rule.kind](rule, value)


def _month_day_fault(rule: Rule, value: str) -> str:
    match = re.fullmatch(r"([0-9]{2})-([0-9]{2})", value)
    # A leap year, so that 29 February is a day of the year.
    if match is None or not _is_day(2024, int(match[1]), int(match[2])):
        mend = tr('write month and day, such as "04-15" for 15 April')
        return tr(
            '{label} "{value}" is not a day of the year; {mend}.',
            label=rule.label,
            value=value[:SHOWN_LETTERS],
            mend=mend,
        )
    return ""


def _is_day(year: int, month: int, day: int) -> bool:
    try:
        date(year, month, day)
    except ValueError:
        return False
    return True


def _clock_fault(rule: Rule, value: str) -> str:
    time = "([01][0-9]|2[0-3]):[0-5][0-9]"
    if not re.fullmatch(f"{time}-{time}", value) or value[:5] == value[6:]:
        mend = tr('write it as "18:00-08:00", from and to')
        return tr(
            '{label} "{value}" is not a span of hours; {mend}.',
            label=rule.label,
            value=value[:SHOWN_LETTERS],
            mend=mend,
        )
    return ""


def _sha256_fault(rule: Rule, value: str) -> str:
    if not re.fullmatch("[0-9a-f]{64}", value):
        return tr(
            "{label} must be 64 digits of 0 to 9 and a to f; enter it again.", label=rule.label
        )
    return ""


def _time_zone_fault(rule: Rule, value: str) -> str:
    if not _is_time_zone(value):
        mend = tr('write it as "America/Denver", region and city')
        return tr(
            '{label} "{value}" is not known; {mend}.',
            label=rule.label,
            value=value[:SHOWN_LETTERS],
            mend=mend,
        )
    return ""


@cache
def _is_time_zone(name: str) -> bool:
    """Whether the machine knows a time zone; a machine without any table of them trusts it."""
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        return not available_timezones()
    return True


_FAULTS: Mapping[str, Callable[[Rule, str], str]] = {
    "month_day": _month_day_fault,
    "clock": _clock_fault,
    "sha256": _sha256_fault,
    "time_zone": _time_zone_fault,
}
