"""What runs off: rain by the curve number of the turf, irrigation by what soil and surface take.

Depths in, rates in/h. Sources: "tr55" for rain, "ia-schedule" for irrigation. ValueError outside a
formula's domain.
"""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

import numpy as np

from lawnbook.agronomy.checks import Array, Reals, between, not_negative, not_negative_array
from lawnbook.agronomy.soil import MINUTES_PER_HOUR, longest_cycle_minutes

SOIL_GROUPS: Mapping[str, str] = MappingProxyType(
    {
        "sand": "A",
        "loamy sand": "A",
        "sandy loam": "A",
        "loam": "B",
        "clay loam": "D",
        "silty clay": "D",
        "clay": "D",
    }
)
"""Hydrologic soil group of each texture (source "tr55", appendix A; from memory)."""

CURVE_NUMBERS: Mapping[str, float] = MappingProxyType({"A": 39.0, "B": 61.0, "C": 74.0, "D": 80.0})
"""Curve number of open space in good condition, grass over 75 % of it (source "tr55", table 2-2a).

C's 74, lawn in good condition, is printed in TR-55's example 2-4; the others are from memory.
"""

FIRST_TAKEN_SHARE = 0.2
"""Share of the ground's storage S that takes rain before any runs off (source "tr55")."""


def curve_number(soil_name: str) -> float:
    """Curve number of good turf on a texture; KeyError for a texture not known. Source: "tr55"."""
    return CURVE_NUMBERS[SOIL_GROUPS[soil_name]]


def rain_runoff_in(rain_in: Sequence[float] | Reals, curve_number: float) -> Array:
    """Run-off (in) of each day's rain: (P - 0.2 S)^2 / (P + 0.8 S), 0 up to 0.2 S.

    S = 1000 / CN - 10. `curve_number` lies above 0, at most 100. Source: "tr55".
    """
    rain = not_negative_array("rain_in", rain_in)
    storage = 1000.0 / between("curve_number", curve_number, 1.0, 100.0) - 10.0
    beyond = np.maximum(rain - FIRST_TAKEN_SHARE * storage, 0.0)
    # The divisor is zero only where nothing is beyond the first part.
    return beyond**2 / np.where(beyond > 0, beyond + storage, 1.0)


def irrigation_runoff_in(
    run_minutes: float,
    cycles: int,
    rate_in_per_h: float,
    intake_in_per_h: float,
    storage_in: float,
) -> float:
    """Gross run-off (in) of one watering in equal cycles, each after the last one has gone in.

    Each cycle loses what falls beyond the longest cycle: (rate - intake) x minutes - storage.
    `cycles` is 1 or more. Source: "ia-schedule".
    """
    if cycles < 1:
        raise ValueError(f"cycles must be 1 or more, not {cycles}.")
    longest = longest_cycle_minutes(rate_in_per_h, intake_in_per_h, storage_in)
    too_long = max(0.0, not_negative("run_minutes", run_minutes) / cycles - longest)
    if too_long == 0.0:
        return 0.0
    return cycles * too_long * (rate_in_per_h - intake_in_per_h) / MINUTES_PER_HOUR
