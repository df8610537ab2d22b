"""Tables whose picked row opens how its figures came about: F1, and a click on a figure of it."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QLabel, QMainWindow

from lawnbook.desk.figures import FigureKey, hand_on
from lawnbook.desk.pages.record_table import RecordTable, Row
from lawnbook.desk.row_figures import told_in_cell
from lawnbook.desk.workings import WorkingPanel
from lawnbook.plan.ground_workings import sum_working
from lawnbook.plan.working_model import Working

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
AREA = sum_working("Area", [("Front", 1234.0)], "drawn")
SMALL = replace(sum_working("Bed", [("Bed", 50.0)], "drawn"), figure="bed")
SHOWN = {"a": (AREA, SMALL), "b": (SMALL,)}
Shown = tuple[QMainWindow, RecordTable, list[str]]


@pytest.fixture
def shown(qapp: QApplication) -> Iterator[Shown]:
    """A table of two rows in a window whose F1 asks for help where there is nothing to open."""
    usual = qapp.doubleClickInterval()
    # Long enough for two clicks of a test on a busy machine, short enough to wait for.
    qapp.setDoubleClickInterval(150)
    window, asked = QMainWindow(), []
    table = RecordTable(("Name", "Area", "Bed"), ("areas", "Areas"))
    table.explain(lambda record_id: SHOWN.get(record_id, ()))
    table.show_rows(
        [Row("a", ("Front 1", "1,234", "50")), Row("b", ("Back", "–", "50")), Row("c", ("", "7"))]
    )
    window.setCentralWidget(table)
    FigureKey(window, lambda: asked.append("help"))
    window.resize(500, 300)
    window.show()
    window.activateWindow()
    table.setFocus()
    qapp.processEvents()
    yield window, table, asked
    qapp.setDoubleClickInterval(usual)
    window.close()
    window.deleteLater()
    qapp.processEvents()


def middle(table: RecordTable, row: int, column: int) -> QPoint:
    """Where a cell is clicked."""
    return table.visualRect(table.model().index(row, column)).center()


def click(table: RecordTable, row: int, column: int) -> None:
    """Click a cell, and wait until it cannot become a double-click any more."""
    QTest.mouseClick(table.viewport(), LEFT, NONE, middle(table, row, column))
    QTest.qWait(QApplication.doubleClickInterval() + 60)


def opened(window: QMainWindow) -> list[str]:
    """What the open panels are about; they are closed then."""
    told: list[str] = []
    for panel in window.findChildren(WorkingPanel):
        if panel.isVisible():
            told += [
                each.text()
                for each in panel.findChildren(QLabel)
                if each.property("role") == "heading"
            ]
            panel.close()
    QApplication.processEvents()
    return told


def test_the_first_click_picks_and_a_further_one_on_a_figure_opens_its_working(
    shown: Shown,
) -> None:
    """Only a figure of the row that is picked already opens, and only its own working."""
    window, table, _ = shown
    click(table, 0, 1)
    assert table.picked_id() == "a"
    assert opened(window) == []
    click(table, 0, 1)
    assert opened(window) == ["Area: 1,234 sq ft"]
    click(table, 0, 2)
    assert opened(window) == ["Bed: 50 sq ft"]


def test_names_and_what_has_no_figure_do_not_open(shown: Shown) -> None:
    """A name with a digit in it, a dash, and a row without workings answer to no click."""
    window, table, _ = shown
    for row, column in ((0, 0), (1, 1), (2, 1)):
        click(table, row, column)
        click(table, row, column)
        assert opened(window) == []


def test_a_double_click_still_opens_the_record_and_no_working(shown: Shown) -> None:
    """Editing goes before: what a double-click begins is not covered by a panel."""
    window, table, _ = shown
    click(table, 0, 1)
    spy = QSignalSpy(table.opened)
    QTest.mouseClick(table.viewport(), LEFT, NONE, middle(table, 0, 1))
    QTest.mouseDClick(table.viewport(), LEFT, NONE, middle(table, 0, 1))
    QTest.qWait(QApplication.doubleClickInterval() + 60)
    assert spy.count() == 1
    assert opened(window) == []


def test_a_row_that_goes_away_before_the_panel_comes_opens_nothing(shown: Shown) -> None:
    """The rows may be told anew between the click and the panel."""
    window, table, _ = shown
    click(table, 1, 2)
    QTest.mouseClick(table.viewport(), LEFT, NONE, middle(table, 1, 2))
    table.show_rows([Row("a", ("Front", "1,234", "50"))])
    QTest.qWait(QApplication.doubleClickInterval() + 60)
    assert opened(window) == []


def test_f1_opens_all_figures_of_the_picked_row_at_its_foot(shown: Shown) -> None:
    """By keys: the row is gone to with the arrows, its panel lies right below it."""
    window, table, asked = shown
    QTest.keyClick(table, Qt.Key.Key_F1)
    assert asked == ["help"]
    table.pick("a")
    QTest.keyClick(table, Qt.Key.Key_Down)
    QTest.keyClick(table, Qt.Key.Key_F1)
    (panel,) = (each for each in window.findChildren(WorkingPanel) if each.isVisible())
    foot = table.viewport().mapToGlobal(table.visualRect(table.model().index(1, 0)).bottomLeft())
    assert abs(panel.x() - foot.x()) < 12
    assert panel.y() >= foot.y() or panel.y() + panel.height() > foot.y()
    assert opened(window) == ["Bed: 50 sq ft"]
    assert asked == ["help"]


def test_the_hand_shows_over_figures_of_the_picked_row_alone(shown: Shown) -> None:
    """The pointer tells what a click opens."""
    _, table, _ = shown
    table.pick("a")
    QTest.mouseMove(table.viewport(), middle(table, 0, 1))
    QApplication.processEvents()
    assert table.viewport().cursor().shape() == Qt.CursorShape.PointingHandCursor
    for row, column in ((0, 0), (1, 2)):
        QTest.mouseMove(table.viewport(), middle(table, row, column))
        QApplication.processEvents()
        assert table.viewport().cursor().shape() == Qt.CursorShape.ArrowCursor


def test_a_cell_leads_to_the_figure_that_begins_with_its_number() -> None:
    """A column's unit may stand in its head; a cell that is no figure of theirs opens them all."""
    both: tuple[Working, ...] = (AREA, SMALL)
    assert told_in_cell("1,234", both) == (AREA,)
    assert told_in_cell("50", both) == (SMALL,)
    assert told_in_cell("50 sq ft", both) == (SMALL,)
    assert told_in_cell("12", both) == both


def test_a_table_says_nothing_before_it_is_told_how() -> None:
    """Tables of names and files have no hand."""
    table = RecordTable(("Name",), ("names", "Names"))
    assert hand_on(table) is None
    table.deleteLater()
