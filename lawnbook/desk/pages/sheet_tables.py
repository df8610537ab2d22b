"""Tables, on the sheet page: every table out to a spreadsheet, and back in with a preview."""

from collections.abc import Iterable, Sized
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget

from lawnbook.desk.clipboard import one_file_in
from lawnbook.desk.dialogs import choose_tables, choose_tables_file, file_stem
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.sheet_tables_review import TablesReview
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_line import WaitLine, is_small
from lawnbook.desk.widgets import Caption, Card, QuietButton, Words, bring_into_sight
from lawnbook.desk.wrapping import WrappingRow
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.tables_in import read_tables
from lawnbook.store.tables_out import CSV, XLSX, ZIP, write_tables
from lawnbook.store.tables_result import TablesRead, taken_in_label
from lawnbook.store.tables_words import HOLDS
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import counted
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SINGLES, TABLES, TITLES

OUT = tr(
    "Every table of the notebook, units in the headings. A workbook keeps days, "
    "figures and words apart; CSV is for other programs. Photographs stay in the "
    "notebook."
)
IN = tr(
    "A workbook, a CSV file or a zip of them, changed in a spreadsheet or made by "
    "yourself; a file may be dropped here. What would change is shown first, and "
    "nothing is kept before you agree."
)
MOST_ROWS = 11
FEW_ROWS = 1_000
"""Rows up to which tables are written in a moment: some 50 ms as a workbook."""
GIVEN_UP = tr("Given up; nothing was written.")
HEADS = (tr("Table"), tr("Rows"), tr("Holds"))
_SUFFIXES = (XLSX, CSV, ZIP, ".tsv", ".txt")


class TablesSection(PageSection):
    """The tables with their rows, to be saved; a file of tables, to be looked over and taken in."""

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("sheet_tables")
        self._book, self._settings = book, settings
        self._pending: Path | None = None
        self._read: TablesRead | None = None
        self._looked_at: Notebook | None = None
        self._keeps = False
        self._took: Notebook | None = None
        self.table = RecordTable(HEADS, ("tables_list", tr("Tables")), (0, 2), MOST_ROWS, self)
        self.table.stretch(2)
        # All rows count for the widths, also those that were not in sight when it was filled.
        self.table.horizontalHeader().setResizeContentsPrecision(-1)
        self.workbook = QuietButton(tr("Save all as workbook (.xlsx)…"), "save_workbook", self)
        self.zip = QuietButton(tr("Save all as CSV (zip)…"), "save_csv_zip", self)
        self.csv = QuietButton(tr("Save one as CSV…"), "save_one_csv", self)
        self._wrote = _said("tables_written", self)
        self.choose = QuietButton(tr("Take in…"), "read_tables", self)
        self._said = _said("tables_said", self)
        self._writing = WaitLine("tables_writing", self)
        self._reading = WaitLine("tables_reading", self)
        self.review = TablesReview(self)
        self._lay_out()
        self._listen()
        self.setAcceptDrops(True)

    def show_plan(self, plan: Plan) -> None:
        """Show the tables; a file that is being looked over is held against them anew."""
        notebook = self._book.notebook
        rows = [_row(table, notebook) for table in TABLES if _count(table, notebook)]
        self.table.show_rows(rows)
        self._show_one()
        if self._took is not None and notebook is not self._took:
            # What was said of the rows is no longer so once undone, or of no use any more.
            self._took = None
            self._said.say("")
        if self._pending is not None and notebook is not self._looked_at:
            self._consider()

    def read_tables(self, path: Path) -> None:
        """Look into a file of tables, and show what it would change; nothing is kept yet."""
        self._leave()
        self._keeps = False
        self._pending = path
        self._consider(focus=True)

    def save(self, path: Path, table: str = "") -> None:
        """Write all tables, or one, to a file; its ending says as what. One at a time."""
        if self._writing.in_the_way:
            self._wrote.say(self._writing.in_the_way, "refuse")
            return
        notebook, today = self._book.notebook, self._book.today
        rows = len(notebook.table(table)) if table else sum(map(len, _held(notebook)))
        self._wrote.say("")
        self._writing.write(
            tr("Writing {name}…", name=path.name),
            path.name,
            lambda stop: write_tables(notebook, path, table, today, stop.step, stop.settle),
            lambda outcome: self._saved(path, outcome),
            at_once=rows < FEW_ROWS,
        )

    def _saved(self, path: Path, outcome: object) -> None:
        if isinstance(outcome, OwnerError):
            self._wrote.say(str(outcome), "refuse")
        else:
            self._wrote.say(tr("Saved: {path}", path=path), "good")

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one file of tables that is dragged here."""
        if one_file_in(event.mimeData(), _SUFFIXES) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Look into the file that was dropped."""
        path = one_file_in(event.mimeData(), _SUFFIXES)
        if path is not None:
            event.acceptProposedAction()
            self.read_tables(path)

    def _consider(self, *, focus: bool = False) -> None:
        """Hold the pending file against the notebook as it is now."""
        path = self._pending
        if path is None:
            return
        self._looked_at = notebook = self._book.notebook
        today, keeps = self._book.today, self._keeps
        # What was made of another notebook is neither shown nor taken in.
        self._read = None
        self.review.setEnabled(False)
        self._reading.do(
            tr("Reading {name}…", name=path.name),
            lambda stop: read_tables(path, notebook, today, keep_unknown=keeps, between=stop.step),
            lambda outcome: self._considered(outcome, focus=focus),
            at_once=is_small(path),
        )

    def _considered(self, outcome: object, *, focus: bool) -> None:
        self.review.setEnabled(True)
        if isinstance(outcome, OwnerError):
            self._leave()
            self._said.say(str(outcome), "refuse")
            bring_into_sight(self._said)
        elif isinstance(outcome, TablesRead) and self._pending is not None:
            self._read = outcome
            self._said.say("")
            self.review.show_read(self._pending.name, outcome, keeps=self._keeps)
            if focus:
                self.review.take_focus()

    def _keep(self, keeps: bool) -> None:
        """Take rows with unknown ids as new, or hold them back; shown before it is done."""
        self._keeps = keeps
        self._consider()

    def _take(self) -> None:
        read, pending = self._read, self._pending
        if read is None or pending is None:
            return
        # The file is done with before the edit is told, or it would be read once more.
        self._leave()
        try:
            self._book.edit(read.change, taken_in_label(read))
        except OwnerError as problem:
            self._said.say(str(problem), "refuse")
            return
        self._took = self._book.notebook
        rows = counted(read.added + read.changed, "row")
        self._said.say(
            tr(
                "{rows} taken in from {name}. Undo takes all of it back.",
                rows=rows,
                name=pending.name,
            ),
            "good",
        )
        self.choose.setFocus(Qt.FocusReason.OtherFocusReason)

    def _give_up(self) -> None:
        had = self._read is not None and bool(self._read.change)
        self._leave()
        self._said.say(tr("Nothing was taken in.") if had else "", "caption")
        self.choose.setFocus(Qt.FocusReason.OtherFocusReason)

    def _stop_reading(self) -> None:
        self._leave()
        self._said.say(tr("Nothing was taken in."), "caption")

    def _leave(self) -> None:
        self._reading.drop()
        self.review.setEnabled(True)
        self._pending = self._read = self._took = None
        self.review.hide()
        self._said.say("")

    def _ask_file(self) -> None:
        path = choose_tables(self, self._book.path.parent)
        if path is not None:
            self.read_tables(path)

    def _ask_save(self, suffix: str, table: str = "") -> None:
        yard = file_stem(self._book.notebook.yard.name)
        stem = f"{yard} {tr(TITLES[table]).lower() if table else tr('tables')}".strip()
        path = choose_tables_file(self, self._book.path.parent / f"{stem}{suffix}")
        if path is not None:
            self.save(path, table)

    def _show_one(self) -> None:
        picked = self.table.picked_id()
        self.csv.setEnabled(bool(picked))
        told = (
            tr("Save {titles} as CSV…", titles=tr(TITLES[picked]).lower())
            if picked
            else tr("Save one as CSV…")
        )
        self.csv.setText(told)
        self.csv.setAccessibleName(told)
        self.csv.setToolTip("" if picked else tr("Pick a table in the list first"))

    def _listen(self) -> None:
        self.workbook.clicked.connect(lambda: self._ask_save(XLSX))
        self.zip.clicked.connect(lambda: self._ask_save(ZIP))
        self.csv.clicked.connect(lambda: self._ask_save(CSV, self.table.picked_id()))
        self.table.picked.connect(self._show_one)
        self.table.opened.connect(lambda table: self._ask_save(CSV, table))
        self.choose.clicked.connect(self._ask_file)
        self._writing.cancelled.connect(lambda: self._wrote.say(GIVEN_UP, "caption"))
        self._reading.cancelled.connect(self._stop_reading)
        self._reading.failed.connect(self._leave)
        self.review.taken.connect(self._take)
        self.review.kept.connect(self._keep)
        self.review.left.connect(self._give_up)
        self.review.picked.connect(self.selected)

    def _lay_out(self) -> None:
        take = Card(tr("Take in tables"), self)
        take.body.addWidget(Caption(IN, self, wrap=True))
        take.body.addLayout(_line(self.choose))
        take.body.addWidget(self._reading)
        take.body.addWidget(self._said)
        take.body.addWidget(self.review)
        write = Card(tr("Save tables"), self)
        write.body.addWidget(Caption(OUT, self, wrap=True))
        write.body.addLayout(_line(self.workbook, self.zip))
        write.body.addWidget(self.table)
        write.body.addLayout(_line(self.csv))
        write.body.addWidget(self._writing)
        write.body.addWidget(self._wrote)
        self.body.addWidget(write)
        self.body.addWidget(take)


def _held(notebook: Notebook) -> Iterable[Sized]:
    return (notebook.table(each) for each in TABLES)


def _row(table: str, notebook: Notebook) -> Row:
    count = f"{len(notebook.table(table)):,}"
    rows = counted(len(notebook.table(table)), "row")
    spoken = f"{tr(TITLES[table])}, {rows}: {HOLDS[table]}"
    return Row(table, (tr(TITLES[table]), count, HOLDS[table]), spoken)


def _count(table: str, notebook: Notebook) -> int:
    return 1 if table in SINGLES else len(notebook.table(table))


def _said(name: str, parent: QWidget) -> Words:
    words = Words("", "caption", parent)
    words.setObjectName(name)
    words.say("")
    return words


def _line(*widgets: QWidget) -> WrappingRow:
    row = WrappingRow()
    row.setSpacing(8)
    for each in widgets:
        row.addWidget(each)
    return row
