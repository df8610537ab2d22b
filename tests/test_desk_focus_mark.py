"""The focus has one mark, a ring at the edge; the system's file dialog shows its pictures."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QFileDialog, QToolButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.fold import FoldHeading
from lawnbook.desk.widgets import LinkButton, QuietButton

pytest_plugins = ["tests.desk_book"]
RING_PX = 4

MADE: dict[str, Callable[[QWidget], QAbstractButton]] = {
    "quiet": lambda parent: QuietButton("Set out cans", "cans", parent),
    "link": lambda parent: LinkButton("Change", "change", parent),
    "fold": lambda parent: FoldHeading("Jar test", "jar", parent),
    "check": lambda parent: QCheckBox("Pressed", parent),
}


def inside(button: QWidget) -> QImage:
    """A control as it is painted, without its edge."""
    edge = RING_PX
    box = QRect(0, 0, button.width(), button.height()).adjusted(edge, edge, -edge, -edge)
    return button.grab(box).toImage()


@pytest.mark.parametrize("kind", MADE)
@pytest.mark.usefixtures("dressed")
def test_the_keyboard_marks_the_edge_of_a_control_and_not_its_words(
    qtbot: QtBot, kind: str
) -> None:
    holder = QWidget()
    qtbot.addWidget(holder)
    other, button = QuietButton("Other", "other", holder), MADE[kind](holder)
    button.setGeometry(0, 60, 240, 48)
    holder.resize(260, 120)
    with qtbot.waitActive(holder):
        holder.show()
        holder.activateWindow()
    other.setFocus(Qt.FocusReason.TabFocusReason)
    before, whole = inside(button), button.grab().toImage()
    QTest.keyClick(other, Qt.Key.Key_Tab)
    assert button.hasFocus()
    assert inside(button) == before
    assert button.grab().toImage() != whole


@pytest.mark.usefixtures("dressed")
def test_the_buttons_of_the_file_dialog_show_their_pictures(qtbot: QtBot) -> None:
    dialog = QFileDialog()
    dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
    qtbot.addWidget(dialog)
    dialog.show()
    button = dialog.findChild(QToolButton, "newFolderButton")
    assert button is not None
    seen, picture = button.grab().toImage(), button.icon().pixmap(16, 16).toImage()
    inks = {seen.pixel(x, y) for x in range(seen.width()) for y in range(seen.height())}
    wanted = {picture.pixel(x, y) for x in range(16) for y in range(16)}
    solid = {each for each in wanted if each >> 24 == 255}
    assert len(solid) > 5
    assert solid <= inks
