"""Checklists, on the season page: spring start-up and winter blow-out, ticked and dated."""

from datetime import date

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.season_checklist_row import StepRow
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.settings import Settings
from lawnbook.desk.widgets import Aside, Caption, Heading, LinkButton, Words
from lawnbook.plan.checklist_model import Checklist, Step
from lawnbook.plan.checklists import (
    CHECKLISTS,
    checklist_of,
    last_season_day,
    tick,
    untick,
    with_tick,
)
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check_all
from lawnbook.yard.notebook import Change, apply, as_of
from lawnbook.yard.problems import OwnerError, asked, refused
from lawnbook.yard.records import ChecklistName

CHECKLIST_NAMES: dict[str, ChecklistName] = {
    "Spring start-up": CHECKLISTS[0],
    "Winter blow-out": CHECKLISTS[1],
}

AT_ONCE, SLICE = 10, 4
"""So many steps are shown at once, which fills a window; the rest so many between two events."""


class ChecklistsSection(PageSection):
    """One list of one season: its note, its steps, and the season before it."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        self._on = book.today
        self._name: ChecklistName | None = None
        self._before = self._all_the_same = False
        self._list: Checklist | None = None
        self._rows: list[StepRow] = []
        self._shown: tuple[Step, ...] = ()
        self._filled = 0
        self._rest = QTimer(self, singleShot=True)
        self._rest.timeout.connect(self._fill_more)
        self.lists = SectionRow(tuple(CHECKLIST_NAMES), "checklist", tr("Checklists"))
        self._heading = Heading("", self)
        self._heading.setObjectName("checklist_heading")
        self._count = Caption("", self)
        self._count.setObjectName("checklist_count")
        self.before_button = LinkButton("", "checklist_before", self)
        self._note = Aside("", self)
        self._note.words.setObjectName("checklist_note")
        self.show_button = LinkButton(tr("Show its steps all the same"), "checklist_show", self)
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName("checklist_trouble")
        self._steps = QVBoxLayout()
        self._steps.setSpacing(4)
        self._lay_out()
        self.lists.turned.connect(self._turn_to)
        self.before_button.clicked.connect(self._turn_season)
        self.show_button.clicked.connect(self._show_all_the_same)

    def show_plan(self, plan: Plan) -> None:
        """Show the list as it stands on the plan's day."""
        self._on = plan.on
        if self._name is None:
            self._name = self._first(plan.on)
            self.lists.turn_to(
                next(each for each, name in CHECKLIST_NAMES.items() if name == self._name)
            )
        self._show()

    def turn_to(self, part: str) -> None:
        """Show this season's list by its name, whatever the time of year, the keyboard on it."""
        label = next(each for each, name in CHECKLIST_NAMES.items() if name == part)
        if self._before or self._name != CHECKLIST_NAMES[label]:
            self.lists.turn_to(label)
            self._turn_to(label)
        first = next((n for n, step in enumerate(self._shown) if not step.is_done), None)
        if first is not None:
            while self._filled <= first:
                self._fill_more()
            self._rows[first].box.setFocus(Qt.FocusReason.TabFocusReason)

    def _first(self, on: date) -> ChecklistName:
        """The list whose time is nearer: the blow-out in autumn, else the start-up."""
        latitude = self._book.notebook.yard.latitude_deg or 0.0
        month = on.month if latitude >= 0 else (on.month + 5) % 12 + 1
        return CHECKLISTS[1] if month >= 8 or month == 1 else CHECKLISTS[0]

    def _show(self) -> None:
        if self._name is None:
            return
        notebook = as_of(self._book.notebook, self._on)
        shown = checklist_of(notebook, self._name, self._on)
        if self._before:
            shown = checklist_of(notebook, self._name, last_season_day(shown))
        self._list = shown
        words = shown.season.words
        self._heading.setText(f"{words[:1].upper()}{words[1:]}")
        open_ = shown.needed or self._all_the_same or shown.done > 0
        self._count.setText(
            tr("{done} of {count} done", done=shown.done, count=len(shown.steps)) if open_ else ""
        )
        self.before_button.setText(
            tr("This season’s list") if self._before else tr("The season before")
        )
        self.before_button.setAccessibleName(self.before_button.text())
        self.before_button.setVisible(bool(shown.steps))
        self._note.say(shown.note)
        self.show_button.setVisible(bool(shown.steps) and not open_)
        self._fill(shown.steps if open_ else ())

    def _fill(self, steps: tuple[Step, ...]) -> None:
        for row in self._rows[len(steps) :]:
            row.hide()
        self._shown, self._filled = steps, 0
        self._fill_more(AT_ONCE)

    def _fill_more(self, count: int = SLICE) -> None:
        """Show some more of the steps; those of a big yard are many, and come a few at a time."""
        steps, first = self._shown, self._filled
        self._filled = min(first + count, len(steps))
        for number in range(first, self._filled):
            row = self._row(number)
            above = steps[number - 1] if number else steps[0]
            told = number > 0 and not above.is_done and above.why == steps[number].why
            row.show_step(self._book.notebook, steps[number], self._day(), told=told)
            row.show()
        if self._filled < len(steps):
            self._rest.start(0)
        else:
            self._rest.stop()
            tab_in_reading_order(self)

    def _row(self, number: int) -> StepRow:
        """The row of a step by its place, made when it is first needed."""
        if number == len(self._rows):
            row = StepRow(f"checklist_step_{number}", self._book.today, self)
            row.ticked.connect(lambda on, row=row: self._ticked(row, on))
            row.kept.connect(lambda row=row: self._keep(row))
            row.led.connect(self.asked)
            self._rows.append(row)
            self._steps.addWidget(row)
        return self._rows[number]

    def _ticked(self, row: StepRow, on: bool) -> None:
        """The box was set or cleared by the owner's hand."""
        if row.step is None:
            return
        # A step that was ticked for a later day than the one looked at has one tick all the same.
        step = with_tick(self._book.notebook, row.step)
        try:
            if on:
                self._edit(row, self._tick_moved(step), tr("tick of"))
            else:
                self._edit(row, untick(self._book.notebook, step), tr("take back the tick of"))
        except OwnerError as problem:
            self._trouble.say(str(problem))
        # A box that stands for what the notebook shows by itself, or was refused, is set anew.
        self._show()

    def _tick_moved(self, step: Step) -> Change:
        """The tick of a step for the day looked at; of one ticked before, with what was found."""
        notebook, held = self._book.notebook, step.tick
        care = notebook.care.get(held.care or "") if held is not None else None
        if held is None or care is None:
            return tick(notebook, step, self._day(), "" if held is None else held.found)
        return tick(notebook, step, self._day(), held.found, care.kind, care.cost)

    def _day(self) -> date:
        """Today, or the day that the book is looked at where that has passed."""
        return min(self._on, self._book.today)

    def _keep(self, row: StepRow) -> None:
        """Keep what the fields of a step say: its tick, and the care entry of what was found."""
        fields = row.fields
        if row.step is None or fields is None:
            return
        step = with_tick(self._book.notebook, row.step)
        try:
            on, found, kind, cost = fields.read()
            change = tick(self._book.notebook, step, on, found, kind, cost)
            self._refuse(change)
            self._edit(row, change, tr("tick of"))
        except OwnerError as problem:
            fields.say(str(problem))
            return
        row.close_fields()

    def _refuse(self, change: Change) -> None:
        """Raise what the rules refuse or doubt of a tick and its care entry."""
        after = apply(self._book.notebook, change)
        records = [record for _, record in change.values() if record is not None]
        problems = check_all(records, after, self._book.today)
        said = [each.sentence for each in (*refused(problems), *asked(problems))]
        if said:
            raise OwnerError(" ".join(dict.fromkeys(said)))

    def _edit(self, row: StepRow, change: Change, verb: str) -> None:
        step = row.step
        what = f"{step.zone}, {step.key}" if step is not None and step.zone else ""
        name = what or (step.key if step is not None else "")
        self._trouble.say("")
        self._book.edit(change, f"{verb} {name}")

    def _turn_to(self, name: str) -> None:
        self._name, self._before, self._all_the_same = CHECKLIST_NAMES[name], False, False
        self._close_rows()
        self._show()

    def _turn_season(self) -> None:
        self._before = not self._before
        self._close_rows()
        self._show()

    def _show_all_the_same(self) -> None:
        self._all_the_same = True
        self._show()

    def _close_rows(self) -> None:
        self._trouble.say("")
        for row in self._rows:
            # What comes a little later stands hidden until then, not as a step of the other list.
            row.hide()
            if row.fields is not None:
                row.fields.hide()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(10)
        head.addWidget(self._heading)
        head.addWidget(self._count, 1)
        head.addWidget(self.before_button)
        show = QHBoxLayout()
        show.addWidget(self.show_button)
        show.addStretch(1)
        self.body.addWidget(self.lists)
        self.body.addLayout(head)
        self.body.addWidget(self._note)
        self.body.addLayout(show)
        self.body.addWidget(self._trouble)
        self.body.addLayout(self._steps)
