"""What steps by keys or typed figures make of what is chosen: a corner, a side, or all of it."""

from lawnbook.desk.sketch.choosing import is_locked
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.dragging import Outcome, move_label, side_words
from lawnbook.desk.sketch.moving import figures_of, movers, way_of
from lawnbook.desk.sketch.outlines import moved_by, rings_of, with_corner, with_ring
from lawnbook.desk.sketch.side_moves import side_moved
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.records import Feature, Zone


def nudged(control: SketchControl, by: Point) -> Outcome:
    """The chosen corner moved by a step in feet, or all that is chosen and not locked."""
    choice, record = control.choice, control.record()
    corner = choice.corner if choice is not None and not control.marked else None
    if choice is not None and corner is not None and isinstance(record, Zone | Feature):
        ring = rings_of(record)[choice.ring]
        outline = with_corner(ring, corner, moved_by(ring[corner], by))
        draft = {choice.key: with_ring(record, choice.ring, outline)}
        return Outcome(
            draft, tr("move a corner of {name}", name=control.name(*choice.key)), figures_of(draft)
        )
    moving = movers(control.notebook, control.chosen_keys)
    goes = tuple(key for key in control.chosen_keys if key not in moving.stay)
    label = move_label(control, goes) if goes else ""
    return Outcome(moving.moved(control.notebook, by), label, way_of(by))


def side_nudged(control: SketchControl, out_ft: float) -> Outcome | None:
    """The side after the chosen corner moved out, or in below 0; None without such a corner."""
    choice, record = control.choice, control.record()
    if choice is None or choice.corner is None or not isinstance(record, Zone | Feature):
        return None
    if is_locked(record):
        return None
    outline = side_moved(rings_of(record)[choice.ring], choice.corner, out_ft)
    draft = {choice.key: with_ring(record, choice.ring, outline)}
    return Outcome(
        draft, tr("move a side of {name}", name=control.name(*choice.key)), side_words(out_ft)
    )
