"""The records of a notebook: frozen dataclasses, one for each table of the yard file.

Fields carry their unit in their name and their limits in a `Rule`. Outlines are feet, x east and
y north. References hold the id of the record they lead to. `rank` keeps the owner's order; the
yard file keeps it as the order of the list.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Annotated, Literal

from lawnbook.yard.fields import Outline, Point, Rule

Grass = Literal["cool", "warm"]
SoilName = Literal["sand", "loamy sand", "sandy loam", "loam", "clay loam", "silty clay", "clay"]
BudgetLevel = Literal["lean", "middle", "full"]
ByZone = Mapping[str, float]
NOTHING_BY_ZONE: ByZone = MappingProxyType({})

MM = 1 / 25.4
LAWN = "is more than any lawn has"
Name = Annotated[str, Rule("Name")]
Note = Annotated[str, Rule("Note")]
Day = Annotated[date, Rule("Date", dated=True)]
# Written out here, since inside a class a field named `date` with a default hides the type.
SinceDay = Annotated[date | None, Rule("Established on", dated=True)]
ZoneRef = Annotated[str, Rule("Zone", refers_to="zones")]
Place = Annotated[Point | None, Rule("Place", "ft", -5000, 5000)]
Percent = Annotated[float | None, Rule("Share", "%", 0, 100)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every row of a table has: a stable random id, and its place in the owner's order."""

    id: str
    rank: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """From one day of the year to another, both included; it may run across New Year."""

    start: Annotated[str, Rule("First day", kind="month_day")]
    end: Annotated[str, Rule("Last day", kind="month_day")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Yard(Record):
    """The yard as a whole. One record, id "yard"."""

    name: Name
    latitude_deg: Annotated[float | None, Rule("Latitude", "°", -90, 90)] = None
    longitude_deg: Annotated[float | None, Rule("Longitude", "°", -180, 180)] = None
    elevation_ft: Annotated[float | None, Rule("Elevation", "ft", -1500, 20000)] = None
    time_zone: Annotated[str | None, Rule("Time zone", kind="time_zone")] = None
    north_deg: Annotated[
        float, Rule("Direction of north", "° clockwise from the top of the page", -360, 360)
    ] = 0.0
    units: Annotated[Literal["us", "metric"], Rule("Units")] = "us"
    target_depth_in: Annotated[
        float,
        Rule(
            "Target depth", "in", above=0, high=6, ask_above=2, slip="millimetres", slip_factor=MM
        ),
    ] = 1.0
    irrigation_season: Annotated[Season | None, Rule("Irrigation season")] = None
    water_price_per_kgal: Annotated[float | None, Rule("Water price", "per 1,000 gal", 0, 1000)] = (
        None
    )
    water_source: Annotated[str, Rule("Water source")] = ""
    water_n_mg_per_l: Annotated[
        float | None, Rule("Nitrogen in the water", "mg/L", 0, 500, ask_above=50)
    ] = None
    max_gpm: Annotated[float | None, Rule("Most flow", "gpm", above=0, high=500)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Established:
    """How and when the turf of a zone began."""

    date: SinceDay = None
    how: Annotated[Literal["seed", "sod", "unknown"], Rule("Established from")] = "unknown"
    sod_soil: Annotated[str, Rule("Soil the sod came on")] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """How a zone was watered before the repair began."""

    minutes: Annotated[float, Rule("Minutes per watering", "min", 0, 1440)]
    days_per_week: Annotated[float, Rule("Days a week", "", 0, 7)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone(Record):
    """A stretch of turf watered and fed as one."""

    name: Name
    outline_ft: Annotated[Outline, Rule("Outline", "ft", -5000, 5000)]
    holes_ft: Annotated[tuple[Outline, ...], Rule("Holes", "ft", -5000, 5000)] = ()
    grass: Annotated[Grass, Rule("Grass")] = "cool"
    species: Annotated[str, Rule("Species")] = ""
    soil: Annotated[SoilName | None, Rule("Soil")] = None
    slope_pct: Annotated[float, Rule("Slope", "%", 0, 100, ask_above=35)] = 0.0
    microclimate: Annotated[
        float, Rule("Microclimate factor", "", above=0, high=2, ask_below=0.5, ask_above=1.4)
    ] = 1.0
    irrigated: Annotated[bool, Rule("Irrigated")] = True
    precipitation_in_per_h: Annotated[
        float | None,
        Rule(
            "Precipitation rate",
            "in/h",
            above=0,
            high=12,
            ask_above=4,
            slip="millimetres an hour",
            slip_factor=MM,
        ),
    ] = None
    flow_gpm: Annotated[float | None, Rule("Metered flow", "gpm", above=0, high=500)] = None
    target_depth_in: Annotated[
        float | None,
        Rule(
            "Target depth", "in", above=0, high=6, ask_above=2, slip="millimetres", slip_factor=MM
        ),
    ] = None
    allowed_depletion: Annotated[
        float | None, Rule("Allowed depletion", "", above=0, high=1, ask_above=0.7)
    ] = None
    default_root_depth_in: Annotated[
        float | None,
        Rule(
            "Root depth before the first plug",
            "in",
            above=0,
            high=60,
            ask_above=24,
            slip="millimetres",
            slip_factor=MM,
        ),
    ] = None
    budget: Annotated[str | None, Rule("Nitrogen budget", refers_to="n_budgets")] = None
    budget_level: Annotated[BudgetLevel, Rule("Budget level")] = "middle"
    annual_n_lb_per_1000: Annotated[
        float | None, Rule("Nitrogen for the year", "lb per 1,000 sq ft", 0, 12, ask_above=6)
    ] = None
    clippings: Annotated[Literal["left", "bagged"] | None, Rule("Clippings")] = None
    mow_height_in: Annotated[
        float | None,
        Rule(
            "Mowing height", "in", above=0, high=12, ask_above=5, slip="millimetres", slip_factor=MM
        ),
    ] = None
    established: Annotated[Established | None, Rule("Established")] = None
    habit: Annotated[Habit | None, Rule("Old watering habit")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature(Record):
    """Something that is not turf: house, bed, paving, tree, water."""

    kind: Annotated[
        Literal["house", "bed", "paving", "tree", "water", "pool", "fence", "other"], Rule("Kind")
    ]
    outline_ft: Annotated[Outline, Rule("Outline", "ft", -5000, 5000)]
    name: Annotated[str, Rule("Name")] = ""
    no_spread_ft: Annotated[float | None, Rule("No-spread strip", "ft", 0, 500)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Head(Record):
    """A sprinkler head. Its arc starts at `start_deg` and sweeps clockwise, both from north."""

    zone: ZoneRef
    at_ft: Annotated[Point, Rule("Place", "ft", -5000, 5000)]
    radius_ft: Annotated[float, Rule("Radius", "ft", above=0, high=120, ask_above=60)] = 12.0
    start_deg: Annotated[float, Rule("Arc start", "°", -360, 360)] = 0.0
    sweep_deg: Annotated[float, Rule("Arc", "°", above=0, high=360)] = 360.0
    flow_gpm: Annotated[
        float | None,
        Rule(
            "Flow",
            "gpm",
            above=0,
            high=100,
            ask_above=30,
            slip="litres a minute",
            slip_factor=1 / 3.785411784,
        ),
    ] = None
    profile: Annotated[str | tuple[float, ...] | None, Rule("Radial profile")] = None
    changed_on: Annotated[date | None, Rule("Changed on", dated=True)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CatchTest(Record):
    """Cans set out on a zone for a timed run: volumes with the cans' mouth, or depths."""

    zone: ZoneRef
    date: Day
    run_minutes: Annotated[float, Rule("Run", "min", above=0, high=600)]
    can_mouth_sqin: Annotated[
        float | None,
        Rule(
            "Can mouth",
            "sq in",
            above=0,
            high=200,
            ask_above=80,
            slip="square centimetres",
            slip_factor=1 / 6.4516,
        ),
    ] = None
    volumes_ml: Annotated[tuple[float, ...], Rule("Volumes", "mL", 0, 5000)] = ()
    depths_in: Annotated[
        tuple[float, ...],
        Rule("Depths", "in", 0, 6, ask_above=2, slip="millimetres", slip_factor=MM),
    ] = ()
    at_ft: Annotated[Outline, Rule("Places of the cans", "ft", -5000, 5000)] = ()
    pressure_psi: Annotated[float | None, Rule("Pressure", "psi", 0, 200)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot(Record):
    """A fixed place where plugs are pulled."""

    name: Name
    at_ft: Place = None
    zone: Annotated[str | None, Rule("Zone", refers_to="zones")] = None
    comparison: Annotated[bool, Rule("Untreated comparison")] = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Core(Record):
    """A plug: what one core pulled at a spot on a day showed."""

    spot: Annotated[str, Rule("Spot", refers_to="spots")]
    date: Day
    thatch_in: Annotated[
        tuple[float, ...],
        Rule("Thatch", "in", 0, 8, ask_above=3, slip="millimetres", slip_factor=MM, too_much=LAWN),
    ] = ()
    pressed: Annotated[bool, Rule("Pressed")] = False
    resolution_in: Annotated[float | None, Rule("Ruler resolution", "in", above=0, high=1)] = None
    root_depth_in: Annotated[
        float | None,
        Rule(
            "Root depth",
            "in",
            0,
            60,
            ask_above=24,
            slip="millimetres",
            slip_factor=MM,
            too_much=LAWN,
        ),
    ] = None
    sponge: Annotated[int | None, Rule("Sponge", "", 0, 4)] = None
    soil_in_thatch: Annotated[int | None, Rule("Soil in the thatch", "", 0, 4)] = None
    worms: Annotated[int | None, Rule("Worms", "", 0, 200, ask_above=40)] = None
    thatch_moisture: Annotated[
        Literal["dry", "moist", "wet"] | None, Rule("Moisture of the thatch")
    ] = None
    soil_moisture: Annotated[
        Literal["dry", "moist", "wet"] | None, Rule("Moisture of the soil")
    ] = None
    clock: Annotated[int | None, Rule("Clock position", "", 1, 12)] = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """A part of a home-made mix."""

    name: Name
    pounds: Annotated[float, Rule("Pounds", "lb", 0, 10000)]
    n_pct: Annotated[float, Rule("Nitrogen", "%", 0, 100)] = 0.0
    p2o5_pct: Annotated[float, Rule("Phosphate", "%", 0, 100)] = 0.0
    k2o_pct: Annotated[float, Rule("Potash", "%", 0, 100)] = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Product(Record):
    """A fertilizer by its label. `slow_n_pct` is percent of the product, as labels state it."""

    name: Name
    form: Annotated[Literal["granular", "liquid"], Rule("Form")] = "granular"
    n_pct: Annotated[float, Rule("Nitrogen", "%", 0, 100, ask_above=46)] = 0.0
    p2o5_pct: Annotated[float, Rule("Phosphate", "%", 0, 100)] = 0.0
    k2o_pct: Annotated[float, Rule("Potash", "%", 0, 100)] = 0.0
    slow_n_pct: Annotated[float, Rule("Slowly available nitrogen", "% of the product", 0, 100)] = (
        0.0
    )
    slow_sources: Annotated[str, Rule("Slow sources")] = ""
    release_weeks: Annotated[float | None, Rule("Release", "weeks", 0, 104)] = None
    density_lb_per_gal: Annotated[float | None, Rule("Density", "lb/gal", above=0, high=30)] = None
    bag_lb: Annotated[float | None, Rule("Bag", "lb", above=0, high=2500)] = None
    jug_gal: Annotated[float | None, Rule("Jug", "gal", above=0, high=1000)] = None
    price: Annotated[float | None, Rule("Price", "", 0, 100000)] = None
    ingredients: Annotated[tuple[Ingredient, ...], Rule("Ingredients")] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding(Record):
    """Product spread on one day, in pounds by zone; the area treated is frozen with it."""

    date: Day
    product: Annotated[str, Rule("Product", refers_to="products")]
    pounds: Annotated[ByZone, Rule("Pounds", "lb", above=0, high=20000, refers_to="zones")]
    treated_area_sqft: Annotated[
        ByZone, Rule("Area treated", "sq ft", above=0, high=5_000_000, refers_to="zones")
    ] = field(default_factory=lambda: NOTHING_BY_ZONE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Watering(Record):
    """A watering of one zone, by minutes or by the depth a can caught (gross)."""

    date: Day
    zone: ZoneRef
    minutes: Annotated[float | None, Rule("Minutes", "min", 0, 1440, ask_above=480)] = None
    depth_in: Annotated[
        float | None, Rule("Depth", "in", 0, 12, ask_above=3, slip="millimetres", slip_factor=MM)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherDay(Record):
    """One day's weather. Its id is its date."""

    date: Day
    tmin_f: Annotated[float | None, Rule("Lowest temperature", "°F", -90, 120)] = None
    tmax_f: Annotated[float | None, Rule("Highest temperature", "°F", -80, 140)] = None
    rain_in: Annotated[
        float | None, Rule("Rain", "in", 0, 40, ask_above=12, slip="millimetres", slip_factor=MM)
    ] = None
    tdew_f: Annotated[float | None, Rule("Dew point", "°F", -90, 100)] = None
    wind_mph: Annotated[float | None, Rule("Wind", "mph", 0, 200)] = None
    solar_mj_m2: Annotated[float | None, Rule("Solar radiation", "MJ/m²", 0, 50)] = None
    reported_eto_in: Annotated[
        float | None,
        Rule("Reported ETo", "in", 0, 1.5, ask_above=0.7, slip="millimetres", slip_factor=MM),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateMonth(Record):
    """A month's usual weather: mean temperature, mean ETo a day and the month's rain."""

    month: Annotated[int, Rule("Month", "", 1, 12)]
    tmean_f: Annotated[float | None, Rule("Mean temperature", "°F", -60, 120)] = None
    eto_in_per_day: Annotated[
        float | None,
        Rule("ETo", "in a day", 0, 1, ask_above=0.5, slip="millimetres", slip_factor=MM),
    ] = None
    rain_in: Annotated[float | None, Rule("Rain of the month", "in", 0, 100)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NBudget(Record):
    """The owner's own nitrogen table, lb per 1,000 sq ft, January to December."""

    name: Name
    by_month: Annotated[
        tuple[float, ...],
        Rule("Budget by month", "lb per 1,000 sq ft", 0, 6, ask_above=1.5, count=12),
    ]
    year_lb: Annotated[float | None, Rule("Budget of the year", "lb per 1,000 sq ft", 0, 12)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NRules(Record):
    """The owner's limits on feeding. One record, id "n_rules". Blackouts run over New Year too."""

    max_total_lb: Annotated[
        float | None, Rule("Most nitrogen at once", "lb per 1,000 sq ft", above=0, high=4)
    ] = None
    max_quick_lb: Annotated[
        float | None, Rule("Most quick nitrogen at once", "lb per 1,000 sq ft", 0, 4)
    ] = None
    year_lb: Annotated[
        float | None, Rule("Most nitrogen in a year", "lb per 1,000 sq ft", 0, 12)
    ] = None
    min_slow_pct: Annotated[float | None, Rule("Least slow share", "% of the nitrogen", 0, 100)] = (
        None
    )
    min_days: Annotated[int | None, Rule("Days between feedings", "days", 0, 366)] = None
    blackouts: Annotated[tuple[Season, ...], Rule("Blackout")] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterRules(Record):
    """The local watering rule as the owner types it. One record, id "water_rules".

    `days` are allowed weekdays ("Mon" to "Sun"), `hours` allowed spans ("18:00-08:00").
    """

    days: Annotated[
        tuple[Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"], ...], Rule("Allowed days")
    ] = ()
    hours: Annotated[tuple[str, ...], Rule("Allowed hours", kind="clock")] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilTest(Record):
    """A laboratory's soil test of a zone."""

    date: Day
    zone: ZoneRef
    ph: Annotated[float | None, Rule("pH", "", 2, 12, ask_below=4, ask_above=9.5)] = None
    om_pct: Annotated[float | None, Rule("Organic matter", "%", 0, 100, ask_above=25)] = None
    p_ppm: Annotated[float | None, Rule("Phosphorus", "ppm", 0, 5000)] = None
    k_ppm: Annotated[float | None, Rule("Potassium", "ppm", 0, 20000)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Care(Record):
    """Something done to the lawn that is neither water nor feed."""

    date: Day
    kind: Annotated[str, Rule("Kind")]
    zones: Annotated[tuple[str, ...], Rule("Zones", refers_to="zones")] = ()
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo(Record):
    """A photograph of a plug, kept whole inside the notebook behind its SHA-256."""

    core: Annotated[str, Rule("Plug", refers_to="cores")]
    sha256: Annotated[str, Rule("SHA-256", kind="sha256")]
    data_b64: Annotated[str, Rule("Picture", kind="base64")]
    marks: Annotated[tuple[tuple[str, float, float], ...], Rule("Marks")] = ()


TABLES: Mapping[str, type[Record]] = MappingProxyType(
    {
        "yard": Yard,
        "n_budgets": NBudget,
        "zones": Zone,
        "features": Feature,
        "heads": Head,
        "catch_tests": CatchTest,
        "spots": Spot,
        "cores": Core,
        "products": Product,
        "feedings": Feeding,
        "waterings": Watering,
        "weather": WeatherDay,
        "climate": ClimateMonth,
        "n_rules": NRules,
        "water_rules": WaterRules,
        "soil_tests": SoilTest,
        "care": Care,
        "photos": Photo,
    }
)
"""Every table by its name in the yard file, each after those it refers to."""

SINGLES = frozenset({"yard", "n_rules", "water_rules"})
"""Tables that hold exactly one record, whose id is the table's name."""
