"""A form built from the fields' rules: entry, checks in place, questions that may be confirmed."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QGridLayout,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.editors import editor_for, is_wide
from lawnbook.desk.form_cells import (
    FormCell,
    FormSetting,
    Trouble,
    questions_last,
    take_given_width,
)
from lawnbook.desk.steps import Steps
from lawnbook.desk.telling import Label, follow_label
from lawnbook.desk.widgets import Caption
from lawnbook.reading import tr
from lawnbook.yard.fields import field_of
from lawnbook.yard.notebook import new_id
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import Record

__all__ = ["FormSetting", "RecordForm"]

RELEASE_MS, FINE_COLUMNS = 30, 8
"""How often a pressed mouse is looked at for its release; from so many columns on they are a grid
that fields span, not places for one field each."""
Check = Callable[[Record], tuple[Problem, ...]]


class RecordForm(QWidget):
    """Editors for some fields of a record class, laid out in columns.

    `check` is asked about the record as it would stand. Signals: `changed` whenever anything is
    typed or chosen, `left(name)` when the owner has finished with a changed field, `entered` on
    Enter in a field. What is wrong outside the fields shown is said once a record is asked for.
    """

    changed = Signal()
    left = Signal(str)
    entered = Signal()

    def __init__(
        self,
        kind: type[Record],
        names: Sequence[str],
        check: Check,
        parent: QWidget | None = None,
        columns: int = 3,
        setting: FormSetting | None = None,
    ) -> None:
        super().__init__(parent)
        self._kind = kind
        self._check = check
        self._base: Record | None = None
        self._given: dict[str, Any] = {}
        self._touched: set[str] = set()
        self._troubles: dict[int, QVBoxLayout] = {}
        setting = setting or FormSetting()
        prefix = setting.prefix
        self._cells = {
            name: FormCell(
                editor_for(field_of(kind, name), prefix, setting.today),
                prefix,
                setting.labels.get(name, ""),
            )
            for name in names
        }
        self._general = Trouble(f"{prefix}form", tr("this"), self)
        self._whole_asked = self._general_lifted = False
        self._columns, self._spans = columns, setting.spans
        self._order = list(names)
        self._guests: dict[str, tuple[Caption, QWidget]] = {}
        self._hidden: frozenset[str] = frozenset()
        self._grid = QGridLayout(self)
        self._lay_out()
        questions_last(self, [*(each.keep for each in self._cells.values()), self._general.keep])
        self._listen()
        self.load(None)

    def load(self, record: Record | None = None, **given: Any) -> None:
        """Show a record, or an empty form for a new one.

        `given` are values of a new record: of fields shown, where they start filled in, and of
        fields that are not shown, such as the zone a watering belongs to.
        """
        self._base = record
        self._given = dict(given)
        self._touched.clear()
        for name, cell in self._cells.items():
            start = given.get(name, cell.editor.info.default)
            cell.editor.write(start if record is None else getattr(record, name))
            cell.keep.setChecked(False)
            cell.show_problem(None)
        self._whole_asked = False
        self._general.keep.setChecked(False)
        self._general.say("", "")

    def follow(self, record: Record) -> None:
        """Take on what else has changed in the record shown; what is typed elsewhere stays."""
        before, self._base = self._base, record
        for name, cell in self._cells.items():
            value = getattr(record, name)
            if before is None or getattr(before, name) != value:
                self._touched.discard(name)
                cell.editor.write(value)
                cell.show_problem(None)

    def offer(self, name: str, choices: Sequence[tuple[str, str]]) -> None:
        """The (id, name) pairs a reference may lead to; KeyError for an unknown field."""
        self._cells[name].editor.offer(choices)

    def editor(self, name: str) -> QWidget:
        """A field's control; KeyError for an unknown field."""
        return self._cells[name].editor.widget

    def set_value(self, name: str, value: Any) -> None:
        """Show another value in one field; what was wrong with the one before is no longer said."""
        self._cells[name].editor.write(value)
        self._cells[name].show_problem(None)
        self._renew_others(name)

    def insert(self, before: str, name: str, label: Label, widget: QWidget) -> None:
        """Set a control of the caller's own among the fields, under a label.

        `name` hides and shows it with the fields. Not for forms of fine columns.
        """
        caption = Caption("", self, wrap=True)
        follow_label(caption, label)
        caption.setBuddy(widget)
        self._guests[name] = (caption, widget)
        self._order.insert(self._order.index(before), name)
        self._lay_out()

    def show_fields(self, names: Collection[str], wanted: bool) -> None:
        """Show some fields or leave them out, not in fine columns; one left out keeps its value."""
        hidden = self._hidden - set(names) if wanted else self._hidden | set(names)
        if hidden != self._hidden:
            self._hidden = frozenset(hidden)
            self._lay_out()

    def retell(self) -> None:
        """Tell labels, values and what is wrong in the owner's units; what is typed stays."""
        boxes = [*(each.keep for each in self._cells.values()), self._general.keep]
        kept = [each for each in boxes if each.isChecked()]
        for cell in self._cells.values():
            cell.tell_again()
        if self._whole_asked or any(cell.in_trouble for cell in self._cells.values()):
            self._show(self._examine()[0])
        for box in kept:
            box.setChecked(box.isVisibleTo(self))

    def lift_trouble(self) -> Trouble:
        """What says what is wrong as a whole, to be set elsewhere than below the fields."""
        self._general_lifted = True
        self._grid.removeWidget(self._general)
        return self._general

    def focus(self, name: str = "") -> None:
        """Put the cursor into a field, the first if none is named."""
        cell = self._cells[name] if name else next(iter(self._cells.values()))
        cell.editor.widget.setFocus(Qt.FocusReason.OtherFocusReason)

    def values(self) -> dict[str, Any]:
        """What is entered, by field. Raises OwnerError about the first that cannot be read."""
        read, unread = self._read()
        if unread:
            raise OwnerError(next(iter(unread.values())).sentence)
        return read

    def readable(self) -> dict[str, Any]:
        """What can be read so far, by field; for live answers while the owner types."""
        return self._read()[0]

    def record(self) -> Record:
        """The record as entered, with the loaded record's id or a fresh one.

        Raises OwnerError when something cannot be kept or has to be confirmed first; the
        sentences then stand under their fields and the first such field has the focus.
        """
        self._touched.update(self._cells)
        self._whole_asked = True
        problems, record = self._examine()
        self._show(problems)
        standing = [each for each in problems if not self._confirmed(each)]
        if record is None or standing:
            self._focus_on(standing)
            raise OwnerError(standing[0].sentence if standing else tr("The form is not complete."))
        return record

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter in a row of steps, a box or a choice counts as in a line."""
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        # A line tells of its Enter itself and then passes the key on; a button has its own use.
        if enter and isinstance(QApplication.focusWidget(), QCheckBox | QComboBox | Steps):
            self.entered.emit()
        else:
            super().keyPressEvent(event)

    def _read(self) -> tuple[dict[str, Any], dict[str, Problem]]:
        read: dict[str, Any] = {}
        unread: dict[str, Problem] = {}
        for name, cell in self._cells.items():
            try:
                read[name] = cell.editor.read()
            except OwnerError as problem:
                if name in self._hidden:
                    read[name] = cell.editor.info.default
                else:
                    unread[name] = Problem("", "", name, "refuse", str(problem))
        return read, unread

    def _examine(self) -> tuple[tuple[Problem, ...], Record | None]:
        """What is wrong, and the record where every field can be read.

        A field that cannot be read is taken as it was loaded or by default, so that the others
        are judged too.
        """
        read, unread = self._read()
        for name in unread:
            info = self._cells[name].editor.info
            stand_in = self._given.get(name, info.default)
            if self._base is not None:
                stand_in = getattr(self._base, name)
            elif info.required and name not in self._given:
                return tuple(unread.values()), None
            read[name] = stand_in
        if self._base is not None:
            record = replace(self._base, **read)
        else:
            hidden = {k: v for k, v in self._given.items() if k not in self._cells}
            record = self._kind(**{"id": new_id(), **hidden, **read})
        problems = tuple(each for each in self._check(record) if _field_name(each) not in unread)
        return (*unread.values(), *problems), None if unread else record

    def _show(self, problems: Sequence[Problem]) -> None:
        by_name, loose = self._sorted(problems)
        for name, cell in self._cells.items():
            cell.show_problem(by_name.get(name) if name in self._touched else None)
        self._show_loose(loose if self._whole_asked else [])

    def _sorted(self, problems: Sequence[Problem]) -> tuple[dict[str, Problem], list[Problem]]:
        """The worst problem of each field that shows, and those outside of them."""
        by_name: dict[str, Problem] = {}
        loose = []
        for problem in problems:
            name = _field_name(problem)
            if self._cell(name) is None:
                loose.append(problem)
            elif name not in by_name or problem.severity == "refuse":
                by_name[name] = problem
        return by_name, loose

    def _show_loose(self, loose: Sequence[Problem]) -> None:
        """Say what is wrong outside the fields shown; another question asks for another tick."""
        worst = [each for each in loose if each.severity == "refuse"] or loose
        words = " ".join(each.sentence for each in worst)
        if words != self._general.sentence.text():
            self._general.keep.setChecked(False)
        self._general.say(words, worst[0].severity if worst else "")

    def _cell(self, name: str) -> FormCell | None:
        """The cell of a field that shows."""
        return None if name in self._hidden else self._cells.get(name)

    def _confirmed(self, problem: Problem) -> bool:
        cell = self._cell(_field_name(problem))
        box = self._general.keep if cell is None else cell.keep
        return problem.severity == "ask" and box.isChecked()

    def _focus_on(self, problems: Sequence[Problem]) -> None:
        for problem in problems:
            cell = self._cell(_field_name(problem))
            keep = self._general.keep if cell is None else cell.keep
            target = keep if problem.severity == "ask" else cell and cell.editor.widget
            if target is not None:
                target.setFocus(Qt.FocusReason.OtherFocusReason)
                return

    def _lay_out(self) -> None:
        """Set the fields and guests that show into the grid, in their order."""
        grid, columns = self._grid, self._columns
        while grid.takeAt(0) is not None:
            pass
        fine = columns >= FINE_COLUMNS
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8 if fine else 12)
        grid.setVerticalSpacing(3)
        for each in range(grid.rowCount()):
            grid.setRowMinimumHeight(each, 0)
        row = column = 0
        for name in self._order:
            span = self._span(name)
            if span and column + span > columns:
                row, column = row + 4, 0
                grid.setRowMinimumHeight(row - 1, 4)
            if name in self._guests:
                self._place_guest(name, (row, column, span))
            else:
                self._place(self._cells[name], (row, column, span), columns if fine else 0)
            column += span
        if not self._general_lifted:
            grid.addWidget(self._general, row + 3, 0, 1, columns)
        for each in range(columns):
            grid.setColumnStretch(each, 1)
            grid.setColumnMinimumWidth(each, 0 if fine else 60)

    def _span(self, name: str) -> int:
        """How many columns a field or guest takes, 0 while it is left out."""
        if name in self._hidden:
            return 0
        wide = name in self._cells and is_wide(self._cells[name].editor.info)
        return min(self._spans.get(name, self._columns if wide else 1), self._columns)

    def _place_guest(self, name: str, place: tuple[int, int, int]) -> None:
        row, column, span = place
        for number, part in enumerate(self._guests[name]):
            part.setVisible(bool(span))
            if span:
                top = Qt.AlignmentFlag.AlignTop if number else Qt.AlignmentFlag.AlignBottom
                self._grid.addWidget(part, row + number, column, 1, span, top)

    def _place(self, cell: FormCell, place: tuple[int, int, int], fine_columns: int) -> None:
        """Put a cell at (row, column, span); in fine columns its trouble takes the row below."""
        grid = self._grid
        row, column, span = place
        if cell.label.text() and span:
            grid.addWidget(cell.label, row, column, 1, span, Qt.AlignmentFlag.AlignBottom)
            cell.label.show()
        else:
            cell.label.setParent(cell)
            cell.label.hide()
        if not span:
            cell.hide()
            return
        grid.addWidget(cell, row + 1, column, 1, span)
        cell.show()
        if not fine_columns:
            return
        take_given_width(cell)
        take_given_width(cell.label)
        if row not in self._troubles:
            holder = QWidget(self)
            self._troubles[row] = QVBoxLayout(holder)
            self._troubles[row].setContentsMargins(0, 0, 0, 0)
            self._troubles[row].setSpacing(2)
            grid.addWidget(holder, row + 2, 0, 1, fine_columns)
        self._troubles[row].addWidget(cell.trouble)

    def _listen(self) -> None:
        for name, cell in self._cells.items():
            cell.editor.edited = partial(self._edited, name)
            cell.editor.left = partial(self._left, name)
            cell.editor.entered = self.entered.emit
            cell.keep.clicked.connect(self.changed)
        self._general.keep.clicked.connect(self.changed)

    def _edited(self, name: str) -> None:
        self._cells[name].keep.setChecked(False)
        self._cells[name].show_problem(None)
        self._renew_others(name)
        self.changed.emit()

    def _renew_others(self, name: str) -> None:
        """Judge anew what is said of other fields: it may have hung on the field that changed."""
        if said := [each for each, cell in self._cells.items() if each != name and cell.in_trouble]:
            by_name, _ = self._sorted(self._examine()[0])
            for each in said:
                self._cells[each].show_problem(by_name.get(each))

    def _left(self, name: str) -> None:
        self._touched.add(name)
        self._show_once_released()
        self.left.emit(name)

    def _show_once_released(self) -> None:
        """Say what is wrong; not under a pressed mouse, or what it presses would move away."""
        if QApplication.mouseButtons() == Qt.MouseButton.NoButton:
            self._show(self._examine()[0])
        else:
            QTimer.singleShot(RELEASE_MS, self, self._show_once_released)


def _field_name(problem: Problem) -> str:
    """The form's field a problem belongs to: the first step of its path."""
    return problem.field.split(".")[0].split("[")[0]
