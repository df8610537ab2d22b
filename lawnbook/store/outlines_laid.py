"""Outlines of a map laid on the sketch: in feet, each one sound, where they belong.

The sketch's zero point has a place on earth once the first outlines were taken in; until then they
are laid where they make sense, and the notebook's yard learns its place with them.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from importlib import import_module
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.plan.workings import and_joined, counted
from lawnbook.reading import is_metric, tr
from lawnbook.store.map_shapes import FEWEST_CORNERS, SWAPPED, MapOutlines, MapShape
from lawnbook.yard.amounts import told
from lawnbook.yard.consistency import MOST_CORNERS, consistency_complaints
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import Bounds, bounds_ft, centroid_ft, yard_bounds_ft
from lawnbook.yard.ground import LEAST_PIECE_SQFT, Ground, joined
from lawnbook.yard.local_plane import FOOT_M, LocalPlane
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import whole
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Yard, Zone

FARTHEST_FT, WIDEST_FT = 5_000.0, 10_000.0
FAR_MI, FT_PER_MI = 60.0, 5_280.0
AT_HOME_M = 300.0
"""So near to the yard's latitude and longitude, outlines are taken to be of this yard."""
MANY_CORNERS, FLAT_WITHIN_FT = 2_000, 1 / 24
BESIDE_FT = 20.0
MOST_CROSSINGS = 20
_SIDES_AT_A_TIME = 32
ALIKE_DEG = 1.0
_PLACES = 9


@dataclass(frozen=True, slots=True)
class LaidShape:
    """One sound outline in feet on the page, and what the file says of it."""

    name: str
    ground: Ground
    table: str = ""
    kind: str = ""
    record_id: str = ""

    @property
    def corners(self) -> int:
        """How many corners all of its rings have."""
        return sum(map(len, self.ground.rings))


@dataclass(frozen=True, slots=True)
class LaidOutlines:
    """The outlines of a file on the page, what is to be told, and the yard as it would be."""

    shapes: tuple[LaidShape, ...]
    told: tuple[str, ...]
    yard: Yard


def lay_out(read: MapOutlines, notebook: Notebook) -> LaidOutlines:
    """The outlines of a file where they lie on the sketch. OwnerError where they cannot."""
    middle = _middle(read.shapes)
    _refuse_far(middle, notebook.yard)
    yard, where = _placed(read.shapes, middle, notebook)
    plane = _plane(yard)
    told = [*read.told, *where]
    shapes = []
    for number, shape in enumerate(read.shapes, 1):
        ground, note = _sound(shape, plane.to_ft)
        if note:
            told.append(
                tr(
                    "{name} {note}.",
                    name=shape.name or tr("Shape {number}", number=number),
                    note=note,
                )
            )
        if ground is not None:
            shapes.append(LaidShape(shape.name, ground, shape.table, shape.kind, shape.record_id))
    if not shapes:
        raise OwnerError(tr("no outline can be taken in: {told}", told=told[-1]))
    return LaidOutlines(tuple(shapes), tuple(told), yard)


def is_drawn(notebook: Notebook) -> bool:
    """Whether anything lies on the sketch yet."""
    spots = any(each.at_ft is not None for each in notebook.spots.values())
    tables = (notebook.zones, notebook.features, notebook.heads, notebook.backdrops)
    return spots or any(tables)


def _middle(shapes: Iterable[MapShape]) -> Point:
    """Longitude and latitude of the middle of all outlines, right across the date line too."""
    corners = [corner for shape in shapes for corner in shape.outline]
    first = corners[0][0]
    asides = [(lon - first + 180) % 360 - 180 for lon, _ in corners]
    lats = [lat for _, lat in corners]
    lon = first + (min(asides) + max(asides)) / 2
    middle = ((lon + 180) % 360 - 180, (min(lats) + max(lats)) / 2)
    _refuse_wide(corners, LocalPlane(middle[1], middle[0]))
    return middle


def _refuse_wide(corners: Sequence[Point], plane: LocalPlane) -> None:
    xs, ys = zip(*(plane.to_ft(*corner) for corner in corners), strict=True)
    wide = max(max(xs) - min(xs), max(ys) - min(ys))
    if wide > WIDEST_FT:
        raise OwnerError(
            tr(
                "the outlines span {distance}, and a sketch holds {widest_ft}; take only the "
                "yard's own outlines into the file, and write it again.",
                distance=_distance(wide),
                widest_ft=told(WIDEST_FT, 0, "ft"),
            )
        )


def _refuse_far(middle: Point, yard: Yard) -> None:
    """OwnerError where the outlines lie far from the yard, or would not if they were swapped."""
    lon, lat = middle
    known = _known_place(yard)
    if known is None:
        near = yard.latitude_deg
        off = near is not None and abs(lat - near) > ALIKE_DEG
        if near is not None and off and abs(lon - near) <= ALIKE_DEG:
            raise OwnerError(SWAPPED)
        return
    plane = LocalPlane(*known)
    far = plane.far_ft(lon, lat) / FT_PER_MI
    if far <= FAR_MI:
        return
    if abs(lon) <= 90 and plane.far_ft(lat, lon) / FT_PER_MI <= FAR_MI:
        raise OwnerError(SWAPPED)
    raise OwnerError(
        tr(
            "the outlines lie {far} from this yard; choose the file of this yard, or "
            "correct the yard's latitude and longitude.",
            far=told(far, 0, "miles"),
        )
    )


def _known_place(yard: Yard) -> tuple[float, float] | None:
    """Latitude and longitude of the sketch's zero point, else of the yard; None if unknown."""
    if yard.origin_latitude_deg is not None and yard.origin_longitude_deg is not None:
        return yard.origin_latitude_deg, yard.origin_longitude_deg
    if yard.latitude_deg is not None and yard.longitude_deg is not None:
        return yard.latitude_deg, yard.longitude_deg
    return None


def _placed(
    shapes: Sequence[MapShape], middle: Point, notebook: Notebook
) -> tuple[Yard, tuple[str, ...]]:
    """The yard with its place on earth, and what is to be told of it."""
    yard = notebook.yard
    told: list[str] = []
    if yard.origin_latitude_deg is None or yard.origin_longitude_deg is None:
        if not is_drawn(notebook) and yard.north_deg:
            yard = replace(yard, north_deg=0.0)
            told.append(tr("North is up the page from now on."))
        plane = LocalPlane(middle[1], middle[0], yard.north_deg)
        (x, y), sentence = _shift(shapes, plane, notebook)
        lon, lat = plane.to_degrees((-x, -y))
        yard = replace(
            yard,
            origin_latitude_deg=round(lat, _PLACES),
            origin_longitude_deg=round(lon, _PLACES),
        )
        told.append(sentence)
    if yard.latitude_deg is None:
        lon, lat = round(middle[0], 4), round(middle[1], 4)
        if yard.longitude_deg is None:
            yard = replace(yard, longitude_deg=lon)
        yard = replace(yard, latitude_deg=lat)
        told.append(tr("The yard's latitude becomes {lat:.4f}°, by these outlines.", lat=lat))
    return yard, tuple(told)


def _shift(shapes: Sequence[MapShape], plane: LocalPlane, notebook: Notebook) -> tuple[Point, str]:
    """How far the outlines go from the middle of their own plane, in feet, and why."""
    laid = [tuple(plane.to_ft(*corner) for corner in shape.outline) for shape in shapes]
    west, south, east, north = bounds_ft(laid)
    if not is_drawn(notebook):
        return (
            -(west + east) / 2,
            -(south + north) / 2,
        ), tr("Their middle is the sketch's zero point.")
    alike = _alike(shapes, laid, notebook)
    if alike is not None:
        return alike
    drawn, yard = yard_bounds_ft(notebook), notebook.yard
    at = ((drawn[0] + drawn[2]) / 2, (drawn[1] + drawn[3]) / 2)
    if yard.latitude_deg is not None and yard.longitude_deg is not None:
        home = plane.to_ft(yard.longitude_deg, yard.latitude_deg)
        if math.hypot(*home) * FOOT_M <= AT_HOME_M:
            told = tr(
                "The middle of what is drawn was taken for the yard's latitude and longitude: "
            )
            mend = tr("look whether they fit, or undo, and move what is drawn.")
            return (at[0] - home[0], at[1] - home[1]), told + mend
    told = tr("Where what is drawn lies on the map is not known, so they lie to the right of it: ")
    mend = tr("move what was drawn onto them, so that later outlines fit as well.")
    return (drawn[2] + BESIDE_FT - west, at[1] - (south + north) / 2), told + mend


def _alike(
    shapes: Sequence[MapShape], laid: Sequence[Outline], notebook: Notebook
) -> tuple[Point, str] | None:
    """The way that lays shapes upon the drawn zones of the same names, middle on middle."""
    zones = {zone.name.strip().casefold(): zone for zone in notebook.zones.values()}
    ways, names = [], []
    for shape, outline in zip(shapes, laid, strict=True):
        zone = zones.get(shape.name.casefold())
        if zone is not None:
            (x0, y0), (x1, y1) = centroid_ft(outline), centroid_ft(zone.outline_ft)
            ways.append((x1 - x0, y1 - y0))
            names.append(zone.name)
    if not ways:
        return None
    way = (sum(x for x, _ in ways) / len(ways), sum(y for _, y in ways) / len(ways))
    if len(names) == 1:
        return way, tr("They are laid so that {name} lies where it is drawn.", name=names[0])
    return way, tr(
        "They are laid so that {names} lie where they are drawn.", names=and_joined(names[:3])
    )


def _plane(yard: Yard) -> LocalPlane:
    """The plane of a yard whose place is known."""
    known = _known_place(yard)
    if known is None:
        raise ValueError("the yard has no place")
    return LocalPlane(*known, yard.north_deg)


def _sound(shape: MapShape, to_ft: Callable[[float, float], Point]) -> tuple[Ground | None, str]:
    """A shape in feet as the notebook can hold it, or None, and what is to be told of it."""
    rings = [tuple(to_ft(*corner) for corner in ring) for ring in (shape.outline, *shape.holes)]
    notes = []
    if any(len(ring) > MANY_CORNERS for ring in rings):
        rings = [_simpler(ring) for ring in rings]
        kept = sum(map(len, rings))
        flat = tr("13 mm") if is_metric() else tr("half an inch")
        notes.append(
            tr(
                "had {corners} and keeps {whole}, within {flat}",
                corners=counted(shape.corners, "corner"),
                whole=whole(kept),
                flat=flat,
            )
        )
    if _beyond(bounds_ft(rings)):
        return (
            None,
            tr(
                "is left out: it lies more than {farthest_ft} from the zero point",
                farthest_ft=told(FARTHEST_FT, 0, "ft"),
            ),
        )
    outline, *holes = (_on_grid(ring) for ring in rings)
    ground = Ground(outline, tuple(hole for hole in holes if len(hole) >= FEWEST_CORNERS))
    if max(map(len, ground.rings)) > MOST_CORNERS:
        return None, tr("is left out: it has more than {whole} corners", whole=whole(MOST_CORNERS))
    # First, for a scribble has millions of pairs of sides that nobody wants to wait for.
    if _crosses_often(ground):
        return None, tr("is left out: its sides cross each other again and again")
    if _is_wrong(ground):
        pieces = joined((ground,))
        if len(pieces) != 1 or _is_wrong(pieces[0]):
            found = (
                tr("falls into {count} pieces", count=len(pieces))
                if len(pieces) > 1
                else tr("holds no ground")
            )
            return None, tr("is left out: its sides cross, and it {found}", found=found)
        ground = pieces[0]
        notes.append(tr("crossed or touched itself, and was mended"))
    if ground.area_sqft < LEAST_PIECE_SQFT:
        return None, tr("is left out: it holds less than {least_piece}", least_piece=_least_piece())
    return ground, tr(", and ").join(notes)


def _beyond(box: Bounds) -> bool:
    return max(map(abs, box)) > FARTHEST_FT


def _on_grid(ring: Outline) -> Outline:
    """A ring to the hundredth of a foot, without corners that fall on their neighbour."""
    corners = [(round(x, 2) + 0.0, round(y, 2) + 0.0) for x, y in ring]
    before = (corners[-1], *corners[:-1])
    return tuple(now for now, old in zip(corners, before, strict=True) if now != old)


def _simpler(ring: Outline) -> Outline:
    if len(ring) <= MANY_CORNERS:
        return ring
    shapely: Any = import_module("shapely")
    line = shapely.LinearRing(ring).simplify(FLAT_WITHIN_FT)
    return tuple((float(x), float(y)) for x, y in line.coords[:-1])


def _crosses_often(ground: Ground) -> bool:
    """Whether sides cross more often than a slip of the hand makes them.

    Mending such a scribble would take minutes, and leave nothing of use. Asked a few sides at a
    time, so that the first ones of a scribble tell.
    """
    shapely: Any = import_module("shapely")
    pairs = [
        pair for ring in ground.rings for pair in zip(ring, (*ring[1:], *ring[:1]), strict=True)
    ]
    sides = shapely.linestrings(pairs)
    tree, found = shapely.STRtree(sides), 0
    for start in range(0, len(sides), _SIDES_AT_A_TIME):
        some, others = tree.query(sides[start : start + _SIDES_AT_A_TIME], predicate="crosses")
        # Each crossing is found from both of its sides, and counted from the first.
        found += int((some + start < others).sum())
        if found > MOST_CROSSINGS:
            return True
    return False


def _is_wrong(ground: Ground) -> bool:
    """Whether the notebook's rules would refuse these rings."""
    probe = Zone(id="probe", name="probe", outline_ft=ground.outline, holes_ft=ground.holes)
    empty = Notebook(yard=Yard(id="yard", name="probe"))
    return any(each.severity == "refuse" for each in consistency_complaints(probe, empty))


def _distance(feet: float) -> str:
    return told(feet, 0, "ft") if feet < FT_PER_MI else told(feet / FT_PER_MI, 1, "miles")


def _least_piece() -> str:
    return tr("0.02 m²") if is_metric() else tr("a quarter of a square foot")
