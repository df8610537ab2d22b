"""What is locked can be chosen and read, and is kept from every hand."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from tests.sketch_hand import Hand, sketch_yard

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard, the back zone locked by K."""
    made = Hand.on(sketch_yard(), tmp_path)
    made.click((60, 10))
    made.key(Key.Key_K)
    yield made
    made.close()


def test_k_locks_and_unlocks_in_one_step_each(hand: Hand) -> None:
    assert hand.zone("back").locked
    assert hand.book.undo_label == "lock Back"
    assert "locked" in hand.view.accessibleDescription()
    assert hand.panel.scene.handles() == ()
    hand.key(Key.Key_K)
    assert not hand.zone("back").locked
    assert hand.panel.scene.handles()


@pytest.mark.parametrize("key", [Key.Key_Right, Key.Key_Delete, Key.Key_Insert])
def test_keys_leave_it_and_say_how_to_unlock(hand: Hand, key: Qt.Key) -> None:
    before = hand.notebook
    hand.key(key)
    assert hand.notebook == before
    assert hand.words() == "Back is locked; unlock it with K."


def test_a_drag_leaves_it_and_says_so(hand: Hand) -> None:
    before = hand.notebook
    hand.drag((60, 10), (60, 20))
    assert hand.notebook == before
    assert hand.words() == "Back is locked; unlock it with K."


def test_the_others_move_and_it_stays(hand: Hand) -> None:
    hand.key(Key.Key_A, CTRL)
    hand.drag((25, 15), (25, 5))
    assert hand.zone("front").outline_ft[0] == (0.0, -10.0)
    assert hand.zone("back").outline_ft[0] == (40.0, 0.0)
    assert "Back is locked and stays" in hand.words()


def test_what_is_removed_is_what_is_free(hand: Hand) -> None:
    hand.key(Key.Key_A, CTRL)
    hand.key(Key.Key_Delete)
    assert list(hand.notebook.zones) == ["back"]
    assert "Back is locked and stays" in hand.words()


def test_the_arc_of_a_locked_head_is_not_typed_over(hand: Hand) -> None:
    hand.click((15, 10))
    hand.key(Key.Key_K)
    field = hand.field("head_radius_ft")
    assert isinstance(field, QLineEdit)
    field.setFocus()
    field.selectAll()
    hand.type("12")
    hand.key(Key.Key_Return)
    assert hand.notebook.heads["head"].radius_ft == 8.0
    assert "is locked" in hand.words()


def test_no_hole_is_cut_in_it(hand: Hand) -> None:
    before = hand.notebook
    hand.key(Key.Key_O)
    hand.drag((55, 8), (62, 14))
    assert hand.notebook == before
    assert hand.words() == "Back is locked; unlock it with K."
