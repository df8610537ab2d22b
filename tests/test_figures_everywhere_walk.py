"""The walk over figures itself: it finds what is a figure, and what opens."""

from collections.abc import Sequence

import pytest
from PySide6.QtWidgets import QApplication, QLabel, QVBoxLayout, QWidget

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.plan.working_model import Working
from tests.figure_walk import figures_in, shown_figures, unopened
from tests.page_book import put_away, settle

WORKING = Working("rate", "Rate", "1.2 in/h", "", "", (), "")


@pytest.mark.parametrize(
    ("words", "figures"),
    [
        ("Run 45 min, 0.41 in.", ("45 min", "0.41 in")),
        ("In 3 of 4 zones, on 2 Jun 2026", ()),
        ("1,204 sq ft, 12\u00a0% of it, at 90 °F", ("1,204 sq ft", "12\u00a0%", "90 °F")),
        ("10.4 mm in 1 inning", ("10.4 mm",)),
    ],
)
def test_a_number_with_its_unit_is_a_figure(words: str, figures: Sequence[str]) -> None:
    """A count, a date and a word that begins like a unit are none."""
    assert figures_in(words) == figures


def test_it_tells_what_opens_and_what_does_not(qapp: QApplication) -> None:
    """A label, a label in what opens, and a table of which one row opens."""
    page = QWidget()
    column = QVBoxLayout(page)
    bare, inside, around = QLabel("45 min", page), QLabel("46 min"), QWidget(page)
    bare.setObjectName("bare")
    QVBoxLayout(around).addWidget(inside)
    FigureHand(around, lambda: [WORKING])
    table = RecordTable(("Zone", "Depth, in"), ("depths", "Depths of the zones"))
    table.show_rows([Row("a", ("Front", "0.4")), Row("b", ("Back", "0.5"))])
    FigureHand(table, lambda: [WORKING] * (table.picked_id() == "a"), by_click=False)
    for each in (bare, around, table):
        column.addWidget(each)
    page.show()
    settle()
    assert len(list(shown_figures(page))) == 4
    assert unopened(page, {}) == ["bare: 45 min", "depths: row 1: 0.5 (Depth, in)"]
    assert unopened(page, {"^bare": "typed", "^depths": "typed too"}) == []
    put_away(page)
