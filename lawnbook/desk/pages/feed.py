"""The feed page: the check before spreading, the year's nitrogen, the ledger, the shelf."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.agronomy.nitrogen import MAX_QUICK_LB, MAX_TOTAL_LB, n_year
from lawnbook.charts.palette import Palette
from lawnbook.desk.forms import FormSetting
from lawnbook.desk.pages.chart_holder import ChartHolder
from lawnbook.desk.pages.feed_records import (
    FEED_GROUPS,
    RULE_FIELDS,
    BudgetPanel,
    ProductPanel,
)
from lawnbook.desk.pages.feed_words import (
    LEDGER_HEADS,
    chart_words,
    ledger_row,
    limits_summary,
    standing_sentence,
)
from lawnbook.desk.pages.fold import Fold, FoldOrder
from lawnbook.desk.pages.live_form import LiveForm
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.pages.spread_panel import SpreadPanel
from lawnbook.desk.pages.zone_picker import ZonePicker, zone_of
from lawnbook.desk.pages.zone_settings import ZoneSettings
from lawnbook.desk.widgets import (
    Aside,
    Caption,
    Heading,
    LinkButton,
    PageScroll,
    PageTitle,
    mark_role,
)
from lawnbook.desk.workings import WorkingLink
from lawnbook.plan.cautions import LABEL, LOCAL_FEEDING
from lawnbook.plan.model import Plan, SpreadCheck, ZoneNitrogen
from lawnbook.plan.nitrogen import product_for
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import as_of
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError

if TYPE_CHECKING:
    from matplotlib.figure import Figure

CHART_PX = 250
SHELF_HELP = "Copy the numbers from the bag's label; name and total nitrogen will do to begin with."
RULES_HELP = (
    f"Empty: {MAX_TOTAL_LB:g} lb in all and {MAX_QUICK_LB:g} lb of it quick at once. Type your "
    "local rule here where it says less. Blackouts: 15 Nov to 1 Mar; several with semicolons."
)


class FeedPage(QWidget):
    """Nitrogen of the yard's zones; `selected` tells the zone picked here."""

    selected = Signal(str, str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("feed_page")
        self._book = book
        self._plan: Plan | None = None
        self._check: SpreadCheck | None = None
        self._make_check()
        self._make_year()
        self._make_shelf()
        self._lay_out()
        self._listen()

    def _make_check(self) -> None:
        self._title = PageTitle("Feed", "", self)
        self.picker = ZonePicker("feed_zone", self)
        self.spread = SpreadPanel(self._book, self)
        self._cautions = Aside("", self)
        self._cautions.words.setObjectName("feed_cautions")
        mark_role(self._cautions.words, "caption")

    def _make_year(self) -> None:
        self.chart = ChartHolder("nitrogen_chart", "Nitrogen month by month", self)
        self.chart.setFixedHeight(CHART_PX)
        self._chart_words = Caption("", self, wrap=True)
        self._working = WorkingLink("working", "feed_working", self)
        self.ledger_fold = Fold("Feedings", "ledger_part", self, unfolded=True)
        self.ledger = RecordTable(LEDGER_HEADS, ("feedings_list", "Feedings"), (0, 1, 2), 8)
        self.ledger.stretch(2)
        self._no_feeding = Caption("None recorded yet.", self)
        self.edit_button = LinkButton("Change it", "feedings_edit", self)
        self.remove_button = LinkButton("Take it out", "feedings_remove", self)

    def _make_shelf(self) -> None:
        self.shelf_fold = Fold("Products on the shelf", "shelf_part", self)
        self.shelf = ProductPanel(self._book, self)
        self.shelf_fold.body.addWidget(self.shelf)
        self.zone_fold = Fold("Budget of this zone", "budget_part", self)
        self.zone_settings = ZoneSettings(self._book, FEED_GROUPS, "feed_")
        self._budget_words = Caption("", self, wrap=True)
        self.zone_fold.body.addWidget(self._budget_words)
        self.zone_fold.body.addWidget(self.zone_settings)
        self.tables_fold = Fold("Nitrogen tables of your own", "tables_part", self)
        self.budgets = BudgetPanel(self._book, self)
        self.tables_fold.body.addWidget(self.budgets)
        self.rules_fold = Fold("Limits on feeding", "limits_part", self)
        setting = FormSetting(today=self._book.today, prefix="limit_", spans={"blackouts": 1})
        self.rules_form = LiveForm(self._book, "n_rules", RULE_FIELDS, None, 3, setting)
        self.rules_fold.body.addWidget(Caption(RULES_HELP, wrap=True))
        self.rules_fold.body.addWidget(self.rules_form)
        self.folds = FoldOrder(
            (self.ledger_fold, self.shelf_fold, self.zone_fold, self.tables_fold, self.rules_fold)
        )

    def show_plan(self, plan: Plan) -> None:
        """Show the plan of a day, the zone staying where it can."""
        self._plan = plan
        notebook = self._book.notebook
        self.picker.show_zones(notebook)
        self._title.set_subtitle(f"on {day(plan.on)}")
        self._show_ledger()
        self.shelf.refresh()
        self.shelf_fold.need("" if notebook.products else SHELF_HELP)
        if not notebook.products:
            self.folds.arrange()
        self.shelf_fold.say(f"{len(notebook.products)}" if notebook.products else "empty")
        self.budgets.panel.refresh()
        self.tables_fold.say(f"{len(notebook.n_budgets)}" if notebook.n_budgets else "none")
        self.rules_form.show_record("n_rules")
        self.rules_fold.say(limits_summary(notebook.n_rules))
        self._show_zone()
        tab_in_reading_order(self)

    def select(self, table: str, record_id: str) -> None:
        """Show the zone, feeding or product that is selected elsewhere."""
        if table == "feedings":
            self.ledger.pick(record_id)
        elif table == "products":
            self.shelf.table.pick(record_id)
            self.shelf_fold.reveal()
        zone_id = zone_of(self._book.notebook, table, record_id)
        if zone_id:
            self.picker.show_zones(self._book.notebook)
            self.picker.choose(zone_id)
            self._show_zone()

    def showEvent(self, event: QShowEvent) -> None:
        """Put what is needed first on top when the page is turned to."""
        super().showEvent(event)
        self.folds.arrange()
        tab_in_reading_order(self)

    def _shelf_kept(self) -> None:
        """After the first product, lead on to what may be done with it."""
        if len(self._book.notebook.products) == 1 and self.spread.entry.amount.isVisible():
            self.spread.entry.amount.setFocus(Qt.FocusReason.OtherFocusReason)
            self._scroll.verticalScrollBar().setValue(0)

    def _picked(self, zone_id: str) -> None:
        self._show_zone()
        self.selected.emit("zones", zone_id)

    def _nitrogen(self) -> ZoneNitrogen | None:
        wanted = self.picker.zone_id()
        zones = self._plan.nitrogen if self._plan else ()
        return next((zone for zone in zones if zone.zone_id == wanted), None)

    def _show_zone(self) -> None:
        """Fill what is about the chosen zone."""
        if self._plan is None:
            return
        zone = self._nitrogen()
        self._year.setVisible(zone is not None)
        self.zone_fold.setVisible(zone is not None)
        standing = standing_sentence(zone, self._plan.on) if zone else ""
        zone_id = zone.zone_id if zone else ""
        known = as_of(self._book.notebook, self._plan.on)
        advised = product_for(known, zone_id) if zone else None
        self.spread.show_plan(self._plan.on, standing, zone_id, advised.id if advised else "")
        if zone is None:
            return
        self._working.set_workings(zone.workings)
        budgets = self._book.notebook.n_budgets.values()
        self.zone_settings.offer("budget", [(each.id, each.name) for each in budgets])
        self.zone_settings.show_zone(zone.zone_id)
        self.zone_fold.say(zone.budget_name)
        self._budget_words.setText(
            f"In use: {zone.budget_name}, {zone.budget_year:.2f} lb N per 1,000 sq ft a year "
            f"({zone.budget_source})."
        )
        self.budgets.offer_start(zone)
        self._draw_year()

    def _checked(self, check: SpreadCheck | None) -> None:
        self._check = check
        cautions = (LABEL, LOCAL_FEEDING) if check is None else check.cautions
        self._cautions.say(" ".join(cautions))
        self._draw_year()

    def _draw_year(self) -> None:
        zone = self._nitrogen()
        if zone is None:
            return
        words = chart_words(zone, *self._ghost(zone))
        self._chart_words.setText(words)
        self.chart.show_chart(self._draw, words)

    def _draw(self, colours: Palette, figure: "Figure | None") -> "Figure":
        from lawnbook.charts.figures import nitrogen_figure

        zone = self._nitrogen()
        if zone is None:
            raise RuntimeError("a chart was asked for without a zone")
        ghost, month = self._ghost(zone)
        return nitrogen_figure(zone, colours, ghost, month, figure)

    def _ghost(self, zone: ZoneNitrogen) -> tuple[float, int | None]:
        """What is proposed for a zone, and its month, if it falls in the year shown."""
        if self._check is None:
            return 0.0, None
        latitude = self._book.notebook.yard.latitude_deg or 0.0
        proposed = sum(z.n_lb_per_1000 for z in self._check.zones if z.zone_id == zone.zone_id)
        if not proposed or n_year(self._check.on, latitude).label != zone.year:
            return 0.0, None
        return proposed, self._check.on.month

    def _show_ledger(self) -> None:
        notebook = self._book.notebook
        kept = sorted(notebook.feedings.values(), key=lambda each: each.date, reverse=True)
        lines = [ledger_row(notebook, each) for each in kept]
        self.ledger.show_rows(
            [Row(line.feeding_id, line.cells, ", ".join(line.cells)) for line in lines]
        )
        self.ledger.setVisible(bool(kept))
        self._no_feeding.setVisible(not kept)
        self.ledger_fold.say(f"{len(kept)}, the latest {lines[0].date}" if lines else "none yet")
        self._show_ledger_buttons()

    def _show_ledger_buttons(self) -> None:
        for button in (self.edit_button, self.remove_button):
            button.setVisible(bool(self.ledger.picked_id()))

    def _edit_feeding(self, feeding_id: str) -> None:
        if feeding_id in self._book.notebook.feedings:
            self.spread.edit(feeding_id)
            self._scroll.verticalScrollBar().setValue(0)
            self.spread.entry.product.setFocus(Qt.FocusReason.OtherFocusReason)

    def _remove_feeding(self, feeding_id: str) -> None:
        feeding = self._book.notebook.feedings.get(feeding_id)
        if feeding is None:
            return
        try:
            change = remove(self._book.notebook, "feedings", feeding_id)
            self._book.edit(change, f"take out feeding of {day(feeding.date)}")
        except OwnerError as problem:
            self._no_feeding.say(str(problem), "refuse")

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._title, 1)
        top.addWidget(self.picker)
        self._scroll = PageScroll(self)
        body = self._scroll.body
        body.addWidget(self.spread)
        body.addLayout(self.folds.top)
        body.addWidget(self._cautions)
        self._year = self._year_part()
        body.addWidget(self._year)
        self._fill_ledger_fold()
        body.addLayout(self.folds.rest)
        body.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(10)
        column.addLayout(top)
        column.addWidget(self._scroll, 1)

    def _year_part(self) -> QWidget:
        part = QWidget()
        column = QVBoxLayout(part)
        column.setContentsMargins(0, 4, 0, 4)
        column.setSpacing(6)
        head = QHBoxLayout()
        head.addWidget(Heading("Nitrogen month by month"), 1)
        head.addWidget(self._working)
        column.addLayout(head)
        column.addWidget(self.chart)
        column.addWidget(self._chart_words)
        return part

    def _fill_ledger_fold(self) -> None:
        below = QHBoxLayout()
        below.addStretch(1)
        below.addWidget(self.edit_button)
        below.addWidget(self.remove_button)
        self.ledger_fold.body.addWidget(self._no_feeding)
        self.ledger_fold.body.addWidget(self.ledger)
        self.ledger_fold.body.addLayout(below)

    def _listen(self) -> None:
        self.picker.zone_picked.connect(self._picked)
        self.spread.checked.connect(self._checked)
        self.chart.begun.connect(lambda: tab_in_reading_order(self))
        self.shelf.kept.connect(self._shelf_kept)
        self.ledger.picked.connect(lambda _: self._show_ledger_buttons())
        self.ledger.opened.connect(self._edit_feeding)
        self.ledger.removal_asked.connect(self._remove_feeding)
        self.edit_button.clicked.connect(lambda: self._edit_feeding(self.ledger.picked_id()))
        self.remove_button.clicked.connect(lambda: self._remove_feeding(self.ledger.picked_id()))
