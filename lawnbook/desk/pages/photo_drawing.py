"""The lines of a photo ruler over its picture: scale, crowns, and what runs beside the crowns."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from lawnbook.agronomy.photo_scale import foot_on_crowns
from lawnbook.charts.tokens import CASING
from lawnbook.desk.pages import photo_words
from lawnbook.desk.pages.photo_frame import PhotoFrame
from lawnbook.desk.pages.photo_handles import RING_PX, STEP_COLOURS, label_size, paint_label
from lawnbook.desk.pages.photo_marks import Step, points_of, step_of
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.record_plug import PhotoRuler

Line = tuple[Point, Point]
GAP_PX = 14.0


@dataclass(frozen=True, slots=True)
class _Ink:
    """The painter, where the picture stands, and what of the view is taken by words and rings."""

    painter: QPainter
    frame: PhotoFrame
    taken: list[QRectF]

    def is_taken(self, box: QRectF) -> bool:
        """Whether words or a ring stand there already."""
        return any(box.intersects(each) for each in self.taken)


@dataclass(frozen=True, slots=True)
class _Told:
    """A line with the words that stand beside it, and their colour."""

    line: Line
    words: str
    bright: str


def paint_marks(
    painter: QPainter,
    frame: PhotoFrame,
    ruler: PhotoRuler | None,
    drafted: tuple[Step, Line | None],
) -> None:
    """Draw the lines and their labels, and the line that is being drawn now."""
    step, line = drafted
    if ruler is not None:
        ink = _Ink(painter, frame, _handle_boxes(frame, ruler))
        if ruler.crowns is not None:
            _crowns(ink, ruler, ruler.crowns)
        _scale(ink, ruler)
    if line is not None:
        _line(painter, frame, line, STEP_COLOURS[step])


def _scale(ink: _Ink, ruler: PhotoRuler) -> None:
    bright = STEP_COLOURS["Scale"]
    _line(ink.painter, ink.frame, ruler.scale, bright)
    _ticks(ink.painter, ink.frame, ruler.scale, bright)
    a, b = (ink.frame.to_view(each) for each in ruler.scale)
    words = photo_words.known_told(ruler)
    _label(ink, QPointF((a.x() + b.x()) / 2, (a.y() + b.y()) / 2), words, bright)


def _crowns(ink: _Ink, ruler: PhotoRuler, crowns: Line) -> None:
    told = [_Told(crowns, tr("Crowns"), STEP_COLOURS["Crowns"])]
    _line(ink.painter, ink.frame, crowns, STEP_COLOURS["Crowns"])
    for key, share in points_of(ruler).items():
        step = step_of(key)
        if step not in ("Thatch ends", "Deepest roots"):
            continue
        try:
            below = foot_on_crowns(crowns, share, *ink.frame.size_px)
        except ValueError:
            # Crowns whose two ends lie on one place have no direction; the words say so.
            break
        bright = STEP_COLOURS[step]
        _line(ink.painter, ink.frame, below, bright, dashed=True)
        words = photo_words.live_words(ruler, key, ink.frame.size_px)
        name = tr("Thatch") if step == "Thatch ends" else tr("Roots")
        told.append(_Told(below, f"{name} {words}", bright))
    _beside(ink, told)


def _line(
    painter: QPainter, frame: PhotoFrame, line: Line, bright: str, dashed: bool = False
) -> None:
    """A line of the picture, over it."""
    a, b = (frame.to_view(each) for each in line)
    _stroke(painter, (a, b), bright, dashed=dashed)


def _stroke(
    painter: QPainter,
    ends: tuple[QPointF, QPointF],
    bright: str,
    *,
    dashed: bool = False,
    wide_px: float = 1.8,
) -> None:
    """A bright line in a dark casing, which shows on any photograph."""
    casing = QColor(CASING)
    casing.setAlphaF(0.6)
    painter.setPen(QPen(casing, wide_px + 2.2))
    painter.drawLine(*ends)
    style = Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine
    painter.setPen(QPen(QColor(bright), wide_px, style))
    painter.drawLine(*ends)


def _ticks(painter: QPainter, frame: PhotoFrame, line: Line, bright: str) -> None:
    """Short strokes across both ends of the scale, as a draughtsman ends a measure."""
    a, b = (frame.to_view(each) for each in line)
    along = b - a
    length = max((along.x() ** 2 + along.y() ** 2) ** 0.5, 1.0)
    across = QPointF(-along.y(), along.x()) * (16.0 / length)
    painter.setPen(QPen(QColor(bright), 1.8))
    for end in (a, b):
        painter.drawLine(end - across, end + across)


def _handle_boxes(frame: PhotoFrame, ruler: PhotoRuler) -> list[QRectF]:
    """The rings of the marks, which no label may cover."""
    reach = RING_PX + 3
    boxes = []
    for share in points_of(ruler).values():
        at = frame.to_view(share)
        boxes.append(QRectF(at.x() - reach, at.y() - reach, 2 * reach, 2 * reach))
    return boxes


def _beside(ink: _Ink, told: list[_Told]) -> None:
    """Labels in a column beyond the right ends of their lines, in their order, led to by a line."""
    ends = [
        (max((ink.frame.to_view(each) for each in of.line), key=lambda at: at.x()), of)
        for of in told
    ]
    ends.sort(key=lambda each: each[0].y())
    sizes = [label_size(of.words) for _, of in ends]
    wide, high = max(each for each, _ in sizes), sizes[0][1]
    room_w, room_h = ink.frame.room_px
    middles = stacked([at.y() for at, _ in ends], high + 2, (3 + high / 2, room_h - 3 - high / 2))
    start = max(at.x() for at, _ in ends) + GAP_PX
    ways = [min(start + step, room_w - wide - 3) for step in (0.0, 30.0, 60.0, 90.0, 120.0)]
    columns = [
        [
            QRectF(left, middle - high / 2, size, high)
            for middle, (size, _) in zip(middles, sizes, strict=True)
        ]
        for left in ways
    ]
    free = (each for each in columns if not any(map(ink.is_taken, each)))
    boxes = next(free, columns[0])
    for (at, of), box in zip(ends, boxes, strict=True):
        edge = QPointF(box.left(), box.center().y())
        _stroke(ink.painter, (at, edge), of.bright, wide_px=1.0)
    for (_, of), box in zip(ends, boxes, strict=True):
        ink.taken.append(box)
        paint_label(ink.painter, of.words, box, of.bright)


def stacked(wanted: Sequence[float], step: float, span: tuple[float, float]) -> list[float]:
    """Places at least `step` apart, in the order of the ascending `wanted`, as near as can be.

    Least squares with a given order: runs that would overlap are pooled to their mean (isotonic
    regression). All lie within `span`, the places' least and greatest, as far as it has room.
    """
    runs: list[tuple[float, int]] = []
    for number, at in enumerate(wanted):
        mean, count = at - number * step, 1
        while runs and runs[-1][0] > mean:
            before, many = runs.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        runs.append((mean, count))
    flat = [mean for mean, count in runs for _ in range(count)]
    last = span[1] - (len(flat) - 1) * step
    return [max(span[0], min(mean, last)) + number * step for number, mean in enumerate(flat)]


def _label(ink: _Ink, at: QPointF, words: str, bright: str) -> None:
    """A label in the view, at the place nearest to the wanted one that is free."""
    wide, high = label_size(words)
    room_w, room_h = ink.frame.room_px
    tried = [
        QRectF(
            min(max(at.x() + dx - wide / 2, 3), room_w - wide - 3),
            min(max(at.y() + dy - high / 2, 3), room_h - high - 3),
            wide,
            high,
        )
        for dx in (0.0, 30.0, 60.0)
        for dy in (rows * (high + 2) for rows in (0, 1, -1, 2, -2, 3, -3, 4, -4))
    ]
    free = (box for box in tried if not ink.is_taken(box))
    box = next(free, tried[0])
    ink.taken.append(box)
    paint_label(ink.painter, words, box, bright)
