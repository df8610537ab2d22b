"""The order in which valves open one at a time, so that each zone's soaks are filled by the others.

Whole minutes throughout, as a timer is set.
"""

import math
from collections.abc import Sequence

from lawnbook.frozen import dataclass

WORTH_MINUTES = 15
"""For less than this the owner's order of zones is not left: it is the one they know."""


@dataclass(frozen=True, slots=True)
class Part:
    """One opening of a valve: its cycle from 1, its minutes, and the least rest after it."""

    cycle: int
    minutes: int
    rest_minutes: int


@dataclass(frozen=True, slots=True)
class Slot:
    """A part in its place: whose it is (an index), and when it starts, from the first start on."""

    load: int
    part: Part
    at_minute: int

    @property
    def ends(self) -> int:
        """The minute at which the valve closes."""
        return self.at_minute + self.part.minutes


Load = tuple[Part, ...]
"""What one zone needs in a night, in order."""


def rotation(loads: Sequence[Load]) -> tuple[Slot, ...]:
    """All parts of all loads, one after the other, in the order of their starts.

    The first part of each zone in the owner's order, then the second, and so on, waiting for a
    soak where the others do not fill it. Where it is done sooner by `WORTH_MINUTES` or more, the
    zone that has the most still before it goes first instead.
    """
    owners, fullest = _in_rounds(loads), _fullest_first(loads)
    saved = elapsed_minutes(owners) - elapsed_minutes(fullest)
    return fullest if saved >= WORTH_MINUTES else owners


def elapsed_minutes(slots: Sequence[Slot]) -> int:
    """From the first start to the last valve's closing."""
    return max((slot.ends for slot in slots), default=0)


def cut_to(loads: Sequence[Load], minutes: int) -> tuple[Load, ...]:
    """The loads shortened all alike, in hundredths, until the rotation takes no more `minutes`."""
    if elapsed_minutes(rotation(loads)) <= minutes:
        # Asked first: a shorter rotation may take longer, since other zones come first then.
        return tuple(loads)
    fits, does_not = 0, 100
    while does_not - fits > 1:
        percent = (fits + does_not) // 2
        if elapsed_minutes(rotation(_shortened(loads, percent))) <= minutes:
            fits = percent
        else:
            does_not = percent
    return _shortened(loads, fits)


def _shortened(loads: Sequence[Load], percent: int) -> tuple[Load, ...]:
    # What stands on the ground after a shorter cycle goes in sooner, so the rest shrinks with it.
    return tuple(
        tuple(
            Part(part.cycle, part.minutes * percent // 100, -(-part.rest_minutes * percent // 100))
            for part in load
            if part.minutes * percent // 100
        )
        for load in loads
    )


def _in_rounds(loads: Sequence[Load]) -> tuple[Slot, ...]:
    ready = [0] * len(loads)
    slots: list[Slot] = []
    free = 0
    for turn in range(max(map(len, loads), default=0)):
        for index, load in enumerate(loads):
            if turn < len(load):
                slot = Slot(index, load[turn], max(free, ready[index]))
                slots.append(slot)
                free = slot.ends
                ready[index] = free + slot.part.rest_minutes
    return tuple(slots)


def _fullest_first(loads: Sequence[Load]) -> tuple[Slot, ...]:
    ready, done = [0] * len(loads), [0] * len(loads)
    slots: list[Slot] = []
    free = 0
    while waiting := [index for index, load in enumerate(loads) if done[index] < len(load)]:
        free = max(free, min(ready[index] for index in waiting))
        index = max(
            (each for each in waiting if ready[each] <= free),
            key=lambda each: _still_takes(loads[each][done[each] :]),
        )
        slot = Slot(index, loads[index][done[index]], free)
        slots.append(slot)
        free = slot.ends
        ready[index] = free + slot.part.rest_minutes
        done[index] += 1
    return tuple(slots)


def _still_takes(parts: Load) -> int:
    return sum(part.minutes + part.rest_minutes for part in parts) - parts[-1].rest_minutes


def whole_minutes(value: float) -> int:
    """Minutes rounded up, forgiving the last digits of floating point."""
    return math.ceil(value - 1e-6)
