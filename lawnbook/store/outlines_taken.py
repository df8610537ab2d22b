"""What becomes of each outline that is taken in, and the one change that takes all of them in."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal, get_args

from lawnbook.frozen import dataclass
from lawnbook.plan.workings import and_joined, counted
from lawnbook.reading import tr
from lawnbook.store.outlines_laid import LaidOutlines, LaidShape
from lawnbook.yard.amounts import bare, told
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, bounds_ft, boxes_meet, zone_area_sqft
from lawnbook.yard.ground import ground_of, shared, without
from lawnbook.yard.notebook import Change, Key, Notebook, new_id, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_base import FeatureKind
from lawnbook.yard.records import Feature, Record, Zone
from lawnbook.yard.shape_records import called, sentence_case

What = Literal["zone", "feature", "hole", "hole_here", "outline", "shape", "leave"]
KINDS: tuple[FeatureKind, ...] = get_args(FeatureKind)
_WORDS: dict[str, FeatureKind] = {
    **{kind: kind for kind in KINDS if kind != "other"},
    "home": "house",
    "garage": "house",
    "shed": "house",
    "drive": "paving",
    "driveway": "paving",
    "patio": "paving",
    "path": "paving",
    "sidewalk": "paving",
    "walk": "paving",
    "trees": "tree",
    "beds": "bed",
    "pond": "water",
}


@dataclass(frozen=True, slots=True)
class Becomes:
    """What becomes of an outline.

    A new "zone"; a new "feature" of the kind `of`; a "hole" of the zone `of`; a "hole_here" of the
    zone that the file's shape of the place `of` becomes; the new "outline" of the zone `of`; the
    new "shape" of the feature `of`; or it is left out ("leave").
    """

    what: What
    of: str = ""


MOST_NAMED = 4
LEAVE = Becomes("leave")
NEW_ZONE = Becomes("zone")


def usual(shape: LaidShape, notebook: Notebook) -> Becomes:
    """What an outline most likely is: by the records of its name, what the file says, its name."""
    own = notebook.zones.get(shape.record_id), notebook.features.get(shape.record_id)
    if shape.table == "zones" and own[0] is not None:
        return LEAVE if own[0].locked else Becomes("outline", own[0].id)
    if shape.table == "features" and own[1] is not None:
        return LEAVE if own[1].locked else Becomes("shape", own[1].id)
    return _by_name(shape, notebook)


def _by_name(shape: LaidShape, notebook: Notebook) -> Becomes:
    name = shape.name.strip().casefold()
    zones = (each for each in notebook.zones.values() if each.name.strip().casefold() == name)
    features = (each for each in notebook.features.values() if each.name.strip().casefold() == name)
    if name and (zone := next(zones, None)) is not None and shape.table != "features":
        return LEAVE if zone.locked else Becomes("outline", zone.id)
    if name and (feature := next(features, None)) is not None and shape.table != "zones":
        return LEAVE if feature.locked else Becomes("shape", feature.id)
    return _by_kind(shape, name)


def _by_kind(shape: LaidShape, name: str) -> Becomes:
    if shape.table == "zones":
        return NEW_ZONE
    if shape.kind in KINDS:
        return Becomes("feature", shape.kind)
    if shape.table == "features":
        return Becomes("feature", "other")
    words = re.findall(r"[a-z]+", name)
    kind = next((_WORDS[word] for word in words if word in _WORDS), None)
    return NEW_ZONE if kind is None else Becomes("feature", kind)


def choices(
    shape: LaidShape, notebook: Notebook, others: Sequence[LaidShape] = ()
) -> tuple[tuple[str, Becomes], ...]:
    """All that can become of an outline, in words; holes only of the zones that it lies on.

    `others` are all shapes of its file, this one among them.
    """
    return tuple(_choices(shape, notebook, others))


def _choices(
    shape: LaidShape, notebook: Notebook, others: Sequence[LaidShape]
) -> Iterator[tuple[str, Becomes]]:
    yield tr("New zone"), NEW_ZONE
    for kind in KINDS:
        yield tr("New feature: {kind}", kind=kind), Becomes("feature", kind)
    for zone in notebook.zones.values():
        if not zone.locked:
            yield tr("New outline of {name}", name=zone.name), Becomes("outline", zone.id)
    for feature in notebook.features.values():
        if not feature.locked:
            yield (
                tr("New outline of {called}", called=called(feature)),
                Becomes("shape", feature.id),
            )
    for zone in notebook.zones.values():
        if (
            not zone.locked
            and boxes_meet(bounds_ft([zone.outline_ft]), bounds_ft([shape.ground.outline]))
            and shared(ground_of(zone), (shape.ground,))
        ):
            yield tr("Hole in {name}", name=zone.name), Becomes("hole", zone.id)
    for place, other in enumerate(others):
        if _holds(other, shape):
            yield (
                tr("Hole in {file_name}, of this file", file_name=file_name(other, place)),
                hole_here(place),
            )
    yield tr("Left out"), LEAVE


def hole_here(place: int) -> Becomes:
    """A hole in the zone that the shape of that place in the file becomes."""
    return Becomes("hole_here", str(place))


def file_name(shape: LaidShape, place: int) -> str:
    """What a shape of a file is called: its name, else its number in the file."""
    return shape.name or tr("Shape {place}", place=place + 1)


def taken_in(notebook: Notebook, laid: LaidOutlines, becomes: Sequence[Becomes]) -> Change:
    """The one change that takes outlines in as told, with the yard's place; {} for none.

    OwnerError where two become the outline of one record, or one is locked or would be cut up, or
    one would be a hole in a shape that becomes no zone.
    """
    taking, pairs = _Taking(notebook), list(zip(laid.shapes, becomes, strict=True))
    # Holes last: what they are cut into is there by then.
    for place, (shape, each) in enumerate(pairs):
        if each.what not in ("hole", "hole_here"):
            taking.take(place, shape, each)
    for place, (shape, each) in enumerate(pairs):
        if each.what == "hole":
            taking.cut(each.of, shape)
        elif each.what == "hole_here":
            zone_id = taking.zones_here.get(int(each.of))
            if zone_id is None:
                outer = file_name(laid.shapes[int(each.of)], int(each.of))
                raise OwnerError(
                    tr(
                        "{file_name} is to be a hole in {outer}, which is not taken in as a "
                        "zone; let "
                        "{outer} be one, or choose something else.",
                        file_name=file_name(shape, place),
                        outer=outer,
                    )
                )
            taking.cut(zone_id, shape)
    if not taking.records:
        return {}
    change: dict[Key, tuple[Record | None, Record | None]] = {}
    for table in ("zones", "features"):
        made = [record for (name, _), record in taking.records.items() if name == table]
        change.update(put(notebook, table, *made))
    if laid.yard != notebook.yard:
        change.update(put(notebook, "yard", laid.yard))
    return change


def told_of(change: Change) -> str:
    """What a change of outlines did, in a sentence with areas; "" where it did nothing."""
    counts: Counter[str] = Counter()
    moved: list[str] = []
    for before, after in change.values():
        if isinstance(after, Zone) and before is None:
            counts["zone"] += 1
        elif isinstance(after, Feature) and before is None:
            counts["feature"] += 1
        elif isinstance(before, Zone | Feature) and isinstance(after, Zone | Feature):
            was, now = _area(before), _area(after)
            moved.append(
                tr(
                    "{called} has {now}, {bare} before",
                    called=called(after),
                    now=told(now, 0, "sq ft"),
                    bare=bare(was, 0, "sq ft"),
                )
            )
    new = [counted(count, f"new {what}") for what, count in counts.items()]
    parts = [tr("{new} taken in", new=and_joined(new))] if new else []
    parts += (
        moved if len(moved) <= MOST_NAMED else [tr("{count} have new outlines", count=len(moved))]
    )
    return "; ".join(parts) + "." if parts else ""


class _Taking:
    """Records in the making, so that several outlines can change one zone."""

    def __init__(self, notebook: Notebook) -> None:
        self._notebook = notebook
        self.records: dict[Key, Zone | Feature] = {}
        self.zones_here: dict[int, str] = {}
        self._redrawn: set[str] = set()
        self._names = {each.name.strip().casefold() for each in notebook.zones.values()}

    def take(self, place: int, shape: LaidShape, becomes: Becomes) -> None:
        """Take one outline in, which is no hole; `place` is where it stands in the file."""
        ground = shape.ground
        if becomes.what == "zone":
            name = self._free_name(shape.name)
            made = Zone(id=new_id(), name=name, outline_ft=ground.outline, holes_ft=ground.holes)
            self.records[("zones", made.id)] = made
            self.zones_here[place] = made.id
        elif becomes.what == "feature":
            self._new_feature(shape.name, becomes.of, ground.outline)
        elif becomes.what == "outline":
            zone = self._zone(becomes.of)
            self.zones_here[place] = zone.id
            self._redraw(replace(zone, outline_ft=ground.outline, holes_ft=ground.holes), "zones")
        elif becomes.what == "shape":
            feature = self._notebook.features[becomes.of]
            _refuse_locked(feature)
            self._redraw(replace(feature, outline_ft=ground.outline), "features")

    def _new_feature(self, name: str, told: str, outline: Outline) -> None:
        kind = next((each for each in KINDS if each == told), KINDS[-1])
        made = Feature(id=new_id(), kind=kind, name=name, outline_ft=outline)
        self.records[("features", made.id)] = made

    def _zone(self, zone_id: str) -> Zone:
        held = self.records.get(("zones", zone_id)) or self._notebook.zones[zone_id]
        if not isinstance(held, Zone):
            raise TypeError("A zone's table holds zones")
        _refuse_locked(held)
        return held

    def _redraw(self, record: Zone | Feature, table: str) -> None:
        if record.id in self._redrawn:
            told = tr(
                "Two shapes cannot both be the outline of {called}; choose one.",
                called=called(record),
            )
            raise OwnerError(told)
        self._redrawn.add(record.id)
        self.records[(table, record.id)] = record

    def cut(self, zone_id: str, shape: LaidShape) -> None:
        """Cut an outline out of a zone, as it is by now."""
        zone = self._zone(zone_id)
        left = without(ground_of(zone), (shape.ground,))
        if len(left) != 1:
            how = tr("leave nothing of") if not left else tr("cut up")
            raise OwnerError(
                tr(
                    "{name} would {how} {zone}; leave it out.",
                    name=shape.name or tr("This shape"),
                    how=how,
                    zone=zone.name,
                )
            )
        kept = replace(zone, outline_ft=left[0].outline, holes_ft=left[0].holes)
        self.records[("zones", zone.id)] = kept

    def _free_name(self, asked: str) -> str:
        stem, number = asked or tr("Zone"), 2 if asked else len(self._names) + 1
        name = asked or f"{stem} {number}"
        while name.casefold() in self._names:
            name = f"{stem} {number}"
            number += 1
        self._names.add(name.casefold())
        return name


def _holds(outer: LaidShape, inner: LaidShape) -> bool:
    """Whether a shape shares ground with a larger one of the same file."""
    larger = outer.ground.area_sqft > inner.ground.area_sqft
    near = larger and boxes_meet(*(bounds_ft([each.ground.outline]) for each in (outer, inner)))
    return near and bool(shared(outer.ground, (inner.ground,)))


def _refuse_locked(record: Zone | Feature) -> None:
    if record.locked:
        name = sentence_case(called(record))
        raise OwnerError(
            tr("{name} is locked; unlock it first, or leave the shape out.", name=name)
        )


def _area(record: Zone | Feature) -> float:
    return zone_area_sqft(record) if isinstance(record, Zone) else area_sqft(record.outline_ft)
