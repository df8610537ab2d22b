"""A book for the tests of the season page: two zones, something of every kind due in June."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from lawnbook.desk.pages.season_due_row import DueRow
from lawnbook.desk.pages.season_year import YearSection
from lawnbook.desk.settings import Settings
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care, Season, Watering
from tests.page_book import follow, open_book, put_away, settle
from tests.plan_yards import core, feeding, product, spot, watering, yard, zone

ON = date(2026, 9, 1)
SIDE = ((60.0, 0.0), (90.0, 0.0), (90.0, 20.0), (60.0, 20.0))


def season_notebook() -> Notebook:
    """Front and Side, mown and watered in August, with a bag on the shelf and plugs of spring."""
    return yard(
        zone(precipitation_in_per_h=0.8, mow_height_in=3.0),
        zone(id="z2", name="Side", outline_ft=SIDE, precipitation_in_per_h=0.8, rank=1),
        season=Season(start="04-15", end="10-15"),
        products=[product(bag_lb=40.0)],
        spots=[spot(), spot(id="s2", name="steps", zone="z2", rank=1)],
        cores=[
            core(date(2026, 2, 20), 0.8, root_depth_in=6.0),
            core(date(2026, 2, 21), 0.7, id="c2", spot="s2", root_depth_in=6.0),
        ],
        feedings=[feeding(date(2026, 5, 2), 2.0)],
        waterings=[
            watering(date(2026, 8, 20), minutes=60.0),
            Watering(id="w2", date=date(2026, 8, 20), zone="z2", minutes=60.0, rank=1),
        ],
        care=[Care(id="m1", date=date(2026, 8, 20), kind="mowing")],
    )


def shown_section(
    app: QApplication, folder: Path, notebook: Notebook, on: date = ON, today: date = ON
) -> Iterator[tuple[YearSection, OpenNotebook]]:
    """For a fixture: the section following a book on a day, and put away later."""
    book = open_book(folder, today, notebook)
    section = YearSection(book, Settings(folder / "desk.ini"))
    section.resize(600, 1400)
    follow(book, section.show_plan, on)
    section.show()
    section.activateWindow()
    settle()
    yield section, book
    put_away(section)
    book.close()


def rows_of(section: YearSection, kind: str = "") -> list[DueRow]:
    """The lines that are shown, all or those of one kind, from top to bottom."""
    found = [row for row in section.findChildren(DueRow) if not row.isHidden()]
    found.sort(key=lambda row: row.y())
    return [row for row in found if kind in ("", row.due.kind)]


def tick(row: DueRow, key: Qt.Key = Qt.Key.Key_Return) -> None:
    """Tick a line off by a key."""
    row.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(row, key)
    settle()


def key(pressed: Qt.Key) -> None:
    """Press a key in whatever has the focus."""
    focus = QApplication.focusWidget()
    assert focus is not None
    QTest.keyClick(focus, pressed)
    settle()
