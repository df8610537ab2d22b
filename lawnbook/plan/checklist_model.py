"""The shape of a checklist of the sprinklers: its season, its steps, and what was ticked."""

from datetime import date

from lawnbook.frozen import dataclass
from lawnbook.yard.records import ChecklistName, Tick

# Named here, since inside a class with a field named `date` the type is hidden.
Seen = date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ListSeason:
    """The twelve months that one spring or winter's list is for, both ends included; its name."""

    starts: date
    ends: date
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a checklist of one season, of one zone or (`zone_id` empty) of the whole yard.

    `why` says what it is for, `source` where it comes from. `tick` is this season's, None where
    the step is open. `seen` is a day on which the notebook itself shows that it was done, such as
    that of a catch test. `leads_to` names what helps with it: the tool "Can", or nothing.
    """

    checklist: ChecklistName
    season: ListSeason
    key: str
    words: str
    why: str
    source: str
    zone_id: str = ""
    zone: str = ""
    tick: Tick | None = None
    seen: Seen = None
    leads_to: str = ""

    @property
    def is_done(self) -> bool:
        """Whether it was ticked, or is seen to be done."""
        return self.tick is not None or self.seen is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Checklist:
    """A checklist of one season. `note` says before all else what holds for it.

    `needed` is false where there is nothing to do: no lines in the ground, or no frost.
    """

    name: ChecklistName
    season: ListSeason
    steps: tuple[Step, ...]
    needed: bool
    note: str = ""

    @property
    def done(self) -> int:
        """How many steps are done."""
        return sum(step.is_done for step in self.steps)
