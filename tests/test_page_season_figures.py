"""The picture of the year and the log open how their figures came about: by a click and by F1."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.charts.marks import Frame
from lawnbook.charts.season_hits import season_hits
from lawnbook.desk.figures import FigureKey
from lawnbook.desk.pages.chart_pointer import ChartPointer
from lawnbook.desk.pages.season_log_table import LogTable
from lawnbook.desk.window import BookWindow
from lawnbook.plan.make import make_plan
from lawnbook.plan.season_year import season_year
from lawnbook.yard.notebook import with_tables
from tests.access_walk import opened, settle, turn
from tests.figure_walk import panel_heads
from tests.page_book import part, put_away
from tests.plan_yards import climate
from tests.season_book import ON, season_notebook


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """A book in a window, with temperatures for the growth curve."""
    notebook = with_tables(season_notebook(), {"climate": climate()})
    made = opened(tmp_path_factory.mktemp("season"), notebook, ON)
    yield made
    made.book.close()
    put_away(made)


def hit_place(window: BookWindow, over: ChartPointer, word: str) -> QPoint:
    """Where the hit whose words hold a word lies on the picture."""
    scale = over.logicalDpiX() / 72
    notebook = window.book.notebook
    year = season_year(notebook, make_plan(notebook, ON), ON.year)
    frame = Frame(over.width() / scale, over.height() / scale)
    hit = next(each for each in season_hits(year, frame) if word in each.words)
    return QPoint(round((hit.left + hit.right) / 2 * scale), round((hit.top + 4) * scale))


@pytest.mark.parametrize(
    ("word", "figures"),
    [
        ("May 2026", ["Growth in May", "Water need in May"]),
        ("Irrigation season", ["Irrigation season"]),
        ("Overseeding", ["Weeks for overseeding, cool-season grass", "Last day"]),
        ("still to come", ["Depth of the next watering: 0.88 in"]),
    ],
)
def test_a_click_opens_what_leads_nowhere(
    window: BookWindow, word: str, figures: list[str]
) -> None:
    """A month, the season, weeks for care, and what is planned."""
    page = turn(window, "Season", "Year")
    settle(50)
    over = part(page, ChartPointer, "season_chart_pointer")
    at = hit_place(window, over, word)
    QTest.mouseMove(over, at)
    QTest.mouseClick(over, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    heads = panel_heads()
    for figure in figures:
        assert any(each.startswith(figure) or figure in each for each in heads), heads


def test_f1_opens_what_the_arrows_chose(window: BookWindow) -> None:
    """From January on, and a recorded mark too, whose click leads to its record."""
    page = turn(window, "Season", "Year")
    settle(50)
    canvas = part(page, QWidget, "season_chart_canvas")
    canvas.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(canvas, Qt.Key.Key_Home)
    key = next(each for each in window.children() if isinstance(each, FigureKey))
    key.answer()
    assert panel_heads()[0].startswith("Growth in January")
    over = part(page, ChartPointer, "season_chart_pointer")
    for _ in range(60):
        QTest.keyClick(canvas, Qt.Key.Key_Right)
        lit = over.lit()
        if lit is not None and lit.key.startswith("feedings/"):
            break
    key.answer()
    assert panel_heads()[0].startswith("Front: nitrogen fed: 0.48 lb")


def test_the_picked_entry_of_the_log_opens_by_f1_and_by_a_click(window: BookWindow) -> None:
    """The watering of August: 60 minutes at 0.8 in/h."""
    page = turn(window, "Season", "Log")
    table = part(page, LogTable, "log_list")
    assert table.pick("waterings", "w2026-08-20")
    table.setFocus(Qt.FocusReason.TabFocusReason)
    next(each for each in window.children() if isinstance(each, FigureKey)).answer()
    first = panel_heads()[0]
    assert first.startswith("Counted of the watering of 20 Aug 2026: 0.63 in")
    index = table.currentIndex().siblingAtColumn(3)
    at = table.visualRect(index).center()
    QTest.mouseClick(
        table.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at
    )
    QTest.qWait(QApplication.doubleClickInterval() + 50)
    assert panel_heads()[0] == first
