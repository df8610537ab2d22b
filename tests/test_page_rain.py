"""The entry of the owner's rain gauge."""

from datetime import date
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QTableWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.rain_entry import RainEntry
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.records import WeatherDay
from tests.desk_hand import child, press, type_in, words
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")


@pytest.fixture
def entry(qtbot: QtBot, empty_book: OpenNotebook) -> RainEntry:
    """The entry, shown and told of every change."""
    made = RainEntry(empty_book)
    qtbot.addWidget(made)
    made.resize(560, 400)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    empty_book.subscribe(lambda _: made.refresh())
    return made


def listed(entry: RainEntry) -> list[tuple[str, str, str]]:
    """The readings as listed."""
    table = cast(QTableWidget, child(entry, "rain_list"))
    texts = [
        [item.text() if (item := table.item(row, column)) else "" for column in range(3)]
        for row in range(table.rowCount())
    ]
    return [(row[0], row[1], row[2]) for row in texts]


@pytest.mark.parametrize(
    ("typed", "inches"), [("0.4", 0.4), ("3/8", 0.375), ("9 mm", 9 / 25.4), ("0", 0.0)]
)
def test_enter_keeps_todays_rain(
    entry: RainEntry, empty_book: OpenNotebook, typed: str, inches: float
) -> None:
    type_in(entry, "rain_gauge_in", typed, Qt.Key.Key_Return)
    held = empty_book.notebook.weather[DAY.isoformat()]
    assert held.gauge_in == pytest.approx(inches)
    assert "noted" in words(entry, "rain_said")
    assert cast(QLineEdit, child(entry, "rain_gauge_in")).text() == ""
    empty_book.undo()
    assert not empty_book.notebook.weather


def test_a_reading_stands_beside_the_stations_rain(
    entry: RainEntry, empty_book: OpenNotebook
) -> None:
    on = date(2026, 11, 20)
    station = WeatherDay(id=on.isoformat(), date=on, rain_in=0.3, tmax_f=50.0)
    empty_book.edit(put(empty_book.notebook, "weather", station), "weather")
    type_in(entry, "rain_date", "20 Nov 2026")
    type_in(entry, "rain_gauge_in", "0.5", Qt.Key.Key_Return)
    type_in(entry, "rain_gauge_in", "0.1", Qt.Key.Key_Return)
    assert listed(entry) == [("25 Nov 2026", "0.10 in", "–"), ("20 Nov 2026", "0.50 in", "0.30 in")]
    entry.table.pick(on.isoformat())
    QTest.keyClick(entry.table, Qt.Key.Key_Delete)
    assert empty_book.notebook.weather[on.isoformat()] == station
    assert len(listed(entry)) == 1


def test_a_reading_comes_back_into_the_form(entry: RainEntry, empty_book: OpenNotebook) -> None:
    type_in(entry, "rain_gauge_in", "0.4", Qt.Key.Key_Return)
    entry.table.pick(DAY.isoformat())
    QTest.keyClick(entry.table, Qt.Key.Key_Return)
    field = cast(QLineEdit, child(entry, "rain_gauge_in"))
    assert field.text() == "0.4"
    type_in(entry, "rain_gauge_in", "0.6", Qt.Key.Key_Return)
    assert [each.gauge_in for each in empty_book.notebook.weather.values()] == [0.6]


@pytest.mark.parametrize(
    ("on", "typed", "said"),
    [
        ("25 Nov 2026", "", "missing"),
        ("25 Nov 2026", "-1", "enter 0 in or more"),
        ("26 Nov 2026", "0.4", "in the future"),
        ("25 Nov 2026", "plenty", "not a length"),
    ],
)
def test_what_cannot_be_is_refused_in_place(
    entry: RainEntry, empty_book: OpenNotebook, on: str, typed: str, said: str
) -> None:
    type_in(entry, "rain_date", on)
    type_in(entry, "rain_gauge_in", typed, Qt.Key.Key_Return)
    assert not empty_book.notebook.weather
    assert said in words(entry, "rain_date_problem") + words(entry, "rain_gauge_in_problem")


def test_thirteen_inches_are_asked_about_once(entry: RainEntry, empty_book: OpenNotebook) -> None:
    type_in(entry, "rain_gauge_in", "13", Qt.Key.Key_Return)
    assert not empty_book.notebook.weather
    press(Qt.Key.Key_Space)
    QTest.mouseClick(child(entry, "rain_keep"), Qt.MouseButton.LeftButton)
    assert empty_book.notebook.weather[DAY.isoformat()].gauge_in == 13
