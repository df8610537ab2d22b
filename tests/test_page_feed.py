"""The feed page: the check before spreading, what it records, and the shelf behind it."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QLineEdit, QWidget

from lawnbook.desk.pages.feed import FeedPage
from lawnbook.desk.pages.feed_words import (
    binding_lines,
    chart_words,
    idle_sentence,
    ledger_row,
    limits_summary,
    most_words,
    pounds_words,
    slow_sentence,
    standing_sentence,
)
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import BindingRule
from lawnbook.plan.spread import check_spread, share_by_area
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feeding, NRules, Product, Season
from tests.page_book import (
    click,
    follow,
    item_of,
    open_book,
    page_notebook,
    part,
    put_away,
    settle,
    type_into,
    unnamed,
)
from tests.small_book import in_child

ON = date(2026, 9, 10)
"""September takes 0.5 to 0.9 lb in the cool-season table (Virginia DCR); the zones take all."""


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    opened = open_book(tmp_path, ON)
    yield opened
    opened.close()


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[FeedPage]:
    apply_theme(qapp, "light")
    made = FeedPage(book)
    made.resize(620, 900)
    follow(book, made.show_plan, ON)
    made.show()
    settle(200)
    yield made
    put_away(made)


def text_of(page: QWidget, name: str) -> str:
    return str(part(page, QWidget, name).property("text"))


def propose(page: FeedPage, amount: str, mode: str = "rate") -> None:
    """Type how much is to be spread, and wait for the verdict as a person would."""
    box = part(page, QComboBox, "spread_mode")
    wanted = box.findData(mode)
    box.setFocus()
    while box.currentIndex() != wanted:
        step = Qt.Key.Key_Down if box.currentIndex() < wanted else Qt.Key.Key_Up
        QTest.keyClick(box, step)
    type_into(page, "spread_amount", amount)
    page.spread.examine()


def feeding(notebook: Notebook, pounds: float = 2.5, on: date = ON) -> Feeding:
    return Feeding(id="f1", date=on, product="blend", pounds=MappingProxyType({"front": pounds}))


# Words


@pytest.mark.parametrize(
    ("n_pct", "slow", "said"),
    [
        # A 24-0-8 with 15 % slow: 62.5 % of its nitrogen is slow (UC IPM's ratio of the label).
        (24.0, 15.0, "9 % quick and 15 % slow, both of the product: 62 % of its nitrogen is slow."),
        (21.0, 0.0, "21 % quick and 0 % slow, both of the product: 0 % of its nitrogen is slow."),
        (0.0, 0.0, "This product carries no nitrogen."),
    ],
)
def test_the_slow_part_is_told_both_ways(n_pct: float, slow: float, said: str) -> None:
    assert slow_sentence(n_pct, slow) == said


def test_more_slow_than_all_is_a_mistake() -> None:
    assert "cannot be more than all of it" in slow_sentence(10, 12)


@pytest.mark.parametrize(
    ("pounds", "said"), [(2.91666, "2.9"), (2.99, "2.9"), (0.4567, "0.45"), (12.0, "12")]
)
def test_the_most_that_fits_is_never_rounded_up(pounds: float, said: str) -> None:
    assert pounds_words(pounds) == said


def test_where_a_zone_stands() -> None:
    september = make_plan(page_notebook(), ON).nitrogen[0]
    assert standing_sentence(september, ON) == (
        "Front: September has room for 0.90 lb N per 1,000 sq ft. Up to 3.7 lb of Blend today."
    )
    june = date(2026, 6, 15)
    summer = make_plan(page_notebook(), june).nitrogen[0]
    assert standing_sentence(summer, june) == (
        "Front: June takes no nitrogen. Next: 1 Sep 2026, 3.7 lb of Blend."
    )
    full = apply(page_notebook(), put(page_notebook(), "feedings", feeding(page_notebook(), 5)))
    # 5 lb of 24 % N on 1,000 sq ft is 1.2 lb N: 0.3 more than the month takes.
    over = make_plan(full, ON).nitrogen[0]
    assert "September is over by 0.30 lb N" in standing_sentence(over, ON)
    assert "1.20 of 3.50 lb N" in chart_words(over, 0.0, None)
    assert chart_words(over, 0.6, 9).endswith("Proposed for September: 0.60.")


def test_the_ledger_tells_the_rate_on_the_area_treated() -> None:
    notebook = page_notebook()
    both = Feeding(
        id="f1",
        date=ON,
        product="blend",
        pounds=MappingProxyType({"front": 2.5, "side": 1.25}),
        treated_area_sqft=MappingProxyType({"side": 250.0}),
    )
    row = ledger_row(notebook, both)
    # 2.5 lb × 24 % on 1,000 sq ft is 0.60; 1.25 lb on 250 of the strip's 500 sq ft is 1.20.
    assert row.cells == ("10 Sep 2026", "Blend", "all 2 zones", "3.75", "0.60 to 1.20")
    assert ledger_row(notebook, feeding(notebook)).cells[2:] == ("Front", "2.5", "0.60")


def test_a_rule_that_binds_everywhere_is_said_once() -> None:
    check = check_spread(page_notebook(), "blend", {"front": 9.0, "side": 9.0}, ON)
    lines = binding_lines(check, most=9)
    assert len(set(lines)) == len(lines)
    rule = BindingRule(
        rule="month", limit=0.7, value=1.0, source="a table", sentence="Too much.", broken=True
    )
    same = tuple(replace(each, binding=(rule,)) for each in check.zones)
    assert binding_lines(replace(check, zones=same)) == ("Too much. (a table)",)
    one = (replace(same[0], binding=(rule,)), replace(same[1], binding=()))
    assert binding_lines(replace(check, zones=one)) == ("Front: Too much. (a table)",)
    many = tuple(replace(rule, sentence=f"Rule {k}.") for k in range(7))
    long = binding_lines(replace(check, zones=(replace(same[0], binding=many),)))
    assert long[-1] == "and 2 more."


def test_no_room_is_told_as_none() -> None:
    check = check_spread(page_notebook(), "blend", {"front": 1.0}, date(2026, 7, 1))
    assert most_words(check.zones[0]) == "none"


def test_the_limits_in_short() -> None:
    rules = NRules(
        id="n_rules", max_total_lb=0.9, year_lb=3.2, blackouts=(Season(start="11-15", end="03-01"),)
    )
    assert limits_summary(rules) == "0.9 lb at once, 3.2 a year, 15 Nov to 1 Mar none"
    assert limits_summary(NRules(id="n_rules")) == "the usual ones"


def test_what_is_said_with_nothing_to_check() -> None:
    assert "Draw a zone" in idle_sentence(new_notebook("Bare"), "")
    assert idle_sentence(page_notebook(), "Room.") == "Room."


# The check before spreading


def test_the_most_that_fits_follows_the_area_treated() -> None:
    half = check_spread(page_notebook(), "blend", {"front": 1.0}, ON, {"front": 500.0}).zones[0]
    whole = check_spread(page_notebook(), "blend", {"front": 2.0}, ON).zones[0]
    assert half.n_lb_per_1000 == pytest.approx(whole.n_lb_per_1000) == pytest.approx(0.48)
    assert half.max_lb == pytest.approx(whole.max_lb / 2) == pytest.approx(0.9 / 0.24 / 2)
    assert share_by_area(page_notebook(), ("front", "side"), 3, {"front": 500.0}) == {
        "front": 1.5,
        "side": 1.5,
    }


@pytest.mark.parametrize("area", [0.0, -5.0, float("nan"), float("inf")])
def test_an_area_that_cannot_be_treated_is_refused(area: float) -> None:
    with pytest.raises(OwnerError, match="Area treated: Front"):
        check_spread(page_notebook(), "blend", {"front": 1.0}, ON, {"front": area})


def test_a_rate_becomes_pounds_and_a_verdict(page: FeedPage) -> None:
    propose(page, "0.6")
    # Product needed = 0.6 lb N ÷ 24 % on 1,000 sq ft (country extension's rule) = 2.5 lb.
    assert text_of(page, "zone_pounds_1") == "2.5"
    assert text_of(page, "spread_verdict") == "Within budget on 10 Sep 2026."
    row = page.spread.check
    assert row is not None
    assert row.zones[0].n_lb_per_1000 == pytest.approx(0.6)
    said = [label.text() for label in page.spread.shares.findChildren(QLabel) if label.isVisible()]
    assert (
        "Fits: 0.60 lb N per 1,000 sq ft, 0.24 of it quick; September then 0.60 of 0.90, "
        "the year 0.60 of 3.50." in said
    )


def test_a_feeding_is_recorded_with_its_area_and_can_be_undone(
    page: FeedPage, book: OpenNotebook
) -> None:
    propose(page, "0.6")
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert (kept.date, kept.product) == (ON, "blend")
    assert dict(kept.pounds) == pytest.approx({"front": 2.5})
    assert dict(kept.treated_area_sqft) == pytest.approx({"front": 1000})
    settle(200)
    assert text_of(page, "spread_done") == "Recorded: 2.5 lb on 10 Sep 2026."
    assert text_of(page, "spread_amount") == ""
    assert item_of(page.ledger, 0, 1).text() == "Blend"
    book.undo()
    assert not book.notebook.feedings
    assert page.ledger.rowCount() == 0


def test_over_the_budget_is_recorded_only_when_asked_twice(
    page: FeedPage, book: OpenNotebook
) -> None:
    propose(page, "0.95")
    assert text_of(page, "spread_verdict").startswith("Not within budget")
    click(page, "spread_record")
    assert not book.notebook.feedings
    assert text_of(page, "spread_record") == "Record it all the same"
    assert "only if it is already down" in text_of(page, "spread_note")
    click(page, "spread_record")
    assert len(book.notebook.feedings) == 1


def test_a_change_after_the_question_asks_again(page: FeedPage, book: OpenNotebook) -> None:
    propose(page, "0.95")
    click(page, "spread_record")
    type_into(page, "spread_amount", "0.98")
    page.spread.examine()
    assert text_of(page, "spread_record") == "Record this feeding"
    click(page, "spread_record")
    assert not book.notebook.feedings


def test_the_most_that_fits_is_filled_in_and_passes(page: FeedPage, book: OpenNotebook) -> None:
    click(page, "spread_all_zones")
    page.spread.examine()
    click(page, "spread_most")
    # September's 0.9 lb: 3.75 lb on 1,000 sq ft and half of it on 500.
    assert (text_of(page, "zone_pounds_1"), text_of(page, "zone_pounds_2")) == ("3.75", "1.88")
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.pounds) == pytest.approx({"front": 0.9 / 0.24, "side": 0.45 / 0.24})


def test_pounds_in_all_are_shared_by_area(page: FeedPage) -> None:
    click(page, "spread_all_zones")
    propose(page, "3", "pounds")
    assert (text_of(page, "zone_pounds_1"), text_of(page, "zone_pounds_2")) == ("2", "1")


def test_a_strip_left_out_is_out_of_the_rate(page: FeedPage, book: OpenNotebook) -> None:
    type_into(page, "zone_area_1", "500")
    propose(page, "0.6")
    assert text_of(page, "zone_pounds_1") == "1.25"
    click(page, "spread_record")
    (kept,) = book.notebook.feedings.values()
    assert dict(kept.treated_area_sqft) == {"front": 500}
    assert make_plan(book.notebook, ON).nitrogen[0].applied_year == pytest.approx(0.6)


def test_pounds_typed_for_a_zone_put_the_amount_aside(page: FeedPage) -> None:
    propose(page, "0.6")
    type_into(page, "zone_pounds_1", "2")
    page.spread.examine()
    assert text_of(page, "spread_amount") == ""
    check = page.spread.check
    assert check is not None
    assert check.zones[0].n_lb_per_1000 == pytest.approx(0.48)


def test_another_day_gives_another_verdict(page: FeedPage) -> None:
    propose(page, "0.6")
    type_into(page, "spread_day", "15 Jul 2026")
    page.spread.examine()
    assert "It passes from 1 Sep 2026" in text_of(page, "spread_verdict")


@pytest.mark.parametrize(
    ("name", "text"),
    [("spread_amount", "lots"), ("spread_day", "the ides"), ("zone_pounds_1", "1,5")],
)
def test_what_cannot_be_read_is_said_and_not_recorded(
    page: FeedPage, book: OpenNotebook, name: str, text: str
) -> None:
    type_into(page, name, text)
    settle(200)
    assert text_of(page, "spread_note")
    assert not part(page, QWidget, "spread_record").isEnabled()
    assert not book.notebook.feedings


def test_a_feeding_of_the_future_is_refused_in_words(page: FeedPage, book: OpenNotebook) -> None:
    type_into(page, "spread_day", "1 Oct 2026")
    propose(page, "0.5")
    click(page, "spread_record")
    assert "future" in text_of(page, "spread_note")
    assert not book.notebook.feedings


def test_the_zone_picked_is_ticked_until_something_is_typed(page: FeedPage) -> None:
    page.select("zones", "side")
    assert page.spread.shares.ticked() == ("side",)
    propose(page, "0.5")
    page.select("zones", "front")
    assert page.spread.shares.ticked() == ("side",)


# The ledger


def test_a_recorded_feeding_is_changed_without_counting_itself(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", feeding(book.notebook)), "feeding")
    page.ledger.setFocus()
    page.ledger.pick("f1")
    QTest.keyClick(page.ledger, Qt.Key.Key_Return)
    assert text_of(page, "zone_pounds_1") == "2.5"
    # 0.60 counted twice would be 1.20 of September's 0.90.
    assert text_of(page, "spread_verdict") == "Within budget on 10 Sep 2026."
    type_into(page, "zone_pounds_1", "2.75")
    page.spread.examine()
    assert text_of(page, "spread_record") == "Keep the changed feeding"
    click(page, "spread_record")
    assert dict(book.notebook.feedings["f1"].pounds) == {"front": 2.75}
    assert len(book.notebook.feedings) == 1
    assert text_of(page, "spread_record") == "Record this feeding"


def test_a_change_can_be_left(page: FeedPage, book: OpenNotebook) -> None:
    book.edit(put(book.notebook, "feedings", feeding(book.notebook)), "feeding")
    page.ledger.pick("f1")
    QTest.keyClick(page.ledger, Qt.Key.Key_Return)
    type_into(page, "zone_pounds_1", "1")
    click(page, "spread_leave")
    assert dict(book.notebook.feedings["f1"].pounds) == {"front": 2.5}
    assert text_of(page, "zone_pounds_1") == ""


def test_a_feeding_taken_out_while_it_is_changed_leaves_the_form_free(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", feeding(book.notebook)), "feeding")
    page.ledger.pick("f1")
    QTest.keyClick(page.ledger, Qt.Key.Key_Return)
    book.undo()
    assert text_of(page, "spread_record") == "Record this feeding"
    assert page.ledger.rowCount() == 0


def test_delete_takes_a_feeding_out_and_undo_brings_it_back(
    page: FeedPage, book: OpenNotebook
) -> None:
    book.edit(put(book.notebook, "feedings", feeding(book.notebook)), "feeding")
    page.ledger.setFocus()
    page.ledger.pick("f1")
    QTest.keyClick(page.ledger, Qt.Key.Key_Delete)
    assert not book.notebook.feedings
    assert book.undo_label == "take out feeding of 10 Sep 2026"
    book.undo()
    assert "f1" in book.notebook.feedings


# The year


def test_the_chart_is_drawn_named_and_shows_the_proposed_spread(page: FeedPage) -> None:
    propose(page, "0.6")
    settle(100)
    canvas = part(page, QWidget, "nitrogen_chart_canvas")
    assert canvas.accessibleName() == "Nitrogen month by month"
    assert canvas.accessibleDescription().endswith("Proposed for September: 0.60.")
    assert canvas.focusPolicy() & Qt.FocusPolicy.TabFocus
    picture = canvas.grab().toImage()
    colours = {picture.pixelColor(x, y).rgb() for x in range(0, 500, 3) for y in range(0, 240, 3)}
    assert len(colours) > 5, "the chart is blank"


def test_a_spread_in_another_year_is_no_ghost(page: FeedPage) -> None:
    type_into(page, "spread_day", "10 Sep 2025")
    propose(page, "0.6")
    settle(100)
    assert "Proposed" not in part(page, QWidget, "nitrogen_chart_canvas").accessibleDescription()


def test_matplotlib_waits_until_the_page_is_shown() -> None:
    done = in_child(
        """
        import sys, tempfile
        from datetime import date
        from pathlib import Path
        from PySide6.QtWidgets import QApplication
        from lawnbook.desk.pages.feed import FeedPage
        from lawnbook.plan.make import make_plan
        from tests.page_book import open_book

        app = QApplication([])
        book = open_book(Path(tempfile.mkdtemp()), date(2026, 9, 10))
        page = FeedPage(book)
        page.show_plan(make_plan(book.notebook, date(2026, 9, 10)))
        app.processEvents()
        print("matplotlib" in sys.modules)
        """
    )
    assert done.stdout.strip() == "False", done.stderr


# Shelf, budgets, limits


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
    book.edit(put(book.notebook, "feedings", feeding(book.notebook)), "feeding")
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


# The whole page


def test_the_picker_tells_and_select_does_not(page: FeedPage) -> None:
    told = QSignalSpy(page.selected)
    page.select("zones", "side")
    assert told.count() == 0
    page.picker.setFocus()
    QTest.keyClick(page.picker, Qt.Key.Key_Up)
    assert told.at(0) == ["zones", "front"]


def test_a_bare_yard_says_what_comes_first(qapp: QApplication, tmp_path: Path) -> None:
    apply_theme(qapp, "light")
    book = open_book(tmp_path, ON, new_notebook("Bare"))
    bare = FeedPage(book)
    follow(book, bare.show_plan, ON)
    bare.show()
    settle(200)
    assert "Draw a zone" in text_of(bare, "spread_verdict")
    assert not part(bare, QWidget, "spread_record").isEnabled()
    put_away(bare)
    book.close()


def test_a_product_without_nitrogen_has_no_rate(page: FeedPage, book: OpenNotebook) -> None:
    gypsum = Product(id="gypsum", name="Gypsum")
    book.edit(put(book.notebook, "products", gypsum), "product")
    box = part(page, QComboBox, "spread_product")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    assert not part(page, QWidget, "spread_most").isEnabled() or page.spread.check is None
    propose(page, "0.5")
    assert "carries no nitrogen" in text_of(page, "spread_note")
    propose(page, "10", "pounds")
    assert "carries no nitrogen" in text_of(page, "spread_verdict")


def test_every_control_has_a_name(page: FeedPage) -> None:
    for fold in (page.shelf_fold, page.zone_fold, page.tables_fold, page.rules_fold):
        fold.unfold()
    assert unnamed(page) == []
    assert page.findChildren(QLineEdit)
    assert page.findChildren(QCheckBox)
