"""What was measured and done day by day: catch tests, waterings, weather, tests, care."""

from datetime import date
from typing import Annotated, Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline, Rule
from lawnbook.yard.record_base import MM, Day, Note, Record, ZoneRef

# Written out here, since inside a class with a field named `date` the type is hidden.
SeedDay = Annotated[
    date | None,
    Rule(
        "No seed before",
        help="First day for seed after a pre-emergent herbicide, by its label.",
    ),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class CatchTest(Record):
    """Cans set out on a zone for a timed run: volumes with the cans' mouth, or depths."""

    zone: ZoneRef
    date: Day
    run_minutes: Annotated[
        float, Rule("Run", "min", low=0.1, high=600, help="How long the zone ran.")
    ]
    can_mouth_sqin: Annotated[
        float | None,
        Rule(
            "Can mouth",
            "sq in",
            low=0.1,
            high=200,
            ask_above=80,
            slip="square centimetres",
            slip_factor=1 / 6.4516,
            help="Open area of each can's mouth.",
        ),
    ] = None
    volumes_ml: Annotated[
        tuple[float, ...],
        Rule("Volumes", "mL", 0, 5000, help="What each can caught; needs the can mouth."),
    ] = ()
    depths_in: Annotated[
        tuple[float, ...],
        Rule(
            "Depths",
            "in",
            0,
            6,
            ask_above=2,
            slip="millimetres",
            slip_factor=MM,
            help="What each can caught, read as depth, in place of volumes.",
        ),
    ] = ()
    at_ft: Annotated[
        Outline,
        Rule(
            "Places of the cans",
            "ft",
            -5000,
            5000,
            help="Where each can stood, in the order of the cans.",
        ),
    ] = ()
    pressure_psi: Annotated[
        float | None, Rule("Pressure", "psi", 0, 200, help="Pressure at a head while the test ran.")
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Watering(Record):
    """A watering of one zone, by minutes or by the depth a can caught (gross)."""

    date: Day
    zone: ZoneRef
    minutes: Annotated[
        float | None,
        Rule(
            "Minutes",
            "min",
            0,
            1440,
            ask_above=480,
            help="How long it ran, on a hose at each place; this or the depth.",
        ),
    ] = None
    depth_in: Annotated[
        float | None,
        Rule(
            "Depth",
            "in",
            0,
            12,
            ask_above=3,
            slip="millimetres",
            slip_factor=MM,
            help="What a can caught (gross); this or the minutes.",
        ),
    ] = None
    cycles: Annotated[
        int | None,
        Rule(
            "In cycles",
            "",
            1,
            60,
            help="In how many parts the minutes ran, with soaks between; as planned if left out.",
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherDay(Record):
    """One day's weather. Its id is its date."""

    date: Day
    tmin_f: Annotated[float | None, Rule("Lowest temperature", "°F", -90, 120)] = None
    tmax_f: Annotated[float | None, Rule("Highest temperature", "°F", -80, 140)] = None
    rain_in: Annotated[
        float | None,
        Rule(
            "Rain",
            "in",
            0,
            40,
            ask_above=12,
            slip="millimetres",
            slip_factor=MM,
            help="Rain and melted snow of the day.",
        ),
    ] = None
    gauge_in: Annotated[
        float | None,
        Rule(
            "Rain in the gauge",
            "in",
            0,
            40,
            ask_above=12,
            slip="millimetres",
            slip_factor=MM,
            help="Rain in the owner's own gauge; it goes before a station's.",
        ),
    ] = None
    tdew_f: Annotated[float | None, Rule("Dew point", "°F", -90, 100, help="Mean of the day.")] = (
        None
    )
    wind_mph: Annotated[
        float | None, Rule("Wind", "mph", 0, 200, help="Mean of the day, 2 m above the ground.")
    ] = None
    solar_mj_m2: Annotated[
        float | None, Rule("Solar radiation", "MJ/m²", 0, 50, help="Sum of the day.")
    ] = None
    reported_eto_in: Annotated[
        float | None,
        Rule(
            "Reported ETo",
            "in",
            0,
            1.5,
            ask_above=0.7,
            slip="millimetres",
            slip_factor=MM,
            help="Reference evapotranspiration as a station reports it; used as it is.",
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateMonth(Record):
    """A month's usual weather: mean temperature, mean ETo a day and the month's rain."""

    month: Annotated[int, Rule("Month", "", 1, 12, help="1 for January to 12 for December.")]
    tmean_f: Annotated[
        float | None, Rule("Mean temperature", "°F", -60, 120, help="Mean of day and night.")
    ] = None
    eto_in_per_day: Annotated[
        float | None,
        Rule(
            "ETo",
            "in a day",
            0,
            1,
            ask_above=0.5,
            slip="millimetres",
            slip_factor=MM,
            help="Mean reference evapotranspiration.",
        ),
    ] = None
    rain_in: Annotated[
        float | None, Rule("Rain of the month", "in", 0, 100, help="Sum of the month.")
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterRules(Record):
    """The local watering rule as the owner types it. One record, id "water_rules".

    `days` are allowed weekdays ("Mon" to "Sun"), `hours` allowed spans ("18:00-08:00").
    """

    days: Annotated[
        tuple[Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"], ...],
        Rule("Allowed days", help="Weekdays on which watering is allowed; all where empty."),
    ] = ()
    hours: Annotated[
        tuple[str, ...],
        Rule(
            "Allowed hours",
            kind="clock",
            help='Spans in which watering is allowed, such as "18:00-08:00"; all where empty.',
        ),
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilTest(Record):
    """A laboratory's soil test of a zone."""

    date: Day
    zone: ZoneRef
    ph: Annotated[
        float | None, Rule("pH", "", 2, 12, ask_below=4, ask_above=9.5, help="In water.")
    ] = None
    om_pct: Annotated[
        float | None, Rule("Organic matter", "%", 0, 100, ask_above=25, help="By weight.")
    ] = None
    p_ppm: Annotated[
        float | None, Rule("Phosphorus", "ppm", 0, 5000, help="As the laboratory reports it.")
    ] = None
    k_ppm: Annotated[
        float | None, Rule("Potassium", "ppm", 0, 20000, help="As the laboratory reports it.")
    ] = None
    depth_in: Annotated[
        float | None,
        Rule(
            "Sampled to",
            "in",
            low=0.5,
            high=24,
            ask_above=8,
            slip="millimetres",
            slip_factor=MM,
            help="Depth of the cores below the thatch; the same each time.",
        ),
    ] = None
    thatch: Annotated[
        Literal["off", "on"] | None,
        Rule("Thatch of the sample", help="Taken off the cores, as it should be, or left on."),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Care(Record):
    """Something done to the lawn that is neither water nor feed."""

    date: Day
    kind: Annotated[str, Rule("Kind", help="Such as mowing, coring, topdressing or overseeding.")]
    zones: Annotated[
        tuple[str, ...],
        Rule("Zones", refers_to="zones", help="Where it was done; the whole yard where empty."),
    ] = ()
    no_seed_until: SeedDay = None
    cost: Annotated[
        float | None, Rule("Cost", "", 0, 100_000, help="What it cost, in the owner's currency.")
    ] = None
    note: Note = ""


ChecklistName = Literal["spring start-up", "winter blow-out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick(Record):
    """One step of a checklist done on a day, and what was found; one record for each tick.

    `step` is the step's short key. `care` leads to the care entry that was made of what was found.
    """

    date: Day
    checklist: Annotated[ChecklistName, Rule("Checklist", help="The list that the step is of.")]
    step: Annotated[str, Rule("Step", help="The step's short key.")]
    zone: Annotated[
        str | None,
        Rule("Zone", refers_to="zones", help="Of a step that is done zone by zone: which."),
    ] = None
    found: Note = ""
    care: Annotated[
        str | None,
        Rule("Care entry", refers_to="care", help="The entry made of what was found."),
    ] = None
