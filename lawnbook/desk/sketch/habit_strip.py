"""The strip of Pick with nothing chosen: arrow steps, the grid, and whether points snap."""

from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QCheckBox, QWidget

from lawnbook.desk.roles import check_quietly
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.habits import (
    LONGEST_STEP_FT,
    SHORTEST_STEP_FT,
    Habits,
    length_words,
    steps_of,
)
from lawnbook.desk.sketch.inspector import Parse, Strip
from lawnbook.desk.telling import either
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.numbers import parse_feet
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Record

AUTO = tr("auto")
"""What stands in the field of a grid that follows the zoom."""


class HabitStrip(Strip):
    """The owner's habits, each kept on leaving its field; `changed` is told with the new ones."""

    kind = "habit"
    changed = Signal(object)

    def __init__(self, control: SketchControl, parent: QWidget | None = None) -> None:
        super().__init__(control, parent)
        self.add_field("step_ft", tr("Arrow step"), parse_step(tr("Arrow step")), 84)
        self.add_field("fine_ft", tr("With Shift"), parse_step(tr("Arrow step with Shift")), 84)
        grid = self.add_field("grid_ft", tr("Grid"), parse_grid, 84)
        grid.setToolTip(tr("A length, or “auto”: the finest grid that can be seen at the zoom"))
        for field in self.fields.values():
            field.unit = "ft"
        self.fields["fine_ft"].setAccessibleName(tr("Arrow step with Shift"))
        self.fields["step_ft"].setAccessibleName(tr("Arrow step"))
        grid.setAccessibleName(tr("Grid, a length or auto"))
        self._snaps = QCheckBox(tr("Snap to shapes and lines"), self)
        name_control(self._snaps, "sketch_habit_snaps", tr("Snap to shapes and lines"))
        self._snaps.setToolTip(tr("Alt leaves a single point alone"))
        self._snaps.toggled.connect(lambda on: self.keep("snaps", on, tr("Snap")))
        self.row.addWidget(self._snaps, 0, Qt.AlignmentFlag.AlignBottom)
        self.row.addStretch(1)
        self.show_habits()

    def show_record(self, record: Record) -> None:
        """The strip of what nothing is chosen for shows no record."""

    def show_habits(self) -> None:
        """Show the habits as they are."""
        habits = self.control.habits
        for name, step in zip(("step_ft", "fine_ft"), steps_of(habits), strict=True):
            self.fields[name].show_text(length_words(step))
        grid = habits.grid_ft
        self.fields["grid_ft"].show_text(AUTO if grid is None else length_words(grid))
        check_quietly(self._snaps, on=habits.snaps)

    def show_again(self) -> None:
        """Show the habits in the owner's units."""
        self.show_habits()

    def keep(self, name: str, value: object, caption: str) -> bool:
        """Keep one habit; it is no edit of the notebook."""
        del caption
        values: dict[str, Any] = {name: value}
        habits: Habits = replace(self.control.habits, **values)
        if habits != self.control.habits:
            self.control.habits = habits
            self.changed.emit(habits)
        self.show_habits()
        return True

    def showEvent(self, event: QShowEvent) -> None:
        """Show what was changed elsewhere meanwhile."""
        super().showEvent(event)
        if not self.is_wrong:
            self.show_habits()


def parse_grid(text: str) -> float | None:
    """The step of a grid in feet, None for one that follows the zoom; OwnerError otherwise."""
    if text.strip().lower() in ("", AUTO):
        return None
    step: float = parse_step(tr("Grid"))(text)
    return step


def parse_step(what: str) -> Parse:
    """What reads the length of a step; OwnerError, naming `what`, for one out of reach."""

    def parse(text: str) -> float:
        step = parse_feet(text, what)
        if not SHORTEST_STEP_FT <= step <= LONGEST_STEP_FT:
            least, most = (
                either(length_words(each), told(each, 1, "ft"))
                for each in (SHORTEST_STEP_FT, LONGEST_STEP_FT)
            )
            raise OwnerError(
                tr(
                    "{what}: a step is from {least} to {most} long; enter such a length.",
                    what=what,
                    least=least,
                    most=most,
                )
            )
        return step

    return parse
