"""The ingredients of a home-made mix as rows to type into, one more than are filled.

Enter goes on to the next row, Ctrl+Delete takes a row out, and the button at its end does too.
"""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QPushButton, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.kitchen import (
    GAL_BY_UNIT,
    LB_BY_UNIT,
    UNITS,
    WATER_LB_PER_GAL,
    Example,
    is_volume,
    pounds_of,
)
from lawnbook.desk.pages.mix_cells import (
    FIGURES,
    METRIC_OF,
    UNIT_OF,
    FigureCell,
    RowField,
    heads,
    spoken,
    takes_out,
)
from lawnbook.desk.telling import either
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, mark_role, name_control
from lawnbook.plan.workings import PERCENT
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Ingredient

UNIT_PX, REMOVE_PX = 70, 24
_UNIT_COLUMN = 2


class MixRow:
    """The controls of one ingredient, and what they hold."""

    def __init__(self, parent: QWidget) -> None:
        self.name = RowField(parent)
        self.cells = {each: FigureCell(UNIT_OF.get(each, "%"), parent) for each in FIGURES}
        self.unit = ChoiceBox(parent)
        sized(self.unit, width=UNIT_PX)
        for each in UNITS:
            self.unit.addItem(tr(each), each)
        self.remove = QPushButton("×", parent)
        self.remove.setAutoDefault(False)
        sized(self.remove, width=REMOVE_PX)
        self.remove.setProperty("role", "tool")
        self.follow_unit()

    @property
    def fields(self) -> tuple[TextField, ...]:
        """What is typed into, as it is read."""
        return (self.name, *self.cells.values())

    @property
    def controls(self) -> tuple[QWidget, ...]:
        """Every control, from left to right."""
        amount, *figures = self.cells.values()
        return (self.name, amount, self.unit, *figures, self.remove)

    @property
    def is_blank(self) -> bool:
        """Whether nothing is typed."""
        return not any(field.text().strip() for field in self.fields)

    def call(self, number: int) -> None:
        """Name the controls by the row's number, counted from 1."""
        name_control(self.name, f"mix_{number}_name", tr("Ingredient {number}", number=number))
        for each, cell in self.cells.items():
            name_control(
                cell,
                f"mix_{number}_{each}",
                tr("{spoken} of ingredient {number}", spoken=spoken(each), number=number),
            )
        name_control(
            self.unit, f"mix_{number}_unit", tr("Unit of ingredient {number}", number=number)
        )
        name_control(
            self.remove, f"mix_{number}_remove", tr("Take out ingredient {number}", number=number)
        )
        self.remove.setToolTip(tr("Take this ingredient out (Ctrl+Delete in its row)"))

    def follow_unit(self) -> None:
        """A density is asked of a volume only."""
        self.cells["density"].setEnabled(is_volume(self.unit.currentData()))

    def put(self, each: Ingredient, unit: str, amount: float | None, density: float | None) -> None:
        """Show an ingredient in an amount of a unit."""
        self.name.setText(each.name)
        self.unit.setCurrentIndex(self.unit.findData(unit))
        figures = (amount, density, each.n_pct, each.p2o5_pct, each.k2o_pct, each.slow_n_pct)
        for cell, figure in zip(self.cells.values(), figures, strict=True):
            cell.put(figure)
            mark_role(cell, "cell")
        self.follow_unit()

    def lacking(self, number: int) -> tuple[TextField, str] | None:
        """The first field that is still to be filled in, and the sentence that asks for it."""
        name = self.name.text().strip()
        amount, density = self.cells["amount"], self.cells["density"]
        if not name:
            words = tr(
                "Ingredient {number} has no name: type what it is, or take it out.", number=number
            )
            return self.name, words
        if not amount.text().strip():
            return amount, tr("{name}: say how much of it goes in.", name=name)
        if density.isEnabled() and not density.text().strip():
            unit = self.unit.currentData()
            us = tr("{name}: {unit} is a volume; enter what a gallon of it weighs (water "
                    "{water} lb), or weigh it and enter pounds.",
                    name=name, unit=unit, water=WATER_LB_PER_GAL)  # fmt: skip
            metric = tr("{name}: {unit} is a volume; enter what a litre of it weighs (water "
                        "1 kg), or weigh it and enter kilograms.",
                        name=name, unit=unit)  # fmt: skip
            return density, either(us, metric)
        return None

    def ingredient(self, number: int) -> Ingredient:
        """What the row holds, in pounds. OwnerError where it cannot be kept.

        A figure that is wrong is marked at once, what is only lacking by `mark_lacking`.
        """
        for field in self.fields:
            mark_role(field, "cell")
        lack = self.lacking(number)
        if lack is not None:
            raise OwnerError(lack[1])
        name = self.name.text().strip()
        amount, density = self._figure("amount", name), self._figure("density", name)
        made = Ingredient(
            name=name,
            pounds=pounds_of(amount or 0.0, self.unit.currentData(), density),
            n_pct=self._percent("n", name),
            p2o5_pct=self._percent("p2o5", name),
            k2o_pct=self._percent("k2o", name),
            slow_n_pct=self._percent("slow", name),
        )
        if made.slow_n_pct > made.n_pct:
            mark_role(self.cells["slow"], "cell", "refuse")
            raise OwnerError(
                tr(
                    "{name}: slow nitrogen of {slow_n_pct:g}{percent} is more than all its "
                    "nitrogen, {n_pct:g}{percent}; both are percent of the ingredient.",
                    name=name,
                    slow_n_pct=made.slow_n_pct,
                    percent=PERCENT,
                    n_pct=made.n_pct,
                )
            )
        return made

    def gallons(self) -> float | None:
        """The volume of the row; None where it is weighed, or not yet readable."""
        unit = self.unit.currentData()
        try:
            amount = self.cells["amount"].value(tr("Amount"))
        except OwnerError:
            return None
        return amount * GAL_BY_UNIT[unit] if amount is not None and is_volume(unit) else None

    def _percent(self, which: str, name: str) -> float:
        value = self._figure(which, name) or 0.0
        if value > 100:
            mark_role(self.cells[which], "cell", "refuse")
            raise OwnerError(
                tr(
                    "{name}: {value:g}{percent} is more than the whole; enter 0 to 100.",
                    name=name,
                    value=value,
                    percent=PERCENT,
                )
            )
        return value

    def _figure(self, which: str, name: str) -> float | None:
        cell = self.cells[which]
        if not cell.isEnabled():
            return None
        try:
            return cell.value(f"{name}, {spoken(which).lower()}")
        except OwnerError:
            mark_role(cell, "cell", "refuse")
            raise


class MixRows(QWidget):
    """Rows of ingredients; the last one is always blank.

    `changed` on every edit; `set_out` when rows came or went.
    """

    changed = Signal()
    set_out = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: list[MixRow] = []
        self._heads: list[Caption] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(0, 1)
        for column, words in enumerate(heads()):
            head = Caption(words, self)
            self._heads.append(head)
            side = _LEFT if column in (0, _UNIT_COLUMN) else Qt.AlignmentFlag.AlignRight
            head.setAlignment(side)
            self._grid.addWidget(head, 0, column, side | Qt.AlignmentFlag.AlignBottom)
        self.load(())

    @property
    def rows(self) -> tuple[MixRow, ...]:
        """All rows, the blank one at the end too."""
        return tuple(self._rows)

    def load(self, ingredients: Sequence[Ingredient]) -> None:
        """Show a mix in pounds, or one blank row. Tells nobody."""
        while self._rows:
            self._drop(len(self._rows) - 1)
        for each in ingredients:
            weight = either("lb", "kg")
            self._append().put(each, weight, each.pounds / LB_BY_UNIT[weight], None)
        self._append()
        self._set_out()

    def add_example(self, example: Example) -> None:
        """Put a common ingredient into the blank row; its amount has the keyboard next."""
        row = self._rows[-1]
        unit = either(example.unit, METRIC_OF.get(example.unit, example.unit))
        row.put(example.ingredient, unit, None, example.density_lb_per_gal)
        self._grow()
        row.cells["amount"].setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    def retell(self) -> None:
        """Heads and names in the owner's units; amounts stay in the unit chosen beside them."""
        for head, words in zip(self._heads, heads(), strict=True):
            head.setText(words)
        for number, row in enumerate(self._rows, 1):
            row.call(number)

    def ingredients(self) -> tuple[Ingredient, ...]:
        """What is entered. OwnerError about the first row that cannot be kept."""
        return tuple(
            row.ingredient(number) for number, row in enumerate(self._rows, 1) if not row.is_blank
        )

    def readable(self) -> tuple[Ingredient, ...]:
        """The rows that are complete, for live answers. OwnerError about one that is wrong."""
        return tuple(
            row.ingredient(number)
            for number, row in enumerate(self._rows, 1)
            if row.lacking(number) is None
        )

    def lacking(self) -> str:
        """What is still to be filled in, as a sentence; empty where nothing is."""
        lack = self._lack()
        return "" if lack is None else lack[1]

    def mark_lacking(self) -> None:
        """Mark the first field that is still to be filled in, and take the keyboard there."""
        lack = self._lack()
        if lack is not None:
            mark_role(lack[0], "cell", "refuse")
            lack[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def _lack(self) -> tuple[TextField, str] | None:
        for number, row in enumerate(self._rows, 1):
            lack = None if row.is_blank else row.lacking(number)
            if lack is not None:
                return lack
        return None

    def gallons(self) -> float | None:
        """The volumes' sum; None unless every row is a volume."""
        volumes = [row.gallons() for row in self._rows if not row.is_blank]
        known = [each for each in volumes if each is not None]
        return sum(known) if known and len(known) == len(volumes) else None

    def take_out(self, index: int) -> None:
        """Take a row out; the keyboard goes to the row that follows."""
        if self._rows[index] is self._rows[-1]:
            self._rows[index].put(Ingredient(name="", pounds=0.0), either("lb", "kg"), None, None)
            self._clear(self._rows[index])
        else:
            self._drop(index)
        self._set_out()
        self._rows[min(index, len(self._rows) - 1)].name.setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on to the next row, Ctrl+Delete takes the row out that has the keyboard."""
        index = self._at_work()
        if index is not None and takes_out(event):
            self.take_out(index)
        elif index is not None and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            following = self._rows[min(index + 1, len(self._rows) - 1)]
            following.name.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().keyPressEvent(event)

    def _at_work(self) -> int | None:
        """The row that has the keyboard."""
        for index, row in enumerate(self._rows):
            if any(control.hasFocus() for control in row.controls):
                return index
        return None

    def _append(self) -> MixRow:
        row = MixRow(self)
        self._clear(row)
        for field in row.fields:
            field.textEdited.connect(lambda _, row=row: self._typed(row))
        row.unit.activated.connect(lambda _, row=row: self._picked(row))
        row.remove.clicked.connect(lambda _=False, row=row: self.take_out(self._rows.index(row)))
        self._rows.append(row)
        return row

    def _clear(self, row: MixRow) -> None:
        for field in row.fields:
            field.clear()

    def _typed(self, row: MixRow) -> None:
        for field in row.fields:
            mark_role(field, "cell")
        self._grow()
        self.changed.emit()

    def _picked(self, row: MixRow) -> None:
        row.follow_unit()
        self._typed(row)

    def _grow(self) -> None:
        """Keep one blank row at the end."""
        if not self._rows[-1].is_blank:
            self._append()
            self._set_out()

    def _drop(self, index: int) -> None:
        for control in self._rows.pop(index).controls:
            control.hide()
            # Until it is deleted, nobody is to find it by the name of a row that stays.
            control.setObjectName("")
            self._grid.removeWidget(control)
            control.deleteLater()

    def _set_out(self) -> None:
        """Place and name every row by its number."""
        for number, row in enumerate(self._rows, 1):
            row.call(number)
            for column, control in enumerate(row.controls):
                self._grid.addWidget(control, number, column)
                control.setVisible(control is not row.remove or row is not self._rows[-1])
        self.set_out.emit()


_LEFT = Qt.AlignmentFlag.AlignLeft
