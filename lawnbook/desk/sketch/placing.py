"""Putting down what has a place and no outline: sprinkler heads and plug spots."""

import math
from dataclasses import replace

from PySide6.QtCore import QPointF

from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.moving import warn_of_place
from lawnbook.desk.sketch.outlines import arc_into
from lawnbook.desk.sketch.snapping import Snap
from lawnbook.desk.sketch.tools import Tool, dragged
from lawnbook.desk.sketch.view import Pointer
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.edits import next_name
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import distance_to_edge_ft, zone_at
from lawnbook.yard.notebook import new_id
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.records import Head, Spot, Zone

NEAR_ZONE_FT = 6.0
"""A head this near a zone's edge waters that zone: heads stand beside the turf, too."""


class PlacingTool(Tool):
    """Puts something down where the owner clicks."""

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self._pressed: tuple[QPointF, Snap] | None = None

    def press(self, pointer: Pointer) -> bool:
        """Remember where."""
        self._pressed = (pointer.at_px, self._snap(pointer))
        return True

    def move(self, pointer: Pointer) -> None:
        """Say where it would go."""
        if self._pressed is None:
            snap = self._snap(pointer)
            self.control.scene.show_mark(snap.at_ft)
            self.control.hovered.emit(snap.reason)

    def cancel(self) -> bool:
        """Forget the press."""
        was_on, self._pressed = self._pressed is not None, None
        self.control.scene.end_drawing()
        return was_on

    def _snap(self, pointer: Pointer) -> Snap:
        return self.control.snapper(pointer.ft_per_px).snap(pointer.at_ft, free=pointer.alt)


class HeadTool(PlacingTool):
    """Puts down sprinkler heads: in a corner a quarter circle, on a side a half, else a whole."""

    hint = tr("Click where a head stands, or drag from it to where its water reaches.")

    def move(self, pointer: Pointer) -> None:
        """Draw the throw while it is being dragged out."""
        super().move(pointer)
        if self._pressed is not None and dragged(self._pressed[0], pointer.at_px):
            start = self._pressed[1].at_ft
            head = self._head(start, _radius(start, pointer))
            if head is not None:
                drawing = self.control.scene.drawing()
                drawing.show_head(head)
                self.control.hovered.emit(
                    tr("{radius_ft} radius", radius_ft=feet_inches(head.radius_ft))
                )

    def release(self, pointer: Pointer) -> None:
        """Keep the head."""
        pressed, self._pressed = self._pressed, None
        self.control.scene.end_drawing()
        if pressed is None:
            return
        pulled = dragged(pressed[0], pointer.at_px)
        start = pressed[1].at_ft
        head = self._head(start, _radius(start, pointer) if pulled else None)
        if head is None:
            self.control.say(self._no_zone(), "warn")
            return
        zone = self.control.notebook.zones[head.zone]
        if self.control.keep("heads", head, tr("put a head in {name}", name=zone.name)):
            self.control.head_like = head
            self.control.choose(Choice("heads", head.id))
            arc = tr(
                "{radius_ft} radius, {sweep_deg:.0f}° arc",
                radius_ft=feet_inches(head.radius_ft),
                sweep_deg=head.sweep_deg,
            )
            self.control.say(tr("A head of {name}: {arc}.", name=zone.name, arc=arc), "good")

    def _head(self, at: Point, radius_ft: float | None) -> Head | None:
        """A head at a point; radius and flow as of the last one put down."""
        zone = self._zone_near(at)
        if zone is None:
            return None
        like = self.control.head_like
        start, sweep = arc_into(zone.outline_ft, at)
        head = Head(id=new_id(), zone=zone.id, at_ft=at, start_deg=start, sweep_deg=sweep)
        if like is not None:
            head = replace(head, radius_ft=like.radius_ft)
        return head if radius_ft is None else replace(head, radius_ft=radius_ft)

    def _no_zone(self) -> str:
        if not self.control.notebook.zones:
            return tr("Draw a zone first: a head belongs to the zone it waters.")
        near = told(NEAR_ZONE_FT, 0, "ft")
        return tr("A head belongs to a zone: put it in one, or within {near} of one.", near=near)

    def _zone_near(self, at: Point) -> Zone | None:
        inside = zone_at(self.control.notebook, at)
        if inside is not None:
            return inside
        by_distance = [
            (distance_to_edge_ft(zone.outline_ft, at), zone)
            for zone in self.control.notebook.zones.values()
        ]
        nearest = min(by_distance, key=lambda each: each[0], default=None)
        return nearest[1] if nearest is not None and nearest[0] <= NEAR_ZONE_FT else None


class SpotTool(PlacingTool):
    """Puts down the fixed spots where plugs are pulled."""

    hint = tr(
        "Click the fixed spot for plugs. Have buried lines located before you dig (811 in the US)."
    )

    def release(self, pointer: Pointer) -> None:
        """Keep the spot."""
        pressed, self._pressed = self._pressed, None
        if pressed is None:
            return
        at = pressed[1].at_ft
        zone = zone_at(self.control.notebook, at)
        spot = replace(self._spot(), at_ft=at)
        if zone is not None:
            spot = replace(spot, zone=zone.id)
        if self.control.keep("spots", spot, tr("put down {name}", name=spot.name)):
            self.control.choose(Choice("spots", spot.id))
            if not warn_of_place(self.control, spot):
                where = f"in {zone.name}" if zone else tr("outside of every zone")
                self.control.say(
                    tr("{name}, {where}. Enter names it.", name=spot.name, where=where), "good"
                )

    def _spot(self) -> Spot:
        """The chosen spot, if it has no place yet; else a new one."""
        chosen = self.control.record()
        if isinstance(chosen, Spot) and chosen.at_ft is None:
            return chosen
        return Spot(id=new_id(), name=next_name(self.control.notebook, "spots", tr("Spot")))


def _radius(start: Point, pointer: Pointer) -> float:
    return round(max(1.0, math.dist(start, pointer.at_ft)), 1)
