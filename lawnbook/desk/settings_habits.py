"""The card of how the owner draws: steps of the arrow keys, the grid, what points snap to."""

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from lawnbook.desk.roles import check_quietly
from lawnbook.desk.settings import Settings
from lawnbook.desk.settings_rows import LengthField, SettingsCard, Tick, at_first
from lawnbook.desk.sketch.habit_strip import AUTO, HabitStrip, parse_grid, parse_step
from lawnbook.desk.sketch.habits import Habits, length_words, steps_of
from lawnbook.desk.widgets import Caption, Words
from lawnbook.reading import tr

if TYPE_CHECKING:
    from lawnbook.desk.window import BookWindow


class HabitsCard(SettingsCard):
    """The habits in use: those of the open book's sketch, else those kept for the next."""

    def __init__(self, settings: Settings, window: "BookWindow | None", parent: QWidget) -> None:
        super().__init__(tr("On the sketch"), parent)
        self._settings, self._window = settings, window
        self._step, self._step_note = self._field("step_ft", tr("Step of the arrow keys"))
        self._fine, self._fine_note = self._field("fine_ft", tr("Step with Shift"))
        self._grid_field, self._grid_note = self._field("grid_ft", tr("Grid"))
        self._snaps = Tick("snaps", tr("Snap to shapes and lines"), self._snap, self)
        self.add_row(tr("Points"), self._snaps, at_first(tr("they snap; Alt leaves one alone")))
        self._through = Tick("sees_through", tr("Seen through zones"), self._see_through, self)
        self.add_row(tr("Backdrop"), self._through, at_first(tr("covered by them")))
        self._said = Words("", "refuse", self)
        self._said.setObjectName("setting_habits_said")
        self.body.addWidget(self._said)
        for each in (self._step, self._fine, self._grid_field):
            each.said = self._said

    @property
    def _habits(self) -> Habits:
        window = self._window
        return window.sketch.control.habits if window is not None else self._settings.habits

    def refresh(self) -> None:
        """Show the habits as they are now."""
        held = self._habits
        step, fine = (length_words(each) for each in steps_of(held))
        self._step.show_text(step)
        self._fine.show_text(fine)
        first_step, first_fine = (length_words(each) for each in steps_of(Habits()))
        auto = tr("“auto”, the finest that can be seen at the zoom")
        for field, note, first in (
            (self._step, self._step_note, first_step),
            (self._fine, self._fine_note, first_fine),
            (self._grid_field, self._grid_note, auto),
        ):
            note.setText(at_first(first))
            field.setAccessibleDescription(at_first(first))
        self._grid_field.show_text(AUTO if held.grid_ft is None else length_words(held.grid_ft))
        check_quietly(self._snaps, on=held.snaps)
        check_quietly(self._through, on=held.sees_through)

    def use(self) -> None:
        """Draw by the habits that are kept in the settings now."""
        habits = self._settings.habits
        window = self._window
        if window is not None:
            window.sketch.control.habits = habits
            window.sketch.scene.see_through(on=habits.sees_through)
            for strip in window.findChildren(HabitStrip):
                strip.show_habits()
        self.refresh()

    def _field(self, name: str, label: str) -> tuple[LengthField, Caption]:
        made = LengthField(name, label, partial(self._keep_length, name), self)
        return made, self.add_row(label, made, "")

    def _keep_length(self, name: str, text: str) -> None:
        read = parse_grid if name == "grid_ft" else parse_step(tr("Step"))
        self._keep(name, read(text))

    def _snap(self, on: bool) -> None:
        self._keep("snaps", on)

    def _see_through(self, on: bool) -> None:
        self._keep("sees_through", on)

    def _keep(self, name: str, value: object) -> None:
        changed: dict[str, Any] = {name: value}
        self._settings.habits = replace(self._habits, **changed)
        self.use()
