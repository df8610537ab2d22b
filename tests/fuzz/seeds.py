"""The sound files that the fuzzers start from, made once."""

import io
import tempfile
import zipfile
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

from lawnbook.store.feed_csv import feedings_csv
from lawnbook.store.outlines_written import write_geojson
from lawnbook.store.sqlite_store import create
from lawnbook.store.tables_out import write_tables
from lawnbook.store.yardfile import write_yard_text
from lawnbook.yard.notebook import Notebook
from tests.conftest import TODAY
from tests.kept_versions import VERSIONS, told, told_text
from tests.photo_files import HEIC, camera_data, halves, written

KML = b"""<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>Yard</name>
<Placemark id="a"><name>Front</name><Polygon><outerBoundaryIs><LinearRing><coordinates>
-93.5,40.25,0 -93.4998,40.25,0 -93.4998,40.2502,0 -93.5,40.2502,0 -93.5,40.25,0
</coordinates></LinearRing></outerBoundaryIs><innerBoundaryIs><LinearRing><coordinates>
-93.49995,40.25005 -93.4999,40.25005 -93.4999,40.2501 -93.49995,40.25005
</coordinates></LinearRing></innerBoundaryIs></Polygon></Placemark>
<Placemark><name>Shed</name><MultiGeometry><LineString><coordinates>-93.5,40.25 -93.49,40.25
-93.49,40.26 -93.5,40.25</coordinates></LineString><Point><coordinates>-93.5,40.25</coordinates>
</Point></MultiGeometry></Placemark></Document></kml>
"""
_FAHRENHEIT = b"""date,tmin_f,tmax_f,rain_in,wind_mph
2025-07-01,61,90,0.1,5
2025-07-02,62,91,,4
2025-07-03,60,88,0,3
2025-07-04,60.5,88,T,
2025-07-05,59,86,1.25,3
"""
_BARE = b"""date,tmin,tmax,rain
2025-07-01,16,32,3
2025-07-02,17,33,0
2025-07-03,15,30,12
2025-07-04,16,31,0
2025-07-05,16,31,0
"""
_STATION = b"""STATION,NAME,DATE,PRCP,TMAX,TMIN
USC001,A,2025-07-01,3,320,160
USC001,A,2025-07-02,0,330,170
"""
_LONG = b"""USC00110338,20250701,TMAX,320,,,7,0700
USC00110338,20250701,TMIN,160,,,7,0700
USC00110338,20250701,PRCP,3,T,,7,0700
USC00110338,20250702,TMAX,330,,I,7,0700
"""


def notebook() -> Notebook:
    """A small notebook with something in every table."""
    return told(VERSIONS[-1])


@cache
def yards() -> tuple[bytes, ...]:
    """Yard files of several versions."""
    return tuple(told_text(version).encode() for version in VERSIONS)


def weather() -> tuple[bytes, ...]:
    """Weather tables of the sorts that are known."""
    return (_FAHRENHEIT, _BARE, _STATION, _LONG)


@cache
def feed() -> tuple[bytes, ...]:
    """Tables of feedings."""
    own = b"date,product,zone,n_lb_per_1000\n2025-05-01,Mix,Front,0.5\n5/13/2025,Mix,Back,0.25\n"
    return (feedings_csv(notebook()).encode(), own)


@cache
def csv() -> tuple[bytes, ...]:
    """Single tables as CSV."""
    tables = ("zones", "cores", "products", "feedings", "waterings", "care", "heads")
    return tuple(_file(".csv", partial(_write_table, table)) for table in tables)


@cache
def csv_zip() -> tuple[bytes, ...]:
    """All tables as a zip of CSV files."""
    return (_file(".zip", lambda path: write_tables(notebook(), path, "", TODAY)),)


@cache
def workbook() -> tuple[bytes, ...]:
    """All tables as a workbook."""
    return (_file(".xlsx", lambda path: write_tables(notebook(), path, "", TODAY)),)


@cache
def geojson() -> tuple[bytes, ...]:
    """The outlines of the sketch."""

    def write(path: Path) -> None:
        write_geojson(notebook(), path)

    return (_file(".geojson", write),)


def kml() -> tuple[bytes, ...]:
    """A map's outlines."""
    return (KML,)


@cache
def jpegs() -> tuple[bytes, ...]:
    """JPEGs with and without what cameras write, in one pass and in several."""
    exif = camera_data("2026:05:08 09:00:00", turned=6, place=True)
    return (
        written(halves(40, 30)),
        written(halves(40, 30), exif=exif),
        written(halves(64, 48), progressive=True),
        written(halves(40, 30).convert("CMYK")),
    )


@cache
def pngs() -> tuple[bytes, ...]:
    """PNGs in several modes."""
    modes = ("RGB", "RGBA", "P", "L", "1", "I;16")
    return tuple(written(halves(40, 30).convert("L").convert(m), "PNG") for m in modes)


def heics() -> tuple[bytes, ...]:
    """A phone's photograph."""
    return (HEIC,)


@cache
def webps() -> tuple[bytes, ...]:
    """WebP pictures, lossy and not."""
    return (written(halves(40, 30), "WEBP"), written(halves(40, 30), "WEBP", lossless=True))


def pictures() -> tuple[bytes, ...]:
    """JPEGs and PNGs."""
    return (*jpegs(), *pngs())


@cache
def books() -> tuple[bytes, ...]:
    """Notebooks: one with everything."""
    return (_file(".lawnbook", lambda path: create(path, notebook())),)


@cache
def handovers() -> tuple[bytes, ...]:
    """A zip with a notebook and what else lies in a handover."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        made.writestr("README.txt", "Read me")
        made.writestr("notebook.lawnbook", books()[0])
        made.writestr("yard.json", write_yard_text(notebook()))
        made.writestr("photos/2025-05-10 Elm.jpg", jpegs()[0])
    return (out.getvalue(),)


def _write_table(table: str, path: Path) -> None:
    write_tables(notebook(), path, table, TODAY)


def _file(suffix: str, write: Callable[[Path], object]) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"sound{suffix}"
        write(path)
        return path.read_bytes()
