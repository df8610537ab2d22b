"""What is due, as a short list under Now, Next two weeks and Later, each line to be ticked off."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.season_due_form import DoneForm
from lawnbook.desk.pages.season_due_row import DOT_PX, DueRow
from lawnbook.desk.pages.season_due_said import SaidRow
from lawnbook.desk.pages.season_due_words import grouped
from lawnbook.desk.widgets import (
    Caption,
    LinkButton,
    bring_into_sight,
    clear_layout,
    name_control,
)
from lawnbook.frozen import dataclass
from lawnbook.plan.doing import can_be_done
from lawnbook.plan.model import Due, Plan
from lawnbook.plan.season_model import Task
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

SPOTS_IN_A_ROW = 4
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


@dataclass(frozen=True, slots=True)
class _Ticked:
    """Where a line stood that was ticked off, and the keys of the one after it, () for none."""

    place: int
    next_keys: tuple[str, ...]


class SeasonDue(QWidget):
    """The list. `kept` carries the `Done` that was recorded.

    `spot_asked` tells the spot whose plug is to be entered, `checklist_asked` a checklist's name.
    """

    kept = Signal(object)
    spot_asked = Signal(str)
    checklist_asked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "season_due", tr("What is due"))
        self._book = book
        self._on = book.today
        self._tasks: Mapping[str, Task] = {}
        self._rows: list[DueRow] = []
        self._place: int | None = None
        self._lit_keys: tuple[str, ...] = ()
        self._ticked: _Ticked | None = None
        self._told: _Ticked | None = None
        self.said = SaidRow(self)
        self._opened_keys: tuple[str, ...] = ()
        self._form = DoneForm(book, self)
        self._form.hide()
        self._spots = _SpotChoice(self)
        self._spots.hide()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2)
        self._form.kept.connect(self._kept)
        self._form.given_up.connect(self._give_up)
        self._spots.picked.connect(self._spot_picked)
        self._spots.given_up.connect(self._give_up)

    def show_plan(self, plan: Plan) -> None:
        """Show what is due on the plan's day; what is being ticked off stays while it is due."""
        lit = next((place for place, row in enumerate(self._rows) if row.hasFocus()), None)
        if lit is not None:
            self._place, self._lit_keys = lit, self._rows[lit].due.keys
        same_day = plan.on == self._on
        open_keys = self._form.keys if not self._form.isHidden() and same_day else ()
        self._on = plan.on
        self._tasks = {task.key: task for task in plan.tasks}
        gone = self._take_out()
        for head, rows in grouped(plan.due, plan.on):
            self._column.addSpacing(4)
            caption = Caption(head, self)
            self._column.addWidget(caption)
            caption.show()
            for due in rows:
                self._add(due)
        self._set_said()
        self._open(self._opened_keys)
        # Shown at once: lines that appear one event later leave the page without height meanwhile.
        self._column.activate()
        self._find_again(open_keys)
        # Only now, when the keyboard has left them: a hidden line hands it on to the next.
        clear_layout(gone)
        tab_in_reading_order(self)

    def say(self, words: str, role: str) -> None:
        """Say something of the whole list, above it; "" for nothing."""
        self.said.say(words, role, can_go_back=False)
        self._told = None
        self._set_said()

    def say_recorded(self, words: str) -> None:
        """Say in place of the line that was ticked off what was recorded, and offer to undo it."""
        self.said.say(words, "good", can_go_back=True)
        self._told = self._ticked
        self._set_said()
        bring_into_sight(self.said)

    def _keys_at(self, place: int) -> tuple[str, ...]:
        return self._rows[place].due.keys if place < len(self._rows) else ()

    def _set_said(self) -> None:
        """Above the line that followed the one ticked off; at the foot where that was the last."""
        self._column.removeWidget(self.said)
        at = 0
        if self._told is not None:
            place = self._following(self._told)
            held = self._rows[place : place + 1]
            at = self._column.indexOf(held[0]) if held else self._column.count()
        self._column.insertWidget(at, self.said)

    def _following(self, ticked: _Ticked) -> int:
        """Where the line after a ticked one stands now; where that was, if it is gone too."""
        return self._place_of(ticked.next_keys, ticked.place)

    def _place_of(self, keys: Sequence[str], otherwise: int) -> int:
        places = (n for n, row in enumerate(self._rows) if keys and row.due.keys == tuple(keys))
        return next(places, otherwise)

    def _take_out(self) -> QVBoxLayout:
        """The lines as they stand, out of the list's layout but still seen and with the focus."""
        for each in (self._form, self._spots, self.said):
            self._column.removeWidget(each)
        self._spots.hide()
        gone = QVBoxLayout()
        while (item := self._column.takeAt(0)) is not None:
            gone.addItem(item)
        self._rows = []
        return gone

    def _add(self, due: Due) -> None:
        tasks = self._of(due)
        row = DueRow(due, self._on, _workings(tasks), len(self._rows), self)
        row.offer_done(offered=bool(tasks) and all(map(can_be_done, tasks)))
        place = len(self._rows)
        row.chosen.connect(lambda: self._open(due.keys))
        row.done_asked.connect(lambda: self._tick_off(place))
        row.stepped.connect(lambda step: self._step(place, step))
        self._rows.append(row)
        self._column.addWidget(row)
        row.show()

    def _open(self, keys: Sequence[str]) -> None:
        """Why it is due stands below one line: that of these keys, else the first."""
        at = next((row for row in self._rows if row.due.keys == tuple(keys)), None)
        opened = at or next(iter(self._rows), None)
        self._opened_keys = () if at is None else at.due.keys
        for row in self._rows:
            row.open_up(opened=row is opened)

    def _find_again(self, open_keys: Sequence[str]) -> None:
        """Set the form below its line again, or give the keyboard back to where it was."""
        row = next((each for each in self._rows if each.due.keys == tuple(open_keys)), None)
        if open_keys and row is not None:
            self._column.insertWidget(self._column.indexOf(row) + 1, self._form)
            return
        if self._place is not None and self._rows:
            self._light(min(self._place_of(self._lit_keys, self._place), len(self._rows) - 1))
        self._form.hide()
        self._place, self._lit_keys = None, ()

    def _of(self, due: Due) -> tuple[Task, ...]:
        return tuple(self._tasks[key] for key in due.keys if key in self._tasks)

    def _tick_off(self, place: int) -> None:
        """Open the form below a line, or lead to where its plug or checklist is entered."""
        row = self._rows[place]
        tasks = self._of(row.due)
        if not tasks:
            return
        self._close_below()
        self._open(row.due.keys)
        if row.due.kind == "plug":
            self._ask_spot(row, tasks)
        elif row.due.kind == "check":
            self.checklist_asked.emit(tasks[0].care_kind)
        else:
            self._column.insertWidget(self._column.indexOf(row) + 1, self._form)
            self._form.open(tasks, min(self._on, self._book.today))
            self._place = place
            self._ticked = _Ticked(place, self._keys_at(place + 1))
        tab_in_reading_order(self)

    def _ask_spot(self, row: DueRow, tasks: Sequence[Task]) -> None:
        """On to the spot; where several are due, which of them is asked first."""
        if len(tasks) == 1:
            self.spot_asked.emit(tasks[0].spot_id)
            return
        self._column.insertWidget(self._column.indexOf(row) + 1, self._spots)
        self._spots.open([(task.spot_id, task.spot) for task in tasks])
        self._place = self._rows.index(row)

    def _spot_picked(self, spot_id: str) -> None:
        self._close_below()
        self.spot_asked.emit(spot_id)

    def _close_below(self) -> None:
        for each in (self._form, self._spots):
            each.hide()
            self._column.removeWidget(each)

    def _kept(self, finished: object) -> None:
        # The line takes the keyboard first: a form that goes would hand it to any next control.
        if self._ticked is not None and self._rows:
            self._light(min(self._following(self._ticked), len(self._rows) - 1))
        self._close_below()
        self.kept.emit(finished)

    def _give_up(self) -> None:
        place, self._place = self._place, None
        self._light(place)
        self._close_below()

    def _step(self, place: int, step: int) -> None:
        self._light(min(max(place + step, 0), len(self._rows) - 1))

    def _light(self, place: int | None) -> None:
        if place is not None and place < len(self._rows):
            self._rows[place].setFocus(Qt.FocusReason.TabFocusReason)


def _workings(tasks: Sequence[Task]) -> tuple[Working, ...]:
    """How tasks came about, each working once."""
    return tuple(dict.fromkeys(each for task in tasks for each in task.workings))


class _SpotChoice(QWidget):
    """The spots that are due a plug together: one is chosen to begin with, Esc gives up."""

    picked = Signal(str)
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "season_spots", tr("Which spot’s plug"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(DOT_PX, 2, 6, 8)
        self._grid.setHorizontalSpacing(16)

    def open(self, spots: Sequence[tuple[str, str]]) -> None:
        """Offer these spots, by id and name."""
        clear_layout(self._grid)
        self._grid.addWidget(Caption(tr("Which spot first?"), self), 0, 0, 1, SPOTS_IN_A_ROW)
        links = [self._link(number, *each) for number, each in enumerate(spots)]
        for number, link in enumerate(links):
            self._grid.addWidget(
                link,
                1 + number // SPOTS_IN_A_ROW,
                number % SPOTS_IN_A_ROW,
                Qt.AlignmentFlag.AlignLeft,
            )
        self.show()
        links[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc gives up; Enter takes the spot that has the keyboard."""
        focus = self.focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif event.key() in _ENTER and isinstance(focus, LinkButton):
            focus.click()
        else:
            super().keyPressEvent(event)

    def _link(self, number: int, spot_id: str, name: str) -> LinkButton:
        link = LinkButton(name, f"season_spot_{number}", self)
        link.setAccessibleName(tr("Enter the plug of {name}", name=name))
        link.clicked.connect(lambda: self.picked.emit(spot_id))
        return link
