"""A row of captioned lines to type in, with one place below for what is wrong with them."""

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.telling import Label, captioned, either, follow_label, follow_name, words_of
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, Words, mark_role, name_control
from lawnbook.yard.problems import OwnerError


class WrongLineError(OwnerError):
    """What cannot be kept of one line: what is wrong with it, and the line's name."""

    def __init__(self, sentence: str, line: str) -> None:
        super().__init__(sentence)
        self.line = line


class TypedLine(TextField):
    """One line: `settled` on Enter, or when it is left with something new in it; Esc gives up."""

    settled = Signal()
    given_up = Signal()

    def __init__(self, object_name: str, spoken: str, parent: QWidget) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self.shown = self.unit = ""
        sized(self, least_width=56)
        self.editingFinished.connect(self._finished)
        self.textEdited.connect(lambda _: mark_role(self, "", ""))

    def show_text(self, text: str) -> None:
        """Show a value; what was typed is gone."""
        self.shown = text
        self.setText(text)
        self.setModified(False)
        mark_role(self, "", "")

    def retell(self) -> None:
        """What is typed and not settled means what it did; what is shown, its owner shows."""
        if self.unit and self.text() != self.shown:
            self.setText(kept_amount(self.text(), self.unit))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc gives back what was shown; Enter is this line's own."""
        if event.key() == Qt.Key.Key_Escape and self.text() != self.shown:
            self.show_text(self.shown)
            self.given_up.emit()
            return
        super().keyPressEvent(event)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            event.accept()

    def _finished(self) -> None:
        if self.isModified() and self.text() != self.shown:
            self.settled.emit()


class TypedRow(QWidget):
    """Lines by their names. `edited` tells every key stroke, `settled` the line that was left."""

    edited = Signal()
    settled = Signal(str)
    given_up = Signal()

    def __init__(self, prefix: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._prefix = prefix
        self.lines: dict[str, TypedLine] = {}
        self._captions: dict[QWidget, Caption] = {}
        self._row = QHBoxLayout()
        self._row.setSpacing(10)
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName(f"{prefix}_problem")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        column.addLayout(self._row)
        column.addWidget(self._trouble)

    def add_line(self, name: str, caption: Label, spoken: Label, width: int = 96) -> TypedLine:
        """A line to type in under its caption."""
        line = TypedLine(f"{self._prefix}_{name}", words_of(spoken), self)
        follow_name(line, line.objectName(), lambda: words_of(spoken))
        sized(line, most_width=width)
        line.textEdited.connect(lambda _: self.edited.emit())
        line.settled.connect(lambda: self.settled.emit(name))
        line.given_up.connect(self._given_up)
        self.lines[name] = line
        self.add(caption, line)
        return line

    def add_length(
        self, name: str, caption: str, spoken: tuple[str, str], width: int = 96
    ) -> TypedLine:
        """A line for a length, with the owner's unit in its caption; `spoken` in feet, metres."""
        line = self.add_line(name, lambda: captioned(caption, "ft"), lambda: either(*spoken), width)
        line.unit = "ft"
        return line

    def add(self, caption: Label, widget: QWidget, stretch: int = 0) -> None:
        """Any control under its caption; one without a caption stands on the lines' level."""
        column = QVBoxLayout()
        column.setSpacing(2)
        label = Caption("", self)
        follow_label(label, caption)
        label.setBuddy(widget)
        column.addWidget(label)
        column.addWidget(widget)
        self._row.addLayout(column, stretch)
        self._captions[widget] = label

    def caption(self, name: str, words: str) -> None:
        """Say something else over a line. KeyError for one there is not."""
        self._captions[self.lines[name]].setText(words)

    def show_control(self, widget: QWidget, *, shown: bool) -> None:
        """Show or hide a control with its caption. KeyError for one that was not added."""
        widget.setVisible(shown)
        self._captions[widget].setVisible(shown)

    def end(self) -> None:
        """Nothing more comes: what is there stands at the left."""
        self._row.addStretch(1)

    def text(self, name: str) -> str:
        """What is typed in a line. KeyError for one there is not."""
        return self.lines[name].text()

    def read(self, name: str, parse: Callable[[str], float]) -> float:
        """What is typed in a line, as `parse` reads it. WrongLineError names the line."""
        try:
            return parse(self.text(name).strip())
        except OwnerError as problem:
            raise WrongLineError(str(problem), name) from problem

    def refuse_what(self, problem: OwnerError, name: str = "") -> None:
        """Say what is wrong, and mark its line where the problem names one, else `name`."""
        self.refuse(str(problem), problem.line if isinstance(problem, WrongLineError) else name)

    def refuse(self, sentence: str, name: str = "") -> None:
        """Say what is wrong, "" for nothing, and mark the line where it is."""
        self._trouble.say(sentence)
        for each, line in self.lines.items():
            mark_role(line, "", "refuse" if sentence and each == name else "")

    def _given_up(self) -> None:
        self.refuse("")
        self.given_up.emit()
