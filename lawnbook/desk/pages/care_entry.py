"""The entry of care, what was done to the lawn besides water and feed, and the list of it."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from lawnbook.desk.pages.entry_panel import EntryPanel, EntrySetting
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.tool_fields import offer_names
from lawnbook.desk.pages.trend_words import (
    CARE_CAUTION,
    CARE_EMPTY,
    CARE_HEADS,
    care_cells,
    care_spoken,
)
from lawnbook.desk.presets import PresetMenu
from lawnbook.desk.widgets import Caption, LinkButton
from lawnbook.plan.care_marks import CARE_KINDS
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day


class CareEntry(QWidget):
    """What was done, newest first, and the form for more. `compare_asked` tells a care's day."""

    compare_asked = Signal(object)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.panel = EntryPanel(book, self._setting(), self)
        self.panel.table.stretch(3)
        kind = self.panel.form.editor("kind")
        if not isinstance(kind, QLineEdit):
            raise TypeError("the kind of care is no line to type in")
        self._kind = kind
        self._kinds = PresetMenu(kind, [(tr(each), each) for each in CARE_KINDS], tr("usual kinds"))
        self._compare = LinkButton(tr("Compare before and after"), "care_compare", self)
        self._caution = Caption(CARE_CAUTION, self, wrap=True)
        self._caution.setObjectName("care_caution")
        self._lay_out()
        self._compare.clicked.connect(self._ask_compare)
        self.panel.opened.connect(lambda _: self._show_link())
        self.panel.table.picked.connect(lambda _: self._show_link())
        self.refresh()

    def refresh(self) -> None:
        """Show what the notebook holds now; what is being typed stays."""
        notebook = self._book.notebook
        zones = [(each.id, each.name) for each in notebook.zones.values()]
        self.panel.form.offer("zones", zones)
        self.panel.form.show_fields(("zones",), bool(zones))
        offer_names(self._kind, (*CARE_KINDS, *(each.kind for each in notebook.care.values())))
        self.panel.refresh()
        self._show_link()

    def open(self, care_id: str) -> None:
        """Bring a kept entry into the form, and pick it in the list."""
        self.panel.table.pick(care_id)
        self.panel.open_record(care_id)
        self.panel.form.focus("date")

    def _at_hand(self) -> date | None:
        """The day of the entry that is open or picked."""
        record_id = self.panel.open_id or self.panel.table.picked_id()
        care = self._book.notebook.care.get(record_id)
        return care.date if care is not None else None

    def _ask_compare(self) -> None:
        on = self._at_hand()
        if on is not None:
            self.compare_asked.emit(on)

    def _show_link(self) -> None:
        self._compare.setVisible(self._at_hand() is not None)

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="care",
            noun="entry",
            names=("date", "kind", "cost", "no_seed_until", "note", "zones"),
            heads=CARE_HEADS,
            rows=self._rows,
            title=lambda each: tr("{kind} of {date}", kind=tr(each.kind), date=day(each.date)),
            given=lambda: {"date": self._book.today},
            empty=CARE_EMPTY,
            words_columns=(0, 1, 2, 3),
            columns=3,
            spans={"note": 2},
            labels={
                "date": tr("Day"),
                "kind": tr("What was done"),
                "no_seed_until": tr("No seed before, by the label"),
                "zones": tr("Where; the whole yard with none chosen"),
            },
            most_rows=6,
        )

    def _rows(self) -> Sequence[Row]:
        notebook = self._book.notebook
        kept = sorted(notebook.care.values(), key=lambda each: (each.date, each.rank), reverse=True)
        return [
            Row(each.id, care_cells(notebook, each), care_spoken(notebook, each)) for each in kept
        ]

    def _lay_out(self) -> None:
        link = QHBoxLayout()
        link.addWidget(self._compare)
        link.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self._caution)
        column.addWidget(self.panel)
        column.addLayout(link)
