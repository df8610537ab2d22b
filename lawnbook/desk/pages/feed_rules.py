"""Rules, on the feed page: the local rule, the zone's budget, own tables, and soil tests."""

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from lawnbook.desk.figures import let_open
from lawnbook.desk.pages.feed_records import BudgetPanel
from lawnbook.desk.pages.feed_rules_words import limits_summary, soil_summary
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.rule_card import RuleCardPanel
from lawnbook.desk.pages.soil_panel import SoilPanel
from lawnbook.desk.pages.water_sections import Section
from lawnbook.desk.pages.zone_settings import Group, ZoneSettings
from lawnbook.desk.widgets import Words
from lawnbook.plan.feed_budget import budget_of, budget_told
from lawnbook.plan.model import Plan, ZoneNitrogen
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import told
from lawnbook.yard.notebook import Notebook, as_of

BUDGET_GROUPS = (
    Group(
        "",
        ("budget", "budget_level", "budget_spread", "annual_n_lb_per_1000"),
        tr(
            "Lean, middle or full is where in the published range. Spread by growth, the "
            "year's amount goes to the months that the table feeds by how well the grass "
            "grows in each, from the notebook's temperatures."
        ),
        columns=2,
    ),
    Group(tr("Mowing"), ("clippings", "mow_height_in"), columns=2),
)


class RulesSection(Section):
    """What bounds the feeding, entered by the owner."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._zone: ZoneNitrogen | None = None
        self.card_fold = Fold(tr("Your local rule"), "limits_part", self, unfolded=True)
        self.card = RuleCardPanel(book, self)
        self.card_fold.body.addWidget(self.card)
        self.budget_fold = Fold(tr("Budget of this zone"), "budget_part", self, unfolded=True)
        self.budget_words = Words("", "", self)
        self.budget_words.setObjectName("budget_words")
        self.zone_settings = ZoneSettings(book, BUDGET_GROUPS, "feed_")
        self.spread_words = Words("", "warn", self)
        self.spread_words.setObjectName("budget_spread_words")
        self.clippings_words = Words("", "caption", self)
        self.clippings_words.setObjectName("clippings_words")
        for each in (
            self.budget_words,
            self.zone_settings,
            self.spread_words,
            self.clippings_words,
        ):
            self.budget_fold.body.addWidget(each)
        let_open(self._workings, self.budget_words, self.clippings_words)
        self.soil_fold = Fold(tr("Soil tests"), "soil_part", self)
        self.soil = SoilPanel(book, self)
        self.soil_fold.body.addWidget(self.soil)
        self.tables_fold = Fold(tr("Nitrogen tables of your own"), "tables_part", self)
        self.budgets = BudgetPanel(book, self)
        # It has a name to speak before the first zone gives it one.
        self.budgets.start_button.setAccessibleName(tr("Start from the table in use"))
        self.tables_fold.body.addWidget(self.budgets)
        for fold in self.folds:
            self.body.addWidget(fold)

    @property
    def folds(self) -> tuple[Fold, ...]:
        """The parts of the section, in their order."""
        return (self.card_fold, self.budget_fold, self.soil_fold, self.tables_fold)

    def show_plan(self, plan: Plan, zone_id: str) -> None:
        """Show the rules of the notebook and the budget and soil of a zone."""
        notebook = self._book.notebook
        zone = next((each for each in plan.nitrogen if each.zone_id == zone_id), None)
        self.card.refresh()
        self.card_fold.say(limits_summary(notebook.n_rules))
        self.budgets.panel.refresh()
        self.tables_fold.say(f"{len(notebook.n_budgets)}" if notebook.n_budgets else tr("none"))
        self.budget_fold.setVisible(zone is not None)
        self.soil_fold.setVisible(bool(notebook.zones))
        self.soil.show_zone(zone_id, zone.soil if zone else None)
        self.soil_fold.say(soil_summary(zone.soil if zone else None))
        self._zone = zone
        if zone is not None:
            self._show_budget(zone, as_of(notebook, plan.on))

    def _workings(self) -> Sequence[Working]:
        """Those of the nitrogen of the zone on show."""
        return () if self._zone is None else self._zone.workings

    def _show_budget(self, zone: ZoneNitrogen, known: Notebook) -> None:
        """Show what a zone's nitrogen counts against, by what is known on the day."""
        budgets = self._book.notebook.n_budgets.values()
        self.zone_settings.offer("budget", [(each.id, each.name) for each in budgets])
        self.zone_settings.show_zone(zone.zone_id)
        self.budget_fold.say(budget_told(zone.budget_name))
        self.budget_words.say(
            tr(
                "{zone}: {budget_name}, {budget_year} a year ({budget_source}).",
                zone=zone.zone,
                budget_name=budget_told(zone.budget_name),
                budget_year=told(zone.budget_year, 2, "lb N per 1,000 sq ft"),
                budget_source=zone.budget_source,
            )
        )
        held = known.zones.get(zone.zone_id)
        self.spread_words.say("" if held is None else budget_of(known, held).reason)
        credit = zone.clippings
        self.clippings_words.say("" if credit is None else f"{credit.words} ({credit.source})")
        self.budgets.offer_start(zone)
