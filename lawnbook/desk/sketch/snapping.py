"""Where a point goes when it is put near something: corner, edge, square to the last, grid.

The reason is kept with the point, because a sketch that moves a point without saying why
cannot be trusted.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lawnbook.desk.sketch.outlines import midpoint, sides, tidy
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import nearest_on_edge_ft

CORNER_PX = 9.0
EDGE_PX = 7.0
LINE_PX = 6.0
GRID_STEPS_FT = (0.5, 1.0, 5.0, 10.0, 50.0, 100.0)


@dataclass(frozen=True, slots=True)
class Target:
    """An outline that points may snap to, with the name it is spoken of by."""

    name: str
    outline: Outline


@dataclass(frozen=True, slots=True)
class Snap:
    """A point, why it stands there, and the other ends of the guide lines to draw to it."""

    at_ft: Point
    reason: str = ""
    guides: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Snapper:
    """Snapping at one zoom: `ft_per_px` turns the reach, in pixels, into feet."""

    targets: tuple[Target, ...]
    ft_per_px: float

    def snap(
        self,
        point: Point,
        anchors: Sequence[Point] = (),
        *,
        free: bool = False,
        square: bool = False,
    ) -> Snap:
        """Where a point goes. `anchors` are the corners it may line up with, the last one first
        of them; `free` leaves the point alone, `square` holds it level or upright to the last."""
        if free:
            return Snap(tidy(point), "free")
        if square and anchors:
            return self._square(point, anchors[-1])
        return (
            self._corner(point)
            or self._edge(point)
            or self._in_line(point, anchors)
            or self._grid(point)
        )

    @property
    def grid_ft(self) -> float:
        """The grid's step: the finest whose lines stand at least four pixels apart."""
        return grid_step_ft(self.ft_per_px)

    def _corner(self, point: Point) -> Snap | None:
        best, reach = None, CORNER_PX * self.ft_per_px
        for target in self.targets:
            for corner in target.outline:
                distance = math.dist(corner, point)
                if distance <= reach:
                    best, reach = Snap(corner, f"on a corner of {target.name}"), distance
        return best

    def _edge(self, point: Point) -> Snap | None:
        """On the nearest side, halfway along it or whole steps of the grid from its first end."""
        best, reach = None, EDGE_PX * self.ft_per_px
        for target in self.targets:
            for side in sides(target.outline):
                at = nearest_on_edge_ft(side, point)
                distance = math.dist(at, point)
                if distance <= reach:
                    best, reach = self._along(side, at, target.name), distance
        return best

    def _along(self, side: tuple[Point, Point], at: Point, name: str) -> Snap:
        start, end = side
        middle = midpoint(start, end)
        if math.dist(middle, at) <= LINE_PX * self.ft_per_px:
            return Snap(tidy(middle), f"halfway along a side of {name}")
        length = math.dist(start, end)
        steps = round(math.dist(start, at) / self.grid_ft) * self.grid_ft
        share = min(steps / length, 1.0) if length else 0.0
        along = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        return Snap(tidy(along), f"on the edge of {name}")

    def _in_line(self, point: Point, anchors: Sequence[Point]) -> Snap | None:
        """Level or upright with an anchor, or both; the other coordinate keeps to the grid."""
        reach = LINE_PX * self.ft_per_px
        upright = _closest(point, anchors, axis=0, reach=reach)
        level = _closest(point, anchors, axis=1, reach=reach)
        if upright is None and level is None:
            return None
        on_grid = self._on_grid(point)
        x = upright[0] if upright else on_grid[0]
        y = level[1] if level else on_grid[1]
        guides = tuple(each for each in (upright, level) if each)
        return Snap(tidy((x, y)), _line_words(upright, level), guides)

    def _grid(self, point: Point) -> Snap:
        step = self.grid_ft
        words = f"{step:g} ft" if step >= 1 else f"{step * 12:g} in"
        return Snap(self._on_grid(point), f"on the {words} grid")

    def _on_grid(self, point: Point) -> Point:
        step = self.grid_ft
        return tidy((round(point[0] / step) * step, round(point[1] / step) * step))

    def _square(self, point: Point, anchor: Point) -> Snap:
        on_grid = self._on_grid(point)
        if abs(point[0] - anchor[0]) >= abs(point[1] - anchor[1]):
            return Snap((on_grid[0], anchor[1]), "level with the last corner", (anchor,))
        return Snap((anchor[0], on_grid[1]), "upright from the last corner", (anchor,))


def grid_step_ft(ft_per_px: float) -> float:
    """The finest grid step whose lines stand at least four pixels apart."""
    finest = 4 * ft_per_px
    return next((step for step in GRID_STEPS_FT if step >= finest), GRID_STEPS_FT[-1])


def _closest(point: Point, anchors: Sequence[Point], axis: int, reach: float) -> Point | None:
    best, nearest = None, math.inf
    for anchor in anchors:
        off = abs(anchor[axis] - point[axis])
        if off <= reach and off < nearest:
            best, nearest = anchor, off
    return best


def _line_words(upright: Point | None, level: Point | None) -> str:
    if upright and level:
        return "square with two corners"
    return "upright with a corner" if upright else "level with a corner"
