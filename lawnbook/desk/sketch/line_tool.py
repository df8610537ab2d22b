"""Two points for whoever asks: to scale or level a picture, to split, to mirror."""

import math

from PySide6.QtCore import QPointF

from lawnbook.desk import theme
from lawnbook.desk.sketch.control import LineDone, SketchControl
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.tools import Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.reading import tr
from lawnbook.yard.numbers import feet_inches

LEAST_FT = 0.05
"""Two points nearer than this are one."""


class LineTool(Tool):
    """Taken up by `SketchControl.ask_line`: press and drag, or click both ends; Esc gives up."""

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._words = ""
        self._done: LineDone | None = None
        self._snaps = True
        self._start: Snap | None = None
        self._pressed_at = QPointF()

    def ask(self, words: str, done: LineDone, snaps: bool) -> None:
        """Ask for two points; what was asked before is given up."""
        self._words, self._done, self._snaps, self._start = words, done, snaps, None

    def press(self, pointer: Pointer) -> bool:
        """The first end, or the second."""
        snap = self._snap(pointer)
        if self._start is None:
            self._start, self._pressed_at = snap, pointer.at_px
        else:
            self._end(snap)
        return True

    def move(self, pointer: Pointer) -> None:
        """Draw the line to the pointer."""
        snap, scene = self._snap(pointer), self.control.scene
        if self._start is None:
            scene.drawing().show_snap(snap, theme.palette())
            self.control.hovered.emit(snap.reason)
            return
        start, drawing = self._start.at_ft, scene.drawing()
        drawing.show_tape(start, snap.at_ft, theme.palette(), pointer.ft_per_px)
        drawing.show_snap(snap, theme.palette())
        length = feet_inches(math.dist(start, snap.at_ft))
        self.control.hovered.emit("  ·  ".join(filter(None, (length, snap.reason))))

    def release(self, pointer: Pointer) -> None:
        """The end of a line that was dragged."""
        if self._start is not None and dragged(self._pressed_at, pointer.at_px):
            self._end(self._snap(pointer))

    def cancel(self) -> bool:
        """Take the first end back."""
        was_out, self._start = self._start is not None, None
        self.control.scene.end_drawing()
        self.control.hovered.emit("")
        return was_out

    def lay_down(self) -> None:
        """Whoever asked gets no answer."""
        self._done = None
        super().lay_down()

    def hint_now(self) -> str:
        """What was asked."""
        return self._words

    def _snap(self, pointer: Pointer) -> Snap:
        if not self._snaps:
            return Snap(pointer.at_ft)
        anchors = (self._start.at_ft,) if self._start is not None else ()
        snapper = self.control.snapper(pointer.ft_per_px)
        return snapper.snap(pointer.at_ft, anchors, free=pointer.alt, square=pointer.shift)

    def _end(self, end: Snap) -> None:
        start, done = self._start, self._done
        if start is None or math.dist(start.at_ft, end.at_ft) < LEAST_FT:
            self.control.say(tr("The two ends lie on one place; click the other end."), "warn")
            return
        self.cancel()
        self.control.finished.emit()
        if done is not None:
            done(start.at_ft, end.at_ft)
