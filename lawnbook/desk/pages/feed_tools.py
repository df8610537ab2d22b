"""Tools, on the feed page: spreader and sprayer calibrated, tanks mixed, measures converted."""

from PySide6.QtWidgets import QWidget

from lawnbook.desk.pages.convert_tool import ConvertTool
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.sprayer_tool import SprayerTool, TankTool
from lawnbook.desk.pages.spreader_tool import SpreaderTool
from lawnbook.desk.pages.tool_words import RINSE
from lawnbook.desk.pages.water_figures import Notes
from lawnbook.desk.pages.water_sections import Section
from lawnbook.plan.cautions import LABEL, LOCAL_FEEDING, PROTECT, WATERSIDE
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook


class ToolsSection(Section):
    """What helps to put down just as much as is meant."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.spreader_fold = Fold(tr("Spreader, set by weight"), "spreader_part", unfolded=True)
        self.spreader = SpreaderTool(book)
        self.sprayer_fold = Fold(tr("Sprayer, measured with water"), "sprayer_part")
        self.sprayer = SprayerTool(book)
        self.tank_fold = Fold(tr("Amount per tank"), "tank_part")
        self.tank = TankTool(book)
        self.convert_fold = Fold(tr("Conversions"), "convert_part")
        self.convert = ConvertTool()
        self.cautions = Notes("tools_cautions", self)
        self.cautions.say((LABEL, LOCAL_FEEDING, PROTECT, RINSE, WATERSIDE))
        parts: tuple[tuple[Fold, QWidget], ...] = (
            (self.spreader_fold, self.spreader),
            (self.sprayer_fold, self.sprayer),
            (self.tank_fold, self.tank),
            (self.convert_fold, self.convert),
        )
        for fold, inside in parts:
            fold.body.addWidget(inside)
            self.body.addWidget(fold)
        self.body.addWidget(self.cautions)
        self.convert_fold.say(tr("fl oz, mL, tbsp, lb, g"))

    def show_plan(self, _plan: Plan, zone_id: str) -> None:
        """Show what the notebook holds; fields keep what is typed."""
        self.spreader.refresh()
        self.sprayer.refresh()
        self.tank.refresh(zone_id)
        self.spreader_fold.say(self.spreader.panel.summary())
        self.sprayer_fold.say(self.sprayer.panel.summary())
        self.tank_fold.say(self.tank.product.currentText())
        tab_in_reading_order(self)
