"""Over the sample yards: all that is due is ticked off, and stands; and once through the window."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from lawnbook.desk.pages.season import SeasonPage
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.plan.doing import can_be_done, done_together
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.plan.season_model import Task
from lawnbook.yard.check import check
from lawnbook.yard.notebook import apply, as_of
from lawnbook.yard.problems import refused
from tests.desk_sample import sample
from tests.page_book import open_book, put_away, settle
from tests.season_book import ON, key, rows_of, season_notebook, tick

YARDS = ("larkspur_corner", "hollow_bank", "saltbush_court")
DAYS = (date(2025, 4, 12), date(2025, 9, 3), date(2025, 11, 20), date(2026, 6, 15))
RECORDED = ("water", "feed", "mow", "care", "test")


def tasks_by_line(plan: Plan) -> list[tuple[Task, ...]]:
    """The tasks of each line that can be ticked off and records something."""
    held = {task.key: task for task in plan.tasks}
    lines = [tuple(held[key] for key in due.keys) for due in plan.due]
    return [tasks for tasks in lines if tasks[0].kind in RECORDED and all(map(can_be_done, tasks))]


@pytest.mark.parametrize("on", DAYS)
@pytest.mark.parametrize("name", YARDS)
def test_what_is_ticked_off_is_gone_or_comes_later(name: str, on: date) -> None:
    book = as_of(sample(name), on)
    plan = make_plan(book, on)
    lines = tasks_by_line(plan)
    assert lines
    assert {key for due in plan.due for key in due.keys} == {task.key for task in plan.tasks}
    for tasks in lines:
        finished = done_together(book, tasks, on)
        then = apply(book, finished.change)
        for _, record in finished.records:
            assert refused(check(record, then, on)) == ()
        dates = {task.key: task.date for task in make_plan(then, on).tasks}
        for task in tasks:
            assert task.key not in dates or dates[task.key] > on, (task.what, dates[task.key])


def test_through_the_window_by_keyboard(qapp: QApplication, tmp_path: Path) -> None:
    book = open_book(tmp_path, ON, season_notebook())
    window = BookWindow(book, Settings(tmp_path / "desk.ini"))
    window.show()
    window.activateWindow()
    settle(20)
    QTest.keyClick(window, Qt.Key.Key_5, Qt.KeyboardModifier.ControlModifier)
    settle(50)
    page = window.page("Season")
    assert isinstance(page, SeasonPage)
    year = page.made("Year")
    assert isinstance(year, YearSection)
    tick(rows_of(year, "mow")[0])
    key(Qt.Key.Key_Return)
    settle(50)
    assert [each.date for each in book.notebook.care.values()][-1] == ON
    year.selected.emit("care", "m1")
    year.asked.emit("Log")
    settle(20)
    assert (window.place, page.section) == ("Season", "Log")
    page.turn_to("Year")
    year.selected.emit("spots", "s2")
    settle(20)
    assert window.place == "Plugs"
    window.undo()
    assert len(book.notebook.care) == 1
    settle(20)
    window.close()
    put_away(window)
