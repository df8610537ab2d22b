"""The drawing tools: a zone, a hole in one, and what is not turf."""

from dataclasses import replace

from lawnbook.desk.sketch import draw_show
from lawnbook.desk.sketch.choosing import Choice
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.desk.sketch.draw_tool import DrawTool
from lawnbook.desk.sketch.lengths import DrawingItem
from lawnbook.desk.sketch.locking import locked_words
from lawnbook.reading import tr
from lawnbook.yard.amounts import told, trimmed
from lawnbook.yard.edits import next_name
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import area_sqft, lies_inside, perimeter_ft, zone_at
from lawnbook.yard.notebook import new_id
from lawnbook.yard.records import Feature, Zone


class ZoneTool(DrawTool):
    """Draws a zone."""

    def made(self, outline: Outline) -> bool:
        """Keep a new zone under the next free name, and choose it."""
        name = next_name(self.control.notebook, "zones", tr("Zone"))
        zone = Zone(id=new_id(), name=name, outline_ft=outline)
        if not self.control.keep("zones", zone, tr("draw {name}", name=name)):
            return False
        self.control.choose(Choice("zones", zone.id))
        size = tr(
            "{area_sqft}, {perimeter_ft} round",
            area_sqft=told(area_sqft(outline), 0, "sq ft"),
            perimeter_ft=told(perimeter_ft(outline), 0, "ft"),
        )
        if not self.control.warn_of_overlap(zone):
            self.control.say(tr("{name}: {size}. Enter names it.", name=name, size=size), "good")
        return True


class HoleTool(DrawTool):
    """Cuts a hole out of a zone."""

    first_hint = tr("Click the hole's corners inside a zone, or drag a rectangle.")

    def made(self, outline: Outline) -> bool:
        """Cut it out of the zone it lies in."""
        zone = zone_at(self.control.notebook, outline[0])
        if zone is None or not lies_inside(outline, zone.outline_ft):
            self.control.say(
                tr("A hole is cut out of one zone: keep all its corners inside it."), "bad"
            )
            self.cancel()
            return False
        if zone.locked:
            words = locked_words(self.control.notebook, [("zones", zone.id)])
            self.control.say(words, "warn")
            self.cancel()
            return False
        changed = replace(zone, holes_ft=(*zone.holes_ft, outline))
        if not self.control.keep("zones", changed, tr("cut a hole in {name}", name=zone.name)):
            self.cancel()
            return False
        self.control.choose(Choice("zones", zone.id, ring=len(changed.holes_ft)))
        self.control.say(
            tr(
                "{area_sqft} are left out of {name}.",
                area_sqft=told(area_sqft(outline), 0, "sq ft"),
                name=zone.name,
            ),
            "good",
        )
        return True


class FeatureTool(DrawTool):
    """Draws what is not turf; a tree is drawn round, from its trunk outward.

    `no_spread_ft` is the strip that the next feature gets, None for that of the owner's rules.
    """

    first_hint = tr(
        "Choose what it is, then click its corners or drag. A tree is dragged from its trunk."
    )

    def __init__(self, control: SketchControl) -> None:
        super().__init__(control)
        self.no_spread_ft: float | None = None

    def made(self, outline: Outline) -> bool:
        """Keep a new feature of the chosen kind, and choose it."""
        feature = self._feature(new_id(), outline)
        if not self.control.keep("features", feature, tr("draw {kind}", kind=feature.kind)):
            return False
        self.control.choose(Choice("features", feature.id))
        strip = feature.no_spread_ft
        wide = trimmed(strip or 0.0, 2, "ft")
        along = tr(" Nothing is spread within {wide} of it.", wide=wide) if strip else ""
        said = f"{tr(feature.kind).capitalize()}: {told(area_sqft(outline), 0, 'sq ft')}.{along}"
        self.control.say(said, "good")
        return True

    def from_middle(self) -> bool:
        """A tree too is dragged from its middle."""
        return super().from_middle() or self.control.feature_kind == "tree"

    def shown_closed(self, drawing: DrawingItem, outline: Outline) -> None:
        """Hatch the strip along water, and along what the owner typed one for."""
        feature = self._feature(tr("in the making"), outline)
        draw_show.show_strips(drawing, self.control.notebook, feature)

    def _feature(self, record_id: str, outline: Outline) -> Feature:
        kind = self.control.feature_kind
        strip = self.no_spread_ft if kind == "water" else None
        return Feature(id=record_id, kind=kind, outline_ft=outline, no_spread_ft=strip)
