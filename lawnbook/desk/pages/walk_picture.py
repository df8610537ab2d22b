"""The small picture of a walk: the shape, its corners lettered, and its diagonals."""

import math
from collections.abc import Iterable

from lawnbook.charts.marks import Disc, Frame, Mark, Picture, Polygon, Polyline, Ring, Words
from lawnbook.charts.marks import in_the_middle as words_only
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import bounds_ft
from lawnbook.yard.walk_measures import Pair
from lawnbook.yard.walk_records import corner_name

PICTURE_PT = 176.0
_MARGIN_PT, _LETTER_PT, _OFF_PT, _BASE_PT = 22.0, 9.0, 11.0, 3.2


def walk_picture(
    frame: Frame, outline: Outline, taped: Iterable[Pair], proposed: Iterable[Pair]
) -> Picture:
    """The shape as large as the frame allows; `taped` diagonals dashed, `proposed` ones dotted."""
    if len(outline) < 3:
        return words_only(
            (tr("Type the sides:"), tr("the shape is drawn"), tr("as you go.")), frame
        )
    ring = _fitted(frame, outline)
    marks: list[Mark] = [Polygon(rings=(ring,), fill="turf", edge="ink", width=1.1)]
    marks += _lines(ring, taped, "ink", (4.0, 2.5))
    marks += _lines(ring, proposed, "accent", (1.5, 2.0))
    for index, at in enumerate(ring):
        marks.append(Disc(at=at, radius=2.2, fill="accent" if index == 0 else "ink"))
        marks.append(_letter(ring, index))
    return Picture(frame, tuple(marks))


def described(outline: Outline, taped: int, proposed: Iterable[Pair]) -> str:
    """The picture in words."""
    if len(outline) < 3:
        return tr("No shape yet.")
    asked = [
        tr(
            "{corner} to {other_corner}",
            corner=corner_name(a),
            other_corner=corner_name(b),
        )
        for a, b in proposed
    ]
    more = tr("; to be measured: {asked}", asked=", ".join(asked)) if asked else ""
    return tr(
        "A shape of {count} corners with {taped} diagonals taped{more}.",
        count=len(outline),
        taped=taped,
        more=more,
    )


def _fitted(frame: Frame, outline: Outline) -> Ring:
    west, south, east, north = bounds_ft((outline,))
    room = (frame.width - 2 * _MARGIN_PT, frame.height - 2 * _MARGIN_PT)
    scale = min(room[0] / max(east - west, 0.1), room[1] / max(north - south, 0.1))
    left = (frame.width - scale * (east - west)) / 2
    top = (frame.height - scale * (north - south)) / 2
    return tuple((left + scale * (x - west), top + scale * (north - y)) for x, y in outline)


def _lines(
    ring: Ring, pairs: Iterable[Pair], role: str, dash: tuple[float, ...]
) -> Iterable[Polyline]:
    lines = tuple((ring[a], ring[b]) for a, b in pairs if max(a, b) < len(ring))
    return (Polyline(lines=lines, role=role, width=1.0, dash=dash),) if lines else ()


def _letter(ring: Ring, index: int) -> Mark:
    """A corner's letter, outside of the shape where the corner points."""
    at, before, after = ring[index], ring[index - 1], ring[(index + 1) % len(ring)]
    ways = [_unit(at, each) for each in (before, after)]
    away = (-ways[0][0] - ways[1][0], -ways[0][1] - ways[1][1])
    size = math.hypot(*away)
    if size < 0.1:
        away, size = (ways[0][1], -ways[0][0]), 1.0
    step = (_OFF_PT * away[0] / size, _OFF_PT * away[1] / size)
    place = (at[0] + step[0], at[1] + step[1] + _BASE_PT)
    return Words(
        at=place,
        text=corner_name(index),
        size=_LETTER_PT,
        face="semibold",
        align="center",
        halo="card",
    )


def _unit(start: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    span = max(math.dist(start, end), 1e-9)
    return ((end[0] - start[0]) / span, (end[1] - start[1]) / span)
