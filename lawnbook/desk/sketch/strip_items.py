"""The strips along water and features on the sketch: where nothing is spread in each zone."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsPathItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from lawnbook.charts.palette import Palette
from lawnbook.desk import theme
from lawnbook.desk.sketch.items import as_dense, cosmetic, outline_path
from lawnbook.desk.sketch.water_view import Drawn
from lawnbook.plan.strips import ZoneStrips, strip_width_ft, strips_along
from lawnbook.yard.fields import Point
from lawnbook.yard.records import Feature, Zone

STRIP_Z = 16.0
"""Over zones, the chosen one too; under features, heads and labels."""


class StripItem(QGraphicsPathItem):
    """What strips cover of one zone: a quiet hatch, dashed along the lines where spreading stops.

    The hatch falls where that of an unknown figure rises, so that the two are told apart, and both
    are seen where they meet.
    """

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(STRIP_Z)
        self._borders = QPainterPath()
        self._hatch = QColor()

    def show_strips(self, found: ZoneStrips, palette: Palette) -> None:
        """Draw these strips."""
        self._borders = outline_path()
        for border in found.borders_ft:
            self._borders.addPath(outline_path(border, closed=False))
        self._hatch = theme.colour(palette.ink, 0.26)
        pen = cosmetic(palette.ink, 1.2, Qt.PenStyle.DashLine)
        pen.setColor(theme.colour(palette.ink, 0.75))
        self.setPen(pen)
        self.setPath(outline_path(*found.rings_ft))

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The hatch, in pixels at every zoom, and the dashes."""
        hatch = QBrush(self._hatch, Qt.BrushStyle.FDiagPattern)
        painter.fillPath(self.path(), as_dense(hatch, painter))
        painter.strokePath(self._borders, self.pen())


class StripLayer:
    """Keeps the strips up with what the scene draws, drafts too.

    They are always shown, as an outline is: what may not be fed is so whatever page is open, and
    marks that come and go would be more to look at. Only the map of the sprinkler rate, on which
    every colour is a reading, goes without.
    """

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: dict[str, StripItem] = {}
        self._found: dict[str, ZoneStrips] = {}
        self._palette: Palette | None = None

    def refresh(self, drawn: Drawn) -> None:
        """Draw the strips anew that are others."""
        found = {} if drawn.by == "Sprinkler rate" else dict(_reaching(drawn))
        palette = theme.palette()
        for zone_id in [each for each in self._items if each not in found]:
            self._scene.removeItem(self._items.pop(zone_id))
        for zone_id, strips in found.items():
            if palette is self._palette and self._found.get(zone_id) == strips:
                continue
            if zone_id not in self._items:
                self._items[zone_id] = StripItem()
                self._scene.addItem(self._items[zone_id])
            self._items[zone_id].show_strips(strips, palette)
        self._found, self._palette = found, palette

    def told_at(self, at: Point) -> str:
        """What holds at a place by the strips that cover it; "" where there is none."""
        return "  ·  ".join(
            strip.told()
            for found in self._found.values()
            for strip in found.strips
            if strip.covers(at)
        )

    def told(self, zone_id: str = "") -> tuple[str, ...]:
        """What holds in the strips of a zone, or of all zones, each told once."""
        found = self._found.values() if not zone_id else filter(None, [self._found.get(zone_id)])
        return tuple(dict.fromkeys(strip.told() for each in found for strip in each.strips))


def _reaching(drawn: Drawn) -> Iterator[tuple[str, ZoneStrips]]:
    """The zones that a strip reaches, by their ids."""
    rules = drawn.notebook.n_rules
    features = drawn.all_of("features", Feature).values()
    along = [each for each in features if strip_width_ft(each, rules) > 0]
    if not along:
        return
    for zone_id, zone in drawn.all_of("zones", Zone).items():
        found = strips_along(along, rules, zone)
        if found.names:
            yield zone_id, found
