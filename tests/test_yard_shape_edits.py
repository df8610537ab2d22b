"""Merging, splitting, cutting and placing shapes: the ground adds up and the past stays true."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.nitrogen import n_lb_per_1000sqft
from lawnbook.plan.make import make_plan
from lawnbook.yard.edits import with_areas_kept
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import area_sqft, contains, distance_to_edge_ft, zone_area_sqft
from lawnbook.yard.ground import GRID_FT
from lawnbook.yard.notebook import Change, Notebook, apply, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feeding, Head, Spot
from lawnbook.yard.shape_edits import (
    Becomes,
    aligned,
    cut_of,
    duplicated,
    followed_by,
    locked,
    merged,
    mirrored,
    moved,
    reordered,
    split,
    spread_out,
    strip_made,
    subtracted,
    told,
    turned,
)
from lawnbook.yard.wetting import share_wetted
from lawnbook.yard.zone_edits import ON_EDGE_FT
from tests.conftest import TODAY
from tests.shape_yards import COORDINATES, bumpy, fed_yard, kept, past_feedings, radii, side_by_side

A, B, F = ("zones", "a"), ("zones", "b"), ("features", "f")
shapely: Any = import_module("shapely")
SLOW = settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def months(notebook: Notebook) -> Mapping[str, tuple[float, ...]]:
    """Nitrogen by month of the plan, by zone id."""
    return {each.zone_id: each.applied_by_month for each in make_plan(notebook, TODAY).nitrogen}


def rates(notebook: Notebook, zone_id: str) -> list[float]:
    """Nitrogen of each feeding of a zone, lb per 1,000 sq ft, by the published definition."""
    whole = zone_area_sqft(notebook.zones[zone_id])
    return [
        n_lb_per_1000sqft(each.pounds[zone_id], 20.0, each.treated_area_sqft.get(zone_id, whole))
        for each in notebook.feedings.values()
        if zone_id in each.pounds
    ]


def standing(notebook: Notebook) -> list[Head | Spot]:
    return [*notebook.heads.values(), *notebook.spots.values()]


def pounds(notebook: Notebook) -> float:
    return sum(lb for each in notebook.feedings.values() for lb in each.pounds.values())


def is_at_home(notebook: Notebook, record: Head | Spot, parts: tuple[str, str]) -> bool:
    """Whether a record stands on its zone; a head on the very line is of the part it wets most.

    The ground of parts lies on a grid, so that a spot on the line may be off both by half of it.
    """
    zone = notebook.zones[record.zone or ""]
    assert record.at_ft is not None
    if contains(zone.outline_ft, record.at_ft, zone.holes_ft):
        return True
    off_ft = distance_to_edge_ft(zone.outline_ft, record.at_ft, zone.holes_ft)
    if isinstance(record, Spot):
        return off_ft <= GRID_FT
    wetted = {each: share_wetted(record, notebook.zones[each].outline_ft) for each in parts}
    return off_ft <= ON_EDGE_FT and wetted[zone.id] == max(wetted.values())


@SLOW
@given(past_feedings(), st.floats(2, 38), st.floats(2, 38))
@example([], 2.0, 2.5)
def test_a_split_keeps_the_past_of_both_parts(
    tmp_path: Path, fed: list[Feeding], low: float, high: float
) -> None:
    notebook = side_by_side(fed)
    after = kept(tmp_path, notebook, split(notebook, A, (low, 0.0), (high, 20.0)))
    (new,) = after.zones.keys() - notebook.zones.keys()
    front, part = after.zones["a"], after.zones[new]
    assert zone_area_sqft(front) + zone_area_sqft(part) == pytest.approx(800, abs=0.2)
    assert zone_area_sqft(front) >= zone_area_sqft(part) - 0.2
    for each in ("a", new):
        assert rates(after, each) == pytest.approx(rates(notebook, "a"))
        assert months(after)[each] == pytest.approx(months(notebook)["a"])
    assert pounds(after) == pytest.approx(pounds(notebook))
    assert (front.flow_gpm or 0) + (part.flow_gpm or 0) == pytest.approx(8.0, abs=0.002)
    for table in ("waterings", "soil_tests"):
        assert len(after.table(table)) == len(notebook.table(table)) + 1
    assert after.catch_tests == notebook.catch_tests
    assert after.care["m"].zones == ("a", "b", new)
    for record in standing(after):
        assert is_at_home(after, record, ("a", new))
    assert part.name == "Front 2"


@SLOW
@given(past_feedings())
def test_merged_zones_have_the_mean_of_their_past(tmp_path: Path, fed: list[Feeding]) -> None:
    notebook = side_by_side(fed)
    after = kept(tmp_path, notebook, merged(notebook, ("a", "b")))
    assert list(after.zones) == ["a"]
    assert zone_area_sqft(after.zones["a"]) == pytest.approx(1400)
    before = months(notebook)
    mean = [(x * 800 + y * 600) / 1400 for x, y in zip(before["a"], before["b"], strict=True)]
    assert months(after)["a"] == pytest.approx(mean)
    assert pounds(after) == pytest.approx(pounds(notebook))
    assert {each.zone for each in standing(after)} == {"a"}
    assert set(after.waterings) == {"wa"}
    assert set(after.soil_tests) == {"ta"}
    assert set(after.catch_tests) == {"ca"}
    assert after.care["k"].zones == ("a",)
    assert after.care["m"].zones == ("a",)
    assert after.zones["a"].flow_gpm == 12.0
    assert after.zones["a"].grass == "cool"


def test_feedings_of_whole_zones_at_one_rate_keep_rate_and_area() -> None:
    """1 lb of nitrogen per 1,000 sq ft on both is 1 lb on all of it; 7 lb of product on 1,400."""
    fed = Feeding(id="x", date=TODAY, product="p", pounds={"a": 4.0, "b": 3.0})
    notebook = side_by_side([fed])
    after = apply(notebook, merged(notebook, ("a", "b"))).feedings["x"]
    assert dict(after.pounds) == {"a": 7.0}
    assert dict(after.treated_area_sqft) == {"a": pytest.approx(1400)}


@SLOW
@given(radii(), radii(), COORDINATES, past_feedings())
def test_cutting_takes_just_the_shared_ground(
    tmp_path: Path,
    one: tuple[int, ...],
    other: tuple[int, ...],
    at: Point,
    fed: list[Feeding],
) -> None:
    """Against shapely's own difference, a library of its own (GEOS)."""
    a, b = bumpy(0, 0, one), bumpy(*at, other)
    notebook = fed_yard(a, b, fed)
    left = shapely.Polygon(a).difference(shapely.Polygon(b))
    try:
        change = subtracted(notebook, A, (B,))
    except OwnerError:
        share = shapely.Polygon(a).area - left.area
        assert share < 1.0 or left.area < 1.0
        return
    cut = cut_of(notebook, A, (B,))
    after = kept(tmp_path, notebook, change)
    mine = [each for each in after.zones.values() if each.id != "b"]
    # Each corner may move by half of the grid's diagonal: an eighth of an inch along all edges.
    slack = 0.01 * left.length + 0.25 * (len(mine) + 1)
    total = sum(zone_area_sqft(each) for each in mine) + cut.crumbs_sqft
    assert total == pytest.approx(left.area, abs=slack)
    assert zone_area_sqft(after.zones["a"]) == max(zone_area_sqft(each) for each in mine)
    for each in mine:
        assert months(after)[each.id] == pytest.approx(months(notebook)["a"])
    assert after.zones["b"].outline_ft == b


def test_a_house_inside_becomes_a_hole_and_one_at_the_edge_a_bite() -> None:
    notebook = side_by_side()
    inside = apply(notebook, subtracted(notebook, A, (F,))).zones["a"]
    assert len(inside.holes_ft) == 1
    assert zone_area_sqft(inside) == pytest.approx(700)
    moved_out = apply(notebook, moved(notebook, (F,), (0.0, -10.0)))
    bitten = apply(moved_out, subtracted(moved_out, A, (F,))).zones["a"]
    assert not bitten.holes_ft
    assert zone_area_sqft(bitten) == pytest.approx(750)


def test_a_cut_leaves_the_metered_flow_to_its_last_digit() -> None:
    """30 litres a minute as they were converted: the meter knows nothing of what was cut out."""
    notebook = side_by_side()
    metered = replace(notebook.zones["a"], flow_gpm=7.925161571)
    notebook = apply(notebook, put(notebook, "zones", metered))
    assert apply(notebook, subtracted(notebook, A, (F,))).zones["a"].flow_gpm == 7.925161571


def test_crumbs_are_dropped_and_counted() -> None:
    """A bed across the corner leaves 2 sq ft of 800 behind: less than 1 % and than 10 sq ft."""
    notebook = side_by_side()
    bed = replace(notebook.features["f"], outline_ft=((2.0, 0), (4.0, 0), (0, 4.0), (0, 2.0)))
    notebook = apply(notebook, put(notebook, "features", bed))
    cut = cut_of(notebook, A, (F,))
    assert cut.others == ()
    assert cut.crumbs_sqft == pytest.approx(2.0)
    assert set(apply(notebook, subtracted(notebook, A, (F,))).zones) == {"a", "b"}


@pytest.mark.parametrize("becomes", ["bed", "water", "zone"])
@pytest.mark.parametrize("side", [None, 0, 2])
@pytest.mark.parametrize("inward", [True, False])
def test_a_strip_has_its_width_along_the_edge(
    tmp_path: Path, becomes: Becomes, side: int | None, inward: bool
) -> None:
    notebook = side_by_side()
    after = kept(tmp_path, notebook, strip_made(notebook, A, side, 2.0, inward, becomes))
    front = zone_area_sqft(after.zones["a"])
    zones = [zone_area_sqft(each) for key, each in after.zones.items() if key not in "ab"]
    features = [area_sqft(each.outline_ft) for key, each in after.features.items() if key != "f"]
    made = sum(zones) + sum(features)
    ring = 800 - 36 * 16 if inward else 44 * 24 - 800
    assert made == pytest.approx(ring if side is None else 80, abs=0.1)
    assert front == pytest.approx(800 - made if inward else 800, abs=0.1)
    assert bool(zones) == (becomes == "zone")
    assert all(each.no_spread_ft is None for each in after.features.values())


def _locked_front() -> Notebook:
    notebook = side_by_side()
    return apply(notebook, locked(notebook, (A,), True))


@pytest.mark.parametrize(
    "edit",
    [
        lambda n: merged(n, ("b", "a")),
        lambda n: split(n, A, (5, 0), (5, 1)),
        lambda n: subtracted(n, A, (F,)),
        lambda n: moved(n, (B, A), (1, 1)),
        lambda n: turned(n, (A,), 90, (0, 0)),
        lambda n: mirrored(n, (A,), (0, 0), (0, 1)),
        lambda n: aligned(n, (B, A), "left"),
        lambda n: reordered(n, A, "last"),
        lambda n: strip_made(n, A, None, 1.0, True, "bed"),
    ],
)
def test_what_is_locked_is_refused_by_name(edit: Callable[[Notebook], Change]) -> None:
    with pytest.raises(OwnerError, match="Front is locked; unlock it first"):
        edit(_locked_front())


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        (lambda n: merged(n, ("a",)), "two or more zones"),
        (lambda n: split(n, A, (500, 0), (500, 1)), "does not cut Front in two"),
        (lambda n: split(n, A, (5, 5), (5, 5)), "lie on one place"),
        (lambda n: subtracted(n, B, (F,)), "shares no ground with the house"),
        (lambda n: subtracted(n, F, (A,)), "nothing of it would be left"),
        (lambda n: subtracted(n, A, ()), "shape to be cut first"),
        (lambda n: moved(n, (A,), (6000, 0)), "more than 5,000 ft"),
        (lambda n: duplicated(n, (A,), (6000, 0)), "more than 5,000 ft"),
        (lambda n: strip_made(n, A, None, 15.0, True, "bed"), "takes all of Front"),
        (lambda n: strip_made(n, A, 9, 1.0, True, "bed"), "has 4 sides"),
        (lambda n: strip_made(n, A, 0, math.nan, True, "bed"), "up to 500 ft wide"),
        (lambda n: aligned(n, (A,), "left"), "two or more shapes"),
        (lambda n: spread_out(n, (A, B), "up"), "three or more shapes"),
        (lambda n: mirrored(n, (A,), (1, 1), (1, 1)), "lie on one place"),
    ],
)
def test_what_cannot_be_is_said_in_words(edit: Callable[[Notebook], object], words: str) -> None:
    with pytest.raises(OwnerError, match=words):
        edit(side_by_side())


def test_zones_apart_stay_apart() -> None:
    notebook = side_by_side()
    apart = apply(notebook, moved(notebook, (B,), (1.0, 0.0)))
    with pytest.raises(OwnerError, match="Front and Back do not all touch"):
        merged(apart, ("a", "b"))


def test_changes_follow_each_other_as_one() -> None:
    fed = Feeding(id="x", date=TODAY, product="p", pounds={"a": 4.0})
    notebook = side_by_side([fed])
    first = subtracted(notebook, A, (F,))
    then = split(apply(notebook, first), A, (20.0, 0.0), (20.0, 1.0))
    change = with_areas_kept(notebook, followed_by(first, then))
    after = apply(notebook, change)
    assert [each for zone in after.zones for each in rates(after, zone)] == pytest.approx([1, 1])


def test_what_was_done_is_told_with_areas() -> None:
    notebook = side_by_side()
    assert told(merged(notebook, ("a", "b"))) == (
        "Front is 1,400 sq ft, before 800 sq ft. Back is gone. 1 head and 1 spot came along. "
        "1 catch test, 1 watering and 1 soil test went; undo brings all back."
    )
    assert told(split(notebook, A, (30, 0), (30, 1))) == (
        "Front is 600 sq ft, before 800 sq ft. New: Front 2, 200 sq ft."
    )


def test_a_part_too_small_for_a_metered_flow_of_its_own_has_none(tmp_path: Path) -> None:
    """A foot of Back's 30 would take 0.13 gpm of 4, but only 0.07 of 2: less than a meter tells."""
    notebook = side_by_side()
    for flow_gpm, of_part in ((4.0, 0.133), (2.0, None)):
        metered = replace(notebook.zones["b"], flow_gpm=flow_gpm)
        yard = apply(notebook, put(notebook, "zones", metered))
        after = kept(tmp_path, yard, split(yard, ("zones", "b"), (69.0, 0.0), (69.0, 20.0)))
        (part,) = (each for key, each in after.zones.items() if key not in yard.zones)
        assert part.flow_gpm == of_part
        assert after.zones["b"].flow_gpm == pytest.approx(flow_gpm * 29 / 30, abs=0.001)
