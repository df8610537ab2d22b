"""How far the plugs of a yard that were read in one way lie apart, by all of them up to any day.

One pass over the plugs sums up what each day adds; what is known on a day is then looked up, so
that hundreds of spots may ask, each for another day.
"""

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date
from itertools import accumulate

import numpy as np

from lawnbook.agronomy.checks import Array
from lawnbook.agronomy.plug_error import PlugRead, PlugSpread, SpreadSums, between_plugs
from lawnbook.plan.plug_series import ASSUMED_RESOLUTION_IN
from lawnbook.yard.records import Core


class YardSpread:
    """The spread of plugs up to a day; of the unpressed ones, or of the pressed."""

    def __init__(self, cores: Iterable[Core], *, pressed: bool) -> None:
        """Of these plugs, in any order; those without a thatch reading are passed over."""
        read = sorted(
            (core for core in cores if core.thatch_in and core.pressed == pressed),
            key=lambda core: core.date,
        )
        groups: dict[date, dict[str, list[PlugRead]]] = {}
        for core in read:
            of_day = groups.setdefault(core.date, {})
            of_day.setdefault(core.spot, []).append(PlugRead.of(core.thatch_in))
        self._dates = [on.toordinal() for on in groups]
        days = [list(each.values()) for each in groups.values()]
        self._sums = np.array([_sums(each) for each in days]).cumsum(axis=0)
        self._sizes = _running(Counter(plug.size for s in each for plug in s) for each in days)
        marks: dict[date, Counter[float]] = {on: Counter() for on in groups}
        for core in read:
            marks[core.date][core.resolution_in or ASSUMED_RESOLUTION_IN] += 1
        self._marks = _running(marks.values())

    def until(self, on: date) -> tuple[PlugSpread, int] | None:
        """The spread known on a day, and its readings' degrees of freedom; None before any."""
        place = int(np.searchsorted(self._dates, on.toordinal(), side="right")) - 1
        if place < 0:
            return None
        squares, freedom, between, counted, replicates = self._sums[place].tolist()
        sums = SpreadSums(squares, round(freedom), between, counted, round(replicates))
        marks = {mark: int(counts[place]) for mark, counts in self._marks.items()}
        square = math.fsum(mark * mark * count for mark, count in marks.items())
        resolution_in = math.sqrt(square / sum(marks.values()))
        sizes = {size: int(counts[place]) for size, counts in self._sizes.items()}
        return sums.spread(round(_median(sizes)), resolution_in), sums.freedom


def _sums(day: list[list[PlugRead]]) -> tuple[float, ...]:
    """What a day adds to the sums: its plugs by spot."""
    plugs = [plug for spot in day for plug in spot]
    squares, freedom = sum(each.squares for each in plugs), sum(each.size - 1 for each in plugs)
    return squares, freedom, *between_plugs(day), sum(len(spot) - 1 for spot in day)


def _running(counters: Iterable[Mapping[float, int]]) -> dict[float, Array]:
    """How often each number had come by the end of each day."""
    listed = list(counters)
    numbers = sorted({number for each in listed for number in each})
    return {
        number: np.array(list(accumulate(each.get(number, 0) for each in listed)))
        for number in numbers
    }


def _median(counts: Mapping[float, int]) -> float:
    """The middle of numbers in ascending order that come so many times; the mean of two."""
    count = sum(counts.values())
    reached = list(accumulate(counts.values()))
    low, high = (
        next(n for n, passed in zip(counts, reached, strict=True) if passed > rank)
        for rank in ((count - 1) // 2, count // 2)
    )
    return (low + high) / 2
