"""The sprinkler rate drawn over the zones: in each its own map, and paler what falls outside."""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from lawnbook.agronomy.coverage import distribution
from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.items import cosmetic, outline_path
from lawnbook.desk.sketch.rate_field import (
    Array,
    Box,
    Drawable,
    RateField,
    borders_for,
    mean_rate,
    twice_as_fine,
)
from lawnbook.desk.sketch.rate_scale import RateColours, rate_colours
from lawnbook.desk.theme import mix
from lawnbook.frozen import dataclass
from lawnbook.plan.coverage import DRY_SHARE, WET_SHARE
from lawnbook.yard.geometry import Bounds, bounds_ft
from lawnbook.yard.records import Head, Zone

LEAST_IN_PER_H = 0.005
"""Less than this is drawn as no water."""

BEYOND_Z, ZONE_Z = 28.0, 28.5
"""Over zones and features, so that water on a drive is seen; under heads, labels and pins."""

DRY, WET = -2, -1
"""Places of the dry and wet colours, from the end of the table of colours."""


class RateItem(QGraphicsItem):
    """A picture of rates, clipped to a path, with the outline drawn again over it."""

    def __init__(self, z: float) -> None:
        super().__init__()
        self.setZValue(z)
        self._image, self._area = QImage(), QRectF()
        self._path, self._pen = QPainterPath(), QPen(Qt.PenStyle.NoPen)

    def show_image(self, image: QImage, bounds: Bounds, path: QPainterPath, pen: QPen) -> None:
        """Draw this picture over these feet, inside the path."""
        west, south, east, north = bounds
        area = QRectF(west, -north, east - west, north - south)
        if area != self._area:
            self.prepareGeometryChange()
        self._image, self._area, self._path, self._pen = image, area, path, pen
        self.update()

    def boundingRect(self) -> QRectF:
        """The picture, and half a foot for the outline."""
        return self._area.adjusted(-0.5, -0.5, 0.5, 0.5)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The picture inside the path, and the outline."""
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.setClipPath(self._path, Qt.ClipOperation.IntersectClip)
        painter.drawImage(self._area, self._image)
        painter.restore()
        if self._pen.style() is not Qt.PenStyle.NoPen:
            painter.setPen(self._pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPath(self._path)


@dataclass(frozen=True, slots=True, eq=False)
class _Shown:
    """What a zone's picture was made of."""

    zone: Zone
    box: Box
    shares: Array
    chosen: bool


class RateLayer:
    """The pictures of all zones with heads that have a flow, kept up with a field of rates."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._field = RateField()
        self._borders: tuple[float, ...] = borders_for(())
        self._beyond: RateItem | None = None
        self._beyond_image, self._beyond_box = QImage(), Box(0, 0, 1, 1)
        self._items: dict[str, RateItem] = {}
        self._shown: dict[str, _Shown] = {}
        self._palette: Palette | None = None
        self._unfitted = True

    @property
    def borders(self) -> tuple[float, ...]:
        """The borders between the steps of the scale, in/h."""
        return self._borders

    def hide(self) -> None:
        """Take every picture away."""
        for item in [*self._items.values(), *([self._beyond] if self._beyond else [])]:
            self._scene.removeItem(item)
        self._items, self._shown, self._beyond = {}, {}, None

    def show(
        self,
        zones: Mapping[str, Zone],
        heads: Mapping[str, Head],
        palette: Palette,
        *,
        chosen: str,
        live: bool,
    ) -> None:
        """Draw the water of these heads; while `live` cells and scale stay as they are."""
        watered = {head.zone for head in heads.values() if head.flow_gpm}
        covered = {each: zone for each, zone in zones.items() if each in watered}
        changed = self._field.lay(covered.values(), heads.values(), live=live)
        rescaled = self._rescaled(covered, changed, live=live)
        anew = rescaled or palette is not self._palette
        self._palette = palette
        colours = rate_colours(palette)
        for zone_id in [each for each in self._items if each not in covered]:
            self._scene.removeItem(self._items.pop(zone_id))
            self._shown.pop(zone_id)
        outlines_changed = self._show_zones(covered, colours, changed, chosen=chosen, anew=anew)
        if changed or anew or outlines_changed or self._beyond is None:
            self._show_beyond(list(covered.values()), colours, None if anew else changed)

    def evenness(self, zone_id: str) -> float | None:
        """DU_LQ of a zone by the field as it is drawn; None where there is no water."""
        shown = self._shown.get(zone_id)
        if shown is None:
            return None
        rates = self._field.rates_in(shown.box)
        watered = bool((rates * shown.shares).any())
        return distribution(rates, shown.shares).du_lq if watered else None

    def _rescaled(self, covered: Mapping[str, Zone], changed: Sequence[Box], *, live: bool) -> bool:
        """Fit the scale to the water that is there; whether it became another."""
        self._unfitted = self._unfitted or bool(changed) or self._shown.keys() != covered.keys()
        if live or not self._unfitted:
            return False
        self._unfitted = False
        borders = borders_for([self._between(zone) for zone in covered.values()])
        if borders == self._borders:
            return False
        self._borders = borders
        return True

    def _between(self, zone: Zone) -> Array:
        """The rates in a zone that are neither dry nor wet: those the steps are to tell apart."""
        rates = self._field.rates_in(self._field.box_of(bounds_ft([zone.outline_ft])))
        shares = self._field.shares_of(zone)
        mean = mean_rate(rates, shares)
        told = (shares > 0.0) & (rates > DRY_SHARE * mean) & (rates < WET_SHARE * mean)
        between: Array = rates[told]
        return between

    def _show_zones(
        self,
        covered: Mapping[str, Zone],
        colours: RateColours,
        changed: Sequence[Box],
        *,
        chosen: str,
        anew: bool,
    ) -> bool:
        """Draw the zones that are touched; whether an outline is another."""
        reshaped = False
        for zone_id, zone in covered.items():
            before = self._shown.get(zone_id)
            box = self._field.box_of(bounds_ft([zone.outline_ft]))
            same = before is not None and _same_ground(before.zone, zone) and before.box == box
            lit = zone_id == chosen
            touched = anew or any(box.meets(each) for each in changed)
            if before is not None and same and not touched and before.chosen == lit:
                continue
            reshaped = reshaped or not same
            shares = before.shares if before and same else self._field.shares_of(zone)
            self._shown[zone_id] = _Shown(zone, box, shares, lit)
            self._draw(zone_id, colours)
        return reshaped

    def _draw(self, zone_id: str, colours: RateColours) -> None:
        shown, palette = self._shown[zone_id], self._palette
        rates = self._field.rates_in(shown.box)
        fine = twice_as_fine(twice_as_fine(rates))
        steps = steps_of(fine, self._borders)
        mean = mean_rate(rates, shown.shares)
        count = len(colours.inside)
        steps[fine < DRY_SHARE * mean] = count + DRY
        steps[fine > WET_SHARE * mean] = count + WET
        if palette is None:
            return
        edge = palette.accent if shown.chosen else mix(palette.ink, palette.paper, 0.2)
        item = self._items.get(zone_id)
        if item is None:
            item = self._items[zone_id] = RateItem(ZONE_Z)
            self._scene.addItem(item)
        item.show_image(
            image_of(steps, colours.inside),
            self._field.bounds_of(shown.box),
            outline_path(shown.zone.outline_ft, *shown.zone.holes_ft),
            cosmetic(edge, 2.0 if shown.chosen else 1.2),
        )

    def _show_beyond(
        self, covered: Sequence[Zone], colours: RateColours, changed: Sequence[Box] | None
    ) -> None:
        """Draw fainter what falls outside of the zones that are watered, where it is another."""
        box = self._field.box
        if self._beyond is None:
            self._beyond = RateItem(BEYOND_Z)
            self._scene.addItem(self._beyond)
        if changed is None or self._beyond_image.isNull() or box != self._beyond_box:
            rates = twice_as_fine(self._field.rates_in(box))
            self._beyond_image = image_of(steps_of(rates, self._borders), colours.beyond)
            self._beyond_box = box
        else:
            self._patch_beyond(changed, colours)
        bounds = west, south, east, north = self._field.bounds_of(box)
        path = QPainterPath()
        path.addRect(QRectF(west, -north, east - west, north - south))
        # Within a zone the rectangle and the outline lie on each other and cancel out.
        path.setFillRule(Qt.FillRule.OddEvenFill)
        for zone in covered:
            path.addPath(outline_path(zone.outline_ft, *zone.holes_ft))
        self._beyond.show_image(self._beyond_image, bounds, path, QPen(Qt.PenStyle.NoPen))

    def _patch_beyond(self, changed: Sequence[Box], colours: RateColours) -> None:
        """Paint over the parts of the picture that are another."""
        box = self._beyond_box
        painter = QPainter(self._beyond_image)
        painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Source)
        for each in changed:
            part = each.grown(1).within(box)
            # Finer cells need the neighbours of the outermost, too.
            around = part.grown(1).within(box)
            west, south = 2 * (part.west - around.west), 2 * (part.south - around.south)
            fine = twice_as_fine(self._field.rates_in(around))
            rates = fine[
                south : south + 2 * (part.north - part.south),
                west : west + 2 * (part.east - part.west),
            ]
            image = image_of(steps_of(rates, self._borders), colours.beyond)
            painter.drawImage(2 * (part.west - box.west), 2 * (box.north - part.north), image)
        painter.end()


def steps_of(rates: Array | Drawable, borders: Sequence[float]) -> NDArray[np.uint8]:
    """The place of each rate in a table of colours: 0 for no water, then the steps of the scale."""
    steps = (rates >= LEAST_IN_PER_H).astype(np.uint8)
    for border in borders:
        steps += rates >= border
    return steps


def image_of(steps: NDArray[np.uint8], colours: Sequence[QColor]) -> QImage:
    """A picture of places in a table of colours, given south row first."""
    table = np.array([_premultiplied(each) for each in colours], dtype=np.uint32)
    pixels = np.ascontiguousarray(table[steps[::-1]])
    height, width = pixels.shape
    form = QImage.Format.Format_ARGB32_Premultiplied
    # The copy owns its pixels: the array goes when this returns.
    return QImage(pixels.data, width, height, 4 * width, form).copy()


def _premultiplied(colour: QColor) -> int:
    alpha = colour.alpha()
    red, green, blue = (
        round(part * alpha / 255) for part in (colour.red(), colour.green(), colour.blue())
    )
    return alpha << 24 | red << 16 | green << 8 | blue


def _same_ground(one: Zone, other: Zone) -> bool:
    return one is other or (one.outline_ft, one.holes_ft) == (other.outline_ft, other.holes_ft)
