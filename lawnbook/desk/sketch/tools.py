"""What every tool has in common."""

from types import MappingProxyType
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.view import Pointer
from lawnbook.yard.fields import Point

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


def dragged(start: QPointF, end: QPointF) -> bool:
    """Whether a press moved far enough to be a drag."""
    return (end - start).manhattanLength() >= DRAG_PX
