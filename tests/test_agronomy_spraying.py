"""Sprayers calibrated with plain water: output, what a tank covers, and how many tanks."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.spraying import spray_gal_per_1000, tank_covers_sqft, tanks_for


def test_a_gallon_on_two_hundred_square_feet() -> None:
    # The example of the reference values: 5 gal per 1,000 sq ft, a 10 gal tank covers 2,000.
    gal_per_1000 = spray_gal_per_1000(1.0, 200.0)
    assert gal_per_1000 == pytest.approx(5.0)
    assert tank_covers_sqft(10.0, gal_per_1000) == pytest.approx(2000.0)


@pytest.mark.parametrize(
    ("area", "full", "last_gal"),
    [(2000.0, 1, 0.0), (4000.0, 2, 0.0), (5000.0, 2, 5.0), (500.0, 0, 2.5), (0.0, 0, 0.0)],
)
def test_full_tanks_and_the_last(area: float, full: int, last_gal: float) -> None:
    tanks = tanks_for(area, 10.0, 5.0)
    assert tanks.full == full
    assert tanks.last_gal == pytest.approx(last_gal)


@given(st.floats(1.0, 1e5), st.floats(0.1, 100.0), st.floats(0.1, 20.0))
def test_the_tanks_hold_the_spray_of_the_area(area: float, tank: float, rate: float) -> None:
    tanks = tanks_for(area, tank, rate)
    assert 0.0 <= tanks.last_gal < tank * (1 + 1e-9)
    assert tanks.full * tank + tanks.last_gal == pytest.approx(area * rate / 1000.0, rel=1e-6)


@given(st.integers(1, 60), st.floats(0.1, 100.0), st.floats(0.1, 20.0))
def test_whole_tanks_leave_no_last_one(count: int, tank: float, rate: float) -> None:
    assert tanks_for(count * tank * 1000.0 / rate, tank, rate) == (count, 0.0)


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="used_gal must be above zero"):
        spray_gal_per_1000(0.0, 100.0)
    with pytest.raises(ValueError, match="area_sqft must be above zero"):
        spray_gal_per_1000(1.0, 0.0)
    with pytest.raises(ValueError, match="tank_gal must be above zero"):
        tank_covers_sqft(0.0, 1.0)
    with pytest.raises(ValueError, match="gal_per_1000 must be above zero"):
        tank_covers_sqft(1.0, 0.0)
    with pytest.raises(ValueError, match="area_sqft must be zero or more"):
        tanks_for(-1.0, 1.0, 1.0)
