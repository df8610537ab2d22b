"""The Plugs and Sheet pages, driven as a person would."""

import importlib
from datetime import date
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.pages.plugs import PlugsPage
from lawnbook.desk.pages.record_table import RecordTable
from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.settings import Settings
from lawnbook.plan.make import make_plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import put
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Spot
from tests.desk_hand import child, press, shown, type_in, words
from tests.desk_sample import DAY

pytest_plugins = ["tests.desk_book"]
pytestmark = pytest.mark.usefixtures("dressed")

pypdfium2 = importlib.import_module("pypdfium2")

LEFT = Qt.MouseButton.LeftButton
Page = PlugsPage | SheetPage


def test_a_plug_is_kept_by_keys_alone(qtbot: QtBot, book: OpenNotebook) -> None:
    page = PlugsPage(book)
    shown(qtbot, page, book)
    tab = Qt.Key.Key_Tab
    child(page, "cores_spot").setFocus()
    press(tab, "20 nov", tab, "5/8 11/16 3/4", tab, "1/32", tab, "6 1/2", tab, "8")
    press(tab, "1", tab, "3", tab, "2")
    assert words(page, "cores_answer").startswith(
        "Readings 0.62, 0.69, 0.75 in: mean 0.69, spread 0.06."
    )
    press(Qt.Key.Key_Return)
    core = next(each for each in book.notebook.cores.values() if each.date == date(2026, 11, 20))
    assert core.thatch_in == (0.625, 0.6875, 0.75)
    assert (core.root_depth_in, core.sponge, core.soil_in_thatch, core.worms) == (6.5, 1, 3, 2)
    assert (core.resolution_in, core.core_depth_in) == (1 / 32, 8)
    assert book.notebook.spots[core.spot].name == "letterbox"
    assert book.undo_label == "keep plug of 20 Nov 2026 at letterbox"
    assert cast(QLineEdit, child(page, "cores_thatch_in")).text() == ""


def test_millimetres_typed_as_such_are_taken_and_as_inches_questioned(
    qtbot: QtBot, book: OpenNotebook
) -> None:
    page = PlugsPage(book)
    shown(qtbot, page, book)
    count = len(book.notebook.cores)
    type_in(page, "cores_thatch_in", "18", Qt.Key.Key_Return)
    assert len(book.notebook.cores) == count
    assert "0.71" in words(page, "cores_thatch_in_problem")
    type_in(page, "cores_thatch_in", "18 17 mm", Qt.Key.Key_Return)
    assert len(book.notebook.cores) == count + 1


def test_a_doubtful_reading_is_kept_once_confirmed(qtbot: QtBot, book: OpenNotebook) -> None:
    page = PlugsPage(book)
    shown(qtbot, page, book)
    count = len(book.notebook.cores)
    type_in(page, "cores_thatch_in", "4", Qt.Key.Key_Return)
    keep = cast(QCheckBox, child(page, "cores_thatch_in_keep"))
    assert keep.isVisible()
    assert len(book.notebook.cores) == count
    press(Qt.Key.Key_Space)
    QTest.mouseClick(child(page, "cores_keep"), LEFT)
    assert len(book.notebook.cores) == count + 1


def test_a_plug_is_changed_and_taken_out_from_the_list(qtbot: QtBot, book: OpenNotebook) -> None:
    page = PlugsPage(book)
    shown(qtbot, page, book)
    table = cast(RecordTable, child(page, "cores_list"))
    before = book.notebook
    table.setFocus()
    press(Qt.Key.Key_Down)
    chosen = table.picked_id()
    press(Qt.Key.Key_Return)
    assert cast(QLineEdit, child(page, "cores_date")).text() == day(before.cores[chosen].date)
    type_in(page, "cores_note", "after rain", Qt.Key.Key_Return)
    assert book.notebook.cores[chosen].note == "after rain"
    table.setFocus()
    table.pick(chosen)
    press(Qt.Key.Key_Delete)
    assert chosen not in book.notebook.cores
    book.undo()
    book.undo()
    assert book.notebook == before


@pytest.mark.qt_log_ignore("This plugin does not support")
def test_the_verdict_is_the_plans_and_its_working_opens(qtbot: QtBot, book: OpenNotebook) -> None:
    page = PlugsPage(book)
    shown(qtbot, page, book)
    spot = make_plan(book.notebook, DAY).thatch[0]
    assert spot.evidence is not None
    assert words(page, "plugs_verdict") == spot.evidence.verdict
    QTest.mouseClick(child(page, "plugs_working"), LEFT)
    panel = next(
        each for each in QApplication.topLevelWidgets() if each.objectName() == "working_panel"
    )
    shown_words = " ".join(each.text() for each in panel.findChildren(QLabel))
    for working in spot.evidence.workings:
        assert working.value in shown_words
        assert working.source in shown_words
    QTest.keyClick(panel, Qt.Key.Key_Escape)
    qtbot.waitUntil(
        lambda: (
            not any(each.isVisible() for each in QApplication.topLevelWidgets() if each is not page)
        )
    )


def test_the_profile_columns_are_drawn_and_can_be_heard(qtbot: QtBot, book: OpenNotebook) -> None:
    page = PlugsPage(book)
    shown(qtbot, page, book)
    qtbot.waitUntil(
        lambda: page.findChild(QWidget, "profile_columns_canvas") is not None, timeout=9000
    )
    canvas = child(page, "profile_columns_canvas")
    assert canvas.focusPolicy() & Qt.FocusPolicy.TabFocus
    assert "11 May 2024: thatch 1.19 in" in canvas.accessibleDescription()


def test_without_a_spot_the_page_says_so_and_adds_one(
    qtbot: QtBot, empty_book: OpenNotebook
) -> None:
    page = PlugsPage(empty_book)
    shown(qtbot, page, empty_book)
    assert child(page, "cores_keep").isVisible() is False
    QTest.mouseClick(child(page, "add_spot"), LEFT)
    assert [each.name for each in empty_book.notebook.spots.values()] == ["Spot 1"]
    assert child(page, "cores_keep").isVisible()
    assert words(page, "plugs_verdict").startswith("Cannot say yet")
    type_in(page, "cores_thatch_in", "3/4", Qt.Key.Key_Return)
    assert len(empty_book.notebook.cores) == 1


def test_the_sheet_is_saved_on_the_chosen_paper(
    qtbot: QtBot,
    book: OpenNotebook,
    settings: Settings,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page = SheetPage(book, settings)
    shown(qtbot, page, book)
    target = tmp_path / "plan.pdf"
    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", lambda *_: target)
    QTest.mouseClick(child(page, "paper_a4"), LEFT)
    QTest.mouseClick(child(page, "sheet_save"), LEFT)
    assert str(target) in words(page, "sheet_said")
    held = pypdfium2.PdfDocument(target)
    assert len(held) == 1
    assert held[0].get_size() == pytest.approx((595.3, 841.9), abs=1.0)
    assert "Larkspur Corner" in held[0].get_textpage().get_text_bounded()
    held.close()
    assert settings.paper == "a4"


def test_a_place_that_cannot_be_written_is_said_on_the_page(
    qtbot: QtBot,
    book: OpenNotebook,
    settings: Settings,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page = SheetPage(book, settings)
    shown(qtbot, page, book)
    target = tmp_path / "missing" / "plan.pdf"
    monkeypatch.setattr("lawnbook.desk.printing.choose_pdf", lambda *_: target)
    QTest.mouseClick(child(page, "sheet_save"), LEFT)
    assert "missing is not there" in words(page, "sheet_said")
    assert not target.exists()


def test_the_printer_gets_the_same_page(
    qtbot: QtBot, book: OpenNotebook, settings: Settings, tmp_path: Path
) -> None:
    page = SheetPage(book, settings)
    shown(qtbot, page, book)
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setFullPage(True)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    assert page.print_on(printer)
    held = pypdfium2.PdfDocument(tmp_path / "printed.pdf")
    assert len(held) == 1
    held.close()


def test_the_preview_fits_and_is_white_paper(
    qtbot: QtBot, book: OpenNotebook, settings: Settings
) -> None:
    page = SheetPage(book, settings)
    shown(qtbot, page, book)
    picture = child(page, "sheet_preview").grab().toImage()
    middle = picture.width() // 2
    assert picture.pixelColor(middle, 8).name() == "#ffffff"
    dark = sum(
        picture.pixelColor(x, y).lightness() < 90
        for x in range(0, picture.width(), 3)
        for y in range(0, picture.height(), 3)
    )
    assert dark > 100


def test_the_chart_leaves_room_for_the_form_after_the_first_plug(
    qtbot: QtBot, empty_book: OpenNotebook
) -> None:
    spot = Spot(id="elm", name="Elm")
    empty_book.edit(put(empty_book.notebook, "spots", spot), "new Elm")
    page = PlugsPage(empty_book)
    shown(qtbot, page, empty_book)
    type_in(page, "cores_thatch_in", "0.8 0.9 1", Qt.Key.Key_Return)
    keep = child(page, "cores_keep")
    qtbot.waitUntil(lambda: keep.visibleRegion().boundingRect().height() == keep.height())
