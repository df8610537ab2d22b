"""A new owner's hand: only what a mouse and a keyboard can do, and every action counted.

Clicks go to the window and are handed down as Qt does it, so that what is covered, out of sight or
disabled cannot be clicked; keys go to whatever has the focus. A turn of the wheel, a click, a word
typed and a key pressed are an action each; so is every Tab.
"""

from pathlib import Path

from PySide6.QtCore import QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QLineEdit, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.app import Desk
from lawnbook.desk.window import BookWindow

LEFT = Qt.MouseButton.LeftButton
NONE, CTRL = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ControlModifier
MOST_TABS = 120
WHEEL = 120


class Hand:
    """A hand at the desk; `actions` counts what it did."""

    def __init__(self, qtbot: QtBot, desk: Desk) -> None:
        self.qtbot, self.desk = qtbot, desk
        self.actions = 0

    @property
    def top(self) -> QWidget:
        """The window in front: the book where one is open, else the welcome page."""
        found = self.desk.window or self.desk.welcome
        assert found is not None
        return found

    @property
    def window(self) -> BookWindow:
        """The open book."""
        assert self.desk.window is not None
        return self.desk.window

    def part(self, name: str) -> QWidget:
        """A control that shows, by its name."""
        shown = [each for each in self.top.findChildren(QWidget, name) if each.isVisible()]
        assert shown, f"nothing that shows is named {name}"
        return shown[0]

    def click(self, name: str) -> None:
        """Scroll a control into sight with the wheel if need be, and click in its middle."""
        part = self.part(name)
        self._scroll_to(part)
        assert part.isEnabled(), name
        self.qtbot.waitUntil(lambda: self._is_bare(part))
        at = part.mapTo(self.top, part.rect().center())
        QTest.mouseClick(self.top.windowHandle(), LEFT, NONE, at)
        self.did()

    def fill(self, name: str, text: str) -> None:
        """Click a field, type, and leave it by Tab."""
        self.click(name)
        self.type(text)
        self.key(Qt.Key.Key_Tab)

    def type(self, text: str) -> None:
        """Type into whatever has the keyboard."""
        focus = QApplication.focusWidget()
        assert focus is not None
        QTest.keyClicks(focus, text)
        self.did()

    def key(self, key: Qt.Key, modifier: Qt.KeyboardModifier = NONE) -> None:
        """Press a key."""
        QTest.keyClick(self.top.windowHandle(), key, modifier)
        self.did()

    def pick(self, name: str, words: str) -> None:
        """Open a list by a click, type the beginning of a line, and press Enter."""
        box = self.part(name)
        assert isinstance(box, QComboBox)
        self.click(name)
        self.qtbot.waitUntil(box.view().isVisible)
        QTest.keyClicks(box.view(), words)
        QTest.keyClick(box.view(), Qt.Key.Key_Return)
        self.actions += 2
        self.qtbot.waitUntil(lambda: not box.view().isVisible())
        assert box.currentText().startswith(words), box.currentText()

    def tab_to(self, name: str) -> None:
        """Press Tab until a control has the keyboard."""
        trail = []
        for _ in range(MOST_TABS):
            focus = QApplication.focusWidget()
            trail.append("" if focus is None else focus.objectName())
            if trail[-1] == name:
                return
            self.key(Qt.Key.Key_Tab)
        raise AssertionError(f"Tab does not reach {name}, but {trail}")

    def answer_with(self, path: Path) -> None:
        """Type a file's name into the dialog that the next action opens, however slowly."""
        timer = QTimer(self.top)

        def answer() -> None:
            dialog = QApplication.activeModalWidget()
            if not isinstance(dialog, QDialog):
                return
            fields = [each for each in dialog.findChildren(QLineEdit) if each.isVisible()]
            if not fields:
                return
            if not fields[0].hasFocus():
                return
            timer.stop()
            timer.deleteLater()
            QTest.keyClick(fields[0], Qt.Key.Key_A, CTRL)
            QTest.keyClicks(fields[0], str(path))
            QTest.keyClick(fields[0], Qt.Key.Key_Return)
            self.actions += 3

        timer.timeout.connect(answer)
        timer.start(50)

    def did(self) -> None:
        """One action more; the window catches up."""
        self.actions += 1
        self.qtbot.wait(5)

    def _is_bare(self, part: QWidget) -> bool:
        """Whether the middle of a control can be clicked; not while the page is being laid out."""
        found = self.top.childAt(part.mapTo(self.top, part.rect().center()))
        return found is not None and (found is part or part.isAncestorOf(found))

    def _scroll_to(self, part: QWidget) -> None:
        area = part.parentWidget()
        while area is not None and not isinstance(area, QScrollArea):
            area = area.parentWidget()
        if area is None:
            return
        port = area.viewport()
        for _ in range(40):
            middle = part.mapTo(port, part.rect().center())
            if port.rect().adjusted(0, 8, 0, -8).contains(middle):
                return
            turn = WHEEL if middle.y() < 8 else -WHEEL
            at = QPointF(port.rect().center())
            event = QWheelEvent(
                at,
                QPointF(port.mapToGlobal(at.toPoint())),
                QPoint(),
                QPoint(0, turn),
                Qt.MouseButton.NoButton,
                NONE,
                Qt.ScrollPhase.NoScrollPhase,
                False,
            )
            QApplication.sendEvent(port, event)
            self.did()
