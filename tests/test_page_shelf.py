"""Products on the shelf, nitrogen tables of one's own, and limits, entered on the feed page."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox

from lawnbook.desk.pages.feed import FeedPage
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Season
from tests.page_book import (
    FEED_DAY,
    click,
    fed,
    kept_open,
    kept_shown,
    part,
    propose,
    text_of,
    type_into,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[FeedPage]:
    made = FeedPage(book)
    yield from kept_shown(qapp, made, made.show_plan, book)


def test_a_product_is_put_on_the_shelf_by_keys(page: FeedPage, book: OpenNotebook) -> None:
    page.shelf_fold.unfold()
    type_into(page, "products_name", "Lean mix")
    type_into(page, "products_n_pct", "10")
    type_into(page, "products_slow_n_pct", "12")
    assert "cannot be more" in text_of(page, "products_answer")
    click(page, "products_keep")
    assert len(book.notebook.products) == 1
    field = type_into(page, "products_slow_n_pct", "5")
    assert "50 % of its nitrogen is slow" in text_of(page, "products_answer")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Return)
    kept = [each for each in book.notebook.products.values() if each.name == "Lean mix"]
    assert [(each.n_pct, each.slow_n_pct) for each in kept] == [(10, 5)]
    assert part(page, QComboBox, "spread_product").findText("Lean mix") == 1


def test_a_product_in_use_is_not_taken_out(page: FeedPage, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "feedings", fed()), "feeding")
    page.shelf_fold.unfold()
    page.shelf.table.pick("blend")
    QTest.keyClick(page.shelf.table, Qt.Key.Key_Delete)
    assert "blend" in book.notebook.products
    assert "Blend was spread in a feeding" in text_of(page, "products_trouble")


def test_a_table_of_one_s_own_is_entered_chosen_and_used(
    page: FeedPage, book: OpenNotebook
) -> None:
    page.tables_fold.unfold()
    page.zone_fold.unfold()
    type_into(page, "n_budgets_name", "Lean autumn")
    type_into(page, "budget_month_9", "0.4")
    type_into(page, "budget_month_10", "x")
    assert "Oct" in text_of(page, "n_budgets_answer")
    click(page, "n_budgets_keep")
    assert not book.notebook.n_budgets
    type_into(page, "budget_month_10", "0.3")
    assert text_of(page, "n_budgets_answer").startswith("The months sum to 0.7 lb")
    click(page, "n_budgets_keep")
    (table,) = book.notebook.n_budgets.values()
    assert table.by_month[8:10] == (0.4, 0.3)
    assert text_of(page, "budget_month_9") == "0"
    box = part(page, QComboBox, "feed_budget")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    assert book.notebook.zones["front"].budget == table.id
    propose(page, "0.5")
    assert text_of(page, "spread_verdict").startswith("Not within budget")


def test_a_kept_table_comes_back_with_its_months(page: FeedPage, book: OpenNotebook) -> None:
    page.tables_fold.unfold()
    type_into(page, "n_budgets_name", "Own")
    type_into(page, "budget_month_5", "0.25")
    click(page, "n_budgets_keep")
    (table,) = book.notebook.n_budgets.values()
    page.budgets.panel.table.pick(table.id)
    QTest.keyClick(page.budgets.panel.table, Qt.Key.Key_Return)
    assert text_of(page, "budget_month_5") == "0.25"
    type_into(page, "budget_month_5", "0.5")
    click(page, "n_budgets_keep")
    assert book.notebook.n_budgets[table.id].by_month[4] == 0.5


def test_a_blackout_of_one_s_own_stops_the_day(page: FeedPage, book: OpenNotebook) -> None:
    page.rules_fold.unfold()
    type_into(page, "limit_blackouts", "1 Sep to 20 Sep")
    assert book.notebook.n_rules.blackouts == (Season(start="09-01", end="09-20"),)
    propose(page, "0.5")
    assert "It passes from 21 Sep 2026" in text_of(page, "spread_verdict")


def test_limits_are_kept_field_by_field(page: FeedPage, book: OpenNotebook) -> None:
    page.rules_fold.unfold()
    type_into(page, "limit_max_total_lb", "0.9")
    type_into(page, "limit_min_slow_pct", "20")
    rules = book.notebook.n_rules
    assert (rules.max_total_lb, rules.min_slow_pct) == (0.9, 20)


@pytest.mark.parametrize("n_pct", ["1000", "1e9", "-5", "nan", "lots"])
def test_a_nitrogen_figure_that_cannot_be_is_refused_under_its_field(
    page: FeedPage, book: OpenNotebook, n_pct: str
) -> None:
    before = book.notebook
    page.shelf_fold.unfold()
    type_into(page, "products_name", "Odd")
    type_into(page, "products_n_pct", n_pct)
    click(page, "products_keep")
    assert text_of(page, "products_n_pct_problem")
    assert text_of(page, "products_n_pct") == n_pct
    assert book.notebook is before


def test_the_slow_part_may_be_typed_as_a_share_of_the_nitrogen(
    page: FeedPage, book: OpenNotebook
) -> None:
    page.shelf_fold.unfold()
    type_into(page, "products_name", "Half slow")
    # The share may come before the nitrogen it is a share of.
    type_into(page, "products_slow_share", "50")
    type_into(page, "products_n_pct", "30")
    assert text_of(page, "products_slow_n_pct") == "15"
    type_into(page, "products_n_pct", "20")
    assert text_of(page, "products_slow_n_pct") == "10"
    assert text_of(page, "products_slow_share") == "50"
    type_into(page, "products_slow_n_pct", "5")
    assert text_of(page, "products_slow_share") == "25"
    type_into(page, "products_n_pct", "25")
    assert text_of(page, "products_slow_share") == "20"
    field = type_into(page, "products_slow_share", "64")
    QTest.keyClick(field, Qt.Key.Key_Return)
    (kept,) = [each for each in book.notebook.products.values() if each.name == "Half slow"]
    assert (kept.n_pct, kept.slow_n_pct) == (25, 16)
    assert text_of(page, "products_slow_share") == ""


@pytest.mark.parametrize("share", ["101", "-1", "half"])
def test_a_share_that_is_none_is_refused_and_changes_nothing(
    page: FeedPage, book: OpenNotebook, share: str
) -> None:
    before = book.notebook
    page.shelf_fold.unfold()
    type_into(page, "products_name", "Odd")
    type_into(page, "products_n_pct", "20")
    type_into(page, "products_slow_share", share)
    assert "Slow share" in text_of(page, "products_answer")
    assert text_of(page, "products_slow_share") == share
    assert text_of(page, "products_slow_n_pct") == "0"
    click(page, "products_keep")
    assert book.notebook is before


def test_a_kept_product_comes_back_with_its_share(page: FeedPage) -> None:
    page.shelf_fold.unfold()
    page.shelf.table.pick("blend")
    QTest.keyClick(page.shelf.table, Qt.Key.Key_Return)
    # 14.4 of 24 % is 60 % (UC IPM's ratio of the label).
    assert text_of(page, "products_slow_share") == "60"


def test_the_published_table_is_the_start_of_one_s_own(page: FeedPage, book: OpenNotebook) -> None:
    page.tables_fold.unfold()
    click(page, "budget_start")
    # Virginia DCR's cool-season months at their upper ends: May 0.5, Sep to Nov 0.9.
    assert [text_of(page, f"budget_month_{month}") for month in (4, 5, 9, 10, 11)] == [
        "0",
        "0.5",
        "0.9",
        "0.9",
        "0.9",
    ]
    type_into(page, "budget_month_9", "0.6")
    click(page, "n_budgets_keep")
    (table,) = book.notebook.n_budgets.values()
    assert (table.name, table.by_month[8], table.year_lb) == ("cool season, full, my own", 0.6, 3.5)
