"""A notebook with known figures for the tests of the pages, and what those tests share."""

from collections.abc import Callable, Iterator
from datetime import date
from itertools import pairwise
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLineEdit,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from lawnbook.desk.pages.feed import FeedPage
from lawnbook.desk.theme import apply_theme
from lawnbook.plan.make import make_plan
from lawnbook.plan.model import Plan
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.geometry import rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import (
    CatchTest,
    ClimateMonth,
    Feeding,
    Head,
    Product,
    Record,
    Season,
    Spot,
    Yard,
    Zone,
)

MEAN_F = (30, 34, 42, 50, 58, 67, 76, 74, 64, 52, 40, 31)
ETO_IN = (0.04, 0.06, 0.10, 0.15, 0.19, 0.24, 0.26, 0.23, 0.17, 0.10, 0.06, 0.04)
CANS_ML = (50.0, 40.0, 45.0, 45.0)

W = TypeVar("W", bound=QWidget)
WATER_DAY = date(2026, 6, 15)
FEED_DAY = date(2026, 9, 10)
"""September takes 0.5 to 0.9 lb in the cool-season table (Virginia DCR); the zones take all."""


def page_notebook() -> Notebook:
    """Two zones of 1,000 and 500 sq ft, one product of 24 % N (14.4 slow), one catch test."""
    rows: dict[str, list[Record]] = {
        "yard": [
            Yard(
                id="yard",
                name="Test yard",
                latitude_deg=41.0,
                irrigation_season=Season(start="04-15", end="10-15"),
            )
        ],
        "zones": [
            Zone(
                id="front",
                name="Front",
                outline_ft=rectangle_ft((0, 0), 40, 25),
                soil="loam",
                budget_level="full",
            ),
            Zone(
                id="side",
                name="Side",
                outline_ft=rectangle_ft((50, 0), 20, 25),
                budget_level="full",
                rank=1,
            ),
        ],
        "heads": [Head(id="h1", zone="side", at_ft=(55.0, 5.0), flow_gpm=5.0)],
        "spots": [Spot(id="gate", name="Gate", zone="side")],
        "catch_tests": [
            CatchTest(
                id="c1",
                zone="front",
                date=date(2026, 5, 1),
                run_minutes=20,
                can_mouth_sqin=9.0,
                volumes_ml=CANS_ML,
            )
        ],
        "products": [Product(id="blend", name="Blend", n_pct=24, slow_n_pct=14.4, bag_lb=40)],
        "climate": [
            ClimateMonth(id=f"{m:02d}", month=m, tmean_f=t, eto_in_per_day=e, rank=m - 1)
            for m, (t, e) in enumerate(zip(MEAN_F, ETO_IN, strict=True), 1)
        ],
    }
    return with_tables(new_notebook("Test yard"), rows)


def open_book(folder: Path, today: date, notebook: Notebook | None = None) -> OpenNotebook:
    """The notebook, or another one, in a file that is open."""
    return OpenNotebook.create(folder / "test.lawnbook", notebook or page_notebook(), today)


def kept_open(folder: Path, today: date) -> Iterator[OpenNotebook]:
    """For a fixture: the notebook open, and closed afterwards."""
    book = open_book(folder, today)
    yield book
    book.close()


def kept_shown(
    app: QApplication, page: W, show: Callable[[Plan], None], book: OpenNotebook
) -> Iterator[W]:
    """For a fixture: a page shown in light, following the book on its day, and put away later."""
    apply_theme(app, "light")
    page.resize(620, 900)
    follow(book, show, book.today)
    page.show()
    settle()
    yield page
    put_away(page)


def follow(book: OpenNotebook, show: Callable[[Plan], None], on: date) -> None:
    """Show the plan now and after every edit, as the window does."""

    def again(_change: object) -> None:
        show(make_plan(book.notebook, on))

    book.subscribe(again)
    again({})


def part(page: QWidget, kind: type[W], name: str) -> W:
    """A control of a page by its object name; it must be there."""
    found = page.findChild(kind, name)
    assert isinstance(found, kind), f"{name} is not on the page"
    return found


def item_of(table: QTableWidget, row: int, column: int) -> QTableWidgetItem:
    """A cell that must be there."""
    item = table.item(row, column)
    assert item is not None, f"no cell {row}, {column}"
    return item


def type_into(page: QWidget, name: str, text: str) -> QLineEdit:
    """Type over what a field holds and leave it with Tab."""
    field = part(page, QLineEdit, name)
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Tab)
    return field


def text_of(page: QWidget, name: str) -> str:
    """What a control or label says."""
    return str(part(page, QWidget, name).property("text"))


def propose(page: FeedPage, amount: str, mode: str = "rate") -> None:
    """Type how much is to be spread, and have it checked without the pause of a typing hand."""
    box = part(page, QComboBox, "spread_mode")
    wanted = box.findData(mode)
    box.setFocus()
    while box.currentIndex() != wanted:
        step = Qt.Key.Key_Down if box.currentIndex() < wanted else Qt.Key.Key_Up
        QTest.keyClick(box, step)
    type_into(page, "spread_amount", amount)
    page.check.spread.examine()


def fed(pounds: float = 2.5, on: date = FEED_DAY) -> Feeding:
    """A feeding of the front zone with the blend, f1."""
    return Feeding(id="f1", date=on, product="blend", pounds=MappingProxyType({"front": pounds}))


def click(page: QWidget, name: str) -> None:
    """Click a control that shows and is enabled."""
    control = part(page, QWidget, name)
    assert control.isEnabled(), f"{name} cannot be clicked"
    QTest.mouseClick(control, Qt.MouseButton.LeftButton)


def unnamed(page: QWidget) -> list[str]:
    """Controls that Tab reaches and that lack an object name or a spoken name."""
    return [
        f"{type(each).__name__} {each.objectName()}"
        for each in page.findChildren(QWidget)
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus
        and each.window() is page.window()
        and each.objectName() != "qt_scrollarea_viewport"
        and not isinstance(each.parent(), QAbstractItemView)
        and not (each.objectName() and each.accessibleName())
    ]


def out_of_reading_order(page: QWidget, least: int = 11) -> list[str]:
    """Go once round a page with Tab; the stops that stand before the one they follow.

    There must be `least` stops or more.
    """
    page.activateWindow()
    page.setFocus()
    stops: list[QWidget] = []
    while (at := _tab(page)) not in stops:
        stops.append(at)
    assert len(stops) >= least, "Tab does not go round the page"
    wrong = []
    for before, after in pairwise(stops):
        first, second = (each.mapTo(page, QPoint(0, 0)) for each in (before, after))
        same_line = abs(first.y() - second.y()) < 12
        if second.x() <= first.x() if same_line else second.y() < first.y():
            wrong.append(f"{after.objectName()} after {before.objectName()}")
    return wrong


def _tab(page: QWidget) -> QWidget:
    before = page.focusWidget()
    assert before is not None
    QTest.keyClick(before, Qt.Key.Key_Tab)
    after = page.focusWidget()
    assert after is not None
    return after


def put_away(page: QWidget) -> None:
    """Close a page and delete it with all its parts now."""
    page.close()
    page.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def settle(milliseconds: int = 0) -> None:
    """Let timers and posted events run."""
    QApplication.processEvents()
    if milliseconds:
        QTest.qWait(milliseconds)
