"""What was recorded, said in the list of what is due where its line stood, with "take back"."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.widgets import LinkButton, Words, name_control
from lawnbook.reading import tr


class SaidRow(QWidget):
    """A sentence on the last step, hidden without one. `back_asked` tells that it is undone."""

    back_asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "season_said_row", tr("What was recorded"))
        self._words = Words("", "good", self)
        self._words.setObjectName("season_said")
        self._back = LinkButton(tr("take back"), "season_take_back", self)
        self._back.clicked.connect(self.back_asked)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 4, 6, 4)
        row.setSpacing(10)
        row.addWidget(self._words, 1)
        row.addWidget(self._back, 0, Qt.AlignmentFlag.AlignTop)
        self.say("", "good", can_go_back=False)

    def say(self, words: str, role: str, *, can_go_back: bool) -> None:
        """Say what became of the last step, and whether it can be taken back here."""
        self._words.say(words, role)
        self._back.setVisible(can_go_back)
        self.setVisible(bool(words))
