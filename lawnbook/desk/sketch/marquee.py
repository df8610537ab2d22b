"""A box drawn round shapes: to the right it takes what lies inside, to the left what it touches."""

from PySide6.QtCore import QPointF

from lawnbook.desk.sketch.choosing import Choice, in_order
from lawnbook.desk.sketch.outlines import bounds_of, rings_of, sides
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import Bounds, contains
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import counted
from lawnbook.yard.records import Feature, Head, Record, Spot, Zone


@dataclass(frozen=True, slots=True)
class Marquee:
    """A box in the making: where it was begun, and what a mere click there would mark."""

    start_ft: Point
    start_px: QPointF
    under: Choice | None
    bounds_by_key: dict[Key, Bounds]

    @classmethod
    def begun(
        cls, notebook: Notebook, at_ft: Point, at_px: QPointF, under: Choice | None
    ) -> "Marquee":
        """A box begun at a place; the boxes round all shapes are measured once."""
        boxes = {
            (each.table, each.record_id): bounds_of(record)
            for each in in_order(notebook)
            if (record := notebook.find(each.table, each.record_id)) is not None
        }
        return cls(at_ft, at_px, under, boxes)

    def ring(self, to: Point) -> Outline:
        """The box as an outline, when the pointer is at `to`."""
        west, south, east, north = self._box(to)
        return ((west, south), (east, south), (east, north), (west, north))

    def touching(self, to: Point) -> bool:
        """Whether it was drawn to the left, and takes what it touches."""
        return to[0] < self.start_ft[0]

    def caught(self, notebook: Notebook, to: Point) -> tuple[Key, ...]:
        """What the box takes, in the order of the sketch."""
        box, touching = self._box(to), self.touching(to)
        found = []
        for key, bounds in self.bounds_by_key.items():
            record = notebook.find(*key)
            if record is None or not _meet(box, bounds):
                continue
            if _holds(box, bounds) or (touching and _touches(box, record)):
                found.append(key)
        return tuple(found)

    def words(self, to: Point, count: int) -> str:
        """What the box takes, in words beside the pointer."""
        shapes = counted(count, "shape") if count else tr("nothing")
        touched = self.touching(to)
        return tr("{shapes} touched" if touched else "{shapes} wholly inside", shapes=shapes)

    def _box(self, to: Point) -> Bounds:
        west, east = sorted((self.start_ft[0], to[0]))
        south, north = sorted((self.start_ft[1], to[1]))
        return west, south, east, north


def _meet(one: Bounds, other: Bounds) -> bool:
    across = one[0] <= other[2] and other[0] <= one[2]
    return across and one[1] <= other[3] and other[1] <= one[3]


def _holds(box: Bounds, bounds: Bounds) -> bool:
    across = box[0] <= bounds[0] and bounds[2] <= box[2]
    return across and box[1] <= bounds[1] and bounds[3] <= box[3]


def _touches(box: Bounds, record: Record) -> bool:
    """Whether a shape whose box meets this one has ground or a side in it."""
    if isinstance(record, Head | Spot):
        return True
    if not isinstance(record, Zone | Feature):
        return False
    outline, *holes = rings_of(record)
    if contains(outline, (box[0], box[1]), holes):
        return True
    return any(_crosses(box, a, b) for ring in (outline, *holes) for a, b in sides(ring))


def _crosses(box: Bounds, start: Point, end: Point) -> bool:
    """Whether any of a straight side lies in the box (clipped by each of its four edges)."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        low, high = box[axis] - start[axis], box[axis + 2] - start[axis]
        if step == 0:
            if low > 0 or high < 0:
                return False
            continue
        near, far = sorted((low / step, high / step))
        first, last = max(first, near), min(last, far)
    return first <= last
