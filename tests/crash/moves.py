"""Random edits of an open notebook, the same again for the same beginning.

Whoever knows the notebook and the state of the generator can make the same moves in memory, and
so knows each value that the file of a killed process may hold.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from random import Random

from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.store.sqlite_store import Store
from lawnbook.store.yardfile import load_any
from lawnbook.yard.edits import remove
from lawnbook.yard.notebook import Change, Notebook, put, with_tables
from lawnbook.yard.photos import new_photo
from lawnbook.yard.places import sample_yards
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import (
    TABLES,
    Care,
    Core,
    Feeding,
    Head,
    Record,
    SoilTest,
    Spot,
    Watering,
    WeatherDay,
)

TODAY = date(2026, 11, 25)
_TAKEN_OUT = ("waterings", "care", "cores", "spots", "heads", "feedings", "photos", "zones")
_MOST_PICTURE_BYTES = 300_000


def beginning(rows: int = 60) -> Notebook:
    """A sample yard with rows in most tables, at most so many of what comes by the day."""
    path = next(each for each in sample_yards() if each.stem == "larkspur_corner")
    whole = load_any(path, TODAY)
    held = {table: list(whole.table(table).values()) for table in TABLES}
    few = {"photos": 2, **dict.fromkeys(("waterings", "weather", "care"), rows)}
    return with_tables(whole, {name: kept[: few.get(name)] for name, kept in held.items()})


class Nowhere(Store):
    """A store that writes nothing: the notebook it serves lives in memory alone."""

    def __init__(self) -> None:
        """Connect to nothing."""
        self.path = Path("nowhere.lawnbook")

    @property
    def read_only(self) -> str:
        """Nothing is in the way."""
        return ""

    def write(self, *changes: Change) -> None:
        """Write nothing."""

    def close(self) -> None:
        """Nothing is open."""


def in_memory(notebook: Notebook) -> OpenNotebook:
    """An open notebook without a file, to make the same moves in."""
    return OpenNotebook(Nowhere(), notebook, TODAY)


def move(book: OpenNotebook, chance: Random) -> None:
    """Make one random edit, undo or redo that alters the notebook."""
    before = book.notebook
    while book.notebook is before:
        kind = chance.random()
        if kind < 0.12:
            book.undo()
        elif kind < 0.2:
            book.redo()
        else:
            _edit(book, chance)


def _edit(book: OpenNotebook, chance: Random) -> None:
    make = chance.choices(_MAKERS, _WEIGHTS)[0]
    try:
        change = make(book.notebook, chance)
        book.edit(change, make.__name__)
    except OwnerError:
        # What the rules refuse is refused the same way in memory; another edit is tried.
        return


def _new_id(chance: Random) -> str:
    return "".join(chance.choices("abcdefghijklmnopqrstuvwxyz234567", k=16))


def _one(notebook: Notebook, table: str, chance: Random) -> str | None:
    held = sorted(notebook.table(table))
    return chance.choice(held) if held else None


def _day(chance: Random) -> date:
    return TODAY - timedelta(days=chance.randrange(600))


def _added(notebook: Notebook, chance: Random) -> Change:
    table, record = chance.choice(_RECORDS)(notebook, chance)
    return put(notebook, table, record) if record is not None else {}


def _changed(notebook: Notebook, chance: Random) -> Change:
    note = f"noted {chance.randrange(10**9)} " + "x" * chance.choice((0, 30, 3000))
    table = chance.choice(("yard", "care", "cores", "spots", "waterings"))
    key = _one(notebook, table, chance)
    held = notebook.find(table, key) if key else None
    if isinstance(held, Watering):
        return put(notebook, table, replace(held, minutes=float(chance.randrange(5, 90))))
    if isinstance(held, Spot):
        at_ft = (chance.uniform(0, 50), chance.uniform(0, 50))
        return put(notebook, table, replace(held, at_ft=at_ft))
    if isinstance(held, Core | Care):
        return put(notebook, table, replace(held, note=note))
    return put(notebook, "yard", replace(notebook.yard, name=note[:24]))


def _removed(notebook: Notebook, chance: Random) -> Change:
    table = chance.choices(_TAKEN_OUT, (9, 9, 5, 2, 3, 3, 3, 0.3))[0]
    key = _one(notebook, table, chance)
    return remove(notebook, table, key) if key else {}


def _taken_in(notebook: Notebook, chance: Random) -> Change:
    """A whole table from somewhere else: hundreds of rows in one change."""
    count = chance.randrange(100, 900)
    if chance.random() < 0.5:
        days = (date(2001, 1, 1) + timedelta(days=chance.randrange(7000)) for _ in range(count))
        dated = {day.isoformat(): day for day in days}
        rows: list[Record] = [
            WeatherDay(id=key, date=day, rain_in=0.1) for key, day in dated.items()
        ]
        return put(notebook, "weather", *rows)
    zone = _one(notebook, "zones", chance)
    if zone is None:
        return {}
    ids = (_new_id(chance) for _ in range(count))
    rows = [Watering(id=each, date=_day(chance), zone=zone, minutes=9.0) for each in ids]
    return put(notebook, "waterings", *rows)


def _emptied(notebook: Notebook, chance: Random) -> Change:
    """Most of a table goes in one change."""
    table = chance.choice(("waterings", "weather"))
    gone = [each for each in notebook.table(table).values() if chance.random() < 0.9]
    return {(table, each.id): (each, None) for each in gone}


def _photographed(notebook: Notebook, chance: Random) -> Change:
    core = _one(notebook, "cores", chance)
    if core is None:
        return {}
    data = chance.randbytes(chance.randrange(1, _MOST_PICTURE_BYTES))
    photo = replace(new_photo(core, data, (640, 480)), id=_new_id(chance))
    return put(notebook, "photos", photo)


def _watering(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    zone, new_id = _one(notebook, "zones", chance), _new_id(chance)
    if zone is None:
        return "waterings", None
    return "waterings", Watering(id=new_id, date=_day(chance), zone=zone, minutes=25.0)


def _care(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    zone, new_id = _one(notebook, "zones", chance), _new_id(chance)
    zones = (zone,) if zone else ()
    return "care", Care(id=new_id, date=_day(chance), kind="mowing", zones=zones)


def _core(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    spot, new_id = _one(notebook, "spots", chance), _new_id(chance)
    if spot is None:
        return "cores", None
    thatch_in = tuple(round(chance.uniform(0.2, 1.4), 2) for _ in range(3))
    return "cores", Core(id=new_id, spot=spot, date=_day(chance), thatch_in=thatch_in)


def _spot(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    new_id, zone = _new_id(chance), _one(notebook, "zones", chance)
    return "spots", Spot(id=new_id, name=f"Spot {new_id[:6]}", zone=zone)


def _head(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    zone, new_id = _one(notebook, "zones", chance), _new_id(chance)
    if zone is None:
        return "heads", None
    at_ft = (chance.uniform(0, 60), chance.uniform(0, 60))
    head = Head(id=new_id, zone=zone, at_ft=at_ft, radius_ft=12.0)
    return "heads", head


def _feeding(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    zone, product = _one(notebook, "zones", chance), _one(notebook, "products", chance)
    new_id = _new_id(chance)
    if zone is None or product is None:
        return "feedings", None
    pounds = {zone: round(chance.uniform(0.5, 9.0), 2)}
    return "feedings", Feeding(id=new_id, date=_day(chance), product=product, pounds=pounds)


def _soil_test(notebook: Notebook, chance: Random) -> tuple[str, Record | None]:
    zone, new_id = _one(notebook, "zones", chance), _new_id(chance)
    if zone is None:
        return "soil_tests", None
    return "soil_tests", SoilTest(id=new_id, date=_day(chance), zone=zone, ph=6.5)


_RECORDS = (_watering, _care, _core, _spot, _head, _feeding, _soil_test)
_MAKERS: tuple[Callable[[Notebook, Random], Change], ...] = (
    _added,
    _changed,
    _removed,
    _taken_in,
    _emptied,
    _photographed,
)
_WEIGHTS = (10, 8, 5, 2, 1, 3)
