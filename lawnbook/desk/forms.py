"""A form built from the fields' rules: entry, checks in place, questions that may be confirmed."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from typing import Any, cast

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QGridLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.editors import CheckEditor, Editor, NestedEditor, editor_for, is_wide, label_of
from lawnbook.desk.widgets import Caption, Words, name_control
from lawnbook.yard.fields import field_of
from lawnbook.yard.notebook import new_id
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import Record

LINE_HEIGHT = 30
RELEASE_MS = 30
"""How often a pressed mouse is looked at for its release."""
FINE_COLUMNS = 8
"""From so many columns on they are a grid that fields span, not places for one field each."""
Check = Callable[[Record], tuple[Problem, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormSetting:
    """How a form is set.

    `today` is what dates without a year are measured by; controls are named `prefix` + field;
    `spans` says how many columns a field takes.
    """

    today: date | None = None
    prefix: str = ""
    spans: Mapping[str, int] = field(default_factory=dict)


class _Cell(QWidget):
    """One field: its editor with what is wrong below; `label` stands in the grid row above.

    `trouble` holds the sentence and its confirmation; a form of fine columns takes it out of the
    cell and gives it the whole row.
    """

    def __init__(self, editor: Editor, prefix: str) -> None:
        super().__init__()
        self.editor = editor
        name = editor.info.name
        self.trouble = QWidget(self)
        self.sentence = Words("", "refuse", self.trouble)
        self.sentence.setObjectName(f"{prefix}{name}_problem")
        self.keep = QCheckBox("Keep it all the same", self.trouble)
        spoken = f"Keep {editor.info.rule.label} all the same"
        name_control(self.keep, f"{prefix}{name}_keep", spoken)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        self.label = Caption("", wrap=True)
        if not isinstance(editor, NestedEditor | CheckEditor):
            self.label.setText(label_of(editor.info))
            self.label.setBuddy(editor.widget)
            self.label.setToolTip(editor.widget.toolTip())
        if isinstance(editor, CheckEditor):
            editor.widget.setMinimumHeight(LINE_HEIGHT)
        column.addWidget(editor.widget)
        column.addWidget(self.trouble)
        column.addStretch(1)
        below = QVBoxLayout(self.trouble)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(2)
        below.addWidget(self.sentence)
        below.addWidget(self.keep)
        self.show_problem(None)

    def show_problem(self, problem: Problem | None) -> None:
        """Show what is wrong below the editor, or that nothing is."""
        severity = "" if problem is None else problem.severity
        self.sentence.say("" if problem is None else problem.sentence, severity or "refuse")
        self.trouble.setVisible(bool(severity))
        self.keep.setVisible(severity == "ask")
        if severity != "ask":
            self.keep.setChecked(False)
        self.editor.set_state("" if severity == "ask" and self.keep.isChecked() else severity)


class RecordForm(QWidget):
    """Editors for some fields of a record class, laid out in columns.

    `check` is asked about the record as it would stand. Signals: `changed` whenever anything is
    typed or chosen, `left(name)` when the owner has finished with a changed field, `entered` on
    Enter in a line.
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
            name: _Cell(editor_for(field_of(kind, name), prefix, setting.today), prefix)
            for name in names
        }
        self._general = Words("", "refuse", self)
        self._general.setObjectName(f"{prefix}form_problem")
        self._lay_out(columns, setting.spans)
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
        self._general.say("")

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
        """Show another value in one field."""
        self._cells[name].editor.write(value)

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
        problems, record = self._examine()
        self._show(problems)
        standing = [each for each in problems if not self._confirmed(each)]
        if record is None or standing:
            self._focus_on(standing)
            raise OwnerError(standing[0].sentence if standing else "The form is not complete.")
        return record

    def _read(self) -> tuple[dict[str, Any], dict[str, Problem]]:
        read: dict[str, Any] = {}
        unread: dict[str, Problem] = {}
        for name, cell in self._cells.items():
            try:
                read[name] = cell.editor.read()
            except OwnerError as problem:
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
        by_name: dict[str, Problem] = {}
        loose = []
        for problem in problems:
            name = _field_name(problem)
            if name not in self._cells:
                loose.append(problem.sentence)
            elif name not in by_name or problem.severity == "refuse":
                by_name[name] = problem
        for name, cell in self._cells.items():
            cell.show_problem(by_name.get(name) if name in self._touched else None)
        self._general.say(" ".join(loose))

    def _confirmed(self, problem: Problem) -> bool:
        cell = self._cells.get(_field_name(problem))
        return problem.severity == "ask" and (cell is None or cell.keep.isChecked())

    def _focus_on(self, problems: Sequence[Problem]) -> None:
        for problem in problems:
            cell = self._cells.get(_field_name(problem))
            if cell is not None:
                target = cell.keep if problem.severity == "ask" else cell.editor.widget
                target.setFocus(Qt.FocusReason.OtherFocusReason)
                return

    def _lay_out(self, columns: int, spans: Mapping[str, int]) -> None:
        grid = QGridLayout(self)
        fine = columns >= FINE_COLUMNS
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8 if fine else 12)
        grid.setVerticalSpacing(3)
        row = column = 0
        for name, cell in self._cells.items():
            wide = columns if is_wide(cell.editor.info) else 1
            span = min(spans.get(name, wide), columns)
            if column + span > columns:
                row, column = row + 4, 0
                grid.setRowMinimumHeight(row - 1, 4)
            self._place(cell, (row, column, span), columns if fine else 0)
            column += span
        grid.addWidget(self._general, row + 3, 0, 1, columns)
        for each in range(columns):
            grid.setColumnStretch(each, 1)
            grid.setColumnMinimumWidth(each, 0 if fine else 60)

    def _place(self, cell: _Cell, place: tuple[int, int, int], fine_columns: int) -> None:
        """Put a cell at (row, column, span); in fine columns its trouble takes the row below."""
        grid = cast(QGridLayout, self.layout())
        row, column, span = place
        if cell.label.text():
            grid.addWidget(cell.label, row, column, 1, span, Qt.AlignmentFlag.AlignBottom)
        else:
            cell.label.setParent(cell)
            cell.label.hide()
        grid.addWidget(cell, row + 1, column, 1, span)
        if not fine_columns:
            return
        _take_given_width(cell)
        _take_given_width(cell.label)
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

    def _edited(self, name: str) -> None:
        self._cells[name].keep.setChecked(False)
        self._cells[name].show_problem(None)
        self.changed.emit()

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


def _take_given_width(widget: QWidget) -> None:
    """Let the grid alone decide a width, so that its columns stay even."""
    widget.setSizePolicy(QSizePolicy.Policy.Ignored, widget.sizePolicy().verticalPolicy())


def _field_name(problem: Problem) -> str:
    """The form's field a problem belongs to: the first step of its path."""
    return problem.field.split(".")[0].split("[")[0]
