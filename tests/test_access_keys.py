"""By keys alone: every control is reached in reading order, and seen where the keyboard is."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QPaintEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QVBoxLayout, QWidget

from lawnbook.desk.looks import ThemeName
from lawnbook.desk.pages.water_sections import SectionRow
from lawnbook.desk.quick_add import open_quick_add
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.desk.workings import WorkingLink
from tests.access_keys import faults_by_keys, looks_focused, unseen_in, wanted_in
from tests.access_walk import opened, settle, told, turn
from tests.desk_sample import DAY, sample
from tests.page_book import put_away

K = Qt.Key
LOOKED_AT = (
    ("Yard", "Shapes"),
    ("Plugs", "Photos"),
    ("Water", "Year"),
    ("Feed", "Check"),
    ("Season", "Year"),
    ("Sheet", "Plan"),
)


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """A window on a sample that has something on every page."""
    apply_theme(qapp, "light")
    made = opened(tmp_path_factory.mktemp("keys"), sample("larkspur_corner"), DAY)
    yield made
    made.book.close()
    put_away(made)


@pytest.mark.parametrize("theme", ["dark"])
def test_it_is_seen_where_the_keyboard_is(window: BookWindow, theme: ThemeName) -> None:
    """Where each kind of control is; `test_access_walk.py` looks at every section, in light."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, theme)
    wrong = {}
    for page, section in LOOKED_AT:
        wrong[section] = unseen_in(turn(window, page, section))
    apply_theme(app, "light")
    assert {name: found for name, found in wrong.items() if found} == {}


class Blind(QPushButton):
    """Shows nothing of the keyboard."""

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Taken without a word."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Nothing."""


def test_the_walk_finds_what_is_not_seen_not_reached_and_out_of_order(qapp: QApplication) -> None:
    page, around = QWidget(), QWidget()
    QVBoxLayout(around).addWidget(page)
    around_stop = QPushButton("Outside", around)
    column = QVBoxLayout(page)
    first, second, blind = QPushButton("First", page), QPushButton("Second", page), Blind("", page)
    for name, each in (("first", first), ("second", second), ("blind", blind)):
        each.setObjectName(name)
        column.addWidget(each)
    QWidget.setTabOrder(second, first)
    around.show()
    around.activateWindow()
    settle()
    assert unseen_in(page) == ["Blind 'blind'"]
    assert faults_by_keys(page) == ["QPushButton 'first' after QPushButton 'second'"]
    assert around_stop.isVisible()
    put_away(around)


def test_from_the_sketch_tab_goes_on_past_the_last_shape(window: BookWindow) -> None:
    """Each Tab chooses a shape; past the last one the keyboard goes on: no trap."""
    window.turn_to("Yard")
    view = window.sketch.view
    view.setFocus(Qt.FocusReason.TabFocusReason)
    notebook = window.book.notebook
    shapes = sum(len(notebook.table(each)) for each in ("zones", "features", "heads", "spots"))
    presses = 0
    while QApplication.focusWidget() is view:
        QTest.keyClick(view, K.Key_Tab)
        presses += 1
        assert presses <= shapes + 1, "the sketch holds Tab"
    window.sketch.control.choose(None)


def test_around_the_pages_every_control_is_seen_with_the_keyboard(window: BookWindow) -> None:
    window.activateWindow()
    window.turn_to("Yard")
    window.sketch.control.choose(None)
    settle()
    page = window.page("Yard")
    around = [each for each in wanted_in(window) if not page.isAncestorOf(each)]
    assert len(around) > 10
    assert [told(each) for each in around if not looks_focused(each)] == []


def test_tab_leads_to_the_section_that_is_open_though_another_had_the_keyboard(
    qapp: QApplication,
) -> None:
    """Qt leads it to the name that had the keyboard last, which may be hidden by now."""
    row = SectionRow(("One", "Two"), "trial", "Sections")
    row.show()
    row.activateWindow()
    one, two = (row.findChild(QWidget, f"trial_section_{each}") for each in ("one", "two"))
    assert one is not None
    assert two is not None
    row.turn_to("One")
    one.setFocus()
    row.turn_to("Two")
    row.show_name("One", shown=False)
    assert wanted_in(row) == [two]
    put_away(row)


def test_escape_leaves_what_opens_over_the_page(window: BookWindow) -> None:
    page = turn(window, "Water", "Now")
    link = next(each for each in page.findChildren(WorkingLink) if each.isVisible())
    link.setFocus()
    QTest.keyClick(link, K.Key_Space)
    panel = QApplication.activePopupWidget()
    assert panel is not None
    QTest.keyClick(panel, K.Key_Escape)
    settle()
    assert QApplication.activePopupWidget() is None
    # Without a screen nothing gives the window the front back when a panel closes.
    window.activateWindow()
    link.setFocus()
    quick = open_quick_add(window)
    QTest.keyClick(quick.line, K.Key_Escape)
    assert not quick.isVisible()
    assert window.focusWidget() is link
