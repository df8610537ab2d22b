"""The parts of a zone's water beyond today's figures: next run, stretch, year, programs, ledger.

Depths are net inches unless the name says gross; a clock time is the yard's own, without a zone.
"""

from dataclasses import field
from datetime import date, datetime
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from lawnbook.frozen import dataclass

Array = NDArray[np.float64]
EtoMethod = Literal[
    "reported", "Penman–Monteith", "Penman–Monteith, gaps estimated", "Hargreaves", "filled"
]
"""Where a day's ETo is from; "filled" is the notebook's own mean of that month."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRun:
    """One watering as it would be put on at dawn of `date`.

    `depth_in` refills what is used up by then (in a dry year a share of it); `wets_in` is how far
    below the thatch it wets the soil, `past_roots_in` what of it drains beyond the roots.
    `share_used` is the share of the roots' available water used up by that dawn; `stress` is how
    much of its full use the grass still draws then (FAO-56's Ks, 1 for no stress). The minutes
    are None where the precipitation rate is not known, `cost` where the water's price is not.
    """

    date: date
    depth_in: float
    share_used: float
    stress: float
    wets_in: float
    past_roots_in: float
    run_minutes: float | None
    cycles: int | None
    minutes_per_cycle: float | None
    soak_minutes: float | None
    gallons: float
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RainCredit:
    """The rain of the last seven days: fallen, counted, and by how many days it moved the next."""

    fallen_in: float
    counted_in: float
    days_moved: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchStep:
    """One step from today's interval to the target's: what it asks of the roots.

    `rooted_soil_needed_in` is below the thatch, `root_depth_needed_in` from the crowns.
    `share_used_now` and `stress_now` say what the step would cost if it were taken on today's
    roots: the share of their water used up before each watering (1 is all), and Ks by then.
    `expected` is the day by which the roots' own growth would allow it, None where that cannot be
    told.
    """

    interval_days: int
    depth_in: float
    rooted_soil_needed_in: float
    root_depth_needed_in: float
    borne: bool
    share_used_now: float
    stress_now: float
    expected: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """The way from what today's roots bear to the target, at one month's use.

    `month` is that of the day, or the season's thirstiest while nothing is watered. `plug_due`
    is the next day on which plugs are pulled: the first that could allow the next step.
    `inch_wets_in` is how far below the thatch one net inch wets soil that is used up to the
    allowance, `inch_past_roots_in` what of that inch today's roots cannot take.
    """

    month: int
    etc_in_per_day: float
    steps: tuple[StretchStep, ...]
    growth_in_per_year: float | None
    plug_due: date | None
    inch_wets_in: float
    inch_past_roots_in: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Establishing:
    """The light-and-often rule of new seed or sod until it has rooted, in place of the deep one.

    Depth and minutes are a whole watering day's, put down in `times_a_day` parts.
    """

    how: Literal["seed", "sod"]
    since: date
    until: date
    times_a_day: int
    every_days: int
    depth_in: float
    run_minutes: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneCoverage:
    """What the heads put down on a zone by the computed map, neighbours' heads included.

    Shares lie within 0 to 1: `wasted_share` of the zone's own heads' water falls outside the
    zone, `dry_share` of its area gets less than half the mean, `wet_share` more than one and a
    half times it. Points are feet on the sketch. `heads` counts the zone's own, of which
    `without_flow` are left out of the map and `assumed_profiles` are taken to throw a cone.
    """

    heads: int
    neighbours: int
    without_flow: int
    mean_in_per_h: float
    du_lq: float
    du_lh: float
    cu: float
    wasted_share: float
    dry_share: float
    wet_share: float
    driest_at_ft: tuple[float, float]
    wettest_at_ft: tuple[float, float]
    assumed_profiles: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class YearWater:
    """A zone's year under one way of watering. Months are January to December.

    `wets_soil_in` is what of the irrigation goes on below the thatch, `kept_by_thatch_in` what
    the thatch takes and gives back to the air; both and `runoff_in` add up to `gross_in`.
    `drained_in` is what passes the roots of the drier half, rain's part too. `stress_days` are
    those of the growing year that end beyond FAO-56's p, in and out of the irrigation season.
    """

    waterings: int
    gallons: float
    gallons_by_month: tuple[float, ...]
    cost: float | None
    gross_in: float
    wets_soil_in: float
    kept_by_thatch_in: float
    runoff_in: float
    drained_in: float
    stress_days: int
    driest_share_used: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneYear:
    """The same year as planned and under the old habit; `full` is the plan without its dry year.

    `basis` says which weather it is reckoned with. `saved_gallons` is the habit's less the
    plan's, negative where the plan takes more; None where no habit or no rate is known.
    """

    basis: str
    plan: YearWater
    habit: YearWater | None
    full: YearWater | None
    saved_gallons: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TimerStart:
    """One start of one zone's valve: its cycle counted from 1, clock time, and whole minutes."""

    zone: str
    zone_id: str
    number: int
    cycle: int
    starts: datetime | None
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramRun:
    """Zones watered in one night, one after the other, so that all are done by sunrise.

    `morning` is the day whose sunrise ends it. Times are None where latitude, longitude or time
    zone are unknown; `elapsed_minutes` stands in any case. `allowed_minutes` is the span the
    owner's rule leaves, None without one; `shortfall_minutes` is what does not fit in: then
    `timer` holds what does, and without a rule all of it, from before sunset.
    """

    program: str
    zones: tuple[str, ...]
    morning: date
    starts: datetime | None
    ends: datetime | None
    sunrise: datetime | None
    elapsed_minutes: int
    allowed_minutes: int | None
    shortfall_minutes: int
    timer: tuple[TimerStart, ...]
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodDays:
    """How many days' ETo come from one method."""

    method: EtoMethod
    days: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ZoneLedger:
    """The root zone of one zone day by day, from `starts` to the day of the plan; arrays of n days.

    `etc_in` is the grass's full use and `used_in` what it drew (from thatch and soil). Rain is as
    fallen; `ignored_in` of it evaporated at once, `runoff_in` ran off. Depletion is at the day's
    end; `stress_from_in` is the depletion beyond which the grass runs short (p × TAW),
    `allowance_in` the owner's line for the next watering, `capacity_in` TAW. `stress` is Ks.
    `ahead_in` is the depletion of the coming days without rain or watering, at the full use and
    within TAW. `from_thatch_in` is what of the use the thatch gave; `clipped_in` is depletion
    that fell away with soil the roots had left. Each day closes: rain + irrigation + yesterday's
    thatch store = ignored + run-off + into soil + from thatch + thatch store, and depletion =
    yesterday's − clipped − into soil + (used − from thatch) + drained.
    """

    zone: str
    zone_id: str
    starts: date
    eto_in: Array
    eto_from: tuple[EtoMethod, ...]
    etc_in: Array
    used_in: Array
    rain_in: Array
    ignored_in: Array
    runoff_in: Array
    irrigation_in: Array
    into_soil_in: Array
    thatch_store_in: Array
    drained_in: Array
    depletion_in: Array
    stress_from_in: Array
    allowance_in: Array
    capacity_in: Array
    stress: Array
    ahead_in: Array
    from_thatch_in: Array = field(default_factory=lambda: np.empty(0))
    clipped_in: Array = field(default_factory=lambda: np.empty(0))
