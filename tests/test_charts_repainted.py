"""A picture painted anew leaves nothing behind; free places are found as if asked one by one."""

import gc
import weakref
from datetime import date
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.figure import Figure

from lawnbook.charts.figures import profile_drawing
from lawnbook.charts.free_places import Labels
from lawnbook.charts.marks import Frame, Words
from lawnbook.charts.paint import frame_of, paint
from lawnbook.charts.palette import DARK, LIGHT
from lawnbook.charts.profile import profile_marks
from tests.plan_fixture import plug, plugs, spot_of

WIDE, HIGH = 100.0, 60.0


def test_a_picture_painted_anew_leaves_no_artist_of_the_one_before() -> None:
    figure = Figure(figsize=(6.4, 3.8))
    picture = profile_drawing(spot_of(plugs(3)))(frame_of(figure))
    paint(figure, picture, LIGHT)
    before = [weakref.ref(each) for each in figure.artists]
    assert len(before) == len(picture.marks)
    gc.disable()
    try:
        paint(figure, picture, DARK)
        assert [each for each in before if each() is not None] == []
    finally:
        gc.enable()


@pytest.mark.parametrize("height", [130.0, 200.0, 600.0])
def test_roots_too_deep_for_a_low_frame_still_have_a_scale(height: float) -> None:
    deep = plug(0, date(2024, 5, 3), 0.5, root_depth_in=260.0)
    picture = profile_marks((deep,), Frame(300.0, height))
    scale = [each for each in picture.marks if isinstance(each, Words) and each.align == "right"]
    assert scale[0].text == "crowns"
    numbers = [scale[0], *(each for each in scale if each.text.isdigit())]
    assert all(two.at[1] - one.at[1] >= 16.9 for one, two in pairwise(numbers))


_place = st.tuples(st.floats(0, WIDE), st.floats(0, HIGH))
_boxes = st.tuples(_place, _place).map(
    lambda ends: (
        min(ends[0][0], ends[1][0]),
        min(ends[0][1], ends[1][1]),
        max(ends[0][0], ends[1][0]),
        max(ends[0][1], ends[1][1]),
    )
)


@settings(max_examples=60)
@given(
    sides=st.lists(st.tuples(_place, _place), max_size=5),
    taken=st.lists(_boxes, max_size=2),
    places=st.lists(_place, max_size=80),
    half=st.tuples(st.floats(0.5, 9), st.floats(0.5, 9)),
    over_lines=st.booleans(),
)
def test_the_first_free_place_is_the_one_found_by_asking_one_by_one(
    sides: list[tuple[tuple[float, float], tuple[float, float]]],
    taken: list[tuple[float, float, float, float]],
    places: list[tuple[float, float]],
    half: tuple[float, float],
    over_lines: bool,
) -> None:
    edges = np.array(sides, dtype=np.float64).reshape(-1, 2, 2)
    labels = Labels(WIDE, HIGH, edges, list(taken))
    expected = None
    for number, (x, y) in enumerate(places):
        box = (x - half[0], y - half[1], x + half[0], y + half[1])
        clear = over_lines or not labels.crossings(box)
        if number % 3 and clear and labels.is_free(box):
            expected = (x, y)
            break
    found = labels.claim_first(places, half, lambda number: bool(number % 3), over_lines=over_lines)
    assert found == expected
    assert len(labels.taken) == len(taken) + (found is not None)
