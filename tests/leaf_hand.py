"""A hand on the leaves: opens them beside a window, types into them, reads what they show."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.desk.leaf_text import TextLeaf
from lawnbook.desk.leaves import open_leaf
from lawnbook.desk.settings import Settings


class Host(QWidget):
    """A window that leaves may stand beside, without a book."""

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self.setObjectName("host")
        self.settings = settings
        self.resize(1200, 760)


def text_leaf(host: QWidget, kind: str, section: str = "") -> TextLeaf:
    """A leaf to be read, opened at a section."""
    leaf = open_leaf(host, kind, section)
    assert isinstance(leaf, TextLeaf)
    QApplication.processEvents()
    return leaf


def child(parent: QWidget, name: str) -> QWidget:
    """A control by its object name."""
    found = parent.findChild(QWidget, name)
    assert found is not None, name
    return found


def press(widget: QWidget, key: Qt.Key) -> None:
    """Press a key where the keyboard is, or on this widget."""
    QTest.keyClick(widget, key)
    QApplication.processEvents()
