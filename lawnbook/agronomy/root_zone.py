"""The water of a root zone and of the thatch above it, day by day, with every inch accounted for.

Depths in. Depletion is 0 at field capacity and grows as water is used. One day: slight rain
evaporates at once, run-off leaves, what is left fills the thatch and then goes into the soil; the
grass draws on the thatch first, then on the soil as far as it is not short; the rest drains.
Sources: "fao56", chapter 8, for the soil; "thatch-water" for the thatch.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import repeat
from math import inf
from typing import NamedTuple

import numpy as np

from lawnbook.agronomy.checks import (
    COUNTING_SLACK,
    Array,
    between,
    not_negative,
    not_negative_array,
)
from lawnbook.frozen import dataclass

SLIGHT_RAIN_SHARE = 0.2
"""Rain below this share of the day's ETo evaporates again and is ignored (FAO-56, chapter 8)."""

THATCH_WATER_IN_PER_IN = 0.10
"""Water (in) that an inch of wet thatch keeps from the soil: an assumption, not a measurement.

Thatch holds water on the surface yet keeps little of it (source "thatch-water"); a tenth of its
depth is taken until the owner says otherwise, and is always shown as assumed.
"""


class Day(NamedTuple):
    """What comes to a root zone on a day, what is asked of it, and what it can hold (in).

    `irrigation_in` is net, `runoff_in` what runs off of rain and irrigation together.
    `capacity_in` is the roots' available water (TAW), `thatch_capacity_in` what the thatch keeps.
    """

    eto_in: float
    etc_in: float
    rain_in: float
    irrigation_in: float
    runoff_in: float
    capacity_in: float
    thatch_capacity_in: float


class DayWater(NamedTuple):
    """Where a day's water went (in), and what is in store at its end.

    Rain and irrigation and yesterday's thatch store are `ignored_in`, `runoff_in`, `into_soil_in`,
    `from_thatch_in` and the new thatch store. Depletion is yesterday's − `clipped_in` −
    `into_soil_in` + `from_soil_in` + `drained_in`; `clipped_in` is what was used up in soil that
    roots have since left. `stress` is Ks, 1 where the grass is not short.
    """

    ignored_in: float
    runoff_in: float
    into_soil_in: float
    from_thatch_in: float
    from_soil_in: float
    drained_in: float
    clipped_in: float
    stress: float
    thatch_store_in: float
    depletion_in: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Days:
    """The columns of `Day` for some days in a row, arrays of the same length."""

    eto_in: Array
    etc_in: Array
    rain_in: Array
    irrigation_in: Array
    runoff_in: Array
    capacity_in: Array
    thatch_capacity_in: Array

    def rows(self) -> Iterator[Day]:
        """Each day in turn. ValueError where lengths differ or a figure is below zero."""
        checked = self.checked()
        columns = [getattr(checked, name).tolist() for name in Day._fields]
        return map(Day._make, zip(*columns, strict=True))

    def checked(self) -> "Days":
        """The same as float64 arrays. ValueError where lengths differ or a figure is below zero."""
        columns = {name: not_negative_array(name, getattr(self, name)) for name in Day._fields}
        if len({column.size for column in columns.values()}) > 1:
            raise ValueError("The daily series must be lists of the same length.")
        return Days(**columns)

    def since(self, place: int) -> "Days":
        """The days from a place on."""
        return Days(**{name: getattr(self, name)[place:] for name in Day._fields})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Series:
    """The columns of `DayWater` for some days in a row."""

    ignored_in: Array
    runoff_in: Array
    into_soil_in: Array
    from_thatch_in: Array
    from_soil_in: Array
    drained_in: Array
    clipped_in: Array
    stress: Array
    thatch_store_in: Array
    depletion_in: Array

    @property
    def used_in(self) -> Array:
        """What the grass drew on each day (in), from thatch and soil."""
        return self.from_thatch_in + self.from_soil_in

    @property
    def last(self) -> DayWater:
        """The last day; IndexError where there is none."""
        return DayWater(*(float(getattr(self, name)[-1]) for name in DayWater._fields))


@dataclass(frozen=True, slots=True, eq=False)
class Levels:
    """Depletion and the thatch's store at the end of each day (in), and what they came from.

    `starts_in` are the two before the first day; `p` is the share of TAW used up without stress.
    """

    days: Days
    p: float
    starts_in: tuple[float, float]
    depletion_in: Array
    thatch_store_in: Array

    def series(self) -> Series:
        """All that became of each day's water."""
        return _series_of(self)


def stress_coefficient(share_used: float, depletion_fraction: float) -> float:
    """Ks, 1 to 0: what of its full use grass still draws with a share of its water used up.

    (1 - share used) / (1 - p) beyond p = `depletion_fraction`, 1 up to it; both lie within 0-1.
    FAO-56 eq. 84, divided by TAW. Source: "fao56".
    """
    used = between("share_used", share_used, 0.0, 1.0)
    p = between("depletion_fraction", depletion_fraction, 0.0, 1.0)
    return 1.0 if used <= p else (1.0 - used) / (1.0 - p)


def day_water(depletion_in: float, thatch_store_in: float, day: Day, p: float) -> DayWater:
    """One day's step from yesterday's depletion and thatch store, FAO-56 eq. 84, 85 and 88.

    All figures are zero or more, `p` is the share of TAW used up without stress, 0-1: it is not
    checked here, since years of days go through. Use is netted before surplus drains.
    Source: "fao56".
    """
    eto, etc, rain, irrigation, runoff, capacity, thatch_capacity = day
    ignored = rain if rain < SLIGHT_RAIN_SHARE * eto else 0.0
    arriving = rain - ignored + irrigation
    runoff = min(runoff, arriving)
    # Thatch that has thinned gives what it no longer holds to the soil.
    wet = thatch_store_in + arriving - runoff
    store = min(wet, thatch_capacity)
    into_soil = wet - store
    from_thatch = min(store, etc)

    kept = min(depletion_in, capacity)
    watered = kept - into_soil
    stress = _stress(max(watered, 0.0), capacity, p)
    from_soil = min((etc - from_thatch) * stress, capacity - watered)
    level = watered + from_soil
    return DayWater(
        ignored,
        runoff,
        into_soil,
        from_thatch,
        from_soil,
        max(-level, 0.0),
        depletion_in - kept,
        stress,
        store - from_thatch,
        max(level, 0.0),
    )


def root_zone_levels(
    days: Days, p: float, start_in: float = 0.0, thatch_start_in: float = 0.0
) -> Levels:
    """What is in store at the end of every day; `series` tells all that `root_zone_series` does.

    ValueError like there. Source: "fao56".
    """
    between("p", p, 0.0, 1.0)
    starts = (not_negative("start_in", start_in), not_negative("thatch_start_in", thatch_start_in))
    checked = days.checked()
    never = _Refills(repeat(inf), _no_refill, checked.irrigation_in)
    return _levels(checked, p, starts, never)


def root_zone_series(
    days: Days, p: float, start_in: float = 0.0, thatch_start_in: float = 0.0
) -> Series:
    """Every day's water, from a depletion and a thatch store before the first day.

    The figures of `day_water` day after day, to the last bit, but ten times as fast. ValueError
    for figures below zero, `p` outside 0-1, or lists of unequal lengths. Source: "fao56".
    """
    return root_zone_levels(days, p, start_in, thatch_start_in).series()


def refilled_series(
    days: Days, p: float, dusk_from_in: Sequence[float], refill_in: Callable[[int, float], float]
) -> tuple[Array, Series]:
    """The days from a full root zone with waterings at dawn, and those waterings' net depths (in).

    On a day whose use would bring depletion to its `dusk_from_in` (infinite where nobody may
    water), `refill_in` is asked with the day's place and the depletion at its dawn. Nothing of a
    refill runs off, and `irrigation_in` of `days` counts for nothing. ValueError like
    `root_zone_series`. Source: "fao56".
    """
    between("p", p, 0.0, 1.0)
    full = (0.0, 0.0)
    dry = replace(days, irrigation_in=np.zeros(len(dusk_from_in))).checked()
    refills = _Refills(dusk_from_in, refill_in, np.zeros(len(dusk_from_in)))
    levels = _levels(dry, p, full, refills)
    watered = replace(dry, irrigation_in=refills.irrigation_in)
    return refills.irrigation_in, replace(levels, days=watered).series()


def filled_on(days: Days, least_after: int = 1) -> int | None:
    """The last day whose end finds the roots full, whatever stood in them before the first.

    What is used is taken as if thatch gave nothing and the grass were never short, what comes as
    if thatch had to be filled first, so that true depletion is never more. From that day on the
    levels are, to the last bit, those that begin with it from full roots and dry thatch: it fills
    both. None where there is none with so many days after it. The days are not checked here.
    Source: "fao56".
    """
    arriving, runoff = _arriving(days)
    into_soil = np.maximum(arriving - runoff - days.thatch_capacity_in, 0.0)
    most, found = inf, None
    columns = (into_soil.tolist(), days.etc_in.tolist(), days.capacity_in.tolist())
    asked = range(days.eto_in.size - least_after)
    for place, into, etc, capacity in zip(asked, *columns, strict=False):
        most = min(most, capacity) - into + etc
        if most <= 0.0:
            # By more than adding can round away.
            found = place if most < -COUNTING_SLACK else found
            most = 0.0
    return found


class _Refills(NamedTuple):
    """From which depletion at dusk each day is refilled, with how much, and all that was given."""

    dusk_from_in: Iterable[float]
    refill_in: Callable[[int, float], float]
    irrigation_in: Array


def _levels(days: Days, p: float, starts: tuple[float, float], refills: _Refills) -> Levels:
    """The part of `day_water` that each day hands to the next, in plain numbers: nothing else is.

    All that does not depend on the day before is reckoned for all days at once.
    """
    depletion, store = starts
    depletions: list[float] = []
    stores: list[float] = []
    arriving, runoff = _arriving(days)
    columns = (arriving, runoff, days.etc_in, *_limits(days, p))
    rows = zip(refills.dusk_from_in, *(each.tolist() for each in columns), strict=False)
    for dusk_from, arrives, lost, etc, holds, capacity, ready, rest in rows:
        if depletion + etc < dusk_from:
            wet = store + arrives - lost
        else:
            place = len(stores)
            refills.irrigation_in[place] = refill = refills.refill_in(place, depletion)
            came = arrives + refill
            wet = store + came - min(float(days.runoff_in[place]), came)
        into_soil = wet - holds
        if into_soil > 0.0:
            store = holds
        else:
            store, into_soil = wet, 0.0
        level = capacity - into_soil if depletion > capacity else depletion - into_soil
        if store > etc:
            store -= etc
            wanted = 0.0
        else:
            wanted = etc - store
            store = 0.0
        if level > ready:
            wanted *= (capacity - level) / rest
        room = capacity - level
        level = level + wanted if wanted < room else level + room
        if level > 0.0:
            depletion = level
            depletions.append(level)
        else:
            depletion = 0.0
            depletions.append(0.0)
        stores.append(store)
    return Levels(days, p, starts, np.array(depletions), np.array(stores))


def _no_refill(_place: int, _dawn_in: float) -> float:
    return 0.0


def _arriving(days: Days) -> tuple[Array, Array]:
    """What of rain and irrigation does not evaporate at once, and what of that runs off."""
    slight = days.rain_in < SLIGHT_RAIN_SHARE * days.eto_in
    arriving = np.where(slight, 0.0, days.rain_in) + days.irrigation_in
    return arriving, np.minimum(days.runoff_in, arriving)


def _limits(days: Days, p: float) -> tuple[Array, Array, Array, Array]:
    """What thatch and roots hold, what is used without stress, and the rest that stress is told by.

    Where roots reach no soil the grass draws nothing: its stress is 0 from the first drop on.
    """
    capacity = days.capacity_in
    bare = capacity == 0.0
    ready = np.where(bare, -inf, p * capacity)
    rest = np.where(bare, inf, (1.0 - p) * capacity)
    return days.thatch_capacity_in, capacity, ready, rest


def _series_of(levels: Levels) -> Series:
    """All columns, from what each day handed to the next."""
    days, depletion, store = levels.days, levels.depletion_in, levels.thatch_store_in
    dawn, dawn_store = (
        np.concatenate(((start,), column[:-1]))[: column.size]
        for start, column in zip(levels.starts_in, (depletion, store), strict=True)
    )
    arriving, runoff = _arriving(days)
    holds, capacity, ready, rest = _limits(days, levels.p)
    wet = dawn_store + arriving - runoff
    held = np.minimum(wet, holds)
    into_soil = wet - held
    from_thatch = np.minimum(held, days.etc_in)
    kept = np.minimum(dawn, capacity)
    watered = kept - into_soil
    used = np.maximum(watered, 0.0)
    stress = np.ones_like(used)
    np.divide(capacity - used, rest, out=stress, where=used > ready)
    from_soil = np.minimum((days.etc_in - from_thatch) * stress, capacity - watered)
    return Series(
        ignored_in=np.where(days.rain_in < SLIGHT_RAIN_SHARE * days.eto_in, days.rain_in, 0.0),
        runoff_in=runoff,
        into_soil_in=into_soil,
        from_thatch_in=from_thatch,
        from_soil_in=from_soil,
        drained_in=np.maximum(-(watered + from_soil), 0.0),
        clipped_in=dawn - kept,
        stress=stress,
        thatch_store_in=store,
        depletion_in=depletion,
    )


def _stress(depletion_in: float, capacity_in: float, p: float) -> float:
    """Ks from a depletion within capacity; 0 where roots reach no soil."""
    if capacity_in == 0.0:
        return 0.0
    if depletion_in <= p * capacity_in:
        return 1.0
    return (capacity_in - depletion_in) / ((1.0 - p) * capacity_in)
