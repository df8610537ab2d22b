"""The root zone as a store: what it can lose, how often to refill it, and when that is due.

Depths in, ETc in/day. Depletion is 0 at field capacity and grows as water is used. Source: "fao56",
chapter 8. ValueError outside a formula's domain. `root_zone` follows it day by day.
"""

from collections.abc import Sequence

import numpy as np

from lawnbook.agronomy.checks import (
    COUNTING_SLACK,
    Reals,
    between,
    floor_count,
    not_negative,
    not_negative_array,
    positive,
)

Daily = Sequence[float] | Reals

DEFAULT_ROOT_DEPTH_IN = 6.0
"""Root depth from the crowns before the first plug (common practice; always shown as a default)."""


def rooted_soil_in(root_depth_in: float, thatch_in: float) -> float:
    """Soil (in) that roots fill: root depth from the crowns less the thatch, never below zero."""
    return max(
        0.0, not_negative("root_depth_in", root_depth_in) - not_negative("thatch_in", thatch_in)
    )


def bearable_depth_in(
    depletion_fraction: float, available_water_in_per_in: float, rooted_soil_in: float
) -> float:
    """Water (in) roots can give up before the grass is short: p x available water x rooted soil.

    The readily available water of FAO-56 eq. 82 and 83. `depletion_fraction` lies within 0-1.
    """
    return (
        between("depletion_fraction", depletion_fraction, 0.0, 1.0)
        * positive("available_water_in_per_in", available_water_in_per_in)
        * not_negative("rooted_soil_in", rooted_soil_in)
    )


def interval_days(target_in: float, bearable_in: float, etc_in_per_day: float) -> int:
    """Days between waterings: floor(min(target, bearable) / ETc), at least 1.

    ValueError where ETc is not above 0.
    """
    positive("target_in", target_in)
    depth_in = min(target_in, not_negative("bearable_in", bearable_in))
    return max(1, floor_count(depth_in / positive("etc_in_per_day", etc_in_per_day)))


def watering_depth_in(target_in: float, bearable_in: float, etc_in_per_day: float) -> float:
    """Net depth (in) of one watering: the interval's use, at most what roots can bear."""
    days = interval_days(target_in, bearable_in, etc_in_per_day)
    return min(days * etc_in_per_day, bearable_in)


def shortfall_in_per_day(bearable_in: float, etc_in_per_day: float) -> float:
    """By how much (in) one day's use is more than roots can bear; 0 where they can."""
    return max(
        0.0,
        not_negative("etc_in_per_day", etc_in_per_day) - not_negative("bearable_in", bearable_in),
    )


def roots_needed_in(
    target_in: float, depletion_fraction: float, available_water_in_per_in: float
) -> float:
    """Rooted soil (in, below the thatch) that bears `target_in`: `bearable_depth_in` turned."""
    allowed = positive("depletion_fraction", depletion_fraction)
    between("depletion_fraction", allowed, 0.0, 1.0)
    held = positive("available_water_in_per_in", available_water_in_per_in)
    return not_negative("target_in", target_in) / (allowed * held)


def days_until_depletion(start_in: float, allowance_in: float, etc_in: Daily) -> int | None:
    """Days until depletion first reaches `allowance_in` by the coming days' ETc, no rain.

    0 when it is reached already, n when the n-th coming day reaches it, None when the series ends
    first.
    """
    allowance = not_negative("allowance_in", allowance_in) - COUNTING_SLACK
    used = not_negative("start_in", start_in) + np.cumsum(not_negative_array("etc_in", etc_in))
    if start_in >= allowance:
        return 0
    reached = np.flatnonzero(used >= allowance)
    return int(reached[0]) + 1 if reached.size else None
