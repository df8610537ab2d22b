"""Anything a hand may do to the sketch in any order: nothing breaks, and undo leads back."""

import random
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from lawnbook.yard.check import check_notebook
from lawnbook.yard.fields import Point
from lawnbook.yard.problems import refused
from tests.conftest import TODAY
from tests.sketch_hand import ALT, LEFT, NO_KEY, SHIFT, Hand, sketch_yard

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier
KEYS = (
    *(
        Key.Key_P,
        Key.Key_Z,
        Key.Key_O,
        Key.Key_F,
        Key.Key_H,
        Key.Key_S,
        Key.Key_T,
        Key.Key_C,
        Key.Key_N,
    ),
    *(Key.Key_Left, Key.Key_Right, Key.Key_Up, Key.Key_Down, Key.Key_Tab, Key.Key_Backtab),
    *(Key.Key_Return, Key.Key_Escape, Key.Key_Backspace, Key.Key_Delete, Key.Key_Insert),
    *(Key.Key_K, Key.Key_M, Key.Key_M, Key.Key_B, Key.Key_PageUp, Key.Key_PageDown),
    *(Key.Key_Plus, Key.Key_Minus, Key.Key_0, Key.Key_1, Key.Key_7, Key.Key_Space, Key.Key_F2),
)


def act(hand: Hand, dice: random.Random) -> None:
    """One thing at random, as often the mouse as the keys."""

    def place() -> tuple[float, float]:
        return (dice.uniform(-15, 85), dice.uniform(-15, 60))

    what = dice.randrange(10)
    if what < 2:
        hand.click(place())
    elif what == 2:
        hand.drag(place(), place())
    elif what == 3:
        hand.double(place())
    elif what == 4:
        handles = hand.panel.scene.handles()
        hand.drag(dice.choice(handles).at_ft if handles else place(), place())
    elif what == 5:
        hand.press(place())
        hand.move(place())
        QTest.keyClick(hand.view, dice.choice(KEYS))
        hand.release(place())
    elif what == 6:
        held(hand, dice.choice((SHIFT, SHIFT, CTRL)), place(), place())
    elif what == 7:
        QTest.mouseClick(hand.view.viewport(), LEFT, SHIFT, hand.px(place()))
        QTest.keyClick(hand.view, dice.choice((Key.Key_A, Key.Key_Up, Key.Key_Right)), CTRL)
    else:
        QTest.keyClick(hand.view, dice.choice(KEYS), dice.choice((NO_KEY, NO_KEY, SHIFT, ALT)))


def held(hand: Hand, key: Qt.KeyboardModifier, start: Point, end: Point) -> None:
    """A drag with a key held: a box, or a side."""
    view, handles = hand.view.viewport(), hand.panel.scene.handles()
    begin = handles[-1].at_ft if handles and key == CTRL else start
    QTest.mousePress(view, LEFT, key, hand.px(begin))
    for at in (start, end):
        QTest.mouseMove(view, hand.px(at))
    QTest.mouseRelease(view, LEFT, key, hand.px(end))


@pytest.mark.parametrize("seed", range(4))
def test_whatever_is_done_can_be_undone(qtbot: QtBot, tmp_path: Path, seed: int) -> None:
    hand = Hand.on(sketch_yard(), tmp_path)
    start, dice = hand.notebook, random.Random(seed)
    for _ in range(150):
        act(hand, dice)
        if dice.random() < 0.05:
            hand.book.undo()
    hand.key(Key.Key_Escape)
    assert not refused(check_notebook(hand.notebook, TODAY))
    assert hand.book.undo_label
    while hand.book.undo_label:
        hand.book.undo()
    assert hand.notebook == start
    hand.close()
