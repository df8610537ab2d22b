"""How fast a soil takes water in, how much it holds, and how a run is split so that none runs off.

Rates in/h, depths in, slopes percent. Sources: "ia-schedule" for the table and the cycles,
"usda-rate" for the warning table, "thatch-delay" and "thatch-dry" for dry thatch, "wetting-start"
for the short first run on it. ValueError outside a formula's domain.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.agronomy.checks import ceil_count, not_negative, positive
from lawnbook.frozen import dataclass

MINUTES_PER_HOUR = 60.0
SLOPE_BAND_TOPS_PCT = (3.0, 6.0, 12.0)
"""Upper edges of the first three slope bands, each included; the fourth is all above."""


@dataclass(frozen=True, slots=True)
class Soil:
    """A texture: intake (in/h), available water (in per in of soil), surface storage (in).

    `surface_storage_in` is by slope band: up to 3, up to 6, up to 12 percent, steeper.
    """

    name: str
    intake_in_per_h: float
    available_water_in_per_in: float
    surface_storage_in: tuple[float, float, float, float]

    def __post_init__(self) -> None:
        positive("intake_in_per_h", self.intake_in_per_h)
        positive("available_water_in_per_in", self.available_water_in_per_in)
        for storage in self.surface_storage_in:
            positive("surface_storage_in", storage)


@dataclass(frozen=True, slots=True)
class Cycles:
    """A run in `count` equal parts of `minutes_each`, at least `soak_minutes` apart."""

    count: int
    minutes_each: float
    soak_minutes: float


def _by_name(*soils: Soil) -> Mapping[str, Soil]:
    return MappingProxyType({soil.name: soil for soil in soils})


SOILS: Mapping[str, Soil] = _by_name(
    Soil("clay", 0.10, 0.17, (0.20, 0.15, 0.10, 0.10)),
    Soil("silty clay", 0.15, 0.17, (0.23, 0.19, 0.16, 0.13)),
    Soil("clay loam", 0.20, 0.18, (0.26, 0.22, 0.18, 0.15)),
    Soil("loam", 0.35, 0.17, (0.30, 0.25, 0.21, 0.17)),
    Soil("sandy loam", 0.40, 0.12, (0.33, 0.29, 0.24, 0.20)),
    Soil("loamy sand", 0.50, 0.08, (0.36, 0.30, 0.26, 0.22)),
    Soil("sand", 0.60, 0.06, (0.40, 0.35, 0.30, 0.25)),
)
"""Seven textures, finest first (source "ia-schedule", from memory)."""

DEFAULT_SOIL = "loam"


def surface_storage_in(soil: Soil, slope_pct: float) -> float:
    """Water (in) the surface holds before it runs, in the band of `slope_pct`.

    Source: "ia-schedule".
    """
    slope = not_negative("slope_pct", slope_pct)
    band = sum(slope > top for top in SLOPE_BAND_TOPS_PCT)
    return soil.surface_storage_in[band]


def longest_cycle_minutes(rate_in_per_h: float, intake_in_per_h: float, storage_in: float) -> float:
    """Longest run without run-off (min).

    60 x storage / (rate - intake); math.inf where the soil keeps up.

    Source: "ia-schedule".
    """
    rate = not_negative("rate_in_per_h", rate_in_per_h)
    intake = positive("intake_in_per_h", intake_in_per_h)
    storage = not_negative("storage_in", storage_in)
    return MINUTES_PER_HOUR * storage / (rate - intake) if rate > intake else math.inf


def split_cycles(run_minutes: float, rate_in_per_h: float, soil: Soil, slope_pct: float) -> Cycles:
    """The fewest equal cycles that stay within the longest; none for a run of zero.

    The soak lets what stands on the surface go in: minutes of a cycle x (rate / intake - 1), zero
    where one cycle does. Source: "ia-schedule".
    """
    run = not_negative("run_minutes", run_minutes)
    storage = surface_storage_in(soil, slope_pct)
    longest = longest_cycle_minutes(rate_in_per_h, soil.intake_in_per_h, storage)
    if run == 0:
        return Cycles(0, 0.0, 0.0)
    count = max(1, ceil_count(run / longest))
    minutes_each = run / count
    soak = minutes_each * (rate_in_per_h / soil.intake_in_per_h - 1.0) if count > 1 else 0.0
    return Cycles(count, minutes_each, soak)


THICK_THATCH_IN = 0.5
"""Thatch above this is wetted first: under half an inch it does no harm ("thatch-half-inch")."""

WETTING_IN = 0.1
"""What the first short run puts down on dry thatch, gross (common practice)."""

WETTING_SOAK_MINUTES = 30.0
"""How long it is left to go in before the rest follows (common practice)."""


def wetting_minutes(cycle_minutes: float, rate_in_per_h: float, thatch_in: float) -> float:
    """How much of the first cycle (min) runs ahead, to wet thatch that is dry; 0 where thin.

    Dry thatch repels water and delays its start into the soil, so a first run of `WETTING_IN` and
    a pause open it; at most half of the cycle. The cycles themselves stay as they are: count,
    length and soak are the soil's. Sources: "thatch-delay", "thatch-dry", "wetting-start".
    """
    cycle = not_negative("cycle_minutes", cycle_minutes)
    rate = positive("rate_in_per_h", rate_in_per_h)
    if not_negative("thatch_in", thatch_in) <= THICK_THATCH_IN:
        return 0.0
    return min(MINUTES_PER_HOUR * WETTING_IN / rate, cycle / 2.0)


USDA_SLOPE_TOPS_PCT = (5.0, 8.0, 12.0)

_COARSE_SAND = ((2.0, 2.0, 1.5), (2.0, 1.5, 1.0))
_LIGHT_SANDY_LOAM = ((1.75, 1.25, 1.0), (1.0, 0.8, 0.6))
_SILT_LOAM = ((1.0, 0.8, 0.6), (0.5, 0.4, 0.3))
_HEAVY_CLAY = ((0.2, 0.15, 0.12), (0.15, 0.1, 0.08))

# The table has four soils: a texture it does not name takes the next finer row, to be careful.
_USDA_MOST_IN_PER_H = MappingProxyType(
    {
        "sand": _COARSE_SAND,
        "loamy sand": _LIGHT_SANDY_LOAM,
        "sandy loam": _LIGHT_SANDY_LOAM,
        "loam": _SILT_LOAM,
        "clay loam": _HEAVY_CLAY,
        "silty clay": _HEAVY_CLAY,
        "clay": _HEAVY_CLAY,
    }
)


def usda_most_rate_in_per_h(soil_name: str, slope_pct: float, covered: bool = True) -> float | None:
    """Highest rate (in/h) advised on covered or bare ground; it warns, never sets cycles.

    None for a soil the table does not hold and for slopes above 12 percent, where it ends.
    Source: "usda-rate".
    """
    slope = not_negative("slope_pct", slope_pct)
    rows = _USDA_MOST_IN_PER_H.get(soil_name)
    band = sum(slope > top for top in USDA_SLOPE_TOPS_PCT)
    if rows is None or band == len(USDA_SLOPE_TOPS_PCT):
        return None
    return rows[0 if covered else 1][band]
