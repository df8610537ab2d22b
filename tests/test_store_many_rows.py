"""Rows read many at once: the same records as one by one, and every wrong cell told alike."""

import sqlite3
from contextlib import closing
from dataclasses import fields
from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from hypothesis import HealthCheck, given, settings

from lawnbook.store import many_rows
from lawnbook.store.columns import column_names, columns_of, record_of, row_of
from lawnbook.store.many_rows import RowReader, WrongRowError
from lawnbook.store.sqlite_store import create, load
from lawnbook.store.yardfile import load_any
from lawnbook.yard.fields import without_none
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.pictures import Picture
from lawnbook.yard.places import sample_yards
from lawnbook.yard.records import TABLES, Core, Feeding, Record, Watering, WeatherDay
from tests.conftest import TODAY
from tests.small_book import small_notebook
from tests.strategies import notebooks

QUICK = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def picture_of(sha256: str) -> Picture:
    """A picture that nobody looks at."""
    return Picture(sha256, bytes)


def rows_of(notebook: Notebook, table: str) -> list[tuple[object, ...]]:
    """A table's rows as SQLite gives them back: it keeps 0.0 for -0.0."""
    rows = [row_of(table, each) for each in notebook.table(table).values()]
    return [
        tuple(0.0 if cell == 0.0 and isinstance(cell, float) else cell for cell in row)
        for row in rows
    ]


@QUICK
@given(notebook=notebooks())
def test_many_rows_are_read_as_each_by_itself(notebook: Notebook) -> None:
    together = RowReader(picture_of)
    for table in TABLES:
        rows = rows_of(notebook, table)
        found = together.records(table, rows)
        assert found == [record_of(table, row, picture_of) for row in rows]
        assert [repr(each) for each in found] == [
            repr(record_of(table, row, picture_of)) for row in rows
        ], "also what compares alike, such as 0.0 and -0.0, 1 and 1.0"


@pytest.mark.parametrize("sample", sample_yards(), ids=lambda path: path.stem)
def test_the_samples_need_no_row_read_by_itself(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    notebook = load_any(sample, TODAY)
    wanted = {table: list(notebook.table(table).values()) for table in TABLES}

    def alone(*_: object) -> Record:
        raise AssertionError("a row was read by itself")

    monkeypatch.setattr(many_rows, "record_of", alone)
    reader = RowReader(picture_of)
    assert {table: reader.records(table, rows_of(notebook, table)) for table in TABLES} == wanted


def test_equal_dates_ids_and_readings_are_the_same_objects() -> None:
    days = [date(2026, 5, 1), date(2026, 5, 1)]
    cores: list[Record] = [
        Core(id=f"c{n}", spot="s" + "1", date=day, thatch_in=(0.25, 0.5))
        for n, day in enumerate(days)
    ]
    found = RowReader(picture_of).records("cores", [row_of("cores", each) for each in cores])
    one, two = (each for each in found if isinstance(each, Core))
    assert (one.date is two.date, one.spot is two.spot, one.thatch_in is two.thatch_in) == (
        True,
    ) * 3


def test_every_record_lies_in_slots_that_nothing_else_fills() -> None:
    for kind in TABLES.values():
        assert "__dict__" not in dir(kind), "the reader fills slots, and a dict beside them not"
        assert not hasattr(kind, "__post_init__"), "the reader calls none"
        assert {each.name for each in fields(kind)} >= {"id", "rank"}


GOOD: dict[str, Record] = {
    "waterings": Watering(id="w1", date=date(2026, 5, 1), zone="z1", minutes=20.0, cycles=2),
    "weather": WeatherDay(id="2026-05-01", date=date(2026, 5, 1), tmin_f=50.0),
    "cores": Core(id="c1", spot="s1", date=date(2026, 5, 1), thatch_in=(0.5, 0.25)),
    "feedings": Feeding(
        id="f1", date=date(2026, 5, 1), product="p1", pounds=MappingProxyType({"z1": 2.0})
    ),
}
WRONG: list[tuple[str, str, object, str]] = [
    ("waterings", "id", None, "waterings, row None: id must be text, and is empty"),
    ("waterings", "rank", "first", "rank must be a whole number, and is text"),
    ("waterings", "date", "yesterday", "waterings, row w1: date: Invalid isoformat string"),
    ("waterings", "date", None, "waterings, row w1: date is empty"),
    ("waterings", "date", 20260501, "date must be text, and is a whole number"),
    ("waterings", "zone", None, "zone is empty"),
    ("waterings", "zone", b"z1", "zone must be text, and is bytes"),
    ("waterings", "minutes", "long", "minutes must be a number, and is text"),
    ("waterings", "minutes", float("inf"), "minutes must be a finite number"),
    ("waterings", "cycles", 2.5, "cycles must be a whole number, and is a number"),
    ("weather", "tmin_f", b"\x00", "weather, row 2026-05-01: tmin_f must be a number"),
    ("cores", "thatch_in", "[1,", "cores, row c1: "),
    ("cores", "thatch_in", "[true]", "Thatch must be a number"),
    ("cores", "thatch_in", "[1e999]", "Thatch must be a finite number"),
    ("cores", "thatch_in", '["a"]', "Thatch must be a number"),
    ("cores", "thatch_in", "{}", "Thatch must be a list"),
    ("cores", "thatch_in", "[" * 100_000, "cores, row c1: "),
    ("cores", "pressed", 2, "pressed must be 0 or 1"),
    ("cores", "pressed", 1.0, "pressed must be a whole number"),
    ("cores", "soil_moisture", "damp", "Moisture of the soil must be one of dry, moist, wet"),
    ("cores", "note", None, "note is empty"),
    ("feedings", "pounds", '{"z1":"two"}', "Pounds of z1 must be a number"),
    ("feedings", "pounds", '{"z\\u0000":2}', "cannot be shown"),
    ("feedings", "pounds", '{"z1":1' + "0" * 400 + "}", "Pounds of z1 must be a finite number"),
]


@pytest.mark.parametrize(("table", "field", "cell", "told"), WRONG)
def test_a_wrong_cell_among_many_rows_is_told(
    table: str, field: str, cell: object, told: str
) -> None:
    good = row_of(table, GOOD[table])
    place = column_names(table).index(field)
    wrong = (*good[:place], cell, *good[place + 1 :])
    with pytest.raises(WrongRowError) as caught:
        RowReader(picture_of).records(table, [good, wrong, good])
    assert told in str(caught.value)


def test_what_json_may_hold_besides_is_read_by_itself() -> None:
    row = list(row_of("cores", GOOD["cores"]))
    row[column_names("cores").index("thatch_in")] = " [ 0.5, 1 ] "
    (found,) = RowReader(picture_of).records("cores", [row])
    assert isinstance(found, Core)
    assert found.thatch_in == (0.5, 1.0)
    assert [type(each) for each in found.thatch_in] == [float, float]


def test_columns_fit_the_rows_that_are_written() -> None:
    for table, record in GOOD.items():
        assert len(row_of(table, record)) == 2 + len(columns_of(table))


def test_rows_come_by_rank_and_then_by_id(tmp_path: Path) -> None:
    path = tmp_path / "a.lawnbook"
    create(path, small_notebook())
    with closing(sqlite3.connect(path)) as raw, raw:
        add = "INSERT INTO waterings (id, rank, date, zone) VALUES (?, ?, '2026-05-01', 'front')"
        raw.executemany(add, [("b", 3), ("c", 1), ("a", 3), ("d", 2)])
    assert list(load(path).waterings) == ["c", "d", "a", "b"]


BEYOND: list[tuple[str, str, object]] = [
    ("waterings", "rank", 10**10),
    ("waterings", "minutes", -1e10),
    ("waterings", "cycles", 10**10),
]


@pytest.mark.parametrize(("table", "field", "cell"), BEYOND)
def test_a_number_beyond_all_leaves_the_reader_unsure(table: str, field: str, cell: object) -> None:
    good = row_of(table, GOOD[table])
    place = column_names(table).index(field)
    reader = RowReader(picture_of)
    reader.records(table, [good, good])
    assert reader.is_sure
    reader.records(table, [good, (*good[:place], cell, *good[place + 1 :])])
    assert not reader.is_sure


def test_every_reference_that_sqlite_checks_is_one_that_the_reader_knows(tmp_path: Path) -> None:
    create(tmp_path / "small.lawnbook", small_notebook())
    with closing(sqlite3.connect(tmp_path / "small.lawnbook")) as connection:
        for table in TABLES:
            for _, _, leads_to, column, *_ in connection.execute(
                f"PRAGMA foreign_key_list({table})"
            ):
                (held,) = (each for each in columns_of(table) if each.name == column)
                assert held.info.rule.refers_to == leads_to
                assert without_none(held.info.type) is str


def test_the_reader_tells_of_ids_that_lead_nowhere() -> None:
    reader = RowReader(picture_of)
    for table, record in GOOD.items():
        reader.records(table, [row_of(table, record)])
    there = {"zones": ["z1"], "spots": ["s1"], "products": ["p1"], "cores": ["c1"]}
    assert not reader.refers_beyond(there)
    for table in ("zones", "spots", "products"):
        assert reader.refers_beyond({**there, table: ["another"]})
