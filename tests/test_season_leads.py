"""What is due and has to be read or gone through leads to where that is entered, by keyboard."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QCheckBox, QLabel, QLineEdit

from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.pages.season import SeasonPage
from lawnbook.desk.pages.season_checklists import ChecklistsSection
from lawnbook.desk.pages.season_due_row import DueRow
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from lawnbook.plan.checklists import CHECKLISTS
from lawnbook.yard.records import ChecklistName
from tests.page_book import open_book, part, put_away, settle, text_of, type_into
from tests.season_book import ON, key, rows_of, season_notebook, tick

TODAY = date(2026, 9, 20)
SPRING, AUTUMN = date(2027, 4, 10), date(2026, 10, 5)
ENTER = Qt.Key.Key_Return


@pytest.fixture
def window(qapp: QApplication, tmp_path: Path) -> Iterator[BookWindow]:
    """The window on the twentieth of September, looking at the first, at the season."""
    book = open_book(tmp_path, TODAY, season_notebook())
    made = BookWindow(book, Settings(tmp_path / "desk.ini"))
    made.show()
    made.activateWindow()
    settle(20)
    look_at(made, ON)
    yield made
    settle(20)
    made.close()
    put_away(made)


def look_at(window: BookWindow, on: date) -> None:
    """Turn to the season as seen from a day."""
    window.look_at(on)
    QTest.keyClick(window, Qt.Key.Key_5, Qt.KeyboardModifier.ControlModifier)
    settle(50)


def season_of(window: BookWindow) -> SeasonPage:
    """The season page."""
    page = window.page("Season")
    assert isinstance(page, SeasonPage)
    return page


def due(window: BookWindow, kind: str) -> DueRow:
    """The first line of a kind."""
    year = season_of(window).made("Year")
    assert isinstance(year, YearSection)
    return rows_of(year, kind)[0]


def plugs_of(window: BookWindow) -> PlugsPage:
    """The plugs page, which the book is open at."""
    page = window.page("Plugs")
    assert isinstance(page, PlugsPage)
    assert (window.place, page.section) == ("Plugs", "Columns")
    return page


def enter_plug(window: BookWindow) -> PlugsPage:
    """Tick the plugs off, and choose the second spot by keyboard."""
    tick(due(window, "plug"))
    key(Qt.Key.Key_Tab)
    key(ENTER)
    settle(50)
    return plugs_of(window)


def test_a_plug_ticked_off_is_entered_at_its_spot_and_day(window: BookWindow) -> None:
    page = enter_plug(window)
    assert QApplication.focusWidget() is part(page, QLineEdit, "cores_thatch_in")
    assert page.columns.entry.spot_id() == "s2"
    assert page.place.id == "s2"
    assert text_of(page, "cores_date") == "1 Sep 2026"
    QTest.keyClicks(part(page, QLineEdit, "cores_thatch_in"), "0.6 0.7")
    key(ENTER)
    *_, core = window.book.notebook.cores.values()
    assert (core.spot, core.date, core.thatch_in) == ("s2", ON, (0.6, 0.7))


def test_a_plug_kept_before_leaves_the_form_for_the_new_one(window: BookWindow) -> None:
    window.select("cores", "c2")
    settle(20)
    assert plugs_of(window).columns.entry.panel.open_id == "c2"
    look_at(window, ON)
    page = enter_plug(window)
    assert not page.columns.entry.panel.is_open
    assert (page.columns.entry.spot_id(), text_of(page, "cores_date")) == ("s2", "1 Sep 2026")


def test_the_day_that_was_typed_of_a_plug_stays(window: BookWindow) -> None:
    window.turn_to("Plugs")
    settle(20)
    type_into(plugs_of(window), "cores_date", "30 Aug 2026")
    look_at(window, ON)
    page = enter_plug(window)
    assert text_of(page, "cores_date") == "30 Aug 2026"


def test_of_a_coming_day_the_plug_is_of_today(window: BookWindow) -> None:
    look_at(window, TODAY + timedelta(days=3))
    page = enter_plug(window)
    assert text_of(page, "cores_date") == "20 Sep 2026"


@pytest.mark.parametrize(
    ("before", "on", "name"),
    [(SPRING, AUTUMN, CHECKLISTS[1]), (AUTUMN, SPRING, CHECKLISTS[0])],
)
def test_a_list_that_is_due_opens_at_that_list(
    window: BookWindow, before: date, on: date, name: ChecklistName
) -> None:
    """The other one was looked at before, in its own season."""
    look_at(window, before)
    page = season_of(window)
    page.turn_to("Checklists")
    page.turn_to("Year")
    look_at(window, on)
    tick(due(window, "check"))
    settle(20)
    shown = page.made("Checklists")
    assert isinstance(shown, ChecklistsSection)
    assert (window.place, page.section) == ("Season", "Checklists")
    assert part(shown, QLabel, "checklist_heading").text().lower().startswith(name.split()[0])
    chosen = [each for each in shown.lists.findChildren(QAbstractButton) if each.isChecked()]
    assert [each.text().lower() for each in chosen] == [name]
    assert QApplication.focusWidget() is part(shown, QCheckBox, "checklist_step_0_box")
