"""The yard page opens how its areas came about: of a shape in the list, of what a check finds."""

from collections.abc import Iterator
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from lawnbook.desk.figures import hand_on
from lawnbook.desk.pages.check_rows import FaultRow
from lawnbook.desk.pages.yard_shape_list import ShapeList
from lawnbook.desk.window import BookWindow
from lawnbook.plan.fault_workings import fault_workings
from lawnbook.plan.sensitivity import figure_told, numbers_of, reckoned
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.records import Head
from lawnbook.yard.sketch_check import check_sketch
from tests.access_walk import opened, settle, turn
from tests.figure_walk import unopened
from tests.page_book import part, put_away
from tests.plan_yards import yard, zone

SIDE = rectangle_ft((49.8, 0), 20, 20)
HEAD = Head(id="h1", zone="z1", at_ft=(5.0, 5.0), radius_ft=15.0, sweep_deg=90.0, flow_gpm=1.5)
BOOK = yard(zone(), zone(id="z2", name="Side", outline_ft=SIDE, rank=1), heads=[HEAD])


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """Two zones that share a strip of four square feet, and a head."""
    made = opened(tmp_path_factory.mktemp("yard"), BOOK, date(2026, 6, 15))
    yield made
    made.book.close()
    put_away(made)


def test_what_a_check_finds_opens_its_area(window: BookWindow) -> None:
    """20 ft × 0.2 ft is counted twice."""
    page = turn(window, "Yard", "Check")
    row = part(page, FaultRow, "check_row_0")
    hand = hand_on(row.show_link)
    assert hand is not None
    (area,) = hand.workings()
    assert area.value == "4.0 sq ft"
    assert unopened(page, {}) == []


def test_every_fault_of_ground_is_reckoned_to_what_it_says() -> None:
    """From the same scale the same area."""
    for fault in check_sketch(BOOK):
        for each in fault_workings(fault):
            assert each.reckoning is not None
            told = figure_told(each.reckoning, reckoned(each.reckoning, numbers_of(each)))
            assert told == each.value


def test_the_chosen_shape_of_the_list_opens_by_f1(window: BookWindow) -> None:
    """A zone its area and edge, a head its rate: 1.5 gpm on a quarter of 15 ft."""
    page = turn(window, "Yard", "Shapes")
    listed = part(page, ShapeList, "shapes_list")
    hand = hand_on(listed)
    assert hand is not None
    found: dict[str, str] = {}
    for row in range(listed.model().rowCount()):
        index = listed.model().index(row, 0)
        QTest.mouseClick(
            listed.viewport(),
            Qt.MouseButton.LeftButton,
            Qt.KeyboardModifier.NoModifier,
            listed.visualRect(index).center(),
        )
        settle()
        found |= {each.label: each.value for each in hand.workings()}
    assert found["Area"] == "400 sq ft"
    # 96.25 × 1.5 ÷ (π × 15² ÷ 4) = 0.82
    assert found["Rate of the head on its own ground"] == "0.82 in/h"
