"""A drag of the Pick tool: what it began with, where its grip goes, and what it comes to."""

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF

from lawnbook.desk.sketch.choosing import Choice, Handle
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.moving import Draft, Movers, figures_of, way_of
from lawnbook.desk.sketch.outlines import (
    head_pulled,
    rings_of,
    with_corner,
    with_new_corner,
    with_ring,
)
from lawnbook.desk.sketch.side_moves import out_by, outward, side_moved
from lawnbook.desk.sketch.view import Pointer
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import tidy
from lawnbook.yard.notebook import Key
from lawnbook.yard.numbers import counted, feet_inches
from lawnbook.yard.records import Feature, Head, Record, Zone

if TYPE_CHECKING:
    from lawnbook.desk.sketch.snapping import Snap


@dataclass(frozen=True, slots=True)
class Drag:
    """A drag under way: what it began with. `handle` is None where whole shapes move: `movers`.

    With `side` the handle of a side's middle moves the whole side instead of adding a corner.
    """

    choice: Choice
    record: Record
    handle: Handle | None
    grip_ft: Point
    pressed_ft: Point
    pressed_px: QPointF
    movers: Movers
    side: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a drag comes to: the records as they would be, how undo calls it, figures, a reason.

    `snap` is where the grip went, None where nothing is to be marked.
    """

    draft: Draft
    label: str
    figures: str
    reason: str = ""
    snap: "Snap | None" = None


def move_label(control: SketchControl, keys: tuple[Key, ...]) -> str:
    """How undo calls a move: "move Back", "move 3 shapes"."""
    what = control.name(*keys[0]) if len(keys) == 1 else counted(len(keys), "shape")
    return tr("move {what}", what=what)


def outcome(control: SketchControl, drag: Drag, pointer: Pointer) -> Outcome:
    """What the drag comes to with the pointer here."""
    snap = _snap(control, drag, pointer)
    if drag.handle is None:
        made = _moved(control, drag, snap, straight=pointer.shift)
        return made if pointer.shift else replace(made, snap=snap)
    name = control.name(*drag.choice.key)
    if isinstance(drag.record, Head):
        return _pulled(drag, drag.record, snap, name, free=pointer.alt)
    if not isinstance(drag.record, Zone | Feature):
        return Outcome({}, "", "")
    if drag.side:
        return _side(drag, drag.record, snap, name)
    return replace(_corner(drag, drag.record, snap, name), snap=snap)


def _snap(control: SketchControl, drag: Drag, pointer: Pointer) -> "Snap":
    """Where the grip goes. It keeps its distance from the pointer as at the press."""
    off = (drag.grip_ft[0] - drag.pressed_ft[0], drag.grip_ft[1] - drag.pressed_ft[1])
    wanted = (pointer.at_ft[0] + off[0], pointer.at_ft[1] + off[1])
    moving = [drag.choice.key] if drag.handle is not None else drag.movers.records
    snapper = control.snapper(pointer.ft_per_px, moving)
    if drag.handle is not None and isinstance(drag.record, Head):
        return replace(snapper.snap(wanted, free=True), reason="free" if pointer.alt else "")
    square = pointer.shift and drag.handle is not None and not drag.side
    snap = snapper.snap(wanted, _neighbours(drag), free=pointer.alt, square=square)
    if drag.side and snap.reason.endswith("grid"):
        return replace(snap, at_ft=_whole_steps(drag, wanted, snapper.grid_ft))
    return snap


def _whole_steps(drag: Drag, wanted: Point, step_ft: float) -> Point:
    """A side on the grid goes out by whole steps, whatever its direction."""
    if drag.handle is None:
        return wanted
    ring, index = rings_of(drag.record)[drag.handle.ring], drag.handle.index
    normal = outward(ring, index)
    out_ft = round(out_by(ring, index, wanted) / step_ft) * step_ft
    return (drag.grip_ft[0] + normal[0] * out_ft, drag.grip_ft[1] + normal[1] * out_ft)


def _moved(control: SketchControl, drag: Drag, snap: "Snap", *, straight: bool) -> Outcome:
    by = tidy((snap.at_ft[0] - drag.grip_ft[0], snap.at_ft[1] - drag.grip_ft[1]))
    reason = snap.reason
    if straight:
        across = abs(by[0]) >= abs(by[1])
        by = (by[0], 0.0) if across else (0.0, by[1])
        reason = tr("straight across") if across else tr("straight up and down")
    label = move_label(control, tuple(key for key in control.chosen_keys if _goes(drag, key)))
    draft = drag.movers.moved(control.notebook, by)
    figures = figures_of(draft) if len(control.chosen_keys) == 1 else ""
    return Outcome(draft, label, figures, "  ·  ".join(filter(None, (way_of(by), reason))))


def _goes(drag: Drag, key: Key) -> bool:
    return key in drag.movers.records


def _pulled(drag: Drag, head: Head, snap: "Snap", name: str, *, free: bool) -> Outcome:
    part = drag.handle.kind if drag.handle is not None else "corner"
    if part not in ("radius", "start", "sweep"):
        return Outcome({}, "", "")
    draft = {drag.choice.key: head_pulled(head, part, snap.at_ft, free=free)}
    return Outcome(draft, tr("change the arc of {name}", name=name), figures_of(draft), snap.reason)


def _corner(drag: Drag, shape: Zone | Feature, snap: "Snap", name: str) -> Outcome:
    handle = drag.handle
    if handle is None:
        return Outcome({}, "", "")
    adds = handle.kind == "middle"
    put_in = with_new_corner if adds else with_corner
    outline = put_in(rings_of(shape)[handle.ring], handle.index, snap.at_ft)
    draft = {drag.choice.key: with_ring(shape, handle.ring, outline)}
    label = tr("add a corner of {name}" if adds else "move a corner of {name}", name=name)
    return Outcome(draft, label, figures_of(draft), snap.reason)


def _side(drag: Drag, shape: Zone | Feature, snap: "Snap", name: str) -> Outcome:
    handle = drag.handle
    if handle is None:
        return Outcome({}, "", "")
    ring = rings_of(shape)[handle.ring]
    out_ft = round(out_by(ring, handle.index, snap.at_ft), 2)
    draft = {drag.choice.key: with_ring(shape, handle.ring, side_moved(ring, handle.index, out_ft))}
    figures = "  ·  ".join((figures_of(draft), side_words(out_ft)))
    return Outcome(draft, tr("move a side of {name}", name=name), figures, snap.reason)


def side_words(out_ft: float) -> str:
    """How far a side moved: "side 1' 6\\" out"."""
    return tr("side {step} in" if out_ft < 0 else "side {step} out", step=feet_inches(abs(out_ft)))


def near(one: QPointF, other: QPointF, reach_px: float) -> bool:
    """Whether two places of the view are one to a person's hand."""
    return math.dist((one.x(), one.y()), (other.x(), other.y())) <= reach_px


def _neighbours(drag: Drag) -> tuple[Point, ...]:
    """The corners a dragged corner may line up with: the others of its ring, the last one next."""
    handle = drag.handle
    if handle is None or handle.kind not in ("corner", "middle") or drag.side:
        return ()
    ring = rings_of(drag.record)[handle.ring]
    first = handle.index + 1
    if handle.kind == "middle":
        return (*ring[first:], *ring[:first])
    return (*ring[first:], *ring[: handle.index])
