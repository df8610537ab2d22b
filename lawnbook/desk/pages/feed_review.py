"""A table of feedings looked at before it is taken in: what is new, left out, doubtful."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.pages.feed_ledger_words import review_words
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.widgets import Caption, Card, PrimaryButton, QuietButton, Words
from lawnbook.reading import tr
from lawnbook.store.feed_csv import FeedingsRead
from lawnbook.yard.numbers import counted

FEW = 3
MOST_LISTED = 200


class FeedReview(Card):
    """What a table holds; `taken` and `left` tell what the owner does. Escape leaves it.

    `taken` says whether the feedings in doubt are meant too; the first button leaves them out.
    """

    taken = Signal(bool)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self.setObjectName("feed_review")
        self._told = Words("", "", self)
        self._told.setObjectName("review_told")
        self._problems = Words("", "refuse", self)
        self._problems.setObjectName("review_problems")
        self._doubts = Words("", "ask", self)
        self._doubts.setObjectName("review_doubts")
        self._all = Fold(tr("Every line that is told of"), "review_all", self)
        self._listed = Caption("", self, wrap=True)
        self._listed.setObjectName("review_listed")
        self._all.body.addWidget(self._listed)
        self.take = PrimaryButton(tr("Take in"), "take_feedings", self)
        self.take_all = QuietButton(tr("Take in also"), "take_doubtful", self)
        self.leave = QuietButton(tr("Leave it"), "leave_feedings", self)
        self.take.clicked.connect(lambda: self.taken.emit(False))
        self.take_all.clicked.connect(lambda: self.taken.emit(True))
        self.leave.clicked.connect(self.left)
        self._lay_out()
        self.hide()

    def show_found(self, name: str, found: FeedingsRead) -> None:
        """Show what a file of this name holds; the button says what it would do."""
        self._told.say(review_words(name, found))
        self._problems.say(_few(found.problems, tr("to look at:")))
        self._doubts.say(_few(found.doubts, tr("in doubt, left out unless you say so:")))
        told = [*found.problems, *found.doubts]
        self._all.setVisible(len(found.problems) > FEW or len(found.doubts) > FEW)
        self._all.say(f"{len(told):,}")
        more = len(told) - MOST_LISTED
        tail = [tr("… and {more:,} more.", more=more)] if more > 0 else []
        self._listed.setText("\n".join([*told[:MOST_LISTED], *tail]))
        count, doubtful = len(found.feedings), len(found.doubtful)
        self.take.setText(tr("Take in {feedings}", feedings=counted(count, "feeding")))
        self.take.setVisible(count > 0)
        self.take_all.setText(
            tr("Take in also the {doubtful:,} in doubt", doubtful=doubtful)
            if count
            else tr("Take in the {doubtful:,} in doubt", doubtful=doubtful)
        )
        self.take_all.setVisible(doubtful > 0)
        self.leave.setText(tr("Leave it") if count or doubtful else tr("Close"))
        for button in (self.take, self.take_all, self.leave):
            button.setAccessibleName(button.text())
        self.show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves the table as it is."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        for part in (self._told, self._problems, self._doubts, self._all):
            self.body.addWidget(part)
        row = QHBoxLayout()
        for button in (self.take, self.take_all, self.leave):
            row.addWidget(button)
        row.addStretch(1)
        self.body.addLayout(row)


def _few(sentences: Sequence[str], head: str) -> str:
    """The first few sentences under their count."""
    if not sentences:
        return ""
    count = f"{counted(len(sentences), 'line')} {head}"
    rest = ["…"] if len(sentences) > FEW else []
    return "\n".join([count, *sentences[:FEW], *rest])
