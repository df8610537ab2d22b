"""The yard's sketch as marks: numbered zones, what is not turf, heads, plug spots, scale, north."""

import math
from collections.abc import Callable, Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from lawnbook.charts.free_places import Labels
from lawnbook.charts.marks import (
    Disc,
    Frame,
    Mark,
    Picture,
    Polygon,
    Polyline,
    Ring,
    Words,
    rough_width,
    shortened,
)
from lawnbook.charts.north_mark import north_marks
from lawnbook.charts.scale_bar import scale_bar, scale_end
from lawnbook.charts.strip_marks import strip_key, strip_marks
from lawnbook.charts.tree_marks import tree_marks, without_trees
from lawnbook.charts.turf_signs import turf_signs
from lawnbook.charts.water_signs import ripples
from lawnbook.frozen import dataclass
from lawnbook.plan.model import Plan
from lawnbook.reading import tr
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import (
    area_sqft,
    bounds_ft,
    centroid_ft,
    contains,
    label_point_ft,
    yard_bounds_ft,
)
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, Head, Zone

EMPTY = tr("Nothing is drawn yet.")
SKETCH_FRAME = Frame(320.0, 220.0)
_FOOT_PT = 20.0
_NOTE_PT = 11.0
_EDGE_PT = 6.0
_GRID = 24
_NAME_LETTERS = 28
_SHORT_NAME_LETTERS = 18
_LEAST_DISC_SIDE_PT = 26.0
_DISC_RADII_PT = (9.5, 7.5)
_DIGITS_PT = 8.0
_WET = ("water", "pool")
_FILLS = {
    "house": "paper",
    "paving": "stone",
    "bed": "paper",
    "pet patch": "turf",
    "water": "water",
    "pool": "water",
}


@dataclass(frozen=True, slots=True)
class _View:
    """From feet on the ground to points in the frame, y turned over."""

    frame: Frame
    x0_ft: float
    y1_ft: float
    pt_per_ft: float
    left: float
    top: float

    def at(self, point: Point) -> tuple[float, float]:
        """A place on the ground, in the frame."""
        x = self.left + (point[0] - self.x0_ft) * self.pt_per_ft
        return (x, self.top + (self.y1_ft - point[1]) * self.pt_per_ft)

    def ring(self, outline: Outline, clockwise: bool = True) -> Ring:
        """An outline in the frame, run in the asked direction so that holes cut."""
        ring = tuple(self.at(point) for point in outline)
        doubled = sum(
            ax * by - bx * ay for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
        )
        return ring if (doubled > 0) == clockwise else tuple(reversed(ring))


@dataclass(frozen=True, slots=True)
class _Way:
    """How the sketch is drawn: with numbers, with the signs of turf."""

    numbered: bool
    tufted: bool


def sketch_marks(
    notebook: Notebook,
    plan: Plan,
    numbered: bool = True,
    frame: Frame = SKETCH_FRAME,
    *,
    tufted: bool = False,
) -> Picture:
    """The sketch of a yard on a frame: zones with the plan's numbers, heads, spots, scale, north.

    For a print without colour the turf is `tufted` with small signs, and water has ripples.
    Labels that find no free place are left out; of numbers, the foot then says how many. Where
    every zone is tiny, only outlines and numbers are drawn.
    """
    zones = tuple(notebook.zones.values())
    if not zones and not notebook.features:
        words = Words(
            at=(frame.width / 2, frame.height / 2),
            text=EMPTY,
            role="quiet",
            size=10,
            face="serif italic",
            align="center",
        )
        return Picture(frame, (words,))
    way = _Way(numbered, tufted)
    whole, left_out = _drawn(notebook, plan, way, frame, _FOOT_PT)
    if left_out:
        whole, left_out = _drawn(notebook, plan, way, frame, _FOOT_PT + _NOTE_PT)
    return Picture(frame, (*whole, *_note(frame, left_out)))


def _drawn(
    notebook: Notebook, plan: Plan, way: _Way, frame: Frame, foot_pt: float
) -> tuple[tuple[Mark, ...], int]:
    """The sketch above a foot of this height, and how many numbers found no place in it."""
    zones = tuple(notebook.zones.values())
    view = _view(notebook, frame, foot_pt)
    features = sorted(notebook.features.values(), key=lambda each: each.kind != "paving")
    labels = Labels(frame.width, frame.height - foot_pt + 6, _edges(view, zones, features))
    crowded = bool(zones) and all(_side_pt(view, zone) < _LEAST_DISC_SIDE_PT for zone in zones)
    spots = [(view.at(each.at_ft), each.name) for each in notebook.spots.values() if each.at_ft]
    for (x, y), _ in () if crowded else spots:
        labels.claim((x - 3.5, y - 3.5, x + 3.5, y + 3.5))
    numbers = {zone.zone_id: zone.number for zone in plan.zones}
    over, left_out = _numbers(view, zones, numbers, labels) if way.numbered else ([], 0)
    pins = [] if crowded else _spots(spots, labels)
    heads = () if crowded else tuple(notebook.heads.values())
    strips = [] if crowded else strip_marks(notebook, view.at)
    names = _feature_names(view, features, labels)
    wet = [each for each in features if way.tufted and each.kind in _WET]
    tufts = [mark for zone in zones for mark in turf_signs(_rings(view, zone), labels.is_free)]
    marks: tuple[Mark, ...] = (
        *(_zone(view, zone, fill="turf") for zone in zones),
        *(tufts if way.tufted and not crowded else ()),
        *strips,
        *([] if crowded else _arcs(view, notebook)),
        *(mark for each in features for mark in _feature(view, each)),
        *(mark for each in wet for mark in ripples(view.ring(each.outline_ft))),
        *(_zone(view, zone, edge="ink") for zone in without_trees(zones, features)),
        *(mark for head in heads for mark in _head(view, head)),
        *pins,
        *over,
        *names,
        *scale_bar((_EDGE_PT, frame.height - 7), view.pt_per_ft, frame.width),
        *_key(view, has_heads=bool(heads), has_spots=bool(pins), has_strips=bool(strips)),
        *north_marks((frame.width - 22.0, frame.height - 9.0), notebook.yard.north_deg),
    )
    return marks, left_out


def _view(notebook: Notebook, frame: Frame, foot_pt: float) -> _View:
    x0, y0, x1, y1 = yard_bounds_ft(notebook)
    wide, high = max(x1 - x0, 1.0), max(y1 - y0, 1.0)
    room_x, room_y = frame.width - 2 * _EDGE_PT, frame.height - foot_pt - 2 * _EDGE_PT
    scale = min(room_x / wide, room_y / high)
    left = _EDGE_PT + (room_x - wide * scale) / 2
    return _View(frame, x0, y1, scale, left, _EDGE_PT + (room_y - high * scale) / 2)


def _edges(view: _View, zones: Iterable[Zone], features: Iterable[Feature]) -> NDArray[np.float64]:
    """Every drawn side in the frame, as (sides, 2 ends, 2 coordinates)."""
    outlines = [zone.outline_ft for zone in zones]
    outlines += [hole for zone in zones for hole in zone.holes_ft]
    outlines += [feature.outline_ft for feature in features]
    rings = [view.ring(outline) for outline in outlines if outline]
    sides = [pair for ring in rings for pair in zip(ring, (*ring[1:], ring[0]), strict=True)]
    return np.array(sides, dtype=np.float64).reshape(-1, 2, 2)


def _zone(view: _View, zone: Zone, fill: str = "", edge: str = "") -> Mark:
    # Heavy sides of tiny zones would read as hyphens between their numbers.
    width = 0.4 if _side_pt(view, zone) < _DIGITS_PT * 1.5 else 1.1
    return Polygon(rings=_rings(view, zone), fill=fill, edge=edge, width=width)


def _rings(view: _View, zone: Zone) -> tuple[Ring, ...]:
    """A zone's outline and its holes in the frame."""
    holes = (view.ring(hole, clockwise=False) for hole in zone.holes_ft)
    return (view.ring(zone.outline_ft), *holes)


def _place_within(
    view: _View,
    outline: Outline,
    holes: tuple[Outline, ...],
    labels: Labels,
    half: tuple[float, float],
    *,
    over_lines: bool = False,
) -> tuple[float, float] | None:
    """The free place inside an outline that is nearest to its middle, for a box of half sizes.

    None where the box fits nowhere without touching another label or, unless it may, a line.
    """
    middle = centroid_ft(outline)
    x0, y0, x1, y1 = bounds_ft([outline])
    steps = [each / _GRID for each in range(1, _GRID)]
    grid = [(x0 + (x1 - x0) * a, y0 + (y1 - y0) * b) for a in steps for b in steps]
    inner = label_point_ft(outline, holes)
    ground = (middle, inner, *sorted(grid, key=lambda each: math.dist(each, middle)))
    places = [view.at(point) for point in ground]

    def is_within(number: int) -> bool:
        return contains(outline, ground[number], holes)

    return labels.claim_first(places, half, is_within, over_lines=over_lines)


def _feature(view: _View, feature: Feature) -> list[Mark]:
    ring = view.ring(feature.outline_ft)
    if feature.kind == "fence":
        return [Polyline(lines=((*ring, ring[0]),), role="quiet", width=0.9, dash=(4.0, 2.0))]
    if feature.kind == "buried line":
        line = Polygon(rings=(ring,), edge="bad", width=0.9, dash=(2.5, 1.8))
        return [Polygon(rings=(ring,), fill="bad", alpha=0.18), line]
    if feature.kind == "tree":
        return tree_marks(ring)
    wet, width = feature.kind in _WET, 1.1 if feature.kind == "house" else 0.6
    fill = _FILLS.get(feature.kind, "paper")
    dash = (2.5, 1.8) if feature.kind in ("bed", "pet patch") else ()
    return [
        Polygon(rings=(ring,), fill=fill, alpha=0.3 if wet else 1.0),
        Polygon(rings=(ring,), edge="ink", width=width, dash=dash),
    ]


def _feature_names(view: _View, features: Iterable[Feature], labels: Labels) -> list[Mark]:
    marks: list[Mark] = []
    for feature in features:
        text = feature.name or tr(feature.kind)
        half = (rough_width(text, 8.5) / 2, 5.5)
        place = None
        if feature.kind != "fence":
            place = _place_within(view, feature.outline_ft, (), labels, half)
        if place is not None:
            at = (place[0], place[1] + 3)
            marks.append(
                Words(
                    at=at,
                    text=text,
                    role="quiet",
                    size=8.5,
                    face="italic",
                    align="center",
                    halo="paper" if feature.kind in _WET else "",
                )
            )
    return marks


def _arcs(view: _View, notebook: Notebook) -> list[Mark]:
    """The reach of the heads, faint."""
    rings = tuple(_reach(view, head) for head in notebook.heads.values())
    if not rings:
        return []
    return [Polyline(lines=rings, role="water", width=0.5, alpha=0.5)]


def _reach(view: _View, head: Head) -> Ring:
    # Arcs turn with the outlines, whose y is up the page; only the arrow shows true north.
    centre = view.at(head.at_ft)
    steps = max(6, int(head.sweep_deg / 6))
    reach = head.radius_ft * view.pt_per_ft
    start = head.start_deg
    edge = []
    for step in range(steps + 1):
        angle = math.radians(start + head.sweep_deg * step / steps)
        edge.append((centre[0] + reach * math.sin(angle), centre[1] - reach * math.cos(angle)))
    return tuple(edge)


def _head(view: _View, head: Head) -> list[Mark]:
    """A head: a small ring with a stroke toward the middle of its arc."""
    x, y = view.at(head.at_ft)
    marks: list[Mark] = []
    if head.sweep_deg < 360:
        angle = math.radians(head.start_deg + head.sweep_deg / 2)
        tip = (x + 5.2 * math.sin(angle), y - 5.2 * math.cos(angle))
        marks.append(Polyline(lines=(((x, y), tip),), role="water", width=0.9))
    return [*marks, Disc(at=(x, y), radius=1.6, fill="paper", edge="water", width=0.8)]


def _spots(placed: Iterable[tuple[Point, str]], labels: Labels) -> list[Mark]:
    marks: list[Mark] = []
    for at, name in placed:
        marks.append(Disc(at=at, radius=2.5, fill="ink", edge="paper", width=0.8))
        marks += _spot_name(at, name, labels)
    return marks


def _at_most(letters: int) -> Callable[[str], bool]:
    return lambda text: len(text) <= letters


def _spot_name(at: Point, name: str, labels: Labels) -> list[Mark]:
    """The name beside its dot: whole if that finds a free place, else shortened, else none."""
    for letters in (_NAME_LETTERS, _SHORT_NAME_LETTERS):
        told = shortened(name, _at_most(letters))
        place = labels.beside(at, told, 8.5)
        if place is not None:
            words_at, align, halo = place
            return [Words(at=words_at, text=told, size=8.5, face="medium", align=align, halo=halo)]
    return []


def _numbers(
    view: _View, zones: Sequence[Zone], numbers: dict[str, int], labels: Labels
) -> tuple[list[Mark], int]:
    """The numbers that find a place, those of large zones first, and how many do not."""
    marks: list[Mark] = []
    told = [zone for zone in zones if zone.id in numbers]
    left_out = 0
    for zone in sorted(told, key=lambda each: -_side_pt(view, each)):
        number = _number(view, zone, str(numbers[zone.id]), labels)
        marks += number
        left_out += not number
    return marks, left_out


def _number(view: _View, zone: Zone, number: str, labels: Labels) -> list[Mark]:
    """A zone's number in a disc on a free place, the disc smaller if need be; bare if tiny.

    A bare number may cross the zone's sides; empty where it would touch another label.
    """
    outline, holes = zone.outline_ft, zone.holes_ft
    if _side_pt(view, zone) >= _LEAST_DISC_SIDE_PT:
        for radius in _DISC_RADII_PT:
            half = (radius + 0.6, radius + 0.6)
            place = _place_within(view, outline, holes, labels, half)
            if place is not None:
                disc = Disc(at=place, radius=radius, fill="paper", edge="ink", width=1.0)
                return [disc, _digits(place, number, radius * 1.16, "")]
    half = (rough_width(number, _DIGITS_PT) / 2 + 2.0, _DIGITS_PT * 0.36 + 1.2)
    for over_lines in (False, True):
        place = _place_within(view, outline, holes, labels, half, over_lines=over_lines)
        if place is not None:
            return [_digits(place, number, _DIGITS_PT, "turf")]
    return []


def _side_pt(view: _View, zone: Zone) -> float:
    """The side of a square as large as the zone, in points."""
    return math.sqrt(area_sqft(zone.outline_ft, zone.holes_ft)) * view.pt_per_ft


def _digits(at: Point, number: str, size: float, halo: str) -> Words:
    base = (at[0], at[1] + size * 0.36)
    return Words(at=base, text=number, size=size, face="semibold", align="center", halo=halo)


def _note(frame: Frame, left_out: int) -> list[Mark]:
    """How many numbers found no place, above the scale; nothing where all did."""
    if not left_out:
        return []
    text = tr(
        "{left_out} {part} left out",
        left_out=left_out,
        part="number" if left_out == 1 else "numbers",
    )
    at = (_EDGE_PT, frame.height - _FOOT_PT + 2)
    return [Words(at=at, text=text, role="quiet", size=8.5, face="italic")]


def _key(view: _View, *, has_heads: bool, has_spots: bool, has_strips: bool) -> list[Mark]:
    """What the small signs mean, at the foot between the scale and the arrow."""
    y, end = view.frame.height - 7, view.frame.width - 32
    begins = scale_end(_EDGE_PT, view.pt_per_ft, view.frame.width) + 10
    x = max(view.frame.width * (0.35 if has_strips else 0.42), begins)
    marks: list[Mark] = []
    for shown, told, radius, fill, edge in (
        (has_spots, tr("plug spot"), 2.5, "ink", "paper"),
        (has_heads, tr("head"), 1.6, "paper", "water"),
    ):
        wide = 15 + rough_width(told, 8.5)
        if shown and x + wide - 6 <= end:
            marks.append(Disc(at=(x, y), radius=radius, fill=fill, edge=edge, width=0.8))
            marks.append(Words(at=(x + 6, y + 3), text=told, role="quiet", size=8.5))
            x += wide
    return [*marks, *(strip_key(x - 2.5, y, end) if has_strips else ())]
