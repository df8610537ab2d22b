"""Numbers by their rank among very many, which need not all be held at once.

Pure numbers, no units. A selection by counting: a sample tells between which values the wanted one
lies, one pass over all counts what is below and gathers what lies between. The answer is exact, and
the same as from the sorted whole. No source: it is plain counting.
"""

import math
from collections.abc import Callable, Iterator

import numpy as np

from lawnbook.agronomy.checks import Array

Blocks = Callable[[], Iterator[Array]]
"""Gives all the numbers anew, some at a time."""

SAMPLE = 100_000
"""So many of the numbers, evenly out of all, tell about where a rank lies."""


class Ranked:
    """Numbers given in blocks, asked for by rank; what was found once is kept."""

    def __init__(self, blocks: Blocks, count: int) -> None:
        """Of `count` numbers in all, which `blocks` gives as often as it is asked."""
        self._blocks, self._count = blocks, count
        self._found: dict[int, float] = {}
        self._sample: Array | None = None

    def at(self, *ranks: int) -> list[float]:
        """The numbers of some ranks, 0 for the least. IndexError for a rank beyond the last."""
        if not all(0 <= rank < self._count for rank in ranks):
            raise IndexError(f"Of {self._count} numbers none has such a rank: {list(ranks)}.")
        wanted = {rank for rank in ranks if rank not in self._found}
        if wanted and self._sample is None:
            self._sample = _sample(self._blocks, self._count)
        reach = 2.0
        while wanted and self._sample is not None:
            between = [_between(self._sample, rank / self._count, reach) for rank in wanted]
            windows = [_Window(rank, *ends) for rank, ends in zip(wanted, between, strict=True)]
            for block in self._blocks():
                for window in windows:
                    window.take(block)
            found = {each.rank: value for each in windows if (value := each.found()) is not None}
            self._found |= found
            wanted -= set(found)
            reach *= 4.0
        return [self._found[rank] for rank in ranks]


def _sample(blocks: Blocks, count: int) -> Array:
    """Every so many'th number in ascending order, however the numbers are cut into blocks."""
    step = max(1, count // SAMPLE)
    kept, passed = [], 0
    for block in blocks():
        kept.append(block[(-passed) % step :: step].copy())
        passed += block.size
    return np.sort(np.concatenate(kept))


def _between(sample: Array, share: float, reach: float) -> tuple[float, float]:
    """Between which numbers of a sample one lies that stands at a share of all, most likely."""
    about, wide = share * sample.size, reach * math.sqrt(sample.size)
    first, last = math.floor(about - wide), math.ceil(about + wide)
    low = -math.inf if first < 0 else float(sample[first])
    return low, math.inf if last >= sample.size else float(sample[last])


class _Window:
    """Counts what lies below two ends and gathers what lies between them, for one rank.

    What equals an end is counted and not gathered: of rounded readings very many may be equal.
    """

    def __init__(self, rank: int, low: float, high: float) -> None:
        self.rank, self._low, self._high = rank, low, high
        self._below = self._at_low = self._at_high = 0
        self._inside: list[Array] = []

    def take(self, block: Array) -> None:
        """Count a block."""
        up_to = block[block <= self._high]
        inside = up_to[up_to > self._low]
        self._below += int(np.count_nonzero(up_to < self._low))
        self._at_low += up_to.size - inside.size
        within = inside[inside < self._high]
        self._at_high += inside.size - within.size
        self._inside.append(within)

    def found(self) -> float | None:
        """The number of the rank if it lies between the ends or on one of them, else None."""
        place = self.rank - self._below
        at_low = self._at_low - self._below
        if place < 0:
            return None
        if place < at_low:
            return self._low
        place -= at_low
        between = np.concatenate(self._inside)
        if place < between.size:
            return float(np.partition(between, place)[place])
        return self._high if place < between.size + self._at_high else None
