"""What the keys do to the corners of what is chosen: go round them, add one, take one away."""

from dataclasses import replace

from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import (
    Shape,
    midpoint,
    rings_of,
    with_new_corner,
    with_ring,
    without_corner,
    without_hole,
)
from lawnbook.reading import tr
from lawnbook.yard.geometry import crosses_itself
from lawnbook.yard.records import Feature, Zone


def next_corner(control: SketchControl, step: int) -> None:
    """Choose the next corner of what is chosen, or with -1 the one before."""
    choice, record = control.choice, control.record()
    corners = [(n, i) for n, ring in enumerate(rings_of(record)) for i in range(len(ring))]
    if choice is None or not corners:
        return
    now = (choice.ring, choice.corner if choice.corner is not None else -1)
    index = corners.index(now) + step if now in corners else (0 if step > 0 else -1)
    ring, corner = corners[index % len(corners)]
    control.choose(replace(choice, ring=ring, corner=corner))
    control.say(
        tr("Corner {corner} of {count}.", corner=corner + 1, count=len(rings_of(record)[ring]))
    )


def add_corner(control: SketchControl) -> None:
    """Put a corner in halfway along the side after the chosen corner."""
    choice, record = control.choice, control.record()
    if choice is None or choice.corner is None or not isinstance(record, Zone | Feature):
        return
    ring = rings_of(record)[choice.ring]
    between = midpoint(ring[choice.corner], ring[(choice.corner + 1) % len(ring)])
    outline = with_new_corner(ring, choice.corner, between)
    name = control.name(choice.table, choice.record_id)
    shape = with_ring(record, choice.ring, outline)
    if control.keep(choice.table, shape, tr("add a corner to {name}", name=name)):
        control.choose(replace(choice, corner=choice.corner + 1))


def remove_part(control: SketchControl) -> None:
    """Remove the chosen corner, or hole, or all that is chosen."""
    choice, record = control.choice, control.record()
    if choice is None or not isinstance(record, Zone | Feature):
        control.remove_chosen()
    elif choice.corner is not None:
        _remove_corner(control, choice, record)
    elif choice.ring and isinstance(record, Zone):
        _fill_hole(control, choice, record)
    else:
        control.remove_chosen()


def _remove_corner(control: SketchControl, choice: Choice, shape: Shape) -> None:
    ring = rings_of(shape)[choice.ring]
    whole = Choice(choice.table, choice.record_id)
    if len(ring) > 3 and choice.corner is not None:
        outline = without_corner(ring, choice.corner)
        if crosses_itself(outline):
            control.say(tr("Without this corner its sides would cross."), "bad")
            return
        control.choose(whole)
        name = control.name(choice.table, choice.record_id)
        changed = with_ring(shape, choice.ring, outline)
        control.keep(choice.table, changed, tr("remove a corner of {name}", name=name))
    elif choice.ring and isinstance(shape, Zone):
        _fill_hole(control, choice, shape)
    else:
        control.say(tr("Three corners are the fewest. Esc, then Delete removes it whole."))


def _fill_hole(control: SketchControl, choice: Choice, zone: Zone) -> None:
    control.choose(Choice(choice.table, choice.record_id))
    changed = without_hole(zone, choice.ring)
    control.keep("zones", changed, tr("fill a hole of {name}", name=zone.name))
