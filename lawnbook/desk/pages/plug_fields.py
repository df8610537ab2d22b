"""The fields of the plug's entry, in the order of its keys, and the columns of its list."""

from lawnbook.desk.presets import Preset
from lawnbook.yard.numbers import parse_inches

NAMES = (
    "spot",
    "date",
    "thatch_in",
    "resolution_in",
    "root_depth_in",
    "core_depth_in",
    "sponge",
    "soil_in_thatch",
    "worms",
    "pressed",
    "thatch_moisture",
    "soil_moisture",
    "clock",
    "ring_in",
    "note",
)
SPANS = {
    "spot": 3,
    "date": 3,
    "thatch_in": 4,
    "resolution_in": 2,
    "root_depth_in": 2,
    "core_depth_in": 2,
    "sponge": 4,
    "soil_in_thatch": 4,
    "worms": 3,
    "pressed": 3,
    "thatch_moisture": 3,
    "soil_moisture": 3,
    "clock": 2,
    "ring_in": 3,
    "note": 7,
}
LABELS = {
    "thatch_in": "Thatch readings, in",
    "resolution_in": "Ruler, in",
    "root_depth_in": "Roots, in",
    "core_depth_in": "Length, in",
    "sponge": "Sponge: 0 firm, 4 deep",
    "soil_in_thatch": "Soil in it: 0 none, 4 all",
    "thatch_moisture": "Thatch feels",
    "soil_moisture": "Soil feels",
    "clock": "O'clock",
    "ring_in": "From mark, in",
}
HEADS = ("Date", "Spot", "Hour", "Thatch", "Spread", "Roots", "Sponge", "Soil", "Worms", "Note")
SPOT_COLUMN, HOUR_COLUMN, SPREAD_COLUMN, NOTE_COLUMN = 1, 2, 4, 9
MEASURED_ROWS = 40
"""So many rows set the widths of the list's columns, in view or not."""
RULERS: tuple[Preset, ...] = (
    ("sixteenths of an inch", "1/16"),
    ("thirty-seconds of an inch", "1/32"),
    ("millimetres", "1 mm"),
)
"""The rulers that lie in most drawers; any other resolution may be typed."""

USUAL = {text: parse_inches(text) for _, text in RULERS if isinstance(text, str)}

FRESH_DAYS = 14
"""A place is proposed for a plug of so many days back: an older one was pulled somewhere."""
