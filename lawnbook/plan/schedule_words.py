"""A night's timetable in sentences: when it is done, what does not fit, and what would help."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from lawnbook.plan.night import Clock, Night, missing_for_times
from lawnbook.plan.timetable import MINUTE, Timetable, minute_before
from lawnbook.plan.water_rules import allows
from lawnbook.plan.workings import and_joined, counted, told
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.amounts import between
from lawnbook.yard.numbers import minutes

WEEKDAYS_IN_FULL = (
    "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday",
)  # fmt: skip

ALIKE_IN = 0.025

UNEVEN_MULTIPLIER = 1.15
"""From here on more even sprinklers would shorten the runs enough to speak of (common practice)."""


def timetable_words(setting: Setting, clock: Clock | None, table: Timetable) -> str:
    """What the owner should know about one program's night."""
    told_here = [
        *_times(setting, clock, table),
        *_thatch(table),
        *_taken_along(table),
        *_left_out(table),
    ]
    return " ".join(told_here)


def _times(setting: Setting, clock: Clock | None, table: Timetable) -> Iterator[str]:
    takes = tr("It takes {needed_minutes}", needed_minutes=minutes(table.needed_minutes))
    if clock is None:
        missing = and_joined(missing_for_times(setting.notebook.yard))
        yield tr(
            "{takes}. Enter the yard's {missing} to see when it starts.",
            takes=takes,
            missing=missing,
        )
    elif table.night is None:
        yield tr(
            "{takes}. The sun does not rise here on that day, so no time to be done by is told.",
            takes=takes,
        )
    else:
        if table.starts is not None:
            yield _done(clock, table, table.night)
        yield from _after_midnight(setting, clock, table)
        if table.missing_minutes:
            yield from _cut_short(clock, table, table.night)
        else:
            yield from _before_sunset(clock, table, table.night)


def _done(clock: Clock, table: Timetable, night: Night) -> str:
    at = _clock_time(clock, table.ends_by)
    if table.is_followed:
        return tr("Done by {at}, when the next program starts.", at=at)
    if night.in_daylight:
        return tr(
            "Done by {at}. Your rule leaves no time between sunset and sunrise: by day, "
            "wind and sun take more of the water.",
            at=at,
        )
    if table.sunrise is not None and table.ends_by is not None and table.ends_by < table.sunrise:
        rises = _clock_time(clock, table.sunrise)
        return tr(
            "Done by {at}, when your rule's time ends; the sun rises at {rises}.",
            at=at,
            rises=rises,
        )
    return tr("Done by sunrise at {at}.", at=at)


def _after_midnight(setting: Setting, clock: Clock, table: Timetable) -> Iterator[str]:
    """That a span over midnight is counted to the weekday of its evening."""
    if table.ends is None:
        return
    last = clock.told(table.ends - MINUTE).date()
    if not allows(setting, last):
        evening = WEEKDAYS_IN_FULL[(last - timedelta(days=1)).weekday()]
        yield (
            tr(
                "The hours after midnight are counted to {evening}, on whose evening your "
                "rule's span begins: make sure that it is meant so.",
                evening=evening,
            )
        )


def _cut_short(clock: Clock, table: Timetable, night: Night) -> Iterator[str]:
    limit = tr("your rule") if night.is_ruled else tr("a day from sunrise to sunrise")
    leaves = (
        tr("{limit} and the next program leave", limit=limit)
        if table.is_followed
        else tr("{limit} leaves", limit=limit)
    )
    until = tr(" before sunrise") if _goes_on(table, night) else ""
    yield (
        tr(
            "It needs {needed_minutes}, {leaves} {open_minutes}{until}: {missing_minutes} "
            "of it, {not_given}, cannot be given.",
            needed_minutes=minutes(table.needed_minutes),
            leaves=leaves,
            open_minutes=minutes(table.open_minutes or 0),
            until=until,
            missing_minutes=minutes(table.missing_minutes),
            not_given=_not_given(table),
        )
    )
    yield tr(
        "What would help: {helps}.", helps=and_joined(tuple(_helps(clock, table, night)), "or")
    )


def _helps(clock: Clock, table: Timetable, night: Night) -> Iterator[str]:
    several = sum(bool(run.load) for run in table.runs) > 1
    nights = tr("allowed nights") if night.is_ruled else "nights"
    yield (
        tr("its zones split over two {nights}", nights=nights)
        if several
        else tr("two {nights} in place of one", nights=nights)
    )
    if several:
        yield tr("fewer zones in one program")
    worst = max(run.zone.multiplier for run in table.runs)
    if worst >= UNEVEN_MULTIPLIER:
        yield tr(
            "more even sprinklers (runs are up to {worst} times as long for unevenness)",
            worst=told(worst),
        )
    if _goes_on(table, night):
        yield tr(
            "the rest after sunrise, until {clock_time} by your rule",
            clock_time=_clock_time(clock, night.closes),
        )


def _goes_on(table: Timetable, night: Night) -> bool:
    """Whether the rule would allow more after the sunrise by which all is to be done."""
    closes, sunrise = night.closes, night.sunrise
    cut_by_sunrise = not night.in_daylight and not table.is_followed
    return cut_by_sunrise and closes is not None and sunrise is not None and closes > sunrise


def _not_given(table: Timetable) -> str:
    """The net depth that stays off: of each zone, or from the least to the most where they differ.

    Whole minutes alone part zones that are cut alike by a hundredth or two.
    """
    losses = [
        run.depth_in * (1.0 - table.given_share(index))
        for index, run in enumerate(table.runs)
        if run.load
    ]
    least, most = min(losses), max(losses)
    alike = most - least <= ALIKE_IN
    middle = (least + most) / 2
    span = told(middle, 2, "in") if alike else between(least, most, 2, "in")
    return (
        tr("about {span}", span=span)
        if len(losses) == 1
        else tr("about {span} on each zone", span=span)
    )


def _before_sunset(clock: Clock, table: Timetable, night: Night) -> Iterator[str]:
    starts, sunset = table.starts, night.sunset
    if starts is None or sunset is None or night.in_daylight or starts >= minute_before(sunset):
        return
    longer = table.shortfall_minutes
    if longer:
        takes = minutes(table.needed_minutes)
        yield tr(
            "It takes {takes}, {longer} more than the night leaves.",
            takes=takes,
            longer=minutes(longer),
        )
    several = sum(bool(run.load) for run in table.runs) > 1
    yield tr(
        "It starts at {start}, before sunset ({sunset}), when wind and sun take more of the "
        "water: programs on different days would each be shorter."
        if several
        else "It starts at {start}, before sunset ({sunset}), when wind and sun take more of the "
        "water: half on each of two nights would be shorter.",
        start=_clock_time(clock, starts),
        sunset=_clock_time(clock, sunset),
    )


def _thatch(table: Timetable) -> Iterator[str]:
    wetted = [run.zone.zone for run in table.runs if run.is_wetted]
    if wetted:
        yield tr(
            "{wetted} starts with a short run that wets its thick dry thatch; the rest follows "
            "after half an hour or more."
            if len(wetted) == 1
            else "{wetted} start with a short run that wets their thick dry thatch; the rest "
            "follows after half an hour or more.",
            wetted=and_joined(wetted),
        )


def _taken_along(table: Timetable) -> Iterator[str]:
    for run in table.runs:
        if not run.load:
            yield tr("{zone} has used too little yet and is left out.", zone=run.zone.zone)
        elif run.days_early > 0:
            early = counted(run.days_early, "day")
            what = tr(", for what it has used by then") if run.zone.rule == "deep" else ""
            yield tr(
                "{zone} is taken along {early} early{what}.",
                zone=run.zone.zone,
                early=early,
                what=what,
            )


def _left_out(table: Timetable) -> Iterator[str]:
    if table.unknown:
        yield tr(
            "{unknown} has no place in it: the precipitation rate is not known."
            if len(table.unknown) == 1
            else "{unknown} have no place in it: the precipitation rate is not known.",
            unknown=and_joined(table.unknown),
        )


def _clock_time(clock: Clock, at: datetime | None) -> str:
    shown = f"{clock.told(at):%H:%M}" if at is not None else ""
    return "midnight" if shown == "00:00" else shown
