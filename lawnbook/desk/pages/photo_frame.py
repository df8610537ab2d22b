"""Where a picture stands in its view: fitted, enlarged, moved; shares to pixels and back."""

from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point

MOST_ZOOM = 12.0
MARGIN_PX = 6.0


@dataclass(frozen=True, slots=True)
class PhotoFrame:
    """A picture of `size_px` in a view of `room_px`; zoom 1 shows it whole.

    `middle` is the share of the picture that stands in the middle of the view.
    """

    size_px: tuple[int, int]
    room_px: tuple[int, int]
    zoom: float = 1.0
    middle: Point = (0.5, 0.5)

    @property
    def per_px(self) -> float:
        """Pixels of the view to a pixel of the picture."""
        (w, h), (room_w, room_h) = self.size_px, self.room_px
        least = min((room_w - 2 * MARGIN_PX) / w, (room_h - 2 * MARGIN_PX) / h)
        return max(least, 1e-4) * self.zoom

    def box(self) -> QRectF:
        """Where the whole picture stands in the view."""
        wide, high = (each * self.per_px for each in self.size_px)
        left = self.room_px[0] / 2 - self.middle[0] * wide
        top = self.room_px[1] / 2 - self.middle[1] * high
        return QRectF(left, top, wide, high)

    def to_view(self, share: Point) -> QPointF:
        """A share of the picture as a place in the view."""
        box = self.box()
        return QPointF(box.left() + share[0] * box.width(), box.top() + share[1] * box.height())

    def to_share(self, at: QPointF) -> Point:
        """A place in the view as a share of the picture, beyond 0 to 1 off the picture."""
        box = self.box()
        return (at.x() - box.left()) / box.width(), (at.y() - box.top()) / box.height()

    def zoomed(self, factor: float, about: QPointF) -> "PhotoFrame":
        """Enlarged by a factor, what stands at `about` staying there where it can."""
        held = self.to_share(about)
        after = replace(self, zoom=min(max(self.zoom * factor, 1.0), MOST_ZOOM))
        now = after.to_view(held)
        return after.moved(about.x() - now.x(), about.y() - now.y())

    def moved(self, dx: float, dy: float) -> "PhotoFrame":
        """Moved by pixels of the view; the picture never leaves the view."""
        box = self.box()
        wanted = self.middle[0] - dx / box.width(), self.middle[1] - dy / box.height()
        return replace(self, middle=_held(self, wanted))

    def in_room(self, room_px: tuple[int, int]) -> "PhotoFrame":
        """In a view of another size."""
        after = replace(self, room_px=(max(room_px[0], 1), max(room_px[1], 1)))
        return replace(after, middle=_held(after, after.middle))

    def showing(self, share: Point, margin_px: float) -> "PhotoFrame":
        """Moved as far as it takes to show a point with some room round it."""
        at = self.to_view(share)
        dx = _step(at.x(), margin_px, self.room_px[0] - margin_px)
        dy = _step(at.y(), margin_px, self.room_px[1] - margin_px)
        return self.moved(dx, dy) if dx or dy else self


def _held(frame: PhotoFrame, middle: Point) -> Point:
    box = frame.box()
    return (
        _within(middle[0], frame.room_px[0], box.width()),
        _within(middle[1], frame.room_px[1], box.height()),
    )


def _within(middle: float, room_px: float, length_px: float) -> float:
    """The share in the middle for which a side shows no gap; a side with room stands centred."""
    half = room_px / 2 / length_px
    return 0.5 if half >= 0.5 else min(max(middle, half), 1 - half)


def _step(at: float, low: float, high: float) -> float:
    return low - at if at < low else high - at if at > high else 0.0
