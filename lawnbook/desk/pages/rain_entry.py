"""The owner's rain gauge: a day and its rain, kept on Enter, and the latest readings."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.forms import FormSetting, RecordForm
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.roles import hear_as
from lawnbook.desk.telling import either, follow
from lawnbook.desk.widgets import Caption, LinkButton, QuietButton, Words, name_control
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.edits import rain_noted
from lawnbook.yard.notebook import apply
from lawnbook.yard.numbers import day, inches
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import Record, WeatherDay

MOST_ROWS = 5
LISTED = 60
HELP = tr(
    "Inches such as 0.4 or 3/8, or millimetres such as 9 mm. It goes before a station's rain."
)
HELP_METRIC = tr("Millimetres such as 9. It goes before a station's rain.")
EMPTY = tr("No gauge read yet. Rain noted here moves the next watering.")
MISSING = tr("Rain in the gauge is missing; enter it, 0 for none.")


class RainEntry(QWidget):
    """A day and the rain in the gauge; a reading of the same day is replaced, Delete takes it out.

    Each is one Change that can be undone. Call `refresh` after every change of the notebook.
    """

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Grouping")
        name_control(self, "rain_entry", tr("Rain in the gauge"))
        self._book = book
        self.form = RecordForm(
            WeatherDay,
            ("date", "gauge_in"),
            self._check,
            self,
            2,
            FormSetting(today=book.today, prefix="rain_"),
        )
        self._said = Words("", "caption", self)
        self._said.setObjectName("rain_said")
        self.keep_button = QuietButton(tr("Keep rain"), "rain_keep", self)
        self._empty = Caption(EMPTY, self, wrap=True)
        self._empty.setObjectName("rain_empty")
        self.table = RecordTable(
            (tr("Day"), tr("In the gauge"), tr("At the station")),
            ("rain_list", tr("Rain gauge readings kept")),
            (0,),
            MOST_ROWS,
            self,
        )
        self.table.explain(self._workings)
        self.remove_button = LinkButton(tr("Take it out"), "rain_remove", self)
        self._lay_out()
        self.form.entered.connect(self._keep)
        self.form.changed.connect(lambda: self._said.say(""))
        self.keep_button.clicked.connect(self._keep)
        self.table.opened.connect(self._open)
        self.table.removal_asked.connect(self._remove)
        self.table.picked.connect(lambda _: self._show_button())
        self.remove_button.clicked.connect(lambda: self._remove(self.table.picked_id()))
        self.clear()
        self.refresh()

    def clear(self) -> None:
        """An empty form for today's rain."""
        self.form.load(None, date=self._book.today)

    def retell(self) -> None:
        """The readings in the owner's unit."""
        self.refresh()

    def refresh(self) -> None:
        """Show the readings the notebook holds; what is typed stays."""
        rows = self._rows()
        self.table.show_rows(rows)
        self.table.setVisible(bool(rows))
        self._empty.setVisible(not rows)
        self._show_button()

    def _rows(self) -> Sequence[Row]:
        read = [each for each in self._book.notebook.weather.values() if each.gauge_in is not None]
        read.sort(key=lambda each: each.date, reverse=True)
        return [_row(each) for each in read[:LISTED]]

    def _workings(self, record_id: str) -> Sequence[Working]:
        """How the rain of a day came about."""
        from lawnbook.plan.watering_workings import rain_workings_of

        return rain_workings_of(self._book.notebook.weather.get(record_id))

    def _check(self, record: Record) -> tuple[Problem, ...]:
        """What is wrong with a reading as it would stand beside that day's other weather."""
        if not isinstance(record, WeatherDay):
            raise TypeError(f"{type(record).__name__} is no day of weather")
        if record.gauge_in is None:
            return (Problem("weather", record.id, "gauge_in", "refuse", MISSING),)
        notebook = self._book.notebook
        after = apply(notebook, rain_noted(notebook, record.date, record.gauge_in))
        return check(after.weather[record.date.isoformat()], after, self._book.today)

    def _keep(self) -> None:
        try:
            record = self.form.record()
        except OwnerError:
            # Said by the form already, under the fields it is about.
            return
        if isinstance(record, WeatherDay):
            change = rain_noted(self._book.notebook, record.date, record.gauge_in)
            try:
                self._book.edit(change, tr("rain of {date}", date=day(record.date)))
            except OwnerError as problem:
                self._said.say(str(problem), "refuse")
                return
            self.clear()
            self.form.focus("gauge_in")
            self._said.say(
                tr(
                    "{gauge_in} on {date} noted.",
                    gauge_in=inches(record.gauge_in or 0.0),
                    date=day(record.date),
                ),
                "good",
            )

    def _open(self, record_id: str) -> None:
        """Bring a reading back into the form; kept again, it replaces itself."""
        held = self._book.notebook.weather.get(record_id)
        if held is not None:
            self.form.load(None, date=held.date, gauge_in=held.gauge_in)
            self.form.focus("gauge_in")

    def _remove(self, record_id: str) -> None:
        held = self._book.notebook.weather.get(record_id)
        if held is None:
            return
        try:
            change = rain_noted(self._book.notebook, held.date, None)
            self._book.edit(change, tr("take out rain of {date}", date=day(held.date)))
        except OwnerError as problem:
            self._said.say(str(problem), "refuse")

    def _show_button(self) -> None:
        self.remove_button.setVisible(bool(self.table.picked_id()))

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.form)
        row = QHBoxLayout()
        helping = Caption("", self, wrap=True)
        follow(helping, lambda: either(tr(HELP), tr(HELP_METRIC)))
        row.addWidget(helping, 1, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.keep_button, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(row)
        for part in (self._said, self._empty, self.table):
            column.addWidget(part)
        below = QHBoxLayout()
        below.addStretch(1)
        below.addWidget(self.remove_button)
        column.addLayout(below)
        column.addStretch(1)
        self._said.say("")


def _row(read: WeatherDay) -> Row:
    station = "–" if read.rain_in is None else inches(read.rain_in)
    cells = (day(read.date), inches(read.gauge_in or 0.0), station)
    return Row(read.id, cells, tr("{day}: {rain} in the gauge", day=cells[0], rain=cells[1]))
