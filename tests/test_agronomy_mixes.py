"""Mixes: the weighted mean of what the parts hold, nothing gained and nothing lost."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.mixes import Analysis, blend

PCT = st.floats(0.0, 25.0)


@st.composite
def analyses(draw: st.DrawFn) -> Analysis:
    """An analysis that a label may state."""
    n_pct = draw(PCT)
    return Analysis(n_pct, draw(PCT), draw(PCT), n_pct * draw(st.floats(0, 1)))


PARTS = st.lists(st.tuples(st.floats(0.01, 500.0), analyses()), min_size=1, max_size=6)


def test_urea_and_a_potash_of_equal_weight() -> None:
    # By hand: 46-0-0 and 0-0-50 in equal parts are 23-0-25.
    mix = blend([(10.0, Analysis(46.0)), (10.0, Analysis(k2o_pct=50.0))])
    assert mix == Analysis(23.0, 0.0, 25.0, 0.0)


def test_water_thins() -> None:
    # By hand: 1 lb of 20-20-20 in 9 lb of water is 2-2-2.
    mix = blend([(1.0, Analysis(20.0, 20.0, 20.0)), (9.0, Analysis())])
    assert (mix.n_pct, mix.p2o5_pct, mix.k2o_pct) == pytest.approx((2.0, 2.0, 2.0))


@given(PARTS)
def test_a_mix_holds_the_pounds_of_its_parts(parts: list[tuple[float, Analysis]]) -> None:
    mix, total = blend(parts), sum(pounds for pounds, _ in parts)
    for name in ("n_pct", "p2o5_pct", "k2o_pct", "slow_n_pct", "quick_n_pct"):
        held = sum(pounds * getattr(each, name) for pounds, each in parts)
        assert getattr(mix, name) * total == pytest.approx(held, abs=1e-9)


@given(PARTS)
def test_a_mix_lies_between_its_parts(parts: list[tuple[float, Analysis]]) -> None:
    mix = blend(parts)
    n = [each.n_pct for _, each in parts]
    assert min(n) - 1e-9 <= mix.n_pct <= max(n) + 1e-9


def test_nothing_is_no_mix() -> None:
    with pytest.raises(ValueError, match="must weigh something"):
        blend([])
    with pytest.raises(ValueError, match="must weigh something"):
        blend([(0.0, Analysis(10.0))])
    with pytest.raises(ValueError, match="pounds must be zero or more"):
        blend([(-1.0, Analysis(10.0))])
