"""The sketch without a mouse and without sight: reached, chosen, changed, and read aloud."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from lawnbook.desk.pages.yard import YardPage
from lawnbook.desk.pages.yard_shapes import ShapesSection
from lawnbook.desk.roles import announce
from lawnbook.desk.settings import Settings
from lawnbook.desk.sketch.reading_aloud import ReadingAloud, chosen_words
from lawnbook.desk.sketch.shape_rows import shape_rows
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.session.open_notebook import OpenNotebook
from tests.access_keys import out_of_order, round_of
from tests.conftest import TODAY
from tests.desk_hand import press
from tests.page_book import put_away, settle
from tests.sketch_hand import Hand, sketch_yard

K = Qt.Key
FRONT = ("zones", "front")


@pytest.fixture
def hand(tmp_path: Path) -> Iterator[Hand]:
    """The sketch yard on a panel."""
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def section_of(folder: Path, theme: str) -> tuple[BookWindow, ShapesSection]:
    """A window on the sketch yard, turned to the Shapes section."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    apply_theme(app, theme)
    book = OpenNotebook.create(folder / "read.lawnbook", sketch_yard(), TODAY)
    window = BookWindow(book, Settings(folder / "desk.ini"))
    window.resize(1440, 900)
    window.show()
    window.activateWindow()
    window.turn_to("Yard")
    page = window.page("Yard")
    assert isinstance(page, YardPage)
    page.turn_to("Shapes")
    settle()
    found = page.findChild(ShapesSection)
    assert isinstance(found, ShapesSection)
    return window, found


def test_tab_reaches_every_shape_and_each_is_read(hand: Hand) -> None:
    """Each stop of Tab is announced by the sentence that the list has for it."""
    told: list[str] = []
    ReadingAloud(hand.panel.control, hand.view, lambda _, words: told.append(words))
    rows = [row.spoken for row in shape_rows(hand.notebook)]
    hand.view.setFocus()
    for _ in rows:
        hand.key(K.Key_Tab)
    assert [words for words in told if words in rows] == rows


def test_several_a_lock_and_a_corner_are_read(hand: Hand) -> None:
    control = hand.panel.control
    assert chosen_words(control) == "Nothing is chosen"
    control.choose_all((FRONT, ("zones", "back"), ("features", "house")))
    hand.key(K.Key_K)
    assert chosen_words(control) == "Zone 1 Front, 600 square feet, locked; 2 others with it"


def test_what_is_said_below_the_sketch_is_said_once(hand: Hand) -> None:
    told: list[str] = []
    reader = ReadingAloud(hand.panel.control, hand.view, lambda _, words: told.append(words))
    for _ in range(2):
        hand.panel.control.say("Front is locked.", "warn")
    assert told == ["Front is locked."]
    assert reader.parent() is hand.view


def test_an_announcement_of_qt_reaches_whoever_listens(hand: Hand) -> None:
    """With a screen reader there, and without: neither may fail."""
    active = QAccessible.isActive()
    for listens in (True, False):
        QAccessible.setActive(listens)
        announce(hand.view, "Front is locked.")
    QAccessible.setActive(active)
    assert hand.view.accessibleDescription()


def test_the_list_is_a_native_list_with_a_sentence_for_each(tmp_path: Path) -> None:
    window, section = section_of(tmp_path, "light")
    heard = QAccessible.queryAccessibleInterface(section.list)
    assert heard.role() == QAccessible.Role.List
    names = [heard.child(n).text(QAccessible.Text.Name) for n in range(heard.childCount())]
    assert names == [row.spoken for row in shape_rows(sketch_yard())]
    del heard
    put_away(window)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_focus_is_seen_wherever_tab_stops(tmp_path: Path, theme: str) -> None:
    """Each control looks otherwise with the focus than without, in both themes."""
    window, section = section_of(tmp_path, theme)
    section.list.setFocus()
    press(K.Key_Home)
    stops: list[QWidget] = []
    while True:
        at = QApplication.focusWidget()
        assert at is not None
        if at in stops or not section.isAncestorOf(at):
            break
        stops.append(at)
        QTest.keyClick(at, K.Key_Tab)
        settle()
    unseen = []
    for each in stops:
        window.setFocus()
        settle()
        without = picture(each)
        each.setFocus(Qt.FocusReason.TabFocusReason)
        settle()
        if picture(each) == without:
            unseen.append(each.objectName())
    put_away(window)
    assert len(stops) > 15
    assert unseen == []


def test_tab_goes_through_the_section_as_it_is_read(tmp_path: Path) -> None:
    window, section = section_of(tmp_path, "light")
    window.sketch.control.choose_all((FRONT,))
    settle()
    forth, back = round_of(section)
    wrong = out_of_order(forth, section)
    put_away(window)
    assert len(forth) > 11
    assert set(forth) == set(back)
    assert wrong == []


def picture(widget: QWidget) -> QImage:
    """A control as it is painted."""
    return widget.grab().toImage()
