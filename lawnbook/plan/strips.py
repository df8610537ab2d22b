"""The strips of a zone on which nothing is spread: beside water, and along what the owner marked.

A strip reaches as far from its feature as the wider of the feature's own width and, beside water,
the owner's rule. Strips that overlap are counted once, and holes of the zone are none of it.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from importlib import import_module
from typing import Any

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import plainly
from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import bounds_ft, contains, zone_area_sqft
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.records import Feature, NRules, Zone

LEAST_STRIP_SQFT = 0.01
"""A strip that covers less of a zone does not reach it."""

LEAST_LEFT_SHARE = 0.001
"""Where strips leave less of a zone than this, they take all of it."""

QUARTER_CIRCLE_SIDES = 64
"""Sides that stand for the quarter circle round a corner: its area to 1 in 10,000."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One feature's strip: how wide it is, and how much of the zone lies in it.

    `rings_ft` are the outlines of that part and its holes: inside is what an odd number encloses.
    """

    name: str
    width_ft: float
    area_sqft: float
    rings_ft: tuple[Outline, ...] = ()

    def covers(self, at: Point) -> bool:
        """Whether a place of the zone lies in it."""
        return sum(contains(ring, at) for ring in self.rings_ft) % 2 == 1

    def told(self) -> str:
        """What holds in it, in words: "15 ft along brook: nothing is spread"."""
        return tr(
            "{plainly} along {name}: nothing is spread",
            plainly=plainly(self.width_ft, "ft", 4),
            name=self.name,
        )


@dataclass(frozen=True, slots=True)
class ZoneStrips:
    """What strips take of a zone, each place counted once, and the features that they lie along.

    `rings_ft` are the outlines and holes of all that they cover together, and `borders_ft` the
    open lines across the zone at which spreading stops.
    """

    area_sqft: float = 0.0
    names: tuple[str, ...] = ()
    strips: tuple[Strip, ...] = ()
    rings_ft: tuple[Outline, ...] = ()
    borders_ft: tuple[Outline, ...] = ()

    def left_sqft(self, whole_sqft: float) -> float:
        """What they leave of a zone of an area; 0 where that is next to nothing."""
        left = whole_sqft - self.area_sqft
        return left if not self.names or left >= LEAST_LEFT_SHARE * whole_sqft else 0.0


NO_STRIPS = ZoneStrips()
"""Nothing is left out."""


def strip_width_ft(feature: Feature, rules: NRules) -> float:
    """How near to a feature nothing is spread; 0 where it has no strip."""
    beside_water = rules.waterside_ft if feature.kind == "water" else None
    return max(feature.no_spread_ft or 0.0, beside_water or 0.0)


def strips_of(notebook: Notebook, zone: Zone) -> ZoneStrips:
    """The strips that reach a zone, in the owner's order of the features."""
    return strips_along(notebook.features.values(), notebook.n_rules, zone)


def strips_along(features: Iterable[Feature], rules: NRules, zone: Zone) -> ZoneStrips:
    """The strips of some features that reach a zone, in the features' order."""
    near = tuple(
        (feature, width_ft)
        for feature in features
        if (width_ft := strip_width_ft(feature, rules)) > 0
        and _may_reach(feature.outline_ft, zone.outline_ft, width_ft)
    )
    return _measured(zone, near) if near else NO_STRIPS


def _may_reach(outline: Outline, zone: Outline, width_ft: float) -> bool:
    """Whether the upright box round a strip meets the zone's, so that most need no geometry."""
    if not outline or len(zone) < 3:
        return False
    west, south, east, north = bounds_ft((outline,))
    zone_west, zone_south, zone_east, zone_north = bounds_ft((zone,))
    return (
        west - width_ft < zone_east
        and east + width_ft > zone_west
        and south - width_ft < zone_north
        and north + width_ft > zone_south
    )


# Plan, sketch and pages ask for the same strips, and a drag for those that it leaves alone.
@lru_cache(maxsize=256)
def _measured(zone: Zone, near: tuple[tuple[Feature, float], ...]) -> ZoneStrips:
    # Loaded here, for only a yard with a strip near turf needs it; it brings no types of its own.
    shapely: Any = import_module("shapely")
    ground = _joined(shapely, [zone.outline_ft]).difference(_joined(shapely, zone.holes_ft))
    reaches: list[Any] = []
    strips: list[Strip] = []
    for feature, width_ft in near:
        around = _joined(shapely, [feature.outline_ft]).buffer(
            width_ft, quad_segs=QUARTER_CIRCLE_SIDES
        )
        part = around.intersection(ground)
        if part.area >= LEAST_STRIP_SQFT:
            strips.append(
                Strip(
                    name=feature.name or feature.kind,
                    width_ft=width_ft,
                    area_sqft=float(part.area),
                    rings_ft=_rings(shapely, part),
                )
            )
            reaches.append(around)
    if not reaches:
        return NO_STRIPS
    reach = shapely.union_all(reaches)
    covered = reach.intersection(ground)
    return ZoneStrips(
        area_sqft=min(float(covered.area), max(0.0, zone_area_sqft(zone))),
        names=tuple(dict.fromkeys(strip.name for strip in strips)),
        strips=tuple(strips),
        rings_ft=_rings(shapely, covered),
        borders_ft=_lines(shapely, reach.boundary.intersection(ground)),
    )


def _rings(shapely: Any, shape: Any) -> tuple[Outline, ...]:
    """The outlines and holes of a shape's surfaces, first corners not repeated."""
    surfaces = [each for each in shapely.get_parts(shape) if each.geom_type == "Polygon"]
    rings = [ring for each in surfaces for ring in (each.exterior, *each.interiors)]
    return tuple(_points(ring)[:-1] for ring in rings)


def _lines(shapely: Any, shape: Any) -> tuple[Outline, ...]:
    """The lines of a shape, joined where one goes on in the next."""
    lines = [each for each in shapely.get_parts(shape) if each.geom_type == "LineString"]
    joined = shapely.get_parts(shapely.line_merge(shapely.union_all(lines)))
    return tuple(_points(each) for each in joined if not each.is_empty)


def _points(line: Any) -> Outline:
    return tuple((float(x), float(y)) for x, y in line.coords)


def _joined(shapely: Any, outlines: Sequence[Outline]) -> Any:
    """Outlines as one shape, whatever they cross."""
    return shapely.union_all(list(_shapes(shapely, outlines)))


def _shapes(shapely: Any, outlines: Sequence[Outline]) -> Iterator[Any]:
    """Each outline as a shape: a line or a point where it has fewer than three corners."""
    for outline in outlines:
        corners = tuple(dict.fromkeys(outline))
        if len(corners) > 2:
            yield shapely.make_valid(shapely.Polygon(outline))
        elif len(corners) == 2:
            yield shapely.LineString(corners)
        elif corners:
            yield shapely.Point(corners[0])
