"""Noting something down from anywhere: keys, what is read out, questions, undo, the way back."""

from datetime import timedelta
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.quick_add import ONCE_MORE, QuickAdd
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import OwnerError
from tests.desk_hand import words
from tests.desk_sample import DAY
from tests.page_book import unnamed

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
BEFORE = DAY - timedelta(days=1)
ENTER, TAB, ESC, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Escape, Qt.Key.Key_Down


@pytest.fixture
def window(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> BookWindow:
    """The window on Larkspur Corner."""
    made = BookWindow(book, settings)
    qtbot.addWidget(made)
    made.resize(1280, 800)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def opened(window: BookWindow) -> QuickAdd:
    """The overlay, opened by its key."""
    QTest.keyClick(window, Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier)
    made = window.findChild(QuickAdd, "quick_add")
    assert made is not None
    assert made.isVisible()
    assert made.line.hasFocus()
    return made


def undoes(book: OpenNotebook) -> str:
    """What undo would take back."""
    return book.undo_label


def read_out(quick: QuickAdd) -> str:
    """What would be kept, as it is told to a screen reader."""
    return quick.fields.accessibleDescription()


def test_a_line_is_read_out_while_it_is_typed_and_kept_as_one_step(
    window: BookWindow, book: OpenNotebook
) -> None:
    before = set(book.notebook.waterings)
    quick = opened(window)
    QTest.keyClicks(quick.line, "watered 25 min front lawn yesterday")
    assert read_out(quick) == f"What: Watering; Day: {day(BEFORE)}; Zone: Front lawn; Ran: 25 min"
    QTest.keyClick(quick.line, ENTER)
    assert not quick.isVisible()
    fresh = [each for key, each in book.notebook.waterings.items() if key not in before]
    assert [(each.minutes, each.date) for each in fresh] == [(25, BEFORE)]
    assert window.status.words.text() == f"Kept: watering of Front lawn, {day(BEFORE)}."
    assert book.undo_label == f"watering of Front lawn, {day(BEFORE)}"
    book.undo()
    assert set(book.notebook.waterings) == before


def test_tab_takes_the_picked_proposal_and_down_picks_the_next(window: BookWindow) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.line, "watered 30 min")
    QTest.keyClick(quick.line, DOWN)
    QTest.keyClick(quick.line, TAB)
    assert quick.line.text() == "watered 30 min Corner lawn "
    assert quick.line.hasFocus()


def test_what_is_missing_is_said_and_enter_keeps_nothing(
    window: BookWindow, book: OpenNotebook
) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.line, "watered front lawn")
    said = cast(QLabel, quick.findChild(QLabel, "quick_said"))
    assert "Say how long it ran" in said.text()
    assert said.property("role") == "caption"
    QTest.keyClick(quick.line, ENTER)
    assert quick.isVisible()
    assert said.property("role") == "refuse"
    assert not book.undo_label


def test_a_feeding_over_the_budget_is_asked_once_and_then_kept(
    window: BookWindow, book: OpenNotebook
) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.line, "fed 40 lb feather meal front lawn 3 May")
    assert "Not within budget" in words(quick, "quick_asks")
    QTest.keyClick(quick.line, ENTER)
    assert quick.isVisible()
    assert ONCE_MORE in words(quick, "quick_asks")
    assert undoes(book) == ""
    QTest.keyClick(quick.line, ENTER)
    assert undoes(book) == "feeding of Feather meal 12-0-0, 3 May 2026"


def test_shift_enter_keeps_and_stays_for_the_next(window: BookWindow, book: OpenNotebook) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.line, "mowed front lawn")
    QTest.keyClick(quick.line, ENTER, Qt.KeyboardModifier.ShiftModifier)
    assert quick.isVisible()
    assert quick.line.text() == ""
    assert book.undo_label == f"mowing, {day(DAY)}"


def test_escape_gives_up_and_the_keyboard_goes_back(window: BookWindow) -> None:
    field = window.ribbon.field
    field.setFocus()
    quick = opened(window)
    QTest.keyClicks(quick.line, "mowed")
    QTest.keyClick(quick.line, ESC)
    assert not quick.isVisible()
    assert field.hasFocus()
    assert opened(window).line.text() == ""


def test_what_is_typed_stays_while_the_owner_looks_elsewhere(window: BookWindow) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.line, "mowed fro")
    window.sketch.setFocus()
    assert not quick.isVisible()
    assert opened(window).line.text() == "mowed fro"


def test_a_question_mark_shows_the_examples(window: BookWindow) -> None:
    quick = opened(window)
    table = cast(QWidget, quick.findChild(QWidget, "quick_help"))
    QTest.keyClicks(quick.line, "?")
    assert table.isVisible()
    assert quick.line.text() == ""
    QTest.keyClicks(quick.line, "note why?")
    assert quick.line.text() == "note why?"


@pytest.mark.parametrize("size", [(1440, 900), (1280, 800), (1220, 700)])
def test_it_lies_inside_the_window_and_cuts_no_row_off(
    window: BookWindow, size: tuple[int, int]
) -> None:
    window.resize(*size)
    quick = opened(window)
    for text in (
        "",
        "watered 30 min",
        "watered 20 min everywhere",
        "fed 40 lb feather 3 May front",
    ):
        quick.line.setText(text)
        assert window.rect().contains(quick.geometry()), text
        for each in quick.findChildren(QLabel):
            if each.isVisible():
                assert each.height() >= each.heightForWidth(each.width()) - 1, each.text()
    assert not unnamed(quick)


def test_a_line_that_is_not_on_disk_yet_is_not_told_as_kept(
    window: BookWindow, book: OpenNotebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OwnerError(f"{book.path.name}: the disk is full; free some space.")

    monkeypatch.setattr("lawnbook.store.sqlite_store.Store.write", refuse)
    quick = opened(window)
    QTest.keyClicks(quick.line, "watered 25 min front lawn yesterday")
    QTest.keyClick(quick.line, ENTER)
    assert not quick.isVisible()
    assert window.status.words.text() == (
        f"Not on disk yet (1 change waits). {book.path.name}: the disk is full; free some space."
    )
    monkeypatch.undo()
