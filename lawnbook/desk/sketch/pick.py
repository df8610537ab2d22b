"""The Pick tool: choose, move, pull corners and arcs, nudge and remove. One drag is one Change."""

from dataclasses import replace
from types import MappingProxyType
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk import theme
from lawnbook.desk.sketch.choosing import (
    Choice,
    Handle,
    all_under,
    handle_at,
    hole_under,
    in_order,
    is_locked,
    under,
)
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.corner_keys import add_corner, next_corner, remove_part
from lawnbook.desk.sketch.dragging import Drag, Outcome, near, outcome
from lawnbook.desk.sketch.habits import steps_of
from lawnbook.desk.sketch.locking import locked_of, locked_words, stays_words
from lawnbook.desk.sketch.marquee import Marquee
from lawnbook.desk.sketch.moving import Draft, grip_of, is_crossing, movers, warn_of_place
from lawnbook.desk.sketch.nudging import nudged, side_nudged
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.desk.sketch.scene import NO_DRAFT
from lawnbook.desk.sketch.tools import ARROWS, DRAG_PX, Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.desk.sketch.walking import Walk
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Key
from lawnbook.yard.records import Spot, Zone

CROSSES = tr("Its sides cross here: it cannot be kept so.")
SEVERAL = tr(
    "Drag or the arrows move all; Shift and click adds or lets go, Delete removes, Esc lets go."
)
_IN_ORDER: MappingProxyType[Qt.Key, str] = MappingProxyType(
    {Qt.Key.Key_PageUp: "order_up", Qt.Key.Key_PageDown: "order_down"}
)


class PickTool(Tool):
    """Choose and change what is drawn."""

    cursor: ClassVar[Qt.CursorShape] = Qt.CursorShape.ArrowCursor
    hint = tr(
        "Click to choose, Shift and click for more; drag to move. Shift and drag draws "
        "a box: to the right it takes what lies inside, to the left what it touches."
    )

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._walk = Walk(control)
        self._drag: Drag | None = None
        self._box: Marquee | None = None
        self._draft: Draft = NO_DRAFT
        self._wrong = False
        self._label = ""
        self._nudge_ft: Point = (0.0, 0.0)
        self._clicked_px: QPointF | None = None

    def press(self, pointer: Pointer) -> bool:
        """Take hold of a handle, choose what is under the pointer, or begin a box with Shift."""
        self._settle()
        control = self.control
        handle = handle_at(control.scene.handles(), pointer.at_ft, pointer.ft_per_px)
        if handle is not None and control.choice is not None:
            self._take(handle, control.choice, pointer)
            return True
        found = self._found(pointer)
        if pointer.shift and (found is None or found.key not in control.chosen_keys):
            self._box = Marquee.begun(control.notebook, pointer.at_ft, pointer.at_px, found)
            return True
        # A press on one of several keeps them all, so that they can be dragged together.
        if found is None or found.key not in control.chosen_keys[1:]:
            control.choose(found)
        self._grip(found, pointer)
        return found is not None

    def move(self, pointer: Pointer) -> None:
        """Show the drag's outcome so far, or what the box takes."""
        drag = self._drag
        if self._box is not None and pointer.held:
            self._show_box(self._box, pointer)
        elif drag is None or not pointer.held:
            self.control.pointed.emit(self._cursor_at(pointer))
            if drag is None:
                self.control.hovered.emit(self.control.scene.told_at(pointer.at_ft))
        elif self._draft or dragged(drag.pressed_px, pointer.at_px):
            self._show(outcome(self.control, drag, pointer))

    def release(self, pointer: Pointer) -> None:
        """Keep what the drag came to, as one step; a click chooses, with Shift it marks."""
        box, drag, moved = self._box, self._drag, bool(self._draft)
        self._box = self._drag = None
        if box is not None:
            self._end_box(box, pointer)
            return
        self._settle()
        if drag is None:
            return
        if moved:
            self._clicked_px = None
        elif dragged(drag.pressed_px, pointer.at_px) and drag.movers.stay:
            words = locked_words(self.control.notebook, drag.movers.stay)
            self.control.say(words, "warn")
        else:
            self._click(drag, pointer)
        self.control.hovered.emit("")

    def double(self, pointer: Pointer) -> None:
        """A double click asks for the name."""
        self.press(pointer)
        self._drag = self._box = None
        if self.control.choice is not None:
            self.control.name_wanted.emit()

    def key(self, event: QKeyEvent) -> bool:
        """Arrows nudge, Delete removes, K locks, M marks, N goes round the corners."""
        key, control = Qt.Key(event.key()), self.control
        ctrl = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if key == Qt.Key.Key_A and ctrl and not shift:
            control.choose_all(each.key for each in in_order(control.notebook))
            return True
        if control.choice is None or (ctrl and key.value not in ARROWS):
            return False
        if key.value in ARROWS:
            self._nudge(ARROWS[key.value], fine=shift, side=ctrl)
            return True
        return self._act(key, back=shift)

    def key_up(self, event: QKeyEvent) -> None:
        """Keep a nudge when its key comes up, so that a held key is one step."""
        if event.key() in ARROWS and not event.isAutoRepeat() and self._drag is None:
            self._settle()

    def step(self, forward: bool) -> bool:
        """Tab chooses the next shape; False past the last one."""
        self._settle()
        return self._walk.step(forward)

    def leave(self) -> None:
        """Keep a nudge that is under way."""
        super().leave()
        if self._drag is None:
            self._settle()

    def cancel(self) -> bool:
        """Put back what is being dragged; else let go of the corner, then of all that is chosen."""
        control = self.control
        if self._box is not None:
            self._box = None
            self._drop("")
            return True
        if self._drag is not None and self._draft:
            self._drop("")
            return True
        if control.choice is None:
            return False
        if control.choice.corner is not None or control.choice.ring:
            control.choose(control.choice.whole)
        else:
            control.choose_all(())
        return True

    def lay_down(self) -> None:
        """Keep a nudge, put a drag back, and leave what is chosen chosen."""
        if self._drag is not None or self._box is not None:
            self._box = None
            self._drop("")
        self._settle()

    def hint_now(self) -> str:
        """What may be done with what is chosen."""
        return SEVERAL if self.control.marked else self.hint

    def _act(self, key: Qt.Key, *, back: bool) -> bool:
        """What a key does with what is chosen; False for a key that does nothing here."""
        control = self.control
        if key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self._settle()
            if not self._refuses_lock():
                remove_part(control)
        elif key == Qt.Key.Key_N and not is_locked(control.record()):
            next_corner(control, -1 if back else 1)
        elif key == Qt.Key.Key_Insert and not self._refuses_lock():
            add_corner(control)
        elif key == Qt.Key.Key_M:
            self._walk.mark()
        elif key == Qt.Key.Key_K:
            self._operate("unlock" if self._all_locked() else "lock")
        elif key in _IN_ORDER:
            self._operate(_IN_ORDER[key])
        else:
            return key in (Qt.Key.Key_Insert, Qt.Key.Key_N)
        return True

    def _operate(self, name: str) -> None:
        """Carry out one of the operations, or say why it cannot be done now."""
        # Loaded when first wanted: the first paint of the window does not wait for it.
        from lawnbook.desk.sketch.operations import run_by_name

        self._settle()
        run_by_name(self.control, name)

    def _all_locked(self) -> bool:
        keys = self.control.chosen_keys
        return len(locked_of(self.control.notebook, keys)) == len(keys)

    def _refuses_lock(self) -> bool:
        """Whether what was chosen first is locked alone, or a part of it is meant; it says so."""
        record, keys = self.control.record(), self.control.chosen_keys
        if is_locked(record) and len(keys) == 1:
            self.control.say(locked_words(self.control.notebook, keys), "warn")
            return True
        return False

    def _cursor_at(self, pointer: Pointer) -> Qt.CursorShape:
        """A hand over what can be chosen, a cross of arrows over what can be pulled."""
        handles = self.control.scene.handles()
        if handle_at(handles, pointer.at_ft, pointer.ft_per_px) is not None:
            return Qt.CursorShape.SizeAllCursor
        found = under(self.control.notebook, pointer.at_ft, pointer.ft_per_px)
        return Qt.CursorShape.PointingHandCursor if found else Qt.CursorShape.ArrowCursor

    def _found(self, pointer: Pointer) -> Choice | None:
        """What a press takes hold of; a hole of the chosen zone, where only that is there.

        What is chosen already stays chosen where a shape of its own kind lies over it, and where
        clicks led down to it.
        """
        control, choice = self.control, self.control.choice
        stack = all_under(control.notebook, pointer.at_ft, pointer.ft_per_px)
        hole = hole_under(control.record(), pointer.at_ft)
        if not stack:
            if choice is None or hole is None:
                return None
            return replace(choice, ring=hole, corner=None)
        led = self._clicked_px is not None and near(self._clicked_px, pointer.at_px, DRAG_PX)
        chosen = control.chosen_keys
        held = (c for c in stack if c.key in chosen and (led or c.table == stack[0].table))
        return next(held, stack[0])

    def _grip(self, found: Choice | None, pointer: Pointer) -> None:
        """Take hold of all that is chosen, at the shape that was found."""
        record = self.control.notebook.find(*found.key) if found is not None else None
        if found is None or record is None:
            self._clicked_px = None
            return
        moving = movers(self.control.notebook, self.control.chosen_keys)
        grip = grip_of(record, pointer.at_ft)
        self._drag = Drag(found, record, None, grip, pointer.at_ft, pointer.at_px, moving)

    def _take(self, handle: Handle, choice: Choice, pointer: Pointer) -> None:
        record = self.control.record()
        if record is None:
            return
        if handle.kind == "corner":
            self.control.choose(replace(choice, ring=handle.ring, corner=handle.index))
        side = pointer.ctrl and handle.kind == "middle"
        at, px = pointer.at_ft, pointer.at_px
        moving = movers(self.control.notebook, ())
        self._drag = Drag(choice, record, handle, handle.at_ft, at, px, moving, side)

    def _click(self, drag: Drag, pointer: Pointer) -> None:
        """A click that moved nothing: choose the top one, or, again at one place, the next."""
        control = self.control
        # Where it was pressed: a strip that came into view meanwhile may have moved the paper.
        stack = all_under(control.notebook, drag.pressed_ft, pointer.ft_per_px)
        if drag.handle is not None:
            # A head that stands where a shape's handle was clicked lies under it.
            if stack and stack[0].table == "heads" and drag.choice.table in ("zones", "features"):
                control.choose(stack[0])
            return
        last, self._clicked_px = self._clicked_px, pointer.at_px
        if pointer.shift:
            control.mark(drag.choice.key)
            return
        keys = [each.key for each in stack]
        if not keys:
            return
        again = last is not None and near(last, pointer.at_px, DRAG_PX) and not control.marked
        at = keys.index(drag.choice.key) + 1 if again and drag.choice.key in keys else 0
        chosen = keys[at % len(keys)]
        if control.chosen_keys != (chosen,):
            control.choose_all((chosen,))

    def _show_box(self, box: Marquee, pointer: Pointer) -> None:
        if not dragged(box.start_px, pointer.at_px):
            return
        scene, notebook = self.control.scene, self.control.notebook
        caught = box.caught(notebook, pointer.at_ft)
        ring = box.ring(pointer.at_ft)
        lit = [each for key in caught for each in rings_of(notebook.find(*key))]
        edge = [(*each, each[0]) for each in lit]
        if box.touching(pointer.at_ft):
            scene.show_preview((), [(*ring, ring[0]), *edge])
        else:
            scene.show_preview((ring,), edge)
        self.control.hovered.emit(box.words(pointer.at_ft, len(caught)))

    def _end_box(self, box: Marquee, pointer: Pointer) -> None:
        """Add what the box took to what is chosen; a mere click marks what is under it."""
        control = self.control
        control.scene.show_preview(())
        control.hovered.emit("")
        self._clicked_px = None
        if dragged(box.start_px, pointer.at_px):
            caught = box.caught(control.notebook, pointer.at_ft)
            if caught:
                control.choose_all((*control.chosen_keys, *caught))
            else:
                touched = tr("Nothing touched: what was chosen stays chosen.")
                inside = tr("Nothing lay wholly inside: what was chosen stays chosen.")
                control.say(touched if box.touching(pointer.at_ft) else inside)
        elif box.under is not None:
            control.mark(box.under.key)

    def _show(self, made: Outcome) -> None:
        self._draft, self._label = made.draft, made.label or self._label
        whole = self._drag is not None and self._drag.handle is None
        self._wrong = not whole and is_crossing(made.draft)
        if not made.draft:
            return
        self.control.scene.show_draft(made.draft, wrong=self._wrong)
        if made.snap is not None:
            self.control.scene.drawing().show_snap(made.snap, theme.palette())
        rate = self.control.scene.water.live_words(made.draft)
        said = [each for each in (made.figures, rate, made.reason) if each]
        self.control.hovered.emit(CROSSES if self._wrong else "  ·  ".join(said))

    def _settle(self) -> None:
        """Keep the draft, if there is one and it can be kept."""
        draft, self._draft = self._draft, NO_DRAFT
        self._nudge_ft = (0.0, 0.0)
        if not draft:
            return
        self.control.scene.end_drawing()
        if self._wrong:
            self._drop(tr("It was put back: an outline whose sides cross has no area."))
            return
        control, stays = self.control, stays_words(self.control.notebook, self._stay(draft))
        if not control.keep_draft(draft, self._label):
            return
        warned = [self._warned(record, len(draft)) for record in draft.values()]
        if stays and not any(warned):
            control.say(stays, "warn")

    def _stay(self, draft: Draft) -> tuple[Key, ...]:
        """What is chosen and locked, where it was all to move."""
        stay = movers(self.control.notebook, self.control.chosen_keys).stay
        return stay if len(self.control.chosen_keys) > 1 and draft else ()

    def _warned(self, record: object, count: int) -> bool:
        if isinstance(record, Zone):
            return self.control.warn_of_overlap(record)
        return isinstance(record, Spot) and count == 1 and warn_of_place(self.control, record)

    def _drop(self, why: str) -> None:
        self._drag, self._draft, self._wrong = None, NO_DRAFT, False
        self._nudge_ft = (0.0, 0.0)
        self.control.scene.show_preview(())
        self.control.scene.end_drawing()
        self.control.scene.show_draft(NO_DRAFT)
        self.control.hovered.emit("")
        if why:
            self.control.say(why, "bad")

    def _nudge(self, way: Point, *, fine: bool, side: bool) -> None:
        """Move the chosen corner, the side after it, or all; kept when the key comes up."""
        control, keys = self.control, self.control.chosen_keys
        stay = movers(control.notebook, keys).stay
        if self._drag is not None or len(stay) == len(keys):
            if stay:
                control.say(locked_words(control.notebook, stay), "warn")
            return
        size = steps_of(control.habits)[fine]
        x, y = self._nudge_ft[0] + way[0] * size, self._nudge_ft[1] + way[1] * size
        self._nudge_ft = (x, y)
        made = side_nudged(control, x + y) if side else nudged(control, (x, y))
        if made is None:
            self._nudge_ft = (0.0, 0.0)
            control.say(tr("Choose a corner with N first: Ctrl and arrows move the side after it."))
            return
        self._show(made)
        control.hovered.emit("")
