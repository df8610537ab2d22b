"""How the cans of a test are read: millilitres with the width or area of the mouth, or inches."""

import math

from PySide6.QtCore import QObject, Signal

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.forms import RecordForm
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.cans_rows import Unit
from lawnbook.desk.pages.cans_words import MOUTH_HELP, MOUTH_HELP_METRIC
from lawnbook.desk.telling import Teller, captioned, either, follow_name
from lawnbook.desk.widgets import TextField, mark_role, name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import trimmed_bare, unit_shown
from lawnbook.yard.numbers import parse_inches
from lawnbook.yard.problems import OwnerError

MOUTH = "can_mouth_sqin"
WIDTH = "can_width"
UNITS: tuple[tuple[str, Unit], ...] = ((tr("millilitres"), "mL"), (tr("inches, by ruler"), "in"))


class MouthFields(QObject):
    """The choice of unit, and a round can's width that leads the mouth in a form's field.

    `changed` tells that the owner's hand changed either.
    """

    changed = Signal()

    def __init__(self, form: RecordForm, prefix: str) -> None:
        super().__init__(form)
        self._form = form
        self.box = ChoiceBox(form)
        name_control(self.box, f"{prefix}unit", tr("Cans are read in"))
        for words, unit in UNITS:
            self.box.addItem(words, unit)
        by_ruler = tr("millimetres, by ruler")
        ruled = self.box.findData("in")
        Teller(self.box, lambda: self.box.setItemText(ruled, either(UNITS[1][0], by_ruler)))
        self.width = TextField(form)
        spoken = tr("Width across the mouth")
        called = f"{prefix}width"
        Teller(self.width, self._say_help)
        follow_name(self.width, called, lambda: f"{spoken} {unit_shown('in')}")
        form.insert(MOUTH, "can_unit", tr("Cans read in"), self.box)
        form.insert(MOUTH, WIDTH, lambda: captioned(spoken, "in"), self.width)
        Teller(self, self.retell)
        self.box.activated.connect(self._picked)
        self.width.textEdited.connect(self._widened)
        self.width.returnPressed.connect(form.entered)
        form.changed.connect(self._follow)

    @property
    def unit(self) -> Unit:
        """The unit chosen."""
        return "in" if self.box.currentData() == "in" else "mL"

    def _say_help(self) -> None:
        words = either(tr(MOUTH_HELP), tr(MOUTH_HELP_METRIC))
        self.width.setAccessibleDescription(words)
        self.width.setToolTip(words)

    def show_unit(self, unit: Unit) -> None:
        """Choose a unit, and show the width that the form's mouth comes to. Tells nobody."""
        self.box.setCurrentIndex(self.box.findData(unit))
        self._form.show_fields((WIDTH, MOUTH), unit == "mL")
        self.width.setText("")
        self._follow()

    def _picked(self) -> None:
        self._form.show_fields((WIDTH, MOUTH), self.unit == "mL")
        self.changed.emit()

    def _widened(self) -> None:
        """Put the area of a round mouth into the form's field; no width leaves it as it is."""
        mark_role(self.width, "")
        text = self.width.text().strip()
        if not text:
            return
        try:
            across_in = parse_inches(text, tr("Width across"))
        except OwnerError:
            mark_role(self.width, "", "refuse")
            return
        self._form.set_value(MOUTH, math.pi / 4 * across_in**2)
        self.changed.emit()

    def _follow(self) -> None:
        """Show the width of a round can of the form's mouth, unless it is what is being typed."""
        if self.width.hasFocus():
            return
        mark_role(self.width, "")
        mouth = self._form.readable().get(MOUTH)
        across = math.sqrt(4 * mouth / math.pi) if mouth and mouth > 0 else 0.0
        self.width.setText(trimmed_bare(across, 2, "in") if across else "")

    def retell(self) -> None:
        """The width in the owner's unit; what is typed means what it did."""
        if self.width.isModified() and self.width.hasFocus():
            self.width.setText(kept_amount(self.width.text(), "in"))
        else:
            self._follow()
