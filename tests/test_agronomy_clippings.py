"""What clippings give back: a quarter to a half of the year's nitrogen, as published."""

import pytest

from lawnbook.agronomy.clippings import clippings_credit_lb
from lawnbook.plan.clippings import clippings_of
from tests.plan_yards import zone


def test_a_quarter_to_a_half() -> None:
    """Up to 25 percent (University of Missouri G6958), 50 percent (Connecticut, Guillard)."""
    assert clippings_credit_lb(4.0) == (1.0, 2.0)
    assert clippings_credit_lb(0.0) == (0.0, 0.0)
    with pytest.raises(ValueError, match="year_lb"):
        clippings_credit_lb(-1.0)


def test_only_clippings_left_on_the_lawn_give_back() -> None:
    assert clippings_of(zone(), 3.0) is None
    assert clippings_of(zone(clippings="bagged"), 3.0) is None
    credit = clippings_of(zone(clippings="left"), 3.0)
    assert credit is not None
    assert (credit.low_lb, credit.high_lb) == (0.75, 1.5)
    assert "0.75 to 1.50 lb" in credit.words
    assert "not taken off" in credit.words
    assert "Missouri" in credit.source
    assert "Connecticut" in credit.source
