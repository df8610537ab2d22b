"""Ledger, on the feed page: what was fed, the water's nitrogen, and tables in and out."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.dialogs import choose_feedings, choose_feedings_table, file_stem
from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.feed_ledger_table import LedgerTable, TotalLine
from lawnbook.desk.pages.feed_ledger_words import (
    EMPTY,
    EMPTY_METRIC,
    METRIC_RATE,
    NO_ZONE,
    US_RATE,
    key_of,
    later_words,
    ledger_lines,
    year_total,
)
from lawnbook.desk.pages.feed_review import FeedReview
from lawnbook.desk.pages.water_figures import paper_part
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.roles import check_quietly, one_of_several
from lawnbook.desk.telling import either
from lawnbook.desk.widgets import Caption, LinkButton, QuietButton, Words
from lawnbook.plan.fed_rows import fed_rows
from lawnbook.plan.feed_model import FedRow
from lawnbook.plan.model import Plan
from lawnbook.plan.working_model import Working
from lawnbook.reading import is_metric, tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.feed_csv import FeedingsRead, feedings_csv, read_feedings
from lawnbook.store.files import read_text_bounded, write_text_whole
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import put
from lawnbook.yard.numbers import counted, day
from lawnbook.yard.problems import OwnerError

MOST_BYTES = 16 * 2**20


class LedgerSection(Section):
    """Every feeding, newest first, of one zone or of all; `edit_asked` names one to change."""

    edit_asked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._plan: Plan | None = None
        self._zone_id = ""
        self._rows: dict[str, FedRow] = {}
        self._metric = book.notebook.yard.units == "metric"
        self._pending: tuple[str, str] | None = None
        self._found = FeedingsRead((), (), 0)
        self._make_choices()
        self._make_list()
        self._make_tables()
        self._lay_out()
        self._listen()

    def _make_choices(self) -> None:
        self.zone_button = QuietButton(tr("This zone"), "ledger_zone", self)
        self.all_button = QuietButton(tr("All zones"), "ledger_all", self)
        self.us_button = QuietButton(US_RATE, "ledger_us", self)
        self.metric_button = QuietButton(METRIC_RATE, "ledger_metric", self)
        self._zones, self._units = QButtonGroup(self), QButtonGroup(self)
        pairs = ((self._zones, self.zone_button, self.all_button, tr("Feedings of")),
                 (self._units, self.us_button, self.metric_button, tr("Rates in")))  # fmt: skip
        for group, first, second, lead in pairs:
            for button in (first, second):
                button.setAccessibleName(f"{lead} {button.text().lower()}")
                group.addButton(button)

    def _make_list(self) -> None:
        self._nothing = Words("", "", self)
        self._nothing.setObjectName("ledger_empty")
        self.table = LedgerTable(self)
        self.total = TotalLine(self.table, "ledger_total", self)
        self.table.explain(self._workings)
        let_open(self._total_workings, self.total)
        self._later = Caption("", self, wrap=True)
        self._later.setObjectName("ledger_later")
        self.edit_button = LinkButton(tr("Change it"), "feedings_edit", self)
        self.remove_button = LinkButton(tr("Take it out"), "feedings_remove", self)

    def _make_tables(self) -> None:
        self.save_button = QuietButton(tr("Save as CSV…"), "save_feedings", self)
        self.save_button.setToolTip(tr("Every feeding of the yard, one line for each zone"))
        self.read_button = QuietButton(tr("Take in from CSV…"), "read_feedings", self)
        self.read_button.setToolTip(
            tr("Feedings noted elsewhere; nothing is kept before you agree")
        )
        self._said = Caption("", self, wrap=True)
        self._said.setObjectName("ledger_said")
        self._said.say("")
        self.review = FeedReview(self)

    def show_plan(self, plan: Plan, zone_id: str) -> None:
        """Show the ledger up to the day of a plan, of a zone where one is chosen."""
        self._plan, self._zone_id = plan, zone_id
        self._show_rows()
        if self._pending is not None:
            self._consider()

    def retell(self) -> None:
        """The switch starts anew from the owner's units."""
        self._metric = is_metric()
        check_quietly(self.metric_button if self._metric else self.us_button)
        self._show_rows()

    def pick(self, feeding_id: str) -> None:
        """Pick a feeding that is selected elsewhere, among all zones where need be."""
        if not self._key_of(feeding_id) and feeding_id in self._book.notebook.feedings:
            check_quietly(self.all_button)
            self._show_rows()
        self.table.pick(self._key_of(feeding_id))
        self._show_buttons()

    def save_table(self, path: Path) -> None:
        """Write every feeding to a file as a table."""
        text = feedings_csv(self._book.notebook)
        try:
            # The mark at the start tells a spreadsheet how letters beyond ASCII are written.
            write_text_whole(path, text if text.isascii() else f"\ufeff{text}")
        except OwnerError as problem:
            self._said.say(str(problem), "refuse")
            return
        count = counted(len(self._book.notebook.feedings), "feeding")
        self._said.say(tr("{count} saved in {name}.", count=count, name=path.name), "good")

    def read_table(self, path: Path) -> None:
        """Look into a table of feedings, and show what it holds; nothing is kept yet."""
        self._leave()
        try:
            text = read_text_bounded(path, MOST_BYTES)
        except OwnerError as problem:
            self._said.say(str(problem), "refuse")
            return
        self._pending = (path.name, text)
        self._said.say("")
        self._consider()
        buttons = (self.review.take, self.review.take_all, self.review.leave)
        button = next(each for each in buttons if not each.isHidden())
        button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _shown_zone(self) -> str:
        """The zone whose feedings are shown, "" for all."""
        several = len(self._book.notebook.zones) > 1
        return "" if several and self.all_button.isChecked() else self._zone_id

    def _show_rows(self) -> None:
        plan, notebook = self._plan, self._book.notebook
        if plan is None:
            return
        zone_id = self._shown_zone()
        rows = fed_rows(notebook, plan.on, zone_id)
        self._rows = {key_of(row): row for row in rows}
        with_zone = not zone_id and len(notebook.zones) > 1
        self.table.show_lines(ledger_lines(rows, self._metric), with_zone)
        self.table.show_weight_unit(self._metric)
        if rows:
            self.total.show_total(year_total(rows, notebook, plan.on, zone_id, self._metric))
        self._later.say(later_words(notebook, plan.on, zone_id))
        empty = either(tr(EMPTY), tr(EMPTY_METRIC))
        self._nothing.say("" if rows else empty if notebook.zones else NO_ZONE)
        for each in (self.table, self.total, self.us_button, self.metric_button):
            each.setVisible(bool(rows))
        for each in (self.zone_button, self.all_button):
            each.setVisible(len(notebook.zones) > 1 and bool(notebook.feedings or rows))
        self.save_button.setVisible(bool(notebook.feedings))
        self.read_button.setVisible(bool(notebook.zones))
        self._show_buttons()

    def _workings(self, key: str) -> Sequence[Working]:
        """How the rates of a line came about."""
        from lawnbook.plan.fed_workings import fed_row_workings

        row = self._rows.get(key)
        return () if row is None else fed_row_workings(self._book.notebook, row)

    def _total_workings(self) -> Sequence[Working]:
        """The same of the year's total."""
        from lawnbook.plan.fed_workings import year_total_workings

        if self._plan is None:
            return ()
        rows = tuple(self._rows.values())
        return year_total_workings(self._book.notebook, rows, self._plan.on, self._shown_zone())

    def _show_buttons(self) -> None:
        for button in (self.edit_button, self.remove_button):
            button.setVisible(bool(self._feeding_id(self.table.picked_id())))

    def _key_of(self, feeding_id: str) -> str:
        """The key of a feeding's first row, "" where none is shown."""
        found = (key for key, row in self._rows.items() if row.feeding_id == feeding_id != "")
        return next(found, "")

    def _feeding_id(self, key: str) -> str:
        row = self._rows.get(key)
        return row.feeding_id if row is not None else ""

    def _choose_unit(self) -> None:
        self._metric = self.metric_button.isChecked()
        self._show_rows()

    def _edit(self, key: str) -> None:
        feeding_id = self._feeding_id(key)
        if feeding_id in self._book.notebook.feedings:
            self.edit_asked.emit(feeding_id)

    def _remove(self, key: str) -> None:
        """Take a feeding out, on all its zones: it was one feeding."""
        feeding = self._book.notebook.feedings.get(self._feeding_id(key))
        if feeding is None:
            return
        try:
            change = remove(self._book.notebook, "feedings", feeding.id)
            self._book.edit(change, tr("take out feeding of {date}", date=day(feeding.date)))
        except OwnerError as problem:
            self._said.say(str(problem), "refuse")
            return
        zones = (
            tr(" on {count} zones", count=len(feeding.pounds)) if len(feeding.pounds) > 1 else ""
        )
        self._said.say(
            tr("The feeding of {date}{zones} is taken out.", date=day(feeding.date), zones=zones),
            "caption",
        )

    def _ask_save(self) -> None:
        yard = file_stem(self._book.notebook.yard.name)
        start = self._book.path.parent / f"{f'{yard} feedings'.strip()}.csv"
        path = choose_feedings_table(self, start)
        if path is not None:
            self.save_table(path)

    def _ask_read(self) -> None:
        path = choose_feedings(self, self._book.path.parent)
        if path is not None:
            self.read_table(path)

    def _consider(self) -> None:
        """Read the pending table against the notebook as it is now."""
        if self._pending is None:
            return
        name, text = self._pending
        self._found = read_feedings(text, self._book.notebook, self._book.today)
        self.review.show_found(name, self._found)

    def _take_in(self, doubtful_too: bool) -> None:
        if self._pending is None:
            return
        name, feedings = self._pending[0], self._found.feedings
        if doubtful_too:
            feedings += self._found.doubtful
        count = counted(len(feedings), "feeding")
        # Put away first: the edit shows the plan again, and the table would be read once more.
        pending, self._pending = self._pending, None
        try:
            change = put(self._book.notebook, "feedings", *feedings)
            self._book.edit(change, tr("take in {count}", count=count))
        except OwnerError as problem:
            self._pending = pending
            self._said.say(str(problem), "refuse")
            return
        self._leave()
        self._said.say(tr("{count} taken in from {name}.", count=count, name=name), "good")

    def _put_off(self) -> None:
        had = bool(self._found.feedings or self._found.doubtful)
        self._leave()
        self._said.say(tr("Nothing was taken in.") if had else "", "caption")
        self.read_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _leave(self) -> None:
        self._pending, self._found = None, FeedingsRead((), (), 0)
        self.review.hide()

    def _lay_out(self) -> None:
        part = paper_part(tr("Feedings"))
        head = QHBoxLayout()
        head.setSpacing(6)
        for left in (self.zone_button, self.all_button):
            head.addWidget(left)
        head.addStretch(1)
        for right in (self.us_button, self.metric_button):
            head.addWidget(right)
        part.body.addLayout(head)
        part.body.addWidget(self._nothing)
        lines = QVBoxLayout()
        lines.setSpacing(0)
        lines.addWidget(self.table)
        lines.addWidget(self.total)
        part.body.addLayout(lines)
        part.body.addWidget(self._later)
        below = QHBoxLayout()
        for each in (self.save_button, self.read_button):
            below.addWidget(each)
        below.addStretch(1)
        for each in (self.edit_button, self.remove_button):
            below.addWidget(each)
        part.body.addLayout(below)
        part.body.addWidget(self._said)
        part.body.addWidget(self.review)
        self.body.addWidget(part)
        self.body.addStretch(1)

    def _listen(self) -> None:
        for button in (self.zone_button, self.all_button):
            one_of_several(button, self._show_rows)
        for button in (self.us_button, self.metric_button):
            one_of_several(button, self._choose_unit)
        check_quietly(self.all_button)
        check_quietly(self.metric_button if self._metric else self.us_button)
        self.table.picked.connect(lambda _: self._show_buttons())
        self.table.opened.connect(self._edit)
        self.table.removal_asked.connect(self._remove)
        self.edit_button.clicked.connect(lambda: self._edit(self.table.picked_id()))
        self.remove_button.clicked.connect(lambda: self._remove(self.table.picked_id()))
        self.save_button.clicked.connect(self._ask_save)
        self.read_button.clicked.connect(self._ask_read)
        self.review.taken.connect(self._take_in)
        self.review.left.connect(self._put_off)
