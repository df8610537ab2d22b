"""The guided catch test: typed by keys or as a list, asked about, kept, picked and changed."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QLineEdit,
    QWidget,
)

from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.pages.cans import CansPanel
from lawnbook.session.open_notebook import OpenNotebook
from tests.cans_book import (
    Zone,
    cans_book,
    cans_panel,
    choose,
    kept,
    label,
    press,
)
from tests.page_book import (
    WATER_DAY,
    click,
    item_of,
    part,
    text_of,
    type_into,
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[OpenNotebook]:
    yield from cans_book(tmp_path)


@pytest.fixture
def zone() -> Zone:
    return Zone()


@pytest.fixture
def draft() -> CanDraft:
    return CanDraft()


@pytest.fixture
def panel(
    qapp: QApplication, book: OpenNotebook, zone: Zone, draft: CanDraft
) -> Iterator[CansPanel]:
    yield from cans_panel(qapp, book, zone, draft)


def test_a_test_is_typed_by_keys_alone_and_answers_as_it_grows(
    panel: CansPanel, book: OpenNotebook
) -> None:
    """t(0.975, 2) is 4.303 in any table of Student's t (from memory).

    40, 50 and 60 mL in 15 min by 9 sq in: 1.356 in/h, half-width 4.303 × 10 / √3 mL, 0.674 in/h.
    """
    part(panel, QLineEdit, "catch_tests_date").setFocus()
    press(Qt.Key.Key_Tab, "15", Qt.Key.Key_Tab, "55", Qt.Key.Key_Tab, Qt.Key.Key_Tab)
    press(Qt.Key.Key_Tab, "9", Qt.Key.Key_Tab, "40")
    assert (
        label(panel, "catch_tests_answer") == "1 can: 1.08 in/h; evenness needs two cans or more."
    )
    press(Qt.Key.Key_Return, "50", Qt.Key.Key_Down, "60")
    assert label(panel, "catch_tests_answer") == (
        "3 cans: 1.36 in/h, between 0.68 and 2.03 with 95 % confidence."
    )
    assert "0.80 of the mean (DU), so 1.14 times" in label(panel, "catch_tests_evenness")
    assert "38 cans" not in label(panel, "catch_tests_enough")
    assert "2 to 8 cans" in label(panel, "catch_tests_enough")
    press(Qt.Key.Key_Up)
    assert QApplication.focusWidget() is panel.rows.cells[1]
    press("5", Qt.Key.Key_Down, Qt.Key.Key_Return)
    assert not [each for each in book.notebook.catch_tests if each != "c1"]
    press(Qt.Key.Key_Return)
    test = kept(book)
    assert (test.volumes_ml, test.run_minutes, test.pressure_psi) == ((40, 5, 60), 15, 55)
    assert (test.can_mouth_sqin, test.at_ft, test.date, test.zone) == (9, (), WATER_DAY, "front")
    assert [cell.text() for cell in panel.rows.cells] == [""] * 6


@pytest.mark.parametrize("text", ["12 14 9", "12, 14; 9", "12\n14\n9\n"])
def test_a_pasted_list_fills_the_rows(panel: CansPanel, text: str) -> None:
    panel.rows.focus(4)
    QApplication.clipboard().setText(text)
    QTest.keyClick(panel.rows.cells[4], Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert [cell.text() for cell in panel.rows.cells] == ["", "", "", "", "12", "14", "9", ""]
    assert QApplication.focusWidget() is panel.rows.cells[7]
    assert panel.rows.values() == (12, 14, 9)


def test_a_list_is_typed_with_blanks_from_can_to_can(panel: CansPanel) -> None:
    panel.rows.focus()
    press(" ")
    assert QApplication.focusWidget() is panel.rows.cells[0], "a blank alone is nothing"
    for key in "12 14 nine 8":
        press(key)
    assert [cell.text() for cell in panel.rows.cells[:5]] == ["12", "14", "nine", "8", ""]
    assert panel.rows.readable()[:4] == (12, 14, None, 8)


def test_a_list_of_inches_in_one_cell_is_spread_when_it_is_left(panel: CansPanel) -> None:
    choose(panel, "inches")
    type_into(panel, "can_1", "1 1/4 5/8 0.5")
    assert [cell.text() for cell in panel.rows.cells[:4]] == ["1.25", "0.625", "0.5", ""]
    assert panel.rows.values() == (1.25, 0.625, 0.5)


def test_rows_grow_as_the_last_one_is_used(panel: CansPanel) -> None:
    counts = [len(panel.rows.cells)]
    panel.rows.focus(5)
    press("7")
    counts.append(len(panel.rows.cells))
    assert counts == [6, 7]
    press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is panel.rows.cells[6]


def test_depths_by_ruler_need_no_mouth(panel: CansPanel, book: OpenNotebook) -> None:
    choose(panel, "inches")
    assert not part(panel, QWidget, "catch_tests_can_mouth_sqin").isVisible()
    assert not part(panel, QWidget, "catch_tests_width").isVisible()
    type_into(panel, "catch_tests_run_minutes", "20")
    type_into(panel, "can_1", "1/4")
    type_into(panel, "can_2", "6 mm")
    assert label(panel, "catch_tests_answer").startswith("2 cans: 0.73 in/h")
    click(panel, "catch_tests_keep")
    test = kept(book)
    assert test.depths_in == pytest.approx((0.25, 6 / 25.4))
    assert (test.volumes_ml, test.can_mouth_sqin) == ((), None)
    assert part(panel, QComboBox, "catch_tests_unit").currentData() == "in", "as the last was read"


@pytest.mark.parametrize(("across", "mouth"), [("3 1/2", "9.6211"), ("90 mm", "9.8607"), ("", "9")])
def test_the_width_of_a_round_can_gives_its_mouth(
    panel: CansPanel, across: str, mouth: str
) -> None:
    type_into(panel, "catch_tests_width", across)
    assert text_of(panel, "catch_tests_can_mouth_sqin") == mouth


def test_a_width_typed_for_a_missing_mouth_ends_the_complaint(panel: CansPanel) -> None:
    type_into(panel, "catch_tests_can_mouth_sqin", "")
    type_into(panel, "can_1", "40")
    click(panel, "catch_tests_keep")
    type_into(panel, "catch_tests_run_minutes", "15")
    said = "catch_tests_can_mouth_sqin_problem"
    assert "need the can mouth" in label(panel, said)
    type_into(panel, "catch_tests_width", "3")
    assert label(panel, said) == ""
    assert not part(panel, QWidget, said).isVisible()


def test_a_mouth_that_is_typed_shows_its_width(panel: CansPanel) -> None:
    assert text_of(panel, "catch_tests_can_mouth_sqin") == "9", "that of the test before"
    type_into(panel, "catch_tests_can_mouth_sqin", "12.566")
    assert text_of(panel, "catch_tests_width") == "4"
    field = type_into(panel, "catch_tests_width", "wide")
    assert field.property("state") == "refuse"
    assert text_of(panel, "catch_tests_can_mouth_sqin") == "12.566"


def test_what_is_missing_is_said(panel: CansPanel) -> None:
    type_into(panel, "can_1", "30")
    assert label(panel, "catch_tests_answer") == "Still needed: the minutes run."
    type_into(panel, "catch_tests_can_mouth_sqin", "")
    assert label(panel, "catch_tests_answer") == (
        "Still needed: the minutes run and the mouth of the cans."
    )
    type_into(panel, "catch_tests_can_mouth_sqin", "9")
    type_into(panel, "catch_tests_run_minutes", "10")
    for nonsense in ("0", "-4"):
        type_into(panel, "can_1", nonsense)
        assert label(panel, "catch_tests_answer").startswith("These figures give no rate")
    type_into(panel, "can_1", "")
    assert label(panel, "catch_tests_answer").startswith("Type what each can caught")


def test_one_can_is_kept_once_it_is_confirmed(panel: CansPanel, book: OpenNotebook) -> None:
    type_into(panel, "catch_tests_run_minutes", "10")
    type_into(panel, "can_1", "30")
    click(panel, "catch_tests_keep")
    assert "One can shows no evenness" in label(panel, "catch_tests_form_problem")
    assert not [each for each in book.notebook.catch_tests if each != "c1"]
    assert QApplication.focusWidget() is part(panel, QCheckBox, "catch_tests_form_keep")
    press(Qt.Key.Key_Space)
    click(panel, "catch_tests_keep")
    assert kept(book).volumes_ml == (30,)
    assert label(panel, "catch_tests_form_problem") == ""


def test_inches_that_are_millimetres_are_asked_about(panel: CansPanel, book: OpenNotebook) -> None:
    choose(panel, "inches")
    type_into(panel, "catch_tests_run_minutes", "20")
    type_into(panel, "can_1", "4 5")
    click(panel, "catch_tests_keep")
    assert "millimetres" in label(panel, "catch_tests_form_problem")
    assert not [each for each in book.notebook.catch_tests if each != "c1"]


def test_a_can_below_nothing_is_refused(panel: CansPanel, book: OpenNotebook) -> None:
    type_into(panel, "catch_tests_run_minutes", "20")
    panel.rows.focus()
    press("40", " ", "-5", " ", "50")
    click(panel, "catch_tests_keep")
    assert "-5" in label(panel, "catch_tests_form_problem").replace("−", "-")
    assert not [each for each in book.notebook.catch_tests if each != "c1"]


def test_a_word_among_the_cans_is_marked_and_has_the_keyboard(
    panel: CansPanel, book: OpenNotebook
) -> None:
    type_into(panel, "catch_tests_run_minutes", "20")
    type_into(panel, "can_1", "40")
    type_into(panel, "can_2", "some")
    click(panel, "catch_tests_keep")
    assert 'Can 2 "some" is not a number' in label(panel, "catch_tests_form_problem")
    assert QApplication.focusWidget() is panel.rows.cells[1]
    assert panel.rows.cells[1].property("state") == "refuse"
    press("44")
    assert panel.rows.cells[1].property("state") == ""
    click(panel, "catch_tests_keep")
    assert kept(book).volumes_ml == (40, 44)


def test_kept_tests_are_picked_changed_and_taken_out(panel: CansPanel, book: OpenNotebook) -> None:
    shown = [panel.kept_cans.isVisible()]
    panel.table.pick("c1")
    shown.append(panel.kept_cans.isVisible())
    assert label(panel, "kept_cans_title").startswith("1 May 2026, can by can. 4 cans: 0.92 in/h")
    cans = panel.kept_cans.table
    assert [item_of(cans, row, 2).text() for row in range(4)] == [
        "50 mL",
        "40 mL",
        "45 mL",
        "45 mL",
    ]
    assert cans.isColumnHidden(1), "no places"
    assert cans.isColumnHidden(5), "no map without places"
    click(panel, "catch_tests_edit")
    shown.append(panel.kept_cans.isVisible())
    assert [cell.text() for cell in panel.rows.cells] == ["50", "40", "45", "45", "", ""]
    type_into(panel, "can_2", "44")
    click(panel, "catch_tests_keep")
    assert list(book.notebook.catch_tests["c1"].volumes_ml) == [50, 44, 45, 45]
    shown.append(panel.kept_cans.isVisible())
    click(panel, "catch_tests_remove")
    assert "c1" not in book.notebook.catch_tests
    shown.append(panel.kept_cans.isVisible())
    assert shown == [False, True, False, True, False], "not while the test is in the form"
    book.undo()
    assert panel.summary() == "1 May 2026"
