"""The next watering and its night in words: figures, other days, rain, the program. No Qt."""

from collections.abc import Sequence
from datetime import date, timedelta

from lawnbook.charts.night import clock
from lawnbook.desk.pages.water_words import often_a_day
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.water_model import NextRun, ProgramRun, RainCredit
from lawnbook.plan.water_rules import WEEKDAYS
from lawnbook.plan.workings import PERCENT, counted, cycle_minutes_told, run_minutes_told
from lawnbook.yard.numbers import day, inches, minutes, short_day

Figure = tuple[str, str]
"""A figure and the words below it."""

PROGRAM_HEADS = ("Zone", "Starts", "Min each")
NEAR_IN = NEAR_SHARE = 0.005
_NO_STRESS = 0.995
UNKNOWN = "–"


def money(amount: float) -> str:
    """An amount in the owner's own currency, which has no sign here: "7.74"."""
    return f"{amount:,.2f}"


def weekday(on: date, today: date) -> str:
    """A day near today: "today", "Wed 17 Jun", with its year where that is another."""
    if on == today:
        return "today"
    told = short_day(on) if on.year == today.year else day(on)
    return f"{WEEKDAYS[on.weekday()]} {told}"


def next_title(run: NextRun, on: date) -> str:
    """The heading over the figures of the next watering."""
    return "Next watering: today" if run.date <= on else f"Next watering: {weekday(run.date, on)}"


def run_figures(run: NextRun, times_a_day: int = 1) -> tuple[Figure, ...]:
    """Depth, run, gallons, money where it is known, and how deep it wets the soil.

    On new turf the run is put down in `times_a_day` parts.
    """
    cost = () if run.cost is None else ((money(run.cost), "of water at your price"),)
    return (
        (inches(run.depth_in), "net depth"),
        _run_figure(run, times_a_day),
        (f"{run.gallons:,.0f} gal", "of water"),
        *cost,
        (inches(run.wets_in, 1), "of soil wetted"),
    )


def _run_figure(run: NextRun, times_a_day: int = 1) -> Figure:
    total, each = run_minutes_told(run), cycle_minutes_told(run)
    if total is None:
        return UNKNOWN, "run: rate not known"
    if run.cycles is None or run.cycles == 1 or each is None:
        return minutes(total), "in one run"
    if times_a_day == run.cycles:
        return f"{run.cycles} × {each} min", often_a_day(times_a_day)
    soak = f", {minutes(run.soak_minutes)} soak between" if run.soak_minutes else ""
    return f"{run.cycles} × {each} min", f"cycles{soak}"


def used_sentence(run: NextRun) -> tuple[str, bool]:
    """How much of the roots' water is used up by then, and whether the grass is short."""
    used = f"{100 * run.share_used:.0f}{PERCENT}" if run.share_used >= NEAR_SHARE else "none"
    share = f"By that dawn {used} of the roots’ water is used up"
    past = ""
    if run.past_roots_in >= NEAR_IN:
        past = f" {inches(run.past_roots_in)} of this watering would drain past the roots."
    if run.stress >= _NO_STRESS:
        return f"{share}; the grass is not short.{past}", False
    draws = f"{100 * run.stress:.0f}{PERCENT}"
    return f"{share}, and the grass draws only {draws} of its full use.{past}", True


def other_days(zone: ZoneWater, on: date) -> tuple[str, ...]:
    """What a watering today, or on the last allowed day before, would be instead."""
    lines = []
    shown = zone.next_run.date if zone.next_run is not None else None
    if zone.today_run is not None and shown != zone.today_run.date:
        lines.append(f"Today instead: {_run_brief(zone.today_run)}.")
    if zone.sooner_run is not None and shown != zone.sooner_run.date:
        lines.append(
            f"Sooner, {weekday(zone.sooner_run.date, on)}, the last day your rule allows before "
            f"the allowance is used up: {_run_brief(zone.sooner_run)}."
        )
    return tuple(lines)


def _run_brief(run: NextRun) -> str:
    figure = _run_figure(run)[0]
    parts = [
        inches(run.depth_in),
        *([] if figure == UNKNOWN else [figure]),
        f"{run.gallons:,.0f} gal",
        *([] if run.cost is None else [f"{money(run.cost)} at your price"]),
    ]
    return ", ".join(parts)


def rain_sentence(credit: RainCredit | None) -> str:
    """What the last week's rain did to the next watering; empty where none fell."""
    if credit is None or credit.fallen_in < NEAR_IN:
        return ""
    fallen = f"Rain of {inches(credit.fallen_in)} in the last week"
    if credit.counted_in < NEAR_IN:
        return f"{fallen} was too little at a time to count."
    part = ""
    if credit.fallen_in - credit.counted_in >= NEAR_IN:
        part = f", {inches(credit.counted_in)} of it counted,"
    if credit.days_moved <= 0:
        return f"{fallen}{part} did not move this."
    return f"{fallen}{part} moved this by {counted(credit.days_moved, 'day')}."


def program_of(plan: Plan, zone: ZoneWater) -> ProgramRun | None:
    """The night in which a zone runs; None where it is not run by the timer."""
    for run in plan.programs:
        if any(start.zone_id == zone.zone_id for start in run.timer):
            return run
    return None


def night_title(run: ProgramRun, on: date) -> str:
    """The heading over a night: "Tonight, program A", "Night to Wed 17 Jun"."""
    if run.morning == on + timedelta(days=1):
        when = "Tonight"
    elif run.morning <= on:
        when = "This morning"
    else:
        when = f"Night to {weekday(run.morning, on)}"
    return f"{when}, program {run.program}" if run.program else when


def night_sentence(run: ProgramRun) -> str:
    """From when to when a program runs, and how long that is."""
    whole = f"{minutes(run.elapsed_minutes)} in all, soaks counted in"
    if run.starts is None or run.ends is None:
        return f"{whole[0].upper()}{whole[1:]}."
    return f"Starts {clock(run.starts)}, done {clock(run.ends)}: {whole}."


def night_rows(run: ProgramRun) -> tuple[tuple[str, tuple[str, str, str]], ...]:
    """A row a zone, by its id: name, clock times of its cycles, minutes of each."""
    by_zone: dict[str, list[tuple[str, str, int]]] = {}
    for start in run.timer:
        when = UNKNOWN if start.starts is None else clock(start.starts)
        by_zone.setdefault(start.zone_id, []).append(
            (f"{start.number} {start.zone}", when, start.minutes)
        )
    rows = []
    for zone_id, starts in by_zone.items():
        times = ", ".join(when for _, when, _ in starts)
        if times.startswith(UNKNOWN):
            times = counted(len(starts), "cycle")
        lengths = [str(each) for _, _, each in starts]
        told = lengths[0] if len(set(lengths)) == 1 else ", ".join(lengths)
        rows.append((zone_id, (starts[0][0], times, told)))
    return tuple(rows)


def other_nights(runs: Sequence[ProgramRun], shown: ProgramRun | None, on: date) -> str:
    """The other programs that are due, in one line; empty where there is none."""
    parts = [f"{night_title(run, on)}: {', '.join(run.zones)}" for run in runs if run is not shown]
    return f"Also due. {'; '.join(parts)}." if parts else ""
