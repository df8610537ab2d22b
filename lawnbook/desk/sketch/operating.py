"""What every operation on shapes shares: what it may be done to, keeping it, and its words."""

from collections.abc import Callable, Iterable

from lawnbook.desk.sketch.choosing import is_locked, name_of
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import Shape, bounds_of
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import Bounds, area_sqft, zone_area_sqft
from lawnbook.yard.notebook import Change, Key, Notebook
from lawnbook.yard.numbers import and_joined, counted
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Record, Spot, Zone

NOTHING = tr("Choose a shape first.")
_MOST_NAMES = 3


def chosen_records(control: SketchControl) -> dict[Key, Record]:
    """All that is chosen and has a place on the sketch, what was chosen first in front."""
    found = {key: control.notebook.find(*key) for key in control.chosen_keys}
    return {
        key: record
        for key, record in found.items()
        if record is not None and not (isinstance(record, Spot) and record.at_ft is None)
    }


def names_of(notebook: Notebook, keys: Iterable[Key]) -> str:
    """Some shapes by their names, many by their number: "Front and Side", "5 shapes"."""
    names = [name_of(notebook, *key) for key in keys]
    if not names or len(names) > _MOST_NAMES:
        return counted(len(names), "shape")
    return and_joined(names)


def at_start(words: str) -> str:
    """Words with a capital at their start."""
    return words[:1].upper() + words[1:]


def shape_area_sqft(shape: Shape) -> float:
    """The area of a zone without its holes, or of a feature."""
    return zone_area_sqft(shape) if isinstance(shape, Zone) else area_sqft(shape.outline_ft)


def sized(record: Record | None) -> str:
    """The area of a zone or feature in words, "" for anything else."""
    return told(shape_area_sqft(record), 0, "sq ft") if isinstance(record, Zone | Feature) else ""


def box_of(records: Iterable[Record]) -> Bounds:
    """The upright box round all of these records. ValueError without any."""
    west, south, east, north = zip(*(bounds_of(each) for each in records), strict=True)
    return min(west), min(south), max(east), max(north)


def middle_of(records: Iterable[Record]) -> Point:
    """The middle of the box round all of these records. ValueError without any."""
    west, south, east, north = box_of(records)
    return (west + east) / 2, (south + north) / 2


def carry_out(
    control: SketchControl, make: Callable[[], Change], label: str, told: Callable[[Change], str]
) -> bool:
    """Keep what an operation makes as one step and say what came of it; whether it was kept.

    What the operation refuses, or the book does, is said in its own words. `told` is asked once
    the book has the change.
    """
    control.scene.show_preview(())
    try:
        change = make()
    except OwnerError as error:
        control.say(str(error), "bad")
        return False
    if all(before == after for before, after in change.values()):
        control.say(tr("Nothing would change."), "")
        return False
    if not control.edit(change, label):
        return False
    words = " ".join(filter(None, (told(change).strip(), control.aftermath)))
    control.say(words, "warn" if control.aftermath else "good")
    return True


def is_gone(control: SketchControl, keys: Iterable[Key]) -> bool:
    """Whether any of these was removed while the owner was asked about it; it is said then."""
    gone = any(control.notebook.find(*key) is None for key in keys)
    if gone:
        control.say(tr("What this was asked for is gone; nothing was changed."), "warn")
    return gone


# What speaks against an operation, each in a sentence, "" where nothing does.


def lacks_choice(control: SketchControl) -> str:
    """Nothing is chosen, or nothing that lies on the sketch."""
    return "" if chosen_records(control) else NOTHING


def lacks_unlocked(control: SketchControl) -> str:
    """Nothing is chosen, or something of it is locked."""
    records = chosen_records(control)
    locked = [key for key, record in records.items() if is_locked(record)]
    if locked:
        return tr(
            "{names} is locked; unlock first."
            if len(locked) == 1
            else "{names} are locked; unlock first.",
            names=at_start(names_of(control.notebook, locked)),
        )
    return "" if records else NOTHING


def lacks_several(control: SketchControl, least: int = 2) -> str:
    """Fewer than this many are chosen, or something of them is locked."""
    count = len(chosen_records(control))
    if count < least:
        return tr("Choose {least} shapes or more: Shift and click marks another.", least=least)
    return lacks_unlocked(control)


def lacks_shape(control: SketchControl) -> str:
    """What was chosen first has no outline, or is locked."""
    first = next(iter(chosen_records(control).values()), None)
    if not isinstance(first, Zone | Feature):
        return tr("Choose a zone or a feature first.")
    return lacks_unlocked(control)
