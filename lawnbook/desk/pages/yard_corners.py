"""A table of an outline's corners, in which every figure can be typed over.

Models, not fields: an outline of hundreds of corners is as quick as one of four.
"""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QHeaderView,
    QSizePolicy,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from lawnbook.desk.entry import fixed_shown
from lawnbook.desk.sketch.corner_edits import Figure, figure_of
from lawnbook.desk.telling import Teller, captioned, either
from lawnbook.desk.theme import px, sans, sized
from lawnbook.desk.widgets import TextField, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline
from lawnbook.yard.numbers import feet_inches

ROW_PX, HEAD_PX, MOST_ROWS = 27, 40, 9
COLUMNS: tuple[tuple[str, Figure, str], ...] = (
    (tr("Right"), "right", tr("to the right of the sketch’s zero")),
    (tr("Up"), "up", tr("up the page from the sketch’s zero")),
    (tr("Side to\nnext"), "side", tr("to the next corner")),
    (tr("Direction\nto next, °"), "direction", tr("degrees clockwise from the top of the page")),
    (tr("Inner\nangle, °"), "angle", tr("degrees inside the corner")),
)
"""Heads, figures and their words, from the column after the corner's number."""
_LENGTHS = ("right", "up", "side")
_KEYS_THAT_SETTLE = (
    Qt.Key.Key_Return,
    Qt.Key.Key_Enter,
    Qt.Key.Key_Tab,
    Qt.Key.Key_Backtab,
)
Index = QModelIndex | QPersistentModelIndex
_NOWHERE = QModelIndex()
Judge = Callable[[int, Figure, str], str]
"""What speaks against a figure as typed for a corner, "" where nothing does."""


class CornerModel(QAbstractTableModel):
    """The corners of one ring; `typed` tells what was typed over which figure."""

    typed = Signal(int, str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.outline: Outline = ()

    def show_outline(self, outline: Outline) -> None:
        """Show a ring; one that is the same already disturbs nothing that is being typed."""
        if outline == self.outline:
            return
        if len(outline) == len(self.outline):
            self.outline = outline
            last = self.index(len(outline) - 1, len(COLUMNS))
            self.dataChanged.emit(self.index(0, 0), last)
            return
        self.beginResetModel()
        self.outline = outline
        self.endResetModel()

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """A row for each corner."""
        return 0 if parent.isValid() else len(self.outline)

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        """The corner's number, and its figures."""
        return 0 if parent.isValid() else len(COLUMNS) + 1

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """The heads of the columns."""
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return _head(section) if section else tr("Corner")
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """A figure to two places, and all in words for screen readers and tooltips."""
        if not index.isValid():
            return None
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._shown(index.row(), index.column())
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole):
            return self._spoken(index.row(), index.column())
        return None

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Tell what was typed; the figure itself changes once the notebook has it."""
        if role != Qt.ItemDataRole.EditRole or str(value) == self.data(index):
            return False
        self.typed.emit(index.row(), COLUMNS[index.column() - 1][1], str(value))
        return True

    def flags(self, index: Index) -> Qt.ItemFlag:
        """All but the number can be typed over."""
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return flags | Qt.ItemFlag.ItemIsEditable if index.column() else flags

    def _shown(self, row: int, column: int) -> str:
        if column == 0:
            return str(row + 1)
        _, figure, _ = COLUMNS[column - 1]
        unit = "ft" if figure in _LENGTHS else ""
        return fixed_shown(figure_of(self.outline, row, figure), 2, unit)

    def _spoken(self, row: int, column: int) -> str:
        if column == 0:
            return tr("Corner {row} of {count}", row=row + 1, count=len(self.outline))
        _, figure, words = COLUMNS[column - 1]
        value = figure_of(self.outline, row, figure)
        if figure not in _LENGTHS:
            return tr("Corner {row}: {value:.2f} {words}", row=row + 1, value=value, words=words)
        number = fixed_shown(value, 2, "ft")
        exact = tr(
            "Corner {row}: {number} {either} {words}",
            row=row + 1,
            number=number,
            either=either("feet", tr("metres")),
            words=words,
        )
        return either(f"{exact} ({feet_inches(value)})", exact)

    def retell(self) -> None:
        """Heads and lengths in the owner's unit."""
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(COLUMNS))
        last = self.index(max(len(self.outline) - 1, 0), len(COLUMNS))
        self.dataChanged.emit(self.index(0, 0), last)


def _head(section: int) -> str:
    """The head of a column after the first, with the owner's unit."""
    words, figure, _ = COLUMNS[section - 1]
    return captioned(words, "ft") if figure in _LENGTHS else words


class FigureEditor(QStyledItemDelegate):
    """Types over a cell. What cannot be kept stays in red, and neither Enter nor Tab leads away."""

    trying = Signal(int, str, str)
    ended = Signal()

    def __init__(self, judge: Judge, parent: QWidget) -> None:
        super().__init__(parent)
        self._judge = judge
        self._at: dict[QObject, tuple[int, Figure]] = {}
        self.closeEditor.connect(lambda *_: self.ended.emit())

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """A line to type in, named after corner and figure."""
        row, (_, figure, words) = index.row(), COLUMNS[index.column() - 1]
        field = TextField(parent)
        name_control(
            field, "shapes_corner_field", tr("Corner {row}, {words}", row=row + 1, words=words)
        )
        field.setFont(sans())
        field.setAlignment(Qt.AlignmentFlag.AlignRight)
        field.textEdited.connect(lambda text: self._edited(field, row, figure, text))
        self._at[field] = (row, figure)
        field.destroyed.connect(lambda: self._at.pop(field, None))
        return field

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter and Tab settle a figure first; one that is left wrong is given up."""
        if watched in self._at and isinstance(watched, TextField):
            key = event.key() if isinstance(event, QKeyEvent) else None
            if event.type() == QEvent.Type.KeyPress and key in _KEYS_THAT_SETTLE:
                if self._refuses(watched):
                    return True
            elif event.type() == QEvent.Type.FocusOut and self._refuses(watched):
                hint = QAbstractItemDelegate.EndEditHint.RevertModelCache
                self.closeEditor.emit(watched, hint)
                return True
        return super().eventFilter(watched, event)

    def _edited(self, field: TextField, row: int, figure: Figure, text: str) -> None:
        mark_role(field, "", "")
        self.trying.emit(row, figure, text)

    def _refuses(self, field: TextField) -> bool:
        row, figure = self._at[field]
        wrong = field.isModified() and bool(self._judge(row, figure, field.text()))
        mark_role(field, "", "refuse" if wrong else "")
        return wrong


class CornerTable(QTableView):
    """The corners of one ring. Signals tell corners by their number from 0.

    `trying` tells a figure while it is typed, `ended` that typing is over, `typed` what is to be
    kept; `picked` the corner that the owner went to; Insert and Delete ask for one more or less.
    """

    trying = Signal(int, str, str)
    ended = Signal()
    typed = Signal(int, str, str)
    picked = Signal(int)
    more_asked = Signal(int)
    less_asked = Signal(int)

    def __init__(self, judge: Judge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "shapes_corners", tr("Corners"))
        self._model = CornerModel(self)
        self._editor = FigureEditor(judge, self)
        self._telling = True
        self.setModel(self._model)
        Teller(self, self._model.retell)
        self.setItemDelegate(self._editor)
        self._set_up_view()
        self._model.typed.connect(self.typed)
        self._editor.trying.connect(self.trying)
        self._editor.ended.connect(self.ended)
        self.selectionModel().currentRowChanged.connect(self._row_changed)

    @property
    def corner(self) -> int | None:
        """The corner that the keyboard stands at, None before one was gone to."""
        index = self.currentIndex()
        return index.row() if index.isValid() else None

    def show_outline(self, outline: Outline, corner: int | None) -> None:
        """Show a ring, and the corner that is chosen on the sketch. Tells nobody."""
        self._telling = False
        self._model.show_outline(outline)
        if corner is None:
            self.clearSelection()
        elif corner < len(outline) and corner != self.corner:
            self.setCurrentIndex(self._model.index(corner, max(self.currentIndex().column(), 1)))
        self._telling = True
        self.updateGeometry()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Insert and Delete change the corners; Enter begins to type."""
        corner, key = self.corner, event.key()
        if self.state() is QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)
        elif corner is not None and key == Qt.Key.Key_Insert:
            self.more_asked.emit(corner)
        elif corner is not None and key == Qt.Key.Key_Delete:
            self.less_asked.emit(corner)
        elif corner is not None and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.edit(self.currentIndex())
        else:
            super().keyPressEvent(event)

    def sizeHint(self) -> QSize:
        """As tall as its rows, up to a limit."""
        rows = min(max(self._model.rowCount(), 3), MOST_ROWS)
        return QSize(320, px(HEAD_PX + rows * ROW_PX) + 2 * self.frameWidth() + 2)

    def minimumSizeHint(self) -> QSize:
        """Never squeezed: the page scrolls."""
        return QSize(160, self.sizeHint().height())

    def _set_up_view(self) -> None:
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.DoubleClicked | trigger.AnyKeyPressed | trigger.EditKeyPressed)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setCornerButtonEnabled(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.verticalHeader().setVisible(False)
        sized(self.verticalHeader(), rows=ROW_PX)
        heads = self.horizontalHeader()
        sized(heads, height=HEAD_PX)
        heads.setHighlightSections(False)
        heads.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)

    def _row_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        if self._telling and now.isValid():
            self.picked.emit(now.row())
