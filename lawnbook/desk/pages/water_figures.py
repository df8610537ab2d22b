"""Figures on a page: a row of large ones with words below, and a small table of them."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from lawnbook.desk.figures import Ask, FigureHand, open_words
from lawnbook.desk.roles import hear_as
from lawnbook.desk.widgets import Caption, Card, Hairline, Words, clear_layout, name_control

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

AskCell = Callable[[int, int], "Sequence[Working]"]
"""What the figure of a row and a column is worked out by, both counted from the first figure."""
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


def paper_part(heading: str) -> Card:
    """A part of a page with its heading, on the paper itself: charts have the paper's colour."""
    part = Card(heading, role="part")
    part.body.setContentsMargins(0, 6, 0, 4)
    return part


class Notes(Card):
    """Short sentences on a tinted panel, each a paragraph of its own; hidden without any."""

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__("", parent, role="note")
        self.setObjectName(object_name)
        self._said: tuple[str, ...] = ()
        self._ask: Ask | None = None
        self.body.setContentsMargins(12, 8, 12, 8)
        self.body.setSpacing(5)
        self.hide()

    def open_with(self, ask: Ask) -> None:
        """Let each sentence open the workings of the figures in it."""
        self._ask = ask
        _open_all(self, ask)

    def say(self, notes: Sequence[str]) -> None:
        """Change the sentences."""
        self.setVisible(bool(notes))
        if tuple(notes) == self._said:
            return
        self._said = tuple(notes)
        clear_layout(self.body)
        for each in notes:
            self.body.addWidget(Words(each, "", self))
        _open_all(self, self._ask)


class FigureRow(QWidget):
    """Some large figures side by side, each with its words below; spoken as one sentence."""

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, object_name, spoken)
        self._shown: tuple[tuple[str, str], ...] = ()
        self._ask: Ask | None = None
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(18)

    def open_with(self, ask: Ask) -> None:
        """Let each figure open its working."""
        self._ask = ask
        _open_all(self, ask)

    def show_figures(self, figures: Sequence[tuple[str, str]]) -> None:
        """Show other figures, each with its words."""
        if tuple(figures) == self._shown:
            return
        self._shown = tuple(figures)
        clear_layout(self._row)
        for value, words in figures:
            self._row.addLayout(_figure(value, words), 1)
        _open_all(self, self._ask)
        self.setAccessibleDescription("; ".join(f"{value} {words}" for value, words in figures))

    def figures(self) -> tuple[tuple[str, str], ...]:
        """What is shown."""
        return self._shown


def _figure(value: str, words: str) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(0)
    column.addWidget(Words(value, "figure", wrap=False))
    column.addWidget(Caption(words, wrap=True), 0, Qt.AlignmentFlag.AlignTop)
    column.addStretch(1)
    return column


class FigureTable(QWidget):
    """A small table of words and figures: heads, a hairline, and a line for each row."""

    def __init__(self, object_name: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "Grouping")
        name_control(self, object_name, spoken)
        self._shown: object = None
        self._ask: Ask | None = None
        self._ask_cell: AskCell | None = None
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(22)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(0, 1)

    def open_with(self, ask: Ask) -> None:
        """Let each figure open its working."""
        self._ask = ask
        _open_all(self, ask)

    def open_cells_with(self, ask_cell: AskCell) -> None:
        """Let each figure of the rows shown from now on open its own working."""
        self._ask_cell = ask_cell

    def show_rows(
        self, heads: Sequence[str], rows: Sequence[tuple[str, tuple[str, ...]]], described: str
    ) -> None:
        """Show other rows: a name and its figures, in the order of the heads."""
        if (tuple(heads), tuple(rows)) == self._shown:
            return
        self._shown = (tuple(heads), tuple(rows))
        clear_layout(self._grid)
        for column, head in enumerate(heads):
            self._grid.addWidget(Caption(head), 0, column, _RIGHT if column else _left())
        self._grid.addWidget(Hairline(), 1, 0, 1, len(heads))
        for line, (name, cells) in enumerate(rows, start=2):
            self._grid.addWidget(Words(name, wrap=False), line, 0)
            for column, cell in enumerate(cells, start=1):
                figure = Words(cell, wrap=False)
                self._grid.addWidget(figure, line, column, _RIGHT)
                if self._ask_cell is not None:
                    FigureHand(figure, partial(self._ask_cell, line - 2, column - 1))
        _open_all(self, self._ask)
        self.setAccessibleDescription(described)


def _open_all(within: QWidget, ask: Ask | None) -> None:
    """Let the words and figures in a widget open what they are worked out by."""
    if ask is not None:
        for label in within.findChildren(QLabel):
            open_words(label, ask)


def _left() -> Qt.AlignmentFlag:
    return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
