"""How often so many pairs fall when nothing but chance orders the plugs of one or more spots.

Of n plugs without a trend every order is alike likely, and the number of falling pairs is the sum
of n independent numbers, the k-th of 0 to k − 1. Pure numbers, no units. Source: "kendall".
"""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from lawnbook.agronomy.checks import Array

MOST_LISTED = 60
"""Up to so many plugs the chance of every number of falls is listed; more would take too long."""

REACH_SD = 9.5
"""So many standard deviations out a normal curve has fallen below any rounding."""


@lru_cache(maxsize=1024)
def most_falls(plugs: tuple[int, ...], chance: float) -> int:
    """The most falling pairs that come, with all fewer ones, no oftener than `chance`; -1 for none.

    `plugs` counts those of each spot; pairs are of one spot, and counted over all.
    """
    if sum(plugs) > MOST_LISTED:
        return _most_of_many(plugs, chance)
    listed = np.ones(1)
    for each in plugs:
        listed = np.convolve(listed, _falls(each))
    return int(np.searchsorted(np.cumsum(listed), chance, side="right")) - 1


def pairs_of(plugs: Sequence[int]) -> int:
    """How many pairs there are within the spots."""
    return sum(each * (each - 1) // 2 for each in plugs)


@lru_cache(maxsize=256)
def _falls(plugs: int) -> Array:
    """Chance of every number of falling pairs when all orders of so many plugs are alike."""
    chance = np.ones(1)
    for each in range(2, plugs + 1):
        chance = np.convolve(chance, np.full(each, 1.0 / each))
    return chance


def _most_of_many(plugs: tuple[int, ...], chance: float) -> int:
    """As `most_falls`, by halving: the chance of at most so many falls grows with them."""
    waves = _waves(plugs)
    low, high = -1, pairs_of(plugs)
    while high - low > 1:
        middle = (low + high) // 2
        if _at_most(middle, high=pairs_of(plugs), waves=waves) <= chance:
            low = middle
        else:
            high = middle
    return low


def _waves(plugs: tuple[int, ...]) -> tuple[Array, Array]:
    """Angles and heights of the waves whose sum is the chance of each number of falls.

    The characteristic function at whole parts of a turn: about the mean it is real, the product of
    sin(k t / 2) / (k sin(t / 2)). With many plugs all but the slowest waves are nothing.
    """
    pairs = pairs_of(plugs)
    variance = sum(n * (n - 1) * (2 * n + 5) / 72.0 for n in plugs)
    most = math.ceil(REACH_SD / math.sqrt(variance) * (pairs + 1) / (2.0 * math.pi))
    waves = np.arange(1, min(most, pairs // 2) + 1, dtype=np.float64)
    angles = 2.0 * math.pi / (pairs + 1) * waves
    heights = np.ones(angles.size)
    for n in plugs:
        for k in range(2, n + 1):
            heights *= np.sin(k * angles / 2.0) / (k * np.sin(angles / 2.0))
    return angles, heights


def _at_most(falls: int, *, high: int, waves: tuple[Array, Array]) -> float:
    """Chance of so many falling pairs or fewer, of at most `high`."""
    angles, heights = waves
    middle = high / 2.0
    ends = np.sin(angles * (falls + 0.5 - middle)) + np.sin(angles * (middle + 0.5))
    total = float((heights * ends / (2.0 * np.sin(angles / 2.0))).sum())
    return (falls + 1 + 2.0 * total) / (high + 1)
