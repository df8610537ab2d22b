"""Where a closed walk goes on the sketch, and the change that puts it there. Feet."""

from collections.abc import Sequence
from dataclasses import replace

from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.inspector import KINDS
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.edits import next_name
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import bounds_ft, label_point_ft, yard_bounds_ft
from lawnbook.yard.ground import Ground, ground_of, without
from lawnbook.yard.notebook import Change, Key, Notebook, new_id, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Record, Zone
from lawnbook.yard.shape_records import refuse_far, refuse_locked
from lawnbook.yard.walk_laying import clockwise, laid, laid_over
from lawnbook.yard.walk_records import MOST_CORNERS

BESIDE_FT = 10.0
ZONE, HOLE, MEND = "zone", "hole", "mend"


@dataclass(frozen=True, slots=True)
class Filled:
    """The shape on the sketch that the sides were filled from: its record, ring and outline.

    The outline runs clockwise, as it was then.
    """

    key: Key
    ring: int
    outline: Outline


@dataclass(frozen=True, slots=True)
class Made:
    """What putting a walk on the sketch makes: the change, what to choose, and its name."""

    change: Change
    choice: Choice
    name: str


def filled_from(notebook: Notebook, choice: Choice | None) -> Filled:
    """The ring that is chosen, to be mended by tape. OwnerError where there is none to walk."""
    record = notebook.find(choice.table, choice.record_id) if choice is not None else None
    if choice is None or not isinstance(record, Zone | Feature):
        raise OwnerError(tr("Choose a zone or a feature on the sketch first."))
    ring = rings_of(record)[choice.ring]
    if len(ring) > MOST_CORNERS:
        raise OwnerError(
            tr(
                "That outline has {count} corners, more than the {most_corners} that can be "
                "walked; choose a simpler one.",
                count=len(ring),
                most_corners=MOST_CORNERS,
            )
        )
    return Filled(choice.key, choice.ring, clockwise(ring))


def placed(
    notebook: Notebook,
    outline: Outline,
    line: tuple[Point, Point] | None,
    into: str,
    over: Filled | Zone | None,
) -> Outline:
    """The outline where it would lie: on the line that was clicked, over what it mends or is cut
    from, or else beside all that is drawn.
    """
    if into == MEND and isinstance(over, Filled):
        return laid_over(outline, over.outline)
    if line is not None:
        return laid(outline, *line)
    west, south, east, north = bounds_ft((outline,))
    if into == HOLE and isinstance(over, Zone):
        to_x, to_y = label_point_ft(over.outline_ft, over.holes_ft)
        return _moved(outline, to_x - (west + east) / 2, to_y - (south + north) / 2)
    if not (notebook.zones or notebook.features):
        return outline
    yard = yard_bounds_ft(notebook)
    return _moved(outline, yard[2] + BESIDE_FT - west, yard[1] - south)


def made(notebook: Notebook, outline: Outline, into: str, over: Filled | Zone | None) -> Made:
    """The change that keeps a placed outline as what it is to be. OwnerError where it cannot."""
    refuse_far((outline,))
    if into == MEND and isinstance(over, Filled):
        return _mended(notebook, outline, over)
    if into == HOLE and isinstance(over, Zone):
        refuse_locked((over,))
        if without(Ground(outline), (ground_of(replace(over, holes_ft=())),)):
            raise OwnerError(
                tr(
                    "The hole reaches outside {name}; place corner A and side A to B by two clicks "
                    "inside it.",
                    name=over.name,
                )
            )
        zone = replace(over, holes_ft=(*over.holes_ft, outline))
        choice = Choice("zones", zone.id, ring=len(zone.holes_ft))
        return Made(put(notebook, "zones", zone), choice, tr("a hole in {name}", name=zone.name))
    if into == ZONE:
        name = next_name(notebook, "zones", tr("Zone"))
        zone = Zone(id=new_id(), name=name, outline_ft=outline)
        return Made(put(notebook, "zones", zone), Choice("zones", zone.id), name)
    kind = next(each for each in KINDS if each == into)
    feature = Feature(id=new_id(), kind=kind, outline_ft=outline)
    return Made(put(notebook, "features", feature), Choice("features", feature.id), tr(kind))


def mends(record: Record | None, filled: Filled | None, corners: int) -> bool:
    """Whether a walk of so many corners can still mend what it was filled from."""
    if filled is None or not isinstance(record, Zone | Feature):
        return False
    rings: Sequence[Outline] = rings_of(record)
    return filled.ring < len(rings) and corners == len(filled.outline)


def _mended(notebook: Notebook, outline: Outline, filled: Filled) -> Made:
    record = notebook.find(*filled.key)
    if not isinstance(record, Zone | Feature):
        raise OwnerError(tr("The shape to be mended is gone; put the walk down as a new one."))
    refuse_locked((record,))
    choice = Choice(*filled.key, ring=filled.ring)
    if isinstance(record, Feature):
        after = replace(record, outline_ft=outline)
        return Made(put(notebook, "features", after), choice, record.name or record.kind)
    rings = list(rings_of(record))
    rings[filled.ring] = outline
    zone = replace(record, outline_ft=rings[0], holes_ft=tuple(rings[1:]))
    return Made(put(notebook, "zones", zone), choice, record.name)


def _moved(outline: Outline, dx: float, dy: float) -> Outline:
    return tuple((round(x + dx, 2) + 0.0, round(y + dy, 2) + 0.0) for x, y in outline)
