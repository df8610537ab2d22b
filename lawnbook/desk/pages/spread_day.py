"""The button that leads to the first day on which a spread passes."""

from PySide6.QtCore import QSize, Qt

from lawnbook.desk.widgets import QuietButton
from lawnbook.reading import tr

FIRST_DAY, LONGEST_DAY = tr("First day that passes"), tr("Go to 30 Nov 2026")


class DayButton(QuietButton):
    """A button as wide as any day it may name, so that nothing beside it moves."""

    def sizeHint(self) -> QSize:
        """Room for the longest words."""
        hint, longest = super().sizeHint(), max(map(self._wide, (FIRST_DAY, LONGEST_DAY)))
        return QSize(hint.width() + max(0, longest - self._wide(self.text())), hint.height())

    def _wide(self, words: str) -> int:
        """The width of words, rounded as the hint itself rounds it."""
        return self.fontMetrics().size(Qt.TextFlag.TextShowMnemonic, words).width()
