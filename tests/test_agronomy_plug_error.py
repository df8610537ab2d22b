"""How far one plug may be off: by hand, against scipy's analysis of variance, and by simulation."""

import importlib
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawnbook.agronomy.plug_error import PlugSpread, plug_spread

stats = importlib.import_module("scipy.stats")
SIXTEENTH = 1 / 16
SIXTEENTHS = st.integers(0, 32).map(lambda count: count / 16.0)
DAYS = st.lists(
    st.lists(st.lists(SIXTEENTHS, min_size=1, max_size=4), min_size=1, max_size=3),
    min_size=1,
    max_size=6,
)


def test_by_hand() -> None:
    # Within: 4 x 0.1² / 2 = 0.02. Between: means 1.0 and 1.4, 2 x (0.2² + 0.2²) = 0.16.
    spread = plug_spread([[[0.9, 1.1], [1.3, 1.5]]], 0.0)
    assert spread is not None
    assert spread.readings_in == pytest.approx(math.sqrt(0.02))
    assert spread.plugs_in == pytest.approx(math.sqrt((0.16 - 0.02) / 2))
    assert (spread.readings, spread.replicates) == (2, 1)
    assert spread.day_in(2, 2) == pytest.approx(math.sqrt(0.07 / 2 + 0.02 / 4))


@pytest.mark.parametrize("seed", range(6))
def test_one_day_against_an_analysis_of_variance(seed: int) -> None:
    # scipy.stats.f_oneway: F is the mean square between plugs over that within.
    rng = np.random.default_rng(seed)
    plugs = [rng.normal(1.0 + rng.normal(0, 0.2), 0.05, 3).tolist() for _ in range(5)]
    spread = plug_spread([plugs], 0.0)
    assert spread is not None
    assert spread.plugs_in is not None
    ratio = 1 + 3 * spread.plugs_in**2 / spread.readings_in**2
    assert ratio == pytest.approx(stats.f_oneway(*plugs).statistic)


def test_unbalanced_days_give_back_what_they_were_drawn_from() -> None:
    # Seeded: 0.08 in between plugs, 0.03 in between readings, 1 to 4 readings, 1 to 3 plugs a day.
    rng = np.random.default_rng(20261128)
    days = [
        [
            (rng.normal(level, 0.08) + rng.normal(0, 0.03, rng.integers(1, 5))).tolist()
            for _ in range(rng.integers(1, 4))
        ]
        for level in rng.uniform(0.5, 1.5, 2000)
    ]
    spread = plug_spread(days, 0.0)
    assert spread is not None
    assert spread.readings_in == pytest.approx(0.03, abs=0.001)
    assert spread.plugs_in == pytest.approx(0.08, abs=0.003)


def test_readings_all_alike_are_no_finer_than_the_ruler() -> None:
    spread = plug_spread([[[0.75, 0.75, 0.75]], [[0.5, 0.5]]], SIXTEENTH)
    rounding = SIXTEENTH / math.sqrt(12)
    assert spread == PlugSpread(rounding, None, rounding, 2, 0)
    assert spread.day_in(1, 3) == pytest.approx(rounding)


def test_single_readings_and_no_readings() -> None:
    rounding = SIXTEENTH / math.sqrt(12)
    assert plug_spread([], SIXTEENTH) is None
    assert plug_spread([[], [[]]], SIXTEENTH) is None
    assert plug_spread([[[0.75]]], SIXTEENTH) == PlugSpread(rounding, None, rounding, 1, 0)
    # Two single readings a day: half the square of their difference, less the ruler's share.
    pair = plug_spread([[[0.75], [1.0]]], SIXTEENTH)
    assert pair is not None
    assert pair.plugs_in == pytest.approx(math.sqrt(0.25**2 / 2 - rounding**2))


# A mark so fine that its square is no number any more is on no ruler.
@given(DAYS, st.just(0.0) | st.floats(1e-9, 0.2))
def test_more_plugs_and_readings_never_make_a_day_less_sure(
    days: list[list[list[float]]], resolution_in: float
) -> None:
    spread = plug_spread(days, resolution_in)
    assert spread is not None
    assert spread.ruler_in <= spread.readings_in
    assert spread.day_in(2, 3) <= spread.day_in(1, 3) <= spread.day_in(1, 1)
    assert spread.day_in(1, 9) >= spread.ruler_in
    shuffled = [[plug[::-1] for plug in day[::-1]] for day in days[::-1]]
    again = plug_spread(shuffled, resolution_in)
    assert again is not None
    assert again.readings_in == pytest.approx(spread.readings_in, abs=1e-9)
    assert (again.plugs_in is None) == (spread.plugs_in is None)
    assert again.plugs_in == pytest.approx(spread.plugs_in, abs=1e-6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: plug_spread([[[math.nan]]], SIXTEENTH),
        lambda: plug_spread([[[0.5]]], -0.1),
        lambda: PlugSpread(0.1, None, 0.0, 1, 0).day_in(0, 1),
        lambda: PlugSpread(0.1, None, 0.0, 1, 0).day_in(1, 0),
    ],
)
def test_out_of_domain(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"must|needs"):
        call()
