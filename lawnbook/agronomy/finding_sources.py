"""Where the rules come from by which plugs are read in words; `sources` holds them with all others.

"coring-close", "thatch-rake", "roots-in-thatch", "thatch-worms", "thatch-wet", "reducers-trial",
"sod-layer" and "line-tolerance" were read on the pages named; distances and limits without a page
are common practice.
"""

from lawnbook.agronomy.source import Source

FINDING_SOURCES: tuple[Source, ...] = (
    Source(
        "coring-close",
        "Colorado State University Extension, Ask Extension 163078 (2013): thatch of half an inch "
        "or more is cored in several passes, holes 2 to 3 in apart",
        "published",
    ),
    Source(
        "coring-sdsu",
        "South Dakota State University Extension, as listed in Ohio State University PlantFacts: "
        "closely spaced coring where thatch is over an inch (from memory)",
        "memory",
    ),
    Source(
        "thatch-rake",
        "University of Idaho Extension 2012, Thatch removal and management: deep power raking can "
        "tear out living grass; coring is the preferred way",
        "published",
    ),
    Source(
        "roots-in-thatch",
        "University of Wisconsin–Madison Extension 2025, Get to the root of lawn problems: with "
        "over half an inch of thatch most roots often end in it, not in the soil",
        "published",
    ),
    Source(
        "thatch-worms",
        "Townsend, Potter and Powell, University of Kentucky, ENTFACT 402: earthworms break thatch "
        "apart and mix soil into it, which speeds its decay",
        "published",
    ),
    Source(
        "thatch-wet",
        "Cornell University, Home gardening, Relieving thatch: thatch that stays saturated can "
        "suffocate roots",
        "published",
    ),
    Source(
        "reducers-trial",
        "McCarty and others 2005, Crop Science 45:1529–1535: no treatment, a biological one among "
        "them, prevented thatch and mat from building up on a new bentgrass green",
        "published",
    ),
    Source(
        "sod-layer",
        "Louisiana State University AgCenter 2005, Layering in soils: a layer of another texture, "
        "such as soil-based sod on sand, holds water back, and roots stay in the better zone",
        "published",
    ),
    Source(
        "line-tolerance",
        "City of East Grand Forks, Minnesota, Call before you dig: by hand within two feet of the "
        "markings; Colorado 811: marks lie within 18 in of a line",
        "published",
    ),
    Source(
        "root-reading",
        "Roots read by eye on two plugs of one season that differ by half an inch or more (common "
        "practice)",
        "practice",
    ),
    Source(
        "plug-reading",
        "Readings round one plug that differ by 3/8 in or more, a tread that belies the ruler, and "
        "plugs shorter than their roots are read again (common practice)",
        "practice",
    ),
    Source(
        "comparison-strip",
        "A strip left untreated tells what would have happened anyway (common practice)",
        "practice",
    ),
    Source(
        "sod-age",
        "Sod brings its own thatch and goes on settling for some three years (common practice)",
        "practice",
    ),
)
