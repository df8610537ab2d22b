"""What the water page says, as plain words made of plan figures. No Qt, no reckoning here."""

from collections.abc import Sequence
from datetime import date

from lawnbook.agronomy.precipitation import DEFAULT_DU_LQ
from lawnbook.plan.due import names_told
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.yard.numbers import day, inches, minutes, plain, short_day
from lawnbook.yard.records import Zone

MONTH_NAMES = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

Watering = ZoneWater | MonthWater

TABLE_HEADS = (
    "Zone",
    "Rate\nin/h",
    "Depth\nin",
    "Run\nmin",
    "Cycles of\nmin (soak)",
    "Every\ndays",
    "Water\ngal",
    "Next",
)


def every(days: int) -> str:
    """An interval in words: "every day", "every 3 days"."""
    return "every day" if days == 1 else f"every {days} days"


def run_words(watering: Watering) -> str:
    """How one watering is run: "3 cycles of 9 min with 21 min soak", or why it cannot be said."""
    if watering.run_minutes is None:
        return "how long to run is unknown until the precipitation rate is"
    if watering.cycles is None or watering.cycles == 1 or watering.minutes_per_cycle is None:
        return f"{minutes(watering.run_minutes)} in one run"
    soak = f" with {minutes(watering.soak_minutes)} soak" if watering.soak_minutes else ""
    return f"{watering.cycles} cycles of {minutes(watering.minutes_per_cycle)}{soak}"


def gallons_words(gallons: float | None) -> str:
    """Gallons with thousands parted, or nothing."""
    return "" if gallons is None else f", {gallons:,.0f} gallons"


def answer_sentence(zone: ZoneWater, on: date) -> str:
    """The answer on top of the page: how deep, how often, how to run it and when next."""
    if zone.depth_in is None or zone.interval_days is None:
        lead = "No watering is planned"
        return f"{lead}: {_lowered(zone.reason)}" if zone.reason else f"{lead}."
    words = (
        f"Water {inches(zone.depth_in)} {every(zone.interval_days)}: "
        f"{run_words(zone)}{gallons_words(zone.gallons)}."
    )
    return f"{words}\n{next_words(zone.next_watering, on)}".strip()


def next_words(next_watering: date | None, on: date) -> str:
    """When the next watering is due, as a sentence; empty when none is planned."""
    if next_watering is None:
        return ""
    if next_watering <= on:
        return "Next: today."
    told = short_day(next_watering) if next_watering.year == on.year else day(next_watering)
    return f"Next: {WEEKDAYS[next_watering.weekday()]} {told}."


def rate_sentence(zone: ZoneWater) -> str:
    """Where the precipitation rate comes from, and how even the water falls."""
    if zone.precipitation_rate_in_per_h is None or zone.rate_source is None:
        if zone.depth_in is not None and zone.reason:
            return zone.reason
        return "No precipitation rate yet: set out cans, or enter a metered flow or a rate below."
    origin = {
        "catch test": "from the catch test",
        "meter": "from the metered flow",
        "heads": "from the flows of its heads",
        "typed": "as typed",
    }[zone.rate_source]
    evenness = (
        f"lower quarter {zone.du_lq:.2f} of the mean"
        if zone.du_lq is not None
        else f"evenness never measured, {DEFAULT_DU_LQ:g} assumed"
    )
    return f"{zone.precipitation_rate_in_per_h:.2f} in/h {origin}; {evenness}."


def roots_now_sentence(zone: ZoneWater) -> str:
    """What the roots bear at a time now, and how long that lasts where they set the pace."""
    assumed = " (assumed until the first plug)" if zone.roots_are_default else ""
    words = (
        f"Roots reach {inches(zone.rooted_soil_in, 1)} into the soil{assumed} "
        f"and bear {inches(zone.bearable_depth_in)} at a time"
    )
    if zone.limited_by == "one day":
        return f"{words}, less than one day's use."
    if zone.limited_by == "roots" and zone.interval_days:
        return f"{words}, enough for {_days(zone.interval_days)}."
    return f"{words}."


def target_sentence(zone: ZoneWater) -> str:
    """What the target depth asks of the roots, and how far there is to go."""
    often = f" {every(zone.target_interval_days)}" if zone.target_interval_days else ""
    words = f"The target of {plain(zone.target_depth_in)} in{often}"
    # Of the figures as they are shown, so that the three of them add up.
    missing = round(zone.roots_needed_in, 1) - round(zone.rooted_soil_in, 1)
    if missing <= 0:
        return f"{words} is within what these roots bear."
    return (
        f"{words} needs roots {inches(zone.roots_needed_in, 1)} into the soil: "
        f"{inches(missing, 1)} to go."
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
        whom = "None is watered" if every_one else f"{names_told(without)} not watered"
        parts.append(f"{whom}: {_lowered(reason)}" if reason else f"{whom}.")
    return " ".join(parts)


def month_sentence(month: MonthWater) -> str:
    """One month of the strip in words."""
    if month.depth_in is None or month.interval_days is None:
        return month.reason or "No watering is planned."
    return (
        f"{inches(month.depth_in)} {every(month.interval_days)}: "
        f"{run_words(month)}{gallons_words(month.gallons)}."
    )


def table_row(zone: ZoneWater, on: date) -> tuple[str, ...]:
    """The cells of a zone in the table of all zones, in the order of `TABLE_HEADS`."""
    return (
        f"{zone.number} {zone.zone}",
        _rate_cell(zone),
        _figure(zone.depth_in, 2),
        _figure(zone.run_minutes, 0),
        _cycles_cell(zone),
        "–" if zone.interval_days is None else str(zone.interval_days),
        _figure(zone.gallons, 0),
        _next_cell(zone.next_watering, on),
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
    soil = zone.soil or "soil not entered"
    grass = zone.species or f"{zone.grass} season grass"
    return ", ".join((grass, soil, f"{plain(zone.slope_pct)} % slope"))


def _rate_cell(zone: ZoneWater) -> str:
    if zone.precipitation_rate_in_per_h is None or zone.rate_source is None:
        return "–"
    origin = {"catch test": "cans", "meter": "meter", "heads": "heads", "typed": "typed"}
    stale = ", stale" if zone.rate_stale else ""
    return f"{zone.precipitation_rate_in_per_h:.2f} {origin[zone.rate_source]}{stale}"


def _next_cell(next_watering: date | None, on: date) -> str:
    if next_watering is None:
        return "–"
    return "today" if next_watering <= on else short_day(next_watering)


def _cycles_cell(zone: ZoneWater) -> str:
    if zone.cycles is None or zone.minutes_per_cycle is None:
        return "–"
    soak = f" ({_figure(zone.soak_minutes, 0)})" if zone.soak_minutes else ""
    return f"{zone.cycles} × {_figure(zone.minutes_per_cycle, 0)}{soak}"


def _days(days: int) -> str:
    return "one day" if days == 1 else f"{days} days"


def _figure(value: float | None, places: int) -> str:
    return "–" if value is None else f"{value:,.{places}f}"


def _lowered(sentence: str) -> str:
    """A sentence as the tail of another; a name or an abbreviation in front keeps its capital."""
    return sentence[:1].lower() + sentence[1:] if sentence[1:2].islower() else sentence
