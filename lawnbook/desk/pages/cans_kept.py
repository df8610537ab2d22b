"""The cans of a kept test one by one, beside the computed map."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.pages.cans_bar import RateBars
from lawnbook.desk.pages.cans_figures import Can, CanFigures
from lawnbook.desk.pages.cans_rows import Unit
from lawnbook.desk.pages.cans_words import place_words, spoken_can
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.widgets import Words
from lawnbook.yard.numbers import plain

HEADS = ("Can", "At, ft", "Caught", "in/h", "Map", "Of the map", "bar: caught, tick: map")
PLACE_COLUMN, MAP_COLUMNS, BAR_COLUMN = 1, (4, 5), 6
MOST_ROWS = 12


class KeptCans(QWidget):
    """A table of cans under a title; nothing at all while no test is shown."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = Words("", "", self)
        self._title.setObjectName("kept_cans_title")
        self._flags = Words("", "warn", self)
        self._flags.setObjectName("kept_cans_flags")
        names = ("kept_cans", "Cans of the test picked")
        self.table = RecordTable(HEADS, names, (0, PLACE_COLUMN, BAR_COLUMN), MOST_ROWS, self)
        self.table.stretch(BAR_COLUMN)
        self._bars = RateBars(self)
        self.table.setItemDelegateForColumn(BAR_COLUMN, self._bars)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for part in (self._title, self._flags, self.table):
            column.addWidget(part)
        self.hide()

    def show_test(self, title: str, told: CanFigures, unit: Unit, flags: str) -> None:
        """Show a test's cans; `flags` are sentences on what stands out."""
        mapped = any(can.of_map is not None for can in told.cans)
        self._title.say(title)
        self._flags.say(flags)
        self._bars.show_cans(told.cans)
        self.table.show_rows([_row(can, unit) for can in told.cans])
        self.table.setColumnHidden(PLACE_COLUMN, all(can.at_ft is None for can in told.cans))
        for column in MAP_COLUMNS:
            self.table.setColumnHidden(column, not mapped)
        head = self.table.horizontalHeaderItem(BAR_COLUMN)
        if head is not None:
            head.setText(HEADS[BAR_COLUMN] if mapped else "")
        self.show()


def _row(can: Can, unit: Unit) -> Row:
    caught = "–" if can.caught is None else f"{plain(can.caught)} {unit}"
    figures = ("–" if each is None else f"{each:.2f}" for each in _figures(can))
    cells = (str(can.number), place_words(can.at_ft), caught, *figures, "")
    return Row(str(can.number), cells, spoken_can(can, unit), (5,) if can.clogged else ())


def _figures(can: Can) -> tuple[float | None, ...]:
    return can.in_per_h, can.map_in_per_h, can.of_map
