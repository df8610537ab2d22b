"""The next run of a zone as its timer or its hose is set: when, how long, in how many parts."""

from collections.abc import Sequence
from datetime import date
from itertools import groupby
from operator import itemgetter

from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.water_model import NextRun, ProgramRun, TimerStart
from lawnbook.plan.workings import cycle_minutes_told, run_minutes_told
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import short_day
from lawnbook.yard.records import Zone

MOST_STARTS_IN_A_CELL = 3
"""The first start, and two in a line beneath it."""

BY_HAND = tr("by hand")
NOT_TOLD = tr("no start told")


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneRun:
    """One zone's next run: its date, the timer's starts, depth (in, net), gallons, minutes.

    `parts` are the minutes of each opening of the valve, of one place where a hose is moved over
    `places`; they are empty, and `minutes` None, where no run is known. Thick thatch is wetted
    first, so that `by_cycle`, the minutes of each cycle, may be fewer than parts. `no_start` says
    in a word or two why there is no start: a hose is moved by hand, a program skips the zone.
    """

    on: date | None
    program: str
    starts: tuple[TimerStart, ...]
    parts: tuple[int, ...]
    by_cycle: tuple[int, ...]
    soak_minutes: float
    depth_in: float | None
    gallons: float | None
    places: int = 1
    no_start: str = ""

    @property
    def minutes(self) -> int | None:
        """Minutes of water in all, over all places."""
        return self.places * sum(self.parts) if self.parts else None

    @property
    def cycles(self) -> int:
        """How many cycles the run is split into."""
        return len(self.by_cycle)

    @property
    def clock_times(self) -> tuple[str, ...]:
        """The starts as the yard's clocks show them: "02:21"; none where they are not known."""
        return tuple(f"{each.starts:%H:%M}" for each in self.starts if each.starts is not None)

    @property
    def wets_thatch_first(self) -> bool:
        """Whether the first part only wets the thatch."""
        return len(self.parts) > self.cycles


def run_of(plan: Plan, notebook: Notebook, zone: ZoneWater) -> ZoneRun:
    """The run that the timer puts on where it has the zone in a program, else the zone's next."""
    record = notebook.zones.get(zone.zone_id)
    due = _due(zone)
    hose = record is not None and record.sprinklers == "hose"
    night = next((each for each in plan.programs if _starts_in(each, zone)), None)
    if night is not None:
        return _timed(night, _starts_in(night, zone), zone)
    return ZoneRun(
        on=zone.next_allowed,
        program="" if record is None or hose else record.program.strip(),
        starts=(),
        parts=_even_parts(due),
        by_cycle=_even_parts(due),
        soak_minutes=due.soak_minutes or 0.0,
        depth_in=due.depth_in,
        gallons=due.gallons,
        places=(record.hose_places or 1) if record is not None and hose else 1,
        no_start=BY_HAND if hose else _why_no_start(plan, record),
    )


def cycles_told(run: ZoneRun) -> str:
    """The parts as a timer is set: "2 × 20", "8 + 12 + 20"; a hose's places stand first.

    Of more parts than a cell holds the cycles are told: `starts_told` has the minutes of each.
    """
    if not run.parts:
        return "–"
    if run.places == 1:
        many = len(run.parts) > MOST_STARTS_IN_A_CELL
        return _parts_told(run.by_cycle if many else run.parts)
    each = f"({_parts_told(run.parts)})" if len(run.parts) > 1 else f"{run.parts[0]}"
    return f"{run.places} × {each}"


def starts_told(run: ZoneRun) -> str:
    """All starts with their minutes where they are more than a cell holds.

    "02:21 for 8 min; 02:59 for 12 min; 03:38, 04:17 for 20 min".
    """
    if len(run.clock_times) <= MOST_STARTS_IN_A_CELL:
        return ""
    pairs = zip(run.parts, run.clock_times, strict=True)
    groups = groupby(pairs, key=itemgetter(0))
    return "; ".join(
        tr("{words} for {length} min", words=", ".join((time for _, time in alike)), length=length)
        for length, alike in groups
    )


def first_start(run: ZoneRun) -> str:
    """The clock time of the first start: "02:21"; a dash where the timer has none."""
    return next(iter(run.clock_times), "–")


def further_starts(run: ZoneRun) -> str:
    """The starts after the first: "02:59, 03:38", or how many there are; without one, why not."""
    if not run.clock_times:
        return run.no_start
    _, *further = run.clock_times
    if len(further) < MOST_STARTS_IN_A_CELL:
        return ", ".join(further)
    return tr("and {count} more", count=len(further))


def is_timed(plan: Plan, zone: ZoneWater) -> bool:
    """Whether the timer's clock times of the zone's next run are known."""
    starts = [start for each in plan.programs for start in _starts_in(each, zone)]
    return any(start.starts is not None for start in starts)


def next_depth_in(zone: ZoneWater) -> float:
    """The net depth of a zone's own next watering; 0 where none is planned."""
    return _due(zone).depth_in or 0.0


def _due(zone: ZoneWater) -> NextRun | ZoneWater:
    return zone if zone.next_run is None else zone.next_run


def _why_no_start(plan: Plan, record: Zone | None) -> str:
    """The night on which the zone's own program runs without it, where it does."""
    name = "" if record is None else record.program.strip()
    night = next((each for each in plan.programs if name and each.program == name), None)
    return NOT_TOLD if night is None else tr("skips {morning}", morning=short_day(night.morning))


def _starts_in(night: ProgramRun, zone: ZoneWater) -> tuple[TimerStart, ...]:
    return tuple(each for each in night.timer if each.zone_id == zone.zone_id)


def _timed(night: ProgramRun, starts: Sequence[TimerStart], zone: ZoneWater) -> ZoneRun:
    """What the timer puts on: taken along early or cut short, less than the zone's own next run."""
    due = _due(zone)
    by_cycle = groupby(sorted(starts, key=_cycle), key=_cycle)
    share = _share_given(due, sum(each.minutes for each in starts))
    first = min((each.starts.date() for each in starts if each.starts is not None), default=None)
    allowed = zone.next_allowed
    return ZoneRun(
        on=first or (night.morning if allowed is None else min(night.morning, allowed)),
        program=night.program,
        starts=tuple(starts),
        parts=tuple(each.minutes for each in starts),
        by_cycle=tuple(sum(each.minutes for each in parts) for _, parts in by_cycle),
        soak_minutes=due.soak_minutes or 0.0,
        depth_in=None if due.depth_in is None else share * due.depth_in,
        gallons=None if due.gallons is None else share * due.gallons,
    )


def _share_given(due: NextRun | ZoneWater, minutes: int) -> float:
    """The share of a run that so many minutes are: one where they are those told of it."""
    if not due.run_minutes or minutes == run_minutes_told(due):
        return 1.0
    return minutes / due.run_minutes


def _even_parts(due: NextRun | ZoneWater) -> tuple[int, ...]:
    each = cycle_minutes_told(due)
    whole = run_minutes_told(due)
    if whole is None:
        return ()
    return (each,) * due.cycles if each is not None and due.cycles else (whole,)


def _parts_told(parts: Sequence[int]) -> str:
    """Equal parts as a product: "2 × 20"; others as a sum: "8 + 12 + 20"."""
    if len(set(parts)) == 1:
        return f"{len(parts)} × {parts[0]}"
    if len(parts) > MOST_STARTS_IN_A_CELL:
        return f"{len(parts)} × {min(parts)}–{max(parts)}"
    return " + ".join(str(each) for each in parts)


def _cycle(start: TimerStart) -> int:
    return start.cycle
