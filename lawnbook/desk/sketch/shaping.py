"""Operations that change the ground of shapes: merge, subtract, cut out, split, strip, remove."""

from collections.abc import Iterable

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.operating import (
    at_start,
    carry_out,
    chosen_records,
    is_gone,
    lacks_shape,
    lacks_unlocked,
    names_of,
)
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import bounds_ft, boxes_meet, lies_inside, overlap
from lawnbook.yard.ground_faults import NOT_TURF
from lawnbook.yard.notebook import Change, Key, Notebook
from lawnbook.yard.records import Feature, Zone
from lawnbook.yard.shape_edits import (
    Becomes,
    crumbs_told,
    cut_of,
    merged,
    split,
    strip_cut,
    strip_made,
    strips_of,
    subtracted,
    told,
)


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip along one side of an outline, or all round it (None)."""

    side: int | None
    width_ft: float
    inward: bool
    becomes: Becomes


def lacks_zones(control: SketchControl) -> str:
    """Merging needs two zones, and nothing else."""
    records = chosen_records(control)
    if len(records) < 2 or not all(isinstance(each, Zone) for each in records.values()):
        return tr("Choose two zones or more, and nothing else.")
    return lacks_unlocked(control)


def merge(control: SketchControl) -> None:
    """Make one zone of those chosen; heads, spots and feedings come along."""
    notebook, keys = control.notebook, tuple(chosen_records(control))
    names = names_of(notebook, keys)

    def finish(change: Change) -> str:
        control.choose_all(keys[:1])
        return tr("{names} merged. {change}", names=names, change=told(change))

    carry_out(
        control, lambda: merged(notebook, ids_of(keys)), tr("merge {names}", names=names), finish
    )


def ids_of(keys: Iterable[Key]) -> list[str]:
    """The records' ids alone."""
    return [record_id for _, record_id in keys]


def lacks_cutters(control: SketchControl) -> str:
    """Subtracting needs a zone or feature chosen first, and shapes to cut out of it."""
    records = list(chosen_records(control).values())
    if len(records) < 2 or not all(isinstance(each, Zone | Feature) for each in records):
        return tr("Choose the zone or feature to cut from first, then mark what is to be cut out.")
    # What is cut out of another stays as it is, so it may be locked.
    first = control.notebook.find(*control.chosen_keys[0])
    if isinstance(first, Zone | Feature) and first.locked:
        return tr(
            "{at_start} is locked.",
            at_start=at_start(names_of(control.notebook, control.chosen_keys[:1])),
        )
    return ""


def subtract(control: SketchControl) -> None:
    """Cut the other chosen shapes out of the first."""
    first, *others = chosen_records(control)
    _cut(control, first, others)


def lacks_lying_on(control: SketchControl) -> str:
    """Cutting out needs one zone on which something lies that is no turf."""
    records = chosen_records(control)
    if len(records) != 1 or not isinstance(next(iter(records.values())), Zone):
        return tr("Choose one zone.")
    if lacks_unlocked(control):
        return lacks_unlocked(control)
    zone = next(iter(records.values()))
    found = isinstance(zone, Zone) and lying_on(control.notebook, zone)
    return "" if found else tr("No house, bed, paving, pool or water lies on it.")


def cut_out(control: SketchControl) -> None:
    """Cut everything that is no turf out of the chosen zone."""
    key, record = next(iter(chosen_records(control).items()))
    if isinstance(record, Zone):
        _cut(control, key, lying_on(control.notebook, record))


def lying_on(notebook: Notebook, zone: Zone) -> tuple[Key, ...]:
    """The features on a zone's ground that are no turf."""
    return tuple(
        ("features", each.id)
        for each in notebook.features.values()
        if each.kind in NOT_TURF and _lies_on(each, zone)
    )


def lacks_one_shape(control: SketchControl) -> str:
    """Splitting needs one zone or feature that is not locked."""
    if len(chosen_records(control)) > 1:
        return tr("Choose one zone or feature.")
    return lacks_shape(control)


def ask_strip(control: SketchControl) -> None:
    """Ask for the width and side of a strip where they are typed."""
    control.form_asked.emit("strip")


def split_on_sketch(control: SketchControl) -> None:
    """Ask for a line on the sketch and split what is chosen by it."""
    key = next(iter(chosen_records(control)))
    name = names_of(control.notebook, (key,))
    words = tr(
        "Split {name}: press and drag across it, or click two points of the line.", name=name
    )

    def done(a: Point, b: Point) -> None:
        if not is_gone(control, (key,)):
            split_by_line(control, key, a, b)

    control.ask_line(words, done)


def split_by_line(control: SketchControl, key: Key, a: Point, b: Point) -> bool:
    """Split a shape by the endless line through two points, and choose the parts."""
    notebook, name = control.notebook, names_of(control.notebook, (key,))

    def finish(change: Change) -> str:
        control.choose_all((key, *new_shapes(change)))
        return tr("{at_start} split. {change}", at_start=at_start(name), change=told(change))

    return carry_out(
        control, lambda: split(notebook, key, a, b), tr("split {name}", name=name), finish
    )


def make_strip(control: SketchControl, key: Key, strip: Strip) -> bool:
    """Make a strip along the edge of a shape, and choose it with the shape."""
    notebook, name = control.notebook, names_of(control.notebook, (key,))

    def finish(change: Change) -> str:
        control.choose_all((key, *new_shapes(change)))
        return f"{told(change)} {crumbs_told(_strip_crumbs_sqft(notebook, key, strip))}"

    return carry_out(
        control,
        lambda: strip_change(notebook, key, strip),
        tr("strip along {name}", name=name),
        finish,
    )


def strip_change(notebook: Notebook, key: Key, strip: Strip) -> Change:
    """The change that makes a strip; OwnerError with the mend where it cannot be made."""
    return strip_made(notebook, key, strip.side, strip.width_ft, strip.inward, strip.becomes)


def _strip_crumbs_sqft(notebook: Notebook, key: Key, strip: Strip) -> float:
    """The scraps that a strip inside leaves of its shape, and that are not kept."""
    shape = notebook.find(*key)
    if not strip.inward or not isinstance(shape, Zone | Feature):
        return 0.0
    strips = strips_of(shape, strip.side, strip.width_ft, inward=True)
    return strip_cut(shape, strips, strip.width_ft).crumbs_sqft


def new_shapes(change: Change) -> tuple[Key, ...]:
    """The zones and features that a change adds."""
    return tuple(
        key
        for key, (before, after) in change.items()
        if before is None and isinstance(after, Zone | Feature)
    )


def remove(control: SketchControl) -> None:
    """Take away what is chosen."""
    control.remove_chosen()


def _cut(control: SketchControl, first: Key, others: Iterable[Key]) -> None:
    notebook, cutters = control.notebook, tuple(others)
    name, cut = names_of(notebook, (first,)), names_of(notebook, cutters)

    def finish(change: Change) -> str:
        control.choose_all((first,))
        crumbs = crumbs_told(cut_of(notebook, first, cutters).crumbs_sqft)
        return tr(
            "{at_start} cut out of {name}. {change} {crumbs}",
            at_start=at_start(cut),
            name=name,
            change=told(change),
            crumbs=crumbs,
        )

    carry_out(
        control,
        lambda: subtracted(notebook, first, cutters),
        tr("cut {cut} out of {name}", cut=cut, name=name),
        finish,
    )


def _lies_on(feature: Feature, zone: Zone) -> bool:
    near = boxes_meet(bounds_ft([feature.outline_ft]), bounds_ft([zone.outline_ft]))
    if not near or not overlap(feature.outline_ft, zone.outline_ft):
        return False
    return not any(lies_inside(feature.outline_ft, hole) for hole in zone.holes_ft)
