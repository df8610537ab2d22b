"""The rows below the line for noting something down: fields to be kept, and proposals."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from lawnbook.desk.widgets import Caption, QuietButton, Words, mark_role, name_control
from lawnbook.plan.quick_model import Told
from lawnbook.plan.quick_words import MOST_PROPOSALS
from lawnbook.reading import tr

MOST_FIELDS = 14
LABEL_PX = 120


class FieldRows(QWidget):
    """Each field's label and value. The rows are made once and filled at every key."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "quick_fields", tr("What would be kept"))
        grid = QGridLayout(self)
        grid.setContentsMargins(2, 0, 2, 0)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(2)
        grid.setColumnMinimumWidth(0, LABEL_PX)
        grid.setColumnStretch(1, 1)
        self._rows: list[tuple[Caption, Words]] = []
        for row in range(MOST_FIELDS):
            label, value = Caption("", self), Words("", "", self)
            top = Qt.AlignmentFlag.AlignTop
            grid.addWidget(label, row, 0, top)
            grid.addWidget(value, row, 1, top)
            self._rows.append((label, value))

    def show_fields(self, fields: Sequence[Told]) -> None:
        """Show these fields; more than there are rows for are told together in the last."""
        shown = list(fields)
        if len(shown) > MOST_FIELDS:
            rest = shown[MOST_FIELDS - 1 :]
            told = ", ".join(f"{each.label} {each.value}" for each in rest)
            shown = [*shown[: MOST_FIELDS - 1], Told(tr("And"), told)]
        for number, (label, value) in enumerate(self._rows):
            there = number < len(shown)
            label.setVisible(there)
            value.setVisible(there)
            if there:
                label.setText(shown[number].label)
                value.setText(shown[number].value)
        self.setVisible(bool(shown))
        self.setAccessibleDescription("; ".join(f"{each.label}: {each.value}" for each in shown))


class ProposalRows(QWidget):
    """Lines that carry what is typed on, one of them picked. `taken` tells the one clicked."""

    taken = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "quick_proposals", tr("Proposals"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        self._lines: tuple[str, ...] = ()
        self._at = 0
        self._buttons: list[QuietButton] = []
        for number in range(MOST_PROPOSALS):
            button = QuietButton("", f"quick_proposal_{number}", self)
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            button.clicked.connect(lambda _=False, n=number: self.taken.emit(self._lines[n]))
            column.addWidget(button)
            self._buttons.append(button)

    @property
    def picked(self) -> str:
        """The line that Tab takes, empty where there is none."""
        return self._lines[self._at] if self._lines else ""

    def show_lines(self, lines: Sequence[str]) -> None:
        """Show these lines, the first of them picked."""
        if tuple(lines) != self._lines:
            self._lines, self._at = tuple(lines), 0
        for number, button in enumerate(self._buttons):
            button.setVisible(number < len(self._lines))
            if number < len(self._lines):
                button.setText(self._lines[number].replace("&", "&&"))
                button.setAccessibleName(tr("Carry on to: {lines}", lines=self._lines[number]))
        self.setVisible(bool(self._lines))
        self._mark()

    def step(self, by: int) -> None:
        """Pick the next line or the one before, round and round."""
        if self._lines:
            self._at = (self._at + by) % len(self._lines)
            self._mark()

    def _mark(self) -> None:
        for number, button in enumerate(self._buttons):
            mark_role(button, "proposal", "picked" if number == self._at else "")
