"""Two photographs of plugs side by side at one scale, their crowns at one height.

A photograph has inches only where its scale was marked, and is hung level by its crowns only
where those were marked too. What cannot be done is said in words, never faked.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QImageReader, QPainter, QTransform

from lawnbook.agronomy.photo_scale import read_plug
from lawnbook.charts.marks import Frame, Mark, Polygon, Polyline, Ring, Words, rectangle
from lawnbook.charts.marks import Picture as Marks
from lawnbook.charts.palette import PRINT
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.sheet.ink import Ink
from lawnbook.yard.amounts import stored, told
from lawnbook.yard.fields import Point
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_plug import Photo, PhotoRuler

ALIGNED = tr("Both photos stand at one scale, their crowns on the dashed line.")
SCALED = tr("Both photos stand at one scale; mark the crowns on both to hang them at one height.")
FITTED = tr(
    "The photos are fitted to their frames, not at one scale: mark the scale on both under Photos."
)
ONE = tr("Only one of the two days has a photo.")
LOST = tr("A photo cannot be read any more; the plug's entry is kept.")
MOST_SIDE_PX = 3000
"""No side of a picture is decoded larger: two of them on a page need no more."""
_MARGIN = 0.12
_LEAST_DEEP_IN = 1.5
_LEAST_WIDE_IN = 1.5
_OVER_IN = 0.6
_TAG_PT = 5.0
_LABEL_PT = 16.0
_BAR_MM = 20.0


@dataclass(frozen=True, slots=True)
class Shot:
    """A photograph as it is shown: its picture, and what its marks say of scale and crowns.

    `px_per_in` is None without a scale that holds, `middle` and `turn_deg` without crowns: the
    place of the crowns in pixels of `image`, and how far it is turned so that they lie level with
    the plug below them. `deep_in` and `wide_in` are how far the marks reach.
    """

    photo: Photo
    image: QImage
    px_per_in: float | None = None
    middle: Point | None = None
    turn_deg: float = 0.0
    deep_in: float = 0.0
    wide_in: float = 0.0


@dataclass(frozen=True, slots=True)
class PhotoPair:
    """Two photographs and what can be said of their scale; None where a day has none."""

    then: Shot | None
    now: Shot | None
    words: str

    @property
    def shots(self) -> tuple[Shot | None, Shot | None]:
        """Then and now."""
        return self.then, self.now


def best_photo(photos: Iterable[Photo]) -> Photo | None:
    """The photograph of a day that can be measured best, the first of equals."""
    return max(photos, key=_rank, default=None)


def shot_of(photo: Photo) -> Shot:
    """A photograph read and measured; its image is null where it cannot be read any more."""
    image = _read(photo)
    ruler = photo.ruler
    if ruler is None or image.isNull():
        return Shot(photo, image)
    size = (image.width(), image.height())
    try:
        reading = read_plug(ruler, *size)
    except ValueError:
        return Shot(photo, image)
    if ruler.crowns is None:
        return Shot(photo, image, reading.px_per_in)
    a, b = (_px(each, size) for each in ruler.crowns)
    depths = (*reading.thatch_in, reading.root_depth_in or 0.0)
    return Shot(
        photo,
        image,
        reading.px_per_in,
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2),
        _turn_deg(ruler, size),
        max(depths),
        math.dist(a, b) / reading.px_per_in,
    )


def pair_of(then: Photo | None, now: Photo | None) -> PhotoPair:
    """Two photographs, read, and what can be said of their scale."""
    shots = tuple(shot_of(each) if each is not None else None for each in (then, now))
    return PhotoPair(shots[0], shots[1], _words([each for each in shots if each is not None]))


def paint_pair(
    painter: QPainter,
    pair: PhotoPair,
    boxes: tuple[QRectF, QRectF],
    px_per_unit: float,
    ground: str = PRINT.stone,
) -> None:
    """Paint both photographs into their boxes, which are of one size.

    `px_per_unit` is how many pixels of the picture are worth keeping to a unit of the painter;
    `ground` is the colour beside a picture that does not fill its box.
    """
    per_in = _units_per_in(pair, boxes[0])
    for shot, box in zip(pair.shots, boxes, strict=True):
        if shot is None or shot.image.isNull():
            continue
        hung = shot if pair.words == ALIGNED else replace(shot, middle=None)
        picture = _framed(hung, box, px_per_unit, per_in, ground)
        painter.drawImage(box, picture)
        if per_in is not None:
            crowns = hung.middle is not None
            marks = _scale_marks(box, per_in, crowns=crowns)
            Ink(painter).picture(marks, box.left(), box.top())


def _words(shots: Sequence[Shot]) -> str:
    if not shots:
        return ""
    if any(each.image.isNull() for each in shots):
        return LOST
    if len(shots) == 1:
        return ONE
    if any(each.px_per_in is None for each in shots):
        return FITTED
    return SCALED if any(each.middle is None for each in shots) else ALIGNED


def _rank(photo: Photo) -> int:
    ruler = photo.ruler
    return 0 if ruler is None else 1 if ruler.crowns is None else 2


def _px(share: Point, size: tuple[int, int]) -> Point:
    return share[0] * size[0], share[1] * size[1]


def _turn_deg(ruler: PhotoRuler, size: tuple[int, int]) -> float:
    """How far the picture is turned, clockwise, to bring the crowns level and the plug below."""
    if ruler.crowns is None:
        return 0.0
    (ax, ay), (bx, by) = (_px(each, size) for each in ruler.crowns)
    marks = [*ruler.thatch_ends, *([ruler.roots_end] if ruler.roots_end is not None else [])]
    below = [_px(each, size) for each in marks]
    side = sum((bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in below)
    # Without any depth marked, the shorter turn to the level is taken.
    backward = side < 0 or (not below and bx < ax)
    turn = -math.degrees(math.atan2(by - ay, bx - ax))
    return turn + 180.0 if backward else turn


def _units_per_in(pair: PhotoPair, box: QRectF) -> float | None:
    """Units of the painter to an inch, one for both; None where they have no common scale."""
    shots = [each for each in pair.shots if each is not None]
    if pair.words == ALIGNED:
        deep = max(_LEAST_DEEP_IN, *(each.deep_in for each in shots)) * (1 + _MARGIN)
        wide = max(_LEAST_WIDE_IN, *(each.wide_in for each in shots)) * (1 + 2 * _MARGIN)
        return min(box.height() / (deep + _OVER_IN), box.width() / wide)
    if pair.words == SCALED:
        return min(
            min(box.width() / each.image.width(), box.height() / each.image.height())
            * (each.px_per_in or 1.0)
            for each in shots
        )
    return None


def _framed(
    shot: Shot, box: QRectF, px_per_unit: float, per_in: float | None, ground: str
) -> QImage:
    """What of a photograph stands in its box, no finer than is asked for."""
    wide, high = box.width() * px_per_unit, box.height() * px_per_unit
    size = QSize(max(1, round(wide)), max(1, round(high)))
    framed = QImage(size, QImage.Format.Format_RGB32)
    framed.fill(QColor(ground))
    painter = QPainter(framed)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    image, place = shot.image, QPointF(size.width() / 2, size.height() / 2)
    scale = min(size.width() / image.width(), size.height() / image.height())
    if per_in is not None and shot.px_per_in is not None:
        scale = per_in * px_per_unit / shot.px_per_in
    middle, turn = QPointF(image.width() / 2, image.height() / 2), QTransform()
    if per_in is not None and shot.middle is not None:
        middle = QPointF(*shot.middle)
        turn.rotate(shot.turn_deg)
        place = QPointF(size.width() / 2, _OVER_IN * per_in * px_per_unit)
    small = _reduced(image, scale)
    grown = scale * image.width() / small.width()
    middle *= small.width() / image.width()
    onto = QTransform().translate(place.x(), place.y()).scale(grown, grown)
    painter.setTransform(QTransform().translate(-middle.x(), -middle.y()) * turn * onto)
    painter.drawImage(QPointF(0, 0), small)
    painter.end()
    return framed


def _reduced(image: QImage, scale: float) -> QImage:
    """A picture made smaller first, each pixel the mean of many: a painter would skip most."""
    wide = max(1, round(image.width() * scale))
    if wide >= image.width():
        return image
    return image.scaledToWidth(wide, Qt.TransformationMode.SmoothTransformation)


def _scale_marks(box: QRectF, per_in: float, *, crowns: bool) -> Marks:
    """A bar of an inch or 20 mm on a tag in the lower left corner, and the line of the crowns."""
    marks: list[Mark] = []
    if crowns:
        y = _OVER_IN * per_in
        marks += _cased((((0.0, y), (box.width(), y)),), dash=(5.0, 4.0))
    left, foot = _TAG_PT, box.height() - _TAG_PT
    bar_in = stored(_BAR_MM, "in") if is_metric() else 1.0
    bar_pt = bar_in * per_in
    wide = max(bar_pt, _LABEL_PT)
    tag = rectangle(left, foot - 20, left + wide + 10, foot)
    middle, y = left + 5 + wide / 2, foot - 5
    start, end = middle - bar_pt / 2, middle + bar_pt / 2
    bar = ((start, y), (end, y)), *(((x, y - 2.5), (x, y + 2.5)) for x in (start, end))
    marks += [
        Polygon(rings=(tag,), fill="paper", alpha=0.88),
        Polyline(lines=bar, role="ink", width=1.0),
        Words(at=(middle, y - 5), text=told(bar_in, 0, "in"), size=8.0, align="center"),
    ]
    return Marks(Frame(box.width(), box.height()), tuple(marks))


def _cased(lines: tuple[Ring, ...], dash: tuple[float, ...] = ()) -> list[Mark]:
    """Bright lines in a dark casing, which show on any photograph."""
    return [
        Polyline(lines=lines, role="ink", width=2.6, alpha=0.45),
        Polyline(lines=lines, role="paper", width=1.1, dash=dash),
    ]


def _read(photo: Photo) -> QImage:
    """The picture, no larger than a page needs; null where it cannot be read."""
    try:
        data = QByteArray(photo.data_b64.data())
    except OwnerError:
        return QImage()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    size = reader.size()
    if size.isValid() and max(size.width(), size.height()) > MOST_SIDE_PX:
        most = QSize(MOST_SIDE_PX, MOST_SIDE_PX)
        reader.setScaledSize(size.scaled(most, Qt.AspectRatioMode.KeepAspectRatio))
    return reader.read()
