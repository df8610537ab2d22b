"""The steps to the target as columns of ground, and what one inch does."""

from dataclasses import replace
from itertools import pairwise

import pytest

from lawnbook.charts.marks import Frame, Picture, Polygon, Polyline, Words
from lawnbook.charts.stretch import (
    inch_marks,
    inch_words,
    step_now,
    stretch_chart_words,
    stretch_marks,
)
from tests.water_fixture import STEPS, stretch

FRAME = Frame(440, 210)
ROOTS_IN = 7.0


def columns(picture: Picture, fill: str, alpha: float = 1.0) -> list[tuple[float, float]]:
    """Top and foot of the filled boxes of one look, from left to right."""
    rings = [
        mark.rings[0]
        for mark in picture.marks
        if isinstance(mark, Polygon) and (mark.fill, mark.alpha) == (fill, alpha)
    ]
    return [(ring[0][1], ring[2][1]) for ring in sorted(rings)]


def test_columns_are_solid_down_to_todays_roots_and_dashed_beyond() -> None:
    picture = stretch_marks(stretch(), ROOTS_IN, FRAME)
    solid, missing = columns(picture, "soil"), columns(picture, "soil", 0.25)
    assert len(solid) == len(STEPS)
    assert len(missing) == 3, "the first step needs no more roots than there are"
    line = next(m for m in picture.marks if isinstance(m, Polyline) and m.dash and m.role == "ink")
    assert [foot for _, foot in solid[1:]] == pytest.approx([line.lines[0][0][1]] * 3)
    lengths = [foot - top for top, foot in missing]
    to_go = [depth / 0.068 + 0.6 - ROOTS_IN for _, depth in STEPS[1:]]
    assert [each / lengths[0] for each in lengths] == pytest.approx(
        [each / to_go[0] for each in to_go]
    )


def test_only_the_longest_borne_step_is_lit() -> None:
    def outlines(borne: int) -> list[Polygon]:
        marks = stretch_marks(stretch(borne), ROOTS_IN, FRAME).marks
        return [m for m in marks if isinstance(m, Polygon) and m.edge == "accent"]

    assert len(outlines(1)) == len(outlines(3)) == 1
    assert outlines(3)[0].rings[0][0][0] > outlines(1)[0].rings[0][0][0]
    assert outlines(0) == []
    assert step_now(stretch(0)) is None


def test_each_step_tells_interval_depth_roots_and_what_it_would_cost_now() -> None:
    words = stretch_marks(stretch(), ROOTS_IN, FRAME).words()
    assert {"2 days", "0.42 in", "9.9 in", "62\u00a0%", "May 2027", "now", "–"} <= set(words)
    bad = [
        m.text
        for m in stretch_marks(stretch(), ROOTS_IN, FRAME).marks
        if isinstance(m, Words) and m.role == "bad"
    ]
    assert bad == ["62\u00a0%", "82\u00a0%", "98\u00a0%"]


def test_eight_steps_still_find_room() -> None:
    steps = tuple(replace(stretch().steps[1], interval_days=day) for day in range(1, 9))
    picture = stretch_marks(replace(stretch(), steps=steps), ROOTS_IN, Frame(400, 200))
    assert "day" in picture.words()
    assert "May ’27" in picture.words()
    middles = [m.at[0] for m in picture.marks if isinstance(m, Words) and m.text == "May ’27"]
    assert min(b - a for a, b in pairwise(middles)) > 36


def test_the_steps_in_words() -> None:
    words = stretch_chart_words(stretch(), ROOTS_IN)
    assert "Every 2 days, 0.42 in: roots of 6.8 in, there now." in words
    assert (
        "Every 3 days, 0.63 in: roots of 9.9 in; now it would use up 62\u00a0% of their water; "
        "could be from May 2027." in words
    )


def test_an_inch_is_drawn_to_scale_with_the_roots() -> None:
    picture = inch_marks(stretch(), (0.6, 6.0), Frame(170, 150))
    (top, foot) = columns(picture, "water", 0.55)[0]
    thatch = columns(picture, "thatch")[0]
    assert (foot - top) / (thatch[1] - thatch[0]) == pytest.approx(13.9 / 0.6)
    assert {"wet to 13.9 in", "roots 6.0 in", "thatch 0.60 in"} <= set(picture.words())
    bare = inch_marks(stretch(), (0.0, 6.0), Frame(170, 150)).words()
    assert not any(word.startswith("thatch") for word in bare)


def test_an_inch_in_words_says_what_passes_the_roots() -> None:
    assert inch_words(stretch(), 6.0).endswith("so 0.53 in of that inch would drain past them.")
    deep = replace(stretch(), inch_past_roots_in=0.0)
    assert inch_words(deep, 20.0).endswith("can take all of it.")


def test_no_roots_in_the_soil_make_a_picture_too() -> None:
    picture = stretch_marks(stretch(0), 0.0, FRAME)
    assert "roots 0.0 in" in picture.words()
    assert inch_marks(stretch(), (0.6, 0.0), Frame(170, 150)).marks


def test_nothing_is_written_below_nine_points() -> None:
    words = [m for m in stretch_marks(stretch(), ROOTS_IN, FRAME).marks if isinstance(m, Words)]
    assert min(word.size for word in words) >= 9
