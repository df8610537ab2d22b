"""Student's t and the power of its test: handbook tables, scipy, statsmodels."""

import importlib
import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.student import student_t, two_sided_power

stats = importlib.import_module("scipy.stats")
power = importlib.import_module("statsmodels.stats.power")


@pytest.mark.parametrize(
    ("confidence", "freedom", "t"),
    # Student's t as printed in handbook tables (from memory).
    [
        (0.95, 1, 12.706),
        (0.95, 2, 4.303),
        (0.95, 5, 2.571),
        (0.95, 10, 2.228),
        (0.95, 30, 2.042),
        (0.90, 4, 2.132),
        (0.90, 20, 1.725),
        (0.99, 8, 3.355),
        (0.99, 120, 2.617),
    ],
)
def test_student_t_as_printed(confidence: float, freedom: int, t: float) -> None:
    assert student_t(confidence, freedom) == pytest.approx(t, abs=0.0006)


@pytest.mark.parametrize("confidence", [0.01, 0.5, 0.9, 0.95, 0.999])
@pytest.mark.parametrize("freedom", [*range(1, 12), 23, 24, 99, 400])
def test_student_t_against_scipy(confidence: float, freedom: int) -> None:
    # scipy.stats.t.ppf
    assert student_t(confidence, freedom) == pytest.approx(
        stats.t.ppf(0.5 + confidence / 2, freedom), rel=1e-9
    )


@pytest.mark.parametrize("level", [0.01, 0.05, 0.2])
@pytest.mark.parametrize("freedom", [1, 2, 3, 5, 10, 37, 200, 3000])
def test_power_against_the_noncentral_t(freedom: int, level: float) -> None:
    # scipy.stats.nct, the far tail by reflection.
    t = stats.t.isf(level / 2, freedom)
    for shift in (0.0, 0.3, 1.0, 2.5, 4.0, 8.0):
        both = stats.nct.sf(t, freedom, shift) + stats.nct.sf(t, freedom, -shift)
        assert two_sided_power(shift, freedom, level) == pytest.approx(both, abs=1e-8)


@pytest.mark.parametrize("plugs", [2, 3, 6, 20])
def test_power_against_statsmodels(plugs: int) -> None:
    # statsmodels.stats.power.TTestIndPower: two groups of `plugs`, freedom 2 plugs − 2.
    reference = power.TTestIndPower().power(effect_size=1.2, nobs1=plugs, alpha=0.05)
    ours = two_sided_power(1.2 / math.sqrt(2 / plugs), 2 * plugs - 2)
    assert ours == pytest.approx(reference, abs=1e-8)


@given(st.integers(1, 500), st.floats(0.001, 0.5))
def test_without_a_shift_the_power_is_the_level(freedom: int, level: float) -> None:
    assert two_sided_power(0.0, freedom, level) == pytest.approx(level, abs=1e-6)


@given(st.integers(1, 200), st.floats(0.0, 6.0), st.floats(0.01, 3.0))
def test_a_larger_shift_is_found_more_often_whichever_way(
    freedom: int, shift: float, more: float
) -> None:
    ours = two_sided_power(shift, freedom)
    assert two_sided_power(-shift, freedom) == pytest.approx(ours, abs=1e-12)
    assert ours <= two_sided_power(shift + more, freedom) + 1e-12 <= 1.0 + 1e-11


@pytest.mark.parametrize(
    "call",
    [
        lambda: student_t(0.95, 0),
        lambda: student_t(1.0, 5),
        lambda: student_t(math.nan, 5),
        lambda: two_sided_power(1.0, 0),
        lambda: two_sided_power(1.0, 5, 0.0),
        lambda: two_sided_power(math.nan, 5),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="must"):
        call()
