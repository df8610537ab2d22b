"""A hand on one page of the desk: shows it as the window does, types, presses, reads."""

from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.pages.yard import YardPage
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from tests.desk_sample import DAY

Page = PlugsPage | SheetPage | YardPage


def shown(qtbot: QtBot, page: Page, book: OpenNotebook) -> None:
    """Show a page as the window does: the plan again after every change."""
    qtbot.addWidget(page)
    page.resize(620, 780)
    page.show()
    page.show_plan(make_plan(book.notebook, DAY))
    book.subscribe(lambda _: page.show_plan(make_plan(book.notebook, DAY)))
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)


def child(page: QWidget, name: str) -> QWidget:
    """A control of a page by its object name."""
    found = page.findChild(QWidget, name)
    assert found is not None, name
    return found


def words(page: QWidget, name: str) -> str:
    """What a label says, empty where it is hidden."""
    label = cast(QLabel, child(page, name))
    return "" if label.isHidden() else label.text()


def type_in(page: QWidget, name: str, text: str, end: Qt.Key = Qt.Key.Key_Tab) -> None:
    """Write over a field and leave it by a key."""
    field = cast(QLineEdit, child(page, name))
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, end)


def press(*keys: str | Qt.Key) -> None:
    """Type and press, always into what has the focus."""
    for each in keys:
        focus = QApplication.focusWidget()
        assert focus is not None
        if isinstance(each, str):
            QTest.keyClicks(focus, each)
        else:
            QTest.keyClick(focus, each)
