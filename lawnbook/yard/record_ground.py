"""What lies in the yard: zones, features, sprinkler heads, and spots for plugs."""

from datetime import date
from typing import Annotated, Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline, Point, Rule
from lawnbook.yard.record_base import (
    MM,
    Assumed,
    BudgetLevel,
    FeatureKind,
    Grass,
    Locked,
    Name,
    Place,
    Record,
    SoilName,
    ZoneRef,
)

# Written out here, since inside a class a field named `date` with a default hides the type.
SinceDay = Annotated[
    date | None, Rule("Established on", dated=True, help="When the turf was sown or laid.")
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Established:
    """How and when the turf of a zone began."""

    date: SinceDay = None
    how: Annotated[
        Literal["seed", "sod", "unknown"], Rule("Established from", help="How the turf began.")
    ] = "unknown"
    sod_from: Annotated[
        str, Rule("Where the sod came from", help="The grower or the place, as far as known.")
    ] = ""
    sod_soil: Annotated[
        str,
        Rule(
            "Soil the sod came on",
            help="Texture of the soil it was grown on: unlike the soil below, it is a layer.",
        ),
    ] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """How a zone was watered before the repair began."""

    minutes: Annotated[
        float,
        Rule(
            "Minutes per watering",
            "min",
            0,
            1440,
            help="How long each watering ran, on a hose at each place.",
        ),
    ]
    days_per_week: Annotated[
        float, Rule("Days a week", "", 0, 7, help="How many days a week it ran.")
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone(Record):
    """A stretch of turf watered and fed as one."""

    name: Name
    outline_ft: Annotated[
        Outline,
        Rule(
            "Outline",
            "ft",
            -5000,
            5000,
            help="Corners in order, x east and y north; the first is not repeated.",
        ),
    ]
    holes_ft: Annotated[
        tuple[Outline, ...],
        Rule(
            "Holes",
            "ft",
            -5000,
            5000,
            help="Outlines of ground inside the zone that is not part of it.",
        ),
    ] = ()
    grass: Annotated[Grass, Rule("Grass", help="Cool-season or warm-season turf.")] = "cool"
    species: Annotated[
        str, Rule("Species", help="Such as Kentucky bluegrass; it chooses the nitrogen table.")
    ] = ""
    soil: Annotated[
        SoilName | None,
        Rule("Soil", help="Texture class of the soil below the thatch; loam where left out."),
    ] = None
    slope_pct: Annotated[
        float,
        Rule(
            "Slope",
            "%",
            0,
            100,
            ask_above=35,
            help="Rise in 100 of run; it sets how long water may run at once.",
        ),
    ] = 0.0
    microclimate: Annotated[
        float,
        Rule(
            "Microclimate factor",
            "",
            low=0.1,
            high=2,
            ask_below=0.5,
            ask_above=1.4,
            help="Water use against open lawn: below 1 in shade, above 1 beside hot walls.",
        ),
    ] = 1.0
    irrigated: Annotated[bool, Rule("Irrigated", help="Whether the zone has sprinklers.")] = True
    sprinklers: Annotated[
        Literal["in-ground", "hose"],
        Rule("Sprinklers", help="In the ground, or on a hose and moved by hand."),
    ] = "in-ground"
    hose_places: Annotated[
        int | None,
        Rule(
            "Places of the hose sprinkler",
            "",
            1,
            60,
            help="How many times it is set down to reach the whole zone; 1 where left out.",
        ),
    ] = None
    program: Annotated[
        str,
        Rule(
            "Timer program",
            help="Zones of one program run one after the other on the same days, such as A.",
        ),
    ] = ""
    thatch_water_in_per_in: Annotated[
        float | None,
        Rule(
            "Water held by thatch",
            "in per in of thatch",
            0,
            1,
            ask_above=0.4,
            help="An assumption, not a measurement: what wet thatch keeps; 0.1 if left out.",
        ),
    ] = None
    precipitation_in_per_h: Annotated[
        float | None,
        Rule(
            "Precipitation rate",
            "in/h",
            low=0.01,
            high=12,
            ask_above=4,
            slip="millimetres an hour",
            slip_factor=MM,
            help="Typed rate, used where there is no test, meter or head flow.",
        ),
    ] = None
    flow_gpm: Annotated[
        float | None,
        Rule(
            "Metered flow",
            "gpm",
            low=0.1,
            high=500,
            help="Flow read on the water meter while the zone runs.",
        ),
    ] = None
    target_depth_in: Annotated[
        float | None,
        Rule(
            "Target depth",
            "in",
            low=0.1,
            high=6,
            ask_above=2,
            slip="millimetres",
            slip_factor=MM,
            help="Its own target; the yard's where left out.",
        ),
    ] = None
    allowed_depletion: Annotated[
        float | None,
        Rule(
            "Allowed depletion",
            "",
            low=0.05,
            high=1,
            ask_above=0.7,
            help="Share of the available water the grass may use up, 0 to 1; FAO-56's if left out.",
        ),
    ] = None
    default_root_depth_in: Annotated[
        float | None,
        Rule(
            "Root depth before the first plug",
            "in",
            low=0.1,
            high=60,
            ask_above=24,
            slip="millimetres",
            slip_factor=MM,
            help="From the crowns down, used until a plug has been read.",
        ),
    ] = None
    budget: Annotated[
        str | None,
        Rule(
            "Nitrogen budget",
            refers_to="n_budgets",
            help="A nitrogen table of the owner's own; the published one where left out.",
        ),
    ] = None
    budget_level: Annotated[
        BudgetLevel, Rule("Budget level", help="Which end of the published range to feed at.")
    ] = "middle"
    budget_spread: Annotated[
        Literal["table", "growth"],
        Rule(
            "Spread over the year",
            help="By the table's months, or by growth potential over the months that it feeds.",
        ),
    ] = "table"
    annual_n_lb_per_1000: Annotated[
        float | None,
        Rule(
            "Nitrogen for the year",
            "lb per 1,000 sq ft",
            0,
            12,
            ask_above=6,
            help="Takes the place of the table's sum for the year.",
        ),
    ] = None
    clippings: Annotated[
        Literal["left", "bagged"] | None, Rule("Clippings", help="What happens to them.")
    ] = None
    mow_height_in: Annotated[
        float | None,
        Rule(
            "Mowing height",
            "in",
            low=0.1,
            high=12,
            ask_above=5,
            slip="millimetres",
            slip_factor=MM,
            help="Height of cut.",
        ),
    ] = None
    peak_growth_in_per_week: Annotated[
        float | None,
        Rule(
            "Growth at its peak",
            "in a week",
            low=0.1,
            high=8,
            ask_above=4,
            slip="millimetres",
            slip_factor=MM,
            help="How fast the grass grows in its best weeks, between two cuts; as usual if empty.",
        ),
    ] = None
    established: Annotated[
        Established | None, Rule("Established", help="When and from what the turf began.")
    ] = None
    habit: Annotated[
        Habit | None, Rule("Old watering habit", help="The watering before the repair began.")
    ] = None
    assumed: Annotated[
        tuple[Assumed, ...],
        Rule("Assumed", help="Not known but assumed: its outline, or the rate of its sprinklers."),
    ] = ()
    locked: Locked = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature(Record):
    """Something that is not turf: house, bed, paving, tree, water."""

    kind: Annotated[
        FeatureKind,
        Rule("Kind", help="What it is."),
    ]
    outline_ft: Annotated[
        Outline,
        Rule(
            "Outline",
            "ft",
            -5000,
            5000,
            help="Corners in order, x east and y north; the first is not repeated.",
        ),
    ]
    name: Annotated[str, Rule("Name", help="What the owner calls it.")] = ""
    no_spread_ft: Annotated[
        float | None,
        Rule(
            "No-spread strip",
            "ft",
            0,
            500,
            help="Width of the strip along it on which nothing is spread.",
        ),
    ] = None
    locked: Locked = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Head(Record):
    """A sprinkler head. Its arc starts at `start_deg` and sweeps clockwise, both from north."""

    zone: ZoneRef
    at_ft: Annotated[
        Point, Rule("Place", "ft", -5000, 5000, help="Where it stands: x east, y north.")
    ]
    radius_ft: Annotated[
        float, Rule("Radius", "ft", low=0.5, high=120, ask_above=60, help="How far it throws.")
    ] = 12.0
    start_deg: Annotated[
        float, Rule("Arc start", "°", -360, 360, help="Where its arc begins, clockwise from north.")
    ] = 0.0
    sweep_deg: Annotated[
        float,
        Rule(
            "Arc",
            "°",
            low=1,
            high=360,
            help="How far it turns, clockwise; 360 for a full circle.",
        ),
    ] = 360.0
    flow_gpm: Annotated[
        float | None,
        Rule(
            "Flow",
            "gpm",
            low=0.01,
            high=100,
            ask_above=30,
            slip="litres a minute",
            slip_factor=1 / 3.785411784,
            help="What it gives at its pressure, by its table or by test.",
        ),
    ] = None
    profile: Annotated[
        str | tuple[float, ...] | None,
        Rule(
            "Radial profile",
            help="From the head outward: cone, flat, doughnut, or depths at even steps.",
        ),
    ] = None
    changed_on: Annotated[
        date | None,
        Rule(
            "Changed on",
            dated=True,
            help="When nozzle, arc or pressure was last changed; older catch tests are then stale.",
        ),
    ] = None
    locked: Locked = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot(Record):
    """A fixed place where plugs are pulled."""

    name: Name
    at_ft: Place = None
    zone: Annotated[
        str | None,
        Rule("Zone", refers_to="zones", help="The zone whose roots and thatch it shows."),
    ] = None
    comparison: Annotated[
        bool, Rule("Untreated comparison", help="Left untreated, to compare the others with.")
    ] = False
    locked: Locked = False
