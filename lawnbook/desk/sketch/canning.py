"""The Can tool: places the cans of a catch test in one zone, and moves and takes them away."""

import math
from dataclasses import replace
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import moved_by
from lawnbook.desk.sketch.tools import ARROWS, Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import contains, distance_to_edge_ft, label_point_ft, tidy, zone_at
from lawnbook.yard.records import Zone

CAN_PX = 10.0
"""How near a can the pointer takes hold of it."""

FINE_STEP_FT = 0.25
BESIDE_FT = 4.0
"""How far from the can in hand Insert places the next."""

ENOUGH = 24
"""Two dozen: with as many the drier places show (common practice)."""


@dataclass(frozen=True, slots=True)
class Hold:
    """A press under way: on which can, None for open ground, and where it stood."""

    index: int | None
    at_px: QPointF
    at_ft: Point
    moved: bool = False


class CanTool(Tool):
    """Places numbered cans; the zone under the first is the zone of all."""

    hint: ClassVar[str] = tr(
        "Click where each can stands, spread over one zone. Drag moves one, Delete "
        "takes it away, Esc ends."
    )

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._hold: Hold | None = None

    @property
    def draft(self) -> CanDraft:
        """The cans in the making."""
        return self.control.cans

    def press(self, pointer: Pointer) -> bool:
        """Take hold of a can, or remember where one is to stand."""
        index = self._can_at(pointer)
        if index is not None:
            self.draft.pick(index)
        at = self.draft.places[index] if index is not None else tidy(pointer.at_ft)
        self._hold = Hold(index, pointer.at_px, at)
        return True

    def move(self, pointer: Pointer) -> None:
        """Move the can that is held; else say what stands here."""
        hold = self._hold
        if hold is None or hold.index is None:
            self.control.hovered.emit(self._words_at(pointer))
            return
        if hold.moved or dragged(hold.at_px, pointer.at_px):
            self._hold = replace(hold, moved=True)
            self.draft.move(hold.index, tidy(pointer.at_ft))
            self.control.hovered.emit(tr("can {index}", index=hold.index + 1))

    def release(self, pointer: Pointer) -> None:
        """Place a can, or leave the one that was moved where it is."""
        hold, self._hold = self._hold, None
        if hold is None:
            return
        if hold.index is None:
            self._place(hold.at_ft)
        elif hold.moved and not self._stands_in_zone(self.draft.places[hold.index]):
            self.draft.move(hold.index, hold.at_ft)
            self.control.say(
                tr(
                    "Can {index} was put back: {outside}",
                    index=hold.index + 1,
                    outside=self._outside(),
                ),
                "warn",
            )
        self.control.hovered.emit(self._words_at(pointer))

    def double(self, pointer: Pointer) -> None:
        """A second click on a can just placed places no other on it."""
        self.press(pointer)

    def key(self, event: QKeyEvent) -> bool:
        """Arrows move the can in hand, Insert places one beside it, Delete takes it away."""
        key = Qt.Key(event.key())
        step = ARROWS.get(key.value)
        if step is not None:
            fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            return self._nudge(step, FINE_STEP_FT if fine else 1.0)
        if key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self._remove()
        elif key == Qt.Key.Key_Insert:
            self._place_beside()
        else:
            return False
        return True

    def step(self, forward: bool) -> bool:
        """Take the next can in hand, or the one before; False past the last."""
        draft, count = self.draft, len(self.draft.places)
        before = draft.picked if draft.picked is not None else (-1 if forward else count)
        index = before + (1 if forward else -1)
        if not 0 <= index < count:
            return False
        draft.pick(index)
        self.control.say(
            tr(
                "Can {index} of {count}. Arrows move it, Delete takes it away.",
                index=index + 1,
                count=count,
            )
        )
        return True

    def cancel(self) -> bool:
        """Put a can that is being dragged back; else there is nothing to give up."""
        hold, self._hold = self._hold, None
        if hold is not None and hold.index is not None and hold.moved:
            self.draft.move(hold.index, hold.at_ft)
        return hold is not None

    def lay_down(self) -> None:
        """Another tool is taken up: the cans stay, none is in hand."""
        super().lay_down()
        self.draft.pick(None)

    def hint_now(self) -> str:
        """What to do next."""
        count = len(self.draft.places)
        return f"{placed_words(count)}" if count else self.hint

    def _can_at(self, pointer: Pointer) -> int | None:
        reach = CAN_PX * pointer.ft_per_px
        near = [
            (math.dist(at, pointer.at_ft), index)
            for index, at in enumerate(self.draft.places)
            if math.dist(at, pointer.at_ft) <= reach
        ]
        return min(near)[1] if near else None

    def _words_at(self, pointer: Pointer) -> str:
        index = self._can_at(pointer)
        if index is not None:
            return tr("can {index}", index=index + 1)
        return self.control.scene.water.told_at(pointer.at_ft, pointer.ft_per_px)

    def _place(self, at: Point) -> None:
        """Place a can, if it stands in the zone of the others, or the first in any."""
        zone = self._zone()
        if zone is None:
            found = zone_at(self.control.notebook, at)
            if found is None:
                self.control.say(
                    tr("Cans stand in a zone: click inside the one that is tested."), "warn"
                )
                return
            self.draft.take(found.id, (at,))
        elif not self._stands_in_zone(at):
            self.control.say(tr("No can was placed: {outside}", outside=self._outside()), "warn")
            return
        else:
            self.draft.add(at)
        self.control.say(placed_words(len(self.draft.places)), "good")

    def _place_beside(self) -> None:
        """Place a can by the keyboard: beside the one in hand, or in the middle of the zone."""
        picked, chosen = self.draft.picked, self.control.record()
        zone = self._zone() or (chosen if isinstance(chosen, Zone) else None)
        if zone is None:
            self.control.say(tr("Choose a zone first, then Insert places a can in it."), "warn")
            return
        middle = tidy(label_point_ft(zone.outline_ft, zone.holes_ft))
        if picked is None:
            self._place(middle)
            return
        at = self.draft.places[picked]
        sides = ((BESIDE_FT, 0.0), (0.0, BESIDE_FT), (-BESIDE_FT, 0.0), (0.0, -BESIDE_FT))
        beside = (moved_by(at, by) for by in sides)
        free = (b for b in beside if self._stands_in_zone(b) and b not in self.draft.places)
        self._place(next(free, middle))

    def _nudge(self, step: Point, size: float) -> bool:
        picked = self.draft.picked
        if picked is None:
            return False
        to = moved_by(self.draft.places[picked], (step[0] * size, step[1] * size))
        if self._stands_in_zone(to):
            self.draft.move(picked, to)
        else:
            self.control.say(
                tr("Can {picked} stays: {outside}", picked=picked + 1, outside=self._outside()),
                "warn",
            )
        return True

    def _remove(self) -> None:
        index = self.draft.picked
        count = len(self.draft.places)
        if not count:
            return
        gone = count if index is None else index + 1
        self.draft.remove(gone - 1)
        if not self.draft.places:
            self.draft.clear()
        left = len(self.draft.places)
        self.control.say(tr("Can {gone} is gone; {left} left.", gone=gone, left=left or "none"))

    def _zone(self) -> Zone | None:
        return self.control.notebook.zones.get(self.draft.zone_id)

    def _stands_in_zone(self, at: Point) -> bool:
        zone = self._zone()
        if zone is None:
            return False
        inside = contains(zone.outline_ft, at, zone.holes_ft)
        return inside or distance_to_edge_ft(zone.outline_ft, at, zone.holes_ft) < 0.01

    def _outside(self) -> str:
        zone = self._zone()
        name = zone.name if zone is not None else tr("the zone")
        return tr("a test's cans stand in one zone, here in {name}.", name=name)


def placed_words(count: int) -> str:
    """What is said once so many cans stand."""
    if count < ENOUGH:
        return tr(
            "Can {count} placed. Two dozen well spread beat six; go on, then type what "
            "they caught on the Water page.",
            count=count,
        )
    return tr(
        "Can {count} placed. That is enough; Esc ends, then type what they caught.", count=count
    )
