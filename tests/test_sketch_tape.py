"""The tape by several legs: lengths, turns, the area, and the length copied."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from tests.sketch_hand import Hand, sketch_yard

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard with the tape."""
    made = Hand.on(sketch_yard(), tmp_path)
    made.key(Key.Key_T)
    yield made
    made.close()


def test_leg_after_leg_adds_up(hand: Hand) -> None:
    for at in ((0, 30), (15, 30)):
        hand.click(at)
    hand.move((15, 45))
    assert hand.said("bubble").startswith("15'  ·  0°  ·  turns L 90°  ·  30' in all")
    hand.click((15, 45))
    hand.key(Key.Key_Return)
    assert hand.words().startswith("30' in 2 legs.")
    hand.move((40, 45))
    assert hand.words().startswith("30' in 2 legs.")
    assert hand.book.undo_label == ""


def test_the_first_place_closes_it_for_its_area(hand: Hand) -> None:
    for at in ((0, 30), (15, 30), (15, 50), (0, 50)):
        hand.click(at)
    hand.move((0, 30), off=(3, 2))
    assert "300 sq ft" in hand.said("bubble")
    hand.click((0, 30), off=(3, 2))
    assert hand.words().startswith("70' in 4 legs; 300 sq ft")


def test_a_way_that_crosses_itself_has_no_area(hand: Hand) -> None:
    for at in ((0, 30), (15, 50), (15, 30), (0, 50)):
        hand.click(at)
    hand.click((0, 30))
    assert "crosses itself" in hand.words()


def test_backspace_takes_a_leg_back_and_a_double_click_ends(hand: Hand) -> None:
    for at in ((0, 30), (15, 30), (15, 50)):
        hand.click(at)
    hand.key(Key.Key_Backspace)
    assert hand.words().startswith("15' from end to end")
    hand.double((15, 40))
    assert hand.words().startswith("25' in 2 legs")
    hand.click((40, 60))
    hand.move((50, 60))
    assert hand.words().startswith("10' from end to end: 10' across, 0' up, 90°")


def test_the_length_is_copied(hand: Hand) -> None:
    hand.drag((0, 30), (13, 30))
    hand.key(Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "13'"
    assert "copied" in hand.words()


def test_it_measures_from_head_to_spot(hand: Hand) -> None:
    hand.click((15, 10), off=(2, 2))
    hand.move((5, 4), off=(-2, 1))
    assert hand.said("bubble").endswith("on Elm")
    hand.click((5, 4), off=(-2, 1))
    # The head stands at (15, 10), the spot at (5, 4): √(10² + 6²) = 11.66 ft.
    assert hand.words().startswith("11' 8\" from end to end")


def test_escape_rolls_it_up(hand: Hand) -> None:
    hand.click((0, 30))
    hand.key(Key.Key_Escape)
    assert hand.words().startswith("Drag from end to end")
