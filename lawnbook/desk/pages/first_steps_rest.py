"""The last first steps: watering so far, the first plug, and the sheet."""

from PySide6.QtWidgets import QVBoxLayout

from lawnbook.desk.pages.first_steps_card import StepCard
from lawnbook.desk.pages.zone_settings import Group, ZoneSettings
from lawnbook.desk.widgets import Aside, PrimaryButton
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.yard.geometry import label_point_ft
from lawnbook.yard.notebook import new_id, put
from lawnbook.yard.records import Spot
from lawnbook.yard.shape_records import free_names

SAVE_SHEET, PRINT_SHEET = "Sheet: save", "Sheet: print"


class HabitCard(StepCard):
    """How a zone was watered until now."""

    STEP = "habit"

    def title(self) -> str:
        """The name of the step."""
        return tr("Watering so far")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "How long the sprinklers have run, and on how many days a week. It changes nothing in "
            "the plan: it is what the water and its cost are compared with."
        )

    def leaving(self) -> str:
        """The words of the link that leaves the step."""
        return tr("I don’t know: compare with nothing")

    def lay_out(self) -> None:
        """Minutes and days."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        group = Group("", ("habit",), columns=3, spans={"habit": 2})
        self._fields = ZoneSettings(self._book, (group,), "first_zone_", self)
        column.addWidget(self._fields)

    def fill(self, plan: Plan) -> None:
        """The zone's old habit as the notebook holds it."""
        del plan
        self._fields.show_zone(self._zone_id)


class PlugCard(StepCard):
    """A fixed spot, and the first plug of it."""

    STEP = "plug"

    def title(self) -> str:
        """The name of the step."""
        return tr("First plug")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "Cut a plug where the turf is spongiest, as deep as the roots go; measure thatch and "
            "roots, put it back and tread it in. Its place stays a spot, so that later plugs "
            "compare."
        )

    def leaving(self) -> str:
        """The words of the link that leaves the step at its default."""
        return tr("Not now: reckon with the default until the first plug")

    def lay_out(self) -> None:
        """The caution, and the two ways to begin."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        caution = tr(
            "Have buried lines located before you dig, even for a plug, and keep off what the "
            "locator marked and off sprinkler pipe and wire."
        )
        column.addWidget(Aside(caution, self))
        mark = self.button(tr("Mark its spot on the sketch"), "spot", "Spot")
        self._first = tr("Enter the first plug")
        self._enter_it = PrimaryButton(self._first, "first_enter_plug", self)
        self._enter_it.clicked.connect(self._enter)
        column.addLayout(self.row(mark, self._enter_it))

    def fill(self, plan: Plan) -> None:
        """Once there is a plug, the button leads to the next."""
        del plan
        words = tr("Enter another plug") if self._book.notebook.cores else self._first
        self._enter_it.setText(words)
        self._enter_it.setAccessibleName(words)

    def _enter(self) -> None:
        """Lead to the form, at the first spot; where there is none, at one put into the zone."""
        spots = self._book.notebook.spots
        if not spots and not self._put_spot():
            return
        self.asked.emit(f"Plugs: {next(iter(self._book.notebook.spots))}")

    def _put_spot(self) -> bool:
        zone, notebook = self.zone, self._book.notebook
        name = tr("first spot")
        if name in {each.name for each in notebook.spots.values()}:
            name = free_names(notebook, "spots", name, 1)[0]
        spot = Spot(id=new_id(), name=name)
        if zone is not None:
            at = label_point_ft(zone.outline_ft, zone.holes_ft)
            spot = Spot(id=spot.id, name=name, at_ft=at, zone=zone.id)
        return self.edit(put(notebook, "spots", spot), tr("new spot: {name}", name=name))


class SheetCard(StepCard):
    """The page for the garage wall."""

    STEP = "sheet"
    LEAVES_BY_LINK = False

    def title(self) -> str:
        """The name of the step."""
        return tr("Print the sheet")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "One page for the garage wall: minutes and days for the timer, what may be fed, and "
            "what is due. Print it as often as something changes."
        )

    def lay_out(self) -> None:
        """Look at it, save it, print it."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(
            self.row(
                self.button(tr("Look at it"), "look_at_sheet", "Sheet"),
                self.button(tr("Save as PDF…"), "save_sheet", SAVE_SHEET),
                self.button(tr("Print…"), "print_sheet", PRINT_SHEET),
            )
        )
