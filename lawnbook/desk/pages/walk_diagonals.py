"""The diagonals of a walk as rows: from corner, to corner, length; the next one is proposed."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.walk_cells import (
    NOT_TAPED,
    FitsWords,
    LengthCell,
    goes_on,
    name_remove,
    remove_button,
    takes_out,
)
from lawnbook.desk.pages.walk_sides import drop
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, name_control
from lawnbook.reading import tr
from lawnbook.yard.walk_records import Diagonal, Residual, corner_name, pair_name

HEADS = (tr("From"), tr("To"), tr("Length"), tr("Fit"), "")
CORNER_PX = 54
Pair = tuple[int, int]


class DiagonalRow:
    """The controls of one diagonal."""

    def __init__(self, parent: QWidget) -> None:
        self.start, self.end = ChoiceBox(parent), ChoiceBox(parent)
        for box in (self.start, self.end):
            box.setMinimumContentsLength(2)
            sized(box, width=CORNER_PX)
        self.length = LengthCell(parent)
        self.fits = FitsWords(parent)
        self.remove = remove_button(parent)

    @property
    def controls(self) -> tuple[QWidget, ...]:
        """Every control, from left to right."""
        return (self.start, self.end, self.length, self.fits, self.remove)

    @property
    def pair(self) -> Pair:
        """The corners that are chosen."""
        return (max(self.start.currentIndex(), 0), max(self.end.currentIndex(), 0))

    def offer(self, count: int) -> None:
        """Offer so many corners, what is chosen kept."""
        for box in (self.start, self.end):
            held = box.currentIndex()
            while box.count() > count:
                box.removeItem(box.count() - 1)
            for index in range(box.count(), count):
                box.addItem(corner_name(index))
            box.setCurrentIndex(min(max(held, 0), count - 1))

    def choose(self, pair: Pair) -> None:
        """Choose two corners. Tells nobody."""
        for box, index in zip((self.start, self.end), pair, strict=True):
            box.setCurrentIndex(index)

    def call(self, number: int) -> None:
        """Name the controls by the row's number, counted from 1."""
        name_control(
            self.start, f"walk_from_{number}", tr("Diagonal {number}, from corner", number=number)
        )
        name_control(
            self.end, f"walk_to_{number}", tr("Diagonal {number}, to corner", number=number)
        )
        name_control(
            self.length, f"walk_diagonal_{number}", tr("Diagonal {number}, length", number=number)
        )
        self.fits.setObjectName(f"walk_diagonal_fit_{number}")
        name_remove(
            self.remove, f"walk_diagonal_remove_{number}", tr("diagonal {number}", number=number)
        )


class DiagonalRows(QWidget):
    """Rows of diagonals; the last one is blank and stands on the pair that would help most."""

    changed = Signal()
    entered = Signal()
    """Enter ends a length: what is proposed next is to be known now."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: list[DiagonalRow] = []
        self._count = 4
        self._picked = False
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(3, 1)
        for column, words in enumerate(HEADS):
            self._grid.addWidget(Caption(words, self), 0, column, Qt.AlignmentFlag.AlignBottom)
        self._set_out()

    def clear(self) -> None:
        """Take all diagonals out. Tells nobody."""
        while self._rows:
            drop(self._grid, self._rows.pop().controls)
        self._picked = False
        self._set_out()

    def offer(self, count: int) -> None:
        """Let diagonals run between so many corners."""
        self._count = max(count, 3)
        for row in self._rows:
            row.offer(self._count)

    def propose(self, pair: Pair | None) -> None:
        """Put the blank row on a pair, unless the owner chose another there."""
        if pair is not None and not self._picked:
            self._rows[-1].choose(pair)

    def without_corner(self, index: int) -> None:
        """Follow a corner that went: its diagonals go, and later corners move up."""
        for row in self._rows[:-1]:
            if index in row.pair:
                self._rows.remove(row)
                drop(self._grid, row.controls)
            else:
                start, end = row.pair
                row.choose((start - (start > index), end - (end > index)))
        self._picked = False
        self._set_out()

    def with_corner(self, index: int) -> None:
        """Follow a corner that came between others: it and later ones move down."""
        self.offer(self._count + 1)
        for row in self._rows[:-1]:
            start, end = row.pair
            row.choose((start + (start >= index), end + (end >= index)))
        self._picked = False

    def diagonals(self) -> tuple[Diagonal, ...]:
        """What is entered. OwnerError about the first length that is none."""
        found = ((row.pair, row.length.length_ft(pair_name(row.pair))) for row in self._rows)
        return tuple(
            Diagonal(*pair, length_ft) for pair, length_ft in found if length_ft is not None
        )

    def show_fit(self, found: tuple[Residual, ...], suspects: frozenset[int]) -> None:
        """Show the residuals of the diagonals in the order in which they are entered."""
        taped = [row for row in self._rows if row.length.text().strip() not in ("", NOT_TAPED)]
        for row in self._rows:
            row.fits.show_off(None, suspect=False)
        for index, (row, each) in enumerate(zip(taped, found, strict=False)):
            row.fits.show_off(each.off_in, suspect=index in suspects)

    def start(self) -> None:
        """Take the keyboard to the length of the blank row."""
        self._rows[-1].length.setFocus(Qt.FocusReason.TabFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on to the next length, Ctrl+Delete takes a diagonal out."""
        index = self._at_work()
        if index is not None and takes_out(event):
            self._take_out(index)
        elif index is not None and goes_on(event):
            self.entered.emit()
            following = min(index + 1, len(self._rows) - 1)
            self._rows[following].length.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            super().keyPressEvent(event)

    def _at_work(self) -> int | None:
        for index, row in enumerate(self._rows):
            if any(control.hasFocus() for control in row.controls):
                return index
        return None

    def _take_out(self, index: int) -> None:
        drop(self._grid, self._rows.pop(index).controls)
        self._set_out()
        self._rows[min(index, len(self._rows) - 1)].length.setFocus(Qt.FocusReason.TabFocusReason)
        self.changed.emit()

    def _append(self) -> None:
        row = DiagonalRow(self)
        row.offer(self._count)
        row.choose((0, 2))
        row.length.textEdited.connect(self._typed)
        for box in (row.start, row.end):
            box.activated.connect(lambda _, row=row: self._chose(row))
        row.remove.clicked.connect(lambda _=False, row=row: self._take_out(self._rows.index(row)))
        self._rows.append(row)

    def _chose(self, row: DiagonalRow) -> None:
        self._picked = self._picked or row is self._rows[-1]
        self.changed.emit()

    def _typed(self) -> None:
        if not self._rows[-1].length.is_blank:
            self._picked = False
        self._set_out()
        self.changed.emit()

    def _set_out(self) -> None:
        if not self._rows or not self._rows[-1].length.is_blank:
            self._append()
        for index, row in enumerate(self._rows):
            for column, control in enumerate(row.controls):
                self._grid.addWidget(control, index + 1, column)
                # At once, not with the next event: Enter takes the keyboard to a row just made.
                control.show()
            row.call(index + 1)
            row.remove.setVisible(not row.length.is_blank)
            for before, after in zip(row.controls[:2], row.controls[1:3], strict=True):
                QWidget.setTabOrder(before, after)
