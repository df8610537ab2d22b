"""Rates from meters and cans, uniformity, run times and gallons."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import precipitation as pr
from lawnbook.agronomy.checks import Array

CANS = st.lists(st.floats(0.01, 100.0), min_size=2, max_size=40)


def test_rate_from_a_meter() -> None:
    # KPUD, a public utility district's page on precipitation rate: 10 gpm on 1,000 sq ft.
    assert pr.precipitation_rate_in_per_h(10.0, 1000.0) == pytest.approx(0.9625)


def test_handbooks_round_the_constant() -> None:
    # 96.3 as printed by the Irrigation Association; 96.25 = 60 x 231 / 144 exactly.
    assert pr.RATE_CONSTANT == 96.25
    assert round(pr.RATE_CONSTANT + 0.001, 1) == 96.3


def test_rate_from_cans_uses_the_handbook_constant() -> None:
    # Irrigation Association auditing: PR = 3.66 x mean mL / (minutes x mouth in sq in).
    rate = pr.catch_can_rate_in_per_h([30.0, 40.0, 50.0], 10.0, 12.0)
    assert rate == pytest.approx(3.66 * 40.0 / (10.0 * 12.0), rel=1e-3)


def test_volumes_and_depths_of_the_same_cans_agree() -> None:
    mouth_sqin, volumes_ml = 14.0, [20.0, 25.0, 31.0, 18.0]
    depths_in = [ml * 0.0610237441 / mouth_sqin for ml in volumes_ml]
    by_volume = pr.catch_can_rate_in_per_h(volumes_ml, 15.0, mouth_sqin)
    assert by_volume == pytest.approx(pr.depth_rate_in_per_h(depths_in, 15.0))


def test_meter_and_cans_agree_on_the_same_water() -> None:
    # 6 gpm on 1,200 sq ft for 20 min leaves 120 gal, that is 0.16042 in, in every can.
    depth_in = 120.0 * 231.0 / 144.0 / 1200.0
    by_cans = pr.depth_rate_in_per_h([depth_in] * 5, 20.0)
    assert by_cans == pytest.approx(pr.precipitation_rate_in_per_h(6.0, 1200.0))


@pytest.mark.parametrize(
    ("depths", "expected"),
    [
        # Worked by hand: mean of the driest quarter over the mean of all.
        ([4.0, 8.0, 8.0, 12.0], 4.0 / 8.0),
        ([3.0, 5.0, 7.0, 7.0, 8.0, 8.0, 9.0, 9.0], 4.0 / 7.0),
        # 6 cans: the quarter is 1.5 cans, 2.0 and half of 4.0 -> (2 + 2) / 1.5
        ([2.0, 4.0, 6.0, 6.0, 6.0, 6.0], (4.0 / 1.5) / 5.0),
        # 2 cans: half of the driest
        ([1.0, 3.0], 1.0 / 2.0),
    ],
)
def test_lower_quarter_by_hand(depths: list[float], expected: float) -> None:
    assert pr.lower_quarter_uniformity(depths) == pytest.approx(expected)
    assert pr.lower_quarter_uniformity(depths[::-1]) == pytest.approx(expected)


def test_lower_half_by_hand() -> None:
    assert pr.lower_half_uniformity([1.0, 2.0, 3.0]) == pytest.approx((2.0 / 1.5) / 2.0)


def test_christiansen_by_hand() -> None:
    assert pr.christiansen_uniformity([1.0, 2.0, 3.0]) == pytest.approx(1.0 - 2.0 / 6.0)


@given(CANS)
def test_the_drier_the_share_the_lower_the_uniformity(depths: list[float]) -> None:
    quarter, half = pr.lower_quarter_uniformity(depths), pr.lower_half_uniformity(depths)
    assert 0.0 < quarter <= half + 1e-12 <= 1.0 + 2e-12
    # Half the mean deviation lies below the mean: CU and DU_LH can differ, but never cross this.
    assert pr.christiansen_uniformity(depths) >= 2.0 * half - 1.0 - 1e-9


@given(CANS, st.floats(0.1, 10.0))
def test_uniformity_does_not_depend_on_the_unit(depths: list[float], factor: float) -> None:
    scaled = [factor * depth for depth in depths]
    for measure in (pr.lower_quarter_uniformity, pr.lower_half_uniformity):
        assert measure(scaled) == pytest.approx(measure(depths), rel=1e-9)


def cone_grid(points: int) -> Array:
    """Depths between cone-profile heads at 50 % by 70 % of the wetted diameter, radius 1."""
    along, across = 1.0, 1.4
    x = (np.arange(points) + 0.5) / points * along
    y = (np.arange(points) + 0.5) / points * across
    depth = np.zeros((points, points))
    for head_x in (-along, 0.0, along, 2 * along):
        for head_y in (-across, 0.0, across, 2 * across):
            distance = np.hypot(x[:, None] - head_x, y[None, :] - head_y)
            depth += np.maximum(0.0, 1.0 - distance)
    return depth.ravel()


@pytest.mark.parametrize(
    ("measure", "expected"),
    [
        (pr.christiansen_uniformity, 0.799),
        (pr.lower_half_uniformity, 0.800),
        (pr.lower_quarter_uniformity, 0.747),
    ],
)
def test_cone_profile_heads(measure: Callable[[Array], float], expected: float) -> None:
    # von Bernuth and Mecham, Defining the run time multiplier: their layout on a fine grid.
    assert measure(cone_grid(200)) == pytest.approx(expected, abs=0.001)


def test_cone_profile_mean_depth_in_closed_form() -> None:
    # pi R^2 h / (3 S L), von Bernuth and Mecham.
    assert cone_grid(400).mean() == pytest.approx(math.pi / (3.0 * 1.0 * 1.4), rel=1e-4)


@pytest.mark.parametrize(
    ("du_lq", "expected"),
    # Irrigation Association 2005, 1 / (0.4 + 0.6 DU_LQ) (from memory)
    [(1.0, 1.0), (0.65, 1.266), (0.5, 1.429), (0.0, 2.5)],
)
def test_multiplier(du_lq: float, expected: float) -> None:
    assert pr.run_time_multiplier(du_lq) == pytest.approx(expected, abs=0.0005)


def test_run_time_of_half_an_inch() -> None:
    # 0.5 in net, multiplier 1.25, is 0.625 in gross: at 1.5 in/h that takes 25 min.
    assert pr.run_minutes(0.5, 1.5, 1.25) == pytest.approx(25.0)


@given(st.floats(0.01, 3.0), st.floats(0.05, 8.0), st.floats(1.0, 2.5))
def test_the_run_applies_the_gross_depth(net_in: float, rate: float, multiplier: float) -> None:
    minutes = pr.run_minutes(net_in, rate, multiplier)
    assert minutes / 60.0 * rate == pytest.approx(net_in * multiplier)


def test_gallons_of_an_inch() -> None:
    # 1 in over 1,000 sq ft is 623 gal (1 cu ft = 7.4805 gal).
    assert pr.gallons(1.0, 1000.0) == pytest.approx(623.4, abs=0.05)


BAD_CALLS: list[tuple[Callable[[], float], str]] = [
    (lambda: pr.precipitation_rate_in_per_h(10.0, 0.0), "area_sqft must be above zero"),
    (lambda: pr.precipitation_rate_in_per_h(math.nan, 10.0), "flow_gpm must be a finite number"),
    (lambda: pr.precipitation_rate_in_per_h(-1.0, 10.0), "flow_gpm must be zero or more"),
    (lambda: pr.catch_can_rate_in_per_h([], 10.0, 12.0), "at least one can"),
    (lambda: pr.catch_can_rate_in_per_h([1.0], 10.0, 0.0), "can_mouth_sqin must be above zero"),
    (lambda: pr.depth_rate_in_per_h([0.2, -0.1], 10.0), "depths_in must be zero or more"),
    (lambda: pr.depth_rate_in_per_h([0.2], 0.0), "run_minutes must be above zero"),
    (lambda: pr.lower_quarter_uniformity([0.2]), "two cans or more"),
    (lambda: pr.lower_quarter_uniformity([0.0, 0.0]), "water in at least one can"),
    (lambda: pr.christiansen_uniformity([1.0, math.inf]), "finite numbers only"),
    (lambda: pr.run_time_multiplier(1.01), "du_lq must lie between"),
    (lambda: pr.run_minutes(1.0, 1.0, 0.99), "multiplier must be 1 or more"),
    (lambda: pr.run_minutes(1.0, 0.0, 1.0), "rate_in_per_h must be above zero"),
    (lambda: pr.gallons(1.0, -5.0), "area_sqft must be zero or more"),
]


@pytest.mark.parametrize(("call", "sentence"), BAD_CALLS)
def test_out_of_domain(call: Callable[[], float], sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        call()
