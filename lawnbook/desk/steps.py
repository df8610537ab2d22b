"""A choice from a few whole numbers side by side, by digits, arrows or clicks."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from lawnbook.desk.roles import check_quietly, hear_as
from lawnbook.desk.widgets import mark_role, name_control
from lawnbook.reading import tr


class Steps(QWidget):
    """A choice from a few whole numbers, or none: type the digit, use the arrows, or click.

    Delete or Backspace, or a click on the chosen step, takes the choice away.
    """

    changed = Signal()

    def __init__(
        self, spoken: str, low: int = 0, high: int = 4, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._spoken = spoken
        self._value: int | None = None
        self._group = QButtonGroup(self)
        self._group.setExclusive(False)
        self._buttons = {number: self._button(number) for number in range(low, high + 1)}
        row = QHBoxLayout(self)
        # The ring of the focus only: the steps are as tall as the fields beside them.
        row.setContentsMargins(2, 2, 2, 2)
        row.setSpacing(2)
        for button in self._buttons.values():
            row.addWidget(button)
        self._meaning = self._told = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        mark_role(self, "steps")
        hear_as(self, "SpinBox")
        self.setAccessibleName(spoken)
        self._tell()

    def value(self) -> int | None:
        """The chosen number, or None."""
        return self._value

    def set_value(self, value: int | None) -> None:
        """Choose a number or none. ValueError if it is not one of the steps."""
        if value is not None and value not in self._buttons:
            raise ValueError(f"{value} is not a step of {self._spoken}")
        for number, button in self._buttons.items():
            check_quietly(button, on=number == value)
        if value != self._value:
            self._value = value
            self._tell()
            self.changed.emit()

    def setAccessibleDescription(self, description: str) -> None:
        """Say what the scale means; which step is chosen is told before it."""
        self._meaning = description.removeprefix(self._told).strip()
        self._tell()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Digits choose, arrows step, Delete and Backspace clear."""
        key, typed = event.key(), event.text()
        numbers = list(self._buttons)
        if typed.isdigit() and int(typed) in self._buttons:
            self.set_value(int(typed))
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.set_value(None)
        elif key in (Qt.Key.Key_Right, Qt.Key.Key_Left):
            step = 1 if key == Qt.Key.Key_Right else -1
            start = numbers[0] - 1 if self._value is None else self._value
            self.set_value(min(max(start + step, numbers[0]), numbers[-1]))
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Repaint with the focus ring."""
        self.update()
        super().focusInEvent(event)

    def _button(self, number: int) -> QPushButton:
        button = QPushButton(str(number), self)
        button.setCheckable(True)
        button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        button.setProperty("role", "step")
        name_control(button, f"step_{number}", f"{self._spoken} {number}")
        self._group.addButton(button, number)
        button.toggled.connect(lambda: self._clicked(number))
        return button

    def _clicked(self, number: int) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self.set_value(None if number == self._value else number)

    def _tell(self) -> None:
        chosen = tr("not chosen") if self._value is None else f"{self._value}"
        span = tr("{first} to {last}", first=min(self._buttons), last=max(self._buttons))
        self._told = tr("{chosen}, of {span}", chosen=chosen, span=span)
        if self._meaning:
            self._told += ". "
        super().setAccessibleDescription(f"{self._told}{self._meaning}")
