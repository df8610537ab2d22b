"""Twelve months of usual weather as a table to type into; each cell kept is one change."""

from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from lawnbook.desk.codecs import kept_amount, parse_amount
from lawnbook.desk.entry import number_shown
from lawnbook.desk.roles import hear_as
from lawnbook.desk.telling import follow_unit
from lawnbook.desk.theme import px
from lawnbook.desk.widgets import Caption, TextField, Words, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.fields import field_of
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.numbers import MONTHS
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import ClimateMonth

ROWS = (
    ("tmean_f", tr("Mean"), "°F"),
    ("eto_in_per_day", tr("ETo"), "in/day"),
    ("rain_in", tr("Rain"), "in"),
)
UNITS = {field: unit for field, _, unit in ROWS}
MOST_TOLD = 3
"""So many wrong figures are explained; of more it is said how many there are."""


class _Cell(TextField):
    """One figure; Esc gives up what is typed."""

    given_up = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc gives up what is typed."""
        if event.key() == Qt.Key.Key_Escape and self.isModified():
            self.given_up.emit()
        else:
            super().keyPressEvent(event)

    def sizeHint(self) -> QSize:
        """Narrow: twelve of them share a page."""
        return QSize(px(34), super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:
        """Room for four characters."""
        return QSize(px(30), super().minimumSizeHint().height())


class ClimateTable(QWidget):
    """Mean temperature, ETo a day and rain for each month, as the notebook holds them."""

    def __init__(
        self, book: OpenNotebook, parent: QWidget | None = None, prefix: str = "climate"
    ) -> None:
        super().__init__(parent)
        self._prefix = prefix
        hear_as(self, "Grouping")
        name_control(self, f"{prefix}_table", tr("Usual weather by month"))
        self._book = book
        self._asked: tuple[int, str, str] | None = None
        self._cells: dict[tuple[int, str], _Cell] = {}
        self._wrong: dict[tuple[int, str], str] = {}
        self._problem = Words("", "refuse", self)
        self._problem.setObjectName(f"{prefix}_problem")
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(2)
        grid.setVerticalSpacing(3)
        for month, words in enumerate(MONTHS, 1):
            head = Caption(tr(words))
            head.setAlignment(Qt.AlignmentFlag.AlignCenter)
            grid.addWidget(head, 0, month)
            grid.setColumnStretch(month, 1)
        for row, (field, words, unit) in enumerate(ROWS, 1):
            head = Caption("", self)
            follow_unit(head, unit, words)
            grid.addWidget(head, row, 0)
            for month in range(1, 13):
                grid.addWidget(self._cell(month, field), row, month)
        grid.addWidget(self._problem, len(ROWS) + 1, 0, 1, 13)
        self._problem.say("")

    def refresh(self) -> None:
        """Show the months as the notebook holds them; what is typed and not kept stays."""
        for key, cell in self._cells.items():
            if key not in self._wrong and not (cell.hasFocus() and cell.isModified()):
                self._show(*key)

    def retell(self) -> None:
        """The figures in the owner's units; what is typed and not kept means what it did."""
        for key, cell in self._cells.items():
            if cell.isModified():
                cell.setText(kept_amount(cell.text(), UNITS[key[1]]))
                cell.setModified(True)
            else:
                self._show(*key)

    def first(self) -> QWidget:
        """The first cell, for who leads the keyboard here."""
        return self._cells[(1, ROWS[0][0])]

    def _cell(self, month: int, field: str) -> _Cell:
        cell = _Cell(self)
        label = field_of(ClimateMonth, field).rule.label
        name_control(cell, f"{self._prefix}_{field}_{month}", f"{tr(MONTHS[month - 1])} {label}")
        mark_role(cell, "cell")
        cell.setAlignment(Qt.AlignmentFlag.AlignCenter)
        cell.editingFinished.connect(partial(self._keep, month, field))
        cell.given_up.connect(partial(self._give_up, month, field))
        self._cells[(month, field)] = cell
        return cell

    def _keep(self, month: int, field: str) -> None:
        cell = self._cells[(month, field)]
        if not cell.isModified():
            return
        text = cell.text().strip()
        try:
            record = self._record(month, field, text)
            self._ask(record, (month, field, text))
            change = put(self._book.notebook, "climate", record)
            cell.setModified(False)
            self._book.edit(change, tr("usual weather of {month}", month=tr(MONTHS[month - 1])))
        except OwnerError as problem:
            cell.setModified(True)
            mark_role(cell, "cell", "refuse")
            self._wrong[(month, field)] = str(problem)
            self._say_wrong()
            return
        self._mended(month, field)

    def _give_up(self, month: int, field: str) -> None:
        self._show(month, field)
        self._mended(month, field)

    def _mended(self, month: int, field: str) -> None:
        self._wrong.pop((month, field), None)
        mark_role(self._cells[(month, field)], "cell")
        self._say_wrong()

    def _say_wrong(self) -> None:
        """What is wrong, a line for each figure in the order of months; of many the first ones."""
        rows = list(UNITS)
        order = sorted(self._wrong, key=lambda key: (rows.index(key[1]), key[0]))
        lines = [self._wrong[key] for key in order[:MOST_TOLD]]
        more = len(order) - MOST_TOLD
        if more > 0:
            lines.append(
                tr("One more is marked.")
                if more == 1
                else tr("{count} more are marked.", count=more)
            )
        self._problem.say("\n".join(lines))

    def _show(self, month: int, field: str) -> None:
        months = {each.month: each for each in self._book.notebook.climate.values()}
        held = getattr(months.get(month), field, None)
        self._cells[(month, field)].setText(
            "" if held is None else number_shown(held, UNITS[field])
        )

    def _record(self, month: int, field: str, text: str) -> ClimateMonth:
        label = f"{tr(MONTHS[month - 1])} {field_of(ClimateMonth, field).rule.label.lower()}"
        unit = "in" if UNITS[field] == "in/day" else UNITS[field]
        value = parse_amount(text, label, unit) if text else None
        held = {each.month: each for each in self._book.notebook.climate.values()}
        base = held.get(month) or ClimateMonth(id=f"{month:02d}", month=month)
        changed: dict[str, Any] = {field: value}
        return replace(base, **changed)

    def _ask(self, record: ClimateMonth, typed: tuple[int, str, str]) -> None:
        """Question a doubtful figure once; the same text left again is meant."""
        notebook = self._book.notebook
        after = apply(notebook, put(notebook, "climate", record))
        problems = check(record, after, self._book.today)
        mine = [each for each in problems if each.field == typed[1]]
        if mine and (mine[0].severity == "refuse" or self._asked != typed):
            self._asked = typed
            again = (
                "" if mine[0].severity == "refuse" else tr(" Press Enter to keep it all the same.")
            )
            month = tr(MONTHS[typed[0] - 1])
            sentence = tr("{month}: {sentence}", month=month, sentence=mine[0].sentence)
            raise OwnerError(sentence + again)
