"""Where every number comes from: one key for each source."""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.agronomy.care_sources import CARE_SOURCES
from lawnbook.agronomy.feed_sources import FEED_SOURCES
from lawnbook.agronomy.finding_sources import FINDING_SOURCES
from lawnbook.agronomy.first_sources import FIRST_SOURCES
from lawnbook.agronomy.line_sources import LINE_SOURCES
from lawnbook.agronomy.plug_sources import PLUG_SOURCES
from lawnbook.agronomy.source import Source


def _by_key(*sources: Source) -> Mapping[str, Source]:
    return MappingProxyType({source.key: source for source in sources})


SOURCES: Mapping[str, Source] = _by_key(
    Source(
        "fao56",
        "Allen, Pereira, Raes and Smith 1998, Crop evapotranspiration, FAO Irrigation and "
        "Drainage Paper 56, Rome: equation 6 (ETo), chapter 3 (missing data), chapter 8 (soil "
        "water, equation 85)",
        "published",
    ),
    Source(
        "hargreaves",
        "Hargreaves and Samani 1985, Reference crop evapotranspiration from temperature, as FAO "
        "Irrigation and Drainage Paper 56, chapter 3, equation 52",
        "published",
    ),
    Source(
        "depletion",
        "Depletion fraction p of turf: FAO Irrigation and Drainage Paper 56, table 22 (from "
        "memory)",
        "memory",
    ),
    Source(
        "uc-kc",
        "University of California, Center for Landscape and Urban Horticulture, Turfgrass "
        "crop coefficients (Kc), table 1, from Meyer and others 1985, Proceedings of the 5th "
        "International Turfgrass Research Conference, Avignon, pages 357–364",
        "published",
    ),
    Source(
        "wucols",
        "Costello, Matheny and Clark 2000, A guide to estimating irrigation water needs of "
        "landscape plantings in California, part 1, the landscape coefficient method, University "
        "of California: microclimate factor (from memory)",
        "memory",
    ),
    Source(
        "rate-constant",
        "Exact: 60 min x 231 cu in a gallon / 144 sq in a square foot = 96.25 (handbooks "
        "round to 96.3)",
        "published",
    ),
    Source(
        "ia-catch-can",
        "Kent and Leinauer, New Mexico State University Guide H-510, How to perform a catch can "
        "irrigation audit on a home lawn sprinkler system, after the auditing method of the "
        "Irrigation Association",
        "published",
    ),
    Source(
        "christiansen",
        "Christiansen 1942, Irrigation by sprinkling, California Agricultural Experiment "
        "Station Bulletin 670 (from memory)",
        "memory",
    ),
    Source(
        "multiplier",
        "Irrigation Association 2005, Landscape irrigation scheduling and water management: "
        "run-time multiplier 1 / (0.4 + 0.6 DU of the lower quarter) (from memory)",
        "memory",
    ),
    Source(
        "vonbernuth-mecham",
        "von Bernuth and Mecham, Defining the run time multiplier, 12 pages, example 1 on page 1",
        "published",
    ),
    Source(
        "default-uniformity",
        "Lower-quarter uniformity of 0.65 where none was measured (common practice)",
        "practice",
    ),
    Source(
        "can-count",
        "Catch-can study, Journal of the American Water Resources Association 2007, doi "
        "10.1111/j.1752-1688.2007.00075.x",
        "published",
    ),
    Source(
        "ia-schedule",
        "Irrigation Association 2005, Landscape irrigation scheduling and water management: "
        "intake, available water and surface storage by texture (from memory)",
        "memory",
    ),
    Source(
        "usda-rate",
        "USDA table of the highest sprinkler rates by soil and slope, as reprinted in the "
        "trade press 2018",
        "published",
    ),
    Source(
        "practice-inch",
        "One inch at a time: every 4–5 days in summer, about every 9 in spring and autumn "
        "(common practice)",
        "practice",
    ),
    Source(
        "default-roots",
        "Six inches of roots from the crowns before the first plug (common practice)",
        "practice",
    ),
    Source(
        "dormancy",
        "Dormant below a mean air temperature of 40 deg F (cool season) or 50 deg F (warm "
        "season) (common practice)",
        "practice",
    ),
    Source(
        "deep-seldom",
        "Fu and Dernoeden 2006–2007, University of Maryland: deep and infrequent against "
        "light and daily irrigation of creeping bentgrass",
        "published",
    ),
    Source(
        "thatch-half-inch",
        "Half an inch of thatch: UC IPM; University of Delaware, Kent County Extension 2009",
        "published",
    ),
    Source(
        "thatch-n",
        "Bridges and Powell 1982, Kentucky Turfgrass Research: the highest N rate doubled "
        "thatch on Kentucky bluegrass",
        "published",
    ),
    Source(
        "mowing-third",
        "Kansas State University: never remove more than a third of the blade",
        "published",
    ),
    Source(
        "theil-sen",
        "Sen 1968, Estimates of the regression coefficient based on Kendall's tau, Journal "
        "of the American Statistical Association 63:1379–1389",
        "published",
    ),
    Source(
        "kendall",
        "Kendall 1970, Rank correlation methods, fourth edition: variance of S with ties (from "
        "memory)",
        "memory",
    ),
    Source(
        "buried-lines",
        "Before digging, even for a plug, have buried lines located; call 811 in the United "
        "States (common practice)",
        "practice",
    ),
    Source(
        "seed-moist",
        "Iowa State University Extension and Outreach, seeding lawns: the upper inch moist by "
        "two light waterings a day, three or four on windy, sunny days",
        "published",
    ),
    Source(
        "sod-moist",
        "Purdue Extension AY–28, Establishing a lawn from sod: sod kept moist until it has "
        "rooted, then watered less often (from memory)",
        "memory",
    ),
    Source(
        "establishing-weeks",
        "Weeks and depths by which new seed and sod are watered less and less often (common "
        "practice)",
        "practice",
    ),
    Source(
        "turf-survival",
        "Purdue University Turfgrass Science, Facts and advice on turf survival in drought: 5 to "
        "8 weeks without water; turf sown or laid this year is watered on",
        "published",
    ),
    Source(
        "crown-water",
        "Reicher 2012, University of Nebraska: a dormant lawn's crowns are kept moist every four "
        "weeks (Kentucky bluegrass) or every two to three (tall fescue)",
        "published",
    ),
    Source(
        "lsu-drought",
        "Louisiana State University AgCenter, Drought-dormant lawns: 3 to 4 weeks without water; "
        "no feeding of grass that is dormant from heat or drought",
        "published",
    ),
    Source(
        "tamu-drought",
        "Chalmers and others 2006–2007, Texas A&M University: 60 days without water borne by "
        "warm-season turf on 18 in of soil and by none on 4 in",
        "published",
    ),
    Source(
        "survival-water",
        "Half an inch every two to four weeks keeps a dormant lawn's crowns alive (common "
        "practice)",
        "practice",
    ),
    Source(
        "fao29",
        "Ayers and Westcot 1985, Water quality for agriculture, FAO Irrigation and Drainage Paper "
        "29, Rome: restriction by salinity, table 1; leaching requirement, equation 9",
        "published",
    ),
    Source(
        "fao29-turf",
        "Salinity thresholds of tall fescue, perennial ryegrass and bermudagrass: FAO Irrigation "
        "and Drainage Paper 29, table 4 (from memory)",
        "memory",
    ),
    Source(
        "salt-rating",
        "Uddin and Juraimi 2013, Salinity tolerance turfgrass: history and prospects, The "
        "Scientific World Journal 409413, table 1",
        "published",
    ),
    Source(
        "noaa-sun",
        "NOAA Global Monitoring Laboratory, Solar calculation details: sunrise and sunset after "
        "Meeus, Astronomical algorithms",
        "published",
    ),
    Source(
        "thatch-delay",
        "Liang and others 2017, Journal of Water Resource and Protection 9(7): thatch delays the "
        "start of infiltration and holds water on the surface",
        "published",
    ),
    Source(
        "thatch-dry",
        "Owings and Koske, Louisiana State University Agricultural Center, Thin areas in summer "
        "lawns: dry thatch repels water and takes it in several lighter applications",
        "published",
    ),
    Source(
        "wetting-start",
        "A short first run wets dry thatch half an hour before the rest (common practice)",
        "practice",
    ),
    Source(
        "tr55",
        "USDA Natural Resources Conservation Service 1986, Urban hydrology for small watersheds, "
        "Technical Release 55, table 2–2a: curve numbers of open space in good condition (from "
        "memory)",
        "memory",
    ),
    Source(
        "thatch-water",
        "Hurto, Turgeon and Spomer 1980, Physical characteristics of thatch as a turfgrass growing "
        "medium, Agronomy Journal 72:165: thatch keeps little of the water it takes; how much is "
        "an assumption here",
        "published",
    ),
    Source(
        "kincaid-profile",
        "Kincaid, Impact sprinkler pattern modification, American Society of Agricultural "
        "Engineers: triangular and rectangular patterns, a doughnut at low pressure",
        "published",
    ),
    Source(
        "student-t",
        "Abramowitz and Stegun 1964, Handbook of mathematical functions, 26.7.3 and 26.7.4: "
        "Student's t as a finite sum (from memory)",
        "memory",
    ),
    Source(
        "ghcn-daily",
        "NOAA National Centers for Environmental Information, readme of the Global Historical "
        "Climatology Network daily: elements, units and flags",
        "published",
    ),
    *CARE_SOURCES,
    *FEED_SOURCES,
    *FINDING_SOURCES,
    *FIRST_SOURCES,
    *LINE_SOURCES,
    *PLUG_SOURCES,
)


def cite(key: str) -> str:
    """The citation of a source.

    KeyError for a key that is not in `SOURCES`: that is a bug here, not the owner's.
    """
    return SOURCES[key].citation
