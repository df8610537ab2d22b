"""The Shapes section, driven by keys and mouse: list, corners, places, operations, typed forms."""

import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QMenu, QPushButton

from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_shapes import ShapesSection
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft, zone_area_sqft
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import Zone
from tests.conftest import TODAY
from tests.desk_hand import press
from tests.page_book import click, part, put_away, settle, text_of, type_into, unnamed
from tests.sketch_hand import sketch_yard

FRONT, BACK = ("zones", "front"), ("zones", "back")
K = Qt.Key


def keys_of(desk: "Desk") -> list[tuple[str, str]]:
    """What is chosen on the sketch."""
    return list(desk.control.chosen_keys)


class Desk:
    """A window turned to the Shapes section."""

    def __init__(self, window: BookWindow) -> None:
        self.window, self.book = window, window.book
        window.turn_to("Yard")
        page = window.page("Yard")
        assert isinstance(page, YardPage)
        self.page = page
        page.turn_to("Shapes")
        found = page.findChild(ShapesSection)
        assert isinstance(found, ShapesSection)
        self.section = found
        self.control = window.sketch.control
        settle()

    def zone(self, record_id: str) -> Zone:
        """A zone as it is kept."""
        return self.book.notebook.zones[record_id]

    def at(self, row: int, column: int) -> QModelIndex:
        """A cell of the table of corners."""
        table = self.section.chosen.corners.table
        index = table.model().index(row, column)
        table.setFocus()
        table.setCurrentIndex(index)
        return index

    def retype(self, row: int, column: int, text: str, end: Qt.Key = K.Key_Return) -> None:
        """Type over a cell of the table of corners."""
        self.at(row, column)
        self.type(text, end)

    def type(self, text: str, end: Qt.Key) -> None:
        """Type letter by letter: the first one opens a field, which takes the others."""
        for each in (*text, end):
            press(each)
            settle()

    def said(self) -> str:
        """The words under the sketch."""
        return text_of(self.window, "sketch_words")


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[Desk]:
    """The sketch yard in a window, with a zone that has a hole."""
    apply_theme(qapp, "light")
    hole = rectangle_ft((105.0, 5.0), 4.0, 4.0)
    outline = rectangle_ft((100.0, 0.0), 30.0, 20.0)
    ringed = Zone(id="ringed", name="Ringed", outline_ft=outline, holes_ft=(hole,))
    notebook = apply(sketch_yard(), put(sketch_yard(), "zones", ringed))
    book = OpenNotebook.create(tmp_path / "shapes.lawnbook", notebook, TODAY)
    window = BookWindow(book, Settings(tmp_path / "desk.ini"))
    window.resize(1440, 900)
    window.show()
    window.activateWindow()
    settle()
    yield Desk(window)
    put_away(window)


def test_the_list_and_the_sketch_choose_alike(desk: Desk) -> None:
    desk.section.list.setFocus()
    press(K.Key_Home)
    assert keys_of(desk) == [FRONT]
    QTest.keyClick(desk.section.list, K.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert keys_of(desk) == [FRONT, BACK]
    assert text_of(desk.page, "shapes_chosen") == "Front, and 1 other"
    assert "1,200 sq ft together" in text_of(desk.page, "shapes_facts")
    desk.control.choose_all((("features", "house"),))
    assert desk.section.list.chosen_keys() == (("features", "house"),)
    assert desk.window.place == "Yard"


def test_what_was_chosen_first_stays_first(desk: Desk) -> None:
    desk.control.choose_all((BACK,))
    desk.section.list.setFocus()
    QTest.keyClick(desk.section.list, K.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert desk.control.chosen_keys == (BACK, FRONT)


def test_without_a_shape_or_a_choice_it_says_what_to_do(desk: Desk) -> None:
    assert text_of(desk.page, "shapes_chosen") == "Nothing is chosen"
    assert text_of(desk.page, "shapes_facts").startswith("Choose from the list")
    assert desk.section.list.isVisible()
    assert "Delete" in text_of(desk.page, "shapes_list_help")
    nb = desk.book.notebook
    everything = {
        (table, each): (record, None)
        for table in ("catch_tests", "heads", "spots", "features", "zones")
        for each, record in getattr(nb, table).items()
    }
    desk.book.edit(everything, "clear the sketch")
    settle()
    assert not desk.section.list.isVisible()
    assert text_of(desk.page, "shapes_list_help").startswith("Nothing is drawn yet")


def test_enter_goes_to_the_name_and_delete_takes_away(desk: Desk) -> None:
    desk.section.list.setFocus()
    press(K.Key_Home, K.Key_Return)
    focus = QApplication.focusWidget()
    assert focus is not None
    assert focus.objectName() == "sketch_zone_name"
    desk.section.list.setFocus()
    press(K.Key_Delete)
    assert "front" not in desk.book.notebook.zones


def test_the_list_can_be_of_one_kind(desk: Desk) -> None:
    model = desk.section.list.model()
    assert model.rowCount() == 6
    box = desk.section.findChild(QComboBox, "shapes_kind")
    assert box is not None
    box.setFocus()
    press(K.Key_Down)
    assert model.rowCount() == 3
    assert model.index(2, 0).data(Qt.ItemDataRole.AccessibleTextRole) == (
        "Zone 3 Ringed, 584 square feet"
    )


@pytest.mark.parametrize(
    ("column", "text", "area"),
    [(3, "40", 800.0), (3, "32' 6\"", 650.0), (3, "12 m", 787.4), (1, "5", 550.0)],
)
def test_a_figure_is_typed_over_in_one_step(
    desk: Desk, column: int, text: str, area: float
) -> None:
    desk.control.choose_all((FRONT,))
    desk.retype(0, column, text)
    assert zone_area_sqft(desk.zone("front")) == pytest.approx(area, abs=0.2)
    assert f"{area:,.0f} sq ft" in desk.said()
    desk.book.undo()
    assert desk.zone("front") == sketch_yard().zones["front"]


@pytest.mark.parametrize(
    ("text", "words"), [("ten", "enter feet"), ("0", "longer than nothing"), ("9000", "5,000")]
)
def test_what_cannot_be_is_said_in_place_and_stays(desk: Desk, text: str, words: str) -> None:
    desk.control.choose_all((FRONT,))
    before = desk.book.notebook
    desk.retype(0, 3, text)
    assert words in text_of(desk.page, "shapes_corner_problem")
    field = QApplication.focusWidget()
    assert isinstance(field, QLineEdit)
    assert field.text() == text
    assert field.property("state") == "refuse"
    press(K.Key_Escape)
    assert desk.book.notebook is before


def test_tab_goes_on_to_the_next_figure(desk: Desk) -> None:
    desk.control.choose_all((FRONT,))
    desk.retype(2, 1, "35", K.Key_Tab)
    settle(60)
    desk.type("25", K.Key_Return)
    assert desk.zone("front").outline_ft[2] == (35.0, 25.0)


def test_corners_come_and_go_by_keys(desk: Desk) -> None:
    desk.control.choose_all((FRONT,))
    desk.at(1, 1)
    press(K.Key_Insert)
    assert desk.zone("front").outline_ft[2] == (30.0, 10.0)
    assert desk.control.choice is not None
    assert desk.control.choice.corner == 2
    press(K.Key_Delete)
    assert desk.zone("front").outline_ft == sketch_yard().zones["front"].outline_ft
    for _ in range(2):
        press(K.Key_Delete)
    assert len(desk.zone("front").outline_ft) == 3
    assert "three corners" in text_of(desk.page, "shapes_corner_problem")


def test_a_hole_is_a_ring_of_its_own(desk: Desk) -> None:
    desk.control.choose_all((("zones", "ringed"),))
    box = desk.section.chosen.corners.findChild(QComboBox, "shapes_ring")
    assert box is not None
    box.setFocus()
    press(K.Key_Down)
    desk.retype(0, 3, "6")
    assert zone_area_sqft(desk.zone("ringed")) == pytest.approx(600.0 - 24.0)
    click(desk.page, "shapes_hole_fill")
    assert desk.zone("ringed").holes_ft == ()


def test_a_head_and_a_spot_are_put_by_typed_feet(desk: Desk) -> None:
    desk.control.choose_all((("heads", "head"),))
    type_into(desk.page, "shapes_place_right", "12' 6\"")
    assert desk.book.notebook.heads["head"].at_ft == (12.5, 10.0)
    type_into(desk.page, "shapes_place_radius", "far")
    assert "Radius" in text_of(desk.page, "shapes_place_problem")
    desk.control.choose_all((("spots", "elm"),))
    type_into(desk.page, "shapes_place_up", "3 m")
    assert desk.book.notebook.spots["elm"].at_ft == (5.0, 9.84)


def test_a_button_that_cannot_be_used_says_why(desk: Desk) -> None:
    desk.control.choose_all((FRONT,))
    merge = part(desk.page, QPushButton, "shapes_merge")
    assert not merge.isEnabled()
    assert merge.toolTip() == merge.accessibleDescription() != ""
    desk.control.choose_all((FRONT, BACK))
    assert merge.isEnabled()


def test_a_second_press_of_a_button_that_is_spent_removes_nothing(desk: Desk) -> None:
    desk.control.choose_all([FRONT, ("features", "house")])
    zone = replace(desk.zone("front"), outline_ft=rectangle_ft((0.0, 0.0), 30.0, 35.0))
    desk.control.edit(put(desk.book.notebook, "zones", zone), "widen it")
    settle()
    subtract = part(desk.page, QPushButton, "shapes_subtract")
    subtract.setFocus()
    press(K.Key_Space)
    settle()
    assert not subtract.isEnabled()
    assert desk.section.list.hasFocus()
    press(K.Key_Space, K.Key_Return)
    assert "front" in desk.book.notebook.zones


def test_forms_turn_move_split_and_make_strips(desk: Desk) -> None:
    desk.control.choose_all((BACK,))
    type_into(desk.page, "shapes_move_right", "2")
    click(desk.page, "shapes_move_do")
    assert desk.zone("back").outline_ft[0] == (42.0, 0.0)
    type_into(desk.page, "shapes_turn_deg", "90")
    click(desk.page, "shapes_turn_do")
    xs = [x for x, _ in desk.zone("back").outline_ft]
    assert max(xs) - min(xs) == pytest.approx(20.0)
    type_into(desk.page, "shapes_strip_width", "2")
    click(desk.page, "shapes_strip_do")
    assert zone_area_sqft(desk.zone("back")) == pytest.approx(16.0 * 26.0)
    desk.control.choose_all((FRONT,))
    for name, text in (("from_right", "10"), ("from_up", "0"), ("to_right", "10"), ("to_up", "9")):
        type_into(desk.page, f"shapes_line_{name}", text)
    click(desk.page, "shapes_line_split")
    assert zone_area_sqft(desk.zone("front")) == pytest.approx(400.0)


def test_a_form_without_a_figure_says_what_to_type(desk: Desk) -> None:
    desk.control.choose_all((BACK,))
    before = desk.book.notebook
    click(desk.page, "shapes_turn_do")
    assert "Turn by" in text_of(desk.page, "shapes_turn_problem")
    assert desk.book.notebook is before


def test_every_control_of_the_section_is_named(desk: Desk) -> None:
    for keys in ((), (FRONT,), (("heads", "head"),), (("zones", "ringed"),)):
        desk.control.choose_all(keys)
        assert unnamed(desk.section) == []


def test_a_big_outline_is_shown_without_a_field_each(desk: Desk) -> None:
    ring = tuple(
        (round(300 + 40 * math.cos(n / 50), 2), round(40 * math.sin(n / 50), 2)) for n in range(314)
    )
    desk.book.edit(
        put(desk.book.notebook, "zones", Zone(id="round", name="Round", outline_ft=ring)), "round"
    )
    desk.control.choose_all((("zones", "round"),))
    assert desk.section.chosen.corners.table.model().rowCount() == 314
    assert len(desk.section.chosen.corners.findChildren(QLineEdit)) == 0


def test_the_shape_menu_is_grey_where_nothing_can_be_done(desk: Desk) -> None:
    (menu,) = [each for each in desk.window.findChildren(QMenu) if each.title() == "&Shape"]
    desk.control.choose_all((FRONT,))
    menu.aboutToShow.emit()
    named = {a.objectName(): a for a in menu.actions()}
    assert named["shape_menu_duplicate"].isEnabled()
    assert not named["shape_menu_merge"].isEnabled()
    menu.aboutToHide.emit()
    QTest.keyClick(desk.window.sketch.view, K.Key_J, Qt.KeyboardModifier.ControlModifier)
    assert len(desk.book.notebook.zones) == 4
