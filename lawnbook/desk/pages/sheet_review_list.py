"""What changed in a year, sentence by sentence, each with a link to the figures behind it."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.pages.page import beside
from lawnbook.desk.pages.water_figures import paper_part
from lawnbook.desk.widgets import Words, clear_layout
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.working_model import Working
from lawnbook.plan.year_review_model import Changed
from lawnbook.reading import tr

TITLE = tr("What changed")


class ChangedList(QWidget):
    """A paragraph for each sentence; its link opens how its figures came about."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("review_changed")
        self._shown: tuple[Changed, ...] | None = None
        part = paper_part(TITLE)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(6)
        part.body.addLayout(self._lines)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(part)

    def show_sentences(self, changed: Sequence[Changed], workings: Sequence[Working]) -> None:
        """Show other sentences; the workings are found by the figures that a sentence names."""
        if tuple(changed) == self._shown:
            return
        self._shown = tuple(changed)
        clear_layout(self._lines)
        by_figure = {each.figure: each for each in workings}
        for number, each in enumerate(changed):
            words = Words(each.text, "", self)
            words.setObjectName(f"review_sentence_{number}")
            link = WorkingLink(tr("working"), f"review_working_{number}", self)
            link.set_workings([by_figure[f] for f in each.figures if f in by_figure])
            link.stand_for(words)
            self._lines.addLayout(beside(words, link))
