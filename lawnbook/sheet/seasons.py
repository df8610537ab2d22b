"""Spring, summer and autumn of a yard, and how a zone's timer is set in each."""

from collections.abc import Iterable, Sequence

from lawnbook.frozen import dataclass
from lawnbook.plan.model import MonthWater, ZoneWater
from lawnbook.plan.water_rules import WEEKDAYS, gaps_days
from lawnbook.plan.workings import cycle_minutes_told, run_minutes_told
from lawnbook.reading import tr
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
        return f"{tr(MONTHS[self.months[0] - 1])}–{tr(MONTHS[self.months[2] - 1])}"


_NORTH = (
    Season(tr("spring"), (3, 4, 5)),
    Season(tr("summer"), (6, 7, 8)),
    Season(tr("autumn"), (9, 10, 11)),
)
_SOUTH = (
    Season(tr("spring"), (9, 10, 11)),
    Season(tr("summer"), (12, 1, 2)),
    Season(tr("autumn"), (3, 4, 5)),
)

_NORTH_WINTER, _SOUTH_WINTER = (12, 1, 2), (6, 7, 8)


def seasons(latitude_deg: float | None) -> tuple[Season, Season, Season]:
    """Spring, summer, autumn by the calendar, six months on in the south."""
    return _SOUTH if latitude_deg is not None and latitude_deg < 0 else _NORTH


def seasons_watered(zones: Iterable[ZoneWater], latitude_deg: float | None) -> tuple[Season, ...]:
    """Spring, summer and autumn, and winter too where a zone is watered in it."""
    three = seasons(latitude_deg)
    winter = Season(tr("winter"), _SOUTH_WINTER if three is _SOUTH else _NORTH_WINTER)
    return (*three, winter) if any(months_of(zone, winter) for zone in zones) else three


def months_of(zone: ZoneWater, season: Season) -> tuple[MonthWater, ...]:
    """The season's months in which a watering is planned."""
    return tuple(
        month
        for month in zone.months
        if month.month in season.months and month.interval_days is not None
    )


def rule_days_where_fewer(days: Sequence[int], rules: WaterRules) -> str:
    """The days of the owner's rule, "Tue, Sat", where it waits longer than some of `days`.

    Many days of a week are counted: "4 a week". Empty where the rule leaves the plan its days.
    """
    if not days or max(gaps_days(rules)) <= min(days):
        return ""
    named = [tr(each) for each in WEEKDAYS if each in rules.days]
    told = len(named) <= _MOST_DAYS_NAMED
    return ", ".join(named) if told else tr("{count} a week", count=len(named))


def middle_month(months: Sequence[MonthWater]) -> MonthWater | None:
    """The month that stands for a season on a timer: the middle one by its water use.

    Of two the thirstier one; None for no month. A timer keeps one setting for weeks, and the
    thirstiest month's would water too much in the others.
    """
    by_use = sorted(months, key=lambda each: each.etc_in_per_day or 0.0, reverse=True)
    return by_use[(len(by_use) - 1) // 2] if by_use else None


def minutes_told(month: MonthWater, places: int = 1) -> str:
    """A month's run as a timer is set: "2 × 21", for a hose "4 × (2 × 21)"; a dash for none."""
    each = cycle_minutes_told(month)
    whole = run_minutes_told(month)
    if whole is None:
        return "–"
    if each is None or not month.cycles or month.cycles == 1:
        return f"{places} × {whole}"
    told = f"{month.cycles} × {each}"
    return told if places == 1 else f"{places} × ({told})"


def often_told(month: MonthWater, months: Sequence[MonthWater], rules: WaterRules) -> str:
    """How often a season is watered: its middle month's days, or those that the rule leaves it."""
    days = [each.interval_days for each in months if each.interval_days is not None]
    return rule_days_where_fewer(days, rules) or _every(month.interval_days)


def soak_told(month: MonthWater) -> str:
    """The soak between a month's cycles: "soak 30"; empty where there is none."""
    soak_min = month.soak_minutes or 0.0
    return (
        tr("soak {soak_min:.0f}", soak_min=soak_min)
        if (month.cycles or 1) > 1 and soak_min >= 1
        else ""
    )


def _every(days: int | None) -> str:
    if days is None:
        return "–"
    return tr("daily") if days == 1 else tr("every {days} days", days=days)
