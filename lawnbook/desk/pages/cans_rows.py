"""The cans of a test as rows to type into, each beside its rate and the computed map's there.

Enter, a blank and the arrow keys go from can to can; a list that is pasted into one cell, or of
inches typed into it, fills the rows from there on.
"""

import re
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QGridLayout, QWidget

from lawnbook.desk.codecs import kept_text
from lawnbook.desk.entry import number_shown, parse_list
from lawnbook.desk.figures import FigureHand
from lawnbook.desk.pages.cans_bar import RateBar, full_scale
from lawnbook.desk.pages.cans_figures import Can, CanFigures
from lawnbook.desk.pages.cans_words import can_heads, place_words, spoken_can
from lawnbook.desk.telling import captioned
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, mark_role, name_control
from lawnbook.reading import reading, tr
from lawnbook.yard.amounts import bare
from lawnbook.yard.fields import Point
from lawnbook.yard.numbers import parse_inches, parse_number, parse_readings
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

Unit = Literal["mL", "in"]

FEWEST_ROWS = 6
CELL_PX = 76
PLACE, RATE, MAP, OF_MAP, BAR = 1, 3, 4, 5, 6
NUMBERS = (RATE, MAP, OF_MAP)


class CanCell(TextField):
    """What one can caught. `stepped` tells by how many rows to go, `listed` a list of readings."""

    stepped = Signal(int)
    listed = Signal(str)
    focused = Signal()
    entered = Signal()

    def __init__(self, number: int, parent: QWidget) -> None:
        super().__init__(parent)
        self._number = number
        self._exact: tuple[str, float] | None = None
        self._unit: Unit = "mL"
        self._told_in = reading().units
        sized(self, width=CELL_PX)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        mark_role(self, "cell")

    def set_unit(self, unit: Unit) -> None:
        """Call the cell by what is read into it."""
        self._unit = unit
        self.setObjectName(f"can_{self._number}")
        self.retell()

    def retell(self) -> None:
        """Name and figure in the owner's unit; what is typed means what it did."""
        spoken = captioned(tr("Can {number} caught", number=self._number), self._unit)
        name_control(self, f"can_{self._number}", spoken)
        if self._unit != "in" or self._told_in == reading().units:
            return
        if self._exact is not None and self.text() == self._exact[0]:
            self.put_value(self._exact[1])
        else:
            parse = partial(parse_inches, what=tr("Can {number}", number=self._number))
            self.setText(kept_text(self.text(), parse, "in", self._told_in))
        self._told_in = reading().units

    def put_value(self, value: float | None) -> None:
        """Show a number; it is kept to the last digit until a hand edits it."""
        unit = self._unit if self._unit == "in" else ""
        text = "" if value is None else number_shown(value, unit)
        self._exact = None if value is None else (text, value)
        self.setText(text)

    def put_text(self, text: str) -> None:
        """Show a text as if it were typed; one that is there already is left alone."""
        if text != self.text():
            self._exact = None
            self.setText(text)

    def value(self) -> float | None:
        """What was caught, None where nothing is typed. OwnerError for words."""
        text = self.text().strip()
        if self._exact is not None and text == self._exact[0]:
            return self._exact[1]
        parse = parse_number if self._unit == "mL" else parse_inches
        return parse(text, tr("Can {number}", number=self._number)) if text else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up, Down, Enter and a blank go from can to can; a pasted list is told.

        Among inches a blank belongs to the number: 1 1/4.
        """
        steps = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
        step = steps.get(Qt.Key(event.key()))
        if event.key() == Qt.Key.Key_Space and self._unit == "mL":
            step = 1 if self.text().strip() else 0
        if event.matches(QKeySequence.StandardKey.Paste):
            pasted = QApplication.clipboard().text()
            if len(pasted.split()) > 1:
                self.listed.emit(pasted)
                return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered.emit()
        elif step is not None:
            self.stepped.emit(step)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Mark the figure, so that typing replaces it."""
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason:
            self.selectAll()
        self.focused.emit()


class CanRows(QWidget):
    """A row for each can. `changed` on every edit, `entered` on Enter after the last one.

    `reached` tells the place of the can that has the keyboard, counted from 0; `told` a sentence
    on readings for which there is no can.
    """

    changed = Signal()
    told = Signal(str)
    entered = Signal()
    reached = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._unit: Unit = "mL"
        self._places: tuple[Point, ...] = ()
        self._cells: list[CanCell] = []
        self._ask_of: Callable[[int], Sequence[Working]] = lambda _: ()
        self._labels: list[dict[int, Caption]] = []
        self._bars: list[RateBar] = []
        self._heads = [Caption(words, self) for words in can_heads()]
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(BAR, 1)
        for column, head in enumerate(self._heads):
            self._grid.addWidget(head, 0, column, _side(column))
        self.load((), ())

    @property
    def places(self) -> tuple[Point, ...]:
        """Where the cans stand; empty where they are a plain list."""
        return self._places

    @property
    def cells(self) -> tuple[CanCell, ...]:
        """The cells that are typed into."""
        return tuple(self._cells)

    def let_cans_open(self, ask_of: "Callable[[int], Sequence[Working]]") -> None:
        """Let each can, by its row from 0, open how its rate came about."""
        self._ask_of = ask_of

    def set_unit(self, unit: Unit) -> None:
        """Take what is typed as millilitres or as inches."""
        self._unit = unit
        for cell in self._cells:
            cell.set_unit(unit)
        self._say_heads()

    def retell(self) -> None:
        """Heads, places and figures in the owner's units."""
        for cell in self._cells:
            cell.retell()
        self._say_heads()
        self._show_places()

    def _say_heads(self) -> None:
        for head, words in zip(self._heads, can_heads(), strict=True):
            head.setText(words)
        self._heads[2].setText(captioned(tr("Caught"), self._unit))

    def load(self, readings: Sequence[float | None], places: Sequence[Point]) -> None:
        """Show a test's cans, or empty rows. Tells nobody."""
        self._places = tuple(places)
        self._set_rows(len(places) or max(FEWEST_ROWS, len(readings) + 1))
        for k, cell in enumerate(self._cells):
            mark_role(cell, "cell")
            cell.put_value(readings[k] if k < len(readings) else None)
        self._show_places()

    def set_places(self, places: Sequence[Point]) -> None:
        """Follow the cans as they stand now; what is typed stays with its can."""
        before, after = self._places, tuple(places)
        texts = [cell.text() for cell in self._cells]
        if before and len(after) < len(before):
            held = dict(zip(before, texts, strict=True))
            texts = [held.get(place, "") for place in after]
            if not after:
                texts = list(held.values())
        while texts and not after and not texts[-1].strip():
            texts.pop()
        self._places = after
        self._set_rows(len(after) or max(FEWEST_ROWS, len(texts) + 1))
        for k, cell in enumerate(self._cells):
            cell.put_text(texts[k] if k < len(texts) else "")
        self._show_places()

    def readable(self) -> tuple[float | None, ...]:
        """What can be read so far, for live answers; None for the others."""
        return tuple(self._read(cell) for cell in self._cells)

    def values(self) -> tuple[float, ...]:
        """What the cans caught. OwnerError about the first that is unreadable.

        Blank rows of a plain list are left out; a can with a place must say what it caught.
        """
        found = [self._value(row) for row in range(len(self._cells))]
        return tuple(each for each in found if each is not None)

    def mark_wrong(self) -> None:
        """Mark the first can that is unreadable and take the keyboard there."""
        for row, cell in enumerate(self._cells):
            try:
                self._value(row)
            except OwnerError:
                mark_role(cell, "cell", "refuse")
                self.focus(row)
                return

    def _value(self, row: int) -> float | None:
        value = self._cells[row].value()
        if value is None and self._places:
            raise OwnerError(
                tr(
                    "Can {row} says nothing: type what it caught, 0 where it caught nothing.",
                    row=row + 1,
                )
            )
        return value

    def show_figures(self, told: CanFigures | None, cans: Sequence[Can]) -> None:
        """Show each can's figures; `cans` hold the map's where there are no figures yet."""
        shown = tuple(told.cans) if told is not None else tuple(cans)
        full = full_scale(shown)
        mapped = any(each.map_in_per_h is not None for each in shown)
        for column in (MAP, OF_MAP, BAR):
            self._heads[column].setVisible(mapped)
        for k, labels in enumerate(self._labels):
            can = shown[k] if k < len(shown) else Can(number=k + 1)
            figures = {RATE: can.in_per_h, MAP: can.map_in_per_h, OF_MAP: can.of_map}
            for column, figure in figures.items():
                unit = "" if column == OF_MAP else "in/h"
                labels[column].setText("" if figure is None else bare(figure, 2, unit))
                labels[column].setVisible(column == RATE or mapped)
            mark_role(labels[OF_MAP], "warn" if can.clogged else "caption")
            self._bars[k].show_can(can, full)
            self._cells[k].setAccessibleDescription(spoken_can(can, self._unit))

    def focus(self, row: int = 0) -> None:
        """Put the keyboard into a can's cell, the first if none is named."""
        self._cells[row].setFocus(Qt.FocusReason.OtherFocusReason)

    def _read(self, cell: CanCell) -> float | None:
        try:
            return cell.value()
        except OwnerError:
            return None

    def _go(self, row: int, step: int) -> None:
        if 0 <= row + step < len(self._cells):
            self.focus(row + step)

    def _enter(self, row: int) -> None:
        """On to the next can; from the last one, or from a blank row of a list, it is done."""
        blank = not self._cells[row].text().strip()
        self._left(row)
        last = row + 1 == len(self._cells)
        if last or (blank and not self._places):
            self.entered.emit()
        else:
            self.focus(row + 1)

    def _left(self, row: int) -> None:
        """Spread a list typed into one cell over the rows."""
        # A row taken out while it has the keyboard is left once more.
        text = self._cells[row].text() if row < len(self._cells) else ""
        if len(_split(text, self._unit)) > 1:
            self._fill(row, text)

    def _typed(self, row: int) -> None:
        mark_role(self._cells[row], "cell")
        if not self._places and row + 1 == len(self._cells):
            self._set_rows(len(self._cells) + 1)
            self._show_places()
        self.changed.emit()

    def _fill(self, row: int, text: str) -> None:
        """Put a list of readings into the rows from one on; more rows where it needs them."""
        texts = _split(text, self._unit)
        if not self._places and row + len(texts) >= len(self._cells):
            self._set_rows(row + len(texts) + 1)
            self._show_places()
        room = len(self._cells) - row
        for k, each in enumerate(texts[:room]):
            self._cells[row + k].put_text(each)
        self.focus(min(row + len(texts), len(self._cells) - 1))
        self.changed.emit()
        if len(texts) > room:
            self.told.emit(
                tr(
                    "{count} readings from can {row} on, and cans for {room} of them: {texts} left "
                    "out. Place more cans, or go on without places.",
                    count=len(texts),
                    row=row + 1,
                    room=room,
                    texts=" ".join(texts[room:]),
                )
            )

    def _set_rows(self, count: int) -> None:
        while len(self._cells) > count:
            cell, bar, labels = self._cells.pop(), self._bars.pop(), self._labels.pop()
            for part in (cell, bar, *labels.values()):
                part.hide()
                part.setParent(None)
                part.deleteLater()
        while len(self._cells) < count:
            self._add_row(len(self._cells))

    def _add_row(self, row: int) -> None:
        cell, bar = CanCell(row + 1, self), RateBar(row + 1, self)
        cell.set_unit(self._unit)
        labels = {column: Caption("", self) for column in (0, PLACE, *NUMBERS)}
        labels[0].setText(str(row + 1))
        labels[0].setBuddy(cell)
        for column, label in labels.items():
            self._grid.addWidget(label, row + 1, column, _side(column))
        self._grid.addWidget(cell, row + 1, 2)
        self._grid.addWidget(bar, row + 1, BAR)
        for part in (cell, bar):
            # The layout shows it later; the keyboard may go there at once.
            part.show()
        if self._cells:
            QWidget.setTabOrder(self._cells[-1], cell)
        FigureHand(cell, lambda: self._ask_of(row), by_click=False)
        FigureHand(labels[RATE], lambda: self._ask_of(row))
        self._cells.append(cell)
        self._bars.append(bar)
        self._labels.append(labels)
        cell.textEdited.connect(lambda _: self._typed(row))
        cell.editingFinished.connect(lambda: self._left(row))
        cell.entered.connect(lambda: self._enter(row))
        cell.stepped.connect(lambda step: self._go(row, step))
        cell.listed.connect(lambda text: self._fill(row, text))
        cell.focused.connect(lambda: self.reached.emit(row))

    def _show_places(self) -> None:
        self._heads[PLACE].setVisible(bool(self._places))
        for k, labels in enumerate(self._labels):
            at_ft = self._places[k] if k < len(self._places) else None
            labels[PLACE].setText(place_words(at_ft))
            labels[PLACE].setVisible(at_ft is not None)


def _split(text: str, unit: Unit) -> list[str]:
    """A list of readings as one text each; what cannot be read is parted at its blanks."""
    try:
        read = parse_list(text) if unit == "mL" else parse_readings(text)
    except OwnerError:
        return [each for each in re.split(r"[\s;]+", text.strip()) if each]
    own = "" if unit == "mL" else unit
    return [number_shown(each, own) for each in read] if len(read) > 1 else [text.strip()]


def _side(column: int) -> Qt.AlignmentFlag:
    """Figures stand at the right of their column."""
    side = Qt.AlignmentFlag.AlignRight if column in NUMBERS else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter
