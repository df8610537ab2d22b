"""A zone's kept catch tests as rows, and the cans of one of them beside the computed map."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.pages.cans_bar import RateBars
from lawnbook.desk.pages.cans_figures import Can, CanFigures, figures_of_test
from lawnbook.desk.pages.cans_rows import Unit
from lawnbook.desk.pages.cans_words import (
    can_heads,
    caught_words,
    evenness_words,
    place_words,
    rate_words,
    spoken_can,
)
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.telling import captioned
from lawnbook.desk.widgets import Words
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import bare
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.records import CatchTest

PLACE_COLUMN, RATE_COLUMN, MAP_COLUMNS, BAR_COLUMN = 1, 3, (4, 5), 6
MOST_ROWS = 12


class KeptCans(QWidget):
    """A table of cans under a title; nothing at all while no test is shown."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = Words("", "", self)
        self._title.setObjectName("kept_cans_title")
        self._flags = Words("", "warn", self)
        self._flags.setObjectName("kept_cans_flags")
        names = ("kept_cans", tr("Cans of the test picked"))
        self.table = RecordTable(can_heads, names, (0, PLACE_COLUMN, BAR_COLUMN), MOST_ROWS, self)
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
            head.setText(can_heads()[BAR_COLUMN] if mapped else "")
        self.show()


def test_heads() -> tuple[str, ...]:
    """The heads of the list of tests."""
    return (tr("Day"), tr("Cans"), tr("Run"), captioned(tr("Rate"), "in/h"), tr("Lowest quarter"))


def kept_rows(book: OpenNotebook, zone_id: str) -> Sequence[Row]:
    """A zone's tests as rows under `test_heads`, the newest first."""
    kept = [each for each in book.notebook.catch_tests.values() if each.zone == zone_id]
    kept.sort(key=lambda each: each.date, reverse=True)
    return [_test_row(book.notebook, each) for each in kept]


def _test_row(notebook: Notebook, test: CatchTest) -> Row:
    told = figures_of_test(notebook, test)
    rate, evenness, words = "–", "–", tr("the cans caught nothing")
    if told is not None:
        rate = bare(told.in_per_h, 2, "in/h")
        evenness = evenness if told.du_lq is None else f"{told.du_lq:.2f}"
        words = f"{rate_words(told)} {evenness_words(told)}".strip()
    count = str(len(test.volumes_ml or test.depths_in))
    cells = (day(test.date), count, f"{plain(test.run_minutes)} min", rate, evenness)
    return Row(test.id, cells, f"{cells[0]}: {words}")


def _row(can: Can, unit: Unit) -> Row:
    caught = "–" if can.caught is None else caught_words(can.caught, unit)
    rates = (can.in_per_h, can.map_in_per_h)
    of_map = "–" if can.of_map is None else f"{can.of_map:.2f}"
    figures = (*("–" if each is None else bare(each, 2, "in/h") for each in rates), of_map)
    cells = (str(can.number), place_words(can.at_ft), caught, *figures, "")
    return Row(str(can.number), cells, spoken_can(can, unit), (5,) if can.clogged else ())
