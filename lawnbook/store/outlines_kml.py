"""Outlines of a KML file (OGC 07-147r2): polygons, rings and closed tracks of its placemarks.

A file from a stranger: a document type, entities and references to other files are refused, and
nothing is fetched, whatever the file asks for.
"""

import re
from collections.abc import Iterator
from importlib import import_module
from itertools import islice
from typing import Any
from xml.etree.ElementTree import Element, ParseError

from lawnbook.reading import tr
from lawnbook.store.map_shapes import (
    MOST_CORNERS,
    MOST_MARKS,
    MapOutlines,
    MapShape,
    Tally,
    clean_name,
    parts_named,
)
from lawnbook.yard.problems import OwnerError

_PASSED_NOUNS = {
    "Point": "point",
    "Model": "model",
    "Track": "track",
    "MultiTrack": "track",
    "NetworkLink": "linked file",
    "GroundOverlay": "ground picture",
}
_RINGS = ("LinearRing", "LineString")
_SHAPES = ("Polygon", *_RINGS)
_DEEPEST = 60
_WORD = re.compile(r"\S+")


def read_kml(data: bytes) -> MapOutlines:
    """The polygons of a KML file's bytes. OwnerError, without a file's name, for what is no KML."""
    if max(data.count(b"<"), data.count(b"=")) > MOST_MARKS or data.count(b",") > 4 * MOST_CORNERS:
        raise OwnerError(
            tr(
                "there are far more corners than a yard has; take only the yard's own outlines "
                "into the file, and write it again."
            )
        )
    root = _parsed(data)
    if _bare(root) != "kml":
        raise OwnerError(
            tr(
                'this is no KML: it begins with "{clean_name}", not "kml".',
                clean_name=clean_name(_bare(root)),
            )
        )
    tally = Tally()
    for each in root.iter():
        if _bare(each) == "Placemark":
            _take_placemark(each, tally)
        elif _bare(each) in ("NetworkLink", "GroundOverlay"):
            tally.pass_over(_PASSED_NOUNS[_bare(each)])
    return tally.result()


def _parsed(data: bytes) -> Element:
    if not data.strip():
        raise OwnerError(tr("the file is empty; choose another, or write it again."))
    safe: Any = import_module("defusedxml.ElementTree")
    common: Any = import_module("defusedxml.common")
    try:
        root: Element = safe.fromstring(data, forbid_dtd=True)
    except common.DefusedXmlException as error:
        raise OwnerError(
            tr(
                "the file has a document type or entities of its own, by which a file can "
                "reach into others; outlines need none. Write it again without them."
            )
        ) from error
    except ParseError as error:
        line, column = error.position
        raise OwnerError(
            tr(
                "line {line}, column {column}: this is not sound XML; write the file again.",
                line=line,
                column=column + 1,
            )
        ) from error
    except (ValueError, LookupError) as error:
        raise OwnerError(tr("the file's letters cannot be read; save it as UTF-8.")) from error
    except RecursionError as error:
        raise OwnerError(tr("its parts are nested too deeply; this is no KML of a map.")) from error
    return root


def _take_placemark(placemark: Element, tally: Tally) -> None:
    name = clean_name(_text(placemark, "name"))
    shapes = list(_geometries(placemark, tally))
    for index, shape in enumerate(shapes):
        about = MapShape(parts_named(name, index, len(shapes)), ())
        if _bare(shape) == "Polygon":
            outer, inner = _boundaries(shape, "outer"), _boundaries(shape, "inner")
            tally.add(about, [_positions(each) for each in (*outer[:1], *inner)] if outer else [])
        else:
            ring = list(_positions(shape))
            if _bare(shape) == "LineString" and (len(ring) < 4 or ring[0] != ring[-1]):
                tally.pass_over("open line")
            else:
                tally.add(about, [ring])


def _geometries(placemark: Element, tally: Tally) -> Iterator[Element]:
    """The polygons, rings and tracks of a placemark, through its MultiGeometry parts."""
    waiting = [(each, 0) for each in reversed(placemark)]
    while waiting:
        each, depth = waiting.pop()
        kind = _bare(each)
        if kind in _SHAPES:
            yield each
        elif kind in _PASSED_NOUNS:
            tally.pass_over(_PASSED_NOUNS[kind])
        elif kind == "MultiGeometry" and depth < _DEEPEST:
            waiting += [(inner, depth + 1) for inner in reversed(each)]


def _boundaries(polygon: Element, which: str) -> list[Element]:
    """The rings of a polygon's outer or inner boundaries."""
    found = (each for each in polygon if _bare(each) == f"{which}BoundaryIs")
    return [ring for each in found for ring in each if _bare(ring) == "LinearRing"]


def _positions(ring: Element) -> Iterator[list[object]]:
    """The positions of a ring; a word in place of a number stays one, and is told later.

    One by one, and no more than a corner above the most: a stranger's file may be nothing but
    blanks and digits.
    """
    told = islice(_WORD.finditer(_text(ring, "coordinates")), MOST_CORNERS + 1)
    return ([_number(part) for part in each[0].split(",")] for each in told)


def _number(text: str) -> object:
    try:
        return float(text)
    except ValueError:
        return text


def _text(element: Element, name: str) -> str:
    return next((each.text or "" for each in element if _bare(each) == name), "")


def _bare(element: Element) -> str:
    """A tag without its namespace; files with and without one are read alike."""
    return element.tag.rpartition("}")[2]
