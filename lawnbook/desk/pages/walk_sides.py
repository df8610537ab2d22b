"""The corners of a walk as rows: the side to the next corner, and how the outline turns there."""

import itertools
from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from lawnbook.desk.pages.walk_cells import (
    NOT_TAPED,
    FitsWords,
    LengthCell,
    goes_on,
    name_put_in,
    name_remove,
    put_in_button,
    puts_in,
    remove_button,
    takes_out,
)
from lawnbook.desk.widgets import Caption, Words, name_control
from lawnbook.reading import tr
from lawnbook.yard.walk_records import MOST_CORNERS, Residual, Walk, corner_name, pair_name

HEADS = (tr("Side"), tr("Length"), tr("Turns in"), tr("Square"), tr("Fit"), "", "")
FEWEST_ROWS = 4


class SideRow:
    """The controls of one corner, and of the side that leaves it."""

    def __init__(self, parent: QWidget) -> None:
        self.label = Words("", "", parent, wrap=False)
        self.length = LengthCell(parent)
        self.turns_in = QCheckBox(parent)
        self.square = QCheckBox(parent)
        self.fits = FitsWords(parent)
        self.put_in = put_in_button(parent)
        self.remove = remove_button(parent)

    @property
    def controls(self) -> tuple[QWidget, ...]:
        """Every control, from left to right."""
        boxes = (self.turns_in, self.square)
        return (self.label, self.length, *boxes, self.fits, self.put_in, self.remove)

    def call(self, index: int, count: int) -> None:
        """Name the controls by the corner; the last side leads back to the first corner."""
        corner = corner_name(index)
        following = 0 if count > 2 and index == count - 1 else index + 1
        side = pair_name((index, following))
        self.label.setText(side)
        self.label.setEnabled(index < count)
        number = index + 1
        name_control(self.length, f"walk_side_{number}", tr("{side}, length", side=side))
        name_control(
            self.turns_in, f"walk_turn_{number}", tr("Corner {corner} turns in", corner=corner)
        )
        name_control(
            self.square, f"walk_square_{number}", tr("Corner {corner} is square", corner=corner)
        )
        self.fits.setObjectName(f"walk_side_fit_{number}")
        name_put_in(self.put_in, f"walk_side_put_in_{number}", tr("corner {corner}", corner=corner))
        name_remove(self.remove, f"walk_side_remove_{number}", tr("corner {corner}", corner=corner))


class SideRows(QWidget):
    """Rows of corners; there is always a blank one after the last.

    `changed` on every edit, `taken_out` with the index of a corner that went, `put_in` with that of
    one that came between others, `entered` when Enter ends a length, `left_below` when it goes on
    from the blank row.
    """

    changed = Signal()
    taken_out = Signal(int)
    put_in = Signal(int)
    left_below = Signal()
    entered = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: list[SideRow] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(4, 1)
        for column, words in enumerate(HEADS):
            head = Caption(words, self)
            self._grid.addWidget(head, 0, column, Qt.AlignmentFlag.AlignBottom)
        self._set_out()

    @property
    def count(self) -> int:
        """How many corners there are: up to the last row in which a length or "?" is typed."""
        return max((i for i, row in enumerate(self._rows, 1) if not row.length.is_blank), default=0)

    def load(self, walk: Walk) -> None:
        """Show the sides of a walk. Tells nobody."""
        self._clear()
        for index, length_ft in enumerate(walk.sides_ft):
            row = self._rows[index] if index < len(self._rows) else self._append()
            row.length.put(length_ft)
            row.turns_in.setChecked(index in walk.turns_in)
            row.square.setChecked(index in walk.square)
        self._set_out()

    def sides_ft(self) -> tuple[float | None, ...]:
        """The lengths, None for one not taped. OwnerError about the first that is no length."""
        return tuple(row.length.length_ft(row.label.text()) for row in self._rows[: self.count])

    def ticked(self, which: str) -> frozenset[int]:
        """The corners at which "turns_in" or "square" is ticked."""
        rows = self._rows[: self.count]
        return frozenset(i for i, row in enumerate(rows) if getattr(row, which).isChecked())

    def show_fit(self, found: dict[int, Residual], suspects: frozenset[int]) -> None:
        """Show the residual of each side by its corner; the others say nothing."""
        for index, row in enumerate(self._rows):
            each = found.get(index)
            off_in = each.off_in if each is not None else None
            row.fits.show_off(off_in, suspect=index in suspects)

    def start(self) -> None:
        """Take the keyboard to the first length."""
        self._rows[0].length.setFocus(Qt.FocusReason.TabFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on to the next side, Insert puts a corner in, Ctrl+Delete takes one out."""
        index = self._at_work()
        if index is not None and takes_out(event):
            self._take_out(index)
        elif index is not None and puts_in(event):
            self._put_in(index)
        elif index is not None and goes_on(event):
            self.entered.emit()
            self._go_on(index)
        else:
            super().keyPressEvent(event)

    def _go_on(self, index: int) -> None:
        if self._rows[index].length.is_blank and index >= self.count:
            self.left_below.emit()
        elif index + 1 < len(self._rows):
            self._rows[index + 1].length.setFocus(Qt.FocusReason.TabFocusReason)

    def _at_work(self) -> int | None:
        for index, row in enumerate(self._rows):
            if any(control.hasFocus() for control in row.controls):
                return index
        return None

    def _take_out(self, index: int) -> None:
        was = self.count
        self._drop(index)
        self._set_out()
        self._rows[min(index, len(self._rows) - 1)].length.setFocus(Qt.FocusReason.TabFocusReason)
        if index < was:
            self.taken_out.emit(index)
        self.changed.emit()

    def _put_in(self, index: int) -> None:
        """Put a corner in before one; its side is not taped yet, as "?" says."""
        if index >= self.count or self.count >= MOST_CORNERS:
            return
        # The blank row makes room, or the last one of a full list that is not.
        row = self._make()
        self._rows.insert(index, row)
        if len(self._rows) > MOST_CORNERS:
            self._drop(MOST_CORNERS)
        row.length.setText(NOT_TAPED)
        self._set_out()
        row.length.setFocus(Qt.FocusReason.TabFocusReason)
        self.put_in.emit(index)
        self.changed.emit()

    def _append(self) -> SideRow:
        row = self._make()
        self._rows.append(row)
        return row

    def _make(self) -> SideRow:
        row = SideRow(self)
        row.length.textEdited.connect(self._typed)
        for box in (row.turns_in, row.square):
            box.toggled.connect(self.changed)
        row.put_in.clicked.connect(lambda _=False, row=row: self._put_in(self._rows.index(row)))
        row.remove.clicked.connect(lambda _=False, row=row: self._take_out(self._rows.index(row)))
        return row

    def _typed(self) -> None:
        self._set_out()
        self.changed.emit()

    def _clear(self) -> None:
        while self._rows:
            self._drop(len(self._rows) - 1)

    def _drop(self, index: int) -> None:
        drop(self._grid, self._rows.pop(index).controls)

    def _set_out(self) -> None:
        """Keep enough rows, each in its place and called by its corner."""
        count = self.count
        while len(self._rows) < min(max(FEWEST_ROWS, count + 1), MOST_CORNERS):
            self._append()
        for index, row in enumerate(self._rows):
            for column, control in enumerate(row.controls):
                self._grid.addWidget(control, index + 1, column, _SIDES[column])
                # At once, not with the next event: Enter takes the keyboard to a row just made.
                control.show()
            row.call(index, count)
            row.remove.setVisible(index < count)
            row.put_in.setVisible(index < count < MOST_CORNERS)
        _tab_through(self._rows)


_MIDDLE = Qt.AlignmentFlag.AlignVCenter
_SIDES = (_MIDDLE, _MIDDLE, Qt.AlignmentFlag.AlignCenter, Qt.AlignmentFlag.AlignCenter, _MIDDLE,
          _MIDDLE, _MIDDLE)  # fmt: skip


def _tab_through(rows: Sequence[SideRow]) -> None:
    stops = [each for row in rows for each in (row.length, row.turns_in, row.square)]
    for before, after in itertools.pairwise(stops):
        QWidget.setTabOrder(before, after)


def drop(grid: QGridLayout, controls: Sequence[QWidget]) -> None:
    """Take the controls of a row out of its grid."""
    for control in controls:
        control.hide()
        # Until it is deleted, nobody is to find it by the name of a row that stays.
        control.setObjectName("")
        grid.removeWidget(control)
        control.deleteLater()
