"""Drawing on the sketch by mouse and keys: zones, holes, features, heads, spots and the tape."""

import math
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.snap_mark import SnapMark
from lawnbook.desk.sketch.strip_items import StripItem
from lawnbook.yard.geometry import area_sqft, zone_area_sqft
from lawnbook.yard.notebook import new_notebook, put
from lawnbook.yard.records import Spot
from tests.sketch_hand import NO_KEY, Hand, sketch_yard

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard."""
    made = Hand.on(sketch_yard(), tmp_path)
    yield made
    made.close()


@pytest.fixture
def blank(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on an empty page."""
    made = Hand.on(new_notebook("Blank"), tmp_path)
    yield made
    made.close()


def test_an_empty_page_says_what_to_do_and_begins(blank: Hand) -> None:
    assert blank.field("empty").isVisible()
    blank.press_button("begin")
    assert not blank.field("empty").isVisible()
    blank.drag((0, 0), (40, 30))
    (zone,) = blank.notebook.zones.values()
    assert zone.name == "Zone 1"
    assert zone.outline_ft == ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
    assert blank.told == [("zones", zone.id)]
    assert "1,200 sq ft" in blank.words()
    assert not blank.field("empty").isVisible()


def test_corner_by_corner_and_the_first_closes(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    for at in ((0, 30), (15, 30), (15, 50)):
        hand.click(at)
    assert "corner back" in hand.words()
    hand.click((0, 50))
    hand.move((0, 30), off=(3, 2))
    assert hand.said("bubble") == "closes it: 300 sq ft"
    hand.click((0, 30), off=(3, 2))
    zone = hand.only_new_zone()
    assert zone.name == "Zone 3"
    assert zone.outline_ft == ((0.0, 30.0), (15.0, 30.0), (15.0, 50.0), (0.0, 50.0))
    assert hand.book.undo_label == "draw Zone 3"


def test_enter_closes_and_backspace_takes_back(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    for at in ((0, 30), (15, 30), (19, 60), (15, 50)):
        hand.click(at)
    hand.key(Key.Key_Backspace)
    hand.key(Key.Key_Backspace)
    hand.click((10, 45))
    hand.key(Key.Key_Return)
    assert hand.only_new_zone().outline_ft == ((0.0, 30.0), (15.0, 30.0), (10.0, 45.0))


def test_a_double_click_closes_with_its_corner(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    hand.click((0, 30))
    hand.click((15, 30))
    hand.double((15, 45))
    assert hand.only_new_zone().outline_ft == ((0.0, 30.0), (15.0, 30.0), (15.0, 45.0))


def test_escape_gives_up_the_outline_and_then_the_tool(hand: Hand) -> None:
    hand.press_button("tool_zone")
    hand.click((0, 30))
    hand.click((15, 30))
    hand.key(Key.Key_Escape)
    assert "Click corner after corner" in hand.words()
    hand.key(Key.Key_Escape)
    assert "Click to choose" in hand.words()
    assert len(hand.notebook.zones) == 2


def test_two_corners_are_not_an_outline(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    hand.click((0, 30))
    hand.click((15, 30))
    hand.key(Key.Key_Return)
    assert "three corners" in hand.words()
    assert len(hand.notebook.zones) == 2


def test_a_crossing_side_is_said_and_not_put_down(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    for at in ((-10, 30), (15, 30), (15, 50)):
        hand.click(at)
    hand.move((5, 20))
    assert "cross" in hand.said("bubble")
    hand.click((5, 20))
    assert "cross" in hand.words()
    hand.click((-10, 50))
    hand.key(Key.Key_Return)
    assert len(hand.only_new_zone().outline_ft) == 4


def test_an_outline_whose_last_side_would_cross_is_refused(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    for at in ((-10, 30), (10, 30), (10, 50), (-5, 50), (-5, 60), (15, 60)):
        hand.click(at)
    hand.key(Key.Key_Return)
    assert "cross" in hand.words()
    assert len(hand.notebook.zones) == 2


def test_lengths_can_be_typed_side_by_side(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    hand.click((0, 30))
    hand.move((10, 30))
    hand.type("12.5")
    assert hand.said("bubble").startswith("12.5")
    hand.key(Key.Key_Return)
    hand.move((12.5, 45))
    hand.type("10' 6\"")
    hand.key(Key.Key_Return)
    hand.click((0, 45))
    hand.key(Key.Key_Return)
    outline = hand.only_new_zone().outline_ft
    assert outline[1] == (12.5, 30.0)
    assert outline[2] == (12.5, 40.5)


def test_a_typed_rectangle(hand: Hand) -> None:
    hand.key(Key.Key_Z)
    hand.draw_by("Rectangle")
    width, depth = hand.field("new_zone_width"), hand.field("new_zone_depth")
    width.setFocus()
    hand.type("32' 6\"")
    hand.key(Key.Key_Tab)
    assert hand.focused() is depth
    hand.type("20")
    hand.key(Key.Key_Return)
    zone = hand.only_new_zone()
    assert zone_area_sqft(zone) == pytest.approx(650.0)
    assert min(x for x, _ in zone.outline_ft) > 70.0
    assert hand.view.hasFocus()


@pytest.mark.parametrize("typed", ["", "wide", "0", "-3"])
def test_a_side_that_is_no_length_is_refused(hand: Hand, typed: str) -> None:
    hand.key(Key.Key_Z)
    hand.draw_by("Rectangle")
    hand.field("new_zone_width").setFocus()
    hand.type(typed)
    hand.press_button("new_zone_put_down")
    assert len(hand.notebook.zones) == 2
    assert hand.words().startswith("Across")


def test_a_hole_is_cut_out_and_filled_again(hand: Hand) -> None:
    hand.key(Key.Key_O)
    hand.drag((50, 5), (60, 10))
    back = hand.zone("back")
    assert zone_area_sqft(back) == pytest.approx(550.0)
    assert "50 sq ft" in hand.words()
    hand.key(Key.Key_O)
    hand.drag((62, 12), (67, 17))
    assert zone_area_sqft(hand.zone("back")) == pytest.approx(525.0)
    hand.key(Key.Key_Escape)
    hand.click((42, 2))
    for inside in ((55, 8), (64, 14)):
        hand.click(inside)
        hand.key(Key.Key_Delete)
    assert hand.zone("back").holes_ft == ()
    assert hand.book.undo_label == "fill a hole of Back"


@pytest.mark.parametrize(("start", "end"), [((-10, -10), (-5, -5)), ((60, 10), (80, 30))])
def test_a_hole_outside_of_a_zone_is_refused(
    hand: Hand, start: tuple[float, float], end: tuple[float, float]
) -> None:
    hand.key(Key.Key_O)
    hand.drag(start, end)
    assert hand.zone("back").holes_ft == ()
    assert "inside" in hand.words()


def test_a_tree_is_round_from_its_trunk(hand: Hand) -> None:
    hand.key(Key.Key_F)
    box = hand.field("new_feature_kind")
    assert isinstance(box, QComboBox)
    box.setFocus()
    QTest.keyClicks(box, "tree")
    hand.key(Key.Key_Return)
    hand.drag((60, 45), (66, 45))
    (tree,) = [f for f in hand.notebook.features.values() if f.id != "house"]
    assert tree.kind == "tree"
    assert area_sqft(tree.outline_ft) == pytest.approx(math.pi * 36, rel=0.002)


@pytest.mark.parametrize(
    ("at", "start", "sweep"),
    [
        ((40, 0), 0.0, 90.0),
        ((70, 20), 180.0, 90.0),
        ((55, 20), 90.0, 180.0),
        ((55, 10), 0.0, 360.0),
    ],
)
def test_a_head_waters_the_zone_it_is_put_in(
    hand: Hand, at: tuple[float, float], start: float, sweep: float
) -> None:
    hand.key(Key.Key_H)
    hand.click(at)
    (head,) = [h for h in hand.notebook.heads.values() if h.id != "head"]
    assert (head.zone, head.at_ft) == ("back", at)
    assert (head.start_deg, head.sweep_deg) == (start, sweep)
    assert head.radius_ft == 12.0


def test_a_head_s_throw_is_dragged_and_kept_for_the_next(hand: Hand) -> None:
    hand.key(Key.Key_H)
    hand.drag((55, 10), (55, 17))
    hand.click((65, 10))
    radii = [h.radius_ft for h in hand.notebook.heads.values() if h.id != "head"]
    assert radii == [pytest.approx(7.0, abs=0.2)] * 2


def test_a_head_far_from_every_zone_is_refused(hand: Hand) -> None:
    hand.key(Key.Key_H)
    hand.click((80, 60))
    assert list(hand.notebook.heads) == ["head"]
    assert "zone" in hand.words()


def test_a_spot_knows_its_zone(hand: Hand) -> None:
    hand.key(Key.Key_S)
    assert "before you dig" in hand.words()
    hand.click((65, 5))
    hand.click((80, 60))
    spots = [s for s in hand.notebook.spots.values() if s.id != "elm"]
    assert [(s.name, s.zone) for s in spots] == [("Spot 2", "back"), ("Spot 3", None)]


def test_a_spot_without_a_place_is_put_where_the_owner_clicks(hand: Hand) -> None:
    hand.book.edit(put(hand.notebook, "spots", Spot(id="oak", name="Oak")), "add Oak")
    hand.panel.select("spots", "oak")
    assert "Oak has no place yet" in hand.words()
    hand.key(Key.Key_S)
    hand.click((65, 5))
    hand.click((50, 5))
    spots = hand.notebook.spots
    assert spots["oak"].at_ft == (65.0, 5.0)
    assert spots["oak"].zone == "back"
    assert len(spots) == 3


def test_the_tape_measures_and_keeps_nothing(hand: Hand) -> None:
    hand.key(Key.Key_T)
    hand.drag((0, 0), (30, 20))
    assert hand.words().startswith("36' 1\" from end to end: 30' across, 20' up")
    assert hand.book.undo_label == ""


def test_the_wheel_zooms_to_the_pointer(hand: Hand) -> None:
    at = hand.px((60, 10))
    before = hand.view.px_per_ft
    from PySide6.QtCore import QPoint
    from PySide6.QtGui import QWheelEvent
    from PySide6.QtWidgets import QApplication

    event = QWheelEvent(
        QPointF(at),
        QPointF(hand.view.viewport().mapToGlobal(at)),
        QPoint(),
        QPoint(0, 240),
        Qt.MouseButton.NoButton,
        NO_KEY,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(hand.view.viewport(), event)
    assert hand.view.px_per_ft > before * 1.2
    moved = hand.px((60, 10)) - at
    assert moved.manhattanLength() <= 2


def test_space_and_middle_button_move_the_paper(hand: Hand) -> None:
    viewport = hand.view.viewport()
    before = hand.px((0, 0))
    QTest.keyPress(hand.view, Key.Key_Space)
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, NO_KEY, hand.px((60, 10)))
    QTest.mouseMove(viewport, hand.px((60, 10)) + hand.px((0, 0), (40, 30)) - hand.px((0, 0)))
    QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, NO_KEY)
    QTest.keyRelease(hand.view, Key.Key_Space)
    assert (hand.px((0, 0)) - before).toTuple() == (40, 30)
    QTest.mousePress(viewport, Qt.MouseButton.MiddleButton, NO_KEY, before)
    QTest.mouseMove(viewport, before - hand.px((0, 0)) + before)
    QTest.mouseRelease(viewport, Qt.MouseButton.MiddleButton, NO_KEY)
    assert (hand.px((0, 0)) - before).toTuple() == (0, 0)
    assert hand.told == []
    assert hand.book.undo_label == ""


def test_dragging_bare_paper_moves_it_and_a_click_there_lets_go(hand: Hand) -> None:
    hand.click((60, 10))
    before = hand.px((0, 0))
    hand.press((-10, -10))
    QTest.mouseMove(hand.view.viewport(), hand.px((-10, -10), (25, -15)))
    hand.release((-10, -10))
    assert (hand.px((0, 0)) - before).toTuple() == (25, -15)
    assert hand.told == [("zones", "back"), ("", "")]
    assert hand.book.undo_label == ""


def test_what_is_chosen_elsewhere_is_brought_into_view(hand: Hand) -> None:
    hand.view.fit((0, 0, 12, 12))
    assert not hand.view.viewport().rect().contains(hand.px((55, 10)))
    hand.panel.select("zones", "back")
    assert hand.view.viewport().rect().contains(hand.px((55, 10)))


def test_fit_shows_all(hand: Hand) -> None:
    for _ in range(6):
        hand.key(Key.Key_Plus)
    hand.press_button("fit")
    rect = hand.view.viewport().rect()
    for corner in ((0, 0), (70, 0), (20, 50), (50, 50)):
        assert rect.contains(hand.px(corner))


def test_the_strip_along_water_is_typed_at_once_and_seen_while_drawing(hand: Hand) -> None:
    hand.key(Key.Key_F)
    box = hand.field("new_feature_kind")
    assert not hand.field("new_feature_no_spread").isVisible()
    box.setFocus()
    QTest.keyClicks(box, "water")
    strip = hand.field("new_feature_no_spread")
    assert strip.isVisible()
    strip.setFocus()
    hand.type("5")
    hand.key(Key.Key_Return)
    assert hand.view.hasFocus()
    for at in ((72, 0), (80, 0)):
        hand.click(at)
    hand.move((80, 20))
    scene = hand.panel.scene
    (shown,) = [each for each in scene.items() if isinstance(each, StripItem)]
    # Back ends at x = 70, the water begins at 72: a strip of 5 ft takes 3 ft of it.
    assert shown.path().boundingRect().width() == pytest.approx(3.0, abs=0.05)
    hand.click((80, 20))
    hand.click((72, 20))
    hand.key(Key.Key_Return)
    (water,) = [f for f in hand.notebook.features.values() if f.id != "house"]
    assert (water.kind, water.no_spread_ft) == ("water", 5.0)
    assert "within 5 ft" in hand.words()


def test_a_dragged_corner_shows_the_mark_of_its_snap(hand: Hand) -> None:
    hand.panel.select("zones", "back")
    hand.press((70, 20))
    hand.move((65, 30))
    hand.move((50, 30), off=(2, 2))
    (mark,) = [each for each in hand.panel.scene.items() if isinstance(each, SnapMark)]
    assert mark.kind == "corner"
    hand.release((70, 20))
    assert not [each for each in hand.panel.scene.items() if isinstance(each, SnapMark)]
