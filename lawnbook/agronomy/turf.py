"""What a grass needs: crop coefficients, allowed depletion, warmth; the species known.

A grass is "cool" or "warm"; anything else is a ValueError. Sources: "uc-kc", "fao56",
"growth-potential", "va-dcr-n".
"""

import math
from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.agronomy.guards import finite
from lawnbook.agronomy.seasons import table_month
from lawnbook.frozen import dataclass

GRASSES = ("cool", "warm")

KC: Mapping[str, tuple[float, ...]] = MappingProxyType(
    {
        "cool": (0.61, 0.64, 0.75, 1.04, 0.95, 0.88, 0.94, 0.86, 0.74, 0.75, 0.69, 0.60),
        "warm": (0.61, 0.54, 0.76, 0.72, 0.79, 0.68, 0.71, 0.71, 0.62, 0.54, 0.58, 0.55),
    }
)
"""Monthly crop coefficients, January to December in the north (source "uc-kc").

The University of California copy that prints 0.61 for warm-season January; another prints 0.55. The
printed warm-season mean of 0.60 is not the mean of its months, which is 0.65: the months are used,
never the year's figure.
"""

DEPLETION: Mapping[str, float] = MappingProxyType({"cool": 0.40, "warm": 0.50})
"""Share of the available water that may be used before the grass is short of it.

FAO-56 table 22's p (from memory).
"""

DORMANT_BELOW_F: Mapping[str, float] = MappingProxyType({"cool": 40.0, "warm": 50.0})
"""Mean air temperature below which the grass is taken to be dormant (common practice)."""

GROWTH_OPTIMUM_F: Mapping[str, float] = MappingProxyType({"cool": 68.0, "warm": 88.0})
GROWTH_SPREAD_F: Mapping[str, float] = MappingProxyType({"cool": 10.0, "warm": 12.0})
"""Widths of the growth curve, deg F (from memory)."""

LEAST_GROWTH = 0.10
"""Growth potential below which grass grows and feeds next to nothing (source "growth-stop")."""


@dataclass(frozen=True, slots=True)
class Species:
    """A turfgrass, its season, and the N it takes in a year (lb per 1,000 sq ft, "va-dcr-n")."""

    name: str
    grass: str
    year_n_low: float
    year_n_high: float


def _by_name(*species: Species) -> Mapping[str, Species]:
    return MappingProxyType({each.name: each for each in species})


SPECIES: Mapping[str, Species] = _by_name(
    Species("Kentucky bluegrass", "cool", 2.0, 3.5),
    Species("perennial ryegrass", "cool", 2.0, 3.5),
    Species("tall fescue", "cool", 2.0, 3.5),
    Species("fine fescue", "cool", 1.0, 2.0),
    Species("bermudagrass", "warm", 2.0, 4.0),
    Species("zoysiagrass", "warm", 1.0, 2.0),
    Species("St. Augustinegrass", "warm", 2.0, 4.0),
    Species("centipedegrass", "warm", 1.0, 2.0),
)


def known_grass(grass: str) -> str:
    """Return `grass`; ValueError unless it is "cool" or "warm"."""
    if grass not in GRASSES:
        raise ValueError(f'grass must be "cool" or "warm", not "{grass}".')
    return grass


def crop_coefficient(month: int, grass: str, latitude_deg: float) -> float:
    """Kc of calendar `month` (1-12), six months shifted south of the equator. Source: "uc-kc"."""
    return KC[known_grass(grass)][table_month(month, latitude_deg) - 1]


def growth_potential(tmean_f: float, grass: str) -> float:
    """Growth as a share of the best, 0-1: exp(-((T - Topt) / s)^2 / 2), T mean air deg F.

    Heat does not slow warm-season grass: 1 above its optimum. Source: "growth-potential".
    """
    known_grass(grass)
    gap_f = finite("tmean_f", tmean_f) - GROWTH_OPTIMUM_F[grass]
    if grass == "warm" and gap_f > 0:
        return 1.0
    return math.exp(-0.5 * (gap_f / GROWTH_SPREAD_F[grass]) ** 2)


def growing(tmean_f: float, grass: str) -> bool:
    """False below a mean air temperature of 40 (cool) or 50 deg F (warm) (common practice).

    Below it the grass is dormant: its crop coefficient counts as zero and no watering is planned.
    """
    return finite("tmean_f", tmean_f) >= DORMANT_BELOW_F[known_grass(grass)]
