"""The labels beside a photograph's marks stand in the order of their lines, none over another."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.desk.pages.photo_drawing import stacked

STEP = 20.0


@given(st.lists(st.floats(-500, 500), min_size=1, max_size=8).map(sorted), st.floats(300, 900))
def test_labels_keep_their_order_and_distance_within_the_picture(
    wanted: list[float], room: float
) -> None:
    span = (12.0, room - 12.0)
    placed = stacked(wanted, STEP, span)
    assert len(placed) == len(wanted)
    assert all(b - a >= STEP - 1e-6 for a, b in pairwise(placed))
    assert span[0] - 1e-6 <= placed[0]
    assert placed[-1] <= span[1] + 1e-6


@given(st.lists(st.integers(0, 9), min_size=1, max_size=8, unique=True).map(sorted))
def test_labels_with_room_stand_level_with_their_lines(wanted: list[int]) -> None:
    apart = [each * STEP + 100 for each in wanted]
    assert stacked(apart, STEP, (0.0, 400.0)) == pytest.approx(apart)


def test_a_crowd_spreads_evenly_round_its_middle() -> None:
    assert stacked([100, 101, 102], STEP, (0.0, 400.0)) == pytest.approx([81, 101, 121])
    assert stacked([2, 3], STEP, (12.0, 400.0)) == pytest.approx([12, 32])
    assert stacked([398], STEP, (12.0, 380.0)) == pytest.approx([380])
