"""The spreader: weighed over a measured strip, and the setting proposed for a rate."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.desk.codecs import kept_amount
from lawnbook.desk.figures import let_open
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.tool_fields import FieldGrid, fill_rate_units, offer, offer_names
from lawnbook.desk.pages.tool_words import (
    NOT_PORTABLE,
    OF_NITROGEN,
    OF_PRODUCT,
    nitrogen_words,
    product_lb_per_1000,
    rate_caption,
    spreader_answer,
    spreader_heads,
    spreader_row,
)
from lawnbook.desk.telling import Teller, captioned
from lawnbook.desk.widgets import Caption, Heading, TextField, Words, mark_role, name_control
from lawnbook.plan.calibration import spreader_advice
from lawnbook.plan.feed_model import SpreaderAdvice
from lawnbook.plan.tool_workings import setting_workings, spreader_run_workings
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import RATE_UNIT
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Product

NO_PRODUCT = tr(
    "Put a granular product on the shelf first: a spreader is weighed with the product it throws."
)
N_COLUMN, DAY_COLUMN, NARROW_PX = 4, 5, 680
"""A narrow page leaves these columns out: names come first."""
NO_RUN = tr("Not weighed with this product yet: weigh one strip above, at any setting.")
SAY_RATE = tr("Say the rate: the setting follows from your own runs with this product.")


class SpreaderTool(QWidget):
    """The calibration of spreaders, the runs that are kept, and the setting for a rate."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.panel = EntryPanel(book, self._setting(), self)
        self.panel.table.spare((N_COLUMN, DAY_COLUMN), NARROW_PX)
        self._lead = Caption(NOT_PORTABLE, self, wrap=True)
        self._none = Words(NO_PRODUCT, "", self)
        self._none.setObjectName("spreader_none")
        self.advice = SettingFor(book, self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        for each in (self._lead, self._none, self.panel, self.advice):
            column.addWidget(each)

    def refresh(self) -> None:
        """Show the runs as the notebook holds them; what is typed stays."""
        notebook = self._book.notebook
        products = spreadable(self._book)
        self.panel.form.offer("product", products)
        earlier = [each.spreader for each in notebook.spreader_runs.values()]
        earlier += [each.spreader for each in notebook.feedings.values()]
        offer_names(self.panel.form.editor("spreader"), earlier)
        self._none.setVisible(not products)
        self.panel.setVisible(bool(products))
        self.panel.refresh()
        self.advice.refresh()
        self.advice.setVisible(bool(notebook.spreader_runs))

    def _workings(self, run_id: str) -> tuple[Working, ...]:
        """Those of a run."""
        run = self._book.notebook.spreader_runs.get(run_id)
        return () if run is None else spreader_run_workings(run)

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="spreader_runs",
            noun="run",
            names=("product", "spreader", "setting", "strip_ft", "width_ft", "used_lb", "date"),
            heads=spreader_heads,
            rows=self._rows,
            title=lambda each: tr(
                "calibration of {spreader} at {setting}",
                spreader=each.spreader,
                setting=each.setting,
            ),
            given=self._given,
            answer=self._said_of,
            words_columns=(0, 1, 2),
            columns=4,
            spans={"product": 2},
            labels={
                "strip_ft": lambda: captioned(tr("Strip walked"), "ft"),
                "width_ft": lambda: captioned(tr("Width of a pass"), "ft"),
            },
            stays=("product", "spreader", "strip_ft", "width_ft"),
            workings=self._workings,
        )

    def _rows(self) -> Sequence[Row]:
        notebook = self._book.notebook
        runs = sorted(notebook.spreader_runs.values(), key=lambda each: each.date, reverse=True)
        return [spreader_row(each, notebook.products.get(each.product)) for each in runs]

    def _given(self) -> Mapping[str, Any]:
        first = next((each for each, _ in spreadable(self._book)), None)
        return {"date": self._book.today, "product": first}

    def _said_of(self, values: Mapping[str, Any]) -> Answer:
        return spreader_answer(values, self._book.notebook.products.get(values.get("product", "")))


class SettingFor(QWidget):
    """For a product and a rate: the setting of each spreader that was weighed with it."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.product = ChoiceBox(self)
        name_control(self.product, "setting_product", tr("Product to spread"))
        self.rate = TextField(self)
        name_control(self.rate, "setting_rate", tr("Rate to spread"))
        self.unit = ChoiceBox(self)
        name_control(self.unit, "setting_unit", tr("Unit of the rate"))
        for unit in (OF_PRODUCT, OF_NITROGEN):
            self.unit.addItem("", unit)
        Teller(self.unit, lambda: fill_rate_units(self.unit))
        self._nitrogen = Caption("", self, wrap=True)
        self._nitrogen.setObjectName("setting_nitrogen")
        self._words = Words("", "", self)
        self._words.setObjectName("setting_words")
        self._wanted: float | None = None
        let_open(self._workings, self._words, self._nitrogen)
        self._lay_out()
        self.product.activated.connect(self._show)
        self.unit.activated.connect(self._show)
        self.rate.textEdited.connect(self._show)

    def refresh(self) -> None:
        """Offer the products on the shelf, and propose again."""
        runs = self._book.notebook.spreader_runs.values()
        latest = max(runs, key=lambda each: each.date).product if runs else ""
        offer(self.product, spreadable(self._book), latest)
        self._show()

    def retell(self) -> None:
        """Rate and setting in the owner's units; what is typed means what it did."""
        self.rate.setText(kept_amount(self.rate.text(), RATE_UNIT))
        self._show()

    def _show(self) -> None:
        mark_role(self.rate, "")
        self._wanted = None
        product = self._book.notebook.products.get(self.product.currentData() or "")
        text = self.rate.text().strip()
        if product is None or not text:
            self._nitrogen.say("", "caption")
            self._words.say(SAY_RATE, "caption")
            return
        try:
            rate = parse_measure(text, tr("Rate"), RATE_UNIT)
            if rate <= 0:
                raise OwnerError(
                    tr("Rate: {text} puts nothing down; enter a number above zero.", text=text)
                )
            lb_per_1000 = product_lb_per_1000(rate, self.unit.currentData(), product)
        except OwnerError as problem:
            mark_role(self.rate, "", "refuse")
            self._nitrogen.say("", "caption")
            self._words.say(str(problem), "refuse")
            return
        self._wanted = lb_per_1000
        self._nitrogen.say(*nitrogen_words(lb_per_1000, product))
        self._propose(product, lb_per_1000)

    def _workings(self) -> list[Working]:
        """The settings proposed, and the runs with the product that is picked."""
        picked = self.product.currentData() or ""
        runs = self._book.notebook.spreader_runs.values()
        weighed = [
            w for each in runs if each.product == picked for w in spreader_run_workings(each)
        ]
        return [*setting_workings(self._book.notebook, picked, self._wanted or 0.0), *weighed]

    def _propose(self, product: Product, lb_per_1000: float) -> None:
        found = spreader_advice(self._book.notebook, product.id, lb_per_1000)
        lines = [_proposal(each) for each in found]
        self._words.say("\n".join(lines) or NO_RUN, "" if lines else "caption")

    def _lay_out(self) -> None:
        fields = FieldGrid(6)
        fields.add(tr("Product"), self.product, 3)
        fields.add(tr("Rate"), self.rate)
        fields.add(rate_caption, self.unit, 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 0)
        column.setSpacing(6)
        column.addWidget(Heading(tr("The setting for a rate"), self))
        column.addLayout(fields)
        column.addWidget(self._nitrogen)
        column.addWidget(self._words)


def spreadable(book: OpenNotebook) -> list[tuple[str, str]]:
    """Ids and names of what a spreader can throw: granular products, and any weighed already."""
    weighed = {each.product for each in book.notebook.spreader_runs.values()}
    products = book.notebook.products.values()
    return [(p.id, p.name) for p in products if p.form == "granular" or p.id in weighed]


def _proposal(advice: SpreaderAdvice) -> str:
    """A setting to put in, where one fits."""
    lead = tr(" set it to {setting}.", setting=advice.setting) if advice.fits else ""
    return f"{advice.spreader}:{lead} {advice.words}"
