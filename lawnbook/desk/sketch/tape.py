"""The tape: measures leg after leg, with angles and the area, and keeps nothing."""

import itertools
import math
from dataclasses import replace
from typing import ClassVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence

from lawnbook.desk import theme
from lawnbook.desk.sketch.chain import turn_words
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import bearing_deg
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.tools import Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, crosses_itself
from lawnbook.yard.numbers import feet_inches

CLOSE_PX = 11.0
APART = "  ·  "


class TapeTool(Tool):
    """Measure by press and drag, or click by click: every leg, the whole way, and the area."""

    hint: ClassVar[str] = tr(
        "Drag from end to end, or click leg after leg; Enter or a double click ends "
        "it. Nothing is kept."
    )
    under_way: ClassVar[str] = tr(
        "Click the next place, the first one to close it for its area, or press Enter. "
        "Ctrl+C copies the length."
    )

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._points: list[Snap] = []
        self._pressed_at = QPointF()
        self._laid = self._closed = False
        self._said = ""

    def press(self, pointer: Pointer) -> bool:
        """Begin a measurement, or end the leg under way."""
        if self._laid:
            self.cancel()
        self._pressed_at = pointer.at_px
        if self._closes(pointer):
            self._closed = True
            self._lay()
        else:
            self._points.append(self._snap(pointer))
            self._show(None)
        return True

    def move(self, pointer: Pointer) -> None:
        """Draw the tape to the pointer."""
        if self._laid:
            return
        snap = self._snap(pointer)
        if self._points:
            self._closed = self._closes(pointer)
            self._show(None if self._closed else snap)
            self._closed = False
        else:
            self.control.scene.drawing().show_snap(snap, theme.palette())
            self.control.hovered.emit(snap.reason)

    def release(self, pointer: Pointer) -> None:
        """End a measurement that was dragged."""
        if len(self._points) == 1 and not self._laid and dragged(self._pressed_at, pointer.at_px):
            self._points.append(self._snap(pointer))
            self._lay()

    def double(self, pointer: Pointer) -> None:
        """A double click ends it; its first click put the last end down."""
        del pointer
        if len(self._points) > 1:
            self._lay()

    def key(self, event: QKeyEvent) -> bool:
        """Enter ends it, Backspace takes a leg back, Ctrl+C copies the length."""
        key = Qt.Key(event.key())
        if event.matches(QKeySequence.StandardKey.Copy) and self._said:
            QGuiApplication.clipboard().setText(self._said)
            self.control.say(tr("{said} is copied.", said=self._said), "good")
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and len(self._points) > 1:
            self._lay()
        elif key == Qt.Key.Key_Backspace and self._points:
            self._points.pop()
            self._laid = self._closed = False
            if not self._points:
                self.cancel()
            else:
                self._show(None)
        else:
            return False
        return True

    def cancel(self) -> bool:
        """Roll the tape up."""
        was_out = bool(self._points)
        self._points, self._laid, self._closed, self._said = [], False, False, ""
        self.control.scene.end_drawing()
        return was_out

    def hint_now(self) -> str:
        """What to do next."""
        return self.under_way if self._points and not self._laid else self.hint

    def _lay(self) -> None:
        """It lies where it is until the next press."""
        self._laid = True
        self._show(None)

    def _snap(self, pointer: Pointer) -> Snap:
        anchors = [each.at_ft for each in self._points]
        snapper = replace(self.control.snapper(pointer.ft_per_px), places=True)
        return snapper.snap(pointer.at_ft, anchors, free=pointer.alt, square=pointer.shift)

    def _closes(self, pointer: Pointer) -> bool:
        if len(self._points) < 3 or self._laid:
            return False
        return math.dist(self._points[0].at_ft, pointer.at_ft) <= CLOSE_PX * pointer.ft_per_px

    def _show(self, ahead: Snap | None) -> None:
        """Draw all legs, the one to the pointer too, and say what they come to."""
        points = [*self._points, *([ahead] if ahead is not None else [])]
        places = tuple(each.at_ft for each in points)
        way = (*places, places[0]) if self._closed else places
        drawing, palette = self.control.scene.drawing(), theme.palette()
        for start, end in itertools.pairwise(way):
            drawing.show_tape(start, end, palette, self.control.scene.ft_per_px)
        if ahead is not None or len(points) == 1:
            drawing.show_snap(points[-1], palette)
        if len(way) > 1:
            self._say(way, points[-1].reason)

    def _say(self, way: Outline, reason: str) -> None:
        legs = [math.dist(start, end) for start, end in itertools.pairwise(way)]
        whole = self._said = feet_inches(sum(legs))
        words = [feet_inches(legs[-1]), *_angle(way)]
        words += [tr("{whole} in all", whole=whole)] if len(legs) > 1 else []
        words += _area(way) if self._closed else []
        self.control.hovered.emit(APART.join([*words, *([reason] if reason else [])]))
        if len(legs) == 1:
            (start, end) = way
            across, up = abs(end[0] - start[0]), abs(end[1] - start[1])
            self.control.say(
                tr(
                    "{whole} from end to end: {across} across, {up} up, {bearing_deg}° from the "
                    "top of the page.",
                    whole=whole,
                    across=feet_inches(across),
                    up=feet_inches(up),
                    bearing_deg=round(bearing_deg(start, end)) % 360,
                )
            )
            return
        area = f"; {', '.join(_area(way))}" if self._closed else ""
        self.control.say(
            tr(
                "{whole} in {count} legs{area}. Ctrl+C copies the length.",
                whole=whole,
                count=len(legs),
                area=area,
            )
        )


def _angle(way: Outline) -> list[str]:
    """The direction of the last leg, and how far it turns from the one before."""
    if math.dist(*way[-2:]) < 0.01:
        return []
    last = bearing_deg(*way[-2:])
    words = [f"{round(last) % 360}°"]
    if len(way) > 2 and math.dist(*way[-3:-1]) > 0.01:
        words.append(turn_words(last - bearing_deg(*way[-3:-1])))
    return words


def _area(way: Outline) -> list[str]:
    """The area that a closed way goes round; none is told where it crosses itself."""
    if crosses_itself(way[:-1]):
        return [tr("it crosses itself, so it has no area")]
    return [told(area_sqft(way[:-1]), 0, "sq ft")]
