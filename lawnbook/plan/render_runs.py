"""What is put on next, as text: each zone's next watering, the timer's programs, new turf."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from lawnbook.plan.model import ZoneWater
from lawnbook.plan.text_table import (
    NONE,
    WIDTH,
    Column,
    column,
    number,
    paragraph,
    share,
    table,
    told_once,
)
from lawnbook.plan.water_model import NextRun, ProgramRun, RainCredit, TimerStart
from lawnbook.plan.workings import counted, cycle_minutes_told, told
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.numbers import short_day

STARTS_IN_A_LINE = 6
"""Clock times side by side before a zone takes another line."""


def numbered(zone: ZoneWater) -> str:
    """A zone as a cell: "2 Back lawn"."""
    return f"{zone.number} {zone.zone}"


def run_told(watering: ZoneWater | NextRun) -> str:
    """The cycles of a run as a cell: "2×11 min"; a dash where the minutes are not known."""
    each = cycle_minutes_told(watering)
    if watering.run_minutes is None or not watering.cycles or each is None:
        return NONE
    return f"{watering.cycles}×{each} min"


def next_run_lines(zones: Sequence[ZoneWater]) -> Iterator[str]:
    """The next watering of each zone that has one, any sooner day, and what rain has done."""
    due = [(zone, zone.next_run) for zone in zones if zone.next_run is not None]
    if due:
        yield from table(list(_run_columns(due)), WIDTH)
    sooner = ((zone.zone, _sooner(zone.sooner_run)) for zone in zones if zone.sooner_run)
    yield from told_once(sooner, len(zones))
    rain = ((zone.zone, _credit(zone.rain_credit)) for zone in zones if zone.rain_credit)
    yield from told_once(rain, len(zones))


def program_lines(programs: Sequence[ProgramRun]) -> Iterator[str]:
    """The timetable of each program, a line for each zone, and what is to be known about it."""
    rows = [
        (program, starts)
        for program in programs
        for _, each in groupby(sorted(program.timer, key=_by_zone), key=_by_zone)
        for starts in _lines_of(list(each))
    ]
    if rows:
        yield from table(
            [
                column(tr("program"), rows, lambda row: row[0].program or NONE, words=True),
                column(tr("night to"), rows, lambda row: short_day(row[0].morning)),
                column(tr("zone"), rows, lambda row: _zone_of(row[1]), words=True),
                column(tr("Run").lower(), rows, lambda row: _cycles(row[1])),
                column(tr("starts"), rows, lambda row: _clock_times(row[1]), words=True),
            ],
            WIDTH,
        )
    for program in programs:
        name = tr("Program {program}: ", program=program.program) if program.program else ""
        yield from paragraph(f"{name}{program.words}", WIDTH, "- ")


def establishing_lines(zones: Sequence[ZoneWater]) -> Iterator[str]:
    """The rule of each zone of new turf."""
    for zone in zones:
        if zone.establishing is not None:
            yield from paragraph(f"{zone.zone}: {zone.establishing.words}", WIDTH, "- ")


def _run_columns(due: Sequence[tuple[ZoneWater, NextRun]]) -> Iterator[Column]:
    yield column(tr("zone"), due, lambda row: numbered(row[0]), words=True)
    yield column(tr("day"), due, lambda row: short_day(row[1].date))
    yield column(tr("depth"), due, lambda row: number(row[1].depth_in, 2, "in"))
    yield column(tr("Run").lower(), due, lambda row: run_told(row[1]))
    yield column(tr("soak"), due, lambda row: number(row[1].soak_minutes or None, 0))
    yield column(unit_shown("gal"), due, lambda row: number(row[1].gallons, 0, "gal"))
    if any(run.cost is not None for _, run in due):
        yield column(tr("cost"), due, lambda row: number(row[1].cost, 2))
    yield column(tr("used up"), due, lambda row: share(row[1].share_used))
    yield column(tr("of full use"), due, lambda row: share(row[1].stress))
    yield column(tr("wets"), due, lambda row: number(row[1].wets_in, 1, "in"))
    yield column(tr("past roots"), due, lambda row: number(row[1].past_roots_in, 2, "in"))


def _sooner(run: NextRun) -> str:
    told_run = f", {run_told(run)}" if run.run_minutes is not None else ""
    return tr(
        "or sooner, on {date}: {depth_in}{told_run}.",
        date=short_day(run.date),
        depth_in=told(run.depth_in, 2, "in"),
        told_run=told_run,
    )


def _credit(rain: RainCredit) -> str:
    moved = counted(rain.days_moved, "day")
    by_days = tr("; it moved the next watering by {moved}", moved=moved) if rain.days_moved else ""
    return tr(
        "rain of the last seven days, {fallen_in}, of which {counted_in} counted{by_days}.",
        fallen_in=told(rain.fallen_in, 2, "in"),
        counted_in=told(rain.counted_in, 2, "in"),
        by_days=by_days,
    )


def _by_zone(start: TimerStart) -> tuple[int, str]:
    return start.number, start.zone_id


def _lines_of(starts: Sequence[TimerStart]) -> Iterator[Sequence[TimerStart]]:
    """A zone's starts, those of equal minutes in a row together, as many as a line takes."""
    for _, group in groupby(starts, key=lambda start: start.minutes):
        alike = list(group)
        for first in range(0, len(alike), STARTS_IN_A_LINE):
            yield alike[first : first + STARTS_IN_A_LINE]


def _cycles(starts: Sequence[TimerStart]) -> str:
    return f"{len(starts)}×{starts[0].minutes} min"


def _zone_of(starts: Sequence[TimerStart]) -> str:
    return f"{starts[0].number} {starts[0].zone}"


def _clock_times(starts: Sequence[TimerStart]) -> str:
    times = [f"{each.starts:%H:%M}" for each in starts if each.starts is not None]
    return ", ".join(times) or NONE
