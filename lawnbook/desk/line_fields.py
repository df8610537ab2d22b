"""Controls of one line with manners of their own: a choice, a day in words, a time zone."""

from contextlib import suppress
from datetime import date, timedelta
from zoneinfo import available_timezones

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent, QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QStyledItemDelegate,
    QStyleOptionComboBox,
    QWidget,
)

from lawnbook.desk import entry
from lawnbook.desk.widgets import TextField
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError

SHORT = Qt.ItemDataRole.UserRole + 1
"""The role of an item's shorter words, shown while the list is closed."""


class ChoiceBox(QComboBox):
    """A combo box that a turning wheel does not change by accident while the page scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(5)
        self.setMaxVisibleItems(20)
        # The delegate that a box has by itself leaves no room round the words of its list.
        self.setItemDelegate(QStyledItemDelegate(self))

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        """Closed, the box shows an item's shorter words where it has some."""
        super().initStyleOption(option)
        option.currentText = self.currentData(SHORT) or option.currentText

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Only a list that has the focus follows the wheel."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class DayField(TextField):
    """A date in words. Up and Down go a day, Page Up and Page Down a week."""

    def __init__(self, today: date | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self.setPlaceholderText(tr("15 Jun 2026"))
        self.setToolTip(tr("Up and Down change the day; “today”, “yesterday” and “-3” work too."))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Step the day with the arrow keys."""
        keys = Qt.Key
        steps = {keys.Key_Up: 1, keys.Key_Down: -1, keys.Key_PageUp: 7, keys.Key_PageDown: -7}
        step = steps.get(keys(event.key()))
        if step is None:
            super().keyPressEvent(event)
            return
        try:
            held = entry.parse_day(self.text(), self._today)
        except OwnerError:
            held = self._today or date(2026, 1, 1)
            step = 0
        with suppress(OverflowError):
            held += timedelta(days=step)
        self.setText(entry.format_day(held))
        self.textEdited.emit(self.text())


class TimeZoneField(TextField):
    """The name of a time zone; the known ones that hold what is typed are proposed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setPlaceholderText(tr("Region/City"))

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Look the names up once they are needed: there are hundreds of files to go through."""
        super().focusInEvent(event)
        if self.completer() is None:
            known = QCompleter(sorted(available_timezones()), self)
            known.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            known.setFilterMode(Qt.MatchFlag.MatchContains)
            self.setCompleter(known)
