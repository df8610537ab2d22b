"""The lines that a new corner may lie on: square to a side, straight on, level, parallel."""

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Literal

from lawnbook.desk.sketch.snap_index import Side
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import tidy

LineKind = Literal["square", "straight", "level", "upright", "parallel"]

SLACK_STEPS = 2
"""How many hundredths of a foot a point on a slanted line may give way along it to lie closer."""

CLOSE_FT = 0.0005
"""So close to the line a point need not give way any farther."""

TELLS_APART = math.sin(math.radians(10.0))
"""Lines that meet at a smaller angle have no crossing that a hand could mean."""

SAME_WAY = math.sin(math.radians(0.05))
RANKS: dict[LineKind, float] = {
    "square": 0.0,
    "straight": 0.0,
    "level": 0.15,
    "upright": 0.15,
    "parallel": 0.4,
}
"""By how much of its reach a line of a kind stands back behind one that a person rather means."""


@dataclass(frozen=True, slots=True)
class Line:
    """An endless line through a corner. `way` has the length of one; `side` is what it follows.

    `rank` is added to how far a point lies off, in shares of the reach.
    """

    kind: LineKind
    through: Point
    way: Point
    words: str
    rank: float
    side: tuple[Point, Point] | None = None

    def along(self, point: Point) -> float:
        """How far along the line a point lies, in feet from `through`."""
        x, y = self.through
        return (point[0] - x) * self.way[0] + (point[1] - y) * self.way[1]

    def off(self, point: Point) -> float:
        """How far from the line a point lies."""
        x, y = self.through
        return abs(self.way[0] * (point[1] - y) - self.way[1] * (point[0] - x))

    def at(self, along_ft: float) -> Point:
        """The point so far along."""
        return (
            self.through[0] + along_ft * self.way[0],
            self.through[1] + along_ft * self.way[1],
        )


def lines_near(
    point: Point, reach_ft: float, anchors: Sequence[Point], near: Sequence[Side] = ()
) -> tuple[Line, ...]:
    """Of the lines of a chain of corners those that pass near a point, the one rather meant first.

    Square and straight run from the last corner and, seen from there, from the first, which the
    outline comes back to; parallel to each of the `near` sides from the last corner. Of two lines
    that are one the first holds.
    """
    found = itertools.chain(
        _of_side(anchors), _levels(point, reach_ft, anchors), _parallels(anchors, near)
    )
    kept: list[Line] = []
    for line in found:
        if line.off(point) <= reach_ft and not any(_one_line(line, each) for each in kept):
            kept.append(line)
    kept.sort(key=lambda line: line.off(point) / reach_ft + line.rank)
    return tuple(kept)


def frame_of(anchors: Sequence[Point]) -> tuple[Line, Line]:
    """Straight on and square at the last corner; level and upright where there is no side yet."""
    lines = [*_of_side(anchors)][:2]
    if len(lines) < 2:
        last = anchors[-1]
        lines = [
            Line("level", last, (1.0, 0.0), tr("level with the last corner"), 0.0),
            Line("upright", last, (0.0, 1.0), tr("upright from the last corner"), 0.0),
        ]
    return (lines[0], lines[1])


def crossing(one: Line, other: Line) -> Point | None:
    """Where two lines cross; None where they run too much the same way."""
    turn = _cross(one.way, other.way)
    if abs(turn) < TELLS_APART:
        return None
    return one.at(_cross(_minus(other.through, one.through), other.way) / turn)


def meets(line: Line, side: Side) -> Point | None:
    """Where a line meets a side; None where it passes it, or runs much the same way."""
    if not side.length_ft:
        return None
    way = _unit(_minus(side.end, side.start))
    along = Line("straight", side.start, way, "", 0.0)
    at = crossing(along, line)
    if at is None or not 0.0 <= along.along(at) <= side.length_ft:
        return None
    return at


def tidy_on_line(at: Point, way: Point) -> Point:
    """A point on a line of a way, to the hundredth of a foot, as close to the line as can be.

    Rounding alone may leave it 0.007 ft beside a slanted line, which over a long edge is a sliver
    of bare or doubled ground. Giving way by a quarter inch along it at most leaves less than half
    of that on the average. Lines that are all but level or upright have nothing finer.
    """
    if abs(way[0]) < SAME_WAY or abs(way[1]) < SAME_WAY:
        return tidy(at)
    axis = 0 if abs(way[0]) >= abs(way[1]) else 1
    slope = way[1 - axis] / way[axis]
    middle = round(at[axis] * 100)
    best, least = tidy(at), math.inf
    for step in sorted(range(-SLACK_STEPS, SLACK_STEPS + 1), key=abs):
        run = (middle + step) / 100
        exact = at[1 - axis] + (run - at[axis]) * slope
        rise = round(exact, 2)
        if abs(exact - rise) < least - 1e-9:
            best, least = tidy((run, rise) if axis == 0 else (rise, run)), abs(exact - rise)
        if least <= CLOSE_FT:
            break
    return best


def _of_side(anchors: Sequence[Point]) -> Iterator[Line]:
    """Straight on and square at the last corner, and at the first."""
    if len(anchors) < 2:
        return
    ends = [(anchors[-2], anchors[-1], "last")]
    if len(anchors) > 2:
        ends.append((anchors[1], anchors[0], "first"))
    for before, corner, name in ends:
        if math.dist(before, corner) < 0.02:
            continue
        way = _unit(_minus(corner, before))
        last = name == "last"
        back = 0.0 if last else 0.2
        on = tr("straight on with the last side" if last else "straight on with the first side")
        square = tr("square to the last side" if last else "square to the first side")
        yield Line("straight", corner, way, on, back)
        yield Line("square", corner, (way[1], -way[0]), square, back)


def _levels(point: Point, reach_ft: float, anchors: Sequence[Point]) -> Iterator[Line]:
    """Level and upright with each corner, the last one first; far ones are not even made."""
    for corner in reversed(anchors):
        if abs(corner[0] - point[0]) <= reach_ft:
            yield Line("upright", corner, (0.0, 1.0), tr("upright with a corner"), RANKS["upright"])
        if abs(corner[1] - point[1]) <= reach_ft:
            yield Line("level", corner, (1.0, 0.0), tr("level with a corner"), RANKS["level"])


def _parallels(anchors: Sequence[Point], near: Sequence[Side]) -> Iterator[Line]:
    for side in near if anchors else ():
        if side.length_ft > 0.5:
            way = _unit(_minus(side.end, side.start))
            words = tr("parallel to a side of {name}", name=side.name)
            ends = (side.start, side.end)
            yield Line("parallel", anchors[-1], way, words, RANKS["parallel"], ends)


def _one_line(one: Line, other: Line) -> bool:
    (x, y), (across, up) = one.way, other.way
    return abs(x * up - y * across) < SAME_WAY and other.off(one.through) < 0.01


def _minus(one: Point, other: Point) -> Point:
    return (one[0] - other[0], one[1] - other[1])


def _cross(one: Point, other: Point) -> float:
    return one[0] * other[1] - one[1] * other[0]


def _unit(way: Point) -> Point:
    length = math.hypot(*way)
    return (way[0] / length, way[1] / length)
