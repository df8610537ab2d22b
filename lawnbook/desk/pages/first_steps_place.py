"""The first step of place and weather: latitude, and days from a file or twelve typed months."""

from PySide6.QtWidgets import QVBoxLayout

from lawnbook.desk.entry import season_example
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.climate_table import ClimateTable
from lawnbook.desk.pages.first_steps_card import StepCard
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.widgets import Caption
from lawnbook.plan.model import Plan
from lawnbook.reading import tr


class PlaceCard(StepCard):
    """Where the yard lies and what its weather is, as far as the plan needs it."""

    STEP = "place"

    def title(self) -> str:
        """The name of the step."""
        return tr("Place and weather")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "The latitude tells the seasons; weather tells how fast the grass uses water. Without "
            "weather no days between waterings and no minutes can be given."
        )

    def leaving(self) -> str:
        """The words of the link that leaves the step."""
        return tr("I don’t know: go on without weather for now")

    def lay_out(self) -> None:
        """The place, a button to a file, and the months folded away."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        setting = FormSetting(today=self._book.today, prefix="first_yard_")
        names = ("latitude_deg", "irrigation_season")
        self._place = LiveForm(self._book, "yard", names, self, 2, setting)
        self._place.give_example("latitude_deg", tr("such as 40.7, or 34 S"))
        column.addWidget(self._place)
        read = self.button(tr("Read a weather table…"), "read_weather", tr("Overview: weather"))
        column.addLayout(self.row(read))
        self._months = Fold(tr("Or type twelve usual months"), "first_months", self)
        self._table = ClimateTable(self._book, self, "first_climate")
        self._months.body.addWidget(self._table)
        help_ = tr(
            "ETo is what a lawn would use on a day; state weather networks and extension services "
            "publish it by month. Mean temperature tells when the grass sleeps."
        )
        self._months.body.addWidget(Caption(help_, self, wrap=True))
        column.addWidget(self._months)

    def fill(self, plan: Plan) -> None:
        """The place and the months as the notebook holds them."""
        del plan
        self._place.show_record("yard")
        example = season_example(self._book.notebook.yard.latitude_deg)
        self._place.give_example("irrigation_season", example)
        self._table.refresh()
        months = sum(
            each.eto_in_per_day is not None for each in self._book.notebook.climate.values()
        )
        self._months.say(tr("{count} of 12 typed", count=months))
