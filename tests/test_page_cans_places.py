"""A catch test's cans placed on the sketch, each beside the computed map."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from lawnbook.charts.palette import DARK, LIGHT, Palette
from lawnbook.desk.can_draft import CanDraft
from lawnbook.desk.pages.cans import CansPanel
from lawnbook.desk.pages.cans_figures import (
    figures_of_test,
)
from lawnbook.desk.pages.page import tab_in_reading_order
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.widgets import name_control
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.records import CatchTest
from tests.cans_book import (
    PLACES,
    Zone,
    cans_book,
    cans_panel,
    caught_ml,
    kept,
    label,
    press,
    type_cans,
)
from tests.page_book import (
    click,
    out_of_reading_order,
    part,
    put_away,
    settle,
    type_into,
    unnamed,
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


def test_placed_cans_stand_beside_the_map_and_a_clogged_head_shows(
    panel: CansPanel, book: OpenNotebook, draft: CanDraft
) -> None:
    draft.take("front", PLACES)
    assert label(panel, "catch_tests_where").startswith("6 cans stand on the sketch")
    assert len(panel.rows.cells) == 6
    volumes = caught_ml(book)
    volumes[2] *= 0.3
    type_cans(panel, volumes)
    assert label(panel, "catch_tests_flags") == (
        "Can 3 caught 0.30 of what the heads near it should give (the others about 1.00): look "
        "for a clogged or tilted head; the nearest stands 8 ft to the southeast."
    )
    said = panel.rows.cells[2].accessibleDescription()
    assert said.startswith("Can 3, caught ")
    assert said.endswith("0.30 of the map")
    assert panel.rows.cells[0].accessibleDescription().endswith("1.00 of the map")
    click(panel, "catch_tests_keep")
    test = kept(book)
    assert test.at_ft == PLACES
    assert len(test.volumes_ml) == 6
    assert (draft.zone_id, draft.places) == ("", ())
    assert panel.rows.places == ()
    assert len(panel.rows.cells) == 6
    told = figures_of_test(book.notebook, test)
    assert told is not None
    assert [can.number for can in told.cans if can.clogged] == [3]


def test_a_placed_can_must_say_what_it_caught(
    panel: CansPanel, book: OpenNotebook, draft: CanDraft
) -> None:
    draft.take("front", PLACES[:3])
    type_into(panel, "catch_tests_run_minutes", "20")
    assert all(cell.property("state") in ("", None) for cell in panel.rows.cells)
    type_into(panel, "can_1", "40")
    type_into(panel, "can_3", "50")
    click(panel, "catch_tests_keep")
    assert "Can 2 says nothing" in label(panel, "catch_tests_form_problem")
    assert QApplication.focusWidget() is panel.rows.cells[1]
    press("0", Qt.Key.Key_Return)
    assert QApplication.focusWidget() is panel.rows.cells[2]
    press(Qt.Key.Key_Return)
    assert kept(book).volumes_ml == (40, 0, 50)


def test_a_can_outside_its_zone_is_asked_about(
    panel: CansPanel, book: OpenNotebook, draft: CanDraft
) -> None:
    draft.take("front", (*PLACES[:2], (90.0, 90.0)))
    type_cans(panel, [40.0, 50.0, 45.0])
    click(panel, "catch_tests_keep")
    assert "outside" in label(panel, "catch_tests_form_problem").lower()
    assert list(book.notebook.catch_tests) == ["c1"]
    press(Qt.Key.Key_Space)
    click(panel, "catch_tests_keep")
    assert kept(book).at_ft[2] == (90.0, 90.0)


def test_readings_without_a_can_are_told_and_not_lost_silently(
    panel: CansPanel, draft: CanDraft
) -> None:
    draft.take("front", PLACES[:3])
    panel.rows.focus(1)
    QApplication.clipboard().setText("11 12 13 14")
    QTest.keyClick(panel.rows.cells[1], Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert [cell.text() for cell in panel.rows.cells] == ["", "11", "12"]
    said = label(panel, "catch_tests_trouble")
    assert said.startswith("4 readings from can 2 on, and cans for 2 of them: 13 14 left out.")
    press("9")
    assert label(panel, "catch_tests_trouble") == ""


def test_what_is_typed_stays_with_its_can(panel: CansPanel, draft: CanDraft) -> None:
    draft.take("front", PLACES[:4])
    for number, text in enumerate(("10", "20", "30", "40"), 1):
        type_into(panel, f"can_{number}", text)
    draft.move(1, (21.0, 7.0))
    assert [cell.text() for cell in panel.rows.cells] == ["10", "20", "30", "40"]
    draft.remove(0)
    assert [cell.text() for cell in panel.rows.cells] == ["20", "30", "40"]
    draft.add((5.0, 5.0))
    assert [cell.text() for cell in panel.rows.cells] == ["20", "30", "40", ""]
    click(panel, "catch_tests_unplace")
    assert draft.places == ()
    assert [cell.text() for cell in panel.rows.cells][:4] == ["20", "30", "40", ""]
    assert not part(panel, QWidget, "catch_tests_unplace").isVisible()


def test_the_can_that_is_typed_into_is_in_hand_on_the_sketch(
    panel: CansPanel, draft: CanDraft
) -> None:
    draft.take("front", PLACES[:3])
    panel.rows.focus(1)
    assert draft.picked == 1
    press(Qt.Key.Key_Up)
    assert draft.picked == 0


def test_cans_of_another_zone_wait_for_it(panel: CansPanel, zone: Zone, draft: CanDraft) -> None:
    draft.take("side", ((55.0, 5.0), (60.0, 9.0)))
    assert panel.rows.places == ()
    assert "2 cans stand on the sketch in Side" in label(panel, "catch_tests_where")
    zone.id = "side"
    panel.clear()
    assert panel.rows.places == draft.places
    zone.id = "front"
    panel.clear()
    assert panel.rows.places == ()


def test_the_sketch_is_asked_for_and_takes_a_kept_test_s_cans(
    panel: CansPanel, book: OpenNotebook, draft: CanDraft
) -> None:
    test = CatchTest(
        id="placed",
        zone="front",
        date=date(2026, 6, 1),
        run_minutes=20,
        can_mouth_sqin=9,
        volumes_ml=(40, 50, 60.123456),
        at_ft=PLACES[:3],
    )
    book.edit(put(book.notebook, "catch_tests", test), "test")
    wanted = QSignalSpy(panel.place_wanted)
    click(panel, "catch_tests_place")
    assert (wanted.count(), draft.places) == (1, ())
    panel.open_record("placed")
    draft.take("front", PLACES[:2])
    assert panel.rows.places == PLACES[:3], "new cans on the sketch are not the kept test's"
    click(panel, "catch_tests_place")
    assert (wanted.count(), draft.places) == (2, PLACES[:3])
    draft.move(0, (7.0, 7.0))
    click(panel, "catch_tests_keep")
    changed = book.notebook.catch_tests["placed"]
    assert changed == replace(test, rank=changed.rank, at_ft=((7.0, 7.0), *PLACES[1:3]))
    assert draft.places == ()


def test_the_map_follows_the_heads(panel: CansPanel, book: OpenNotebook, draft: CanDraft) -> None:
    draft.take("front", PLACES)
    type_cans(panel, caught_ml(book))
    assert label(panel, "catch_tests_flags") == ""
    change = put(
        book.notebook,
        "heads",
        *(replace(each, flow_gpm=8) for each in book.notebook.heads.values()),
    )
    book.edit(change, "flows")
    assert label(panel, "catch_tests_flags").startswith("As a whole the cans caught 0.50 of")
    head = replace(book.notebook.heads["corner0"], flow_gpm=None)
    book.edit(put(book.notebook, "heads", head), "flow")
    assert label(panel, "catch_tests_flags") == ""
    assert "map" not in panel.rows.cells[0].accessibleDescription()


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=lambda each: each.name)
def test_a_clogged_can_s_bar_has_the_colour_of_warnings(
    qapp: QApplication, panel: CansPanel, book: OpenNotebook, draft: CanDraft, colours: Palette
) -> None:
    apply_theme(qapp, colours.name)
    draft.take("front", PLACES)
    volumes = caught_ml(book)
    volumes[2] *= 0.3
    type_cans(panel, volumes)
    settle()
    picture = panel.rows.grab().toImage()
    seen = {
        row: {
            picture.pixelColor(x, cell.geometry().center().y()).name()
            for x in range(300, picture.width())
        }
        for row, cell in enumerate(panel.rows.cells)
    }
    for row, found in seen.items():
        assert (QColor(colours.warn).name() in found) is (row == 2)
        assert (QColor(colours.accent).name() in found) is (row != 2)
        assert QColor(colours.ink).name() in found, "the map's tick"


def test_every_control_has_a_name_and_tab_goes_as_it_is_read(
    qapp: QApplication, book: OpenNotebook, draft: CanDraft
) -> None:
    apply_theme(qapp, "light")
    page = QWidget()
    above = QLineEdit(page)
    name_control(above, "above", "What stands above on the page")
    panel = CansPanel(book, lambda: "front", page)
    panel.use_draft(draft)
    panel.refresh()
    column = QVBoxLayout(page)
    column.addWidget(above)
    column.addWidget(panel)
    page.resize(620, 1200)
    page.show()
    draft.take("front", PLACES)
    panel.table.pick("c1")
    settle()
    tab_in_reading_order(page)
    assert unnamed(page) == []
    assert out_of_reading_order(page) == []
    put_away(page)
