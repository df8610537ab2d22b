"""One step of a checklist: a tick, what to do and why, its day, and what was found."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk import entry
from lawnbook.desk.line_fields import DayField
from lawnbook.desk.pages.tool_fields import FieldGrid
from lawnbook.desk.roles import check_quietly
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import (
    Caption,
    LinkButton,
    QuietButton,
    TextField,
    Words,
    mark_role,
    name_control,
)
from lawnbook.plan.checklist_model import Step
from lawnbook.plan.checklists import FOUND_KIND, with_tick
from lawnbook.reading import tr
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.problems import OwnerError

BOX_PX, LINE_PX, TICK_PX = 24, 19, 32
FOUND_TOLD = tr("What was found becomes an entry of care, with its kind and cost.")


class StepWordsLine(Words):
    """The words of a step; a click on them ticks it as a click on the box does."""

    pressed = Signal()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Tell a click."""
        super().mouseReleaseEvent(event)
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.pos()):
            self.pressed.emit()


class FoundFields(QWidget):
    """Day, what was found, and of the care entry its kind and cost. `entered` is Enter or Keep."""

    entered = Signal()
    given_up = Signal()

    def __init__(self, stem: str, today: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self.day = DayField(today, self)
        self.found, self.kind, self.cost = TextField(self), TextField(self), TextField(self)
        fields = (
            (tr("Day"), self.day, "day", 2),
            (tr("What was found, if anything"), self.found, "found", 4),
            (tr("Kind of care"), self.kind, "kind", 2),
            (tr("Cost"), self.cost, "cost", 2),
        )
        grid = FieldGrid(6)
        for label, field, name, span in fields:
            name_control(field, f"{stem}_{name}", label)
            grid.add(label, field, span)
        self.kind.setPlaceholderText(FOUND_KIND)
        self._keep = QuietButton(tr("Keep"), f"{stem}_keep", self)
        self._said = Words("", "refuse", self)
        self._said.setObjectName(f"{stem}_trouble")
        self._source = Caption("", self, wrap=True)
        self._source.setObjectName(f"{stem}_source")
        row = QHBoxLayout()
        row.addWidget(Caption(FOUND_TOLD, self, wrap=True), 1)
        row.addWidget(self._keep)
        column = QVBoxLayout(self)
        column.setContentsMargins(TICK_PX, 2, 0, 8)
        column.setSpacing(6)
        column.addWidget(self._source)
        column.addLayout(grid)
        column.addWidget(self._said)
        column.addLayout(row)
        self._keep.clicked.connect(self.entered)

    def load(self, notebook: Notebook, step: Step, on: date) -> None:
        """Show what is on record of a step; of an open one the day that is looked at."""
        tick = step.tick
        care = notebook.care.get(tick.care or "") if tick is not None else None
        self.day.setText(entry.format_day(on if tick is None else tick.date))
        self.found.setText("" if tick is None else tick.found)
        self.kind.setText("" if care is None else care.kind)
        self.cost.setText("" if care is None or care.cost is None else plain(care.cost))
        self._source.setText(tr("Source: {source}", source=step.source))
        self._said.say("")

    def read(self) -> tuple[date, str, str, float | None]:
        """Day, found, kind and cost as typed. Raises OwnerError with the mend."""
        on = entry.parse_day(self.day.text(), self._today)
        typed, told = self.cost.text().strip(), self.found.text().strip()
        cost = parse_measure(typed, tr("Cost"), "") if typed else None
        kind = self.kind.text().strip()
        if (typed or kind) and not told:
            raise OwnerError(tr("What was found: say it, since kind and cost belong to it."))
        return on, told, kind or FOUND_KIND, cost

    def say(self, trouble: str) -> None:
        """Say what cannot be kept, and why."""
        self._said.say(trouble)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter keeps, Esc gives up."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        else:
            super().keyPressEvent(event)


class StepRow(QWidget):
    """A step. `ticked` tells whether the box was set, `kept` that the fields are to be kept.

    `led` names the tool that helps with it.
    """

    ticked = Signal(bool)
    kept = Signal()
    led = Signal(str)

    def __init__(self, stem: str, today: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._stem, self._today, self._on = stem, today, today
        self.step: Step | None = None
        self._notebook: Notebook | None = None
        self.fields: FoundFields | None = None
        self.box = QCheckBox(self)
        self._words = StepWordsLine("", "", self)
        self._why = Caption("", self, wrap=True)
        self._done = Caption("", self)
        self._done.setObjectName(f"{stem}_done")
        self.more = LinkButton("", f"{stem}_more", self)
        self._lead = LinkButton("", f"{stem}_lead", self)
        self._column = QVBoxLayout(self)
        self._lay_out()
        self.box.toggled.connect(self.ticked)
        self._words.pressed.connect(self.box.click)
        self.more.clicked.connect(self.turn)
        self._lead.clicked.connect(self._tell_lead)

    def show_step(self, notebook: Notebook, step: Step, on: date, *, told: bool = False) -> None:
        """Show a step as it stands on a day; open fields keep what is typed while it is the same.

        `told` says that the row above gives the same reason.
        """
        same = self.step == step and self._on == on
        self.step, self._notebook, self._on = step, notebook, on
        known = with_tick(notebook, step)
        said = f"{step.zone}: {step.words[:1].lower()}{step.words[1:]}" if step.zone else step.words
        name_control(self.box, f"{self._stem}_box", said, f"{step.why} {step.source}")
        self._words.setText(said)
        self._words.setToolTip(tr("Source: {source}", source=step.source))
        self._why.setText(step.why)
        self._why.setToolTip(tr("Source: {source}", source=step.source))
        check_quietly(self.box, on=step.is_done)
        mark_role(self._words, "caption" if step.is_done else "")
        self._done.say(_done_words(step, known))
        self.more.setText(tr("Change") if step.tick is not None else tr("Day, found…"))
        self.more.setAccessibleName(f"{self.more.text()}: {said}")
        self._lead.setVisible(bool(step.leads_to) and not step.is_done)
        self._lead.setText(tr("Set out cans"))
        self._lead.setAccessibleName(tr("Set out cans: {zone}", zone=step.zone))
        self._why.setVisible(not step.is_done and not told)
        if self.fields is not None and not same:
            self.fields.load(notebook, known, on)

    def turn(self) -> None:
        """Show the fields for day and what was found, or put them away."""
        if self.step is None or self._notebook is None:
            return
        if self.fields is None:
            self.fields = FoundFields(self._stem, self._today, self)
            self.fields.entered.connect(self.kept)
            self.fields.given_up.connect(self.close_fields)
            self._column.addWidget(self.fields)
            self.fields.hide()
        if self.fields.isHidden():
            known = with_tick(self._notebook, self.step)
            self.fields.load(self._notebook, known, self._on)
            self.fields.show()
            self.fields.found.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.close_fields()

    def close_fields(self) -> None:
        """Put the fields away; the keyboard goes to the link that opened them."""
        if self.fields is not None and not self.fields.isHidden():
            self.more.setFocus(Qt.FocusReason.OtherFocusReason)
            self.fields.hide()

    def _tell_lead(self) -> None:
        if self.step is not None:
            self.led.emit(self.step.leads_to)

    def _lay_out(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(1)
        words.addWidget(self._words)
        words.addWidget(self._why)
        words.addWidget(self._done)
        row = QHBoxLayout()
        row.setSpacing(8)
        # As tall as a line of words, so that the two stand level.
        sized(self.box, width=BOX_PX, height=LINE_PX)
        top = Qt.AlignmentFlag.AlignTop
        row.addWidget(self.box, 0, top)
        row.addLayout(words, 1)
        row.addWidget(self._lead, 0, top)
        row.addWidget(self.more, 0, top)
        self._column.setContentsMargins(0, 2, 0, 2)
        self._column.setSpacing(2)
        self._column.addLayout(row)


def _done_words(step: Step, known: Step) -> str:
    """When a step was done; `known` is the step as the notebook holds it, later days with it."""
    if step.tick is None and known.tick is not None:
        return tr("done {date}, after the day you look at", date=day(known.tick.date))
    if step.tick is None:
        return "" if step.seen is None else tr("done by the test of {seen}", seen=day(step.seen))
    found = tr("; found: {found}", found=step.tick.found) if step.tick.found else ""
    return tr("done {date}{found}", date=day(step.tick.date), found=found)
