"""Where the rules of mowing, coring and overseeding come from; `sources` holds them with the rest.

"growth-rate", "coring-autumn", "coring-warm", "sowing-autumn" and "sowing-warm" were read on the
pages named, or as they were quoted there; weeks, shares and calendar bounds are common practice.
"""

from lawnbook.agronomy.source import Source

CARE_SOURCES: tuple[Source, ...] = (
    Source(
        "growth-rate",
        "University of Nebraska 2019, Manage to a growth rate: tall fescue does well at 1.5 in a "
        "week; lawns kept at 3.0, 2.0 or 1.5 in are then mown every 7, 4 or 3 days",
        "published",
    ),
    Source(
        "growth-rate-warm",
        "Growth of warm-season lawns and fine fescue at their peak, from how often each is usually "
        "mown at its height (common practice)",
        "practice",
    ),
    Source(
        "mowing-down",
        "Kansas State University 2021, Upham: grass that has grown too tall is cut high and "
        "brought down in steps, more often and lower each time",
        "published",
    ),
    Source(
        "coring-autumn",
        "Kansas State University Research and Extension, Johnson County: September is the time to "
        "core cool-season lawns",
        "published",
    ),
    Source(
        "coring-warm",
        "University of Arizona, Maricopa County Master Gardeners, Aeration: bermudagrass is cored "
        "once a year in its vigorous growing season",
        "published",
    ),
    Source(
        "sowing-autumn",
        "University of Nebraska, Browning 2021: cool-season grass is best sown between 15 August "
        "and 15 September; Kansas State University, Johnson County: early to mid September",
        "published",
    ),
    Source(
        "sowing-warm",
        "University of Missouri Extension, Miller 2014: warm-season grass is established in June "
        "or early July, when it grows at its most",
        "published",
    ),
    Source(
        "care-weeks",
        "Four weeks of growth after coring, 45 days after sowing cool-season and 90 after sowing "
        "warm-season grass; a year before new turf is cored (common practice)",
        "practice",
    ),
)
