"""One editor for each sort of field: made from the field's type and rule, never by hand."""

from collections.abc import Callable, Sequence
from dataclasses import is_dataclass
from datetime import date
from typing import Any, Literal, get_args, get_origin

from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk import entry
from lawnbook.desk.codecs import Parse, Show, codec_of, kept_text
from lawnbook.desk.helping import help_of
from lawnbook.desk.line_fields import ChoiceBox, DayField, TimeZoneField
from lawnbook.desk.roles import check_quietly, grouping
from lawnbook.desk.steps import Steps
from lawnbook.desk.widgets import Caption, TextField, clear_layout, mark_role, name_control
from lawnbook.reading import reading, tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.fields import FieldInfo, choices_of, fields_of, without_none
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Season

NOT_CHOSEN = "–"
MOST_BESIDE = 3
"""More fields of a small record than this do not find room on one line."""
TICK_ROW, TICK_EDGES = 72, 4
"""How many letters a row of ticks has room for, and what the edges of one take of them."""


class Editor:
    """What a form asks of every editor; `edited` and `left` are called as the owner works."""

    def __init__(self, info: FieldInfo, widget: QWidget) -> None:
        self.info = info
        self.widget = widget
        self._help = help_of(info)
        self.edited: Callable[[], None] = _nothing
        self.left: Callable[[], None] = _nothing
        self.entered: Callable[[], None] = _nothing

    def read(self) -> Any:
        """The value as the record holds it. Raises OwnerError with the mend."""
        raise NotImplementedError

    def write(self, value: Any) -> None:
        """Show a value, or nothing for None."""
        raise NotImplementedError

    def offer(self, choices: Sequence[tuple[str, str]]) -> None:
        """Take the (id, name) pairs a reference may lead to; only choices have a use for them."""

    def tell_again(self) -> None:
        """Name the unit that the owner reads now, and show in it what was not touched."""
        before, self._help = self._help, help_of(self.info)
        widget = self.widget
        widget.setAccessibleName(_spoken(self.info))
        if before != self._help:
            # What is listed at the field's end has been told behind the help.
            widget.setToolTip(widget.toolTip().replace(before, self._help))
            described = widget.accessibleDescription().replace(before, self._help)
            widget.setAccessibleDescription(described)

    def set_state(self, state: str) -> None:
        """Mark the editor as "refuse", "ask" or neither."""
        mark_role(self.widget, self.widget.property("role") or "", state)


class TextEditor(Editor):
    """A line of text read by one function and shown by another.

    Text that was not touched gives the loaded value back as it was, to the last digit.
    """

    def __init__(self, info: FieldInfo, field: TextField, parse: Parse, show: Show) -> None:
        super().__init__(info, field)
        self._field = field
        self._parse, self._show = parse, show
        self._loaded: tuple[str, Any] = ("", None)
        self._left_text, self._told_in = "", reading().units
        field.textEdited.connect(lambda _: self.edited())
        field.editingFinished.connect(self._finished)
        field.returnPressed.connect(self._pressed_enter)

    def read(self) -> Any:
        """The parsed text, or what an empty field stands for."""
        text = self._field.text().strip()
        if text == self._loaded[0] and text:
            return self._loaded[1]
        return self._parse(text) if text else blank(self.info)

    def write(self, value: Any) -> None:
        """Show a value; None and empty lists show nothing."""
        text = "" if value is None or value == () else self._show(value)
        self._field.setText(text)
        self._loaded = (text.strip(), value)
        self._left_text = text

    def tell_again(self) -> None:
        """Show the loaded value in the owner's unit; what was typed keeps the unit it had."""
        super().tell_again()
        text = self._field.text()
        if text.strip() == self._loaded[0]:
            self.write(self._loaded[1])
        else:
            unit, since = self.info.rule.unit, self._told_in
            self._field.setText(kept_text(text, self._parse, unit, since))
        self._told_in = reading().units

    def _pressed_enter(self) -> None:
        self.entered()

    def _finished(self) -> None:
        if self._field.text() != self._left_text:
            self._left_text = self._field.text()
            self.left()


class ChoiceEditor(Editor):
    """One of a few words, or of the records a reference may lead to."""

    def __init__(self, info: FieldInfo, box: ChoiceBox) -> None:
        super().__init__(info, box)
        self._box = box
        self._value: Any = None
        self.offer([(word, tr(word)) for word in choices_of(info.type)])
        box.activated.connect(self._picked)

    def offer(self, choices: Sequence[tuple[str, str]]) -> None:
        """Fill the list; what was chosen stays chosen."""
        self._box.blockSignals(True)
        self._box.clear()
        if not self.info.required and type(None) in get_args(self.info.type):
            self._box.addItem(NOT_CHOSEN, None)
        for held, shown in choices:
            self._box.addItem(shown, held)
        self._box.blockSignals(False)
        self.write(self._value)

    def read(self) -> Any:
        """The chosen id or word."""
        value = self._box.currentData()
        return value if value is not None else blank(self.info)

    def write(self, value: Any) -> None:
        """Choose by id or word; an unknown one chooses nothing."""
        self._value = value
        self._box.setCurrentIndex(self._box.findData(value) if value is not None else 0)

    def _picked(self) -> None:
        self._value = self._box.currentData()
        self.edited()
        self.left()


class CheckEditor(Editor):
    """Yes or no."""

    def __init__(self, info: FieldInfo, box: QCheckBox) -> None:
        super().__init__(info, box)
        self._box = box
        box.toggled.connect(lambda: (self.edited(), self.left()))

    def read(self) -> Any:
        """Whether it is ticked."""
        return self._box.isChecked()

    def write(self, value: Any) -> None:
        """Tick it or not; None shows the default."""
        check_quietly(self._box, on=bool(self.info.default if value is None else value))


class StepsEditor(Editor):
    """A small whole number on a scale."""

    def __init__(self, info: FieldInfo, steps: Steps) -> None:
        super().__init__(info, steps)
        self._steps = steps
        self._silent = False
        steps.changed.connect(self._changed)

    def read(self) -> Any:
        """The chosen step or None."""
        return self._steps.value()

    def write(self, value: Any) -> None:
        """Choose a step without telling anybody."""
        self._silent = True
        self._steps.set_value(value)
        self._silent = False

    def _changed(self) -> None:
        if not self._silent:
            self.edited()
            self.left()


class TicksEditor(Editor):
    """Several of a few words or records, each a button that stays down; rows as needed."""

    def __init__(self, info: FieldInfo, holder: QWidget) -> None:
        super().__init__(info, holder)
        self._rows = QVBoxLayout(holder)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(4)
        self._buttons: dict[str, QPushButton] = {}
        self._offered: tuple[tuple[str, str], ...] = ()
        self._unknown: tuple[str, ...] = ()
        words = get_args(get_args(info.type)[0])
        self.offer([(word, tr(word)) for word in words])

    def offer(self, choices: Sequence[tuple[str, str]]) -> None:
        """Fill the rows; what is chosen stays chosen."""
        if tuple(choices) == self._offered:
            return
        chosen = (*self.read(), *self._unknown)
        self._offered = tuple(choices)
        clear_layout(self._rows)
        self._buttons = {held: self._button(held, shown) for held, shown in choices}
        room = 0
        row = QHBoxLayout()
        for button in self._buttons.values():
            taken = len(button.text()) + TICK_EDGES
            if taken > room:
                row, room = self._new_row(), TICK_ROW
            row.insertWidget(row.count() - 1, button)
            room -= taken
        self.write(chosen)

    def read(self) -> Any:
        """What is chosen, in the order offered."""
        return tuple(held for held, button in self._buttons.items() if button.isChecked())

    def write(self, value: Any) -> None:
        """Choose these and no others."""
        chosen = tuple(value or ())
        self._unknown = tuple(each for each in chosen if each not in self._buttons)
        for held, button in self._buttons.items():
            check_quietly(button, on=held in chosen)

    def _button(self, held: str, shown: str) -> QPushButton:
        button = QPushButton(shown, self.widget)
        button.setCheckable(True)
        name_control(button, f"{self.info.name}_{held}", f"{self.info.rule.label} {shown}")
        button.toggled.connect(lambda: (self.edited(), self.left()))
        return button

    def _new_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(4)
        row.addStretch(1)
        self._rows.addLayout(row)
        return row


class NestedEditor(Editor):
    """A small record inside a record: its fields side by side, four and more in rows of two.

    All blank stands for none.
    """

    def __init__(self, info: FieldInfo, holder: QWidget, today: date | None) -> None:
        super().__init__(info, holder)
        self._kind: Any = without_none(info.type)
        self._editors: dict[str, Editor] = {}
        self._labels: dict[str, Caption] = {}
        self._default = {each.name: each.default for each in fields_of(self._kind)}
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(3)
        several = fields_of(self._kind)
        columns = 2 if len(several) > MOST_BESIDE else len(several)
        for place, each in enumerate(several):
            row, column = 2 * (place // columns), place % columns
            editor = editor_for(each, f"{info.name}_", today)
            editor.edited, editor.left, editor.entered = self._edited, self._left, self._entered
            label = self._labels[each.name] = Caption(label_of(each))
            label.setBuddy(editor.widget)
            grid.addWidget(label, row, column)
            grid.addWidget(editor.widget, row + 1, column)
            grid.setColumnStretch(column, 1)
            self._editors[each.name] = editor

    @property
    def parts(self) -> dict[str, Editor]:
        """The editors of its fields, by name."""
        return self._editors

    def read(self) -> Any:
        """The small record, or None when nothing is entered."""
        texts = [
            e.widget.text()
            for e in self._editors.values()
            if isinstance(e, TextEditor) and isinstance(e.widget, TextField)
        ]
        others = {
            name: editor.read()
            for name, editor in self._editors.items()
            if not isinstance(editor, TextEditor)
        }
        untouched = all(value == self._default[name] for name, value in others.items())
        if untouched and not any(text.strip() for text in texts):
            return None
        return self._kind(**{name: editor.read() for name, editor in self._editors.items()})

    def write(self, value: Any) -> None:
        """Show the small record; None shows the defaults."""
        for name, editor in self._editors.items():
            editor.write(self._default[name] if value is None else getattr(value, name))

    def tell_again(self) -> None:
        """Tell every field of the small record again."""
        for name, editor in self._editors.items():
            self._labels[name].setText(label_of(editor.info))
            editor.tell_again()

    # The form sets its listeners after this editor is made, so they are looked up when needed.
    def _edited(self) -> None:
        self.edited()

    def _left(self) -> None:
        self.left()

    def _entered(self) -> None:
        self.entered()


def editor_for(info: FieldInfo, prefix: str = "", today: date | None = None) -> Editor:
    """The editor of a field. TypeError for a type that has none (outlines, tables by zone)."""
    made = _make(info, today)
    told = help_of(info)
    name_control(made.widget, f"{prefix}{info.name}", _spoken(info), told)
    if told and not made.widget.toolTip():
        made.widget.setToolTip(told)
    return made


def label_of(info: FieldInfo) -> str:
    """The words above a field: its label and the owner's unit, but not "Minutes, min"."""
    label, unit = info.rule.label, info.rule.unit
    return label if label.lower().startswith(unit) else f"{label}, {unit_shown(unit)}"


def blank(info: FieldInfo) -> Any:
    """What an empty field stands for. Raises OwnerError where something is needed."""
    if info.required:
        raise OwnerError(tr("{label} is missing; enter it here.", label=info.rule.label))
    return info.default


def is_wide(info: FieldInfo) -> bool:
    """Whether a field wants the whole width: notes, lists of buttons, small records."""
    bare = without_none(info.type)
    nested = is_dataclass(bare) and bare is not Season
    many = get_origin(bare) is tuple and get_args(bare)[0] is not float
    return nested or many or info.name == "note"


def _make(info: FieldInfo, today: date | None) -> Editor:
    bare = without_none(info.type)
    if bare is bool:
        return CheckEditor(info, QCheckBox(info.rule.label))
    if choices_of(info.type) or (bare is str and info.rule.refers_to):
        return ChoiceEditor(info, ChoiceBox())
    if bare is int and info.rule.low == 0 and info.rule.high == 4:
        return StepsEditor(info, Steps(info.rule.label, 0, 4))
    if get_origin(bare) is tuple and _many_words(bare, info):
        return TicksEditor(info, grouping())
    if is_dataclass(bare) and bare is not Season:
        return NestedEditor(info, grouping(), today)
    if bare is date:
        return TextEditor(
            info, DayField(today), lambda text: entry.parse_day(text, today), entry.format_day
        )
    parse, show = codec_of(info, bare)
    field = TimeZoneField() if info.rule.kind == "time_zone" else TextField()
    if bare is Season:
        field.setPlaceholderText(tr("15 Apr to 15 Oct"))
    return TextEditor(info, field, parse, show)


def _many_words(bare: Any, info: FieldInfo) -> bool:
    first = get_args(bare)[0]
    return get_origin(first) is Literal or (first is str and bool(info.rule.refers_to))


def _spoken(info: FieldInfo) -> str:
    return f"{info.rule.label} {unit_shown(info.rule.unit)}".strip()


def _nothing() -> None:
    """What an editor tells before a form listens."""
