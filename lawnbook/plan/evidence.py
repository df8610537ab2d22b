"""Is it working, and how sure are we: the plugs of a spot, a zone or the yard as evidence.

The figures are in `evidence_figures`, the sentences in `evidence_words`; here both are put
together. Untreated comparison spots are left out of zones and of the yard.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from lawnbook.agronomy.plug_error import PlugSpread
from lawnbook.frozen import dataclass
from lawnbook.plan.evidence_figures import EvidenceFigures, figures_of
from lawnbook.plan.evidence_words import (
    METHODS,
    basis_words,
    half_inch_ahead,
    half_inch_disputed,
    half_inch_passed,
    half_inch_unknown,
    missing_words,
    notes_of,
    season_words,
    too_unsure,
    verdict_of,
)
from lawnbook.plan.plug_model import (
    Evidence,
    PlaceKind,
    PlugError,
    SeasonEffect,
    TrendPoint,
    ZoneThatch,
)
from lawnbook.plan.plug_series import HALF_INCH, Compared, compared_plugs
from lawnbook.plan.plug_workings import (
    change_working,
    figure_workings,
    half_inch_working,
    season_working,
    slope_working,
)
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.rounds import mean_columns
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import Setting
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Core, Spot

ONLY_COMPARISON = "every spot here is an untreated comparison, which has its own trend"


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is looked at: the place, the spots left out as comparison, and the day."""

    kind: PlaceKind
    place: str
    place_id: str
    comparison: tuple[str, ...]
    on: date


def spot_evidence(setting: Setting, spot: Spot, zone_name: str, cores: Sequence[Core]) -> Evidence:
    """What the plugs of one spot show; its `cores` are given in date order.

    `zone_name` is told after the spot's name where there is one.
    """
    place = f"{spot.name}, {zone_name}" if zone_name else spot.name
    asked = _Asked("spot", place, spot.id, (), setting.on)
    return _evidence(asked, compared_plugs([(spot, cores)]), setting)


def zones_thatch(setting: Setting) -> tuple[ZoneThatch, ...]:
    """Every zone that has a spot: its mean columns and its evidence, in the owner's order."""
    by_zone: dict[str, list[Spot]] = {}
    for spot in setting.notebook.spots.values():
        by_zone.setdefault(zone_of_spot(setting.notebook, spot), []).append(spot)
    return tuple(
        _thatch(setting, "zone", (zone.name, zone.id), by_zone[zone.id])
        for zone in setting.notebook.zones.values()
        if zone.id in by_zone
    )


def yard_thatch(setting: Setting) -> ZoneThatch | None:
    """All spots of the yard together; None where there is none."""
    spots = tuple(setting.notebook.spots.values())
    if not spots:
        return None
    return _thatch(setting, "yard", (setting.notebook.yard.name, ""), spots)


def _thatch(
    setting: Setting, kind: PlaceKind, name_and_id: tuple[str, str], spots: Iterable[Spot]
) -> ZoneThatch:
    spots = tuple(spots)
    name, place_id = name_and_id
    treated = [spot for spot in spots if not spot.comparison]
    plugs = [(spot, setting.cores.get(spot.id, ())) for spot in treated]
    comparison = tuple(spot.name for spot in spots if spot.comparison)
    asked = _Asked(kind, name, place_id, comparison, setting.on)
    return ZoneThatch(
        zone=name,
        zone_id=place_id,
        columns=mean_columns({spot.id: cores for spot, cores in plugs}, len(treated)),
        evidence=_evidence(asked, compared_plugs(plugs), setting),
    )


def _evidence(asked: _Asked, compared: Compared, setting: Setting) -> Evidence:
    figures = figures_of(compared, setting.latitude_deg)
    trend = figures.trend
    ci95 = trend.ci95 if trend else None
    reason = "" if ci95 else _reason(asked, compared)
    half_inch, half_words, none_ahead = _half_inch(asked, figures, reason)
    needed = figures.plugs_for_tenth
    return Evidence(
        kind=asked.kind,
        place=asked.place,
        place_id=asked.place_id,
        spots=len(compared.in_trend),
        plugs=sum(len(each.days) for each in compared.in_trend),
        points=_points(compared),
        slope_in_per_year=trend.slope if trend else None,
        ci95=ci95,
        how=METHODS[trend.method] if trend else "",
        reason=reason,
        verdict=_verdict(asked, compared, figures, reason),
        line=figures.line,
        band=figures.band,
        half_inch=half_inch,
        half_inch_words=half_words,
        none_ahead=none_ahead,
        error=plug_error(figures.spread),
        plugs_a_date=figures.plugs_a_date,
        detectable_in=figures.detectable_in,
        more_for_tenth=None if needed is None else max(0, needed - figures.plugs_a_date),
        season=_season(figures),
        notes=tuple(
            notes_of(asked.kind, compared, asked.comparison, assumed_ruler=figures.assumed_ruler)
        ),
        workings=tuple(_workings(compared, figures, half_inch)),
    )


def plug_error(spread: PlugSpread | None) -> PlugError | None:
    """How far one plug may be off, as the plan tells it."""
    if spread is None:
        return None
    return PlugError(
        readings_in=spread.readings_in,
        plugs_in=spread.plugs_in,
        ruler_in=spread.ruler_in,
        readings=spread.readings,
        replicates=spread.replicates,
        plug_in=spread.day_in(1, spread.readings),
    )


def _reason(asked: _Asked, compared: Compared) -> str:
    if asked.comparison and not compared.spots:
        return ONLY_COMPARISON
    return missing_words(asked.kind, compared)


def _verdict(asked: _Asked, compared: Compared, figures: EvidenceFigures, reason: str) -> str:
    trend = figures.trend
    if trend is None or trend.ci95 is None:
        return f"Cannot say yet: {reason}."
    pulled = len(compared.cores) if asked.kind == "spot" else None
    return f"{verdict_of(trend.slope, trend.ci95)} {basis_words(asked.kind, trend, pulled)}"


def _points(compared: Compared) -> tuple[TrendPoint, ...]:
    points = [
        TrendPoint(
            spot_id=each.spot.id,
            date=of_day.date,
            thatch_in=of_day.value_in,
            plugs=sum(core.date == of_day.date for core in each.cores),
        )
        for each in compared.spots
        for of_day in each.days
    ]
    return tuple(sorted(points, key=lambda point: point.date))


class _HalfInch(NamedTuple):
    """The days of the crossing, the sentence on it, and whether there is none to come."""

    between: tuple[date, date] | None
    words: str
    none_ahead: bool = False


def _half_inch(asked: _Asked, figures: EvidenceFigures, reason: str) -> _HalfInch:
    """Between which days half an inch is met, where it may still lie ahead, and the sentence.

    The days are told whole even if the first has gone by: cut off at today, they held the true
    day in 6 of 10 simulated yards, for the trend may have met it before the latest plug shows it.
    """
    trend, latest = figures.trend, figures.latest_in
    if latest is None:
        return _HalfInch(None, half_inch_unknown(reason))
    # As it is told: a latest plug of 0.50 in is not over half an inch.
    under = round(latest, 2) < HALF_INCH
    passed = _HalfInch(None, half_inch_passed(asked.kind, latest), none_ahead=True)
    if trend is None or trend.ci95 is None:
        return passed if under else _HalfInch(None, half_inch_unknown(reason))
    low, high = trend.ci95
    if low <= 0 <= high:
        words = half_inch_unknown("these plugs show no change that leads there")
        return passed if under else _HalfInch(None, words)
    if latest <= HALF_INCH if high < 0 else latest >= HALF_INCH:
        return passed
    if figures.crossing is None:
        return _HalfInch(None, half_inch_unknown(too_unsure(trend.plugs, trend.spots)))
    if figures.crossing[1] < asked.on:
        return _HalfInch(None, half_inch_unknown(half_inch_disputed(asked.kind, latest)))
    return _HalfInch(figures.crossing, half_inch_ahead(figures.crossing, asked.on))


def _season(figures: EvidenceFigures) -> SeasonEffect | None:
    if figures.seasons < 2:
        return None
    season = figures.season
    value, ci95 = (season.value, season.ci95) if season else (None, None)
    return SeasonEffect(spring_minus_autumn_in=value, ci95=ci95, words=season_words(value, ci95))


def _workings(
    compared: Compared, figures: EvidenceFigures, half_inch: tuple[date, date] | None
) -> Iterable[Working]:
    if len(compared.spots) == 1:
        change = change_working(compared.spots[0].days, pressed=compared.pressed)
        if change is not None:
            yield change
    if figures.trend is not None:
        yield slope_working(compared, figures.trend)
    yield from figure_workings(compared, figures)
    if half_inch is not None and figures.trend is not None:
        yield half_inch_working((day(half_inch[0]), day(half_inch[1])), figures.trend)
    if figures.season is not None:
        yield season_working(compared, figures.season)
