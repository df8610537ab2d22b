"""The row above the sketch: its tools, what the zones are coloured by, and Fit."""

from collections.abc import Mapping
from functools import partial

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QIcon, QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QComboBox, QHBoxLayout, QWidget

from lawnbook.desk.icons import ICON_PX, icon
from lawnbook.desk.roles import check_quietly, lead_tab_to, one_of_several
from lawnbook.desk.sketch.tinting import CHOICES
from lawnbook.desk.theme import px, sized
from lawnbook.desk.widgets import Caption, QuietButton, name_control
from lawnbook.reading import tr

SPACING_PX, LEAST_BOX_PX = 3, 80
ICON_GAP_PX, ROOM_PX = 4, 24
"""Between an icon and its name, as Qt sets it; and the air that is left where icons are shown."""
"""Where the panel is narrow the box gives way first: its list shows the words whole."""


class Toolbar(QWidget):
    """Quiet buttons in a row; one tool is always in hand."""

    took = Signal(str)
    coloured = Signal(str)
    fit_wanted = Signal()

    def __init__(self, keys: Mapping[str, Qt.Key], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACING_PX)
        group = self._group = QButtonGroup(self)
        self._buttons: dict[str, QuietButton] = {}
        for name, key in keys.items():
            button = self._button(name, key)
            group.addButton(button)
            row.addWidget(button)
        row.addStretch(1)
        self._by = QComboBox(self)
        name_control(self._by, "sketch_colour_by", tr("Colour zones by"))
        self._by.setToolTip(tr("What the zones are coloured by"))
        sized(self._by, least_width=LEAST_BOX_PX)
        for choice in CHOICES:
            self._by.addItem(tr(choice), choice)
        self._by.activated.connect(lambda: self.coloured.emit(self._by.currentData()))
        self._caption = Caption(tr("Colour by"), self)
        self._caption.setBuddy(self._by)
        self._iconed = self._nameless = False
        fit = self._fit = QuietButton(tr("Fit"), "sketch_fit", self)
        fit.setProperty("role", "tool")
        fit.setToolTip(tr("Show the whole yard (0)"))
        fit.clicked.connect(self.fit_wanted)
        for widget in (self._caption, self._by, fit):
            row.addWidget(widget)

    def show_colour(self, by: str) -> None:
        """Show what the zones are coloured by."""
        self._by.setCurrentIndex(self._by.findData(by))

    def show_tool(self, name: str) -> None:
        """Show which tool is in hand; one without a button shows none."""
        group = self._group
        group.setExclusive(name in self._buttons)
        for each, button in self._buttons.items():
            check_quietly(button, on=each == name)
        group.setExclusive(True)
        lead_tab_to(group)

    def minimumSizeHint(self) -> QSize:
        """Room for all but the caption and the icons, which go where there is none for them."""
        spared = self._caption_px() if self._caption.isVisible() else 0
        spared += self._icons_px() if self._iconed else 0
        return super().minimumSizeHint() - QSize(spared, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Without room for it beside the whole box the caption goes: the box needs its words."""
        super().resizeEvent(event)
        self._show_names(wanted=self.width() >= self._named_px())
        whole_box = max(0, self._by.sizeHint().width() - LEAST_BOX_PX)
        needed = self.minimumSizeHint().width() + whole_box + self._caption_px()
        self._caption.setVisible(self.width() >= needed)
        if not self._nameless:
            self._show_icons(wanted=self.width() >= needed + self._icons_px() + ROOM_PX)

    def _show_names(self, *, wanted: bool) -> None:
        """Show the tools' names, or, where a language's are too long for the row, icons alone."""
        if wanted is not self._nameless:
            return
        self._nameless = not wanted
        for name, button in self._buttons.items():
            button.setText(tr(name) if wanted else "")
            button.setIcon(QIcon() if wanted else icon(name.lower()))

    def _named_px(self) -> int:
        """What the row needs with names and without icons."""
        metrics = self._fit.fontMetrics()
        pad = self._fit.sizeHint().width() - metrics.horizontalAdvance(self._fit.text())
        pad -= px(ICON_PX) + ICON_GAP_PX if self._iconed else 0
        words = sum(metrics.horizontalAdvance(tr(name)) + pad for name in self._buttons)
        gaps = SPACING_PX * (len(self._buttons) + 1)
        return words + gaps + px(LEAST_BOX_PX) + self._fit.sizeHint().width()

    def changeEvent(self, event: QEvent) -> None:
        """The icons in another theme, where they are shown."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and self._nameless:
            self._nameless = False
            self._show_names(wanted=False)
        elif event.type() == QEvent.Type.StyleChange and self._iconed:
            self._iconed = False
            self._show_icons(wanted=True)

    def _show_icons(self, *, wanted: bool) -> None:
        """Show the tools' icons before their names, or the names alone."""
        if wanted == self._iconed:
            return
        self._iconed = wanted
        for name, button in self._buttons.items():
            button.setIcon(icon(name.lower()) if wanted else QIcon())
        self._fit.setIcon(icon("fit") if wanted else QIcon())

    def _icons_px(self) -> int:
        """What the icons take beside the names."""
        return (len(self._buttons) + 1) * (px(ICON_PX) + ICON_GAP_PX)

    def _caption_px(self) -> int:
        return self._caption.sizeHint().width() + SPACING_PX

    def _button(self, name: str, key: Qt.Key) -> QuietButton:
        button = QuietButton(tr(name), f"sketch_tool_{name.lower()}", self)
        button.setProperty("role", "tool")
        button.setToolTip(f"{tr(name)} ({key.name.removeprefix('Key_')})")
        one_of_several(button, partial(self.took.emit, name))
        self._buttons[name] = button
        return button
