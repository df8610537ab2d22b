"""An empty sketch says how it may begin: with the first zone, a picture, or a walk round it."""

from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import new_notebook
from tests.conftest import TODAY
from tests.desk_hand import child

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.mark.parametrize(
    ("link", "section"),
    [("sketch_begin_backdrop", "Backdrop"), ("sketch_begin_walk_round", "Walk round")],
)
def test_another_way_to_begin_leads_to_its_section(
    qtbot: QtBot, tmp_path: Path, settings: Settings, link: str, section: str
) -> None:
    book = OpenNotebook.create(tmp_path / "bare.lawnbook", new_notebook("Bare"), TODAY)
    window = BookWindow(book, settings)
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.wait(20)
    begin = child(window, link)
    assert begin.isVisible()
    begin.setFocus()
    QTest.keyClick(begin, Qt.Key.Key_Space)
    qtbot.wait(20)
    page = cast(YardPage, window.page("Yard"))
    assert (window.place, page.section) == ("Yard", section)
    focus: QWidget | None = QApplication.focusWidget()
    assert focus is not None
    assert page.isAncestorOf(focus)
