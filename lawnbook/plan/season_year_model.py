"""The shape of the year at one look: curves, spans of days and marks of what was done or is due.

Everything here is frozen. Days run from `starts` to `ends`, both included: a calendar year, or July
to June south of the equator.
"""

from datetime import date, timedelta
from typing import Literal

from lawnbook.frozen import dataclass

SeasonRow = Literal["water", "feed", "mow", "plug", "care", "check"]
"""The rows of marks; catch tests, soil tests and ticks of checklists stand under "check"."""

SpanKind = Literal["season", "window", "blackout"]
"""The irrigation season, weeks that suit some care, and days on which nothing may be spread."""

RecordKey = tuple[str, str]
"""A record's table and id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonMark:
    """What was done on one day in one row, or is planned for it; `words` tell it line by line.

    `records` are those that the mark stands for, none where it is `planned`.
    """

    date: date
    row: SeasonRow
    words: tuple[str, ...]
    records: tuple[RecordKey, ...] = ()
    planned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonSpan:
    """Days in a row, both ends included, with what they are."""

    kind: SpanKind
    name: str
    starts: date
    ends: date
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthCurve:
    """Growth potential of one grass on each day of the year, 0 to 1; None where not known."""

    grass: str
    values: tuple[float | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonMonth:
    """One month: expected use of water in the usual year, and what was watered, inches a day.

    `growth` holds the month's mean of each curve. `watered_in_per_day` is net, the mean of the
    month's days up to the day of the plan; None where none of them has come yet.
    """

    starts: date
    ends: date
    growth: tuple[float | None, ...]
    need_in_per_day: float | None
    watered_in_per_day: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonYear:
    """A year as it stands on the day of the plan, `on`.

    `need_in_per_day` is for each day, drawn between the months' means, over irrigated zones by
    area. `reasons` say what is missing, in sentences.
    """

    year: int
    label: str
    starts: date
    ends: date
    on: date
    growth: tuple[GrowthCurve, ...]
    need_in_per_day: tuple[float | None, ...]
    months: tuple[SeasonMonth, ...]
    spans: tuple[SeasonSpan, ...]
    marks: tuple[SeasonMark, ...]
    reasons: tuple[str, ...] = ()

    @property
    def length(self) -> int:
        """How many days the year has."""
        return (self.ends - self.starts).days + 1

    def day_at(self, place: int) -> date:
        """A day by its place, from 0."""
        return self.starts + timedelta(days=place)

    def holds(self, on: date) -> bool:
        """Whether a day lies in the year."""
        return self.starts <= on <= self.ends
