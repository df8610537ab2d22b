"""The rule of one third: when grass is mown, how often, and how it is brought down again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.mowing import (
    MOW_AT,
    PEAK_BY_SPECIES,
    cuts_down,
    days_between,
    mow_at_in,
    peak_growth_in_per_week,
)
from lawnbook.agronomy.sources import SOURCES
from lawnbook.agronomy.turf import SPECIES

HEIGHTS = st.floats(0.2, 6.0)


@pytest.mark.parametrize(
    ("height_in", "mown_at_in"),
    [(2.0, 3.0), (3.0, 4.5), (4.0, 6.0), (1.0, 1.5)],
)
def test_grass_is_mown_at_one_and_a_half_heights(height_in: float, mown_at_in: float) -> None:
    """Kansas State University: bluegrass kept at 2 in is not let grow higher than 3 in, and 4 in is
    mown at 6 in; Cornell University: 3 in at about 4.5 in; University of Tennessee: 1 in at 1.5.
    """
    assert mow_at_in(height_in) == pytest.approx(mown_at_in)


@pytest.mark.parametrize(("height_in", "days"), [(3.0, 7), (2.0, 4), (1.5, 3)])
def test_days_between_two_mowings_are_nebraskas(height_in: float, days: int) -> None:
    """University of Nebraska 2019: at 1.5 in a week, every 7, 4 or 3 days."""
    assert days_between(height_in, 1.5) == days


@pytest.mark.parametrize(
    ("stands_in", "cuts"),
    [(3.0, (3.0,)), (4.5, (3.0,)), (6.0, (4.0, 3.0)), (9.0, (6.0, 4.0, 3.0)), (0.0, (3.0,))],
)
def test_grass_that_is_too_tall_comes_down_in_steps(
    stands_in: float, cuts: tuple[float, ...]
) -> None:
    """Worked by hand: each cut leaves two thirds of what stands."""
    assert cuts_down(stands_in, 3.0) == pytest.approx(cuts)


@given(HEIGHTS, st.floats(0.0, 60.0))
def test_no_cut_takes_more_than_a_third(height_in: float, stands_in: float) -> None:
    cuts = cuts_down(stands_in, height_in)
    stands = stands_in
    for cut in cuts:
        assert cut >= stands / MOW_AT * (1 - 1e-6) or cut >= stands
        stands = cut
    assert cuts[-1] == height_in
    assert list(cuts) == sorted(cuts, reverse=True)


@given(HEIGHTS, st.floats(0.01, 8.0), st.floats(0.01, 8.0))
def test_faster_growth_never_waits_longer(height_in: float, one: float, other: float) -> None:
    slow, fast = sorted((one, other))
    assert days_between(height_in, fast) <= days_between(height_in, slow)


def test_species_grow_at_their_own_pace_and_name_a_source() -> None:
    assert peak_growth_in_per_week("tall fescue", "cool") == (1.5, "growth-rate")
    assert peak_growth_in_per_week(" Zoysiagrass ", "warm") == (0.75, "growth-rate-warm")
    assert peak_growth_in_per_week("", "warm")[1] in SOURCES
    known = {name.lower() for name in SPECIES}
    assert set(PEAK_BY_SPECIES) - known == {"buffalograss"}
    with pytest.raises(ValueError, match="grass must be"):
        peak_growth_in_per_week("", "green")


@pytest.mark.parametrize("wrong", [0.0, -1.0, float("nan")])
def test_outside_of_its_domain_the_rule_says_so(wrong: float) -> None:
    with pytest.raises(ValueError, match="height_in must be"):
        mow_at_in(wrong)
    with pytest.raises(ValueError, match="growth_in_per_week must be"):
        days_between(3.0, wrong)
