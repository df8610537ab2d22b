"""Where the numbers of feeding come from; `sources` holds them together with all others."""

from lawnbook.agronomy.source import Source

FEED_SOURCES: tuple[Source, ...] = (
    Source(
        "n-arithmetic",
        "Product = target N / N percent: county extension example (5 lb of 20 percent N for "
        "1 lb per 1,000 sq ft)",
        "published",
    ),
    Source(
        "va-dcr-n",
        "Virginia Department of Conservation and Recreation, nitrogen by month for lawns",
        "published",
    ),
    Source(
        "msu-n",
        "Michigan State University Extension: never more than 1 lb N per 1,000 sq ft in one "
        "application",
        "published",
    ),
    Source(
        "cornell-quick",
        "Cornell Cooperative Extension of Suffolk County, healthy lawns: at most 0.5 lb "
        "quick-release N at a time",
        "published",
    ),
    Source(
        "uc-ipm",
        "University of California Statewide Integrated Pest Management Program: "
        "slow-release nitrogen; thatch up to half an inch does no harm",
        "published",
    ),
    Source(
        "growth-potential",
        "Gelernter and Stowell 2005, Grounds Maintenance: growth potential, widths of the "
        "curve (from memory)",
        "memory",
    ),
    Source(
        "label-first",
        "Read and follow the product label; local fertilizer law and licensed practice come "
        "first (common practice)",
        "practice",
    ),
)
