"""Edits that place shapes elsewhere: moved, turned, mirrored, aligned, spread out, duplicated.

A zone takes along what stands on its ground: its heads, spots and the cans of its tests, each
once, but for a head or spot that is locked, which stays. What is named and locked is refused.
"""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import Bounds, bounds_ft, tidy, zone_at
from lawnbook.yard.notebook import Change, Key, Notebook, apply, new_id, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import CatchTest, Feature, Head, Record, Spot, Zone
from lawnbook.yard.shape_records import (
    Placed,
    free_names,
    held,
    places_of,
    refuse_far,
    refuse_locked,
)

Edge = Literal["left", "right", "top", "bottom", "centre", "middle"]
"""What is aligned: an edge of the box round a shape; its centre across, or its middle up."""

Axis = Literal["across", "up"]
"""A way over the page: from left to right, or from the bottom to the top."""

_FINEST_DEG = 2
"""Decimals of a bearing that is kept."""


@dataclass(frozen=True, slots=True)
class Placing:
    """Where a placing takes points (feet) and the start of a head's arc (degrees from the top)."""

    at: Callable[[Point], Point]
    start_deg: Callable[[Head], float] = lambda head: head.start_deg
    flips: bool = False


def moved(notebook: Notebook, keys: Iterable[Key], by: Point) -> Change:
    """The change that moves shapes, heads and spots by a step. OwnerError where one is locked."""
    return _all_placed(notebook, dict.fromkeys(keys, _shift(by)))


def turned(notebook: Notebook, keys: Iterable[Key], deg: float, about: Point) -> Change:
    """The change that turns records about a point, clockwise for degrees above 0.

    OwnerError where one is locked or would lie too far out.
    """
    sine, cosine = _exact(math.sin(math.radians(deg))), _exact(math.cos(math.radians(deg)))

    def at(point: Point) -> Point:
        x, y = point[0] - about[0], point[1] - about[1]
        return tidy((about[0] + x * cosine + y * sine, about[1] - x * sine + y * cosine))

    placing = Placing(at, lambda head: _bearing(head.start_deg + deg))
    return _all_placed(notebook, dict.fromkeys(keys, placing))


def mirrored(notebook: Notebook, keys: Iterable[Key], a: Point, b: Point) -> Change:
    """The change that mirrors records on the endless line through two points.

    The arc of a head wets the mirror image of what it wetted. OwnerError where one is locked,
    where the points are one, or where something would lie too far out.
    """
    if math.dist(a, b) < 0.01:
        raise OwnerError(tr("The two points of the mirror line lie on one place; set them apart."))
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    line_deg = math.degrees(math.atan2(ux, uy))

    def at(point: Point) -> Point:
        x, y = point[0] - a[0], point[1] - a[1]
        along = x * ux + y * uy
        return tidy((a[0] + 2 * along * ux - x, a[1] + 2 * along * uy - y))

    def start_deg(head: Head) -> float:
        # What was its end, clockwise, is its start in the mirror.
        return _bearing(2 * line_deg - head.start_deg - head.sweep_deg)

    return _all_placed(notebook, dict.fromkeys(keys, Placing(at, start_deg, flips=True)))


def aligned(notebook: Notebook, keys: Sequence[Key], edge: Edge) -> Change:
    """The change that lines records up with the first of them, which stays where it is.

    OwnerError where one that would move is locked, or where there is nothing to line up.
    """
    boxes = _boxes(notebook, keys)
    if len(boxes) < 2:
        raise OwnerError(tr("Choose two or more shapes to line up; the first one stays."))
    first, *others = boxes
    return _all_placed(
        notebook, {key: _shift(_to_edge(boxes[first], boxes[key], edge)) for key in others}
    )


def spread_out(notebook: Notebook, keys: Sequence[Key], axis: Axis) -> Change:
    """The change that makes the gaps between records even; the two outermost stay.

    OwnerError for fewer than three, or where one that would move is locked.
    """
    boxes = _boxes(notebook, keys)
    if len(boxes) < 3:
        raise OwnerError(tr("Choose three or more shapes to make the gaps between them even."))
    low, high = (0, 2) if axis == "across" else (1, 3)
    order = sorted(boxes, key=lambda key: (boxes[key][low], boxes[key][high]))
    # The outermost are the first to begin and the last to end.
    last = max(order[1:], key=lambda key: boxes[key][high])
    order = [each for each in order if each != last] + [last]
    filled = sum(boxes[key][high] - boxes[key][low] for key in order)
    gap = (boxes[last][high] - boxes[order[0]][low] - filled) / (len(order) - 1)
    placings: dict[Key, Placing] = {}
    at = boxes[order[0]][high] + gap
    for key in order[1:-1]:
        step = at - boxes[key][low]
        placings[key] = _shift((step, 0.0) if axis == "across" else (0.0, step))
        at += boxes[key][high] - boxes[key][low] + gap
    return _all_placed(notebook, placings)


def duplicated(
    notebook: Notebook, keys: Iterable[Key], by: Point
) -> tuple[Change, tuple[Key, ...]]:
    """The change that adds copies a step away, and the copies' keys in the order of `keys`.

    A zone's copy has its settings and copies of its heads, and nothing of its past. Copies are
    not locked; those of zones and spots, and of features with a name, get a free name.
    """
    wanted = tuple(dict.fromkeys(keys))
    placing, ids = _shift(by), {key: new_id() for key in wanted}
    heads = [
        ("heads", head.id)
        for head in notebook.heads.values()
        if ("zones", head.zone) in ids and ("heads", head.id) not in ids
    ]
    ids.update((key, new_id()) for key in heads)
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for (table, _), record in ((key, held(notebook, key)) for key in ids):
        so_far = apply(notebook, change)
        copy = _copy(so_far, table, placed(record, placing), ids)
        change.update(put(so_far, table, replace(copy, rank=0)))
    after = apply(notebook, change)
    refuse_far(ring for _, each in change.values() for ring in places_of(each))
    for key, (before, copied) in change.items():
        if isinstance(copied, Spot) and ("zones", copied.zone) not in change:
            change[key] = (before, _in_its_zone(after, copied))
    return change, tuple((key[0], ids[key]) for key in wanted)


def followed_by(first: Change, then: Change) -> Change:
    """Two changes, the second of the notebook after the first, as one."""
    joined = dict(first)
    for key, (before, after) in then.items():
        joined[key] = (first[key][0] if key in first else before, after)
    return joined


def placed(record: Placed, placing: Placing) -> Placed:
    """A zone, feature, head or spot at the place that a placing gives it."""
    if isinstance(record, Zone):
        holes = tuple(_ring(hole, placing) for hole in record.holes_ft)
        return replace(record, outline_ft=_ring(record.outline_ft, placing), holes_ft=holes)
    if isinstance(record, Feature):
        return replace(record, outline_ft=_ring(record.outline_ft, placing))
    if isinstance(record, Head):
        return replace(record, at_ft=placing.at(record.at_ft), start_deg=placing.start_deg(record))
    return record if record.at_ft is None else replace(record, at_ft=placing.at(record.at_ft))


def _all_placed(notebook: Notebook, placings: Mapping[Key, Placing]) -> Change:
    records = {key: held(notebook, key) for key in placings}
    refuse_locked(records.values())
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for key, record in records.items():
        if isinstance(record, Zone):
            change.update(_riders(notebook, record.id, placings[key]))
    for key, record in records.items():
        change[key] = (record, placed(record, placings[key]))
    refuse_far(ring for _, after in change.values() for ring in places_of(after))
    after = apply(notebook, change)
    for key, record in records.items():
        if isinstance(record, Spot) and ("zones", record.zone) not in placings:
            change[key] = (record, _in_its_zone(after, after.spots[record.id]))
    return change


def _riders(notebook: Notebook, zone_id: str, placing: Placing) -> Change:
    """What goes along with a zone; what is placed by itself replaces its entry afterwards."""
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for table in ("heads", "spots"):
        for key in ((table, each) for each in notebook.table(table)):
            record = held(notebook, key)
            if isinstance(record, Head | Spot) and record.zone == zone_id and not record.locked:
                change[key] = (record, placed(record, placing))
    for test in notebook.catch_tests.values():
        if test.zone == zone_id and test.at_ft:
            change[("catch_tests", test.id)] = (test, _cans_placed(test, placing))
    return change


def _cans_placed(test: CatchTest, placing: Placing) -> CatchTest:
    # Not as a ring: the cans keep their order, which that of their catches follows.
    return replace(test, at_ft=tuple(placing.at(point) for point in test.at_ft))


def _copy(notebook: Notebook, table: str, record: Placed, ids: Mapping[Key, str]) -> Placed:
    copy = replace(record, id=ids[(table, record.id)], locked=False)
    if isinstance(copy, Head):
        return replace(copy, zone=ids.get(("zones", copy.zone), copy.zone))
    if isinstance(copy, Spot):
        zone = copy.zone if copy.zone is None else ids.get(("zones", copy.zone), copy.zone)
        return replace(copy, name=free_names(notebook, table, copy.name)[0], zone=zone)
    if not copy.name:
        return copy
    return replace(copy, name=free_names(notebook, table, copy.name)[0])


def _in_its_zone(notebook: Notebook, spot: Spot) -> Spot:
    """A spot with the zone it now lies in; outside of all it keeps the one it had."""
    zone = zone_at(notebook, spot.at_ft) if spot.at_ft is not None else None
    return spot if zone is None else replace(spot, zone=zone.id)


def _shift(by: Point) -> Placing:
    return Placing(lambda point: tidy((point[0] + by[0], point[1] + by[1])))


def _ring(outline: Outline, placing: Placing) -> Outline:
    """An outline placed; mirrored it is gone round the other way, so that it keeps its turn."""
    ring = tuple(placing.at(point) for point in outline)
    return (ring[0], *ring[:0:-1]) if placing.flips and ring else ring


def _boxes(notebook: Notebook, keys: Sequence[Key]) -> dict[Key, Bounds]:
    """The boxes round the records that have a place, in order."""
    rings = {key: places_of(held(notebook, key)) for key in keys}
    return {key: bounds_ft(each) for key, each in rings.items() if each}


def _to_edge(first: Bounds, box: Bounds, edge: Edge) -> Point:
    west, south, east, north = (there - here for there, here in zip(first, box, strict=True))
    steps: dict[Edge, Point] = {
        "left": (west, 0.0),
        "right": (east, 0.0),
        "top": (0.0, north),
        "bottom": (0.0, south),
        "centre": ((west + east) / 2, 0.0),
        "middle": (0.0, (south + north) / 2),
    }
    return steps[edge]


def _bearing(deg: float) -> float:
    return round(deg % 360, _FINEST_DEG) % 360


def _exact(ratio: float) -> float:
    """A sine or cosine without the rounding of quarter turns."""
    return float(round(ratio)) if abs(ratio - round(ratio)) < 1e-12 else ratio
