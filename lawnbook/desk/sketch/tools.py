"""What every tool has in common, and the tape, which measures and keeps nothing."""

import math
from types import MappingProxyType
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk import theme
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.view import Pointer
from lawnbook.yard.fields import Point
from lawnbook.yard.numbers import feet_inches

DRAG_PX = 5.0
"""A press that moves less than this is a click."""

ARROWS: MappingProxyType[int, Point] = MappingProxyType(
    {
        Qt.Key.Key_Left.value: (-1.0, 0.0),
        Qt.Key.Key_Right.value: (1.0, 0.0),
        Qt.Key.Key_Up.value: (0.0, 1.0),
        Qt.Key.Key_Down.value: (0.0, -1.0),
    }
)
"""The step of each arrow key, in feet."""


class Tool:
    """A tool that does nothing yet; every tool is one of these."""

    cursor: ClassVar[Qt.CursorShape] = Qt.CursorShape.CrossCursor
    hint: ClassVar[str] = ""

    def __init__(self, control: SketchControl) -> None:
        self.control = control

    def press(self, pointer: Pointer) -> bool:
        """The left button went down; False where the paper may be taken hold of instead."""
        del pointer
        return True

    def move(self, pointer: Pointer) -> None:
        """The pointer moved, with the button held or not."""

    def release(self, pointer: Pointer) -> None:
        """The left button came up."""

    def double(self, pointer: Pointer) -> None:
        """The second press of a double click: a press like any other."""
        self.press(pointer)

    def key(self, event: QKeyEvent) -> bool:
        """A key went down; True where it was used."""
        del event
        return False

    def key_up(self, event: QKeyEvent) -> None:
        """A key came up."""

    def step(self, forward: bool) -> bool:
        """Tab: take the next thing of the tool in hand; False where the focus may go on."""
        del forward
        return False

    def leave(self) -> None:
        """The pointer or the focus left the sketch."""
        self.control.hovered.emit("")

    def cancel(self) -> bool:
        """Give up what is under way; False where there was nothing to give up."""
        return False

    def lay_down(self) -> None:
        """Another tool is taken up: give up what is under way."""
        self.cancel()

    def hint_now(self) -> str:
        """What to do next, in words."""
        return self.hint


class TapeTool(Tool):
    """Measure from one point to another by press and drag, or by two clicks."""

    hint = "Press at one end and drag to the other, or click both ends. Nothing is kept."

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._start: Snap | None = None
        self._pressed_at = QPointF()
        self._laid = False

    def press(self, pointer: Pointer) -> bool:
        """Begin a measurement, or end the one under way."""
        if self._start is not None and not self._laid:
            self._show(pointer)
            self._laid = True
            return True
        self._laid = False
        self._pressed_at = pointer.at_px
        self._start = self._snap(pointer)
        return True

    def move(self, pointer: Pointer) -> None:
        """Draw the tape to the pointer."""
        if self._start is not None and not self._laid:
            self._show(pointer)
        elif not pointer.held and self._start is None:
            snap = self._snap(pointer)
            self.control.scene.show_mark(snap.at_ft)
            self.control.hovered.emit(snap.reason)

    def release(self, pointer: Pointer) -> None:
        """End a measurement that was dragged."""
        if dragged(self._pressed_at, pointer.at_px):
            self._laid = self._start is not None

    def cancel(self) -> bool:
        """Roll the tape up."""
        was_out = self._start is not None
        self._start, self._laid = None, False
        self.control.scene.end_drawing()
        return was_out

    def _snap(self, pointer: Pointer) -> Snap:
        anchors = (self._start.at_ft,) if self._start is not None else ()
        snapper = self.control.snapper(pointer.ft_per_px)
        return snapper.snap(pointer.at_ft, anchors, free=pointer.alt, square=pointer.shift)

    def _show(self, pointer: Pointer) -> None:
        if self._start is None:
            return
        end = self._snap(pointer)
        start = self._start.at_ft
        drawing = self.control.scene.drawing()
        drawing.show_tape(start, end.at_ft, theme.palette(), pointer.ft_per_px)
        length = feet_inches(math.dist(start, end.at_ft))
        self.control.hovered.emit(f"{length}, {end.reason}")
        across, up = abs(end.at_ft[0] - start[0]), abs(end.at_ft[1] - start[1])
        self.control.say(
            f"{length} from end to end: {feet_inches(across)} across, {feet_inches(up)} up."
        )


def dragged(start: QPointF, end: QPointF) -> bool:
    """Whether a press moved far enough to be a drag."""
    return (end - start).manhattanLength() >= DRAG_PX
