"""What the water page says, as plain words made of plan figures. No Qt, no reckoning here."""

from collections.abc import Sequence
from datetime import date

from lawnbook.agronomy.precipitation import DEFAULT_DU_LQ
from lawnbook.desk.telling import either
from lawnbook.plan.assumed import usual_rate_in
from lawnbook.plan.due import names_told
from lawnbook.plan.model import MonthWater, Plan, ZoneWater
from lawnbook.plan.water_model import Stretch
from lawnbook.plan.water_rules import WEEKDAYS
from lawnbook.plan.workings import cycle_minutes_told, run_minutes_told
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told, trimmed, unit_shown
from lawnbook.yard.numbers import day, inches, minutes, plain, short_day
from lawnbook.yard.records import Zone

Watering = ZoneWater | MonthWater

UNKNOWN_RUN = tr("How long to run cannot be said until the precipitation rate is known.")
ASSUMED_MARK = " *"
"""Behind the name of a zone some of whose figures rest on assumed values."""

STALE = tr("The catch test is older than a change of heads or pressure.")


def table_heads() -> tuple[str, ...]:
    """The heads of the table of all zones."""
    rate = tr("Rate\n{unit}", unit=unit_shown("in/h"))
    depth = tr("Depth\n{unit}", unit=unit_shown("in"))
    run = (tr("Run\nmin"), tr("Cycles of\nmin (soak)"), tr("Every\ndays"))
    water = tr("Water\n{unit}", unit=unit_shown("gal"))
    return (tr("Zone"), rate, depth, *run, water, tr("Next"))


def every(days: int) -> str:
    """An interval in words: "every day", "every 3 days"."""
    return tr("every day") if days == 1 else tr("every {days} days", days=days)


def watering_sentence(watering: Watering) -> str:
    """Depth, interval, run and gallons of the waterings planned; or that no run can be told."""
    if watering.depth_in is None or watering.interval_days is None:
        return tr("No watering is planned.")
    lead = tr(
        "Water {depth_in} {every}",
        depth_in=inches(watering.depth_in),
        every=every(watering.interval_days),
    )
    gallons = "" if watering.gallons is None else f", {volume_words(watering.gallons)}"
    run = run_minutes_told(watering)
    if run is None:
        return f"{lead}{gallons}. {UNKNOWN_RUN}"
    return f"{lead}: {_run_words(watering, run)}{gallons}."


def volume_words(gallons: float) -> str:
    """Water in whole words: "1,204 gallons", "4,558 litres"."""
    number = bare(gallons, 0, "gal")
    us = tr("{number} gallons", number=number)
    return either(us, tr("{number} litres", number=number))


def _run_words(watering: Watering, run: int) -> str:
    """How one watering is run: "3 cycles of 9 min with 21 min soak"."""
    each = cycle_minutes_told(watering)
    if watering.cycles is None or watering.cycles == 1 or each is None:
        return tr("{run} in one run", run=minutes(run))
    if times_a_day(watering) == watering.cycles:
        return f"{minutes(each)} {often_a_day(watering.cycles)}"
    soak = (
        tr(" with {soak_minutes} soak", soak_minutes=minutes(watering.soak_minutes))
        if watering.soak_minutes
        else ""
    )
    return tr(
        "{cycles} cycles of {each}{soak}", cycles=watering.cycles, each=minutes(each), soak=soak
    )


def times_a_day(watering: Watering) -> int:
    """In how many parts a watering day's water is put down: 1, or more on new turf."""
    if isinstance(watering, MonthWater):
        return watering.times_a_day
    return watering.establishing.times_a_day if watering.establishing is not None else 1


def often_a_day(times: int) -> str:
    """How often on one day: "twice that day"."""
    words = {
        1: tr("once that day"),
        2: tr("twice that day"),
        3: tr("three times that day"),
    }
    return words.get(times) or tr("{times} times that day", times=times)


def answer_sentence(zone: ZoneWater, on: date, *, tonight: bool = False) -> str:
    """The answer on top of the page: how deep, how often, how to run it and when next.

    `tonight` says that a timer runs the zone in the night that follows.
    """
    if zone.depth_in is None or zone.interval_days is None:
        lead = tr("No watering is planned")
        if lead.lower() in zone.reason.lower():
            return zone.reason
        return f"{lead}: {_lowered(zone.reason)}" if zone.reason else f"{lead}."
    return f"{watering_sentence(zone)}\n{next_words(zone, on, tonight=tonight)}".strip()


def next_words(zone: ZoneWater, on: date, *, tonight: bool = False) -> str:
    """The day to water next, as a sentence that names the owner's rule where it decides.

    What is due and run by the timer `tonight` is told as one watering. Empty when none is
    planned, or when the rule leaves none: the zone's notes then say so.
    """
    following = zone.next_allowed
    if following is None:
        return ""
    if tonight and following <= on:
        return tr("Due today: tonight’s run.")
    told = short_day(following) if following.year == on.year else day(following)
    when = tr("today") if following <= on else f"{tr(WEEKDAYS[following.weekday()])} {told}"
    ruled = tr(", as your rule allows") if following != zone.next_watering else ""
    early = tr(", taken along tonight") if tonight and (following - on).days > 1 else ""
    return tr("Next: {when}{early}{ruled}.", when=when, early=early, ruled=ruled)


def rate_sentence(zone: ZoneWater) -> str:
    """Where the precipitation rate comes from, and how even the water falls."""
    if zone.precipitation_rate_in_per_h is None or zone.rate_source is None:
        if zone.depth_in is not None and zone.reason:
            return zone.reason
        if not zone.irrigated:
            return tr("Not irrigated: no rate is needed.")
        return tr(
            "No precipitation rate yet: set out cans, or enter a metered flow or a rate below."
        )
    origin = {
        "catch test": tr("from the catch test"),
        "meter": tr("from the metered flow"),
        "heads": tr("from the flows of its heads"),
        "typed": tr("as typed"),
    }[zone.rate_source]
    usual = usual_rate_in(zone.defaults)
    if usual:
        origin = tr("assumed, the {usual_rate}", usual_rate=usual)
    evenness = (
        tr("lowest quarter {du_lq:.2f} of the mean", du_lq=zone.du_lq)
        if zone.du_lq is not None
        else tr("evenness never measured, {default_du_lq:g} assumed", default_du_lq=DEFAULT_DU_LQ)
    )
    stale = tr(" {stale} Set out the cans again.", stale=STALE) if zone.rate_stale else ""
    return f"{told(zone.precipitation_rate_in_per_h, 2, 'in/h')} {origin}; {evenness}.{stale}"


def roots_now_sentence(zone: ZoneWater) -> str:
    """What the roots bear at a time now, and how long that lasts where they set the pace."""
    assumed = tr(" (assumed until the first plug)") if zone.roots_are_default else ""
    words = tr(
        "Roots reach {rooted_soil_in} into the soil{assumed} and bear up to "
        "{bearable_depth_in} at a time",
        rooted_soil_in=inches(zone.rooted_soil_in, 1),
        assumed=assumed,
        bearable_depth_in=inches(zone.bearable_depth_in),
    )
    if zone.limited_by == "one day":
        return tr("{words}, less than one day's use.", words=words)
    if zone.limited_by == "roots" and zone.interval_days and zone.depth_in is not None:
        # The depth watered is what those whole days use, so it is less than what is borne.
        use = tr(
            "{days} of use, {depth_in}",
            days=_days(zone.interval_days),
            depth_in=inches(zone.depth_in),
        )
        return tr("{words}, which covers {use}.", words=words, use=use)
    return f"{words}."


def target_sentence(zone: ZoneWater) -> str:
    """What the target depth asks of the roots, and how far there is to go."""
    often = f" {every(zone.target_interval_days)}" if zone.target_interval_days else ""
    words = tr(
        "The target of {trimmed}{often}",
        trimmed=trimmed(zone.target_depth_in, 2, "in"),
        often=often,
    )
    # Of the figures as they are shown, so that the three of them add up.
    missing = round(zone.roots_needed_in, 1) - round(zone.rooted_soil_in, 1)
    if missing <= 0:
        return tr("{words} is within what these roots bear.", words=words)
    return tr(
        "{words} needs roots {roots_needed_in} into the soil: {missing} to go.",
        words=words,
        roots_needed_in=inches(zone.roots_needed_in, 1),
        missing=inches(missing, 1),
    )


def unwatered_sentence(zones: Sequence[ZoneWater]) -> str:
    """Why some of several zones get no water, each reason once; empty where all are watered.

    Of a single zone the answer on top says it already.
    """
    if len(zones) < 2:
        return ""
    names: dict[str, list[str]] = {}
    for zone in zones:
        if zone.depth_in is None:
            names.setdefault(zone.reason, []).append(zone.zone)
    parts = []
    for reason, without in names.items():
        every_one = len(without) == len(zones)
        whom = (
            tr("None is watered")
            if every_one
            else tr("{names_told} not watered", names_told=names_told(without))
        )
        why = reason.removesuffix(": no watering is planned.").rstrip(".")
        parts.append(f"{whom}: {_lowered(why)}." if why else f"{whom}.")
    return " ".join(parts)


def assumed_sentence(zones: Sequence[ZoneWater]) -> str:
    """What the mark in the table stands for: the values assumed, and in which zones."""
    names: dict[tuple[str, ...], list[str]] = {}
    for zone in zones:
        if zone.defaults:
            names.setdefault(zone.defaults, []).append(zone.zone)
    parts = []
    for defaults, assuming in names.items():
        whom = "" if len(assuming) == len(zones) else f" ({names_told(assuming)})"
        parts.append(f"{', '.join(defaults)}{whom}")
    mark = tr("{assumed_mark} assumed until measured or entered", assumed_mark=ASSUMED_MARK.strip())
    return f"{mark}: {'; '.join(parts)}." if parts else ""


def first_needs(zone: Zone, water: ZoneWater) -> tuple[str, str]:
    """What a zone's figures need first, as sentences: of its ground, and of its rate.

    Empty where nothing is missing. A zone that is never watered needs neither.
    """
    if not zone.irrigated:
        return "", ""
    ground = tr(
        "Say first what ground this is: soil, slope and grass decide how deep and how "
        "often. Until the soil is entered, loam is assumed."
    )
    rate = tr(
        "How long to run follows from how fast the water falls: set out some cans, run "
        "the zone, and type here what they caught."
    )
    known = water.precipitation_rate_in_per_h is not None
    return "" if zone.soil else ground, "" if known else rate


def crowns_sentence(thatch_in: float) -> str:
    """From where the depths of the steps are counted, and what the share used up is of."""
    over = (
        tr(", {thatch_in} of thatch among it", thatch_in=inches(thatch_in, 1))
        if round(thatch_in, 1) > 0
        else ""
    )
    return tr(
        "Depths of roots are as on the plug, from the crowns down{over}. “Would use "
        "up” is of the water that today’s roots hold.",
        over=over,
    )


def thatch_over_roots_in(stretch: Stretch) -> float:
    """Today's thatch as the steps count it: roots needed from the crowns less those in the soil."""
    first = stretch.steps[0]
    return max(0.0, first.root_depth_needed_in - first.rooted_soil_needed_in)


def growth_sentence(stretch: Stretch) -> str:
    """How fast the roots go down by the plugs, and when plugs can next tell."""
    growth = stretch.growth_in_per_year
    if growth is None:
        told = tr("How fast the roots go down cannot be told from these plugs yet.")
    elif growth <= 0:
        told = tr("By these plugs the roots are not getting deeper.")
    else:
        told = tr("By these plugs the roots go down {growth} a year.", growth=inches(growth, 1))
    due = (
        ""
        if stretch.plug_due is None
        else tr(" Next plugs: {plug_due}.", plug_due=day(stretch.plug_due))
    )
    return f"{told}{due}"


def attention(zone: ZoneWater, plan: Plan) -> dict[str, str]:
    """For each section that can be marked, why it wants a look; "" where it does not."""
    run = next((r for r in plan.programs if any(t.zone_id == zone.zone_id for t in r.timer)), None)
    short = tr("The night is too short for this program.") if run and run.shortfall_minutes else ""
    sprinklers = ""
    if zone.irrigated and zone.precipitation_rate_in_per_h is None:
        sprinklers = tr("How fast the water falls is not known yet.")
    elif zone.rate_stale:
        sprinklers = STALE
    return {"Now": short, "Sprinklers": sprinklers}


def rooting_reminder(zone: ZoneWater) -> str:
    """That new turf goes by its own rule yet, not by its months'; empty where it has rooted."""
    rooting = zone.establishing
    if rooting is None:
        return ""
    return tr(
        "Until {until} the rule of new {how} takes the place of these.",
        until=day(rooting.until),
        how=tr(rooting.how),
    )


def month_sentence(month: MonthWater) -> str:
    """One month of the strip in words."""
    if month.depth_in is None or month.interval_days is None:
        return month.reason or tr("No watering is planned.")
    return watering_sentence(month)


def table_row(zone: ZoneWater, on: date) -> tuple[str, ...]:
    """The cells of a zone in the table of all zones, in the order of `table_heads`."""
    return (
        f"{zone.number} {zone.zone}{ASSUMED_MARK if zone.defaults else ''}",
        _rate_cell(zone),
        "–" if zone.depth_in is None else bare(zone.depth_in, 2, "in"),
        _figure(run_minutes_told(zone), 0),
        _cycles_cell(zone),
        "–" if zone.interval_days is None else str(zone.interval_days),
        "–" if zone.gallons is None else bare(zone.gallons, 0, "gal"),
        _next_cell(zone.next_allowed, on),
    )


def row_description(zone: ZoneWater, on: date) -> str:
    """A zone's row as sentences, for its tooltip and for a screen reader."""
    parts = (
        answer_sentence(zone, on),
        rate_sentence(zone),
        *zone.notes,
    )
    return " ".join(part for part in parts if part)


def settings_summary(zone: Zone) -> str:
    """A zone's settings in one short line: grass, soil, slope."""
    soil = tr(zone.soil) if zone.soil else tr("soil not entered")
    cool = zone.grass == "cool"
    season = tr("cool season grass") if cool else tr("warm season grass")
    grass = tr(zone.species) if zone.species else season
    return ", ".join((grass, soil, tr("{slope_pct} % slope", slope_pct=plain(zone.slope_pct))))


def _rate_cell(zone: ZoneWater) -> str:
    if zone.precipitation_rate_in_per_h is None or zone.rate_source is None:
        return "–"
    origin = {
        "catch test": tr("cans"),
        "meter": tr("meter"),
        "heads": tr("heads"),
        "typed": tr("typed"),
    }
    # Only a catch test goes stale.
    source = tr("stale") if zone.rate_stale else origin[zone.rate_source]
    if usual_rate_in(zone.defaults):
        source = tr("assumed")
    return f"{bare(zone.precipitation_rate_in_per_h, 2, 'in/h')} {source}"


def _next_cell(following: date | None, on: date) -> str:
    if following is None:
        return "–"
    return tr("today") if following <= on else short_day(following)


def _cycles_cell(zone: ZoneWater) -> str:
    each = cycle_minutes_told(zone)
    if zone.cycles is None or each is None:
        return "–"
    soak = f" ({_figure(zone.soak_minutes, 0)})" if zone.soak_minutes else ""
    return f"{zone.cycles} × {each}{soak}"


def _days(days: int) -> str:
    return tr("one whole day") if days == 1 else tr("{days} whole days", days=days)


def _figure(value: float | None, places: int) -> str:
    return "–" if value is None else f"{value:,.{places}f}"


def _lowered(sentence: str) -> str:
    """A sentence as the tail of another; a name or an abbreviation in front keeps its capital."""
    return sentence[:1].lower() + sentence[1:] if sentence[1:2].islower() else sentence
