"""Thatch at one spot: each plug as a column, and the trend that the plugs allow.

Pressed and unpressed readings never share a trend. All readings of one day are pooled. A slope
needs plugs of three different dates, an interval and a verdict of five.
"""

from collections.abc import Mapping, Sequence

from lawnbook.plan.evidence import spot_evidence
from lawnbook.plan.evidence_words import verdict_of
from lawnbook.plan.plug_columns import column_of, photo_ids_by_core
from lawnbook.plan.plug_model import Evidence, SpotThatch
from lawnbook.plan.plug_series import HALF_INCH
from lawnbook.plan.roots import root_readings, unpressed_or_pressed, zone_of_spot
from lawnbook.plan.zone_facts import Setting
from lawnbook.yard.records import Core, Spot

__all__ = ["HALF_INCH", "spot_thatch", "spots_thatch"]

_SPOT_FIGURES = frozenset({"change_in", "slope_in_per_year"})
"""The figures of a spot by itself, whose workings stand beside its verdict."""


def spots_thatch(setting: Setting) -> tuple[SpotThatch, ...]:
    """What the plugs of every spot show, in the owner's order."""
    notebook = setting.notebook
    photos = photo_ids_by_core(notebook.photos.values())
    spots = []
    for spot in notebook.spots.values():
        zone = notebook.zones.get(zone_of_spot(notebook, spot))
        spots.append(spot_thatch(setting, spot, zone.name if zone else "", photos))
    return tuple(spots)


def spot_thatch(
    setting: Setting, spot: Spot, zone: str, photos: Mapping[str, tuple[str, ...]]
) -> SpotThatch:
    """What the plugs of one spot show on the day of the setting.

    `zone` is the zone's name, `photos` holds the ids of each plug's photographs.
    """
    cores: Sequence[Core] = setting.cores.get(spot.id, ())
    evidence = spot_evidence(setting, spot, zone, cores)
    values = [point.thatch_in for point in evidence.points]
    roots = root_readings(cores)
    return SpotThatch(
        spot=spot.name,
        spot_id=spot.id,
        zone_id=zone_of_spot(setting.notebook, spot),
        zone=zone,
        plugs=len(unpressed_or_pressed(cores)),
        latest_in=values[-1] if values else None,
        first_in=values[0] if values else None,
        change_in=values[-1] - values[0] if len(values) > 1 else None,
        slope_in_per_year=evidence.slope_in_per_year,
        ci95=evidence.ci95,
        half_inch_between=evidence.half_inch,
        verdict=_verdict(evidence),
        line=(evidence.line[0], evidence.line[1]) if evidence.line else None,
        columns=tuple(column_of(core, photos.get(core.id, ())) for core in cores),
        workings=tuple(each for each in evidence.workings if each.figure in _SPOT_FIGURES),
        evidence=evidence,
        roots_in=roots[-1].value_in if roots else None,
    )


def _verdict(evidence: Evidence) -> str:
    """The verdict without what it rests on: the plugs are counted beside it."""
    if evidence.slope_in_per_year is None or evidence.ci95 is None:
        return evidence.verdict
    return verdict_of(evidence.slope_in_per_year, evidence.ci95)
