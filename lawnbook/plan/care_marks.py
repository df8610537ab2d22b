"""Care entries as marks over the trend of thatch: what was done, when and where.

A mark says that something was done, never that it worked.
"""

from datetime import date

from lawnbook.plan.plug_model import CareMark, Place
from lawnbook.plan.roots import zone_of_spot
from lawnbook.plan.workings import and_joined
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Care
from lawnbook.yard.table import until

CARE_KINDS: tuple[str, ...] = (
    "watering habit",
    "feeding level",
    "aeration",
    "topdressing",
    "dethatching",
    "microbe food",
    "wetting agent",
    "herbicide",
    "fungicide",
    "overseeding",
    "mowing height",
)
"""Kinds of care that the form proposes; any other may be typed."""

WHOLE_YARD = tr("whole yard")
NAMES_TOLD = 3

MOWING = "mowing"
"""What all entries of mowing are gathered under."""

_ROUTINE = frozenset({MOWING, "mowed", "mown"})
"""Done every week: a mark for each would cover the trend and part nothing in two."""


def care_marks(notebook: Notebook, place: Place | None, on: date) -> tuple[CareMark, ...]:
    """What was done up to a day at a place, in date order; everywhere where `place` is None.

    At a spot that is what was done in its zone, and on the whole yard. Mowing, which is done all
    the time, is left out: a mark for each would cover the trend and part nothing in two.
    """
    cares = sorted(until(notebook.care, on).values(), key=lambda care: (care.date, care.rank))
    return tuple(
        CareMark(
            care_id=care.id,
            date=care.date,
            kind=care.kind.strip(),
            where=_where(notebook, care),
            note=care.note,
        )
        for care in cares
        if care_kind(care) != MOWING and _touches(notebook, care, place)
    )


def care_kind(care: Care) -> str:
    """A care entry's kind as entries are gathered by it: without case, mowing by its one name."""
    kind = care.kind.strip().casefold()
    return MOWING if kind in _ROUTINE else kind


def zone_of_place(notebook: Notebook, place: Place) -> str:
    """The id of the zone that a spot or zone stands for; "" for the yard and outside of zones."""
    if place.kind == "zone":
        return place.id
    spot = notebook.spots.get(place.id) if place.kind == "spot" else None
    return zone_of_spot(notebook, spot) if spot is not None else ""


def done_in(care: Care, zone_id: str) -> bool:
    """Whether care covers a zone; without zones it covers the whole yard."""
    return not care.zones or zone_id in care.zones


def _touches(notebook: Notebook, care: Care, place: Place | None) -> bool:
    if place is None or place.kind == "yard":
        return True
    return done_in(care, zone_of_place(notebook, place))


def _where(notebook: Notebook, care: Care) -> str:
    names = [notebook.zones[zone].name for zone in care.zones if zone in notebook.zones]
    if not names:
        return WHOLE_YARD
    if len(names) > NAMES_TOLD:
        names = [*names[: NAMES_TOLD - 1], tr("{count} more", count=len(names) - NAMES_TOLD + 1)]
    return and_joined(names)
