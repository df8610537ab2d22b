"""The cells of a mix's rows: what an ingredient is called, and its figures.

Figures are held as they were put in, to the last digit, until a hand edits them.
"""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.entry import number_shown
from lawnbook.desk.telling import either
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import TextField, mark_role
from lawnbook.reading import tr
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.problems import OwnerError

_PERCENT_HEADS = ("N\n%", "P₂O₅\n%", "K₂O\n%", tr("Slow N\n%"))
FIGURES = ("amount", "density", "n", "p2o5", "k2o", "slow")
SPOKEN = {
    "amount": tr("Amount"),
    "density": tr("Pounds per gallon"),
    "n": tr("Nitrogen %"),
    "p2o5": tr("Phosphate %"),
    "k2o": tr("Potash %"),
    "slow": tr("Slow nitrogen %"),
}
METRIC_OF = {"lb": "kg", "oz": "g", "gal": "L", "fl oz": "mL"}
"""What an ingredient's amount is offered in to a metric reader."""
UNIT_OF = {"amount": "", "density": "lb/gal"}
"""The unit of a row's figures that are no percentages; an amount's is chosen beside it."""
FIGURE_PX = 44


def heads() -> tuple[str, ...]:
    """The heads of the rows."""
    density = either(tr("lb per\ngallon"), tr("kg per\nlitre"))
    return (tr("Ingredient"), tr("Amount"), tr("Unit"), density, *_PERCENT_HEADS, "")


def spoken(which: str) -> str:
    """What a figure of a row is called."""
    metric = tr("Kilograms per litre")
    return either(SPOKEN[which], metric) if which == "density" else SPOKEN[which]


class RowField(TextField):
    """A field of a row that leaves Ctrl+Delete, a word's end elsewhere, to the rows."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        mark_role(self, "cell")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """All keys but the one that takes the row out."""
        if takes_out(event):
            event.ignore()
        else:
            super().keyPressEvent(event)


class FigureCell(RowField):
    """A number in a unit in a row, kept to the last digit until a hand edits it."""

    def __init__(self, unit: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._unit = unit
        self._exact: tuple[str, float] | None = None
        sized(self, width=FIGURE_PX)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)

    def retell(self) -> None:
        """The number in the owner's unit; what is typed means what it did."""
        if self._exact is not None and self.text() == self._exact[0]:
            self.put(self._exact[1])
        else:
            self.setText(kept_amount(self.text(), self._unit))

    def put(self, value: float | None) -> None:
        """Show a number, or nothing."""
        text = "" if value is None else number_shown(value, self._unit)
        self._exact = None if value is None else (text, value)
        self.setText(text)

    def value(self, what: str) -> float | None:
        """The number typed, None where there is none. OwnerError for words and below zero."""
        text = self.text().strip()
        if self._exact is not None and text == self._exact[0]:
            return self._exact[1]
        number = parse_measure(text, what, self._unit) if text else None
        if number is not None and number < 0:
            raise OwnerError(
                tr("{what} {text} is below zero; enter 0 or more.", what=what, text=text)
            )
        return number

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Mark the figure, so that typing replaces it."""
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason:
            self.selectAll()


def takes_out(event: QKeyEvent) -> bool:
    """Whether a key takes a row out: Ctrl+Delete."""
    held = event.modifiers() & Qt.KeyboardModifier.ControlModifier
    return bool(held) and event.key() == Qt.Key.Key_Delete
