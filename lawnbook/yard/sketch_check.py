"""The check of the sketch: what shares ground, lies bare, or stands astray, each with its mend.

Nothing is kept of it: a fault may be left as it is meant.
"""

from dataclasses import replace
from importlib import import_module
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.corner_faults import opened_holes, shape_faults, tidied
from lawnbook.yard.cutting_edits import subtracted
from lawnbook.yard.edits import with_areas_kept
from lawnbook.yard.faults import Fault, FaultKind, Mend
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.ground import Ground, ground_of, grown, joined, without
from lawnbook.yard.ground_faults import NOT_TURF, ground_faults, surfaces
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.placing_edits import followed_by
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Head, Spot, Zone
from lawnbook.yard.shape_records import Shape, held, refuse_locked, shape_held, with_ground
from lawnbook.yard.zone_edits import divided, merged

__all__ = [
    "Fault",
    "FaultKind",
    "GroundSums",
    "Mend",
    "check_sketch",
    "ground_sums",
    "mend_all",
    "mend_change",
]

_CLOSER_FT = 0.03
_MOST_ROUNDS = 4


@dataclass(frozen=True, slots=True)
class GroundSums:
    """The ground of the zones: their areas summed, what they cover, and what lies bare between.

    `bare_sqft` is ground that zones and features enclose and none of them covers.
    """

    zones_sqft: float
    covered_sqft: float
    bare_sqft: float


def check_sketch(notebook: Notebook) -> tuple[Fault, ...]:
    """All that is found, by area, the largest first; what is only told comes last."""
    found = [*ground_faults(notebook), *shape_faults(notebook)]
    return tuple(sorted(found, key=lambda fault: (fault.only_told, -fault.area_sqft)))


def mend_change(notebook: Notebook, fault: Fault, mend: Mend | None = None) -> Change:
    """The change that mends a fault, by its first mend or by the one given.

    OwnerError where there is none, where a record is locked, or the sketch has changed since.
    """
    way = mend or fault.mend
    if way is None:
        raise OwnerError(tr("This has no mend of one press; change the shapes by hand."))
    try:
        return _mended(notebook, way)
    except KeyError as error:
        raise OwnerError(tr("That is not on the sketch any more; nothing was changed.")) from error


def mend_all(notebook: Notebook) -> tuple[Change, int]:
    """One change that mends all that is safe to mend, and how many faults it mends.

    Locked shapes stay as they are. Where mends bring others about, those are done too.
    """
    whole: Change = {}
    now, count = notebook, 0
    for _ in range(_MOST_ROUNDS):
        before = count
        for fault in check_sketch(now):
            if fault.mend is None or not fault.mend.safe:
                continue
            try:
                change = mend_change(now, fault)
            except OwnerError:
                # Locked, or mended by one before.
                continue
            if change:
                whole, now, count = followed_by(whole, change), apply(now, change), count + 1
        if count == before:
            break
    return whole, count


def ground_sums(notebook: Notebook) -> GroundSums:
    """The areas of the sketch: see `GroundSums`."""
    zones = tuple(notebook.zones.values())
    shapely: Any = import_module("shapely")
    turf = shapely.union_all(surfaces(zones))
    every = shapely.union_all([turf, *surfaces(tuple(notebook.features.values()))])
    parts = [each for each in shapely.get_parts(every) if each.geom_type == "Polygon"]
    filled = shapely.union_all([shapely.Polygon(each.exterior) for each in parts])
    return GroundSums(
        zones_sqft=sum(zone_area_sqft(each) for each in zones),
        covered_sqft=float(turf.area),
        bare_sqft=max(0.0, float(filled.area - every.area)),
    )


def _mended(notebook: Notebook, mend: Mend) -> Change:
    if mend.act == "cut":
        return subtracted(notebook, mend.key, mend.others)
    if mend.act == "join":
        return _joined(notebook, mend)
    if mend.act == "open":
        shape = shape_held(notebook, mend.key)
        pieces = opened_holes(shape) if isinstance(shape, Zone) else ()
        return divided(notebook, shape, pieces[0], pieces[1:]) if pieces else {}
    if mend.act == "tidy":
        shape = shape_held(notebook, mend.key)
        tidy = tidied(shape)
        return {} if tidy is None else _kept(notebook, mend.key[0], tidy)
    if mend.act == "merge":
        into = mend.others[0][1]
        return merged(notebook, (into, mend.key[1]))
    return _given(notebook, mend)


def _kept(notebook: Notebook, table: str, shape: Shape) -> Change:
    return with_areas_kept(notebook, put(notebook, table, shape))


def _joined(notebook: Notebook, mend: Mend) -> Change:
    """A zone with a sliver joined to it; what lies beyond the sliver stays what it is."""
    zone = shape_held(notebook, mend.key)
    ground = ground_of(zone)
    pieces = joined((ground, *mend.ground))
    if len(pieces) != 1:
        # Rounding left a hair between the two.
        pieces = joined((ground, *_a_hair_wider(notebook, mend)))
    if pieces[0].area_sqft <= ground.area_sqft or not isinstance(zone, Zone):
        raise OwnerError(tr("The gap is no longer there; nothing was changed."))
    return _kept(notebook, mend.key[0], with_ground(zone, pieces[0]))


def _a_hair_wider(notebook: Notebook, mend: Mend) -> list[Ground]:
    """A sliver grown by a hair, but not onto other zones nor onto what is no turf."""
    others = [ground_of(each) for key, each in notebook.zones.items() if key != mend.key[1]]
    solid = [each for each in notebook.features.values() if each.kind in NOT_TURF]
    others += [ground_of(each) for each in solid]
    wider = [piece for each in mend.ground for piece in grown(each, _CLOSER_FT)]
    return [piece for each in wider for piece in without(each, others)]


def _given(notebook: Notebook, mend: Mend) -> Change:
    record, zone_id = held(notebook, mend.key), mend.others[0][1]
    refuse_locked((record,))
    if not isinstance(record, Head | Spot):
        raise KeyError(mend.key)
    return put(notebook, mend.key[0], replace(record, zone=zone_id))
