"""The lines of a photo ruler over its picture: scale, crowns, and what runs beside the crowns."""

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
    _line(ink.painter, ink.frame, crowns, STEP_COLOURS["Crowns"])
    _beside(ink, crowns, tr("Crowns"), STEP_COLOURS["Crowns"])
    for key, share in points_of(ruler).items():
        step = step_of(key)
        if step not in ("Thatch ends", "Deepest roots"):
            continue
        try:
            below = foot_on_crowns(crowns, share, *ink.frame.size_px)
        except ValueError:
            # Crowns whose two ends lie on one place have no direction; the words say so.
            return
        bright = STEP_COLOURS[step]
        _line(ink.painter, ink.frame, below, bright, dashed=True)
        words = photo_words.live_words(ruler, key, ink.frame.size_px)
        name = tr("Thatch") if step == "Thatch ends" else tr("Roots")
        _beside(ink, below, f"{name} {words}", bright)


def _line(
    painter: QPainter, frame: PhotoFrame, line: Line, bright: str, dashed: bool = False
) -> None:
    """A bright line in a dark casing, which shows on any photograph."""
    a, b = (frame.to_view(each) for each in line)
    casing = QColor(CASING)
    casing.setAlphaF(0.6)
    painter.setPen(QPen(casing, 4))
    painter.drawLine(a, b)
    painter.setPen(
        QPen(QColor(bright), 1.8, Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine)
    )
    painter.drawLine(a, b)


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


def _beside(ink: _Ink, line: Line, words: str, bright: str) -> None:
    """A label beyond the right end of a line."""
    right = max((ink.frame.to_view(each) for each in line), key=lambda each: each.x())
    wide, _ = label_size(words)
    _label(ink, QPointF(right.x() + GAP_PX + wide / 2, right.y()), words, bright)


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
    free = (box for box in tried if not any(box.intersects(each) for each in ink.taken))
    box = next(free, tried[0])
    ink.taken.append(box)
    paint_label(ink.painter, words, box, bright)
