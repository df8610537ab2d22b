"""The yard as a whole: where it lies, its water supply, and how it is to be watered."""

from datetime import date
from typing import Annotated, Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Rule
from lawnbook.yard.record_base import MM, FirstStep, Name, Record, Season


@dataclass(frozen=True, slots=True, kw_only=True)
class Yard(Record):
    """The yard as a whole. One record, id "yard"."""

    name: Name
    latitude_deg: Annotated[
        float | None,
        Rule(
            "Latitude",
            "°",
            -90,
            90,
            help="North of the equator positive; needed to reckon ETo and to know the seasons.",
        ),
    ] = None
    longitude_deg: Annotated[
        float | None, Rule("Longitude", "°", -180, 180, help="East of Greenwich positive.")
    ] = None
    elevation_ft: Annotated[
        float | None, Rule("Elevation", "ft", -1500, 20000, help="Above sea level.")
    ] = None
    time_zone: Annotated[
        str | None,
        Rule("Time zone", kind="time_zone", help='Region and city, such as "America/Denver".'),
    ] = None
    north_deg: Annotated[
        float,
        Rule(
            "Direction of north",
            "° clockwise from the top of the page",
            -360,
            360,
            help="How far the sketch is turned: 0 where north is up the page.",
        ),
    ] = 0.0
    units: Annotated[
        Literal["us", "metric"], Rule("Units", help="The units the owner prefers to read.")
    ] = "us"
    target_depth_in: Annotated[
        float,
        Rule(
            "Target depth",
            "in",
            low=0.1,
            high=6,
            ask_above=2,
            slip="millimetres",
            slip_factor=MM,
            help="The net depth each watering should store in the ground.",
        ),
    ] = 1.0
    irrigation_season: Annotated[
        Season | None,
        Rule(
            "Irrigation season",
            help="When watering is possible and wanted; all the year where left out.",
        ),
    ] = None
    water_price_per_kgal: Annotated[
        float | None,
        Rule(
            "Water price",
            "per 1,000 gal",
            0,
            1000,
            help="Price of 1,000 gallons, in the owner's currency.",
        ),
    ] = None
    water_source: Annotated[str, Rule("Water source", help="Such as city, well or ditch.")] = ""
    water_n_mg_per_l: Annotated[
        float | None,
        Rule(
            "Nitrogen in the water",
            "mg/L",
            0,
            500,
            ask_above=50,
            help="Nitrogen the irrigation water carries, by a water test.",
        ),
    ] = None
    max_gpm: Annotated[
        float | None,
        Rule("Most flow", "gpm", low=0.1, high=500, help="The most that the supply gives at once."),
    ] = None
    pressure_changed_on: Annotated[
        date | None,
        Rule(
            "Pressure changed on",
            dated=True,
            help="When the supply's pressure last changed; older catch tests are then stale.",
        ),
    ] = None
    water_ec_ds_per_m: Annotated[
        float | None,
        Rule(
            "Salinity of the water",
            "dS/m",
            0,
            60,
            ask_above=6,
            slip="µS/cm",
            slip_factor=0.001,
            help="Electrical conductivity by a water test; well and reclaimed water may be salty.",
        ),
    ] = None
    drought: Annotated[
        Literal["off", "less", "survival"],
        Rule(
            "Dry year",
            help="Off; less: a share of what the grass would use; survival: let it go dormant.",
        ),
    ] = "off"
    drought_share: Annotated[
        float | None,
        Rule(
            "Share given in a dry year",
            "",
            low=0.1,
            high=1,
            ask_below=0.4,
            help="Share of the grass's full use that is given back; 0.8 if left out.",
        ),
    ] = None
    origin_latitude_deg: Annotated[
        float | None,
        Rule(
            "Latitude of the sketch's zero point",
            "°",
            -90,
            90,
            help="Set by the first outlines taken in from a map, so that later ones fit on them.",
        ),
    ] = None
    origin_longitude_deg: Annotated[
        float | None,
        Rule(
            "Longitude of the sketch's zero point",
            "°",
            -180,
            180,
            help="East of Greenwich positive; known together with its latitude, or not at all.",
        ),
    ] = None
    steps_left: Annotated[
        tuple[FirstStep, ...],
        Rule(
            "First steps left",
            help="First steps left at their defaults, or passed; whether all are put away.",
        ),
    ] = ()
