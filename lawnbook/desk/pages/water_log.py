"""Records, on the water page: waterings put down, the rain gauge, and the local rule."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.entry_panel import EntryPanel
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.rain_entry import RainEntry
from lawnbook.desk.pages.water_records import ZoneId, watering_setting
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.yard_overview import RULES
from lawnbook.desk.widgets import Caption
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook


class RecordsSection(Section):
    """What the owner writes down about water."""

    def __init__(self, book: OpenNotebook, zone_id: ZoneId, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._entries_for = ""
        self.waterings_fold = Fold(tr("Water put down"), "waterings_part", unfolded=True)
        self.waterings = EntryPanel(book, watering_setting(book, zone_id))
        self.rules_fold = Fold(tr("Local watering rule"), "rules_part", unfolded=True)
        rules = FormSetting(today=book.today, prefix="rule_")
        self.rules_form = LiveForm(book, "water_rules", ("days", "hours"), None, 2, rules)
        self.waterings_fold.body.addWidget(self.waterings)
        self.rules_fold.body.addWidget(self.rules_form)
        self.rules_fold.body.addWidget(Caption(RULES, wrap=True))
        self.rain_fold = Fold(tr("Rain gauge"), "rain_part", unfolded=True)
        self.rain = RainEntry(book)
        self.rain_fold.body.addWidget(self.rain)
        for fold in (self.waterings_fold, self.rain_fold, self.rules_fold):
            self.body.addWidget(fold)

    def show_zone(self, zone: ZoneWater, _plan: Plan) -> None:
        """Show a zone's records."""
        if self._entries_for != zone.zone_id:
            self._entries_for = zone.zone_id
            self.waterings.clear()
        self.waterings.refresh()
        self.waterings_fold.say(self.waterings.summary())
        self.rain.refresh()
        self.rules_form.show_record("water_rules")
