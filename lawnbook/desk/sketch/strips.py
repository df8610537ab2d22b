"""Which fields stand below the paper: of what is chosen, of several, or of the tool in hand."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from lawnbook.desk.sketch.band import Band
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.habit_strip import HabitStrip
from lawnbook.desk.sketch.inspector import FeatureStrip, SpotStrip, Strip, ZoneStrip
from lawnbook.desk.sketch.pick import PickTool
from lawnbook.desk.sketch.tools import Tool
from lawnbook.yard.notebook import Key

_MOVE = "move"


class Strips:
    """Every strip of a sketch, in its band; each but the first is made when it is first shown."""

    def __init__(self, control: SketchControl, left: Callable[[], None], parent: QWidget) -> None:
        """`left` is called where a strip gives the keyboard back to the sketch."""
        self._control, self._left, self._parent = control, left, parent
        self._of_record: dict[str, Strip] = {}
        self._of_tool: dict[Tool, Strip | None] = {}
        self._asked: tuple[Key, ...] = ()
        self.band = Band(parent)
        self.habits = HabitStrip(control, parent)
        self._take_in(self.habits)

    def show(self, tool: Tool) -> None:
        """Show the strip that goes with the tool in hand and what is chosen."""
        choice, record = self._control.choice, self._control.record()
        if self._asked != self._control.chosen_keys:
            self._asked = ()
        of_tool = self._strip_of(tool)
        if of_tool is not None or not isinstance(tool, PickTool):
            shown = choice is not None and record is not None and of_tool is None
            self._show(self._for(choice.table) if choice and shown else of_tool)
        elif choice is None or record is None:
            self._show(self.habits)
        elif self._control.marked or self._asked:
            self._show(self._for(_MOVE))
        else:
            self._show(self._for(choice.table))

    def ask_move(self) -> None:
        """Show the fields for an exact move of what is chosen, and lead the keyboard there."""
        if self._control.choice is None:
            return
        self._asked = self._control.chosen_keys
        move = self._for(_MOVE)
        self._show(move)
        move.first().setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _show(self, strip: Strip | None) -> None:
        of_none = strip is None or strip is self.habits or strip in self._of_tool.values()
        self.band.show_strip(strip, None if of_none else self._control.record())

    def _end_move(self) -> None:
        self._asked = ()
        record, choice = self._control.record(), self._control.choice
        if choice is not None and record is not None and not self._control.marked:
            self._show(self._for(choice.table))

    def _for(self, table: str) -> Strip:
        """The strip for a record of a table, or that for an exact move."""
        if table not in self._of_record:
            strip = self._of_record[table] = self._made(table)
            self._take_in(strip)
        return self._of_record[table]

    def _made(self, table: str) -> Strip:
        if table == "heads":
            from lawnbook.desk.sketch.head_strip import HeadStrip

            return HeadStrip(self._control, self._parent)
        if table == _MOVE:
            from lawnbook.desk.sketch.move_strip import MoveStrip

            move = MoveStrip(self._control, self._parent)
            move.left.connect(self._end_move)
            return move
        kinds: dict[str, type[Strip]]
        kinds = {"zones": ZoneStrip, "features": FeatureStrip, "spots": SpotStrip}
        return kinds[table](self._control, self._parent)

    def _strip_of(self, tool: Tool) -> Strip | None:
        """The strip of a tool in hand; None where it has none."""
        if isinstance(tool, PickTool):
            return None
        if tool not in self._of_tool:
            from lawnbook.desk.sketch.toolstrip import tool_strip

            strip = self._of_tool[tool] = tool_strip(tool)
            if strip is not None:
                self._take_in(strip)
        return self._of_tool[tool]

    def _take_in(self, strip: Strip) -> None:
        self.band.add(strip)
        strip.left.connect(self._left)
