"""When each zone is mown, by the rule of one third: before more than a third has to come off.

Growth is that of the usual year, day by day, times how fast the grass grows at its best. Where no
mowing is on record nobody knows how high the grass stands: the days between two are told then.
"""

from collections.abc import Mapping
from datetime import date, timedelta
from functools import partial

import numpy as np

from lawnbook.agronomy.checks import COUNTING_SLACK, Array
from lawnbook.agronomy.mowing import (
    DAYS_PER_WEEK,
    MOW_AT,
    days_between,
    mow_at_in,
    peak_growth_in_per_week,
)
from lawnbook.agronomy.turf import LEAST_GROWTH
from lawnbook.frozen import dataclass
from lawnbook.plan.care_marks import MOWING
from lawnbook.plan.care_windows import last_care
from lawnbook.plan.filled_in import (
    by_function,
    day_in,
    numbered,
    put_in,
    reckons,
    steps,
    together,
)
from lawnbook.plan.growth import growth_by_month, why_no_growth
from lawnbook.plan.growth_days import growth_array
from lawnbook.plan.rooting import new_turf_of
from lawnbook.plan.season import within
from lawnbook.plan.season_model import Mowing
from lawnbook.plan.working_model import DATE, DAY, Anew, Input, Working
from lawnbook.plan.workings import OWN, chosen, counted, given, sources, told, told_exactly
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.numbers import day
from lawnbook.yard.records import Zone

AHEAD_DAYS = 366
"""Growth is looked at so far ahead, and no mowing on record is older than that for this."""

OUT_OF_RECKONING = 3.0
"""Grass reckoned at more than so many heights of cut was mown since, and nobody wrote it down."""

NO_MORE_GROWTH = tr("The grass does not grow to one and a half times its height within a year.")
NO_HEIGHT = tr("No height of cut is entered: enter the mowing height on the Feed page.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How high a zone's grass is reckoned to stand on the day, and its height of cut."""

    height_in: float
    stands_in: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Growing:
    """A zone that grows: its height of cut, its growth at its best, and that of the day (0-1)."""

    height_in: float
    peak_in_per_week: float
    peak_input: Input
    source: str
    potential: float

    @property
    def growth_in_per_week(self) -> float:
        return self.potential * self.peak_in_per_week


def mowing_of(setting: Setting, zone: Zone) -> Mowing:
    """How often a zone is mown and by when next; the reason where that cannot be told."""
    care = last_care(setting.notebook, MOWING, zone.id)
    last = None if care is None else care.date
    growing, reason = _growing(setting, zone)
    if growing is None:
        return Mowing(
            zone_id=zone.id,
            zone=zone.name,
            height_in=zone.mow_height_in,
            growth_in_per_week=None,
            every_days=None,
            last=last,
            next=None,
            reason=reason,
        )
    upcoming, reason = _next(setting, zone, growing, last)
    every = days_between(growing.height_in, growing.growth_in_per_week)
    return Mowing(
        zone_id=zone.id,
        zone=zone.name,
        height_in=growing.height_in,
        growth_in_per_week=growing.growth_in_per_week,
        every_days=every,
        last=last,
        next=upcoming,
        reason=reason,
        workings=tuple(_workings(setting, zone, growing, every, last, upcoming)),
    )


def stand_of(setting: Setting, zone: Zone, mowing: Mowing) -> Stand | None:
    """How high a zone's grass is reckoned to stand; None where no mowing tells."""
    if mowing.last is None or mowing.next is None or mowing.height_in is None:
        return None
    grown = _grown_in(setting, zone, mowing.last, (setting.on - mowing.last).days)
    since = float(grown[-1]) if grown.size else 0.0
    return Stand(height_in=mowing.height_in, stands_in=mowing.height_in + since)


def _growing(setting: Setting, zone: Zone) -> tuple[_Growing | None, str]:
    """What a zone's mowing rests on, or why nothing is to be mown."""
    if zone.mow_height_in is None:
        return None, NO_HEIGHT
    if (why := _why_resting(setting, zone)) is not None:
        return None, why
    potential = float(growth_array(setting.notebook, zone.grass, setting.on, 1)[0])
    if np.isnan(potential):
        return None, why_no_growth(growth_by_month(setting.notebook, zone.grass))
    if potential < LEAST_GROWTH:
        return None, (
            tr(
                "The grass hardly grows: growth potential is {potential} at this time of the "
                "usual year.",
                potential=told(100 * potential, 0, "%"),
            )
        )
    peak, peak_input, source = _peak(zone)
    return _Growing(
        height_in=zone.mow_height_in,
        peak_in_per_week=peak,
        peak_input=peak_input,
        source=source,
        potential=potential,
    ), ""


def _peak(zone: Zone) -> tuple[float, Input, str]:
    """How fast a zone grows in its best weeks, as an input, and with its source."""
    own = zone.peak_growth_in_per_week
    usual, key = peak_growth_in_per_week(zone.species, zone.grass)
    peak = usual if own is None else own
    kind = tr(zone.species) or tr("{grass}-season turf", grass=tr(zone.grass))
    shown = chosen(
        tr("Growth at its peak"), _a_week(peak), own is not None, tr("usual for {kind}", kind=kind)
    )
    return peak, shown, sources(key) if own is None else OWN


def _why_resting(setting: Setting, zone: Zone) -> str | None:
    """Why a zone is not mown although it may be warm enough; None where it is."""
    yard = setting.notebook.yard
    if yard.drought == "survival" and (
        setting.season is None or within(setting.season, setting.on)
    ):
        return tr("Let go dormant: no mowing until it grows again.")
    turf = new_turf_of(zone)
    if turf is not None and turf.on(setting.on):
        at = plainly(mow_at_in(zone.mow_height_in or 0.0), "in")
        return tr(
            "New {how} is mown for the first time when it stands at {at} and does not lift "
            "when it is pulled.",
            how=tr(turf.how),
            at=at,
        )
    return None


def _next(
    setting: Setting, zone: Zone, growing: _Growing, last: date | None
) -> tuple[date | None, str]:
    """The last day before the grass passes the rule, or why it is not known."""
    since = setting.on if last is None else last
    if (setting.on - since).days > AHEAD_DAYS:
        return None, _too_long_ago(since)
    grown = _grown_in(setting, zone, since, (setting.on - since).days + AHEAD_DAYS)
    room = growing.height_in * (MOW_AT - 1)
    gone = (setting.on - since).days
    if gone and grown[gone - 1] > growing.height_in * (OUT_OF_RECKONING - 1):
        return None, _too_long_ago(since)
    kept = _days_kept(grown, room)
    return (None, NO_MORE_GROWTH) if kept is None else (since + timedelta(days=kept), "")


def _days_kept(grown: Array, room_in: float) -> int | None:
    """After how many days the grass still has not passed the rule; None where it never does."""
    kept = int(np.searchsorted(grown, room_in * (1 + COUNTING_SLACK), side="right"))
    return None if kept >= grown.size else max(1, kept)


def _too_long_ago(last: date) -> str:
    return tr(
        "The last mowing on record, of {last}, is too long ago to reckon from: note "
        "the next one down.",
        last=day(last),
    )


def _grown_in(setting: Setting, zone: Zone, since: date, count: int) -> Array:
    """Inches grown from a mowing to each of the days after it; days of hardly any growth are 0."""
    growth = np.nan_to_num(growth_array(setting.notebook, zone.grass, since, count))
    grown: Array = (
        np.cumsum(np.where(growth < LEAST_GROWTH, 0.0, growth)) * _peak(zone)[0] / DAYS_PER_WEEK
    )
    return grown


def _workings(
    setting: Setting,
    zone: Zone,
    growing: _Growing,
    every: int,
    last: date | None,
    upcoming: date | None,
) -> list[Working]:
    height, growth = growing.height_in, growing.growth_in_per_week
    cut = _cut(height)
    potential = given(
        tr("Growth potential"),
        told(growing.potential),
        tr("{on}, in the usual year", on=day(setting.on)),
    )
    grown = (
        numbered(potential, "potential", growing.potential),
        numbered(growing.peak_input, "peak", growing.peak_in_per_week, "in a week"),
    )
    listed = [
        Working(
            "growth_in_per_week",
            tr("Growth in a week"),
            _a_week(growth),
            tr("growth potential × growth at its peak"),
            put_in("{potential} × {peak}", grown),
            grown,
            f"{sources('growth-potential')} · {growing.source}",
            reckons("{potential} × {peak}", "in a week"),
        ),
        _every_working(every, cut, growth),
    ]
    if upcoming is not None:
        anew = partial(_next_anew, setting, zone, growing.peak_in_per_week)
        moving = (cut, _mown(setting, last), grown[1])
        listed.append(_next_working(height, moving, upcoming, anew))
    return listed


def _every_working(every: int, cut: Input, growth: float) -> Working:
    """The days between two mowings, from the height of cut and the growth of a week (in)."""
    weekly = numbered(
        given(tr("Growth in a week"), _a_week(growth), tr("worked out: growth potential × peak")),
        "growth",
        growth,
        "in a week",
    )
    every_of = tr(
        "{mow_at} × {{height}} ÷ ({{growth}} ÷ {days_per_week})",
        mow_at=told_exactly(MOW_AT - 1),
        days_per_week=DAYS_PER_WEEK,
    )
    return Working(
        "every_days",
        tr("Days between mowings"),
        counted(every, "day"),
        tr(
            "({mow_at:g} − 1) × height of cut ÷ growth in a day, whole days, at least 1",
            mow_at=MOW_AT,
        ),
        put_in(every_of, (cut, weekly)),
        (cut, weekly),
        sources("mowing-third", "growth-rate"),
        steps(every_of, DAY, "down", 1),
    )


def _cut(height_in: float) -> Input:
    """The height of cut."""
    told_of = given(tr("Height of cut"), told(height_in, 2, "in"), tr("typed in the zone"))
    return numbered(told_of, "height", height_in, "in")


def _mown(setting: Setting, last: date | None) -> Input:
    """The last mowing, from which the grass is reckoned to grow."""
    if last is None:
        why = tr("reckoned as if mown on the day of the plan")
        return day_in(given(tr("Last mowing"), tr("none"), why), "last", setting.on)
    return day_in(given(tr("Last mowing"), day(last), tr("care entries")), "last", last)


def _next_anew(setting: Setting, zone: Zone, peak: float, numbers: Mapping[str, float]) -> float:
    """The day, as `date.toordinal`, from another last mowing, height of cut and growth.

    NaN where the grass does not grow so far any more.
    """
    since = date.fromordinal(round(numbers["last"]))
    count = (setting.on - since).days + AHEAD_DAYS
    grown = _grown_in(setting, zone, since, count) * (numbers["growth"] * numbers["peak"] / peak)
    kept = _days_kept(grown, numbers["height"] * (MOW_AT - 1))
    return float("nan") if kept is None else numbers["last"] + kept


def _next_working(height: float, inputs: tuple[Input, ...], upcoming: date, anew: Anew) -> Working:
    by_day = given(tr("Growth of all days"), told(1.0), tr("1 is that of the usual year"))
    return Working(
        "next_mowing",
        tr("Mow by"),
        day(upcoming),
        tr(
            "the last day before the grass has grown past {mow_at:g} × height of cut, day by day",
            mow_at=MOW_AT,
        ),
        f"{told_exactly(MOW_AT)} × {told_exactly(height)} = {told_exactly(mow_at_in(height))}",
        (*inputs, together(by_day, "growth")),
        sources("mowing-third"),
        by_function(anew, DATE, 0),
    )


def _a_week(inches: float) -> str:
    return told(inches, 2, "in a week")
