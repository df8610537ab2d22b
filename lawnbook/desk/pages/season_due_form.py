"""Ticking off: the day, the zones and the amounts of what was done, below its line in the list."""

from collections.abc import Mapping, Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.entry import format_day, parse_day
from lawnbook.desk.line_fields import DayField
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.season_due_amounts import ZoneAmounts
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import (
    Caption,
    Card,
    LinkButton,
    PrimaryButton,
    Words,
    bring_into_sight,
    name_control,
)
from lawnbook.plan.doing import Done, done_together
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.season_model import Task
from lawnbook.plan.spread import check_spread
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check_all
from lawnbook.yard.notebook import apply
from lawnbook.yard.problems import OwnerError, asked, refused

DATE_PX = 128
RECORD, RECORD_DOUBTFUL, RECORD_SPREAD = (
    tr("Record it"),
    tr("Record it all the same"),
    tr("It was spread: record it"),
)
MORE_THAN_FITS = tr("Record it only if it is already down.")


class DoneForm(Card):
    """A small form without a window of its own: Enter records, Esc gives up.

    `kept` carries the `Done` that is in the notebook now. A feeding is checked as before spreading:
    where it does not pass, that is said first, and recorded on the second Enter.
    """

    kept = Signal(object)
    given_up = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        name_control(self, "season_done", tr("Record as done"))
        self._book = book
        self._tasks: tuple[Task, ...] = ()
        self._confirmed = ""
        self._day = DayField(book.today, self)
        sized(self._day, width=DATE_PX)
        name_control(self._day, "season_done_date", tr("Done on"))
        self._zones = ZoneAmounts(self)
        self._verdict = Words("", "ask", self)
        self._verdict.setObjectName("season_done_verdict")
        self._note = Words("", "refuse", self)
        self._note.setObjectName("season_done_note")
        self._leave = LinkButton(tr("Leave it"), "season_done_leave", self)
        self._record = PrimaryButton(RECORD, "season_done_record", self)
        self._lay_out()
        self._day.textEdited.connect(lambda _: self._edited())
        self._zones.edited.connect(self._edited)
        self._leave.clicked.connect(self.given_up)
        self._record.clicked.connect(self.keep)

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the tasks that are ticked off here."""
        return tuple(task.key for task in self._tasks)

    def open(self, tasks: Sequence[Task], on: date) -> None:
        """Begin with these tasks, of one kind, done on a day that is still to be confirmed."""
        self._tasks = tuple(tasks)
        self._day.setText(format_day(on))
        self._zones.show_tasks(tasks)
        tab_in_reading_order(self)
        self._edited()
        self._examine()
        self.show()
        first = self._zones.first() if len(self._tasks) == 1 else None
        (first or self._day).setFocus(Qt.FocusReason.OtherFocusReason)
        (first or self._day).selectAll()
        bring_into_sight(self)

    def keep(self) -> None:
        """Record what is entered; what is doubtful only when asked a second time."""
        self._zones.mark_refused()
        try:
            finished, on, amounts = self._finished()
            doubts, words = self._doubts(finished, on, amounts)
            if doubts and self._confirmed != doubts:
                self._ask(doubts, words)
                return
            self._book.edit(finished.change, finished.label)
        except OwnerError as problem:
            self._say_note(str(problem), "refuse")
            return
        self.kept.emit(finished)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter records and Esc gives up, but on a link Enter does what the link says."""
        key = event.key()
        if key == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self._leave.hasFocus():
                self.given_up.emit()
            elif not self._zones.press_link():
                self.keep()
        else:
            super().keyPressEvent(event)

    def _finished(self) -> tuple[Done, date, Mapping[str, float]]:
        on = parse_day(self._day.text(), self._book.today)
        amounts = self._zones.amounts()
        finished = done_together(self._book.notebook, self._zones.ticked(), on, amounts)
        return finished, on, amounts

    def _doubts(self, finished: Done, on: date, amounts: Mapping[str, float]) -> tuple[str, str]:
        """What to ask before recording, and the button's words then; OwnerError for a refusal."""
        notebook = apply(self._book.notebook, finished.change)
        records = [record for _, record in finished.records]
        problems = check_all(records, notebook, self._book.today)
        wrong = refused(problems)
        if wrong:
            raise OwnerError(" ".join(each.sentence for each in wrong))
        doubts = [each.sentence for each in asked(problems)]
        beyond = [each for each in self._checks(on, amounts) if not each.within]
        if beyond:
            said = [f"{each.verdict} {MORE_THAN_FITS}" for each in beyond]
            return " ".join((*said, *doubts)), RECORD_SPREAD
        return " ".join(doubts), RECORD_DOUBTFUL

    def _checks(self, on: date, amounts: Mapping[str, float]) -> list[SpreadCheck]:
        """The check before spreading of each product; none for what is no feeding."""
        pounds: dict[str, dict[str, float]] = {}
        for task in self._zones.ticked():
            if task.kind == "feed" and task.product_id and amounts.get(task.key, 0.0) > 0:
                pounds.setdefault(task.product_id, {})[task.zone_id] = amounts[task.key]
        return [
            check_spread(self._book.notebook, product_id, shares, on)
            for product_id, shares in pounds.items()
        ]

    def _examine(self) -> None:
        """Say what the check before spreading says of the amounts as they are proposed."""
        try:
            _, on, amounts = self._finished()
            checks = self._checks(on, amounts)
        except OwnerError as problem:
            self._note.say(str(problem), "ask")
            return
        said = [f"{each.verdict} {' '.join(each.cautions)}".strip() for each in checks]
        self._verdict.say(" ".join(said), "caption" if all(c.within for c in checks) else "ask")

    def _ask(self, doubts: str, words: str) -> None:
        self._confirmed = doubts
        self._verdict.say("")
        self._say_note(doubts, "ask")
        self._say_button(words)

    def _edited(self) -> None:
        """Another amount or day is another question."""
        self._confirmed = ""
        self._zones.mark_refused()
        self._verdict.say("")
        self._note.say("")
        self._say_button(RECORD)

    def _say_note(self, words: str, role: str) -> None:
        """Say why nothing is recorded yet, in sight: the form may end below the page."""
        self._note.say(words, role)
        bring_into_sight(self._note)

    def _say_button(self, words: str) -> None:
        self._record.setText(words)
        self._record.setAccessibleName(words)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(10)
        label = Caption(tr("Done on"), self)
        label.setBuddy(self._day)
        row.addWidget(label)
        row.addWidget(self._day)
        row.addStretch(1)
        self.body.addLayout(row)
        self.body.addWidget(self._zones)
        # What is said comes below the buttons, which stand still meanwhile.
        buttons = QHBoxLayout()
        buttons.setSpacing(12)
        buttons.addWidget(self._record)
        buttons.addWidget(self._leave)
        buttons.addStretch(1)
        self.body.addLayout(buttons)
        for each in (self._verdict, self._note):
            self.body.addWidget(each)
