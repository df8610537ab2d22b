"""A read-only table of records: pick a row, open it with Enter, take it out with Delete.

Its height follows its rows up to a limit, so that short lists leave no hole in a page.
"""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QFont, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QSizePolicy,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from lawnbook.desk.row_figures import RowFigures
from lawnbook.desk.telling import follow_heads
from lawnbook.desk.theme import palette, px, sans, sized
from lawnbook.desk.widgets import name_control
from lawnbook.frozen import dataclass
from lawnbook.plan.working_model import Working

ROW_PX = 28
HEAD_LINE_PX, HEAD_PAD_PX = 15, 12
MEASURED_ROWS = 40
AT_ONCE, SLICE = 60, 60
"""So many rows are filled at once, more than are seen; the rest so many between two events."""
LEFT_SHARE = 0.165
"""What the stretched column of a crowded table keeps of its width."""


Heads = Sequence[str] | Callable[[], Sequence[str]]
"""A table's heads, or what says them where they follow the owner's units."""


def heads_of(heads: Heads) -> Sequence[str]:
    """The heads as they are in the owner's units now."""
    return heads() if callable(heads) else heads


@dataclass(frozen=True, slots=True)
class Row:
    """A record's row: its id, its cells, what it says in full, and the columns to warn in."""

    record_id: str
    cells: tuple[str, ...]
    spoken: str = ""
    warn_columns: tuple[int, ...] = ()


class RecordTable(QTableWidget):
    """Rows of records under heads; `words_columns` are set left, all others right.

    Signals carry the record's id: `picked` when the row changes by the owner's hand, `opened` on
    Enter or double-click, `removal_asked` on Delete.
    """

    picked = Signal(str)
    opened = Signal(str)
    removal_asked = Signal(str)

    def __init__(
        self,
        heads: Heads,
        names: tuple[str, str],
        words_columns: Sequence[int] = (0,),
        most_rows: int = 8,
        parent: QWidget | None = None,
    ) -> None:
        said = heads_of(heads)
        super().__init__(0, len(said), parent)
        name_control(self, *names)
        self._words_columns = frozenset(words_columns)
        self._most_rows = most_rows
        lines = max(head.count("\n") for head in said) + 1
        self._head_px = HEAD_PAD_PX + HEAD_LINE_PX * lines
        self._rows: tuple[Row, ...] = ()
        self._filled = 0
        self._more = QTimer(self, singleShot=True)
        self._more.timeout.connect(self._fill_more)
        self._stretched = 0
        self._spared: tuple[int, ...] = ()
        self._spared_below = 0
        self._widest_px = self.horizontalHeader().maximumSectionSize()
        follow_heads(self, lambda: heads_of(heads))
        self._set_up_view()
        for column in range(len(said)):
            head = self.horizontalHeaderItem(column)
            if head is not None:
                head.setTextAlignment(self._alignment(column))
        self.itemSelectionChanged.connect(self._tell_pick)
        self.itemDoubleClicked.connect(lambda _: self.opened.emit(self.picked_id()))

    def show_rows(self, rows: Sequence[Row], keep: str = "") -> None:
        """Show rows; the row of id `keep`, or the one picked before, stays picked. Tells nobody."""
        keep = keep or self.picked_id()
        if tuple(rows) != self._rows:
            self._rows = tuple(rows)
            self._fill_all()
            self._hold_in()
        self.pick(keep)

    def picked_id(self) -> str:
        """The id of the picked row, empty when none is."""
        chosen = self.selectionModel().selectedRows()
        return self._rows[chosen[0].row()].record_id if chosen else ""

    def item(self, row: int, column: int) -> QTableWidgetItem | None:
        """A cell, filled by now whatever its row."""
        if row >= self._filled:
            self._fill_more(len(self._rows))
        return self.cell(row, column)

    def cell(self, row: int, column: int) -> QTableWidgetItem | None:
        """A cell as it is; None where it is still to be filled."""
        return super().item(row, column)

    def pick(self, record_id: str) -> None:
        """Pick the row of a record, or none. Tells nobody."""
        blocked = self.blockSignals(True)
        self.clearSelection()
        ids = [row.record_id for row in self._rows]
        if record_id in ids:
            self.setCurrentCell(ids.index(record_id), 0)
            self.selectRow(ids.index(record_id))
        self.blockSignals(blocked)

    def explain(self, workings_of: Callable[[str], Sequence[Working]]) -> None:
        """Let the picked row open the workings of its figures, by F1 and by a click on one.

        `workings_of` gives those of a record's id; it is asked with "" while no row is picked.
        """
        RowFigures(
            self,
            lambda: workings_of(self.picked_id()),
            lambda column: column not in self._words_columns,
        )

    def sizeHint(self) -> QSize:
        """Tall enough for the rows, up to the limit."""
        rows = max(1, min(self.rowCount(), self._most_rows))
        return QSize(400, px(self._head_px + rows * ROW_PX) + 2 * self.frameWidth() + 2)

    def minimumSizeHint(self) -> QSize:
        """Never squeezed below its rows: the page scrolls instead."""
        return QSize(120, self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens the picked record, Delete asks for its removal."""
        record_id = self.picked_id()
        if record_id and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit(record_id)
        elif record_id and event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removal_asked.emit(record_id)
        else:
            super().keyPressEvent(event)

    def _set_up_view(self) -> None:
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setCornerButtonEnabled(False)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().setVisible(False)
        sized(self.verticalHeader(), rows=ROW_PX)
        header = self.horizontalHeader()
        sized(header, height=self._head_px)
        header.setHighlightSections(False)
        header.setMinimumSectionSize(34)
        # Only the first rows in view set the widths: a list of years stays quick.
        header.setResizeContentsPrecision(MEASURED_ROWS)
        self._fit_columns()

    def changeEvent(self, event: QEvent) -> None:
        """Set the rows again in a new theme and size of text."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and self._rows:
            self._set_font()
            self._colour()
            self._leave_out()

    def _fit_columns(self) -> None:
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(self._stretched, QHeaderView.ResizeMode.Stretch)

    def stretch(self, column: int) -> None:
        """Let one column, instead of the first, take the room that is left."""
        self._stretched = column
        self._fit_columns()

    def spare(self, columns: Sequence[int], below_px: int) -> None:
        """Leave these columns, and no others, out while the table is narrower than `below_px`."""
        for column in self._spared:
            self.setColumnHidden(column, False)
        self._spared, self._spared_below = tuple(columns), below_px
        if self.isVisible():
            self._leave_out()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave out or bring back the spared columns."""
        super().resizeEvent(event)
        self._leave_out()
        self._hold_in()

    def _hold_in(self) -> None:
        """Where the columns need more than there is, the widest gives way: no column is lost.

        Its words end in dots then, and the tooltip says them whole.
        """
        if not self.isVisible():
            return
        header = self.horizontalHeader()
        if header.maximumSectionSize() != self._widest_px:
            header.setMaximumSectionSize(self._widest_px)
            self._fit_columns()
        room = self.viewport().width()
        wanted = self._left_px(room)
        if header.length() <= room and header.sectionSize(self._stretched) >= wanted:
            return
        columns = [each for each in range(header.count()) if each != self._stretched]
        sizes = [header.sectionSize(each) for each in columns]
        held = widest_of(sizes, room - wanted)
        header.setMaximumSectionSize(max(held, header.minimumSectionSize()))
        self._fit_columns()

    def _left_px(self, room: int) -> int:
        """What the stretched column keeps of the room: what its words need, within reason."""
        if self.isColumnHidden(self._stretched):
            return 0
        return min(self.sizeHintForColumn(self._stretched), round(room * LEFT_SHARE))

    def _leave_out(self) -> None:
        for column in self._spared:
            self.setColumnHidden(column, self.width() < px(self._spared_below))

    def _alignment(self, column: int) -> Qt.AlignmentFlag:
        side = Qt.AlignmentFlag.AlignLeft
        if column not in self._words_columns:
            side = Qt.AlignmentFlag.AlignRight
        return side | Qt.AlignmentFlag.AlignVCenter

    def _fill_all(self) -> None:
        blocked = self.blockSignals(True)
        self.clearSelection()
        self.setRowCount(len(self._rows))
        self._filled = 0
        self._fill_more(AT_ONCE)
        self.blockSignals(blocked)
        self.updateGeometry()

    def _fill_more(self, count: int = SLICE) -> None:
        """Fill some more rows, and come back for the rest once the window has answered."""
        blocked = self.blockSignals(True)
        # Widths that follow each cell as it is set would take a time that grows with the square.
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        font, first = sans(), self._filled
        self._filled = min(first + count, len(self._rows))
        for number in range(first, self._filled):
            self._fill(number, self._rows[number], font)
        self._colour()
        self._fit_columns()
        self.blockSignals(blocked)
        if self._filled < len(self._rows):
            self._more.start(0)
        else:
            self._more.stop()

    def _set_font(self) -> None:
        font = sans()
        for row in range(self.rowCount()):
            for column in range(self.columnCount()):
                item = self.cell(row, column)
                if item is not None:
                    item.setFont(font)

    def _colour(self) -> None:
        """What is warned of stands in its colour and in bold: colour alone is not seen by all."""
        warn, bold = QColor(palette().warn), sans(weight=QFont.Weight.DemiBold)
        for number, row in enumerate(self._rows):
            for column in row.warn_columns:
                item = self.cell(number, column)
                if item is not None:
                    item.setForeground(warn)
                    item.setFont(bold)

    def _fill(self, number: int, row: Row, font: QFont) -> None:
        told = "" if row.spoken else self._with_heads(row.cells)
        for column, words in enumerate(row.cells):
            item = QTableWidgetItem(words)
            item.setTextAlignment(self._alignment(column))
            item.setFont(font)
            item.setToolTip(row.spoken or words)
            item.setData(Qt.ItemDataRole.AccessibleDescriptionRole, row.spoken or told)
            self.setItem(number, column, item)

    def _with_heads(self, cells: Sequence[str]) -> str:
        """A row for the ear, each figure after the head of its column: "Thatch 0.75; Worms 4"."""
        heads = (self.horizontalHeaderItem(column) for column in range(len(cells)))
        names = (" ".join(head.text().split()) if head is not None else "" for head in heads)
        pairs = zip(names, cells, strict=True)
        return "; ".join(f"{name} {cell}".strip() for name, cell in pairs if cell)

    def _tell_pick(self) -> None:
        record_id = self.picked_id()
        if record_id:
            self.picked.emit(record_id)


def widest_of(sizes: Sequence[int], room: int) -> int:
    """How wide a column may be at most, so that columns of these sizes have the room together."""
    left = sorted(sizes)
    while left and left[0] * len(left) <= room:
        room -= left.pop(0)
    return room // len(left) if left else max(sizes, default=0)
