"""What feeds the lawn: products, feedings, the owner's budgets and limits."""

from dataclasses import field
from typing import Annotated, Literal

from lawnbook.agronomy.units import LB_PER_GAL_PER_KG_PER_L
from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Rule
from lawnbook.yard.record_base import NOTHING_BY_ZONE, ByZone, Day, Name, Record, Season

SlowKind = Literal[
    "sulfur-coated urea",
    "polymer-coated urea",
    "methylene urea",
    "ureaform",
    "isobutylidene diurea",
    "natural organic",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """A part of a home-made mix."""

    name: Name
    pounds: Annotated[float, Rule("Pounds", "lb", 0, 10000, help="Its weight in the mix.")]
    n_pct: Annotated[
        float, Rule("Nitrogen", "%", 0, 100, help="By its label, percent of the ingredient.")
    ] = 0.0
    p2o5_pct: Annotated[float, Rule("Phosphate", "%", 0, 100, help="By its label, as P2O5.")] = 0.0
    k2o_pct: Annotated[float, Rule("Potash", "%", 0, 100, help="By its label, as K2O.")] = 0.0
    slow_n_pct: Annotated[
        float, Rule("Slow nitrogen", "%", 0, 100, help="Percent of the ingredient, as labels say.")
    ] = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Product(Record):
    """A fertilizer by its label, or a home-made mix by its ingredients.

    `slow_n_pct` is percent of the product, as labels state it. What a mix holds follows from its
    ingredients (`yard.analysis`), whatever stands in the percentages.
    """

    name: Name
    form: Annotated[Literal["granular", "liquid"], Rule("Form", help="Spread dry or sprayed.")] = (
        "granular"
    )
    n_pct: Annotated[
        float, Rule("Nitrogen", "%", 0, 100, ask_above=46, help="First figure of the label.")
    ] = 0.0
    p2o5_pct: Annotated[
        float, Rule("Phosphate", "%", 0, 100, help="Second figure of the label, as P2O5.")
    ] = 0.0
    k2o_pct: Annotated[
        float, Rule("Potash", "%", 0, 100, help="Third figure of the label, as K2O.")
    ] = 0.0
    slow_n_pct: Annotated[
        float,
        Rule(
            "Slowly available nitrogen",
            "% of the product",
            0,
            100,
            help="Percent of the product, not share of the nitrogen, as labels state it.",
        ),
    ] = 0.0
    slow_kind: Annotated[
        SlowKind | None,
        Rule("Kind of slow source", help="It tells how long the slow part feeds, and by what."),
    ] = None
    slow_sources: Annotated[
        str, Rule("Slow sources", help="In the label's words, such as polymer-coated urea.")
    ] = ""
    release_weeks: Annotated[
        float | None,
        Rule("Feeding time", "weeks", 0, 104, help="How long the slow part feeds, by its label."),
    ] = None
    density_lb_per_gal: Annotated[
        float | None,
        Rule(
            "Density",
            "lb/gal",
            low=1,
            high=30,
            ask_below=7,
            ask_above=15,
            slip="kg/L",
            slip_factor=LB_PER_GAL_PER_KG_PER_L,
            help="Weight of a gallon of a liquid.",
        ),
    ] = None
    bag_lb: Annotated[
        float | None, Rule("Bag", "lb", low=0.1, high=2500, help="Weight of a full bag.")
    ] = None
    jug_gal: Annotated[
        float | None, Rule("Jug", "gal", low=0.01, high=1000, help="What a full jug holds.")
    ] = None
    price: Annotated[
        float | None, Rule("Price", "", 0, 100000, help="Of a bag or jug, in the owner's currency.")
    ] = None
    starter: Annotated[bool, Rule("Starter", help="Made for seed and new sod, by its label.")] = (
        False
    )
    ingredients: Annotated[
        tuple[Ingredient, ...], Rule("Ingredients", help="Parts of a home-made mix.")
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding(Record):
    """Product spread on one day, in pounds by zone; the area treated is frozen with it."""

    date: Day
    product: Annotated[str, Rule("Product", refers_to="products", help="What was spread.")]
    pounds: Annotated[
        ByZone,
        Rule(
            "Pounds",
            "lb",
            above=0,
            high=20000,
            refers_to="zones",
            help="Pounds of product by zone.",
        ),
    ]
    treated_area_sqft: Annotated[
        ByZone,
        Rule(
            "Area treated",
            "sq ft",
            low=0.01,
            high=5_000_000,
            refers_to="zones",
            help="By zone, where not the whole zone was treated; frozen with the feeding.",
        ),
    ] = field(default_factory=lambda: NOTHING_BY_ZONE)
    spreader: Annotated[
        str, Rule("Spreader", help="The spreader or sprayer it was put on with.")
    ] = ""
    setting: Annotated[str, Rule("Setting", help="What the spreader was set to.")] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreaderRun(Record):
    """A spreader calibrated by weight: what one product lost over a measured strip at a setting."""

    date: Day
    product: Annotated[str, Rule("Product", refers_to="products", help="What was spread.")]
    spreader: Annotated[str, Rule("Spreader", help="The spreader, by the owner's name for it.")]
    setting: Annotated[str, Rule("Setting", help="As its dial or gate reads, such as 5 or 4 1/2.")]
    strip_ft: Annotated[
        float, Rule("Length of the strip", "ft", low=1, high=2000, help="Walked while it was open.")
    ]
    width_ft: Annotated[
        float,
        Rule(
            "Width",
            "ft",
            low=0.5,
            high=60,
            ask_above=20,
            help="From the middle of one pass to the middle of the next.",
        ),
    ]
    used_lb: Annotated[
        float,
        Rule("Used", "lb", low=0.001, high=500, help="Weight before less weight after the strip."),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class SprayerRun(Record):
    """A sprayer calibrated with plain water on a measured area."""

    date: Day
    sprayer: Annotated[str, Rule("Sprayer", help="The sprayer, by the owner's name for it.")]
    area_sqft: Annotated[
        float, Rule("Area sprayed", "sq ft", low=10, high=200_000, help="Measured on the ground.")
    ]
    used_gal: Annotated[
        float,
        Rule("Water used", "gal", low=0.01, high=1000, help="Plain water that it took to refill."),
    ]
    tank_gal: Annotated[
        float, Rule("Tank", "gal", low=0.1, high=1000, help="What a full tank holds.")
    ]
    seconds: Annotated[
        float | None,
        Rule("Time", "s", low=1, high=36_000, help="How long the area took, at your usual walk."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NBudget(Record):
    """The owner's own nitrogen table, lb per 1,000 sq ft, January to December."""

    name: Name
    by_month: Annotated[
        tuple[float, ...],
        Rule(
            "Budget by month",
            "lb per 1,000 sq ft",
            0,
            6,
            ask_above=1.5,
            count=12,
            help="Twelve figures, January to December.",
        ),
    ]
    year_lb: Annotated[
        float | None,
        Rule(
            "Budget of the year",
            "lb per 1,000 sq ft",
            0,
            12,
            help="The cap of the year; the sum of the months where left out.",
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NRules(Record):
    """The owner's limits on feeding. One record, id "n_rules". Blackouts run over New Year too."""

    name: Annotated[
        str, Rule("Name of the rule", help="Whose rule it is and of when, as the owner found it.")
    ] = ""
    max_total_lb: Annotated[
        float | None,
        Rule(
            "Most nitrogen at once",
            "lb per 1,000 sq ft",
            above=0,
            high=4,
            help="On one zone in one day.",
        ),
    ] = None
    max_quick_lb: Annotated[
        float | None,
        Rule(
            "Most quick nitrogen at once",
            "lb per 1,000 sq ft",
            0,
            4,
            help="Quick-release nitrogen on one zone in one day.",
        ),
    ] = None
    year_lb: Annotated[
        float | None,
        Rule(
            "Most nitrogen in a year",
            "lb per 1,000 sq ft",
            0,
            12,
            help="A cap over every zone's own budget.",
        ),
    ] = None
    min_slow_pct: Annotated[
        float | None,
        Rule(
            "Least slow share",
            "% of the nitrogen",
            0,
            100,
            help="Least share of the nitrogen that must be slow.",
        ),
    ] = None
    min_days: Annotated[
        int | None, Rule("Days between feedings", "days", 0, 366, help="On the same zone.")
    ] = None
    blackouts: Annotated[
        tuple[Season, ...],
        Rule("Blackout", help="Days of the year on which nothing may be spread."),
    ] = ()
    waterside_ft: Annotated[
        float | None,
        Rule(
            "Strip beside water",
            "ft",
            0,
            500,
            help="Nothing is spread so near to water drawn on the sketch.",
        ),
    ] = None
    phosphorus_needs_test: Annotated[
        bool,
        Rule("Phosphate only by soil test", help="Whether phosphate waits for a soil test."),
    ] = True
    p_enough_ppm: Annotated[
        float | None,
        Rule(
            "Phosphorus that is enough",
            "ppm",
            above=0,
            high=1000,
            help="At or above it a soil needs no phosphate, by your laboratory's own scale.",
        ),
    ] = None
