"""Numbers by their rank among very many, which need not all be held at once.

Pure numbers, no units. A selection by counting: a sample tells between which values the wanted one
lies, one pass over all counts what is below and gathers what lies between. The answer is exact, and
the same as from the sorted whole. No source: it is plain counting.
"""

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from lawnbook.agronomy.checks import Array

Blocks = Callable[[], Iterator[Array]]
"""Gives all the numbers anew, some at a time."""

SAMPLE = 100_000
"""So many of the numbers, evenly out of all, tell about where a rank lies."""


def ranked(blocks: Blocks, count: int, ranks: Sequence[int]) -> list[float]:
    """The numbers of some ranks, 0 for the least of all `count`. IndexError for a rank beyond."""
    if not all(0 <= rank < count for rank in ranks):
        raise IndexError(f"There are {count} numbers, and no rank of {list(ranks)} may lie beyond.")
    sample = _sample(blocks, count)
    return [_at(blocks, sample, rank, (rank + 0.5) / count * sample.size) for rank in ranks]


def _sample(blocks: Blocks, count: int) -> Array:
    """Every so many'th number in ascending order, however the numbers are cut into blocks."""
    step = max(1, count // SAMPLE)
    kept, passed = [], 0
    for block in blocks():
        kept.append(block[(-passed) % step :: step].copy())
        passed += block.size
    return np.sort(np.concatenate(kept))


def _at(blocks: Blocks, sample: Array, rank: int, about: float) -> float:
    """The number of a rank, which lies about a place of the sample."""
    reach = 2.0 * math.sqrt(sample.size)
    while True:
        first, last = math.floor(about - reach), math.ceil(about + reach)
        low = -math.inf if first < 0 else float(sample[first])
        high = math.inf if last >= sample.size else float(sample[last])
        found = _between(blocks, low, high, rank)
        if found is not None:
            return found
        reach *= 4.0


def _between(blocks: Blocks, low: float, high: float, rank: int) -> float | None:
    """The number of a rank if it lies from `low` to `high`, else None.

    What equals an end is counted and not gathered: of rounded readings very many may be equal.
    """
    below = at_low = at_high = 0
    inside: list[Array] = []
    for block in blocks():
        below += int(np.count_nonzero(block < low))
        at_low += int(np.count_nonzero(block == low))
        at_high += int(np.count_nonzero(block == high))
        inside.append(block[(block > low) & (block < high)])
    if rank < below:
        return None
    if rank < below + at_low:
        return low
    place = rank - below - at_low
    between = np.concatenate(inside)
    if place < between.size:
        return float(np.partition(between, place)[place])
    return high if place < between.size + at_high else None
