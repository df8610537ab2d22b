"""How many more dates of plugs give a trend its interval, and at which spots.

Counts, no units. ValueError without a spot, or for one with fewer than two dates.
"""

import math
from collections.abc import Sequence

from lawnbook.agronomy.trend import FEWEST_DATES, FEWEST_FOR_INTERVAL


def dates_to_add(dates: Sequence[int]) -> tuple[int, tuple[int, ...]]:
    """How many more dates at one spot give the trend its interval (95 %), and at which of them.

    `dates` counts the plugs of each spot in the trend, two dates or more. The spots are told by
    their place in it; (0, ()) where nothing is missing. ValueError without a spot, or for one
    with fewer than two dates.
    """
    if not dates or min(dates) < 2:
        raise ValueError("Every spot in the trend has two dates or more.")
    if _bear_interval(dates):
        return 0, ()
    needed = [_missing_at(dates, at) for at in range(len(dates))]
    return min(needed), tuple(at for at, more in enumerate(needed) if more == min(needed))


def _missing_at(dates: Sequence[int], at: int) -> int:
    if len(dates) > 2:
        dates_short = FEWEST_DATES - dates[at] if max(dates) < FEWEST_DATES else 0
        return max(dates_short, FEWEST_FOR_INTERVAL - sum(dates))
    tried = list(dates)
    while not _bear_interval(tried):
        tried[at] += 1
    return tried[at] - dates[at]


def _bear_interval(dates: Sequence[int]) -> bool:
    """Whether so many dates at each spot are enough for `mean_trend`'s interval of 95 %.

    Of one or two spots the ranks must have more orders than the two tails' share of 2.5 % each.
    """
    enough = sum(dates) >= FEWEST_FOR_INTERVAL and max(dates) >= FEWEST_DATES
    return enough and (len(dates) > 2 or math.prod(map(math.factorial, dates)) * 0.025 >= 1.0)
