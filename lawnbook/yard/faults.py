"""What the check of the sketch finds: faults with their sentence, and the mends offered."""

from typing import Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Outline
from lawnbook.yard.ground import Ground
from lawnbook.yard.notebook import Key

FaultKind = Literal[
    "overlap", "island", "covered", "crown", "sliver", "hole", "corners", "small", "head", "spot"
]
"""Two zones on one ground; a zone inside another; a feature on turf; a crown over turf; a bare
sliver between zones; a hole at the edge or on another; needless corners; a very small zone; a head
that wets none of its zone; a spot outside its zone."""

Act = Literal["cut", "join", "open", "tidy", "merge", "give"]
"""Cut the others out of the shape; join ground to it; open its holes; take needless corners out;
merge it into the other; give the head or spot to the other."""


@dataclass(frozen=True, slots=True)
class Mend:
    """One way to mend a fault. `safe` where it changes nothing but outlines."""

    words: str
    act: Act
    key: Key
    others: tuple[Key, ...] = ()
    ground: tuple[Ground, ...] = ()
    safe: bool = True


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing found: its sentence, the records, and the rings to be shown on the sketch.

    `area_sqft` is the ground concerned, 0 where it is no matter of ground. `other_mend` is a
    second way. It may be left as it is: nothing is kept of that.
    """

    kind: FaultKind
    keys: tuple[Key, ...]
    area_sqft: float
    sentence: str
    rings: tuple[Outline, ...] = ()
    mend: Mend | None = None
    other_mend: Mend | None = None

    @property
    def only_told(self) -> bool:
        """Whether it is worth knowing, and no fault."""
        return self.kind == "crown"


def area_told(area_sqft: float) -> str:
    """An area in a sentence; small ones to a tenth."""
    return told(area_sqft, 0 if area_sqft >= 10 else 1, "sq ft")
