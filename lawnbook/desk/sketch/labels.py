"""Where the names of zones and features stand: inside, and clear of pins, heads and handles."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from lawnbook.desk.sketch.items import IGNORES_ZOOM, words_with_halo
from lawnbook.desk.theme import colour, sans, serif

CROWDED = 6
"""So many things in one shape, cans mostly, and the last lengths of its name look closer."""


SLIGHT_SQPX = 60.0
"""A number told to be a zone's may touch so much of the room around cans: alone it reads as one."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a label: its words and how it is set."""

    words: str
    font: QFont
    ink: str


def zone_lines(title: str, area: str, figure: str, ink: str) -> list[list[Line]]:
    """A zone's label in its lengths, the fullest first, down to its number alone.

    A long name is broken in two before it goes; the number alone says that it is a zone's, since
    cans have numbers too.
    """
    bold = sans(10.0, QFont.Weight.DemiBold)
    small = sans(9.0)
    head = Line(title, bold, ink)
    lengths = [[head, Line(area, small, ink)], [head]]
    if figure:
        lengths.insert(0, [head, Line(area, small, ink), Line(figure, small, ink)])
        lengths.insert(1, [head, Line(f"{area}, {figure}", small, ink)])
        parts = figure.split(", ")
        if len(parts) > 1:
            # A figure of two parts takes the place of the area before it goes itself.
            lengths.insert(2, [head, Line(figure, small, ink)])
            lengths.insert(3, [head, *(Line(part, small, ink) for part in parts)])
    broken = [Line(part, bold, ink) for part in _in_two(title)]
    if len(broken) > 1:
        lengths += [[*broken, Line(area, small, ink)], broken]
    number = title.split(" ", 1)[0]
    return [*lengths, [Line(f"zone {number}", bold, ink)], [Line(number, bold, ink)]]


def _in_two(title: str) -> tuple[str, ...]:
    """A name broken at the blank nearest its middle; the number in front stays with a word."""
    words = title.split(" ")
    ends = range(2, len(words))
    if not ends:
        return (title,)
    end = min(ends, key=lambda at: abs(2 * len(" ".join(words[:at])) - len(title)))
    return " ".join(words[:end]), " ".join(words[end:])


def feature_lines(title: str, ink: str) -> list[list[Line]]:
    """A feature's label: its name in italics, or nothing where it does not fit."""
    font = serif(10.0)
    font.setItalic(True)
    return [[Line(title, font, ink)]]


def size_of(lines: Sequence[Line]) -> tuple[float, float]:
    """How wide and high some lines are, in pixels."""
    metrics = [QFontMetricsF(line.font) for line in lines]
    width = max(m.horizontalAdvance(line.words) for m, line in zip(metrics, lines, strict=True))
    return width, sum(m.height() for m in metrics)


@dataclass(frozen=True, slots=True)
class Placed:
    """A label's lines and the top left corner of its box, in pixels of the view."""

    lines: tuple[Line, ...]
    box: QRectF


def place(
    lengths: Sequence[Sequence[Line]],
    shape: QPainterPath,
    middles: Sequence[QPointF],
    obstacles: Iterable[QRectF],
) -> Placed | None:
    """The fullest label that fits inside a shape, where it hides least. All in pixels.

    The first places tried are the `middles`, best first; None where nothing fits.
    """
    bounds = shape.boundingRect()
    near = [each for each in obstacles if each.intersects(bounds)]
    for lines in lengths:
        width, height = size_of(lines)
        if width + 8 > bounds.width() or height + 4 > bounds.height():
            continue
        boxes = _boxes(width, height, middles, bounds)
        if lines in lengths[-2:] and len(near) >= CROWDED:
            # Among many cans or pins only a close look finds a gap.
            boxes += _fine_boxes(width, height, bounds)
        fitting = [box for box in boxes if shape.contains(box.adjusted(-4, -2, 4, 2))]
        if fitting:
            best = min(fitting, key=lambda box: _hidden(box, near))
            hidden = _hidden(best, near)
            slightly = len(lengths) > 1 and lines is lengths[-2] and hidden <= SLIGHT_SQPX
            if hidden == 0 or slightly or lines is lengths[-1]:
                return Placed(tuple(lines), best)
    return None


class LabelItem(QGraphicsItem):
    """A label at its place; it keeps its size whatever the zoom."""

    def __init__(self) -> None:
        super().__init__()
        self.setFlag(IGNORES_ZOOM)
        self.setZValue(50)
        self._lines: tuple[Line, ...] = ()
        self._size = (0.0, 0.0)
        self._halo = QColor()

    def show_lines(self, lines: tuple[Line, ...], at: QPointF, ground: str) -> None:
        """Show these lines with their top left corner at a point of the scene.

        The letters have a rim of the `ground` they stand on, so that arcs do not run through them.
        """
        self.prepareGeometryChange()
        self._lines, self._size = lines, size_of(lines)
        self._halo = colour(ground, 0.85)
        self.setPos(at)
        self.update()

    def words(self) -> str:
        """What the label says."""
        return "\n".join(line.words for line in self._lines)

    def boundingRect(self) -> QRectF:
        """The lines' box and the rim round it."""
        return QRectF(-2, -2, self._size[0] + 4, self._size[1] + 4)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The lines under each other, centred."""
        top = 0.0
        for line in self._lines:
            metrics = QFontMetricsF(line.font)
            width, height = metrics.horizontalAdvance(line.words), metrics.height()
            painter.setFont(line.font)
            box = QRectF((self._size[0] - width) / 2, top, width + 1, height)
            words_with_halo(painter, box, line.words, QColor(line.ink), self._halo)
            top += height


def _boxes(width: float, height: float, middles: Sequence[QPointF], bounds: QRectF) -> list[QRectF]:
    """Places to try: the middles first, then a grid over the shape's bounds."""
    boxes = [QRectF(m.x() - width / 2, m.y() - height / 2, width, height) for m in middles]
    for down in (0.5, 0.3, 0.7, 0.12, 0.88, 0.04, 0.96):
        for across in (0.5, 0.3, 0.7, 0.15, 0.85):
            x = bounds.left() + across * (bounds.width() - width)
            y = bounds.top() + down * (bounds.height() - height)
            boxes.append(QRectF(x, y, width, height))
    return boxes


def _fine_boxes(width: float, height: float, bounds: QRectF) -> list[QRectF]:
    """Places on a close grid over the shape's bounds."""
    across, down = bounds.width() - width, bounds.height() - height
    return [
        QRectF(bounds.left() + across * x / 12, bounds.top() + down * y / 24, width, height)
        for y in range(25)
        for x in range(13)
    ]


def _hidden(box: QRectF, obstacles: Sequence[QRectF]) -> float:
    """How much of the obstacles a box would hide, in square pixels."""
    roomy = box.adjusted(-3, -2, 3, 2)
    met = (roomy.intersected(each) for each in obstacles if roomy.intersects(each))
    return sum(each.width() * each.height() for each in met)
