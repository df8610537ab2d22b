"""Placing shapes: turned, mirrored, lined up, copied, in order; what stands on them goes along."""

import math
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import rectangle_ft, zone_area_sqft
from lawnbook.yard.notebook import Key, apply, put
from lawnbook.yard.records import Feature, Zone
from lawnbook.yard.shape_edits import (
    Edge,
    Order,
    aligned,
    duplicated,
    locked,
    mirrored,
    moved,
    reordered,
    spread_out,
    turned,
)
from tests.shape_yards import COORDINATES, bumpy, fed_yard, kept, radii, side_by_side

A, B, F = ("zones", "a"), ("zones", "b"), ("features", "f")
SLOW = settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@SLOW
@given(radii(4, 30), COORDINATES, COORDINATES, st.floats(-720, 720))
def test_turned_and_mirrored_heads_wet_what_they_wetted(
    tmp_path: Path, one: tuple[int, ...], a: Point, b: Point, deg: float
) -> None:
    """The middle of the arc goes where the turn or the mirror takes a point of the plane."""
    notebook = fed_yard(bumpy(0, 0, one), rectangle_ft((40, 0), 30, 20), [])
    if math.dist(a, b) < 0.1:
        return
    cosine, sine = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length

    def turn(p: Point) -> Point:
        x, y = p[0] - a[0], p[1] - a[1]
        return (a[0] + x * cosine + y * sine, a[1] - x * sine + y * cosine)

    def mirror(p: Point) -> Point:
        x, y = p[0] - a[0], p[1] - a[1]
        return (
            a[0] + (ux * ux - uy * uy) * x + 2 * ux * uy * y,
            a[1] + 2 * ux * uy * x + (uy * uy - ux * ux) * y,
        )

    both = ((turned(notebook, (A,), deg, a), turn), (mirrored(notebook, (A,), a, b), mirror))
    for change, place in both:
        after = kept(tmp_path, notebook, change)
        head, was = after.heads["ha"], notebook.heads["ha"]
        assert head.at_ft == pytest.approx(place(was.at_ft), abs=0.01)
        assert head.sweep_deg == was.sweep_deg
        aim = _aim(head.at_ft, head.start_deg + 45)
        assert aim == pytest.approx(place(_aim(was.at_ft, was.start_deg + 45)), abs=0.02)
        for old, new in zip(
            notebook.catch_tests["ca"].at_ft, after.catch_tests["ca"].at_ft, strict=True
        ):
            assert new == pytest.approx(place(old), abs=0.01)
        spot = after.spots["sa"]
        assert spot.zone == "a"
        assert spot.at_ft == pytest.approx(place((3.0, 4.0)), abs=0.01)
        assert after.heads["hb"] == notebook.heads["hb"]
        area = zone_area_sqft(notebook.zones["a"])
        assert zone_area_sqft(after.zones["a"]) == pytest.approx(area, abs=0.02 * 200)


def _aim(at: Point, bearing_deg: float) -> Point:
    angle = math.radians(bearing_deg)
    return (at[0] + math.sin(angle), at[1] + math.cos(angle))


def test_a_quarter_turn_four_times_changes_nothing() -> None:
    notebook = after = side_by_side()
    for _ in range(4):
        after = apply(after, turned(after, (A, B, F), 90.0, (7.0, 3.0)))
    assert after == notebook


@pytest.mark.parametrize(
    ("edge", "corner"),
    [
        ("left", (0, 5)), ("right", (30, 5)), ("top", (5, 10)), ("bottom", (5, 0)),
        ("centre", (15, 5)), ("middle", (5, 5)),
    ],
)  # fmt: skip
def test_the_first_chosen_is_lined_up_with(edge: Edge, corner: Point) -> None:
    notebook = side_by_side()
    after = apply(notebook, aligned(notebook, (A, F), edge))
    assert after.zones == notebook.zones
    assert after.features["f"].outline_ft[0] == corner


def test_gaps_are_made_even_and_the_outermost_stay() -> None:
    notebook = side_by_side()
    shed = Feature(id="s", kind="other", outline_ft=rectangle_ft((90, 3), 10, 4))
    notebook = apply(notebook, put(notebook, "features", shed))
    keys: tuple[Key, ...] = (("features", "s"), B, A)
    after = apply(notebook, spread_out(notebook, keys, "across"))
    assert after.zones["b"].outline_ft[0] == (50.0, 0.0)
    assert after.heads["hb"].at_ft == (52.0, 2.0)
    assert after.features == notebook.features


@SLOW
@given(radii(), COORDINATES)
def test_a_copy_has_settings_and_heads_and_no_past(
    tmp_path: Path, one: tuple[int, ...], by: Point
) -> None:
    notebook = fed_yard(bumpy(0, 0, one), rectangle_ft((60, 0), 30, 20), [])
    on = apply(notebook, locked(notebook, (A,), True))
    change, (zone, house) = duplicated(on, (A, F), by)
    after = kept(tmp_path, on, change)
    copy = after.zones[zone[1]]
    assert (copy.name, copy.grass, copy.locked) == ("Front 2", "cool", False)
    assert [each.zone for each in after.heads.values()] == ["a", "b", copy.id]
    assert house[1] in after.features
    for table in ("spots", "waterings", "feedings", "catch_tests", "soil_tests"):
        assert after.table(table) == notebook.table(table)


@pytest.mark.parametrize("to", ["first", "last", "up", "down"])
@pytest.mark.parametrize("at", range(4))
def test_the_order_is_that_of_a_list(to: Order, at: int) -> None:
    notebook = side_by_side()
    for name in "cd":
        zone = Zone(id=name, name=name, outline_ft=rectangle_ft((0, 90), 9, 9))
        notebook = apply(notebook, put(notebook, "zones", zone))
    ids = list("abcd")
    name = ids.pop(at)
    place = {"first": 0, "last": 3, "up": max(0, at - 1), "down": min(3, at + 1)}[to]
    ids.insert(place, name)
    after = apply(notebook, reordered(notebook, ("zones", name), to))
    assert list(after.zones) == ids


def test_a_locked_head_stays_where_it_is() -> None:
    notebook = side_by_side()
    notebook = apply(notebook, locked(notebook, (("heads", "ha"),), True))
    after = apply(notebook, moved(notebook, (A,), (1.0, 2.0)))
    assert after.heads["ha"].at_ft == (2.0, 2.0)
    assert after.spots["sa"].at_ft == (4.0, 6.0)


def test_a_spot_moved_by_itself_goes_to_the_zone_it_lies_in() -> None:
    notebook = side_by_side()
    after = apply(notebook, moved(notebook, (("spots", "sa"),), (40.0, 0.0)))
    assert after.spots["sa"].zone == "b"
    together = apply(notebook, moved(notebook, (A, ("heads", "ha"), ("spots", "sa")), (1.0, 0.0)))
    assert together.heads["ha"].at_ft == (3.0, 2.0)
    assert together.spots["sa"].zone == "a"
