"""What a line in plain words comes to: its fields as they would be kept, the change, what is amiss.

A line is read afresh at every key, so everything here is frozen and cheap to make.
"""

from dataclasses import field
from types import MappingProxyType
from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.notebook import Change

QuickKind = Literal["", "water", "feed", "mow", "care", "rain", "note", "soil", "plug", "cans"]
"""What a line is about; empty while that is not clear."""


@dataclass(frozen=True, slots=True)
class Told:
    """One field of what would be kept, as it is read to the owner: "Zone", "Front lawn"."""

    label: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Quick:
    """A line as it was understood.

    `fields` are what would be kept. `faults` say what is missing, not understood or refused, each
    with the mend; with any of them `change` is empty. `questions` may be kept once looked at again.
    `notes` say something more, such as the verdict before spreading. `proposals` are whole lines
    that carry this one on. `label` names the edit for undo.
    """

    kind: QuickKind = ""
    label: str = ""
    fields: tuple[Told, ...] = ()
    change: Change = field(default_factory=lambda: MappingProxyType({}))
    faults: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    proposals: tuple[str, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether there is something to keep."""
        return bool(self.change)
