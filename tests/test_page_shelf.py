"""The shelf: products by their labels, entered, told, picked and taken out; tables of one's own."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLineEdit, QWidget

from lawnbook.desk.pages.feed_records import BudgetPanel
from lawnbook.desk.pages.feed_shelf import ShelfSection
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from tests.page_book import (
    FEED_DAY,
    click,
    fed,
    item_of,
    kept_open,
    kept_shown,
    out_of_reading_order,
    part,
    text_of,
    type_into,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def shelf(qapp: QApplication, book: OpenNotebook) -> Iterator[ShelfSection]:
    made = ShelfSection(book)
    yield from kept_shown(qapp, made, lambda plan: made.show_plan(plan, "front"), book)


@pytest.fixture
def tables(qapp: QApplication, book: OpenNotebook) -> Iterator[BudgetPanel]:
    made = BudgetPanel(book)
    yield from kept_shown(qapp, made, lambda _: made.panel.refresh(), book)


def choose(shelf: QWidget, name: str, words: str) -> None:
    """Choose in a box by its words, as keys do."""
    box = part(shelf, QComboBox, name)
    wanted = box.findText(words)
    assert wanted >= 0, words
    box.setFocus()
    while box.currentIndex() != wanted:
        step = Qt.Key.Key_Down if box.currentIndex() < wanted else Qt.Key.Key_Up
        QTest.keyClick(box, step)


def cells(shelf: ShelfSection, row: int) -> list[str]:
    """A row of the list."""
    table = shelf.products.table
    return [item_of(table, row, column).text() for column in range(table.columnCount())]


def test_a_product_is_put_on_the_shelf_by_keys(shelf: ShelfSection, book: OpenNotebook) -> None:
    kept = QSignalSpy(shelf.kept)
    type_into(shelf, "products_name", "Lean mix")
    type_into(shelf, "products_n_pct", "10")
    type_into(shelf, "products_slow_n_pct", "12")
    assert "cannot be more" in text_of(shelf, "products_answer")
    click(shelf, "products_keep")
    assert len(book.notebook.products) == 1
    field = type_into(shelf, "products_slow_n_pct", "5")
    assert "50 % of its nitrogen is slow" in text_of(shelf, "products_answer")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Return)
    (made,) = [each for each in book.notebook.products.values() if each.name == "Lean mix"]
    assert (made.n_pct, made.slow_n_pct) == (10, 5)
    assert kept.at(0) == [made.id]
    book.undo()
    assert set(book.notebook.products) == {"blend"}
    book.redo()
    assert book.notebook.products[made.id] == made


def test_undo_says_what_was_done_to_which_product(shelf: ShelfSection, book: OpenNotebook) -> None:
    type_into(shelf, "products_name", "Slow 24")
    type_into(shelf, "products_n_pct", "24")
    click(shelf, "products_keep")
    assert book.undo_label == "keep product Slow 24"
    table = shelf.products.table
    (made,) = [each for each in book.notebook.products.values() if each.name == "Slow 24"]
    table.pick(made.id)
    QTest.keyClick(table, Qt.Key.Key_Return)
    type_into(shelf, "products_n_pct", "20")
    click(shelf, "products_keep")
    assert book.undo_label == "change product Slow 24"
    table.pick(made.id)
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert book.undo_label == "take out product Slow 24"


def test_a_percentage_may_be_typed_with_its_sign(shelf: ShelfSection, book: OpenNotebook) -> None:
    type_into(shelf, "products_name", "Signed")
    type_into(shelf, "products_n_pct", "20 %")
    type_into(shelf, "products_slow_share", "60 %")
    type_into(shelf, "products_bag_lb", "20 kg")
    click(shelf, "products_keep")
    (made,) = [each for each in book.notebook.products.values() if each.name == "Signed"]
    assert (made.n_pct, made.slow_n_pct) == (20.0, 12.0)
    assert made.bag_lb == pytest.approx(44.0925, rel=1e-5)


def test_another_kind_of_unit_is_refused_in_place(shelf: ShelfSection, book: OpenNotebook) -> None:
    type_into(shelf, "products_name", "Bagged")
    type_into(shelf, "products_bag_lb", "20 L")
    click(shelf, "products_keep")
    assert "a number in lb is meant" in text_of(shelf, "products_bag_lb_problem")
    assert set(book.notebook.products) == {"blend"}


def test_a_label_without_a_figure_is_asked_about(shelf: ShelfSection, book: OpenNotebook) -> None:
    type_into(shelf, "products_name", "Empty")
    click(shelf, "products_keep")
    assert set(book.notebook.products) == {"blend"}
    assert "Empty holds no nitrogen" in text_of(shelf, "products_n_pct_problem")
    part(shelf, QCheckBox, "products_n_pct_keep").click()
    click(shelf, "products_keep")
    assert [each.name for each in book.notebook.products.values()] == ["Blend", "Empty"]


def test_a_density_in_kg_per_litre_is_asked_about(shelf: ShelfSection, book: OpenNotebook) -> None:
    type_into(shelf, "products_name", "Jug")
    type_into(shelf, "products_n_pct", "12")
    choose(shelf, "products_form", "liquid")
    type_into(shelf, "products_density_lb_per_gal", "1.2")
    click(shelf, "products_keep")
    assert "if it was 1.2 kg/L, enter 10.01" in text_of(
        shelf, "products_density_lb_per_gal_problem"
    )
    assert set(book.notebook.products) == {"blend"}


def test_the_list_tells_analysis_slow_share_package_and_kind(
    shelf: ShelfSection, book: OpenNotebook
) -> None:
    assert cells(shelf, 0) == ["Blend", "granular", "24-0-0", "60\u00a0%", "40 lb"]
    starter = replace(book.notebook.products["blend"], id="s", name="Sod", starter=True)
    book.edit(put(book.notebook, "products", replace(starter, rank=1)), "Sod")
    assert cells(shelf, 1)[1] == "granular, starter"
    shelf.pick("s")
    assert shelf.products.table.picked_id() == "s"
    shelf.pick("gone")
    assert shelf.products.table.picked_id() == ""


def test_a_product_in_use_is_not_taken_out(shelf: ShelfSection, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "feedings", fed()), "feeding")
    shelf.pick("blend")
    QTest.keyClick(shelf.products.table, Qt.Key.Key_Delete)
    assert "blend" in book.notebook.products
    assert "Blend was spread in a feeding" in text_of(shelf, "products_trouble")
    book.undo()
    QTest.keyClick(shelf.products.table, Qt.Key.Key_Delete)
    assert not book.notebook.products


def test_the_kind_of_slow_source_tells_how_long_it_feeds(
    shelf: ShelfSection, book: OpenNotebook
) -> None:
    type_into(shelf, "products_name", "Methylene blend")
    type_into(shelf, "products_n_pct", "30")
    assert "Quick nitrogen feeds for about 2 weeks" in text_of(shelf, "products_about")
    type_into(shelf, "products_slow_n_pct", "15")
    weeks = part(shelf, QLineEdit, "products_release_weeks")
    # Of a source nobody knows, the middle of 8–10 weeks is assumed.
    assert weeks.placeholderText() == "9, assumed"
    choose(shelf, "products_slow_kind", "methylene urea")
    # 8–12 weeks, freed by microbes ("sportsturf-slow").
    assert "feeds for 8–12 weeks" in text_of(shelf, "products_about")
    assert "Microbes free it" in text_of(shelf, "products_about")
    assert weeks.placeholderText() == "10, assumed"
    starter = part(shelf, QCheckBox, "products_starter")
    starter.setFocus()
    QTest.keyClick(starter, Qt.Key.Key_Space)
    click(shelf, "products_keep")
    (kept,) = [each for each in book.notebook.products.values() if each.id != "blend"]
    assert (kept.slow_kind, kept.release_weeks, kept.starter) == ("methylene urea", None, True)


def test_the_label_s_words_name_the_source_too(shelf: ShelfSection) -> None:
    type_into(shelf, "products_n_pct", "30")
    type_into(shelf, "products_slow_n_pct", "15")
    type_into(shelf, "products_slow_sources", "polymer-coated urea")
    assert "Polymer-coated urea feeds for 8–16 weeks" in text_of(shelf, "products_about")


def test_a_form_shows_only_the_fields_that_apply_to_it(shelf: ShelfSection) -> None:
    bag, density = (
        part(shelf, QLineEdit, f"products_{each}") for each in ("bag_lb", "density_lb_per_gal")
    )
    assert (bag.isVisible(), density.isVisible()) == (True, False)
    choose(shelf, "products_form", "liquid")
    assert (bag.isVisible(), density.isVisible()) == (False, True)
    assert "A liquid without a density can be weighed" in text_of(shelf, "products_about")
    type_into(shelf, "products_density_lb_per_gal", "10.6")
    assert "density" not in text_of(shelf, "products_about")
    # What was typed is not lost from sight, and stays while it is being cleared.
    choose(shelf, "products_form", "granular")
    assert (bag.isVisible(), density.isVisible()) == (True, True)
    type_into(shelf, "products_density_lb_per_gal", "")
    assert density.isVisible()


@pytest.mark.parametrize(
    ("form", "package", "n_pct", "price", "said"),
    [
        # 40 lb of 24 % hold 9.6 lb: 24.00 / 9.6.
        ("granular", {"bag_lb": "40"}, "24", "24", "9.6 lb of nitrogen: a pound of it costs 2.50"),
        # 2.5 gal of 10 lb/gal at 20 % hold 5 lb: 40.00 / 5.
        (
            "liquid",
            {"jug_gal": "2.5", "density_lb_per_gal": "10"},
            "20",
            "40",
            "5 lb of nitrogen: a pound of it costs 8.00",
        ),
    ],
)
def test_the_price_of_a_pound_of_nitrogen_is_told(
    shelf: ShelfSection, form: str, package: dict[str, str], n_pct: str, price: str, said: str
) -> None:
    choose(shelf, "products_form", form)
    type_into(shelf, "products_n_pct", n_pct)
    type_into(shelf, "products_price", price)
    assert "costs" not in text_of(shelf, "products_answer")
    for name, text in package.items():
        type_into(shelf, f"products_{name}", text)
    assert said in text_of(shelf, "products_answer")


@pytest.mark.parametrize("n_pct", ["1000", "1e9", "-5", "nan", "lots"])
def test_a_nitrogen_figure_that_cannot_be_is_refused_under_its_field(
    shelf: ShelfSection, book: OpenNotebook, n_pct: str
) -> None:
    before = book.notebook
    type_into(shelf, "products_name", "Odd")
    type_into(shelf, "products_n_pct", n_pct)
    click(shelf, "products_keep")
    assert text_of(shelf, "products_n_pct_problem")
    assert text_of(shelf, "products_n_pct") == n_pct
    assert book.notebook is before


def test_the_slow_part_may_be_typed_as_a_share_of_the_nitrogen(
    shelf: ShelfSection, book: OpenNotebook
) -> None:
    type_into(shelf, "products_name", "Half slow")
    # The share may come before the nitrogen it is a share of.
    type_into(shelf, "products_slow_share", "50")
    type_into(shelf, "products_n_pct", "30")
    assert text_of(shelf, "products_slow_n_pct") == "15"
    type_into(shelf, "products_n_pct", "20")
    assert text_of(shelf, "products_slow_n_pct") == "10"
    assert text_of(shelf, "products_slow_share") == "50"
    type_into(shelf, "products_slow_n_pct", "5")
    assert text_of(shelf, "products_slow_share") == "25"
    type_into(shelf, "products_n_pct", "25")
    assert text_of(shelf, "products_slow_share") == "20"
    field = type_into(shelf, "products_slow_share", "64")
    QTest.keyClick(field, Qt.Key.Key_Return)
    (kept,) = [each for each in book.notebook.products.values() if each.name == "Half slow"]
    assert (kept.n_pct, kept.slow_n_pct) == (25, 16)
    assert text_of(shelf, "products_slow_share") == ""


@pytest.mark.parametrize("share", ["101", "-1", "half"])
def test_a_share_that_is_none_is_refused_and_changes_nothing(
    shelf: ShelfSection, book: OpenNotebook, share: str
) -> None:
    before = book.notebook
    type_into(shelf, "products_name", "Odd")
    type_into(shelf, "products_n_pct", "20")
    type_into(shelf, "products_slow_share", share)
    assert "Slow share" in text_of(shelf, "products_answer")
    assert text_of(shelf, "products_slow_share") == share
    assert text_of(shelf, "products_slow_n_pct") == "0"
    click(shelf, "products_keep")
    assert book.notebook is before


def test_a_kept_product_comes_back_with_its_share(shelf: ShelfSection) -> None:
    shelf.pick("blend")
    QTest.keyClick(shelf.products.table, Qt.Key.Key_Return)
    # 14.4 of 24 % is 60 % (UC IPM's ratio of the label).
    assert text_of(shelf, "products_slow_share") == "60"


def test_tab_goes_through_the_shelf_as_it_is_read(shelf: ShelfSection) -> None:
    shelf.mix_fold.unfold()
    shelf.resize(620, 1400)
    QApplication.processEvents()
    assert out_of_reading_order(shelf, 20) == []


def test_a_table_of_one_s_own_is_entered(tables: BudgetPanel, book: OpenNotebook) -> None:
    type_into(tables, "n_budgets_name", "Lean autumn")
    type_into(tables, "budget_month_9", "0.4")
    type_into(tables, "budget_month_10", "x")
    assert "Oct" in text_of(tables, "n_budgets_answer")
    click(tables, "n_budgets_keep")
    assert not book.notebook.n_budgets
    type_into(tables, "budget_month_10", "0.3")
    assert text_of(tables, "n_budgets_answer").startswith("The months sum to 0.7 lb")
    click(tables, "n_budgets_keep")
    (table,) = book.notebook.n_budgets.values()
    assert table.by_month[8:10] == (0.4, 0.3)
    assert text_of(tables, "budget_month_9") == "0"


def test_a_month_that_cannot_be_is_named(tables: BudgetPanel, book: OpenNotebook) -> None:
    type_into(tables, "n_budgets_name", "Wild")
    type_into(tables, "budget_month_3", "7")
    click(tables, "n_budgets_keep")
    assert not book.notebook.n_budgets
    assert "Budget by month, Mar, of 7 lb" in text_of(tables, "n_budgets_form_problem")


def test_a_kept_table_comes_back_with_its_months(tables: BudgetPanel, book: OpenNotebook) -> None:
    type_into(tables, "n_budgets_name", "Own")
    type_into(tables, "budget_month_5", "0.25")
    click(tables, "n_budgets_keep")
    (table,) = book.notebook.n_budgets.values()
    tables.panel.table.pick(table.id)
    QTest.keyClick(tables.panel.table, Qt.Key.Key_Return)
    assert text_of(tables, "budget_month_5") == "0.25"
    type_into(tables, "budget_month_5", "0.5")
    click(tables, "n_budgets_keep")
    assert book.notebook.n_budgets[table.id].by_month[4] == 0.5


def test_the_published_table_is_the_start_of_one_s_own(
    tables: BudgetPanel, book: OpenNotebook
) -> None:
    tables.offer_start(make_plan(book.notebook, FEED_DAY).nitrogen[0])
    click(tables, "budget_start")
    # Virginia DCR's cool-season months at their upper ends: May 0.5, Sep to Nov 0.9.
    assert [text_of(tables, f"budget_month_{month}") for month in (4, 5, 9, 10, 11)] == [
        "0",
        "0.5",
        "0.9",
        "0.9",
        "0.9",
    ]
    type_into(tables, "budget_month_9", "0.6")
    click(tables, "n_budgets_keep")
    (table,) = book.notebook.n_budgets.values()
    assert (table.name, table.by_month[8], table.year_lb) == ("cool season, full, my own", 0.6, 3.5)
