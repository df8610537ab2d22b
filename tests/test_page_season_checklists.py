"""The checklists' section: ticks by hand, days, what was found, the season before, no frost."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.season_checklists import ChecklistsSection
from lawnbook.desk.settings import Settings
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import CatchTest, ClimateMonth, Tick
from tests.desk_hand import type_in
from tests.page_book import click, part, unnamed
from tests.small_book import small_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
TODAY = date(2026, 4, 20)
LAST = Tick(id="old", date=date(2025, 4, 12), checklist="spring start-up", step="drains")
LEAKS = 3
"""The place of the step that looks for leaks."""


def list_notebook() -> Notebook:
    """One zone with lines in the ground, and a tick of the spring before."""
    held = small_notebook()
    return apply(held, put(held, "ticks", LAST))


@pytest.fixture
def held(tmp_path: Path) -> Iterator[OpenNotebook]:
    """That notebook, opened."""
    book = OpenNotebook.create(tmp_path / "list.lawnbook", list_notebook(), TODAY)
    yield book
    book.close()


@pytest.fixture
def section(qtbot: QtBot, held: OpenNotebook, tmp_path: Path) -> ChecklistsSection:
    """The section, shown again after every change."""
    made = ChecklistsSection(held, Settings(tmp_path / "desk.ini"))
    qtbot.addWidget(made)
    made.resize(600, 1100)
    made.show()
    made.show_plan(make_plan(held.notebook, TODAY))
    held.subscribe(lambda _: made.show_plan(make_plan(held.notebook, TODAY)))
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def box(section: ChecklistsSection, number: int) -> QCheckBox:
    """The box of a step, by its place."""
    return part(section, QCheckBox, f"checklist_step_{number}_box")


def said(section: ChecklistsSection, name: str) -> str:
    """A label's words, empty where it is hidden."""
    label = part(section, QLabel, name)
    return "" if label.isHidden() else label.text()


def this_season(book: OpenNotebook) -> list[Tick]:
    """The ticks but the old one."""
    return [each for each in book.notebook.ticks.values() if each.id != "old"]


def test_spring_comes_first_in_spring_with_its_caution(section: ChecklistsSection) -> None:
    assert said(section, "checklist_heading") == "Spring 2026"
    assert said(section, "checklist_count") == "0 of 9 done"
    assert "licensed tester" in said(section, "checklist_note")
    assert not unnamed(section)
    for each in section.findChildren(QLabel):
        if each.isVisible():
            assert each.height() >= each.heightForWidth(each.width()) - 1, each.text()


def test_a_step_is_ticked_by_the_space_bar_and_taken_back(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    first = box(section, 0)
    first.setFocus()
    QTest.keyClick(first, Qt.Key.Key_Space)
    assert [(each.step, each.date) for each in this_season(held)] == [("shut-off", TODAY)]
    assert said(section, "checklist_count") == "1 of 9 done"
    assert said(section, "checklist_step_0_done") == "done 20 Apr 2026"
    QTest.keyClick(first, Qt.Key.Key_Space)
    assert not this_season(held)
    held.undo()
    assert len(this_season(held)) == 1


def test_what_was_found_on_another_day_becomes_care_in_the_same_step(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    stem = f"checklist_step_{LEAKS}"
    click(section, f"{stem}_more")
    type_in(section, f"{stem}_day", "18 Apr 2026")
    type_in(section, f"{stem}_cost", "12")
    type_in(section, f"{stem}_found", "a joint drips", Qt.Key.Key_Return)
    (ticked,) = this_season(held)
    care = held.notebook.care[ticked.care or ""]
    assert (ticked.date, ticked.found) == (date(2026, 4, 18), "a joint drips")
    assert (care.kind, care.note, care.cost) == ("repair", "a joint drips", 12)
    assert said(section, f"{stem}_done") == "done 18 Apr 2026; found: a joint drips"
    assert held.undo_label == "tick of leaks"
    held.undo()
    assert not held.notebook.care
    assert not this_season(held)


@pytest.mark.parametrize(
    ("field", "typed", "trouble"),
    [
        ("day", "12 Apr 2025", "this list is that of spring 2026"),
        ("day", "soon", "is not a date"),
        ("day", "1 May 2026", "in the future"),
        ("cost", "lots", "is not a number"),
        ("cost", "12", "What was found: say it"),
    ],
)
def test_what_cannot_be_kept_is_said_and_stays_typed(
    section: ChecklistsSection, held: OpenNotebook, field: str, typed: str, trouble: str
) -> None:
    stem = f"checklist_step_{LEAKS}"
    click(section, f"{stem}_more")
    type_in(section, f"{stem}_{field}", typed, Qt.Key.Key_Return)
    assert trouble in said(section, f"{stem}_trouble")
    assert not this_season(held)


def test_the_season_before_can_be_looked_at(section: ChecklistsSection) -> None:
    click(section, "checklist_before")
    assert said(section, "checklist_heading") == "Spring 2025"
    assert said(section, "checklist_count") == "1 of 9 done"
    assert box(section, 1).isChecked()
    click(section, "checklist_before")
    assert said(section, "checklist_heading") == "Spring 2026"


def test_winter_says_to_hire_it_out_first_and_without_frost_that_it_is_not_needed(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    click(section, "checklist_section_winter blow-out")
    assert said(section, "checklist_note").startswith("Hire it out")
    months = [ClimateMonth(id=f"{m:02d}", month=m, tmean_f=65.0) for m in range(1, 13)]
    held.edit(put(held.notebook, "climate", *months), "climate")
    assert said(section, "checklist_note").startswith("Not needed here")
    assert not box(section, 0).isVisible()
    click(section, "checklist_show")
    assert box(section, 0).isVisible()


def test_cans_are_led_to_and_a_test_of_this_spring_counts_as_done(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    heard: list[str] = []
    section.asked.connect(heard.append)
    lead = part(section, QPushButton, "checklist_step_8_lead")
    QTest.mouseClick(lead, Qt.MouseButton.LeftButton)
    assert heard == ["Can"]
    test = CatchTest(id="t", date=TODAY, zone="front", run_minutes=20.0, depths_in=(0.2, 0.3))
    held.edit(put(held.notebook, "catch_tests", test), "catch test")
    last = box(section, 8)
    assert last.isChecked()
    assert said(section, "checklist_step_8_done") == "done by the test of 20 Apr 2026"
    last.setFocus()
    QTest.keyClick(last, Qt.Key.Key_Space)
    assert last.isChecked()


def test_a_yard_on_hoses_has_nothing_to_start_up(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    zone = replace(held.notebook.zones["front"], sprinklers="hose")
    held.edit(put(held.notebook, "zones", zone), "hose")
    assert "nothing to start up" in said(section, "checklist_note")
    assert said(section, "checklist_count") == ""


def test_on_an_earlier_day_a_step_of_a_later_tick_keeps_one_tick_and_what_was_found(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    click(section, f"checklist_step_{LEAKS}_more")
    type_in(section, f"checklist_step_{LEAKS}_found", "a cracked nozzle")
    type_in(section, f"checklist_step_{LEAKS}_cost", "12", Qt.Key.Key_Return)
    (before,) = (each for each in held.notebook.ticks.values() if each.id != LAST.id)
    earlier = date(2026, 4, 10)
    held.subscribe(lambda _: section.show_plan(make_plan(held.notebook, earlier)))
    section.show_plan(make_plan(held.notebook, earlier))
    assert not box(section, LEAKS).isChecked()
    done = part(section, QLabel, f"checklist_step_{LEAKS}_done")
    assert done.text() == "done 20 Apr 2026, after the day you look at"
    QTest.mouseClick(box(section, LEAKS), Qt.MouseButton.LeftButton)
    (after,) = (each for each in held.notebook.ticks.values() if each.id != LAST.id)
    assert (after.id, after.date, after.found) == (before.id, earlier, "a cracked nozzle")
    care = held.notebook.care[after.care or ""]
    assert (care.cost, care.date) == (12, earlier)


def test_on_an_earlier_day_the_day_of_a_step_begins_with_it(
    section: ChecklistsSection, held: OpenNotebook
) -> None:
    section.show_plan(make_plan(held.notebook, date(2026, 4, 10)))
    click(section, f"checklist_step_{LEAKS}_more")
    assert part(section, QLineEdit, f"checklist_step_{LEAKS}_day").text() == "10 Apr 2026"
