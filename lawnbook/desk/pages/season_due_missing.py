"""What is missing for more to be told, each with a link to the page where it is entered."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.season_due_words import Missing
from lawnbook.desk.widgets import LinkButton, Words, clear_layout, name_control
from lawnbook.reading import tr


class MissingRows(QWidget):
    """The sentences; hidden without any. `asked` tells the page of a link."""

    asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        name_control(self, "season_missing", tr("What is missing"))
        self._shown: tuple[Missing, ...] = ()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        self.hide()

    def show_rows(self, rows: Sequence[Missing]) -> None:
        """Show other sentences."""
        self.setVisible(bool(rows))
        if tuple(rows) == self._shown:
            return
        self._shown = tuple(rows)
        clear_layout(self._column)
        for number, each in enumerate(rows):
            self._column.addLayout(self._row(each, number))

    def _row(self, missing: Missing, number: int) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(10)
        words = Words(missing.sentence, "", self)
        words.setObjectName(f"season_missing_{number}_words")
        row.addWidget(words, 1)
        if missing.page:
            link = LinkButton(
                tr("To the {page} page", page=missing.page), f"season_missing_{number}", self
            )
            link.clicked.connect(lambda: self.asked.emit(missing.page))
            row.addWidget(link, 0, Qt.AlignmentFlag.AlignTop)
        return row
