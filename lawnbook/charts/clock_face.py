"""A spot's clock face seen from above: old holes round its mark, and where the next plug goes.

12 o'clock is up on the sketch. Drawn to scale: 24 in from the mark is the outer ring.
"""

import math
from collections.abc import Iterable, Sequence
from datetime import date

from lawnbook.charts.marks import Disc, Frame, Mark, Picture, Polyline, Ring, Spot, Words
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.records import Core

INNER_IN, OUTER_IN = 12.0, 24.0
_HOLE_IN = 2.0
_STEPS = 48
_LABEL_PT = 10.0
_HOURS = (12, 3, 6, 9)


@dataclass(frozen=True, slots=True)
class Hole:
    """A place round the mark: hour of the clock, and inches out."""

    clock: int
    out_in: float


def old_holes(cores: Iterable[Core], spot_id: str, on: date) -> tuple[Hole, ...]:
    """The known holes of a spot up to a day."""
    return tuple(
        Hole(each.clock, each.ring_in or INNER_IN)
        for each in cores
        if each.spot == spot_id and each.clock is not None and each.date <= on
    )


def clock_face_marks(old: Sequence[Hole], proposed: Hole | None, frame: Frame) -> Picture:
    """The face, old holes filled quietly and the proposed one ringed in the accent.

    The outer ring is drawn only where a hole lies on it, so that most faces are large.
    """
    everything = [*old, *([proposed] if proposed is not None else [])]
    reach_in = max([INNER_IN, *(each.out_in for each in everything)])
    middle = (frame.width / 2, frame.height / 2)
    radius = min(frame.width, frame.height) / 2 - _LABEL_PT - 2.0
    pt_per_in = radius / reach_in
    hole = max(_HOLE_IN * pt_per_in / 2, 2.4)
    rings = [INNER_IN] if reach_in <= INNER_IN else [INNER_IN, reach_in]
    marks: list[Mark] = [
        Polyline(lines=tuple(_circle(middle, each * pt_per_in) for each in rings), role="rule"),
        Polyline(lines=_cross(middle), role="ink", width=0.8),
        *_hours(middle, radius),
    ]
    marks += [
        Disc(at=_at(each, middle, pt_per_in), radius=hole, fill="soil", edge="ink", width=0.5)
        for each in old
    ]
    if proposed is not None:
        marks.append(
            Disc(
                at=_at(proposed, middle, pt_per_in),
                radius=hole + 1.0,
                fill="paper",
                edge="accent",
                width=2.0,
            )
        )
    return Picture(frame, tuple(marks))


def face_told(old: Sequence[Hole], proposed: Hole | None) -> str:
    """The face in words, for those who cannot see it."""
    hours = ", ".join(str(each.clock) for each in old)
    words = (
        tr("Old holes at {hours} o'clock", hours=hours) if old else tr("No old hole with an hour")
    )
    return (
        tr("{words}; next at {clock} o'clock", words=words, clock=proposed.clock)
        if proposed is not None
        else words
    )


def _at(hole: Hole, middle: Spot, pt_per_in: float) -> Spot:
    angle = math.radians(30.0 * hole.clock)
    out = hole.out_in * pt_per_in
    return middle[0] + out * math.sin(angle), middle[1] - out * math.cos(angle)


def _circle(middle: Spot, radius: float) -> Ring:
    turns = (2 * math.pi * step / _STEPS for step in range(_STEPS + 1))
    return tuple(
        (middle[0] + radius * math.sin(turn), middle[1] - radius * math.cos(turn)) for turn in turns
    )


def _cross(middle: Spot) -> tuple[Ring, ...]:
    x, y = middle
    return ((x - 2.5, y), (x + 2.5, y)), ((x, y - 2.5), (x, y + 2.5))


def _hours(middle: Spot, radius: float) -> list[Mark]:
    marks: list[Mark] = []
    for hour in _HOURS:
        angle = math.radians(30.0 * hour)
        # Clear of a hole on the ring, the proposed one's ring included.
        out = radius + _LABEL_PT * 0.9
        at = (middle[0] + out * math.sin(angle), middle[1] - out * math.cos(angle) + 2.4)
        marks.append(Words(at=at, text=str(hour), role="quiet", size=7.0, align="center"))
    return marks
