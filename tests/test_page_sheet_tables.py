"""Tables on the sheet page: saved for a spreadsheet, looked over, taken in as one step."""

import csv
import io
import zipfile
from dataclasses import replace
from datetime import date
from pathlib import Path
from threading import Event
from typing import cast

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QFileDialog,
    QPushButton,
    QTableWidget,
    QWidget,
)
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages import sheet_tables
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.pages.sheet_tables import TablesSection
from lawnbook.desk.settings import Settings
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.tables_out import table_csv, write_tables
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.records import Watering
from tests.desk_hand import child, shown, words
from tests.other_ids import with_other_ids
from tests.waiting import until_done

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def page(qtbot: QtBot, book: OpenNotebook, settings: Settings) -> SheetPage:
    made = SheetPage(book, settings)
    shown(qtbot, made, book)
    made.turn_to("Tables")
    return made


def _section(page: SheetPage) -> TablesSection:
    return cast(TablesSection, page.made("Tables"))


def _click(page: QWidget, name: str) -> None:
    QTest.mouseClick(child(page, name), LEFT)
    until_done(page)


def _take_in(page: SheetPage, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    _click(page, "read_tables")


def _rows(page: SheetPage, name: str) -> list[list[str]]:
    table = cast(QTableWidget, child(page, name))
    cells = [[table.item(row, column) for column in range(table.columnCount())]
             for row in range(table.rowCount())]  # fmt: skip
    return [[each.text() if each is not None else "" for each in row] for row in cells]


def _edited(book: OpenNotebook, folder: Path) -> Path:
    """The zones with another soil and mowing height for the first."""
    rows = list(csv.DictReader(io.StringIO(table_csv(book.notebook, "zones"))))
    rows[0] |= {"Soil": "clay", "Mowing height, in": "3.25"}
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    path = folder / "zones.csv"
    path.write_text(out.getvalue(), encoding="utf-8", newline="")
    return path


def test_the_list_shows_every_table_that_holds_anything(
    page: SheetPage, book: OpenNotebook
) -> None:
    listed = {row[0]: row[1] for row in _rows(page, "tables_list")}
    assert listed["Zones"] == str(len(book.notebook.zones))
    assert listed["Waterings"] == f"{len(book.notebook.waterings):,}"
    assert "Backdrops" not in listed
    assert child(page, "tables_list").accessibleName() == "Tables"


def test_all_tables_are_saved_as_a_workbook_and_as_a_zip(
    page: SheetPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for button, name in (("save_workbook", "all.xlsx"), ("save_csv_zip", "all.zip")):
        path = tmp_path / name
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, p=path: (str(p), ""))
        _click(page, button)
        assert words(page, "tables_written") == f"Saved: {path}"
        assert zipfile.is_zipfile(path)


def test_one_table_is_picked_and_saved_as_csv(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    button = cast(QPushButton, child(page, "save_one_csv"))
    assert not button.isEnabled()
    table = cast(QTableWidget, child(page, "tables_list"))
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_Down)
    assert button.text() == "Save zones as CSV…"
    assert button.accessibleName() == button.text()
    path = tmp_path / "zones.csv"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    _click(page, "save_one_csv")
    assert path.read_bytes().decode("utf-8-sig") == table_csv(book.notebook, "zones")


def test_a_file_that_is_still_being_written_is_not_given_up_for_another(
    qtbot: QtBot, page: SheetPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    going_on = Event()
    monkeypatch.setattr(sheet_tables, "FEW_ROWS", 0)
    monkeypatch.setattr(sheet_tables, "write_tables", lambda *_: going_on.wait())
    for name in ("first.zip", "second.zip"):
        path = str(tmp_path / name)
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, p=path: (p, ""))
        QTest.mouseClick(child(page, "save_csv_zip"), Qt.MouseButton.LeftButton)
    assert words(page, "tables_written").startswith("first.zip is still being written")
    going_on.set()
    qtbot.waitUntil(lambda: words(page, "tables_written") == f"Saved: {tmp_path / 'first.zip'}")


def test_what_cannot_be_written_is_explained(
    page: SheetPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "nowhere" / "all.xlsx"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    _click(page, "save_workbook")
    assert "is not there; make it first" in words(page, "tables_written")


def test_an_edited_table_is_shown_and_taken_in_as_one_step(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = book.notebook
    first = next(iter(before.zones.values()))
    _take_in(page, _edited(book, tmp_path), monkeypatch)
    assert book.notebook is before
    assert _rows(page, "tables_differences") == [
        ["Zones", first.name, "Soil", "loam", "clay"],
        ["Zones", first.name, "Mowing height, in", "3", "3.25"],
    ]
    assert words(page, "tables_told").startswith("zones.csv: 1 changed in Zones. 3 rows are as")
    take = child(page, "take_tables")
    assert take.hasFocus()
    QTest.keyClick(take, Qt.Key.Key_Space)
    after = book.notebook.zones[first.id]
    assert (after.soil, after.mow_height_in) == ("clay", 3.25)
    assert _section(page).review.isHidden()
    assert words(page, "tables_said").startswith("1 row taken in from zones.csv.")
    assert book.undo_label == "take in 1 row of tables"
    book.undo()
    assert book.notebook.zones == before.zones


def test_a_file_that_says_the_same_offers_nothing_to_take(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_tables(book.notebook, tmp_path / "all.xlsx", on=book.today)
    _take_in(page, tmp_path / "all.xlsx", monkeypatch)
    assert "nothing would change" in words(page, "tables_told")
    assert child(page, "take_tables").isHidden()
    leave = cast(QPushButton, child(page, "leave_tables"))
    assert leave.text() == "Close"
    _click(page, "leave_tables")
    assert _section(page).review.isHidden()


def test_faults_and_questions_stand_above_what_would_be_taken_in(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "my waterings.csv"
    name = next(iter(book.notebook.zones.values())).name
    path.write_text(f"Date;Zone;Minutes\n2026-05-01;{name};12,5\n2026-05-01;Nowhere;3\n"
                    f"2026-05-02;{name};700\n")  # fmt: skip
    _take_in(page, path, monkeypatch)
    faults, questions = words(page, "tables_faults"), words(page, "tables_questions")
    assert "1 row cannot be kept" in faults
    assert 'Waterings, line 3: Zone: there is no "Nowhere"' in faults
    assert "Waterings, line 4: Minutes of 700 min is unusually high" in questions
    assert [row[2] for row in _rows(page, "tables_differences")] == ["new row", "new row"]
    count = len(book.notebook.waterings)
    _click(page, "leave_tables")
    assert words(page, "tables_said") == "Nothing was taken in."
    _take_in(page, path, monkeypatch)
    _click(page, "take_tables")
    assert len(book.notebook.waterings) == count + 2


def test_what_cannot_be_read_is_explained(
    page: SheetPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "poem.csv"
    path.write_text("Roses are red\n")
    _take_in(page, path, monkeypatch)
    assert words(page, "tables_said").startswith("poem.csv: no heading in the first line is known")
    assert _section(page).review.isHidden()


def test_a_file_looked_over_is_held_against_the_notebook_as_it_becomes(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _take_in(page, _edited(book, tmp_path), monkeypatch)
    first = next(iter(book.notebook.zones.values()))
    book.edit(put(book.notebook, "zones", replace(first, soil="clay")), "soil")
    assert [row[2] for row in _rows(page, "tables_differences")] == ["Mowing height, in"]


def test_a_file_may_be_dropped(page: SheetPage, book: OpenNotebook, tmp_path: Path) -> None:
    path = _edited(book, tmp_path)
    section = _section(page)
    for names, taken in (([path], True), ([tmp_path / "a.pdf"], False), ([path, path], False)):
        data = QMimeData()
        data.setUrls([QUrl.fromLocalFile(str(each)) for each in names])
        enter = QDragEnterEvent(
            QPoint(9, 9), Qt.DropAction.CopyAction, data, LEFT, Qt.KeyboardModifier.NoModifier
        )
        enter.ignore()
        QApplication.sendEvent(section, enter)
        assert enter.isAccepted() is taken
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    drop = QDropEvent(
        QPointF(9, 9), Qt.DropAction.CopyAction, data, LEFT, Qt.KeyboardModifier.NoModifier
    )
    QApplication.sendEvent(section, drop)
    assert not section.review.isHidden()


def test_a_file_of_another_notebook_is_told_first_and_its_rows_held_back(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    zone = next(iter(book.notebook.zones))
    more = Watering(id="mine", date=date(2025, 1, 2), zone=zone, minutes=3.25)
    other = with_other_ids(apply(book.notebook, put(book.notebook, "waterings", more)))
    write_tables(other, tmp_path / "all.xlsx", on=book.today)
    _take_in(page, tmp_path / "all.xlsx", monkeypatch)
    told, keep = child(page, "tables_foreign"), cast(QCheckBox, child(page, "keep_unknown_rows"))
    assert words(page, "tables_foreign").startswith("This file is of another notebook: none of")
    assert told.y() < child(page, "tables_told").y()
    assert child(page, "take_tables").isHidden()
    assert not keep.isChecked()
    assert keep.text() == "Take the row with an unknown id in as new all the same"
    keep.setFocus()
    QTest.keyClick(keep, Qt.Key.Key_Space)
    until_done(page)
    assert [row[2] for row in _rows(page, "tables_differences")] == ["new row"]
    QTest.keyClick(keep, Qt.Key.Key_Space)
    until_done(page)
    assert child(page, "take_tables").isHidden()
    QTest.keyClick(keep, Qt.Key.Key_Space)
    until_done(page)
    count = len(book.notebook.waterings)
    _click(page, "take_tables")
    assert len(book.notebook.waterings) == count + 1
    _take_in(page, tmp_path / "all.xlsx", monkeypatch)
    assert keep.isHidden(), "what was taken in is a repeat, and no wish is left from before"
    assert child(page, "take_tables").isHidden()


def test_a_difference_leads_to_its_record(
    page: SheetPage, book: OpenNotebook, tmp_path: Path, qtbot: QtBot
) -> None:
    section = _section(page)
    section.read_tables(_edited(book, tmp_path))
    table = section.review.table
    table.setFocus()
    with qtbot.waitSignal(page.selected) as told:
        QTest.keyClick(table, Qt.Key.Key_Down)
    assert told.args == ["zones", next(iter(book.notebook.zones))]
