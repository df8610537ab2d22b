"""The year on the season page: its picture, its steps, what is missing, and where it leads."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.charts.marks import Frame
from lawnbook.charts.season_hits import season_hits
from lawnbook.charts.season_layout import lay_out_season
from lawnbook.desk import calendar_out
from lawnbook.desk.pages.chart_pointer import ChartPointer
from lawnbook.desk.pages.season import SeasonPage
from lawnbook.desk.pages.season_due_words import missing
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.desk.printing import Said
from lawnbook.desk.settings import Settings
from lawnbook.plan.make import make_plan
from lawnbook.plan.season_year import season_year
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import new_notebook
from lawnbook.yard.records import Season
from tests.page_book import (
    click,
    open_book,
    out_of_reading_order,
    part,
    put_away,
    settle,
    text_of,
    unnamed,
)
from tests.plan_yards import yard
from tests.season_book import ON, rows_of, season_notebook, shown_section

Shown = tuple[YearSection, OpenNotebook]


@pytest.fixture
def shown(qapp: QApplication, tmp_path: Path) -> Iterator[Shown]:
    """The section on the first of September, which is today, its picture drawn."""
    for section, book in shown_section(qapp, tmp_path, season_notebook()):
        settle(50)
        yield section, book


def pointer(section: YearSection) -> ChartPointer:
    """What finds marks under the mouse."""
    return part(section, ChartPointer, "season_chart_pointer")


def click_mark(section: YearSection, book: OpenNotebook, key: str) -> None:
    """Click the mark that stands for a record, where it is drawn."""
    over = pointer(section)
    scale = over.logicalDpiX() / 72
    frame = Frame(over.width() / scale, over.height() / scale)
    year = season_year(book.notebook, make_plan(book.notebook, ON), section.picture.year)
    hit = next(each for each in season_hits(year, frame) if key in each.key.split())
    page = lay_out_season(year, frame)
    assert page.top < hit.top < frame.height
    x, y = (hit.left + hit.right) / 2 * scale, (hit.top + hit.bottom) / 2 * scale
    at = over.rect().topLeft()
    at.setX(round(x))
    at.setY(round(y))
    QTest.mouseClick(over, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)


@pytest.mark.parametrize(
    ("key", "selected", "asked"),
    [
        ("feedings/f2026-05-02", ["feedings", "f2026-05-02"], []),
        ("cores/c2", ["cores", "c2"], []),
        ("waterings/w2026-08-20", ["waterings", "w2026-08-20"], ["Log"]),
        ("care/m1", ["care", "m1"], ["Log"]),
    ],
)
def test_a_click_on_a_mark_leads_to_its_record(
    shown: Shown, key: str, selected: list[str], asked: list[str]
) -> None:
    section, book = shown
    told: list[str] = []
    led: list[str] = []
    section.selected.connect(lambda table, record_id: told.extend((table, record_id)))
    section.asked.connect(led.append)
    click_mark(section, book, key)
    assert (told, led) == (selected, asked)


def test_a_record_selected_elsewhere_is_ringed(shown: Shown) -> None:
    section, _ = shown
    section.select("care", "m1")
    assert ["care/m1" in hit.key for hit in pointer(section).marked()] == [True]
    section.select("", "")
    assert pointer(section).marked() == ()


def test_the_arrows_read_the_picture(shown: Shown) -> None:
    section, _ = shown
    canvas = part(section, QWidget, "season_chart_canvas")
    assert canvas.accessibleDescription().startswith("The year 2026 as of 1 Sep 2026.")
    canvas.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(canvas, Qt.Key.Key_Right)
    assert canvas.accessibleDescription().startswith("January 2026")
    QTest.keyClick(canvas, Qt.Key.Key_End)
    assert "to come" in canvas.accessibleDescription()


def test_the_years_are_stepped_and_led_back_from(shown: Shown) -> None:
    section, _ = shown
    assert text_of(section, "season_year_label") == "2026"
    assert part(section, QPushButton, "season_year_home").isHidden()
    click(section, "season_year_before")
    click(section, "season_year_before")
    assert text_of(section, "season_year_label") == "2024"
    click(section, "season_year_after")
    assert text_of(section, "season_year_label") == "2025"
    click(section, "season_year_home")
    assert text_of(section, "season_year_label") == "2026"


def test_the_year_stepped_to_stays_through_edits_and_not_through_another_day(shown: Shown) -> None:
    section, book = shown
    click(section, "season_year_before")
    section.show_plan(make_plan(book.notebook, ON))
    assert section.picture.year == 2025
    section.show_plan(make_plan(book.notebook, date(2026, 8, 1)))
    assert section.picture.year == 2026


def test_the_southern_year_has_both_numbers(qapp: QApplication, tmp_path: Path) -> None:
    for section, _ in shown_section(qapp, tmp_path, yard(latitude_deg=-33.0)):
        assert text_of(section, "season_year_label") == "2026–27"


def test_the_calendar_is_asked_for_and_what_became_of_it_said(
    shown: Shown, monkeypatch: pytest.MonkeyPatch
) -> None:
    section, _ = shown
    monkeypatch.setattr(calendar_out, "ask_calendar", lambda *_: Said("No room left.", "refuse"))
    click(section, "season_calendar")
    assert text_of(section, "season_said") == "No room left."
    monkeypatch.setattr(calendar_out, "ask_calendar", lambda *_: None)
    click(section, "season_calendar")
    assert text_of(section, "season_said") == "No room left."


def test_an_empty_notebook_says_what_to_enter_and_leads_there(
    qapp: QApplication, tmp_path: Path, qtbot: QtBot
) -> None:
    for section, _ in shown_section(qapp, tmp_path, new_notebook("Home")):
        assert rows_of(section) == []
        assert part(section, QWidget, "season_nothing").isVisible()
        with qtbot.waitSignal(section.asked) as told:
            click(section, "season_missing_0")
        assert told.args == ["Yard"]


def test_what_is_missing_is_told_with_its_page() -> None:
    book = yard(climate=[], season=Season(start="04-15", end="10-15"))
    winter = date(2026, 1, 10)
    rows = missing(book, make_plan(book, winter))
    assert [each.page for each in rows] == ["Yard", "Feed", ""]
    assert "15 Apr to 15 Oct: no watering is planned for 10 Jan 2026" in rows[-1].sentence
    full = season_notebook()
    assert missing(full, make_plan(full, ON)) == ()


def test_names_and_the_order_of_tab(shown: Shown) -> None:
    section, _ = shown
    assert unnamed(section) == []
    assert out_of_reading_order(section, 8) == []


def test_a_line_leads_to_another_section_of_the_page(
    qapp: QApplication, tmp_path: Path, qtbot: QtBot
) -> None:
    """A checklist opens on the page itself; what is missing is the window's to turn to."""
    on = date(2026, 10, 12)
    book = open_book(tmp_path, on, season_notebook())
    front = replace(book.notebook.zones["z1"], sprinklers="in-ground")
    book.edit({("zones", "z1"): (book.notebook.zones["z1"], front)}, "sprinklers")
    page = SeasonPage(book, Settings(tmp_path / "desk.ini"))
    page.resize(620, 900)
    page.show()
    page.show_plan(make_plan(book.notebook, on))
    settle()
    year = page.made("Year")
    assert isinstance(year, YearSection)
    (row,) = rows_of(year, "check")
    assert row.button.text() == "Open checklist"
    QTest.mouseClick(row.button, Qt.MouseButton.LeftButton)
    assert page.section == "Checklists"
    with qtbot.waitSignal(page.asked) as told:
        year.asked.emit("Feed")
    assert told.args == ["Feed"]
    put_away(page)
    book.close()
