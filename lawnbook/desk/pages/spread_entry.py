"""What is typed for a spread: product, day, how much, and the zones with their pounds and areas."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from lawnbook.desk.entry import format_day, parse_day
from lawnbook.desk.line_fields import ChoiceBox, DayField
from lawnbook.desk.pages.zone_shares import RowTick, ZoneShares
from lawnbook.desk.widgets import Caption, QuietButton, TextField, mark_role, name_control
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import pounds_for_rate, share_by_area
from lawnbook.plan.workings import most_told_lb
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import parse_number
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feeding

BY_POUNDS, BY_RATE = "pounds", "rate"
MODES = ((BY_RATE, "lb N per 1,000 sq ft"), (BY_POUNDS, "lb of product in all"))

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is about to be spread: product, day, pounds and square feet treated by zone."""

    product_id: str
    on: date
    pounds: Mapping[str, float]
    areas: Mapping[str, float]


class SpreadEntry(QWidget):
    """The fields of one spread.

    `changed` as a hand types or ticks, `entered` on Enter in a line, `most_asked` for the button
    that fills in the most that fits.
    """

    changed = Signal()
    entered = Signal()
    most_asked = Signal()

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._day_of_plan = book.today
        self._picked_product = False
        self._make_fields()
        self._lay_out()
        self._listen()

    def show_notebook(self) -> None:
        """Take on the notebook's zones and products. Tells nobody."""
        notebook = self._book.notebook
        self.shares.show_zones(notebook)
        self.all_zones.setVisible(len(notebook.zones) > 1)
        self._offer_products(notebook)
        self.tell_ticks()

    def show_day(self, on: date) -> None:
        """Follow the plan's day unless the owner typed another."""
        if self.day_field.text() in ("", format_day(self._day_of_plan)):
            self.day_field.setText(format_day(on))
        self._day_of_plan = on

    def propose(self, zone_id: str, product_id: str) -> None:
        """Tick a zone alone and choose its product, as long as nothing has been typed.

        A product chosen by hand stays until a feeding is recorded.
        """
        if self.amount.text() or self.shares.any_typed():
            return
        self.shares.tick_only((zone_id,))
        self.tell_ticks()
        advised = self.product.findData(product_id)
        if advised >= 0 and not self._picked_product:
            self.product.setCurrentIndex(advised)

    def load(self, feeding: Feeding) -> None:
        """Show a recorded feeding."""
        self.product.setCurrentIndex(self.product.findData(feeding.product))
        self.day_field.setText(format_day(feeding.date))
        self.amount.clear()
        self.shares.tick_only(tuple(feeding.pounds))
        self.shares.put_pounds(feeding.pounds)
        self.shares.put_areas(feeding.treated_area_sqft)

    def clear(self) -> None:
        """Empty for a new spread on the plan's day; product and zones stay."""
        self._picked_product = False
        self.amount.clear()
        self.shares.put_pounds({})
        self.shares.put_areas({})
        self.day_field.setText(format_day(self._day_of_plan))

    def put_most(self, most: SpreadCheck) -> None:
        """Put in the most pounds that fit on each zone, as they are told."""
        self.amount.clear()
        told = {each.zone_id: most_told_lb(each.max_lb) for each in most.zones}
        self.shares.put_pounds({zone_id: pounds for zone_id, pounds in told.items() if pounds > 0})

    @property
    def product_id(self) -> str:
        """The id of the product chosen, empty with a bare shelf."""
        return str(self.product.currentData() or "")

    def proposal(self) -> Proposal | None:
        """What is entered; None while product or zone is missing.

        OwnerError for a field that cannot be read, which is then marked.
        """
        zone_ids = self.shares.ticked()
        if not self.product_id or not zone_ids:
            return None
        on = _read(self.day_field, self._day)
        areas = self.shares.areas()
        _read(self.amount, lambda: self._fill(zone_ids, areas))
        return Proposal(self.product_id, on, self.shares.pounds(), areas)

    def tell_ticks(self) -> None:
        """Let "All zones" stand as the zones are ticked. Tells nobody."""
        ticked, zones = self.shares.ticked(), self._book.notebook.zones
        blocked = self.all_zones.blockSignals(True)
        self.all_zones.setChecked(bool(zones) and len(ticked) == len(zones))
        self.all_zones.blockSignals(blocked)

    def _day(self) -> date:
        if not self.day_field.text().strip():
            raise OwnerError("Day is missing; enter the day of spreading, such as 15 Jun 2026.")
        return parse_day(self.day_field.text(), self._book.today)

    def _fill(self, zone_ids: tuple[str, ...], areas: Mapping[str, float]) -> None:
        """Share the typed amount out over the ticked zones; hand-typed pounds stay without one."""
        words = self.amount.text().strip()
        if not words:
            return
        amount = parse_number(words, "How much")
        if amount < 0:
            raise OwnerError(f"How much: {words} is less than nothing; enter 0 or more.")
        notebook, product_id = self._book.notebook, self.product_id
        by_rate = self.mode.currentData() == BY_RATE
        self.shares.put_pounds(
            pounds_for_rate(notebook, product_id, zone_ids, amount, areas)
            if by_rate
            else share_by_area(notebook, zone_ids, amount, areas)
        )

    def _offer_products(self, notebook: Notebook) -> None:
        wanted = [(each.name, each.id) for each in notebook.products.values()]
        held = [
            (self.product.itemText(k), self.product.itemData(k))
            for k in range(self.product.count())
        ]
        if wanted == held:
            return
        chosen = self.product.currentData()
        self.product.clear()
        for name, product_id in wanted:
            self.product.addItem(name, product_id)
        self.product.setCurrentIndex(max(0, self.product.findData(chosen)))
        self.product.setEnabled(bool(wanted))

    def _pounds_typed(self) -> None:
        self.amount.clear()
        self.changed.emit()

    def _product_picked(self) -> None:
        self._picked_product = True
        self.changed.emit()

    def _tick_all(self, on: bool) -> None:
        self.shares.tick_only(tuple(self._book.notebook.zones) if on else ())
        self.changed.emit()

    def _make_fields(self) -> None:
        self.product = ChoiceBox(self)
        self.amount = TextField(self)
        self.mode = ChoiceBox(self)
        self.day_field = DayField(self._book.today, self)
        self.day_field.setText(format_day(self._day_of_plan))
        self.most_button = QuietButton("Put in the most that fits", "spread_most", self)
        self.shares = ZoneShares(self)
        self.all_zones = RowTick("All zones", self)
        for key, words in MODES:
            self.mode.addItem(words, key)
        for widget, name, spoken in (
            (self.product, "spread_product", "Product"),
            (self.amount, "spread_amount", "How much"),
            (self.mode, "spread_mode", "How much is counted as"),
            (self.day_field, "spread_day", "Day of spreading"),
            (self.all_zones, "spread_all_zones", "Feed all zones"),
        ):
            name_control(widget, name, spoken)

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(3)
        cells = (
            ("Product", self.product, 0, 0, 3),
            ("Day", self.day_field, 0, 3, 1),
            ("How much", self.amount, 2, 0, 1),
            ("of", self.mode, 2, 1, 1),
        )
        for words, widget, row, column, span in cells:
            label = Caption(words, self)
            label.setBuddy(widget)
            grid.addWidget(label, row, column, 1, span)
            grid.addWidget(widget, row + 1, column, 1, span)
        grid.addWidget(self.most_button, 3, 2, 1, 2)
        for column, stretch in enumerate((2, 4, 1, 3)):
            grid.setColumnStretch(column, stretch)
        stack = QVBoxLayout(self)
        stack.setContentsMargins(0, 0, 0, 0)
        stack.setSpacing(8)
        stack.addLayout(grid)
        stack.addWidget(self.shares)
        stack.addWidget(self.all_zones)

    def _listen(self) -> None:
        self.product.activated.connect(self._product_picked)
        self.mode.activated.connect(self.changed)
        for field in (self.amount, self.day_field):
            field.textEdited.connect(self.changed)
            field.returnPressed.connect(self.entered)
        self.shares.zones_changed.connect(self.changed)
        self.shares.typed.connect(self._pounds_typed)
        self.all_zones.toggled.connect(self._tick_all)
        self.most_button.clicked.connect(self.most_asked)


def _read(field: TextField, read: Callable[[], T]) -> T:
    """What a field says; one that cannot be read is marked."""
    mark_role(field, "")
    try:
        return read()
    except OwnerError:
        mark_role(field, "", "refuse")
        raise
