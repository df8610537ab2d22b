"""The rules of feeding as the owner enters them: local rule, examples, budget, soil tests."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QLabel, QWidget

from lawnbook.agronomy.rule_cards import CARDS, RuleCard
from lawnbook.desk.pages.feed import FeedPage
from lawnbook.desk.pages.feed_rules_words import card_lines, example_name, filled_from, is_example
from lawnbook.plan.feed_budget import budget_of
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.check import check
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import NRules, Season, SoilTest
from tests.page_book import (
    FEED_DAY,
    click,
    kept_open,
    kept_shown,
    open_book,
    out_of_reading_order,
    page_notebook,
    part,
    settle,
    text_of,
    type_into,
    unnamed,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def page(qapp: QApplication, book: OpenNotebook) -> Iterator[FeedPage]:
    made = FeedPage(book)
    made.turn_to("Rules")
    for fold in made.rules.folds:
        fold.unfold()
    yield from kept_shown(qapp, made, made.show_plan, book)


def look_at(page: FeedPage, place: int) -> None:
    """Choose an example by keys; 0 chooses none."""
    box = part(page, QComboBox, "rule_example")
    box.setFocus()
    while box.currentIndex() != place:
        QTest.keyClick(box, Qt.Key.Key_Down if box.currentIndex() < place else Qt.Key.Key_Up)


@pytest.mark.parametrize("example", CARDS, ids=lambda card: card.source_key)
def test_every_example_fits_the_card_and_stays_marked(example: RuleCard) -> None:
    rules = filled_from(example, NRules(id="n_rules", rank=3, min_days=40, p_enough_ppm=20))
    notebook = apply(page_notebook(), put(page_notebook(), "n_rules", rules))
    assert check(rules, notebook, FEED_DAY) == ()
    assert is_example(rules)
    assert "may be out of date" in rules.name
    assert {name: getattr(rules, name) for name in example.figures} == dict(example.figures)
    assert len(card_lines(example)) == len(example.figures) + bool(example.blackouts)
    # Nothing of another rule stands under its name; how phosphate is taken is the owner's.
    if "min_days" not in example.figures:
        assert rules.min_days is None
    assert (rules.rank, rules.p_enough_ppm) == (3, example.figures.get("p_enough_ppm", 20))


def test_an_example_is_looked_at_before_it_is_filled_in(page: FeedPage, book: OpenNotebook) -> None:
    assert not part(page, QWidget, "rule_fill").isEnabled()
    before = book.notebook
    look_at(page, 1)
    said = text_of(page, "rule_example_words")
    card = CARDS[0]
    for words in (example_name(card), *card_lines(card), card.beyond, card.note, "Source: "):
        assert words in said
    assert book.notebook is before


def test_an_example_is_filled_in_as_one_change_and_says_so(
    page: FeedPage, book: OpenNotebook
) -> None:
    type_into(page, "limit_min_days", "40")
    look_at(page, 1)
    before = book.notebook.n_rules
    button = part(page, QWidget, "rule_fill")
    place = button.mapTo(page, QPoint(0, 0))
    click(page, "rule_fill")
    settle(50)
    assert button.mapTo(page, QPoint(0, 0)) == place
    assert book.undo_label == "rule from an example"
    assert book.notebook.n_rules == filled_from(CARDS[0], before)
    assert text_of(page, "limit_max_total_lb") == "0.9"
    assert text_of(page, "limit_blackouts") == "16 Nov to 29 Feb"
    assert text_of(page, "limit_min_days") == ""
    assert "may be out of date" in text_of(page, "rule_warning")
    assert not part(page, QWidget, "rule_fill").isEnabled()
    book.undo()
    assert book.notebook.n_rules == before
    assert text_of(page, "limit_min_days") == "40"
    assert text_of(page, "rule_warning") == ""


def test_a_rule_with_a_name_of_its_own_is_an_example_no_more(
    page: FeedPage, book: OpenNotebook
) -> None:
    look_at(page, 1)
    click(page, "rule_fill")
    type_into(page, "limit_name", "Our county, read in 2026")
    assert book.notebook.n_rules.name == "Our county, read in 2026"
    assert text_of(page, "rule_warning") == ""


def test_the_card_is_filled_in_by_hand(page: FeedPage, book: OpenNotebook) -> None:
    type_into(page, "limit_max_total_lb", "0.9")
    type_into(page, "limit_waterside_ft", "10")
    type_into(page, "limit_p_enough_ppm", "30")
    type_into(page, "limit_blackouts", "15 Nov to 1 Mar; 1 Jul to 15 Aug")
    click(page, "limit_phosphorus_needs_test")
    rules = book.notebook.n_rules
    assert (rules.max_total_lb, rules.waterside_ft, rules.p_enough_ppm) == (0.9, 10, 30)
    assert not rules.phosphorus_needs_test
    assert rules.blackouts == (
        Season(start="11-15", end="03-01"),
        Season(start="07-01", end="08-15"),
    )
    assert not part(page, QCheckBox, "limit_phosphorus_needs_test").isChecked()


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("limit_max_total_lb", "9"),
        ("limit_max_total_lb", "lots"),
        ("limit_min_days", "2.5"),
        ("limit_waterside_ft", "-1"),
        ("limit_blackouts", "winter"),
    ],
)
def test_a_limit_that_cannot_be_is_said_in_place_and_not_kept(
    page: FeedPage, book: OpenNotebook, name: str, text: str
) -> None:
    before = book.notebook
    type_into(page, name, text)
    settle(100)
    assert book.notebook is before
    assert text_of(page, name) == text
    assert part(page, QWidget, name).property("state") == "refuse"


def test_the_budget_follows_the_growth_when_asked(page: FeedPage, book: OpenNotebook) -> None:
    box = part(page, QComboBox, "feed_budget_spread")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    assert book.notebook.zones["front"].budget_spread == "growth"
    assert part(page, QLabel, "budget_spread_words").isHidden(), "temperatures are known"
    book.undo()
    assert box.currentText() == "table"


def test_a_spread_by_growth_without_temperatures_says_that_the_table_stands(
    page: FeedPage, book: OpenNotebook
) -> None:
    for month in tuple(book.notebook.climate):
        book.edit(remove(book.notebook, "climate", month), "no climate")
    told = part(page, QLabel, "budget_spread_words")
    assert told.isHidden()
    grown = replace(book.notebook.zones["front"], budget_spread="growth")
    book.edit(put(book.notebook, "zones", grown), "growth")
    settle()
    assert told.text() == budget_of(book.notebook, grown).reason
    assert told.text().startswith("The budget follows its table, not growth.")
    assert not told.isHidden()


def test_what_the_owner_must_know_is_explained_in_sight(page: FeedPage, book: OpenNotebook) -> None:
    """A blackout, and what was done with the thatch of a sample, in whole words."""
    words = " ".join(_labels(page.rules))
    assert "A blackout is a span of days on which nothing may be spread" in words
    assert "Phosphorus that is enough, ppm" in words
    assert "Thatch on the sample" in words
    box = part(page, QComboBox, "soil_tests_thatch")
    assert [box.itemText(n) for n in range(box.count())] == ["–", "taken off", "left on"]
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    type_into(page, "soil_tests_ph", "6.5")
    click(page, "soil_tests_keep")
    assert [each.thatch for each in book.notebook.soil_tests.values()] == ["off"]


def test_more_quick_than_all_nitrogen_at_once_is_asked(page: FeedPage, book: OpenNotebook) -> None:
    type_into(page, "limit_max_total_lb", "0.5")
    type_into(page, "limit_max_quick_lb", "0.7")
    QTest.keyClick(part(page, QWidget, "limit_max_quick_lb"), Qt.Key.Key_Tab)
    assert "is more than all nitrogen at once" in text_of(page, "limit_max_quick_lb_problem")
    assert book.notebook.n_rules.max_quick_lb is None
    part(page, QCheckBox, "limit_max_quick_lb_keep").click()
    assert book.notebook.n_rules.max_quick_lb == 0.7


def test_a_soil_test_of_the_picked_zone_is_kept_and_told(
    page: FeedPage, book: OpenNotebook
) -> None:
    page.select("zones", "side")
    type_into(page, "soil_tests_ph", "6.5")
    type_into(page, "soil_tests_p_ppm", "30")
    click(page, "soil_tests_keep")
    (kept,) = book.notebook.soil_tests.values()
    assert (kept.zone, kept.date, kept.ph, kept.p_ppm) == ("side", FEED_DAY, 6.5, 30)
    book.undo()
    assert not book.notebook.soil_tests


def test_a_soil_test_says_when_the_next_is_due(page: FeedPage, book: OpenNotebook) -> None:
    test = SoilTest(id="t1", date=date(2025, 4, 2), zone="front", ph=5.4, p_ppm=60.0)
    book.edit(put(book.notebook, "soil_tests", test), "soil test")
    settle()
    said = " ".join(label for label in _labels(part(page, QWidget, "soil_state")))
    assert "tested 2 Apr 2025; the next is due 2 Apr 2028" in said


def test_a_soil_test_that_cannot_be_is_refused_in_place(page: FeedPage, book: OpenNotebook) -> None:
    type_into(page, "soil_tests_ph", "65")
    click(page, "soil_tests_keep")
    assert not book.notebook.soil_tests
    assert part(page, QWidget, "soil_tests_ph").property("state") == "refuse"


def test_an_example_and_a_due_test_mark_the_section(qapp: QApplication, tmp_path: Path) -> None:
    old = SoilTest(id="t1", date=date(2020, 4, 2), zone="front", ph=6.4)
    notebook = page_notebook()
    for table, record in (
        ("soil_tests", old),
        ("n_rules", filled_from(CARDS[0], notebook.n_rules)),
    ):
        notebook = apply(notebook, put(notebook, table, record))
    book = open_book(tmp_path, FEED_DAY, notebook)
    made = FeedPage(book)
    for shown in kept_shown(qapp, made, made.show_plan, book):
        why = part(shown, QWidget, "feed_section_rules").accessibleDescription()
        assert "example" in why
        assert "a soil test is due" in why
    book.close()


def test_every_control_of_the_rules_has_a_name(page: FeedPage) -> None:
    assert unnamed(page) == []


def test_tab_goes_through_the_rules_as_they_are_read(page: FeedPage) -> None:
    page.resize(620, 3000)
    settle(100)
    assert out_of_reading_order(page) == []


def _labels(inside: QWidget) -> list[str]:
    return [label.text() for label in inside.findChildren(QLabel)]
