"""Saving the calendar from the File menu: where it goes and what is said of it."""

import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from lawnbook.desk.calendar_out import ask_calendar
from lawnbook.desk.settings import Settings
from lawnbook.desk.wait_line import CALLED_OFF
from lawnbook.desk.window import BookWindow
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.calendar_ics import write_calendar
from lawnbook.yard.notebook import Notebook
from tests.desk_sample import DAY
from tests.ics_reading import read_events
from tests.waiting import until_done

pytest_plugins = ["tests.desk_book"]


@pytest.fixture
def window(
    qtbot: QtBot, dressed: QApplication, book: OpenNotebook, settings: Settings
) -> Iterator[BookWindow]:
    made = BookWindow(book, settings)
    made.show()
    yield made
    made.close()
    made.deleteLater()


def choose(monkeypatch: pytest.MonkeyPatch, name: str) -> list[str]:
    """The dialog of files answers a name; the list holds what it was asked with."""
    asked: list[str] = []

    def save(_: object, title: str, start: str, kinds: str) -> tuple[str, str]:
        asked.extend((title, start, kinds))
        return name, kinds

    monkeypatch.setattr(QFileDialog, "getSaveFileName", save)
    return asked


def trigger(window: BookWindow) -> None:
    """Take the entry of the File menu."""
    entries = window.findChildren(QAction)
    next(a for a in entries if a.text().replace("&", "") == "Save the calendar…").trigger()


def test_the_menu_saves_the_plan_of_the_day_that_is_looked_at(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "mine.ics"
    asked = choose(monkeypatch, str(target))
    window.look_at(DAY.replace(month=6, day=15))
    trigger(window)
    assert asked == [
        "Save the calendar",
        str(window.book.path.with_suffix(".ics")),
        "Calendars (*.ics)",
    ]
    head, events = read_events(target.read_bytes())
    assert head["NAME"] == window.book.notebook.yard.name
    assert {each.sequence for each in events} == {DAY.replace(month=6, day=15).toordinal()}
    assert window.status.words.text() == f"Saved: {target}"


def test_a_name_without_its_ending_is_given_one(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(monkeypatch, str(tmp_path / "mine"))
    said = ask_calendar(window, window.book, window.plan)
    assert said is not None
    assert (said.words, said.role) == (f"Saved: {tmp_path / 'mine.ics'}", "good")
    assert (tmp_path / "mine.ics").exists()


def test_a_file_of_another_kind_is_kept_and_told(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    letter = tmp_path / "letter.ics"
    letter.write_text("Dear neighbour")
    choose(monkeypatch, str(letter))
    trigger(window)
    assert "letter.ics: this file is not a calendar" in window.status.words.text()
    assert letter.read_text() == "Dear neighbour"


def test_thinking_better_of_it_says_and_writes_nothing(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(monkeypatch, "")
    before = sorted(tmp_path.rglob("*"))
    assert ask_calendar(window, window.book, window.plan) is None
    assert sorted(tmp_path.rglob("*")) == before


@pytest.mark.parametrize("stops", [True, False])
def test_a_big_yard_s_is_written_beside_the_window_and_may_be_stopped(
    window: BookWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, stops: bool
) -> None:
    target = tmp_path / "big.ics"
    choose(monkeypatch, str(target))
    plain = tmp_path / "plain.ics"
    write_calendar(window.book.notebook, window.plan, plain)
    monkeypatch.setattr("lawnbook.desk.calendar_out.takes_long", lambda _: True)
    go, threads = threading.Event(), set[int]()

    def slow(notebook: Notebook, plan: Plan, path: Path, last: Callable[[], None]) -> None:
        threads.add(threading.get_ident())
        go.wait(20)
        write_calendar(notebook, plan, path, last=last)

    monkeypatch.setattr("lawnbook.store.calendar_ics.write_calendar", slow)
    trigger(window)
    assert window.writing.runs
    if stops:
        window.writing.cancel()
        assert window.status.words.text() == CALLED_OFF
    go.set()
    if stops:
        window.writing.finish()
    else:
        until_done(window)
    assert target.exists() != stops
    assert threading.main_thread().ident not in threads
    if not stops:
        assert target.read_bytes() == plain.read_bytes()
        assert window.status.words.text() == f"Saved: {target}"
