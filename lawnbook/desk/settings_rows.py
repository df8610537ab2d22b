"""What the Settings leaf is set from: a card of rows, each with its control and its default."""

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QGridLayout, QHBoxLayout, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import (
    Caption,
    Card,
    TextField,
    Words,
    mark_role,
    name_control,
)
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

LABEL_PX, CONTROL_PX = 150, 190
Value = TypeVar("Value")


class SettingsCard(Card):
    """A card of settings: what is set, the control, and how it was at first."""

    def __init__(self, heading: str, parent: QWidget) -> None:
        super().__init__(heading, parent)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(14)
        self._grid.setVerticalSpacing(9)
        self._grid.setColumnStretch(2, 1)
        self.body.addLayout(self._grid)

    def add_row(self, label: str, control: QWidget, note: str, *beside: QWidget) -> Caption:
        """Add a row; the note below or beside it names the default. The note is given back."""
        row = self._grid.rowCount()
        words = Words(label, "", self)
        words.setBuddy(control)
        sized(words, width=LABEL_PX)
        said = Caption(note, self, wrap=True)
        control.setAccessibleDescription(note)
        top = Qt.AlignmentFlag.AlignVCenter
        self._grid.addWidget(words, row, 0, top)
        if not beside:
            self._grid.addWidget(control, row, 1, top)
            self._grid.addWidget(said, row, 2, top)
            return said
        line = QHBoxLayout()
        line.setSpacing(10)
        line.addWidget(control, 1)
        for each in beside:
            line.addWidget(each)
        self._grid.addLayout(line, row, 1, 1, 2)
        self._grid.addWidget(said, row + 1, 1, 1, 2)
        return said


class Choice(ChoiceBox, Generic[Value]):
    """A list of a few values; `pick` is called when the owner takes another."""

    def __init__(
        self,
        name: str,
        spoken: str,
        values: Sequence[tuple[Value, str]],
        pick: Callable[[Value], None],
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        name_control(self, f"setting_{name}", spoken)
        self._values = [value for value, _ in values]
        self.addItems([words for _, words in values])
        sized(self, width=CONTROL_PX)
        self.activated.connect(lambda row: pick(self._values[row]))

    def show_value(self, value: Value) -> None:
        """Show what is set now; tells nobody."""
        if value in self._values:
            self.setCurrentIndex(self._values.index(value))


class LengthField(TextField):
    """A length that is kept on leaving the field; what cannot be kept is said in `said`."""

    def __init__(
        self,
        name: str,
        spoken: str,
        keep: Callable[[str], None],
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        name_control(self, f"setting_{name}", spoken)
        sized(self, width=CONTROL_PX)
        self._keep = keep
        self.shown = ""
        self.said: Words | None = None
        self.editingFinished.connect(self._leave)

    def show_text(self, text: str) -> None:
        """Show what is set now, unless something that cannot be kept is being typed."""
        if self.property("state") != "refuse":
            self.shown = text
            self.setText(text)

    def _leave(self) -> None:
        if self.text() == self.shown:
            self._judge("")
            return
        try:
            self._keep(self.text())
        except OwnerError as problem:
            self._judge(str(problem))
        else:
            self._judge("")
            self.shown = self.text()

    def _judge(self, refused: str) -> None:
        mark_role(self, "", "refuse" if refused else "")
        if self.said is not None:
            self.said.say(refused)


class Tick(QCheckBox):
    """A yes or no; `pick` is called when the owner changes it."""

    def __init__(
        self, name: str, words: str, pick: Callable[[bool], None], parent: QWidget
    ) -> None:
        super().__init__(words, parent)
        name_control(self, f"setting_{name}", words)
        self.toggled.connect(pick)


def at_first(default: str) -> str:
    """The words that name a default."""
    return tr("At first: {default}", default=default)
