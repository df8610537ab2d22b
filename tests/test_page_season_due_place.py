"""Ticking off far down a long list: the page stays, what was recorded is seen, the keyboard too."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget

from lawnbook.desk.pages.season_due_row import DueRow
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.desk.widgets import PageScroll
from lawnbook.session.open_notebook import OpenNotebook
from tests.page_book import click, part, settle, text_of
from tests.season_book import key, rows_of, season_notebook, shown_section, tick

Low = tuple[YearSection, OpenNotebook, PageScroll]


@pytest.fixture
def low(qapp: QApplication, tmp_path: Path) -> Iterator[Low]:
    """The section in a page so low that only a few lines of the list are seen."""
    for section, book in shown_section(qapp, tmp_path, season_notebook()):
        page = PageScroll()
        page.body.addWidget(section)
        page.resize(620, 420)
        page.show()
        page.activateWindow()
        settle(20)
        yield section, book, page
        section.setParent(None)
        page.close()
        page.deleteLater()


def seen(widget: QWidget) -> bool:
    """Whether no part of a widget is cut off by the page it scrolls in."""
    return widget.isVisible() and widget.visibleRegion().boundingRect() == widget.rect()


def lit(section: YearSection) -> DueRow:
    """The line that has the keyboard."""
    return next(row for row in rows_of(section) if row.hasFocus())


def record(section: YearSection, by_mouse: bool) -> DueRow:
    """Tick off the last line but one, and tell the line after it."""
    *_, row, after = rows_of(section)
    tick(row)
    settle(20)
    if by_mouse:
        click(section, "season_done_record")
    else:
        key(Qt.Key.Key_Return)
    settle(20)
    return after


@pytest.mark.parametrize("by_mouse", [True, False])
def test_the_page_stays_and_the_next_line_has_the_keyboard(low: Low, by_mouse: bool) -> None:
    section, book, page = low
    bar = page.verticalScrollBar()
    went: list[int] = []
    *_, row, _ = rows_of(section)
    tick(row)
    settle(20)
    bar.valueChanged.connect(went.append)
    lows: list[int] = []
    bar.rangeChanged.connect(lambda _, high: lows.append(high))
    after = record(section, by_mouse)
    assert book.undo_label
    assert lit(section).due.keys == after.due.keys
    assert seen(lit(section))
    assert seen(part(section, QLabel, "season_said"))
    assert seen(part(section, QPushButton, "season_take_back"))
    # The page never fell to its head on the way, where the picture of the year stands.
    assert min([bar.value(), *went, *lows]) > section.due.y() // 2


def test_what_was_recorded_stands_above_the_line_that_followed(low: Low) -> None:
    section, _, _ = low
    after = record(section, by_mouse=False)
    row = next(each for each in rows_of(section) if each.due.keys == after.due.keys)
    said = section.due.said
    assert said.geometry().bottom() < row.y()
    assert row.y() - said.geometry().bottom() < row.height()


def test_tab_back_and_space_take_it_back_with_the_page_where_it_was(low: Low) -> None:
    section, book, page = low
    before = book.notebook
    record(section, by_mouse=False)
    key_back = Qt.Key.Key_Backtab
    QTest.keyClick(lit(section), key_back, Qt.KeyboardModifier.ShiftModifier)
    assert part(section, QPushButton, "season_take_back").hasFocus()
    key(Qt.Key.Key_Space)
    settle(20)
    assert book.notebook == before
    assert text_of(section, "season_said") == ""
    assert section.due.said.isHidden()
    assert page.verticalScrollBar().value() > section.due.y() // 2
    assert seen(lit(section))


def test_after_the_last_line_it_stands_at_the_foot(low: Low) -> None:
    section, _, _ = low
    *_, row = rows_of(section)
    tick(row)
    key(Qt.Key.Key_Return)
    settle(20)
    assert lit(section) is rows_of(section)[-1]
    assert seen(part(section, QPushButton, "season_take_back"))
