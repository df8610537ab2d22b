"""Spreaders calibrated by weight: the rate over a strip, and the setting between two."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.spreading import setting_between, spreader_rate_lb_per_1000

RATE = st.floats(0.1, 40.0)
SETTING = st.floats(0.0, 40.0)


def test_half_a_pound_on_fifty_square_feet() -> None:
    # By hand: half a pound on 50 sq ft is 1 lb per 100 sq ft, 10 lb per 1,000.
    assert spreader_rate_lb_per_1000(0.5, 50.0, 1.0) == pytest.approx(10.0)


@given(RATE, st.floats(1.0, 500.0), st.floats(0.5, 30.0))
def test_the_pounds_of_a_rate_give_the_rate(rate: float, strip: float, width: float) -> None:
    used_lb = rate * strip * width / 1000.0
    assert spreader_rate_lb_per_1000(used_lb, strip, width) == pytest.approx(rate)


def test_halfway_between_two_settings() -> None:
    assert setting_between(3.0, (4.0, 2.0), (6.0, 4.0)) == pytest.approx(5.0)
    assert setting_between(2.0, (4.0, 2.0), (6.0, 4.0)) == pytest.approx(4.0)
    assert setting_between(4.0, (4.0, 2.0), (6.0, 4.0)) == pytest.approx(6.0)


@given(RATE, RATE, SETTING, SETTING, st.floats(0, 1))
def test_the_setting_lies_between(a: float, b: float, s1: float, s2: float, share: float) -> None:
    low, high = sorted((a, b))
    first, second = sorted((s1, s2))
    if high - low < 1e-6:
        return
    wanted = min(high, max(low, low + share * (high - low)))
    setting = setting_between(wanted, (first, low), (second, high))
    assert first - 1e-9 <= setting <= second + 1e-9


@pytest.mark.parametrize("wanted", [1.9, 4.1])
def test_nothing_beyond_what_was_weighed(wanted: float) -> None:
    with pytest.raises(ValueError, match="must lie between two rates"):
        setting_between(wanted, (4.0, 2.0), (6.0, 4.0))


def test_out_of_domain() -> None:
    with pytest.raises(ValueError, match="strip_ft must be above zero"):
        spreader_rate_lb_per_1000(1.0, 0.0, 5.0)
    with pytest.raises(ValueError, match="width_ft must be above zero"):
        spreader_rate_lb_per_1000(1.0, 10.0, 0.0)
    with pytest.raises(ValueError, match="used_lb must be zero or more"):
        spreader_rate_lb_per_1000(-1.0, 10.0, 5.0)
    with pytest.raises(ValueError, match="must lie between two rates"):
        setting_between(2.0, (4.0, 2.0), (6.0, 2.0))
