"""Sprinklers, on the water page: the rate, the computed map, the cans, and the zone's settings."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.cans import CansPanel
from lawnbook.desk.pages.fold import Fold, FoldOrder
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.pages.water_records import ZoneId
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.water_spread_words import (
    EVENNESS,
    NO_MAP,
    NO_MAP_OF_HOSE,
    cans_beside_map,
    coverage_figures,
    coverage_sentences,
)
from lawnbook.desk.pages.water_words import first_needs, rate_sentence, settings_summary
from lawnbook.desk.pages.zone_settings import ZoneSettings
from lawnbook.desk.widgets import Caption, Card, LinkButton, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.map_workings import coverage_workings
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

RATE_FIGURES = ("precipitation_rate_in_per_h", "multiplier")
COLOUR_NAME, TOOL_NAME = "Sprinkler rate", "Can"
"""The sketch's colouring that shows the computed map, and its tool that places cans."""


class SprinklersSection(Section):
    """How the water falls on a zone; `asked` names the colouring or tool the sketch shall take."""

    asked = Signal(str)

    def __init__(self, book: OpenNotebook, zone_id: ZoneId, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._entries_for = ""
        self._zone: ZoneWater | None = None
        self._draft: CanDraft | None = None
        self._rate = Words()
        self._rate.setObjectName("water_rate")
        self._rate_working = WorkingLink(tr("working"), "rate_working")
        self._spread = FigureRow("coverage_figures", tr("How evenly the heads throw"))
        self._evenness = Caption(EVENNESS, wrap=True)
        self._evenness.setObjectName("coverage_help")
        self._spread_words = Words()
        self._spread_words.setObjectName("coverage_words")
        self._beside = Words()
        self._beside.setObjectName("coverage_beside_cans")
        self.show_link = LinkButton(tr("Show it on the sketch"), "coverage_show")
        self.tests_fold = Fold(tr("Catch tests"), "tests_part")
        self.tests = CansPanel(book, zone_id)
        self.zone_fold = Fold(tr("This zone"), "zone_part")
        self.zone_settings = ZoneSettings(book)
        self.tests_fold.body.addWidget(self.tests)
        self.zone_fold.body.addWidget(self.zone_settings)
        self.folds = FoldOrder((self.zone_fold, self.tests_fold))
        self._lay_out()
        self._rate_working.stand_for(self._rate)
        let_open(self._map_workings, self._spread, self._spread_words, self._beside)
        self.show_link.clicked.connect(lambda: self.asked.emit(COLOUR_NAME))
        self.tests.place_wanted.connect(lambda: self.asked.emit(TOOL_NAME))

    def use_cans(self, draft: CanDraft) -> None:
        """Let the catch test follow the cans placed on the sketch; once for each draft."""
        if draft is not self._draft:
            self._draft = draft
            self.tests.use_draft(draft)

    def show_zone(self, zone: ZoneWater, _plan: Plan) -> bool:
        """Show a zone's sprinklers; True where it is another zone than before."""
        self._zone = zone
        self._rate.say(rate_sentence(zone), "warn" if zone.rate_stale else "")
        self._rate_working.set_workings([w for w in zone.workings if w.figure in RATE_FIGURES])
        self._show_coverage(zone)
        changed = self._entries_for != zone.zone_id
        self._entries_for = zone.zone_id
        if changed:
            self.tests.clear()
        self.tests.refresh()
        self.tests_fold.say(self.tests.summary())
        settings = self._book.notebook.zones[zone.zone_id]
        ground, rate = first_needs(settings, zone)
        self.zone_fold.need(ground)
        self.tests_fold.need(rate)
        self.zone_settings.show_zone(zone.zone_id)
        self.zone_fold.say(settings_summary(settings))
        return changed

    def _show_coverage(self, zone: ZoneWater) -> None:
        coverage = zone.coverage
        self._spread.setVisible(coverage is not None)
        self.show_link.setVisible(coverage is not None)
        if coverage is None:
            hose = self._book.notebook.zones[zone.zone_id].sprinklers == "hose"
            self._spread_words.say(NO_MAP_OF_HOSE if hose else NO_MAP)
            self._evenness.hide()
            self._beside.say("")
            return
        self._evenness.show()
        self._spread.show_figures(coverage_figures(coverage))
        self._spread_words.say(" ".join(coverage_sentences(coverage)))
        self._beside.say(cans_beside_map(zone))

    def _map_workings(self) -> Sequence[Working]:
        """How the figures of the computed map came about."""
        zone = self._zone
        return () if zone is None else coverage_workings(zone, self._book.notebook)

    def _lay_out(self) -> None:
        rate = Card(tr("How fast the water falls"))
        line = QHBoxLayout()
        line.addWidget(self._rate, 1)
        line.addWidget(self._rate_working, 0, Qt.AlignmentFlag.AlignBottom)
        rate.body.addLayout(line)
        spread = Card(tr("Where it falls, computed from the heads"))
        words = QVBoxLayout()
        words.setSpacing(7)
        for each in (self._spread, self._evenness, self._spread_words, self._beside):
            words.addWidget(each)
        spread.body.addLayout(words)
        spread.body.addWidget(self.show_link, 0, Qt.AlignmentFlag.AlignRight)
        self.body.addWidget(rate)
        self.body.addWidget(spread)
        self.body.addLayout(self.folds.rest)
