"""Fields of the tools: a caption above each, in even columns, and names that were typed before."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCompleter, QGridLayout, QLineEdit, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.tool_words import rate_unit_words
from lawnbook.desk.telling import Label, follow_label
from lawnbook.desk.widgets import Caption


class FieldGrid(QGridLayout):
    """Fields in even columns, each under its caption; rows are filled from left to right."""

    def __init__(self, columns: int) -> None:
        super().__init__()
        self._columns = columns
        self._row = self._column = 0
        self.setHorizontalSpacing(12)
        self.setVerticalSpacing(3)
        for each in range(columns):
            self.setColumnStretch(each, 1)
            self.setColumnMinimumWidth(each, 40)

    def add(self, label: Label, field: QWidget, span: int = 1) -> None:
        """Set a field under its caption; one that does not fit begins a row."""
        if self._column + span > self._columns:
            self._row, self._column = self._row + 2, 0
        caption = Caption("", wrap=True)
        follow_label(caption, label)
        caption.setBuddy(field)
        self.addWidget(caption, self._row, self._column, 1, span, Qt.AlignmentFlag.AlignBottom)
        self.addWidget(field, self._row + 1, self._column, 1, span)
        self._column += span


def offer(box: ChoiceBox, choices: Sequence[tuple[str, str]], wanted: str = "") -> None:
    """Fill a choice with (id, words); what was chosen stays, else `wanted`, else the first."""
    held = box.currentData()
    box.blockSignals(True)
    box.clear()
    for each, words in choices:
        box.addItem(words, each)
    ids = [each for each, _ in choices]
    chosen = next((each for each in (held, wanted) if each in ids), ids[0] if ids else None)
    box.setCurrentIndex(ids.index(chosen) if chosen is not None else -1)
    box.blockSignals(False)


def fill_rate_units(box: ChoiceBox) -> None:
    """Word the units of a rate that a choice offers as the owner reads them."""
    for row in range(box.count()):
        box.setItemText(row, rate_unit_words(box.itemData(row)))


def offer_names(field: QWidget, names: Iterable[str]) -> None:
    """Propose names that were typed before, while one is typed."""
    if not isinstance(field, QLineEdit):
        raise TypeError(f"{field.objectName()} is no line to type in")
    wanted = sorted({name.strip() for name in names if name.strip()}, key=str.casefold)
    before = field.completer()
    if before is not None:
        if before.property("names") == wanted:
            return
        before.deleteLater()
    made = QCompleter(wanted, field)
    made.setProperty("names", wanted)
    made.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
    made.setFilterMode(Qt.MatchFlag.MatchContains)
    field.setCompleter(made)
