"""Ground as a surface: shapes joined, subtracted, split, grown, and the slivers between them.

Every result lies on the sketch's grid of 0.01 ft, is valid (no ring crosses or touches itself), and
has neither repeated corners nor corners in the middle of a straight side. The overlays are rounded
to the grid while they are made (snap rounding; Hobby 1999, from memory), so that rounding them
afterwards cannot make sides cross. Lengths in feet, areas in square feet.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from importlib import import_module
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import unit_shown
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import area_sqft, bounds_ft, signed_area_sqft
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Feature, Zone

GRID_FT = 0.01
"""No sketch is finer: an eighth of an inch."""

LEAST_PIECE_SQFT = 0.25
"""A piece of ground, or a hole, smaller than this is dropped: it is left over from rounding."""

_PER_FT = 100
_OFF_LINE_FT = 0.0075
"""How far rounding to the grid takes a corner off a straight side, a little more than half of the
grid's diagonal."""
_SHARPEST_GROWN, _SHARPEST_SHRUNK = 5.0, 20.0
"""A mitred corner may lie so many widths off; a sharper one is cut."""
_TOUCH_FT = 0.02


@dataclass(frozen=True, slots=True)
class Ground:
    """One connected piece of ground: its outline, counter-clockwise, and its holes, clockwise."""

    outline: Outline
    holes: tuple[Outline, ...] = ()

    @property
    def area_sqft(self) -> float:
        """Its area, the holes left out."""
        return area_sqft(self.outline, self.holes)

    @property
    def rings(self) -> tuple[Outline, ...]:
        """The outline, then the holes."""
        return (self.outline, *self.holes)


def ground_of(record: Zone | Feature) -> Ground:
    """The ground of a zone or feature. Its first corner stays first, the direction may turn round.

    A hole that runs along the edge stays a hole here; any operation opens it.
    """
    holes = record.holes_ft if isinstance(record, Zone) else ()
    outline = _wound(_clean(record.outline_ft), counter_clockwise=True)
    return Ground(outline, tuple(_wound(_clean(hole), counter_clockwise=False) for hole in holes))


def joined(grounds: Iterable[Ground]) -> tuple[Ground, ...]:
    """All the ground of some shapes; those that share a side or more become one. Largest first.

    Shapes that touch in a single point stay two, for no outline may touch itself. Where a cut is
    closed again its corners go, although rounding took them off the straight side.
    """
    given = tuple(grounds)
    shapely = _shapely()
    whole = shapely.union_all([_shape(shapely, each) for each in given], grid_size=GRID_FT)
    times: dict[Point, int] = {}
    for each in given:
        for corner in {corner for ring in each.rings for corner in _clean(ring)}:
            times[corner] = times.get(corner, 0) + 1
    own = frozenset(corner for corner, count in times.items() if count == 1)
    return tuple(_healed(shapely, piece, own) for piece in _pieces(shapely, whole))


def without(ground: Ground, others: Iterable[Ground]) -> tuple[Ground, ...]:
    """The ground less that of others, largest piece first; nothing where they cover it."""
    shapely = _shapely()
    taken = _together(shapely, others)
    left = shapely.difference(_shape(shapely, ground), taken, grid_size=GRID_FT)
    return _pieces(shapely, left)


def shared(ground: Ground, others: Iterable[Ground]) -> tuple[Ground, ...]:
    """The ground that also belongs to one of the others, largest piece first."""
    shapely = _shapely()
    both = _together(shapely, others)
    return _pieces(shapely, shapely.intersection(_shape(shapely, ground), both, grid_size=GRID_FT))


def split_by(ground: Ground, a: Point, b: Point) -> tuple[Ground, ...]:
    """The pieces into which the endless line through two points cuts the ground, largest first.

    OwnerError where the two points are one.
    """
    if math.dist(a, b) < GRID_FT:
        raise OwnerError(tr("The two points of the line lie on one place; put them further apart."))
    shapely = _shapely()
    whole, half = _shape(shapely, ground), shapely.Polygon(_beside_line(ground, a, b))
    sides = (
        shapely.intersection(whole, half, grid_size=GRID_FT),
        shapely.difference(whole, half, grid_size=GRID_FT),
    )
    return _largest_first(piece for side in sides for piece in _pieces(shapely, side))


def strip_along(
    ground: Ground, side: int | None, width_ft: float, *, inward: bool
) -> tuple[Ground, ...]:
    """The strip of a width along one side of the outline, or all round it where `side` is None.

    Side 0 runs from the outline's first corner to its second (see `side_between`). Inward it lies
    on the ground itself, holes left out; outward it lies beside it. At its ends it follows the
    neighbouring sides where they lean away, and else ends square. OwnerError for a width of 0.
    """
    if width_ft <= 0:
        raise OwnerError(
            tr(
                "A strip needs a width; enter more than 0 {unit_shown}.",
                unit_shown=unit_shown("ft"),
            )
        )
    shapely = _shapely()
    filled, whole = _shape(shapely, Ground(ground.outline)), _shape(shapely, ground)
    if side is None:
        return _pieces(shapely, _all_round(shapely, filled, whole, width_ft, inward=inward))
    start, end = _side(ground.outline, side)
    band = shapely.make_valid(shapely.Polygon(_band(ground.outline, side, width_ft, inward)))
    strip = (
        shapely.intersection(band, whole, grid_size=GRID_FT)
        if inward
        else shapely.difference(band, filled, grid_size=GRID_FT)
    )
    along = shapely.LineString((start, end)).buffer(_TOUCH_FT)
    pieces = _pieces(shapely, strip)
    return tuple(each for each in pieces if _shape(shapely, each).intersects(along))


def side_between(ground: Ground, a: Point, b: Point) -> int | None:
    """Which side of the outline two corners of it lie on; None where they share no side."""
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    for index in range(len(ground.outline)):
        start, end = _side(ground.outline, index)
        if all(_off_line_ft(start, each, end) < _TOUCH_FT for each in (a, middle, b)):
            return index
    return None


def grown(ground: Ground, by_ft: float) -> tuple[Ground, ...]:
    """The ground out to a distance beyond its edges, or shrunk by a negative one, corners mitred.

    Shrinking may leave several pieces, largest first, or none. Very sharp corners are cut.
    """
    shapely = _shapely()
    return _pieces(shapely, _offset(_shape(shapely, ground), by_ft))


def narrow_gaps(grounds: Sequence[Ground], width_ft: float) -> tuple[Ground, ...]:
    """The bare ground no wider than a width that lies between two shapes, largest first.

    A narrow hole or notch of one shape alone is no gap.
    """
    shapely = _shapely()
    shapes = [_shape(shapely, each) for each in grounds]
    whole = shapely.union_all(shapes, grid_size=GRID_FT)
    # Gaps of just the width close too.
    reach = width_ft / 2 + GRID_FT
    closed = _offset(_offset(whole, reach), -reach, sharpest=_SHARPEST_SHRUNK)
    bare = shapely.difference(closed, whole, grid_size=GRID_FT)
    near = shapely.STRtree(shapes)
    return tuple(
        piece
        for piece in _pieces(shapely, bare)
        if len(near.query(_shape(shapely, piece), predicate="dwithin", distance=_TOUCH_FT)) > 1
    )


def _shapely() -> Any:
    # Loaded in the operations, which most days need none of; it brings no types of its own.
    return import_module("shapely")


def _shape(shapely: Any, ground: Ground) -> Any:
    """A ground as a valid surface, whatever its rings do."""
    rings = tuple(_clean(ring) for ring in ground.rings)
    outline, holes = rings[0], [ring for ring in rings[1:] if len(ring) > 2]
    if len(outline) < 3:
        return shapely.Polygon()
    shape = shapely.Polygon(outline, holes)
    if shape.is_valid:
        return shape
    filled = _surface(shapely, outline)
    gone = [_surface(shapely, hole) for hole in holes]
    return shapely.difference(filled, shapely.union_all(gone), grid_size=GRID_FT)


def _surface(shapely: Any, ring: Outline) -> Any:
    """The ground inside a ring that may cross itself; sides that run there and back hold none."""
    parts = shapely.get_parts(shapely.make_valid(shapely.Polygon(ring)))
    return shapely.union_all([each for each in parts if shapely.get_dimensions(each) > 1])


def _together(shapely: Any, grounds: Iterable[Ground]) -> Any:
    return shapely.union_all([_shape(shapely, each) for each in grounds], grid_size=GRID_FT)


def _pieces(shapely: Any, shape: Any) -> tuple[Ground, ...]:
    """The surfaces of a shape on the grid that are large enough, largest first."""
    snapped = shapely.set_precision(shape, GRID_FT)
    surfaces = (each for each in shapely.get_parts(snapped) if each.geom_type == "Polygon")
    nested = (each for each in surfaces if not each.is_empty)
    return _largest_first(_ground(each) for each in nested)


def _largest_first(pieces: Iterable[Ground]) -> tuple[Ground, ...]:
    kept = [each for each in pieces if each.area_sqft >= LEAST_PIECE_SQFT]
    return tuple(sorted(kept, key=lambda each: -each.area_sqft))


def _ground(polygon: Any) -> Ground:
    outline = _wound(_clean(_points(polygon.exterior)), counter_clockwise=True)
    holes = (_clean(_points(each)) for each in polygon.interiors)
    kept = (hole for hole in holes if area_sqft(hole) >= LEAST_PIECE_SQFT)
    return Ground(outline, tuple(_wound(hole, counter_clockwise=False) for hole in kept))


def _points(ring: Any) -> Outline:
    return tuple((float(x), float(y)) for x, y in ring.coords)


def _clean(ring: Outline) -> Outline:
    """A ring on the grid without repeated corners and those on a straight side.

    Told in whole hundredths of a foot, where straight is exact.
    """
    kept: list[tuple[int, int]] = []
    for x, y in ring:
        corner = (round(x * _PER_FT), round(y * _PER_FT))
        if not kept or kept[-1] != corner:
            kept.append(corner)
    if len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    while len(kept) > 2:
        turning = [each for each, straight in _straights(kept) if not straight]
        if len(turning) == len(kept):
            break
        kept = turning
    return tuple((x / _PER_FT, y / _PER_FT) for x, y in kept)


def _straights(ring: Sequence[tuple[int, int]]) -> Iterator[tuple[tuple[int, int], bool]]:
    """Each corner, and whether it lies on the straight way between its neighbours."""
    for before, corner, after in zip(
        (ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True
    ):
        ux, uy = corner[0] - before[0], corner[1] - before[1]
        vx, vy = after[0] - corner[0], after[1] - corner[1]
        yield corner, ux * vy == uy * vx and ux * vx + uy * vy >= 0


def _wound(ring: Outline, *, counter_clockwise: bool) -> Outline:
    """The ring in a direction, its first corner kept."""
    runs = signed_area_sqft(ring) > 0
    return ring if runs == counter_clockwise else (*ring[:1], *reversed(ring[1:]))


def _healed(shapely: Any, piece: Ground, own: frozenset[Point]) -> Ground:
    """A joined piece without the corners that only cuts and rounding left on straight sides.

    `own` are corners that belong to one of the joined shapes alone: these were meant.
    """
    rings = [_without_seams(ring, own) for ring in piece.rings]
    healed = Ground(rings[0], tuple(rings[1:]))
    fits = all(len(ring) > 2 for ring in rings)
    sound = fits and shapely.Polygon(healed.outline, healed.holes).is_valid
    return healed if sound else piece


def _without_seams(ring: Outline, own: frozenset[Point]) -> Outline:
    kept = list(ring)
    for corner in ring:
        if corner in own:
            continue
        at = kept.index(corner)
        before, after = kept[at - 1], kept[(at + 1) % len(kept)]
        if len(kept) > 3 and _off_line_ft(before, corner, after) <= _OFF_LINE_FT:
            del kept[at]
    return tuple(kept)


def _off_line_ft(start: Point, point: Point, end: Point) -> float:
    """How far a point is from the straight way between two others."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    squared = dx * dx + dy * dy
    if squared == 0:
        return math.dist(start, point)
    along = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / squared
    along = min(1.0, max(0.0, along))
    return math.dist(point, (start[0] + along * dx, start[1] + along * dy))


def _beside_line(ground: Ground, a: Point, b: Point) -> Outline:
    """A rectangle that covers all of the ground on the left of the line through two points."""
    ux, uy = (b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b)
    west, south, east, north = bounds_ft((ground.outline,))
    corners = [(x - a[0], y - a[1]) for x in (west, east) for y in (south, north)]
    along = [x * ux + y * uy for x, y in corners]
    far = max(abs(y * ux - x * uy) for x, y in corners) + 1
    low, high = min(along) - 1, max(along) + 1
    near = ((low, 0.0), (high, 0.0), (high, far), (low, far))
    return tuple((a[0] + s * ux - t * uy, a[1] + s * uy + t * ux) for s, t in near)


def _offset(shape: Any, by_ft: float, sharpest: float = _SHARPEST_GROWN) -> Any:
    return shape.buffer(by_ft, join_style="mitre", mitre_limit=sharpest)


def _all_round(shapely: Any, filled: Any, whole: Any, width_ft: float, *, inward: bool) -> Any:
    if not inward:
        return shapely.difference(_offset(filled, width_ft), filled, grid_size=GRID_FT)
    inner = _offset(filled, -width_ft, sharpest=_SHARPEST_SHRUNK)
    return shapely.difference(whole, inner, grid_size=GRID_FT)


def _side(outline: Outline, side: int) -> tuple[Point, Point]:
    return outline[side % len(outline)], outline[(side + 1) % len(outline)]


def _band(outline: Outline, side: int, width_ft: float, inward: bool) -> Outline:
    """The band along a side: square at its ends, or along the neighbours where they lean away."""
    start, end = _side(outline, side)
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    # The left of a counter-clockwise side is inside.
    turn = 1.0 if inward else -1.0
    before, after = outline[(side - 1) % len(outline)], outline[(side + 2) % len(outline)]
    back = _lean_ft((before[0] - start[0], before[1] - start[1]), (-ux, -uy), -turn, width_ft)
    on = _lean_ft((after[0] - end[0], after[1] - end[1]), (ux, uy), turn, width_ft)
    places = ((0.0, 0.0), (length, 0.0), (length + on, width_ft), (-back, width_ft))
    return tuple(
        (start[0] + s * ux - turn * t * uy, start[1] + s * uy + turn * t * ux) for s, t in places
    )


def _lean_ft(neighbour: Point, onward: Point, turn: float, width_ft: float) -> float:
    """How much further the band reaches at its far edge, along the neighbouring side."""
    (nx, ny), (ux, uy) = neighbour, onward
    along, aside = nx * ux + ny * uy, turn * (ux * ny - uy * nx)
    if along <= 0 or aside <= 0:
        return 0.0
    return min(along * width_ft / aside, along)
