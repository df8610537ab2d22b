"""What is typed for a spread: product, day, how much, and the zones with their pounds and areas."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import TypeVar

from PySide6.QtCore import QStringListModel, Qt, Signal
from PySide6.QtWidgets import QCompleter, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.agronomy.units import fl_oz_to_gal
from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.entry import format_day, parse_day
from lawnbook.desk.line_fields import ChoiceBox, DayField
from lawnbook.desk.pages.spread_day import FIRST_DAY, DayButton
from lawnbook.desk.pages.spread_modes import (
    BY_FL_OZ,
    BY_GALLONS,
    BY_RATE,
    LIQUID_MODES,
    MODES,
    Proposal,
    density_of,
    mode_words,
    unit_of,
)
from lawnbook.desk.pages.zone_shares import RowTick, ZoneShares
from lawnbook.desk.telling import Label, captioned, either, follow_label, follow_name
from lawnbook.desk.widgets import Caption, QuietButton, TextField, mark_role, name_control
from lawnbook.plan.calibration_tank import folded
from lawnbook.plan.feed_model import SpreaderAdvice, SpreadPass
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import pounds_for_rate, share_by_area
from lawnbook.plan.spread_conditions import Conditions
from lawnbook.plan.workings import most_told_lb
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import parse_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feeding

T = TypeVar("T")


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
        self._offer_modes()
        self._offer_spreaders(notebook)
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
            self._offer_modes()

    def load(self, feeding: Feeding) -> None:
        """Show a recorded feeding."""
        self.product.setCurrentIndex(self.product.findData(feeding.product))
        self._offer_modes()
        self.day_field.setText(format_day(feeding.date))
        self.amount.clear()
        self.shares.tick_only(tuple(feeding.pounds))
        self.shares.put_pounds(feeding.pounds)
        drawn = self.shares.drawn_areas(feeding.pounds)
        self.shares.put_areas({**drawn, **feeding.treated_area_sqft})
        self.spreader.setText(feeding.spreader)
        self.setting.setText(feeding.setting)

    def clear(self) -> None:
        """Empty for a new spread on the plan's day; product, zones and spreader stay."""
        self._picked_product = False
        for field in (self.amount, self.rain, self.setting):
            field.clear()
        self.shares.put_pounds({})
        self.shares.put_areas({})
        self.day_field.setText(format_day(self._day_of_plan))

    def put_most(self, most: SpreadCheck) -> None:
        """Put in the most pounds that fit on each zone, as they are told."""
        self.amount.clear()
        told = {each.zone_id: most_told_lb(each.max_lb) for each in most.zones}
        self.shares.put_pounds({zone_id: pounds for zone_id, pounds in told.items() if pounds > 0})

    def put_pass(self, part: SpreadPass) -> None:
        """Put in one pass of a split: its day, its zones and the pounds of each."""
        self.amount.clear()
        self.put_day(part.date)
        self.shares.tick_only(tuple(each.zone_id for each in part.zones))
        self.shares.put_pounds({each.zone_id: each.pounds for each in part.zones})
        self.tell_ticks()

    def put_day(self, on: date) -> None:
        """Put in a day; tells nobody."""
        self.day_field.setText(format_day(on))

    def put_setting(self, advice: SpreaderAdvice) -> None:
        """Put in a spreader and the setting proposed for it; tells nobody."""
        self.spreader.setText(advice.spreader)
        self.setting.setText(advice.setting)

    def show_first_day(self, earliest: date | None, on: date | None) -> None:
        """Offer the first day that passes; nothing to click where it is the day that is entered."""
        other = earliest is not None and earliest != on
        words = (
            tr("Go to {format_day}", format_day=format_day(earliest))
            if earliest and other
            else FIRST_DAY
        )
        self.first_day.setText(words)
        self.first_day.setAccessibleName(f"{FIRST_DAY}: {words}" if other else FIRST_DAY)
        self.first_day.setEnabled(other)

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
        areas = self.shares.given_areas()
        _read(self.amount, lambda: self._fill(zone_ids, areas))
        conditions = _read(self.rain, self._conditions)
        pounds, setting = self.shares.pounds(), self.setting.text().strip()
        return Proposal(self.product_id, on, zone_ids, pounds, areas, conditions, setting)

    def tell_ticks(self) -> None:
        """Let "All zones" stand as the zones are ticked. Tells nobody."""
        ticked, zones = self.shares.ticked(), self._book.notebook.zones
        blocked = self.all_zones.blockSignals(True)
        self.all_zones.setChecked(bool(zones) and len(ticked) == len(zones))
        self.all_zones.blockSignals(blocked)

    def _day(self) -> date:
        if not self.day_field.text().strip():
            raise OwnerError(tr("Day is missing; enter the day of spreading, such as 15 Jun 2026."))
        return parse_day(self.day_field.text(), self._book.today)

    def _fill(self, zone_ids: tuple[str, ...], areas: Mapping[str, float]) -> None:
        """Share the typed amount out over the ticked zones; hand-typed pounds stay without one."""
        words = self.amount.text().strip()
        if not words:
            return
        # Pounds of an earlier amount must not stand beside one that cannot be read.
        self.shares.put_pounds({})
        amount = parse_measure(words, tr("How much"), unit_of(self.mode.currentData()))
        if amount < 0:
            raise OwnerError(
                tr("How much: {words} is less than nothing; enter 0 or more.", words=words)
            )
        notebook, mode = self._book.notebook, self.mode.currentData()
        if mode == BY_RATE:
            pounds = pounds_for_rate(notebook, self.product_id, zone_ids, amount, areas)
        elif mode == BY_FL_OZ:
            density = density_of(notebook.products[self.product_id])
            per_sqft = fl_oz_to_gal(amount) * density / 1000
            pounds = {zone_id: per_sqft * sqft for zone_id, sqft in self.shares.areas().items()}
        else:
            by_volume = mode == BY_GALLONS
            each = density_of(notebook.products[self.product_id]) if by_volume else 1.0
            pounds = share_by_area(notebook, zone_ids, amount * each, areas)
        self.shares.put_pounds(pounds)

    def _conditions(self) -> Conditions:
        words = self.rain.text().strip()
        rain_in = parse_inches(words, tr("Rain")) if words else None
        return Conditions(rain_in=rain_in, spreader=self.spreader.text().strip())

    def _offer_modes(self) -> None:
        """Count a liquid by volume too; the way to count stays where it can."""
        product = self._book.notebook.products.get(self.product_id)
        wanted = LIQUID_MODES if product is not None and product.form == "liquid" else MODES
        if self.mode.count() == len(wanted):
            return
        chosen = self.mode.currentData()
        self.mode.clear()
        for key in wanted:
            self.mode.addItem(mode_words(key), key)
        self.mode.setCurrentIndex(max(0, self.mode.findData(chosen)))

    def retell(self) -> None:
        """Amounts in the owner's units; what is typed means what it did."""
        for row in range(self.mode.count()):
            self.mode.setItemText(row, mode_words(self.mode.itemData(row)))
        mode = self.mode.currentData()
        unit = "fl oz per 1,000 sq ft" if mode == BY_FL_OZ else unit_of(mode)
        self.amount.setText(kept_amount(self.amount.text(), unit))
        self.rain.setText(kept_amount(self.rain.text(), "in"))

    def _offer_spreaders(self, notebook: Notebook) -> None:
        """Propose the names of the owner's spreaders as they were written before."""
        names = known_spreaders(notebook)
        if self._spreaders.stringList() != names:
            self._spreaders.setStringList(names)

    def _offer_products(self, notebook: Notebook) -> None:
        wanted = [(each.name, each.id) for each in notebook.products.values()]
        box = self.product
        held = [(box.itemText(k), box.itemData(k)) for k in range(box.count())]
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
        self._offer_modes()
        self.changed.emit()

    def _tick_all(self, on: bool) -> None:
        self.shares.tick_only(tuple(self._book.notebook.zones) if on else ())
        self.changed.emit()

    def _make_fields(self) -> None:
        self.product = ChoiceBox(self)
        self.amount, self.rain = TextField(self), TextField(self)
        self.spreader, self.setting = TextField(self), TextField(self)
        self.mode = ChoiceBox(self)
        self.day_field = DayField(self._book.today, self)
        self.put_day(self._day_of_plan)
        self.most_button = QuietButton(tr("The most that fits"), "spread_most", self)
        self.first_day = DayButton(FIRST_DAY, "spread_first_day", self)
        self.first_day.setEnabled(False)
        self.shares = ZoneShares(self)
        self.all_zones = RowTick(tr("All zones"), self)
        self._spreaders = QStringListModel(self)
        proposed = QCompleter(self._spreaders, self.spreader)
        proposed.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.spreader.setCompleter(proposed)
        self._offer_modes()
        for widget, name, spoken in (
            (self.product, "spread_product", tr("Product")),
            (self.amount, "spread_amount", tr("How much")),
            (self.mode, "spread_mode", tr("How much is counted as")),
            (self.day_field, "spread_day", tr("Day of spreading")),
            (self.all_zones, "spread_all_zones", tr("Feed all zones")),
            (self.spreader, "spread_spreader", tr("Spreader or sprayer")),
            (self.setting, "spread_setting", tr("Its setting")),
        ):
            name_control(widget, name, spoken)
        us, metric = tr("Rain in the next days, inches"), tr("Rain in the next days, millimetres")
        follow_name(self.rain, "spread_rain", lambda: either(us, metric))

    def _lay_out(self) -> None:
        stack = QVBoxLayout(self)
        stack.setContentsMargins(0, 0, 0, 0)
        stack.setSpacing(8)
        stack.addLayout(
            self._grid(
                (
                    (tr("Product"), self.product, (0, 0, 2)),
                    (tr("Day"), self.day_field, (0, 2, 1)),
                    (tr("How much"), self.amount, (1, 0, 1)),
                    (tr("of"), self.mode, (1, 1, 1)),
                ),
                (4, 8, 5),
            )
        )
        stack.addWidget(self.shares)
        below = QHBoxLayout()
        below.addWidget(self.all_zones, 1)
        for button in (self.most_button, self.first_day):
            below.addWidget(button)
        stack.addLayout(below)
        stack.addLayout(
            self._grid(
                (
                    (
                        lambda: captioned(tr("Rain in the next days"), "in"),
                        self.rain,
                        (0, 0, 1),
                    ),
                    (tr("Spreader or sprayer"), self.spreader, (0, 1, 1)),
                    (tr("Its setting"), self.setting, (0, 2, 1)),
                ),
                (5, 8, 5),
            )
        )

    def _grid(
        self,
        cells: Sequence[tuple[Label, QWidget, tuple[int, int, int]]],
        stretches: Sequence[int],
    ) -> QGridLayout:
        """Controls at (row, column, span), each with its label above it; air between the rows."""
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(3)
        for words, widget, (row, column, span) in cells:
            if words:
                label = Caption("", self)
                follow_label(label, words)
                label.setBuddy(widget)
                if widget is self.mode:
                    # "of" says enough beside the amount, but not by itself.
                    label.setAccessibleName(widget.accessibleName())
                grid.addWidget(label, 3 * row, column, 1, span)
            grid.addWidget(widget, 3 * row + 1, column, 1, span)
            if row:
                grid.setRowMinimumHeight(3 * row - 1, 3)
        for column, stretch in enumerate(stretches):
            grid.setColumnStretch(column, stretch)
        return grid

    def _listen(self) -> None:
        self.product.activated.connect(self._product_picked)
        self.mode.activated.connect(self.changed)
        for field in (self.amount, self.day_field, self.rain, self.spreader, self.setting):
            field.textEdited.connect(self.changed)
            field.returnPressed.connect(self.entered)
        self.shares.zones_changed.connect(self.changed)
        self.shares.typed.connect(self._pounds_typed)
        self.all_zones.toggled.connect(self._tick_all)
        self.most_button.clicked.connect(self.most_asked)


def known_spreaders(notebook: Notebook) -> list[str]:
    """The names of spreaders and sprayers as the notebook holds them, once each, in order."""
    named = [
        *(each.spreader for each in notebook.spreader_runs.values()),
        *(each.sprayer for each in notebook.sprayer_runs.values()),
        *(each.spreader for each in notebook.feedings.values()),
    ]
    by_name = {folded(name): name.strip() for name in reversed(named) if name.strip()}
    return sorted(by_name.values(), key=str.casefold)


def _read(field: TextField, read: Callable[[], T]) -> T:
    """What a field says; one that cannot be read is marked."""
    mark_role(field, "")
    try:
        return read()
    except OwnerError:
        mark_role(field, "", "refuse")
        raise
