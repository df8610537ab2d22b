"""Twelve small fields, January to December, in two rows of six."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from lawnbook.desk.entry import plain_number
from lawnbook.desk.widgets import Caption, TextField, mark_role, name_control
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import MONTHS
from lawnbook.yard.problems import OwnerError

PER_ROW = 6
UNIT = "lb per 1,000 sq ft"


class MonthsField(QWidget):
    """A number for each month; an empty one is zero. `edited` as the owner types."""

    edited = Signal()

    def __init__(self, prefix: str, spoken: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, f"{prefix}months", spoken)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(3)
        self._fields = [self._field(prefix, spoken, month) for month in range(1, 13)]
        for place, field in enumerate(self._fields):
            row, column = divmod(place, PER_ROW)
            label = Caption(MONTHS[place], self)
            label.setBuddy(field)
            grid.addWidget(label, 2 * row, column)
            grid.addWidget(field, 2 * row + 1, column)

    def put_values(self, values: Sequence[float]) -> None:
        """Show twelve numbers; zeros are shown as such. Tells nobody."""
        for field, value in zip(self._fields, values, strict=True):
            field.setText(plain_number(value))
            mark_role(field, "")

    def values(self) -> tuple[float, ...]:
        """The twelve numbers. OwnerError names the month that cannot be read, and marks it."""
        held = []
        for field, name in zip(self._fields, MONTHS, strict=True):
            try:
                text = field.text().strip()
                held.append(parse_measure(text, name, UNIT) if text else 0.0)
            except OwnerError:
                mark_role(field, "", "refuse")
                raise
            mark_role(field, "")
        return tuple(held)

    def _field(self, prefix: str, spoken: str, month: int) -> TextField:
        field = TextField(self)
        name_control(field, f"{prefix}month_{month}", f"{spoken}, {MONTHS[month - 1]}")
        field.setAlignment(Qt.AlignmentFlag.AlignRight)
        field.textEdited.connect(lambda _: self.edited.emit())
        return field
