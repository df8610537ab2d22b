"""Leaves beside the book: one at a time, Esc, size remembered, named controls, quick starts."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from lawnbook.desk.help_text import found_in
from lawnbook.desk.leaf import Leaf
from lawnbook.desk.leaves import LEAVES, leaf_titles, open_leaf
from lawnbook.desk.looks import Looks
from lawnbook.desk.settings import Settings
from lawnbook.desk.theme import apply_looks, palette
from lawnbook.session.open_notebook import OpenNotebook
from tests.leaf_hand import Host, child, press, text_leaf
from tests.small_book import in_child

pytest_plugins = ["tests.desk_book", "tests.leaf_book"]


def visible(host: QWidget) -> list[str]:
    return [leaf.kind for leaf in host.findChildren(Leaf) if leaf.isVisible()]


def test_one_leaf_lies_there_at_a_time_and_each_is_made_once(host: Host) -> None:
    first = open_leaf(host, "help")
    for kind in LEAVES:
        leaf = open_leaf(host, kind)
        assert visible(host) == [kind]
        assert leaf.windowTitle().startswith(leaf_titles()[kind])
        assert leaf.accessibleName() == leaf_titles()[kind]
    assert open_leaf(host, "help") is first
    assert len(host.findChildren(Leaf)) == len(LEAVES)


@pytest.mark.parametrize("kind", LEAVES)
def test_esc_closes_and_size_and_place_are_found_again(
    host: Host, settings: Settings, kind: str
) -> None:
    leaf = open_leaf(host, kind)
    # As wide as it may be where the screen is narrower still.
    room = leaf.screen().availableSize().width()
    leaf.resize(max(leaf.minimumWidth(), room - 37), leaf.minimumHeight() + 21)
    size = leaf.size()
    QApplication.processEvents()
    press(leaf, Qt.Key.Key_Escape)
    assert visible(host) == []
    leaf.deleteLater()
    QCoreApplication.sendPostedEvents(leaf, QEvent.Type.DeferredDelete)
    again = open_leaf(host, kind)
    assert again.size() == size


def test_a_leaf_whose_screen_is_gone_is_still_seen(host: Host, settings: Settings) -> None:
    leaf = open_leaf(host, "keys")
    leaf.move(9000, 7000)
    QApplication.processEvents()
    leaf.close()
    open_leaf(host, "keys")
    assert leaf.screen().availableGeometry().intersects(leaf.frameGeometry())


@pytest.mark.parametrize("kind", LEAVES)
def test_whatever_takes_the_keyboard_has_a_name(host: Host, kind: str) -> None:
    leaf = open_leaf(host, kind)
    QApplication.processEvents()
    nameless = [
        f"{type(each).__name__} {each.objectName()}"
        for each in leaf.findChildren(QWidget)
        if each.focusPolicy() != Qt.FocusPolicy.NoFocus
        and not each.isHidden()
        and not each.accessibleName().strip()
    ]
    assert nameless == []


def test_a_leaf_leads_to_the_others_by_mouse(host: Host) -> None:
    leaf = open_leaf(host, "help")
    for here, there in pairwise(("help", "glossary", "keys", "settings", "help")):
        QTest.mouseClick(child(leaf, f"{here}_to_{there}"), Qt.MouseButton.LeftButton)
        assert visible(host) == [there]
        leaf = open_leaf(host, there)
    QTest.mouseClick(child(leaf, "help_close"), Qt.MouseButton.LeftButton)
    assert visible(host) == []


@pytest.mark.parametrize(
    ("key", "held", "kind"),
    [
        (Qt.Key.Key_F1, Qt.KeyboardModifier.ControlModifier, "glossary"),
        (Qt.Key.Key_F1, Qt.KeyboardModifier.ShiftModifier, "keys"),
        (Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier, "settings"),
    ],
)
def test_the_keys_of_the_leaves_work_in_a_leaf(
    host: Host, key: Qt.Key, held: Qt.KeyboardModifier, kind: str
) -> None:
    leaf = text_leaf(host, "help")
    QTest.keyClick(leaf, key, held)
    assert visible(host) == [kind]


def test_the_ways_to_other_leaves_stay_at_the_right_where_nothing_is_said(host: Host) -> None:
    leaf = text_leaf(host, "glossary")
    before = child(leaf, "glossary_to_help").x()
    QTest.keyClicks(leaf.search, "thatch")
    press(leaf, Qt.Key.Key_Escape)
    assert leaf.foot.text() == ""
    assert child(leaf, "glossary_to_help").x() == before


def test_what_is_searched_for_is_listed_and_esc_takes_the_search_back_first(host: Host) -> None:
    leaf = text_leaf(host, "glossary")
    everything = leaf.contents.keys
    QTest.keyClick(leaf, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(leaf.search, "ribbon finger")
    assert leaf.contents.keys == ("ribbon-test",)
    assert "Ribbon test" in leaf.text.toPlainText()
    assert len(leaf.text.extraSelections()) >= 2
    leaf.search.selectAll()
    QTest.keyClicks(leaf.search, "zzzz")
    assert leaf.foot.text() == "Nothing found for “zzzz”."
    # What the first letter had found is gone with it: all is listed, and nothing lit up.
    assert leaf.contents.keys == everything
    assert not leaf.text.extraSelections()
    press(leaf, Qt.Key.Key_Escape)
    assert visible(host) == ["glossary"]
    assert leaf.contents.keys == everything
    press(leaf, Qt.Key.Key_Escape)
    assert visible(host) == []


def test_enter_leads_through_what_was_found_and_round_again(host: Host) -> None:
    leaf = text_leaf(host, "glossary")
    QTest.keyClicks(leaf.search, "thatch")
    found = leaf.contents.keys
    assert len(found) > 3
    seen = [leaf.contents.picked]
    for _ in found:
        press(leaf.search, Qt.Key.Key_Return)
        seen.append(leaf.contents.picked)
    assert seen[:-1] == list(found)
    assert seen[-1] == found[0]


def test_the_contents_are_walked_by_arrows_and_tab_reaches_the_text(
    qtbot: QtBot, host: Host
) -> None:
    leaf = text_leaf(host, "keys")
    leaf.activateWindow()
    qtbot.waitUntil(leaf.isActiveWindow)
    leaf.begin()
    first, second = leaf.contents.keys[:2]
    assert leaf.contents.picked == first
    press(leaf.contents, Qt.Key.Key_Down)
    assert leaf.contents.picked == second
    assert leaf.contents.hasFocus()
    press(leaf.contents, Qt.Key.Key_Tab)
    assert leaf.text.hasFocus()


def test_a_leaf_follows_the_looks_while_it_is_read(
    qtbot: QtBot, qapp: QApplication, host: Host
) -> None:
    leaf = text_leaf(host, "glossary", "thatch")
    light = leaf.text.grab().toImage()
    small = leaf.text.document().size().height()
    apply_looks(qapp, Looks(theme="dark", scale_percent=150))
    qtbot.waitUntil(lambda: leaf.text.document().size().height() > small)
    assert palette().name == "dark"
    assert leaf.text.grab().toImage() != light
    assert leaf.contents.picked == "thatch"


def test_keys_are_found_by_what_they_do(host: Host) -> None:
    leaf = text_leaf(host, "keys")
    QTest.keyClicks(leaf.search, "duplicate")
    assert "Ctrl+J" in leaf.text.toPlainText()
    assert found_in(leaf.passages, "On the sketch") == "on-the-sketch"


def test_no_start_waits_for_a_leaf(tmp_path: object, book: OpenNotebook) -> None:
    book.close()
    told = in_child(
        """
        import sys
        from datetime import date
        from pathlib import Path
        from PySide6.QtWidgets import QApplication
        from lawnbook.desk.settings import Settings
        from lawnbook.desk.window import BookWindow
        from lawnbook.session.open_notebook import OpenNotebook
        app = QApplication([])
        path = Path(sys.argv[1])
        opened = OpenNotebook.open(path, date(2026, 11, 25))
        window = BookWindow(opened, Settings(path.with_name("ini")))
        window.show()
        window.grab()
        late = ("leaf", "help_text", "licences", "dropping", "news_link", "key_list")
        print([name for name in sys.modules if name.startswith("lawnbook.desk.leaf")
               and name != "lawnbook.desk.leaves"]
              + [name for name in late if f"lawnbook.desk.{name}" in sys.modules])
        window.close()
        """,
        book.path,
    )
    assert told.stdout.splitlines()[-1] == "[]", told.stderr
