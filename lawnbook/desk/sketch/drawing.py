"""Drawing an outline: corner by corner, by a typed length, or as a rectangle in one drag."""

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import (
    bearing_deg,
    last_side_crosses,
    rectangle_between,
    round_outline,
    tidy,
    toward,
)
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.tools import Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, crosses_itself, lies_inside, perimeter_ft, zone_at
from lawnbook.yard.notebook import new_id
from lawnbook.yard.numbers import feet_inches, parse_feet
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Record, Zone

CLOSE_PX = 11.0
SMALLEST_SQFT = 0.25
TYPED = "0123456789.'\" "
CROSSES = "The side would cross another."


class DrawTool(Tool):
    """Draws one outline and hands it to `made`."""

    hint: ClassVar[str] = (
        "Click corner after corner; Enter or the first corner closes. Or drag a rectangle."
    )
    under_way: ClassVar[str] = (
        "Type the next side's length, such as 32' 6\", and Enter. Backspace takes a corner back."
    )

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self.corners: list[Point] = []
        self._pressed: tuple[QPointF, Snap] | None = None
        self._dragging = False
        self._at: Snap | None = None
        self._typed = ""

    def made(self, outline: Outline) -> bool:
        """Make a record of a closed outline; False where it cannot be kept."""
        raise NotImplementedError

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
        if self._dragging:
            self._show_rectangle()
        else:
            self._show_chain(pointer)

    def release(self, pointer: Pointer) -> None:
        """Put the corner down, or finish the rectangle."""
        pressed, self._pressed = self._pressed, None
        if pressed is None:
            return
        if self._dragging:
            self._dragging = False
            self.finish(self._rectangle(pressed[1].at_ft, self._snap(pointer).at_ft))
        elif self._closes(pointer):
            self.close()
        else:
            self._add(self._snap(pointer).at_ft)
            self._show_chain(pointer)

    def double(self, pointer: Pointer) -> None:
        """A double click closes the outline; its first click put the last corner down."""
        del pointer
        self.close()

    def key(self, event: QKeyEvent) -> bool:
        """Enter closes, or puts a typed length down; Backspace takes back."""
        key = Qt.Key(event.key())
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self._typed:
                self._add_typed()
            else:
                self.close()
        elif key == Qt.Key.Key_Backspace and self._typed:
            self._typed = self._typed[:-1]
            self._show_typed()
        elif key == Qt.Key.Key_Backspace and self.corners:
            self.corners.pop()
            self._redraw()
        elif self.corners and event.text() and event.text() in TYPED:
            self._typed += event.text()
            self._show_typed()
        else:
            return False
        return True

    def cancel(self) -> bool:
        """Give the outline up."""
        was_on = bool(self.corners or self._dragging or self._typed)
        self.corners, self._pressed, self._dragging, self._typed = [], None, False, ""
        self.control.scene.end_drawing()
        self.control.hovered.emit("")
        return was_on

    def hint_now(self) -> str:
        """What to do next."""
        return self.under_way if self.corners else self.hint

    def close(self) -> None:
        """Finish the outline with the corners it has."""
        if len(self.corners) < 3:
            self.control.say("An outline needs three corners at least.", "warn")
            return
        self.finish(tuple(self.corners))

    def finish(self, outline: Outline) -> bool:
        """Make what the tool makes of an outline; False, and why in words, where it cannot."""
        if crosses_itself(outline):
            words = "Its sides cross, so it has no area. Backspace takes the last corner back."
            self.control.say(words, "bad")
            return False
        if area_sqft(outline) < SMALLEST_SQFT:
            self.cancel()
            self.control.say("That is too small to be kept: it has next to no area.", "warn")
            return False
        if not self.made(outline):
            return False
        self.cancel()
        self.control.finished.emit()
        return True

    def _add(self, at: Point) -> None:
        if self.corners and math.dist(self.corners[-1], at) < 0.02:
            return
        if last_side_crosses((*self.corners, at)):
            self.control.say(f"{CROSSES} Put the corner elsewhere.", "bad")
            return
        self.corners.append(at)
        self.control.say(self.hint_now())

    def _add_typed(self) -> None:
        typed, self._typed = self._typed, ""
        try:
            length = parse_feet(typed, "Length")
        except OwnerError as error:
            self.control.say(str(error), "bad")
            return
        end = self._at.at_ft if self._at is not None else self.corners[-1]
        if end == self.corners[-1]:
            self.control.say("Move the pointer the way the side should run, then type.", "warn")
            return
        self._add(tidy(toward(self.corners[-1], bearing_deg(self.corners[-1], end), length)))
        self._redraw()

    def _show_typed(self) -> None:
        shown = self._typed or "a length"
        self.control.hovered.emit(f"{shown}  ·  Enter puts the corner there")

    def _rectangle(self, start: Point, end: Point) -> Outline:
        return rectangle_between(start, end)

    def _snap(self, pointer: Pointer) -> Snap:
        anchors = (*self.corners[:1], *self.corners[-1:]) if self.corners else ()
        snapper = self.control.snapper(pointer.ft_per_px)
        return snapper.snap(pointer.at_ft, anchors, free=pointer.alt, square=pointer.shift)

    def _closes(self, pointer: Pointer) -> bool:
        if len(self.corners) < 3:
            return False
        return math.dist(self.corners[0], pointer.at_ft) <= CLOSE_PX * pointer.ft_per_px

    def _show_rectangle(self) -> None:
        if self._pressed is None or self._at is None:
            return
        outline = self._rectangle(self._pressed[1].at_ft, self._at.at_ft)
        scene = self.control.scene
        scene.show_outline_drawing(outline, (), closed=True, wrong=False)
        self.control.hovered.emit(f"{area_sqft(outline):,.0f} sq ft  ·  {self._at.reason}")

    def _show_chain(self, pointer: Pointer) -> None:
        if self._at is None:
            return
        if not self.corners:
            self.control.scene.show_mark(self._at.at_ft)
            self.control.hovered.emit(self._at.reason)
            return
        if self._closes(pointer):
            outline = tuple(self.corners)
            wrong = crosses_itself(outline)
            self.control.scene.show_outline_drawing(outline, (), closed=True, wrong=wrong)
            self.control.hovered.emit(f"closes it: {area_sqft(outline):,.0f} sq ft")
            return
        self._redraw()

    def _redraw(self) -> None:
        """Draw the chain out to where the pointer was last."""
        if not self.corners:
            self.cancel()
            return
        at = self._at or Snap(self.corners[-1])
        chain = (*self.corners, at.at_ft)
        wrong = last_side_crosses(chain)
        scene = self.control.scene
        scene.show_outline_drawing(chain, at.guides, closed=False, wrong=wrong)
        words = [feet_inches(math.dist(self.corners[-1], at.at_ft))]
        if len(self.corners) >= 2 and not crosses_itself(chain):
            words.append(f"{area_sqft(chain):,.0f} sq ft")
        if at.reason:
            words.append(at.reason)
        self.control.hovered.emit(CROSSES if wrong else "  ·  ".join(words))


class ZoneTool(DrawTool):
    """Draws a zone."""

    def made(self, outline: Outline) -> bool:
        """Keep a new zone under the next free name, and choose it."""
        zones = self.control.notebook.zones
        name = free_name("Zone", {zone.name: zone for zone in zones.values()})
        zone = Zone(id=new_id(), name=name, outline_ft=outline)
        if not self.control.keep("zones", zone, f"draw {name}"):
            return False
        self.control.choose(Choice("zones", zone.id))
        size = f"{area_sqft(outline):,.0f} sq ft, {perimeter_ft(outline):,.0f} ft round"
        if not self.control.warn_of_overlap(zone):
            self.control.say(f"{name}: {size}. Enter names it.", "good")
        return True


class HoleTool(DrawTool):
    """Cuts a hole out of a zone."""

    hint = "Click the hole's corners inside a zone, or drag a rectangle."

    def made(self, outline: Outline) -> bool:
        """Cut it out of the zone it lies in."""
        zone = zone_at(self.control.notebook, outline[0])
        if zone is None or not lies_inside(outline, zone.outline_ft):
            self.control.say(
                "A hole is cut out of one zone: keep all its corners inside it.", "bad"
            )
            self.cancel()
            return False
        changed = replace(zone, holes_ft=(*zone.holes_ft, outline))
        if not self.control.keep("zones", changed, f"cut a hole in {zone.name}"):
            self.cancel()
            return False
        self.control.choose(Choice("zones", zone.id, ring=len(changed.holes_ft)))
        self.control.say(f"{area_sqft(outline):,.0f} sq ft are left out of {zone.name}.", "good")
        return True


class FeatureTool(DrawTool):
    """Draws what is not turf; a tree is drawn round, from its trunk outward."""

    hint = "Choose what it is, then click its corners or drag. A tree is dragged from its trunk."

    def made(self, outline: Outline) -> bool:
        """Keep a new feature of the chosen kind, and choose it."""
        kind = self.control.feature_kind
        feature = Feature(id=new_id(), kind=kind, outline_ft=outline)
        if not self.control.keep("features", feature, f"draw {kind}"):
            return False
        self.control.choose(Choice("features", feature.id))
        self.control.say(f"{kind.capitalize()}: {area_sqft(outline):,.0f} sq ft.", "good")
        return True

    def _rectangle(self, start: Point, end: Point) -> Outline:
        if self.control.feature_kind == "tree":
            return round_outline(start, max(0.5, math.dist(start, end)))
        return super()._rectangle(start, end)


def free_name(stem: str, taken: Mapping[str, Record]) -> str:
    """The first of "Zone 1", "Zone 2" … that no record bears."""
    number = len(taken) + 1
    while f"{stem} {number}" in taken:
        number += 1
    return f"{stem} {number}"
