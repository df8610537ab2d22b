"""The weather on the Yard page: a table read in place, what is asked, and nothing lost."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton, QTableWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.weather_card import WeatherCard
from lawnbook.desk.pages.yard import OVERVIEW, YardPage
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.records import WeatherDay
from tests.desk_hand import child, shown, words
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton


def opened(qtbot: QtBot, book: OpenNotebook) -> YardPage:
    """The page, shown at its overview."""
    page = YardPage(book)
    shown(qtbot, page, book)
    page.turn_to(OVERVIEW)
    return page


def written(folder: Path, text: str) -> Path:
    """A table as a file."""
    path = folder / "table.csv"
    path.write_text(text, encoding="utf-8")
    return path


def click(page: YardPage, name: str) -> None:
    """Press a button of the page."""
    QTest.mouseClick(child(page, name), LEFT)


def label(page: YardPage, name: str) -> str:
    """What a button says."""
    return cast(QPushButton, child(page, name)).text()


def test_bad_lines_are_told_and_the_good_days_taken_once_the_owner_agrees(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    rows = ["2026-11-20,30,48", "2026-11-21,lots,50", "2026-11-22,60,40", "2027-01-01,30,40"]
    page.read_weather(written(tmp_path, "\n".join(["date,tmin_f,tmax_f", *rows])))
    assert not empty_book.notebook.weather
    said = words(page, "weather_faults")
    assert "3 lines are left out" in said
    assert "Line 3: Lowest temperature must be a number" in said
    assert "Line 4: Lowest temperature of 60°F is above the highest" in said
    assert "\nDate: 1 Jan 2027 is in the future" in said
    assert label(page, "take_weather") == "Take in 1 good day"
    click(page, "take_weather")
    assert list(empty_book.notebook.weather) == ["2026-11-20"]
    assert "1 day of weather taken in" in words(page, "weather_said")
    assert child(page, "weather_reading").isHidden()
    empty_book.undo()
    assert not empty_book.notebook.weather


def test_what_was_understood_and_missing_is_told_of_a_table_taken_in_at_once(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    rows = ["2026-11-20,4,12", "2026-11-21,-9999,13"]
    page.read_weather(written(tmp_path, "\n".join(["date,tmin_c,tmax_c", *rows])))
    said = words(page, "weather_said")
    assert said.startswith("2 days of weather taken in. Daily table in °C;")
    assert "1 reading marked as missing" in said


def test_temperatures_without_a_latitude_say_what_they_lack(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    assert empty_book.notebook.yard.latitude_deg is None
    page.read_weather(written(tmp_path, "date,tmin_f,tmax_f\n2026-11-20,30,48\n"))
    assert "once the yard's latitude is entered" in words(page, "weather_methods")
    yard = replace(empty_book.notebook.yard, latitude_deg=41.0)
    empty_book.edit(put(empty_book.notebook, "yard", yard), "latitude")
    assert words(page, "weather_methods") == "ETo: 1 day by Hargreaves."


def test_a_table_none_of_whose_columns_is_known_gives_no_days(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    page.read_weather(written(tmp_path, "date,sky,mood\n2026-11-20,70,50\n"))
    assert 'there is no column "sky"' in words(page, "weather_faults")
    assert "Nothing of it can be taken in" in words(page, "weather_said")
    assert child(page, "take_weather").isHidden()


def test_leaving_it_takes_nothing(qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path) -> None:
    page = opened(qtbot, empty_book)
    before = empty_book.notebook
    page.read_weather(written(tmp_path, "date,rain_in\n2026-11-20,0.1\n2026-11-21,x\n"))
    click(page, "leave_weather")
    assert empty_book.notebook is before
    assert "Nothing was taken in" in words(page, "weather_said")


def test_all_bad_lines_are_in_the_fold(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    rows = [f"2026-11-{n:02d},-1" for n in range(1, 9)]
    page.read_weather(written(tmp_path, "\n".join(["date,rain_in", *rows])))
    assert "Nothing of it can be taken in" in words(page, "weather_said")
    assert child(page, "take_weather").isHidden()
    click(page, "weather_all_faults_fold")
    assert words(page, "weather_listed").count("Line ") == 8


def test_units_are_asked_and_answered_by_buttons(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    page.read_weather(written(tmp_path, "date,tmin,tmax,rain\n2026-11-20,5,12,3\n"))
    assert words(page, "question_temperature") == "tmin 5: 5 °F, or 5 °C?"
    assert child(page, "take_weather").isHidden()
    click(page, "answer_temperature_c")
    assert not empty_book.notebook.weather
    click(page, "answer_depth_mm")
    day = empty_book.notebook.weather["2026-11-20"]
    assert day.tmax_f == pytest.approx(53.6)
    assert day.rain_in == pytest.approx(3 / 25.4, abs=1e-4)


def test_swapped_columns_are_exchanged_on_request(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    rows = [f"2026-11-{n:02d},{60 + n},{40 + n}" for n in range(1, 6)]
    page.read_weather(written(tmp_path, "\n".join(["date,tmin_f,tmax_f", *rows])))
    assert "look swapped" in words(page, "question_swap")
    click(page, "answer_swap_yes")
    assert empty_book.notebook.weather["2026-11-01"].tmin_f == 41
    assert "5 days of weather taken in" in words(page, "weather_said")


def test_of_many_stations_one_is_chosen_from_a_list(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    lines = [f"USC0000000{n},20260701,PRCP,{n}0,,,7,0700" for n in range(1, 7)]
    page.read_weather(written(tmp_path, "\n".join(lines)))
    box = child(page, "answer_station")
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    assert len(empty_book.notebook.weather) == 1


def test_celsius_under_fahrenheit_is_offered_to_be_mended(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    rows = [f"2026-0{month}-{day:02},12,27" for month in (6, 7, 8) for day in range(1, 31)]
    page.read_weather(written(tmp_path, "\n".join(["date,tmin_f,tmax_f", *rows])))
    assert not empty_book.notebook.weather
    assert "look like °C, not °F" in words(page, "question_temperature")
    click(page, "answer_temperature_c")
    assert empty_book.notebook.weather["2026-06-01"].tmax_f == pytest.approx(80.6)


def test_doubtful_values_are_kept_once_confirmed(
    qtbot: QtBot, book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, book)
    page.read_weather(written(tmp_path, "date,rain_in\n2026-11-24,13\n"))
    assert "unusually high" in words(page, "weather_doubts")
    assert "2026-11-24" not in book.notebook.weather
    click(page, "take_weather")
    assert book.notebook.weather["2026-11-24"].rain_in == 13


def test_a_low_that_would_stand_above_the_high_held_is_left_out(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    on = date(2026, 11, 20)
    cold = WeatherDay(id=on.isoformat(), date=on, tmax_f=40.0)
    empty_book.edit(put(empty_book.notebook, "weather", cold), "weather")
    page.read_weather(written(tmp_path, "date,tmin_f\n2026-11-20,60\n2026-11-21,30\n"))
    assert "20 Nov 2026: Lowest temperature of 60°F is above" in words(page, "weather_faults")
    click(page, "take_weather")
    assert empty_book.notebook.weather[on.isoformat()] == cold
    assert empty_book.notebook.weather["2026-11-21"].tmin_f == 30


@pytest.mark.parametrize("text", ["rain_in\n0.1\n", "date,rain_in,rain_in\n2026-11-20,1,2\n"])
def test_what_is_no_weather_is_refused_with_its_name(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path, text: str
) -> None:
    page = opened(qtbot, empty_book)
    page.read_weather(written(tmp_path, text))
    assert not empty_book.notebook.weather
    assert words(page, "weather_said").startswith("table.csv line 1: the column")


def test_a_table_that_is_here_already_changes_nothing(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    path = written(tmp_path, "date,rain_in\n2026-11-20,0.1\n")
    page.read_weather(path)
    before = empty_book.notebook
    page.read_weather(path)
    assert empty_book.notebook is before
    assert "here already" in words(page, "weather_said")


def test_how_eto_is_known_and_the_latest_days_are_shown(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    first = date(2026, 11, 1)
    days = [
        WeatherDay(id=on.isoformat(), date=on, reported_eto_in=0.1, rain_in=0.3, gauge_in=gauge)
        for n, gauge in ((0, None), (1, 0.45), (3, None))
        for on in (first + timedelta(days=n),)
    ]
    empty_book.edit(put(empty_book.notebook, "weather", *days), "weather")
    assert words(page, "weather_methods") == (
        "ETo: 3 days as reported, 1 filled with the month's mean."
    )
    table = cast(QTableWidget, child(page, "weather_days"))
    cells = [
        [item.text() if (item := table.item(row, column)) else "" for column in range(5)]
        for row in range(table.rowCount())
    ]
    assert cells == [
        ["4 Nov 2026", "– / –", "0.30", "0.10", "as reported"],
        ["3 Nov 2026", "– / –", "–", "0.10", "filled with the month's mean"],
        ["2 Nov 2026", "– / –", "0.45 gauge", "0.10", "as reported"],
        ["1 Nov 2026", "– / –", "0.30", "0.10", "as reported"],
    ]


def test_a_table_may_be_dropped_on_the_card(
    qtbot: QtBot, empty_book: OpenNotebook, tmp_path: Path
) -> None:
    page = opened(qtbot, empty_book)
    card = page.findChild(WeatherCard)
    assert card is not None
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(written(tmp_path, "date,rain_in\n2026-11-20,0.1\n")))])
    copy, none = Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(5, 5), copy, data, LEFT, none)
    card.dragEnterEvent(enter)
    assert enter.isAccepted()
    card.dropEvent(QDropEvent(QPoint(5, 5).toPointF(), copy, data, LEFT, none))
    assert empty_book.notebook.weather["2026-11-20"].rain_in == 0.1
    other = QMimeData()
    other.setUrls([QUrl.fromLocalFile(str(tmp_path / "picture.png"))])
    enter = QDragEnterEvent(QPoint(5, 5), copy, other, LEFT, none)
    enter.ignore()
    card.dragEnterEvent(enter)
    assert not enter.isAccepted()


def test_the_sample_yard_tells_its_weather(qtbot: QtBot, book: OpenNotebook) -> None:
    page = opened(qtbot, book)
    assert words(page, "weather_words").endswith(f"{DAY.year}.")
    assert words(page, "weather_methods").startswith("ETo: ")
