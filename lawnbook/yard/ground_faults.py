"""Faults of ground: what lies on what, and what is left bare between zones.

Boxes are compared first (a tree of them), then surfaces all at once; only what truly shares ground
is worked out on the sketch's grid.
"""

from collections.abc import Iterator, Sequence
from importlib import import_module
from typing import Any

from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.faults import Fault, Mend, area_told
from lawnbook.yard.geometry import bounds_ft, boxes_meet, perimeter_ft
from lawnbook.yard.ground import (
    LEAST_PIECE_SQFT,
    Ground,
    ground_of,
    narrow_gaps,
    shared,
    without,
)
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, Zone
from lawnbook.yard.shape_records import Shape, called, listed, sentence_case

SLIVER_FT = 0.5
"""Bare ground up to this wide between two zones is taken for a slip (common practice)."""

LEAST_WIDTH_FT = 0.02
"""What two shapes share along an edge, narrower than a quarter inch, is rounding to the grid."""

NOT_TURF = frozenset({"house", "bed", "paving", "pool", "water"})
"""Features on which no turf grows. Fences, pet patches and buried lines lie on it on purpose."""

_TOUCH_FT = 0.03


def ground_faults(notebook: Notebook) -> Iterator[Fault]:
    """Zones that share ground, features and crowns on turf, bare slivers between zones."""
    zones = tuple(notebook.zones.values())
    features = tuple(
        each for each in notebook.features.values() if each.kind in NOT_TURF or each.kind == "tree"
    )
    for one, other in _pairs(zones, zones):
        if isinstance(one, Zone) and isinstance(other, Zone):
            yield from _overlap(one, other)
    for zone, feature in _pairs(zones, features):
        if isinstance(zone, Zone) and isinstance(feature, Feature):
            yield from _covered(zone, feature)
    yield from _slivers(zones, features)


def wide_enough(pieces: Sequence[Ground]) -> tuple[Ground, ...]:
    """The pieces that are more than the grid's rounding along an edge."""
    return tuple(
        each
        for each in pieces
        if each.area_sqft > LEAST_WIDTH_FT * sum(perimeter_ft(ring) for ring in each.rings) / 2
    )


def surfaces(shapes: Sequence[Shape]) -> Any:
    """Shapes as an array of shapely surfaces, mended where a hole meets its edge."""
    shapely: Any = import_module("shapely")
    made = []
    for each in shapes:
        holes = each.holes_ft if isinstance(each, Zone) else ()
        surface = shapely.Polygon(each.outline_ft, holes)
        if not surface.is_valid:
            gone = [shapely.make_valid(shapely.Polygon(hole)) for hole in holes]
            filled = shapely.make_valid(shapely.Polygon(each.outline_ft))
            surface = shapely.difference(filled, shapely.union_all(gone))
        made.append(surface)
    return made


def _pairs(some: Sequence[Shape], others: Sequence[Shape]) -> Iterator[tuple[Shape, Shape]]:
    """The pairs that share ground; of one list with itself each pair once, the earlier first."""
    if not some or not others:
        return
    shapely: Any = import_module("shapely")
    alone = some is others
    mine = surfaces(some)
    theirs = mine if alone else surfaces(others)
    first, second = shapely.STRtree(theirs).query(mine)
    places = sorted(
        (int(i), int(j)) for i, j in zip(first, second, strict=True) if not alone or i < j
    )
    if not places:
        return
    common = shapely.area(
        shapely.intersection([mine[i] for i, _ in places], [theirs[j] for _, j in places])
    )
    for (i, j), area in zip(places, common, strict=True):
        if area >= LEAST_PIECE_SQFT:
            yield some[i], others[j]


def _overlap(one: Zone, other: Zone) -> Iterator[Fault]:
    first, second = ground_of(one), ground_of(other)
    pieces = wide_enough(shared(first, [second]))
    if not pieces:
        return
    area = sum(each.area_sqft for each in pieces)
    rings = tuple(ring for each in pieces for ring in each.rings)
    keys = (("zones", one.id), ("zones", other.id))
    inner_first = _all_in(first, area) and not without(first, [second])
    inner_second = _all_in(second, area) and not without(second, [first])
    if inner_first and inner_second:
        told = tr(
            "{name} and {other_name} lie on the same {area_told}, counted twice.",
            name=one.name,
            other_name=other.name,
            area_told=area_told(area),
        )
        mend = Mend(
            tr("Merge {name} into {other_name}", name=other.name, other_name=one.name),
            "merge",
            keys[1],
            keys[:1],
            safe=False,
        )
        yield Fault("overlap", keys, area, told, rings, mend)
    elif inner_first or inner_second:
        inner, outer = (one, other) if inner_first else (other, one)
        told = tr(
            "{name} lies wholly on {outer_name}: {area_told} are counted in both.",
            name=inner.name,
            outer_name=outer.name,
            area_told=area_told(area),
        )
        yield Fault("island", keys, area, told, rings, _cut(outer, inner))
    else:
        told = tr(
            "{name} and {other_name} share {area_told}, counted in both.",
            name=one.name,
            other_name=other.name,
            area_told=area_told(area),
        )
        later, earlier = _cut(other, one), _cut(one, other)
        # Where the later one is locked the earlier one has to give way.
        ways = (earlier, later) if other.locked and not one.locked else (later, earlier)
        yield Fault("overlap", keys, area, told, rings, *ways)


def _all_in(ground: Ground, shared_sqft: float) -> bool:
    """Whether so much shared ground may be all of a shape; told before it is worked out."""
    return shared_sqft > 0.95 * ground.area_sqft - 1


def _cut(shape: Zone, cutter: Shape) -> Mend:
    table = "zones" if isinstance(cutter, Zone) else "features"
    return Mend(
        tr("Cut it from {name}", name=shape.name), "cut", ("zones", shape.id), ((table, cutter.id),)
    )


def _covered(zone: Zone, feature: Feature) -> Iterator[Fault]:
    ground, over = ground_of(zone), ground_of(feature)
    pieces = wide_enough(shared(ground, [over]))
    if not pieces:
        return
    area = sum(each.area_sqft for each in pieces)
    rings = tuple(ring for each in pieces for ring in each.rings)
    keys = (("zones", zone.id), ("features", feature.id))
    name = sentence_case(called(feature))
    if feature.kind == "tree":
        told = tr(
            "{name} stands over {area_told} of {zone}, counted as turf",
            name=name,
            area_told=area_told(area),
            zone=zone.name,
        )
        yield Fault(
            "crown", keys, area, tr("{told}: right where grass grows below it.", told=told), rings
        )
        return
    told = tr(
        "{name} lies on {area_told} of {zone}, counted as turf.",
        name=name,
        area_told=area_told(area),
        zone=zone.name,
    )
    mend = _cut(zone, feature) if without(ground, [over]) else None
    yield Fault("covered", keys, area, told, rings, mend)


def _slivers(zones: Sequence[Zone], features: Sequence[Feature]) -> Iterator[Fault]:
    close = Neighbours(zones).close(SLIVER_FT)
    if not close:
        return
    solid = [ground_of(each) for each in features if each.kind in NOT_TURF]
    neighbours = Neighbours(close)
    for gap in narrow_gaps([ground_of(each) for each in close], SLIVER_FT):
        box = bounds_ft([gap.outline])
        over = [each for each in solid if boxes_meet(bounds_ft([each.outline]), box)]
        for bare in wide_enough(without(gap, over) if over else (gap,)):
            beside = neighbours.beside(bare)
            if len(beside) > 1:
                yield _sliver(bare, beside)


def _sliver(bare: Ground, beside: Sequence[Zone]) -> Fault:
    names = listed([each.name for each in beside])
    told = tr(
        "{area_told} between {names} are bare and at most {plainly} wide.",
        area_told=area_told(bare.area_sqft),
        names=names,
        plainly=plainly(6, "in"),
    )
    taker = next((each for each in beside if not each.locked), beside[0])
    key = ("zones", taker.id)
    keys = tuple(("zones", each.id) for each in beside)
    others = tuple(each for each in keys if each != key)
    mend = Mend(tr("Join it to {name}", name=taker.name), "join", key, others, (bare,))
    return Fault("sliver", keys, bare.area_sqft, told, bare.rings, mend)


class Neighbours:
    """Zones by where they lie, to find those beside some ground."""

    def __init__(self, zones: Sequence[Zone]) -> None:
        self._shapely: Any = import_module("shapely")
        self._zones = tuple(zones)
        self._surfaces = surfaces(zones)
        self._tree = self._shapely.STRtree(self._surfaces)

    def close(self, within_ft: float) -> tuple[Zone, ...]:
        """The zones that have another within a distance, in order."""
        if len(self._zones) < 2:
            return ()
        one, other = self._tree.query(self._surfaces, predicate="dwithin", distance=within_ft)
        places = sorted({int(i) for i, j in zip(one, other, strict=True) if i != j})
        return tuple(self._zones[i] for i in places)

    def beside(self, ground: Ground) -> list[Zone]:
        """The zones along some ground, that with the longest shared edge first.

        Those that meet it in a point alone are not beside it.
        """
        surface = self._shapely.Polygon(ground.outline, ground.holes)
        near = self._tree.query(surface, predicate="dwithin", distance=_TOUCH_FT)
        around = surface.buffer(_TOUCH_FT)
        lengths = [
            (self._surfaces[i].boundary.intersection(around).length, int(i)) for i in sorted(near)
        ]
        # A corner that only touches has an edge of some three widths within reach.
        touching = [each for each in lengths if each[0] > 4 * _TOUCH_FT]
        return [self._zones[i] for _, i in sorted(touching, key=lambda each: -each[0])]
