"""Text from 100 to 200 %: every page and section at 1280 x 800 shows its words whole.

The range is that of WCAG 2.2, success criterion 1.4.4 (text resized up to 200 per cent without loss
of content or function).
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.looks import Looks, looks
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS
from lawnbook.desk.theme import apply_looks, points, px, sans, sized
from lawnbook.desk.window import BookWindow
from lawnbook.desk.wrapping import WrappingRow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook, as_of, new_notebook
from tests.desk_sample import samples
from tests.text_room import faults

SIZE = (1280, 800)
ON = date(2026, 6, 15)


@pytest.fixture(autouse=True)
def dressed(qapp: QApplication) -> Iterator[QApplication]:
    """In light, as written; afterwards so again."""
    apply_looks(qapp, Looks(theme="light"))
    yield qapp
    # A closed window that still waits to be deleted would be dressed anew, which takes long.
    settle()
    apply_looks(qapp, Looks(theme="light"))


def settle() -> None:
    """Let plans, layouts and deletions happen."""
    for _ in range(12):
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def open_book(qtbot: QtBot, notebook: Notebook, folder: Path) -> BookWindow:
    """A window of the least size that the pages are laid out for."""
    book = OpenNotebook.create(folder / "book.lawnbook", notebook, ON)
    window = BookWindow(book, Settings(folder / "settings.ini"))
    qtbot.addWidget(window)
    window.resize(*SIZE)
    window.show()
    settle()
    return window


def walk(window: BookWindow) -> list[str]:
    """What is cut off anywhere in the book."""
    found = []
    window.lay_sketch(whole=True)
    settle()
    found += [f"sketch: {fault}" for fault in faults(window)]
    window.lay_sketch(whole=False)
    for name, _ in TABS:
        window.turn_to(name)
        page = window.page(name)
        for section in page.sections.names:
            page.turn_to(section)
            settle()
            found += [f"{name}, {section}: {fault}" for fault in faults(window)]
    return found


@pytest.mark.parametrize(
    ("stem", "percent"),
    [("larkspur_corner", 100), ("hollow_bank", 200)],
)
def test_every_section_shows_its_words_whole(
    qtbot: QtBot, dressed: QApplication, tmp_path: Path, stem: str, percent: int
) -> None:
    apply_looks(dressed, Looks(theme="light", scale_percent=percent))
    window = open_book(qtbot, as_of(samples()[stem], ON), tmp_path)
    assert walk(window) == []
    window.close()


def test_an_empty_book_shows_its_words_whole(
    qtbot: QtBot, dressed: QApplication, tmp_path: Path
) -> None:
    apply_looks(dressed, Looks(theme="light", scale_percent=200))
    window = open_book(qtbot, new_notebook("Empty yard"), tmp_path)
    assert walk(window) == []
    window.close()


def test_keys_change_the_size_of_an_open_book_and_back(
    qtbot: QtBot, dressed: QApplication, tmp_path: Path
) -> None:
    """The window that is open follows at once, and is laid out as one opened so."""
    window = open_book(qtbot, as_of(samples()["larkspur_corner"], ON), tmp_path)
    window.turn_to("Plugs")
    settle()
    wide, line = window.tabs.width(), window.sketch.fontMetrics().height()
    shown = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    window.settings.looks = replace(looks(), scale_percent=190)
    QTest.keyClick(window, Qt.Key.Key_Period, shown)
    settle()
    assert window.settings.looks.scale_percent == looks().scale_percent == 200
    assert window.fontMetrics().height() >= 1.9 * line
    assert window.tabs.width() > wide
    assert faults(window) == []
    QTest.keyClick(window, Qt.Key.Key_Comma, shown)
    assert looks().scale_percent == 190
    QTest.keyClick(window, Qt.Key.Key_0, Qt.KeyboardModifier.ControlModifier)
    settle()
    assert looks().scale_percent == 100
    assert window.tabs.width() == wide
    assert window.fontMetrics().height() == line
    assert faults(window) == []
    window.close()


def test_where_two_pages_have_no_room_a_tab_leads_to_the_sketch(
    qtbot: QtBot, dressed: QApplication, tmp_path: Path
) -> None:
    apply_looks(dressed, Looks(theme="light", scale_percent=200))
    window = open_book(qtbot, as_of(samples()["larkspur_corner"], ON), tmp_path)
    window.open_at("Water")
    settle()
    assert window.stack.isVisible()
    assert not window.sketch.isVisible()
    tab = window.tabs.findChild(QWidget, "tab_sketch")
    assert tab is not None
    QTest.mouseClick(tab, Qt.MouseButton.LeftButton)
    assert window.sketch.isVisible()
    assert not window.stack.isVisible()
    assert window.whole_action.isChecked()
    QTest.keyClick(window, Qt.Key.Key_F6)
    assert window.stack.isVisible()
    QTest.keyClick(window, Qt.Key.Key_F6)
    assert window.sketch.isVisible()
    window.open_at("Yard")
    window.lead_to("Zone")
    assert window.sketch.isVisible()
    apply_looks(dressed, replace(looks(), scale_percent=100))
    window.lay_sketch(whole=False)
    settle()
    assert window.sketch.isVisible()
    assert window.stack.isVisible()
    assert not tab.isVisible()
    window.close()


@pytest.mark.parametrize("percent", [110, 130])
def test_between_the_ends_both_pages_keep_to_the_book(
    qtbot: QtBot, dressed: QApplication, tmp_path: Path, percent: int
) -> None:
    """Side by side while both have room, one at a time from then on, in a window that is open."""
    window = open_book(qtbot, new_notebook("Yard"), tmp_path)
    window.resize(1440, 900)
    apply_looks(dressed, Looks(theme="light", scale_percent=percent))
    settle()
    assert faults(window) == []
    window.close()


def test_measures_of_text_follow_it(dressed: QApplication, qtbot: QtBot) -> None:
    """Points and pixels that belong to text grow with it, given ones are given again."""
    field = QLabel()
    qtbot.addWidget(field)
    sized(field, width=92, least_height=30)
    assert (field.width(), field.minimumHeight()) == (92, 30)
    apply_looks(dressed, Looks(theme="light", scale_percent=150))
    assert (field.width(), field.minimumHeight()) == (138, 45)
    assert (points(10.0), px(7)) == (15.0, 10)
    assert sans(10.0).pointSizeF() == pytest.approx(15.0)


def test_a_size_out_of_reach_is_brought_into_it(dressed: QApplication) -> None:
    apply_looks(dressed, Looks(theme="light", scale_percent=900))
    assert px(100) == 200
    apply_looks(dressed, Looks(theme="light", scale_percent=10))
    assert px(100) == 100


def test_a_row_goes_on_in_another_line(qtbot: QtBot) -> None:
    holder, row = QWidget(), WrappingRow()
    qtbot.addWidget(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(4)
    labels = [QLabel(f"section {number}") for number in range(4)]
    for each in labels:
        each.setFixedSize(100, 20)
        row.addWidget(each)
    holder.setLayout(row)
    holder.resize(420, 60)
    holder.show()
    QApplication.processEvents()
    assert [each.y() for each in labels] == [0, 0, 0, 0]
    assert row.heightForWidth(420) == 20
    assert row.heightForWidth(210) == 44
    holder.resize(210, 60)
    QApplication.processEvents()
    assert [each.y() for each in labels] == [0, 0, 24, 24]
    end = QLabel("end")
    end.setFixedSize(60, 20)
    row.add_at_end(end)
    end.show()
    assert row.heightForWidth(420) == 44
    assert row.heightForWidth(484) == 20
