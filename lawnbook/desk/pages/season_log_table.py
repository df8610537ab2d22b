"""The table of the log: a model that makes its words as rows come into sight."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QSizePolicy, QTableView, QWidget

from lawnbook.desk.pages.record_table import HEAD_LINE_PX, HEAD_PAD_PX, ROW_PX
from lawnbook.desk.theme import px, sans, sized
from lawnbook.desk.widgets import name_control
from lawnbook.plan.log_rows import LogRow, spoken, words_of
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day

HEADS = ("Day", "What", "Where", "Details")
DETAILS = HEADS.index("Details")
DAY_PX, WHAT_PX, WHERE_PX = 96, 118, 132
USUAL_ROWS, LEAST_ROWS = 12, 3
"""Room for so many before the page scrolls; more take what height it has to spare."""
Index = QModelIndex | QPersistentModelIndex
_NOWHERE = QModelIndex()


class LogModel(QAbstractTableModel):
    """Entries of a notebook; a screen reader hears a row's whole sentence."""

    def __init__(self, notebook: Notebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.notebook = notebook
        self.rows: Sequence[LogRow] = ()

    def show_rows(self, notebook: Notebook, rows: Sequence[LogRow]) -> None:
        """Show these entries of a notebook."""
        self.beginResetModel()
        self.notebook, self.rows = notebook, rows
        self.endResetModel()

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """How many entries are listed."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        """Day, what, where, and the rest."""
        return 0 if parent.isValid() else len(HEADS)

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        """The heads of the columns, set left like the words below them."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        return tr(HEADS[section]) if role == Qt.ItemDataRole.DisplayRole else None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """A cell's words; the whole sentence for tooltips and screen readers."""
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            words = words_of(self.notebook, row)
            return (day(row.on), words.what, words.where, words.more)[index.column()]
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return spoken(self.notebook, row)
        return sans() if role == Qt.ItemDataRole.FontRole else None


class LogTable(QTableView):
    """The entries. `opened` is Enter or a double-click, `removal_asked` Delete, both with the row.

    `picked` tells that another row is picked, or none.
    """

    opened = Signal(object)
    removal_asked = Signal(object)
    picked = Signal()

    def __init__(self, notebook: Notebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "log_list", tr("Everything recorded, newest first"))
        self._model = LogModel(notebook, self)
        self.setModel(self._model)
        self._set_up()
        self.selectionModel().selectionChanged.connect(lambda *_: self.picked.emit())
        self.doubleClicked.connect(lambda _: self._tell_opened())

    def show_rows(self, notebook: Notebook, rows: Sequence[LogRow]) -> None:
        """Show these entries; the one that was picked stays so where it is still there.

        In the place of one that was taken out the next is picked, or the last where it was that.
        """
        held, number = self.picked_row(), self.currentIndex().row()
        edited = notebook is not self._model.notebook
        self._model.show_rows(notebook, rows)
        if held is not None and not self.pick(held.table, held.record_id) and edited and rows:
            heir = rows[min(number, len(rows) - 1)]
            self.pick(heir.table, heir.record_id)
        self._end_with_rows()
        self.updateGeometry()

    def picked_row(self) -> LogRow | None:
        """The entry that is picked."""
        chosen = self.selectionModel().selectedRows()
        return self._model.rows[chosen[0].row()] if chosen else None

    def pick(self, table: str, record_id: str) -> bool:
        """Pick a record's row and bring it into sight; False where it is not listed."""
        at = (n for n, row in enumerate(self._model.rows) if row.record_id == record_id)
        for number in at:
            if self._model.rows[number].table == table:
                self.selectRow(number)
                self.scrollTo(self._model.index(number, 0))
                return True
        self.clearSelection()
        return False

    def sizeHint(self) -> QSize:
        """Tall enough for the rows, within limits."""
        rows = min(max(self._model.rowCount(), LEAST_ROWS), USUAL_ROWS)
        return QSize(400, self._height_px(rows))

    def minimumSizeHint(self) -> QSize:
        """Never squeezed: the page scrolls."""
        return QSize(160, self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens the picked entry, Delete asks for its removal."""
        row = self.picked_row()
        if row is not None and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit(row)
        elif row is not None and event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removal_asked.emit(row)
        else:
            super().keyPressEvent(event)

    def _height_px(self, rows: int) -> int:
        """The height of the head and so many rows."""
        return px(HEAD_PAD_PX + HEAD_LINE_PX + rows * ROW_PX) + 2 * self.frameWidth() + 2

    def _tell_opened(self) -> None:
        row = self.picked_row()
        if row is not None:
            self.opened.emit(row)

    def _set_up(self) -> None:
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        rows = self.verticalHeader()
        rows.setVisible(False)
        # Rows of one height: Qt then never asks each of thousands for its own.
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        sized(rows, rows=ROW_PX)
        header = self.horizontalHeader()
        sized(header, height=HEAD_PAD_PX + HEAD_LINE_PX)
        header.setHighlightSections(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self._set_widths()
        header.setSectionResizeMode(len(HEADS) - 1, QHeaderView.ResizeMode.Stretch)

    def _set_widths(self) -> None:
        for column, wide in enumerate((DAY_PX, WHAT_PX, WHERE_PX)):
            self.setColumnWidth(column, px(wide))

    def _end_with_rows(self) -> None:
        """End a short list with its last row, however tall the page."""
        self.setMaximumHeight(self._height_px(max(self._model.rowCount(), LEAST_ROWS)))

    def changeEvent(self, event: QEvent) -> None:
        """Take the widths and the height of a new size of text."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._set_widths()
            self._end_with_rows()
