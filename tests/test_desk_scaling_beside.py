"""Text at 100 and 200 %: what stands beside and over the pages shows its words whole as well.

Leaves, dialogs, the welcome page, the line for noting down, workings, menus, the strips of the
sketch, and every section with its folds open, on the least screen of 1280 x 800.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QLabel,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from lawnbook.desk.leaf_about import flowing
from lawnbook.desk.leaves import open_leaf
from lawnbook.desk.looks import Looks
from lawnbook.desk.pages.record_table import widest_of
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import apply_looks
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import as_of
from tests import beside_walk as walks
from tests.desk_sample import samples
from tests.page_book import put_away
from tests.text_room import faults

LIGHT = Looks(theme="light")


@pytest.fixture(scope="module")
def opened(
    qapp: QApplication, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[BookWindow, Path]]:
    """A window on a sample that has something on every page."""
    apply_looks(qapp, LIGHT)
    folder = tmp_path_factory.mktemp("beside")
    notebook = as_of(samples()["larkspur_corner"], walks.TODAY)
    book = OpenNotebook.create(folder / "book.lawnbook", notebook, walks.TODAY)
    window = BookWindow(book, Settings(folder / "desk.ini"))
    window.resize(walks.ROOM)
    window.show()
    walks.settle(12)
    yield window, folder
    # Put away first: each widget that is still there would be dressed once more.
    put_away(window)
    book.close()
    apply_looks(qapp, LIGHT)


def wrong(seen: Iterator[walks.Seen]) -> list[str]:
    """Each fault with where it was met, once."""
    told: dict[str, str] = {}
    for name, _, found in seen:
        for fault in found:
            told.setdefault(fault, name)
    return [f"{name}: {fault}" for fault, name in told.items()]


@pytest.mark.parametrize("percent", [100, 200])
def test_the_welcome_page_shows_its_words_whole(
    qapp: QApplication, tmp_path: Path, percent: int
) -> None:
    apply_looks(qapp, Looks(theme="light", scale_percent=percent))
    assert wrong(walks.welcome(tmp_path)) == []
    apply_looks(qapp, LIGHT)


def test_the_rules_find_what_is_cut_off_or_lies_over_another(qapp: QApplication) -> None:
    apply_looks(qapp, LIGHT)
    page, table = QWidget(), QTableWidget(1, 2)
    table.setHorizontalHeaderLabels(["Day", "What"])
    for column, words in enumerate(("12 May 2026", "mown")):
        table.setItem(0, column, QTableWidgetItem(words))
    table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    table.setWordWrap(False)
    table.setColumnWidth(0, 60)
    table.setColumnWidth(1, 400)
    row = QVBoxLayout(page)
    first, second = QLabel("first"), QLabel("second")
    for each in (table, first, second):
        row.addWidget(each)
    page.resize(300, 300)
    page.show()
    walks.settle()
    second.setGeometry(first.geometry().translated(4, 0))
    found = "\n".join(faults(page))
    assert "cell '12 May 2026' needs" in found
    assert "columns are 460 px wide in a table of" in found
    assert "'first' lies on " in found
    put_away(page)


def test_an_entry_of_the_contents_goes_on_in_another_line(
    qapp: QApplication, opened: tuple[BookWindow, Path]
) -> None:
    apply_looks(qapp, LIGHT)
    leaf = open_leaf(opened[0], "keys")
    walks.settle()
    rows = [leaf.contents.visualItemRect(leaf.contents.item(row)) for row in (0, 3)]
    assert rows[1].height() > 1.5 * rows[0].height()
    put_away(leaf)


@pytest.mark.parametrize("percent", [100, 200])
def test_what_opens_beside_and_over_the_book_shows_its_words_whole(
    qapp: QApplication, opened: tuple[BookWindow, Path], percent: int
) -> None:
    window, folder = opened
    apply_looks(qapp, Looks(theme="light", scale_percent=percent))
    walks.settle()
    found = [
        *wrong(walks.leaves(window)),
        *wrong(walks.over(window, folder)),
        *wrong(walks.quick(window)),
        *wrong(walks.menus(window)),
        *wrong(walks.foot(window)),
    ]
    assert found == []


def test_open_folds_workings_and_the_sketch_show_their_words_whole(
    qapp: QApplication, opened: tuple[BookWindow, Path]
) -> None:
    """At the largest text, in high contrast; `tests.looks_walk` goes through all other looks."""
    window, _ = opened
    apply_looks(qapp, Looks(theme="light", contrast="high", scale_percent=200))
    walks.settle()
    assert wrong(walks.sections(window, ("Water",))) == []
    assert wrong(walks.sketch(window)) == []


def test_a_paragraph_of_a_licence_runs_on_and_a_list_does_not() -> None:
    prose = "Permission is hereby granted, free of charge, to any person\nobtaining a copy."
    listed = "Version 2.0, January 2004\nhttp://www.apache.org/licenses/"
    assert flowing(f"{prose}\n\n{listed}\n") == f"{prose.replace(chr(10), ' ')}\n\n{listed}"
    deeper = "1. Redistributions of source code must retain the above notice,\n   this list.\n  x"
    assert flowing(deeper) == deeper


def test_a_crowded_table_gives_each_column_what_it_can() -> None:
    assert widest_of([50, 60, 300, 400], 410) == 150
    assert widest_of([50, 60], 200) == 60
    assert widest_of([], 200) == 0
