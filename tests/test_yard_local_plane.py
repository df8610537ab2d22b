"""The sketch's plane on earth, against PROJ: its geodesics and its transverse Mercator."""

import importlib
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.yard.local_plane import FOOT_M, LocalPlane

pyproj: Any = importlib.import_module("pyproj")

PLACES = [(-60.0, 170.0), (-33.9, 151.2), (0.0, 0.0), (40.0, -105.27), (52.5, 179.9999), (70.0, 25)]
LATITUDES, LONGITUDES = st.floats(-60, 70), st.floats(-180, 180)
FEET = st.floats(-5000, 5000)


PLACED = pytest.mark.parametrize(("lat", "lon"), PLACES)


@PLACED
@pytest.mark.parametrize("bearing", [0, 37, 90, 145, 180, 270])
@pytest.mark.parametrize("length_m", [1.0, 100.0, 1500.0])
def test_a_length_and_its_bearing_are_the_geodesics(
    lat: float, lon: float, bearing: float, length_m: float
) -> None:
    """Karney's geodesic on WGS 84: within 1 mm in 100 m, as promised, and far better."""
    far_lon, far_lat, _ = pyproj.Geod(ellps="WGS84").fwd(lon, lat, bearing, length_m)
    x, y = LocalPlane(lat, lon).to_ft(far_lon, far_lat)
    assert math.hypot(x, y) * FOOT_M == pytest.approx(length_m, abs=1e-5 * length_m / 100 + 1e-7)
    off_deg = (math.degrees(math.atan2(x, y)) - bearing + 180) % 360 - 180
    assert off_deg == pytest.approx(0, abs=1e-4)


@given(lat=LATITUDES, lon=LONGITUDES, x=FEET, y=FEET)
def test_the_plane_is_projs_within_a_millimetre_in_a_hundred_metres(
    lat: float, lon: float, x: float, y: float
) -> None:
    there = LocalPlane(lat, lon).to_degrees((x, y))
    plane = pyproj.Proj(proj="tmerc", lat_0=lat, lon_0=lon, ellps="WGS84")
    east, north = plane(*there)
    off = math.hypot(east - x * FOOT_M, north - y * FOOT_M)
    assert off <= 1e-5 * math.hypot(x, y) * FOOT_M + 1e-6


@given(lat=LATITUDES, lon=LONGITUDES, x=FEET, y=FEET, north=st.floats(-360, 360))
def test_there_and_back_is_where_it_was(
    lat: float, lon: float, x: float, y: float, north: float
) -> None:
    plane = LocalPlane(lat, lon, north)
    back = plane.to_ft(*plane.to_degrees((x, y)))
    assert back == pytest.approx((x, y), abs=1e-5)


@PLACED
def test_two_points_off_the_middle_are_as_far_apart_as_a_tape_says(lat: float, lon: float) -> None:
    plane = LocalPlane(lat, lon, 25)
    a, b = (820.0, -410.0), (1140.0, -350.0)
    _, _, metres = pyproj.Geod(ellps="WGS84").inv(*plane.to_degrees(a), *plane.to_degrees(b))
    assert math.dist(a, b) * FOOT_M == pytest.approx(metres, abs=1e-5 * metres)


@pytest.mark.parametrize(
    ("north", "at"), [(0, (0, 1)), (90, (1, 0)), (-90, (-1, 0)), (180, (0, -1))]
)
def test_north_lies_as_the_page_says(north: float, at: tuple[float, float]) -> None:
    lon, lat = -105.0, 40.0
    x, y = LocalPlane(lat, lon, north).to_ft(lon, lat + 0.001)
    assert (x, y) == pytest.approx((at[0] * math.hypot(x, y), at[1] * math.hypot(x, y)), abs=1e-6)


def test_a_degree_of_latitude_at_forty_degrees_is_as_the_tables_say() -> None:
    """111.035 km: the National Geospatial-Intelligence Agency's table (from memory)."""
    x, y = LocalPlane(40, -105).to_ft(-105, 40.0005)
    south = LocalPlane(40, -105).to_ft(-105, 39.9995)[1]
    assert x == pytest.approx(0, abs=1e-6)
    assert (y - south) * FOOT_M * 1000 == pytest.approx(111_035, abs=1)


def test_what_lies_beyond_the_horizon_is_far_and_not_folded_back() -> None:
    plane = LocalPlane(40, -105)
    assert math.hypot(*plane.to_ft(75, -40)) > 2e7
    assert plane.far_ft(75, -40) * FOOT_M == pytest.approx(2 * 6_369_345, rel=2e-3)
    with pytest.raises(ValueError, match="off the earth"):
        plane.to_degrees((3e7, 0))
