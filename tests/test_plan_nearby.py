"""What lies near a place is what a look at everything finds."""

import math

from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.nearby import SQUARE_FT, Nearby
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import distance_to_edge_ft, rectangle_ft
from lawnbook.yard.records import Feature, Head, Spot
from tests.plan_yards import yard

FEET = st.floats(-40.0, 40.0, allow_subnormal=False)
PLACES = st.tuples(FEET, FEET)


@given(st.lists(PLACES, max_size=20), PLACES)
def test_heads_and_spots_are_those_within_reach(places: list[Point], at_ft: Point) -> None:
    book = yard(
        spots=[Spot(id=f"s{n}", name=f"s{n}", at_ft=at) for n, at in enumerate(places)],
        heads=[Head(id=f"h{n}", zone="z1", at_ft=at, radius_ft=8.0) for n, at in enumerate(places)],
    )
    near = sorted(at for at in places if math.dist(at, at_ft) <= SQUARE_FT)
    found = Nearby.of(book)
    assert sorted(each.at_ft for each in found.spots(at_ft) if each.at_ft) == near
    assert sorted(found.heads(at_ft)) == near


@given(st.lists(PLACES, max_size=8), PLACES)
def test_no_feature_within_reach_is_passed_over(places: list[Point], at_ft: Point) -> None:
    shapes = [
        Feature(id=f"f{n}", kind="bed", outline_ft=rectangle_ft(at, 3.0, 2.0))
        for n, at in enumerate(places)
    ]
    found = Nearby.of(yard(features=shapes)).features(at_ft)
    for each in shapes:
        if distance_to_edge_ft(each.outline_ft, at_ft) <= SQUARE_FT:
            assert each in found
    assert found == [each for each in shapes if each in found]


def test_a_spot_without_a_place_and_an_empty_outline_are_nowhere() -> None:
    book = yard(
        spots=[Spot(id="s1", name="s1")], features=[Feature(id="f", kind="bed", outline_ft=())]
    )
    found = Nearby.of(book)
    assert (list(found.spots((0.0, 0.0))), found.features((0.0, 0.0))) == ([], [])
