"""What the names of zones and features say and where they stand: inside, or beside by a leader."""

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QColor, QFont, QPainter, QPen
from PySide6.QtWidgets import QGraphicsEllipseItem, QGraphicsItem, QGraphicsLineItem

from lawnbook.desk.sketch.items import size_in, words_with_halo
from lawnbook.desk.sketch.label_places import (
    Box,
    Rows,
    Seen,
    Taken,
    Walls,
    along_leader,
    bounds_of,
    hidden_sqpx,
    inside,
    leader_end,
    meets,
    places_beside,
    places_in,
    rows_of,
)
from lawnbook.desk.sketch.sprites import Sprite
from lawnbook.desk.theme import CAPTION_POINTS, UI_POINTS, colour, sans, scale, serif
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point

CROWDED = 6
"""So many things in one shape, cans mostly, and the last lengths of its name look closer."""

SLIGHT_SQPX = 60.0
"""A number told to be a zone's may touch so much of the room around cans: alone it reads as one."""

RIM_PX = 2.0
"""The rim of paper round the letters."""

NUMBERS = 2
"""The last lengths of a zone's label bear its number and no name."""

MOST_LEADERS = 6
"""So many free places are asked whether a leader to them crosses words, the nearest first."""

Face = Literal["title", "small", "feature"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a label: its words and how it is set."""

    words: str
    face: Face
    ink: str


def font_of(face: Face) -> QFont:
    """The font of a line."""
    if face == "feature":
        font = serif(UI_POINTS)
        font.setItalic(True)
        return font
    return sans(UI_POINTS, QFont.Weight.DemiBold) if face == "title" else sans(CAPTION_POINTS)


def zone_lines(title: str, area: str, figure: str, ink: str) -> list[list[Line]]:
    """A zone's label in its lengths, the fullest first, down to its number alone.

    A long name is broken in two before it goes; the number alone says that it is a zone's, since
    cans have numbers too.
    """
    bold: Face = "title"
    small: Face = "small"
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
    return [
        *lengths,
        [Line(tr("zone {number}", number=number), bold, ink)],
        [Line(number, bold, ink)],
    ]


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
    return [[Line(title, "feature", ink)]]


# A zone has up to eight lines in its lengths: enough for some four thousand zones.
@lru_cache(maxsize=32768)
def _size_at(words: str, face: Face, _scale: float) -> tuple[float, float]:
    return size_in(words, font_of(face))


def _size(words: str, face: Face) -> tuple[float, float]:
    """How wide and high words are in the size of text that is worn."""
    return _size_at(words, face, scale())


def size_of(lines: Sequence[Line]) -> tuple[float, float]:
    """How wide and high some lines are, in even numbers of pixels: halves are whole."""
    sizes = [_size(line.words, line.face) for line in lines]
    width, height = max(wide for wide, _ in sizes), sum(high for _, high in sizes)
    return 2.0 * -(-width // 2), 2.0 * -(-height // 2)


@dataclass(frozen=True, slots=True)
class Shape:
    """The shape a label belongs to, in pixels of the view: its sides, bounds and middles.

    The middles are where a label looks best, the best first; the last is well inside. `own` is the
    number of the shape's own box among what is taken, None where it has none.
    """

    sides: Rows
    middles: Sequence[Point]
    own: int | None = None

    @property
    def bounds(self) -> Box:
        """The smallest box round it."""
        return bounds_of(self.sides)


@dataclass(frozen=True, slots=True)
class Placed:
    """A label's lines and its box, in pixels of the view; a leader leads to its anchor, if any."""

    lines: tuple[Line, ...]
    box: Box
    anchor: Point | None = None

    @property
    def claims(self) -> list[Box]:
        """The boxes that others keep clear of: its own with both their rims, then its leader's."""
        left, top, right, bottom = self.box
        rim = 2 * RIM_PX
        own = (left - rim, top - rim, right + rim, bottom + rim)
        if self.anchor is None:
            return [own]
        return [own, *along_leader(leader_end(self.box, self.anchor), self.anchor)]


def place(lengths: Sequence[Sequence[Line]], shape: Shape, taken: Taken) -> Placed | None:
    """The fullest label that fits inside a shape, where it hides least; None where nothing fits."""
    if not len(shape.sides):
        return None
    left, top, right, bottom = bounds = shape.bounds
    near, worded = taken.near(bounds, shape.own)
    for lines in lengths:
        width, height = size_of(lines)
        if width + 8 > right - left or height + 4 > bottom - top:
            continue
        # Among many cans or pins only a close look finds a gap for a number.
        fine = lines in lengths[-NUMBERS:] and len(near) >= CROWDED
        boxes = places_in(bounds, (width, height), shape.middles, fine=fine)
        boxes = boxes[inside(boxes, shape.sides)]
        if not len(boxes):
            continue
        hidden = hidden_sqpx(boxes, near)
        # On words nothing may lie; a number may lie on a head or a handle before it goes.
        hidden[meets(boxes, near[worded]).any(axis=1)] = math.inf
        best = int(hidden.argmin())
        slightly = len(lengths) > 1 and lines is lengths[-NUMBERS] and hidden[best] <= SLIGHT_SQPX
        if hidden[best] == 0 or slightly or (lines is lengths[-1] and hidden[best] < math.inf):
            return Placed(tuple(lines), _box(boxes[best]))
    return None


def kept(
    lines: Sequence[Line], shape: Shape, taken: Taken, walls: Walls, now: Placed
) -> Placed | None:
    """A label in other words where it stands now, if it may still stand there; a drag asks this.

    `now` has its anchor, if any, at the shape's; the label keeps its distance from that, or else
    its middle.
    """
    if not len(shape.sides):
        return None
    (left, top, right, bottom), (width, height) = now.box, size_of(lines)
    led = now.anchor is not None
    x = left if led else (left + right - width) / 2
    y = top if led else (top + bottom - height) / 2
    box = (x, y, x + width, y + height)
    row = rows_of([box])
    near, worded = taken.near(box, shape.own)
    if led:
        start = leader_end(box, shape.middles[-1])
        bad = bool(walls.under(row)[0]) or taken.crossed(start, shape.middles[-1])
    else:
        bad = not inside(row, shape.sides)[0] or bool(meets(row, near[worded]).any())
    if bad or (hidden_sqpx(row, near)[0] > 0 and (led or len(lines) > 1)):
        return None
    return Placed(tuple(lines), box, shape.middles[-1] if led else None)


def place_beside(
    lengths: Sequence[Sequence[Line]], shape: Shape, taken: Taken, walls: Walls, seen: Seen
) -> Placed | None:
    """The fullest label that has room beside a shape, on free paper, with a leader to its inside.

    No label, pin or can lies under it or under its leader, and no other shape under the label.
    """
    if not len(shape.sides):
        return None
    anchor, bounds = shape.middles[-1], shape.bounds
    for lines in lengths:
        boxes = places_beside(bounds, size_of(lines))
        near, _ = taken.near(bounds_of(boxes), shape.own)
        free = boxes[(hidden_sqpx(boxes, near) == 0) & ~seen.hides(boxes, anchor)]
        for row in free[~walls.under(free)][:MOST_LEADERS]:
            box = _box(row)
            if not taken.crossed(leader_end(box, anchor), anchor):
                return Placed(tuple(lines), box, anchor)
    return None


def _box(row: Rows) -> Box:
    left, top, right, bottom = row.tolist()
    return left, top, right, bottom


class LabelItem(Sprite):
    """A label at its place; it keeps its size, and its distance from its shape, at any zoom."""

    def __init__(self) -> None:
        super().__init__()
        self.setZValue(50)
        self._lines: tuple[Line, ...] = ()
        self._box, self._halo = QRectF(), QColor()
        self._leader: _Leader | None = None
        self._led = False

    def show_lines(self, placed: Placed, px_per_ft: float, ground: str) -> None:
        """Show a label where it was placed.

        The letters have a rim of the `ground` they stand on, so that arcs do not run through them.
        """
        left, top, right, bottom = placed.box
        at = placed.anchor or ((left + right) / 2, (top + bottom) / 2)
        self._lines, self._halo = placed.lines, colour(ground, 0.85)
        x, y = float(round(left - at[0])), float(round(top - at[1]))
        self._box = QRectF(x, y, right - left, bottom - top)
        self.setPos(QPointF(*at) / px_per_ft)
        self.show_drawn(
            ("label", placed.lines, self._halo.rgba(), x, y),
            self._box.adjusted(-RIM_PX, -RIM_PX, RIM_PX, RIM_PX),
        )
        self._show_leader(placed.anchor is not None)

    def words(self) -> str:
        """What the label says."""
        return "\n".join(line.words for line in self._lines)

    @property
    def box(self) -> Box:
        """Where its lines stand, in pixels from the item's place."""
        box = self._box
        return box.left(), box.top(), box.right(), box.bottom()

    @property
    def led(self) -> bool:
        """Whether it stands beside its shape, with a leader to it."""
        return self._led

    @property
    def claims(self) -> list[Box]:
        """What other labels keep clear of, in pixels from the item's place."""
        return Placed(self._lines, self.box, (0.0, 0.0) if self._led else None).claims

    def draw(self, painter: QPainter) -> None:
        """The lines under each other, centred."""
        top = self._box.top()
        for line in self._lines:
            width, height = _size(line.words, line.face)
            painter.setFont(font_of(line.face))
            left = self._box.center().x() - width / 2
            box = QRectF(left, top, width + 1, height)
            words_with_halo(painter, box, line.words, QColor(line.ink), self._halo)
            top += height

    def _show_leader(self, led: bool) -> None:
        self._led = led
        if self._leader is None and led:
            self._leader = _Leader(self)
        if self._leader is not None:
            self._leader.show_from(leader_end(self.box, (0.0, 0.0)), QColor(self._lines[0].ink))
            self._leader.setVisible(led)


class _Leader(QGraphicsLineItem):
    """A thin line from a label to a dot in the shape that it names."""

    def __init__(self, label: LabelItem) -> None:
        super().__init__(label)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemStacksBehindParent)
        self._dot = QGraphicsEllipseItem(QRectF(-1.8, -1.8, 3.6, 3.6), self)

    def show_from(self, start: Point, ink: QColor) -> None:
        """Draw it from a point to the origin."""
        self.setLine(QLineF(QPointF(*start), QPointF(0, 0)))
        self.setPen(QPen(ink, 1.0))
        self._dot.setPen(QPen(ink, 1.0))
        self._dot.setBrush(ink)
