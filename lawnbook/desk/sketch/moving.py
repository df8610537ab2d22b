"""What a drag or a nudge makes of a record, and the live figures of it."""

import math
from collections.abc import Mapping
from dataclasses import replace

from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.outlines import rings_of, shifted_record
from lawnbook.plan.plug_places import spot_concerns
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import area_sqft, zone_at
from lawnbook.yard.notebook import Key
from lawnbook.yard.numbers import feet_inches, plain
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone

Draft = Mapping[Key, Record]
"""Records as they would be, by table and id."""


def moved_with_its_own(control: SketchControl, key: Key, record: Record, by: Point) -> Draft:
    """A record moved, and with a zone its heads, spots and cans, which stand on its ground."""
    moved: dict[Key, Record] = {key: in_its_zone(control, shifted_record(record, by))}
    if isinstance(record, Zone):
        for table in ("heads", "spots", "catch_tests"):
            for own in control.notebook.table(table).values():
                if getattr(own, "zone", None) == record.id:
                    moved[(table, own.id)] = shifted_record(own, by)
    return moved


def in_its_zone(control: SketchControl, record: Record) -> Record:
    """A spot with the zone it now lies in; outside of all, and any other record, as it was."""
    if not isinstance(record, Spot) or record.at_ft is None:
        return record
    zone = zone_at(control.notebook, record.at_ft)
    return replace(record, zone=zone.id) if zone is not None else record


def warn_of_place(control: SketchControl, spot: Spot) -> bool:
    """Say what speaks against a spot's place, where anything does; whether it does.

    The weightiest is said in full, the rest counted: the Plugs page tells them all.
    """
    if spot.at_ft is None:
        return False
    concerns = spot_concerns(control.notebook, spot.at_ft, spot.zone)
    if concerns:
        rest = len(concerns) - 1
        more = f" {rest} more under Next on the Plugs page." if rest else ""
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


def figures_of(draft: Draft) -> str:
    """The live figures of what is being changed."""
    for record in draft.values():
        if isinstance(record, Zone):
            return f"{area_sqft(record.outline_ft, record.holes_ft):,.0f} sq ft"
        if isinstance(record, Feature):
            return f"{area_sqft(record.outline_ft):,.0f} sq ft"
        if isinstance(record, Head):
            return f"{feet_inches(record.radius_ft)} radius, {plain(record.sweep_deg)}° arc"
    return ""
