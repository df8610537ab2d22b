"""Mowing by the rule of one third: never more than a third of what stands, so in time.

Heights are inches, growth is inches a week. Sources: "mowing-third", "growth-rate",
"growth-rate-warm", "mowing-down". ValueError outside a formula's domain.
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.agronomy.checks import COUNTING_SLACK, floor_count, not_negative, positive
from lawnbook.agronomy.turf import known_grass

MOW_AT = 1.5
"""Grass is mown before it stands higher than so many times the height of cut: a third comes off."""

DAYS_PER_WEEK = 7

PEAK_GROWTH_IN_PER_WEEK: Mapping[str, float] = MappingProxyType({"cool": 1.5, "warm": 1.0})
"""Growth in the best weeks while the species is not known (source "growth-rate" for cool)."""

PEAK_BY_SPECIES: Mapping[str, float] = MappingProxyType(
    {
        "fine fescue": 1.0,
        "bermudagrass": 1.5,
        "st. augustinegrass": 1.5,
        "zoysiagrass": 0.75,
        "centipedegrass": 0.75,
        "buffalograss": 0.75,
    }
)
"""By species in small letters, where it differs from its season's (source "growth-rate-warm").

Bermudagrass cut at 1.5 in is mown twice a week, zoysiagrass at that height once, St. Augustinegrass
at 3 in once.
"""


def peak_growth_in_per_week(species: str, grass: str) -> tuple[float, str]:
    """How fast a lawn grows in its best weeks, and the key of the source of that.

    ValueError unless `grass` is "cool" or "warm".
    """
    own = PEAK_BY_SPECIES.get(species.strip().lower())
    if own is not None:
        return own, "growth-rate-warm"
    season = known_grass(grass)
    key = "growth-rate" if season == "cool" else "growth-rate-warm"
    return PEAK_GROWTH_IN_PER_WEEK[season], key


def mow_at_in(height_in: float) -> float:
    """The height at which grass is mown to `height_in`: a third of it comes off.

    Source: "mowing-third".
    """
    return MOW_AT * positive("height_in", height_in)


def days_between(height_in: float, growth_in_per_week: float) -> int:
    """Whole days from one mowing to the next at a steady growth, at least 1.

    Source: "mowing-third", "growth-rate".
    """
    a_day = positive("growth_in_per_week", growth_in_per_week) / DAYS_PER_WEEK
    return max(1, floor_count((mow_at_in(height_in) - height_in) / a_day))


def cuts_down(stands_in: float, height_in: float) -> tuple[float, ...]:
    """The heights of the cuts that bring grass down, the last one the height of cut.

    Each takes a third of what stands at the most; one cut where the grass keeps the rule. Source:
    "mowing-down".
    """
    target, stands = positive("height_in", height_in), not_negative("stands_in", stands_in)
    cuts: list[float] = []
    while stands > MOW_AT * target * (1 + COUNTING_SLACK):
        stands /= MOW_AT
        cuts.append(stands)
    return (*cuts, target)
