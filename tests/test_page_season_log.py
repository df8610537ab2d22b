"""The log: what it lists, by kind, zone and words; rows that open and go; the entry of care."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from types import MappingProxyType

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.season_log import EMPTY, NOT_FOUND, LogSection
from lawnbook.desk.settings import Settings
from lawnbook.plan.log_rows import KINDS, SEVERAL, LogRow, LogWords, found_in, log_of, words_of
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, apply, put, with_tables
from lawnbook.yard.records import (
    Care,
    CatchTest,
    Core,
    Feeding,
    Product,
    Record,
    SoilTest,
    Tick,
    Watering,
    WeatherDay,
    Zone,
)
from tests.desk_hand import type_in
from tests.page_book import click, part, unnamed
from tests.small_book import small_notebook

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")
TODAY = date(2026, 6, 15)
LEAKS = "Look at every joint, valve and box for leaks, then read the meter at rest"
BACK = Zone(id="back", name="Back", outline_ft=((30.0, 0.0), (60.0, 0.0), (30.0, 20.0)))


def log_notebook() -> Notebook:
    """One entry of each kind, a day apart, the newest first in the list below."""
    rows: list[tuple[str, Record]] = [
        ("zones", BACK),
        ("products", Product(id="p", name="Feather meal", n_pct=12.0)),
        ("waterings", Watering(id="w", date=date(2026, 6, 14), zone="front", minutes=30, cycles=2)),
        ("feedings", Feeding(id="f", date=date(2026, 6, 13), product="p",
                             pounds=MappingProxyType({"front": 3.0, "back": 1.5}))),
        ("cores", Core(id="c", date=date(2026, 6, 12), spot="elm", thatch_in=(0.5, 0.6))),
        ("care", Care(id="m", date=date(2026, 6, 11), kind="Mowed", zones=("back",))),
        ("care", Care(id="a", date=date(2026, 6, 10), kind="aeration", cost=80.0, note="two ways")),
        ("weather", WeatherDay(id="2026-06-09", date=date(2026, 6, 9), gauge_in=0.4)),
        ("weather", WeatherDay(id="2026-06-08", date=date(2026, 6, 8), rain_in=0.3)),
        ("catch_tests", CatchTest(id="t", date=date(2026, 6, 7), zone="back", run_minutes=20,
                                  depths_in=(0.2, 0.3))),
        ("soil_tests", SoilTest(id="s", date=date(2026, 6, 6), zone="front", ph=6.4)),
        ("ticks", Tick(id="k", date=date(2026, 6, 5), checklist="spring start-up", step="leaks",
                       found="a drip")),
    ]  # fmt: skip
    held = small_notebook()
    for table, record in rows:
        held = apply(held, put(held, table, record))
    return held


@pytest.fixture
def held(tmp_path: Path) -> Iterator[OpenNotebook]:
    """That notebook, opened."""
    book = OpenNotebook.create(tmp_path / "log.lawnbook", log_notebook(), TODAY)
    yield book
    book.close()


@pytest.fixture
def section(qtbot: QtBot, held: OpenNotebook, tmp_path: Path) -> LogSection:
    """The log over that notebook."""
    book = held
    made = LogSection(book, Settings(tmp_path / "desk.ini"))
    qtbot.addWidget(made)
    made.resize(600, 900)
    made.show()
    made.show_plan(make_plan(book.notebook, TODAY))
    book.subscribe(lambda _: made.show_plan(make_plan(book.notebook, TODAY)))
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def listed(section: LogSection) -> list[str]:
    """What each row says, the day left out."""
    model = section.table.model()
    return [
        " | ".join(str(model.index(row, column).data()) for column in range(1, 4))
        for row in range(model.rowCount())
    ]


def test_every_kind_is_listed_newest_first_in_words(section: LogSection) -> None:
    assert listed(section) == [
        "Watering | Front | 30 min in 2 cycles",
        "Feeding | Front, Back | 4.5 lb of Feather meal",
        "Plug | Elm | thatch 0.55 in",
        "Mowed | Back | ",
        "Aeration | whole yard | cost 80; two ways",
        "Rain gauge |  | 0.40 in",
        "Catch test | Back | 2 cans, 20 min",
        "Soil test | Front | pH 6.4",
        f"Spring start-up | whole yard | {LEAKS}; found: a drip",
    ]
    assert section.table.model().index(0, 0).data() == "14 Jun 2026"
    count = part(section, QLabel, "log_count")
    assert count.text() == "9 entries up to 15 Jun 2026"
    assert not unnamed(section)


@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_can_be_chosen_alone(section: LogSection, kind: str) -> None:
    box = section.kind
    box.setFocus()
    QTest.keyClicks(box, SEVERAL[kind])
    assert len(listed(section)) == 1
    notebook = log_notebook()
    rows = [each for each in log_of(notebook, TODAY) if each.kind == kind]
    assert [words_of(notebook, each).what for each in rows] == [listed(section)[0].split(" | ")[0]]


def test_a_zone_shows_its_own_entries_and_those_of_the_whole_yard(section: LogSection) -> None:
    section.zone.setFocus()
    QTest.keyClicks(section.zone, "Back")
    what = [each.split(" | ")[0] for each in listed(section)]
    assert "Watering" not in what
    assert {"Feeding", "Mowed", "Aeration", "Catch test"} <= set(what)


def test_words_are_looked_for_in_any_order_and_a_miss_says_so(
    section: LogSection, qtbot: QtBot
) -> None:
    section.search.setFocus()
    QTest.keyClicks(section.search, "WAYS aeration")
    qtbot.waitUntil(lambda: len(listed(section)) == 1)
    QTest.keyClicks(section.search, " zzz")
    qtbot.waitUntil(lambda: not listed(section))
    assert part(section, QLabel, "log_empty").text() == NOT_FOUND


def test_delete_takes_an_entry_out_and_undo_brings_it_back(
    section: LogSection, held: OpenNotebook
) -> None:
    book = held
    before = listed(section)
    section.table.setFocus()
    section.table.selectRow(5)
    QTest.keyClick(section.table, Qt.Key.Key_Delete)
    assert len(listed(section)) == len(before) - 1
    assert book.undo_label == "take out rain gauge of 9 Jun 2026"
    book.undo()
    assert listed(section) == before


def test_after_delete_the_next_entry_is_picked_so_that_delete_goes_on(
    section: LogSection,
) -> None:
    """The one that stood below; the last but one where the last went; a filter picks none."""
    section.table.setFocus()
    section.table.selectRow(6)
    picked: list[str] = []
    for _ in range(3):
        QTest.keyClick(section.table, Qt.Key.Key_Delete)
        row = section.table.picked_row()
        picked.append(row.table if row is not None else "")
    assert picked == ["soil_tests", "ticks", "weather"]
    offered = section.kind.findData("feeding")
    section.kind.setCurrentIndex(offered)
    section.kind.activated.emit(offered)
    assert len(listed(section)) == 1
    assert section.table.picked_row() is None


@pytest.mark.parametrize(
    ("text", "tables"),
    [
        ("2 jun 2026", ["waterings"]),
        ("2026-06-02", ["waterings"]),
        ("Jun 2nd, 2026", ["waterings"]),
        ("2 june 2026 front", ["waterings"]),
        ("2 jun 2026 elm", []),
        ("jun 2026", ["care", "waterings"]),
        ("watering jun 2026", ["waterings"]),
        ("22 Jun 2026", ["care"]),
        ("may 2026", ["feedings"]),
        ("31 jun 2026", []),
        ("2 jun", ["care", "waterings", "waterings"]),
    ],
)
def test_a_whole_day_in_the_search_is_that_day(text: str, tables: list[str]) -> None:
    """A month with its year is that month; less than that stays words to look for."""
    book = small_notebook()
    rows: list[tuple[str, Record]] = [
        ("care", Care(id="a", date=date(2026, 6, 22), kind="aeration")),
        ("waterings", Watering(id="w", date=date(2026, 6, 2), zone="front", minutes=30)),
        ("feedings", Feeding(id="f", date=date(2026, 5, 2), product="p",
                             pounds=MappingProxyType({"front": 3.0}))),
        ("waterings", Watering(id="v", date=date(2025, 6, 2), zone="front", minutes=30)),
    ]  # fmt: skip
    for table, record in rows:
        book = apply(book, put(book, table, record))
    listed = log_of(book, date(2026, 7, 1))
    found = [each.table for each in found_in(book, listed, text)]
    assert found == tables


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (0, ("zones", "front")),
        (1, ("feedings", "f")),
        (2, ("cores", "c")),
        (6, ("catch_tests", "t")),
    ],
)
def test_enter_turns_to_where_an_entry_is_kept(
    section: LogSection, row: int, told: tuple[str, str]
) -> None:
    heard: list[tuple[str, str]] = []
    section.selected.connect(lambda *where: heard.append(where))
    section.table.setFocus()
    section.table.selectRow(row)
    QTest.keyClick(section.table, Qt.Key.Key_Return)
    assert heard == [told]


def test_care_opens_in_the_form_above_and_is_changed_there(section: LogSection) -> None:
    section.table.setFocus()
    section.table.selectRow(4)
    QTest.keyClick(section.table, Qt.Key.Key_Return)
    assert section.entry_fold.is_unfolded
    assert part(section, QLineEdit, "log_care_cost").text() == "80"
    type_in(section, "log_care_cost", "95", Qt.Key.Key_Return)
    assert "Aeration | whole yard | cost 95; two ways" in listed(section)


def test_a_mowing_is_entered_with_its_zone_and_cost(section: LogSection) -> None:
    click(section, "log_care_part_fold")
    type_in(section, "log_care_kind", "mowing")
    type_in(section, "log_care_cost", "30")
    click(section, "log_care_keep")
    assert listed(section)[0] == "Mowing | whole yard | cost 30"


def test_a_record_selected_elsewhere_is_picked(section: LogSection) -> None:
    section.select("soil_tests", "s")
    picked = section.table.picked_row()
    assert picked is not None
    assert picked.record_id == "s"


def test_an_empty_notebook_says_how_to_begin(qtbot: QtBot, empty_book: OpenNotebook,
                                             settings: Settings) -> None:  # fmt: skip
    made = LogSection(empty_book, settings)
    qtbot.addWidget(made)
    made.show_plan(make_plan(empty_book.notebook, empty_book.today))
    assert part(made, QLabel, "log_empty").text() == EMPTY


def test_decades_of_waterings_are_listed_with_words_only_for_rows_in_sight(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = date(1990, 1, 1)
    waterings = [
        Watering(id=f"w{n}", rank=n, date=start + timedelta(days=n // 4), zone="front", minutes=9.0)
        for n in range(40_000)
    ]
    notebook = with_tables(small_notebook(), {"waterings": waterings})
    asked: list[object] = []
    made_words = words_of

    def counted(book: Notebook, row: LogRow) -> LogWords:
        asked.append(row)
        return made_words(book, row)

    monkeypatch.setattr("lawnbook.desk.pages.season_log_table.words_of", counted)
    book = OpenNotebook.create(tmp_path / "big.lawnbook", small_notebook(), date(2026, 6, 15))
    made = LogSection(book, Settings(tmp_path / "desk.ini"))
    qtbot.addWidget(made)
    made.resize(600, 900)
    made.show()
    made.table.show_rows(notebook, log_of(notebook, TODAY))
    qtbot.waitExposed(made)
    made.grab()
    assert made.table.model().rowCount() == 40_000
    # Sixteen rows of four cells are in sight; a few are asked for more than once.
    assert 0 < len(asked) < 1_000
    book.close()
