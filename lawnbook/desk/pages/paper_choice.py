"""The paper that documents are made for, chosen in a row and kept for all of them."""

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QWidget

from lawnbook.desk.roles import check_quietly, one_of_several
from lawnbook.desk.settings import Paper, Settings
from lawnbook.desk.widgets import Caption, QuietButton
from lawnbook.reading import tr

PAPERS: tuple[tuple[Paper, str], ...] = (("letter", tr("Letter")), ("a4", "A4"))


class PaperChoice(QWidget):
    """A button for each paper. `chosen` tells that another one is wanted, chosen here or elsewhere.

    The papers' buttons are named by `prefix`; `spoken` says to a screen reader what they are of.
    """

    chosen = Signal()

    def __init__(
        self, settings: Settings, prefix: str, spoken: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName(f"{prefix}papers")
        self._settings = settings
        self._shown: Paper = settings.paper
        self._buttons: dict[Paper, QuietButton] = {}
        group = QButtonGroup(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(Caption(tr("Paper"), self))
        for paper, words in PAPERS:
            button = QuietButton(words, f"{prefix}paper_{paper}", self)
            one_of_several(button, partial(self._use, paper))
            check_quietly(button, on=paper == self._shown)
            button.setAccessibleName(f"{spoken} {words}")
            group.addButton(button)
            self._buttons[paper] = button
            row.addWidget(button)
        settings.changed.connect(self._follow)

    def showEvent(self, event: QShowEvent) -> None:
        """Another section may have chosen another paper meanwhile."""
        super().showEvent(event)
        if self._settings.paper != self._shown:
            self._tell()

    def _follow(self, _name: str) -> None:
        """Another one was chosen on the Settings page while this is looked at."""
        if self.isVisible() and self._settings.paper != self._shown:
            self._tell()

    def _use(self, paper: Paper) -> None:
        self._shown = paper
        self._settings.paper = paper
        self._tell()

    def _tell(self) -> None:
        self._shown = self._settings.paper
        check_quietly(self._buttons[self._shown])
        self.chosen.emit()
