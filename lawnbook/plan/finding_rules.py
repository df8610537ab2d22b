"""The rules by which plugs and records are put into words: how each weighs, and its source.

A rule says what is known of lawns, its finding what was seen in this one. No rule names a product.
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.frozen import dataclass
from lawnbook.plan.limit_words import limit_words
from lawnbook.plan.plug_model import Finding, Weight
from lawnbook.plan.workings import sources
from lawnbook.reading import tr


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: its key, how its finding weighs, the rule in words, and the keys of its sources.

    In `words` the places of `limit_words` stand for lengths that are said in words.
    """

    key: str
    weight: Weight
    words: str
    source_keys: tuple[str, ...]

    def finds(self, zone_id: str, spot_id: str, sentence: str) -> Finding:
        """The finding that this rule makes of a spot ("" for none) of a zone ("" for the yard)."""
        return Finding(
            key=self.key,
            weight=self.weight,
            zone_id=zone_id,
            spot_id=spot_id,
            sentence=sentence,
            rule=tr(self.words, **limit_words()),
            source=sources(*self.source_keys),
        )


_CORING = tr(
    "Over {inch}, cores pulled close together, {apart} apart in several passes, "
    "open the layer; raked out at once, turf that is rooted in it comes along. "
    "Have buried lines located first."
)
_REDUCERS = tr(
    "In the published trial no treatment, a biological one among them, kept thatch "
    "from building up. What was put down is recorded here; only plugs, and a strip "
    "without it, tell its part."
)

_LISTED = (
    Rule(
        "thatch-over-inch",
        "warn",
        _CORING,
        ("coring-close", "coring-sdsu", "thatch-rake"),
    ),
    Rule(
        "thatch-thick",
        "note",
        "Over {half_inch}, more and more of roots, water and feed stay in the thatch. Coring "
        "mixes soil into it.",
        ("thatch-half-inch", "coring-close"),
    ),
    Rule(
        "thatch-half",
        "note",
        "{half_inch_first} is the limit that is told everywhere; a ruler cannot part a hair from "
        "it.",
        ("thatch-half-inch",),
    ),
    Rule(
        "thatch-pressed",
        "note",
        "{half_inch_first} is meant unpressed: pressed together, thatch reads thinner.",
        ("thatch-half-inch",),
    ),
    Rule(
        "thatch-thin",
        "good",
        "Up to {half_inch} of thatch does no harm.",
        ("thatch-half-inch", "uc-ipm"),
    ),
    Rule(
        "roots-in-thatch",
        "warn",
        "Roots that end in the thatch have no soil to draw on: such turf dries out within a day or "
        "two, and comes along when thatch is raked out.",
        ("roots-in-thatch", "thatch-rake"),
    ),
    Rule(
        "roots-shallower",
        "warn",
        "Shallower roots bear less water at a time. Plugs of one season are compared, for roots "
        "die back in summer heat.",
        ("root-reading",),
    ),
    Rule(
        "roots-deeper",
        "good",
        "Deeper roots bear more water at a time, so that waterings may lie further apart. Plugs of "
        "one season are compared, for roots die back in summer heat.",
        ("root-reading",),
    ),
    Rule(
        "roots-beyond",
        "note",
        "Roots that reach the cut end of a plug may go on below it: pull a longer one.",
        ("plug-reading",),
    ),
    Rule(
        "thatch-mixing",
        "good",
        "Thatch with soil in it decays faster and holds water and feed as soil does.",
        ("thatch-worms",),
    ),
    Rule(
        "thatch-bare",
        "note",
        "Soil mixed into thatch, by worms, coring or topdressing, speeds its decay.",
        ("thatch-worms",),
    ),
    Rule(
        "thatch-dry",
        "warn",
        "Dry thatch repels water: it takes it in several lighter applications, close together.",
        ("thatch-dry",),
    ),
    Rule(
        "thatch-holds-water",
        "warn",
        "Thatch delays water on its way into the soil and holds it: the soil stays dry below.",
        ("thatch-delay",),
    ),
    Rule(
        "always-wet",
        "warn",
        "Thatch that stays saturated can suffocate roots: let it dry between waterings, and look "
        "to drainage.",
        ("thatch-wet",),
    ),
    Rule(
        "watering-light",
        "warn",
        "In a trial on creeping bentgrass, deep and infrequent watering gave more roots than "
        "light, daily watering. Go further apart only as fast as the roots bear it.",
        ("deep-seldom",),
    ),
    Rule(
        "watering-deep",
        "good",
        "In a trial on creeping bentgrass, deep and infrequent watering gave more roots than "
        "light, daily watering.",
        ("deep-seldom",),
    ),
    Rule(
        "sponge-firm",
        "note",
        "Where tread and ruler disagree, one of them is misread: find the crowns and the soil "
        "again on a second plug.",
        ("plug-reading",),
    ),
    Rule(
        "sponge-soft",
        "note",
        "Where tread and ruler disagree, one of them is misread, or the soil itself is soft: find "
        "the crowns and the soil again on a second plug.",
        ("plug-reading",),
    ),
    Rule(
        "uneven",
        "note",
        "A mean of very unlike readings says little: a second plug of the same day tells whether "
        "the turf is so uneven or a reading is off.",
        ("plug-reading",),
    ),
    Rule(
        "worms-none",
        "note",
        "Earthworms break thatch apart and mix soil into it; without them it decays more slowly. A "
        "plug is small, and worms go deep in dry or cold soil.",
        ("thatch-worms",),
    ),
    Rule(
        "worms-many",
        "good",
        "Earthworms break thatch apart and mix soil into it.",
        ("thatch-worms",),
    ),
    Rule(
        "ph-acid",
        "warn",
        "A soil pH below 6 slows the decay of thatch. Whether to lime, and how much, is for the "
        "laboratory to say.",
        ("thatch-ph",),
    ),
    Rule(
        "n-over",
        "warn",
        "In a Kentucky trial the highest nitrogen rate doubled the thatch of Kentucky bluegrass.",
        ("thatch-n",),
    ),
    Rule(
        "sod-layer",
        "note",
        "Sod soil unlike the ground below is a layer that holds water and roots; cores through it "
        "join the two.",
        ("sod-layer",),
    ),
    Rule(
        "sod-young",
        "note",
        "Sod brings its own thatch and goes on settling: the first slopes are partly that, "
        "whatever else was done.",
        ("sod-age",),
    ),
    Rule(
        "reducers",
        "note",
        _REDUCERS,
        ("reducers-trial", "label-first"),
    ),
    Rule(
        "strip-missing",
        "note",
        "One lawn treated as a whole proves nothing: weather and age change thatch too. A strip "
        "left untreated tells what would have happened anyway.",
        ("comparison-strip",),
    ),
    Rule(
        "strip-unread",
        "note",
        "A strip left untreated tells what would have happened anyway, once plugs are pulled there "
        "on the same days.",
        ("comparison-strip",),
    ),
)

RULES: Mapping[str, Rule] = MappingProxyType({rule.key: rule for rule in _LISTED})
"""Every rule by its key, in the order in which findings of one place and weight are told."""

EXCLUDING: tuple[frozenset[str], ...] = (
    frozenset({"thatch-thin", "thatch-half", "thatch-thick", "thatch-over-inch", "thatch-pressed"}),
    frozenset({"roots-in-thatch", "roots-deeper"}),
    frozenset({"roots-deeper", "roots-shallower"}),
    frozenset({"thatch-mixing", "thatch-bare"}),
    frozenset({"thatch-dry", "thatch-holds-water", "always-wet"}),
    frozenset({"sponge-firm", "sponge-soft"}),
    frozenset({"sponge-soft", "thatch-thick"}),
    frozenset({"sponge-firm", "thatch-thin"}),
    frozenset({"worms-none", "worms-many"}),
    frozenset({"watering-light", "watering-deep"}),
    frozenset({"strip-missing", "strip-unread"}),
)
"""Keys that would contradict each other: of each at most one is told of one place."""
