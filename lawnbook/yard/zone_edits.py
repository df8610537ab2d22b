"""Edits of zones and features as ground: merged, split, and divided into pieces.

What is told of the past stays true: no feeding's nitrogen per 1,000 sq ft changes, no plug is
lost, and what cannot be kept goes with words (`edit_words.told`).
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from lawnbook.reading import tr
from lawnbook.yard.edits import with_areas_kept
from lawnbook.yard.feeding_shares import feedings_joined, feedings_shared
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import contains, distance_to_edge_ft, zone_area_sqft
from lawnbook.yard.ground import Ground, ground_of, joined, split_by
from lawnbook.yard.notebook import Change, Key, Notebook, new_id, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone
from lawnbook.yard.references import with_references
from lawnbook.yard.shape_records import (
    Shape,
    called,
    free_names,
    listed,
    refuse_locked,
    shape_held,
    with_ground,
)
from lawnbook.yard.wetting import share_wetted

Edits = dict[Key, tuple[Record | None, Record | None]]
"""A change in the making."""

LEAST_FLOW_GPM = 0.1
"""The least metered flow that a zone may have; the share of a smaller part is left out."""

ON_EDGE_FT = 0.05
"""A head this near to an edge stands on it: whose it is, its throw says."""


def merged(notebook: Notebook, zone_ids: Sequence[str]) -> Change:
    """The change that makes several zones one: the first, with its id, name and settings.

    Heads, spots, feedings and care of the others come along; their waterings, catch tests and
    soil tests go. The metered flow is the sum where every zone has one, else it is taken out, for
    a part's flow is not the whole's. OwnerError where one is locked, where they do not touch, or
    for fewer than two.
    """
    ids = tuple(dict.fromkeys(zone_ids))
    zones = [notebook.zones[each] for each in ids]
    if len(zones) < 2:
        raise OwnerError(tr("Choose two or more zones to merge."))
    refuse_locked(zones)
    grounds = joined(ground_of(each) for each in zones)
    if len(grounds) != 1:
        raise OwnerError(
            tr(
                "{listed} do not all touch, so they stay apart; draw them edge to edge, "
                "or close the gap between them first.",
                listed=listed([each.name for each in zones]),
            )
        )
    flows = [each.flow_gpm for each in zones]
    flow = None if None in flows else sum(each for each in flows if each is not None)
    kept = replace(with_ground(zones[0], grounds[0]), flow_gpm=flow)
    change: Edits = {("zones", kept.id): (zones[0], kept)}
    change.update({("zones", each.id): (each, None) for each in zones[1:]})
    for table, before, after in _come_along(notebook, ids):
        change[(table, before.id)] = (before, after)
    for fed in feedings_joined(notebook, ids):
        change[("feedings", fed.id)] = (notebook.feedings[fed.id], fed)
    return change


def split(notebook: Notebook, key: Key, a: Point, b: Point) -> Change:
    """The change that splits a zone or feature by the endless line through two points.

    The largest piece keeps the record; every other is a new one. OwnerError where it is locked
    or the line does not cross it.
    """
    record = shape_held(notebook, key)
    if math.dist(a, b) < 0.01:
        raise OwnerError(tr("The two points of the line lie on one place; set them apart."))
    pieces = split_by(ground_of(record), a, b)
    if len(pieces) < 2:
        raise OwnerError(
            tr(
                "That line does not cut {called} in two; draw it from one side of the "
                "shape to another.",
                called=called(record),
            )
        )
    return divided(notebook, record, pieces[0], pieces[1:])


def divided(notebook: Notebook, shape: Shape, kept: Ground, others: Sequence[Ground]) -> Change:
    """The change that leaves a shape on one piece of ground and puts new ones on the others.

    New zones have the settings, waterings and soil tests of the old one, their share of its
    feedings and metered flow, and the heads and spots that stand on them; catch tests stay.
    """
    if isinstance(shape, Feature):
        return _feature_divided(notebook, shape, kept, others)
    whole = kept.area_sqft + sum(each.area_sqft for each in others)
    names = free_names(notebook, "zones", shape.name, len(others))
    parts = [_part(shape, kept, whole)] + [
        replace(_part(shape, ground, whole), id=new_id(), name=name, rank=0, locked=False)
        for ground, name in zip(others, names, strict=True)
    ]
    change: Edits = dict(put(notebook, "zones", *parts))
    if len(parts) == 1:
        # Said here already, so that changes may follow on each other before they are kept.
        return with_areas_kept(notebook, change)
    change.update(_past_shared(notebook, shape.id, parts))
    return change


def _feature_divided(
    notebook: Notebook, feature: Feature, kept: Ground, others: Sequence[Ground]
) -> Change:
    grounds = [each for ground in (kept, *others) for each in opened(ground)]
    names = free_names(notebook, "features", feature.name, len(grounds) - 1)
    parts = [with_ground(feature, grounds[0])] + [
        replace(
            with_ground(feature, ground), id=new_id(), name=name if feature.name else "", rank=0
        )
        for ground, name in zip(grounds[1:], names, strict=True)
    ]
    return put(notebook, "features", *parts)


def opened(ground: Ground) -> tuple[Ground, ...]:
    """Ground with holes cut into pieces without any, largest first: a feature has no holes.

    Cut upright through the middle of a hole, and again while a piece still has one.
    """
    if not ground.holes:
        return (ground,)
    xs = [x for x, _ in ground.holes[0]]
    middle = (min(xs) + max(xs)) / 2
    pieces = split_by(ground, (middle, 0.0), (middle, 1.0))
    found = [each for piece in pieces for each in opened(piece)]
    return tuple(sorted(found, key=lambda each: -each.area_sqft))


def _part(zone: Zone, ground: Ground, whole_sqft: float) -> Zone:
    """A zone on a part of its ground, with the part's share of the metered flow."""
    flow = zone.flow_gpm
    # On all of it the meter's own figure stays, to its last digit.
    if flow is not None and ground.area_sqft < whole_sqft:
        share = round(flow * ground.area_sqft / whole_sqft, 3)
        flow = share if share >= LEAST_FLOW_GPM else None
    return replace(with_ground(zone, ground), flow_gpm=flow)


def _past_shared(notebook: Notebook, zone_id: str, parts: Sequence[Zone]) -> Edits:
    change: Edits = {}
    areas = {part.id: zone_area_sqft(part) for part in parts}
    shares = {each: area / sum(areas.values()) for each, area in areas.items()}
    for fed in feedings_shared(notebook, zone_id, shares):
        change[("feedings", fed.id)] = (notebook.feedings[fed.id], fed)
    for table in ("waterings", "soil_tests"):
        change.update(_copied(notebook, table, zone_id, parts[1:]))
    for care in notebook.care.values():
        if zone_id in care.zones:
            zones = (*care.zones, *(part.id for part in parts[1:]))
            change[("care", care.id)] = (care, replace(care, zones=zones))
    for head in notebook.heads.values():
        if head.zone == zone_id:
            zone = _of_head(head, parts)
            change[("heads", head.id)] = (head, replace(head, zone=zone.id))
    for spot in notebook.spots.values():
        if spot.zone == zone_id:
            change[("spots", spot.id)] = (spot, replace(spot, zone=_of_spot(spot, parts).id))
    return {key: pair for key, pair in change.items() if pair[0] != pair[1]}


def _copied(notebook: Notebook, table: str, zone_id: str, parts: Sequence[Zone]) -> Change:
    """Copies of the rows of a zone for each of its new parts."""
    rows = [row for row in notebook.table(table).values() if getattr(row, "zone", "") == zone_id]
    copies = [_for_zone(row, part.id) for part in parts for row in rows]
    return put(notebook, table, *(replace(each, id=new_id(), rank=0) for each in copies))


def _for_zone(row: Record, zone_id: str) -> Record:
    """A row that refers to nothing but a zone, for another zone."""
    return with_references(row, lambda _: zone_id)


def _of_head(head: Head, parts: Sequence[Zone]) -> Zone:
    """The part a head belongs to: the one it stands on, on an edge the one it wets most."""
    inside = [
        part
        for part in parts
        if contains(part.outline_ft, head.at_ft, part.holes_ft)
        and distance_to_edge_ft(part.outline_ft, head.at_ft, part.holes_ft) > ON_EDGE_FT
    ]
    if len(inside) == 1:
        return inside[0]
    return max(parts, key=lambda part: share_wetted(head, part.outline_ft, part.holes_ft))


def _of_spot(spot: Spot, parts: Sequence[Zone]) -> Zone:
    """The part a spot lies on, the nearest where it lies on none, the first without a place."""
    at = spot.at_ft
    if at is None:
        return parts[0]
    on = [part for part in parts if contains(part.outline_ft, at, part.holes_ft)]
    return min(
        on or parts, key=lambda part: distance_to_edge_ft(part.outline_ft, at, part.holes_ft)
    )


def _come_along(
    notebook: Notebook, ids: tuple[str, ...]
) -> Iterator[tuple[str, Record, Record | None]]:
    """What of the merged zones but the first goes to the first, or goes."""
    first, others = ids[0], set(ids[1:])
    for table in ("heads", "spots"):
        for row in _rows_of(notebook, table, others):
            yield table, row, _for_zone(row, first)
    for table in ("catch_tests", "waterings", "soil_tests", "ticks"):
        for row in _rows_of(notebook, table, others):
            yield table, row, None
    for care in notebook.care.values():
        if others.intersection(care.zones):
            named = tuple(dict.fromkeys(first if each in others else each for each in care.zones))
            yield "care", care, replace(care, zones=named)


def _rows_of(notebook: Notebook, table: str, zone_ids: Iterable[str]) -> Iterator[Record]:
    wanted = set(zone_ids)
    for row in notebook.table(table).values():
        if getattr(row, "zone", None) in wanted:
            yield row
