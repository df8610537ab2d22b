"""The sketch over both pages of the book, and back again."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from lawnbook.desk.settings import Settings
from lawnbook.session.open_notebook import OpenNotebook
from tests.test_window import CTRL, opened

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


def test_f9_lays_the_sketch_over_both_pages_and_a_tab_takes_it_back(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    narrow = window.sketch.view.width()
    QTest.keyClick(window, Qt.Key.Key_F9)
    qtbot.wait(20)
    assert window.sketch.view.width() > 1.7 * narrow
    assert not window.stack.isVisible()
    zone = next(iter(book.notebook.zones))
    window.select("zones", zone)
    assert not window.stack.isVisible()
    QTest.keyClick(window, Qt.Key.Key_3, CTRL)
    qtbot.wait(20)
    assert window.stack.isVisible()
    assert window.place == "Water"
    assert window.sketch.view.width() == narrow
    QTest.keyClick(window, Qt.Key.Key_F9)
    QTest.keyClick(window, Qt.Key.Key_F6)
    qtbot.wait(20)
    assert window.stack.isVisible()
    assert not window.whole_action.isChecked()
