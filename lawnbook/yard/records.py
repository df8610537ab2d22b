"""The records of a notebook: frozen dataclasses, one for each table of the yard file.

Fields carry their unit in their name and their limits in a `Rule`. Outlines are feet, x east and
y north. References hold the id of the record they lead to. `rank` keeps the owner's order; the
yard file keeps it as the order of the list. The classes stand in `record_yard`, `record_ground`,
`record_backdrop`, `record_plug`, `record_log` and `record_feed`; everybody imports them from here.
"""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.yard.record_backdrop import Backdrop
from lawnbook.yard.record_base import (
    BEYOND_LAWNS,
    MM,
    NOTHING_BY_ZONE,
    BudgetLevel,
    ByZone,
    Day,
    FeatureKind,
    Grass,
    Name,
    Note,
    Place,
    Record,
    Season,
    SoilName,
    ZoneRef,
)
from lawnbook.yard.record_feed import (
    Feeding,
    Ingredient,
    NBudget,
    NRules,
    Product,
    SlowKind,
    SprayerRun,
    SpreaderRun,
)
from lawnbook.yard.record_ground import (
    Established,
    Feature,
    Habit,
    Head,
    Spot,
    Zone,
)
from lawnbook.yard.record_log import (
    Care,
    CatchTest,
    ChecklistName,
    ClimateMonth,
    SoilTest,
    Tick,
    Watering,
    WaterRules,
    WeatherDay,
)
from lawnbook.yard.record_plug import Core, Photo, PhotoRuler
from lawnbook.yard.record_yard import Yard

__all__ = [
    "BEYOND_LAWNS",
    "MM",
    "NOTHING_BY_ZONE",
    "SINGLES",
    "TABLES",
    "TITLES",
    "Backdrop",
    "BudgetLevel",
    "ByZone",
    "Care",
    "CatchTest",
    "ChecklistName",
    "ClimateMonth",
    "Core",
    "Day",
    "Established",
    "Feature",
    "FeatureKind",
    "Feeding",
    "Grass",
    "Habit",
    "Head",
    "Ingredient",
    "NBudget",
    "NRules",
    "Name",
    "Note",
    "Photo",
    "PhotoRuler",
    "Pictured",
    "Place",
    "Product",
    "Record",
    "Season",
    "SlowKind",
    "SoilName",
    "SoilTest",
    "Spot",
    "SprayerRun",
    "SpreaderRun",
    "Tick",
    "WaterRules",
    "Watering",
    "WeatherDay",
    "Yard",
    "Zone",
    "ZoneRef",
]

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
        "spreader_runs": SpreaderRun,
        "sprayer_runs": SprayerRun,
        "waterings": Watering,
        "weather": WeatherDay,
        "climate": ClimateMonth,
        "n_rules": NRules,
        "water_rules": WaterRules,
        "soil_tests": SoilTest,
        "care": Care,
        "ticks": Tick,
        "photos": Photo,
        "backdrops": Backdrop,
    }
)
"""Every table by its name in the yard file, each after those it refers to."""

TITLES: Mapping[str, str] = MappingProxyType(
    {
        "yard": "Yard",
        "n_budgets": "Nitrogen budgets",
        "zones": "Zones",
        "features": "Features",
        "heads": "Heads",
        "catch_tests": "Catch tests",
        "spots": "Spots",
        "cores": "Plugs",
        "products": "Products",
        "feedings": "Feedings",
        "spreader_runs": "Spreader calibrations",
        "sprayer_runs": "Sprayer calibrations",
        "waterings": "Waterings",
        "weather": "Weather",
        "climate": "Climate",
        "n_rules": "Feeding rules",
        "water_rules": "Watering rules",
        "soil_tests": "Soil tests",
        "care": "Care",
        "ticks": "Checklist ticks",
        "photos": "Photographs",
        "backdrops": "Backdrops",
    }
)
"""What each table is called on its sheet in a file; on screen it is looked up."""

Pictured = Photo | Backdrop
"""The records that hold a picture, whose bytes lie apart from their row."""

SINGLES = frozenset({"yard", "n_rules", "water_rules"})
"""Tables that hold exactly one record, whose id is the table's name."""
