"""The check before spreading: what, how much, where and when; and the verdict as it is typed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.entry import format_day, parse_day
from lawnbook.desk.line_fields import ChoiceBox, DayField
from lawnbook.desk.pages.feed_words import binding_lines, idle_sentence
from lawnbook.desk.pages.zone_shares import ZoneShares
from lawnbook.desk.widgets import (
    Caption,
    Card,
    LinkButton,
    PrimaryButton,
    QuietButton,
    TextField,
    Verdict,
    Words,
    name_control,
)
from lawnbook.plan.model import SpreadCheck
from lawnbook.plan.spread import check_spread, pounds_for_rate, share_by_area
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.notebook import Notebook, apply, new_id, put
from lawnbook.yard.numbers import day, parse_number, plain
from lawnbook.yard.problems import OwnerError, asked
from lawnbook.yard.records import Feeding

BY_POUNDS, BY_RATE = "pounds", "rate"
MODES = ((BY_RATE, "lb N per 1,000 sq ft"), (BY_POUNDS, "lb of product in all"))
PAUSE_MS = 120


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is about to be spread: product, day, pounds and square feet treated by zone."""

    product_id: str
    on: date
    pounds: Mapping[str, float]
    areas: Mapping[str, float]


class SpreadPanel(QWidget):
    """Entry, verdict and record of one feeding; also where a recorded feeding is changed.

    `checked` carries the latest `SpreadCheck`, or None while there is nothing to check.
    """

    checked = Signal(object)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self._day_of_plan = book.today
        self._standing = ""
        self._editing: Feeding | None = None
        self._asked = False
        self.check: SpreadCheck | None = None
        self._make_fields()
        self._make_words()
        self._lay_out()
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._listen()
        self.show_notebook()

    def show_notebook(self) -> None:
        """Take on the notebook's zones and products, then check again."""
        notebook = self._book.notebook
        self.shares.show_zones(notebook)
        self.all_zones.setVisible(len(notebook.zones) > 1)
        self._offer_products(notebook)
        if self._editing is not None:
            held = notebook.feedings.get(self._editing.id)
            if held is None:
                self.start_anew()
            elif held is not self._editing:
                self.edit(held.id)
        self._pause.start()

    def show_day(self, on: date, standing: str) -> None:
        """Follow the plan's day unless the owner typed another; `standing` is said while idle."""
        if self.day_field.text() in ("", format_day(self._day_of_plan)):
            self.day_field.setText(format_day(on))
        self._day_of_plan = on
        self._standing = standing
        self._pause.start()

    def propose_zone(self, zone_id: str) -> None:
        """Tick a zone alone, as long as nothing has been typed."""
        if self._editing is None and not self.amount.text() and not self.shares.any_typed():
            self.shares.tick_only((zone_id,))
            self._pause.start()

    def edit(self, feeding_id: str) -> None:
        """Bring a recorded feeding back to be changed; KeyError for an unknown one."""
        feeding = self._book.notebook.feedings[feeding_id]
        self._editing = feeding
        self.product.setCurrentIndex(self.product.findData(feeding.product))
        self.day_field.setText(format_day(feeding.date))
        self.amount.clear()
        self.shares.tick_only(tuple(feeding.pounds))
        self.shares.put_pounds(feeding.pounds)
        self.shares.put_areas(feeding.treated_area_sqft)
        self.examine()

    def start_anew(self) -> None:
        """Leave a feeding that was being changed; the form is for a new one again."""
        self._editing = None
        self.amount.clear()
        self.shares.put_pounds({})
        self.shares.put_areas({})
        self.day_field.setText(format_day(self._day_of_plan))
        self.examine()

    def examine(self) -> None:
        """Check what is entered now and say what comes of it."""
        self._asked = False
        self._note.say("", "refuse")
        self._examine()

    def fill_most(self) -> None:
        """Put in the most product that fits on each ticked zone that day."""
        proposal = self._readable_proposal()
        most = self._check_of(proposal, {}) if proposal else None
        if most is not None:
            self.amount.clear()
            self.shares.put_pounds({z.zone_id: z.max_lb for z in most.zones if z.max_lb > 0})
            self.examine()

    def record(self) -> None:
        """Write the feeding into the notebook; over the budget or doubtful only if asked twice."""
        self._examine()
        proposal = self._readable_proposal()
        if proposal is None:
            return
        feeding = self._feeding(proposal)
        doubts = self._doubts(feeding)
        if doubts and not self._asked:
            self._asked = True
            self._note.say(" ".join(doubts), "ask")
            self._say_buttons()
            return
        self._keep(feeding)

    def _keep(self, feeding: Feeding) -> None:
        change = put(self._book.notebook, "feedings", feeding)
        try:
            self._book.edit(change, f"feeding of {day(feeding.date)}")
        except OwnerError as problem:
            self._note.say(str(problem), "refuse")
            return
        self.start_anew()
        pounds = plain(sum(feeding.pounds.values()))
        self._done.say(f"Recorded: {pounds} lb on {day(feeding.date)}.")

    def _examine(self) -> None:
        self._pause.stop()
        proposal = self._readable_proposal()
        self.check = None
        most: SpreadCheck | None = None
        if proposal is not None:
            most = self._check_of(proposal, {}) if self._feeds(proposal.product_id) else None
            self.check = self._check_of(proposal, proposal.pounds) if proposal.pounds else None
        self.shares.show_check(self.check, most)
        self._say_verdict()
        self._say_buttons()
        self.checked.emit(self.check)

    def _check_of(self, proposal: Proposal, pounds: Mapping[str, float]) -> SpreadCheck | None:
        """The check of pounds on the ticked zones, of none where none are given."""
        wanted = {zone_id: pounds.get(zone_id, 0.0) for zone_id in proposal.areas}
        try:
            return check_spread(
                self._basis(), proposal.product_id, wanted, proposal.on, proposal.areas
            )
        except OwnerError as problem:
            self._note.say(str(problem), "refuse")
            return None

    def _feeds(self, product_id: str) -> bool:
        """Whether a product carries nitrogen, so that a most that fits can be told."""
        return self._book.notebook.products[product_id].n_pct > 0

    def _basis(self) -> Notebook:
        """The notebook to check against: without the feeding that is being changed."""
        notebook = self._book.notebook
        if self._editing is None:
            return notebook
        return apply(notebook, {("feedings", self._editing.id): (self._editing, None)})

    def _readable_proposal(self) -> Proposal | None:
        """What is entered; None where something is missing, or wrong and said so."""
        product_id = str(self.product.currentData() or "")
        zone_ids = self.shares.ticked()
        if not product_id or not zone_ids:
            return None
        try:
            self._fill(product_id, zone_ids)
            return Proposal(
                product_id,
                parse_day(self.day_field.text(), self._book.today),
                self.shares.pounds(),
                self.shares.areas(),
            )
        except OwnerError as problem:
            self._note.say(str(problem), "refuse")
            return None

    def _feeding(self, proposal: Proposal) -> Feeding:
        base = self._editing or Feeding(
            id=new_id(), date=proposal.on, product=proposal.product_id, pounds={}
        )
        areas = {zone_id: proposal.areas[zone_id] for zone_id in proposal.pounds}
        return replace(
            base,
            date=proposal.on,
            product=proposal.product_id,
            pounds=MappingProxyType(dict(proposal.pounds)),
            treated_area_sqft=MappingProxyType(areas),
        )

    def _doubts(self, feeding: Feeding) -> list[str]:
        change = put(self._book.notebook, "feedings", feeding)
        problems = check(feeding, apply(self._book.notebook, change), self._book.today)
        doubts = [each.sentence for each in asked(problems)]
        if self.check is not None and not self.check.within:
            doubts.append("This is more than fits; record it only if it is already down.")
        return doubts

    def _fill(self, product_id: str, zone_ids: tuple[str, ...]) -> None:
        """Share the typed amount out over the ticked zones; hand-typed pounds stay without one."""
        if self.amount.text().strip():
            amount = parse_number(self.amount.text(), "How much")
            self.shares.put_pounds(self._shared(product_id, zone_ids, amount))

    def _shared(
        self, product_id: str, zone_ids: tuple[str, ...], amount: float
    ) -> Mapping[str, float]:
        notebook = self._book.notebook
        areas = self.shares.areas()
        if self.mode.currentData() == BY_RATE:
            return pounds_for_rate(notebook, product_id, zone_ids, amount, areas)
        return share_by_area(notebook, zone_ids, amount, areas)

    def _changed(self) -> None:
        self._done.say("")
        self._pause.start()

    def _pounds_typed(self) -> None:
        self.amount.clear()
        self._changed()

    def _tick_all(self, on: bool) -> None:
        self.shares.tick_only(tuple(self._book.notebook.zones) if on else ())
        self._changed()

    def _say_verdict(self) -> None:
        notebook = self._book.notebook
        if self.check is not None:
            self.verdict.say(self.check.verdict)
            self._rules.say("\n".join(binding_lines(self.check)))
        else:
            self.verdict.say(idle_sentence(notebook, self._standing))
            self._rules.say("")

    def _say_buttons(self) -> None:
        ready = bool(self.product.currentData()) and bool(self.shares.ticked())
        self.most_button.setEnabled(ready and self._feeds(str(self.product.currentData())))
        self.record_button.setEnabled(self.check is not None)
        words = "Keep the changed feeding" if self._editing else "Record this feeding"
        words = "Record it all the same" if self._asked else words
        self.record_button.setText(words)
        self.record_button.setAccessibleName(words)
        self.leave_button.setVisible(self._editing is not None)
        every_zone = len(self.shares.ticked()) == len(self._book.notebook.zones)
        blocked = self.all_zones.blockSignals(True)
        self.all_zones.setChecked(every_zone)
        self.all_zones.blockSignals(blocked)

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

    def _make_fields(self) -> None:
        self.product = ChoiceBox(self)
        self.amount = TextField(self)
        self.mode = ChoiceBox(self)
        self.day_field = DayField(self._book.today, self)
        self.day_field.setText(format_day(self._day_of_plan))
        self.shares = ZoneShares(self)
        self.all_zones = QCheckBox("All zones", self)
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

    def _make_words(self) -> None:
        self.verdict = Verdict("", self)
        self.verdict.setObjectName("spread_verdict")
        self._rules = Caption("", self, wrap=True)
        self._rules.setObjectName("spread_rules")
        self._note = Words("", "refuse", self)
        self._note.setObjectName("spread_note")
        self._done = Words("", "good", self)
        self._done.setObjectName("spread_done")
        self._done.hide()
        self.most_button = QuietButton("Put in the most that fits", "spread_most", self)
        self.leave_button = LinkButton("Leave it as it was", "spread_leave", self)
        self.record_button = PrimaryButton("Record this feeding", "spread_record", self)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.verdict)
        column.addWidget(self._rules)
        card = Card("", self)
        card.body.addLayout(self._entry_grid())
        card.body.addSpacing(4)
        card.body.addWidget(self.shares)
        card.body.addWidget(self._note)
        card.body.addWidget(self._done)
        buttons = QHBoxLayout()
        buttons.addWidget(self.all_zones)
        buttons.addStretch(1)
        for widget in (self.leave_button, self.record_button):
            buttons.addWidget(widget)
        card.body.addLayout(buttons)
        column.addWidget(card)

    def _entry_grid(self) -> QGridLayout:
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
        return grid

    def _listen(self) -> None:
        self._pause.timeout.connect(self.examine)
        self.product.activated.connect(self._changed)
        self.mode.activated.connect(self._changed)
        for field in (self.amount, self.day_field):
            field.textEdited.connect(self._changed)
            field.returnPressed.connect(self.examine)
        self.shares.zones_changed.connect(self._changed)
        self.shares.typed.connect(self._pounds_typed)
        self.all_zones.toggled.connect(self._tick_all)
        self.most_button.clicked.connect(self.fill_most)
        self.leave_button.clicked.connect(self.start_anew)
        self.record_button.clicked.connect(self.record)
