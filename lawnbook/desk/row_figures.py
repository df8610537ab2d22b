"""Tables whose picked row opens how its figures came about: by F1, and by a click on a figure.

The first click picks a row. A further one on a figure of the picked row opens the working of that
figure, a moment later, so that a double-click still does what it does in the table.
"""

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QModelIndex, QObject, QPersistentModelIndex, QPoint, Qt, QTimer
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QTableView

from lawnbook.desk.figures import Ask, FigureHand, plain_signs, told_in

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lawnbook.plan.working_model import Working

_NUMBER = re.compile(r"-?\d[\d.,\u00a0\u202f]*")
_NO_CELL = QPersistentModelIndex()
_UP_AND_LEFT = QPoint(8, 8)
"""The panel opens a little below the place it is given: so it meets the foot of a row."""


def told_in_cell(words: str, workings: "Iterable[Working]") -> "tuple[Working, ...]":
    """The workings whose figure begins with the number of a cell; all of them where none does.

    A cell may leave the unit to the head of its column.
    """
    listed, found = tuple(workings), _NUMBER.search(plain_signs(words))
    number = "" if found is None else found.group()
    same = tuple(each for each in listed if number and _begins_with(each, number))
    return same or told_in(words, listed)


def _begins_with(working: "Working", number: str) -> bool:
    """Whether a figure, or one of the ways in which it is told as well, begins with a number."""
    ways = (working.value, *working.also[:1])
    return any((its := _NUMBER.match(each)) is not None and its[0] == number for each in ways)


class RowFigures(FigureHand):
    """Makes the picked row of a table open its workings; `ask` gives those of the picked row.

    `holds_figures` tells of a column whether its cells are figures: only these answer to a click.
    """

    def __init__(self, view: QTableView, ask: Ask, holds_figures: Callable[[int], bool]) -> None:
        super().__init__(view, ask, by_click=False)
        self._view, self._holds_figures = view, holds_figures
        self._pressed_on = self._hovered = _NO_CELL
        self._clicked_on = _NO_CELL
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._open_cell)
        view.viewport().setMouseTracking(True)
        view.viewport().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the mouse over the cells; every event stays the table's own as well."""
        kind = event.type()
        if isinstance(event, QMouseEvent):
            self._follow(event)
        elif kind == QEvent.Type.Leave:
            self._point_at(_NO_CELL)
        elif kind in (QEvent.Type.Hide, QEvent.Type.Wheel):
            self._soon.stop()
        return QObject.eventFilter(self, watched, event)

    def _follow(self, event: QMouseEvent) -> None:
        kind, cell = event.type(), self._cell_at(event.position().toPoint())
        if kind == QEvent.Type.MouseMove:
            self._point_at(cell)
        elif kind == QEvent.Type.MouseButtonDblClick:
            self._soon.stop()
            self._pressed_on = _NO_CELL
        elif event.button() != Qt.MouseButton.LeftButton:
            return
        elif kind == QEvent.Type.MouseButtonPress:
            self._soon.stop()
            self._pressed_on = cell
        elif kind == QEvent.Type.MouseButtonRelease:
            if cell.isValid() and cell == self._pressed_on:
                self._clicked_on = cell
                self._soon.start(QApplication.doubleClickInterval())
            self._pressed_on = _NO_CELL

    def _cell_at(self, at: QPoint) -> QPersistentModelIndex:
        """The figure under the pointer that a click opens: one of the row that is picked."""
        cell = self._view.indexAt(at)
        if not cell.isValid() or not self._holds_figures(cell.column()):
            return _NO_CELL
        picked = self._view.selectionModel().isSelected(cell)
        return QPersistentModelIndex(cell) if picked and _number_in(cell) else _NO_CELL

    def _point_at(self, cell: QPersistentModelIndex) -> None:
        """The pointing hand over a figure that opens."""
        if cell == self._hovered:
            return
        self._hovered = cell
        if cell.isValid() and self.workings():
            self._view.viewport().setCursor(Qt.CursorShape.PointingHandCursor)
        else:
            self._view.viewport().unsetCursor()

    def _open_cell(self) -> None:
        held = self._clicked_on
        if not held.isValid():
            return
        cell = self._view.model().index(held.row(), held.column())
        if not self._view.selectionModel().isSelected(cell):
            return
        workings = told_in_cell(str(cell.data() or ""), self.workings())
        if workings:
            from lawnbook.desk.workings import WorkingPanel

            WorkingPanel.open_below(self._view, workings, self._foot_of(cell))

    def _place(self) -> QPoint | None:
        """The foot of the picked row, where it is in sight."""
        rows = self._view.selectionModel().selectedRows()
        return self._foot_of(rows[0]) if rows else None

    def _foot_of(self, cell: QModelIndex) -> QPoint | None:
        paper, room = self._view.viewport(), self._view.visualRect(cell)
        if not paper.rect().intersects(room):
            return None
        return paper.mapToGlobal(room.bottomLeft()) - _UP_AND_LEFT


def _number_in(cell: QModelIndex) -> bool:
    return _NUMBER.search(str(cell.data() or "")) is not None
