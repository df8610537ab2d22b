"""What the plugs page says, as plain words made of plan figures. No Qt."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from lawnbook.agronomy.trend import summary
from lawnbook.plan.evidence_words import signed
from lawnbook.plan.limit_words import half_inch
from lawnbook.plan.model import Plan
from lawnbook.plan.next_plugs import NO_ROOM
from lawnbook.plan.plug_model import (
    Finding,
    MeanColumn,
    Place,
    PlugColumn,
    PlugPlace,
    SpotThatch,
    ZoneThatch,
)
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, unit_shown
from lawnbook.yard.fields import field_of
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, inches, plain
from lawnbook.yard.record_plug import Core

UNTREATED = tr("Untreated comparison spot.")
DIG = tr("Have buried lines located before you dig (811 in the US). Hand tools, clear of heads.")
NO_SPOT = tr(
    "No spot yet. A spot is a fixed place where you pull a plug now and then, so "
    "that this year's can be laid beside last year's. Put one where the thatch is "
    "worst, one where it is not."
)
NO_SPOT_HERE = tr(
    "No spot in this zone yet. Put one where its thatch is worst, away from edges, "
    "heads and buried lines; plugs pulled there are what this page shows."
)
OLD_PLACE = tr("Where round the mark it was pulled, if you know it: an hour of the clock, 12 up.")


def shown_of(plan: Plan, place: Place) -> SpotThatch | ZoneThatch | None:
    """What the plan shows of a place; None where it has no plug or is not known."""
    if place.kind == "spot":
        return next((each for each in plan.thatch if each.spot_id == place.id), None)
    if place.kind == "yard":
        return plan.yard_thatch
    return next((each for each in plan.zone_thatch if each.zone_id == place.id), None)


def verdict_of(shown: SpotThatch | ZoneThatch | None) -> str:
    """The verdict on a place in words."""
    if shown is None:
        return tr("Cannot say yet: no plug has been pulled here.")
    evidence = shown.evidence
    if evidence is not None:
        return evidence.verdict
    return shown.verdict if isinstance(shown, SpotThatch) else ""


def workings_of(shown: SpotThatch | ZoneThatch | None) -> tuple[Working, ...]:
    """How the figures of a place came about."""
    if shown is None:
        return ()
    if shown.evidence is None:
        return shown.workings
    told = {each.figure for each in shown.evidence.workings}
    more = shown.workings if isinstance(shown, SpotThatch) else ()
    return (*shown.evidence.workings, *(each for each in more if each.figure not in told))


def figures_told(shown: SpotThatch | ZoneThatch | None, notebook: Notebook) -> str:
    """The figures behind the verdict in one line, and what they can prove."""
    if shown is None:
        return ""
    if isinstance(shown, SpotThatch):
        said = shorter(shown)
        has_interval = shown.ci95 is not None
    else:
        said = shorter_mean(shown.columns)
        has_interval = shown.evidence.ci95 is not None
    return f"{said} {proof(notebook) if has_interval else ''}".strip()


def shorter(spot: SpotThatch) -> str:
    """The figures behind a spot's verdict in one line; empty before the first reading."""
    if spot.latest_in is None or spot.first_in is None:
        return ""
    if spot.change_in is None:
        return tr(
            "Thatch {latest_in} on the one plug read so far.", latest_in=inches(spot.latest_in)
        )
    words = tr(
        "From {first_in} to {latest_in} over {plugs} plugs",
        first_in=inches(spot.first_in),
        latest_in=inches(spot.latest_in),
        plugs=spot.plugs,
    )
    days = 0 if spot.evidence is None else spot.evidence.plugs
    if 0 < days < spot.plugs:
        words += tr(" of {days} days, those of one day counted as one", days=days)
    if spot.half_inch_between is not None and spot.latest_in > 0.5:
        first, last = spot.half_inch_between
        words += tr(
            "; {half_inch} between {first} and {last} at this pace",
            half_inch=half_inch(),
            first=day(first),
            last=day(last),
        )
    return f"{words}."


def shorter_mean(columns: Sequence[MeanColumn]) -> str:
    """The first and the latest round of several spots in one line; empty before the first."""
    read = [each for each in columns if each.thatch_in is not None]
    if not read:
        return ""
    first, latest = read[0], read[-1]
    if first is latest or first.thatch_in is None or latest.thatch_in is None:
        return tr(
            "Mean thatch {thatch_in} in the one round pulled so far.",
            thatch_in=inches(latest.thatch_in or 0.0),
        )
    return tr(
        "Mean from {first_thatch} ({first_spots}) to {last_thatch} ({last_spots}) over {count} "
        "rounds.",
        first_thatch=inches(first.thatch_in),
        first_spots=_spots(first),
        last_thatch=inches(latest.thatch_in),
        last_spots=_spots(latest),
        count=len(read),
    )


def proof(notebook: Notebook) -> str:
    """What these plugs can and cannot prove."""
    if any(spot.comparison for spot in notebook.spots.values()):
        return tr("Read it beside the untreated comparison spot before you credit the repair.")
    return tr("No comparison spot: this shows change, not cause.")


def findings_at(plan: Plan, place: Place, zone_id: str) -> tuple[Finding, ...]:
    """The findings about a place, weightiest first; `zone_id` is a spot's zone.

    A spot is told what is said of its zone and of the yard as well, a zone what is said of its
    spots.
    """
    if place.kind == "yard":
        return plan.findings
    if place.kind == "zone":
        return tuple(each for each in plan.findings if each.zone_id in ("", place.id))
    return tuple(
        each
        for each in plan.findings
        if each.spot_id == place.id or (not each.spot_id and each.zone_id in ("", zone_id))
    )


def about_told(finding: Finding, notebook: Notebook) -> str:
    """What a finding is about: a spot, a zone or the yard, by name."""
    spot = notebook.spots.get(finding.spot_id)
    zone = notebook.zones.get(finding.zone_id)
    return spot.name if spot is not None else zone.name if zone is not None else tr("The yard")


def more_told(findings: Sequence[Finding]) -> str:
    """The words of the link to the findings that are not shown."""
    more = len(findings) - 1
    return tr("{more} more under Next", more=more) if more > 0 else tr("its rule under Next")


def live_answer(values: Mapping[str, Any], spot: SpotThatch | None, core_id: str) -> str:
    """What the readings typed so far come to, and how the last plug compares.

    Empty where they cannot be read or kept: what is wrong with them is said under their field.
    """
    if "thatch_in" not in values:
        return ""
    readings = values["thatch_in"] or ()
    if any(not _allowed(each) for each in readings):
        return ""
    if not readings:
        return tr("Three readings round the plug say more than one.")
    read = summary(readings)
    listed = ", ".join(bare(each, 2, "in") for each in readings)
    if read.spread is None:
        words = tr("Reading {mean}.", mean=inches(read.mean))
    else:
        mean, spread = bare(read.mean, 2, "in"), bare(read.spread, 2, "in")
        words = tr(
            "Readings {listed} {unit_shown}: mean {mean}, spread {spread}.",
            listed=listed,
            unit_shown=unit_shown("in"),
            mean=mean,
            spread=spread,
        )
    last = _last_before(spot, core_id, values)
    if last is not None and last.thatch_in is not None:
        words += tr(
            " {date} it was {bare}.", date=day(last.date), bare=bare(last.thatch_in, 2, "in")
        )
    return words


def place_told(place: PlugPlace | None, on: date | None, today: date, fresh_days: int) -> str:
    """Where the plug is to be pulled, or what is said of one pulled long ago."""
    if place is not None:
        return place.words
    if on is not None and 0 <= (today - on).days <= fresh_days:
        return NO_ROOM
    return OLD_PLACE


def described(shown: SpotThatch | ZoneThatch | None) -> str:
    """The chart in words, for those who cannot see it."""
    if shown is None:
        return tr("No plug yet")
    if isinstance(shown, SpotThatch):
        told = [f"{day(each.date)}: {_column(each)}" for each in shown.columns]
    else:
        told = [f"{day(each.date)}: {_mean_column(each)}" for each in shown.columns]
    return "; ".join(told) or tr("No plug yet")


def of_day(columns: Sequence[PlugColumn]) -> dict[str, str]:
    """By plug: ", 1 of 2" where several were pulled on its day, else nothing."""
    by_day: dict[date, list[str]] = {}
    for each in columns:
        by_day.setdefault(each.date, []).append(each.core_id)
    return {
        core_id: tr(", {number} of {count}", number=number, count=len(ids)) if len(ids) > 1 else ""
        for ids in by_day.values()
        for number, core_id in enumerate(ids, 1)
    }


def row_cells(column: PlugColumn, spot: str, of_its_day: str) -> tuple[str, ...]:
    """A plug as a row: date, spot, hour, thatch, spread, roots, sponge, soil in it, worms, note."""
    pressed = tr(", pressed") if column.pressed else ""
    return (
        day(column.date) + of_its_day + pressed,
        spot,
        _number(column.clock, 0),
        _length(column.thatch_in, 2),
        _length(column.spread_in, 2),
        _length(column.root_depth_in, 1),
        _number(column.sponge, 0),
        _number(column.soil_in_thatch, 0),
        _number(column.worms, 0),
        column.note,
    )


def spot_cells(spot: SpotThatch, comparison: bool) -> tuple[str, ...]:
    """A spot of a zone as a row: name, plugs, first, latest, a year, and what can be said."""
    name = tr("{spot}, untreated", spot=spot.spot) if comparison else spot.spot
    slope = "" if spot.slope_in_per_year is None else signed(spot.slope_in_per_year)
    return (
        name,
        str(len(spot.columns)),
        _length(spot.first_in, 2),
        _length(spot.latest_in, 2),
        slope,
        spot.verdict.partition(":")[0].partition(" that")[0],
    )


def _length(length_in: float | None, places: int) -> str:
    return "" if length_in is None else bare(length_in, places, "in")


def _allowed(reading_in: float) -> bool:
    """Whether a reading lies within the limits that refuse."""
    rule = field_of(Core, "thatch_in").rule
    low, high = rule.low, rule.high
    return (low is None or low <= reading_in) and (high is None or reading_in <= high)


def _last_before(
    spot: SpotThatch | None, core_id: str, values: Mapping[str, Any]
) -> PlugColumn | None:
    when = values.get("date")
    if spot is None or when is None:
        return None
    pressed = bool(values.get("pressed"))
    earlier = [
        each
        for each in spot.columns
        if each.core_id != core_id
        and each.date < when
        and each.pressed == pressed
        and each.thatch_in is not None
    ]
    return earlier[-1] if earlier else None


def _column(each: PlugColumn) -> str:
    thatch = (
        tr("thatch not read")
        if each.thatch_in is None
        else tr("thatch {thatch_in}", thatch_in=inches(each.thatch_in))
    )
    pressed = tr(", pressed") if each.pressed else ""
    roots = (
        ""
        if each.root_depth_in is None
        else tr(", roots to {root_depth_in}", root_depth_in=inches(each.root_depth_in, 1))
    )
    return thatch + pressed + roots


def _mean_column(each: MeanColumn) -> str:
    thatch = (
        tr("thatch not read")
        if each.thatch_in is None
        else tr("thatch {thatch_in}", thatch_in=inches(each.thatch_in))
    )
    roots = (
        ""
        if each.root_depth_in is None
        else tr(", roots to {root_depth_in}", root_depth_in=inches(each.root_depth_in, 1))
    )
    return tr("mean of {spots}, {thatch}{roots}", spots=_spots(each), thatch=thatch, roots=roots)


def _spots(column: MeanColumn) -> str:
    return tr("1 spot") if column.spots == 1 else tr("{spots} spots", spots=column.spots)


def _number(value: float | None, places: int) -> str:
    return "" if value is None else plain(value, places) if places < 2 else f"{value:.2f}"
