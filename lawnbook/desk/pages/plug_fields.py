"""The fields of the plug's entry, in the order of its keys, and the columns of its list."""

from lawnbook.agronomy.units import mm_to_in
from lawnbook.desk.presets import Preset
from lawnbook.desk.telling import Label, captioned
from lawnbook.reading import is_metric, tr
from lawnbook.yard.notebook import Notebook

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
LABELS: dict[str, Label] = {
    "thatch_in": lambda: captioned(tr("Thatch readings"), "in"),
    "resolution_in": lambda: captioned(tr("Ruler"), "in"),
    "root_depth_in": lambda: captioned(tr("Roots"), "in"),
    "core_depth_in": lambda: captioned(tr("Length"), "in"),
    "sponge": tr("Sponge: 0 firm, 4 deep"),
    "soil_in_thatch": tr("Soil in it: 0 none, 4 all"),
    "thatch_moisture": tr("Thatch feels"),
    "soil_moisture": tr("Soil feels"),
    "clock": tr("O'clock"),
    "ring_in": lambda: captioned(tr("From mark"), "in"),
}
HEADS = (
    tr("Date"),
    tr("Spot"),
    tr("Hour"),
    tr("Thatch"),
    tr("Spread"),
    tr("Roots"),
    tr("Sponge"),
    tr("Soil"),
    tr("Worms"),
    tr("Note"),
)
SPOT_COLUMN, HOUR_COLUMN, SPREAD_COLUMN, WORMS_COLUMN, NOTE_COLUMN = 1, 2, 4, 8, 9
NARROW_PX = 580
"""Below this width worms and notes, which the form and the columns tell, have no room."""
MEASURED_ROWS = 40
"""So many rows set the widths of the list's columns, in view or not."""
RULERS: tuple[Preset, ...] = (
    (tr("sixteenths of an inch"), "1/16"),
    (tr("thirty-seconds of an inch"), "1/32"),
    (tr("millimetres"), "1 mm"),
)
"""The rulers that lie in most drawers; any other resolution may be typed."""

RULERS_METRIC: tuple[Preset, ...] = (
    (tr("millimetres"), "1 mm"),
    (tr("half millimetres"), "0.5 mm"),
)
"""Those of a metric reader."""

USUAL = {"1/16": 1 / 16, "1/32": 1 / 32, "1 mm": mm_to_in(1.0), "0.5 mm": mm_to_in(0.5)}
"""The resolutions of rulers, in inches, by how they are written."""


def usual_rulers() -> tuple[Preset, ...]:
    """The rulers offered: fractions of an inch to who reads inches."""
    return RULERS_METRIC if is_metric() else RULERS


def ruler_written(resolution_in: float | None) -> str:
    """A usual ruler's resolution as it is called: 1/16, not 0.0625; "" for any other."""
    usual = {text for _, text in usual_rulers()}
    found = (text for text, held in USUAL.items() if held == resolution_in and text in usual)
    return next(found, "")


def last_ruler(notebook: Notebook) -> float | None:
    """The resolution of the latest plug, in inches: the owner's ruler, most likely."""
    cores = sorted(notebook.cores.values(), key=lambda each: each.date)
    return cores[-1].resolution_in if cores else None


FRESH_DAYS = 14
"""A place is proposed for a plug of so many days back: an older one was pulled somewhere."""
