"""How much air pressure sprinkler pipe bears when its water is blown out for winter.

Source: "blowout-pressure". The label of the pipe and its fittings goes before these limits.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

Pipe = Literal["rigid PVC", "polyethylene"]

MOST_AIR_PSI: Mapping[Pipe, float] = MappingProxyType({"rigid PVC": 80.0, "polyethylene": 50.0})
"""The most pressure (psi, gauge) of the air for each kind of pipe. Source: "blowout-pressure"."""


def most_air_psi(pipes: frozenset[Pipe]) -> float:
    """The most pressure (psi, gauge) that every pipe of a line bears: that of the weakest.

    Where the pipe is not known (an empty set), the lowest limit of all.
    Source: "blowout-pressure".
    """
    return min(MOST_AIR_PSI[pipe] for pipe in (pipes or MOST_AIR_PSI))
