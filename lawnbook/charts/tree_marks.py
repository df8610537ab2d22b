"""Trees on a sketch: a leaf tone in a dashed ring, so that none looks like a disc for a number."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from lawnbook.charts.marks import Mark, Polygon, Ring
from lawnbook.yard.geometry import area_sqft, centroid_ft, contains
from lawnbook.yard.records import Feature, Zone

_LEAVES_ALPHA = 0.28
_DASH_PT = (2.5, 1.8)
_MOST_OF_A_TREE = 1.3
"""A larger hole in the turf is a bed about the tree, and keeps its edge."""


def tree_marks(ring: Ring) -> list[Mark]:
    """A tree by its ring in points."""
    return [
        Polygon(rings=(ring,), fill="paper"),
        Polygon(rings=(ring,), fill="verdure", alpha=_LEAVES_ALPHA),
        Polygon(rings=(ring,), edge="verdure", width=0.8, dash=_DASH_PT),
    ]


def without_trees(zones: Iterable[Zone], features: Iterable[Feature]) -> Iterator[Zone]:
    """Zones without the holes that trees fill: their edge is the tree's own."""
    trees = [each.outline_ft for each in features if each.kind == "tree"]
    for zone in zones:
        holes = tuple(
            hole
            for hole in zone.holes_ft
            if not any(
                contains(tree, centroid_ft(hole))
                and area_sqft(hole) <= _MOST_OF_A_TREE * area_sqft(tree)
                for tree in trees
            )
        )
        yield replace(zone, holes_ft=holes)
