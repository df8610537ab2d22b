"""The water page: the answer for one zone, the year, all zones, and what the owner enters."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.entry_panel import EntryPanel
from lawnbook.desk.pages.fold import Fold, FoldOrder
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.water_pictures import MonthStrip, RootsPicture
from lawnbook.desk.pages.water_records import MOUTH_HELP, catch_setting, watering_setting
from lawnbook.desk.pages.water_words import (
    TABLE_HEADS,
    answer_sentence,
    assumed_sentence,
    first_needs,
    month_sentence,
    rate_sentence,
    roots_now_sentence,
    row_description,
    settings_summary,
    table_row,
    target_sentence,
    unwatered_sentence,
)
from lawnbook.desk.pages.zone_picker import ZonePicker, zone_of
from lawnbook.desk.pages.zone_settings import ZoneSettings
from lawnbook.desk.widgets import (
    Aside,
    Caption,
    Card,
    Heading,
    PageScroll,
    PageTitle,
    Verdict,
    Words,
)
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.cautions import BACKFLOW, LOCAL_WATER
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.season import month_in_full
from lawnbook.session.open_notebook import OpenNotebook

NO_ZONES = "Draw a zone on the sketch: how deep and how often to water it follows from its ground."
ROOT_FIGURES = ("rooted_soil_in", "bearable_depth_in", "roots_needed_in", "target_interval_days")
SPARED_COLUMNS, NARROW_PX = (3,), 560
"""On a narrow page the run time gives way: cycles times minutes say it."""
RATE_FIGURES = ("precipitation_rate_in_per_h", "multiplier")


class WaterPage(QWidget):
    """Water for the yard's zones on the day of the plan; `selected` tells the zone picked here."""

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("water_page")
        self._book = book
        self._plan: Plan | None = None
        self._make_answer()
        self._make_year()
        self._make_entries()
        self._lay_out()
        self._listen()

    def _make_answer(self) -> None:
        self._title = PageTitle("Water", "", self)
        self.picker = ZonePicker("water_zone", self)
        self.answer = Verdict("", self)
        self.answer.setObjectName("water_answer")
        self._working = WorkingLink("working", "water_working", self)
        self._rate = Words("", "caption", self)
        self._rate.setObjectName("water_rate")
        self._rate_working = WorkingLink("working", "rate_working", self)
        self._notes = Aside("", self)
        self._notes.words.setObjectName("water_notes")
        self._nothing = Verdict(NO_ZONES, self)
        self._nothing.setObjectName("water_empty")

    def _make_year(self) -> None:
        self.strip = MonthStrip(self)
        self._month = Caption("", self, wrap=True)
        self._month.setObjectName("month_words")
        self._roots = RootsPicture(self)
        self._now = Words("", "", self)
        self._target = Words("", "", self)
        self._roots_working = WorkingLink("working", "roots_working", self)
        self.table = RecordTable(TABLE_HEADS, ("water_table", "Water for all zones"), (0, 1), 10)
        self.table.spare(SPARED_COLUMNS, NARROW_PX)
        self._unwatered = Caption("", self, wrap=True)
        self._unwatered.setObjectName("unwatered_words")
        self._assumed = Caption("", self, wrap=True)
        self._assumed.setObjectName("assumed_words")

    def _make_entries(self) -> None:
        self._entries_for = ""
        zone_id = self.picker.zone_id
        self.waterings_fold = Fold("Water put down", "waterings_part", self, unfolded=True)
        self.waterings = EntryPanel(self._book, watering_setting(self._book, zone_id))
        self.tests_fold = Fold("Catch tests", "tests_part", self)
        self.tests = EntryPanel(self._book, catch_setting(self._book, zone_id))
        self.zone_fold = Fold("This zone", "zone_part", self)
        self.zone_settings = ZoneSettings(self._book)
        self.rules_fold = Fold("Local watering rule", "rules_part", self)
        rules = FormSetting(today=self._book.today, prefix="rule_")
        self.rules_form = LiveForm(self._book, "water_rules", ("days", "hours"), None, 2, rules)
        self.waterings_fold.body.addWidget(self.waterings)
        self.tests_fold.body.addWidget(Caption(MOUTH_HELP, wrap=True))
        self.tests_fold.body.addWidget(self.tests)
        self.zone_fold.body.addWidget(self.zone_settings)
        self.rules_fold.body.addWidget(self.rules_form)
        self.folds = FoldOrder(
            (self.zone_fold, self.tests_fold, self.waterings_fold, self.rules_fold)
        )

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day, the zone staying where it can."""
        if self._plan is None or self._plan.on.month != plan.on.month:
            self.strip.pick(plan.on.month)
        self._plan = plan
        self.picker.show_zones(self._book.notebook)
        some = bool(plan.zones)
        self._content.setVisible(some)
        self._nothing.setVisible(not some)
        self._title.set_subtitle(_zones_words(len(plan.zones)))
        if some:
            self._show_table(plan)
            self._show_zone()
            tab_in_reading_order(self)

    def select(self, table: str, record_id: str) -> None:
        """Show the zone that something selected elsewhere belongs to."""
        zone_id = zone_of(self._book.notebook, table, record_id)
        if zone_id:
            self.picker.show_zones(self._book.notebook)
            self.picker.choose(zone_id)
            self._show_zone()
        if table == "catch_tests":
            self.tests.table.pick(record_id)
            self.tests_fold.reveal()

    def showEvent(self, event: QShowEvent) -> None:
        """Put what is needed first on top when the page is turned to."""
        super().showEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        self.folds.arrange()
        tab_in_reading_order(self)

    def _picked(self, zone_id: str) -> None:
        self.picker.choose(zone_id)
        self._show_zone()
        self.selected.emit("zones", zone_id)

    def _show_zone(self) -> None:
        """Fill everything that is about the chosen zone."""
        zone = self._zone()
        if zone is None or self._plan is None:
            return
        self._show_answer(zone, self._plan.on)
        self.strip.show_months(zone.months, zone.target_depth_in)
        self._say_month(self.strip.month)
        self._roots.show_zone(zone)
        self._now.say(roots_now_sentence(zone))
        self._target.say(target_sentence(zone))
        self.table.pick(zone.zone_id)
        self._show_entries(zone)

    def _show_answer(self, zone: ZoneWater, on: date) -> None:
        self.answer.say(answer_sentence(zone, on))
        self._working.set_workings(zone.workings)
        self._rate.say(rate_sentence(zone), "warn" if zone.rate_stale else "caption")
        self._rate_working.set_workings([w for w in zone.workings if w.figure in RATE_FIGURES])
        self._roots_working.set_workings([w for w in zone.workings if w.figure in ROOT_FIGURES])
        self._notes.say("\n".join(zone.notes))

    def _show_entries(self, zone: ZoneWater) -> None:
        changed = self._entries_for != zone.zone_id
        self._entries_for = zone.zone_id
        for fold, panel in ((self.waterings_fold, self.waterings), (self.tests_fold, self.tests)):
            if changed:
                panel.clear()
            panel.refresh()
            fold.say(panel.summary())
        settings = self._book.notebook.zones[zone.zone_id]
        for fold, sentence in zip(
            (self.zone_fold, self.tests_fold), first_needs(settings, zone), strict=True
        ):
            fold.need(sentence)
        if changed:
            self._arrange()
        self.zone_settings.show_zone(zone.zone_id)
        self.zone_fold.say(settings_summary(settings))
        self.rules_form.show_record("water_rules")

    def _show_table(self, plan: Plan) -> None:
        rows = [
            Row(
                zone.zone_id,
                table_row(zone, plan.on),
                row_description(zone, plan.on),
                (1,) if zone.rate_stale else (),
            )
            for zone in plan.zones
        ]
        self.table.show_rows(rows, keep=self.picker.zone_id())
        self._unwatered.say(unwatered_sentence(plan.zones))
        self._assumed.say(assumed_sentence(plan.zones))

    def _zone(self) -> ZoneWater | None:
        wanted = self.picker.zone_id()
        zones = self._plan.zones if self._plan else ()
        return next((zone for zone in zones if zone.zone_id == wanted), None)

    def _say_month(self, month: int) -> None:
        zone = self._zone()
        if zone is not None:
            self._month.say(f"{month_in_full(month)}: {month_sentence(zone.months[month - 1])}")

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._title, 1)
        top.addWidget(self.picker)
        self._scroll = PageScroll(self)
        self._content = QWidget()
        body = QVBoxLayout(self._content)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(10)
        body.addLayout(_beside(self.answer, self._working))
        body.addLayout(_beside(self._rate, self._rate_working))
        body.addWidget(self._notes)
        body.addLayout(self.folds.top)
        body.addWidget(self._roots_card())
        body.addWidget(self._year_card())
        body.addWidget(Heading("All zones"))
        body.addWidget(self.table)
        body.addWidget(self._unwatered)
        body.addWidget(self._assumed)
        body.addLayout(self.folds.rest)
        body.addWidget(Caption(f"{LOCAL_WATER} {BACKFLOW}", wrap=True))
        self._scroll.body.addWidget(self._nothing)
        self._scroll.body.addWidget(self._content)
        self._scroll.body.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(10)
        column.addLayout(top)
        column.addWidget(self._scroll, 1)

    def _roots_card(self) -> Card:
        card = Card("", self)
        words = QVBoxLayout()
        words.setSpacing(8)
        words.addStretch(1)
        words.addWidget(self._now)
        words.addWidget(self._target)
        words.addWidget(self._roots_working, 0, Qt.AlignmentFlag.AlignRight)
        words.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self._roots)
        row.addLayout(words, 1)
        card.body.addLayout(row)
        return card

    def _year_card(self) -> Card:
        card = Card("Month by month", self)
        card.body.addWidget(self.strip)
        card.body.addWidget(self._month)
        return card

    def _listen(self) -> None:
        self.picker.zone_picked.connect(self._picked)
        self.table.picked.connect(self._picked)
        self.strip.month_picked.connect(self._say_month)


def _beside(words: QWidget, link: QWidget) -> QHBoxLayout:
    """Words with the link to their working at the end of the line."""
    row = QHBoxLayout()
    row.setSpacing(10)
    row.addWidget(words, 1)
    row.addWidget(link, 0, Qt.AlignmentFlag.AlignBottom)
    return row


def _zones_words(count: int) -> str:
    if count == 0:
        return "no zone yet"
    return "1 zone" if count == 1 else f"{count} zones"
