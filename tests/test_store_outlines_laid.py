"""Outlines of a map lie on the sketch where they belong, and go out as they came in."""

import importlib
import json
import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.store.map_shapes import MapOutlines, MapShape
from lawnbook.store.outlines_laid import lay_out
from lawnbook.store.outlines_reading import outlines_of
from lawnbook.store.outlines_taken import (
    LEAVE,
    NEW_ZONE,
    Becomes,
    choices,
    taken_in,
    told_of,
    usual,
)
from lawnbook.store.outlines_written import geojson_of
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, centroid_ft, rectangle_ft
from lawnbook.yard.local_plane import FOOT_M, LocalPlane
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Head, Spot, Zone

LAT, LON = 40.015, -105.27
PLANE = LocalPlane(LAT, LON)


def _degrees(outline: Outline, plane: LocalPlane = PLANE) -> Outline:
    return tuple(plane.to_degrees(each) for each in outline)


def _map(*outlines: Outline, name: str = "", holes: tuple[Outline, ...] = ()) -> MapOutlines:
    inside = tuple(_degrees(each) for each in holes)
    return MapOutlines(tuple(MapShape(name, _degrees(each), inside) for each in outlines))


def _book(*zones: Zone, **facts: Any) -> Notebook:
    held = new_notebook("Home")
    held = apply(held, put(held, "zones", *zones))
    return replace(held, yard=replace(held.yard, **facts))


def _zone(outline: Outline, name: str = "Front", **facts: Any) -> Zone:
    return Zone(id=name.lower(), name=name, outline_ft=outline, **facts)


SQUARE = rectangle_ft((0, 0), 60, 40)
PLACED = {"origin_latitude_deg": LAT, "origin_longitude_deg": LON}


def test_on_an_empty_page_the_middle_is_zero_north_is_up_and_the_yard_learns_its_place() -> None:
    laid = lay_out(_map(SQUARE), _book(north_deg=25.0))
    (shape,) = laid.shapes
    assert centroid_ft(shape.ground.outline) == pytest.approx((0, 0), abs=0.01)
    assert shape.ground.area_sqft == pytest.approx(2400, abs=1)
    assert laid.yard.north_deg == 0
    assert "North is up the page from now on." in laid.told
    assert laid.yard.latitude_deg == pytest.approx(LAT, abs=1e-3)
    assert laid.yard.longitude_deg == pytest.approx(LON, abs=1e-3)
    assert any("latitude becomes 40.015" in each for each in laid.told)


def test_an_area_is_the_geodesic_one() -> None:
    """Karney's polygon area on the ellipsoid, by PROJ's Geod."""
    geod = importlib.import_module("pyproj").Geod(ellps="WGS84")
    ring = ((LON, LAT), (LON + 0.001, LAT + 0.0001), (LON + 0.0008, LAT + 0.0009))
    square_metres, _ = geod.polygon_area_perimeter(*zip(*ring, strict=True))
    laid = lay_out(MapOutlines((MapShape("", ring),)), _book())
    assert laid.shapes[0].ground.area_sqft == pytest.approx(
        abs(square_metres) / FOOT_M**2, rel=1e-5
    )


@pytest.mark.parametrize("north", [0.0, 30.0, -75.0])
def test_with_a_known_place_outlines_lie_exactly_there(north: float) -> None:
    outline = rectangle_ft((100, -250), 40, 20)
    plane = LocalPlane(LAT, LON, north)
    read = MapOutlines((MapShape("Back", _degrees(outline, plane)),))
    book = _book(_zone(SQUARE), latitude_deg=LAT, north_deg=north, **PLACED)
    laid = lay_out(read, book)
    assert laid.shapes[0].ground.outline == outline
    assert laid.yard == book.yard
    assert laid.told == ()


def test_beside_a_drawing_of_unknown_place_they_lie_to_the_right() -> None:
    laid = lay_out(_map(SQUARE, name="Back"), _book(_zone(SQUARE)))
    assert min(x for x, _ in laid.shapes[0].ground.outline) == pytest.approx(80, abs=0.02)
    assert any("lie to the right" in each for each in laid.told)


def test_near_the_yards_own_place_the_drawings_middle_is_taken_for_it() -> None:
    book = _book(_zone(SQUARE), latitude_deg=LAT, longitude_deg=LON)
    laid = lay_out(_map(rectangle_ft((100, 100), 10, 10), name="Back"), book)
    assert laid.shapes[0].ground.outline[0] == pytest.approx((130, 120), abs=0.02)


def test_a_shape_of_a_zones_name_lies_on_it() -> None:
    zone = _zone(rectangle_ft((500, 500), 60, 40))
    laid = lay_out(_map(SQUARE, name="front"), _book(zone))
    assert centroid_ft(laid.shapes[0].ground.outline) == pytest.approx((530, 520), abs=0.02)
    assert usual(laid.shapes[0], _book(zone)) == Becomes("outline", "front")


def _at(lon: float, lat: float) -> MapOutlines:
    return MapOutlines((MapShape("", ((lon, lat), (lon + 1e-4, lat), (lon, lat + 1e-4))),))


@pytest.mark.parametrize(
    ("read", "facts", "words"),
    [
        (_at(40.015, 33.7), {"latitude_deg": 33.7, "longitude_deg": 40.0}, ""),
        (_at(33.7, 40.015), {"latitude_deg": 33.7, "longitude_deg": 40.0}, "longitude first"),
        (_at(33.7, 60.0), {"latitude_deg": 33.7}, "longitude first"),
        (_at(2.35, 48.85), {"latitude_deg": LAT, "longitude_deg": LON}, "miles from this yard"),
        (_map(rectangle_ft((0, 0), 12_000, 10)), {}, "span 2.3 miles"),
        (_map(rectangle_ft((7000, 0), 10, 10)), PLACED, "more than 5,000 ft from the zero point"),
    ],
)
def test_what_cannot_lie_on_the_sketch_is_refused(
    read: MapOutlines, facts: dict[str, float], words: str
) -> None:
    if not words:
        assert lay_out(read, _book(**facts)).shapes
        return
    with pytest.raises(OwnerError, match=words):
        lay_out(read, _book(**facts))


def test_across_the_date_line_a_yard_is_one_piece() -> None:
    outline = _degrees(rectangle_ft((-50, -50), 100, 100), LocalPlane(-17, 180))
    assert {lon < 0 for lon, _ in outline} == {True, False}
    laid = lay_out(MapOutlines((MapShape("", outline),)), _book())
    assert laid.shapes[0].ground.area_sqft == pytest.approx(10_000, abs=3)


def test_a_crossing_ring_is_mended_where_one_piece_remains() -> None:
    spike: Outline = ((0, 0), (60, 0), (60, 40), (60, 55), (60, 40), (0, 40))
    laid = lay_out(_map(spike), _book(**PLACED))
    assert laid.shapes[0].ground.area_sqft == pytest.approx(2400, abs=1)
    assert any("was mended" in each for each in laid.told)
    bow: Outline = ((0, 0), (60, 40), (60, 0), (0, 40))
    with pytest.raises(OwnerError, match="falls into 2 pieces"):
        lay_out(_map(bow), _book())


def test_a_scribble_is_left_out_and_not_mended_for_minutes() -> None:
    corners = ((i * 7919 % 300, i * 104_729 % 293) for i in range(1500))
    scribble = tuple((float(x), float(y)) for x, y in corners)
    with pytest.raises(OwnerError, match="again and again"):
        lay_out(_map(scribble), _book())


def test_a_very_fine_outline_is_simplified_within_half_an_inch() -> None:
    turn = math.tau / 4000
    fine = tuple((80 * math.cos(turn * i), 80 * math.sin(turn * i)) for i in range(4000))
    laid = lay_out(_map(fine, name="Round"), _book(**PLACED))
    kept = laid.shapes[0].ground.outline
    assert 60 < len(kept) < 400
    assert area_sqft(kept) == pytest.approx(math.pi * 80**2, rel=1e-3)
    assert any("had 4,000 corners and keeps" in each for each in laid.told)


def test_what_becomes_of_shapes_is_one_change() -> None:
    front = _zone(SQUARE)
    book = _book(front, **PLACED, latitude_deg=LAT)
    read = MapOutlines(
        (
            *_map(rectangle_ft((100, 0), 30, 30), name="Front").shapes,
            *_map(rectangle_ft((10, 10), 5, 5)).shapes,
            *_map(rectangle_ft((200, 0), 30, 30), name="Garage").shapes,
            *_map(rectangle_ft((300, 0), 30, 30)).shapes,
        )
    )
    laid = lay_out(read, book)
    assert usual(laid.shapes[2], book) == Becomes("feature", "house")
    offered = [each for _, each in choices(laid.shapes[1], book)]
    assert Becomes("hole", "front") in offered
    assert Becomes("hole", "front") not in [each for _, each in choices(laid.shapes[0], book)]
    becomes = [NEW_ZONE, Becomes("hole", "front"), usual(laid.shapes[2], book), LEAVE]
    change = taken_in(book, laid, becomes)
    after = apply(book, change)
    assert [each.name for each in after.zones.values()] == ["Front", "Front 2"]
    assert after.zones["front"].holes_ft
    assert len(after.features) == 1
    assert told_of(change) == (
        "1 new zone and 1 new feature taken in; Front has 2,375 sq ft, 2,400 before."
    )
    assert taken_in(book, laid, [LEAVE] * 4) == {}


def test_a_new_outline_leaves_heads_and_settings_and_locked_ground_is_refused() -> None:
    front = _zone(SQUARE, grass="warm")
    book = _book(front, **PLACED)
    laid = lay_out(_map(rectangle_ft((5, 5), 30, 30), rectangle_ft((0, 0), 9, 9)), book)
    outline = Becomes("outline", "front")
    after = apply(book, taken_in(book, laid, [outline, LEAVE])).zones["front"]
    assert after == replace(front, outline_ft=laid.shapes[0].ground.outline)
    with pytest.raises(OwnerError, match="cannot both be the outline of Front"):
        taken_in(book, laid, [outline, outline])
    locked = _book(replace(front, locked=True), **PLACED)
    with pytest.raises(OwnerError, match="Front is locked"):
        taken_in(locked, laid, [outline, LEAVE])
    all_of = lay_out(_map(rectangle_ft((-5, -5), 90, 90)), book)
    with pytest.raises(OwnerError, match="leave nothing of Front"):
        taken_in(book, all_of, [Becomes("hole", "front")])


CORNERS = st.tuples(st.integers(-200_000, 200_000), st.integers(-200_000, 200_000))


@settings(max_examples=60)
@given(
    at=CORNERS,
    size=st.tuples(st.integers(300, 90_000), st.integers(300, 90_000)),
    lat=st.floats(-60, 70),
    lon=st.floats(-180, 180),
    north=st.floats(-360, 360),
)
def test_what_goes_out_comes_in_the_same(
    at: tuple[int, int], size: tuple[int, int], lat: float, lon: float, north: float
) -> None:
    (x, y), (wide, high) = (at[0] / 100, at[1] / 100), (size[0] / 100, size[1] / 100)
    outline = rectangle_ft((x, y), wide, high)
    hole = rectangle_ft((x + wide / 4, y + high / 4), wide / 3, high / 3)
    place = {"origin_latitude_deg": lat, "origin_longitude_deg": lon, "latitude_deg": lat}
    book = _book(_zone(outline, holes_ft=(hole,)), north_deg=north, **place)
    laid = lay_out(outlines_of(geojson_of(book).text.encode()), book)
    (shape,) = laid.shapes
    assert usual(shape, book) == Becomes("outline", "front")
    # The rings may be turned round; a hole is written the other way round than its outline.
    for before, after in zip((outline, hole), shape.ground.rings, strict=True):
        for corner in before:
            assert min(math.dist(corner, each) for each in after) <= 0.015
        assert len(before) == len(after)


def _drawn() -> Notebook:
    book = _book(_zone(SQUARE[::-1]), latitude_deg=LAT, longitude_deg=LON, north_deg=90.0)
    bed = Feature(id="b", kind="bed", outline_ft=rectangle_ft((80, 0), 10, 10))
    head = Head(id="h", zone="front", at_ft=(0, 0), start_deg=90, sweep_deg=90)
    spots = (Spot(id="s", name="gate", at_ft=(10, 10)), Spot(id="t", name="somewhere"))
    for table, rows in (("features", (bed,)), ("heads", (head,)), ("spots", spots)):
        book = apply(book, put(book, table, *rows))
    return book


def test_what_is_written_is_geojson_as_the_standard_has_it() -> None:
    """RFC 7946: closed rings, the outline counter-clockwise, longitude first."""
    shapely = importlib.import_module("shapely")
    written = geojson_of(_drawn())
    assert "taken for the yard's latitude and longitude" in written.told
    held = json.loads(written.text)
    assert [each["properties"]["table"] for each in held["features"]] == [
        "zones",
        "features",
        "heads",
        "spots",
    ]
    for each in held["features"][:2]:
        shape = shapely.from_geojson(json.dumps(each["geometry"]))
        assert shape.is_valid
        assert shape.exterior.is_ccw
        assert shape.exterior.is_closed
    lon, lat = held["features"][3]["geometry"]["coordinates"]
    assert (lon, lat) == pytest.approx((LON, LAT), abs=1e-3)
    assert held["features"][2]["properties"]["start_deg"] == 0
    with pytest.raises(OwnerError, match="enter the yard's latitude and longitude"):
        geojson_of(_book(_zone(SQUARE)))
    with pytest.raises(OwnerError, match="nothing is drawn yet"):
        geojson_of(_book())
