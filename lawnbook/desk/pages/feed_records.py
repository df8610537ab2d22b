"""What the owner enters for feeding: products on the shelf, and nitrogen tables of one's own."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.months_field import MonthsField
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.shelf_words import (
    SHELF_HEADS,
    density_words,
    label_answer,
    product_row,
    source_words,
    weeks_offered,
)
from lawnbook.desk.telling import follow
from lawnbook.desk.widgets import (
    Caption,
    LinkButton,
    TextField,
    mark_role,
    name_control,
)
from lawnbook.plan.feed_budget import budget_told
from lawnbook.plan.model import ZoneNitrogen
from lawnbook.plan.working_model import Working
from lawnbook.reading import tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.amounts import RATE_UNIT, trimmed, unit_shown
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.numbers import MONTHS, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import NBudget, Record

NO_MONTHS = (0.0,) * 12


def product_setting(book: OpenNotebook) -> EntrySetting:
    """The entry of products by their labels; the list shows mixes too."""

    def rows() -> Sequence[Row]:
        return [product_row(each) for each in book.notebook.products.values()]

    return EntrySetting(
        table="products",
        noun="product",
        names=(
            "name",
            "form",
            "n_pct",
            "p2o5_pct",
            "k2o_pct",
            "starter",
            "slow_n_pct",
            "slow_kind",
            "release_weeks",
            "slow_sources",
            "bag_lb",
            "density_lb_per_gal",
            "jug_gal",
            "price",
        ),
        heads=SHELF_HEADS,
        words_columns=(0, 1),
        rows=rows,
        title=lambda each: (
            tr("mix {name}", name=each.name)
            if each.ingredients
            else tr("product {name}", name=each.name)
        ),
        answer=label_answer,
        empty=tr("Nothing on the shelf yet."),
        columns=4,
        spans={"name": 3, "slow_kind": 2, "slow_sources": 3},
        labels={
            "n_pct": tr("Nitrogen N, %"),
            "p2o5_pct": tr("Phosphate P₂O₅, %"),
            "k2o_pct": tr("Potash K₂O, %"),
            "slow_n_pct": tr("Slow N, % of the product"),
            "slow_kind": tr("Kind of slow source"),
            "slow_sources": tr("Slow source in the label's words"),
            "release_weeks": tr("Feeds for, weeks"),
            "price": tr("Price of a package"),
        },
        most_rows=8,
        workings=lambda product_id: _workings(book, product_id),
        answered=_answered,
    )


def _workings(book: OpenNotebook, product_id: str) -> Sequence[Working]:
    from lawnbook.plan.product_workings import product_workings

    return product_workings(book.notebook.products.get(product_id))


def _answered(values: Mapping[str, Any]) -> Sequence[Working]:
    from lawnbook.plan.product_workings import label_workings

    return label_workings(values)


class ProductPanel(EntryPanel):
    """The shelf's entry, where the slow part may be typed as a share of the nitrogen as well.

    Labels state it either way. What is kept is the percent of the product; the share follows it,
    or leads it from the moment it is typed until the percent is. `mix_asked` tells that a mix was
    opened in the list: it is no label's.
    """

    mix_asked = Signal(str)

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        setting = replace(
            product_setting(book),
            answer=self._said_of,
            complete=self._with_share,
        )
        self._leads = False
        self._led_from: float | None = None
        self._put: float | None = None
        self._form_shown: str | None = None
        super().__init__(book, setting, parent)
        self.share = TextField(self)
        name_control(self.share, "products_slow_share", tr("Slow share of the nitrogen %"))
        self.form.insert("slow_kind", "slow_share", tr("or slow, % of the nitrogen"), self.share)
        self._about = Caption("", self, wrap=True)
        self._about.setObjectName("products_about")
        self.body.insertWidget(1, self._about)
        self.share.textEdited.connect(self._share_typed)
        self.share.returnPressed.connect(self.form.entered)
        self.form.changed.connect(self._form_typed)
        self.opened.connect(lambda _: self._opened())
        self._opened()

    def list_into(self, body: QVBoxLayout) -> None:
        """Move the list, with what is said and done there, into another layout."""
        below = QHBoxLayout()
        below.addStretch(1)
        for button in (self.edit_button, self.remove_button):
            below.addWidget(button)
        for each in (self._empty, self.table, self._trouble):
            body.addWidget(each)
        body.addLayout(below)

    def open_record(self, record_id: str) -> None:
        """Bring a product into the form; a mix is handed on."""
        held = self._book.notebook.products.get(record_id)
        if held is not None and held.ingredients:
            self.mix_asked.emit(record_id)
        else:
            super().open_record(record_id)

    def examine(self) -> None:
        """Say what follows from what is typed, and show the fields that its form has."""
        super().examine()
        values = self.form.readable()
        if values.get("form") != self._form_shown:
            self._show_fields()
        weeks = self.form.editor("release_weeks")
        if isinstance(weeks, TextField):
            weeks.setPlaceholderText(weeks_offered(values))
        about = (source_words(values), density_words(values))
        self._about.say(" ".join(each for each in about if each))

    def _show_fields(self) -> None:
        """Show the fields that the product's form has, and any other that holds something."""
        values = self.form.readable()
        self._form_shown = values.get("form")
        liquid = self._form_shown == "liquid"
        for name in ("bag_lb", "density_lb_per_gal", "jug_gal"):
            belongs = liquid != (name == "bag_lb")
            self.form.show_fields((name,), belongs or values.get(name) is not None)

    def _opened(self) -> None:
        self._show_fields()
        self._follow()

    def _share(self) -> float | None:
        """The typed share where it leads. OwnerError, and a mark, where it is none."""
        mark_role(self.share, "")
        if not self._leads:
            return None
        try:
            return _share_of(self.share.text())
        except OwnerError:
            mark_role(self.share, "", "refuse")
            raise

    def _share_typed(self) -> None:
        if not self._leads:
            self._led_from = self.form.readable().get("slow_n_pct")
        self._leads = bool(self.share.text().strip())
        self._lead()

    def _form_typed(self) -> None:
        if self._leads and self.form.readable().get("slow_n_pct") == self._put:
            self._lead()
        else:
            self._follow()

    def _lead(self) -> None:
        """Put the percent of the product that the share comes to, or what stood there before."""
        n_pct = self.form.readable().get("n_pct")
        try:
            share = self._share()
        except OwnerError:
            share = None
        if share is None or n_pct is None or not 0 <= n_pct <= 100:
            self._put = self._led_from
        else:
            self._put = n_pct * share / 100
        self.form.set_value("slow_n_pct", self._put)
        self.examine()

    def _follow(self) -> None:
        """Show the share that the percent of the product comes to."""
        self._leads = False
        mark_role(self.share, "")
        values = self.form.readable()
        n_pct, slow = values.get("n_pct") or 0.0, values.get("slow_n_pct") or 0.0
        sound = 0 <= slow <= n_pct <= 100 and n_pct > 0
        self.share.setText(plain(100 * slow / n_pct, 1) if sound else "")

    def _said_of(self, values: Mapping[str, Any]) -> Answer:
        try:
            self._share()
        except OwnerError as problem:
            return str(problem), "refuse"
        return label_answer(values)

    def _with_share(self, product: Record) -> Record:
        """The product as it is; a share that is none stops it."""
        self._share()
        return product


class BudgetPanel(QWidget):
    """The owner's own nitrogen tables: name, twelve months, and the year's cap."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.months = MonthsField("budget_", tr("Budget"), self)
        self.months.put_values(NO_MONTHS)
        self.panel = EntryPanel(book, self._setting(), self)
        self._start: ZoneNitrogen | None = None
        self.start_button = LinkButton("", "budget_start", self)
        self.start_button.hide()
        head = QHBoxLayout()
        unit = Caption("", self)
        by_month = "lb N per 1,000 sq ft"
        follow(unit, lambda: tr("{unit}, month by month", unit=unit_shown(by_month)))
        head.addWidget(unit, 1)
        head.addWidget(self.start_button)
        self.panel.body.insertLayout(1, head)
        self.panel.body.insertWidget(2, self.months)
        self.start_button.clicked.connect(self._fill_in)
        self.panel.opened.connect(self._opened)
        self.months.edited.connect(self.panel.examine)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.panel)

    def offer_start(self, zone: ZoneNitrogen) -> None:
        """Offer the table that a zone goes by as the start of one's own."""
        self._start = zone
        # The name of a table can be long, and the months need the width of the page.
        self.start_button.setText(tr("Start from the table in use"))
        self.start_button.setToolTip(budget_told(zone.budget_name))
        self.start_button.setAccessibleName(
            tr(
                "Start from the table in use, {budget_name}",
                budget_name=budget_told(zone.budget_name),
            )
        )
        self.start_button.show()

    def _fill_in(self) -> None:
        if self._start is None:
            return
        self.months.put_values(self._start.budget_by_month)
        self.panel.form.set_value("year_lb", self._start.budget_year)
        if not self.panel.form.readable().get("name"):
            self.panel.form.set_value(
                "name",
                tr("{budget_name}, my own", budget_name=budget_told(self._start.budget_name)),
            )
        self.panel.examine()

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="n_budgets",
            noun="table",
            names=("name", "year_lb"),
            heads=(tr("Table"), tr("Months fed"), tr("Sum"), tr("Year")),
            rows=lambda: [_budget_row(each) for each in self._book.notebook.n_budgets.values()],
            title=lambda each: tr("nitrogen table {name}", name=each.name),
            given=lambda: {"by_month": NO_MONTHS},
            answer=self._sum,
            complete=lambda each: replace(each, by_month=self.months.values()),
            workings=self._workings,
            answered=lambda _: self._sum_workings(),
            empty=tr("None of your own: each zone takes the table of its grass and species."),
            words_columns=(0, 1),
            columns=2,
        )

    def _workings(self, budget_id: str) -> Sequence[Working]:
        """The sum of a kept table's months."""
        from lawnbook.plan.fed_workings import months_workings

        budget = self._book.notebook.n_budgets.get(budget_id)
        return () if budget is None else months_workings(budget.by_month, budget.name)

    def _sum_workings(self) -> Sequence[Working]:
        """The sum of the months as typed."""
        from lawnbook.plan.fed_workings import months_workings

        try:
            return months_workings(self.months.values(), tr("typed here, not kept yet"))
        except OwnerError:
            return ()

    def _opened(self, budget_id: str) -> None:
        budget = self._book.notebook.n_budgets.get(budget_id)
        self.months.put_values(budget.by_month if budget else NO_MONTHS)
        self.panel.examine()

    def _sum(self, values: Mapping[str, Any]) -> Answer:
        try:
            total = sum(self.months.values())
        except OwnerError as problem:
            return str(problem), "refuse"
        cap = values.get("year_lb")
        words = tr(
            "The months sum to {trimmed}.", trimmed=trimmed(total, 2, "lb N per 1,000 sq ft")
        )
        if cap is not None and cap < total:
            year = plain(cap, 2, RATE_UNIT)
            return tr(
                "{words} The year's {year} binds before that.", words=words, year=year
            ), "caption"
        return words, "caption"


def _share_of(text: str) -> float:
    """A share in percent. OwnerError for words and for what no share can be."""
    share = parse_measure(text, tr("Slow share"), "%")
    if not 0 <= share <= 100:
        raise OwnerError(
            tr(
                "Slow share: {share} % is no part of the nitrogen; enter 0 to 100.",
                share=plain(share),
            )
        )
    return share


def _budget_row(budget: NBudget) -> Row:
    fed = [tr(name) for name, lb in zip(MONTHS, budget.by_month, strict=True) if lb > 0]
    year = "–" if budget.year_lb is None else plain(budget.year_lb)
    cells = (budget.name, ", ".join(fed) or tr("none"), plain(sum(budget.by_month)), year)
    return Row(budget.id, cells, f"{budget.name}: {', '.join(cells[1:])}")
