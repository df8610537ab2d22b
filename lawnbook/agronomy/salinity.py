"""Salt in the water: how much it restricts use, what each turfgrass bears, and how to rinse it out.

Electrical conductivities in dS/m: of the water (ECw) and of the soil's saturation extract (ECe).
Sources: "fao29", "fao29-turf", "salt-rating". ValueError outside a formula's domain.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from lawnbook.agronomy.checks import not_negative, positive
from lawnbook.agronomy.turf import known_grass

Restriction = Literal["none", "slight to moderate", "severe"]

RESTRICTED_FROM_DS_PER_M = 0.7
SEVERE_ABOVE_DS_PER_M = 3.0
"""Classes of ECw: none below 0.7, severe above 3.0 (source "fao29", table 1)."""

SALT_BORNE_DS_PER_M: Mapping[str, float] = MappingProxyType(
    {
        "kentucky bluegrass": 3.0,
        "perennial ryegrass": 5.6,
        "tall fescue": 3.9,
        "fine fescue": 3.0,
        "bermudagrass": 6.9,
        "zoysiagrass": 6.0,
        "st. augustinegrass": 6.0,
        "buffalograss": 6.0,
        "centipedegrass": 1.5,
    }
)
"""ECe a species bears without harm, by name in small letters.

Tall fescue, perennial ryegrass and bermudagrass: thresholds of source "fao29-turf". The others: the
low end of their class in source "salt-rating" (moderately sensitive 3 to 6, moderately tolerant 6
to 10 dS/m); centipedegrass is sensitive there (below 3), of which half is taken; St.
Augustinegrass and zoysiagrass are rated tolerant in part, and one class lower is taken.
"""

_UNKNOWN: Mapping[str, float] = MappingProxyType({"cool": 3.0, "warm": 3.0})


def restriction(ecw_ds_per_m: float) -> Restriction:
    """How far the water's salt restricts its use. Source: "fao29"."""
    ecw = not_negative("ecw_ds_per_m", ecw_ds_per_m)
    if ecw < RESTRICTED_FROM_DS_PER_M:
        return "none"
    return "slight to moderate" if ecw <= SEVERE_ABOVE_DS_PER_M else "severe"


def salt_borne_ds_per_m(species: str, grass: str) -> float:
    """ECe that a species bears; moderately sensitive where the species is not known."""
    season = known_grass(grass)
    return SALT_BORNE_DS_PER_M.get(species.strip().lower(), _UNKNOWN[season])


def leaching_requirement(ecw_ds_per_m: float, ece_ds_per_m: float) -> float | None:
    """Share of the water that must drain past the roots to hold ECe: ECw / (5 ECe - ECw).

    None where no share does, for ECe is below what such water leaves even when all of it drains.
    Source: "fao29".
    """
    ecw = not_negative("ecw_ds_per_m", ecw_ds_per_m)
    kept = 5 * positive("ece_ds_per_m", ece_ds_per_m) - ecw
    share = ecw / kept if kept > 0 else 1.0
    return share if share < 1 else None
