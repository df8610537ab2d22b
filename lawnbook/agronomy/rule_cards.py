"""Cards of local rules on feeding: figures of two known rules, to show how a card is filled in.

They are examples of what a rule may ask, never the rule: laws change, and towns have their own.
Sources: "nj-fertilizer", "fl-fertilizer", "fl-fertilizer-2015".
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr

EXAMPLE = tr(
    "An example, and it may be out of date: look up the rule in force where you "
    "live, and change the figures to it."
)


@dataclass(frozen=True, slots=True)
class RuleCard:
    """The figures of one rule, by the field of the owner's limits that takes each.

    `blackouts` are first and last day as "MM-DD"; they may run over New Year. `beyond` tells what
    the rule asks that the card cannot hold, `note` that it is an example. Its amounts stand in
    places of `text`, in US units first (NIST Handbook 44, appendix C, to two digits).
    """

    name: str
    figures: Mapping[str, float]
    blackouts: tuple[tuple[str, str], ...]
    text: str
    note: str
    source_key: str
    amounts: Mapping[str, tuple[str, str]]

    @property
    def beyond(self) -> str:
        """What the rule asks that the card cannot hold, in the owner's units."""
        told = {
            name: tr(metric if is_metric() else us) for name, (us, metric) in self.amounts.items()
        }
        return tr(self.text, **told)


def _card(
    name: str,
    source_key: str,
    beyond: str,
    *blackouts: tuple[str, str],
    **figures: float,
) -> RuleCard:
    return RuleCard(
        name, MappingProxyType(figures), blackouts, beyond, EXAMPLE, source_key, _AMOUNTS
    )


_AMOUNTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "far": ("25 ft", "7.6 m"),
        "near": ("10 ft", "3 m"),
        "p_once": ("0.25 lb P2O5 per 1,000 sq ft", "1.2 g P2O5 per m²"),
        "p_year": ("0.5 lb", "2.4 g"),
        "p_starter": ("1 lb", "4.9 g"),
        "n_once": ("2 lb", "9.8 g/m²"),
    }
)
"""The amounts in the cards' words: US, metric."""


CARDS: tuple[RuleCard, ...] = (
    _card(
        tr("New Jersey, fertilizer act of 2011, for home owners (example)"),
        "nj-fertilizer",
        tr(
            "Beyond the card: nothing on frozen or saturated ground, nor during or just "
            "before heavy rain. The {far} from water may be {near} with a drop spreader, a "
            "rotary spreader with a deflector, or a targeted spray. Phosphate only where a "
            "soil test of the last three years shows the need, or on turf being "
            "established. The dates bind what holds nitrogen or phosphorus; the card lets "
            "nothing go down. Professionals have other dates (until 1 December) and other "
            "figures."
        ),
        ("11-16", "02-29"),
        max_total_lb=0.9,
        max_quick_lb=0.7,
        year_lb=3.2,
        min_slow_pct=20.0,
        waterside_ft=25.0,
    ),
    _card(
        tr("Florida, rule 5E-1.003 in its first form, 2007 (example)"),
        "fl-fertilizer",
        tr(
            "Beyond the card: the year's nitrogen by species and region, as the university "
            "recommends it; at most {p_once} at once and {p_year} in a year without a soil "
            "test, and a starter once, up to {p_starter}. The rule itself gives no "
            "distance from water and no blackout dates; counties and towns have their own "
            "of both."
        ),
        max_total_lb=1.0,
        max_quick_lb=0.7,
    ),
    _card(
        tr("Florida, rule 5E-1.003 as of 2015 (example)"),
        "fl-fertilizer-2015",
        tr(
            "Beyond the card: up to {n_once} at once in spring or summer only, and only "
            "with at least 65 % of the nitrogen slow; a smaller feeding may be quicker, "
            "which this card does not let pass, and in autumn and winter less may go down "
            "than it does. The year's nitrogen goes by species and region, and phosphate "
            "by its own limits. The rule itself gives no distance from water and no "
            "blackout dates; counties and towns have their own of both."
        ),
        max_total_lb=2.0,
        max_quick_lb=0.7,
        min_slow_pct=65.0,
    ),
)
"""In the order in which they are offered."""
