"""Next, on the plugs page: what the plugs say in words, where to pull next, and how turf began."""

from collections.abc import Sequence
from datetime import date
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.charts.clock_face import old_holes
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages import next_words, plug_words
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.next_rows import FindingRow, NextRow
from lawnbook.desk.pages.paper_form import PaperFormRow
from lawnbook.desk.pages.place_picker import spots_at
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.widgets import Caption, Card, Hairline, LinkButton, Words, clear_layout
from lawnbook.plan.model import Plan
from lawnbook.plan.plug_model import Finding, NextPlug, Place
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import as_of

MOST_FINDINGS = 8
"""So many findings are shown at once, the weightiest; a link shows the others."""
MOST_ROWS = 12
"""So many spots are told at once; a zone picked above tells its own."""


class NextSection(Section):
    """Findings, the next plugs, the sod's history and the comparison strip of a place."""

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._findings_told: tuple[Finding, ...] | None = None
        self._next_told: tuple[tuple[NextPlug, ...], date] | None = None
        self._cores_told: object = None
        self._findings_card = Card(tr("What the plugs say"), self)
        self._findings = _column(self._findings_card)
        self._all = LinkButton("", "next_findings_all", self._findings_card)
        self._all.clicked.connect(self._unfold)
        self._findings_card.body.addWidget(self._all, 0, Qt.AlignmentFlag.AlignLeft)
        self._next_card = Card(tr("Where to pull next"), self)
        self._first = Words("", "", self._next_card)
        self._first.setObjectName("next_first")
        self._next_card.body.addWidget(self._first)
        self.form = PaperFormRow(book, self._next_card)
        self._next_card.body.addWidget(self.form)
        self._next = _column(self._next_card)
        self._more = Caption("", self._next_card, wrap=True)
        self._more.setObjectName("next_more")
        self._next_card.body.addWidget(self._more)
        self._next_card.body.addWidget(Caption(plug_words.DIG, self._next_card, wrap=True))
        self._strip_card, self._strip = self._comparison_card()
        self._sod_card, self._sod = self._sod_history_card()
        cards = (self._findings_card, self._next_card, self._strip_card, self._sod_card)
        for card in cards:
            self.body.addWidget(card)

    def show_plan(self, plan: Plan, place: Place) -> None:
        """Show what comes next at a place as the plan of a day has it."""
        notebook = self._book.notebook
        spot = notebook.spots.get(place.id) if place.kind == "spot" else None
        zone_id = zone_of_spot(notebook, spot) if spot is not None else place.id
        self._show_findings(plug_words.findings_at(plan, place, zone_id))
        ids = {each.id for each in spots_at(notebook, place)}
        self._show_next(tuple(each for each in plan.next_plugs if each.spot_id in ids), plan)
        self.form.show_place(plan, place)
        self._strip_card.setVisible(spot is not None)
        self._strip.show_record(place.id if spot is not None else "")
        zone = notebook.zones.get(zone_id)
        self._sod_card.setVisible(zone is not None)
        self._sod.show_record(zone_id)
        self._sod_words.say(next_words.sod_told(zone) if zone is not None else "")

    def _show_findings(self, findings: tuple[Finding, ...]) -> None:
        if findings == self._findings_told:
            return
        self._findings_told = findings
        self._fill(MOST_FINDINGS)

    def _unfold(self) -> None:
        """Show all findings; the keyboard goes to the first that was hidden."""
        rows = self._fill(len(self._findings_told or ()))
        rows[min(MOST_FINDINGS, len(rows) - 1)].rule.setFocus(Qt.FocusReason.OtherFocusReason)

    def _fill(self, most: int) -> list[FindingRow]:
        findings = self._findings_told or ()
        clear_layout(self._findings)
        if not findings:
            self._findings.addWidget(Words(next_words.NO_FINDING, "", self._findings_card))
        rows: list[FindingRow] = []
        for number, each in enumerate(findings[:most]):
            if number:
                self._findings.addWidget(Hairline(self._findings_card))
            about = plug_words.about_told(each, self._book.notebook)
            rows.append(FindingRow(each, about, number, self._findings_card))
            self._findings.addWidget(rows[-1])
        hidden = len(findings) - len(rows)
        self._all.setText(next_words.more_findings(hidden))
        self._all.setAccessibleName(tr("Show {hidden} more findings", hidden=hidden))
        self._all.setVisible(hidden > 0)
        return rows

    def _show_next(self, plugs: tuple[NextPlug, ...], plan: Plan) -> None:
        cores = self._book.notebook.cores
        if cores is self._cores_told and (plugs, plan.on) == self._next_told:
            return
        self._next_told, self._cores_told = (plugs, plan.on), cores
        self._first.say(next_words.first_told(plugs))
        clear_layout(self._next)
        if not plugs:
            self._next.addWidget(Words(next_words.NO_NEXT, "", self._next_card))
        in_turn = sorted(plugs, key=lambda each: (each.due, not each.first))
        for number, each in enumerate(in_turn[:MOST_ROWS]):
            if number:
                self._next.addWidget(Hairline(self._next_card))
            old = old_holes(cores.values(), each.spot_id, plan.on)
            row = NextRow(each, old, plan.on, self._next_card)
            row.open_with(partial(self._place_workings, each.spot_id))
            row.open_day_with(partial(self._day_workings, each.spot_id))
            row.turned.connect(lambda spot_id: self.selected.emit("spots", spot_id))
            row.offer_turn(len(plugs) > 1)
            self._next.addWidget(row)
        left = len(plugs) - MOST_ROWS
        self._more.say(
            tr("{left} more spots: pick a zone above for its own.", left=left) if left > 0 else ""
        )

    def _place_workings(self, spot_id: str) -> Sequence[Working]:
        """How the place proposed for a spot's next plug came about."""
        from lawnbook.plan.place_workings import place_workings

        on = self._next_told[1] if self._next_told is not None else self._book.today
        return place_workings(self._book.notebook, spot_id, on)

    def _day_workings(self, spot_id: str) -> Sequence[Working]:
        """How the day of a spot's next plug came about."""
        from lawnbook.plan.tasks_records import plug_day_workings
        from lawnbook.plan.zone_facts import setting_of

        on = self._next_told[1] if self._next_told is not None else self._book.today
        return plug_day_workings(setting_of(as_of(self._book.notebook, on), on), spot_id)

    def _comparison_card(self) -> tuple[Card, LiveForm]:
        card = Card(tr("Comparison strip"), self)
        setting = FormSetting(prefix="next_")
        form = LiveForm(self._book, "spots", ("comparison",), card, 1, setting)
        card.body.addWidget(form)
        card.body.addWidget(Caption(next_words.STRIP, card, wrap=True))
        return card, form

    def _sod_history_card(self) -> tuple[Card, LiveForm]:
        card = Card(tr("How this turf began"), self)
        setting = FormSetting(today=self._book.today, prefix="next_")
        form = LiveForm(self._book, "zones", ("established",), card, 1, setting)
        self._sod_words = Caption("", card, wrap=True)
        self._sod_words.setObjectName("next_sod_words")
        card.body.addWidget(form)
        card.body.addWidget(self._sod_words)
        return card, form


def _column(card: Card) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(8)
    card.body.addLayout(column)
    return column
