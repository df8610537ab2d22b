"""Drawing one outline: corner by corner with arcs and typed sides, as a rectangle, as a circle."""

import math
from collections.abc import Callable
from typing import ClassVar, Literal

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk import theme
from lawnbook.desk.sketch import draw_show
from lawnbook.desk.sketch.chain import Chain, squared_off
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.draw_shapes import (
    ARC_END,
    HINTS,
    ON_THE_RIM,
    THE_DEPTH,
    Way,
    beside_drawn,
    on_side,
    round_shape,
    square_toward,
)
from lawnbook.desk.sketch.habits import steps_of
from lawnbook.desk.sketch.lengths import DrawingItem
from lawnbook.desk.sketch.outlines import moved_by, rectangle_between
from lawnbook.desk.sketch.side_words import arc_hint, next_side_hint
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.tools import ARROWS, Tool, dragged
from lawnbook.desk.sketch.typed_side import TypedSide, side_end
from lawnbook.desk.sketch.view import Pointer
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, crosses_itself
from lawnbook.yard.problems import OwnerError

CLOSE_PX = 11.0
SMALLEST_SQFT = 0.25
SHIFT = Qt.KeyboardModifier.ShiftModifier


class DrawTool(Tool):
    """Draws one outline and hands it to `made`. `typed_changed` is called when words are typed."""

    first_hint: ClassVar[str] = ""

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self.chain = Chain()
        self.way: Way = "corners"
        self.typed = TypedSide()
        self.arc: Point | Literal["off", "via"] = "off"
        self.typed_changed: Callable[[], None] = lambda: None
        self._pressed: tuple[QPointF, Snap] | None = None
        self._dragging = False
        self._at: Snap | None = None

    @property
    def corners(self) -> Outline:
        """The corners put so far."""
        return self.chain.corners

    def made(self, outline: Outline) -> bool:
        """Make a record of a closed outline; False where it cannot be kept."""
        raise NotImplementedError

    def from_middle(self) -> bool:
        """Whether a drag goes from the middle outward."""
        return self.way == "circle"

    def shown_closed(self, drawing: DrawingItem, outline: Outline) -> None:
        """Called after a shape in the making was drawn, as it would be if it were closed now."""

    def draw_by(self, way: Way) -> None:
        """Draw in another way; what is under way is given up."""
        self.cancel()
        self.way = way
        self.control.say(self.hint_now())

    def press(self, pointer: Pointer) -> bool:
        """Remember where a corner, or a rectangle, may begin."""
        self._at = self._snap(pointer)
        self._pressed = (pointer.at_px, self._at)
        return True

    def move(self, pointer: Pointer) -> None:
        """Draw to the pointer."""
        self._at = self._snap(pointer)
        if self._pressed is not None and not self.corners:
            self._dragging = self._dragging or dragged(self._pressed[0], pointer.at_px)
        self._show(closes=self._closes(pointer))

    def release(self, pointer: Pointer) -> None:
        """Put the corner down, or finish what was dragged."""
        pressed, self._pressed = self._pressed, None
        if pressed is None:
            return
        self._at = self._snap(pointer)
        if self._dragging:
            self._dragging = False
            outline = self._dragged(pressed[1].at_ft, self._at.at_ft)
            if outline is not None:
                self.finish(outline)
        elif self._closes(pointer):
            self.close()
        else:
            self._put(self._at.at_ft)

    def double(self, pointer: Pointer) -> None:
        """A double click closes the outline; its first click put the last corner down."""
        del pointer
        if self.corners:
            self.close()

    def key(self, event: QKeyEvent) -> bool:
        """Enter closes, or puts a typed side down; Backspace takes back; arrows lead the point."""
        key, text = Qt.Key(event.key()), event.text()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return self._enter()
        if text and self.typed.takes(text) and not self._turns_nothing(text):
            self.type_side(self.typed.with_key(text))
        elif key == Qt.Key.Key_Backspace and not self.typed.is_empty:
            self.type_side(self.typed.back())
        elif key == Qt.Key.Key_Backspace and (self.corners or self.arc != "off"):
            self._back()
        elif key == Qt.Key.Key_A and self.corners and self.way == "corners":
            self.turn_arc(on=self.arc == "off")
        elif key == Qt.Key.Key_Q and self.corners:
            self.close_square()
        elif key == Qt.Key.Key_Insert:
            self._put(self._point().at_ft)
        elif key.value in ARROWS:
            self._step(ARROWS[key.value], fine=bool(event.modifiers() & SHIFT))
        else:
            return False
        return True

    def cancel(self) -> bool:
        """Give the outline up."""
        was_on = bool(self.corners or self._dragging or not self.typed.is_empty)
        self.chain.clear()
        self.arc, self._pressed, self._dragging, self._at = "off", None, False, None
        self.control.scene.end_drawing()
        self.control.hovered.emit("")
        self.typed = TypedSide()
        self.typed_changed()
        return was_on

    def hint_now(self) -> str:
        """What to do next."""
        if not self.corners:
            return (
                self.first_hint if self.way == "corners" and self.first_hint else HINTS[self.way]()
            )
        if self.way == "circle":
            return ON_THE_RIM
        if self.way == "rectangle" and len(self.corners) == 2:
            return THE_DEPTH
        if self.arc != "off":
            return arc_hint() if self.arc == "via" else ARC_END
        return next_side_hint()

    def turn_arc(self, *, on: bool) -> None:
        """The next clicks put an arc, or straight sides again."""
        if on and not self.corners:
            self.control.say(tr("An arc begins at a corner: put the first corner."), "warn")
        self.arc = "via" if on and self.corners else "off"
        if self.corners:
            self.control.say(self.hint_now())
            self._show()
        self.typed_changed()

    def bend(self, rise_ft: float) -> None:
        """Make the last straight side an arc of this rise, to the left of its way."""
        if self._did(lambda: self.chain.bend_last(rise_ft)):
            self.arc = "off"
            self.typed_changed()

    def close(self) -> None:
        """Finish the outline with the corners it has."""
        if len(self.corners) < 3:
            self.control.say(tr("An outline needs three corners at least."), "warn")
            return
        self.finish(self.corners)

    def close_square(self) -> None:
        """Finish the outline by one or two right-angled sides."""
        try:
            outline = squared_off(self.corners)
        except OwnerError as error:
            self.control.say(str(error), "warn")
            return
        self.finish(outline)

    def finish(self, outline: Outline) -> bool:
        """Make what the tool makes of an outline; False, and why in words, where it cannot."""
        if crosses_itself(outline):
            words = tr("Its sides cross, so it has no area. Backspace takes the last corner back.")
            self.control.say(words, "bad")
            return False
        if area_sqft(outline) < SMALLEST_SQFT:
            self.cancel()
            self.control.say(tr("That is too small to be kept: it has next to no area."), "warn")
            return False
        if not self.made(outline):
            return False
        self.cancel()
        self.control.finished.emit()
        return True

    def type_side(self, typed: TypedSide) -> None:
        """Show other words typed for the next side, and the side itself where it can be read."""
        self.typed = typed
        self.typed_changed()
        self._show()

    def put_typed(self) -> None:
        """Put the typed side down; what cannot be read is said and stays as typed."""
        if not self.corners:
            self.chain.add(self._point().at_ft)
        try:
            end = self._typed_end()
        except OwnerError as error:
            self.control.say(str(error), "bad")
            return
        self.typed = TypedSide()
        self.typed_changed()
        if self.way == "corners":
            # Where the pointer rests says nothing about the side after this one.
            self._at = None
        self._put(end)

    def _enter(self) -> bool:
        if not self.typed.is_empty:
            self.put_typed()
        elif self.corners:
            self.close()
        else:
            return False
        return True

    def _turns_nothing(self, text: str) -> bool:
        """Whether L or R is pressed where there is no side to turn from: it is no typing then."""
        return self.typed.is_empty and text in "lLrR" and self.chain.last_deg is None

    def _point(self) -> Snap:
        """Where the next corner would go: the pointer's place, else the corner, else beside all."""
        if self._at is not None:
            return self._at
        return Snap(self.corners[-1] if self.corners else beside_drawn(self.control.notebook))

    def _typed_end(self) -> Point:
        """Where the typed side ends; OwnerError where it cannot be told."""
        start, at, last_deg = self.corners[-1], self._point().at_ft, self.chain.last_deg
        length, bearing = self.typed.length_ft(), self.typed.bearing_deg(last_deg)
        if bearing is None and last_deg is not None and self.way == "rectangle":
            bearing = square_toward(start, last_deg, at)
        return side_end(start, at, length, bearing)

    def _put(self, at: Point) -> None:
        """Put a point: a corner, a point of an arc, the end of a radius or of a rectangle."""
        outline = self._two_more(at)
        if outline is not None:
            self.finish(outline)
        elif self.arc == "via":
            self.arc = at
            self.control.say(self.hint_now())
        elif isinstance(self.arc, tuple):
            via, self.arc = self.arc, "via"
            if self._did(lambda: self.chain.add_arc(via, at)):
                self.arc = "off"
                self.typed_changed()
        else:
            self._did(lambda: self.chain.add(at))
        self._show()

    def _did(self, put: Callable[[], object]) -> bool:
        try:
            put()
        except OwnerError as error:
            self.control.say(str(error), "bad")
            return False
        self.control.say(self.hint_now())
        self._show()
        return True

    def _two_more(self, at: Point) -> Outline | None:
        """The closed shape that a point makes of a middle or of a side, if it makes one."""
        corners = self.corners
        if self.way == "circle" and corners:
            return round_shape(corners[0], math.dist(corners[0], at))
        if self.way == "rectangle" and len(corners) == 2:
            return on_side(corners[0], corners[1], at)
        return None

    def _back(self) -> None:
        if isinstance(self.arc, tuple):
            self.arc = "via"
        elif self.arc == "via":
            self.turn_arc(on=False)
        else:
            self.chain.back()
        if not self.corners:
            self.cancel()
        self.control.say(self.hint_now())
        self._show()

    def _step(self, way: Point, *, fine: bool) -> None:
        """Lead the point by an arrow key."""
        habits = self.control.habits
        size = steps_of(habits)[fine]
        self._at = Snap(moved_by(self._point().at_ft, (way[0] * size, way[1] * size)))
        self._show()

    def _dragged(self, start: Point, end: Point) -> Outline | None:
        if self.from_middle():
            return round_shape(start, math.dist(start, end))
        return rectangle_between(start, end)

    def _snap(self, pointer: Pointer) -> Snap:
        snapper = self.control.snapper(pointer.ft_per_px)
        anchors = self.chain.anchors
        return snapper.snap(pointer.at_ft, anchors, free=pointer.alt, square=pointer.shift)

    def _closes(self, pointer: Pointer) -> bool:
        if len(self.corners) < 3 or self.arc != "off":
            return False
        return math.dist(self.corners[0], pointer.at_ft) <= CLOSE_PX * pointer.ft_per_px

    def _show(self, *, closes: bool = False) -> None:
        """Draw what there is out to the pointer or the typed end, and say what it is."""
        scene, snap = self.control.scene, self._point()
        if not self.corners and self._at is None and self.typed.is_empty:
            return
        to = self._readable_end()
        snap = Snap(to) if to is not None else snap
        drawing = scene.drawing()
        closed = self._closed_at(snap.at_ft, closes=closes)
        if closed is not None:
            draw_show.show_closed(drawing, closed, None if closes else snap, scene.ft_per_px)
            words = self._closed_words(closed, snap.reason, closes=closes)
        elif self.corners:
            words = self._show_ahead(drawing, snap)
        else:
            drawing.show_snap(snap, theme.palette())
            words = snap.reason
        self.shown_closed(drawing, closed if closed is not None else (*self.corners, snap.at_ft))
        if not self.typed.is_empty:
            words = f"{self.typed.words}  ·  {words or tr('Enter puts it there')}"
        self.control.hovered.emit(words)

    def _closed_at(self, to: Point, *, closes: bool) -> Outline | None:
        """The closed shape that a press or a release at a point would make now."""
        if self._dragging and self._pressed is not None:
            return self._dragged(self._pressed[1].at_ft, to)
        return self.corners if closes else self._two_more(to)

    def _closed_words(self, outline: Outline, reason: str, *, closes: bool) -> str:
        if closes:
            return tr("closes it: {area_sqft}", area_sqft=told(area_sqft(outline), 0, "sq ft"))
        middle = self._pressed[1].at_ft if self._dragging and self._pressed else None
        if self.way == "circle" and self.corners:
            middle = self.corners[0]
        round_one = self.from_middle() and middle is not None
        radius = math.sqrt(area_sqft(outline) / math.pi) if round_one else None
        return draw_show.closed_words(outline, reason, radius)

    def _show_ahead(self, drawing: DrawingItem, snap: Snap) -> str:
        """Draw the side or arc to a point, and say what it is."""
        chain, to, zoom = self.chain, snap.at_ft, self.control.scene.ft_per_px
        if isinstance(self.arc, tuple):
            ahead = draw_show.arc_ahead(chain, self.arc, to)
            wrong = draw_show.show_chain(drawing, chain, ahead or (to,), snap, zoom)
            return draw_show.arc_words(chain, self.arc, to, snap.reason, wrong=wrong)
        wrong = draw_show.show_chain(drawing, chain, (to,), snap, zoom)
        return draw_show.side_words(chain, to, snap.reason, wrong=wrong)

    def _readable_end(self) -> Point | None:
        """Where the typed side ends, as far as it can be read already."""
        if self.typed.is_empty or not self.corners:
            return None
        try:
            return self._typed_end()
        except OwnerError:
            return None
