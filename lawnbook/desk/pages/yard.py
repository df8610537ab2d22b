"""The yard page: what is due, the yard's own facts, its climate and weather, and the cautions."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.dialogs import choose_weather
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.climate_table import ClimateTable
from lawnbook.desk.pages.due_list import DueList, StepList, first_steps
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.page import stack_page
from lawnbook.desk.widgets import (
    Caption,
    Card,
    PageScroll,
    PageTitle,
    QuietButton,
    Words,
)
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import WeatherDay

YARD_FIELDS = (
    "name",
    "latitude_deg",
    "elevation_ft",
    "irrigation_season",
    "target_depth_in",
    "north_deg",
    "water_source",
    "water_price_per_kgal",
    "max_gpm",
)
COLUMNS = "A table with a line for each day; the first line names its columns: date,tmin_f,tmax_f,\
rain_in and, where you have them, tdew_f, wind_mph, solar_mj_m2, reported_eto_in."
CLIMATE = "Used where the notebook has no weather of its own for a month."
MONTHS_OF_A_YEAR = 12
RULES = "Days and hours on which watering is allowed, such as 18:00-08:00; leave empty if any are."


class YardPage(QWidget):
    """What is due on top; settings below, kept field by field. `selected` tells a due zone.

    A new notebook begins with its first steps; `asked` tells a page or a tool that one needs.
    """

    selected = Signal(str, str)
    asked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("yard_page")
        self._book = book
        self._doubtful: tuple[WeatherDay, ...] = ()
        self._unrated = ""
        self._title = PageTitle("Yard", "", self)
        self._scroll = PageScroll(self)
        self._steps = StepList(self)
        self._first = self._card("First steps", self._steps)
        self._due = DueList(self)
        setting = FormSetting(today=book.today, prefix="yard_")
        self._facts = LiveForm(book, "yard", YARD_FIELDS, self, 3, setting)
        rules = FormSetting(today=book.today, prefix="water_rules_")
        self._rules = LiveForm(book, "water_rules", ("days", "hours"), self, 1, rules)
        self._climate = ClimateTable(book, self)
        self._weather_words = Words("", "", self)
        self._weather_words.setObjectName("weather_words")
        self._weather_said = Words("", "caption", self)
        self._weather_said.setObjectName("weather_said")
        self._read = QuietButton("Read a weather table…", "read_weather", self)
        self._keep_doubtful = QuietButton("Keep them all the same", "keep_weather", self)
        self._cautions = Card("Before you work", self, role="note")
        self._caution_words = Caption("", self, wrap=True)
        self._lay_out()
        self._listen()

    def show_plan(self, plan: Plan) -> None:
        """Show what the plan says is due, and the yard as the notebook holds it."""
        notebook = self._book.notebook
        self._title.set_subtitle(str(self._book.path.name))
        unrated = [each for each in plan.zones if each.precipitation_rate_in_per_h is None]
        self._unrated = next((each.zone_id for each in unrated or plan.zones), "")
        steps = first_steps(notebook, plan)
        self._steps.show_steps(steps)
        self._first.setVisible(bool(steps))
        self._due.show_due(plan.due, plan.on)
        self._facts.show_record("yard")
        self._rules.show_record("water_rules")
        self._climate.refresh()
        self._weather_words.setText(_weather(notebook))
        self._caution_words.setText("\n".join(f"•  {each}" for each in plan.cautions))

    def select(self, table: str, record_id: str) -> None:
        """The yard as a whole has no zone to turn to."""

    def _listen(self) -> None:
        self._steps.picked.connect(self._take_step)
        self._due.picked.connect(self._picked)
        self._read.clicked.connect(self._ask_weather)
        self._keep_doubtful.clicked.connect(self._keep_all)
        self._keep_doubtful.hide()
        self._weather_said.say("")

    def _picked(self, kind: str, zone_name: str) -> None:
        """Turn to the zone a due row is about, and to the spot where a plug is due."""
        notebook = self._book.notebook
        zone = next((each for each in notebook.zones.values() if each.name == zone_name), None)
        if kind == "plug":
            spots = list(notebook.spots.values())
            here = [each for each in spots if zone is None or each.zone == zone.id] or spots
            if here:
                self.selected.emit("spots", here[0].id)
        elif kind == "feed":
            self.selected.emit("feedings", "")
        elif zone is not None:
            self.selected.emit("zones", zone.id)

    def _take_step(self, name: str) -> None:
        """Lead to where a first step is taken."""
        notebook = self._book.notebook
        if name == "place":
            self._lead_to_place()
        elif name == "water" and self._unrated:
            self.selected.emit("zones", self._unrated)
        elif name == "plugs" and not notebook.spots:
            self.asked.emit("Plugs")
            self.asked.emit("Spot")
        else:
            leads = {"plugs": "Plugs", "product": "Feed", "sheet": "Sheet"}
            self.asked.emit(leads.get(name, "Zone"))

    def _lead_to_place(self) -> None:
        """The latitude, or the first month once that is known; in sight, with the keyboard."""
        known = self._book.notebook.yard.latitude_deg is not None
        field = self._climate.first() if known else self._facts.form.editor("latitude_deg")
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        self._scroll.ensureWidgetVisible(field, 0, 120)

    def _ask_weather(self) -> None:
        path = choose_weather(self, self._book.path.parent)
        if path is not None:
            self.read_weather(path)

    def read_weather(self, path: Path) -> None:
        """Take the days of a weather table in; doubtful values are asked about first."""
        from lawnbook.store.weather_csv import read_weather_file

        try:
            days = read_weather_file(path)
        except OwnerError as problem:
            self._say_weather(str(problem), "refuse")
            return
        doubts = _doubts(days, self._book)
        if any(each.severity == "refuse" for each in doubts):
            wrong = next(each for each in doubts if each.severity == "refuse")
            self._say_weather(f"{_with_day(wrong)} Nothing was taken in.", "refuse")
        elif doubts:
            self._doubtful = days
            more = f" ({len(doubts)} such values)" if len(doubts) > 1 else ""
            self._say_weather(f"{_with_day(doubts[0])}{more}", "ask")
            self._keep_doubtful.show()
        else:
            self._take_in(days)

    def _keep_all(self) -> None:
        self._take_in(self._doubtful)

    def _take_in(self, days: tuple[WeatherDay, ...]) -> None:
        count = f"{len(days)} day{'' if len(days) == 1 else 's'} of weather"
        try:
            self._book.edit(put(self._book.notebook, "weather", *days), count)
        except OwnerError as problem:
            self._say_weather(str(problem), "refuse")
            return
        self._say_weather(f"{count} taken in.", "good")

    def _say_weather(self, sentence: str, role: str) -> None:
        self._keep_doubtful.hide()
        self._weather_said.say(sentence, role)

    def _lay_out(self) -> None:
        body = self._scroll.body
        body.addWidget(self._first)
        body.addWidget(self._card("What is due", self._due))
        body.addWidget(self._card("The yard", self._facts))
        weather = self._card("Weather and climate", self._weather_words)
        row = QHBoxLayout()
        row.addWidget(self._read)
        row.addWidget(self._keep_doubtful)
        row.addStretch(1)
        for part in (Caption(COLUMNS, wrap=True), self._weather_said):
            weather.body.addWidget(part)
        weather.body.addLayout(row)
        weather.body.addSpacing(4)
        weather.body.addWidget(Words("Usual weather by month", "", wrap=False))
        weather.body.addWidget(self._climate)
        weather.body.addWidget(Caption(CLIMATE, wrap=True))
        body.addWidget(weather)
        rules = self._card("Local watering rule", self._rules)
        rules.body.addWidget(Caption(RULES, wrap=True))
        body.addWidget(rules)
        self._cautions.body.addWidget(self._caution_words)
        body.addWidget(self._cautions)
        body.addStretch(1)
        stack_page(self, self._title, self._scroll)

    def _card(self, heading: str, content: QWidget) -> Card:
        card = Card(heading, self)
        card.body.addWidget(content)
        return card


def _weather(notebook: Notebook) -> str:
    """What weather the notebook holds, in a sentence."""
    dates = [each.date for each in notebook.weather.values()]
    if not dates:
        return _without_weather(notebook)
    return f"{len(dates):,} days of weather, {day(min(dates))} to {day(max(dates))}."


def _without_weather(notebook: Notebook) -> str:
    """What the plan goes by without days of weather."""
    told = sum(each.eto_in_per_day is not None for each in notebook.climate.values())
    if told == MONTHS_OF_A_YEAR:
        return "No days of weather: the plan goes by the usual weather of the months below."
    if told:
        missing = MONTHS_OF_A_YEAR - told
        count = "1 month has" if missing == 1 else f"{missing} months have"
        return f"No days of weather, and {count} no usual ETo below: without it no water is told."
    return "No weather yet. With days of weather, or the months below, the plan can tell water."


def _doubts(days: tuple[WeatherDay, ...], book: OpenNotebook) -> tuple[Problem, ...]:
    """Every problem of the new days as they would stand in the notebook, and of the whole table."""
    from lawnbook.yard.check import check, table_questions

    after = apply(book.notebook, put(book.notebook, "weather", *days))
    of_days = (each for record in days for each in check(record, after, book.today))
    of_table = (each for each in table_questions(after) if each.table == "weather")
    return (*of_days, *of_table)


def _with_day(problem: Problem) -> str:
    """A problem's sentence after the day it is of, if it is of one."""
    return f"{problem.record_id}: {problem.sentence}" if problem.record_id else problem.sentence
