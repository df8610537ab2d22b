"""The first step of grass and soil: what grows there, and two tests that tell the texture."""

from PySide6.QtWidgets import QVBoxLayout

from lawnbook.desk.pages.first_steps_card import StepCard
from lawnbook.desk.pages.first_steps_soil import JarPanel, RibbonPanel, with_soil
from lawnbook.desk.pages.zone_settings import Group, ZoneSettings
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.yard.notebook import put


class GroundCard(StepCard):
    """Grass and soil of a zone, typed or by a test at home."""

    STEP = "ground"

    def title(self) -> str:
        """The name of the step."""
        return tr("Grass and soil")

    def what(self) -> str:
        """What there is to do."""
        return tr(
            "Cool-season grass stays green into the cold, warm-season grass browns with the first "
            "frost. Soil tells how much water the roots can draw on and how fast it goes in: "
            "choose it, or find it by one of two tests."
        )

    def leaving(self) -> str:
        """The words of the link that leaves the step at its default."""
        return tr("I don’t know the soil: leave it at loam, the default")

    def lay_out(self) -> None:
        """The two fields, and the two tests folded away."""
        column = QVBoxLayout(self.inside)
        column.setContentsMargins(0, 0, 0, 0)
        group = Group("", ("grass", "soil", "slope_pct"))
        self._fields = ZoneSettings(self._book, (group,), "first_zone_", self)
        self.jar, self.ribbon = JarPanel(self), RibbonPanel(self)
        for each in (self._fields, self.jar, self.ribbon):
            column.addWidget(each)
        for panel in (self.jar, self.ribbon):
            panel.taken.connect(self._take)

    def fill(self, plan: Plan) -> None:
        """The zone's grass and soil as the notebook holds them."""
        del plan
        self._fields.show_zone(self._zone_id)
        self.jar.tell_units()
        self.ribbon.tell_units()

    def _take(self, soil: str) -> None:
        if self.zone is not None:
            label = tr("soil of {name}", name=self.zone.name)
            self.edit(put(self._book.notebook, "zones", with_soil(self.zone, soil)), label)
