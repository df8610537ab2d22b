"""Series of plugs for the tests of trends: without noise, drawn by a seed, or by hypothesis."""

from collections.abc import Sequence

import numpy as np
from hypothesis import strategies as st

from lawnbook.agronomy.spots_trend import Series

# Sixteenths of an inch, as read off a ruler, so that values tie as they do in life.
SIXTEENTHS = st.integers(0, 32).map(lambda count: count / 16.0)
MONTHS = st.integers(0, 120)


@st.composite
def drawn_series(draw: st.DrawFn, most: int = 12) -> Series:
    """One spot with up to `most` plugs, on different months of ten years; maybe none."""
    months = sorted(draw(st.lists(MONTHS, max_size=most, unique=True)))
    values = draw(st.lists(SIXTEENTHS, min_size=len(months), max_size=len(months)))
    return Series(tuple(2018.0 + month / 12.0 for month in months), tuple(values))


def drawn_yards(fewest: int = 1, most: int = 5) -> st.SearchStrategy[list[Series]]:
    """Yards of `fewest` to `most` spots."""
    return st.lists(drawn_series(), min_size=fewest, max_size=most)


def straight(slope: float, plugs: int = 7, level: float = 1.2, first: float = 2018.2) -> Series:
    """One spot plugged twice a year, thinning without any noise."""
    years = first + 0.5 * np.arange(plugs)
    return Series(tuple(years.tolist()), tuple((level + slope * (years - first)).tolist()))


def noisy(seed: int, slopes: Sequence[float], plugs: int = 7, sd: float = 0.08) -> list[Series]:
    """Spots of these true slopes (in/year), plugged on the same days, levels all about 1.2 in."""
    rng = np.random.default_rng(seed)
    found = []
    for slope in slopes:
        one = straight(slope, plugs, 1.2 + rng.normal(0.0, 0.1))
        values = np.asarray(one.values) + rng.normal(0.0, sd, plugs)
        found.append(Series(one.years, tuple(values.tolist())))
    return found
