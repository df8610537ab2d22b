"""The night's timetable: which zones run together, and when each valve opens, done by sunrise.

In-ground zones that share a timer program run together on the morning of the earliest of them; of
those without one, the zones due for the same morning do. One valve is open at a time, and programs
of one morning follow each other. Where the owner's rule leaves too little time, the timetable holds
what fits, all zones cut alike, and the rest is told as a shortfall. Without a rule all of it is put
on, from before sunset where the night is too short.
"""

from collections.abc import Iterator, Sequence
from datetime import date, datetime

from lawnbook.frozen import dataclass
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.night import Clock, Night, clock_of, night_for, untimed_morning
from lawnbook.plan.night_run import is_timed, night_run
from lawnbook.plan.rotation import cut_to, elapsed_minutes, rotation
from lawnbook.plan.schedule_words import timetable_words
from lawnbook.plan.timetable import MINUTE, Timetable, minute_before
from lawnbook.plan.water_model import ProgramRun, TimerStart
from lawnbook.plan.zone_facts import Setting, ZoneFacts


@dataclass(frozen=True, slots=True, kw_only=True)
class _Due:
    """A zone that falls due, and the night in which that can be met (None without clock times)."""

    zone: ZoneWater
    facts: ZoneFacts
    night: Night | None
    morning: date


@dataclass(frozen=True, slots=True, kw_only=True)
class _Program:
    """Zones that run together, in the owner's order, and the night of the earliest."""

    name: str
    night: Night | None
    morning: date
    members: tuple[_Due, ...]

    @property
    def place(self) -> tuple[date, int]:
        """Programs run by morning, then in the order of their first zones."""
        return self.morning, self.members[0].zone.number


def programs_of(
    setting: Setting, zones: Sequence[ZoneWater], facts: Sequence[ZoneFacts]
) -> tuple[ProgramRun, ...]:
    """The next run of each program, by morning and then in the owner's order of zones.

    `facts` are those of the same zones. Zones on a hose, of new turf, of no known rate, and those
    for which nothing falls due, have no place in a timer's program.
    """
    clock = clock_of(setting.notebook.yard)
    facts_by_id = {each.zone.id: each for each in facts}
    due = [
        found
        for zone in zones
        if (found := _due(setting, clock, zone, facts_by_id[zone.zone_id])) is not None
    ]
    tables: list[Timetable] = []
    follows: datetime | None = None
    for program in sorted(_grouped(due), key=lambda each: each.place, reverse=True):
        if not tables or tables[-1].morning != program.morning:
            follows = None
        table = _timetable(setting, program, follows)
        tables.append(table)
        follows = table.starts or follows
    return tuple(_told(setting, clock, table) for table in reversed(tables))


def _due(setting: Setting, clock: Clock | None, zone: ZoneWater, facts: ZoneFacts) -> _Due | None:
    """When a timer can run a zone next; None where none does or nothing falls due."""
    on = zone.next_allowed if zone.next_run is None else zone.next_run.date
    in_ground = zone.irrigated and facts.zone.sprinklers == "in-ground"
    is_new = zone.establishing is not None or zone.rule == "light"
    if on is None or not in_ground or is_new:
        return None
    night = night_for(setting, clock, on) if clock is not None else None
    morning = untimed_morning(setting, on) if night is None else night.morning
    return _Due(zone=zone, facts=facts, night=night, morning=morning)


def _grouped(due: Sequence[_Due]) -> Iterator[_Program]:
    by_name: dict[str, list[_Due]] = {}
    for each in due:
        by_name.setdefault(each.facts.zone.program.strip(), []).append(each)
    for name, members in by_name.items():
        timed = [each for each in members if is_timed(each.zone, each.facts)]
        if not timed:
            continue
        first = min(timed, key=lambda each: each.morning)
        together = (each for each in members if name or each.morning == first.morning)
        yield _Program(name=name, night=first.night, morning=first.morning, members=tuple(together))


def _timetable(setting: Setting, program: _Program, follows: datetime | None) -> Timetable:
    """The program in its night, done before the next of that night begins, if any (`follows`)."""
    found = [
        (each, night_run(setting, each.zone, each.facts, (each.morning - program.morning).days))
        for each in program.members
    ]
    runs = tuple(run for _, run in found if run is not None)
    loads = [run.load for run in runs]
    slots = rotation(loads)
    ends_by = None if program.night is None else minute_before(follows or program.night.ends)
    table = Timetable(
        name=program.name,
        morning=program.morning,
        night=program.night,
        runs=runs,
        unknown=tuple(each.zone.zone for each, run in found if run is None),
        slots=slots,
        needed_minutes=elapsed_minutes(slots),
        ends_by=ends_by,
        is_followed=follows is not None,
    )
    if not table.missing_minutes:
        return table
    return table.with_slots(rotation(cut_to(loads, table.open_minutes or 0)))


def _told(setting: Setting, clock: Clock | None, table: Timetable) -> ProgramRun:
    return ProgramRun(
        program=table.name,
        zones=tuple(run.zone.zone for run in table.runs if run.load),
        morning=table.morning,
        starts=_shown(clock, table.starts),
        ends=_shown(clock, table.ends),
        sunrise=_shown(clock, table.sunrise),
        elapsed_minutes=table.needed_minutes,
        allowed_minutes=table.allowed_minutes,
        shortfall_minutes=table.shortfall_minutes,
        timer=tuple(_timer(clock, table)),
        words=timetable_words(setting, clock, table),
    )


def _timer(clock: Clock | None, table: Timetable) -> Iterator[TimerStart]:
    for slot in table.slots:
        zone = table.runs[slot.load].zone
        first = table.starts
        yield TimerStart(
            zone=zone.zone,
            zone_id=zone.zone_id,
            number=zone.number,
            cycle=slot.part.cycle,
            starts=None if first is None else _shown(clock, first + slot.at_minute * MINUTE),
            minutes=slot.part.minutes,
        )


def _shown(clock: Clock | None, at: datetime | None) -> datetime | None:
    """A time as the yard's clocks show it."""
    return None if clock is None or at is None else clock.told(at)
