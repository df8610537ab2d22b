"""One first step as a card that folds: what it asks for, how far it is, what is at hand for it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.widgets import Caption, Card, LinkButton, QuietButton, Words
from lawnbook.plan.first_steps import NEEDS_ZONE, StepAt, step_left
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Change
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_base import FirstStep
from lawnbook.yard.records import Zone


class StepCard(Card):
    """A step. `asked` names a page, a tool or a part of a page that is wanted.

    Each kind of step lays its controls out in `body_of_step` and fills them in `fill`.
    """

    asked = Signal(str)
    selected = Signal(str, str)

    STEP: FirstStep = "size"
    LEAVES_BY_LINK = True
    """Whether the step is left at its default by the link at its foot."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self._book = book
        self._at: StepAt | None = None
        self._zone_id = ""
        self.setObjectName(f"first_{self.STEP}_card")
        self.body.setContentsMargins(6, 2, 12, 2)
        self.fold = Fold(self.title(), f"first_{self.STEP}", self)
        self.body.addWidget(self.fold)
        self.fold.body.addWidget(Words(self.what(), "", self))
        self._missing = Caption(
            tr("Tell a zone’s size first; then this belongs to it."), self, True
        )
        self.fold.body.addWidget(self._missing)
        self.inside = QWidget(self)
        self.inside.setObjectName(f"first_{self.STEP}_inside")
        self.fold.body.addWidget(self.inside)
        self.lay_out()
        self.said = Words("", "refuse", self)
        self.said.setObjectName(f"first_{self.STEP}_said")
        self.fold.body.addWidget(self.said)
        self.leave = LinkButton(self.leaving(), f"first_{self.STEP}_leave", self)
        self.leave.clicked.connect(self._leave)
        foot = QHBoxLayout()
        foot.addWidget(self.leave)
        foot.addStretch(1)
        self.fold.body.addLayout(foot)

    @property
    def state(self) -> str:
        """How far the step is, as it was shown last; "open" before that."""
        return "open" if self._at is None else self._at.state

    def title(self) -> str:
        """The name of the step."""
        raise NotImplementedError

    def what(self) -> str:
        """What there is to do, in a sentence or two."""
        raise NotImplementedError

    def lay_out(self) -> None:
        """Put the controls into `inside`."""
        raise NotImplementedError

    def fill(self, plan: Plan) -> None:
        """Show what the notebook holds of the step."""

    def show_step(self, at: StepAt, plan: Plan, zone_id: str) -> None:
        """Show how far the step is, for the zone that is picked."""
        self._at, self._zone_id = at, zone_id
        self.fold.say(summary(at))
        waits = self.STEP in NEEDS_ZONE and self.zone is None
        self._missing.setVisible(waits)
        self.inside.setVisible(not waits)
        passed = self.STEP in self._book.notebook.yard.steps_left
        self.leave.setText(tr("Take this up again") if passed else self.leaving())
        self.leave.setAccessibleName(f"{self.title()}: {self.leave.text()}")
        self.leave.setVisible(self.LEAVES_BY_LINK and (passed or at.state == "open"))
        self.fill(plan)

    def leaving(self) -> str:
        """The words of the link that leaves the step at its default."""
        return tr("I don’t know: leave it at the default")

    @property
    def zone(self) -> Zone | None:
        """The zone that is picked; None without one."""
        return self._book.notebook.zones.get(self._zone_id)

    def edit(self, change: Change, label: str) -> bool:
        """Make an edit; False, said on the card, where it cannot be kept."""
        try:
            self._book.edit(change, label)
        except OwnerError as problem:
            self.said.say(str(problem))
            return False
        self.said.say("")
        return True

    def button(self, text: str, name: str, asks: str) -> QuietButton:
        """A button that asks for a page, a tool or a part of a page."""
        made = QuietButton(text, f"first_{name}", self)
        made.clicked.connect(lambda: self.asked.emit(asks))
        return made

    def row(self, *widgets: QWidget) -> QHBoxLayout:
        """Controls side by side, at the left."""
        row = QHBoxLayout()
        row.setSpacing(8)
        for each in widgets:
            row.addWidget(each)
        row.addStretch(1)
        return row

    def _leave(self) -> None:
        passed = self.STEP in self._book.notebook.yard.steps_left
        change = step_left(self._book.notebook, self.STEP, left=not passed)
        self.edit(change, tr("first step: {name}", name=self.title().lower()))


def summary(at: StepAt) -> str:
    """How far a step is, in words: "Done: 1,000 sq ft in one zone"."""
    if at.state == "done":
        return tr("Done: {what}", what=at.told)
    if at.state == "left":
        return tr("At a default: {what}", what=at.told)
    return tr("Open: {what}", what=at.told)
