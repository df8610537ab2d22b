"""Is it working, and how sure are we: the plugs of a spot, a zone or the yard as evidence.

The figures are in `evidence_figures`, the sentences in `evidence_words`, the notes beside them
in `evidence_notes`; here all are put together. Untreated comparison spots are left out of zones and
of the yard.
"""

from collections import Counter
from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from lawnbook.agronomy.plug_error import PlugSpread
from lawnbook.frozen import dataclass
from lawnbook.kept import Kept
from lawnbook.plan.evidence_figures import EvidenceFigures
from lawnbook.plan.evidence_notes import notes_of
from lawnbook.plan.evidence_words import (
    METHODS,
    basis_words,
    half_inch_ahead,
    half_inch_disputed,
    half_inch_passed,
    half_inch_unknown,
    missing_words,
    season_words,
    too_unsure,
    verdict_of,
)
from lawnbook.plan.lazily import Later
from lawnbook.plan.plug_model import (
    Evidence,
    MeanColumn,
    Place,
    PlaceKind,
    PlugError,
    SeasonEffect,
    TrendPoint,
    ZoneThatch,
)
from lawnbook.plan.plug_series import HALF_INCH, Compared, compared_of
from lawnbook.plan.plug_shelf import PlugShelf
from lawnbook.plan.plug_workings import (
    change_working,
    figure_workings,
    half_inch_working,
    interval_working,
    season_working,
    slope_working,
)
from lawnbook.plan.rounds import mean_columns
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.records import Spot

ONLY_COMPARISON = tr("every spot here is an untreated comparison, which has its own trend")


@dataclass(frozen=True, slots=True)
class PlaceAsked:
    """What is looked at: the place, the spots left out as comparison, and the day."""

    kind: PlaceKind
    place: str
    place_id: str
    comparison: tuple[str, ...]
    on: date


def spot_asked(spot: Spot, zone_name: str, on: date) -> PlaceAsked:
    """A spot as it is asked about, with its zone's name where it has one."""
    place = f"{spot.name}, {zone_name}" if zone_name else spot.name
    return PlaceAsked("spot", place, spot.id, (), on)


def evidence_of(asked: PlaceAsked, figures: EvidenceFigures) -> Evidence:
    """What the figures of a place's compared plugs show, each part made when it is read.

    It depends on its two arguments only.
    """
    made = _Evident(asked, figures)
    compared = figures.compared
    return Evidence(
        kind=asked.kind,
        place=asked.place,
        place_id=asked.place_id,
        spots=Later(lambda: len(compared.in_trend)),
        plugs=Later(lambda: sum(len(each.days) for each in compared.in_trend)),
        points=Later(lambda: _points(compared)),
        slope_in_per_year=Later(lambda: figures.trend.slope if figures.trend else None),
        ci95=Later(lambda: figures.trend.ci95 if figures.trend else None),
        how=Later(lambda: METHODS[figures.trend.method] if figures.trend else ""),
        reason=Later(lambda: made.reason),
        verdict=Later(lambda: _verdict(asked, figures, made.reason)),
        line=Later(lambda: figures.line),
        band=Later(lambda: figures.band),
        half_inch=Later(lambda: made.half_inch.between),
        half_inch_words=Later(lambda: made.half_inch.words),
        none_ahead=Later(lambda: made.half_inch.none_ahead),
        error=Later(lambda: plug_error(figures.spread)),
        plugs_a_date=Later(lambda: figures.plugs_a_date),
        detectable_in=Later(lambda: figures.detectable_in),
        more_for_tenth=Later(lambda: _more_for_tenth(figures)),
        season=Later(lambda: _season(figures)),
        notes=Later(lambda: _notes(asked, figures)),
        workings=Later(lambda: tuple(_workings(figures, made.half_inch.between))),
    )


class _Evident:
    """What several parts of the evidence rest on."""

    def __init__(self, asked: PlaceAsked, figures: EvidenceFigures) -> None:
        self._asked, self._figures = asked, figures

    @Kept
    def reason(self) -> str:
        """Why there is no interval; empty where there is one."""
        trend = self._figures.trend
        return "" if trend and trend.ci95 else _reason(self._asked, self._figures.compared)

    @Kept
    def half_inch(self) -> "_HalfInch":
        """When half an inch is met."""
        return _half_inch(self._asked, self._figures, self.reason)


def zones_thatch(setting: Setting, shelf: PlugShelf | None = None) -> tuple[ZoneThatch, ...]:
    """Every zone that has a spot: its mean columns and its evidence, in the owner's order.

    What is told of plugs that are the same as before is taken from the `shelf`.
    """
    on_shelf, spots = shelf or PlugShelf(), setting.notebook.spots
    return tuple(
        _thatch(setting, on_shelf, (zone.name, zone.id), [spots[each] for each in of_zone])
        for zone in setting.notebook.zones.values()
        if (of_zone := setting.spots.get(zone.id))
    )


def yard_thatch(setting: Setting, shelf: PlugShelf | None = None) -> ZoneThatch | None:
    """All spots of the yard together; None where there is none. The `shelf` as for zones."""
    spots = tuple(setting.notebook.spots.values())
    if not spots:
        return None
    return _thatch(setting, shelf or PlugShelf(), (setting.notebook.yard.name, ""), spots)


def _thatch(
    setting: Setting, shelf: PlugShelf, name_and_id: tuple[str, str], spots: Iterable[Spot]
) -> ZoneThatch:
    """The plugs of a zone, or with an empty id of the yard; what is not read is not reckoned."""
    name, place_id = name_and_id
    kind: PlaceKind = "zone" if place_id else "yard"
    asked = PlaceAsked(kind, name, place_id, _comparison(spots), setting.on)
    treated = [(each, setting.cores.get(each.id, ())) for each in spots if not each.comparison]
    latitude_deg = setting.latitude_deg

    def columns() -> tuple[MeanColumn, ...]:
        return mean_columns({spot.id: cores for spot, cores in treated}, len(treated))

    def evidence() -> Evidence:
        told = [shelf.told(spot, cores, latitude_deg) for spot, cores in treated]
        if len(told) == 1:
            return evidence_of(asked, told[0].figures)
        compared = compared_of([each.plugs for each in told])
        return evidence_of(asked, shelf.figures(Place(kind, place_id), compared, latitude_deg))

    return ZoneThatch(zone=name, zone_id=place_id, columns=Later(columns), evidence=Later(evidence))


def _comparison(spots: Iterable[Spot]) -> tuple[str, ...]:
    return tuple(spot.name for spot in spots if spot.comparison)


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


def _reason(asked: PlaceAsked, compared: Compared) -> str:
    if asked.comparison and not compared.spots:
        return ONLY_COMPARISON
    return missing_words(asked.kind, compared)


def _verdict(asked: PlaceAsked, figures: EvidenceFigures, reason: str) -> str:
    trend = figures.trend
    if trend is None or trend.ci95 is None:
        return tr("Cannot say yet: {reason}.", reason=reason)
    pulled = len(figures.compared.cores) if asked.kind == "spot" else None
    return f"{verdict_of(trend.slope, trend.ci95)} {basis_words(asked.kind, trend, pulled)}"


def _more_for_tenth(figures: EvidenceFigures) -> int | None:
    needed = figures.plugs_for_tenth
    return None if needed is None else max(0, needed - figures.plugs_a_date)


def _notes(asked: PlaceAsked, figures: EvidenceFigures) -> tuple[str, ...]:
    ruler = figures.assumed_ruler
    notes = notes_of(asked.kind, figures.compared, asked.comparison, assumed_ruler=ruler)
    return tuple(notes)


def _points(compared: Compared) -> tuple[TrendPoint, ...]:
    points = []
    for each in compared.spots:
        plugs = Counter(core.date for core in each.cores)
        points += [
            TrendPoint(
                spot_id=each.spot.id,
                date=of_day.date,
                thatch_in=of_day.value_in,
                plugs=plugs[of_day.date],
            )
            for of_day in each.days
        ]
    return tuple(sorted(points, key=lambda point: point.date))


class _HalfInch(NamedTuple):
    """The days of the crossing, the sentence on it, and whether there is none to come."""

    between: tuple[date, date] | None
    words: str
    none_ahead: bool = False


def _half_inch(asked: PlaceAsked, figures: EvidenceFigures, reason: str) -> _HalfInch:
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
        words = half_inch_unknown(tr("these plugs show no change that leads there"))
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


def _workings(figures: EvidenceFigures, half_inch: tuple[date, date] | None) -> Iterable[Working]:
    compared = figures.compared
    if len(compared.spots) == 1:
        change = change_working(compared.spots[0], pressed=compared.pressed)
        if change is not None:
            yield change
    if figures.trend is not None:
        slope = slope_working(figures, figures.trend)
        yield slope
        if figures.trend.ci95 is not None:
            yield interval_working(figures, figures.trend, slope)
    yield from figure_workings(compared, figures)
    if half_inch is not None and figures.trend is not None:
        yield half_inch_working(half_inch, figures, figures.trend)
    if figures.season is not None:
        yield season_working(figures, figures.season)
