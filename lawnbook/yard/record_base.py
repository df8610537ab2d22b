"""What all records share: the base with id and rank, and field types that occur in many tables."""

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType
from typing import Annotated, Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point, Rule

Grass = Literal["cool", "warm"]
FeatureKind = Literal[
    "house",
    "bed",
    "paving",
    "tree",
    "water",
    "pool",
    "fence",
    "pet patch",
    "buried line",
    "other",
]
SoilName = Literal["sand", "loamy sand", "sandy loam", "loam", "clay loam", "silty clay", "clay"]
BudgetLevel = Literal["lean", "middle", "full"]
Assumed = Literal["square", "fixed sprays", "rotors", "rotating streams", "any sprinklers"]
FirstStep = Literal["size", "place", "sprinklers", "ground", "habit", "plug", "sheet", "put away"]
ByZone = Mapping[str, float]
NOTHING_BY_ZONE: ByZone = MappingProxyType({})

MM = 1 / 25.4
BEYOND_LAWNS = "is more than any lawn has"

Name = Annotated[str, Rule("Name", help="One line, its own among the records of its table.")]
Note = Annotated[str, Rule("Note", help="Anything worth remembering.")]
Day = Annotated[date, Rule("Date", dated=True, help="Year, month and day it happened.")]
ZoneRef = Annotated[str, Rule("Zone", refers_to="zones", help="The zone it belongs to.")]
Locked = Annotated[
    bool, Rule("Locked", help="Stays where it is on the sketch until it is unlocked.")
]
Place = Annotated[
    Point | None, Rule("Place", "ft", -5000, 5000, help="Where it lies: x east, y north.")
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every row of a table has: a stable random id, and its place in the owner's order."""

    id: str
    rank: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """From one day of the year to another, both included; it may run across New Year."""

    start: Annotated[
        str, Rule("First day", kind="month_day", help='Month and day, such as "04-15".')
    ]
    end: Annotated[str, Rule("Last day", kind="month_day", help='Month and day, such as "10-15".')]
