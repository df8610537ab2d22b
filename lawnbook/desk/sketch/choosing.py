"""What is chosen on the sketch, what lies under the pointer, and the handles of what is chosen."""

import math
from collections.abc import Iterable
from typing import Literal

from lawnbook.desk.sketch.outlines import (
    HeadPart,
    head_grips,
    midpoint,
    rings_of,
    sides,
)
from lawnbook.desk.theme import scale
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, contains, distance_to_edge_ft
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

ON_SKETCH = ("zones", "features", "heads", "spots")
"""The tables whose records are drawn, in the order in which Tab goes through them."""

HANDLE_PX = 10.0
HEAD_PX = 9.0
_PIN_PX = (26.0, 34.0)
EDGE_REACH_PX = 5.0


@dataclass(frozen=True, slots=True)
class Choice:
    """What is chosen: a record, one of its rings, and one of that ring's corners."""

    table: str
    record_id: str
    ring: int = 0
    corner: int | None = None

    @property
    def key(self) -> Key:
        """Table and id of the record."""
        return (self.table, self.record_id)

    @property
    def whole(self) -> "Choice":
        """The record as a whole, without a ring or corner of it."""
        return Choice(self.table, self.record_id)


@dataclass(frozen=True, slots=True)
class Handle:
    """Something small to take hold of on the chosen shape."""

    kind: Literal["corner", "middle"] | HeadPart
    at_ft: Point
    ring: int = 0
    index: int = 0


def is_locked(record: Record | None) -> bool:
    """Whether a record of the sketch is locked; one that knows no lock is not."""
    return isinstance(record, Zone | Feature | Head | Spot) and record.locked


def handles_of(record: Record | None) -> tuple[Handle, ...]:
    """The handles of a record: corners before the middles of sides; a head's three.

    What is locked has none.
    """
    if is_locked(record):
        return ()
    if isinstance(record, Head):
        grips = head_grips(record)
        return tuple(Handle(part, at) for part, at in grips.items())
    corners: list[Handle] = []
    middles: list[Handle] = []
    for ring, outline in enumerate(rings_of(record)):
        corners += [Handle("corner", at, ring, index) for index, at in enumerate(outline)]
        middles += [
            Handle("middle", midpoint(start, end), ring, index)
            for index, (start, end) in enumerate(sides(outline))
        ]
    return (*corners, *middles)


def handle_at(handles: Iterable[Handle], point: Point, ft_per_px: float) -> Handle | None:
    """The nearest handle within reach of a point; a corner wins over the middle of a side."""
    reach = HANDLE_PX * ft_per_px
    near = [each for each in handles if math.dist(each.at_ft, point) <= reach]
    return min(near, key=lambda h: (h.kind == "middle", math.dist(h.at_ft, point)), default=None)


def under(notebook: Notebook, point: Point, ft_per_px: float) -> Choice | None:
    """What lies under a point: pins first, then heads, features, and the smallest zone."""
    return next(iter(all_under(notebook, point, ft_per_px)), None)


def all_under(notebook: Notebook, point: Point, ft_per_px: float) -> tuple[Choice, ...]:
    """All that lies under a point, in the order in which clicks at one place choose it.

    Zones that only reach the point with their edge count where no zone holds it.
    """
    pins = [
        Choice("spots", spot.id)
        for spot in reversed(list(notebook.spots.values()))
        if _on_pin(spot, point, ft_per_px)
    ]
    near = [
        (math.dist(head.at_ft, point), head.id)
        for head in notebook.heads.values()
        if math.dist(head.at_ft, point) <= HEAD_PX * ft_per_px
    ]
    heads = [Choice("heads", record_id) for _, record_id in sorted(near)]
    return (*pins, *heads, *_shapes_under(notebook, point, EDGE_REACH_PX * ft_per_px))


def hole_under(record: Record | None, point: Point) -> int | None:
    """Which hole of a zone a point lies in, as the number of its ring; None outside of all."""
    for ring, hole in enumerate(rings_of(record)[1:], 1):
        if contains(hole, point):
            return ring
    return None


def in_order(notebook: Notebook) -> tuple[Choice, ...]:
    """Everything on the sketch in the order in which Tab goes through it."""
    return tuple(
        Choice(table, record_id)
        for table in ON_SKETCH
        for record_id, record in notebook.table(table).items()
        if not (isinstance(record, Spot) and record.at_ft is None)
    )


def name_of(notebook: Notebook, table: str, record_id: str) -> str:
    """What a record on the sketch is called in words, "" if there is none."""
    record = notebook.find(table, record_id)
    if isinstance(record, Zone | Spot):
        return record.name
    if isinstance(record, Feature):
        return record.name or tr(record.kind)
    if isinstance(record, Head):
        zone = notebook.zones.get(record.zone)
        mates = [head.id for head in notebook.heads.values() if head.zone == record.zone]
        place = tr(" of {name}", name=zone.name) if zone else ""
        return tr("head {index}{place}", index=mates.index(record_id) + 1, place=place)
    return ""


def number_of(notebook: Notebook, zone_id: str) -> int:
    """The number of a zone: its place in the owner's order, from 1."""
    return list(notebook.zones).index(zone_id) + 1


def pin_width_px() -> float:
    """How wide a spot's pin is drawn: round the figure in it."""
    return _PIN_PX[0] * scale()


def pin_height_px() -> float:
    """How far a spot's pin stands above its point."""
    return _PIN_PX[1] * scale()


def _on_pin(spot: Spot, point: Point, ft_per_px: float) -> bool:
    if spot.at_ft is None:
        return False
    across = (point[0] - spot.at_ft[0]) / ft_per_px
    up = (point[1] - spot.at_ft[1]) / ft_per_px
    return abs(across) <= pin_width_px() / 2 and -4 <= up <= pin_height_px()


def _shapes_under(notebook: Notebook, point: Point, reach_ft: float) -> list[Choice]:
    features = [
        Choice("features", feature.id)
        for feature in reversed(list(notebook.features.values()))
        if _touches(feature.outline_ft, (), point, reach_ft)
    ]
    zones = sorted(notebook.zones.values(), key=lambda zone: area_sqft(zone.outline_ft))
    inside = [z for z in zones if contains(z.outline_ft, point, z.holes_ft)]
    found = inside or [z for z in zones if _touches(z.outline_ft, z.holes_ft, point, reach_ft)][:1]
    return [*features, *(Choice("zones", zone.id) for zone in found)]


def _touches(outline: Outline, holes: tuple[Outline, ...], point: Point, reach_ft: float) -> bool:
    inside = contains(outline, point, holes)
    return inside or distance_to_edge_ft(outline, point, holes) <= reach_ft
