"""Spring, summer and autumn of a yard, and what a zone's water looks like in each."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.plan.water_rules import WEEKDAYS, gaps_days
from lawnbook.plan.workings import run_minutes_told
from lawnbook.yard.numbers import MONTHS
from lawnbook.yard.records import WaterRules

_MOST_DAYS_NAMED = 2


@dataclass(frozen=True, slots=True)
class Season:
    """A growing season: its name and its three months, 1 to 12."""

    name: str
    months: tuple[int, int, int]

    @property
    def span(self) -> str:
        """Its first and last month: "Mar–May"."""
        return f"{MONTHS[self.months[0] - 1]}–{MONTHS[self.months[2] - 1]}"


_NORTH = (Season("spring", (3, 4, 5)), Season("summer", (6, 7, 8)), Season("autumn", (9, 10, 11)))
_SOUTH = (Season("spring", (9, 10, 11)), Season("summer", (12, 1, 2)), Season("autumn", (3, 4, 5)))

_NORTH_WINTER, _SOUTH_WINTER = (12, 1, 2), (6, 7, 8)


def seasons(latitude_deg: float | None) -> tuple[Season, Season, Season]:
    """Spring, summer, autumn by the calendar, six months on in the south."""
    return _SOUTH if latitude_deg is not None and latitude_deg < 0 else _NORTH


def seasons_watered(zones: Iterable[ZoneWater], latitude_deg: float | None) -> tuple[Season, ...]:
    """Spring, summer and autumn, and winter too where a zone is watered in it."""
    three = seasons(latitude_deg)
    winter = Season("winter", _SOUTH_WINTER if three is _SOUTH else _NORTH_WINTER)
    return (*three, winter) if any(months_of(zone, winter) for zone in zones) else three


def months_of(zone: ZoneWater, season: Season) -> tuple[MonthWater, ...]:
    """The season's months in which a watering is planned."""
    return tuple(
        month
        for month in zone.months
        if month.month in season.months and month.interval_days is not None
    )


def days_between(months: Sequence[MonthWater]) -> str:
    """Days between waterings as "5 days" or "4–6 days", a dash where there are none."""
    days = [month.interval_days for month in months if month.interval_days is not None]
    if not days:
        return "–"
    low, high = min(days), max(days)
    if low != high:
        return f"{low}–{high} days"
    return "daily" if low == 1 else f"{low} days"


def rule_days_where_fewer(days: Sequence[int], rules: WaterRules) -> str:
    """The days of the owner's rule, "Tue, Sat", where it waits longer than some of `days`.

    Many days of a week are counted: "4 a week". Empty where the rule leaves the plan its days.
    """
    if not days or max(gaps_days(rules)) <= min(days):
        return ""
    named = [each for each in WEEKDAYS if each in rules.days]
    told = len(named) <= _MOST_DAYS_NAMED
    return ", ".join(named) if told else f"{len(named)} a week"


def often_told(
    months: Sequence[MonthWater], rules: WaterRules, told_now: int | None
) -> tuple[str, str]:
    """How often a season is watered, and beneath it the run where that is another than now's.

    Where the owner's rule allows fewer days, those, and beneath them the days that are wanted.
    """
    days = [month.interval_days for month in months if month.interval_days is not None]
    ruled = rule_days_where_fewer(days, rules)
    if ruled:
        return ruled, days_between(months)
    return days_between(months), run_where_it_differs(months, told_now)


def run_where_it_differs(months: Sequence[MonthWater], told_now: int | None) -> str:
    """The season's run time, as told, where it is not the one told of now; else nothing."""
    runs = [run for run in map(run_minutes_told, months) if run is not None]
    if not runs or set(runs) == {told_now}:
        return ""
    low, high = min(runs), max(runs)
    return f"{low} min" if low == high else f"{low}–{high} min"
