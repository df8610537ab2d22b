"""What is due, the yard's own facts, its climate and weather, and the cautions."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from lawnbook.desk.entry import season_example
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.climate_table import ClimateTable
from lawnbook.desk.pages.due_list import DueList
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.weather_card import WeatherCard
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.units_choice import NAMES
from lawnbook.desk.widgets import Caption, Card
from lawnbook.plan.model import Due, Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

YARD_FIELDS = (
    "name",
    "latitude_deg",
    "longitude_deg",
    "elevation_ft",
    "time_zone",
    "units",
    "irrigation_season",
    "target_depth_in",
    "north_deg",
    "max_gpm",
    "water_source",
    "water_price_per_kgal",
    "pressure_changed_on",
    "water_ec_ds_per_m",
    "water_n_mg_per_l",
)
CLIMATE = tr("Used where the notebook has no weather of its own for a month.")
RULES = tr(
    "Days and hours on which watering is allowed, such as 18:00-08:00; leave empty if any are."
)


class OverviewSection(YardSection):
    """What is due on top; settings below, kept field by field. `selected` tells a due zone."""

    wanted = Signal(QWidget)
    """A field is to be brought into sight."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("yard_overview")
        self._book = book
        self._due = DueList(self)
        setting = FormSetting(today=book.today, prefix="yard_")
        self._facts = LiveForm(book, "yard", YARD_FIELDS, self, 3, setting)
        self._facts.form.offer("units", [(each, words.replace("&", "")) for each, words in NAMES])
        rules = FormSetting(today=book.today, prefix="water_rules_")
        self._rules = LiveForm(book, "water_rules", ("days", "hours"), self, 1, rules)
        self._climate = ClimateTable(book, self)
        self._weather = WeatherCard(book, self)
        self._cautions = Card(tr("Before you work"), self, role="note")
        self._caution_words = Caption("", self, wrap=True)
        self._lay_out()
        self._listen()

    def show_plan(self, plan: Plan) -> None:
        """Show what the plan says is due, and the yard as the notebook holds it."""
        self._due.show_due(plan.due, plan.on)
        self._facts.show_record("yard")
        example = season_example(self._book.notebook.yard.latitude_deg)
        self._facts.give_example("irrigation_season", example)
        self._rules.show_record("water_rules")
        self._climate.refresh()
        self._weather.refresh(plan.on)
        self._caution_words.setText("\n".join(f"•  {each}" for each in plan.cautions))

    def _listen(self) -> None:
        self._due.picked.connect(self._picked)

    def _picked(self, due: Due) -> None:
        """Turn to what a due row is about: the first spot due a plug, feedings, or the zone."""
        if due.kind == "plug":
            for spot_id in due.spot_ids[:1]:
                self.selected.emit("spots", spot_id)
            return
        if due.kind == "feed":
            self.selected.emit("feedings", "")
            return
        if due.kind == "check":
            self.asked.emit("Season")
            return
        zones = self._book.notebook.zones.values()
        for zone in (each for name in due.zones[:1] for each in zones if each.name == name):
            self.selected.emit("zones", zone.id)

    def lead_to_field(self, name: str) -> None:
        """Bring a field of the yard into sight, with the keyboard. KeyError for one not shown."""
        field = self._facts.form.editor(name)
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        self.wanted.emit(field)

    def ask_weather(self) -> None:
        """Bring the card of the weather into sight, and ask for a table to read."""
        self.wanted.emit(self._weather)
        self._weather.ask_file()

    def read_weather(self, path: Path) -> None:
        """Take the days of a weather table in; what it leaves open is asked about first."""
        self._weather.read_weather(path)

    def _lay_out(self) -> None:
        body = self.body
        body.addWidget(self._card(tr("What is due"), self._due))
        body.addWidget(self._card(tr("The yard"), self._facts))
        body.addWidget(self._weather)
        climate = self._card(tr("Usual weather by month"), self._climate)
        climate.body.addWidget(Caption(CLIMATE, wrap=True))
        body.addWidget(climate)
        rules = self._card(tr("Local watering rule"), self._rules)
        rules.body.addWidget(Caption(RULES, wrap=True))
        body.addWidget(rules)
        self._cautions.body.addWidget(self._caution_words)
        body.addWidget(self._cautions)

    def _card(self, heading: str, content: QWidget) -> Card:
        card = Card(heading, self)
        card.body.addWidget(content)
        return card
