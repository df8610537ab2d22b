"""The sprayer: measured with plain water, and what goes into each tank."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.entry import number_shown
from lawnbook.desk.figures import let_open
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.entry_panel import EntryPanel, EntrySetting
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.tool_fields import FieldGrid, fill_rate_units, offer, offer_names
from lawnbook.desk.pages.tool_words import (
    RATE_UNITS,
    UNIT_OF_RATE,
    nitrogen_words,
    product_lb_per_1000,
    rate_caption,
    sprayer_answer,
    sprayer_heads,
    sprayer_row,
    tank_figures,
)
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.telling import Teller, either, follow_name
from lawnbook.desk.widgets import Caption, TextField, Words, mark_role, name_control
from lawnbook.plan.calibration_tank import tank_plan
from lawnbook.plan.strips import strips_of
from lawnbook.plan.tool_workings import sprayer_run_workings, tank_workings
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import day, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import SprayerRun

NO_SPRAYER = tr("Measure the sprayer with plain water first: what a tank covers follows from that.")
NO_PRODUCT = tr("Put a product on the shelf first.")
SAY_AMOUNT = tr("Say the area and the rate: what goes into each tank follows.")
TYPED = ""


class SprayerTool(QWidget):
    """The calibration of sprayers, and the runs that are kept."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.panel = EntryPanel(book, self._setting(), self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.panel)

    def refresh(self) -> None:
        """Show the runs as the notebook holds them; what is typed stays."""
        runs = self._book.notebook.sprayer_runs.values()
        offer_names(self.panel.form.editor("sprayer"), [each.sprayer for each in runs])
        self.panel.refresh()

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="sprayer_runs",
            noun="run",
            names=("sprayer", "tank_gal", "date", "area_sqft", "used_gal", "seconds"),
            heads=sprayer_heads,
            rows=self._rows,
            title=lambda each: tr("calibration of {sprayer}", sprayer=each.sprayer),
            given=lambda: {"date": self._book.today},
            answer=sprayer_answer,
            columns=4,
            spans={"sprayer": 2},
            labels={"seconds": tr("Time it took, s")},
            workings=self._workings,
        )

    def _workings(self, run_id: str) -> tuple[Working, ...]:
        """Those of a run."""
        run = self._book.notebook.sprayer_runs.get(run_id)
        return () if run is None else sprayer_run_workings(run)

    def _rows(self) -> Sequence[Row]:
        return [sprayer_row(each) for each in latest_first(self._book)]


class TankTool(QWidget):
    """How many tanks an area takes, what goes into each, and how long they should last."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.run, self.product = ChoiceBox(self), ChoiceBox(self)
        self.zone, self.unit = ChoiceBox(self), ChoiceBox(self)
        self.area, self.rate = TextField(self), TextField(self)
        name_control(self.run, "tank_sprayer", tr("Sprayer"))
        name_control(self.product, "tank_product", tr("Product to spray"))
        name_control(self.zone, "tank_zone", tr("Area of a zone, or another one"))
        us, metric = tr("Area to spray in square feet"), tr("Area to spray in square metres")
        follow_name(self.area, "tank_area", lambda: either(us, metric))
        name_control(self.rate, "tank_rate", tr("Rate to spray"))
        name_control(self.unit, "tank_unit", tr("Unit of the rate"))
        for unit in RATE_UNITS:
            self.unit.addItem("", unit)
        Teller(self.unit, lambda: fill_rate_units(self.unit))
        self._nothing = Words("", "caption", self)
        self._nothing.setObjectName("tank_nothing")
        self._nitrogen = Caption("", self, wrap=True)
        self._nitrogen.setObjectName("tank_nitrogen")
        self._words = Words("", "", self)
        self._words.setObjectName("tank_words")
        self._figures = FigureRow("tank_figures", tr("What goes into each tank"), self)
        self._made: tuple[Working, ...] = ()
        let_open(lambda: self._made, self._figures, self._words, self._nitrogen)
        self._fields = QWidget(self)
        self._lay_out()
        for box in (self.run, self.product, self.unit):
            box.activated.connect(self._show)
        self.zone.activated.connect(self._picked)
        self.area.textEdited.connect(self._area_typed)
        self.rate.textEdited.connect(self._show)

    def refresh(self, zone_id: str) -> None:
        """Offer sprayers, products and zones; the page's zone is the first area proposed."""
        notebook = self._book.notebook
        runs = latest_first(self._book)
        offer(self.run, [(each.id, f"{each.sprayer}, {day(each.date)}") for each in runs])
        liquids = sorted(notebook.products.values(), key=lambda each: each.form != "liquid")
        offer(self.product, [(each.id, each.name) for each in liquids])
        zones = [(each.id, each.name) for each in notebook.zones.values()]
        first = not self.zone.count()
        offer(self.zone, [*zones, (TYPED, tr("another area"))], zone_id)
        lacking = NO_SPRAYER if not runs else "" if liquids else NO_PRODUCT
        self._nothing.say(lacking)
        self._fields.setVisible(not lacking)
        if first or self.zone.currentData() != TYPED:
            self._picked()
        else:
            self._show()

    def retell(self) -> None:
        """Areas, rates and what follows in the owner's units; what is typed means what it did."""
        if self.zone.currentData() == TYPED:
            self.area.setText(kept_amount(self.area.text(), "sq ft"))
        unit = UNIT_OF_RATE[self.unit.currentData()]
        self.rate.setText(kept_amount(self.rate.text(), unit))
        self._picked()

    def _picked(self) -> None:
        """Take the area of a zone, without the strips where nothing is spread."""
        zone = self._book.notebook.zones.get(self.zone.currentData() or "")
        if zone is not None:
            strips = strips_of(self._book.notebook, zone)
            self._area_sqft = round(zone_area_sqft(zone) - strips.area_sqft, 1)
            self.area.setText(number_shown(self._area_sqft, "sq ft"))
        self._show()

    def _area_typed(self) -> None:
        self.zone.setCurrentIndex(self.zone.findData(TYPED))
        self._show()

    def _show(self) -> None:
        for field in (self.area, self.rate):
            mark_role(field, "")
        notebook = self._book.notebook
        run = notebook.sprayer_runs.get(self.run.currentData() or "")
        product = notebook.products.get(self.product.currentData() or "")
        self._nitrogen.say("", "caption")
        self._made = ()
        self._figures.hide()
        if run is None or product is None:
            self._words.say("")
            return
        if not self.area.text().strip() or not self.rate.text().strip():
            self._words.say(SAY_AMOUNT, "caption")
            return
        try:
            area_sqft = _above_zero(self.area, tr("Area"), "sq ft")
            rate = _above_zero(self.rate, tr("Rate"), UNIT_OF_RATE[self.unit.currentData()])
            lb_per_1000 = product_lb_per_1000(rate, self.unit.currentData(), product)
        except OwnerError as problem:
            self._words.say(str(problem), "refuse")
            return
        self._nitrogen.say(*nitrogen_words(lb_per_1000, product))
        pounds = lb_per_1000 * area_sqft / 1000
        plan = tank_plan(run, product, pounds, area_sqft)
        self._made = tank_workings(plan, run, lb_per_1000, area_sqft)
        self._words.say(plan.words, "warn" if plan.too_much else "")
        if not plan.too_much:
            self._figures.show_figures(tank_figures(plan))
            self._figures.show()

    def _lay_out(self) -> None:
        grid = FieldGrid(6)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.add(tr("Sprayer"), self.run, 3)
        grid.add(tr("Product"), self.product, 3)
        grid.add(tr("Area of"), self.zone, 2)
        grid.add(lambda: unit_shown("sq ft"), self.area)
        grid.add(tr("Rate"), self.rate)
        grid.add(rate_caption, self.unit, 2)
        self._fields.setLayout(grid)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for each in (self._nothing, self._fields, self._figures, self._nitrogen, self._words):
            column.addWidget(each)


def latest_first(book: OpenNotebook) -> list[SprayerRun]:
    """The sprayers' runs, the latest first."""
    runs = book.notebook.sprayer_runs.values()
    return sorted(runs, key=lambda each: each.date, reverse=True)


def _above_zero(field: TextField, what: str, unit: str = "") -> float:
    """The number in a field. OwnerError, and a mark, for words, nothing and less."""
    try:
        value = parse_measure(field.text(), what, unit)
        if value <= 0:
            raise OwnerError(
                tr(
                    "{what}: {value} leaves nothing to spray; enter more than 0.",
                    what=what,
                    value=plain(value),
                )
            )
    except OwnerError:
        mark_role(field, "", "refuse")
        raise
    return value
