"""Now, on the water page: what is next, tonight's program, the season's ledger, all zones."""

from collections.abc import Sequence
from datetime import date
from functools import cache
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLayout, QWidget

from lawnbook.charts.ledger_days import ledger_words
from lawnbook.charts.palette import Palette
from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.water_figures import Notes, paper_part
from lawnbook.desk.pages.water_ledger import LedgerCache
from lawnbook.desk.pages.water_next import NextCard, NightCard
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.water_words import (
    assumed_sentence,
    row_description,
    table_heads,
    table_row,
    unwatered_sentence,
)
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Aside, Caption, Heading
from lawnbook.plan.cautions import BACKFLOW, LOCAL_WATER
from lawnbook.plan.model import Plan, ZoneWater
from lawnbook.plan.water_model import ZoneLedger
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from lawnbook.charts.marks import Frame
    from lawnbook.charts.profile_hits import Hit

SPARED_COLUMNS, NARROW_PX = (3,), 560
"""On a narrow page the run time gives way: cycles times minutes say it."""
CHART_HEIGHT_PX = 262


class NowSection(Section):
    """What is to be done next, and why; `picked` tells the zone chosen in the table of all."""

    picked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._ledgers = LedgerCache()
        self._zone: ZoneWater | None = None
        self._on: date | None = None
        self._plan: Plan | None = None
        self._drawn: ZoneLedger | None = None
        self._rooting = Aside("", self)
        self._rooting.words.setObjectName("water_establishing")
        self._notes = Notes("water_notes", self)
        self.next = NextCard(self)
        self.night = NightCard(self)
        self.chart = ChartHolder("water_ledger", tr("Water in the root zone day by day"), self)
        sized(self.chart, height=CHART_HEIGHT_PX)
        self._chart_words = Caption("", self, wrap=True)
        self._chart_words.setObjectName("ledger_words")
        self._make_table()
        self._lay_out()
        self._open_figures()
        for table in (self.table, self.night.table):
            table.picked.connect(self.picked)

    def _make_table(self) -> None:
        names = ("water_table", tr("Water for all zones"))
        self.table = RecordTable(table_heads, names, (0, 1), 10)
        self.table.spare(SPARED_COLUMNS, NARROW_PX)
        self._unwatered = Caption("", wrap=True)
        self._unwatered.setObjectName("unwatered_words")
        self._assumed = Caption("", wrap=True)
        self._assumed.setObjectName("assumed_words")

    def _open_figures(self) -> None:
        """Words and charts open their workings by a click, the tables by F1 on a zone's row."""
        words = (self._rooting.words, self._notes, self._chart_words)
        let_open(self._workings, *words)
        self.chart.let_hits_open(self._of_day)
        self.chart.picked.connect(lambda _: self.chart.open_lit())
        self.table.explain(self._workings_of)
        let_open(self._defaults, self._assumed)
        self.night.open_with(self._workings_of)

    def _workings(self) -> Sequence[Working]:
        """Those of the zone on show."""
        return () if self._zone is None else self._zone.workings

    def _of_day(self, key: str) -> Sequence[Working]:
        """Those of a day of the ledger that is pointed at; of the zone on show where none is."""
        if not key or self._zone is None:
            return self._workings()
        return self._ledgers.day_workings(self._zone.zone_id, date.fromisoformat(key))

    def _workings_of(self, zone_id: str) -> Sequence[Working]:
        """Those of a zone of the table; of the zone on show where no row is picked."""
        zones = () if self._plan is None else self._plan.zones
        found = next((each for each in zones if each.zone_id == zone_id), None)
        return self._workings() if found is None else found.workings

    def _defaults(self) -> Sequence[Working]:
        """The figures of all zones that rest on a default, each once."""
        zones = () if self._plan is None else self._plan.zones
        assumed = (
            each
            for zone in zones
            for each in zone.workings
            if any(one.is_default for one in each.inputs)
        )
        return tuple(dict.fromkeys(assumed))

    def lead(self, parts: QLayout) -> None:
        """Set something on top of the section."""
        self.body.insertLayout(0, parts)

    def show_zone(self, zone: ZoneWater, plan: Plan) -> None:
        """Show what is next for a zone."""
        self._zone, self._on = zone, plan.on
        self._rooting.say(zone.establishing.words if zone.establishing is not None else "")
        held = self._book.notebook.zones[zone.zone_id]
        places = (held.hose_places or 1) if held.sprinklers == "hose" else 1
        self.next.show_zone(zone, plan, places)
        self.night.show_zone(zone, plan)
        self._notes.say(zone.notes)
        self.table.pick(zone.zone_id)
        self._show_ledger()

    def show_table(self, plan: Plan, chosen: str) -> None:
        """Fill the table of all zones."""
        self._plan = plan
        rows = [
            Row(
                zone.zone_id,
                table_row(zone, plan.on),
                row_description(zone, plan.on),
                (1,) if zone.rate_stale else (),
            )
            for zone in plan.zones
        ]
        self.table.show_rows(rows, keep=chosen)
        self._unwatered.say(unwatered_sentence(plan.zones))
        self._assumed.say(assumed_sentence(plan.zones))

    def showEvent(self, event: QShowEvent) -> None:
        """Reckon the ledger once the section is looked at."""
        super().showEvent(event)
        self._show_ledger()

    def _show_ledger(self) -> None:
        """The season of the zone on show; reckoned only while the section can be seen."""
        zone, on = self._zone, self._on
        if zone is None or on is None or not self.isVisible():
            return
        ledger = self._ledgers.ledger(self._book.notebook, on, zone.zone_id)
        self._season.setVisible(ledger is not None and bool(ledger.depletion_in.size))
        if ledger is None or not ledger.depletion_in.size or ledger is self._drawn:
            return
        self._drawn = ledger
        following = zone.next_allowed

        def draw(colours: Palette, figure: "Figure | None") -> "Figure":
            from lawnbook.charts.figures import ledger_figure

            return ledger_figure(ledger, colours, following, figure)

        def hits(frame: "Frame") -> "Sequence[Hit]":
            from lawnbook.charts.ledger_hits import ledger_hits

            return ledger_hits(ledger, frame, following)

        # Asked for at every move of the pointer, for the same frame.
        held = cache(hits)
        words = ledger_words(ledger, following)
        self._chart_words.say(words)
        self.chart.show_chart(draw, words, held)

    def _lay_out(self) -> None:
        self._season = paper_part(tr("The season so far"))
        self._season.body.addWidget(self.chart)
        self._season.body.addWidget(self._chart_words)
        for each in (self._rooting, self.next, self.night, self._notes, self._season):
            self.body.addWidget(each)
        self.body.addWidget(Heading(tr("All zones")))
        for part in (self.table, self._unwatered, self._assumed):
            self.body.addWidget(part)
        self.body.addWidget(Caption(f"{LOCAL_WATER} {BACKFLOW}", wrap=True))
