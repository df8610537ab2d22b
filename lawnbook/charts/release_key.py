"""The looks of layers of nitrogen becoming available, and the key that names them."""

from collections.abc import Sequence

from lawnbook.charts.marks import (
    Mark,
    Polygon,
    Polyline,
    Ring,
    Words,
    level_strokes,
    rectangle,
    rough_width,
)
from lawnbook.reading import tr

WATER = tr("irrigation water")
"""What the layer of the water is called."""

WATER_GAP_PT = 2.6
"""How far apart the level lines in it are, which tell it from feedings without colour."""

_SWATCH_PT, _GAP_PT, _BETWEEN_PT = 11.0, 4.0, 14.0
_LINE_PT = 18.0
_ROW_PT = 13.0

KeyRow = tuple[tuple[str, float], ...]
"""Names with the place where each begins, in points."""


def key_rows(names: Sequence[str], width: float) -> tuple[KeyRow, ...]:
    """Names in as many rows as they need, none written over another."""
    rows: list[list[tuple[str, float]]] = []
    x = width
    for name in names:
        needs = _swatch_width(name) + _GAP_PT + rough_width(name, 9.0)
        if not rows or x + needs > width:
            rows.append([])
            x = 2.0
        rows[-1].append((name, x))
        x += needs + _BETWEEN_PT
    return tuple(tuple(row) for row in rows)


def key_marks(rows: Sequence[KeyRow], top: float) -> list[Mark]:
    """The rows with their swatches, the first below `top`."""
    marks: list[Mark] = []
    for number, row in enumerate(rows):
        y = top + _ROW_PT * number
        for name, x in row:
            marks += _swatch(name, x, y)
            at = (x + _swatch_width(name) + _GAP_PT, y + 9)
            marks.append(Words(at=at, text=name, role="quiet"))
    return marks


def striped(ring: Ring, kind: str, strokes: Sequence[Ring]) -> list[Mark]:
    """An area in the look of its kind: "dense", "striped", or water's with its level lines."""
    if kind == WATER:
        area = Polygon(rings=(ring,), fill="water", edge="paper", width=0.5)
        return [
            area,
            *([Polyline(lines=tuple(strokes), role="paper", width=0.7)] if strokes else []),
        ]
    if kind == "dense":
        return [Polygon(rings=(ring,), fill="feed", edge="paper", width=0.5)]
    marks: list[Mark] = [
        Polygon(rings=(ring,), fill="paper", edge="paper", width=0.5),
        Polygon(rings=(ring,), fill="feed", alpha=0.35),
    ]
    if strokes:
        marks.append(Polyline(lines=tuple(strokes), role="feed", width=0.9))
    return marks


def _swatch_width(name: str) -> float:
    return _LINE_PT if name not in (WATER, tr("one feeding")) else _SWATCH_PT


def _swatch(name: str, x: float, y: float) -> list[Mark]:
    if name == tr("growth can use"):
        line = ((x, y + 6), (x + _LINE_PT, y + 6))
        return [Polyline(lines=(line,), role="good", width=1.6, dash=(5.0, 2.0))]
    if name in (WATER, tr("one feeding")):
        box = (x, y, x + _SWATCH_PT, y + 10)
        if name == WATER:
            return striped(rectangle(*box), WATER, level_strokes(*box, gap=WATER_GAP_PT))
        return striped(rectangle(*box), "dense", ())
    half = x + _LINE_PT / 2
    strokes = tuple(((half + k, y + 10), (half + k, y)) for k in (1.5, 4.5, 7.5))
    return [
        *striped(rectangle(x, y, half, y + 10), "dense", ()),
        *striped(rectangle(half, y, x + _LINE_PT, y + 10), "striped", strokes),
    ]
