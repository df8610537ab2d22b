"""A program in its night: what has to run, the time there is for it, and where each part stands.

Times are aware and in UTC, in whole minutes.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

from lawnbook.frozen import dataclass
from lawnbook.plan.night import Night
from lawnbook.plan.night_run import NightRun
from lawnbook.plan.rotation import Slot, elapsed_minutes

MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """The runs of one program's zones and the slots of their valves.

    `needed_minutes` is what all of it takes; the slots are less where the rule's time is too
    short. `ends_by` is None where no clock times are known. `unknown` names the zones whose
    minutes are not known.
    """

    name: str
    morning: date
    night: Night | None
    runs: tuple[NightRun, ...]
    unknown: tuple[str, ...]
    slots: tuple[Slot, ...]
    needed_minutes: int
    ends_by: datetime | None
    is_followed: bool

    @property
    def sunrise(self) -> datetime | None:
        """The sunrise of the morning, its seconds cut off."""
        if self.night is None or self.night.sunrise is None:
            return None
        return minute_before(self.night.sunrise)

    @property
    def open_minutes(self) -> int | None:
        """The time there is, from the sunrise before or the rule's opening to the end."""
        return self._since(self.night.begins) if self.night is not None else None

    @property
    def allowed_minutes(self) -> int | None:
        """What the owner's rule leaves; None without a rule or without clock times."""
        return self.open_minutes if self.night is not None and self.night.is_ruled else None

    @property
    def shortfall_minutes(self) -> int:
        """What does not fit: into the rule's time, or into the night where there is no rule."""
        there_is = self.allowed_minutes
        if there_is is None and self.night is not None:
            there_is = self._since(self.night.sunset)
        return 0 if there_is is None else max(0, self.needed_minutes - there_is)

    @property
    def missing_minutes(self) -> int:
        """What cannot be put on at all: more than the time there is."""
        there_is = self.open_minutes
        return 0 if there_is is None else max(0, self.needed_minutes - there_is)

    @property
    def starts(self) -> datetime | None:
        """When the first valve opens, so that the last closes at `ends_by`."""
        if self.ends_by is None or not self.slots:
            return None
        return self.ends_by - elapsed_minutes(self.slots) * MINUTE

    @property
    def ends(self) -> datetime | None:
        """When the last valve closes."""
        return self.ends_by if self.slots else None

    def with_slots(self, slots: tuple[Slot, ...]) -> "Timetable":
        """The same with other slots."""
        return replace(self, slots=slots)

    def given_share(self, load: int) -> float:
        """How much of one run's minutes stands in the slots, 0 to 1."""
        given = sum(slot.part.minutes for slot in self.slots if slot.load == load)
        needed = self.runs[load].minutes
        return given / needed if needed else 1.0

    def _since(self, opens: datetime | None) -> int | None:
        if opens is None or self.ends_by is None:
            return None
        return max(0, (self.ends_by - minute_after(opens)) // MINUTE)


def minute_before(at: datetime) -> datetime:
    """The last whole minute up to a time."""
    return at.astimezone(UTC).replace(second=0, microsecond=0)


def minute_after(at: datetime) -> datetime:
    """The first whole minute from a time on."""
    cut = minute_before(at)
    return cut if cut == at else cut + MINUTE
