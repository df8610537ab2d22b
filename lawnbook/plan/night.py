"""When a night's watering may run: until sunrise, within the hours of the owner's rule.

Times are aware and in UTC, so that a night in which the clocks change is as long as it is; they
are told in the yard's own time.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from zoneinfo import ZoneInfo

from lawnbook.agronomy.sun import sunrise_utc, sunset_utc
from lawnbook.frozen import dataclass
from lawnbook.plan.rooting import rooting_of
from lawnbook.plan.water_rules import DAYS_A_WEEK, allows, clock_minutes
from lawnbook.plan.zone_facts import Setting, ZoneFacts
from lawnbook.reading import tr
from lawnbook.yard.records import Yard


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """Where the yard lies and what its clocks show."""

    latitude_deg: float
    longitude_deg: float
    zone: tzinfo

    def told(self, at: datetime) -> datetime:
        """A time as the yard's clocks show it, without a zone."""
        return at.astimezone(self.zone).replace(tzinfo=None)

    def at(self, on: date, minutes: int) -> datetime:
        """The time at which the clocks show so many minutes of a day, 1440 for its end."""
        that = on + timedelta(days=minutes // (24 * 60))
        clock = time(minutes // 60 % 24, minutes % 60)
        return datetime.combine(that, clock, tzinfo=self.zone).astimezone(UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Night:
    """The time in which a morning's programs run: from `begins` at the earliest, done by `ends`.

    They begin after the sunrise before, so that the programs of two nights never meet, and no
    sooner than the owner's rule allows. `closes` is when that no longer does, which may be after
    `ends`; None without a rule. `sunset` and `sunrise` are None where there are none.
    """

    morning: date
    sunset: datetime | None
    sunrise: datetime | None
    begins: datetime
    closes: datetime | None
    ends: datetime

    @property
    def is_ruled(self) -> bool:
        """Whether a rule of the owner's says when water may run."""
        return self.closes is not None

    @property
    def in_daylight(self) -> bool:
        """Whether the rule leaves no time between sunset and sunrise."""
        return self.sunrise is not None and self.begins >= self.sunrise


def clock_of(yard: Yard) -> Clock | None:
    """The yard's place and clock; None where any of it is missing or unknown to this machine."""
    zone = _zone(yard.time_zone) if yard.time_zone is not None else None
    if yard.latitude_deg is None or yard.longitude_deg is None or zone is None:
        return None
    return Clock(latitude_deg=yard.latitude_deg, longitude_deg=yard.longitude_deg, zone=zone)


def missing_for_times(yard: Yard) -> tuple[str, ...]:
    """What must be entered before clock times can be told, in the owner's words."""
    wanted = (
        ("latitude", yard.latitude_deg is None),
        ("longitude", yard.longitude_deg is None),
        (tr("time zone"), yard.time_zone is None or _zone(yard.time_zone) is None),
    )
    return tuple(name for name, missing in wanted if missing)


def first_morning(setting: Setting, due: date) -> date:
    """The first morning still to come on which a zone due on a day can be done.

    The plan knows the day and not the hour, so the night before the day of the plan is over.
    """
    return max(due, setting.on + timedelta(days=1))


def morning_for(setting: Setting, facts: ZoneFacts, due: date) -> date:
    """The morning by which a zone due on a day is watered: its night's, for a hose the day's own.

    New turf is watered by daylight, on the day.
    """
    if facts.zone.sprinklers == "hose" or rooting_of(setting, facts) is not None:
        return due
    clock = clock_of(setting.notebook.yard)
    night = night_for(setting, clock, due) if clock is not None else None
    return untimed_morning(setting, due) if night is None else night.morning


def untimed_morning(setting: Setting, due: date) -> date:
    """The morning of a night whose times of the clock are not told, because the place is unknown.

    Which nights a rule allows hardly hangs on the place: the sun of the latitude on the middle
    meridian stands in for the yard's own.
    """
    latitude = setting.notebook.yard.latitude_deg
    if latitude is None or not _is_ruled(setting):
        return first_morning(setting, due)
    sun = Clock(latitude_deg=latitude, longitude_deg=0.0, zone=UTC)
    night = night_for(setting, sun, due)
    return first_morning(setting, due) if night is None else night.morning


def night_for(setting: Setting, clock: Clock, due: date) -> Night | None:
    """The first night, ending on the morning of `due` or later, in which the rule allows water.

    It ends at sunrise, or where the rule's last span before sunrise ends. Where the rule allows no
    time between sunset and sunrise at all, it is the last span of the first allowed day. None
    where the sun does not rise and no rule says when to stop.
    """
    first = first_morning(setting, due)
    for ahead in range(DAYS_A_WEEK + 1):
        night = _night(setting, clock, first + timedelta(days=ahead))
        if night is not None:
            return night
    return _last_span(setting, clock, max(due, setting.on)) if _is_ruled(setting) else None


def _night(setting: Setting, clock: Clock, morning: date) -> Night | None:
    sunrise, sunset, begins = _sun(clock, morning)
    if sunrise is None or sunset is None or begins is None:
        return None
    closes, ends = None, sunrise
    if _is_ruled(setting):
        spans = [
            span
            for span in _allowed(setting, clock, morning - timedelta(days=2), morning)
            if span[0] < sunrise and span[1] > sunset
        ]
        if not spans:
            return None
        opens, closes = max(spans, key=lambda span: span[1])
        begins, ends = max(begins, opens), min(sunrise, closes)
    return Night(
        morning=morning, sunset=sunset, sunrise=sunrise, begins=begins, closes=closes, ends=ends
    )


def _last_span(setting: Setting, clock: Clock, due: date) -> Night:
    days = (due + timedelta(days=ahead) for ahead in range(DAYS_A_WEEK))
    that = next(day for day in days if allows(setting, day))
    opens, ends = max(_spans(setting, clock, that), key=lambda span: span[1])
    morning = clock.told(ends).date()
    sunrise, sunset, _ = _sun(clock, morning)
    return Night(
        morning=morning, sunset=sunset, sunrise=sunrise, begins=opens, closes=ends, ends=ends
    )


def _is_ruled(setting: Setting) -> bool:
    return bool(setting.rules.days or setting.rules.hours)


def _sun(clock: Clock, morning: date) -> tuple[datetime | None, datetime | None, datetime | None]:
    """The sunrise that the yard's calendar puts on a morning, and sunset and sunrise before it.

    Near the date line the sun's day and the calendar's are one apart.
    """
    place = (clock.latitude_deg, clock.longitude_deg)
    for shift in (0, -1, 1):
        that = morning + timedelta(days=shift)
        sunrise = sunrise_utc(*place, that)
        if sunrise is not None and clock.told(sunrise).date() == morning:
            before = that - timedelta(days=1)
            return sunrise, sunset_utc(*place, before), sunrise_utc(*place, before)
    return None, None, None


def _allowed(
    setting: Setting, clock: Clock, first: date, last: date
) -> list[tuple[datetime, datetime]]:
    """The spans that the rule allows of some days in a row, joined where they meet."""
    days = (first + timedelta(days=each) for each in range((last - first).days + 1))
    spans = sorted(
        span for day in days if allows(setting, day) for span in _spans(setting, clock, day)
    )
    joined: list[tuple[datetime, datetime]] = []
    for start, end in spans:
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined


def _spans(setting: Setting, clock: Clock, day: date) -> Iterator[tuple[datetime, datetime]]:
    """The spans that begin on an allowed day; one that goes over midnight ends on the next."""
    if not setting.rules.hours:
        yield clock.at(day, 0), clock.at(day, 24 * 60)
    for span in setting.rules.hours:
        start, end = (clock_minutes(part) for part in span.split("-"))
        yield clock.at(day, start), clock.at(day, end if end > start else end + 24 * 60)


def _zone(name: str) -> ZoneInfo | None:
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        return None
