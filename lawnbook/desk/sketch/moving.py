"""What moves when shapes are moved, what a drag or nudge makes of it, and its live figures."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

from lawnbook.desk.sketch.choosing import is_locked
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import rings_of, shifted_record
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import area_sqft, crosses_itself, zone_at
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import feet_inches, plain
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

Draft = Mapping[Key, Record]
"""Records as they would be, by table and id."""


@dataclass(frozen=True, slots=True)
class Movers:
    """What moves when some shapes do, as it is kept now, each once.

    A zone takes its heads, spots and cans along, which stand on its ground, but for those that
    are locked. `alone` are the spots that go without their zone; `stay` is chosen and locked.
    """

    records: Mapping[Key, Record]
    alone: frozenset[Key]
    stay: tuple[Key, ...]

    def moved(self, notebook: Notebook, by: Point) -> Draft:
        """The records moved by a step in feet; a spot that goes alone joins the zone it is in."""
        draft = {key: shifted_record(record, by) for key, record in self.records.items()}
        for key in self.alone:
            draft[key] = _in_its_zone(notebook, draft[key])
        return draft


def movers(notebook: Notebook, keys: Iterable[Key]) -> Movers:
    """What moves when these are moved together."""
    chosen = tuple(keys)
    stay = tuple(key for key in chosen if is_locked(notebook.find(*key)))
    records: dict[Key, Record] = {}
    for key in chosen:
        record = notebook.find(*key)
        if record is not None and key not in stay:
            records[key] = record
    zones = {record_id for table, record_id in records if table == "zones"}
    alone = {
        key
        for key, record in records.items()
        if isinstance(record, Spot) and record.zone not in zones
    }
    for table in ("heads", "spots", "catch_tests") if zones else ():
        for own in notebook.table(table).values():
            if getattr(own, "zone", None) in zones and not is_locked(own):
                records.setdefault((table, own.id), own)
    return Movers(records, frozenset(alone), stay)


def _in_its_zone(notebook: Notebook, record: Record) -> Record:
    """A spot with the zone it now lies in; outside of all, and any other record, as it was."""
    if not isinstance(record, Spot) or record.at_ft is None:
        return record
    zone = zone_at(notebook, record.at_ft)
    return replace(record, zone=zone.id) if zone is not None else record


def warn_of_place(control: SketchControl, spot: Spot) -> bool:
    """Say what speaks against a spot's place, where anything does; whether it does.

    The weightiest is said in full, the rest counted: the Plugs page tells them all.
    """
    if spot.at_ft is None:
        return False
    from lawnbook.plan.plug_places import spot_concerns

    concerns = spot_concerns(control.notebook, spot.at_ft, spot.zone)
    if concerns:
        rest = len(concerns) - 1
        more = tr(" {rest} more under Next on the Plugs page.", rest=rest) if rest else ""
        control.say(f"{spot.name}: {concerns[0]}{more}", "warn")
    return bool(concerns)


def grip_of(record: Record, near: Point) -> Point:
    """The point of a shape that snapping looks at while it moves: its corner nearest by."""
    if isinstance(record, Head):
        return record.at_ft
    if isinstance(record, Spot) and record.at_ft is not None:
        return record.at_ft
    corners = [corner for ring in rings_of(record)[:1] for corner in ring]
    return min(corners, key=lambda corner: math.dist(corner, near), default=near)


def is_crossing(draft: Draft) -> bool:
    """Whether the sides of a zone or feature cross as it would be: then it has no area."""
    shapes = [each for each in draft.values() if isinstance(each, Zone | Feature)]
    return any(crosses_itself(ring) for shape in shapes for ring in rings_of(shape))


def figures_of(draft: Draft) -> str:
    """The live figures of what is being changed."""
    for record in draft.values():
        if isinstance(record, Zone):
            return told(area_sqft(record.outline_ft, record.holes_ft), 0, "sq ft")
        if isinstance(record, Feature):
            return told(area_sqft(record.outline_ft), 0, "sq ft")
        if isinstance(record, Head):
            return tr(
                "{radius_ft} radius, {sweep_deg}° arc",
                radius_ft=feet_inches(record.radius_ft),
                sweep_deg=plain(record.sweep_deg),
            )
    return ""


def way_of(by: Point) -> str:
    """A step over the page in words: "3' right, 1' 6\" up", "" for none."""
    right, up = (feet_inches(abs(each)) for each in by)
    across = tr("{step} right" if by[0] > 0 else "{step} left", step=right) if by[0] else ""
    along = tr("{step} up" if by[1] > 0 else "{step} down", step=up) if by[1] else ""
    return ", ".join(filter(None, (across, along)))
