"""What a weather table turned out to hold, before it is taken in: questions, faults, buttons."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.widgets import (
    Caption,
    PrimaryButton,
    QuietButton,
    Words,
    clear_layout,
    name_control,
)
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.store.weather_result import Question

FEW = 3
MOST_LISTED = 400
MOST_BUTTONS = 4
NOT_CHOSEN = "–"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """A table that waits for the owner.

    `faults` are sentences with their lines, left out of the good days; `doubts` are values among
    them that look unlikely.
    """

    told: str
    days: int
    open: bool
    questions: Sequence[Question] = ()
    faults: Sequence[str] = ()
    doubts: Sequence[str] = ()


class ReadingPanel(QWidget):
    """A pending table; `answered(key, value)`, `taken` and `left` tell what the owner does."""

    answered = Signal(str, str)
    taken = Signal()
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("weather_reading")
        self._told = Words("", "", self)
        self._told.setObjectName("weather_told")
        self._questions = QVBoxLayout()
        self._questions.setSpacing(6)
        self._faults = Words("", "refuse", self)
        self._faults.setObjectName("weather_faults")
        self._doubts = Words("", "ask", self)
        self._doubts.setObjectName("weather_doubts")
        self._all = Fold(tr("Every line left out"), "weather_all_faults", self)
        self._listed = Caption("", self, wrap=True)
        self._listed.setObjectName("weather_listed")
        self._all.body.addWidget(self._listed)
        self._take = PrimaryButton(tr("Take in"), "take_weather", self)
        self._leave = QuietButton(tr("Leave it"), "leave_weather", self)
        self._take.clicked.connect(self.taken)
        self._leave.clicked.connect(self.left)
        self._lay_out()
        self.hide()

    def show_pending(self, pending: Pending) -> None:
        """Show a table, the most urgent first; the buttons say what they would do."""
        self._told.say(pending.told)
        clear_layout(self._questions)
        for question in pending.questions:
            self._questions.addWidget(self._asked(question))
        self._faults.say(
            _few(
                pending.faults,
                tr("1 line is left out:"),
                tr("{count:,} lines are left out:", count=len(pending.faults)),
            )
        )
        self._doubts.say(
            _few(
                pending.doubts,
                tr("1 value looks unlikely:"),
                tr("{count:,} values look unlikely:", count=len(pending.doubts)),
            )
        )
        self._all.setVisible(len(pending.faults) > FEW)
        self._all.say(f"{len(pending.faults):,}")
        more = len(pending.faults) - MOST_LISTED
        tail = [tr("… and {more:,} more.", more=more)] if more > 0 else []
        self._listed.setText("\n".join([*pending.faults[:MOST_LISTED], *tail]))
        self._take.setText(_taken(pending.days, good_only=bool(pending.faults)))
        self._take.setAccessibleName(self._take.text())
        self._take.setVisible(bool(pending.days) and not pending.open)
        self.show()

    def _asked(self, question: Question) -> QWidget:
        """A question with its answers as buttons, or as a list where they are many."""
        holder = QWidget(self)
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        words = Words(question.sentence, "ask", holder)
        words.setObjectName(f"question_{question.key}")
        column.addWidget(words)
        row = QHBoxLayout()
        if len(question.options) > MOST_BUTTONS:
            row.addWidget(self._box(question, holder))
        else:
            for option in question.options:
                button = QuietButton(option.words, f"answer_{question.key}_{option.value}", holder)
                button.clicked.connect(partial(self.answered.emit, question.key, option.value))
                row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        return holder

    def _box(self, question: Question, holder: QWidget) -> ChoiceBox:
        box = ChoiceBox(holder)
        name_control(box, f"answer_{question.key}", question.sentence)
        box.addItem(NOT_CHOSEN, "")
        for option in question.options:
            box.addItem(option.words, option.value)
        box.activated.connect(lambda _: self._chosen(question.key, str(box.currentData())))
        return box

    def _chosen(self, key: str, value: str) -> None:
        if value:
            self.answered.emit(key, value)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 4)
        column.setSpacing(6)
        column.addWidget(self._told)
        column.addLayout(self._questions)
        for part in (self._faults, self._all, self._doubts):
            column.addWidget(part)
        row = QHBoxLayout()
        row.addWidget(self._take)
        row.addWidget(self._leave)
        row.addStretch(1)
        column.addLayout(row)


def _taken(days: int, *, good_only: bool) -> str:
    if good_only:
        one, many = tr("Take in 1 good day"), tr("Take in {days:,} good days", days=days)
    else:
        one, many = tr("Take in 1 day"), tr("Take in {days:,} days", days=days)
    return one if days == 1 else many


def _few(sentences: Sequence[str], one: str, many: str) -> str:
    """The first few sentences, after what is told of one or of many."""
    if not sentences:
        return ""
    count = len(sentences)
    head = one if count == 1 else many
    return "\n".join([head, *sentences[:FEW], *(["…"] if count > FEW else [])])
