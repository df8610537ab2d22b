"""What is typed of a new plug, put by while a kept one is looked at, so that it is never lost."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget

from lawnbook.desk.forms import RecordForm
from lawnbook.desk.pages.entry_panel import EntryPanel, EntrySetting
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.records import Core

WHERE_AND_WHEN = frozenset({"spot", "date", "resolution_in", "clock", "ring_in"})
"""Filled in by the program for most plugs: alone they are no draft."""


class PlugDraft:
    """The texts and choices of a form as they stand, readable or not."""

    def __init__(self, form: RecordForm, names: Sequence[str]) -> None:
        self._form = form
        self._names = tuple(names)
        self._texts: dict[str, str] = {}
        self._values: dict[str, Any] = {}

    def put_by(self) -> None:
        """Remember what stands in the form, where the owner has typed anything of the plug."""
        texts = {name: field.text() for name, field in self._lines()}
        values = {k: v for k, v in self._form.readable().items() if k not in texts}
        blank = Core(id="", spot="", date=date.min)
        typed = any(text.strip() for name, text in texts.items() if name not in WHERE_AND_WHEN)
        chosen = any(
            value != getattr(blank, name)
            for name, value in values.items()
            if name not in WHERE_AND_WHEN
        )
        self._texts, self._values = (texts, values) if typed or chosen else ({}, {})

    def take_up(self) -> bool:
        """Put the draft back into the form; False where there is none."""
        if not self._texts:
            return False
        for name, value in self._values.items():
            self._form.set_value(name, value)
        for name, field in self._lines():
            field.setText(self._texts[name])
        self._texts, self._values = {}, {}
        return True

    def _lines(self) -> list[tuple[str, QLineEdit]]:
        editors = ((name, self._form.editor(name)) for name in self._names)
        return [(name, each) for name, each in editors if isinstance(each, QLineEdit)]


class PlugPanel(EntryPanel):
    """The panel of plugs: a new plug half entered is put by while a kept one is in the form."""

    def __init__(
        self, book: OpenNotebook, setting: EntrySetting, parent: QWidget | None = None
    ) -> None:
        super().__init__(book, setting, parent)
        self.draft = PlugDraft(self.form, setting.names)

    def open_record(self, record_id: str) -> None:
        """Bring a kept plug into the form."""
        if not self.is_open:
            self.draft.put_by()
        super().open_record(record_id)
