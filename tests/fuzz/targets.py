"""The readers that are fuzzed: what each is given, and what may come of it.

A reader may give an answer or an OwnerError of one line. Whatever else comes is a fault: another
exception, a sentence of several lines, an answer that does not hold what it says.
"""

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from lawnbook.plan.make import make_plan
from lawnbook.store.feed_csv import read_feedings
from lawnbook.store.handover_file import load_handover
from lawnbook.store.outlines_laid import lay_out
from lawnbook.store.outlines_reading import outlines_of
from lawnbook.store.outlines_taken import taken_in, usual
from lawnbook.store.photo_reading import TO_TRACE_ON, take_in_bytes
from lawnbook.store.picture_bare import bare_bytes
from lawnbook.store.sqlite_store import load
from lawnbook.store.tables_in import read_tables
from lawnbook.store.weather_reading import weather_from_text
from lawnbook.store.yardfile import read_yard_text, write_yard_text
from lawnbook.yard.check import check_notebook
from lawnbook.yard.notebook import Notebook, apply
from lawnbook.yard.problems import refused
from lawnbook.yard.records import Pictured
from tests.conftest import TODAY
from tests.fuzz import seeds
from tests.fuzz.breaking import broken
from tests.fuzz.structured import broken_json, broken_rows, broken_zip

Breaker = Callable[[Sequence[bytes], random.Random], bytes]


@dataclass(frozen=True, slots=True)
class Target:
    """A reader: its sound files, the ways to break them, and what is done with the outcome.

    `run` is given the bytes and a path in an empty folder that it may write them to.
    """

    seeds: Callable[[], Sequence[bytes]]
    run: Callable[[bytes, Path], None]
    breakers: tuple[Breaker, ...] = (broken,)
    suffix: str = ""

    def case(self, chance: random.Random) -> bytes:
        """The bytes of one case."""
        return chance.choice(self.breakers)(self.seeds(), chance)


@cache
def _notebook() -> Notebook:
    return seeds.notebook()


def _yard(data: bytes, path: Path) -> None:
    notebook = read_yard_text(data.decode(errors="replace"), TODAY, path.parent)
    assert read_yard_text(write_yard_text(notebook), TODAY, None) == notebook
    make_plan(notebook, TODAY)


def _weather(data: bytes, path: Path) -> None:
    reading = weather_from_text(data.decode(errors="replace"))
    assert not (reading.open and reading.days)
    assert len({each.date for each in reading.days}) == len(reading.days)


def _feed(data: bytes, path: Path) -> None:
    read = read_feedings(data.decode(errors="replace"), _notebook(), TODAY)
    assert all(each.isprintable() for each in (*read.problems, *read.doubts))


def _tables(data: bytes, path: Path) -> None:
    path.write_bytes(data)
    read = read_tables(path, _notebook(), TODAY)
    if not read.faults:
        apply(_notebook(), read.change)


def _outlines(data: bytes, path: Path) -> None:
    notebook = _notebook()
    laid = lay_out(outlines_of(data), notebook)
    after = apply(
        notebook, taken_in(notebook, laid, [usual(each, notebook) for each in laid.shapes])
    )
    check_notebook(after, TODAY)


def _photo(data: bytes, path: Path) -> None:
    taken = take_in_bytes(data, "theirs.jpg", TODAY)
    assert 0 < max(taken.width_px, taken.height_px) <= 2_000
    bare = bare_bytes(taken.data)
    assert bare == taken.data


def _backdrop(data: bytes, path: Path) -> None:
    taken = take_in_bytes(data, "theirs.png", TODAY, TO_TRACE_ON)
    assert 0 < max(taken.width_px, taken.height_px) <= 4_000


def _bare(data: bytes, path: Path) -> None:
    bare = bare_bytes(data)
    assert bare is None or (len(bare) <= len(data) and bare_bytes(bare) == bare)


def _handover(data: bytes, path: Path) -> None:
    path.write_bytes(data)
    notebook = load_handover(path)
    _look_at_pictures(notebook)


def _book(data: bytes, path: Path) -> None:
    path.write_bytes(data)
    notebook = load(path)
    _look_at_pictures(notebook)
    check_notebook(notebook, TODAY)


def _rows(data: bytes, path: Path) -> None:
    broken_rows(seeds.books()[0], path, random.Random(data))
    notebook = load(path)
    if not refused(check_notebook(notebook, TODAY)):
        make_plan(notebook, TODAY)


def _look_at_pictures(notebook: Notebook) -> None:
    pictured: tuple[Pictured, ...] = (*notebook.photos.values(), *notebook.backdrops.values())
    for each in pictured:
        each.data_b64.data()


def _number(_: Sequence[bytes], chance: random.Random) -> bytes:
    return chance.randbytes(8)


TARGETS: Mapping[str, Target] = MappingProxyType(
    {
        "yard": Target(seeds.yards, _yard, (broken, broken_json, broken_json)),
        "weather": Target(seeds.weather, _weather),
        "feed": Target(seeds.feed, _feed),
        "csv": Target(seeds.csv, _tables, suffix=".csv"),
        "csv-zip": Target(seeds.csv_zip, _tables, (broken, broken_zip), ".zip"),
        "xlsx": Target(seeds.workbook, _tables, (broken, broken_zip), ".xlsx"),
        "geojson": Target(seeds.geojson, _outlines, (broken, broken_json)),
        "kml": Target(seeds.kml, _outlines),
        "jpeg": Target(seeds.jpegs, _photo),
        "png": Target(seeds.pngs, _backdrop),
        "heic": Target(seeds.heics, _photo),
        "webp": Target(seeds.webps, _photo),
        "bare": Target(seeds.pictures, _bare),
        "handover": Target(seeds.handovers, _handover, (broken, broken_zip), ".zip"),
        "notebook": Target(seeds.books, _book, suffix=".lawnbook"),
        "rows": Target(seeds.books, _rows, (_number,), ".lawnbook"),
    }
)
"""Every reader, by the name that the program takes."""
