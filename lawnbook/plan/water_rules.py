"""The local watering rule: the first day it allows, and whether its hours are long enough."""

from collections.abc import Iterator
from datetime import date, timedelta

from lawnbook.plan.month_water import watered_month
from lawnbook.plan.season import within
from lawnbook.plan.water_workings import Figures
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.yard.numbers import minutes, short_day

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DAYS_A_WEEK = 7


def first_allowed(setting: Setting, facts: ZoneFacts, due: date | None) -> date | None:
    """The first day from `due` on whose weekday the rule allows; `due` where there is no rule.

    None where nothing is due, or where watering ends for the season before such a day comes.
    """
    if due is None or _allows(setting, due):
        return due
    ahead = (due + timedelta(days=each) for each in range(1, DAYS_A_WEEK))
    allowed = next(each for each in ahead if _allows(setting, each))
    season = setting.season
    in_season = season is None or within(season, allowed)
    return allowed if in_season and watered_month(setting, facts, allowed.month) else None


def rule_notes(setting: Setting, figures: Figures) -> Iterator[str]:
    """What the rule changes in a zone's figures, in sentences; nothing where it changes nothing."""
    due = figures.ledger.next_watering if figures.ledger is not None else None
    if due is not None and figures.next_allowed != due:
        yield _day_note(setting, due, figures.next_allowed)
    needed = _elapsed_minutes(figures)
    open_minutes = sum(_span_minutes(span) for span in setting.rules.hours)
    if setting.rules.hours and needed > open_minutes:
        yield (
            f"Run and soaks take {minutes(needed)}, more than the {minutes(open_minutes)} that "
            "your rule allows in a day."
        )


def _day_note(setting: Setting, due: date, allowed: date | None) -> str:
    back = (due - timedelta(days=each) for each in range(1, DAYS_A_WEEK))
    before = [each for each in back if each >= setting.on and _allows(setting, each)]
    sooner = f", or sooner {_weekday_told(before[0])}" if before else ""
    reason = f"the allowance is used up on {_weekday_told(due)}"
    if allowed is not None:
        return f"Your rule allows {_weekday_told(allowed)}{sooner}; {reason}."
    chance = f"; {_weekday_told(before[0])} is the last" if before else ""
    return f"Your rule allows no day between {_weekday_told(due)} and the season's end{chance}."


def _allows(setting: Setting, that: date) -> bool:
    days = setting.rules.days
    return not days or WEEKDAYS[that.weekday()] in days


def _weekday_told(that: date) -> str:
    return f"{WEEKDAYS[that.weekday()]} {short_day(that)}"


def _elapsed_minutes(figures: Figures) -> float:
    today = figures.today
    if today.run_minutes is None or not today.cycles or today.soak_minutes is None:
        return 0.0
    return today.run_minutes + (today.cycles - 1) * today.soak_minutes


def _span_minutes(span: str) -> int:
    """Minutes of "18:00-08:00", over midnight where it ends before it starts."""
    start, end = (int(part[:2]) * 60 + int(part[3:5]) for part in span.split("-"))
    return (end - start) % (24 * 60) or 24 * 60
