"""The Yard page, driven as a person would."""

from datetime import date
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.yard import OVERVIEW, YardPage
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import put
from lawnbook.yard.records import ClimateMonth
from tests.desk_hand import child, press, shown, type_in, words
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


LEFT = Qt.MouseButton.LeftButton


def test_the_list_of_what_is_due_is_the_plans(qtbot: QtBot, book: OpenNotebook) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    plan = make_plan(book.notebook, DAY)
    rows = [each for each in page.findChildren(QPushButton) if each.objectName().startswith("due_")]
    assert [row.accessibleDescription() for row in rows] == [due.why for due in plan.due]
    told: list[tuple[str, str]] = []
    page.selected.connect(lambda *chosen: told.append(chosen))
    test = next(row for row in rows if row.objectName() == "due_test")
    QTest.mouseClick(test, LEFT)
    named = next(due for due in plan.due if due.kind == "test").zones[0]
    assert [book.notebook.zones[record_id].name for _, record_id in told] == [named]


def test_a_due_plug_leads_to_the_spot_that_is_due(qtbot: QtBot, book: OpenNotebook) -> None:
    """The second spot of its zone: the first was plugged two weeks before."""
    names = {each.name: each for each in book.notebook.spots.values()}
    first, due = names["letterbox"], names["steps"]
    assert first.zone == due.zone
    for core in list(book.notebook.cores.values()):
        if core.spot == due.id and core.date.year == 2026:
            book.edit(remove(book.notebook, "cores", core.id), "Remove a plug")
    page = YardPage(book)
    shown(qtbot, page, book)
    page.show_plan(make_plan(book.notebook, date(2026, 10, 5)))
    told: list[tuple[str, str]] = []
    page.selected.connect(lambda *chosen: told.append(chosen))
    QTest.mouseClick(child(page, "due_plug"), LEFT)
    assert told == [("spots", due.id)]


def test_the_yards_facts_are_kept_field_by_field(qtbot: QtBot, book: OpenNotebook) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    type_in(page, "yard_latitude_deg", "40.5")
    type_in(page, "yard_irrigation_season", "1 May to 30 Sep")
    yard = book.notebook.yard
    assert yard.latitude_deg == 40.5
    assert yard.irrigation_season is not None
    assert (yard.irrigation_season.start, yard.irrigation_season.end) == ("05-01", "09-30")
    type_in(page, "yard_latitude_deg", "95")
    assert book.notebook.yard.latitude_deg == 40.5
    assert "90" in words(page, "yard_latitude_deg_problem")
    book.undo()
    assert book.notebook.yard.latitude_deg == 40.5
    book.undo()
    assert book.notebook.yard.latitude_deg == 41.2


def test_local_watering_days_are_ticked(qtbot: QtBot, book: OpenNotebook) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    QTest.mouseClick(child(page, "days_Sat"), LEFT)
    QTest.mouseClick(child(page, "days_Tue"), LEFT)
    assert book.notebook.water_rules.days == ("Tue", "Sat")
    type_in(page, "water_rules_hours", "18:00-08:00")
    assert book.notebook.water_rules.hours == ("18:00-08:00",)


def test_a_cell_of_the_climate_is_one_change(qtbot: QtBot, book: OpenNotebook) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    type_in(page, "climate_tmean_f_7", "74.5")
    type_in(page, "climate_eto_in_per_day_7", "0.26")
    month = book.notebook.climate["07"]
    assert (month.month, month.tmean_f, month.eto_in_per_day) == (7, 74.5, 0.26)
    book.undo()
    assert book.notebook.climate["07"].eto_in_per_day is None
    assert cast(QLineEdit, child(page, "climate_eto_in_per_day_7")).text() == ""


def test_a_wrong_cell_of_the_climate_stays_until_it_is_mended(
    qtbot: QtBot, book: OpenNotebook
) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    cells = {month: f"climate_tmean_f_{month}" for month in (6, 7, 8)}
    type_in(page, cells[7], "warm")
    type_in(page, cells[8], "hot")
    type_in(page, cells[6], "68")
    wrong = cast(QLineEdit, child(page, cells[7]))
    assert (wrong.text(), wrong.property("state")) == ("warm", "refuse")
    assert book.notebook.climate["06"].tmean_f == 68
    assert "hot" in words(page, "climate_problem")
    type_in(page, cells[8], "72")
    assert "warm" in words(page, "climate_problem")
    wrong.setFocus()
    QTest.keyClick(wrong, Qt.Key.Key_Escape)
    assert (wrong.text(), wrong.property("state")) == ("", "")
    assert words(page, "climate_problem") == ""
    assert set(book.notebook.climate) == {"06", "08"}


@pytest.mark.parametrize(
    ("months", "said"), [(0, "No weather yet"), (5, "7 months have no"), (12, "plan goes by")]
)
def test_what_the_plan_goes_by_without_weather_is_said(
    qtbot: QtBot, empty_book: OpenNotebook, months: int, said: str
) -> None:
    rows = [
        ClimateMonth(id=f"{each:02d}", month=each, eto_in_per_day=0.1)
        for each in range(1, months + 1)
    ]
    empty_book.edit(put(empty_book.notebook, "climate", *rows), "climate")
    page = YardPage(empty_book)
    shown(qtbot, page, empty_book)
    page.turn_to(OVERVIEW)
    assert said in words(page, "weather_words")


def test_a_doubtful_climate_figure_is_asked_about_once(qtbot: QtBot, book: OpenNotebook) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    type_in(page, "climate_eto_in_per_day_7", "0.8", Qt.Key.Key_Return)
    assert book.notebook.climate == {}
    assert "Press Enter to keep it all the same." in words(page, "climate_problem")
    press(Qt.Key.Key_Return)
    assert book.notebook.climate["07"].eto_in_per_day == 0.8
    assert words(page, "climate_problem") == ""
    type_in(page, "climate_eto_in_per_day_7", "7", Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    assert book.notebook.climate["07"].eto_in_per_day == 0.8


def test_a_weather_table_is_taken_in(qtbot: QtBot, book: OpenNotebook, tmp_path: Path) -> None:
    page = YardPage(book)
    shown(qtbot, page, book)
    count = len(book.notebook.weather)
    table = tmp_path / "late.csv"
    table.write_text("date,tmin_f,tmax_f,rain_in\n2026-11-20,30,48,0.1\n2026-11-21,31,50,\n")
    page.read_weather(table)
    assert len(book.notebook.weather) == count + 2
    assert "2 days of weather taken in" in words(page, "weather_said")
    assert "21 Nov 2026" in words(page, "weather_words")
    book.undo()
    assert len(book.notebook.weather) == count
