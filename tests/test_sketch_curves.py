"""Circles, arcs and turned rectangles drawn by mouse and keys, against the published formulas."""

import math
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from lawnbook.desk.sketch.chain import Chain, arc_length_ft, radius_ft, squared_off, turn_words
from lawnbook.desk.sketch.draw_shapes import along_way, on_side
from lawnbook.desk.sketch.outlines import bearing_deg, sides, toward
from lawnbook.yard.curves import FLAT_WITHIN_FT, segment_area_sqft
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, crosses_itself
from lawnbook.yard.problems import OwnerError
from tests.sketch_hand import Hand, sketch_yard

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> Iterator[Hand]:
    """A hand on the sketch yard, with Zone taken up."""
    made = Hand.on(sketch_yard(), tmp_path)
    made.key(Key.Key_Z)
    yield made
    made.close()


def off_circle(outline: Outline, centre: Point, radius: float) -> float:
    """How far corners and middles of sides lie from a circle at most."""
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in sides(outline)]
    return max(abs(math.dist(centre, each) - radius) for each in (*outline, *middles))


def test_a_circle_is_dragged_from_its_middle(hand: Hand) -> None:
    hand.draw_by("Circle")
    hand.view.setFocus()
    hand.press((60, 45))
    hand.move((64, 45))
    hand.move((70, 45))
    assert hand.said("bubble").startswith("radius 10'  ·  314 sq ft")
    hand.release((70, 45))
    outline = hand.only_new_zone().outline_ft
    assert area_sqft(outline) == pytest.approx(math.pi * 100, rel=0.001)
    assert off_circle(outline, (60.0, 45.0), 10.0) <= FLAT_WITHIN_FT


def test_a_circle_s_middle_is_clicked_and_its_radius_typed(hand: Hand) -> None:
    hand.draw_by("Circle")
    hand.view.setFocus()
    hand.click((60, 45))
    assert "rim" in hand.words()
    hand.move((61, 45))
    hand.type("2 m")
    hand.key(Key.Key_Return)
    outline = hand.only_new_zone().outline_ft
    assert area_sqft(outline) == pytest.approx(math.pi * (2 / 0.3048) ** 2, rel=0.002)


@pytest.mark.parametrize(("name", "typed"), [("radius", "6"), ("diameter", "12'")])
def test_a_circle_by_typed_radius_or_diameter(hand: Hand, name: str, typed: str) -> None:
    hand.draw_by("Circle")
    hand.field(f"new_zone_{name}").setFocus()
    hand.type(typed)
    hand.press_button("new_zone_put_circle_down")
    outline = hand.only_new_zone().outline_ft
    assert area_sqft(outline) == pytest.approx(math.pi * 36, rel=0.001)
    assert min(x for x, _ in outline) > 70


def test_a_circle_without_a_radius_is_refused(hand: Hand) -> None:
    hand.draw_by("Circle")
    hand.press_button("new_zone_put_circle_down")
    assert hand.words().startswith("Radius")
    assert len(hand.notebook.zones) == 2


def test_an_arc_over_a_point_to_its_end(hand: Hand) -> None:
    hand.click((0, 30))
    hand.click((20, 30))
    hand.key(Key.Key_A)
    assert "half an inch" in hand.words()
    hand.click((30, 40))
    hand.move((20, 50))
    assert hand.said("bubble").startswith("radius 10'  ·  31' 5\" along")
    hand.click((20, 50))
    hand.click((0, 50))
    hand.key(Key.Key_Return)
    outline = hand.only_new_zone().outline_ft
    # A half circle is the segment of 180 degrees: R²/2 (π - 0).
    assert area_sqft(outline) == pytest.approx(400 + segment_area_sqft(10.0, 180.0), rel=0.001)
    arc = tuple(each for each in outline if each[0] >= 20)
    assert max(abs(math.dist((20, 40), each) - 10) for each in arc) <= FLAT_WITHIN_FT


def test_backspace_takes_a_whole_arc_back(hand: Hand) -> None:
    hand.click((0, 30))
    hand.click((20, 30))
    hand.press_button("new_zone_arc")
    hand.click((30, 40))
    hand.key(Key.Key_Backspace)
    hand.click((30, 40))
    hand.click((20, 50))
    hand.key(Key.Key_Backspace)
    hand.click((20, 40))
    hand.key(Key.Key_Return)
    assert hand.only_new_zone().outline_ft == ((0.0, 30.0), (20.0, 30.0), (20.0, 40.0))


def test_the_last_side_is_bent_by_its_typed_rise(hand: Hand) -> None:
    for at in ((0, 30), (20, 30), (20, 50)):
        hand.click(at)
    hand.key(Key.Key_A)
    hand.field("new_zone_rise").setFocus()
    hand.type("-10")
    hand.key(Key.Key_Return)
    hand.click((0, 50))
    hand.key(Key.Key_Return)
    area = area_sqft(hand.only_new_zone().outline_ft)
    assert area == pytest.approx(400 + math.pi * 50, rel=0.001)


def test_a_rectangle_stands_on_the_side_that_was_clicked(hand: Hand) -> None:
    hand.draw_by("Rectangle")
    hand.view.setFocus()
    hand.click((0, 30))
    hand.click((12, 39))
    hand.move((6, 50))
    hand.type("10")
    hand.key(Key.Key_Return)
    outline = hand.only_new_zone().outline_ft
    assert outline == ((0.0, 30.0), (12.0, 39.0), (6.0, 47.0), (-6.0, 38.0))


def test_a_typed_rectangle_runs_along_the_last_side(hand: Hand) -> None:
    hand.draw_by("Rectangle")
    hand.view.setFocus()
    hand.click((0, 30))
    hand.click((12, 39))
    hand.field("new_zone_width").setFocus()
    hand.type("5")
    hand.key(Key.Key_Tab)
    hand.type("10")
    hand.key(Key.Key_Return)
    assert hand.only_new_zone().outline_ft[:2] == ((12.0, 39.0), (16.0, 42.0))


def test_q_closes_square(hand: Hand) -> None:
    for at in ((0, 30), (20, 30), (20, 45)):
        hand.click(at)
    hand.key(Key.Key_Q)
    assert hand.only_new_zone().outline_ft[-1] == (0.0, 45.0)


@given(st.floats(0, 359), st.lists(st.floats(3, 40), min_size=2, max_size=2), st.floats(-30, 30))
def test_squaring_off_two_square_sides_makes_a_rectangle(
    way: float, lengths: list[float], lean: float
) -> None:
    one = (1.0, 2.0)
    two = toward(one, way, lengths[0])
    three = toward(two, way + 90, lengths[1])
    outline = squared_off((one, two, three))
    assert len(outline) == 4
    assert area_sqft(outline) == pytest.approx(lengths[0] * lengths[1], rel=0.01)
    leaning = squared_off((one, two, toward(two, way + 90 + lean, lengths[1])))
    assert not crosses_itself(leaning)
    bearings = [bearing_deg(a, b) for a, b in sides(leaning)]
    turns = [(b - a) % 180 for a, b in zip(bearings, bearings[1:] + bearings[:1], strict=True)]
    # Corners stand on hundredths of a foot: a short side may lean by that much.
    shortest = min(math.dist(a, b) for a, b in sides(leaning))
    allowed = 0.5 + math.degrees(0.02 / shortest)
    assert sum(abs(turn - 90) < allowed for turn in turns) >= 2


def test_a_short_closing_side_is_square_to_a_hundredth_of_a_foot() -> None:
    one, two = (1.0, 2.0), (1.0, 12.0)
    closed = squared_off((one, two, toward(two, 105.0, 37.0)))
    assert not crosses_itself(closed)
    assert min(math.dist(a, b) for a, b in sides(closed)) < 1


def test_what_cannot_be_closed_square_is_said() -> None:
    with pytest.raises(OwnerError, match="three corners"):
        squared_off(((0.0, 0.0), (10.0, 0.0)))


@given(st.floats(0, 359), st.floats(2, 50), st.floats(2, 50))
def test_rectangles_along_a_way_have_their_area(way: float, along: float, aside: float) -> None:
    outline = along_way((3.0, 4.0), way, along, aside)
    assert area_sqft(outline) == pytest.approx(along * aside, rel=0.02)
    assert area_sqft(on_side(outline[0], outline[1], outline[2])) == pytest.approx(
        area_sqft(outline), rel=0.01
    )


@given(st.floats(1, 80), st.lists(st.floats(0, 6.28), min_size=3, max_size=3))
def test_the_radius_through_three_points_of_a_circle(radius: float, turns: list[float]) -> None:
    a, b, c = (toward((5.0, -3.0), math.degrees(turn), radius) for turn in turns)
    found = radius_ft(a, b, c)
    if min(math.dist(a, b), math.dist(b, c), math.dist(a, c)) > 0.05 * radius:
        assert found == pytest.approx(radius, rel=1e-3)


@given(st.floats(1, 80), st.floats(0, 360), st.floats(10, 350), st.floats(0.1, 0.9))
def test_the_length_of_an_arc(radius: float, start: float, swing: float, share: float) -> None:
    a, via, b = (toward((5.0, -3.0), start + swing * s, radius) for s in (0.0, share, 1.0))
    assert arc_length_ft(a, via, b) == pytest.approx(radius * math.radians(swing), rel=1e-6)


@pytest.mark.parametrize(
    ("turn", "words"),
    [
        (0, "straight on"),
        (88, "turns R 88°"),
        (-90, "turns L 90°"),
        (270, "turns L 90°"),
        (180, "turns back"),
    ],
)
def test_a_turn_in_words(turn: float, words: str) -> None:
    assert turn_words(turn) == words


def test_a_chain_that_would_cross_keeps_what_it_has() -> None:
    chain = Chain()
    for at in ((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0)):
        chain.add(at)
    with pytest.raises(OwnerError, match="cross"):
        chain.add_arc((10.0, -5.0), (0.0, -10.0))
    with pytest.raises(OwnerError, match="cross"):
        chain.bend_last(15.0)
    assert len(chain.corners) == 4
    assert chain.anchors[-2:] == ((20.0, 10.0), (10.0, 10.0))
