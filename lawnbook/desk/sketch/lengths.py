"""Side lengths as they are drawn along the sides, and the shape that is being drawn."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPolygonF, QTransform
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsLineItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from lawnbook.charts.palette import Palette
from lawnbook.desk import theme
from lawnbook.desk.sketch.items import (
    IGNORES_ZOOM,
    HandleItem,
    HeadItem,
    cosmetic,
    outline_path,
    scene_point,
    words_with_halo,
)
from lawnbook.desk.sketch.outlines import midpoint, sides
from lawnbook.desk.sketch.snap_mark import SnapMark
from lawnbook.desk.theme import CAPTION_POINTS, colour, px, sans
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.numbers import feet_inches
from lawnbook.yard.records import Head

if TYPE_CHECKING:
    from lawnbook.desk.sketch.snapping import Snap

DOTTED_CORNERS = 8
"""A closed shape with more corners than this is round: dots on all of them would hide it."""

ROOM_PX = 46.0
"""A side shorter than this on the screen bears no length."""


class LengthItem(QGraphicsItem):
    """A side's length, along the side and outside of the shape."""

    def __init__(self, start: Point, end: Point, *, above: bool, palette: Palette) -> None:
        super().__init__()
        self.setFlag(IGNORES_ZOOM)
        self.setZValue(75)
        self.setPos(scene_point(midpoint(start, end)))
        angle = math.degrees(math.atan2(start[1] - end[1], end[0] - start[0]))
        flipped = not -90 < angle <= 90
        self.setRotation(angle - math.copysign(180, angle) if flipped else angle)
        self.above = above
        self._lift = -px(13.0) if above != flipped else px(13.0)
        self._words = feet_inches(math.dist(start, end))
        self._ink, self._halo = QColor(palette.accent), colour(palette.paper, 0.82)
        metrics = QFontMetricsF(sans(CAPTION_POINTS))
        width, height = metrics.horizontalAdvance(self._words) + 8, metrics.height()
        # Measured once: Qt asks for the box at every step of a drag.
        self._box = QRectF(-width / 2, self._lift - height / 2, width, height)

    def boundingRect(self) -> QRectF:
        """The words' box, beside the middle of the side."""
        return self._box

    def turned_box(self) -> QPolygonF:
        """The words' box as it stands, in pixels from the item's place."""
        return QTransform().rotate(self.rotation()).map(QPolygonF(self.boundingRect()))

    def turned_rect(self) -> QRectF:
        """The upright box round the words as they stand, in pixels from the item's place."""
        return QTransform().rotate(self.rotation()).mapRect(self.boundingRect())

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The length with a rim of paper."""
        painter.setFont(sans(CAPTION_POINTS))
        words = self.boundingRect().adjusted(4, 0, -4, 0)
        words_with_halo(painter, words, self._words, self._ink, self._halo)


def length_items(
    outline: Outline, palette: Palette, ft_per_px: float, *, closed: bool = True
) -> list[LengthItem]:
    """The lengths of the sides with room for one, each outside of the outline.

    Where the outline is not `closed` yet, the side back to the first corner bears none.
    """
    outside_is_left = turns_clockwise(outline)
    return [
        LengthItem(start, end, above=outside_is_left, palette=palette)
        for start, end in told_sides(outline, ft_per_px, closed=closed)
    ]


def told_sides(
    outline: Outline, ft_per_px: float, *, closed: bool = True
) -> list[tuple[Point, Point]]:
    """The sides that have room for their lengths."""
    room = ROOM_PX * ft_per_px
    open_sides = sides(outline)[: None if closed else -1]
    return [(start, end) for start, end in open_sides if math.dist(start, end) >= room]


class DrawingItem(QGraphicsItem):
    """The corners put so far, the side that follows the pointer, and the guides."""

    def __init__(self) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemHasNoContents)
        self.setZValue(70)

    def boundingRect(self) -> QRectF:
        """Nothing of its own: its parts draw themselves."""
        return QRectF()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """Nothing of its own."""

    def show_outline(
        self,
        corners: Sequence[Point],
        palette: Palette,
        *,
        closed: bool,
        wrong: bool,
        dots: Sequence[Point] | None = None,
    ) -> None:
        """Draw the shape as it stands, with dots on its corners, or on those given."""
        edge = palette.bad if wrong else palette.accent
        body = QGraphicsPathItem(outline_path(tuple(corners), closed=closed))
        body.setPen(cosmetic(edge, 2.0))
        body.setBrush(colour(edge, 0.10))
        body.setParentItem(self)
        if closed and len(corners) > DOTTED_CORNERS and dots is None:
            return
        put = corners if closed else corners[:-1]
        for index, corner in enumerate(put if dots is None else dots):
            dot = HandleItem("corner", palette, chosen=index == 0 and not closed)
            dot.setPos(scene_point(corner))
            dot.setParentItem(self)

    def show_guides(self, at_ft: Point, ends: Sequence[Point], palette: Palette) -> None:
        """Draw thin dashed lines from a point to what it lines up with."""
        for end in ends:
            line = QGraphicsLineItem(QLineF(scene_point(at_ft), scene_point(end)))
            line.setPen(cosmetic(palette.water, 1.0, Qt.PenStyle.DashLine))
            line.setParentItem(self)

    def show_snap(self, snap: "Snap", palette: Palette) -> None:
        """Draw where a point goes: the mark of its reason, its guide lines, the sides meant."""
        for side in snap.sides:
            meant = QGraphicsLineItem(QLineF(*map(scene_point, side)))
            meant.setPen(cosmetic(palette.water, 2.4))
            meant.setParentItem(self)
        self.show_guides(snap.at_ft, snap.guides, palette)
        SnapMark(snap, palette).setParentItem(self)

    def show_mark(self, at_ft: Point, palette: Palette) -> None:
        """Draw where a press would put something."""
        mark = HandleItem("mark", palette, chosen=False)
        mark.setPos(scene_point(at_ft))
        mark.setParentItem(self)

    def show_head(self, head: Head) -> None:
        """Draw a head that is being put down."""
        item = HeadItem()
        item.show_record(head, theme.palette(), chosen=True)
        item.setParentItem(self)

    def show_tape(self, start: Point, end: Point, palette: Palette, ft_per_px: float) -> None:
        """Draw a measuring line with ticks at its ends and its length along it."""
        line = QGraphicsLineItem(QLineF(scene_point(start), scene_point(end)))
        line.setPen(cosmetic(palette.accent, 1.8))
        line.setParentItem(self)
        normal = QLineF(scene_point(start), scene_point(end)).normalVector().unitVector()
        step = QPointF(normal.dx(), normal.dy()) * 6 * ft_per_px
        for at in (start, end):
            tick = QGraphicsLineItem(QLineF(scene_point(at) - step, scene_point(at) + step))
            tick.setPen(cosmetic(palette.accent, 1.8))
            tick.setParentItem(self)
        if math.dist(start, end) >= ROOM_PX * ft_per_px:
            LengthItem(start, end, above=True, palette=palette).setParentItem(self)


def turns_clockwise(outline: Outline) -> bool:
    """Whether the corners run clockwise as seen on the page, so that outside is on the left."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in sides(outline)) < 0
