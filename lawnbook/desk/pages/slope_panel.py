"""Before and after a day, and treated beside untreated: slopes with their difference."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk import entry
from lawnbook.desk.line_fields import DayField
from lawnbook.desk.pages.page import beside
from lawnbook.desk.pages.trend_words import (
    CHANGE_HEADS,
    MARK_STRIP,
    STRIP_HEADS,
    care_preset,
    change_described,
    change_rows,
    done_on,
    first_split,
    strip_described,
    strip_rows,
)
from lawnbook.desk.pages.water_figures import FigureTable, Notes
from lawnbook.desk.presets import PresetMenu
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Words, mark_role, name_control
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.plug_model import CareMark, Evidence, Place, SlopeChange
from lawnbook.plan.slope_changes import NO_STRIP, SEE_STRIP, change_at
from lawnbook.plan.strip_comparison import against_strip
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError

NO_DAY = tr("Choose a day, or note below what was done: its day is then in the list of this field.")


class SlopePanel(QWidget):
    """The trend before and after a day. `split_moved` tells that another day is compared.

    The day is the owner's, once one was entered; until then the first care with plugs around it.
    """

    split_moved = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._shown: tuple[date, Place] | None = None
        self._is_own = False
        self.split: date | None = None
        """The day that is compared, None while there is none."""
        self._field = DayField(book.today, self)
        name_control(self._field, "split_day", tr("Compare before and after this day"))
        sized(self._field, width=150)
        self._menu = PresetMenu(self._field, (), tr("what was done"))
        self._care: tuple[CareMark, ...] = ()
        self._done = Caption("", self, wrap=True)
        self._done.setObjectName("split_done")
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName("split_trouble")
        self._table = FigureTable("change_figures", tr("Slope before and after"))
        self._words = Words("", "", self)
        self._words.setObjectName("change_words")
        self._working = WorkingLink(tr("working"), "change_working", self)
        self._proof = Words(NO_STRIP, "ask", self)
        self._proof.setObjectName("change_proof")
        self._lay_out()
        self._working.stand_for(self._table, self._words, self._proof)
        self._field.editingFinished.connect(self._entered)

    def show_place(
        self, on: date, place: Place, evidence: Evidence | None, care: Sequence[CareMark]
    ) -> None:
        """Show a place as it stood on a day."""
        self._shown = (on, place)
        self._care = tuple(care)
        self._menu.offer([care_preset(each) for each in reversed(care)])
        # What is typed and cannot be read yet stays.
        if not self._is_own and not self._field.isModified():
            self._take(first_split(evidence, care) if evidence is not None else None)
        self._show_change()

    def compare(self, split: date | None) -> None:
        """Compare before and after another day, or none; it stays whatever place is looked at."""
        self._is_own = True
        self._take(split)
        self._show_change()
        self.split_moved.emit()

    def change(self) -> SlopeChange | None:
        """What the plugs show about the day, None while there is none."""
        if self._shown is None or self.split is None:
            return None
        on, place = self._shown
        return change_at(self._book.notebook, on, place, self.split)

    def _take(self, split: date | None) -> None:
        self.split = split
        self._trouble.say("")
        mark_role(self._field, "")
        self._field.setText("" if split is None else entry.format_day(split))

    def _entered(self) -> None:
        typed = self._field.text().strip()
        if typed == ("" if self.split is None else entry.format_day(self.split)):
            self._take(self.split)
            self._done.say(done_on(self._care, self.split))
            return
        try:
            split = entry.parse_day(typed, self._book.today) if typed else None
        except OwnerError as problem:
            self._done.say("")
            self._trouble.say(str(problem))
            mark_role(self._field, "", "refuse")
            return
        self.compare(split)

    def _show_change(self) -> None:
        change = self.change()
        self._done.say(done_on(self._care, self.split))
        self._table.setVisible(change is not None)
        self._words.say(NO_DAY if change is None else change.words)
        working = change.working if change is not None else None
        self._working.set_workings(() if working is None else (working,))
        if change is not None:
            self._table.show_rows(CHANGE_HEADS, change_rows(change), change_described(change))
        self._proof.say(self._proof_without_day() if change is None else change.proof)

    def _proof_without_day(self) -> str:
        any_strip = any(each.comparison for each in self._book.notebook.spots.values())
        return SEE_STRIP if any_strip else NO_STRIP

    def summary(self) -> str:
        """The day in short, for the heading of the part."""
        return (
            tr("no day chosen")
            if self.split is None
            else tr("about {split}", split=day(self.split))
        )

    def _lay_out(self) -> None:
        caption = Caption(tr("Day compared"), self)
        caption.setBuddy(self._field)
        head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(caption)
        head.addWidget(self._field)
        head.addWidget(self._done, 1)
        head.addWidget(self._trouble, 1)
        # Hidden words leave the room beside the field to the stretch.
        head.addStretch(0)
        _stack(self, (head, self._table, beside(self._words, self._working), self._proof))


class StripPanel(QWidget):
    """The treated spots of a place beside its untreated comparison strip."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.summary = ""
        """The strip in short, for the heading of the part."""
        self._table = FigureTable("strip_figures", tr("Slope of treated and untreated spots"))
        self._words = Words("", "", self)
        self._words.setObjectName("strip_words")
        self._working = WorkingLink(tr("working"), "strip_working", self)
        self._proof = Words("", "ask", self)
        self._proof.setObjectName("strip_proof")
        self._notes = Notes("strip_notes", self)
        said = beside(self._words, self._working)
        _stack(self, (self._table, said, self._proof, self._notes))
        self._working.stand_for(self._table, self._words, self._proof, self._notes)

    def show_place(self, on: date, place: Place) -> None:
        """Show a place as it stood on a day, or how a comparison strip is marked."""
        strip = against_strip(self._book.notebook, on, place)
        self._table.setVisible(strip is not None)
        self._words.say(MARK_STRIP if strip is None else strip.words)
        self._proof.say("" if strip is None else strip.proof)
        self._notes.say(() if strip is None else strip.notes)
        working = strip.working if strip is not None else None
        self._working.set_workings(() if working is None else (working,))
        self.summary = (
            tr("none yet")
            if strip is None
            else tr("untreated: {untreated}", untreated=", ".join(strip.untreated))
        )
        if strip is not None:
            self._table.show_rows(STRIP_HEADS, strip_rows(strip), strip_described(strip))


def _stack(widget: QWidget, parts: Sequence[QWidget | QHBoxLayout]) -> None:
    column = QVBoxLayout(widget)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(8)
    for part in parts:
        if isinstance(part, QWidget):
            column.addWidget(part)
        else:
            column.addLayout(part)
