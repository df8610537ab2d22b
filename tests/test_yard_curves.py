"""Curves as sides: against the published formulas of the circle and its segment."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lawnbook.yard.curves import (
    FLAT_WITHIN_FT,
    arc_through,
    bulged,
    circle,
    segment_area_sqft,
)
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, crosses_itself
from lawnbook.yard.problems import OwnerError


def farthest_off_ft(chain: Outline, centre: Point, radius_ft: float) -> float:
    """How far sides lie from a circle at most, sampled along them."""
    off = 0.0
    for (ax, ay), (bx, by) in pairwise(chain):
        for step in range(11):
            at = (ax + (bx - ax) * step / 10, ay + (by - ay) * step / 10)
            off = max(off, abs(math.dist(at, centre) - radius_ft))
    return off


@given(st.floats(0.5, 4000), st.floats(-500, 500), st.floats(-500, 500))
def test_a_circle_keeps_within_half_an_inch(radius_ft: float, x: float, y: float) -> None:
    ring = circle((x, y), radius_ft)
    assert farthest_off_ft((*ring, ring[0]), (x, y), radius_ft) <= FLAT_WITHIN_FT
    assert not crosses_itself(ring)


@pytest.mark.parametrize(
    ("radius_ft", "share"), [(1, 0.01), (3, 0.004), (10, 0.001), (50, 2e-4), (1000, 1e-5)]
)
def test_a_circles_area_is_pi_r_squared(radius_ft: float, share: float) -> None:
    """What is left is the rounding to 0.01 ft; sides all inside would lose 0.6 % at 10 ft."""
    assert area_sqft(circle((7, 3), radius_ft)) == pytest.approx(math.pi * radius_ft**2, rel=share)


@pytest.mark.parametrize("radius_ft", [0, -1, 6000, math.nan])
def test_a_circle_that_cannot_be_drawn(radius_ft: float) -> None:
    with pytest.raises(OwnerError, match="radius"):
        circle((0, 0), radius_ft)


@pytest.mark.parametrize(
    ("angle_deg", "share_of_square"),
    [
        # Segments of the unit circle by angle, as in handbooks' tables (from memory): the half
        # circle π/2, the quarter π/4 - 1/2, the sixth π/6 - √3/4.
        (180, math.pi / 2),
        (90, math.pi / 4 - 0.5),
        (60, math.pi / 6 - math.sqrt(3) / 4),
        (360, math.pi),
    ],
)
def test_segments_of_known_angles(angle_deg: float, share_of_square: float) -> None:
    assert segment_area_sqft(12, angle_deg) == pytest.approx(144 * share_of_square)


@given(st.floats(2, 400), st.floats(15, 345), st.floats(0, 360), st.booleans())
def test_an_arc_has_its_segments_area_and_stays_near(
    radius_ft: float, swing_deg: float, start_deg: float, left: bool
) -> None:
    turns = [math.radians(start_deg + share * swing_deg) for share in (0.0, 0.37, 1.0)]
    a, via, b = ((radius_ft * math.cos(t), radius_ft * math.sin(t)) for t in turns)
    rise = radius_ft * (1 - math.cos(math.radians(swing_deg) / 2))
    assume(rise > 0.05)
    chain = arc_through(a, via, b) if left else arc_through(b, via, a)
    assert math.dist(chain[0], a if left else b) < 0.0072
    assert math.dist(chain[-1], b if left else a) < 0.0072
    # The ends are rounded as well, so the sides next to them keep a hundredth more off.
    assert farthest_off_ft(chain, (0, 0), radius_ft) <= FLAT_WITHIN_FT
    length = radius_ft * math.radians(swing_deg)
    spare = 0.01 * length + 0.01
    assert area_sqft(chain) == pytest.approx(segment_area_sqft(radius_ft, swing_deg), abs=spare)
    assert not crosses_itself(chain)


@given(st.floats(1, 300), st.floats(0.2, 40), st.booleans())
def test_a_bulge_rises_to_the_left_and_a_negative_one_to_the_right(
    length: float, rise: float, left: bool
) -> None:
    chain = bulged((0, 0), (length, 0), rise if left else -rise)
    top = max((y if left else -y) for _, y in chain)
    assert top == pytest.approx(rise, abs=FLAT_WITHIN_FT)
    radius = (length**2 / 4 + rise**2) / (2 * rise)
    assert (
        farthest_off_ft(chain, (length / 2, (rise - radius) * (1 if left else -1)), radius)
        <= FLAT_WITHIN_FT
    )


@pytest.mark.parametrize(
    "via",
    [(5, 0), (2, 0), (20, 0), (-3, 0), (5, 0.004), (30, 0.001)],
)
def test_points_on_one_line_make_a_straight_side(via: Point) -> None:
    assert arc_through((0, 0), via, (10, 0)) == ((0, 0), (10, 0))


def test_a_flat_arc_over_a_long_side_is_still_an_arc() -> None:
    assert len(bulged((0, 0), (1000, 0), 1)) > 3


def test_both_ends_on_one_place() -> None:
    with pytest.raises(OwnerError, match="one place"):
        arc_through((1, 1), (2, 2), (1, 1))
    with pytest.raises(OwnerError, match="one place"):
        bulged((1, 1), (1, 1), 2)
