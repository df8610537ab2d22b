"""The Pick tool: choose, move, pull corners and arcs, nudge and remove. One drag is one Change."""

from dataclasses import dataclass, replace
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk.sketch.choosing import Choice, Handle, handle_at, hole_under, under
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.corner_keys import add_corner, next_corner, remove_part
from lawnbook.desk.sketch.moving import (
    Draft,
    figures_of,
    grip_of,
    moved_with_its_own,
    warn_of_place,
)
from lawnbook.desk.sketch.outlines import (
    head_pulled,
    moved_by,
    rings_of,
    shifted_record,
    with_corner,
    with_new_corner,
    with_ring,
)
from lawnbook.desk.sketch.scene import NO_DRAFT
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.tools import ARROWS, Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import crosses_itself
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

FINE_STEP_FT = 0.25
"""How far Shift and an arrow move a shape: three inches, a number without a remainder."""

CROSSES = "Its sides cross here: it cannot be kept so."


@dataclass(frozen=True, slots=True)
class Drag:
    """A drag under way: what it began with. `handle` is None where the whole shape moves."""

    choice: Choice
    record: Record
    handle: Handle | None
    grip_ft: Point
    pressed_ft: Point
    pressed_px: QPointF


class PickTool(Tool):
    """Choose and change what is drawn."""

    cursor: ClassVar[Qt.CursorShape] = Qt.CursorShape.ArrowCursor
    hint = "Click to choose, drag to move. Tab goes from shape to shape, arrows move by a foot."

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._drag: Drag | None = None
        self._draft: Draft = NO_DRAFT
        self._wrong = False
        self._label = ""

    def press(self, pointer: Pointer) -> bool:
        """Take hold of a handle, or choose what is under the pointer."""
        self._settle()
        control = self.control
        handle = handle_at(control.scene.handles(), pointer.at_ft, pointer.ft_per_px)
        record = control.record()
        if handle is not None and control.choice is not None and record is not None:
            self._take(handle, control.choice, record, pointer)
            return True
        control.choose(self._found(pointer))
        record = control.record()
        if control.choice is not None and record is not None:
            grip = grip_of(record, pointer.at_ft)
            self._drag = Drag(control.choice, record, None, grip, pointer.at_ft, pointer.at_px)
        return control.choice is not None

    def move(self, pointer: Pointer) -> None:
        """Show the drag's outcome so far."""
        drag = self._drag
        if drag is None or not pointer.held:
            self.control.pointed.emit(self._cursor_at(pointer))
            if drag is None:
                self.control.hovered.emit(self.control.scene.told_at(pointer.at_ft))
            return
        if not self._draft and not dragged(drag.pressed_px, pointer.at_px):
            return
        snap = self._snap(drag, pointer)
        draft = self._outcome(drag, snap.at_ft, free=pointer.alt)
        self._show(draft, snap.reason)

    def release(self, pointer: Pointer) -> None:
        """Keep what the drag came to, as one step; a corner only clicked gives way to its head."""
        drag, moved = self._drag, bool(self._draft)
        self._drag = None
        self._settle()
        if drag is not None and not moved:
            self._choose_head_on(drag, pointer)
        self.control.hovered.emit("")

    def double(self, pointer: Pointer) -> None:
        """A double click asks for the name."""
        self.press(pointer)
        self._drag = None
        if self.control.choice is not None:
            self.control.name_wanted.emit()

    def key(self, event: QKeyEvent) -> bool:
        """Arrows nudge, Delete removes, N goes round the corners, Insert adds one."""
        key = Qt.Key(event.key())
        step = ARROWS.get(key.value)
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if self.control.choice is None:
            return False
        if step is not None:
            size = FINE_STEP_FT if shift else 1.0
            self._nudge((step[0] * size, step[1] * size))
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self._settle()
            remove_part(self.control)
        elif key == Qt.Key.Key_N:
            next_corner(self.control, -1 if shift else 1)
        elif key == Qt.Key.Key_Insert:
            add_corner(self.control)
        else:
            return False
        return True

    def key_up(self, event: QKeyEvent) -> None:
        """Keep a nudge when its key comes up, so that a held key is one step."""
        if event.key() in ARROWS and not event.isAutoRepeat() and self._drag is None:
            self._settle()

    def leave(self) -> None:
        """Keep a nudge that is under way."""
        super().leave()
        if self._drag is None:
            self._settle()

    def cancel(self) -> bool:
        """Put back what is being dragged; else let go of the corner, then of the shape."""
        control = self.control
        if self._drag is not None and self._draft:
            self._drop("")
            return True
        if control.choice is None:
            return False
        held_part = control.choice.corner is not None or control.choice.ring
        whole = Choice(control.choice.table, control.choice.record_id)
        control.choose(whole if held_part else None)
        return True

    def _cursor_at(self, pointer: Pointer) -> Qt.CursorShape:
        """A hand over what can be chosen, a cross of arrows over what can be pulled."""
        handles = self.control.scene.handles()
        if handle_at(handles, pointer.at_ft, pointer.ft_per_px) is not None:
            return Qt.CursorShape.SizeAllCursor
        found = under(self.control.notebook, pointer.at_ft, pointer.ft_per_px)
        return Qt.CursorShape.PointingHandCursor if found else Qt.CursorShape.ArrowCursor

    def lay_down(self) -> None:
        """Keep a nudge, put a drag back, and leave what is chosen chosen."""
        if self._drag is not None:
            self._drop("")
        self._settle()

    def _found(self, pointer: Pointer) -> Choice | None:
        """What is under the pointer; a hole of the chosen zone, where only that is there."""
        choice, record = self.control.choice, self.control.record()
        found = under(self.control.notebook, pointer.at_ft, pointer.ft_per_px)
        hole = hole_under(record, pointer.at_ft)
        if found is None and choice is not None and hole is not None:
            return replace(choice, ring=hole, corner=None)
        return found

    def _choose_head_on(self, drag: Drag, pointer: Pointer) -> None:
        """Choose the head that stands where a shape's handle was clicked: it lies under it."""
        if drag.handle is None or not isinstance(drag.record, Zone | Feature):
            return
        found = under(self.control.notebook, pointer.at_ft, pointer.ft_per_px)
        if found is not None and found.table == "heads":
            self.control.choose(found)

    def _take(self, handle: Handle, choice: Choice, record: Record, pointer: Pointer) -> None:
        drag = Drag(choice, record, handle, handle.at_ft, pointer.at_ft, pointer.at_px)
        if handle.kind == "corner":
            self.control.choose(replace(choice, ring=handle.ring, corner=handle.index))
        self._drag = drag

    def _snap(self, drag: Drag, pointer: Pointer) -> Snap:
        """Where the grip goes. It keeps its distance from the pointer as at the press."""
        off = (drag.grip_ft[0] - drag.pressed_ft[0], drag.grip_ft[1] - drag.pressed_ft[1])
        wanted = (pointer.at_ft[0] + off[0], pointer.at_ft[1] + off[1])
        key = (drag.choice.table, drag.choice.record_id)
        snapper = self.control.snapper(pointer.ft_per_px, [key])
        anchors = _neighbours(drag)
        free = pointer.alt or (drag.handle is not None and isinstance(drag.record, Head))
        snap = snapper.snap(wanted, anchors, free=free, square=pointer.shift)
        return replace(snap, reason="") if free and not pointer.alt else snap

    def _outcome(self, drag: Drag, to: Point, *, free: bool) -> Draft:
        """The records as the drag would leave them."""
        key = (drag.choice.table, drag.choice.record_id)
        name = self.control.name(*key)
        if drag.handle is None:
            by = (to[0] - drag.grip_ft[0], to[1] - drag.grip_ft[1])
            self._label = f"move {name}"
            return moved_with_its_own(self.control, key, drag.record, by)
        if isinstance(drag.record, Head):
            part = drag.handle.kind
            if part in ("radius", "start", "sweep"):
                self._label = f"change the arc of {name}"
                return {key: head_pulled(drag.record, part, to, free=free)}
            return NO_DRAFT
        if not isinstance(drag.record, Zone | Feature):
            return NO_DRAFT
        ring = rings_of(drag.record)[drag.handle.ring]
        adds = drag.handle.kind == "middle"
        self._label = f"{'add' if adds else 'move'} a corner of {name}"
        put_in = with_new_corner if adds else with_corner
        outline = put_in(ring, drag.handle.index, to)
        return {key: with_ring(drag.record, drag.handle.ring, outline)}

    def _show(self, draft: Draft, reason: str) -> None:
        self._draft = draft
        self._wrong = any(crosses_itself(r) for each in draft.values() for r in rings_of(each))
        self.control.scene.show_draft(draft, wrong=self._wrong)
        words = CROSSES if self._wrong else "  ·  ".join(self._said_of(draft, reason))
        self.control.hovered.emit(words)

    def _said_of(self, draft: Draft, reason: str) -> list[str]:
        """Live figures, what a head's zone gets by them where that is shown, and the snap."""
        rate = self.control.scene.water.live_words(draft)
        return [each for each in (figures_of(draft), rate, reason) if each]

    def _settle(self) -> None:
        """Keep the draft, if there is one and it can be kept."""
        draft, self._draft = self._draft, NO_DRAFT
        if not draft:
            return
        if self._wrong:
            self._drop("It was put back: an outline whose sides cross has no area.")
            return
        if self.control.keep_draft(draft, self._label):
            for record in draft.values():
                if isinstance(record, Zone):
                    self.control.warn_of_overlap(record)
                elif isinstance(record, Spot) and len(draft) == 1:
                    warn_of_place(self.control, record)

    def _drop(self, why: str) -> None:
        self._drag, self._draft, self._wrong = None, NO_DRAFT, False
        self.control.scene.show_draft(NO_DRAFT)
        self.control.hovered.emit("")
        if why:
            self.control.say(why, "bad")

    def _nudge(self, by: Point) -> None:
        """Move the chosen corner, or the whole; kept when the key comes up."""
        choice = self.control.choice
        if choice is None:
            return
        key = (choice.table, choice.record_id)
        record = self._draft.get(key) or self.control.record()
        name = self.control.name(*key)
        if record is None:
            return
        if choice.corner is not None and isinstance(record, Zone | Feature):
            ring = rings_of(record)[choice.ring]
            outline = with_corner(ring, choice.corner, moved_by(ring[choice.corner], by))
            self._label = f"move a corner of {name}"
            self._show({key: with_ring(record, choice.ring, outline)}, "")
        else:
            self._label = f"move {name}"
            moved = {k: shifted_record(r, by) for k, r in self._draft.items()}
            self._show(moved or moved_with_its_own(self.control, key, record, by), "")
        self.control.hovered.emit("")


def _neighbours(drag: Drag) -> tuple[Point, ...]:
    """The corners a dragged corner may line up with: the others of its ring, the last one next."""
    handle = drag.handle
    if handle is None or handle.kind not in ("corner", "middle"):
        return ()
    ring = rings_of(drag.record)[handle.ring]
    first = handle.index + 1
    if handle.kind == "middle":
        return (*ring[first:], *ring[:first])
    return (*ring[first:], *ring[: handle.index])
