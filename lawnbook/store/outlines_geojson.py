"""Outlines of a GeoJSON file (RFC 7946): polygons alone, in features, collections, or nested."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from lawnbook.reading import tr
from lawnbook.store.map_shapes import (
    MOST_MARKS,
    MapOutlines,
    MapShape,
    Tally,
    clean_name,
    name_among,
    parts_named,
)
from lawnbook.store.strict_json import parse_json
from lawnbook.yard.problems import OwnerError

GEOMETRIES = ("Polygon", "MultiPolygon", "GeometryCollection")
GROUNDLESS_NOUNS = {
    "Point": "point",
    "MultiPoint": "point set",
    "LineString": "line",
    "MultiLineString": "line set",
}
DEEPEST = 12
"""Collections within collections: RFC 7946 advises against any nesting at all."""
MOST_COMMAS = 4 * MOST_MARKS
_WGS84 = re.compile(r"(crs:?84|epsg:{1,2}[\d.]*:?4326|wgs ?84)$", re.IGNORECASE)
_TABLES = ("zones", "features")


def read_geojson(text: str) -> MapOutlines:
    """The polygons of a GeoJSON text. OwnerError, without a file's name, for what it cannot be."""
    if (
        text.count("[") > MOST_MARKS
        or text.count("{") > MOST_MARKS
        or text.count(",") > MOST_COMMAS
    ):
        raise OwnerError(
            tr(
                "there are far more corners than a yard has; take only the yard's own outlines "
                "into the file, and write it again."
            )
        )
    held = parse_json(text, "map")
    if not isinstance(held, Mapping):
        raise OwnerError(
            tr("this is not GeoJSON: its outermost part must be an object with a type.")
        )
    if held.get("format") == "lawnbook-yard":
        raise OwnerError(tr("this is a yard file, not a map; open it as a notebook instead."))
    _refuse_other_grid(held)
    tally = Tally()
    _take(held, tally)
    return tally.result()


def _refuse_other_grid(held: Mapping[str, Any]) -> None:
    """OwnerError for an old "crs" member that is anything but WGS 84 (RFC 7946, section 4)."""
    grid = held.get("crs")
    if grid is None:
        return
    inner = grid.get("properties") if isinstance(grid, Mapping) else None
    name = clean_name(inner.get("name")) if isinstance(inner, Mapping) else ""
    if not _WGS84.search(name):
        shown = f'"{name}"' if name else tr("an unnamed one")
        raise OwnerError(
            tr(
                "the file is written in another coordinate system ({shown}); write it in "
                "longitude and latitude, WGS 84 (EPSG:4326).",
                shown=shown,
            )
        )


def _take(held: Mapping[str, Any], tally: Tally) -> None:
    kind = held.get("type")
    if kind == "FeatureCollection":
        features = held.get("features")
        if not isinstance(features, list):
            raise OwnerError(
                tr('this FeatureCollection has no list of "features"; write it again.')
            )
        for each in features:
            _take_feature(each, tally)
    elif kind == "Feature":
        _take_feature(held, tally)
    elif isinstance(kind, str) and (kind in GEOMETRIES or kind in GROUNDLESS_NOUNS):
        _take_geometry(held, MapShape("", ()), tally, 0)
    else:
        told = (
            tr('type "{clean_name}"', clean_name=clean_name(kind))
            if clean_name(kind)
            else tr("no type")
        )
        raise OwnerError(
            tr("this is not GeoJSON: it has {told}; a FeatureCollection is expected.", told=told)
        )


def _take_feature(held: Any, tally: Tally) -> None:
    if not isinstance(held, Mapping) or held.get("type") != "Feature":
        tally.pass_over("unknown feature")
        return
    told = held.get("properties")
    fields = told if isinstance(told, Mapping) else {}
    table = fields.get("table")
    kind = fields.get("kind")
    about = MapShape(
        name_among(fields),
        (),
        (),
        table if table in _TABLES else "",
        kind if isinstance(kind, str) else "",
        clean_name(held.get("id")),
    )
    geometry = held.get("geometry")
    if geometry is None:
        tally.pass_over("empty feature")
    else:
        _take_geometry(geometry, about, tally, 0)


def _take_geometry(held: Any, about: MapShape, tally: Tally, depth: int) -> None:
    kind = held.get("type") if isinstance(held, Mapping) else None
    if kind == "Polygon":
        tally.add(about, _lists(held.get("coordinates")))
    elif kind == "MultiPolygon":
        pieces = _lists(held.get("coordinates"))
        for index, piece in enumerate(pieces):
            named = parts_named(about.name, index, len(pieces))
            tally.add(replace(about, name=named), _lists(piece))
        if not pieces:
            tally.pass_over("empty shape")
    elif kind == "GeometryCollection" and depth < DEEPEST:
        for each in _lists(held.get("geometries"), Mapping):
            _take_geometry(each, about, tally, depth + 1)
    else:
        tally.pass_over(GROUNDLESS_NOUNS.get(str(kind), "unknown shape"))


def _lists(held: Any, of: type = list) -> Sequence[Any]:
    """A list of lists; a part that is none becomes an empty list, and so is told as no ring."""
    if not isinstance(held, list):
        return ()
    return [each if isinstance(each, of) else () for each in held]
