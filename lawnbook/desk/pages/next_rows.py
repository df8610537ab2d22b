"""One finding with its rule, and one spot's next plug with its clock face, as rows of a page."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.charts.clock_face import Hole, clock_face_marks, face_told
from lawnbook.desk.figures import Ask, let_open
from lawnbook.desk.pages import next_words
from lawnbook.desk.pages.marks_view import MarksView
from lawnbook.desk.widgets import Caption, LinkButton, Words
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.plug_model import Finding, NextPlug, Weight
from lawnbook.reading import tr

FACE_PT = 78.0
ROLE_OF_WEIGHT: dict[Weight, str] = {"good": "good", "note": "", "warn": "warn"}
TOP = Qt.AlignmentFlag.AlignTop


class FindingRow(QWidget):
    """A finding: the sentence, which says what it is about, and a link to its rule and source."""

    def __init__(
        self, finding: Finding, about: str, number: int, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName(f"finding_{finding.key}")
        sentence = Words(finding.sentence, ROLE_OF_WEIGHT[finding.weight], self)
        sentence.setObjectName(f"finding_{number}_words")
        self.rule = WorkingLink(tr("rule"), f"finding_{number}_rule", self)
        self.rule.set_workings((next_words.rule_of(finding, about),))
        self.rule.setAccessibleName(
            tr("Rule and source: {about}, {sentence}", about=about, sentence=finding.sentence)
        )
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(sentence, 1)
        row.addWidget(self.rule, 0, TOP)
        self.rule.stand_for(sentence)


class NextRow(QWidget):
    """A spot's next plug: clock face, when, where, what to mind. `turned` tells the spot."""

    turned = Signal(str)

    def __init__(
        self, plug: NextPlug, old: Sequence[Hole], on: date, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName(f"next_{plug.spot_id}")
        self._turn = LinkButton(tr("Turn to it"), f"next_{plug.spot_id}_turn", self)
        self._turn.setAccessibleName(tr("Turn to {spot}", spot=plug.spot))
        self._turn.clicked.connect(lambda: self.turned.emit(plug.spot_id))
        self._where = Words("", "", self)
        self._where.say("" if plug.place is None else plug.place.words)
        place = plug.place
        proposed = Hole(place.clock, place.ring_in) if place is not None else None
        face = MarksView(
            f"next_{plug.spot_id}_face", tr("Clock face of {spot}", spot=plug.spot), self
        )
        face.show_picture(
            lambda frame: clock_face_marks(old, proposed, frame),
            face_told(old, proposed),
            FACE_PT,
            FACE_PT,
        )
        self._face = face
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(14)
        row.addWidget(face, 0, TOP)
        row.addLayout(self._words(plug, on), 1)

    def open_with(self, ask: Ask) -> None:
        """Let the place that is proposed, in words and on the clock face, open its working."""
        let_open(ask, self._where, self._face)

    def open_day_with(self, ask: Ask) -> None:
        """Let the day on which the plug is due open its working."""
        let_open(ask, self._due)

    def offer_turn(self, wanted: bool) -> None:
        """Offer to turn to the spot, or not where it is the one shown."""
        self._turn.setVisible(wanted)

    def _words(self, plug: NextPlug, on: date) -> QVBoxLayout:
        head = QHBoxLayout()
        head.setSpacing(10)
        head.addWidget(Words(plug.spot, "heading", self, wrap=False))
        head.addWidget(Caption(next_words.plugs_told(plug), self, wrap=True), 1)
        self._due = Words(next_words.due_told(plug.due, on), "warn" if plug.due <= on else "", self)
        self._due.setObjectName(f"next_{plug.spot_id}_due")
        self._due.setWordWrap(False)
        head.addWidget(self._due)
        words = QVBoxLayout()
        words.setSpacing(3)
        words.addLayout(head)
        words.addWidget(self._where)
        if plug.reminder:
            words.addWidget(Words(plug.reminder, "ask", self))
        for each in plug.concerns:
            words.addWidget(Words(each, "ask", self))
        words.addWidget(self._turn, 0, Qt.AlignmentFlag.AlignLeft)
        words.addStretch(1)
        return words
