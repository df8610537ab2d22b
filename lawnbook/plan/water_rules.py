"""The local watering rule: the first day it allows, and whether its hours are long enough.

A day of the rule is the one on which a span of hours begins: "18:00-08:00" on a Tuesday runs until
eight on Wednesday morning.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from lawnbook.agronomy.checks import floor_count
from lawnbook.plan.month_water import watered_month
from lawnbook.plan.season import within
from lawnbook.plan.water_figures import Figures
from lawnbook.plan.workings import counted, run_minutes_told, told
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.numbers import minutes, short_day
from lawnbook.yard.records import WaterRules

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DAYS_A_WEEK = 7
MINUTES_A_DAY = 24 * 60


def first_allowed(setting: Setting, facts: ZoneFacts, due: date | None) -> date | None:
    """The first day from `due` on whose weekday the rule allows; `due` where there is no rule.

    None where nothing is due, or where watering ends for the season before such a day comes.
    """
    if due is None or allows(setting, due):
        return due
    ahead = (due + timedelta(days=each) for each in range(1, DAYS_A_WEEK))
    allowed = next(each for each in ahead if allows(setting, each))
    season = setting.season
    in_season = season is None or within(season, allowed)
    return allowed if in_season and watered_month(setting, facts, allowed.month) else None


def allows(setting: Setting, that: date) -> bool:
    """Whether the rule allows watering to begin on a day; all days where it names none."""
    days = setting.rules.days
    return not days or WEEKDAYS[that.weekday()] in days


def rule_notes(setting: Setting, facts: ZoneFacts, figures: Figures) -> Iterator[str]:
    """What the rule changes in a zone's figures, in sentences; nothing where it changes nothing."""
    due = figures.ledger.next_watering if figures.ledger is not None else None
    if due is not None and figures.next_allowed != due:
        by_roots = figures.today.rule == "deep"
        why = tr("the allowance is used up") if by_roots else tr("water is due")
        yield _day_note(due, figures, why)
    if figures.today.rule == "light":
        yield from _new_turf_note(setting, figures)
    elif figures.today.rule == "deep":
        yield from _gap_note(setting, facts, figures)
    needed = _elapsed_minutes(figures)
    open_minutes = sum(span_minutes(span) for span in setting.rules.hours)
    if setting.rules.hours and needed > open_minutes:
        yield (
            tr(
                "Run and soaks take {needed}, more than the {open_minutes} that your rule "
                "allows in a day.",
                needed=minutes(needed),
                open_minutes=minutes(open_minutes),
            )
        )


def _day_note(due: date, figures: Figures, why: str) -> str:
    """When the rule allows what is due; a day sooner is told only where water is of use then."""
    allowed, run = figures.next_allowed, figures.sooner_run
    sooner = _weekday_told(run.date) if run is not None else ""
    if allowed is not None:
        offered = tr(", or sooner {sooner}", sooner=sooner) if sooner else ""
        return tr(
            "Your rule allows {allowed}{offered}; {why} on {due}.",
            allowed=_weekday_told(allowed),
            offered=offered,
            why=why,
            due=_weekday_told(due),
        )
    chance = tr("; {sooner} is the last", sooner=sooner) if sooner else ""
    return tr(
        "Your rule allows no day between {weekday_told} and the season's end{chance}.",
        weekday_told=_weekday_told(due),
        chance=chance,
    )


def _gap_note(setting: Setting, facts: ZoneFacts, figures: Figures) -> Iterator[str]:
    """That the longest gap between the rule's days uses more than the roots bear, if it does.

    Not said where they bear nothing, or where no day is left before the season's end: other notes
    say so.
    """
    use, bears = figures.today.etc_in_per_day, facts.bearable_in
    if use is None or not bears or figures.next_allowed is None:
        return
    gaps = gaps_days(setting.rules)
    shortest, longest = min(gaps), max(gaps)
    days_borne = floor_count(bears / use)
    short = longest * use - bears
    if longest <= max(1, days_borne) or told(short) == told(0.0):
        return
    span = (
        f"{longest}"
        if shortest == longest
        else tr("{shortest} to {longest}", shortest=shortest, longest=longest)
    )
    yield (
        tr(
            "Your rule allows water every {span} days at best, and the roots last "
            "{days_told}: short by {short} where no rain falls.",
            span=span,
            days_told=_days_told(days_borne),
            short=told(short, 2, "in"),
        )
    )


def _days_told(days: int) -> str:
    return counted(days, "day") if days else tr("less than 1 day")


def _new_turf_note(setting: Setting, figures: Figures) -> Iterator[str]:
    """That the rule's days are too few for new seed or sod, where they are."""
    every, longest = figures.today.interval_days or 1, max(gaps_days(setting.rules))
    if longest > every:
        wanted = tr("every day") if every == 1 else tr("every {every} days", every=every)
        yield (
            tr(
                "New turf wants water {wanted}, your rule leaves up to {longest} days between: "
                "ask whether it exempts new turf.",
                wanted=wanted,
                longest=longest,
            )
        )


def gaps_days(rules: WaterRules) -> list[int]:
    """Days from each weekday that the rule allows to the next; one each where it allows all."""
    on = sorted(WEEKDAYS.index(each) for each in set(rules.days)) or [*range(DAYS_A_WEEK)]
    return [after - before for before, after in pairwise([*on, on[0] + DAYS_A_WEEK])]


def _weekday_told(that: date) -> str:
    return f"{WEEKDAYS[that.weekday()]} {short_day(that)}"


def _elapsed_minutes(figures: Figures) -> float:
    today = figures.today
    run = run_minutes_told(today)
    if run is None or not today.cycles or today.soak_minutes is None:
        return 0.0
    return run + (today.cycles - 1) * today.soak_minutes


def span_minutes(span: str) -> int:
    """Minutes of "18:00-08:00", over midnight where it ends before it starts."""
    start, end = (clock_minutes(part) for part in span.split("-"))
    return (end - start) % MINUTES_A_DAY or MINUTES_A_DAY


def clock_minutes(clock: str) -> int:
    """Minutes since midnight of "18:30"."""
    return int(clock[:2]) * 60 + int(clock[3:5])
