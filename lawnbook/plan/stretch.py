"""The way from what today's roots bear to the target: one step for each longer interval.

A step waters `k` days of the month's use every `k` days. It is borne once the roots are deep
enough for that; on today's roots it would cost stress, which is told.
"""

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np

from lawnbook.agronomy.checks import COUNTING_SLACK
from lawnbook.agronomy.root_zone import stress_coefficient
from lawnbook.agronomy.spot_lines import DAYS_PER_YEAR
from lawnbook.agronomy.trend import theil_sen
from lawnbook.agronomy.turf import DEPLETION
from lawnbook.agronomy.water_balance import interval_days, roots_needed_in
from lawnbook.frozen import dataclass
from lawnbook.plan.due import next_plug_day
from lawnbook.plan.month_water import etc_in_per_day, water_today, watered_month
from lawnbook.plan.root_days import thatch_holding
from lawnbook.plan.rooting import rooting_of
from lawnbook.plan.roots import rooted_and_thatch_on
from lawnbook.plan.stretch_words import stretch_words
from lawnbook.plan.water_model import Stretch, StretchStep
from lawnbook.plan.zone_facts import Setting, ZoneFacts

MOST_STEPS = 8
"""More steps than these are thinned out; the first, the next and the last always stay."""

FEWEST_PLUG_DAYS = 3
SHORTEST_SPAN_DAYS = 182
"""Roots go up and down with the season: under half a year they show no growth of their own."""

FARTHEST_YEARS = 5.0
"""Growth is not carried on farther than this (common practice)."""

ONE_INCH = 1.0


@dataclass(frozen=True, slots=True)
class _Growth:
    """Rooted soil by the plugs: inches a year, and the day of the latest plug."""

    in_per_year: float
    latest: date


def stretch_of(setting: Setting, facts: ZoneFacts) -> Stretch | None:
    """The steps of a zone on the day of the plan.

    None for a zone that is not irrigated or where no month has both weather and watering, and
    while new turf is rooting.
    """
    if not facts.zone.irrigated or rooting_of(setting, facts) is not None:
        return None
    month = _month(setting, facts)
    etc = etc_in_per_day(setting, facts, month) if month is not None else None
    if month is None or etc is None:
        return None
    growth = _growth(facts)
    steps = _steps(setting, facts, etc, growth)
    into_soil = max(0.0, ONE_INCH - thatch_holding(facts.zone) * facts.roots.thatch_in)
    plug_due = _plug_due(setting, facts)
    return Stretch(
        month=month,
        etc_in_per_day=etc,
        steps=_thinned(steps),
        growth_in_per_year=growth.in_per_year if growth else None,
        plug_due=plug_due,
        inch_wets_in=into_soil / (facts.depletion * facts.soil.available_water_in_per_in),
        inch_past_roots_in=max(0.0, into_soil - facts.bearable_in),
        words=stretch_words(setting, facts, month, steps, plug_due),
    )


def _month(setting: Setting, facts: ZoneFacts) -> int | None:
    """The day's month where watering is planned then, else the season's thirstiest, if any."""
    if water_today(setting, facts).etc_in_per_day is not None:
        return setting.on.month
    uses = [
        (etc, -month)
        for month in range(1, 13)
        if watered_month(setting, facts, month)
        and (etc := etc_in_per_day(setting, facts, month)) is not None
    ]
    return -max(uses)[1] if uses else None


def _steps(
    setting: Setting, facts: ZoneFacts, etc: float, growth: _Growth | None
) -> tuple[StretchStep, ...]:
    first = interval_days(facts.target_in, facts.bearable_in, etc)
    last = interval_days(facts.target_in, facts.target_in, etc)
    return tuple(
        _step(setting, facts, days, min(facts.target_in, days * etc), growth)
        for days in range(first, last + 1)
    )


def _step(
    setting: Setting, facts: ZoneFacts, days: int, depth: float, growth: _Growth | None
) -> StretchStep:
    available, rooted = facts.soil.available_water_in_per_in, facts.roots.rooted_soil_in
    needed = roots_needed_in(depth, facts.depletion, available)
    held = available * rooted
    share = depth / held if depth < held else 1.0
    borne = depth <= facts.bearable_in + COUNTING_SLACK
    return StretchStep(
        interval_days=days,
        depth_in=depth,
        rooted_soil_needed_in=needed,
        root_depth_needed_in=needed + facts.roots.thatch_in,
        borne=borne,
        share_used_now=share,
        stress_now=stress_coefficient(share, DEPLETION[facts.zone.grass]),
        expected=None if borne else _expected(setting.on, needed - rooted, growth),
    )


def _expected(on: date, missing_in: float, growth: _Growth | None) -> date | None:
    """The day on which growth from the latest plug on makes up what is missing."""
    if growth is None or growth.in_per_year <= 0:
        return None
    years = missing_in / growth.in_per_year
    if years > FARTHEST_YEARS + (on - growth.latest).days / DAYS_PER_YEAR:
        return None
    return max(on, growth.latest + timedelta(days=round(years * DAYS_PER_YEAR)))


def _growth(facts: ZoneFacts) -> _Growth | None:
    """The Theil–Sen slope of the zone's rooted soil over the days on which roots were read."""
    read_on = sorted({read.date for spot in facts.readings.roots for read in spot})
    if len(read_on) < FEWEST_PLUG_DAYS or (read_on[-1] - read_on[0]).days < SHORTEST_SPAN_DAYS:
        return None
    ordinals = np.array([each.toordinal() for each in read_on], dtype=np.int64)
    rooted, _ = rooted_and_thatch_on(facts.zone, facts.readings, ordinals)
    years = (ordinals - ordinals[0]) / DAYS_PER_YEAR
    slope = theil_sen(years.tolist(), rooted.tolist())
    return None if slope is None else _Growth(slope, read_on[-1])


def _plug_due(setting: Setting, facts: ZoneFacts) -> date | None:
    spots = setting.spots.get(facts.zone.id, ())
    return min((next_plug_day(setting, spot) for spot in spots), default=None)


def _thinned(steps: Sequence[StretchStep]) -> tuple[StretchStep, ...]:
    """At most `MOST_STEPS`: the first, the next, the last, and evenly between these."""
    if len(steps) <= MOST_STEPS:
        return tuple(steps)
    apart = (len(steps) - 2) / (MOST_STEPS - 2)
    kept = [0, *(1 + round(apart * each) for each in range(MOST_STEPS - 1))]
    return tuple(steps[place] for place in kept)
