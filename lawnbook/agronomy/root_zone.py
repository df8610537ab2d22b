"""The water of a root zone and of the thatch above it, day by day, with every inch accounted for.

Depths in. Depletion is 0 at field capacity and grows as water is used. One day: slight rain
evaporates at once, run-off leaves, what is left fills the thatch and then goes into the soil; the
grass draws on the thatch first, then on the soil as far as it is not short; the rest drains.
Sources: "fao56", chapter 8, for the soil; "thatch-water" for the thatch.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from lawnbook.agronomy.checks import Array, between, not_negative, not_negative_array

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
        columns = [not_negative_array(name, getattr(self, name)).tolist() for name in Day._fields]
        if len({len(column) for column in columns}) > 1:
            raise ValueError("The daily series must be lists of the same length.")
        return map(Day._make, zip(*columns, strict=True))


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


def root_zone_series(
    days: Days, p: float, start_in: float = 0.0, thatch_start_in: float = 0.0
) -> Series:
    """Every day's water, from a depletion and a thatch store before the first day.

    ValueError for figures below zero, `p` outside 0-1, or lists of unequal lengths.
    Source: "fao56".
    """
    between("p", p, 0.0, 1.0)
    depletion = not_negative("start_in", start_in)
    store = not_negative("thatch_start_in", thatch_start_in)
    waters = []
    for day in days.rows():
        water = day_water(depletion, store, day, p)
        store, depletion = water.thatch_store_in, water.depletion_in
        waters.append(water)
    return series_of(waters)


def series_of(waters: list[DayWater]) -> Series:
    """Days in a row as columns."""
    table = np.array(waters, dtype=np.float64).reshape(-1, len(DayWater._fields))
    return Series(**dict(zip(DayWater._fields, table.T, strict=True)))


def _stress(depletion_in: float, capacity_in: float, p: float) -> float:
    """Ks from a depletion within capacity; 0 where roots reach no soil."""
    if capacity_in == 0.0:
        return 0.0
    if depletion_in <= p * capacity_in:
        return 1.0
    return (capacity_in - depletion_in) / ((1.0 - p) * capacity_in)
