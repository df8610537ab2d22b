"""Any figure opens its working: by a click and by F1; with none there F1 is Help."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QCursor
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QTableWidget, QWidget

from lawnbook.desk.figures import FigureHand, hand_on, let_open, told_in
from lawnbook.desk.row_figures import told_in_cell
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS
from lawnbook.desk.window import BookWindow
from lawnbook.desk.workings import WorkingLink, WorkingPanel
from lawnbook.desk.workings_bars import ChangeBar, reaches_of
from lawnbook.plan.sensitivity import sensitivities_of
from lawnbook.plan.working_model import Input, Working
from lawnbook.plan.workings_text import lines_of
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.notebook import as_of
from tests.desk_sample import samples

ON = date(2026, 6, 15)
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """A window on a sample, which these tests only read."""
    folder: Path = tmp_path_factory.mktemp("figures")
    book = OpenNotebook.create(
        folder / "corner.lawnbook", as_of(samples()["larkspur_corner"], ON), ON
    )
    made = BookWindow(book, Settings(folder / "settings.ini"))
    made.resize(1440, 900)
    made.show()
    made.activateWindow()
    assert made.plan.zones
    settle(qapp)
    yield made
    made.close()
    made.deleteLater()
    settle(qapp)


def settle(app: QApplication) -> None:
    """Let what was put off happen."""
    for _ in range(8):
        app.processEvents()


def panels(window: BookWindow) -> list[WorkingPanel]:
    """The panels that are open."""
    return [each for each in window.findChildren(WorkingPanel) if each.isVisible()]


def headings(window: BookWindow) -> list[str]:
    """What the open panel is about; it is closed then."""
    (panel,) = panels(window)
    said = [
        each.text() for each in panel.findChildren(QLabel) if each.property("role") == "heading"
    ]
    panel.close()
    QApplication.processEvents()
    return said


def label(window: BookWindow, name: str) -> QLabel:
    """A label that can be seen."""
    found = window.findChild(QLabel, name)
    assert isinstance(found, QLabel)
    assert found.isVisible()
    return found


def turned(window: BookWindow, qapp: QApplication, name: str, section: str) -> QWidget:
    """A page, turned to one of its sections."""
    page: Any = window.page(name)
    page.turn_to(section)
    settle(qapp)
    shown: QWidget = page
    return shown


def water(window: BookWindow, qapp: QApplication, section: str = "Now") -> QWidget:
    """The water page, turned to a section."""
    window.turn_to("Water")
    return turned(window, qapp, "Water", section)


def test_a_click_on_words_opens_the_figures_in_them(window: BookWindow, qapp: QApplication) -> None:
    """Those told in the words, and no others."""
    water(window, qapp, "Roots")
    words = label(window, "roots_now_words")
    QTest.mouseClick(words, LEFT, NONE, words.rect().center())
    assert any(each.startswith("Rooted soil: ") for each in headings(window))


def test_f1_opens_what_lies_under_the_pointer(window: BookWindow, qapp: QApplication) -> None:
    """With the keyboard anywhere; and again puts the panel away."""
    page = water(window, qapp)
    row = page.findChild(QWidget, "next_figures")
    assert isinstance(row, QWidget)
    depth = row.findChildren(QLabel)[0]
    QCursor.setPos(depth.mapToGlobal(depth.rect().center()))
    asked = QSignalSpy(window.help_asked)
    QTest.keyClick(window, Qt.Key.Key_F1)
    (panel,) = panels(window)
    assert any(depth.text() in each.text() for each in panel.findChildren(QLabel))
    assert asked.count() == 0
    QTest.keyClick(panel, Qt.Key.Key_F1)
    assert not panels(window)


def test_f1_opens_what_has_the_keyboard(window: BookWindow, qapp: QApplication) -> None:
    """A link to a working, and the row of a table, whose zone need not be the one on show."""
    page = water(window, qapp)
    QCursor.setPos(window.mapToGlobal(QPoint(2, 2)))
    link = page.findChild(WorkingLink, "next_working")
    assert isinstance(link, WorkingLink)
    link.setFocus()
    QTest.keyClick(link, Qt.Key.Key_F1)
    assert headings(window)
    table = page.findChild(QTableWidget, "water_table")
    assert isinstance(table, QTableWidget)
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_F1)
    assert any(each.startswith("Area: ") for each in headings(window))


def test_f1_with_no_figure_there_asks_for_help(window: BookWindow, qapp: QApplication) -> None:
    """On a field of the yard page, the pointer on the window's frame."""
    window.turn_to("Yard")
    settle(qapp)
    QCursor.setPos(window.mapToGlobal(QPoint(2, 2)))
    window.tabs.setFocus()
    asked = QSignalSpy(window.help_asked)
    QTest.keyClick(window, Qt.Key.Key_F1)
    assert asked.count() == 1
    assert asked.at(0) == [""]
    assert not panels(window)


def test_the_sketch_opens_what_is_chosen_and_what_is_pointed_at(
    window: BookWindow, qapp: QApplication
) -> None:
    """A zone's figure by the colour it has, and its area."""
    window.sketch.colour_by("Rooted soil")
    zone = next(iter(window.book.notebook.zones.values()))
    QCursor.setPos(window.mapToGlobal(QPoint(2, 2)))
    window.select("zones", zone.id)
    settle(qapp)
    window.sketch.view.setFocus()
    QTest.keyClick(window.sketch.view, Qt.Key.Key_F1)
    said = headings(window)
    assert said[0].startswith("Rooted soil: ")
    assert said[-2].startswith("Area: 1,648")


def test_the_panel_says_what_would_change_it_most_and_copies_its_words(
    window: BookWindow, qapp: QApplication
) -> None:
    """Bars for the first, the words of every place that tells workings, in the clipboard too."""
    page = water(window, qapp)
    link = page.findChild(WorkingLink, "next_working")
    assert isinstance(link, WorkingLink)
    told = [each for each in link.workings() if each.figure == "next_run_minutes"]
    panel = WorkingPanel.open_below(link, told)
    assert len(panel.findChildren(ChangeBar)) == 3
    shown = "\n".join(each.text() for each in panel.findChildren(QLabel))
    (working,) = told
    assert working.filled in shown
    assert "What would change it most" in shown
    copy = panel.findChild(QPushButton, "working_copy")
    assert isinstance(copy, QPushButton)
    QTest.mouseClick(copy, LEFT)
    assert QApplication.clipboard().text() == "\n".join(lines_of(working))
    panel.close()


def test_bars_reach_as_far_as_the_changes(window: BookWindow) -> None:
    """The longest is whole, and both ways of a linear input are as long."""
    working = next(w for w in window.plan.zones[0].workings if w.figure == "run_minutes")
    first, second, _ = reaches_of(sensitivities_of(working))
    assert max(abs(first.upper), abs(first.lower)) == pytest.approx(1)
    assert second.upper == pytest.approx(-second.lower)
    assert first.upper < 0 < first.lower


def test_the_words_are_seen_to_open(window: BookWindow, qapp: QApplication) -> None:
    """The pointing hand comes with the pointer and goes with it."""
    water(window, qapp, "Roots")
    words = label(window, "roots_now_words")
    hand = hand_on(words)
    assert hand is not None
    plain = words.grab().toImage()
    QTest.mouseMove(words, words.rect().center())
    hand.light(on=True)
    assert words.cursor().shape() == Qt.CursorShape.PointingHandCursor
    assert words.grab().toImage() != plain
    hand.light(on=False)
    assert words.grab().toImage() == plain


def figure(value: str) -> Working:
    """A working with a value."""
    return Working("x", "X", value, "", "", (), "")


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("0.41 in every 2 days", ("0.41 in", "2 days")),
        ("10.41 in every 12 days", ("0.41 in", "2 days", "45 min")),
        ("Nothing is known.", ("0.41 in", "2 days", "45 min")),
        ("45 min", ("45 min",)),
    ],
)
def test_the_figures_told_in_words(words: str, found: tuple[str, ...]) -> None:
    """Whole figures only; of words that tell none all that there is."""
    listed = [figure(each) for each in ("0.41 in", "2 days", "45 min")]
    assert tuple(each.value for each in told_in(words, listed)) == found


@pytest.mark.parametrize("words", ["Next: Wed 17 Jun.", "17 Jun 2026", "on 17 Jun, at night"])
def test_a_day_is_told_without_its_year_where_it_is_near(words: str) -> None:
    """The day is the figure, whether its year is told or left out."""
    listed = [figure("0.41 in"), figure("17 Jun 2026")]
    assert told_in(words, listed) == (listed[1],)
    assert told_in("17 Jun 2025", listed) == tuple(listed)


def test_a_minus_leads_to_its_figure_however_it_is_written() -> None:
    """Sentences have the sign of minus, workings a hyphen."""
    listed = [figure("0.50 in"), figure("-0.50 in")]
    assert told_in("−0.50 in of thatch", listed)[-1] == listed[1]
    assert told_in_cell("−0.50", listed) == (listed[1],)


@pytest.mark.parametrize("words", ["46 min", "2 × 23 min", "31 min, not 46 min"])
def test_minutes_are_told_as_a_timer_is_set(words: str) -> None:
    """What a timer is set to leads to the run time that it was rounded up from."""
    run = replace(figure("45.2 min"), also=("46 min", "2 × 23 min"))
    assert told_in(words, [figure("0.41 in"), run]) == (run,)


@pytest.mark.parametrize(("words", "first"), [("25,418", 1), ("8 gal of it", 2), ("5,418", 0)])
def test_a_number_without_a_working_leads_first_to_what_it_went_into(
    words: str, first: int
) -> None:
    """All are told, first the figure that has the number among its inputs."""
    inputs = ("1,000 gal", "25,418 gal", "8 gal")
    listed = [
        replace(figure(f"{number} in"), inputs=(Input("I", each, ""),))
        for number, each in enumerate(inputs, 70)
    ]
    told = told_in(words, listed)
    assert told[0] == listed[first]
    assert set(told) == set(listed)


def test_a_figure_without_a_working_stays_as_it_is(qapp: QApplication) -> None:
    """No hand under the pointer, and a click goes on to what is below."""
    words = QLabel("no figure")
    let_open(tuple, words)
    words.show()
    hand = hand_on(words)
    assert isinstance(hand, FigureHand)
    QTest.mouseClick(words, LEFT)
    assert words.cursor().shape() == Qt.CursorShape.ArrowCursor
    assert not hand.open()
    words.close()
    words.deleteLater()
    settle(qapp)


FIGURE = re.compile(
    r"\d[\d.,]*\s*(?:in\b|sq ft|gal\b|min\b|lb\b|%|gpm|days?\b)|\d+\.\d+|\d,\d{3}\b"
)


def opens(widget: QWidget) -> bool:
    """Whether a widget, or what it stands in, opens a working."""
    around: QWidget | None = widget
    while around is not None and not around.isWindow():
        if hand_on(around) is not None:
            return True
        around = around.parentWidget()
    return False


FIGURES_ON = {
    "Plugs": ("Columns", "Trend", "Then and now"),
    "Water": ("Now", "Roots", "Year", "Sprinklers"),
    "Feed": ("Check", "Year"),
    "Season": ("Year",),
    "Sheet": ("Year in review",),
}


@pytest.mark.parametrize("name", FIGURES_ON)
def test_every_large_figure_of_a_page_opens(
    window: BookWindow, qapp: QApplication, name: str
) -> None:
    """Verdicts, large figures and the cells of tables of figures, in every section that has any."""
    assert name in dict(TABS)
    window.turn_to(name)
    seen = 0
    for section in FIGURES_ON[name]:
        page = turned(window, qapp, name, section)
        for words in page.findChildren(QLabel):
            large = words.property("role") in ("figure", "verdict")
            if words.isVisible() and large and FIGURE.search(words.text()):
                assert opens(words), f"{section}: {words.objectName()} {words.text()}"
                seen += 1
    assert seen or name == "Season"
