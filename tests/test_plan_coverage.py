"""A zone's coverage by the computed map: what falls inside, how evenly, and where it is dry."""

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from lawnbook.agronomy.coverage import PROFILES
from lawnbook.agronomy.precipitation import RATE_CONSTANT, precipitation_rate_in_per_h
from lawnbook.plan.coverage import (
    MOST_MAP_CELLS,
    coverage_map,
    coverage_of,
    map_grid,
    map_of_head,
    rates_at,
    sprinkler_of,
)
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, contains, rectangle_ft
from lawnbook.yard.notebook import Notebook, new_notebook, with_tables
from lawnbook.yard.records import Head, Zone
from tests.plan_yards import steady, water, yard

SQUARE: Outline = rectangle_ft((0.0, 0.0), 40.0, 40.0)


def zone(zone_id: str = "z", outline: Outline = SQUARE, **values: Any) -> Zone:
    """A zone, named by its id."""
    return Zone(id=zone_id, name=zone_id, outline_ft=outline, **values)


def head(at: tuple[float, float], zone_id: str = "z", **values: Any) -> Head:
    """A head of 2 gpm that throws 10 ft all round unless told otherwise."""
    settings_of = {"radius_ft": 10.0, "flow_gpm": 2.0, **values}
    return Head(id=f"{zone_id}{at}{values}", zone=zone_id, at_ft=at, **settings_of)


def book(zones: Iterable[Zone], heads: Iterable[Head]) -> Notebook:
    """A notebook of zones and heads."""
    return with_tables(new_notebook("Home"), {"zones": zones, "heads": heads})


def coverage(zones: list[Zone], heads: list[Head]) -> ZoneCoverage:
    """The coverage of the first zone."""
    found = coverage_of(book(zones, heads), zones[0])
    assert found is not None
    return found


CORNERS = (
    head((0.0, 0.0), start_deg=0, sweep_deg=90, radius_ft=40),
    head((40.0, 0.0), start_deg=270, sweep_deg=90, radius_ft=40),
    head((40.0, 40.0), start_deg=180, sweep_deg=90, radius_ft=40),
    head((0.0, 40.0), start_deg=90, sweep_deg=90, radius_ft=40),
)


def test_a_head_as_the_map_takes_it() -> None:
    """A cone is the default; a named profile is that of the table, a typed one itself."""
    plain = sprinkler_of(head((1.0, 2.0), start_deg=30, sweep_deg=120))
    assert plain is not None
    assert (plain.at_ft, plain.start_deg, plain.sweep_deg) == ((1.0, 2.0), 30, 120)
    assert plain.profile == PROFILES["cone"]
    for profile, expected in (("doughnut", PROFILES["doughnut"]), ((1.0, 0.5), (1.0, 0.5))):
        sprinkler = sprinkler_of(head((0.0, 0.0), profile=profile))
        assert sprinkler is not None
        assert sprinkler.profile == expected
    assert sprinkler_of(head((0.0, 0.0), flow_gpm=None)) is None


def test_what_falls_inside_is_the_mean_and_the_rest_is_wasted() -> None:
    """A whole circle inside, one cut in half by the edge, one turned to the outside."""
    rate = precipitation_rate_in_per_h(2.0, 1600.0)
    cases = [((20.0, 20.0), 360.0, 0.0), ((0.0, 20.0), 360.0, 0.5), ((40.0, 20.0), 180.0, 1.0)]
    for at, sweep_deg, wasted in cases:
        found = coverage([zone()], [head(at, sweep_deg=sweep_deg)])
        assert found.wasted_share == pytest.approx(wasted, abs=1e-9)
        assert found.mean_in_per_h == pytest.approx(rate * (1 - wasted), abs=1e-12)
    assert (found.du_lq, found.du_lh, found.cu) == (0.0, 0.0, 0.0)
    assert (found.dry_share, found.wet_share) == (1.0, 0.0)


def test_heads_are_counted_by_what_is_known_of_them() -> None:
    heads = [*CORNERS, head((20.0, 20.0), flow_gpm=None), head((9.0, 9.0), profile="flat")]
    found = coverage([zone()], heads)
    assert (found.heads, found.without_flow, found.assumed_profiles) == (6, 1, 4)
    assert coverage_of(book([zone()], [head((1.0, 1.0), flow_gpm=None)]), zone()) is None
    assert coverage_of(book([zone()], []), zone()) is None


def test_corner_heads_leave_the_edges_middle_dry() -> None:
    """Four quarter circles that reach the next corner: by symmetry none of it is lost there."""
    found = coverage([zone()], list(CORNERS))
    assert found.wasted_share == pytest.approx(0.0, abs=1e-9)
    assert found.mean_in_per_h == pytest.approx(precipitation_rate_in_per_h(8.0, 1600.0))
    assert 0.0 < found.du_lq < found.du_lh < 1.0
    x, y = found.wettest_at_ft
    assert min(x, 40 - x) > 2 or min(y, 40 - y) > 2


def test_the_driest_patch_lies_where_no_head_reaches() -> None:
    """In the corner farthest from the head, well inside; the wettest is round the head."""
    found = coverage([zone()], [head((8.0, 8.0), radius_ft=30.0, profile="cone")])
    assert math.dist(found.driest_at_ft, (8.0, 8.0)) > 35.0
    assert contains(SQUARE, found.driest_at_ft)
    assert math.dist(found.wettest_at_ft, (8.0, 8.0)) < 2.0
    assert found.dry_share > 0.3
    assert found.wet_share > 0.2


def test_shares_of_dry_and_wet_ground_in_closed_form() -> None:
    """A flat circle within a square: what it misses is dry, what it meets is wet."""
    found = coverage([zone()], [head((20.0, 20.0), radius_ft=15.0, profile="flat")])
    circle = math.pi * 15**2 / 1600
    assert found.wet_share == pytest.approx(circle, abs=0.005)
    assert found.dry_share == pytest.approx(1 - circle, abs=0.005)
    assert found.du_lq == 0.0
    # CU of a share c at mean / c and none elsewhere is 1 - 2 (1 - c).
    assert found.cu == pytest.approx(2 * circle - 1, abs=0.005)


def test_neighbours_count_where_they_reach_in() -> None:
    side = zone("side", rectangle_ft((40.0, 0.0), 40.0, 40.0))
    into = head((40.0, 20.0), "side", start_deg=180, sweep_deg=180)
    away = head((40.0, 20.0), "side", start_deg=0, sweep_deg=180)
    far = head((75.0, 20.0), "side")
    alone = coverage([zone(), side], list(CORNERS))
    joined = coverage([zone(), side], [*CORNERS, into, away, far])
    assert (alone.neighbours, joined.neighbours) == (0, 1)
    extra = precipitation_rate_in_per_h(2.0, 1600.0)
    assert joined.mean_in_per_h == pytest.approx(alone.mean_in_per_h + extra)
    assert joined.wasted_share == alone.wasted_share


def test_holes_are_not_ground_of_the_zone() -> None:
    """Water on a hole is wasted, and the mean is over what is left."""
    hole = rectangle_ft((15.0, 15.0), 10.0, 10.0)
    found = coverage([zone(holes_ft=(hole,))], [head((20.0, 20.0), radius_ft=5.0)])
    assert found.wasted_share == pytest.approx(1.0)
    wide = head((20.0, 20.0), radius_ft=15.0, profile="flat")
    wasted = coverage([zone(holes_ft=(hole,))], [wide]).wasted_share
    assert wasted == pytest.approx(100 / (math.pi * 15**2))


@pytest.mark.parametrize("width", [0.2, 1.0, 3.0])
def test_a_strip_narrower_than_a_cell_has_its_coverage(width: float) -> None:
    """Slanted, so that no cell lies along it."""
    strip = ((0.0, 0.0), (30.0, 10.0), (30.0 - width / 3, 10.0 + width), (-width / 3, width))
    found = coverage([zone(outline=strip)], [head((15.0, 5.0), radius_ft=20.0)])
    assert found.mean_in_per_h == pytest.approx(
        RATE_CONSTANT * 2.0 * (1 - found.wasted_share) / area_sqft(strip)
    )
    assert contains(strip, found.driest_at_ft)
    assert 0.4 < found.du_lq < 0.9


def test_a_hose_sprinkler_is_mapped_once_all_its_places_are_drawn() -> None:
    moved = zone(sprinklers="hose", hose_places=2)
    places = [head((10.0, 20.0)), head((30.0, 20.0))]
    assert coverage_of(book([moved], places[:1]), moved) is None
    assert coverage_of(book([moved], places), moved) is not None


def turned_quarter(point: tuple[float, float], times: int) -> tuple[float, float]:
    """A point turned clockwise round the yard's origin, where the lines of the cells cross."""
    x, y = point
    for _ in range(times):
        x, y = y, -x
    return x, y


@settings(deadline=None, max_examples=20)
@given(
    st.lists(
        st.tuples(
            st.tuples(st.floats(0, 40), st.floats(0, 40)),
            st.floats(0, 360),
            st.floats(20, 360),
            st.floats(8, 30),
        ),
        min_size=1,
        max_size=4,
    ),
    st.integers(1, 3),
)
@example([((12.0, 12.0), 0.0, 20.0000001, 8.0), ((23.0, 7.0), 0.0, 360.0, 30.0)], 2)
@example([((40.0, 34.0), 12.0, 191.18409570195976, 8.0)], 2)
def test_turning_the_yard_changes_nothing(drawn: list[Any], times: int) -> None:
    """Shares are exact, and so is evenness where the cells turn with the yard.

    Round any other point the cells lie otherwise on the ground, and a narrow arc, of few cells,
    is seen otherwise by as much as a fifth.
    """
    outline = ((0.0, 0.0), (40.0, 0.0), (40.0, 25.0), (12.0, 40.0), (0.0, 40.0))
    heads, turned = [], []
    for at, start, sweep, radius in drawn:
        one = head(at, start_deg=start, sweep_deg=sweep, radius_ft=radius)
        heads.append(one)
        turned.append(
            replace(one, at_ft=turned_quarter(at, times), start_deg=start + 90 * times - 360)
        )
    ring = tuple(turned_quarter(corner, times) for corner in outline)
    before = coverage([zone(outline=outline)], heads)
    after = coverage([zone(outline=ring)], turned)
    for name in ("wasted_share", "mean_in_per_h", "du_lq", "du_lh", "cu"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), abs=1e-7), name


def test_the_map_of_a_yard_holds_all_the_flow_and_is_the_sum_of_its_heads() -> None:
    """At the step the program chooses; zones' cells add up to their area."""
    notebook = book([zone()], [*CORNERS, head((35.0, 5.0), profile="doughnut", radius_ft=3.0)])
    heads = list(notebook.heads.values())
    found = coverage_map(notebook, ["z"], heads)
    assert float(found.rates.sum()) * found.grid.cell_sqft / RATE_CONSTANT == pytest.approx(10.0)
    assert float(found.shares.sum()) * found.grid.cell_sqft == pytest.approx(1600.0)
    parts = sum(map_of_head(each, found.grid) for each in heads)
    assert np.allclose(found.rates, parts)
    assert not map_of_head(head((1.0, 1.0), flow_gpm=None), found.grid).any()
    chosen = coverage_map(notebook, ["z"], heads, step_ft=2.0)
    assert chosen.grid.step_ft == 2.0
    assert float(chosen.rates.sum()) * 4 / RATE_CONSTANT == pytest.approx(10.0)


def test_a_big_yard_keeps_its_cells_few() -> None:
    """Even beside one tiny throw; and a yard without anything has one cell."""
    wide = zone(outline=rectangle_ft((0.0, 0.0), 1500.0, 900.0))
    grid = map_grid([wide], [head((1.0, 1.0), radius_ft=0.5)])
    assert grid.columns * grid.rows < 1.05 * MOST_MAP_CELLS
    tiny = coverage([wide], [head((700.0, 400.0), radius_ft=0.5)])
    assert tiny.wasted_share == pytest.approx(0.0, abs=1e-9)
    assert map_grid([], []).columns == 1
    assert map_grid([zone()], []).step_ft == 0.5


def test_rates_at_points_of_all_heads_and_of_one_zone() -> None:
    """A catch test runs one zone alone, so that its cans are held against its own heads."""
    side = zone("side", rectangle_ft((40.0, 0.0), 40.0, 40.0))
    notebook = book([zone(), side], [head((38.0, 20.0)), head((42.0, 20.0), "side")])
    points = [(40.0, 20.0), (0.0, 0.0)]
    both, none = rates_at(notebook, points)
    own, _ = rates_at(notebook, points, "z")
    assert both == pytest.approx(2 * own)
    # A cone of height h holds πR²h/3: 96.25 × 2 gpm, and two tenths out it reads 0.8 h.
    assert own == pytest.approx(0.8 * 3 * RATE_CONSTANT * 2.0 / (math.pi * 100))
    assert none == 0.0
    assert rates_at(notebook, []) == ()


@given(st.floats(0.5, 4.0))
def test_doubling_the_flow_doubles_the_rate_and_halves_the_run(flow_gpm: float) -> None:
    """By the map, and by the plan's minutes."""

    def minutes(flow: float) -> tuple[float, float]:
        heads = [replace(each, flow_gpm=flow) for each in CORNERS]
        found = coverage([zone()], heads)
        run = water(yard(zone(), heads=heads, climate=steady(0.2))).run_minutes
        assert run is not None
        return found.mean_in_per_h, run

    once, twice = minutes(flow_gpm), minutes(2 * flow_gpm)
    assert twice[0] == pytest.approx(2 * once[0])
    assert twice[1] == pytest.approx(once[1] / 2)
