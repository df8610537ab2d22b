"""The year at one look, on the season page: bands, marks, and what is due."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.season_due import SeasonDue
from lawnbook.desk.pages.season_due_missing import MissingRows
from lawnbook.desk.pages.season_due_words import CAUTION, NOTHING, missing
from lawnbook.desk.pages.season_year_picture import YearPicture
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_line import CALLED_OFF, WaitLine
from lawnbook.desk.widgets import (
    Caption,
    Heading,
    QuietButton,
)
from lawnbook.plan.doing import Done, recorded_words
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day

IN_LOG = frozenset({"waterings", "care", "soil_tests", "ticks"})
"""Records that no page of their own shows: they are looked up in the log."""


class YearSection(PageSection):
    """The picture of the year over the list of what is due."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        self._plan: Plan | None = None
        self._kept: Done | None = None
        self.picture = YearPicture(book, self)
        self.due = SeasonDue(book, self)
        self._seen_from = Caption("", self)
        self._seen_from.setObjectName("season_due_on")
        self._calendar = QuietButton(tr("Save as calendar…"), "season_calendar", self)
        self._calendar.setToolTip(
            tr("What is due and planned, for a calendar on a phone or computer")
        )
        self._nothing = Caption(NOTHING, self)
        self._nothing.setObjectName("season_nothing")
        self._writing = WaitLine("season_writing", self)
        self._missing = MissingRows(self)
        self._caution = Caption(CAUTION, self, wrap=True)
        self._lay_out()
        self._listen()
        self._say("")

    def show_plan(self, plan: Plan) -> None:
        """Show the year of the plan's day, and what is due then."""
        self._plan = plan
        self._seen_from.say(tr("seen from {on}", on=day(plan.on)))
        self.picture.show_plan(plan)
        self.due.show_plan(plan)
        self._nothing.setVisible(not plan.due)
        self._caution.setVisible(bool(plan.due))
        self._missing.show_rows(missing(self._book.notebook, plan))
        if self._kept is not None and self._book.undo_label != self._kept.label:
            self._say("")
        tab_in_reading_order(self)

    def select(self, table: str, record_id: str) -> None:
        """Ring the mark of a record that was selected elsewhere."""
        self.picture.ring(table, record_id)

    def take_back(self) -> None:
        """Undo what was ticked off last, while it is the latest edit of the book."""
        if self._kept is not None and self._book.undo_label == self._kept.label:
            self._say("")
            self._book.undo()

    def ask_calendar(self) -> None:
        """Ask where to, and write what is due and planned as a calendar."""
        if self._plan is None:
            return
        from lawnbook.desk.calendar_out import put_calendar

        put_calendar(
            self._writing,
            self._book,
            self._plan,
            lambda said: self._say(said.words, said.role),
        )

    def _recorded(self, finished: object) -> None:
        if isinstance(finished, Done):
            self._kept = finished
            self.due.say_recorded(recorded_words(self._book.notebook, finished))
            tab_in_reading_order(self)

    def _say(self, words: str, role: str = "good") -> None:
        """Say what became of the last step; what was ticked off before can no longer be meant."""
        self._kept = None
        self.due.say(words, role)

    def _open_record(self, table: str, record_id: str) -> None:
        """On to a record: on its own page, or in the log where it has none."""
        self.selected.emit(table, record_id)
        if table in IN_LOG:
            self.asked.emit("Log")

    def _listen(self) -> None:
        self.picture.chart.begun.connect(lambda: tab_in_reading_order(self))
        self.picture.picked.connect(self._open_record)
        self.due.kept.connect(self._recorded)
        self.due.spot_asked.connect(self.plug_asked)
        self.due.checklist_asked.connect(
            lambda name: self.asked.emit(tr("Checklists: {name}", name=name))
        )
        self._missing.asked.connect(self.asked)
        self.due.said.back_asked.connect(self.take_back)
        self._calendar.clicked.connect(self.ask_calendar)
        self._writing.cancelled.connect(lambda: self._say(CALLED_OFF, "caption"))

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(10)
        head.addWidget(Heading(tr("Due"), self), 0, Qt.AlignmentFlag.AlignVCenter)
        head.addWidget(self._seen_from, 0, Qt.AlignmentFlag.AlignVCenter)
        head.addStretch(1)
        head.addWidget(self._calendar)
        self.body.addWidget(self.picture)
        self.body.addLayout(head)
        self.body.addWidget(self._writing)
        for each in (self.due, self._nothing, self._missing, self._caution):
            self.body.addWidget(each)
