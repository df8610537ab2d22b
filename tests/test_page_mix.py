"""Home-made mixes: rows typed by keys, what they hold told live, kept in one change, reopened."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPushButton, QWidget

from lawnbook.agronomy.units import L_PER_GAL
from lawnbook.desk.pages.feed_shelf import ShelfSection
from lawnbook.desk.pages.kitchen import (
    EXAMPLES,
    GAL_BY_UNIT,
    LB_BY_UNIT,
    UNITS,
    holds_of,
    is_volume,
    mix_sentence,
    pounds_of,
)
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Feeding, Ingredient, Product
from tests.page_book import (
    FEED_DAY,
    click,
    item_of,
    kept_open,
    kept_shown,
    out_of_reading_order,
    part,
    text_of,
    type_into,
    unnamed,
)

LISTS = {"products_list": "Products kept", "mix_list": "Mixes kept"}


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from kept_open(tmp_path, FEED_DAY)


@pytest.fixture
def shelf(qapp: QApplication, book: OpenNotebook) -> Iterator[ShelfSection]:
    made = ShelfSection(book)
    made.mix_fold.unfold()
    yield from kept_shown(qapp, made, lambda plan: made.show_plan(plan, "front"), book)


def choose_unit(shelf: ShelfSection, row: int, unit: str) -> None:
    """Choose a row's unit by keys."""
    box = part(shelf, QComboBox, f"mix_{row}_unit")
    box.setFocus()
    while box.currentData() != unit:
        down = box.currentIndex() < box.findData(unit)
        QTest.keyClick(box, Qt.Key.Key_Down if down else Qt.Key.Key_Up)


def the_mix(book: OpenNotebook) -> Product:
    """The only mix on the shelf."""
    (mix,) = [each for each in book.notebook.products.values() if each.ingredients]
    return mix


def names(shelf: ShelfSection) -> list[str]:
    """The ingredients' names, row by row."""
    return [row.name.text() for row in shelf.mixes.rows.rows]


def brew(shelf: ShelfSection) -> None:
    """Half a gallon of molasses of 0.9 % in 5 gallons of water."""
    type_into(shelf, "mix_name", "Tank brew")
    click(shelf, "mix_add_molasses")
    choose_unit(shelf, 1, "gal")
    type_into(shelf, "mix_1_amount", "1/2")
    click(shelf, "mix_add_water")
    type_into(shelf, "mix_2_amount", "5")


@pytest.mark.parametrize(
    ("unit", "factor"),
    # NIST Handbook 44, appendix C: 16 cups of 8 fl oz, each 2 tbsp of 3 tsp, are a gallon.
    [("gal", 1), ("cup", 16), ("fl oz", 128), ("tbsp", 256), ("tsp", 768), ("L", 3.785411784)],
)
def test_volumes_weigh_by_their_density(unit: str, factor: float) -> None:
    assert pounds_of(
        factor,
        unit,
        8.345,
    ) == pytest.approx(8.345)


def test_every_unit_offered_is_a_weight_or_a_volume() -> None:
    assert {each for each in UNITS if is_volume(each)} <= set(GAL_BY_UNIT)
    assert {each for each in UNITS if not is_volume(each)} <= set(LB_BY_UNIT)
    assert pounds_of(16, "oz", None) == 1
    assert pounds_of(453.59237, "g", None) == pytest.approx(1)
    assert pounds_of(1000 * L_PER_GAL, "mL", 10) == pytest.approx(10)
    with pytest.raises(KeyError):
        is_volume("pinch")
    with pytest.raises(ValueError, match="density"):
        pounds_of(1, "gal", None)


def test_what_a_mix_holds_is_told_with_zero_and_traces() -> None:
    water = Ingredient(name="Water", pounds=95)
    molasses = Ingredient(name="Molasses", pounds=5, n_pct=1, k2o_pct=5)
    # 5 lb of 1 % in 100 lb are 0.05 lb.
    said = mix_sentence((molasses, water))
    assert said.startswith("Molasses and water: 100 lb in all, 0.05-0-0.25.")
    assert "100 lb carry 0.05 lb of nitrogen, all quick" in said
    assert "carries no nitrogen, and counts as none" in mix_sentence((water,))
    assert mix_sentence(()) == ""
    assert mix_sentence((Ingredient(name="Air", pounds=0),)) == ""


def test_examples_say_that_they_are_to_be_checked() -> None:
    by_name = {each.ingredient.name: each for each in EXAMPLES}
    assert holds_of((by_name["Water"].ingredient,)).n_pct == 0
    assert by_name["Compost tea"].ingredient.n_pct == 0
    assert "tested" in by_name["Compost tea"].note
    # 2.5–9 % protein, 6.25 of it to one of nitrogen (Chapman 1965, University of Florida).
    assert 2.5 / 6.25 <= by_name["Molasses"].ingredient.n_pct <= 9 / 6.25
    assert all(each.note for each in EXAMPLES)


def test_a_mix_is_kept_by_what_its_parts_carry(shelf: ShelfSection, book: OpenNotebook) -> None:
    brew(shelf)
    # 6 lb of molasses in 47.725 lb: 0.9 % × 6 / 47.725 = 0.113 %.
    assert "100 lb carry 0.11 lb of nitrogen" in text_of(shelf, "mix_answer")
    click(shelf, "mix_keep")
    mix = the_mix(book)
    assert [(each.name, each.pounds) for each in mix.ingredients] == [
        ("Molasses", 6.0),
        ("Water", pytest.approx(41.725)),
    ]
    assert analysis_of(mix).n_pct == pytest.approx(0.9 * 6 / 47.725)
    assert mix.n_pct == analysis_of(mix).n_pct
    # 47.725 lb in 5.5 gal.
    assert mix.density_lb_per_gal == pytest.approx(47.725 / 5.5)
    assert book.undo_label == "keep mix Tank brew"
    assert text_of(shelf, "mix_1_name") == ""
    row = [item_of(shelf.products.table, 1, column).text() for column in range(3)]
    assert row == ["Tank brew", "liquid mix", "0.11-0-0.63"]
    book.undo()
    assert set(book.notebook.products) == {"blend"}


def test_a_mix_opened_from_the_list_is_changed_and_keeps_its_id(
    shelf: ShelfSection, book: OpenNotebook
) -> None:
    brew(shelf)
    click(shelf, "mix_keep")
    before = the_mix(book)
    shelf.mix_fold.unfold(False)
    shelf.pick(before.id)
    QTest.keyClick(shelf.products.table, Qt.Key.Key_Return)
    assert part(shelf, QLineEdit, "mix_name").isVisible()
    assert text_of(shelf, "products_name") == ""
    assert [text_of(shelf, f"mix_1_{each}") for each in ("name", "amount")] == ["Molasses", "6"]
    type_into(shelf, "mix_1_n", "0")
    assert "carries no nitrogen" in text_of(shelf, "mix_answer")
    click(shelf, "mix_keep")
    after = the_mix(book)
    assert (after.id, after.n_pct) == (before.id, 0)
    # What was not touched is kept to the last digit.
    assert after.ingredients[1] == before.ingredients[1]
    book.undo()
    assert the_mix(book) == before


def test_a_mix_in_the_form_follows_undo(shelf: ShelfSection, book: OpenNotebook) -> None:
    brew(shelf)
    click(shelf, "mix_keep")
    mix = the_mix(book)
    shelf.products.open_record(mix.id)
    assert names(shelf) == ["Molasses", "Water", ""]
    book.undo()
    assert names(shelf) == [""]
    assert text_of(shelf, "mix_name") == ""
    assert part(shelf, QPushButton, "mix_keep").text() == "Keep mix"
    book.redo()
    assert the_mix(book) == mix


def test_the_lists_are_spoken_as_what_they_hold(shelf: ShelfSection) -> None:
    spoken = {name: part(shelf, QWidget, name).accessibleName() for name in LISTS}
    assert spoken == LISTS


def test_rows_come_and_go_by_keys(shelf: ShelfSection) -> None:
    type_into(shelf, "mix_1_name", "Fish")
    assert names(shelf) == ["Fish", ""]
    name = part(shelf, QLineEdit, "mix_1_name")
    name.setFocus()
    QTest.keyClick(name, Qt.Key.Key_Return)
    second = part(shelf, QLineEdit, "mix_2_name")
    assert QApplication.focusWidget() is second
    QTest.keyClicks(second, "Kelp")
    assert names(shelf) == ["Fish", "Kelp", ""]
    amount = part(shelf, QLineEdit, "mix_1_amount")
    amount.setFocus()
    QTest.keyClick(amount, Qt.Key.Key_Delete, Qt.KeyboardModifier.ControlModifier)
    assert names(shelf) == ["Kelp", ""]
    assert QApplication.focusWidget() is shelf.mixes.rows.rows[0].name
    button = part(shelf, QPushButton, "mix_1_remove")
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)
    assert names(shelf) == [""]


def test_what_is_lacking_is_asked_quietly_and_refused_only_on_keeping(
    shelf: ShelfSection, book: OpenNotebook
) -> None:
    type_into(shelf, "mix_name", "Brew")
    click(shelf, "mix_keep")
    assert "A mix needs ingredients" in text_of(shelf, "mix_form_problem")
    type_into(shelf, "mix_1_name", "Fish")
    assert "say how much" in text_of(shelf, "mix_answer")
    assert part(shelf, QLineEdit, "mix_1_amount").property("state") != "refuse"
    type_into(shelf, "mix_1_amount", "2")
    choose_unit(shelf, 1, "cup")
    assert "cup is a volume" in text_of(shelf, "mix_answer")
    click(shelf, "mix_keep")
    assert "cup is a volume" in text_of(shelf, "mix_form_problem")
    assert part(shelf, QLineEdit, "mix_1_density").property("state") == "refuse"
    assert set(book.notebook.products) == {"blend"}


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("amount", "lots", "not a number"),
        ("amount", "-1", "below zero"),
        ("n", "120", "more than the whole"),
        ("slow", "3", "more than all its nitrogen"),
    ],
)
def test_wrong_figures_are_refused_in_place(
    shelf: ShelfSection, book: OpenNotebook, field: str, text: str, said: str
) -> None:
    type_into(shelf, "mix_name", "Brew")
    for name, value in {"name": "Fish", "amount": "2", "n": "2", field: text}.items():
        type_into(shelf, f"mix_1_{name}", value)
    assert said in text_of(shelf, "mix_answer")
    assert text_of(shelf, f"mix_1_{field}") == text
    assert part(shelf, QLineEdit, f"mix_1_{field}").property("state") == "refuse"
    click(shelf, "mix_keep")
    assert set(book.notebook.products) == {"blend"}
    type_into(shelf, f"mix_1_{field}", "1")
    assert said not in text_of(shelf, "mix_answer")
    click(shelf, "mix_keep")
    assert the_mix(book).name == "Brew"


def test_figures_of_a_part_may_be_typed_with_their_signs(
    shelf: ShelfSection, book: OpenNotebook
) -> None:
    assert "lb per\ngallon" in [label.text() for label in shelf.mixes.findChildren(QLabel)]
    type_into(shelf, "mix_name", "Brew")
    for name, value in {"name": "Fish", "amount": "2", "n": "2 %", "k2o": "1%"}.items():
        type_into(shelf, f"mix_1_{name}", value)
    click(shelf, "mix_keep")
    assert (the_mix(book).n_pct, the_mix(book).k2o_pct) == (2.0, 1.0)


def test_a_mix_in_use_is_not_taken_out(shelf: ShelfSection, book: OpenNotebook) -> None:
    brew(shelf)
    click(shelf, "mix_keep")
    mix = the_mix(book)
    spread = Feeding(id="f", date=FEED_DAY, product=mix.id, pounds={"front": 10.0})
    book.edit(put(book.notebook, "feedings", spread), "feeding")
    shelf.pick(mix.id)
    QTest.keyClick(shelf.products.table, Qt.Key.Key_Delete)
    assert "Tank brew was spread in a feeding" in text_of(shelf, "products_trouble")
    assert the_mix(book) is mix


def test_tab_reaches_new_rows_in_their_order(shelf: ShelfSection) -> None:
    brew(shelf)
    shelf.resize(620, 1400)
    QApplication.processEvents()
    assert unnamed(shelf) == []
    assert out_of_reading_order(shelf, 40) == []
