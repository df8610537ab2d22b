"""A form whose fields are kept one by one as the owner leaves them: one Change for each field."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QCheckBox, QLineEdit, QVBoxLayout, QWidget

from lawnbook.desk.forms import FormSetting, RecordForm
from lawnbook.desk.widgets import Words
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.fields import field_of
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.problems import OwnerError, Problem
from lawnbook.yard.records import TABLES, Record


class LiveForm(QWidget):
    """Some fields of one record of the notebook. `show_record` says which; there is no button.

    A field that is refused, or questioned and not yet confirmed, stays as typed and is not kept;
    the others are kept all the same.
    """

    def __init__(
        self,
        book: OpenNotebook,
        table: str,
        names: Sequence[str],
        parent: QWidget | None = None,
        columns: int = 3,
        setting: FormSetting | None = None,
    ) -> None:
        super().__init__(parent)
        self._book = book
        self._table = table
        self._prefix = setting.prefix if setting else ""
        self._shown: Record | None = None
        self._waiting: set[str] = set()
        self.form = RecordForm(TABLES[table], names, self._check, self, columns, setting)
        self._trouble = Words("", "refuse", self)
        self._trouble.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.form)
        column.addWidget(self._trouble)
        self.form.left.connect(self._keep)
        self.form.changed.connect(self._keep_confirmed)
        self.setEnabled(False)

    def show_record(self, record_id: str) -> None:
        """Show a record as the notebook holds it; typing not yet kept stays if it is the same."""
        held = self._book.notebook.find(self._table, record_id)
        self.setEnabled(held is not None)
        if held is self._shown:
            return
        before, self._shown = self._shown, held
        if held is not None and before is not None and held.id == before.id:
            self.form.follow(held)
            return
        self._waiting.clear()
        self._trouble.say("")
        self.form.load(held)

    def give_example(self, name: str, example: str) -> None:
        """Show an example in a line while it is empty. KeyError for an unknown field."""
        line = self.form.editor(name)
        if isinstance(line, QLineEdit):
            line.setPlaceholderText(example)

    def _check(self, record: Record) -> tuple[Problem, ...]:
        change = put(self._book.notebook, self._table, record)
        return check(record, apply(self._book.notebook, change), self._book.today)

    def _keep(self, name: str) -> None:
        """Keep one field that was left, unless it is wrong or has to be confirmed first."""
        values = self.form.readable()
        held = self._book.notebook.find(self._table, self._shown.id) if self._shown else None
        if held is None or name not in values:
            return
        record = _with(held, name, values[name])
        theirs = [each for each in self._check(record) if _first_step(each.field) == name]
        if theirs and not self._confirmed(name):
            self._waiting.add(name)
            return
        self._waiting.discard(name)
        self._edit(record, name)

    def _edit(self, record: Record, name: str) -> None:
        # The listeners of the edit show the record again: it must be the one they find.
        before, self._shown = self._shown, record
        words = field_of(type(record), name).rule.label.lower()
        owner = getattr(record, "name", "")
        try:
            self._book.edit(
                put(self._book.notebook, self._table, record),
                tr("{words} of {owner}", words=words, owner=owner) if owner else words,
            )
        except OwnerError as problem:
            self._shown = before
            self._trouble.say(str(problem))
            return
        self._trouble.say("")
        self.form.follow(record)

    def _keep_confirmed(self) -> None:
        for name in sorted(self._waiting):
            if self._confirmed(name):
                self._keep(name)

    def _confirmed(self, name: str) -> bool:
        box = self.form.findChild(QCheckBox, f"{self._prefix}{name}_keep")
        return isinstance(box, QCheckBox) and box.isChecked()


def _first_step(path: str) -> str:
    """The field that a path such as ``blackouts[0].start`` begins with."""
    return re.split(r"[.\[]", path, maxsplit=1)[0]


def _with(record: Record, name: str, value: Any) -> Record:
    changed: Record = replace(record, **{name: value})
    return changed
