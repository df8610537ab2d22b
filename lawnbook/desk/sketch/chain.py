"""An outline in the making as plain data: corners, arcs as one step each, and its right angles."""

import math

from lawnbook.desk.sketch.outlines import bearing_deg, last_side_crosses
from lawnbook.desk.sketch.snap_lines import Line, crossing, frame_of
from lawnbook.reading import tr
from lawnbook.yard.curves import arc_through, bulged
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import crosses_itself, tidy
from lawnbook.yard.problems import OwnerError

SAME_PLACE_FT = 0.02
LEAST_SIDE_FT = 0.1
CROSSES = tr("The side would cross another.")


class Chain:
    """The corners put so far, in steps: a corner, or all the corners of an arc."""

    def __init__(self) -> None:
        self._steps: list[Outline] = []

    @property
    def corners(self) -> Outline:
        """All corners, those of arcs too."""
        return tuple(point for step in self._steps for point in step)

    @property
    def ends(self) -> Outline:
        """The corners that were put by hand: the last of every step."""
        return tuple(step[-1] for step in self._steps)

    @property
    def anchors(self) -> Outline:
        """What a new corner may line up with: the corners by hand, with the last and the first
        side whole, so that square means square to the end of an arc."""
        corners, ends = self.corners, self.ends
        if len(corners) < 2:
            return corners
        first, last = corners[:2], corners[-2:]
        between = (each for each in ends if each not in (*first, *last))
        return tuple(dict.fromkeys((*first, *between, *last)))

    @property
    def last_deg(self) -> float | None:
        """The direction of the last side, degrees clockwise from the top; None without one."""
        corners = self.corners
        return bearing_deg(corners[-2], corners[-1]) if len(corners) > 1 else None

    def add(self, at: Point) -> bool:
        """Put a corner; False on the place of the last. OwnerError where its side would cross."""
        corners = self.corners
        if corners and math.dist(corners[-1], at) < SAME_PLACE_FT:
            return False
        self._grow((at,))
        return True

    def add_arc(self, via: Point, end: Point) -> None:
        """Put an arc over a point to its end. OwnerError where it cannot be or would cross."""
        self._grow(arc_through(self.corners[-1], via, end)[1:])

    def bend_last(self, rise_ft: float) -> None:
        """Make the last straight side an arc of a rise; OwnerError where there is none."""
        if len(self._steps) < 2 or len(self._steps[-1]) > 1:
            raise OwnerError(tr("Rise: put a straight side first; its rise makes it a curve."))
        straight = self._steps.pop()
        try:
            self._grow(bulged(self.corners[-1], straight[-1], rise_ft)[1:])
        except OwnerError:
            self._steps.append(straight)
            raise

    def back(self) -> bool:
        """Take the last corner or whole arc back; False where there was none."""
        if not self._steps:
            return False
        self._steps.pop()
        return True

    def clear(self) -> None:
        """Take everything back."""
        self._steps = []

    def _grow(self, step: Outline) -> None:
        corners = list(self.corners)
        for point in step:
            corners.append(point)
            if last_side_crosses(tuple(corners)):
                raise OwnerError(tr("{crosses} Put the corner elsewhere.", crosses=CROSSES))
        self._steps.append(step)


def turn_words(turn_deg: float) -> str:
    """How far a side turns from the last one: "turns R 88°", or "straight on"."""
    turn = (turn_deg + 180) % 360 - 180
    whole = round(abs(turn))
    if not whole:
        return tr("straight on")
    return (
        tr("turns {part} {whole}°", part="R" if turn > 0 else "L", whole=whole)
        if whole < 180
        else tr("turns back")
    )


def radius_ft(a: Point, via: Point, b: Point) -> float | None:
    """The radius of the circle through three points; None where they lie on one line.

    The product of the sides over four times the area of their triangle, (from memory).
    """
    doubled = abs((via[0] - a[0]) * (b[1] - a[1]) - (via[1] - a[1]) * (b[0] - a[0]))
    if doubled < 1e-6:
        return None
    return math.dist(a, via) * math.dist(via, b) * math.dist(a, b) / (2 * doubled)


def arc_length_ft(a: Point, via: Point, b: Point) -> float:
    """How long the arc from a over a point to b is; the straight way where they lie on one line.

    The angle at a point of the arc is half of that at the centre over the rest of the circle
    (Euclid, Elements III.20).
    """
    radius = radius_ft(a, via, b)
    if radius is None:
        return math.dist(a, b)
    to_a, to_b = bearing_deg(via, a), bearing_deg(via, b)
    inscribed = math.radians(abs((to_b - to_a + 180) % 360 - 180))
    return radius * (math.tau - 2 * inscribed)


def squared_off(corners: Outline) -> Outline:
    """The outline closed by one or two right-angled sides.

    One side where the way back to the first corner is square already; else one corner is added:
    square to the last and the first side, or square to one of them and at the new corner.
    OwnerError where no such way closes it.
    """
    if len(corners) < 3:
        raise OwnerError(tr("Close square: put three corners first."))
    if _closes_square(corners):
        return corners
    straight, across = frame_of(corners[-2:])
    _, first_across = frame_of((corners[1], corners[0]))
    first, last = corners[0], corners[-1]
    found = (
        crossing(across, first_across),
        _foot(across, first),
        _foot(first_across, last),
        _foot(straight, first),
    )
    for at in found:
        if at is not None and _fits(corners, at):
            return (*corners, tidy(at))
    raise OwnerError(
        tr(
            "Close square: no right-angled way leads back to the first corner from here; "
            "put another corner, or close it with Enter."
        )
    )


def _closes_square(corners: Outline) -> bool:
    """Whether the side from the last corner to the first is square at both or at one end."""
    back = bearing_deg(corners[-1], corners[0])
    at_last = math.cos(math.radians(back - bearing_deg(corners[-2], corners[-1])))
    at_first = math.cos(math.radians(back - bearing_deg(corners[0], corners[1])))
    square = math.sin(math.radians(0.1))
    return len(corners) > 3 and min(abs(at_last), abs(at_first)) < square


def _foot(line: Line, point: Point) -> Point:
    return line.at(line.along(point))


def _fits(corners: Outline, at: Point) -> bool:
    ends = (corners[-1], corners[0])
    if min(math.dist(at, each) for each in ends) < LEAST_SIDE_FT:
        return False
    chain = (*corners, tidy(at))
    return not last_side_crosses(chain) and not crosses_itself(chain)
