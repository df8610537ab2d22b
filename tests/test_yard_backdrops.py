"""Laying a picture under the sketch, against shapely's affine maps and simulated clicks."""

import importlib
import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lawnbook.yard.backdrops import (
    PARTED_BY_PCT,
    PLACED_WITHIN_PX,
    Along,
    checked,
    checked_words,
    corners_ft,
    ground_bounds_ft,
    laid,
    levelled,
    moved,
    new_backdrop,
    place_ft,
    scale_words,
    scaled,
    scaled_by_print,
    seen_bounds_ft,
    share_at,
    turned_to,
)
from lawnbook.yard.check import check
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import EMPTY_YARD_FT, yard_bounds_ft
from lawnbook.yard.notebook import apply, new_notebook, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Backdrop
from tests.backdrop_pictures import with_backdrop
from tests.page_book import page_notebook
from tests.photo_files import halves, written

affinity: Any = importlib.import_module("shapely.affinity")
geometry: Any = importlib.import_module("shapely.geometry")
DATA = written(halves(400, 300))
EMPTY = new_notebook("Home")
FRESH = new_backdrop(EMPTY, "Aerial", DATA, (400, 300))

shares = st.tuples(st.floats(0, 1), st.floats(0, 1))
places = st.builds(
    lambda middle, scale, turn: replace(FRESH, middle_ft=middle, ft_per_px=scale, turn_deg=turn),
    st.tuples(st.floats(-900, 900), st.floats(-900, 900)),
    st.floats(0.01, 5),
    st.floats(-180, 180),
)


@given(places, shares)
def test_a_place_of_the_picture_lies_where_an_affine_map_puts_it(
    backdrop: Backdrop, share: Point
) -> None:
    # shapely turns anticlockwise and knows nothing of pixels that run down.
    u, v = (share[0] - 0.5) * 400, (0.5 - share[1]) * 300
    f = backdrop.ft_per_px
    point = affinity.scale(geometry.Point(u, v), f, f, origin=(0, 0))
    point = affinity.rotate(point, -backdrop.turn_deg, origin=(0, 0))
    point = affinity.translate(point, *backdrop.middle_ft)
    assert place_ft(backdrop, share) == pytest.approx((point.x, point.y), abs=1e-6)
    assert share_at(backdrop, place_ft(backdrop, share)) == pytest.approx(share, abs=1e-6)


@given(places, shares, shares, st.floats(1, 400))
def test_a_known_distance_scales_and_the_first_point_stays(
    backdrop: Backdrop, one: Point, other: Point, length_ft: float
) -> None:
    a, b = place_ft(backdrop, one), place_ft(backdrop, other)
    assume(math.hypot((one[0] - other[0]) * 400, (one[1] - other[1]) * 300) > 21)
    after = scaled(backdrop, a, b, length_ft)
    ends = place_ft(after, one), place_ft(after, other)
    assert math.dist(*ends) == pytest.approx(length_ft, rel=1e-6)
    assert ends[0] == pytest.approx(a, abs=0.002)
    assert after.turn_deg == backdrop.turn_deg
    assert after.scale_ft == length_ft
    assert after.scale_ends is not None
    assert after.scale_ends[1] == pytest.approx(other, abs=1e-6)


def test_a_first_picture_is_a_hundred_feet_across_and_a_later_one_as_wide_as_the_yard() -> None:
    assert (FRESH.ft_per_px * FRESH.width_px, FRESH.fade, FRESH.shown) == (100.0, 0.4, True)
    assert FRESH.middle_ft == (50.0, 35.0), "the middle of the empty page"
    drawn = page_notebook()
    west, south, east, north = yard_bounds_ft(drawn)
    made = new_backdrop(drawn, "Aerial", DATA, (400, 300))
    corners = corners_ft(made)
    assert min(x for x, _ in corners) <= west
    assert max(x for x, _ in corners) >= east
    assert min(y for _, y in corners) <= south
    assert max(y for _, y in corners) >= north


def test_what_is_made_may_be_kept_and_names_are_free() -> None:
    book = apply(EMPTY, put(EMPTY, "backdrops", FRESH))
    again = new_backdrop(book, " aerial", DATA, (400, 300))
    assert again.name == "aerial 2"
    assert check(again, book, date(2026, 6, 15)) == ()
    a, b = place_ft(again, (0.1, 0.5)), place_ft(again, (0.9, 0.5))
    assert check(scaled(again, a, b, 42.0), book, date(2026, 6, 15)) == ()
    assert check(scaled_by_print(again, 20.0, 17.0), book, date(2026, 6, 15)) == ()


def test_a_printed_scale_is_of_the_whole_sheet() -> None:
    # An engineer's scale of 1 in = 20 ft on a sheet 17 in wide (ANSI B) shows 340 ft.
    made = scaled_by_print(FRESH, 20.0, 17.0)
    assert made.ft_per_px * made.width_px == pytest.approx(340.0)
    assert made.middle_ft == FRESH.middle_ft
    assert "340' across the picture" in scale_words(made)
    for bad in ((0.0, 17.0), (20.0, -1.0), (1000.0, 100.0)):
        with pytest.raises(OwnerError):
            scaled_by_print(FRESH, *bad)


@pytest.mark.parametrize(
    ("along", "ends", "turn_deg"),
    [
        ("across", ((0.0, 0.0), (10.0, 1.0)), 5.711),
        ("across", ((10.0, 1.0), (0.0, 0.0)), 5.711),
        ("up", ((0.0, 0.0), (1.0, 10.0)), -5.711),
        ("up", ((1.0, 10.0), (0.0, 0.0)), -5.711),
        ("north", ((0.0, 0.0), (1.0, 10.0)), 24.289),
        ("north", ((1.0, 10.0), (0.0, 0.0)), -155.711),
    ],
)
def test_two_points_level_the_picture_by_the_smaller_turn(
    along: Along, ends: tuple[Point, Point], turn_deg: float
) -> None:
    after = levelled(FRESH, *ends, along, 30.0)
    assert after.turn_deg == pytest.approx(turn_deg, abs=0.001)
    held = share_at(FRESH, ends[0])
    assert place_ft(after, held) == pytest.approx(ends[0], abs=0.002), "it turns about the first"
    a, b = (place_ft(after, share_at(FRESH, end)) for end in ends)
    bearing = math.degrees(math.atan2(b[0] - a[0], b[1] - a[1]))
    whole, wanted = (360, 30.0) if along == "north" else (180, 90.0 if along == "across" else 0.0)
    assert abs((bearing - wanted + whole / 2) % whole - whole / 2) < 0.05


def test_a_turn_is_told_within_half_a_round_and_a_move_adds() -> None:
    assert turned_to(FRESH, 350.0).turn_deg == -10.0
    assert moved(FRESH, (1.5, -2.0)).middle_ft == (51.5, 33.0)


def test_a_second_distance_tells_a_picture_that_leans() -> None:
    known = scaled(FRESH, place_ft(FRESH, (0, 0.5)), place_ft(FRESH, (1, 0.5)), 100.0)
    a, b = place_ft(known, (0.5, 0.0)), place_ft(known, (0.5, 1.0))
    found = checked(known, a, b, 70.0)
    assert found.in_picture_ft == pytest.approx(75.0)
    assert found.off_pct == pytest.approx(7.142857)
    assert not found.agrees
    assert "7.1 % longer" in checked_words(found)
    assert "leans" in checked_words(found)
    good = checked(known, a, b, 75.3)
    assert good.agrees
    assert "0.4 % shorter" in checked_words(good)
    assert "as well as the clicks allow" in checked_words(good)
    near = checked(known, a, b, 74.2)
    assert near.agrees
    assert near.from_clicks_pct < near.off_pct
    assert "more than the clicks explain" in checked_words(near)
    assert "2 % off" in checked_words(near)
    with pytest.raises(OwnerError, match="first distance"):
        checked(FRESH, a, b, 70.0)


def test_how_far_clicks_put_a_distance_off_is_what_simulated_clicks_do() -> None:
    known = scaled(FRESH, place_ft(FRESH, (0.25, 0.5)), place_ft(FRESH, (0.75, 0.5)), 50.0)
    a, b = place_ft(known, (0.0, 0.2)), place_ft(known, (1.0, 0.2))
    told = checked(known, a, b, 100.0).from_clicks_pct
    rng = np.random.default_rng(1)
    off = rng.normal(0, PLACED_WITHIN_PX, (4, 20_000))
    scale = 50 / (200 + off[0] - off[1])
    length_ft = (400 + off[2] - off[3]) * scale
    assert told == pytest.approx(float(np.std(length_ft)), rel=0.03), "of 100 ft, in percent"
    assert told < PARTED_BY_PCT


@pytest.mark.parametrize(
    "change",
    [
        lambda held: scaled(held, (10, 35), (80, 35), 50.0),
        lambda held: scaled_by_print(held, 20.0, 17.0),
        lambda held: levelled(held, (0, 0), (1, 1), "up", 0.0),
        lambda held: turned_to(held, 5.0),
        lambda held: moved(held, (1, 1)),
    ],
)
def test_a_locked_picture_stays_as_it_is(change: Callable[[Backdrop], Backdrop]) -> None:
    with pytest.raises(OwnerError, match="Aerial is locked; unlock it first"):
        change(replace(FRESH, locked=True))
    assert change(FRESH) != FRESH


@pytest.mark.parametrize(
    ("a", "b", "length_ft", "words"),
    [
        ((-10.0, 35.0), (80.0, 35.0), 50.0, "must lie on Aerial"),
        ((50.0, 35.0), (50.0, 36.0), 50.0, "only 4 pixels"),
        ((10.0, 35.0), (80.0, 35.0), 0.0, "no distance"),
        ((10.0, 35.0), (80.0, 35.0), 6000.0, "no distance"),
    ],
)
def test_clicks_that_make_no_scale_are_explained(
    a: Point, b: Point, length_ft: float, words: str
) -> None:
    with pytest.raises(OwnerError, match=words):
        scaled(FRESH, a, b, length_ft)


def test_pictures_lie_in_the_owners_order() -> None:
    book = with_backdrop(with_backdrop(EMPTY, halves(), backdrop_id="a"), halves(), backdrop_id="b")
    after = apply(book, laid(book, "a", higher=True))
    assert [*after.backdrops] == ["b", "a"]
    assert laid(after, "a", higher=True) == {}
    assert [*apply(after, laid(after, "a", higher=False)).backdrops] == ["a", "b"]


def test_a_picture_alone_is_looked_at_and_a_hidden_one_is_not() -> None:
    far = with_backdrop(EMPTY, halves(), lambda made: replace(made, middle_ft=(500.0, 0.0)))
    assert seen_bounds_ft(far) == pytest.approx((450.0, -37.5, 550.0, 37.5))
    hidden = with_backdrop(EMPTY, halves(), lambda made: replace(made, shown=False))
    assert seen_bounds_ft(hidden) == EMPTY_YARD_FT
    drawn = with_backdrop(page_notebook(), halves(), lambda made: moved(made, (500.0, 0.0)))
    assert seen_bounds_ft(drawn) == yard_bounds_ft(page_notebook())
    assert ground_bounds_ft(drawn)[2] > 500, "but there is ground under all of the picture"
