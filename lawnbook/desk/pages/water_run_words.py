"""The next watering and its night in words: figures, other days, rain, the program. No Qt."""

from collections.abc import Sequence
from datetime import date, timedelta

from lawnbook.charts.night import clock
from lawnbook.desk.pages.water_words import often_a_day
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.water_model import NextRun, ProgramRun, RainCredit
from lawnbook.plan.water_rules import WEEKDAYS
from lawnbook.plan.workings import PERCENT, counted, cycle_minutes_told, run_minutes_told
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import day, inches, minutes, short_day

Figure = tuple[str, str]
"""A figure and the words below it."""

PROGRAM_HEADS = (tr("Zone"), tr("Starts"), tr("Minutes"))
NEAR_IN = NEAR_SHARE = 0.005
_NO_STRESS, _ALL, _NOTHING = 0.995, 0.995, 0.005
UNKNOWN = "–"
IN_ONE_RUN = tr("in one run")


def money(amount: float) -> str:
    """An amount in the owner's own currency, which has no sign here: "7.74"."""
    return f"{amount:,.2f}"


def weekday(on: date, today: date) -> str:
    """A day near today: "today", "Wed 17 Jun", with its year where that is another."""
    if on == today:
        return tr("today")
    told = short_day(on) if on.year == today.year else day(on)
    return f"{tr(WEEKDAYS[on.weekday()])} {told}"


def next_title(run: NextRun, on: date, night: ProgramRun | None = None) -> str:
    """The heading over the figures of the next watering; `night` is the zone's, if a timer runs it.

    What is due today, or by tomorrow's dawn, and what the timer does tonight are one watering.
    """
    if night is not None and is_tonight(night, on):
        if run.date <= on:
            return tr("Due today: tonight’s run")
        if run.date == night.morning:
            return tr("Next watering: tonight, by {weekday}", weekday=weekday(run.date, on))
    return (
        tr("Next watering: today")
        if run.date <= on
        else tr("Next watering: {weekday}", weekday=weekday(run.date, on))
    )


def along_sentence(zone: ZoneWater, night: ProgramRun | None, on: date) -> str:
    """That the timer runs a zone before its own day, and why for less; empty where it does not."""
    run = zone.next_run
    if run is None or night is None or night.morning >= run.date:
        return ""
    when = (
        tr("tonight")
        if is_tonight(night, on)
        else tr("by {weekday}", weekday=weekday(night.morning, on))
    )
    early = counted((run.date - night.morning).days, "day")
    given = sum(start.minutes for start in night.timer if start.zone_id == zone.zone_id)
    own = run_minutes_told(run)
    less = own is not None and given < own
    minutes_told = (
        tr("{given} min, not {own}, as less is used up by then", given=given, own=own)
        if less
        else ""
    )
    how = f": {minutes_told or minutes(given)}"
    return tr(
        "The timer does it {when}, {early} early, with the rest of its program{how}. "
        "That run takes the place of this one.",
        when=when,
        early=early,
        how=how,
    )


def unusual_sentence(zone: ZoneWater) -> str:
    """That the next run is of another depth than the usual one; empty where it is the usual."""
    run, usual = zone.next_run, zone.depth_in
    if run is None or usual is None or zone.rule != "deep" or inches(run.depth_in) == inches(usual):
        return ""
    return tr(
        "{depth_in} this time, not the usual {usual}: by what is used up.",
        depth_in=inches(run.depth_in),
        usual=inches(usual),
    )


def run_figures(run: NextRun, times_a_day: int = 1, places: int = 1) -> tuple[Figure, ...]:
    """Depth, run, gallons, money where it is known, and how deep it wets the soil.

    On new turf the run is put down in `times_a_day` parts; a sprinkler on a hose runs so at each
    of its `places`.
    """
    cost = () if run.cost is None else ((money(run.cost), tr("cost, at your price")),)
    return (
        (inches(run.depth_in), tr("net depth")),
        _at_places(_run_figure(run, times_a_day), places),
        (told(run.gallons, 0, "gal"), tr("of water")),
        *cost,
        (inches(run.wets_in, 1), tr("of soil wetted")),
    )


def _run_figure(run: NextRun, times_a_day: int = 1) -> Figure:
    total, each = run_minutes_told(run), cycle_minutes_told(run)
    if total is None:
        return UNKNOWN, tr("run: rate not known")
    if run.cycles is None or run.cycles == 1 or each is None:
        return minutes(total), IN_ONE_RUN
    if times_a_day == run.cycles:
        return f"{run.cycles} × {each} min", often_a_day(times_a_day)
    soak = (
        tr(", {soak_minutes} soak between", soak_minutes=minutes(run.soak_minutes))
        if run.soak_minutes
        else ""
    )
    return f"{run.cycles} × {each} min", tr("cycles{soak}", soak=soak)


def _at_places(figure: Figure, places: int) -> Figure:
    if places == 1 or figure[0] == UNKNOWN:
        return figure
    value, words = figure
    told = tr("at each of {places} places", places=places)
    return value, told if words == IN_ONE_RUN else f"{words}, {told}"


def used_sentence(run: NextRun) -> tuple[str, bool]:
    """How much of the roots' water is used up by then, and whether the grass is short."""
    share = _share_told(run.share_used)
    past = ""
    if run.past_roots_in >= NEAR_IN:
        past = tr(
            " {past_roots_in} of this watering would drain past the roots.",
            past_roots_in=inches(run.past_roots_in),
        )
    if run.stress >= _NO_STRESS:
        return tr("{share}; the grass is not short.{past}", share=share, past=past), False
    if run.stress < _NOTHING:
        return tr("{share}, and the grass can draw no more.{past}", share=share, past=past), True
    draws = f"{100 * run.stress:.0f}{PERCENT}"
    return tr(
        "{share}, and the grass draws only {draws} of its full use.{past}",
        share=share,
        draws=draws,
        past=past,
    ), True


def _share_told(used: float) -> str:
    """What is used up of the roots' water, in a whole text for none, for all and for a share."""
    if used < NEAR_SHARE:
        return tr("By that dawn none of the roots’ water is used up")
    if used >= _ALL:
        return tr("By that dawn all of the roots’ water is used up")
    percent = f"{100 * used:.0f}{PERCENT}"
    return tr("By that dawn {used} of the roots’ water is used up", used=percent)


def other_days(zone: ZoneWater, on: date) -> tuple[str, ...]:
    """What a watering today, or on the last allowed day before, would be instead."""
    lines = []
    shown = zone.next_run.date if zone.next_run is not None else None
    sooner = zone.sooner_run.date if zone.sooner_run is not None else None
    if zone.today_run is not None and zone.today_run.date not in (shown, sooner):
        lines.append(tr("Today instead: {run_brief}.", run_brief=_run_brief(zone.today_run)))
    if zone.sooner_run is not None and sooner != shown:
        lines.append(
            tr(
                "Sooner, {weekday}, the last day your rule allows before the allowance is used "
                "up: {run_brief}.",
                weekday=weekday(zone.sooner_run.date, on),
                run_brief=_run_brief(zone.sooner_run),
            )
        )
    return tuple(lines)


def _run_brief(run: NextRun) -> str:
    figure = _run_figure(run)[0]
    parts = [
        inches(run.depth_in),
        *([] if figure == UNKNOWN else [figure]),
        told(run.gallons, 0, "gal"),
        *([] if run.cost is None else [tr("{money} at your price", money=money(run.cost))]),
    ]
    return ", ".join(parts)


def rain_sentence(credit: RainCredit | None) -> str:
    """What the last week's rain did to the next watering; empty where none fell."""
    if credit is None or credit.fallen_in < NEAR_IN:
        return ""
    fallen = tr("Rain of {fallen_in} in the last week", fallen_in=inches(credit.fallen_in))
    if credit.counted_in < NEAR_IN:
        return tr("{fallen} was too little at a time to count.", fallen=fallen)
    part = ""
    if credit.fallen_in - credit.counted_in >= NEAR_IN:
        part = tr(", {counted_in} of it counted,", counted_in=inches(credit.counted_in))
    if credit.days_moved <= 0:
        return tr("{fallen}{part} did not change the day.", fallen=fallen, part=part)
    return tr(
        "{fallen}{part} moved this by {days}.",
        fallen=fallen,
        part=part,
        days=counted(credit.days_moved, "day"),
    )


def program_of(plan: Plan, zone: ZoneWater) -> ProgramRun | None:
    """The night in which a zone runs; None where it is not run by the timer."""
    for run in plan.programs:
        if any(start.zone_id == zone.zone_id for start in run.timer):
            return run
    return None


def night_title(run: ProgramRun, on: date) -> str:
    """The heading over a night: "Tonight, program A", "Night of Tue 16 to Wed 17 Jun"."""
    if is_tonight(run, on):
        when = tr("Tonight")
    elif run.morning <= on:
        when = tr("This morning")
    else:
        when = tr(
            "Night of {evening} to {weekday}",
            evening=_evening(run.morning),
            weekday=weekday(run.morning, on),
        )
    return tr("{when}, program {program}", when=when, program=run.program) if run.program else when


def is_tonight(run: ProgramRun, on: date) -> bool:
    """Whether a program runs in the night that follows a day."""
    return run.morning == on + timedelta(days=1)


def runs_tonight(plan: Plan, zone: ZoneWater) -> bool:
    """Whether a timer runs a zone in the night that follows the day of the plan."""
    run = program_of(plan, zone)
    return run is not None and is_tonight(run, plan.on)


def _evening(morning: date) -> str:
    """The evening before a morning, without the month where that is the morning's: "Tue 16"."""
    before = morning - timedelta(days=1)
    told = str(before.day) if before.month == morning.month else short_day(before)
    return f"{tr(WEEKDAYS[before.weekday()])} {told}"


def night_sentence(run: ProgramRun) -> str:
    """From when to when a program runs, and how long that is."""
    whole = tr(
        "{elapsed_minutes} in all, soaks counted in", elapsed_minutes=minutes(run.elapsed_minutes)
    )
    if run.starts is None or run.ends is None:
        return f"{whole[0].upper()}{whole[1:]}."
    return tr(
        "Starts {begin}, done {end}: {whole}.",
        begin=clock(run.starts),
        end=clock(run.ends),
        whole=whole,
    )


def night_rows(run: ProgramRun) -> tuple[tuple[str, tuple[str, str, str]], ...]:
    """A row a zone, by its id: name, clock times of its starts, minutes of each and in all."""
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
        rows.append((zone_id, (starts[0][0], times, _added([each for _, _, each in starts]))))
    return tuple(rows)


def _added(lengths: Sequence[int]) -> str:
    """The minutes of several starts: "3 × 10", "8 + 12 + 20 = 40"."""
    if len(lengths) == 1:
        return str(lengths[0])
    if len(set(lengths)) == 1:
        return f"{len(lengths)} × {lengths[0]}"
    return f"{' + '.join(map(str, lengths))} = {sum(lengths)}"


def other_nights(runs: Sequence[ProgramRun], shown: ProgramRun | None, on: date) -> str:
    """The other programs that are due, in one line; empty where there is none."""
    parts = [f"{night_title(run, on)}: {', '.join(run.zones)}" for run in runs if run is not shown]
    return tr("Also due. {parts}.", parts="; ".join(parts)) if parts else ""
