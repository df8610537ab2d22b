"""Plugs as the columns they are drawn as, with the photographs that belong to each."""

from collections.abc import Iterable, Mapping

from lawnbook.agronomy.trend import summary
from lawnbook.plan.plug_model import PlugColumn
from lawnbook.yard.records import Core, Photo


def column_of(core: Core, photo_ids: tuple[str, ...] = ()) -> PlugColumn:
    """One plug as it is drawn."""
    read = summary(core.thatch_in) if core.thatch_in else None
    return PlugColumn(
        core_id=core.id,
        date=core.date,
        thatch_in=read.mean if read else None,
        spread_in=read.spread if read else None,
        readings=read.n if read else 0,
        pressed=core.pressed,
        root_depth_in=core.root_depth_in,
        sponge=core.sponge,
        soil_in_thatch=core.soil_in_thatch,
        worms=core.worms,
        note=core.note,
        clock=core.clock,
        core_depth_in=core.core_depth_in,
        photo_ids=photo_ids,
        thatch_moisture=core.thatch_moisture,
        soil_moisture=core.soil_moisture,
        ring_in=core.ring_in,
    )


def photo_ids_by_core(photos: Iterable[Photo]) -> Mapping[str, tuple[str, ...]]:
    """The ids of each plug's photographs, in the owner's order."""
    found: dict[str, list[str]] = {}
    for photo in photos:
        found.setdefault(photo.core, []).append(photo.id)
    return {core_id: tuple(ids) for core_id, ids in found.items()}
