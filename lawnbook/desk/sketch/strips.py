"""Which fields stand below the paper: of what is chosen, of several, or of the tool in hand."""

from collections.abc import Mapping

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lawnbook.desk.sketch.band import Band
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.habit_strip import HabitStrip
from lawnbook.desk.sketch.head_strip import HeadStrip
from lawnbook.desk.sketch.inspector import FeatureStrip, SpotStrip, Strip, ZoneStrip
from lawnbook.desk.sketch.move_strip import MoveStrip
from lawnbook.desk.sketch.pick import PickTool
from lawnbook.desk.sketch.tools import Tool
from lawnbook.desk.sketch.toolstrip import tool_strip
from lawnbook.yard.notebook import Key


class Strips:
    """Every strip of a sketch, in its band."""

    def __init__(self, control: SketchControl, tools: Mapping[str, Tool], parent: QWidget) -> None:
        self._control = control
        self._of_record: dict[str, Strip] = {
            "zones": ZoneStrip(control, parent),
            "features": FeatureStrip(control, parent),
            "heads": HeadStrip(control, parent),
            "spots": SpotStrip(control, parent),
        }
        self._of_tool: dict[Tool, Strip | None] = {
            tool: tool_strip(tool) for tool in tools.values() if not isinstance(tool, PickTool)
        }
        self.habits = HabitStrip(control, parent)
        self._move = MoveStrip(control, parent)
        self._asked: tuple[Key, ...] = ()
        self.band = Band(self.every, parent)
        self._move.left.connect(self._end_move)

    @property
    def every(self) -> list[Strip]:
        """All of them."""
        of_tools = filter(None, self._of_tool.values())
        return [*self._of_record.values(), self.habits, self._move, *of_tools]

    def show(self, tool: Tool) -> None:
        """Show the strip that goes with the tool in hand and what is chosen."""
        choice, record = self._control.choice, self._control.record()
        if self._asked != self._control.chosen_keys:
            self._asked = ()
        of_tool = self._of_tool.get(tool)
        if of_tool is not None or not isinstance(tool, PickTool):
            shown = choice is not None and record is not None and of_tool is None
            self._show(self._of_record[choice.table] if choice and shown else of_tool)
        elif choice is None or record is None:
            self._show(self.habits)
        elif self._control.marked or self._asked:
            self._show(self._move)
        else:
            self._show(self._of_record[choice.table])

    def ask_move(self) -> None:
        """Show the fields for an exact move of what is chosen, and lead the keyboard there."""
        if self._control.choice is None:
            return
        self._asked = self._control.chosen_keys
        self._show(self._move)
        self._move.first().setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _show(self, strip: Strip | None) -> None:
        of_none = strip is None or strip is self.habits or strip in self._of_tool.values()
        self.band.show_strip(strip, None if of_none else self._control.record())

    def _end_move(self) -> None:
        self._asked = ()
        record, choice = self._control.record(), self._control.choice
        if choice is not None and record is not None and not self._control.marked:
            self._show(self._of_record[choice.table])
