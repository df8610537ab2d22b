"""What the owner enters for feeding: products on the shelf, and nitrogen tables of one's own."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lawnbook.agronomy.nitrogen import slow_share
from lawnbook.desk.pages.entry_panel import Answer, EntryPanel, EntrySetting
from lawnbook.desk.pages.feed_words import slow_sentence
from lawnbook.desk.pages.months_field import MonthsField
from lawnbook.desk.pages.record_table import Row
from lawnbook.desk.pages.zone_settings import Group
from lawnbook.desk.widgets import Caption
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import MONTHS, plain
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import NBudget, Product

FEED_GROUPS = (
    Group("", ("budget", "budget_level", "annual_n_lb_per_1000", "clippings", "mow_height_in")),
)
RULE_FIELDS = (
    "max_total_lb",
    "max_quick_lb",
    "year_lb",
    "min_slow_pct",
    "min_days",
    "blackouts",
)
NO_MONTHS = (0.0,) * 12


def product_setting(book: OpenNotebook) -> EntrySetting:
    """The entry of products by their labels."""

    def rows() -> Sequence[Row]:
        return [_product_row(each) for each in book.notebook.products.values()]

    return EntrySetting(
        table="products",
        noun="product",
        names=(
            "name",
            "form",
            "n_pct",
            "p2o5_pct",
            "k2o_pct",
            "bag_lb",
            "slow_n_pct",
            "slow_sources",
            "release_weeks",
            "price",
            "density_lb_per_gal",
            "jug_gal",
        ),
        heads=("Product", "Analysis", "Slow share of N", "Package"),
        rows=rows,
        title=lambda each: each.name,
        answer=_slow_answer,
        empty="Nothing on the shelf yet. Copy the numbers from the label.",
        columns=4,
        spans={"name": 3, "slow_n_pct": 2, "slow_sources": 2, "release_weeks": 1},
    )


class BudgetPanel(QWidget):
    """The owner's own nitrogen tables: name, twelve months, and the year's cap."""

    def __init__(self, book: OpenNotebook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.months = MonthsField("budget_", "Budget, lb per 1,000 sq ft", self)
        self.months.put_values(NO_MONTHS)
        self.panel = EntryPanel(book, self._setting(), self)
        self.panel.body.insertWidget(1, Caption("lb N per 1,000 sq ft, month by month"))
        self.panel.body.insertWidget(2, self.months)
        self.panel.opened.connect(self._opened)
        self.months.edited.connect(self.panel.examine)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.panel)

    def _setting(self) -> EntrySetting:
        return EntrySetting(
            table="n_budgets",
            noun="table",
            names=("name", "year_lb"),
            heads=("Table", "Months fed", "Sum", "Year"),
            rows=lambda: [_budget_row(each) for each in self._book.notebook.n_budgets.values()],
            title=lambda each: each.name,
            given=lambda: {"by_month": NO_MONTHS},
            answer=self._sum,
            complete=lambda each: replace(each, by_month=self.months.values()),
            empty="None of your own: each zone takes the table of its grass and species.",
            words_columns=(0, 1),
            columns=2,
        )

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
        words = f"The months sum to {plain(total)} lb N per 1,000 sq ft."
        if cap is not None and cap < total:
            return f"{words} The year's {plain(cap)} binds before that.", "caption"
        return words, "caption"


def _slow_answer(values: Mapping[str, Any]) -> Answer:
    n_pct, slow_n_pct = values.get("n_pct"), values.get("slow_n_pct")
    if n_pct is None or slow_n_pct is None:
        return "", "caption"
    if n_pct == 0 == slow_n_pct:
        return "Copy the label's numbers: the slow share of the nitrogen follows.", "caption"
    wrong = slow_n_pct > n_pct > 0
    return slow_sentence(n_pct, slow_n_pct), "refuse" if wrong else "caption"


def _product_row(product: Product) -> Row:
    analysis = "-".join(plain(each) for each in (product.n_pct, product.p2o5_pct, product.k2o_pct))
    sound = 0 < product.n_pct >= product.slow_n_pct
    slow = f"{100 * slow_share(product.slow_n_pct, product.n_pct):.0f} %" if sound else "–"
    sizes = [
        *([f"{plain(product.bag_lb)} lb"] if product.bag_lb else []),
        *([f"{plain(product.jug_gal)} gal"] if product.jug_gal else []),
    ]
    cells = (product.name, analysis, slow, ", ".join(sizes) or "–")
    return Row(product.id, cells, f"{product.name}: {', '.join(cells[1:])}")


def _budget_row(budget: NBudget) -> Row:
    fed = [name for name, lb in zip(MONTHS, budget.by_month, strict=True) if lb > 0]
    year = "–" if budget.year_lb is None else plain(budget.year_lb)
    cells = (budget.name, ", ".join(fed) or "none", plain(sum(budget.by_month)), year)
    return Row(budget.id, cells, f"{budget.name}: {', '.join(cells[1:])}")
