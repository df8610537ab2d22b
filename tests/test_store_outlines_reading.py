"""Outlines of maps are read as the standards say; what is odd is told, what is unsafe refused."""

import json
import random
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lawnbook.store.map_shapes import MOST_BYTES, MOST_CORNERS, MapOutlines
from lawnbook.store.outlines_reading import outlines_of, read_outlines
from lawnbook.yard.problems import OwnerError

RING = [[-105.0, 40.0], [-104.9999, 40.0], [-104.9999, 40.0001], [-105.0, 40.0001], [-105.0, 40.0]]
HOLE = [[-104.99996, 40.00004], [-104.99996, 40.00006], [-104.99994, 40.00006], RING[0]]
HOLE[-1] = HOLE[0]
POLYGON = {"type": "Polygon", "coordinates": [RING, HOLE]}
FUZZED = 1500


def _feature(geometry: object, **properties: object) -> dict[str, Any]:
    return {"type": "Feature", "properties": properties, "geometry": geometry}


def _all(*features: object, **more: object) -> bytes:
    return json.dumps({"type": "FeatureCollection", "features": features, **more}).encode()


def _kml(inside: str, head: str = '<?xml version="1.0" encoding="UTF-8"?>') -> str:
    space = 'xmlns="http://www.opengis.net/kml/2.2"'
    return f"{head}<kml {space}><Document><Folder>{inside}</Folder></Document></kml>"


def _coordinates(ring: list[list[float]], height: str = ",12.5") -> str:
    told = " ".join(f"{lon},{lat}{height}" for lon, lat in ring)
    return f"<LinearRing><coordinates>\n{told}\n</coordinates></LinearRing>"


def _placemark(inside: str, name: str = "Front") -> str:
    return f"<Placemark><name>{name}</name>{inside}</Placemark>"


KML_POLYGON = (
    f"<Polygon><outerBoundaryIs>{_coordinates(RING)}</outerBoundaryIs>"
    f"<innerBoundaryIs>{_coordinates(HOLE)}</innerBoundaryIs></Polygon>"
)


def _open(ring: list[list[float]]) -> tuple[tuple[float, ...], ...]:
    return tuple((lon, lat) for lon, lat in ring[:-1])


@pytest.mark.parametrize(
    "data",
    [
        _all(_feature(POLYGON, name="Front")),
        json.dumps(_feature(POLYGON, NAME="Front")).encode(),
        json.dumps(_feature(POLYGON, title=" Front\n")).encode("utf-16"),
        b"\xef\xbb\xbf" + _all(_feature(POLYGON, name="Front")),
        _all(_feature({"type": "GeometryCollection", "geometries": [POLYGON]}, name="Front")),
        _all(_feature({"type": "MultiPolygon", "coordinates": [[RING, HOLE]]}, name="Front")),
        _all(
            _feature(POLYGON, name="Front"),
            crs={"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}},
        ),
        _kml(_placemark(KML_POLYGON)).encode(),
        _kml(_placemark(f"<MultiGeometry>{KML_POLYGON}</MultiGeometry>"), "").encode(),
        _kml(_placemark(KML_POLYGON), '<?xml version="1.0" encoding="UTF-16"?>').encode("utf-16"),
        b"\xef\xbb\xbf" + _kml(_placemark(KML_POLYGON)).encode(),
    ],
)
def test_one_polygon_with_its_hole_and_name(data: bytes) -> None:
    read = outlines_of(data)
    (shape,) = read.shapes
    assert (shape.name, shape.outline, shape.holes) == ("Front", _open(RING), (_open(HOLE),))
    assert read.told == ()


def test_heights_are_left_out_and_several_pieces_numbered() -> None:
    high = [[*corner, 1600.0] for corner in RING]
    data = _all(_feature({"type": "MultiPolygon", "coordinates": [[high], [HOLE]]}, name="Lawn"))
    assert [each.name for each in outlines_of(data).shapes] == ["Lawn", "Lawn, part 2"]
    assert outlines_of(data).shapes[0].outline == _open(RING)


def test_rings_and_closed_tracks_of_kml_are_outlines_and_open_ones_are_told() -> None:
    track = _coordinates(RING).replace("LinearRing", "LineString")
    path = _coordinates(RING[:3]).replace("LinearRing", "LineString")
    point = "<Point><coordinates>-105,40</coordinates></Point>"
    told = _kml(
        _placemark(track) + _placemark(_coordinates(RING)) + _placemark(path) + _placemark(point)
    )
    read = outlines_of(told.encode())
    assert [each.outline for each in read.shapes] == [_open(RING)] * 2
    assert read.told == (
        "1 open line and 1 point are left out: only closed outlines are taken in.",
    )


def test_latin_letters_are_read_and_told() -> None:
    latin = _kml(_placemark(KML_POLYGON, "Südwiese"), '<?xml version="1.0" encoding="ISO-8859-1"?>')
    assert outlines_of(latin.encode("latin-1")).shapes[0].name == "Südwiese"
    text = json.dumps(_feature(POLYGON, name="Südwiese"), ensure_ascii=False)
    read = outlines_of(text.encode("latin-1"))
    assert read.shapes[0].name == "Südwiese"
    assert "read as Latin-1" in read.told[0]


def test_what_is_wrong_with_a_shape_is_told_and_the_others_stay() -> None:
    def of(ring: object) -> object:
        return _feature({"type": "Polygon", "coordinates": [ring]}, name="Odd")

    read = outlines_of(
        _all(
            _feature(POLYGON, name="Front"),
            of(RING[:2]),
            of([[0, "x"], [1, 1], [1, 0]]),
            of([[500000.0, 4400000.0], [500010.0, 4400000.0], [500010.0, 4400010.0]]),
            of([[True, 1], [1, 1], [1, 0]]),
            of("ring"),
            _feature({"type": "Polygon"}),
            _feature({"type": "Circle"}),
            _feature(None),
            "feature",
        )
    )
    assert [each.name for each in read.shapes] == ["Front"]
    told = " ".join(read.told)
    for words in (
        "Shape 2 (Odd) is left out: a ring has 2 corners, and needs 3.",
        "something other than numbers",
        "are no degrees; write the file in longitude and latitude (WGS 84)",
        "Shape 7 is left out: it has no outline.",
        "1 unknown shape, 1 empty feature and 1 unknown feature are left out",
    ):
        assert words in told


BOMB = '<?xml version="1.0"?><!DOCTYPE kml [<!ENTITY a "ha">{}]>'.format(
    "".join(f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in ("ab", "bc", "cd", "de", "ef", "fg"))
)
REFUSED: dict[str, tuple[bytes, str]] = {
    "nothing": (b"", "the file is empty"),
    "blank": (b"  \n", "the file is empty"),
    "words": (b"hello", "not sound JSON"),
    "a list": (b"[1]", "not GeoJSON"),
    "no type": (b"{}", "it has no type"),
    "a topology": (b'{"type": "Topology"}', 'it has type "Topology"'),
    "a yard file": (b'{"format": "lawnbook-yard"}', "open it as a notebook"),
    "twice": (b'{"type": "Feature", "type": "Feature"}', "stands twice"),
    "one of many twice": (
        b"{" + b",".join(b'"%d":1' % each for each in range(100_000)) + b',"99999":1}',
        '"99999" stands twice',
    ),
    "a list for a type": (b'{"type": []}', "it has no type"),
    "a record for a type": (b'{"type": {"name": "Polygon"}}', "it has no type"),
    "deep": (b'{"type": ' + b"[" * 50_000, "nested too deeply; this is no map."),
    "points only": (_all(_feature({"type": "Point", "coordinates": [1, 2]})), "1 point is left"),
    "empty": (_all(), "holds no polygon"),
    "not a number": (
        _all(_feature({"type": "Polygon", "coordinates": [[[float("nan"), 1]]]})),
        "NaN",
    ),
    "huge": (
        b'{"type": "Polygon", "coordinates": [[[1e999, 1], [1, 2], [3, 4]]]}',
        "a number that is none",
    ),
    "endless digits": (
        b'{"type": "Polygon", "coordinates": [[[' + b"9" * 5000 + b", 1]]]}",
        "a number that is none",
    ),
    "another grid": (
        _all(crs={"type": "name", "properties": {"name": "EPSG:3857"}}),
        '("EPSG:3857"); write it in longitude',
    ),
    "swapped": (
        _all(
            _feature({"type": "Polygon", "coordinates": [[[40, -105], [40.1, -105], [40, -104]]]})
        ),
        "longitude first",
    ),
    "a zip": (b"PK\x03\x04rest", "doc.kml"),
    "another xml": (b"<svg/>", 'begins with "svg"'),
    "broken xml": (b"<kml><Placemark></kml>", "not sound XML"),
    "no such letters": (b'<?xml version="1.0" encoding="klingon"?><kml/>', "not sound XML|letters"),
    "laughs": ((BOMB + "<kml>&g;</kml>").encode(), "entities"),
    "a document type": (b"<!DOCTYPE kml><kml/>", "document type"),
    "a far entity": (
        b'<!DOCTYPE kml [<!ENTITY x SYSTEM "http://127.0.0.1:9/x">]><kml>&x;</kml>',
        "reach into",
    ),
    "a far document type": (b'<!DOCTYPE kml SYSTEM "http://127.0.0.1:9/x"><kml/>', "reach into"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_read_is_refused_in_words(name: str, tmp_path: Path) -> None:
    data, words = REFUSED[name]
    path = tmp_path / "map.geojson"
    path.write_bytes(data)
    with pytest.raises(OwnerError) as refused:
        read_outlines(path)
    assert str(refused.value).startswith("map.geojson: ")
    assert any(each in str(refused.value) for each in words.split("|")), refused.value


def test_a_file_named_by_an_entity_is_not_opened(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("buried treasure")
    told = f'<!DOCTYPE kml [<!ENTITY x SYSTEM "{secret.as_uri()}">]>'
    data = told + _kml(_placemark(KML_POLYGON, "&x;"), "")
    with pytest.raises(OwnerError, match="entities") as refused:
        outlines_of(data.encode())
    assert "treasure" not in str(refused.value)


def _ten_million() -> bytes:
    return b'{"type": "MultiPoint", "coordinates": [' + b"[0,0]," * 10_000_000 + b"[0,0]]}"


def _just_too_many() -> bytes:
    ring = [[index % 7 / 10, index % 11 / 10] for index in range(MOST_CORNERS + 2)]
    return json.dumps({"type": "Polygon", "coordinates": [ring]}).encode()


def _too_many_brackets() -> bytes:
    return b'{"type": "MultiPoint", "coordinates": [' + b"[0,0]," * 3_000_000 + b"[0,0]]}"


def _too_many_tags() -> bytes:
    return b"<kml>" + b"<a/>" * 4_000_000 + b"</kml>"


def _nothing_but_blanks() -> bytes:
    told = "1 " * (MOST_BYTES // 2 - 200)
    ring = f"<LinearRing><coordinates>{told}</coordinates></LinearRing>"
    inside = f"<Polygon><outerBoundaryIs>{ring}</outerBoundaryIs></Polygon>"
    return _kml(_placemark(inside)).encode()


OWN = "the yard's own outlines into"


@pytest.mark.parametrize(
    ("made", "why"),
    [
        (_ten_million, OWN),
        (_too_many_brackets, OWN),
        (_too_many_tags, OWN),
        (_just_too_many, OWN),
        (_nothing_but_blanks, "not written as longitude and latitude"),
    ],
)
def test_far_too_many_points_are_refused_in_bounded_memory(
    made: Callable[[], bytes], why: str, tmp_path: Path
) -> None:
    path = tmp_path / "big.geojson"
    path.write_bytes(made())
    tracemalloc.start()
    try:
        with pytest.raises(OwnerError, match=why):
            read_outlines(path)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < 3.5 * MOST_BYTES


def _mutated(data: bytes, luck: random.Random) -> bytes:
    held = bytearray(data)
    for _ in range(luck.randint(1, 6)):
        at = luck.randrange(len(held))
        kind = luck.randrange(4)
        if kind == 0:
            held[at] = luck.randrange(256)
        elif kind == 1:
            del held[at : at + luck.randint(1, 30)]
        elif kind == 2:
            held[at:at] = luck.choice((b"[", b"{", b'"', b"<", b"null", b"-1e308", b"]]>", b"\xff"))
        else:
            start = luck.randrange(len(held))
            held[at:at] = held[start : start + luck.randint(1, 40)]
        held = held or bytearray(b"x")
    return bytes(held)


@pytest.mark.parametrize("kind", ["json", "kml", "noise"])
def test_no_file_raises_anything_but_an_explanation(kind: str) -> None:
    """1,500 mutated files of each kind, and as many of noise, always the same."""
    luck = random.Random(kind)
    multi = {"type": "MultiPolygon", "coordinates": [[RING, HOLE], [RING]]}
    good = {
        "json": _all(_feature(POLYGON, name="Front"), _feature(multi, kind="bed")),
        "kml": _kml(_placemark(KML_POLYGON) + _placemark(_coordinates(RING))).encode(),
    }
    for _ in range(FUZZED):
        noise = luck.randbytes(luck.randint(0, 200))
        data = noise if kind == "noise" else _mutated(good[kind], luck)
        read = _read_or_refused(data)
        assert read if isinstance(read, str) else read.shapes


def _read_or_refused(data: bytes) -> MapOutlines | str:
    try:
        return outlines_of(data)
    except OwnerError as refused:
        return str(refused)
