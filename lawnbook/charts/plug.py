"""One plug, drawn to scale downward from its crowns: grass, thatch, soil, roots and worms.

The lines that no ruler measured (how a root winds, where a blade leans) come from the plug's id,
so a plug looks the same every time it is drawn. What was measured is to scale: how thick the
thatch is and how far its readings spread, how deep the roots go, and where the plug was cut. A
mean of several spots is drawn in the same way.
"""

import math
import zlib
from functools import cached_property

import numpy as np

from lawnbook.charts.marks import Mark, Polygon, Polyline, Ring, diagonals, rectangle
from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import MeanColumn, PlugColumn

Column = PlugColumn | MeanColumn

_WORMS_DRAWN = 4
_SOIL_SHARES = 4


@dataclass(frozen=True)
class Plug:
    """A plug and the place of its column, in points; `pt_per_in` is the scale of depth.

    The grass above the crowns is not measured on a plug, so it has one height, `grass`, everywhere.
    """

    column: Column
    middle: float
    width: float
    crowns: float
    bottom: float
    pt_per_in: float
    grass: float

    @property
    def left(self) -> float:
        """The column's left side."""
        return self.middle - self.width / 2

    @property
    def right(self) -> float:
        """The column's right side."""
        return self.middle + self.width / 2

    @property
    def thatch_end(self) -> float:
        """Where the thatch meets the soil; the crowns where it was not read."""
        return self.depth(self.column.thatch_in or 0.0)

    @property
    def cut(self) -> float | None:
        """Where the plug was cut, where that is known and lies within the picture."""
        length = None if isinstance(self.column, MeanColumn) else self.column.core_depth_in
        if length is None or self.depth(length) > self.bottom:
            return None
        return max(self.depth(length), self.thatch_end)

    @property
    def end(self) -> float:
        """Where the drawn soil ends: at the cut, else where the picture does."""
        return self.bottom if self.cut is None else self.cut

    @property
    def pressed(self) -> bool:
        """Whether it was read pressed; a mean is of plugs that were not."""
        return isinstance(self.column, PlugColumn) and self.column.pressed

    @cached_property
    def chance(self) -> np.random.Generator:
        """The plug's own chance, the same on every drawing."""
        return np.random.default_rng(zlib.crc32(column_key(self.column).encode()))

    def depth(self, inches: float) -> float:
        """Where a depth below the crowns lies on the page."""
        return self.crowns + inches * self.pt_per_in


def column_key(column: Column) -> str:
    """What a column is known by: its plug's id, or those of a mean joined by spaces."""
    if isinstance(column, MeanColumn):
        return " ".join(column.core_ids)
    return column.core_id


def plug_marks(plug: Plug) -> list[Mark]:
    """All marks of one column, back to front."""
    return [
        *_soil(plug),
        *_worms(plug),
        *_bed(plug),
        *_roots(plug),
        # The grass before the thatch: the line of the crowns stays whole at its feet.
        *([] if plug.pressed else _grass(plug)),
        *_thatch(plug),
        *(_press(plug) if plug.pressed else []),
        *_cut(plug),
        *_root_end(plug),
        *_spread(plug),
    ]


def _soil(plug: Plug) -> list[Mark]:
    """The soil down to a ragged end, or to a clean one where the plug was cut."""
    top, end = plug.thatch_end, plug.end
    steps = max(4, int(plug.width / 5))
    xs = np.linspace(plug.right, plug.left, steps + 1)
    ragged = end - plug.chance.uniform(0, 3.5, steps + 1) * (plug.cut is None)
    floor = tuple((float(x), float(y)) for x, y in zip(xs, ragged, strict=True))
    block = ((plug.left, top), (plug.right, top), *floor)
    return [Polygon(rings=(block,), fill="soil"), *_crumbs(plug, top, end - 4)]


def _cut(plug: Plug) -> list[Mark]:
    """The clean end of a plug whose length is known: nothing was seen below it."""
    if plug.cut is None:
        return []
    line = ((plug.left, plug.cut), (plug.right, plug.cut))
    return [Polyline(lines=(line,), role="ink", width=1.3)]


def _crumbs(plug: Plug, top: float, bottom: float) -> list[Mark]:
    count = int(max(0.0, bottom - top) * plug.width / 75)
    if count < 2:
        return []
    xs = plug.chance.uniform(plug.left + 1.5, plug.right - 1.5, count)
    ys = plug.chance.uniform(top + 2, bottom, count)
    sizes = plug.chance.uniform(0.35, 1.0, count)
    rings = [_crumb(*each) for each in zip(xs.tolist(), ys.tolist(), sizes.tolist(), strict=True)]
    half = count // 2
    return [
        Polygon(rings=tuple(rings[:half]), fill="shade", alpha=0.24),
        Polygon(rings=tuple(rings[half:]), fill="root", alpha=0.16),
    ]


def _crumb(x: float, y: float, size: float) -> Ring:
    return ((x - size, y), (x - size * 0.2, y - size), (x + size, y - size * 0.1), (x, y + size))


def _bed(plug: Plug) -> list[Mark]:
    """The colour of the thatch, under the roots."""
    box = rectangle(plug.left, plug.crowns, plug.right, plug.thatch_end)
    return [Polygon(rings=(box,), fill="thatch")] if plug.column.thatch_in else []


def _thatch(plug: Plug) -> list[Mark]:
    """The thatch over the roots that cross it, so that they only shimmer through."""
    top, end = plug.crowns, plug.thatch_end
    if plug.column.thatch_in is None:
        line = ((plug.left, top), (plug.right, top))
        return [Polyline(lines=(line,), role="ink", width=0.8, dash=(1.5, 1.5))]
    if end - top < 0.2:
        return [Polyline(lines=(((plug.left, top), (plug.right, top)),), role="ink", width=0.9)]
    box = rectangle(plug.left, top, plug.right, end)
    dash = (3.0, 1.6) if plug.pressed else ()
    return [
        Polygon(rings=(box,), fill="thatch", alpha=0.2),
        Polyline(lines=_fibres(plug, top, end), role="shade", width=0.45, alpha=0.34),
        *_soil_in_thatch(plug, top, end),
        Polygon(rings=(box,), edge="ink", width=0.85, dash=dash),
    ]


def _fibres(plug: Plug, top: float, end: float) -> tuple[Ring, ...]:
    count = max(3, int((end - top) * plug.width / 20))
    lines = []
    for _ in range(count):
        x, y = plug.chance.uniform(plug.left + 1, plug.right - 4), plug.chance.uniform(top, end)
        run, lean, bow = plug.chance.uniform((3, -1.2, -0.9), (8, 1.2, 0.9)).tolist()
        far = min(x + run, plug.right - 0.8)
        points = [(x, y), ((x + far) / 2, y + lean / 2 + bow), (far, y + lean)]
        lines.append(tuple((px, min(max(py, top + 0.6), end - 0.6)) for px, py in points))
    return tuple(lines)


def _soil_in_thatch(plug: Plug, top: float, end: float) -> list[Mark]:
    share = (plug.column.soil_in_thatch or 0) / _SOIL_SHARES
    if share <= 0:
        return []
    start = end - share * (end - top)
    hatch = diagonals(plug.left, start, plug.right, end, gap=3.0)
    return [
        Polygon(rings=(rectangle(plug.left, start, plug.right, end),), fill="soil", alpha=0.40),
        Polyline(lines=hatch, role="shade", width=0.6, alpha=0.62),
    ]


def _roots(plug: Plug) -> list[Mark]:
    depth = plug.column.root_depth_in
    if not depth:
        return []
    count = min(11, max(2, round(plug.width / 4.4)))
    lengths = plug.chance.uniform(0.80, 1.0, count)
    short = plug.chance.random(count) < 0.3
    lengths[short] = plug.chance.uniform(0.35, 0.75, count)[short]
    lengths[int(plug.chance.integers(count))] = 1.0
    gap = plug.width / count
    rings, hairs, spines = [], [], []
    for number, length in enumerate(lengths.tolist()):
        x = plug.left + gap * (number + plug.chance.uniform(0.3, 0.7))
        spine = _spine(plug, x, length * depth)
        rings.append(_taper(spine, 0.62, 0.2))
        hairs += _hairs(plug, spine)
        spines.append(tuple(spine))
    return [
        # A dark sheath, which the soil swallows: roots stand out in the thatch as they do below.
        Polyline(lines=tuple(spines), role="soil", width=1.9, alpha=0.85),
        Polyline(lines=tuple(hairs), role="root", width=0.35, alpha=0.75),
        Polygon(rings=tuple(rings), fill="root"),
    ]


def _spine(plug: Plug, x: float, depth_in: float) -> list[tuple[float, float]]:
    """The middle line of a root that winds down; cut where the column is cut."""
    most = plug.end - plug.crowns - (4 if plug.cut is None else 0)
    reach = min(depth_in * plug.pt_per_in, most)
    steps = max(4, int(reach / 5))
    share = np.linspace(0, 1, steps + 1)
    first, second = plug.chance.uniform(0, 2 * math.pi, 2)
    waves, sway = plug.chance.uniform(0.7, 1.6), min(3.2, reach * 0.05 + 0.6)
    sweep = np.sin(share * 2 * math.pi * waves + first) - math.sin(first)
    ripple = 0.35 * (np.sin(share * reach / 6 + second) - math.sin(second))
    xs = np.clip(x + sway * 0.7 * sweep * share + ripple, plug.left + 1.2, plug.right - 1.2)
    ys = plug.crowns + share * reach
    return [(float(a), float(b)) for a, b in zip(xs, ys, strict=True)]


def _taper(spine: list[tuple[float, float]], start: float, end: float) -> Ring:
    last = len(spine) - 1
    half = [start + (end - start) * index / last for index in range(last + 1)]
    there = [(x - w, y) for (x, y), w in zip(spine, half, strict=True)]
    back = [(x + w, y) for (x, y), w in zip(spine, half, strict=True)]
    return (*there, *reversed(back))


def _hairs(plug: Plug, spine: list[tuple[float, float]]) -> list[Ring]:
    """Side roots, only in the soil, where the root itself still runs."""
    hairs: list[Ring] = []
    for x, y in spine[2:-1:2]:
        if y < plug.thatch_end or plug.chance.random() < 0.35:
            continue
        run, fall = plug.chance.uniform((1.6, 1.2), (4.2, 4.0)).tolist()
        side = -1 if plug.chance.random() < 0.5 else 1
        end_x = min(max(x + side * run, plug.left + 0.8), plug.right - 0.8)
        end_y = min(y + fall, spine[-1][1])
        hairs.append(((x, y), (end_x, end_y)))
    return hairs


def _worms(plug: Plug) -> list[Mark]:
    count = min(round(plug.column.worms or 0), _WORMS_DRAWN)
    room = plug.end - plug.thatch_end - 16
    if count < 1 or room < 8 * count or plug.width < 20:
        return []
    lines = []
    for number in range(count):
        low = plug.thatch_end + 8 + room * 0.8 * number / count
        y = plug.chance.uniform(low, low + room * 0.55 / count)
        length = min(plug.width * 0.42, 11)
        x = plug.chance.uniform(plug.left + 3, plug.right - 3 - length)
        phase = plug.chance.uniform(0, math.pi)
        lines.append(
            tuple(
                (x + length * t / 10, y + 1.3 * math.sin(phase + 1.7 * math.pi * t / 10))
                for t in range(11)
            )
        )
    return [
        Polyline(lines=tuple(lines), role="shade", width=2.3, alpha=0.45),
        Polyline(lines=tuple(lines), role="worm", width=1.6),
    ]


def _grass(plug: Plug) -> list[Mark]:
    count = max(5, int(plug.width / 2.1))
    back: list[Ring] = []
    front: list[Ring] = []
    for number in range(count):
        foot = plug.left + plug.width * (number + plug.chance.uniform(0.15, 0.85)) / count
        height, lean = plug.chance.uniform((0.55, -0.16), (1.0, 0.16)).tolist()
        ring = _blade(foot, plug.crowns, height * plug.grass, lean * plug.grass)
        (front if number % 3 else back).append(ring)
    return [
        Polygon(rings=tuple(back), fill="verdure", alpha=0.55),
        Polygon(rings=tuple(front), fill="verdure", edge="paper", width=0.25),
    ]


def _blade(foot: float, ground: float, height: float, lean: float) -> Ring:
    """A grass blade: wide at the foot, curved, pointed."""
    shares = (0.0, 0.35, 0.65, 0.88)
    left = [(foot + lean * s * s - 0.85 * (1 - s * s), ground - height * s) for s in shares]
    right = [(foot + lean * s * s + 0.85 * (1 - s * s), ground - height * s) for s in shares]
    return (*left, (foot + lean, ground - height), *reversed(right))


def _press(plug: Plug) -> list[Mark]:
    """A plate on the crowns, with the weight's arrows: this plug was read pressed."""
    plate = rectangle(plug.left - 2, plug.crowns - 2.6, plug.right + 2, plug.crowns)
    heads = tuple(
        ((x - 2.6, plug.crowns - 8), (x + 2.6, plug.crowns - 8), (x, plug.crowns - 4))
        for x in (plug.middle - plug.width * 0.22, plug.middle + plug.width * 0.22)
    )
    stems = tuple(((tip[0], plug.crowns - 16), (tip[0], plug.crowns - 8)) for _, _, tip in heads)
    return [
        Polygon(rings=(plate, *heads), fill="ink"),
        Polyline(lines=stems, role="ink", width=1.1),
    ]


def _root_end(plug: Plug) -> list[Mark]:
    """A tick beside the column at the depth where most roots end."""
    y = plug.depth(plug.column.root_depth_in or 0.0)
    if not plug.column.root_depth_in or y > plug.bottom:
        return []
    return [Polyline(lines=(((plug.right + 1, y), (plug.right + 5, y)),), role="ink", width=1.0)]


def _spread(plug: Plug) -> list[Mark]:
    """The spread of the readings, one standard deviation each way, beside the column."""
    spread, thatch = plug.column.spread_in, plug.column.thatch_in
    if not spread or thatch is None:
        return []
    x = plug.right + 3
    top, end = plug.depth(max(0.0, thatch - spread)), plug.depth(thatch + spread)
    caps = tuple(((x - 1.8, y), (x + 1.8, y)) for y in (top, end))
    return [Polyline(lines=(((x, top), (x, end)), *caps), role="ink", width=0.9)]
