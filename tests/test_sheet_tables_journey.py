"""Through the window: a table is taken in, undone and done again by keys; the words keep step."""

from datetime import date
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from lawnbook.desk.pages.sheet import SheetPage
from lawnbook.desk.pages.sheet_tables import TablesSection
from lawnbook.desk.settings import Settings
from lawnbook.desk.window import BookWindow
from tests.desk_hand import child, words
from tests.page_book import open_book, put_away, settle
from tests.season_book import ON, season_notebook

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def test_undo_takes_the_rows_back_and_the_words_with_them(
    qapp: QApplication, tmp_path: Path
) -> None:
    book = open_book(tmp_path, ON, season_notebook())
    window = BookWindow(book, Settings(tmp_path / "desk.ini"))
    window.show()
    window.activateWindow()
    settle(20)
    window.turn_to("Sheet")
    settle(50)
    page = window.page("Sheet")
    assert isinstance(page, SheetPage)
    page.turn_to("Tables")
    section = page.made("Tables")
    assert isinstance(section, TablesSection)
    before = book.notebook
    zone = next(iter(before.zones.values())).name
    path = tmp_path / "waterings.csv"
    path.write_text(f"Date,Zone,Minutes\n2025-01-02,{zone},7\n2025-01-03,{zone},9\n")
    section.read_tables(path)
    QTest.keyClick(child(page, "take_tables"), Qt.Key.Key_Space)
    settle(50)
    after = book.notebook
    days = [each.date for each in after.waterings.values()]
    assert date(2025, 1, 2) in days
    assert words(page, "tables_said").startswith("2 rows taken in from waterings.csv.")
    QTest.keyClick(window, Qt.Key.Key_Z, CTRL)
    settle(50)
    assert book.notebook.waterings == before.waterings
    assert words(page, "tables_said") == ""
    QTest.keyClick(window, Qt.Key.Key_Z, CTRL | SHIFT)
    settle(50)
    assert book.notebook.waterings == after.waterings
    assert words(page, "tables_said") == ""
    window.close()
    put_away(window)
