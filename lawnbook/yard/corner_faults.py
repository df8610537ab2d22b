"""Faults of single shapes and places: corners, holes, very small zones, heads and spots astray."""

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import told as told_of
from lawnbook.yard.faults import Fault, Mend, area_told
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import (
    bounds_ft,
    contains,
    crosses_itself,
    distance_to_edge_ft,
    lies_inside,
    signed_area_sqft,
    zone_area_sqft,
    zone_at,
)
from lawnbook.yard.ground import LEAST_PIECE_SQFT, Ground, ground_of, without
from lawnbook.yard.ground_faults import Neighbours
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Head, Spot, Zone
from lawnbook.yard.shape_records import Shape, called, places_of, sentence_case
from lawnbook.yard.wetting import share_wetted

NEAR_FT = 0.1
"""Corners nearer to each other than this, an inch and a bit, are one (common practice)."""

SHARPEST_DEG = 3.0
"""A corner sharper than this is a spike: out along a line and back."""

SMALL_SQFT = 10.0
"""A zone smaller than this is taken for a slip."""

LEAST_WET_SHARE = 1e-6
ASTRAY_FT = 0.5


def shape_faults(notebook: Notebook) -> Iterator[Fault]:
    """What is wrong with single zones and features, and with heads and spots."""
    for table in ("zones", "features"):
        for record in notebook.table(table).values():
            if isinstance(record, Shape):
                yield from _corners((table, record.id), record)
    for zone in notebook.zones.values():
        yield from _holes(zone)
        yield from _small(zone, notebook)
    for head in notebook.heads.values():
        yield from _dry(head, notebook)
    for spot in notebook.spots.values():
        yield from _astray(spot, notebook)


def tidied(shape: Shape) -> Shape | None:
    """A shape without needless corners and spikes; None where it would not be one any more."""
    rings = tuple(_tidied(ring, hole=number > 0) for number, ring in enumerate(places_of(shape)))
    if any(len(ring) < 3 or crosses_itself(ring) for ring in rings):
        return None
    if not isinstance(shape, Zone):
        return replace(shape, outline_ft=rings[0])
    if not all(lies_inside(hole, rings[0]) for hole in rings[1:]):
        return None
    return replace(shape, outline_ft=rings[0], holes_ft=rings[1:])


def opened_holes(zone: Zone) -> tuple[Ground, ...]:
    """A zone's ground with its holes truly cut out, so that none meets the edge or another."""
    ground = ground_of(zone)
    return without(Ground(ground.outline), [Ground(hole[::-1]) for hole in ground.holes])


def _corners(key: Key, shape: Shape) -> Iterator[Fault]:
    rings = places_of(shape)
    needless = [
        point for number, ring in enumerate(rings) for point in _needless(ring, hole=number > 0)
    ]
    if not needless:
        return
    many = len(needless) > 1
    told = _needless_told(sentence_case(called(shape)), len(needless))
    after = tidied(shape)
    mend = Mend(tr("Take them out") if many else tr("Take it out"), "tidy", key) if after else None
    marks = tuple(_round_mark(point) for point in needless)
    yield Fault("corners", (key,), 0.0, told, marks, mend)


def _needless_told(shape: str, count: int) -> str:
    near = tr("25 mm") if is_metric() else tr("an inch")
    if count == 1:
        return tr(
            "{shape} has 1 corner that no eye sees: within {near} of the next, or out along a line "
            "and back.",
            shape=shape,
            near=near,
        )
    return tr(
        "{shape} has {count} corners that no eye sees: within {near} of the next, or out along a "
        "line and back.",
        shape=shape,
        count=count,
        near=near,
    )


def _needless(ring: Outline, *, hole: bool) -> tuple[Point, ...]:
    # Counted, for of two corners on one place one stays.
    kept = Counter(_tidied(ring, hole=hole))
    return tuple((Counter(ring) - kept).elements())


def _tidied(ring: Outline, *, hole: bool) -> Outline:
    """A ring without corners that lie on the next or are a spike's tip; at least three stay.

    Only what adds next to no ground: else the shape would come to lie on its neighbours.
    """
    kept = list(ring)
    leftward = 1.0 if (signed_area_sqft(ring) > 0) != hole else -1.0
    at = 0
    while at < len(kept) and len(kept) > 3:
        before, corner, after = kept[at - 1], kept[at], kept[(at + 1) % len(kept)]
        near = math.dist(corner, before) < NEAR_FT
        taken_sqft = leftward * signed_area_sqft((before, corner, after))
        slight = abs(taken_sqft) < LEAST_PIECE_SQFT
        spike = _angle_deg(before, corner, after) < SHARPEST_DEG
        if (near and slight) or (spike and (slight or taken_sqft > 0)):
            del kept[at]
            at = max(0, at - 2)
        else:
            at += 1
    return tuple(kept)


def _angle_deg(before: Point, corner: Point, after: Point) -> float:
    ux, uy = before[0] - corner[0], before[1] - corner[1]
    vx, vy = after[0] - corner[0], after[1] - corner[1]
    return math.degrees(abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)))


def _round_mark(at: Point, half_ft: float = 0.5) -> Outline:
    """A square round a point, to show it by."""
    x, y = at
    return (
        (x - half_ft, y - half_ft),
        (x + half_ft, y - half_ft),
        (x + half_ft, y + half_ft),
        (x - half_ft, y + half_ft),
    )


def _holes(zone: Zone) -> Iterator[Fault]:
    if not zone.holes_ft:
        return
    pieces = opened_holes(zone)
    if len(pieces) == 1 and len(pieces[0].holes) == len(zone.holes_ft):
        return
    told = tr(
        "A hole of {name} meets its edge or another hole; a bite or one hole says the same.",
        name=zone.name,
    )
    key = ("zones", zone.id)
    mend = Mend(tr("Open it"), "open", key, safe=len(pieces) == 1) if pieces else None
    yield Fault("hole", (key,), 0.0, told, zone.holes_ft, mend)


def _small(zone: Zone, notebook: Notebook) -> Iterator[Fault]:
    area = zone_area_sqft(zone)
    if area >= SMALL_SQFT:
        return
    others = [each for each in notebook.zones.values() if each.id != zone.id]
    beside = Neighbours(others).beside(ground_of(zone)) if others else []
    key = ("zones", zone.id)
    told = tr(
        "{name} is only {area_told}: is it a zone of its own?",
        name=zone.name,
        area_told=area_told(area),
    )
    mend = None
    if beside:
        into = ("zones", beside[0].id)
        mend = Mend(
            tr("Merge it into {name}", name=beside[0].name), "merge", key, (into,), safe=False
        )
    yield Fault("small", (key,), area, told, places_of(zone), mend)


def _dry(head: Head, notebook: Notebook) -> Iterator[Fault]:
    zone = notebook.zones.get(head.zone)
    if zone is None or _wets(head, zone) >= LEAST_WET_SHARE:
        return
    others = [each for each in notebook.zones.values() if each.id != zone.id]
    best = max(others, key=lambda each: _wets(head, each), default=None)
    mend = None
    if best is not None and _wets(head, best) >= LEAST_WET_SHARE:
        mend = _given(best, ("heads", head.id))
    told = tr(
        "A head of {name} wets none of it; move or turn it, or give it another zone.",
        name=zone.name,
    )
    keys = (("heads", head.id), ("zones", zone.id))
    yield Fault("head", keys, 0.0, told, (_round_mark(head.at_ft, 1.0),), mend)


def _wets(head: Head, zone: Zone) -> float:
    x, y = head.at_ft
    west, south, east, north = bounds_ft([zone.outline_ft])
    reach = head.radius_ft
    near = west - reach < x < east + reach and south - reach < y < north + reach
    return share_wetted(head, zone.outline_ft, zone.holes_ft) if near else 0.0


def _astray(spot: Spot, notebook: Notebook) -> Iterator[Fault]:
    zone = notebook.zones.get(spot.zone) if spot.zone is not None else None
    at = spot.at_ft
    if zone is None or at is None or contains(zone.outline_ft, at, zone.holes_ft):
        return
    away = distance_to_edge_ft(zone.outline_ft, at, zone.holes_ft)
    if away <= ASTRAY_FT:
        return
    told = tr(
        "Spot {name} lies {distance} outside its zone, {zone}; move either.",
        name=spot.name,
        distance=told_of(away, 1, "ft"),
        zone=zone.name,
    )
    here = zone_at(notebook, at)
    mend = _given(here, ("spots", spot.id)) if here is not None else None
    keys = (("spots", spot.id), ("zones", zone.id))
    yield Fault("spot", keys, 0.0, told, (_round_mark(at, 1.0),), mend)


def _given(zone: Zone, key: Key) -> Mend:
    return Mend(
        tr("Let it belong to {name}", name=zone.name),
        "give",
        key,
        (("zones", zone.id),),
        safe=False,
    )
