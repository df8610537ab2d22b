"""Thatch at one spot: each plug as a column, and the trend that the plugs allow.

Pressed and unpressed readings never share a trend. All readings of one day are pooled. A slope
needs plugs of three different dates, an interval and a verdict of five.
"""

from datetime import date
from functools import partial

from lawnbook.plan.evidence import evidence_of, spot_asked
from lawnbook.plan.evidence_words import verdict_of
from lawnbook.plan.lazily import Later
from lawnbook.plan.plug_columns import column_of, photo_ids_by_core
from lawnbook.plan.plug_model import Evidence, PlugColumn, SpotThatch
from lawnbook.plan.plug_series import HALF_INCH, SpotPlugs
from lawnbook.plan.plug_shelf import PlugShelf, SpotTold
from lawnbook.plan.roots import root_readings, zones_by_spot
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import Setting

__all__ = ["HALF_INCH", "spot_thatch", "spots_thatch"]

_SPOT_FIGURES = frozenset({"change_in", "slope_in_per_year"})
"""The figures of a spot by itself, whose workings stand beside its verdict."""


def spots_thatch(setting: Setting, shelf: PlugShelf | None = None) -> tuple[SpotThatch, ...]:
    """What the plugs of every spot show, in the owner's order.

    What is told of plugs that are the same as before is taken from the `shelf`.
    """
    on_shelf, notebook = shelf or PlugShelf(), setting.notebook
    photos = photo_ids_by_core(notebook.photos.values())
    zones = zones_by_spot(setting.spots)
    made = []
    for spot in notebook.spots.values():
        told = on_shelf.told(spot, setting.cores.get(spot.id, ()), setting.latitude_deg)
        zone = notebook.zones.get(zones.get(spot.id, ""))
        place = (zones.get(spot.id, ""), zone.name if zone else "")
        ids = tuple(photos.get(core.id, ()) for core in told.plugs.cores) if photos else ()
        make = partial(spot_thatch, told, place, setting.on, ids)
        made.append(on_shelf.part(spot.id, (told, place, setting.on, ids), make))
    on_shelf.keep_only(notebook.spots, notebook.zones)
    return tuple(made)


def spot_thatch(
    told: SpotTold, zone: tuple[str, str], on: date, photo_ids: tuple[tuple[str, ...], ...]
) -> SpotThatch:
    """What the plugs of one spot show on a day, each part made when it is read.

    `zone` is the id and name of the spot's zone, `photo_ids` has those of each plug's photographs,
    () where there are none. It depends on its arguments only.
    """
    plugs, spot = told.plugs, told.plugs.spot
    evidence = Later(lambda: evidence_of(spot_asked(spot, zone[1], on), told.figures))
    return SpotThatch(
        spot=spot.name,
        spot_id=spot.id,
        zone_id=zone[0],
        zone=zone[1],
        plugs=Later(lambda: len(plugs.compared.cores)),
        latest_in=Later(lambda: plugs.values_in[-1] if plugs.values_in else None),
        first_in=Later(lambda: plugs.values_in[0] if plugs.values_in else None),
        change_in=Later(lambda: _change_in(plugs.values_in)),
        slope_in_per_year=Later(lambda: evidence().slope_in_per_year),
        ci95=Later(lambda: evidence().ci95),
        half_inch_between=Later(lambda: evidence().half_inch),
        verdict=Later(lambda: _verdict(evidence())),
        line=Later(lambda: _line(evidence())),
        columns=Later(lambda: _columns(plugs, photo_ids)),
        workings=Later(lambda: _workings(evidence())),
        evidence=evidence,
        roots_in=Later(lambda: _roots_in(plugs)),
    )


def _change_in(values_in: tuple[float, ...]) -> float | None:
    return values_in[-1] - values_in[0] if len(values_in) > 1 else None


def _line(evidence: Evidence) -> tuple[tuple[date, float], tuple[date, float]] | None:
    return (evidence.line[0], evidence.line[1]) if evidence.line else None


def _columns(plugs: SpotPlugs, photo_ids: tuple[tuple[str, ...], ...]) -> tuple[PlugColumn, ...]:
    return tuple(map(column_of, plugs.cores, photo_ids or ((),) * len(plugs.cores)))


def _workings(evidence: Evidence) -> tuple[Working, ...]:
    return tuple(each for each in evidence.workings if each.figure in _SPOT_FIGURES)


def _roots_in(plugs: SpotPlugs) -> float | None:
    roots = root_readings(plugs.cores)
    return roots[-1].value_in if roots else None


def _verdict(evidence: Evidence) -> str:
    """The verdict without what it rests on: the plugs are counted beside it."""
    if evidence.slope_in_per_year is None or evidence.ci95 is None:
        return evidence.verdict
    return verdict_of(evidence.slope_in_per_year, evidence.ci95)
