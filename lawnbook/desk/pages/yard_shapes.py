"""Shapes, on the yard page: everything that is drawn, in figures, and what can be done with it.

All of the sketch can be reached, chosen and changed here without a mouse.
"""

from collections.abc import Callable, Sequence

from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.desk.figures import FigureHand, let_open
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.yard_chosen import ChosenCard
from lawnbook.desk.pages.yard_operations import OperationButtons
from lawnbook.desk.pages.yard_section import YardSection
from lawnbook.desk.pages.yard_shape_forms import LineForm, MoveForm, StripForm, TurnForm
from lawnbook.desk.pages.yard_shape_list import ShapeList
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.operations import run_by_name
from lawnbook.desk.sketch.shape_rows import shape_rows
from lawnbook.desk.widgets import Caption, Card, Heading, name_control
from lawnbook.plan.ground_workings import record_workings
from lawnbook.plan.map_workings import head_workings
from lawnbook.plan.model import Plan
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Change, Key
from lawnbook.yard.records import Head

KINDS = ("everything", "zones", "features", "heads", "spots")
ALL = KINDS[0]
NOTHING_DRAWN = tr("Nothing is drawn yet. Take up Zone above the sketch, or press Z on it.")
LIST_HELP = tr("Enter goes to its name below the sketch; Delete takes it away.")


class ShapesSection(YardSection):
    """The list, the figures of what is chosen, and the operations."""

    def __init__(
        self, book: OpenNotebook, control: SketchControl, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("yard_shapes")
        self._book, self._control = book, control
        self.list = ShapeList(self)
        self._kind = ChoiceBox(self)
        name_control(self._kind, "shapes_kind", tr("Kinds that are listed"))
        for kind in KINDS:
            self._kind.addItem(tr(kind).capitalize(), kind)
        self._kind.setMinimumContentsLength(max(len(tr(kind)) for kind in KINDS))
        self._help = Caption(LIST_HELP, self, wrap=True)
        self._help.setObjectName("shapes_list_help")
        self.chosen = ChosenCard(control, self)
        let_open(self._workings, self.chosen.facts)
        FigureHand(self.list, self._workings, by_click=False)
        self.operations = OperationButtons(control, self)
        self.forms = (
            StripForm(control, self),
            TurnForm(control, self),
            MoveForm(control, self),
            LineForm(control, self),
        )
        self._lay_out()
        self._listen()

    def show_plan(self, _plan: Plan) -> None:
        """Show the shapes as the notebook holds them."""
        self._refresh()
        tab_in_reading_order(self)

    def _workings(self) -> tuple[Working, ...]:
        """How the figures of the shape that is chosen came about."""
        record = self._control.record()
        return head_workings(record) if isinstance(record, Head) else record_workings(record)

    def begin_form(self, name: str) -> QWidget:
        """Take the keyboard to the first field of "strip" or "turn". KeyError for another name."""
        return {"strip": self.forms[0], "turn": self.forms[1]}[name].begin()

    def hideEvent(self, event: QHideEvent) -> None:
        """What was only typed goes from the sketch with the section."""
        super().hideEvent(event)
        self._control.scene.show_preview(())

    def _lay_out(self) -> None:
        listed = Card("", self)
        top = QHBoxLayout()
        top.addWidget(Heading(tr("What is drawn"), listed), 1)
        caption = Caption(tr("List"), listed)
        caption.setBuddy(self._kind)
        top.addWidget(caption)
        top.addWidget(self._kind)
        listed.body.addLayout(top)
        listed.body.addWidget(self.list)
        listed.body.addWidget(self._help)
        done = Card(tr("What can be done with it"), self)
        done.body.addWidget(self.operations)
        typed = Card(tr("By typed figures"), self)
        for form in self.forms:
            typed.body.addWidget(form)
        for card in (listed, self.chosen, done, typed):
            self.body.addWidget(card)

    def _listen(self) -> None:
        self._control.chosen.connect(self._choice_changed)
        self._kind.activated.connect(self._show_rows)
        self.list.picked.connect(self._picked)
        self.list.named.connect(self._control.name_wanted)
        self.list.removed.connect(lambda: run_by_name(self._control, "remove"))
        self.operations.stranded.connect(self.list.setFocus)
        self._stop_listening: Callable[[], None] = self._book.subscribe(self._changed)
        self.destroyed.connect(self._stop_listening)

    def _changed(self, change: Change) -> None:
        """At once, not with the next plan: a hand that types goes on with what is there."""
        if change and self.isVisible():
            self._control.scene.show_preview(())
            self._refresh()

    def _choice_changed(self, _by_owner: bool) -> None:
        if self.isVisible():
            # What was typed for another shape is not what this one would become.
            self._control.scene.show_preview(())
            self._show_choice()

    def _refresh(self) -> None:
        self._show_rows()
        self._show_choice()

    def _show_rows(self) -> None:
        wanted = self._kind.currentData()
        rows = shape_rows(self._control.notebook)
        self.list.show_rows([row for row in rows if wanted in (ALL, row.key[0])])
        self.list.setVisible(bool(rows))
        self._help.setText(LIST_HELP if rows else NOTHING_DRAWN)
        self.list.show_chosen(self._control.chosen_keys)

    def _show_choice(self) -> None:
        self.list.show_chosen(self._control.chosen_keys)
        self.chosen.refresh()
        self.operations.refresh()
        for form in self.forms:
            form.refresh()

    def _picked(self, keys: Sequence[Key]) -> None:
        """What was chosen first stays first as long as it is among them."""
        before = self._control.chosen_keys
        kept = [key for key in before if key in keys]
        self._control.choose_all([*kept, *(key for key in keys if key not in kept)])
