"""Where a point goes when it is put near something: corner, edge, square to the last, grid.

The reason is kept with the point, because a sketch that moves a point without saying why
cannot be trusted.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import field
from typing import Literal

from lawnbook.desk.sketch.habits import Habits
from lawnbook.desk.sketch.outlines import midpoint
from lawnbook.desk.sketch.snap_index import Side, SnapIndex
from lawnbook.desk.sketch.snap_lines import (
    Line,
    LineKind,
    crossing,
    frame_of,
    lines_near,
    meets,
    tidy_on_line,
)
from lawnbook.frozen import dataclass
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import shown, stored, trimmed
from lawnbook.yard.fields import Point
from lawnbook.yard.geometry import tidy

CORNER_PX = 9.0
EDGE_PX = 7.0
LINE_PX = 6.0
PARALLEL_PX = 70.0
"""A side so near to the pointer is one that a new side may be meant to run parallel to."""

FARTHEST_PX = 12.0
"""No snap but that to a grid moves a point farther."""

GRID_STEPS_FT = (0.5, 1.0, 5.0, 10.0, 50.0, 100.0)
GRID_STEPS_M = (0.1, 0.5, 1.0, 5.0, 10.0, 50.0)
MOST_LINES = 8

SnapKind = Literal[
    "corner", "middle", "crossing", "edge", "square", "line", "parallel", "grid", "place", "free"
]
"""What a point snapped to; each has a mark of its own."""

KIND_OF_LINE: dict[LineKind, SnapKind] = {
    "square": "square",
    "straight": "line",
    "level": "line",
    "upright": "line",
    "parallel": "parallel",
}


@dataclass(frozen=True, slots=True)
class Snap:
    """A point, why it stands there, and the other ends of the guide lines to draw to it.

    `sides` are sides of the sketch that are meant, such as the one that this is parallel to.
    """

    at_ft: Point
    reason: str = ""
    guides: tuple[Point, ...] = ()
    kind: SnapKind = "free"
    sides: tuple[tuple[Point, Point], ...] = ()


@dataclass(frozen=True, slots=True)
class Snapper:
    """Snapping at one zoom: `ft_per_px` turns the reach, in pixels, into feet.

    With `places` points also go to heads and spots.
    """

    index: SnapIndex
    ft_per_px: float
    habits: Habits = field(default_factory=Habits)
    places: bool = False

    def snap(
        self,
        point: Point,
        anchors: Sequence[Point] = (),
        *,
        free: bool = False,
        square: bool = False,
    ) -> Snap:
        """Where a point goes. `anchors` are the corners it may line up with, those of a chain in
        their order, so that the last two are its last side; `free` leaves the point alone,
        `square` keeps it straight on with that side or square to it."""
        if free:
            return Snap(tidy(point), "free")
        if square and anchors:
            return self._square(point, anchors)
        if not self.habits.snaps:
            held = self.habits.grid_ft is not None
            return self._grid(point) if held else Snap(tidy(point), tr("not snapped"))
        near = self.index.sides_near(point, PARALLEL_PX * self.ft_per_px)
        reach = LINE_PX * self.ft_per_px
        lines = lines_near(point, reach, anchors, near)[:MOST_LINES]
        return (
            self._corner(point)
            or self._edge(point, near, anchors, lines)
            or self._crossing(point, lines)
            or self._line(point, lines)
            or self._grid(point)
        )

    @property
    def grid_ft(self) -> float:
        """The grid's step: the owner's, else the finest with lines at least four pixels apart."""
        return self.habits.grid_ft or grid_step_ft(self.ft_per_px)

    def _corner(self, point: Point) -> Snap | None:
        reach = CORNER_PX * self.ft_per_px
        found = self.index.corner_near(point, reach)
        if found is not None:
            return Snap(found.at_ft, tr("on a corner of {name}", name=found.name), kind="corner")
        place = self.index.place_near(point, reach) if self.places else None
        return (
            Snap(place.at_ft, tr("on {name}", name=place.name), kind="place")
            if place is not None
            else None
        )

    def _edge(
        self, point: Point, near: Sequence[Side], anchors: Sequence[Point], lines: Sequence[Line]
    ) -> Snap | None:
        """On the nearest side: where another crosses it, halfway, square onto it, where a guide
        line meets it, or whole steps of the grid from its first end."""
        close = [side for side in near if side.off_ft <= EDGE_PX * self.ft_per_px]
        if not close:
            return None
        side = close[0]
        return (
            self._edges_cross(point, close)
            or self._halfway(side)
            or self._foot(side, anchors)
            or self._line_on_edge(point, side, lines)
            or self._along(point, side)
        )

    def _edges_cross(self, point: Point, close: Sequence[Side]) -> Snap | None:
        side = close[0]
        for other in close[1:]:
            at = meets(_line_of(other), side) if other.length_ft and side.length_ft else None
            on_other = at is not None and 0 <= _line_of(other).along(at) <= other.length_ft
            if at is not None and on_other and self._reaches(point, at, CORNER_PX):
                names = (
                    side.name
                    if side.name == other.name
                    else tr("{name} and {other_name}", name=side.name, other_name=other.name)
                )
                return Snap(
                    tidy(at), tr("where edges of {names} cross", names=names), kind="crossing"
                )
        return None

    def _halfway(self, side: Side) -> Snap | None:
        middle = midpoint(side.start, side.end)
        if not self._reaches(middle, side.at_ft, LINE_PX) or not side.length_ft:
            return None
        at = tidy_on_line(middle, _line_of(side).way)
        return Snap(at, tr("halfway along a side of {name}", name=side.name), kind="middle")

    def _foot(self, side: Side, anchors: Sequence[Point]) -> Snap | None:
        """Where the new side comes square onto this one."""
        if not anchors or not side.length_ft:
            return None
        line = _line_of(side)
        along = line.along(anchors[-1])
        at = line.at(along)
        inside = 0 < along < side.length_ft and line.off(anchors[-1]) > 0.05
        if not inside or not self._reaches(at, side.at_ft, LINE_PX):
            return None
        words = tr("square onto a side of {name}", name=side.name)
        return Snap(tidy_on_line(at, line.way), words, (anchors[-1],), "square")

    def _line_on_edge(self, point: Point, side: Side, lines: Sequence[Line]) -> Snap | None:
        for line in lines:
            at = meets(line, side)
            if at is not None and self._reaches(point, at, FARTHEST_PX):
                words = tr("on the edge of {name}, {words}", name=side.name, words=line.words)
                put = tidy_on_line(at, _line_of(side).way)
                return Snap(put, words, (line.through,), "crossing", _meant(line))
        return None

    def _along(self, point: Point, side: Side) -> Snap:
        words, step = tr("on the edge of {name}", name=side.name), self.grid_ft
        if not side.length_ft:
            return Snap(tidy(side.start), words, kind="edge")
        line = _line_of(side)
        stepped = min(round(line.along(side.at_ft) / step) * step, side.length_ft)
        at = line.at(stepped)
        if not self._reaches(point, at, FARTHEST_PX):
            at = side.at_ft
        return Snap(tidy_on_line(at, line.way), words, kind="edge")

    def _crossing(self, point: Point, lines: Sequence[Line]) -> Snap | None:
        for one, other in itertools.combinations(lines, 2):
            at = crossing(one, other)
            apart = at is not None and min(math.dist(at, e.through) for e in (one, other)) > 0.05
            if at is not None and apart and self._reaches(point, at, FARTHEST_PX):
                guides = (one.through, other.through)
                sides = (*_meant(one), *_meant(other))
                return Snap(tidy(at), _both(one, other), guides, "crossing", sides)
        return None

    def _line(self, point: Point, lines: Sequence[Line]) -> Snap | None:
        """On the line that is rather meant, whole steps of the grid along."""
        if not lines:
            return None
        line = lines[0]
        at = self._stepped(point, line)
        if not self._reaches(point, at, FARTHEST_PX):
            at = tidy_on_line(line.at(line.along(point)), line.way)
        return Snap(at, line.words, (line.through,), KIND_OF_LINE[line.kind], _meant(line))

    def _stepped(self, point: Point, line: Line) -> Point:
        """Level and upright keep to the page's grid, other lines to steps from their corner."""
        on_grid = self._on_grid(point)
        if line.kind == "level":
            return tidy((on_grid[0], line.through[1]))
        if line.kind == "upright":
            return tidy((line.through[0], on_grid[1]))
        along = round(line.along(point) / self.grid_ft) * self.grid_ft
        return tidy_on_line(line.at(along), line.way)

    def _grid(self, point: Point) -> Snap:
        step = self.grid_ft
        words = f"{step:.4g} ft" if step >= 1 else f"{step * 12:.4g} in"
        if is_metric():
            words = trimmed(step, 2, "ft")
        return Snap(self._on_grid(point), tr("on the {words} grid", words=words), kind="grid")

    def _on_grid(self, point: Point) -> Point:
        step = self.grid_ft
        return tidy((round(point[0] / step) * step, round(point[1] / step) * step))

    def _square(self, point: Point, anchors: Sequence[Point]) -> Snap:
        """On the frame of the last side: where it meets an edge or another line, else in steps."""
        straight, across = frame_of(anchors)
        ahead, aside = straight.along(point), across.along(point)
        line = straight if abs(ahead) >= abs(aside) else across
        at = line.at(line.along(point))
        guide = (line.through,)
        if self.habits.snaps:
            for side in self.index.sides_near(at, EDGE_PX * self.ft_per_px):
                met = meets(line, side)
                if met is not None and self._reaches(at, met, FARTHEST_PX):
                    words = tr("{words}, on the edge of {name}", words=line.words, name=side.name)
                    return Snap(tidy_on_line(met, line.way), words, guide, "square")
            for other in lines_near(at, LINE_PX * self.ft_per_px, anchors):
                met = crossing(line, other) if other.through != line.through else None
                if met is not None and self._reaches(at, met, FARTHEST_PX):
                    put, both = tidy_on_line(met, line.way), _both(line, other)
                    return Snap(put, both, (*guide, other.through), "square")
        return Snap(self._stepped(point, line), line.words, guide, "square")

    def _reaches(self, one: Point, other: Point, reach_px: float) -> bool:
        return math.dist(one, other) <= reach_px * self.ft_per_px


def grid_step_ft(ft_per_px: float) -> float:
    """The finest grid step whose lines stand at least four pixels apart."""
    finest = shown(4 * ft_per_px, "ft")
    steps = GRID_STEPS_M if is_metric() else GRID_STEPS_FT
    return stored(next((step for step in steps if step >= finest), steps[-1]), "ft")


def _line_of(side: Side) -> Line:
    """A side as an endless line, measured from its start."""
    length = side.length_ft
    way = ((side.end[0] - side.start[0]) / length, (side.end[1] - side.start[1]) / length)
    return Line("straight", side.start, way, "", 0.0)


def _meant(line: Line) -> tuple[tuple[Point, Point], ...]:
    return (line.side,) if line.side is not None else ()


def _both(one: Line, other: Line) -> str:
    if {one.kind, other.kind} == {"level", "upright"}:
        return tr("square with two corners")
    return f"{one.words}, {other.words}"
