"""The smallest change between two dates that so many plugs would show, and how many would.

Two means of equally many plugs are set against each other by a two-sided t test, whose standard
error is sd √(2 / plugs). Inches. ValueError outside the domain. Source: "noncentral-t".
"""

import math
from functools import lru_cache

from lawnbook.agronomy.checks import ceil_count, not_negative, positive
from lawnbook.agronomy.student import share, two_sided_power

DEFAULT_POWER = 0.80
DEFAULT_LEVEL = 0.05
MOST_STEPS = 60
CLOSE = 1e-13
"""So near to the wanted power a shift is taken for it."""


def smallest_change(
    sd_in: float,
    freedom: int,
    plugs: int,
    power: float = DEFAULT_POWER,
    level: float = DEFAULT_LEVEL,
) -> float:
    """The change (in) that `plugs` plugs at each of two dates find with a probability `power`.

    `sd_in` is a single plug's standard deviation, estimated with `freedom` degrees of freedom.
    0 for an sd of 0. ValueError under one plug, or where power is not above level.
    """
    if plugs < 1:
        raise ValueError(f"plugs must be 1 or more, not {plugs}.")
    shift = _shift_found(freedom, power, level)
    return shift * not_negative("sd_in", sd_in) * math.sqrt(2.0 / plugs)


def plugs_for(
    change_in: float,
    sd_in: float,
    freedom: int,
    power: float = DEFAULT_POWER,
    level: float = DEFAULT_LEVEL,
) -> int:
    """The least number of plugs at each of two dates that finds a change (in); 1 or more.

    The spread stays known only as well as `freedom` says: what further plugs would teach of it is
    left out, so the count is on the safe side. Arguments and errors as in `smallest_change`.
    """
    shift = _shift_found(freedom, power, level)
    ratio = shift * not_negative("sd_in", sd_in) / positive("change_in", change_in)
    return max(1, ceil_count(2.0 * ratio * ratio))


@lru_cache(maxsize=1024)
def _shift_found(freedom: int, power: float, level: float) -> float:
    """The true shift, in standard errors, that the test finds with a probability `power`."""
    if share("power", power) <= share("level", level):
        raise ValueError(f"power must be above the level {level}, not {power}.")
    low, high = 0.0, 1.0
    while (off_high := two_sided_power(high, freedom, level) - power) < 0.0:
        low, high = high, 2.0 * high
    off_low = two_sided_power(low, freedom, level) - power
    # False position with the end that stays halved (Illinois): the power rises smoothly.
    for _ in range(MOST_STEPS):
        if abs(off_high) <= CLOSE:
            break
        new = high - off_high * (high - low) / (off_high - off_low)
        off = two_sided_power(new, freedom, level) - power
        if off * off_high < 0.0:
            low, off_low = high, off_high
        else:
            off_low /= 2.0
        high, off_high = new, off
    return high
