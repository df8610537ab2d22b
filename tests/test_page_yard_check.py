"""The section Check of the yard page, driven as a person would."""

from dataclasses import replace
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.check_mark import CheckMark
from lawnbook.desk.pages.water_figures import FigureRow
from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_check import CheckSection
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.scene import SketchScene
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft, zone_area_sqft
from lawnbook.yard.notebook import put
from lawnbook.yard.records import Feature, Zone
from lawnbook.yard.shape_edits import locked
from tests.desk_hand import child, press, shown, words

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
LEFT = Qt.MouseButton.LeftButton


def draw(book: OpenNotebook, *outlines: tuple[float, float, float, float]) -> None:
    """Zones A, B, C as upright boxes: corner, width, height."""
    for name, (x, y, width, height) in zip("abc", outlines, strict=False):
        ring = rectangle_ft((x, y), width, height)
        zone = Zone(id=name, name=name.upper(), outline_ft=ring)
        book.edit(put(book.notebook, "zones", zone), "draw")


def turned(qtbot: QtBot, book: OpenNotebook, control: SketchControl | None = None) -> YardPage:
    page = YardPage(book, control=control)
    shown(qtbot, page, book)
    QTest.mouseClick(child(page, "yard_section_check"), LEFT)
    return page


def click(page: YardPage, name: str) -> None:
    QTest.mouseClick(child(page, name), LEFT)


def test_nothing_drawn_is_said_calmly(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    page = turned(qtbot, empty_book)
    assert words(page, "check_verdict").startswith("Nothing is drawn yet")
    assert child(page, "check_mend_all").isHidden() or not child(page, "check_mend_all").isVisible()


def test_a_sound_yard_shows_its_areas(qtbot: QtBot, book: OpenNotebook) -> None:
    page = turned(qtbot, book)
    assert words(page, "check_verdict") == "Nothing overlaps, and nothing stands astray."
    whole = sum(zone_area_sqft(each) for each in book.notebook.zones.values())
    figures = cast(FigureRow, child(page, "check_sums")).figures()
    assert figures[0] == (f"{whole:,.0f} sq ft", "the areas of 4 zones in sum")
    assert figures[1][0] == f"{whole:,.0f} sq ft"


def test_an_overlap_is_shown_and_mended_by_either_way(
    qtbot: QtBot, empty_book: OpenNotebook
) -> None:
    book = empty_book
    draw(book, (0, 0, 20, 20), (15, 0, 20, 20))
    control = SketchControl(book, SketchScene(book.notebook))
    page = turned(qtbot, book, control)
    assert words(page, "check_verdict") == "1 thing wants a look; it can be mended by one press."
    assert words(page, "check_words_0") == "A and B share 100 sq ft, counted in both."
    click(page, "check_show_0")
    assert control.chosen_keys == (("zones", "a"), ("zones", "b"))
    before = book.notebook
    click(page, "check_other_0")
    assert zone_area_sqft(book.notebook.zones["a"]) == pytest.approx(300)
    assert words(page, "check_said") == "A is 300 sq ft, before 400 sq ft."
    assert words(page, "check_verdict") == "Nothing overlaps, and nothing stands astray."
    assert book.undo_label == "cut it from A"
    book.undo()
    assert book.notebook == before
    click(page, "check_mend_0")
    assert zone_area_sqft(book.notebook.zones["b"]) == pytest.approx(300)


def test_all_is_mended_in_one_step_by_keys(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    book = empty_book
    draw(book, (0, 0, 20, 20), (15, 0, 20, 20), (35.25, 0, 20, 20))
    bed = Feature(id="f", kind="bed", outline_ft=rectangle_ft((2, 2), 5, 5))
    book.edit(put(book.notebook, "features", bed), "draw")
    before = book.notebook
    page = turned(qtbot, book)
    assert words(page, "check_verdict") == "3 things want a look; all can be mended by one press."
    child(page, "check_mend_all").setFocus()
    press(Qt.Key.Key_Space)
    assert words(page, "check_said") == "3 things mended in one step; undo brings all back."
    assert words(page, "check_verdict") == "Nothing overlaps, and nothing stands astray."
    assert book.undo_label == "mend the sketch"
    book.undo()
    assert book.notebook == before


def test_a_locked_shape_says_why_it_stays(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    book = empty_book
    draw(book, (0, 0, 20, 20), (15, 0, 20, 20))
    book.edit(locked(book.notebook, (("zones", "a"), ("zones", "b")), True), "lock")
    page = turned(qtbot, book)
    click(page, "check_mend_0")
    assert words(page, "check_said") == "B is locked; unlock it first."


def test_the_keyboard_goes_on_to_the_next_row(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    book = empty_book
    draw(book, (0, 0, 20, 20), (15, 0, 20, 20), (32, 0, 20, 20))
    page = turned(qtbot, book)
    child(page, "check_mend_0").setFocus()
    press(Qt.Key.Key_Space)
    focus = page.focusWidget()
    assert focus is not None
    assert focus.objectName() == "check_mend_0"
    assert focus.accessibleDescription() == "B and C share 60 sq ft, counted in both."


def test_every_control_is_named(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    draw(empty_book, (0, 0, 20, 20), (15, 0, 20, 20), (32, 0, 20, 20))
    page = turned(qtbot, empty_book)
    section = page.findChild(CheckSection)
    assert section is not None
    for button in section.findChildren(QAbstractButton):
        assert button.objectName()
        assert button.accessibleName()


def test_the_section_is_marked_in_a_while(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    book = empty_book
    draw(book, (0, 0, 20, 20), (15, 0, 20, 20))
    page = YardPage(book)
    shown(qtbot, page, book)
    name = child(page, "yard_section_check")
    assert name.accessibleDescription() == ""
    marks = page.findChild(CheckMark)
    assert marks is not None
    marks.renew()
    assert name.accessibleDescription() == "1 thing on the sketch to look at"
    zone = replace(book.notebook.zones["b"], outline_ft=rectangle_ft((20, 0), 20, 20))
    book.edit(put(book.notebook, "zones", zone), "move")
    marks.renew()
    assert name.accessibleDescription() == ""


def test_a_hidden_page_checks_nothing(qtbot: QtBot, empty_book: OpenNotebook) -> None:
    draw(empty_book, (0, 0, 20, 20), (15, 0, 20, 20))
    page = YardPage(empty_book)
    qtbot.addWidget(page)
    marks = page.findChild(CheckMark)
    assert marks is not None
    marks.renew()
    assert child(page, "yard_section_check").accessibleDescription() == ""
