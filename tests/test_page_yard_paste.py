"""Ctrl+V for a picture to trace on, in the whole window."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def copied() -> Iterator[None]:
    """A picture on the clipboard."""
    picture = QImage(120, 90, QImage.Format.Format_RGB32)
    picture.fill(QColor("darkgreen"))
    QApplication.clipboard().setImage(picture)
    yield
    QApplication.clipboard().clear()


@pytest.mark.usefixtures("copied")
@pytest.mark.parametrize(("section", "pasted"), [("Backdrop", 1), ("Shapes", 0)])
def test_the_sketch_takes_a_pasted_picture_while_its_section_is_open(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path, section: str, pasted: int
) -> None:
    window = BookWindow(empty_book, Settings(tmp_path / "desk.ini"))
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.turn_to("Yard")
    page = window.page("Yard")
    assert isinstance(page, YardPage)
    for each in ("Backdrop", section):
        page.turn_to(each)
    window.sketch.view.setFocus()
    QTest.keyClick(window.sketch.view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    if pasted:
        qtbot.waitUntil(lambda: bool(empty_book.notebook.backdrops))
    else:
        qtbot.wait(300)
    assert len(empty_book.notebook.backdrops) == pasted
    window.close()
