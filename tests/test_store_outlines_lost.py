"""What taking outlines in loses or leaves outside is told; holes may be cut in the file's zones."""

import importlib
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from lawnbook.store import outlines_laid
from lawnbook.store.map_shapes import MapOutlines, MapShape
from lawnbook.store.outlines_laid import LaidOutlines, lay_out
from lawnbook.store.outlines_lost import lost_of
from lawnbook.store.outlines_taken import LEAVE, NEW_ZONE, Becomes, choices, hole_here, taken_in
from lawnbook.yard.fields import Outline
from lawnbook.yard.geometry import rectangle_ft, zone_area_sqft
from lawnbook.yard.local_plane import LocalPlane
from lawnbook.yard.notebook import Notebook, apply, new_notebook, put
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Head, Spot, Zone

LAT, LON = 40.015, -105.27
PLANE = LocalPlane(LAT, LON)
LAWN, POND = rectangle_ft((0, 0), 60, 40), rectangle_ft((10, 10), 20, 10)


def laid(notebook: Notebook, *shapes: tuple[str, Outline, tuple[Outline, ...]]) -> LaidOutlines:
    """Shapes of a file by name, outline and holes in feet, laid on a sketch of known place."""
    made = [
        MapShape(name, _degrees(ring), tuple(map(_degrees, inner))) for name, ring, inner in shapes
    ]
    return lay_out(MapOutlines(tuple(made)), notebook)


def _degrees(ring: Outline) -> Outline:
    return tuple(PLANE.to_degrees(each) for each in ring)


def placed_book(*zones: Zone) -> Notebook:
    """A notebook whose zero point has its place on earth."""
    held = new_notebook("Home")
    held = apply(held, put(held, "zones", *zones))
    yard = replace(held.yard, origin_latitude_deg=LAT, origin_longitude_deg=LON)
    return replace(held, yard=yard)


@pytest.mark.parametrize("swapped", [False, True])
def test_a_hole_is_cut_in_a_zone_of_the_same_file(swapped: bool) -> None:
    """Whichever of the two stands first in the file."""
    book = placed_book()
    shapes = [("Lawn", LAWN, ()), ("Pond", POND, ())]
    outer = 1 if swapped else 0
    read = laid(book, *(reversed(shapes) if swapped else shapes))
    becomes = [hole_here(outer)] * 2
    becomes[outer] = NEW_ZONE
    offered = dict(choices(read.shapes[1 - outer], book, read.shapes))
    assert offered["Hole in Lawn, of this file"] == hole_here(outer)
    assert "Hole in Pond, of this file" not in dict(choices(read.shapes[outer], book, read.shapes))
    (zone,) = apply(book, taken_in(book, read, becomes)).zones.values()
    assert len(zone.holes_ft) == 1
    assert zone_area_sqft(zone) == pytest.approx(2400 - 200, abs=2)


def test_a_hole_in_what_becomes_no_zone_is_refused() -> None:
    book = placed_book()
    read = laid(book, ("Lawn", LAWN, ()), ("", POND, ()))
    with pytest.raises(OwnerError, match="Shape 2 is to be a hole in Lawn, which is not taken in"):
        taken_in(book, read, [LEAVE, hole_here(0)])


def test_holes_that_a_feature_cannot_have_are_told() -> None:
    book = placed_book()
    read = laid(book, ("Court", LAWN, (POND,)), ("", rectangle_ft((90, 0), 9, 9), ()))
    becomes = [Becomes("feature", "paving"), Becomes("feature", "bed")]
    change = taken_in(book, read, becomes)
    assert lost_of(book, read, becomes, change) == "Court loses its 1 hole, for a feature has none."
    as_zone = [NEW_ZONE, LEAVE]
    assert lost_of(book, read, as_zone, taken_in(book, read, as_zone)) == ""


def standing(*places: tuple[float, float], spot: tuple[float, float]) -> Notebook:
    book = placed_book(Zone(id="front", name="Front", outline_ft=LAWN))
    heads = [
        Head(id=f"h{i}", zone="front", at_ft=at, radius_ft=10, sweep_deg=90)
        for i, at in enumerate(places)
    ]
    book = apply(book, put(book, "heads", *heads))
    return apply(book, put(book, "spots", Spot(id="s", name="Crest", zone="front", at_ft=spot)))


@pytest.mark.parametrize(
    ("spot", "said"),
    [
        (
            (59.0, 5.0),
            "2 heads and 1 spot of Front now lie outside it; move them where they belong.",
        ),
        ((5.0, 5.0), "2 heads of Front now lie outside it; move them where they belong."),
    ],
)
def test_heads_and_spots_left_outside_a_new_outline_are_told(
    spot: tuple[float, float], said: str
) -> None:
    """One head stands on the new edge, and one stood outside before."""
    book = standing((60.0, 0.0), (60.0, 40.0), (40.0, 20.0), (80.0, 80.0), spot=spot)
    read = laid(book, ("Front", rectangle_ft((0, 0), 40, 40), ()))
    becomes = [Becomes("outline", "front")]
    assert lost_of(book, read, becomes, taken_in(book, read, becomes)) == said


def test_a_scribble_is_refused_after_a_few_of_its_sides(monkeypatch: pytest.MonkeyPatch) -> None:
    """2,000 random corners: two million pairs of sides, of which thousands are enough."""
    asked: list[int] = []
    shapely: Any = importlib.import_module("shapely")
    tree = shapely.STRtree

    class Counted:
        """A tree that counts the sides it is asked about."""

        def __init__(self, sides: Any) -> None:
            self._tree = tree(sides)

        def query(self, geometry: Any, **options: Any) -> Any:
            asked.append(len(geometry))
            return self._tree.query(geometry, **options)

    monkeypatch.setattr(shapely, "STRtree", Counted)
    monkeypatch.setattr(outlines_laid, "_is_wrong", lambda _: pytest.fail("asked for all pairs"))
    chance = np.random.default_rng(1)
    ring = tuple((float(x), float(y)) for x, y in chance.uniform(-300, 300, (2000, 2)))
    with pytest.raises(OwnerError, match="again and again"):
        laid(placed_book(), ("", ring, ()))
    assert sum(asked) <= 100
