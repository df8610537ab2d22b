"""Several shapes chosen at once: by Shift, a box, all, and by keys; moved and removed together."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QMenu
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.side_moves import out_by, side_moved
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import area_sqft, rectangle_ft
from tests.sketch_hand import LEFT, NO_KEY, SHIFT, Hand, sketch_yard

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier
FRONT, BACK, HOUSE = ("zones", "front"), ("zones", "back"), ("features", "house")


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard."""
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def pull(hand: Hand, start: Point, end: Point, held: Qt.KeyboardModifier) -> None:
    """Press, move and let go with a key held."""
    view = hand.view.viewport()
    QTest.mousePress(view, LEFT, held, hand.px(start))
    for share in (0.5, 1.0):
        at = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
        QTest.mouseMove(view, hand.px(at))
    QTest.mouseRelease(view, LEFT, held, hand.px(end))


def shift_click(hand: Hand, at: Point) -> None:
    """A click with Shift."""
    QTest.mouseClick(hand.view.viewport(), LEFT, SHIFT, hand.px(at))


def keys(hand: Hand) -> tuple[tuple[str, str], ...]:
    """All that is chosen."""
    return hand.panel.control.chosen_keys


def test_shift_and_click_marks_and_lets_go(hand: Hand) -> None:
    hand.click((60, 10))
    shift_click(hand, (35, 40))
    assert keys(hand) == (BACK, HOUSE)
    assert "2 shapes are chosen, 1,200 square feet" in hand.view.accessibleDescription()
    shift_click(hand, (35, 40))
    assert keys(hand) == (BACK,)


@pytest.mark.parametrize(
    ("start", "end", "caught"),
    [
        ((35, -5), (75, 25), {BACK}),
        ((50, 45), (75, -5), set()),
        ((75, 45), (45, -5), {BACK, HOUSE}),
        ((75, 25), (45, 60), {HOUSE}),
        ((80, 60), (85, 65), set()),
    ],
)
def test_a_box_takes_what_lies_inside_or_what_it_touches(
    hand: Hand, start: Point, end: Point, caught: set[tuple[str, str]]
) -> None:
    pull(hand, start, end, SHIFT)
    assert set(keys(hand)) == caught


def test_all_move_once_in_one_step(hand: Hand) -> None:
    hand.view.setFocus()
    hand.key(Key.Key_A, CTRL)
    assert len(keys(hand)) == 5
    hand.drag((60, 15), (60, 5))
    assert hand.zone("front").outline_ft[0] == (0.0, -10.0)
    assert hand.zone("back").outline_ft[0] == (40.0, -10.0)
    assert hand.notebook.heads["head"].at_ft == (15.0, 0.0)
    assert hand.notebook.spots["elm"].at_ft == (5.0, -6.0)
    assert hand.notebook.catch_tests["cans"].at_ft == ((6.0, -4.0),)
    assert hand.book.undo_label == "move 5 shapes"
    hand.book.undo()
    assert hand.notebook == sketch_yard()
    assert len(keys(hand)) == 5


def test_all_are_removed_in_one_step_and_escape_lets_go(hand: Hand) -> None:
    hand.click((25, 15))
    shift_click(hand, (35, 40))
    hand.key(Key.Key_Delete)
    assert not hand.notebook.features
    assert list(hand.notebook.zones) == ["back"]
    assert "2 shapes are gone" in hand.words()
    hand.book.undo()
    assert hand.notebook == sketch_yard()
    hand.key(Key.Key_A, CTRL)
    hand.key(Key.Key_Escape)
    assert keys(hand) == ()


def test_marks_by_keys_alone(hand: Hand) -> None:
    hand.view.setFocus()
    hand.key(Key.Key_Tab)
    hand.key(Key.Key_M)
    assert "Front is marked" in hand.words()
    hand.key(Key.Key_Tab)
    hand.key(Key.Key_Tab)
    assert keys(hand) == (FRONT, HOUSE)
    hand.key(Key.Key_Up)
    assert hand.zone("front").outline_ft[0] == (0.0, 1.0)
    assert hand.notebook.features["house"].outline_ft[0] == (20.0, 31.0)
    assert hand.zone("back").outline_ft[0] == (40.0, 0.0)
    hand.key(Key.Key_Escape)
    hand.key(Key.Key_Tab)
    assert len(keys(hand)) == 1


def test_a_typed_move_is_exact(hand: Hand) -> None:
    hand.click((60, 10))
    hand.key(Key.Key_B)
    field = hand.focused()
    assert isinstance(field, QLineEdit)
    assert field.objectName() == "sketch_move_right"
    hand.type("2' 3\"")
    hand.key(Key.Key_Return)
    assert hand.zone("back").outline_ft[0] == (42.25, 0.0)
    assert hand.book.undo_label == "move Back"


def test_a_second_click_takes_the_shape_below(hand: Hand) -> None:
    hand.drag((60, 15), (30, 15))
    hand.click((20, 5))
    first = keys(hand)
    QTest.qWait(600)
    hand.click((20, 5))
    assert {*first, *keys(hand)} == {FRONT, BACK}


def test_a_side_moves_parallel_with_ctrl(hand: Hand) -> None:
    hand.click((60, 10))
    pull(hand, (55, 20), (57, 25), CTRL)
    assert hand.zone("back").outline_ft == rectangle_ft((40.0, 0.0), 30.0, 25.0)
    assert hand.book.undo_label == "move a side of Back"
    for _ in range(2):
        hand.key(Key.Key_N)
    hand.key(Key.Key_Up, CTRL)
    assert hand.zone("back").outline_ft == rectangle_ft((40.0, 0.0), 31.0, 25.0)


@given(st.floats(-4, 8), st.floats(4, 30), st.floats(4, 30))
def test_a_side_of_a_rectangle_adds_a_strip(out: float, wide: float, high: float) -> None:
    """Euclid: the rectangle grows by the side's length times the step."""
    ring = rectangle_ft((0.0, 0.0), round(wide, 2), round(high, 2))
    step = max(round(out, 2), 0.5 - ring[2][1])
    grown = side_moved(ring, 2, step)
    assert area_sqft(grown) == pytest.approx(ring[1][0] * (ring[2][1] + step), abs=0.5)
    assert out_by(ring, 2, grown[2]) == pytest.approx(step, abs=0.011)


def test_the_menu_opens_at_what_is_chosen(hand: Hand) -> None:
    hand.click((60, 10))
    hand.key(Key.Key_F10, SHIFT)
    menu = hand.panel.findChild(QMenu, "sketch_shape_menu")
    assert menu is not None
    words = [action.text().split("\t")[0] for action in menu.actions()]
    assert "Duplicate" in words
    merge = next(a for a in menu.actions() if a.text().startswith("Merge"))
    assert not merge.isEnabled()
    assert merge.toolTip()
    menu.close()


def test_page_keys_change_the_order_and_what_lies_on_top(hand: Hand) -> None:
    def height(record_id: str) -> float:
        shown = {type(i).__name__ + str(i.boundingRect().x()): i for i in hand.panel.scene.items()}
        left = hand.zone(record_id).outline_ft[0][0]
        near = [i for n, i in shown.items() if n.startswith("OutlineItem")]
        return next(i.zValue() for i in near if abs(i.boundingRect().x() - left) < 1)

    assert height("back") > height("front")
    hand.click((25, 15))
    hand.key(Key.Key_PageDown)
    assert list(hand.notebook.zones) == ["back", "front"]
    assert "zone 2" in hand.words()
    hand.key(Key.Key_Escape)
    assert height("front") > height("back")


def test_plain_keys_are_no_modifiers(hand: Hand) -> None:
    hand.view.setFocus()
    hand.key(Key.Key_A, NO_KEY)
    assert keys(hand) == ()
