"""A file of outlines, whichever kind it is: bounded, told apart by what it holds, and read."""

import codecs
from dataclasses import replace
from pathlib import Path

from lawnbook.reading import tr
from lawnbook.store.files import opened_to_read, told
from lawnbook.store.map_shapes import MOST_BYTES, MapOutlines
from lawnbook.store.outlines_geojson import read_geojson
from lawnbook.store.outlines_kml import read_kml
from lawnbook.yard.problems import OwnerError

SUFFIXES = (".geojson", ".json", ".kml")
"""Endings of files that may hold outlines."""

_ZIP = b"PK\x03\x04"
_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_OLD_LETTERS = tr("The file is not UTF-8 and was read as Latin-1; look over the names.")


def read_outlines(path: Path) -> MapOutlines:
    """The outlines of a GeoJSON or KML file. OwnerError with the file's name, why, and the mend."""
    with opened_to_read(path) as handle:
        data = handle.read(MOST_BYTES + 1)
    try:
        return outlines_of(data)
    except OwnerError as error:
        raise OwnerError(f"{told(path)}: {error}") from error


def outlines_of(data: bytes) -> MapOutlines:
    """The outlines of a file's bytes. OwnerError without the file's name."""
    if len(data) > MOST_BYTES:
        raise OwnerError(
            tr(
                "the file is larger than {most_bytes} MB; take only the yard's own outlines "
                "into it, and write it again.",
                most_bytes=MOST_BYTES // 2**20,
            )
        )
    if data.startswith(_ZIP):
        raise OwnerError(
            tr("this is a zip, as a KMZ is; unpack it and take in the doc.kml that lies inside.")
        )
    if _is_xml(data):
        return read_kml(data)
    text, old = _text(data)
    outlines = read_geojson(text)
    return replace(outlines, told=(_OLD_LETTERS, *outlines.told)) if old else outlines


def _is_xml(data: bytes) -> bool:
    start = data[:400].removeprefix(codecs.BOM_UTF8)
    for mark in _MARKS:
        start = start.removeprefix(mark)
    return start.replace(b"\0", b"").lstrip().startswith(b"<")


def _text(data: bytes) -> tuple[str, bool]:
    """The letters of a JSON file, and whether they had to be read as Latin-1."""
    try:
        if data.startswith(_MARKS):
            return data.decode("utf-16"), False
        return data.decode("utf-8-sig"), False
    except UnicodeDecodeError:
        return data.decode("latin-1"), True
