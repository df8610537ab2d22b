"""Numbers by rank, and the chances of ranks: as by sorting, and as by listing all there are."""

import importlib
import itertools
from collections.abc import Callable, Iterator, Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy import ranked as ranked_module
from lawnbook.agronomy import trend as trend_module
from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.rank_chances import _falls, _most_of_many, most_falls, pairs_of
from lawnbook.agronomy.ranked import Ranked
from lawnbook.agronomy.trend import (
    PairSlopes,
    middle_of_means,
    pairwise_slopes,
    theil_sen,
    theil_sen_interval,
)

CHANCES = (0.005, 0.0125, 0.025, 0.05)


def blocks_of(numbers: Sequence[float], size: int) -> Callable[[], Iterator[Array]]:
    """The numbers in blocks of a size, anew at each call."""
    cut = [np.array(numbers[at : at + size]) for at in range(0, len(numbers), size)]
    return lambda: iter(cut)


@given(
    st.lists(st.sampled_from([-1.5, 0.0, 0.25, 2.0]) | st.floats(-9.0, 9.0), min_size=1),
    st.integers(1, 7),
    st.integers(2, 9),
    st.data(),
)
def test_a_rank_is_that_of_the_sorted_whole(
    numbers: list[float], size: int, sample: int, data: st.DataObject
) -> None:
    ranks = data.draw(st.lists(st.integers(0, len(numbers) - 1), min_size=1, max_size=4))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(ranked_module, "SAMPLE", sample)
        found = Ranked(blocks_of(numbers, size), len(numbers)).at(*ranks)
    assert found == [sorted(numbers)[rank] for rank in ranks]


def test_there_is_no_rank_beyond_the_last() -> None:
    with pytest.raises(IndexError, match="Of 3 numbers"):
        Ranked(blocks_of([1.0, 2.0, 3.0], 2), 3).at(3)


@pytest.mark.parametrize("marks", [None, 16])
def test_many_plugs_have_the_slopes_that_sorting_gives(marks: int | None) -> None:
    # Readings on a ruler's marks tie by the thousand; readings without do not tie at all.
    draw = np.random.default_rng(3)
    years = np.sort(draw.uniform(0.0, 20.0, 120))
    values = 0.6 - 0.01 * years + draw.normal(0.0, 0.05, years.size)
    if marks:
        values = np.round(values * marks) / marks
    held = (
        theil_sen(years.tolist(), values.tolist()),
        theil_sen_interval(years.tolist(), values.tolist()),
        middle_of_means(values.tolist()),
    )
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(trend_module, "MOST_HELD", 100)
        patch.setattr(ranked_module, "SAMPLE", 300)
        counted = (
            theil_sen(years.tolist(), values.tolist()),
            theil_sen_interval(years.tolist(), values.tolist()),
            middle_of_means(values.tolist()),
        )
    assert counted == held


def test_few_plugs_have_the_slopes_of_many_to_the_last_bit() -> None:
    draw = np.random.default_rng(4)
    years, values = draw.uniform(0.0, 9.0, (2, 14))
    plain = pairwise_slopes(years.tolist(), values.tolist())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(trend_module, "FEW", 0)
        assert pairwise_slopes(years.tolist(), values.tolist()).tolist() == plain.tolist()
        by_blocks = middle_of_means(values.tolist())
    assert middle_of_means(values.tolist()) == by_blocks


def test_slopes_of_several_spots_are_of_pairs_within_each() -> None:
    one, other = ([0.0, 1.0, 3.0], [1.0, 2.0, 1.0]), ([0.0, 2.0], [5.0, 1.0])
    slopes = PairSlopes([one, other])
    assert slopes.all().tolist() == sorted([1.0, 0.0, -0.5, -2.0])
    assert slopes.median() == -0.25


@pytest.mark.parametrize("plugs", [(61,), (80,), (45, 30), (40, 25), (70, 3)])
@pytest.mark.parametrize("chance", CHANCES)
def test_the_chance_of_falls_by_waves_is_that_of_the_whole_list(
    plugs: tuple[int, ...], chance: float
) -> None:
    listed = np.ones(1)
    for each in plugs:
        listed = np.convolve(listed, _falls(each))
    most = int(np.searchsorted(np.cumsum(listed), chance, side="right")) - 1
    assert _most_of_many(plugs, chance) == most == most_falls(plugs, chance)


@pytest.mark.parametrize("plugs", [4, 5, 6, 7])
def test_few_plugs_are_counted_by_trying_every_order(plugs: int) -> None:
    falls = [
        sum(a > b for a, b in itertools.combinations(order, 2))
        for order in itertools.permutations(range(plugs))
    ]
    for chance in CHANCES:
        within = [
            most for most in range(-1, 22) if sum(f <= most for f in falls) <= chance * len(falls)
        ]
        assert most_falls((plugs,), chance) == max(within)


def test_many_plugs_agree_with_the_distribution_of_kendalls_tau() -> None:
    # scipy's exact null distribution of Kendall's tau: P(falls <= m), as a one-sided p-value.
    stats = importlib.import_module("scipy.stats")
    plugs, chance = 100, 0.025
    most = most_falls((plugs,), chance)

    def tail(falls: int) -> float:
        order = _order_with(falls, plugs)
        found = stats.kendalltau(range(plugs), order, method="exact", alternative="greater")
        return float(found.pvalue)

    assert tail(most) <= chance < tail(most + 1)
    assert pairs_of((plugs,)) == 4950


def _order_with(falls: int, plugs: int) -> list[int]:
    """An order of so many numbers with exactly so many falling pairs."""
    left, order, rest = falls, [], list(range(plugs))
    while rest:
        place = min(left, len(rest) - 1)
        order.append(rest.pop(place))
        left -= place
    return order
