"""First steps: a column of cards that lead from an empty notebook to the printed sheet.

Not a wizard: any order, nothing blocks. The first step that is open lies unfolded when the section
is turned to; when one is settled the next one opens below it, and none folds by itself.
"""

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.figures import FigureHand
from lawnbook.desk.pages.first_steps_assumed import AssumedCard
from lawnbook.desk.pages.first_steps_card import StepCard
from lawnbook.desk.pages.first_steps_ground import GroundCard
from lawnbook.desk.pages.first_steps_place import PlaceCard
from lawnbook.desk.pages.first_steps_rest import HabitCard, PlugCard, SheetCard
from lawnbook.desk.pages.first_steps_size import SizeCard
from lawnbook.desk.pages.first_steps_sprinklers import SprinklersCard
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.pages.zone_picker import ZonePicker, zone_of
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.widgets import Caption, LinkButton, Verdict
from lawnbook.plan.assumptions import Assumption, assumptions
from lawnbook.plan.first_steps import first_steps, step_left
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_base import FirstStep

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

FIRST_STEPS, OVERVIEW = "First steps", "Overview"
CARDS: tuple[type[StepCard], ...] = (
    SizeCard,
    PlaceCard,
    SprinklersCard,
    GroundCard,
    HabitCard,
    PlugCard,
    SheetCard,
)


class FirstStepsSection(YardSection):
    """The cards, what is assumed now, and a link that puts it all away."""

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("first_steps")
        self._book, self._control = book, control
        self._plan: Plan | None = None
        self._settled: set[str] | None = None
        self._answer = Verdict("", self)
        self._answer.setObjectName("first_answer")
        self.picker = ZonePicker("first_zone", self)
        self._of = Caption(tr("Steps of the zone"), self)
        self.cards: dict[str, StepCard] = {}
        for kind in CARDS:
            self.cards[kind.STEP] = kind(book, self)
            FigureHand(
                self.cards[kind.STEP].fold.heading,
                partial(self._step_workings, kind.STEP),
                by_click=False,
            )
        self._assumed = AssumedCard(self._assumed_workings, self)
        self._lay_out()
        self._listen()

    def show_plan(self, plan: Plan) -> None:
        """Show how far each step is, and what is assumed by now."""
        self._plan = plan
        self.picker.show_zones(self._book.notebook)
        several = len(self._book.notebook.zones) > 1
        self.picker.setVisible(several)
        self._of.setVisible(several)
        self._fill()

    def select(self, table: str, record_id: str) -> None:
        """The steps of a zone are of the one that is selected."""
        zone_id = zone_of(self._book.notebook, table, record_id)
        if zone_id:
            self.picker.show_zones(self._book.notebook)
            self.picker.choose(zone_id)
            self._fill()

    def turn_to(self, part: str) -> None:
        """Unfold a step and bring it into sight, with the keyboard. KeyError for none of them."""
        fold = self.cards[part].fold
        fold.reveal()
        fold.heading.setFocus(Qt.FocusReason.OtherFocusReason)

    def _assumed_workings(self, assumed: Assumption) -> "tuple[Working, ...]":
        """How a default came about, and the figures that rest on it."""
        if self._plan is None:
            return ()
        from lawnbook.plan.assumed_workings import assumed_workings

        return assumed_workings(self._book.notebook, self._plan, assumed)

    def _step_workings(self, step: FirstStep) -> "tuple[Working, ...]":
        """How the figures in the summary of a step came about."""
        if self._plan is None:
            return ()
        from lawnbook.plan.assumed_workings import step_workings

        return step_workings(self._book.notebook, self._plan, step)

    def _fill(self) -> None:
        plan = self._plan
        if plan is None:
            return
        steps = first_steps(self._book.notebook, plan)
        self._answer.setText(progress_told(sum(each.state == "open" for each in steps)))
        self._open_next([each.name for each in steps if each.state == "open"])
        for each in steps:
            self.cards[each.name].show_step(each, plan, self.picker.zone_id())
        self._assumed.show_assumed(assumptions(self._book.notebook, plan))

    def _open_next(self, still_open: list[str]) -> None:
        """Unfold the first open step at first, and the next one when another is settled."""
        before, self._settled = self._settled, set(self.cards) - set(still_open)
        if still_open and (before is None or self._settled > before):
            self.cards[still_open[0]].fold.unfold()

    def _lay_out(self) -> None:
        lead = tr(
            "Any order, and nothing blocks. What you do not know is taken at a default, marked so "
            "wherever it counts, and can be told later."
        )
        self.body.addWidget(self._answer)
        self.body.addWidget(Caption(lead, self, wrap=True))
        row = QHBoxLayout()
        row.addWidget(self._of)
        row.addWidget(self.picker)
        row.addStretch(1)
        self.body.addLayout(row)
        for card in self.cards.values():
            self.body.addWidget(card)
        self.body.addWidget(self._assumed)
        away = LinkButton(tr("Put the first steps away"), "first_put_away", self)
        hint = Caption(tr("They come back from the Help menu."), self)
        foot = QHBoxLayout()
        foot.addWidget(away)
        foot.addWidget(hint)
        foot.addStretch(1)
        self.body.addLayout(foot)
        away.clicked.connect(self._put_away)

    def _listen(self) -> None:
        self.picker.zone_picked.connect(lambda _: self._fill())
        self._assumed.picked.connect(self._change)
        for card in self.cards.values():
            card.asked.connect(self.asked)
            card.selected.connect(self.selected)
            card.fold.heading.clicked.connect(self._fill)

    def _change(self, what: Assumption) -> None:
        """Lead to where what is assumed is told."""
        for zone in self._book.notebook.zones.values():
            if zone.name in what.zones[:1]:
                self.picker.choose(zone.id)
                self.selected.emit("zones", zone.id)
        page, _, part = what.lead.partition(": ")
        if page == FIRST_STEPS:
            self._fill()
            self.turn_to(part)
        else:
            self.asked.emit(what.lead)

    def _put_away(self) -> None:
        try:
            self._book.edit(step_left(self._book.notebook, "put away"), tr("first steps put away"))
        except OwnerError as problem:
            self._answer.setText(str(problem))
            return
        self.asked.emit(OVERVIEW)


def progress_told(count: int) -> str:
    """How many steps are open, in a sentence."""
    if count == 0:
        return tr("Nothing is open: the sheet tells all that is known so far.")
    if count == 1:
        return tr("One first step is open.")
    return tr("{count} first steps are open; the sheet can be printed at any time.", count=count)
