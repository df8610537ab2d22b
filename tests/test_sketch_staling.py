"""A zone placed elsewhere as a whole keeps its catch test good; a head that changes does not."""

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.desk.sketch.staling import stale_words, with_days
from lawnbook.yard.fields import Outline
from lawnbook.yard.notebook import Change, Key, Notebook, apply, put
from lawnbook.yard.records import Head
from lawnbook.yard.shape_edits import aligned, followed_by, mirrored, moved, turned
from tests.conftest import TODAY
from tests.shape_yards import fed_yard

A, B = ("zones", "a"), ("zones", "b")
SQUARE: Outline = ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0))
UNEVEN: Outline = ((0.0, 0.0), (20.0, 0.0), (26.0, 11.0), (9.0, 20.0))
BESIDE: Outline = ((40.0, 3.0), (50.0, 3.0), (50.0, 13.0), (40.0, 13.0))
OUTLINES = st.sampled_from((SQUARE, UNEVEN))


def yard(outline: Outline) -> Notebook:
    """A zone with a head of a quarter turn and a catch test of January."""
    return fed_yard(outline, BESIDE, [])


def days(notebook: Notebook, change: Change) -> list[date | None]:
    after = apply(notebook, with_days(notebook, change, TODAY))
    return [head.changed_on for head in after.heads.values()]


PLACED: dict[str, Callable[[Notebook], Change]] = {
    "moved": lambda n: moved(n, (A,), (31.0, -7.0)),
    "turned": lambda n: turned(n, (A,), 90.0, (3.0, 4.0)),
    "turned a little": lambda n: turned(n, (A,), 7.3, (3.0, 4.0)),
    "mirrored across": lambda n: mirrored(n, (A,), (10.0, 0.0), (10.0, 1.0)),
    "mirrored on a slope": lambda n: mirrored(n, (A,), (10.0, 0.0), (17.0, 9.0)),
    "both": lambda n: turned(n, (A, B), 180.0, (30.0, 4.0)),
    "lined up": lambda n: aligned(n, (B, A), "top"),
}


@pytest.mark.parametrize("outline", [SQUARE, UNEVEN])
@pytest.mark.parametrize("name", list(PLACED))
def test_a_zone_placed_elsewhere_leaves_its_test_good(outline: Outline, name: str) -> None:
    notebook = yard(outline)
    change = PLACED[name](notebook)
    assert change
    assert days(notebook, change) == [None, None]
    assert stale_words(notebook, change, TODAY) == ""


@given(OUTLINES, st.floats(-360, 360), st.floats(0, math.tau), st.booleans())
def test_any_turn_and_mirror_leaves_it_good(
    outline: Outline, deg: float, line: float, mirrors: bool
) -> None:
    notebook = yard(outline)
    change = turned(notebook, (A,), deg, (5.0, 5.0))
    if mirrors:
        way = (math.cos(line), math.sin(line))
        change = followed_by(change, mirrored(apply(notebook, change), (A,), (0.0, 0.0), way))
    assert days(notebook, change) == [None, None]


CHANGED: dict[str, Callable[[Head], Head]] = {
    "start": lambda head: replace(head, start_deg=head.start_deg + 5),
    "sweep": lambda head: replace(head, sweep_deg=head.sweep_deg - 20),
    "flow": lambda head: replace(head, flow_gpm=3.0),
    "place": lambda head: replace(head, at_ft=(head.at_ft[0] + 3, head.at_ft[1])),
}


@pytest.mark.parametrize("outline", [SQUARE, UNEVEN])
@pytest.mark.parametrize("name", list(CHANGED))
def test_a_head_that_changes_with_its_zones_move_is_dated(outline: Outline, name: str) -> None:
    notebook = yard(outline)
    placed = turned(notebook, (A,), 30.0, (3.0, 4.0))
    after = apply(notebook, placed)
    head = CHANGED[name](after.heads["ha"])
    change = followed_by(placed, put(after, "heads", head))
    assert days(notebook, change) == [TODAY, None]
    assert "is now stale" in stale_words(notebook, change, TODAY)


@pytest.mark.parametrize("keys", [(("heads", "ha"),), (("heads", "ha"), ("heads", "hb"))])
def test_heads_turned_without_their_zone_are_dated(keys: tuple[Key, ...]) -> None:
    notebook = yard(UNEVEN)
    change = turned(notebook, keys, 20.0, (2.0, 2.0))
    assert days(notebook, change)[0] == TODAY
