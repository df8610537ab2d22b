"""Large figures in a grid, each with its words below and a link to how it came about."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.trend_words import NOT_YET, TrendFigure
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Words, mark_role, name_control
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr

COLUMNS = 3
VALUE_PX = 30
"""The height of a value's line, the same for figures and for what cannot be said."""


class FigureCell(QWidget):
    """One figure: the value, its words, and its working beside it."""

    def __init__(self, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(object_name)
        self._value = Words("", "figure", self, wrap=False)
        self._value.setObjectName(f"{object_name}_value")
        self._words = Caption("", self, wrap=True)
        self._words.setObjectName(f"{object_name}_words")
        self._working = WorkingLink(tr("working"), f"{object_name}_working", self)
        line = QHBoxLayout()
        line.setSpacing(4)
        line.addWidget(self._value, 0, Qt.AlignmentFlag.AlignBottom)
        sized(self._value, height=VALUE_PX)
        self._value.setAlignment(Qt.AlignmentFlag.AlignBottom)
        line.addWidget(self._working, 0, Qt.AlignmentFlag.AlignBottom)
        line.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(line)
        column.addWidget(self._words)
        column.addStretch(1)
        self._rests_on: tuple[Working, ...] = ()
        let_open(lambda: self._working.workings() or self._rests_on, self._value, self._words)

    def show_figure(self, figure: TrendFigure) -> None:
        """Show another figure; one that cannot be said stands smaller and quiet."""
        mark_role(self._value, "subtitle" if figure.value == NOT_YET else "figure")
        self._value.setText(figure.value)
        self._words.setText(figure.words)
        self._working.set_workings(figure.workings)
        self._rests_on = figure.rests_on


class FigureGrid(QWidget):
    """Some figures, three to a row; spoken as one sentence."""

    def __init__(
        self, names: Sequence[str], prefix: str, spoken: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        hear_as(self, "Grouping")
        name_control(self, f"{prefix}_figures", spoken)
        self._cells = [FigureCell(f"{prefix}_{name}", self) for name in names]
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(20)
        grid.setVerticalSpacing(12)
        for place, cell in enumerate(self._cells):
            grid.addWidget(cell, *divmod(place, COLUMNS))
        for column in range(COLUMNS):
            grid.setColumnStretch(column, 1)

    def show_figures(self, figures: Sequence[TrendFigure]) -> None:
        """Show other figures, as many as there are names. ValueError for another number."""
        for cell, figure in zip(self._cells, figures, strict=True):
            cell.show_figure(figure)
        self.setAccessibleDescription("; ".join(f"{each.value} {each.words}" for each in figures))
