"""The list of keys: all that works is in it, and all that is in it works."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QShortcut
from PySide6.QtWidgets import QApplication, QMenu

from lawnbook import desk
from lawnbook.desk.key_list import KEYS
from lawnbook.desk.theme import apply_theme
from lawnbook.desk.window import BookWindow
from lawnbook.yard.fields import Point
from tests.access_walk import opened, settle
from tests.desk_sample import DAY, sample
from tests.page_book import put_away
from tests.sketch_hand import Hand, sketch_yard

K = Qt.Key
NAMES = {
    "Enter": ("Return", "Enter"),
    "Page Up": ("PageUp",),
    "Page Down": ("PageDown",),
    "Arrows": ("Left", "Right", "Up", "Down"),
    "Esc": ("Escape",),
    "+": ("Plus", "Equal"),
    "\u2212": ("Minus",),
    "Shift+Tab": ("Backtab",),
    "Shift+F10": ("F10",),
}
"""Keys by their names in the list, where Qt has others."""
BY_TEXT = {"Digits", "<", "L", "R", "4", "Shift", "Alt", "Ctrl", "Shift and click", "drag", "J"}
"""What is listed and read from what is typed, or goes with the mouse."""
ASKED_FOR = {
    "Ctrl+A": "Key_A",
    "Ctrl+C": "StandardKey.Copy",
    "Ctrl+F": '"Ctrl+F"',
    "Ctrl+V": "StandardKey.Paste",
    "Alt+Down": "AltModifier",
    "F2": "Key_F2",
}
"""Sequences that no action has, and what the code that answers them says."""
PARTED = re.compile(r", then |, or |, (?!,)| or | to ")
SPOKEN_OF = re.compile(r"\b(Enter|Esc|Delete|Space|Home|End|W)\b")


def listed() -> list[str]:
    """Every key in the list, by its name there, and those that what it does speaks of."""
    lines = [line for _, *of_place in KEYS for line in of_place]
    keys = [each for keys, _ in lines for each in PARTED.split(keys)]
    return keys + [each for _, what in lines for each in SPOKEN_OF.findall(what)]


def handled() -> set[str]:
    """The keys that the desk's own code asks for, by their names in Qt."""
    folder = Path(desk.__file__).parent
    return {
        name
        for path in folder.rglob("*.py")
        for name in re.findall(r"\bKey_(\w+)", path.read_text(encoding="utf-8"))
    }


def names_of(key: str) -> tuple[str, ...]:
    """A listed key by its names in Qt."""
    return NAMES.get(key, (key,))


@pytest.fixture(scope="module")
def window(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[BookWindow]:
    """A window whose pages and menus have all been seen."""
    apply_theme(qapp, "light")
    made = opened(tmp_path_factory.mktemp("list"), sample("larkspur_corner"), DAY)
    for action in made.menuBar().actions():
        menu = action.menu()
        if isinstance(menu, QMenu):
            menu.aboutToShow.emit()
    for page in ("Yard", "Plugs"):
        made.turn_to(page)
    settle()
    yield made
    made.book.close()
    put_away(made)


def test_every_shortcut_of_the_window_is_listed(window: BookWindow) -> None:
    text = " ".join(listed())
    every = [keys for each in window.findChildren(QAction) for keys in each.shortcuts()]
    every += [each.key() for each in window.findChildren(QShortcut)]
    assert len(every) > 20
    missing = {
        shown
        for keys in every
        if (shown := keys.toString())
        and not re.fullmatch(r"Ctrl\+[1-6]", shown)
        and shown not in text
    }
    assert missing == set()


def test_every_listed_sequence_is_a_shortcut_or_is_asked_for(window: BookWindow) -> None:
    folder = Path(desk.__file__).parent
    source = "".join(path.read_text(encoding="utf-8") for path in folder.rglob("*.py"))
    works = {keys.toString() for each in window.findChildren(QAction) for keys in each.shortcuts()}
    wanted = {each for each in listed() if re.match(r"(Ctrl|Alt)\+|F\d", each)}
    asked = {each for each, where in ASKED_FOR.items() if where in source}
    assert wanted - works - asked == set()


def test_every_key_that_is_asked_for_is_listed_and_every_listed_one_is_asked_for() -> None:
    told = {name for key in listed() for name in names_of(key)}
    asked = handled()
    assert asked - told == set()
    single = {key for key in listed() if "+" not in key or key in NAMES} - BY_TEXT - {"Tab"}
    dead = {key for key in single if not set(names_of(key)) & asked and not key.startswith("F")}
    assert dead == set()


@pytest.fixture
def hand(tmp_path: Path) -> Iterator[Hand]:
    """The sketch yard on a panel."""
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def test_both_ends_of_a_distance_are_put_down_by_keys(hand: Hand) -> None:
    """Scaling a backdrop, splitting and mirroring ask for two places: no mouse is needed."""
    ends: list[tuple[Point, Point]] = []
    hand.panel.control.ask_line("Both ends.", lambda a, b: ends.append((a, b)), snaps=False)
    hand.view.setFocus()
    pointer = hand.panel.key_pointer
    assert not pointer.isVisible()
    hand.key(K.Key_Left)
    assert pointer.isVisible()
    hand.key(K.Key_Return)
    for _ in range(12):
        hand.key(K.Key_Right)
    hand.key(K.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert "east" in pointer.accessibleDescription()
    hand.key(K.Key_Insert)
    ((first, second),) = ends
    apart_px = (second[0] - first[0]) * hand.view.px_per_ft
    assert apart_px == pytest.approx(121, abs=0.01)
    assert first[1] == pytest.approx(second[1])
    assert not pointer.isVisible()


@pytest.mark.parametrize(("tool", "table"), [("Head", "heads"), ("Spot", "spots")])
def test_heads_and_spots_are_placed_by_keys(hand: Hand, tool: str, table: str) -> None:
    before = len(hand.notebook.table(table))
    hand.panel.take(tool)
    way = hand.px((30.0, 4.0)) - hand.view.viewport().rect().center()
    for size, plus, minus in ((way.x(), K.Key_Right, K.Key_Left), (way.y(), K.Key_Down, K.Key_Up)):
        for _ in range(abs(round(size / 10))):
            hand.key(plus if size > 0 else minus)
    hand.key(K.Key_Insert)
    assert len(hand.notebook.table(table)) == before + 1


def test_a_hand_on_the_mouse_needs_no_cross(hand: Hand) -> None:
    hand.panel.take("Head")
    hand.key(K.Key_Up)
    assert hand.panel.key_pointer.isVisible()
    hand.press((5.0, 5.0))
    assert not hand.panel.key_pointer.isVisible()
