"""What can be done with shapes: each operation, why it cannot be, one step each."""

import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.corner_edits import (
    Carries,
    Figure,
    direction_deg,
    inner_angle_deg,
    retyped,
    side_ft,
    with_direction,
    with_inner_angle,
    with_side,
)
from lawnbook.desk.sketch.foreseeing import foresee_operation
from lawnbook.desk.sketch.operations import BY_NAME, OPERATIONS, run_by_name
from lawnbook.desk.sketch.shape_rows import shape_rows
from lawnbook.desk.sketch.shaping import Strip, make_strip
from lawnbook.yard.geometry import rectangle_ft, zone_area_sqft
from lawnbook.yard.notebook import apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Zone
from tests.sketch_hand import Hand, sketch_yard

FRONT, BACK, HOUSE, HEAD = (
    ("zones", "front"),
    ("zones", "back"),
    ("features", "house"),
    ("heads", "head"),
)
LEFT_HALF = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


@pytest.fixture
def hand(tmp_path: Path) -> Iterator[Hand]:
    """The sketch yard with a zone that touches the front one, and a bed on it."""
    notebook = sketch_yard()
    side = Zone(id="side", name="Side", outline_ft=rectangle_ft((30.0, 0.0), 10.0, 20.0))
    bed = Feature(id="bed", kind="bed", outline_ft=rectangle_ft((2.0, 12.0), 5.0, 4.0))
    notebook = apply(notebook, put(notebook, "zones", side))
    notebook = apply(notebook, put(notebook, "features", bed))
    made = Hand.on(notebook, tmp_path)
    yield made
    made.close()


def do(hand: Hand, name: str, *keys: tuple[str, str]) -> str:
    """Choose and do; what was said."""
    hand.panel.control.choose_all(keys)
    run_by_name(hand.panel.control, name)
    return hand.words()


def test_every_operation_has_a_name_a_key_and_a_tip_of_its_own() -> None:
    keys = [each.key for each in OPERATIONS if each.key]
    assert len(set(keys)) == len(keys)
    assert len(BY_NAME) == len(OPERATIONS)
    assert all(each.tip for each in OPERATIONS)


@pytest.mark.parametrize("name", list(BY_NAME))
def test_with_nothing_chosen_each_says_why_not_and_changes_nothing(hand: Hand, name: str) -> None:
    before = hand.notebook
    why = BY_NAME[name].why_not(hand.panel.control)
    run_by_name(hand.panel.control, name)
    assert why.endswith(".")
    assert hand.words() == why
    assert hand.notebook is before


def test_merging_keeps_the_first_and_tells_the_area(hand: Hand) -> None:
    words = do(hand, "merge", FRONT, ("zones", "side"))
    assert "800 sq ft" in words
    assert zone_area_sqft(hand.zone("front")) == pytest.approx(800.0)
    assert "side" not in hand.notebook.zones
    assert hand.panel.control.chosen_keys == (FRONT,)
    hand.book.undo()
    assert "side" in hand.notebook.zones


def test_zones_apart_are_not_merged_and_told_why(hand: Hand) -> None:
    before = hand.notebook
    assert do(hand, "merge", FRONT, BACK)
    assert hand.notebook is before


def test_what_lies_on_a_zone_is_cut_out_of_it(hand: Hand) -> None:
    words = do(hand, "cut_out", FRONT)
    assert zone_area_sqft(hand.zone("front")) == pytest.approx(600.0 - 20.0)
    assert "580 sq ft" in words
    why = BY_NAME["cut_out"].why_not(hand.panel.control)
    assert why.startswith("No house"), "the bed lies in a hole now"


def test_the_others_are_subtracted_from_the_first(hand: Hand) -> None:
    do(hand, "subtract", FRONT, ("features", "bed"))
    assert zone_area_sqft(hand.zone("front")) == pytest.approx(580.0)


def test_a_zone_is_split_by_a_line_drawn_on_the_sketch(hand: Hand) -> None:
    do(hand, "split", BACK)
    hand.click((60.0, -5.0))
    hand.click((60.0, 25.0))
    parts = hand.panel.control.chosen_keys
    assert [round(zone_area_sqft(hand.zone(each))) for _, each in parts] == [400, 200]
    assert "400 sq ft" in hand.words()
    hand.book.undo()
    assert zone_area_sqft(hand.zone("back")) == pytest.approx(600.0)


@pytest.mark.parametrize(
    ("edge", "right_ft", "up_ft"),
    [("left", 20.0, 0.0), ("right", 40.0, 0.0), ("centre", 30.0, 0.0),
     ("top", 40.0, 30.0), ("bottom", 40.0, 30.0), ("middle", 40.0, 30.0)],
)  # fmt: skip
def test_the_chosen_line_up_with_the_first(
    hand: Hand, edge: str, right_ft: float, up_ft: float
) -> None:
    """The side zone, 10 by 20 ft, moves to an edge of the house, 30 by 20 ft from (20, 30)."""
    do(hand, f"align_{edge}", HOUSE, ("zones", "side"))
    at = hand.zone("side").outline_ft[0]
    assert at == ((right_ft, 0.0) if edge in ("left", "right", "centre") else (30.0, up_ft))
    assert hand.notebook.features["house"].outline_ft == sketch_yard().features["house"].outline_ft


def test_a_quarter_turn_takes_what_stands_on_the_zone_along(hand: Hand) -> None:
    do(hand, "turn_right", FRONT)
    assert hand.notebook.heads["head"].start_deg == 90.0
    assert zone_area_sqft(hand.zone("front")) == pytest.approx(600.0)
    for _ in range(3):
        run_by_name(hand.panel.control, "turn_right")
    assert set(hand.zone("front").outline_ft) == set(sketch_yard().zones["front"].outline_ft)


def test_a_spot_mirrored_about_itself_is_no_step(hand: Hand) -> None:
    assert do(hand, "mirror_across", ("spots", "elm")) == "Nothing would change."
    assert hand.book.undo_label == ""


def test_mirrored_twice_is_as_before(hand: Hand) -> None:
    for _ in range(2):
        do(hand, "mirror_across", FRONT)
    assert set(hand.zone("front").outline_ft) == set(sketch_yard().zones["front"].outline_ft)
    assert hand.notebook.heads["head"].start_deg % 360 == 0.0


def test_a_duplicate_is_chosen_and_one_step(hand: Hand) -> None:
    do(hand, "duplicate", HOUSE)
    (key,) = hand.panel.control.chosen_keys
    assert key != HOUSE
    hand.book.undo()
    assert len(hand.notebook.features) == 2


def test_a_locked_shape_is_left_alone_until_unlocked(hand: Hand) -> None:
    do(hand, "lock", FRONT)
    locked = hand.notebook
    for name in ("turn_right", "remove", "cut_out", "split", "order_last"):
        run_by_name(hand.panel.control, name)
        assert hand.notebook is locked, name
        assert "locked" in hand.words(), name
    run_by_name(hand.panel.control, "unlock")
    assert not hand.zone("front").locked


def test_order_changes_a_zones_number(hand: Hand) -> None:
    words = do(hand, "order_last", FRONT)
    assert list(hand.notebook.zones)[-1] == "front"
    assert words == "Front is zone 3 now."
    assert BY_NAME["order_last"].why_not(hand.panel.control) == "It is the last already."


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize("side", range(4))
def test_a_strip_lies_along_the_side_that_was_named(hand: Hand, side: int, clockwise: bool) -> None:
    """Whichever way the corners run, the strip touches the two corners of its side."""
    if clockwise:
        back = hand.zone("back")
        turned = replace(back, outline_ft=back.outline_ft[::-1])
        hand.book.edit(put(hand.notebook, "zones", turned), "turn")
    outline = hand.zone("back").outline_ft
    hand.panel.control.choose(Choice(*BACK))
    assert make_strip(hand.panel.control, BACK, Strip(side, 2.0, True, "bed"))
    (new,) = [each for each in hand.notebook.features.values() if each.id not in ("house", "bed")]
    assert {outline[side], outline[(side + 1) % 4]} <= set(new.outline_ft)
    length = math.dist(outline[side], outline[(side + 1) % 4])
    assert zone_area_sqft(hand.zone("back")) == pytest.approx(600.0 - 2.0 * length)


def test_what_would_come_is_drawn_and_nothing_kept(hand: Hand) -> None:
    before = hand.notebook
    hand.panel.control.choose_all((FRONT, ("zones", "side")))
    for name in BY_NAME:
        foresee_operation(hand.panel.control, name)
    assert hand.notebook is before


def test_rows_say_everything_that_is_drawn(hand: Hand) -> None:
    spoken = [row.spoken for row in shape_rows(hand.notebook)]
    assert spoken[0] == "Zone 1 Front, 600 square feet"
    assert "House, 600 square feet" in spoken
    assert "Head 1 of Front, radius 8 feet, arc 90 degrees" in spoken
    assert spoken[-1] == "Spot Elm in Front"


@given(st.floats(1.0, 99.0), st.sampled_from(range(4)), st.sampled_from(["end", "next", "rest"]))
def test_a_typed_side_keeps_its_start_and_direction(
    length: float, side: int, carries: Carries
) -> None:
    made = with_side(LEFT_HALF, side, length, carries)
    assert side_ft(made, side) == pytest.approx(length, abs=0.02)
    assert made[side] == LEFT_HALF[side]
    assert direction_deg(made, side) == pytest.approx(direction_deg(LEFT_HALF, side), abs=1.0)


def test_a_typed_side_of_a_rectangle_takes_the_next_along() -> None:
    assert with_side(LEFT_HALF, 0, 12.0, "next") == (
        (0.0, 0.0), (12.0, 0.0), (12.0, 10.0), (0.0, 10.0)
    )  # fmt: skip
    assert with_side(LEFT_HALF, 0, 12.0, "end")[2] == (10.0, 10.0)


@pytest.mark.parametrize("outline", [LEFT_HALF, LEFT_HALF[::-1]])
def test_inner_angles_add_up_as_euclid_has_them(outline: tuple[tuple[float, float], ...]) -> None:
    """The inner angles of a polygon of n corners make (n - 2) × 180° (Euclid, Elements I.32)."""
    bent = (*outline[:2], (4.0, 3.0), *outline[2:])
    angles = [inner_angle_deg(bent, n) for n in range(len(bent))]
    assert sum(angles) == pytest.approx(540.0)
    assert [inner_angle_deg(outline, n) for n in range(4)] == pytest.approx([90.0] * 4)
    turned = with_inner_angle(outline, 1, 120.0, "end")
    assert inner_angle_deg(turned, 1) == pytest.approx(120.0, abs=0.1)
    assert direction_deg(with_direction(outline, 0, 45.0, "end"), 0) == pytest.approx(45, abs=0.1)


@pytest.mark.parametrize("outline", [LEFT_HALF, LEFT_HALF[::-1]])
@pytest.mark.parametrize("index", range(4))
@pytest.mark.parametrize("carries", ["end", "next", "rest"])
def test_an_inner_angle_becomes_what_was_typed_whatever_the_side_carries(
    outline: tuple[tuple[float, float], ...], index: int, carries: Carries
) -> None:
    """At the first corner too, where all corners after it take in the one before it."""
    turned = with_inner_angle(outline, index, 75.0, carries)
    assert inner_angle_deg(turned, index) == pytest.approx(75.0, abs=0.1)
    assert turned[index - 1] == outline[index - 1]


@pytest.mark.parametrize(
    ("figure", "text", "mend"),
    [("side", "0", "longer than nothing"), ("side", "ten", "enter feet"),
     ("angle", "400", "between 0 and 360"), ("direction", "north", "enter digits")],
)  # fmt: skip
def test_a_figure_that_cannot_be_says_its_mend(figure: Figure, text: str, mend: str) -> None:
    with pytest.raises(OwnerError, match=mend):
        retyped(LEFT_HALF, 0, figure, text, "next")
