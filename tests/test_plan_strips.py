"""Strips on which nothing is spread: their area against closed forms, and which features reach."""

import math
import subprocess
import sys
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.plan.strips import ZoneStrips, strips_of
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, rectangle_ft, zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, Zone
from tests.plan_yards import rules, yard, zone

LAWN = rectangle_ft((0.0, 0.0), 100.0, 60.0)


def pond(outline: Outline, **values: Any) -> Feature:
    """Water of an outline, with other values."""
    return replace(Feature(id="pond", kind="water", name="pond", outline_ft=outline), **values)


def strips(lawn: Zone, *features: Feature, waterside_ft: float | None = None) -> ZoneStrips:
    """The strips of one zone among features."""
    return strips_of(ground(lawn, *features, waterside_ft=waterside_ft), lawn)


def ground(lawn: Zone, *features: Feature, waterside_ft: float | None = None) -> Notebook:
    """A yard of one zone among features."""
    return yard(lawn, features=features, n_rules=rules(waterside_ft=waterside_ft))


@pytest.mark.parametrize("width_ft", [1.0, 10.0, 25.0])
def test_a_straight_shore_takes_a_rectangle(width_ft: float) -> None:
    """A shore past both ends of a side 100 ft long: 100 ft times the width."""
    lake = pond(rectangle_ft((-200.0, -80.0), 500.0, 80.0), no_spread_ft=width_ft)
    found = strips(zone(outline_ft=LAWN), lake)
    assert found.area_sqft == pytest.approx(100 * width_ft)
    assert found.names == ("pond",)
    assert [(each.name, each.width_ft) for each in found.strips] == [("pond", width_ft)]


def test_a_corner_that_touches_takes_a_quarter_circle() -> None:
    """Water that meets the zone at one corner: pi r^2 / 4."""
    found = strips(
        zone(outline_ft=LAWN), pond(rectangle_ft((-9.0, -9.0), 9.0, 9.0), no_spread_ft=20)
    )
    assert found.area_sqft == pytest.approx(math.pi * 20**2 / 4, rel=2e-4)


def test_a_pond_inside_takes_itself_its_sides_and_four_quarter_circles() -> None:
    """A pond of 10 by 20 ft drawn on the turf: a b + 2 (a + b) r + pi r^2."""
    found = strips(
        zone(outline_ft=LAWN), pond(rectangle_ft((40.0, 20.0), 10.0, 20.0), no_spread_ft=5)
    )
    assert found.area_sqft == pytest.approx(200 + 60 * 5 + math.pi * 25, rel=2e-4)


def test_a_hole_of_the_zone_is_none_of_the_strip() -> None:
    """The same pond left out of the zone as a hole: only the ring round it."""
    basin = rectangle_ft((40.0, 20.0), 10.0, 20.0)
    lawn = zone(outline_ft=LAWN, holes_ft=(basin,))
    found = strips(lawn, pond(basin, no_spread_ft=5))
    assert found.area_sqft == pytest.approx(60 * 5 + math.pi * 25, rel=2e-4)


def test_strips_that_overlap_are_counted_once() -> None:
    """Two shores in a corner of the zone: 10 ft of 100 and of 60, the square of 10 ft once."""
    south = pond(rectangle_ft((-50.0, -20.0), 300.0, 20.0), no_spread_ft=10)
    west = Feature(
        id="w",
        kind="paving",
        outline_ft=rectangle_ft((-20.0, -50.0), 20.0, 300.0),
        no_spread_ft=10.0,
    )
    found = strips(zone(outline_ft=LAWN), south, west)
    assert found.area_sqft == pytest.approx(1000 + 600 - 100)
    assert found.names == ("pond", "paving")
    assert [each.area_sqft for each in found.strips] == pytest.approx([1000, 600])


@pytest.mark.parametrize(
    ("kind", "own_ft", "rule_ft", "width_ft"),
    [
        ("water", None, 25.0, 25.0),
        ("water", 10.0, 25.0, 25.0),
        ("water", 30.0, 25.0, 30.0),
        ("water", None, None, 0.0),
        ("water", 0.0, 0.0, 0.0),
        ("paving", None, 25.0, 0.0),
        ("pool", 4.0, 25.0, 4.0),
    ],
)
def test_the_wider_of_the_feature_and_the_rule_beside_water(
    kind: str, own_ft: float | None, rule_ft: float | None, width_ft: float
) -> None:
    shore = pond(rectangle_ft((-200.0, -80.0), 500.0, 80.0), kind=kind, no_spread_ft=own_ft)
    found = strips(zone(outline_ft=LAWN), shore, waterside_ft=rule_ft)
    assert found.area_sqft == pytest.approx(100 * width_ft)
    assert bool(found.names) == (width_ft > 0)


@pytest.mark.parametrize("gap_ft", [10.0, 10.5, 400.0])
def test_a_strip_that_ends_before_the_turf_is_not_named(gap_ft: float) -> None:
    far = pond(rectangle_ft((0.0, -20.0 - gap_ft), 100.0, 20.0), no_spread_ft=10)
    assert strips(zone(outline_ft=LAWN), far) == ZoneStrips()


def test_a_strip_whose_box_reaches_but_whose_round_corner_does_not_is_not_named() -> None:
    """From the corner (-8, -8) to (0, 0) are 11.3 ft."""
    near = pond(rectangle_ft((-20.0, -20.0), 12.0, 12.0), no_spread_ft=10)
    assert strips(zone(outline_ft=LAWN), near) == ZoneStrips()


def test_a_strip_may_take_the_whole_zone() -> None:
    lake = pond(rectangle_ft((-200.0, -80.0), 500.0, 80.0), no_spread_ft=300)
    assert strips(zone(outline_ft=LAWN), lake).area_sqft == pytest.approx(6000)


@pytest.mark.parametrize(
    ("outline", "area_sqft"),
    [
        ((), 0.0),
        (((50.0, 30.0),), math.pi * 100),
        (((40.0, 30.0), (60.0, 30.0)), 20 * 20 + math.pi * 100),
        (((40.0, 30.0), (60.0, 30.0), (40.0, 30.0)), 20 * 20 + math.pi * 100),
    ],
)
def test_a_line_or_a_point_has_a_strip_all_round(outline: Outline, area_sqft: float) -> None:
    """A stream drawn as a line: 2 r l + pi r^2; a drain as a point: pi r^2."""
    found = strips(zone(outline_ft=LAWN), pond(outline, no_spread_ft=10))
    assert found.area_sqft == pytest.approx(area_sqft, rel=2e-4)


def test_an_outline_that_crosses_itself_is_measured_too() -> None:
    bow = pond(((40.0, 20.0), (60.0, 40.0), (60.0, 20.0), (40.0, 40.0)), no_spread_ft=1)
    assert 0 < strips(zone(outline_ft=LAWN), bow).area_sqft < 22 * 22


def test_a_zone_without_ground_has_no_strip() -> None:
    flat = zone(outline_ft=((0.0, 0.0), (100.0, 0.0)))
    assert strips(flat, pond(LAWN, no_spread_ft=10)) == ZoneStrips()


def test_a_strip_is_outlined_and_bordered_where_spreading_stops() -> None:
    """A shore along the whole south side: a rectangle, whose far side alone is the border."""
    shore = pond(rectangle_ft((-200.0, -80.0), 500.0, 80.0), no_spread_ft=15)
    found = strips(zone(outline_ft=LAWN), shore)
    (ring,), (border,) = found.rings_ft, found.borders_ft
    assert set(ring) == {(0.0, 0.0), (100.0, 0.0), (100.0, 15.0), (0.0, 15.0)}
    assert sorted(border) == [(0.0, 15.0), (100.0, 15.0)]
    (strip,) = found.strips
    assert strip.told() == "15 ft along pond: nothing is spread"
    places = ((50.0, 14.9), (50.0, 15.1), (50.0, -1.0), (101.0, 5.0))
    assert [strip.covers(at) for at in places] == [True, False, False, False]


def test_a_strip_round_a_hole_has_the_hole_in_its_outlines() -> None:
    """A basin left out of the zone: the strip is the ring round it, and nothing of the basin."""
    basin = rectangle_ft((40.0, 20.0), 10.0, 20.0)
    lawn = zone(outline_ft=LAWN, holes_ft=(basin,))
    (strip,) = strips(lawn, pond(basin, no_spread_ft=5)).strips
    outer, inner = sorted(strip.rings_ft, key=area_sqft, reverse=True)
    assert area_sqft(inner) == pytest.approx(200)
    assert area_sqft(outer) - area_sqft(inner) == pytest.approx(strip.area_sqft)
    assert strip.covers((37.0, 30.0))
    assert not strip.covers((45.0, 30.0))


def test_strips_that_overlap_have_one_outline_and_no_border_within() -> None:
    """Two shores in a corner: an L of 1,500 sq ft, and its inner two sides are the border."""
    south = pond(rectangle_ft((-50.0, -20.0), 300.0, 20.0), no_spread_ft=10)
    west = pond(rectangle_ft((-20.0, -50.0), 20.0, 300.0), id="w", name="ditch", no_spread_ft=10)
    found = strips(zone(outline_ft=LAWN), south, west)
    (ring,), (border,) = found.rings_ft, found.borders_ft
    assert area_sqft(ring) == pytest.approx(found.area_sqft) == pytest.approx(1500)
    assert {border[0], border[-1]} == {(10.0, 60.0), (100.0, 10.0)}
    assert (10.0, 10.0) in border
    assert [each.covers((5.0, 5.0)) for each in found.strips] == [True, True]


def test_a_strip_over_the_whole_zone_has_no_border() -> None:
    lake = pond(rectangle_ft((-200.0, -80.0), 500.0, 80.0), no_spread_ft=300)
    found = strips(zone(outline_ft=LAWN), lake)
    assert found.borders_ft == ()
    assert [area_sqft(ring) for ring in found.rings_ft] == pytest.approx([6000])


@given(
    st.floats(-150, 150), st.floats(-150, 150), st.floats(1, 80), st.floats(1, 80), st.floats(0, 60)
)
def test_a_wider_strip_takes_no_less_and_never_more_than_the_zone(
    x: float, y: float, width: float, height: float, strip_ft: float
) -> None:
    lawn = zone(outline_ft=LAWN)
    water = rectangle_ft((x, y), width, height)
    narrow = strips(lawn, pond(water, no_spread_ft=strip_ft))
    wide = strips(lawn, pond(water, no_spread_ft=strip_ft + 5))
    assert 0 <= narrow.area_sqft <= wide.area_sqft + 1e-6
    assert wide.area_sqft <= zone_area_sqft(lawn)


def test_geometry_is_loaded_only_where_a_strip_is_near() -> None:
    code = (
        "import sys; from tests.test_plan_strips import *; "
        "strips(zone(outline_ft=LAWN), pond(rectangle_ft((0, -90.0), 9, 9), no_spread_ft=5)); "
        "strips(zone(outline_ft=LAWN), pond(LAWN)); "
        "assert 'shapely' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
