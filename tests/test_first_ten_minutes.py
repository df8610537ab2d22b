"""From the welcome page to the printed sheet, as somebody does it who has read nothing.

By mouse and keyboard events alone, with empty settings. Minutes cannot be held by a test; the
number of actions can: at ten a minute, a hundred of them are ten minutes.
"""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook.desk.app import Desk
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.plan.first_steps import first_steps
from lawnbook.reading import Reading, reading_as
from lawnbook.yard.geometry import zone_area_sqft
from tests.owner_hand import CTRL, Hand
from tests.pdf_reading import read_page

pytest_plugins = ["tests.desk_book"]

ON = date(2026, 6, 15)
MEAN_F = (30, 34, 42, 50, 60, 69, 76, 74, 65, 53, 41, 31)
ETO_IN = (0.03, 0.05, 0.09, 0.14, 0.19, 0.24, 0.26, 0.22, 0.16, 0.09, 0.05, 0.03)

MOST_WITH_EVERYTHING = 115
MOST_WITH_NOTHING_KNOWN = 35
MOST_KEYS = 150


@pytest.fixture
def desk(dressed: QApplication, settings: Settings, tmp_path: Path) -> Iterator[Desk]:
    """A desk with nothing on it but the welcome page; notebooks go to the test's folder."""
    settings.folder = tmp_path
    held = Desk(dressed, settings, ON)
    held.show_welcome()
    yield held
    if held.window is not None:
        held.window.close()
    held.deleteLater()


def wait_for_the_book(qtbot: QtBot, desk: Desk) -> None:
    """The window opens and shows its plan."""
    assert desk.window is not None
    desk.window.resize(1280, 800)
    desk.window.activateWindow()
    qtbot.waitUntil(desk.window.isActiveWindow)
    qtbot.waitUntil(lambda: desk.window is not None and desk.window.held_plan is not None)
    qtbot.wait(20)


def states(window: BookWindow) -> dict[str, str]:
    """How far each step is."""
    steps = first_steps(window.book.notebook, window.plan)
    return {each.name: each.state for each in steps}


def begin_by_mouse(qtbot: QtBot, desk: Desk) -> Hand:
    """Click into the name, type it, and click Start."""
    assert desk.welcome is not None
    desk.welcome.activateWindow()
    qtbot.waitUntil(desk.welcome.isActiveWindow)
    hand = Hand(qtbot, desk)
    hand.click("new_yard_name")
    hand.type("Elm House")
    hand.click("new_yard")
    wait_for_the_book(qtbot, desk)
    return hand


def type_the_months(hand: Hand) -> None:
    """Twelve means and twelve ETo, from cell to cell by Tab."""
    hand.click("first_months_fold")
    hand.click("first_climate_tmean_f_1")
    for row in (MEAN_F, ETO_IN):
        for value in row:
            hand.type(str(value))
            hand.key(Qt.Key.Key_Tab)


def enter_the_plug(hand: Hand) -> None:
    """The form stands ready at its first reading."""
    hand.qtbot.waitUntil(lambda: _focus() == "cores_thatch_in")
    hand.type("7/8 15/16 1")
    hand.key(Qt.Key.Key_Tab)
    hand.fill("cores_root_depth_in", "5 1/2")
    hand.click("cores_keep")
    assert len(hand.window.book.notebook.cores) == 1


def save_the_sheet(hand: Hand, path: Path) -> None:
    """From the card, through the dialog, to the file."""
    hand.answer_with(path)
    hand.click("first_save_sheet")
    hand.qtbot.waitUntil(path.exists)


def test_a_new_owner_who_knows_most_of_it(qtbot: QtBot, desk: Desk, tmp_path: Path) -> None:
    hand = begin_by_mouse(qtbot, desk)
    hand.fill("first_size_length", "40")
    hand.fill("first_size_width", "25")
    hand.click("first_put_down")
    hand.fill("first_yard_latitude_deg", "40.7")
    type_the_months(hand)
    hand.fill("first_zone_flow_gpm", "12")
    # Each settled step unfolds the next that is open.
    hand.click("first_ribbon_fold")
    hand.fill("first_ribbon_length", "1 1/2")
    hand.click("first_ribbon_take")
    hand.fill("habit_minutes", "15")
    hand.fill("habit_days_per_week", "7")
    hand.click("first_enter_plug")
    enter_the_plug(hand)
    hand.key(Qt.Key.Key_1, CTRL)
    assert states(hand.window) == {**dict.fromkeys(states(hand.window), "done"), "sheet": "open"}
    saved = tmp_path / "elm.pdf"
    save_the_sheet(hand, saved)
    page = read_page(saved)
    assert page.pages == 1
    assert "Elm House" in page.text
    assert set(states(hand.window).values()) == {"done"}
    (zone,) = hand.window.book.notebook.zones.values()
    assert zone_area_sqft(zone) == pytest.approx(1000)
    assert zone.soil == "clay loam"
    print(f"everything told: {hand.actions} actions")
    assert hand.actions <= MOST_WITH_EVERYTHING


def test_a_new_owner_who_knows_nothing(qtbot: QtBot, desk: Desk, tmp_path: Path) -> None:
    hand = begin_by_mouse(qtbot, desk)
    hand.click("first_size_leave")
    hand.click("first_place_leave")
    hand.pick("first_kind", "no idea")
    hand.click("first_take_rate")
    hand.click("first_ground_leave")
    hand.click("first_habit_leave")
    hand.click("first_plug_leave")
    assert states(hand.window) == {**dict.fromkeys(states(hand.window), "left"), "sheet": "open"}
    saved = tmp_path / "elm.pdf"
    save_the_sheet(hand, saved)
    text = read_page(saved).text
    assert "Elm House" in text
    # The sheet says what it rests on, and gives no interval that it cannot give.
    assert "No weather" in text
    print(f"nothing known: {hand.actions} actions")
    assert hand.actions <= MOST_WITH_NOTHING_KNOWN


def test_a_new_owner_without_a_mouse(qtbot: QtBot, desk: Desk, tmp_path: Path) -> None:
    assert desk.welcome is not None
    desk.welcome.activateWindow()
    qtbot.waitUntil(desk.welcome.isActiveWindow)
    hand = Hand(qtbot, desk)
    hand.tab_to("new_yard_name")
    hand.type("Elm House")
    hand.key(Qt.Key.Key_Return)
    wait_for_the_book(qtbot, desk)
    hand.tab_to("first_size_length")
    hand.type("40")
    hand.tab_to("first_size_width")
    hand.type("25")
    hand.key(Qt.Key.Key_Return)
    hand.tab_to("first_yard_latitude_deg")
    hand.type("40.7")
    hand.tab_to("first_months_fold")
    hand.key(Qt.Key.Key_Space)
    hand.tab_to("first_climate_tmean_f_1")
    for row in (MEAN_F, ETO_IN):
        for value in row:
            hand.type(str(value))
            hand.key(Qt.Key.Key_Tab)
    hand.tab_to("first_kind")
    hand.type("rotors")
    hand.tab_to("first_take_rate")
    hand.key(Qt.Key.Key_Space)
    hand.tab_to("first_zone_soil")
    hand.type("silty")
    hand.tab_to("habit_minutes")
    hand.type("15")
    hand.key(Qt.Key.Key_Tab)
    hand.type("7")
    hand.tab_to("first_enter_plug")
    hand.key(Qt.Key.Key_Space)
    hand.qtbot.waitUntil(lambda: _focus() == "cores_thatch_in")
    hand.type("7/8 15/16 1")
    hand.tab_to("cores_root_depth_in")
    hand.type("5 1/2")
    hand.key(Qt.Key.Key_Return)
    assert len(hand.window.book.notebook.cores) == 1
    hand.key(Qt.Key.Key_1, CTRL)
    saved = tmp_path / "elm.pdf"
    hand.tab_to("first_save_sheet")
    hand.answer_with(saved)
    hand.key(Qt.Key.Key_Space)
    qtbot.waitUntil(saved.exists)
    assert "Elm House" in read_page(saved).text
    print(f"by keys alone: {hand.actions} actions")
    assert hand.actions <= MOST_KEYS


def test_a_new_notebook_is_in_the_units_that_are_read(qtbot: QtBot, desk: Desk) -> None:
    with reading_as(Reading(units="metric")):
        hand = begin_by_mouse(qtbot, desk)
        assert hand.window.book.notebook.yard.units == "metric"


def test_what_lies_below_another_cannot_be_clicked(qtbot: QtBot, desk: Desk) -> None:
    """The hand itself: a control out of sight is scrolled to, one that is hidden is not found."""
    hand = begin_by_mouse(qtbot, desk)
    with pytest.raises(AssertionError, match="first_take_rate"):
        hand.click("first_take_rate")
    before = hand.actions
    hand.click("first_put_away")
    assert hand.actions >= before + 1


def _focus() -> str:
    focus = QApplication.focusWidget()
    return "" if focus is None else focus.objectName()
