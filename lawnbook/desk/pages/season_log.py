"""Log, on the season page: everything recorded, newest first, and the entry of mowing and care."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.entry_panel import EntryPanel, EntrySetting
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.page_section import PageSection
from lawnbook.desk.pages.season_log_table import DETAILS, LogTable
from lawnbook.desk.pages.tool_fields import FieldGrid, offer, offer_names
from lawnbook.desk.pages.trend_words import CARE_CAUTION
from lawnbook.desk.presets import PresetMenu
from lawnbook.desk.row_figures import RowFigures
from lawnbook.desk.settings import Settings
from lawnbook.desk.widgets import Caption, LinkButton, TextField, Words, name_control
from lawnbook.plan.care_marks import CARE_KINDS, MOWING
from lawnbook.plan.log_rows import KINDS, SEVERAL, LogRow, found_in, is_in, label_of, log_of
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import rain_noted, remove
from lawnbook.yard.notebook import Change, Notebook
from lawnbook.yard.numbers import counted, day
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

SEARCH_AFTER_MS = 120
LIST_STRETCH = 100
EVERY, ANYWHERE = tr("All entries"), tr("All zones")
EMPTY = tr("Nothing is recorded yet. Ctrl+K notes something down from anywhere.")
NOT_FOUND = tr("No entry fits. Clear the line, or choose all entries and all zones.")
PAGE_OF: Mapping[str, str] = MappingProxyType({"soil_tests": "Feed", "weather": "Water"})
"""Pages that hold entries which are not turned to by their record."""


class LogSection(PageSection):
    """Every entry, by kind, zone and words; and what was done besides water and feed."""

    FILLS = True

    def __init__(
        self, book: OpenNotebook, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._book, self._settings = book, settings
        self._notebook: Notebook = book.notebook
        self._on = book.today
        self._rows: list[LogRow] = []
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SEARCH_AFTER_MS)
        self.kind, self.zone = ChoiceBox(self), ChoiceBox(self)
        name_control(self.kind, "log_kind", tr("Kind of entry"))
        name_control(self.zone, "log_zone", tr("Zone"))
        self.search = TextField(self)
        name_control(self.search, "log_search", tr("Words to look for"))
        self.search.setPlaceholderText(tr("a word, a name, a note"))
        self.search.setClearButtonEnabled(True)
        self.table = LogTable(book.notebook, self)
        self._count = Caption("", self)
        self._count.setObjectName("log_count")
        self._empty = Caption("", self, wrap=True)
        self._empty.setObjectName("log_empty")
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName("log_trouble")
        self.open_button = LinkButton(tr("Open it"), "log_open", self)
        self.remove_button = LinkButton(tr("Take it out"), "log_remove", self)
        self.entry_fold = Fold(tr("Note mowing or other care"), "log_care_part")
        self.entry = EntryPanel(book, self._setting(), self)
        RowFigures(self.table, self._workings, lambda column: column == DETAILS)
        self._lay_out()
        self._listen()
        offer(self.kind, [("", EVERY), *((each, SEVERAL[each]) for each in KINDS)])

    def show_plan(self, plan: Plan) -> None:
        """List what the notebook holds up to the plan's day."""
        notebook = self._book.notebook
        self._notebook, self._on = notebook, plan.on
        zones = [(each.id, each.name) for each in notebook.zones.values()]
        offer(self.zone, [("", ANYWHERE), *zones])
        self.entry.form.offer("zones", zones)
        self.entry.form.show_fields(("zones",), bool(zones))
        offer_names(self._kind_line(), (MOWING, *CARE_KINDS, *self._own_kinds()))
        self.entry.refresh()
        self._rows = log_of(notebook, plan.on)
        self._show()

    def select(self, table: str, record_id: str) -> None:
        """Pick a record's row where it is listed."""
        if record_id:
            self.table.pick(table, record_id)

    def _workings(self) -> "tuple[Working, ...]":
        """How the figures of the picked entry came about."""
        row = self.table.picked_row()
        if row is None:
            return ()
        from lawnbook.plan.record_workings import of_record

        return of_record(self._notebook, self._on, row.table, row.record_id)

    def _own_kinds(self) -> list[str]:
        return list(dict.fromkeys(each.kind for each in self._book.notebook.care.values()))

    def _kind_line(self) -> QLineEdit:
        line = self.entry.form.editor("kind")
        if not isinstance(line, QLineEdit):
            raise TypeError("the kind of care is no line to type in")
        return line

    def _show(self) -> None:
        """The rows that fit what is chosen and looked for."""
        kind, zone = self.kind.currentData() or "", self.zone.currentData() or ""
        rows = [each for each in self._rows if not kind or each.kind == kind]
        if zone:
            rows = [each for each in rows if is_in(self._notebook, each, zone)]
        if self.search.text().strip():
            rows = list(found_in(self._notebook, rows, self.search.text()))
        self.table.show_rows(self._notebook, rows)
        self.table.setVisible(bool(rows))
        self._empty.say("" if rows else NOT_FOUND if self._rows else EMPTY)
        total = len(self._rows)
        told = counted(total, "entry", "entries")
        if len(rows) < total:
            told = tr("{count:,} of {entries}", count=len(rows), entries=told)
        self._count.setText(tr("{entries} up to {on}", entries=told, on=day(self._on)))
        self._show_buttons()

    def _show_buttons(self) -> None:
        picked = self.table.picked_row() is not None
        for button in (self.open_button, self.remove_button):
            button.setVisible(picked)

    def _open(self, row: object) -> None:
        """Care comes into the form above; everything else is turned to where it is entered."""
        if not isinstance(row, LogRow):
            return
        record = self._book.notebook.find(row.table, row.record_id)
        if row.table == "care":
            self.entry_fold.unfold()
            self.entry.open_record(row.record_id)
            self.entry.form.focus("date")
        elif row.table == "ticks":
            self.asked.emit("Checklists")
        elif row.table == "waterings":
            self.selected.emit("zones", getattr(record, "zone", ""))
        elif row.table in PAGE_OF:
            self.asked.emit(PAGE_OF[row.table])
        else:
            self.selected.emit(row.table, row.record_id)

    def _remove(self, row: object) -> None:
        if not isinstance(row, LogRow):
            return
        notebook = self._book.notebook
        try:
            label = tr("take out {label_of}", label_of=label_of(notebook, row))
            self._book.edit(_removal(notebook, row), label)
        except OwnerError as problem:
            self._trouble.say(str(problem))

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="care",
            noun="entry",
            names=("date", "kind", "cost", "zones", "note"),
            heads=(tr("Day"),),
            # What is kept stands in the list below: the panel has no list of its own.
            rows=tuple,
            title=lambda each: tr("{kind} of {date}", kind=each.kind, date=day(each.date)),
            given=lambda: {"date": self._book.today},
            prefix="log_care",
            columns=3,
            labels={
                "date": tr("Day"),
                "kind": tr("What was done"),
                "zones": tr("Where; the whole yard with none chosen"),
            },
        )

    def _listen(self) -> None:
        kinds = [(tr(each), each) for each in (MOWING, *CARE_KINDS)]
        PresetMenu(self._kind_line(), kinds, tr("usual kinds"))
        self.kind.activated.connect(lambda _: self._show())
        self.zone.activated.connect(lambda _: self._show())
        self.search.textChanged.connect(lambda _: self._soon.start())
        self._soon.timeout.connect(self._show)
        self.table.opened.connect(self._open)
        self.table.removal_asked.connect(self._remove)
        self.table.picked.connect(self._show_buttons)
        self.open_button.clicked.connect(lambda: self._open(self.table.picked_row()))
        self.remove_button.clicked.connect(lambda: self._remove(self.table.picked_row()))

    def _lay_out(self) -> None:
        grid = FieldGrid(3)
        grid.add(tr("Kind"), self.kind)
        grid.add(tr("Zone"), self.zone)
        grid.add(tr("Look for"), self.search)
        below = QHBoxLayout()
        below.addWidget(self._count, 1)
        below.addWidget(self.open_button)
        below.addWidget(self.remove_button)
        self.entry_fold.body.addWidget(Caption(CARE_CAUTION, self, wrap=True))
        self.entry_fold.body.addWidget(self.entry)
        self.entry_fold.say(tr("Ctrl+K notes down anything, from anywhere"))
        self.body.addWidget(self.entry_fold)
        self.body.addLayout(grid)
        for part in (self._trouble, self._empty):
            self.body.addWidget(part)
        self.body.addWidget(self.table, LIST_STRETCH)
        self.body.addLayout(below)
        self.body.addStretch(1)


def _removal(notebook: Notebook, row: LogRow) -> Change:
    """The change that takes an entry out; of a day's weather only the owner's own gauge."""
    if row.table == "weather":
        return rain_noted(notebook, row.on, None)
    return remove(notebook, row.table, row.record_id)
