"""What sprinklers of a kind usually put down, for who has not measured: a range, and its middle.

Rates in/h. Sources: "rotor-range", "spray-range", "stream-range". A range is no measurement: two
zones of one kind may lie at its two ends.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from lawnbook.frozen import dataclass

SprinklerKind = Literal["fixed sprays", "rotors", "rotating streams", "any sprinklers"]
"""What the sprinklers of a zone are, as far as their owner can tell."""


@dataclass(frozen=True, slots=True)
class UsualRate:
    """The usual rates of a kind, in/h, with the sources' keys."""

    low_in_per_h: float
    high_in_per_h: float
    sources: tuple[str, ...]

    @property
    def middle_in_per_h(self) -> float:
        """The rate from which both ends are as many times away, to a hundredth.

        Minutes go with one over the rate, so that this one is off by the same factor either way.
        """
        return round(math.sqrt(self.low_in_per_h * self.high_in_per_h), 2)


USUAL_RATES: Mapping[SprinklerKind, UsualRate] = MappingProxyType(
    {
        "fixed sprays": UsualRate(1.3, 2.0, ("spray-range",)),
        "rotors": UsualRate(0.2, 0.8, ("rotor-range",)),
        "rotating streams": UsualRate(0.4, 0.6, ("stream-range",)),
        "any sprinklers": UsualRate(0.2, 2.0, ("rotor-range", "spray-range")),
    }
)
"""The usual rates by kind; "any sprinklers" spans them all."""
