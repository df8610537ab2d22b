"""The water page: the answer for one zone on top, and five sections that say the rest."""

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.motion import fade_in
from lawnbook.desk.pages.page import stack_sections, tab_in_reading_order
from lawnbook.desk.pages.water_log import RecordsSection
from lawnbook.desk.pages.water_now import NowSection
from lawnbook.desk.pages.water_roots import RootsSection
from lawnbook.desk.pages.water_run_words import runs_tonight
from lawnbook.desk.pages.water_sections import Section, SectionRow
from lawnbook.desk.pages.water_sprinklers import SprinklersSection
from lawnbook.desk.pages.water_words import answer_sentence, attention
from lawnbook.desk.pages.water_year import YearSection
from lawnbook.desk.pages.zone_picker import ZonePicker, zone_of
from lawnbook.desk.widgets import PageScroll, PageTitle, Verdict
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

NO_ZONES = tr(
    "Draw a zone on the sketch: how deep and how often to water it follows from its ground."
)
SECTIONS = ("Now", "Roots", "Year", "Sprinklers", "Records")
SPRINKLER_TABLES = ("heads", "catch_tests")
"""What is selected in one of these tables is shown among the sprinklers."""


class WaterPage(QWidget):
    """Water for the yard's zones on the day of the plan; `selected` tells the zone picked here.

    `asked` names what the sketch shall show. The section stays while zones and days change.
    """

    selected = Signal(str, str)
    asked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("water_page")
        self._book = book
        self._plan: Plan | None = None
        self._led_by = ("", "")
        self._title = PageTitle(tr("Water"), "", self)
        self.picker = ZonePicker("water_zone", self)
        self.answer = Verdict("", self)
        self.answer.setObjectName("water_answer")
        self.following = Verdict("", self)
        self.following.setObjectName("water_following")
        self._working = WorkingLink(tr("working"), "water_working", self)
        self._nothing = Verdict(NO_ZONES, self)
        self._nothing.setObjectName("water_empty")
        self._make_sections()
        self._lay_out()
        self._working.stand_for(self.answer, self.following)
        self._listen()

    def _make_sections(self) -> None:
        zone_id = self.picker.zone_id
        self.now = NowSection(self._book)
        self.roots = RootsSection()
        self.year = YearSection(self._book)
        self.sprinklers = SprinklersSection(self._book, zone_id)
        self.records = RecordsSection(self._book, zone_id)
        bodies = (self.now, self.roots, self.year, self.sprinklers, self.records)
        self._sections: dict[str, Section] = dict(zip(SECTIONS, bodies, strict=True))
        self.sections = SectionRow(SECTIONS, "water", tr("Sections of the water page"))
        # What a zone needs first stands open on top of what is to be done now.
        self.now.lead(self.sprinklers.folds.top)
        self._scrolled: dict[str, int] = {}
        self.section = "Now"
        self.sections.turn_to("Now")

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day, the zone staying where it can."""
        self._plan = plan
        self.picker.show_zones(self._book.notebook)
        some = bool(plan.zones)
        for each in (self.sections, self._content):
            each.setVisible(some)
        self._nothing.setVisible(not some)
        self._title.set_subtitle(_zones_words(len(plan.zones)))
        if some:
            self.now.show_table(plan, self.picker.zone_id())
            self._show_zone()
            tab_in_reading_order(self)

    def select(self, table: str, record_id: str) -> None:
        """Show the zone that something selected elsewhere belongs to."""
        zone_id = zone_of(self._book.notebook, table, record_id)
        if zone_id:
            self.picker.show_zones(self._book.notebook)
            self.picker.choose(zone_id)
            self._show_zone()
        # Once led to, the owner may turn away although the record stays selected.
        if table in SPRINKLER_TABLES and (table, record_id) != self._led_by:
            self.turn_to("Sprinklers")
        self._led_by = (table, record_id)
        if table == "catch_tests":
            self.sprinklers.tests.table.pick(record_id)
            self.reveal_tests()

    def use_cans(self, draft: CanDraft) -> None:
        """Take over the cans placed on the sketch; where there are any, their catch test opens."""
        self.sprinklers.use_cans(draft)
        if draft.places and draft.zone_id in self._book.notebook.zones:
            self._picked(draft.zone_id)
            self.reveal_tests()

    def reveal_tests(self) -> None:
        """Open the catch tests where they stand: on top of all while they are needed first."""
        needed = self.sprinklers.tests_fold.is_needed
        self.turn_to("Now" if needed else "Sprinklers")
        self.sprinklers.tests_fold.reveal()

    def reveal_zone(self) -> None:
        """Open the zone's settings where they stand: on top of all while they are needed first."""
        self.turn_to("Now" if self.sprinklers.zone_fold.is_needed else "Sprinklers")
        self.sprinklers.zone_fold.reveal()

    def turn_to(self, section: str) -> None:
        """Show one section, scrolled as it was left. KeyError for a name that is none."""
        if section == self.section:
            return
        bar = self._scroll.verticalScrollBar()
        self._scrolled[self.section] = bar.value()
        self._sections[section].show()
        self._sections[self.section].hide()
        self.section = section
        self.sections.turn_to(section)
        fade_in(self._scroll.viewport())
        tab_in_reading_order(self)
        # The page has to take its new height first.
        QTimer.singleShot(0, self, lambda: bar.setValue(self._scrolled.get(section, 0)))

    def showEvent(self, event: QShowEvent) -> None:
        """Put what is needed first on top when the page is turned to."""
        super().showEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        self.sprinklers.folds.arrange()
        tab_in_reading_order(self)

    def _picked(self, zone_id: str) -> None:
        self.picker.choose(zone_id)
        self._show_zone()
        self.selected.emit("zones", zone_id)

    def _show_zone(self) -> None:
        """Fill everything that is about the chosen zone."""
        zone, plan = self._zone(), self._plan
        if zone is None or plan is None:
            return
        said = answer_sentence(zone, plan.on, tonight=runs_tonight(plan, zone))
        for unit in ("gallons", "litres"):
            said = said.replace(f" {unit}", f"\u00a0{unit}")
        lead, _, following = said.partition("\n")
        self.answer.say(lead)
        self.following.say(following)
        # The link ends the last line of the answer.
        line = self._below if following else self._lead
        if line.indexOf(self._working) < 0:
            line.addWidget(self._working, 0, Qt.AlignmentFlag.AlignBottom)
        self._working.set_workings(zone.workings)
        for name, why in attention(zone, plan).items():
            self.sections.mark(name, why)
        self.now.show_zone(zone, plan)
        self.roots.show_zone(zone, plan)
        self.year.show_zone(zone, plan)
        self.records.show_zone(zone, plan)
        if self.sprinklers.show_zone(zone, plan):
            self._arrange()

    def _zone(self) -> ZoneWater | None:
        wanted = self.picker.zone_id()
        zones = self._plan.zones if self._plan else ()
        return next((zone for zone in zones if zone.zone_id == wanted), None)

    def _lay_out(self) -> None:
        self._lead, self._below = QHBoxLayout(), QHBoxLayout()
        answer = QVBoxLayout()
        answer.setSpacing(0)
        for line, words in ((self._lead, self.answer), (self._below, self.following)):
            line.setSpacing(10)
            line.addWidget(words, 1)
            answer.addLayout(line)
        self._below.addWidget(self._working, 0, Qt.AlignmentFlag.AlignBottom)
        self._scroll = PageScroll(self)
        self._content = QWidget()
        body = QVBoxLayout(self._content)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(10)
        body.addLayout(answer)
        for name, section in self._sections.items():
            body.addWidget(section)
            section.setVisible(name == self.section)
        self._scroll.body.addWidget(self._nothing)
        self._scroll.body.addWidget(self._content)
        self._scroll.body.addStretch(1)
        stack_sections(self, (self._title, self.picker), self.sections, self._scroll)

    def _listen(self) -> None:
        self.picker.zone_picked.connect(self._picked)
        self.now.picked.connect(self._picked)
        self.sections.turned.connect(self.turn_to)
        self.sprinklers.asked.connect(self.asked)
        for chart in (self.now.chart, self.roots.chart, self.year.chart):
            chart.begun.connect(lambda: tab_in_reading_order(self))


def _zones_words(count: int) -> str:
    if count == 0:
        return tr("no zone yet")
    return tr("1 zone") if count == 1 else tr("{count} zones", count=count)
