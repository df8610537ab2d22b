"""Twelve small fields, January to December, in two rows of six."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.entry import number_shown
from lawnbook.desk.telling import captioned, follow_name
from lawnbook.desk.widgets import Caption, TextField, mark_role
from lawnbook.reading import tr
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
        follow_name(self, f"{prefix}months", lambda: captioned(spoken, UNIT))
        self._put: tuple[float, ...] = (0.0,) * 12
        self._shown: tuple[str, ...] = ("",) * 12
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(3)
        self._fields = [self._field(prefix, spoken, month) for month in range(1, 13)]
        for place, field in enumerate(self._fields):
            row, column = divmod(place, PER_ROW)
            label = Caption(tr(MONTHS[place]), self)
            label.setBuddy(field)
            grid.addWidget(label, 2 * row, column)
            grid.addWidget(field, 2 * row + 1, column)

    def put_values(self, values: Sequence[float]) -> None:
        """Show twelve numbers; zeros are shown as such. Tells nobody."""
        for field, value in zip(self._fields, values, strict=True):
            field.setText(number_shown(value, UNIT))
            mark_role(field, "")
        self._put = tuple(values)
        self._shown = tuple(field.text() for field in self._fields)

    def retell(self) -> None:
        """The numbers in the owner's unit; what is typed means what it did."""
        pairs = zip(self._fields, self._put, self._shown, strict=True)
        for field, value, before in pairs:
            untouched = field.text() == before
            field.setText(
                number_shown(value, UNIT) if untouched else kept_amount(field.text(), UNIT)
            )
        # A field that was typed into is still no number that was put in.
        held = zip(self._fields, self._put, self._shown, strict=True)
        self._shown = tuple(number_shown(value, UNIT) for _, value, _ in held)

    def values(self) -> tuple[float, ...]:
        """The twelve numbers. OwnerError names the month that cannot be read, and marks it."""
        held = []
        rows = zip(self._fields, MONTHS, self._put, self._shown, strict=True)
        for field, name, value, before in rows:
            try:
                text = field.text().strip()
                typed = parse_measure(text, tr(name), UNIT) if text else 0.0
                held.append(value if text and field.text() == before else typed)
            except OwnerError:
                mark_role(field, "", "refuse")
                raise
            mark_role(field, "")
        return tuple(held)

    def _field(self, prefix: str, spoken: str, month: int) -> TextField:
        field = TextField(self)
        called = f"{prefix}month_{month}"
        follow_name(field, called, lambda: f"{captioned(spoken, UNIT)}, {tr(MONTHS[month - 1])}")
        field.setAlignment(Qt.AlignmentFlag.AlignRight)
        field.textEdited.connect(lambda _: self.edited.emit())
        return field
