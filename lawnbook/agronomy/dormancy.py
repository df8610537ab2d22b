"""Grass let go dormant in a drought: the water that keeps its crowns alive, and the risk.

Depths are net inches. Sources: "turf-survival", "crown-water", "lsu-drought", "tamu-drought",
"survival-water".
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.agronomy.turf import known_grass
from lawnbook.frozen import dataclass
from lawnbook.reading import tr


@dataclass(frozen=True, slots=True)
class Survival:
    """A dormant lawn's watering: `depth_in` every `every_days`; `source` is a key.

    `weeks_borne` is how many weeks without any water the grass is said to come back from where
    soil is deep and nobody walks on it; `risk` is a sentence for the owner.
    """

    every_days: int
    depth_in: float
    weeks_borne: int
    risk: str
    source: str


SURVIVAL_DEPTH_IN = 0.5
"""Half an inch wets crowns and upper roots without bringing the grass out (common practice).

Published figures lie on both sides: a quarter inch (source "crown-water"), and enough to wet the
upper five inches (source "lsu-drought").
"""

_BY_RHIZOMES = tr("comes back from its rhizomes, thinner if the drought lasts")
_IN_CLUMPS = tr("has no rhizomes to come back from: clumps that die leave bare ground to be sown")
_BY_RUNNERS = tr(
    "lies bare in its runners above the ground: what dries out is dead and must be laid"
)


def _survival(every_days: int, weeks_borne: int, risk: str, source: str) -> Survival:
    return Survival(every_days, SURVIVAL_DEPTH_IN, weeks_borne, risk, source)


BY_SPECIES: Mapping[str, Survival] = MappingProxyType(
    {
        "kentucky bluegrass": _survival(
            28, 5, tr("It {by_rhizomes}.", by_rhizomes=_BY_RHIZOMES), "turf-survival"
        ),
        "perennial ryegrass": _survival(
            14, 3, tr("It {in_clumps}.", in_clumps=_IN_CLUMPS), "survival-water"
        ),
        "tall fescue": _survival(14, 3, tr("It {in_clumps}.", in_clumps=_IN_CLUMPS), "crown-water"),
        "fine fescue": _survival(
            21,
            4,
            tr("It bears dry shade well and full sun badly, and thins there."),
            "survival-water",
        ),
        "bermudagrass": _survival(
            28, 8, tr("It {by_rhizomes}.", by_rhizomes=_BY_RHIZOMES), "tamu-drought"
        ),
        "zoysiagrass": _survival(
            28,
            8,
            tr("It {by_rhizomes}, and takes long to close gaps.", by_rhizomes=_BY_RHIZOMES),
            "tamu-drought",
        ),
        "buffalograss": _survival(28, 8, tr("It bears drought best of all."), "tamu-drought"),
        "st. augustinegrass": _survival(
            14, 3, tr("It {by_runners}.", by_runners=_BY_RUNNERS), "lsu-drought"
        ),
        "centipedegrass": _survival(
            14, 3, tr("It {by_runners}.", by_runners=_BY_RUNNERS), "lsu-drought"
        ),
    }
)
"""By species in small letters.

Weeks borne: bluegrass is the careful end of Purdue's 5 to 8 weeks (source "turf-survival"); the
60 days of bermudagrass, zoysiagrass and buffalograss held on 18 in of soil, while on 4 in none
lived (source "tamu-drought"); 3 to 4 weeks in the Gulf South (source "lsu-drought"). Days between
waterings: Nebraska waters dormant bluegrass every 4 weeks and tall fescue every 2 to 3 (source
"crown-water"), here at the careful end; the others are source "survival-water".
"""

_UNKNOWN: Mapping[str, Survival] = MappingProxyType(
    {
        "cool": _survival(
            14, 3, tr("Until the species is entered, the weaker ones count."), "crown-water"
        ),
        "warm": _survival(
            14, 3, tr("Until the species is entered, the weaker ones count."), "lsu-drought"
        ),
    }
)


def survival_watering(species: str, grass: str) -> Survival:
    """What keeps a dormant lawn of a species alive, or else the careful end of its season's.

    ValueError unless `grass` is "cool" or "warm".
    """
    season = known_grass(grass)
    return BY_SPECIES.get(species.strip().lower(), _UNKNOWN[season])
