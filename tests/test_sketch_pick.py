"""The sketch by mouse and keys: choosing, moving, corners, arcs, nudging, removing, undo."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.records import Zone
from tests.sketch_hand import ALT, NO_KEY, SHIFT, Hand, sketch_yard

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard."""
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


def steps(hand: Hand) -> int:
    """How many steps undo can take."""
    count = 0
    while hand.book.undo_label:
        hand.book.undo()
        count += 1
    for _ in range(count):
        hand.book.redo()
    return count


def test_a_click_chooses_and_tells(hand: Hand) -> None:
    hand.click((60, 10))
    hand.click((35, 40))
    hand.click((5, 4), off=(0, -15))
    hand.click((15, 10))
    hand.click((-10, -10))
    assert hand.told == [
        ("zones", "back"),
        ("features", "house"),
        ("spots", "elm"),
        ("heads", "head"),
        ("", ""),
    ]


def test_select_lights_without_telling(hand: Hand) -> None:
    hand.panel.select("zones", "back")
    assert hand.told == []
    assert "Back" in hand.view.accessibleDescription()
    hand.panel.select("catch_tests", "cans")
    assert "Front" in hand.view.accessibleDescription()
    hand.panel.select("", "")
    assert "chosen" not in hand.view.accessibleDescription()


def test_dragging_a_zone_takes_its_own_along_in_one_step(hand: Hand) -> None:
    hand.drag((25, 15), (25, 10))
    assert hand.zone("front").outline_ft[0] == (0.0, -5.0)
    assert hand.notebook.heads["head"].at_ft == (15.0, 5.0)
    assert hand.notebook.spots["elm"].at_ft == (5.0, -1.0)
    assert hand.notebook.catch_tests["cans"].at_ft == ((6.0, 1.0),)
    assert hand.zone("back") is hand.notebook.zones["back"]
    assert steps(hand) == 1
    assert hand.book.undo_label == "move Front"
    hand.book.undo()
    assert hand.notebook.heads["head"].at_ft == (15.0, 10.0)


def test_a_shaky_click_moves_nothing(hand: Hand) -> None:
    hand.press((25, 15))
    hand.move((25, 15), off=(2, 1))
    hand.release((25, 15), off=(2, 1))
    assert hand.book.undo_label == ""


def test_dragging_a_corner_is_one_step_with_live_figures(hand: Hand) -> None:
    hand.click((60, 10))
    hand.press((70, 20))
    hand.move((75, 22))
    hand.move((80, 25))
    said = hand.said("bubble")
    assert "sq ft" in said
    assert "grid" in said
    hand.release((80, 25))
    assert hand.zone("back").outline_ft[2] == (80.0, 25.0)
    assert f"{zone_area_sqft(hand.zone('back')):,.0f} sq ft" in said
    assert steps(hand) == 1


def test_a_corner_snaps_to_another_shapes_corner_and_says_so(hand: Hand) -> None:
    hand.click((60, 10))
    hand.press((40, 20))
    hand.move((35, 25))
    hand.move((30, 20), off=(4, -3))
    assert hand.said("bubble").endswith("on a corner of Front")
    hand.release((30, 20), off=(4, -3))
    assert hand.zone("back").outline_ft[3] == (30.0, 20.0)


def test_a_corner_snaps_to_an_edge(hand: Hand) -> None:
    hand.click((60, 10))
    hand.press((40, 0))
    hand.move((35, 5))
    hand.move((30, 7.3), off=(3, 0))
    assert hand.said("bubble").endswith("on the edge of Front")
    hand.release((30, 7.3), off=(3, 0))
    assert hand.zone("back").outline_ft[0] == (30.0, 7.0)


def test_alt_lets_a_corner_go_anywhere(hand: Hand) -> None:
    hand.click((60, 10))
    view = hand.view.viewport()
    QTest.mousePress(view, Qt.MouseButton.LeftButton, ALT, hand.px((70, 20)))
    hand.move((73, 23))
    QTest.mouseMove(view, hand.px((77.3, 24.7)))
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, ALT, hand.px((77.3, 24.7)))
    assert hand.zone("back").outline_ft[2] != (70.0, 20.0)


def test_a_side_s_middle_becomes_a_corner(hand: Hand) -> None:
    hand.click((60, 10))
    hand.drag((55, 20), (55, 28))
    outline = hand.zone("back").outline_ft
    assert len(outline) == 5
    assert outline[3] == (55.0, 28.0)
    assert hand.book.undo_label == "add a corner of Back"


def test_delete_takes_the_chosen_corner_and_then_the_whole(hand: Hand) -> None:
    hand.click((60, 10))
    hand.click((70, 20))
    hand.key(Key.Key_Delete)
    assert hand.zone("back").outline_ft == ((40.0, 0.0), (70.0, 0.0), (40.0, 20.0))
    hand.click((70, 0))
    hand.key(Key.Key_Delete)
    assert len(hand.zone("back").outline_ft) == 3
    assert "Three corners" in hand.words()
    hand.key(Key.Key_Escape)
    hand.key(Key.Key_Delete)
    assert "back" not in hand.notebook.zones
    assert "Undo" in hand.words()
    assert hand.told[-1] == ("", "")
    hand.book.undo()
    assert "back" in hand.notebook.zones


def test_removing_a_zone_takes_its_heads_and_undo_brings_all_back(hand: Hand) -> None:
    before = hand.notebook
    hand.click((25, 15))
    hand.key(Key.Key_Backspace)
    assert not hand.notebook.heads
    assert hand.notebook.spots["elm"].zone is None
    hand.book.undo()
    assert hand.notebook == before


def test_sides_that_cross_are_shown_and_not_kept(hand: Hand) -> None:
    before = hand.zone("back")
    hand.click((60, 10))
    hand.press((70, 20))
    hand.move((60, 10))
    hand.move((50, -15))
    assert "cross" in hand.said("bubble")
    hand.release((50, -15))
    assert hand.zone("back") is before
    assert "put back" in hand.words()
    assert hand.book.undo_label == ""


def test_escape_gives_a_drag_up(hand: Hand) -> None:
    hand.press((60, 10))
    hand.move((60, 20))
    hand.move((60, 30))
    hand.key(Key.Key_Escape)
    hand.release((60, 30))
    assert hand.book.undo_label == ""
    assert hand.zone("back").outline_ft[0] == (40.0, 0.0)


def test_escape_lets_go_step_by_step(hand: Hand) -> None:
    hand.click((60, 10))
    hand.click((70, 20))
    hand.key(Key.Key_Escape)
    hand.key(Key.Key_Escape)
    assert hand.told == [("zones", "back"), ("", "")]


@pytest.mark.parametrize(
    ("key", "modifiers", "corner"),
    [
        (Key.Key_Right, NO_KEY, (41.0, 0.0)),
        (Key.Key_Left, NO_KEY, (39.0, 0.0)),
        (Key.Key_Up, NO_KEY, (40.0, 1.0)),
        (Key.Key_Down, SHIFT, (40.0, -0.25)),
    ],
)
def test_arrows_nudge_the_whole(
    hand: Hand, key: Qt.Key, modifiers: Qt.KeyboardModifier, corner: tuple[float, float]
) -> None:
    hand.click((60, 10))
    hand.key(key, modifiers)
    assert hand.zone("back").outline_ft[0] == corner
    assert steps(hand) == 1


def test_a_held_arrow_is_one_step(hand: Hand) -> None:
    hand.click((25, 15))
    view = hand.view
    for _ in range(4):
        QTest.keyPress(view, Key.Key_Right)
    QTest.keyRelease(view, Key.Key_Right)
    assert hand.zone("front").outline_ft[0] == (4.0, 0.0)
    assert hand.notebook.heads["head"].at_ft == (19.0, 10.0)
    assert steps(hand) == 1


def test_corners_by_keys_alone(hand: Hand) -> None:
    hand.view.setFocus()
    hand.key(Key.Key_Tab)
    hand.key(Key.Key_Tab)
    assert hand.told == [("zones", "front"), ("zones", "back")]
    hand.key(Key.Key_N)
    hand.key(Key.Key_N)
    assert hand.words() == "Corner 2 of 4."
    hand.key(Key.Key_Right)
    assert hand.zone("back").outline_ft[1] == (71.0, 0.0)
    hand.key(Key.Key_Insert)
    assert hand.zone("back").outline_ft[2] == (70.5, 10.0)
    hand.key(Key.Key_Delete)
    assert len(hand.zone("back").outline_ft) == 4


def test_tab_goes_through_all_shapes_and_then_on(hand: Hand) -> None:
    hand.view.setFocus()
    for _ in range(5):
        hand.key(Key.Key_Tab)
    assert [table for table, _ in hand.told] == ["zones", "zones", "features", "heads", "spots"]
    assert hand.view.hasFocus()
    hand.key(Key.Key_Tab)
    assert not hand.view.hasFocus()


def test_handles_of_a_head_set_radius_start_and_arc(hand: Hand) -> None:
    hand.click((15, 10))
    hand.drag((15, 18), (7, 10))
    head = hand.notebook.heads["head"]
    assert (head.start_deg, head.sweep_deg, head.radius_ft) == (270.0, 90.0, 8.0)
    hand.drag((15, 18), (23, 10))
    assert hand.notebook.heads["head"].sweep_deg == 180.0
    hand.drag((15, 18), (15, 22))
    assert hand.notebook.heads["head"].radius_ft == pytest.approx(12.0, abs=0.1)
    assert steps(hand) == 3


def test_the_numbers_of_a_head_can_be_typed(hand: Hand) -> None:
    hand.click((15, 10))
    field = hand.field("head_radius_ft")
    assert isinstance(field, QLineEdit)
    assert field.text() == "8'"
    field.setFocus()
    field.selectAll()
    hand.type("9' 6\"")
    hand.key(Key.Key_Return)
    assert hand.notebook.heads["head"].radius_ft == 9.5
    assert hand.view.hasFocus()
    assert hand.book.undo_label == "change radius of head 1 of Front"


def test_a_wrong_number_is_refused_in_words_and_nothing_is_kept(hand: Hand) -> None:
    hand.click((15, 10))
    field = hand.field("head_sweep_deg")
    assert isinstance(field, QLineEdit)
    for typed in ("wide", "500"):
        field.setFocus()
        field.selectAll()
        hand.type(typed)
        hand.key(Key.Key_Return)
        assert hand.notebook.heads["head"].sweep_deg == 90.0
        assert "Arc" in hand.words()
        assert field.property("state") == "refuse"
    field.setFocus()
    hand.key(Key.Key_Escape)
    assert field.text() == "90"


def test_a_doubtful_number_is_kept_and_questioned(hand: Hand) -> None:
    hand.click((15, 10))
    field = hand.field("head_radius_ft")
    assert isinstance(field, QLineEdit)
    field.setFocus()
    field.selectAll()
    hand.type("70")
    hand.key(Key.Key_Return)
    assert hand.notebook.heads["head"].radius_ft == 70.0
    assert "Radius" in hand.words()
    assert hand.words().endswith("It was kept as it is.")


def test_a_head_can_be_given_to_another_zone(hand: Hand) -> None:
    hand.click((15, 10))
    box = hand.field("head_zone")
    assert isinstance(box, QComboBox)
    box.setFocus()
    hand.key(Key.Key_Down)
    hand.key(Key.Key_Return)
    assert hand.notebook.heads["head"].zone == "back"


def test_a_double_click_asks_for_the_name(hand: Hand) -> None:
    hand.double((60, 10))
    assert hand.focused().objectName() == "sketch_zone_name"
    name = hand.focused()
    assert isinstance(name, QLineEdit)
    name.selectAll()
    hand.type("Orchard")
    hand.key(Key.Key_Return)
    assert hand.zone("back").name == "Orchard"
    assert steps(hand) == 1


def test_two_zones_cannot_share_a_name(hand: Hand) -> None:
    hand.click((60, 10))
    hand.key(Key.Key_F2)
    name = hand.focused()
    assert isinstance(name, QLineEdit)
    name.selectAll()
    hand.type("Front")
    hand.key(Key.Key_Return)
    assert hand.zone("back").name == "Back"
    assert "Front" in hand.words()


def test_a_spot_can_be_named_moved_and_marked(hand: Hand) -> None:
    hand.drag((5, 4), (8, 4), off=(0, -15))
    assert hand.notebook.spots["elm"].at_ft == (8.0, 4.0)
    hand.press_button("spot_comparison")
    assert hand.notebook.spots["elm"].comparison


def test_a_spot_that_is_moved_to_another_zone_belongs_to_it(hand: Hand) -> None:
    hand.drag((5, 4), (60, 4), off=(0, -15))
    assert hand.notebook.spots["elm"].zone == "back"
    hand.drag((60, 4), (80, 60), off=(0, -15))
    assert hand.notebook.spots["elm"].zone == "back"
    assert steps(hand) == 2


def test_a_zone_laid_on_another_is_kept_and_said(hand: Hand) -> None:
    hand.drag((60, 15), (40, 15))
    assert hand.zone("back").outline_ft[0] == (20.0, 0.0)
    assert "Back lies partly on Front" in hand.words()


def test_an_outline_that_leaves_its_hole_outside_is_refused(hand: Hand) -> None:
    hand.key(Key.Key_O)
    hand.drag((62, 12), (67, 17))
    hole = hand.zone("back").holes_ft
    hand.drag((70, 20), (60, 10))
    assert hand.zone("back").holes_ft == hole
    assert hand.zone("back").outline_ft[2] == (70.0, 20.0)
    assert "hole" in hand.words().lower()


def test_undo_of_a_chosen_corner_leaves_a_whole_choice(hand: Hand) -> None:
    hand.click((60, 10))
    hand.drag((55, 20), (55, 28))
    hand.click((40, 20))
    hand.book.undo()
    hand.key(Key.Key_Up)
    assert hand.zone("back").outline_ft[0] == (40.0, 1.0)


def test_the_plan_or_a_window_s_echo_does_not_let_go_of_a_corner(hand: Hand) -> None:
    hand.panel.selected.connect(hand.panel.select)
    hand.click((60, 10))
    hand.click((70, 20))
    hand.panel.select("zones", "back")
    hand.key(Key.Key_Up)
    assert hand.zone("back").outline_ft[2] == (70.0, 21.0)


def test_a_removed_zone_that_was_chosen_elsewhere_is_let_go(hand: Hand) -> None:
    from lawnbook.yard.edits import remove

    hand.panel.select("zones", "back")
    hand.book.edit(remove(hand.notebook, "zones", "back"), "remove Back")
    assert "chosen" not in hand.view.accessibleDescription()
    assert isinstance(hand.notebook.zones["front"], Zone)
