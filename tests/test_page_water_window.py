"""The water page in its window: what it asks of the sketch, and what the sketch hands it."""

from typing import cast

import pytest
from PySide6.QtWidgets import QComboBox, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.desk.pages.water import WaterPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


def opened(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> tuple[BookWindow, WaterPage]:
    window = BookWindow(book, settings)
    qtbot.addWidget(window)
    window.show()
    qtbot.wait(20)
    window.turn_to("Water")
    qtbot.wait(20)
    return window, cast(WaterPage, window.page("Water"))


def test_the_map_is_shown_on_the_sketch_on_request(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window, page = opened(qtbot, book, settings)
    page.turn_to("Sprinklers")
    qtbot.wait(10)
    assert page.sprinklers.show_link.isVisible()
    page.sprinklers.show_link.click()
    box = window.findChild(QComboBox, "sketch_colour_by")
    assert box is not None
    assert box.currentData() == "Sprinkler rate"
    assert window.place == "Water"


def test_cans_are_placed_on_the_sketch_and_come_back_to_the_page(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window, page = opened(qtbot, book, settings)
    page.sprinklers.tests.place_wanted.emit()
    tool = window.sketch.findChild(QPushButton, "sketch_tool_can")
    assert tool is not None
    assert tool.isChecked()
    zone = list(book.notebook.zones)[1]
    window.sketch.cans.take(zone, ((60.0, 10.0), (66.0, 16.0)))
    window.turn_to("Yard")
    window.sketch.tool("Pick")
    qtbot.wait(20)
    assert window.place == "Water"
    assert page.picker.zone_id() == zone
    assert page.section == "Sprinklers"
    inside = page.findChild(QWidget, "tests_part")
    assert inside is not None
    assert inside.isVisible()
    assert page.sprinklers.tests.rows.places == window.sketch.cans.places


def test_a_zone_of_the_night_is_picked_in_its_table(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window, page = opened(qtbot, book, settings)
    window.look_at(book.today.replace(month=6, day=15))
    qtbot.wait(60)
    table = page.now.night.table
    assert table.isVisible()
    other = next(each for each in book.notebook.zones if each != page.picker.zone_id())
    table.setFocus()
    row = next(k for k in range(table.rowCount()) if "Corner lawn" in _cell(table, k))
    table.selectRow(row)
    assert page.picker.zone_id() == other
    assert page.answer.text().startswith("Water 0.41 in")


def _cell(table: RecordTable, row: int) -> str:
    item = table.item(row, 0)
    assert item is not None
    return item.text()
