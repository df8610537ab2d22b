"""The row above the sketch: its tools, what the zones are coloured by, and Fit."""

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QComboBox, QHBoxLayout, QWidget

from lawnbook.desk.sketch.tinting import CHOICES
from lawnbook.desk.widgets import Caption, QuietButton, name_control


class Toolbar(QWidget):
    """Quiet buttons in a row; one tool is always in hand."""

    took = Signal(str)
    coloured = Signal(str)
    fit_wanted = Signal()

    def __init__(self, keys: Mapping[str, Qt.Key], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        group = QButtonGroup(self)
        self._buttons: dict[str, QuietButton] = {}
        for name, key in keys.items():
            button = self._button(name, key)
            group.addButton(button)
            row.addWidget(button)
        row.addStretch(1)
        self._by = QComboBox(self)
        name_control(self._by, "sketch_colour_by", "Colour zones by")
        for choice in CHOICES:
            self._by.addItem(choice, choice)
        self._by.activated.connect(lambda: self.coloured.emit(self._by.currentData()))
        self._caption = Caption("Colour by", self)
        self._caption.setBuddy(self._by)
        fit = QuietButton("Fit", "sketch_fit", self)
        fit.setProperty("role", "tool")
        fit.setToolTip("Show the whole yard (0)")
        fit.clicked.connect(self.fit_wanted)
        for widget in (self._caption, self._by, fit):
            row.addWidget(widget)

    def show_tool(self, name: str) -> None:
        """Show which tool is in hand. KeyError for an unknown one."""
        self._buttons[name].setChecked(True)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Without room for it the caption goes; the box says by its name what it is."""
        super().resizeEvent(event)
        rest = self.minimumSizeHint().width()
        if self._caption.isVisible():
            rest -= self._caption.sizeHint().width() + 4
        self._caption.setVisible(self.width() >= rest + self._caption.sizeHint().width() + 12)

    def _button(self, name: str, key: Qt.Key) -> QuietButton:
        button = QuietButton(name, f"sketch_tool_{name.lower()}", self)
        button.setProperty("role", "tool")
        button.setCheckable(True)
        button.setToolTip(f"{name} ({key.name.removeprefix('Key_')})")
        button.clicked.connect(lambda: self.took.emit(name))
        self._buttons[name] = button
        return button
