"""The list of everything that is drawn. What is chosen in it is chosen on the sketch, and back."""

from collections.abc import Iterable, Sequence
from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QSizePolicy,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from lawnbook.desk.sketch.shape_rows import ShapeRow
from lawnbook.desk.theme import CAPTION_POINTS, UI_POINTS, mix, palette, px, sans
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr
from lawnbook.yard.notebook import Key

ROW_PX, MOST_ROWS, LEAST_ROWS = 26, 9, 3
KIND_PX, SIZE_PX, SIGN_PX, PAD_PX = 84, 104, 20, 8
Index = QModelIndex | QPersistentModelIndex
_NOWHERE = QModelIndex()
_NO_KEY = Qt.KeyboardModifier.NoModifier
_GOING = (Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_Up, Qt.Key.Key_Down)


class ShapeModel(QAbstractListModel):
    """Rows of shapes; a screen reader hears a row's whole sentence."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: tuple[ShapeRow, ...] = ()

    def show_rows(self, rows: Sequence[ShapeRow]) -> None:
        """Show these rows; as many as before are only told anew, so that nothing scrolls."""
        fresh = tuple(rows)
        if fresh == self.rows:
            return
        if [row.key for row in fresh] == [row.key for row in self.rows]:
            self.rows = fresh
            self.dataChanged.emit(self.index(0), self.index(len(fresh) - 1))
            return
        self.beginResetModel()
        self.rows = fresh
        self.endResetModel()

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """How many shapes are listed."""
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """A row's name, its sentence for screen readers and tooltips, or the row itself."""
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return row.name
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole):
            return row.spoken
        return row if role == Qt.ItemDataRole.UserRole else None


class _RowPainter(QStyledItemDelegate):
    """Paints name, kind and size in columns, and a small padlock at what is locked."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Every row is as tall."""
        return QSize(200, px(ROW_PX))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """One row."""
        row, box = index.data(Qt.ItemDataRole.UserRole), QRectF(option.rect)
        p, chosen = palette(), bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if chosen:
            painter.fillRect(box, QColor(mix(p.card, p.accent, 0.16)))
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(QColor(p.accent), 1.5))
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 3, 3)
        inside = box.adjusted(PAD_PX, 0, -PAD_PX, 0)
        size = QRectF(inside.right() - px(SIZE_PX), inside.top(), px(SIZE_PX), inside.height())
        kind = QRectF(size.left() - px(KIND_PX), inside.top(), px(KIND_PX), inside.height())
        name = QRectF(inside.left(), inside.top(), kind.left() - inside.left(), inside.height())
        if row.locked:
            paint_padlock(painter, QPointF(name.right() - SIGN_PX, box.center().y()), p.quiet)
            name.adjust(0, 0, -SIGN_PX - 6, 0)
        _words(painter, name, row.name, p.ink, UI_POINTS)
        _words(painter, kind, row.kind, p.quiet, CAPTION_POINTS)
        _words(painter, size, row.size, p.ink, CAPTION_POINTS, right=True)
        painter.restore()


def paint_padlock(painter: QPainter, at: QPointF, hue: str) -> None:
    """A small padlock whose left side's middle lies at a point: 10 pixels wide."""
    painter.setPen(QPen(QColor(hue), 1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawArc(QRectF(at.x() + 2, at.y() - 6, 6, 8), 0, 180 * 16)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(hue))
    painter.drawRoundedRect(QRectF(at.x(), at.y() - 1.5, 10, 7), 1.5, 1.5)


def _words(
    painter: QPainter, box: QRectF, words: str, hue: str, points: float, *, right: bool = False
) -> None:
    painter.setFont(sans(points))
    painter.setPen(QColor(hue))
    side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
    room = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(box.width()))
    painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, room)


class ShapeList(QListView):
    """Several can be chosen. `picked` tells all keys, `named` is Enter, `removed` is Delete."""

    picked = Signal(list)
    named = Signal()
    removed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "shapes_list", tr("Everything that is drawn"))
        self._model = ShapeModel(self)
        self._telling = True
        self.setModel(self._model)
        self.setItemDelegate(_RowPainter(self))
        self.setUniformItemSizes(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.selectionModel().selectionChanged.connect(lambda *_: self._tell())

    def show_rows(self, rows: Sequence[ShapeRow]) -> None:
        """List these shapes. Tells nobody."""
        self._telling = False
        self._model.show_rows(rows)
        self._telling = True
        self.updateGeometry()

    def show_chosen(self, keys: Iterable[Key]) -> None:
        """Choose the rows of these shapes, the first as the one that arrows start from.

        Tells nobody.
        """
        wanted = tuple(keys)
        if set(wanted) == set(self.chosen_keys()):
            return
        at = {row.key: number for number, row in enumerate(self._model.rows)}
        rows = [self._model.index(at[key]) for key in wanted if key in at]
        selection = QItemSelection()
        for index in rows:
            selection.select(index, index)
        self._telling = False
        flags = QItemSelectionModel.SelectionFlag
        self.selectionModel().select(selection, flags.ClearAndSelect)
        if rows and not self.selectionModel().isSelected(self.currentIndex()):
            self.selectionModel().setCurrentIndex(rows[0], flags.NoUpdate)
        elif rows:
            self.scrollTo(rows[0])
        self._telling = True

    def chosen_keys(self) -> tuple[Key, ...]:
        """What is chosen in the list, from the top."""
        rows = sorted(index.row() for index in self.selectedIndexes())
        return tuple(self._model.rows[row].key for row in rows)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes to the name, Delete removes what is chosen."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.selectedIndexes():
            self.named.emit()
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit()
        else:
            super().keyPressEvent(event)
            # Where the focus stands on a row that is not chosen, going to it must choose it too.
            plain = event.modifiers() in (_NO_KEY, Qt.KeyboardModifier.KeypadModifier)
            if plain and event.key() in _GOING and not self.selectedIndexes():
                self.selectionModel().select(
                    self.currentIndex(), QItemSelectionModel.SelectionFlag.ClearAndSelect
                )

    def sizeHint(self) -> QSize:
        """As tall as its rows, within limits."""
        rows = min(max(len(self._model.rows), LEAST_ROWS), MOST_ROWS)
        return QSize(320, rows * px(ROW_PX) + 2 * self.frameWidth() + 2)

    def minimumSizeHint(self) -> QSize:
        """Never squeezed: the page scrolls."""
        return QSize(160, self.sizeHint().height())

    def _tell(self) -> None:
        if self._telling:
            self.picked.emit(list(self.chosen_keys()))
