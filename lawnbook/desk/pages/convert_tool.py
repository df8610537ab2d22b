"""A small converter: type a measure in any field, and the others of its row follow."""

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from lawnbook.agronomy.units import lb_per_1000_to_g_per_m2
from lawnbook.desk.figures import FigureHand
from lawnbook.desk.pages.kitchen import GAL_BY_UNIT, LB_BY_UNIT
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, TextField, Words, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.numbers import parse_number
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

RATE_BY_UNIT = {"lb per 1,000 sq ft": 1.0, "g/m²": 1 / lb_per_1000_to_g_per_m2(1.0)}
"""Pounds per 1,000 sq ft in one of each measure of a rate."""

COLUMNS, LEAD_PX = 4, 76
VOLUME_IS_NOT_WEIGHT = tr(
    "Fluid ounces measure volume, ounces weight: only a density leads from one to the other."
)


_NAMES = {"Volume": GAL_BY_UNIT, "Weight": LB_BY_UNIT, "Rate": RATE_BY_UNIT}
_WORDS = ("Volume", "Weight", "Rate", "cup", "tbsp", "tsp", "fl oz", "mL", "L", "oz", "g", "kg")
"""The names and the units that are looked up where they are shown."""


class ConvertTool(QWidget):
    """Volume, weight and rate, each a row of its own."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for name, units in _NAMES.items():
            column.addWidget(ConvertRow(name, units, self))
        column.addWidget(Caption(VOLUME_IS_NOT_WEIGHT, self, wrap=True))


class ConvertRow(QWidget):
    """One quantity in several units; `units` says how much of the row's own measure one is."""

    def __init__(
        self, name: str, units: Mapping[str, float], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._name, self._units = name, units
        self._fields = {unit: TextField(self) for unit in units}
        self._typed_in = ""
        self._trouble = Words("", "refuse", self)
        self._trouble.setObjectName(f"convert_{name.lower()}_problem")
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(3)
        lead = Caption(tr(name), self)
        sized(lead, width=LEAD_PX)
        grid.addWidget(lead, 1, 0)
        span = 2 if len(units) == 2 else 1
        for place, (unit, field) in enumerate(self._fields.items()):
            spoken = tr("{quantity} in {unit}", quantity=tr(name), unit=tr(unit))
            name_control(field, f"convert_{_key(unit)}", spoken)
            field.setAlignment(Qt.AlignmentFlag.AlignRight)
            label = Caption(tr(unit), self)
            label.setBuddy(field)
            line, column = divmod(place * span, COLUMNS)
            right = Qt.AlignmentFlag.AlignRight
            grid.addWidget(label, 2 * line, 1 + column, 1, span, right)
            grid.addWidget(field, 2 * line + 1, 1 + column, 1, span)
            field.textEdited.connect(lambda _, unit=unit: self._typed(unit))
            FigureHand(field, partial(self._workings, unit), by_click=False)
        for each in range(1, COLUMNS + 1):
            grid.setColumnStretch(each, 1)
            grid.setColumnMinimumWidth(each, 40)
        grid.addWidget(self._trouble, 4, 1, 1, COLUMNS)

    def _typed(self, unit: str) -> None:
        """Let the others follow the one that was typed; what is wrong empties them."""
        for each in self._fields.values():
            mark_role(each, "")
        self._trouble.say("")
        field = self._fields[unit]
        self._typed_in = unit
        held: float | None = None
        if field.text().strip():
            try:
                held = self._read(field) * self._units[unit]
            except OwnerError as problem:
                mark_role(field, "", "refuse")
                self._trouble.say(str(problem))
        for other, shown in self._fields.items():
            if other != unit:
                shown.setText("" if held is None else digits(held / self._units[other]))

    def _workings(self, unit: str) -> "tuple[Working, ...]":
        """How a field came to its number; of the one that was typed, how all others did."""
        from lawnbook.plan.convert_workings import UnitOf, converted_workings

        typed = self._typed_in
        try:
            value = self._read(self._fields[typed]) if typed else 0.0
        except OwnerError:
            return ()
        if not value:
            return ()
        wanted = [each for each in self._units if each != typed and unit in (each, typed)]
        measure = next(each for each, size in self._units.items() if size == 1.0)
        of = UnitOf(typed, self._units[typed])
        return tuple(
            working
            for each in wanted
            for working in converted_workings(value, of, UnitOf(each, self._units[each]), measure)
        )

    def _read(self, field: TextField) -> float:
        value = parse_number(field.text(), self._name)
        if value < 0:
            raise OwnerError(
                tr(
                    "{name} {text} is below zero; enter 0 or more.",
                    name=self._name,
                    text=field.text().strip(),
                )
            )
        return value


def digits(value: float) -> str:
    """A number with four digits that count, and without needless zeros or powers of ten."""
    if value == 0:
        return "0"
    told = f"{float(f'{value:.4g}'):.12f}".rstrip("0").rstrip(".")
    return told if float(told) else f"{value:.4g}"


def _key(unit: str) -> str:
    """A unit as part of a control's name."""
    return {"lb per 1,000 sq ft": "rate_us", "g/m²": "rate_metric"}.get(
        unit, unit.replace(" ", "_").lower()
    )
