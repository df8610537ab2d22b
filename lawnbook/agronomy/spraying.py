"""A sprayer calibrated with plain water: what it puts down, what a tank covers, how it is filled.

Source: "sprayer-area". ValueError outside a formula's domain.
"""

from typing import NamedTuple

from lawnbook.agronomy.guards import floor_count, not_negative, positive


class Tanks(NamedTuple):
    """Full tanks, and the spray of the last partial one (0 where none is left)."""

    full: int
    last_gal: float


def spray_gal_per_1000(used_gal: float, area_sqft: float) -> float:
    """Spray (gal per 1,000 sq ft) of a sprayer that used so much water on an area.

    Source: "sprayer-area".
    """
    return positive("used_gal", used_gal) * 1000.0 / positive("area_sqft", area_sqft)


def tank_covers_sqft(tank_gal: float, gal_per_1000: float) -> float:
    """The area (sq ft) that one full tank covers. Source: "sprayer-area"."""
    return positive("tank_gal", tank_gal) * 1000.0 / positive("gal_per_1000", gal_per_1000)


def tanks_for(area_sqft: float, tank_gal: float, gal_per_1000: float) -> Tanks:
    """How many full tanks an area takes, and the spray of the last one that is not full.

    An area of a whole number of tanks has no last one. Source: "sprayer-area".
    """
    covers = tank_covers_sqft(tank_gal, gal_per_1000)
    full = floor_count(not_negative("area_sqft", area_sqft) / covers)
    left_sqft = area_sqft - full * covers
    return Tanks(full, left_sqft * gal_per_1000 / 1000.0 if left_sqft > covers * 1e-9 else 0.0)
