"""The map of sprinklers: nothing lost, closed forms, a published layout, and evenness by area."""

import importlib
import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawnbook.agronomy import precipitation as pr
from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.coverage import (
    PROFILES,
    Grid,
    Sprinkler,
    distribution,
    grid_over,
    rate_at,
    rate_map,
    share_within,
)
from lawnbook.agronomy.throw import profile_moment

shapely = importlib.import_module("shapely")
CONE, FLAT, DOUGHNUT = PROFILES["cone"], PROFILES["flat"], PROFILES["doughnut"]
TYPED = (1.0, 0.9, 0.6, 0.2)
LATE = (0.0, 0.0, 1.0)

profiles = st.sampled_from([CONE, FLAT, DOUGHNUT, TYPED, LATE]) | st.lists(
    st.floats(0.0, 5.0), min_size=2, max_size=9
).map(tuple).filter(lambda depths: max(depths) > 0.01)


@st.composite
def sprinklers(draw: st.DrawFn) -> Sprinkler:
    """Any head that may be kept: arcs of 1° to a full circle, throws of half a foot to 120 ft."""
    return Sprinkler(
        at_ft=(draw(st.floats(-50, 50)), draw(st.floats(-50, 50))),
        radius_ft=draw(st.floats(0.5, 120)),
        start_deg=draw(st.floats(-360, 360) | st.sampled_from([0.0, 90.0, 180.0, 270.0])),
        sweep_deg=draw(st.floats(1, 360) | st.sampled_from([90.0, 180.0, 270.0, 360.0])),
        flow_gpm=draw(st.floats(0.01, 100)),
        profile=draw(profiles),
    )


def head(
    at: tuple[float, float] = (0.0, 0.0),
    arc: tuple[float, float] = (0.0, 360.0),
    profile: Sequence[float] = CONE,
    radius_ft: float = 10.0,
    flow_gpm: float = 2.0,
) -> Sprinkler:
    """A head by its arc (start, sweep)."""
    return Sprinkler(at, radius_ft, *arc, flow_gpm, tuple(profile))


def over(sprinkler: Sprinkler, step_ft: float) -> Grid:
    """Cells over a whole throw."""
    (x, y), r = sprinkler.at_ft, sprinkler.radius_ft
    return grid_over((x - r, y - r, x + r, y + r), step_ft)


def flow_in(rates: Array, grid: Grid) -> float:
    """The gallons a minute that a map adds up to."""
    return float(rates.sum()) * grid.cell_sqft / pr.RATE_CONSTANT


@settings(deadline=None, max_examples=150)
@given(sprinklers(), st.floats(0.8, 40))
def test_the_map_holds_all_of_the_flow(sprinkler: Sprinkler, cells: float) -> None:
    """Whatever the arc, the profile and the place; however coarse the cells are."""
    grid = over(sprinkler, sprinkler.radius_ft / cells)
    rates = rate_map([sprinkler], grid)
    assert flow_in(rates, grid) == pytest.approx(sprinkler.flow_gpm, rel=1e-6)
    assert float(rates.min()) >= 0.0


@pytest.mark.parametrize("profile", [CONE, FLAT, DOUGHNUT, TYPED, LATE], ids=str)
@pytest.mark.parametrize(
    "arc", [(0, 360), (90, 90), (270, 180), (37, 200), (10, 270), (200, 15), (-100, 359)], ids=str
)
def test_cells_hold_the_mean_of_the_points_in_them(
    profile: tuple[float, ...], arc: tuple[float, float]
) -> None:
    """The closed form against the plain reading of arc and profile at 1,600 points a cell."""
    sprinkler = head((0.3, -0.2), arc, profile)
    grid = Grid(-11.0, -11.0, 2.0, 11, 11)
    fine = Grid(-11.0, -11.0, 0.05, 440, 440)
    points = np.stack(np.meshgrid(fine.xs, fine.ys), axis=-1)
    sampled = rate_at([sprinkler], points.reshape(-1, 2))
    means = sampled.reshape(11, 40, 11, 40).mean(axis=(1, 3))
    rates = rate_map([sprinkler], grid)
    assert np.abs(rates - means).max() < 0.012 * sampled.max()


def wedge(sprinkler: Sprinkler) -> Any:
    """The ground a head throws on, its bow as 2,000 short sides."""
    bearings = np.radians(sprinkler.start_deg + np.linspace(0.0, sprinkler.sweep_deg, 2001))
    (x, y), r = sprinkler.at_ft, sprinkler.radius_ft
    bow = [(x + r * math.sin(b), y + r * math.cos(b)) for b in bearings]
    return shapely.Polygon(bow if sprinkler.sweep_deg >= 360 else [(x, y), *bow])


L_SHAPE = ((-8.0, -6.0), (9.0, -6.0), (9.0, 1.0), (2.0, 2.0), (2.0, 9.0), (-8.0, 9.0))
HOLE = ((-5.0, -3.0), (-1.0, -4.0), (-2.0, 1.0))


@pytest.mark.parametrize("arc", [(0, 360), (90, 90), (330, 200), (10, 270), (200, 15)], ids=str)
@pytest.mark.parametrize("at", [(0.0, 0.0), (-8.0, -6.0), (3.0, 4.0), (2.0, 2.0), (14.0, -9.0)])
def test_the_share_within_an_outline_against_polygon_clipping(
    at: tuple[float, float], arc: tuple[float, float]
) -> None:
    """A flat profile's share is the share of its ground: clipped by the shapely library."""
    sprinkler = head(at, arc, FLAT)
    ground = shapely.Polygon(L_SHAPE, [HOLE])
    thrown = wedge(sprinkler)
    expected = thrown.intersection(ground).area / thrown.area
    for outline, hole in ((L_SHAPE, HOLE), (L_SHAPE[::-1], HOLE[::-1])):
        assert share_within(sprinkler, outline, [hole]) == pytest.approx(expected, abs=1e-5)


@settings(deadline=None, max_examples=60)
@given(sprinklers())
def test_what_lies_within_an_outline_and_beyond_it_is_all(sprinkler: Sprinkler) -> None:
    """Two halves of the plane, as wide as any throw, and one outline round it all."""
    (x, y), far = sprinkler.at_ft, 3 * sprinkler.radius_ft
    cut = 0.3 * sprinkler.radius_ft
    west = ((x - far, y - far), (x + cut, y - far), (x - cut, y + far), (x - far, y + far))
    east = ((x + cut, y - far), (x + far, y - far), (x + far, y + far), (x - cut, y + far))
    whole = ((x - far, y - far), (x + far, y - far), (x + far, y + far), (x - far, y + far))
    parts = share_within(sprinkler, west) + share_within(sprinkler, east)
    assert parts == pytest.approx(1.0, abs=1e-9)
    assert share_within(sprinkler, whole) == pytest.approx(1.0, abs=1e-9)
    assert share_within(sprinkler, whole[:2]) == 0.0


def test_the_rate_of_a_flat_throw_is_flow_over_ground() -> None:
    """96.25 × flow ÷ area, all over the half circle and its edges, and nothing elsewhere."""
    sprinkler = head((5.0, 5.0), (90.0, 180.0), FLAT)
    rate = pr.precipitation_rate_in_per_h(2.0, math.pi * 100 / 2)
    inside = [(5.0, 5.0), (9.0, 1.0), (5.0, -5.0), (15.0, 5.0), (-5.0, 5.0), (-2.0, 4.999)]
    outside = [(5.0, 5.1), (5.0, -5.1), (15.1, 4.9), (-2.0, 5.001)]
    assert rate_at([sprinkler], inside).tolist() == pytest.approx([rate] * len(inside))
    assert rate_at([sprinkler], outside).tolist() == [0.0] * len(outside)


def test_a_typed_profile_is_read_at_even_steps() -> None:
    """A third of the way out it reads the second depth; between two depths, half and half."""
    sprinkler = head(profile=TYPED, radius_ft=12.0)
    places = [(0.0, 0.0), (4.0, 0.0), (0.0, -6.0), (-8.0, 0.0), (0.0, 12.0), (0.0, 12.1)]
    rates = rate_at([sprinkler], places) / sprinkler.unit_rate_in_per_h
    assert rates.tolist() == pytest.approx([1.0, 0.9, 0.75, 0.6, 0.2, 0.0])


@pytest.mark.parametrize(
    ("profile", "moment"),
    # ∫(1−u)u du = 1/6 and ∫u du = 1/2; the last by hand: from u = 1/2, ∫(2u−1)u du = 5/24.
    [(CONE, 1 / 6), (FLAT, 1 / 2), (LATE, 5 / 24), ((1.0, 0.5, 0.0), 1 / 6)],
)
def test_moments_by_hand(profile: tuple[float, ...], moment: float) -> None:
    assert profile_moment(profile) == pytest.approx(moment, rel=1e-12)


def lattice(along_ft: float, across_ft: float, radius_ft: float) -> list[Sprinkler]:
    """Cone heads on a lattice, as many as reach its cell at the origin."""
    reach = math.ceil(radius_ft / min(along_ft, across_ft)) + 1
    numbers = range(-reach, reach + 2)
    return [
        head((i * along_ft, j * across_ft), radius_ft=radius_ft) for i in numbers for j in numbers
    ]


@pytest.mark.parametrize(
    ("along", "across", "radius"), [(10, 14, 10), (10, 10, 12), (12, 9, 7.5), (20, 16, 22)]
)
def test_a_lattice_of_cones_averages_its_closed_form(
    along: float, across: float, radius: float
) -> None:
    """πR²h ÷ (3 S L), von Bernuth and Mecham; and the flow over the cell's ground."""
    heads = lattice(along, across, radius)
    grid = Grid(0.0, 0.0, 0.5, int(2 * along), int(2 * across))
    mean = float(rate_map(heads, grid).mean())
    height = heads[0].unit_rate_in_per_h
    assert mean == pytest.approx(math.pi * radius**2 * height / (3 * along * across), rel=1e-9)
    assert mean == pytest.approx(pr.precipitation_rate_in_per_h(2.0, along * across), rel=1e-9)


# von Bernuth and Mecham, Defining the run time multiplier: cone profiles at 50 % by 70 % of the
# wetted diameter are printed as CU 0.805, DU_LH 0.810, DU_LQ 0.772.
PRINTED = (0.805, 0.810, 0.772)


def test_the_published_overlap_on_a_fine_grid() -> None:
    """Within 0.03 of what is printed, and where finer grids converge."""
    grid = Grid(0.0, 0.0, 0.25, 40, 56)
    even = distribution(rate_map(lattice(10, 14, 10), grid), np.ones(40 * 56))
    found = (even.cu, even.du_lh, even.du_lq)
    assert found == pytest.approx(PRINTED, abs=0.03)
    assert found == pytest.approx((0.799, 0.800, 0.747), abs=0.003)


def test_the_published_overlap_on_a_coarse_grid() -> None:
    """All three printed figures, to their last digit, on 3 by 14 points with the cell's edges.

    The paper does not tell its grid: this one is our own reading.
    """
    x, y = np.linspace(0, 10, 3), np.linspace(0, 14, 14)
    points = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    even = distribution(rate_at(lattice(10, 14, 10), points), np.ones(len(points)))
    assert tuple(round(each, 3) for each in (even.cu, even.du_lh, even.du_lq)) == PRINTED


RATES = st.lists(st.floats(0.0, 3.0), min_size=2, max_size=40).filter(lambda r: sum(r) > 0.1)


@given(RATES, st.floats(0.1, 10.0))
def test_equal_weights_read_as_so_many_cans(rates: list[float], weight: float) -> None:
    even = distribution(rates, [weight] * len(rates))
    assert even.mean == pytest.approx(sum(rates) / len(rates))
    assert even.du_lq == pytest.approx(pr.lower_quarter_uniformity(rates), abs=1e-9)
    assert even.du_lh == pytest.approx(pr.lower_half_uniformity(rates), abs=1e-9)
    assert even.cu == pytest.approx(pr.christiansen_uniformity(rates), abs=1e-9)


@given(RATES, st.data())
def test_whole_weights_read_as_that_many_cans(rates: list[float], data: st.DataObject) -> None:
    """A piece of three times the ground counts as three cans; one of none not at all."""
    counts = data.draw(st.lists(st.integers(1, 5), min_size=len(rates), max_size=len(rates)))
    cans = [rate for rate, count in zip(rates, counts, strict=True) for _ in range(count)]
    even = distribution([*rates, 99.0], [*counts, 0])
    assert even.du_lq == pytest.approx(pr.lower_quarter_uniformity(cans), abs=1e-9)
    assert even.cu == pytest.approx(pr.christiansen_uniformity(cans), abs=1e-9)
    assert even.du_lq <= even.du_lh + 1e-9 <= 1.0 + 2e-9


@settings(deadline=None, max_examples=60)
@given(sprinklers(), sprinklers())
def test_maps_add_up_and_doubling_the_flow_doubles_them(one: Sprinkler, other: Sprinkler) -> None:
    grid = grid_over((-60.0, -60.0, 60.0, 60.0), 4.0)
    both = rate_map([one, other], grid)
    assert np.allclose(both, rate_map([one], grid) + rate_map([other], grid), rtol=1e-12)
    twice = [
        Sprinkler(s.at_ft, s.radius_ft, s.start_deg, s.sweep_deg, 2 * s.flow_gpm, s.profile)
        for s in (one, other)
    ]
    assert np.allclose(rate_map(twice, grid), 2 * both, rtol=1e-9)
    points = [(0.0, 0.0), one.at_ft, other.at_ft]
    assert np.allclose(rate_at(twice, points), 2 * rate_at([one, other], points), rtol=1e-9)


@settings(deadline=None, max_examples=60)
@given(sprinklers(), st.floats(0, 360))
def test_turning_head_and_outline_together_changes_nothing(
    sprinkler: Sprinkler, turn_deg: float
) -> None:
    """Clockwise round the origin; what lies within is exact and so is the rate at a point."""
    sine, cosine = math.sin(math.radians(turn_deg)), math.cos(math.radians(turn_deg))

    def turned(point: tuple[float, float]) -> tuple[float, float]:
        x, y = point
        return x * cosine + y * sine, y * cosine - x * sine

    other = Sprinkler(
        turned(sprinkler.at_ft),
        sprinkler.radius_ft,
        sprinkler.start_deg + turn_deg,
        sprinkler.sweep_deg,
        sprinkler.flow_gpm,
        sprinkler.profile,
    )
    outline = tuple((4 * x, 3 * y) for x, y in L_SHAPE)
    share = share_within(sprinkler, outline)
    assert share_within(other, tuple(map(turned, outline))) == pytest.approx(share, abs=1e-7)


@pytest.mark.parametrize(
    "call",
    [
        lambda: head(radius_ft=0.0),
        lambda: head(arc=(0.0, 0.0)),
        lambda: head(arc=(0.0, 361.0)),
        lambda: head(arc=(math.nan, 90.0)),
        lambda: head(at=(math.inf, 0.0)),
        lambda: head(flow_gpm=-1.0),
        lambda: head(profile=(1.0,)),
        lambda: head(profile=(0.0, 0.0)),
        lambda: head(profile=(1.0, -0.1)),
        lambda: distribution([0.0, 0.0], [1.0, 1.0]),
        lambda: distribution([1.0, 1.0], [0.0, 0.0]),
        lambda: distribution([1.0, 1.0], [1.0]),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"must|needs"):
        call()
