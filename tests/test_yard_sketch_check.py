"""The check of the sketch: it finds what is there, and its mends leave nothing of it."""

from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import rectangle_ft, zone_area_sqft
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put, with_tables
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, FeatureKind, Feeding, Head, Spot, Zone
from lawnbook.yard.shape_edits import locked
from lawnbook.yard.sketch_check import (
    Fault,
    check_sketch,
    ground_sums,
    mend_all,
    mend_change,
)
from tests.shape_yards import COORDINATES, bumpy, kept, past_feedings, radii, side_by_side

shapely: Any = import_module("shapely")
SLOW = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def zones(*outlines: Outline) -> Notebook:
    """Zones a, b, c, ... called A, B, C."""
    rows = [
        Zone(id=name, name=name.upper(), outline_ft=each, rank=rank)
        for rank, (name, each) in enumerate(zip("abcdefgh", outlines, strict=False))
    ]
    return with_tables(new_notebook("Yard"), {"zones": rows})


def only(notebook: Notebook) -> Fault:
    (fault,) = check_sketch(notebook)
    return fault


def square(x: float, y: float = 0.0, side: float = 20.0) -> Outline:
    return rectangle_ft((x, y), side, side)


def test_a_sound_sketch_has_no_fault() -> None:
    assert check_sketch(new_notebook("Blank")) == ()
    assert check_sketch(zones(square(0), square(20), square(50))) == ()


def test_an_overlap_may_be_cut_from_either() -> None:
    notebook = zones(square(0), square(15))
    fault = only(notebook)
    assert fault.kind == "overlap"
    assert fault.area_sqft == pytest.approx(100)
    assert fault.sentence == "A and B share 100 sq ft, counted in both."
    later = apply(notebook, mend_change(notebook, fault))
    assert [zone_area_sqft(each) for each in later.zones.values()] == pytest.approx([400, 300])
    other = apply(notebook, mend_change(notebook, fault, fault.other_mend))
    assert [zone_area_sqft(each) for each in other.zones.values()] == pytest.approx([300, 400])
    assert check_sketch(later) == check_sketch(other) == ()


def test_an_island_is_cut_out_of_what_it_lies_on() -> None:
    notebook = zones(square(0), square(5, 5, 10))
    fault = only(notebook)
    assert (fault.kind, fault.other_mend) == ("island", None)
    after = apply(notebook, mend_change(notebook, fault))
    assert len(after.zones["a"].holes_ft) == 1
    assert check_sketch(after) == ()


def test_one_ground_drawn_twice_is_merged() -> None:
    notebook = zones(square(0), square(0))
    fault = only(notebook)
    assert fault.mend is not None
    assert not fault.mend.safe
    assert list(apply(notebook, mend_change(notebook, fault)).zones) == ["a"]


@SLOW
@given(radii(), radii(), radii(), COORDINATES, COORDINATES)
def test_overlaps_are_those_of_shapely_and_go_with_their_mend(
    one: tuple[int, ...], two: tuple[int, ...], three: tuple[int, ...], at: Point, to: Point
) -> None:
    """Found against shapely's own intersections, which know nothing of the sketch's grid."""
    notebook = zones(bumpy(0, 0, one), bumpy(*at, two), bumpy(*to, three))
    shapes = {key: shapely.Polygon(each.outline_ft) for key, each in notebook.zones.items()}
    found = {
        (fault.keys[0][1], fault.keys[1][1]): fault
        for fault in check_sketch(notebook)
        if fault.kind in {"overlap", "island"}
    }
    for pair in (("a", "b"), ("a", "c"), ("b", "c")):
        common = shapes[pair[0]].intersection(shapes[pair[1]])
        area = found[pair].area_sqft if pair in found else 0.0
        slack = 0.02 * common.length + 0.5
        assert area == pytest.approx(common.area, abs=slack)
    for pair, fault in found.items():
        if fault.mend is None:
            continue
        after = apply(notebook, mend_change(notebook, fault))
        again = {
            each.keys[:2] for each in check_sketch(after) if each.kind in {"overlap", "island"}
        }
        assert fault.keys[:2] not in again, pair


@pytest.mark.parametrize("width_ft", [0.05, 0.2, 0.5])
def test_a_bare_sliver_is_joined_to_its_longest_neighbour(width_ft: float) -> None:
    notebook = zones(square(0), square(20 + width_ft, -5, 30))
    fault = only(notebook)
    assert fault.kind == "sliver"
    assert fault.area_sqft == pytest.approx(20 * width_ft, abs=0.1)
    after = apply(notebook, mend_change(notebook, fault))
    total = sum(zone_area_sqft(each) for each in after.zones.values())
    assert total == pytest.approx(400 + 900 + 20 * width_ft, abs=0.3)
    assert check_sketch(after) == ()


@SLOW
@given(st.lists(st.tuples(st.integers(-8, 8), st.integers(-12, 12)), min_size=3, max_size=6))
def test_a_crooked_sliver_goes_with_its_mend(bends: list[tuple[int, int]]) -> None:
    """Two zones along one crooked line, drawn a few inches apart."""
    line = [(30 + dx / 1.7, 10.0 * i) for i, (dx, _) in enumerate(bends)]
    far = [(x + 0.12 + abs(dy) / 40, y) for (x, y), (_, dy) in zip(line, bends, strict=True)]
    top = line[-1][1]
    west = ((0.0, 0.0), *((round(x, 2), y) for x, y in line), (0.0, top))
    east = ((70.0, top), *((round(x, 2), y) for x, y in reversed(far)), (70.0, 0.0))
    notebook = zones(west, east)
    for fault in check_sketch(notebook):
        if fault.kind == "sliver":
            after = apply(notebook, mend_change(notebook, fault))
            left = [each for each in check_sketch(after) if each.kind in {"sliver", "overlap"}]
            rings = shapely.Polygon(fault.rings[0])
            assert all(not shapely.Polygon(each.rings[0]).intersects(rings) for each in left)


def test_a_sliver_under_paving_is_not_bare() -> None:
    notebook = zones(square(0), square(20.5))
    path = Feature(id="f", kind="paving", outline_ft=rectangle_ft((20, -2), 0.5, 24))
    assert check_sketch(apply(notebook, put(notebook, "features", path))) == ()


@pytest.mark.parametrize(
    ("kind", "found"),
    [
        ("house", "covered"), ("bed", "covered"), ("paving", "covered"), ("pool", "covered"),
        ("water", "covered"), ("tree", "crown"), ("pet patch", None), ("buried line", None),
        ("fence", None),
    ],
)  # fmt: skip
def test_what_lies_on_turf(kind: FeatureKind, found: str | None) -> None:
    notebook = zones(square(0))
    feature = Feature(id="f", kind=kind, outline_ft=square(4, 4, 5))
    notebook = apply(notebook, put(notebook, "features", feature))
    faults = check_sketch(notebook)
    assert [each.kind for each in faults] == ([found] if found else [])
    for fault in faults:
        assert fault.area_sqft == pytest.approx(25)
        assert (fault.mend is None) == fault.only_told == (found == "crown")
        if fault.mend is not None:
            after = apply(notebook, mend_change(notebook, fault))
            assert check_sketch(after) == ()
            assert zone_area_sqft(after.zones["a"]) == pytest.approx(375)


def test_corners_no_eye_sees_are_taken_out() -> None:
    ring = ((0.0, 0.0), (20.0, 0.0), (20.04, 0.03), (20.0, 20.0), (10.0, 20.0), (10.1, 35.0),
            (9.9, 20.0), (0.0, 20.0))  # fmt: skip
    notebook = zones(ring)
    fault = only(notebook)
    assert fault.kind == "corners"
    after = apply(notebook, mend_change(notebook, fault))
    assert check_sketch(after) == ()
    assert zone_area_sqft(after.zones["a"]) == pytest.approx(400, abs=0.5)


def test_a_corner_that_stands_twice_is_taken_out_once() -> None:
    notebook = zones((*square(0)[:2], *square(0)[1:]))
    fault = only(notebook)
    assert fault.kind == "corners"
    assert "has 1 corner that" in fault.sentence
    assert apply(notebook, mend_change(notebook, fault)).zones["a"].outline_ft == square(0)


def test_a_hole_along_the_edge_becomes_a_bite() -> None:
    """Such a hole passes the rules of a record, for it lies inside."""
    notebook = zones(square(0))
    holed = replace(notebook.zones["a"], holes_ft=(square(0, 5, 4),))
    notebook = apply(notebook, put(notebook, "zones", holed))
    fault = only(notebook)
    assert fault.kind == "hole"
    after = apply(notebook, mend_change(notebook, fault))
    assert after.zones["a"].holes_ft == ()
    assert zone_area_sqft(after.zones["a"]) == pytest.approx(384)
    assert check_sketch(after) == ()


def test_a_very_small_zone_is_offered_to_its_neighbour() -> None:
    notebook = zones(square(0), square(20, 0, 3))
    fault = only(notebook)
    assert fault.sentence == "B is only 9.0 sq ft: is it a zone of its own?"
    after = apply(notebook, mend_change(notebook, fault))
    assert zone_area_sqft(after.zones["a"]) == pytest.approx(409)
    assert list(after.zones) == ["a"]


def test_heads_and_spots_astray_are_given_to_where_they_are() -> None:
    notebook = zones(square(0), square(60))
    head = Head(id="h", zone="a", at_ft=(70.0, 10.0), radius_ft=8.0)
    spot = Spot(id="s", name="Elm", zone="a", at_ft=(65.0, 5.0))
    notebook = apply(notebook, {**put(notebook, "heads", head), **put(notebook, "spots", spot)})
    faults = check_sketch(notebook)
    assert sorted(each.kind for each in faults) == ["head", "spot"]
    assert mend_all(notebook) == ({}, 0)
    for fault in faults:
        notebook = apply(notebook, mend_change(notebook, fault))
    assert (notebook.heads["h"].zone, notebook.spots["s"].zone) == ("b", "b")
    assert check_sketch(notebook) == ()


@SLOW
@example(
    [
        ((8, 8, 8, 8), (0.0, 0.0)),
        ((8, 8, 11, 14, 8, 8), (-5.6875, -2.78125)),
        ((8, 8, 8, 8), (-15.0, 0.0)),
    ],
    [(-17.3125, 0.0)],
)
@given(
    st.lists(st.tuples(radii(), COORDINATES), min_size=2, max_size=5),
    st.lists(COORDINATES, max_size=3),
)
def test_mending_all_is_one_change_and_leaves_nothing_safe_to_mend(
    tmp_path: Path, drawn: list[tuple[tuple[int, ...], Point]], beds: list[Point]
) -> None:
    notebook = zones(*(bumpy(*at, each) for each, at in drawn))
    features = [
        Feature(id=f"f{i}", kind="bed", outline_ft=square(round(x, 2), round(y, 2), 9.0))
        for i, (x, y) in enumerate(beds)
    ]
    notebook = apply(notebook, put(notebook, "features", *features))
    change, count = mend_all(notebook)
    after = kept(tmp_path, notebook, change)
    assert bool(count) == bool(change)
    left = [each for each in check_sketch(after) if each.mend is not None and each.mend.safe]
    assert [each for each in left if each.kind != "sliver"] == []


@SLOW
@given(past_feedings())
def test_mending_all_keeps_the_past_as_it_was_fed(tmp_path: Path, fed: list[Feeding]) -> None:
    """A bed across the whole zone cuts it in two after a house took a bite: no rate changes."""
    notebook = side_by_side(fed)
    bed = Feature(id="bed", kind="bed", outline_ft=rectangle_ft((22, -1), 3, 30))
    notebook = apply(notebook, put(notebook, "features", bed))
    change, count = mend_all(notebook)
    after = kept(tmp_path, notebook, change)
    assert (count, len(after.zones)) == (2, 3)
    for feeding in notebook.feedings.values():
        now = after.feedings[feeding.id]
        for zone in now.pounds.keys() - {"b"}:
            was = feeding.pounds["a"] / feeding.treated_area_sqft.get("a", 800.0)
            assert now.pounds[zone] / now.treated_area_sqft[zone] == pytest.approx(was)


def test_what_is_locked_is_left_alone() -> None:
    notebook = zones(square(0), square(15))
    one = apply(notebook, locked(notebook, (("zones", "b"),), True))
    fault = only(one)
    assert fault.mend is not None
    assert fault.mend.key == ("zones", "a")
    both = apply(one, locked(one, (("zones", "a"),), True))
    assert mend_all(both) == ({}, 0)
    with pytest.raises(OwnerError, match="is locked; unlock it first"):
        mend_change(both, only(both))


def test_a_fault_of_another_day_is_refused() -> None:
    fault = only(zones(square(0), square(15)))
    with pytest.raises(OwnerError, match="not on the sketch any more"):
        mend_change(new_notebook("Blank"), fault)


def test_the_largest_comes_first_and_what_is_only_told_last() -> None:
    notebook = zones(square(0), square(19), square(30), square(80))
    tree = Feature(id="t", kind="tree", outline_ft=square(81, 1, 18))
    faults = check_sketch(apply(notebook, put(notebook, "features", tree)))
    assert [round(each.area_sqft) for each in faults] == [180, 20, 324]


def test_the_sums_are_those_of_the_plane() -> None:
    notebook = zones(square(0), square(15))
    holed = replace(notebook.zones["a"], holes_ft=(square(2, 2, 5),))
    pond = Feature(id="p", kind="pool", outline_ft=square(2, 2, 2))
    notebook = apply(notebook, {**put(notebook, "zones", holed), **put(notebook, "features", pond)})
    sums = ground_sums(notebook)
    assert sums.zones_sqft == pytest.approx(775)
    assert sums.covered_sqft == pytest.approx(675)
    assert sums.bare_sqft == pytest.approx(21)
