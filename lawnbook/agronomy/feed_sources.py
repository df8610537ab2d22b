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
        "Gelernter and Stowell 2005, Predicting turf performance, Grounds Maintenance: growth "
        "potential, widths of the curve (from memory)",
        "memory",
    ),
    Source(
        "label-first",
        "Read and follow the product label; local fertilizer law and licensed practice come "
        "first (common practice)",
        "practice",
    ),
    Source(
        "water-n",
        "University of California Cooperative Extension, Ventura: nitrogen in irrigation water, "
        "0.227 lb per acre for each inch and mg/L (109 lb of 24 in at 20 mg/L)",
        "published",
    ),
    Source(
        "watering-in",
        "A quarter inch of water, gross, washes a product off the blades and into the soil (common "
        "practice)",
        "practice",
    ),
    Source(
        "rain-ahead",
        "Gentle rain of up to half an inch waters a product in, more may wash it off (common "
        "practice)",
        "practice",
    ),
    Source(
        "quick-weeks",
        "Quick nitrogen becomes available evenly over two weeks (common practice)",
        "practice",
    ),
    Source(
        "uc-slow",
        "University of California Cooperative Extension, Merced County 2014, Fall is for "
        "fertilizing: sulfur-coated urea, isobutylidene diurea and organic sources release over "
        "8 to 10 weeks or more",
        "published",
    ),
    Source(
        "sportsturf-slow",
        "SportsTurf, February 2016, page 13: methylene urea 8 to 12 weeks, freed by microbes, "
        "waiting in cold soil; isobutylidene diurea freed by water",
        "published",
    ),
    Source(
        "pcu-weeks",
        "Polymer-coated urea in turf: 8 to 16 weeks by its coating (from memory)",
        "memory",
    ),
    Source(
        "ureaform-weeks",
        "Ureaform in turf: 10 to 30 weeks (from memory)",
        "memory",
    ),
    Source(
        "microbes-q10",
        "Microbes in soil: twice as fast for each 10 °C, none at or below 40 °F, no faster "
        "above 86 °F; the air’s mean temperature stands in for the soil’s (common practice)",
        "practice",
    ),
    Source(
        "clippings-low",
        "University of Missouri Extension G6958 and G6959: clippings left on the lawn give up "
        "to 25 percent of its fertilizer needs",
        "published",
    ),
    Source(
        "clippings-high",
        "University of Connecticut Cooperative Extension, Guillard: clippings left on the lawn "
        "can reduce its nitrogen needs by 50 percent",
        "published",
    ),
    Source(
        "growth-stop",
        "No feeding while growth is below a tenth of its best (common practice)",
        "practice",
    ),
    Source(
        "dormant-below",
        "Cool-season grass is dormant below a mean of 40 °F, warm-season grass below 50 °F "
        "(common practice)",
        "practice",
    ),
    Source(
        "new-turf-feed",
        "New seed and sod get only a starter until rooted, at most 0.5 lb N per 1,000 sq ft at a "
        "time (common practice)",
        "practice",
    ),
    Source(
        "psu-p",
        "Landschoot and Wolf 2011, Pennsylvania State University, Mehlich-3 phosphorus of home "
        "lawns: phosphate is recommended up to 45 ppm",
        "published",
    ),
    Source(
        "soil-test-age",
        "Virginia Cooperative Extension, publication 430/011, Lawn fertilization: a soil test "
        "every three or four years",
        "published",
    ),
    Source(
        "soil-sample",
        "Cores of an established lawn, 4 in deep below the thatch, which is taken off; extension "
        "offices say 3 to 6 in, the same each time (common practice)",
        "practice",
    ),
    Source(
        "thatch-ph",
        "Cook 2008, Oregon State University, Thatch management: a pH below 6 keeps thatch from "
        "decaying",
        "published",
    ),
    Source(
        "spreader-strip",
        "University of Georgia Extension, calibrating a lawn spreader: product lost over a "
        "measured strip of the swath's width, for each product and spreader",
        "published",
    ),
    Source(
        "sprayer-area",
        "Colorado State University, fact sheet 204, and Montana State University Extension "
        "MT200015AG: a hand sprayer calibrated with water on a measured area",
        "published",
    ),
    Source(
        "nj-fertilizer",
        "New Jersey fertilizer act, P.L. 2010, c. 112 (N.J.S.A. 58:10A-62 and following), its "
        "limits as the fertilizer calculator of Rutgers states them for home owners",
        "published",
    ),
    Source(
        "fl-fertilizer",
        "Florida Administrative Code 5E-1.003(2) of 2007, urban turf fertilizers: its limits as "
        "Marion County's ordinance of 2008 repeats them",
        "published",
    ),
    Source(
        "fl-fertilizer-2015",
        "Trenholm, University of Florida IFAS EP353: the urban turf fertilizer rule as of 2015",
        "published",
    ),
    Source(
        "molasses-feed",
        "Chapman 1965, University of Florida Range Cattle Station mimeo report: blackstrap "
        "molasses, about 12 lb a gallon, 2.5–9 percent crude protein",
        "published",
    ),
    Source(
        "kitchen-analysis",
        "Crude protein is 6.25 times its nitrogen; potash of molasses about 5 percent, protein of "
        "dry yeast about 40 percent (from memory)",
        "memory",
    ),
)
