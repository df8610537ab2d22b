"""A big yard's plan is made off the window's thread, and an older one is never shown as fresh."""

import threading
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk import printing
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.plan_showing import FAILED, IN_THE_MAKING, PlanShowing
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_dialog import WAITS
from lawnbook.desk.window import BookWindow
from lawnbook.plan.make import make_plan
from lawnbook.plan.memo import Memo
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.session.planning import PlanCache, takes_long
from lawnbook.yard.notebook import Notebook
from tests.bench.big_yard import big_yard
from tests.conftest import TODAY
from tests.desk_hand import child, words
from tests.small_book import rename, small_notebook
from tests.waiting import until_done

pytest_plugins = ["tests.desk_book"]


class Kitchen:
    """Stands for `make_plan`: each plan waits in its thread until it is served."""

    def __init__(self) -> None:
        self.served = threading.Event()
        self.begun: list[tuple[str, date, bool]] = []
        self.spoiled = False

    def make(self, notebook: Notebook, on: date, memo: Memo | None = None) -> Plan:
        """Make a plan once it may be served."""
        beside = threading.current_thread() is not threading.main_thread()
        self.begun.append((notebook.yard.name, on, beside))
        if beside:
            assert self.served.wait(20)
        if self.spoiled:
            raise ZeroDivisionError
        return make_plan(notebook, on, memo)


@pytest.fixture
def kitchen(monkeypatch: pytest.MonkeyPatch) -> Kitchen:
    made = Kitchen()
    monkeypatch.setattr("lawnbook.session.planning.make_plan", made.make)
    monkeypatch.setattr("lawnbook.session.planning.LONG_MS", 0)
    monkeypatch.setattr("lawnbook.desk.plan_showing.VEIL_MS", 1)
    return made


@pytest.fixture
def window(
    qtbot: QtBot, kitchen: Kitchen, dressed: QApplication, tmp_path: Path
) -> Iterator[BookWindow]:
    """A small yard that is taken for a big one, its first plan still being made."""
    book = OpenNotebook.create(tmp_path / "small.lawnbook", small_notebook(), TODAY)
    made = BookWindow(book, Settings(tmp_path / "desk.ini"))
    made.show()
    qtbot.waitUntil(lambda: bool(kitchen.begun))
    yield made
    kitchen.served.set()
    made.close()
    made.deleteLater()


def veiled(window: BookWindow) -> bool:
    """Whether what is shown is set back."""
    return window.veil.isVisible()


def held(window: BookWindow) -> bool:
    """Whether the plan that is to be shown is made."""
    return window.held_plan is not None


def shown_first(window: BookWindow) -> bool:
    """Whether the first page shows the first plan."""
    return held(window) and window.stack.currentWidget() is window.page(window.place)


def test_only_a_yard_of_many_records_takes_long() -> None:
    assert not takes_long(small_notebook())
    assert takes_long(big_yard())


def test_until_its_plan_is_there_the_page_is_set_back(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen
) -> None:
    qtbot.waitUntil(lambda: veiled(window))
    assert window.veil.accessibleName() == IN_THE_MAKING
    assert not held(window)
    kitchen.served.set()
    qtbot.waitUntil(lambda: not veiled(window))
    assert held(window)
    assert kitchen.begun == [(window.book.notebook.yard.name, TODAY, True)]


def test_a_result_that_is_no_longer_looked_at_is_thrown_away(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[date] = []
    show = window.sketch.show_plan

    def noted(plan: Plan) -> None:
        shown.append(plan.on)
        show(plan)

    monkeypatch.setattr(window.sketch, "show_plan", noted)
    later = TODAY + timedelta(days=1)
    window.look_at(TODAY + timedelta(days=2))
    qtbot.wait(1)
    window.look_at(later)
    window.book.edit(rename(window.book.notebook, "Other"), "rename")
    qtbot.waitUntil(lambda: veiled(window))
    kitchen.served.set()
    qtbot.waitUntil(lambda: bool(shown))
    qtbot.wait(40)
    assert shown == [later]
    assert kitchen.begun[-1] == ("Other", later, True)


def test_who_needs_the_plan_at_once_waits_for_the_one_in_the_making(
    window: BookWindow, kitchen: Kitchen
) -> None:
    threading.Timer(0.05, kitchen.served.set).start()
    assert window.plan.on == TODAY
    assert len(kitchen.begun) == 1, "it is not made twice"


def test_a_mistake_in_the_making_is_told_like_any_other(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen
) -> None:
    kitchen.spoiled = True
    with qtbot.captureExceptions() as told:
        kitchen.served.set()
        qtbot.waitUntil(lambda: bool(told))
    assert [each[0] for each in told] == [ZeroDivisionError]
    assert veiled(window)
    assert window.veil.accessibleName() == FAILED
    with qtbot.captureExceptions() as told:
        window.turn_to("Water")
        qtbot.wait(20)
    assert not told, "it is told once"
    kitchen.spoiled = False
    window.back_to_today()
    qtbot.waitUntil(lambda: not veiled(window) and held(window))


def test_closing_waits_for_nothing(qtbot: QtBot, window: BookWindow, kitchen: Kitchen) -> None:
    assert window.close()
    assert not kitchen.served.is_set()
    kitchen.served.set()
    qtbot.wait(40)


def test_printing_waits_for_the_plan_and_may_be_given_up(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen
) -> None:
    made: list[Plan] = []
    window.with_plan(made.append)
    qtbot.waitUntil(lambda: window.findChild(QDialog, "wait_dialog") is not None)
    box = window.findChild(QDialog, "wait_dialog")
    assert isinstance(box, QDialog)
    qtbot.waitUntil(box.isVisible)
    cancel = box.findChild(QPushButton, "wait_cancel")
    assert isinstance(cancel, QPushButton)
    QTest.mouseClick(cancel, Qt.MouseButton.LeftButton)
    window.look_at(TODAY - timedelta(days=1))
    window.with_plan(made.append)
    kitchen.served.set()
    qtbot.waitUntil(lambda: bool(made))
    assert [each.on for each in made] == [TODAY - timedelta(days=1)], "never an older one"
    qtbot.waitUntil(lambda: window.findChild(QDialog, "wait_dialog") is None)


def test_nothing_is_printed_or_handed_over_of_an_older_plan(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen
) -> None:
    kitchen.served.set()
    qtbot.waitUntil(lambda: shown_first(window))
    window.open_at("Sheet")
    page = cast("SheetPage", window.page("Sheet"))
    until_done(page)
    kitchen.served.clear()
    window.book.edit(rename(window.book.notebook, "Other"), "rename")
    page.ask_print()
    assert words(page, "sheet_said") == WAITS
    page.turn_to("Hand over")
    # By the key: the veil may lie over the page by now, and takes the mouse.
    QTest.keyClick(child(page, "handover_save"), Qt.Key.Key_Space)
    assert words(page, "handover_said") == WAITS


def test_printing_from_the_menu_reckons_the_sheet_once_beside_the_window(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    kitchen.served.set()
    qtbot.waitUntil(lambda: shown_first(window))
    beside: list[bool] = []
    printed: list[str] = []

    def reckoned(*_: object) -> None:
        beside.append(threading.current_thread() is not threading.main_thread())

    monkeypatch.setattr("lawnbook.desk.pages.sheet_plan.keep_every_promise", reckoned)
    monkeypatch.setattr(printing, "ask_print", lambda _, page: printed.append(page.title))
    window.with_plan(lambda _: window.open_sheet().ask_print())
    qtbot.waitUntil(lambda: bool(printed))
    assert beside == [True]


def test_a_plan_that_is_made_but_not_shown_yet_is_printed_all_the_same(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    kitchen.served.set()
    qtbot.waitUntil(lambda: shown_first(window))
    printed: list[str] = []
    monkeypatch.setattr(printing, "ask_print", lambda _, page: printed.append(page.title))
    window.open_sheet()
    until_done(cast("SheetPage", window.page("Sheet")))
    # As in the moment between the plan's making and its showing.
    showing = window.findChild(PlanShowing)
    assert showing is not None
    showing.soon()
    window.with_plan(lambda _: window.open_sheet().ask_print())
    qtbot.waitUntil(lambda: bool(printed))


def test_the_days_that_pass_by_are_reckoned_beside_the_window(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    kitchen.served.set()
    qtbot.waitUntil(lambda: shown_first(window))
    shown: list[object] = []
    monkeypatch.setattr(window.sketch, "show_day", shown.append)
    window.pass_by(TODAY)
    assert veiled(window)
    assert window.veil.accessibleName() == IN_THE_MAKING
    assert shown == []
    qtbot.waitUntil(lambda: bool(shown))
    assert window.veil.accessibleName() == ""


def test_two_threads_make_a_plan_once(kitchen: Kitchen) -> None:
    cache, notebook = PlanCache(), small_notebook()
    made: list[Plan] = []

    def ask() -> None:
        made.append(cache.plan_for(notebook, TODAY))

    threads = [threading.Thread(target=ask) for _ in range(4)]
    for each in threads:
        each.start()
    kitchen.served.set()
    for each in threads:
        each.join()
    assert len(kitchen.begun) == 1
    assert all(each is made[0] for each in made)


def test_what_a_plan_promises_is_reckoned_beside_the_window_until_an_edit(
    qtbot: QtBot, window: BookWindow, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that no page has to reckon it as it is turned to."""
    kept: list[tuple[date, bool]] = []
    left_off, go_on = threading.Event(), threading.Event()

    def keep(plan: Plan, between: Callable[[int, int], None]) -> None:
        kept.append((plan.on, threading.current_thread() is not threading.main_thread()))
        try:
            while not go_on.wait(0.002):
                between(0, 1)
        except BaseException:
            left_off.set()
            raise

    monkeypatch.setattr("lawnbook.desk.plan_making.keep_every_promise", keep)
    kitchen.served.set()
    qtbot.waitUntil(lambda: bool(kept))
    assert kept == [(TODAY, True)]
    window.book.edit(rename(window.book.notebook, "Other"), "rename")
    qtbot.waitUntil(left_off.is_set)
    qtbot.waitUntil(lambda: len(kept) == 2)
    go_on.set()
