"""What the sketch is drawn with: outlines in feet, and marks that keep their size in pixels.

The scene's y runs down, so every point is drawn at (x, −y).
"""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
    QTransform,
)
from PySide6.QtWidgets import (
    QGraphicsEllipseItem,
    QGraphicsItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from lawnbook.charts.palette import Palette
from lawnbook.desk.sketch.choosing import pin_height_px, pin_width_px
from lawnbook.desk.sketch.outlines import rings_of
from lawnbook.desk.sketch.sprites import Sprite, whole_pixels
from lawnbook.desk.theme import CAPTION_POINTS, colour, mix, sans, scale
from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.records import Feature, Head, Record

IGNORES_ZOOM = QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations


def scene_point(at_ft: Point) -> QPointF:
    """A point of the yard in the scene."""
    return QPointF(at_ft[0], -at_ft[1])


def yard_point(at: QPointF) -> Point:
    """A point of the scene in the yard's feet."""
    return (at.x(), -at.y())


def outline_path(*rings: Outline, closed: bool = True) -> QPainterPath:
    """Outlines as one path; where rings lie in each other the inner is a hole."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for ring in rings:
        path.addPolygon(QPolygonF([scene_point(at) for at in ring]))
        if closed:
            path.closeSubpath()
    return path


def cosmetic(hex_colour: str, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    """A pen whose width is in pixels whatever the zoom."""
    pen = QPen(QColor(hex_colour), width, style)
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    return pen


@dataclass(frozen=True, slots=True)
class Look:
    """How an outline is drawn: fill, hatching, and whether it is chosen or cannot be kept.

    Through a fill whose `opacity` is under 1 a picture that lies under it is seen.
    """

    fill: str
    hatched: bool = False
    chosen: bool = False
    wrong: bool = False
    opacity: float = 1.0


class OutlineItem(QGraphicsPathItem):
    """A zone or a feature."""

    def __init__(self) -> None:
        super().__init__()
        self._hatch: HatchItem | None = None

    def show_record(self, record: Record, look: Look, palette: Palette) -> None:
        """Draw the record as it is now."""
        path = outline_path(*rings_of(record))
        self.setPath(path)
        quiet = isinstance(record, Feature)
        edge = (
            mix(palette.quiet, palette.paper, 0.25)
            if quiet
            else mix(palette.ink, palette.paper, 0.2)
        )
        if look.wrong or look.chosen:
            edge = palette.bad if look.wrong else palette.accent
        self.setPen(cosmetic(edge, 2.0 if look.chosen or look.wrong else 1.2))
        fill = mix(look.fill, palette.bad, 0.25) if look.wrong else look.fill
        self.setBrush(colour(fill, look.opacity))
        # Of two shapes the later in the order lies on top, also when the order is changed.
        order = min(max(record.rank, 0), 4000) / 1000
        self.setZValue((20 if quiet else 10) + (5 if look.chosen else order))
        self._show_hatch(path, palette, hatched=look.hatched)

    def _show_hatch(self, path: QPainterPath, palette: Palette, *, hatched: bool) -> None:
        if self._hatch is None and hatched:
            self._hatch = HatchItem(self)
        if self._hatch is not None:
            self._hatch.setVisible(hatched)
            self._hatch.show_path(path, colour(palette.quiet, 0.27))


class HatchItem(QGraphicsPathItem):
    """Sparse hatching over a shape whose figure is unknown."""

    def __init__(self, parent: QGraphicsItem) -> None:
        super().__init__(parent)
        self.setPen(QPen(Qt.PenStyle.NoPen))

    def show_path(self, path: QPainterPath, ink: QColor) -> None:
        """Hatch this shape."""
        self.setPath(path)
        self.setBrush(QBrush(ink, Qt.BrushStyle.BDiagPattern))

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The hatching, as dense at every zoom."""
        painter.fillPath(self.path(), as_dense(self.brush(), painter))


def as_dense(pattern: QBrush, painter: QPainter) -> QBrush:
    """A pattern whose lines are as far apart on the screen at every zoom.

    It is laid from the scene's own origin, so that it moves with the paper.
    """
    world = painter.worldTransform()
    laid = QBrush(pattern)
    laid.setTransform(QTransform.fromScale(1 / world.m11(), 1 / world.m22()))
    return laid


class HeadItem(QGraphicsPathItem):
    """A sprinkler head: the arc it wets, and a dot that keeps its size."""

    def __init__(self) -> None:
        super().__init__()
        self._dot = QGraphicsEllipseItem(QRectF(-4.2, -4.2, 8.4, 8.4), self)
        self._dot.setFlag(IGNORES_ZOOM)

    def show_record(
        self, head: Head, palette: Palette, *, chosen: bool, washed: bool = True
    ) -> None:
        """Draw the head as it is now; the chosen one `washed` with water unless a map shows it."""
        # Only the chosen head's radii are drawn: along a zone's edge they would hide the edge.
        self.setPath(_arc_path(head) if chosen else _rim_path(head))
        edge = palette.accent if chosen else palette.water
        pen = cosmetic(edge, 1.6 if chosen else 0.9)
        pen.setColor(colour(edge, 1.0 if chosen else 0.75))
        self.setPen(pen)
        # Unfilled unless chosen: a wash of water would falsify the colour of the zone below.
        wash = colour(palette.water, 0.18)
        self.setBrush(QBrush(wash) if chosen and washed else QBrush(Qt.BrushStyle.NoBrush))
        self.setZValue(35 if chosen else 30)
        self._dot.setPos(scene_point(head.at_ft))
        self._dot.setPen(QPen(QColor(palette.card), 1.5))
        self._dot.setBrush(QColor(edge))


class PinItem(Sprite):
    """A plug spot: a pin with its latest thatch in it and its name beside it."""

    def __init__(self) -> None:
        super().__init__()
        self._figure, self._name = "", ""
        self._body, self._words, self._rim = QColor(), QColor(), QColor()
        self._ink, self._halo, self._inner = QColor(), QColor(), QColor()
        self._rim_px = 1.5
        self._bold = False
        # Names come with all labels, which keep clear of each other.
        self._named = False
        self._name_rect = QRectF()

    @property
    def name(self) -> str:
        """The name that stands beside it where it has room."""
        return self._name

    @property
    def named(self) -> bool:
        """Whether its name is shown."""
        return self._named

    def show_pin(self, at_ft: Point, name: str, figure: str) -> None:
        """Put the pin at its place with its name and figure; `dress` then paints it."""
        self.setPos(scene_point(at_ft))
        self._name = name
        self._figure = figure

    def show_name(self, *, shown: bool) -> None:
        """Show the name, or leave it out where something that counts more lies there."""
        if shown != self._named:
            self._named = shown
            self._redraw()

    def dress(self, palette: Palette, fill: str, *, chosen: bool, comparison: bool) -> None:
        """The pin's colours: the day's `fill`, else ink; an untreated comparison has a double rim.

        Without a fill it is drawn hollow.
        """
        full = palette.accent if chosen else palette.ink
        hollow = comparison and not fill
        self._body = QColor(fill or (palette.card if hollow else full))
        plain = full if hollow else palette.on_accent if chosen else palette.card
        self._words = QColor(palette.ink if fill else plain)
        self._rim = QColor(full if fill or hollow else palette.card)
        self._inner = QColor(full if comparison and fill else Qt.GlobalColor.transparent)
        self._rim_px = 2.5 if chosen and fill else 1.5
        self._ink = QColor(palette.ink)
        self._bold = chosen
        self._halo = colour(palette.paper, 0.7)
        self.setZValue(65 if chosen else 60)
        width, height = size_in(self._name, self._name_font())
        right = pin_width_px() / 2 + 2
        self._name_rect = QRectF(right, -pin_height_px() + 4, width + 4, height + 2)
        self._redraw()

    def name_rect(self) -> QRectF:
        """Where the name stands, in pixels from the point of the pin."""
        return self._name_rect

    def body_rect(self) -> QRectF:
        """Where the pin itself stands, in pixels from its point."""
        half = pin_width_px() / 2 + 1.5
        return QRectF(-half, -pin_height_px() - 1, 2 * half, pin_height_px() + 2)

    def _redraw(self) -> None:
        box = self.body_rect().united(self.name_rect()) if self._named else self.body_rect()
        inks = (self._body, self._words, self._rim, self._ink, self._halo, self._inner)
        told = (self._figure, self._name if self._named else "", self._bold, self._rim_px)
        key = ("pin", told, tuple(each.rgba() for each in inks))
        self.show_drawn(key, whole_pixels(box))

    def draw(self, painter: QPainter) -> None:
        """A drop with its tip on the spot, the figure in it, the name with a halo beside it."""
        painter.setPen(QPen(self._rim, self._rim_px))
        painter.setBrush(self._body)
        painter.drawPath(_drop_path())
        self._draw_inner(painter)
        painter.setFont(sans(CAPTION_POINTS))
        painter.setPen(self._words)
        head = QRectF(-pin_width_px() / 2, -pin_height_px(), pin_width_px(), pin_width_px())
        if self._figure:
            painter.drawText(head, Qt.AlignmentFlag.AlignCenter, self._figure)
        else:
            painter.setBrush(self._words)
            painter.drawEllipse(head.center(), 2.5, 2.5)
        if not self._named:
            return
        painter.setFont(self._name_font())
        words_with_halo(
            painter, self.name_rect().translated(2, 0), self._name, self._ink, self._halo
        )

    def _draw_inner(self, painter: QPainter) -> None:
        """The second rim of a comparison."""
        painter.setPen(QPen(self._inner, 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        radius = pin_width_px() / 2 - 3.0
        painter.drawEllipse(QPointF(0, -pin_height_px() + pin_width_px() / 2), radius, radius)

    def _name_font(self) -> QFont:
        """The chosen spot's name is bold: the accent would not read on every zone's colour."""
        return sans(CAPTION_POINTS, QFont.Weight.DemiBold if self._bold else QFont.Weight.Normal)


class HandleItem(QGraphicsPathItem):
    """Something to take hold of: a square on a corner, a dot between, a disc on an arc."""

    def __init__(self, kind: str, palette: Palette, *, chosen: bool) -> None:
        super().__init__()
        self.setFlag(IGNORES_ZOOM)
        self.setZValue(80 if kind != "middle" else 79)
        path = QPainterPath()
        if kind == "corner":
            path.addRect(QRectF(-4, -4, 8, 8))
        else:
            reach = {"mark": 3.5, "middle": 2.6}.get(kind, 4.6)
            path.addEllipse(QPointF(0, 0), reach, reach)
        self.setPath(path)
        self._kind = kind
        self.dress(palette, chosen=chosen)

    def dress(self, palette: Palette, *, chosen: bool) -> None:
        """Its colours: filled where it is the chosen corner."""
        self.setPen(QPen(QColor(palette.accent), 1.5))
        if self._kind != "mark":
            self.setBrush(QColor(palette.accent if chosen else palette.card))


def size_in(words: str, font: QFont) -> tuple[float, float]:
    """How wide and high words are in a font, in pixels."""
    metrics = QFontMetricsF(font)
    return metrics.horizontalAdvance(words), metrics.height()


def words_with_halo(painter: QPainter, rect: QRectF, words: str, ink: QColor, halo: QColor) -> None:
    """Words that stay readable over lines: a rim of paper follows the letters."""
    metrics = QFontMetricsF(painter.font())
    base = rect.center().y() + (metrics.ascent() - metrics.descent()) / 2
    letters = QPainterPath()
    letters.addText(QPointF(rect.left(), base), painter.font(), words)
    pen = QPen(halo, 3.0)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.strokePath(letters, pen)
    painter.setPen(ink)
    painter.drawText(rect, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)


def _drop_path() -> QPainterPath:
    """A pin: a circle that narrows to its tip at (0, 0)."""
    radius = pin_width_px() / 2
    centre = -pin_height_px() + radius
    path = QPainterPath(QPointF(0, 0))
    low, waist = 6 * scale(), 9 * scale()
    path.cubicTo(-low / 2, -low, -radius, centre + waist, -radius, centre)
    path.arcTo(QRectF(-radius, centre - radius, 2 * radius, 2 * radius), 180, -180)
    path.cubicTo(radius, centre + waist, low / 2, -low, 0, 0)
    return path


def _rim_path(head: Head) -> QPainterPath:
    """How far a head throws: the curved part of what it wets."""
    path, box = QPainterPath(), _throw(head)
    if head.sweep_deg >= 360:
        path.addEllipse(box)
    else:
        path.arcMoveTo(box, 90 - head.start_deg)
        path.arcTo(box, 90 - head.start_deg, -head.sweep_deg)
    return path


def _throw(head: Head) -> QRectF:
    centre, radius = scene_point(head.at_ft), head.radius_ft
    return QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius)


def _arc_path(head: Head) -> QPainterPath:
    """The part of a circle a head wets. Qt's angles run anticlockwise from the east."""
    path, box, centre = QPainterPath(), _throw(head), scene_point(head.at_ft)
    if head.sweep_deg >= 360:
        path.addEllipse(box)
        return path
    path.moveTo(centre)
    path.arcTo(box, 90 - head.start_deg, -head.sweep_deg)
    path.closeSubpath()
    return path
