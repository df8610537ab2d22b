"""The window of a notebook, driven by mouse and keys: pages, selection, undo, days, trouble."""

from datetime import date
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QLabel,
    QLineEdit,
    QListView,
    QWidget,
)
from pytestqt.qtbot import QtBot

from lawnbook.desk.date_strip import label_step
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS, BookSpread
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.yardfile import load_any
from lawnbook.yard.notebook import put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Spot
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def opened(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> BookWindow:
    window = BookWindow(book, settings)
    qtbot.addWidget(window)
    window.resize(1440, 900)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.wait(20)
    return window


def child(window: QWidget, name: str) -> QWidget:
    found = window.findChild(QWidget, name)
    assert found is not None, name
    return found


def words(window: QWidget, name: str) -> str:
    return cast(QLabel, child(window, name)).text()


def click(window: QWidget, name: str) -> None:
    QTest.mouseClick(child(window, name), Qt.MouseButton.LeftButton)


def test_a_book_with_plugs_opens_at_them_and_a_new_one_at_the_yard(
    qtbot: QtBot, book: OpenNotebook, empty_book: OpenNotebook, settings: Settings
) -> None:
    assert opened(qtbot, book, settings).place == "Plugs"
    assert opened(qtbot, empty_book, settings).place == "Yard"


@pytest.mark.parametrize("number", range(1, 7))
def test_ctrl_and_a_digit_turn_to_a_page(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, number: int
) -> None:
    window = opened(qtbot, book, settings)
    QTest.keyClick(window, Qt.Key(Qt.Key.Key_0 + number), CTRL)
    name = TABS[number - 1][0]
    assert window.place == name
    assert window.stack.currentWidget() is window.page(name)
    assert cast(QAbstractButton, child(window, f"tab_{name.lower()}")).isChecked()


def test_tabs_are_clicked_and_walked_by_arrow_keys(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    click(window, "tab_yard")
    assert window.place == "Yard"
    QTest.keyClick(child(window, "tab_yard"), Qt.Key.Key_Down)
    assert window.place == "Plugs"
    assert child(window, "tab_plugs").hasFocus()
    QTest.keyClick(child(window, "tab_plugs"), Qt.Key.Key_Up)
    assert window.place == "Yard"


def test_a_spot_picked_on_the_sketch_turns_the_page_to_it(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    window.turn_to("Sheet")
    steps = next(each for each in book.notebook.spots.values() if each.name == "steps")
    window.sketch.selected.emit("spots", steps.id)
    assert window.place == "Plugs"
    assert cast(QWidget, window.page("Plugs")).findChild(QLabel, "plugs_verdict") is not None
    spot_box = child(window.page("Plugs"), "cores_spot")
    assert spot_box.property("currentText") == "steps"


def test_a_zone_picked_on_the_sketch_stays_on_a_page_that_shows_zones(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    zone = list(book.notebook.zones)[2]
    window.turn_to("Feed")
    window.sketch.selected.emit("zones", zone)
    assert window.place == "Feed"
    window.turn_to("Yard")
    window.sketch.selected.emit("zones", zone)
    assert window.place == "Water"


def test_a_spot_chosen_on_the_page_is_lit_on_the_sketch(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = opened(qtbot, book, settings)
    lit: list[tuple[str, str]] = []
    monkeypatch.setattr(window.sketch, "select", lambda *chosen: lit.append(chosen))
    box = child(window.page("Plugs"), "cores_spot")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    second = list(book.notebook.spots)[1]
    assert lit == [("spots", second)]


def test_undo_and_redo_reach_everywhere_and_say_what(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    before = book.notebook
    book.edit(put(book.notebook, "spots", Spot(id="s" * 16, name="new")), "new spot")
    assert words(window, "status_undo") == "Undo new spot"
    assert window.undo_action.text() == "Undo new spot"
    note = child(window.page("Plugs"), "cores_note")
    note.setFocus()
    QTest.keyClick(note, Qt.Key.Key_Z, CTRL)
    assert book.notebook == before
    QTest.keyClick(note, Qt.Key.Key_Z, CTRL | SHIFT)
    assert "s" * 16 in book.notebook.spots
    click(window, "status_undo")
    assert book.notebook == before
    click(window, "status_redo")
    assert "s" * 16 in book.notebook.spots


def test_text_being_typed_is_undone_before_the_book_is(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    book.edit(put(book.notebook, "spots", Spot(id="s" * 16, name="new")), "new spot")
    note = cast(QLineEdit, child(window.page("Plugs"), "cores_note"))
    note.setFocus()
    QTest.keyClicks(note, "springy")
    QTest.keyClick(note, Qt.Key.Key_Z, CTRL)
    assert note.text() == ""
    assert "s" * 16 in book.notebook.spots
    QTest.keyClick(note, Qt.Key.Key_Z, CTRL)
    assert "s" * 16 not in book.notebook.spots


def test_the_plan_follows_an_edit_at_once(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    window.turn_to("Plugs")
    before = words(window, "plugs_figures")
    cores = [c for c in book.notebook.cores.values() if c.spot == next(iter(book.notebook.spots))]
    last = max(cores, key=lambda core: core.date)
    from lawnbook.yard.edits import remove

    book.edit(remove(book.notebook, "cores", last.id), "take out a plug")
    qtbot.waitUntil(lambda: words(window, "plugs_figures") != before)
    assert f"{len(cores) - 1} plugs" in words(window, "plugs_figures")


def test_the_book_is_looked_at_on_another_day(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    QTest.keyClick(window, Qt.Key.Key_D, CTRL)
    field = cast(QLineEdit, child(window, "look_at"))
    assert field.hasFocus()
    QTest.keyClicks(field, "1 Jul 2025")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert window.on == date(2025, 7, 1)
    qtbot.waitUntil(lambda: "over 3 plugs" in words(window, "plugs_figures"))
    QTest.keyClick(window, Qt.Key.Key_T, CTRL)
    assert window.on == DAY
    assert field.text() == "25 Nov 2026"


def test_the_ribbon_moves_by_keys_and_by_mouse(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    strip = child(window, "date_strip")
    strip.setFocus()
    QTest.keyClick(strip, Qt.Key.Key_Left)
    assert window.on == date(2026, 11, 24)
    QTest.keyClick(strip, Qt.Key.Key_PageUp)
    assert window.on == date(2026, 10, 24)
    QTest.keyClick(strip, Qt.Key.Key_Home)
    assert window.on == date(2024, 1, 1)
    QTest.keyClick(strip, Qt.Key.Key_End)
    assert window.on == date(2026, 12, 31)
    QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=QPoint(strip.width() // 2, 20))
    assert date(2025, 6, 20) < window.on < date(2025, 7, 15)


@pytest.mark.parametrize(("year_px", "step"), [(200.0, 1), (40.0, 1), (21.0, 2), (4.0, 10)])
def test_years_are_named_as_far_apart_as_their_names_need(year_px: float, step: int) -> None:
    assert label_step(year_px, 40.0) == step


@pytest.mark.parametrize(
    ("typed", "said"),
    [("someday", "not a date"), ("31 feb", "no such day"), ("1 Jan 1200", "1 Jan 1800")],
)
def test_a_day_that_is_none_is_said_and_changes_nothing(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, typed: str, said: str
) -> None:
    window = opened(qtbot, book, settings)
    field = cast(QLineEdit, child(window, "look_at"))
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, typed)
    QTest.keyClick(field, Qt.Key.Key_Return)
    qtbot.wait(10)
    assert window.on == DAY
    assert (field.text(), field.property("state")) == (typed, "refuse")
    shown = [each.text() for each in window.ribbon.findChildren(QLabel) if each.isVisible()]
    assert any(said in each for each in shown)


def test_what_cannot_be_written_is_said_and_tried_again(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = opened(qtbot, book, settings)
    assert words(window, "status_words").startswith("Kept")
    assert child(window, "status_retry").isHidden()

    with monkeypatch.context() as patch:
        patch.setattr("lawnbook.store.sqlite_store.Store.write", refuse)
        book.edit(put(book.notebook, "spots", Spot(id="s" * 16, name="new")), "new spot")
        assert "disk is full" in words(window, "status_words")
        assert child(window, "status_retry").isVisible()
        click(window, "status_retry")
        assert "1 change waits" in words(window, "status_words")
    click(window, "status_retry")
    assert words(window, "status_words").startswith("Kept")
    assert child(window, "status_retry").isHidden()


def test_closing_keeps_what_was_being_typed(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    window.turn_to("Yard")
    field = cast(QLineEdit, child(window.page("Yard"), "yard_name"))
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "Elm Corner")
    window.close()
    again = OpenNotebook.open(book.path, DAY)
    assert again.notebook.yard.name == "Elm Corner"
    again.close()


def refuse(*_changes: object) -> None:
    raise OwnerError("larkspur.lawnbook: the disk is full; free some space, then try again.")


@pytest.mark.parametrize("answer", ["stay", "elsewhere", "abandon"])
def test_closing_with_changes_that_cannot_be_written_asks(
    qtbot: QtBot,
    book: OpenNotebook,
    settings: Settings,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    answer: str,
) -> None:
    window = opened(qtbot, book, settings)
    monkeypatch.setattr("lawnbook.desk.closing.close_with_trouble", lambda *_: answer)
    other = tmp_path / "other.lawnbook"
    monkeypatch.setattr("lawnbook.desk.window.choose_elsewhere", lambda *_: other)
    with monkeypatch.context() as patch:
        patch.setattr("lawnbook.store.sqlite_store.Store.write", refuse)
        book.edit(put(book.notebook, "spots", Spot(id="s" * 16, name="new")), "new spot")
        assert window.close() is (answer != "stay")
    if answer == "elsewhere":
        again = OpenNotebook.open(other, DAY)
        assert "s" * 16 in again.notebook.spots
        again.close()


def test_a_yard_file_is_written_from_the_menu(
    qtbot: QtBot,
    book: OpenNotebook,
    settings: Settings,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    window = opened(qtbot, book, settings)
    target = tmp_path / "yard.json"
    monkeypatch.setattr("lawnbook.desk.menus.choose_export", lambda *_: target)
    QTest.keyClick(window, Qt.Key.Key_E, CTRL)
    qtbot.waitUntil(lambda: str(target) in words(window, "status_words"))
    assert load_any(target, DAY) == book.notebook
    monkeypatch.setattr("lawnbook.desk.menus.choose_export", lambda *_: tmp_path / "no" / "y.json")
    QTest.keyClick(window, Qt.Key.Key_E, CTRL)
    qtbot.waitUntil(lambda: "is not there" in words(window, "status_words"))


def test_f6_takes_the_keyboard_across_the_fold(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    child(window.page("Plugs"), "cores_note").setFocus()
    QTest.keyClick(window, Qt.Key.Key_F6)
    focus = QApplication.focusWidget()
    assert focus is not None
    assert focus.objectName() == "sketch_view", "where the keys of the tools work"
    QTest.keyClick(window, Qt.Key.Key_F6)
    focus = QApplication.focusWidget()
    assert focus is not None
    assert focus.objectName() == "cores_spot"


def test_the_smallest_window_has_room_for_all_it_must_show(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    window.resize(window.minimumSize())
    qtbot.wait(10)
    spread = window.findChild(BookSpread)
    assert spread is not None
    least = spread.minimumSizeHint()
    assert least.width() <= spread.width()
    assert least.height() <= spread.height()


@pytest.mark.parametrize("size", [(1440, 900), (1280, 800)])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_page_paints_in_both_themes_within_its_room(
    qtbot: QtBot,
    book: OpenNotebook,
    settings: Settings,
    size: tuple[int, int],
    theme: str,
) -> None:
    apply_theme(cast(QApplication, QApplication.instance()), theme)
    window = opened(qtbot, book, settings)
    window.resize(*size)
    for name, _ in TABS:
        window.turn_to(name)
        qtbot.wait(20)
        assert not window.grab().isNull()
        page = window.page(name)
        assert page.geometry().right() < window.stack.width()
        scroll = page.findChild(QWidget, "qt_scrollarea_viewport")
        if scroll is not None and name in ("Plugs", "Yard"):
            inside = scroll.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)
            assert all(each.width() <= scroll.width() for each in inside), name


def test_every_control_has_a_name_to_speak(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    window = opened(qtbot, book, settings)
    for name, _ in TABS:
        window.turn_to(name)
    nameless = [
        f"{type(each).__name__} {each.objectName()}"
        for each in window.findChildren(QWidget)
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not each.accessibleName()
        and not isinstance(each, QLabel | QListView)
        and not isinstance(each.parent(), QAbstractScrollArea)
    ]
    assert nameless == []


def test_the_place_of_the_window_is_remembered(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, tmp_path: Path
) -> None:
    window = opened(qtbot, book, settings)
    window.close()
    assert not Settings(tmp_path / "desk.ini").geometry.isEmpty()
