"""What one zone gets in a night: its depth, and its cycles as the openings of a valve."""

from lawnbook.agronomy.soil import WETTING_SOAK_MINUTES, Cycles, split_cycles, wetting_minutes
from lawnbook.frozen import dataclass
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.rotation import Load, Part, whole_minutes
from lawnbook.plan.zone_facts import Setting, ZoneFacts

LEAST_EARLY_IN = 0.05
"""Less than this wets leaves and thatch only: no zone is taken along for it (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NightRun:
    """A zone's part in a night: net depth, and the openings of its valve (none where nothing is
    used up yet).

    `is_wetted` says that thick thatch is wetted first, `days_early` how long before its own day
    the program takes it along.
    """

    zone: ZoneWater
    depth_in: float
    load: Load
    is_wetted: bool
    days_early: int

    @property
    def minutes(self) -> int:
        """How long the valve is open in all."""
        return sum(part.minutes for part in self.load)


def is_timed(zone: ZoneWater, facts: ZoneFacts) -> bool:
    """Whether the minutes of a zone's next run are known."""
    due = zone if zone.next_run is None else zone.next_run
    return facts.rate.in_per_h is not None and bool(due.depth_in) and due.run_minutes is not None


def night_run(
    setting: Setting, zone: ZoneWater, facts: ZoneFacts, days_early: int
) -> NightRun | None:
    """What a zone gets when its program runs so many days before its own day.

    Taken along early, it gets what it has used by then, which is less by the days' use; dormant
    turf, watered by the calendar, its whole depth. None where its rate, and so its minutes, are
    not known.
    """
    due = zone if zone.next_run is None else zone.next_run
    rate, depth, minutes = facts.rate.in_per_h, due.depth_in, due.run_minutes
    if rate is None or not depth or minutes is None:
        return None
    by_the_roots = zone.rule == "deep"
    use_in_per_day = (zone.etc_in_per_day or 0.0) * setting.share_of_etc if by_the_roots else 0.0
    saved_in = use_in_per_day * days_early
    needed_in = max(0.0, depth - saved_in)
    if days_early > 0 and needed_in < LEAST_EARLY_IN:
        return NightRun(zone=zone, depth_in=0.0, load=(), is_wetted=False, days_early=days_early)
    cycles = split_cycles(minutes * needed_in / depth, rate, facts.soil, facts.zone.slope_pct)
    ahead = _ahead_minutes(zone, facts, cycles, rate)
    return NightRun(
        zone=zone,
        depth_in=needed_in,
        load=_load(cycles, ahead),
        is_wetted=ahead > 0,
        days_early=days_early,
    )


def _ahead_minutes(zone: ZoneWater, facts: ZoneFacts, cycles: Cycles, rate: float) -> int:
    """Whole minutes of the first cycle that wet dry thatch; what is watered daily stays moist."""
    each = whole_minutes(cycles.minutes_each)
    if zone.interval_days == 1 or each == 1:
        return 0
    ahead = wetting_minutes(cycles.minutes_each, rate, facts.roots.thatch_in)
    return min(whole_minutes(ahead), each - 1)


def _load(cycles: Cycles, ahead: int) -> Load:
    each, soak = whole_minutes(cycles.minutes_each), whole_minutes(cycles.soak_minutes)
    first = [Part(1, ahead, whole_minutes(WETTING_SOAK_MINUTES))] if ahead else []
    rest = [Part(cycle, each, soak) for cycle in range(2, cycles.count + 1)]
    return (*first, Part(1, each - ahead, soak), *rest)
